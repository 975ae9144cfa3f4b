"""Marks on paper in exact millimetres: x to the right, y up.

A drawing is a tuple of marks. Five kinds are drawn as they stand (line, polyline, arc, fill, text); the others spell
themselves in those five, so that a writer of PDF, SVG or DXF needs no more. Line types and weights follow ISO 128.
"""

from __future__ import annotations

from dataclasses import field
from enum import Enum
from typing import TYPE_CHECKING, Final, Protocol, Union, runtime_checkable

from joinlay.geometry import Box, Point, box_of
from joinlay.lengths import Fraction, fraction_in
from joinlay.pen.lettering import plain, set_line
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from joinlay.boards import PartRole
    from joinlay.lengths import Dimension
    from joinlay.pen.lettering import Content, SetRun

__all__ = [
    "PENS",
    "Align",
    "Arc",
    "Box",
    "Drawing",
    "Fill",
    "Line",
    "Mark",
    "Move",
    "Of",
    "Pen",
    "Point",
    "Polyline",
    "Role",
    "Stroke",
    "Text",
    "Turn",
    "bounds_of",
    "box_around",
    "flatten",
    "moved",
    "pieces_of",
    "text_box",
]


class Role(Enum):
    """What a mark is there for; decides line type and weight."""

    # By itself, not by its name: some ten thousand marks are asked for theirs.
    __hash__ = object.__hash__

    OUTLINE = "outline"  #: the edges of the wood
    SEEN = "seen"  #: edges that are seen beyond, in a picture of the piece
    CUT = "cut"  #: the mouth of a cut, and everything else that is marked from: a hairline
    HIDDEN = "hidden"  #: a cut under the surface
    SHAPE = "shape"  #: the maker's own outline, to be traced
    CENTRE = "centre"
    HATCH = "hatch"  #: wood that is cut through, in a section
    WASTE = "waste"  #: wood that is taken away
    GLUE = "glue"  #: where glue goes
    MACHINE = "machine"  #: what guides the work or carries it: fence, guide, straightedge, table
    LAST = "last"  #: the last of several places of what moves
    REFERENCE = "reference"  #: the marks of reference face and edge in a picture of a part
    DIMENSION = "dimension"
    DATUM = "datum"
    FOLD = "fold"
    BREAK = "break"  #: where the drawing stops and the wood goes on
    REGISTER = "register"  #: where sheets are put together
    ROUND = "round"  #: where paper is cut out, round a template and its words
    CHECK = "check"  #: what the maker measures to see that the print is true
    FRAME = "frame"  #: the lines of the title block
    ROW = "row"  #: between two rows of a list, and the lines of a chart
    TEXT = "text"


@dataclass(frozen=True, slots=True)
class Pen:
    """How a role is drawn: ``weight`` in mm, ``dash`` as lengths on and off in mm (empty: continuous)."""

    weight: Fraction
    dash: tuple[Fraction, ...] = ()


def _pen(weight: str, *dash: str) -> Pen:
    return Pen(fraction_in(weight), tuple(map(fraction_in, dash)))


#: Line types and weights (ISO 128): outlines wide, everything marked from a hairline, centre lines long-dashed dotted, hidden
#: dashed, the last place of what moves long-dashed double-dotted, what scissors follow dotted.
PENS: Final = {
    Role.OUTLINE: _pen("0.35"),
    Role.SEEN: _pen("0.18"),
    Role.CUT: _pen("0.13"),
    Role.HIDDEN: _pen("0.13", "1.6", "0.9"),
    Role.SHAPE: _pen("0.25"),
    Role.CENTRE: _pen("0.13", "7", "0.9", "0.5", "0.9"),
    Role.HATCH: _pen("0.1"),
    Role.WASTE: _pen("0.13"),
    Role.GLUE: _pen("0.25", "0.25", "1.25"),
    Role.MACHINE: _pen("0.25"),
    Role.LAST: _pen("0.13", "5", "0.8", "0.4", "0.8", "0.4", "0.8"),
    Role.REFERENCE: _pen("0.35"),
    Role.DIMENSION: _pen("0.13"),
    Role.DATUM: _pen("0.35"),
    Role.FOLD: _pen("0.25", "4", "1.6"),
    Role.BREAK: _pen("0.18"),
    Role.REGISTER: _pen("0.13"),
    Role.ROUND: _pen("0.18", "0.3", "1.2"),
    Role.CHECK: _pen("0.13"),
    Role.FRAME: _pen("0.18"),
    Role.ROW: _pen("0.1"),
    Role.TEXT: _pen("0.13"),
}


#: What of the plan a mark shows: the part it is an edge or the name of, all of them where they share a name, or the length whose
#: figure it is.
Of = Union["PartRole", tuple["PartRole", ...], "Dimension", None]


@dataclass(frozen=True, slots=True)
class Line:
    """A straight stroke. ``says`` names the place in the plan it stands for, '' where it stands for none.

    ``of`` is what of the plan it shows, None where that is nothing; two strokes drawn alike are equal whatever they show.
    """

    start: Point
    end: Point
    role: Role
    says: str = ""
    of: Of = field(default=None, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Polyline:
    """Straight strokes from point to point, back to the first where ``closed``."""

    points: tuple[Point, ...]
    role: Role
    closed: bool = False
    says: str = ""
    of: Of = field(default=None, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Arc:
    """Part of a circle, anticlockwise from ``start`` through ``sweep`` degrees; a sweep of 360 is the whole circle."""

    centre: Point
    radius: Fraction
    start: Fraction
    sweep: Fraction
    role: Role
    says: str = ""
    of: Of = field(default=None, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Fill:
    """A filled area: ``ink`` 1 is black, 0 white. Its corners in order, not repeated."""

    points: tuple[Point, ...]
    ink: Fraction
    role: Role = Role.DATUM
    says: str = ""
    of: Of = field(default=None, compare=False, repr=False)


class Align(Enum):
    """Which part of a line of text stands at its anchor."""

    LEFT = "left"
    MIDDLE = "middle"
    RIGHT = "right"


class Turn(Enum):
    """Which way a line of text reads, in quarter turns anticlockwise."""

    RIGHT = 0
    UP = 1
    LEFT = 2
    DOWN = 3

    def further(self, quarters: int) -> Turn:
        """Turned by so many quarters more."""
        return Turn((self.value + quarters) % 4)


@dataclass(frozen=True, slots=True)
class Text:
    """A line of lettering. ``anchor`` is on its baseline; ``ink`` 1 is black, 0 white."""

    anchor: Point
    content: Content
    align: Align = Align.LEFT
    turn: Turn = Turn.RIGHT
    ink: Fraction = Fraction(1)
    role: Role = Role.TEXT
    says: str = ""
    of: Of = field(default=None, compare=False, repr=False)

    @property
    def plain(self) -> str:
        """What it says as one string."""
        return plain(self.content)


#: A mark that is drawn as it stands.
Stroke = Union[Line, Polyline, Arc, Fill, Text]


@runtime_checkable
class Composed(Protocol):
    """A mark made of others."""

    def spelled(self) -> Iterator[Mark]:
        """The marks it is made of."""


Mark = Union[Stroke, Composed]

#: What is on a piece of paper, in the order it is drawn.
Drawing = tuple[Mark, ...]


def flatten(marks: Iterable[Mark]) -> Iterator[Stroke]:
    """The marks with every composed one spelled in lines, polylines, arcs, fills and text, in the order they are drawn."""
    for mark in marks:
        if isinstance(mark, (Line, Polyline, Arc, Fill, Text)):
            yield mark
        else:
            yield from flatten(mark.spelled())


@dataclass(frozen=True, slots=True)
class Move:
    """A move on paper: first ``quarters`` turns anticlockwise about the zero point, then ``right`` and ``up`` in mm."""

    right: Fraction = Fraction(0)
    up: Fraction = Fraction(0)
    quarters: int = 0

    def point(self, point: Point) -> Point:
        """Where ``point`` comes to lie."""
        x, y = point
        match self.quarters % 4:
            case 1:
                x, y = -y, x
            case 2:
                x, y = -x, -y
            case 3:
                x, y = y, -x
        return (x + self.right, y + self.up)

    def box(self, box: Box) -> Box:
        """Where a box comes to lie."""
        (x0, y0), (x1, y1) = self.point(box[:2]), self.point(box[2:])
        return (min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1))


def moved(stroke: Stroke, move: Move) -> Stroke:
    """The same stroke somewhere else; no size changes."""
    if not move.quarters and isinstance(stroke, Line):
        # Most of what is moved; it needs no turning.
        (x0, y0), (x1, y1), right, up = stroke.start, stroke.end, move.right, move.up
        return Line((x0 + right, y0 + up), (x1 + right, y1 + up), stroke.role, stroke.says, stroke.of)
    put = move.point
    if isinstance(stroke, Line):
        return Line(put(stroke.start), put(stroke.end), stroke.role, stroke.says, stroke.of)
    if isinstance(stroke, Polyline):
        return Polyline(tuple(map(put, stroke.points)), stroke.role, stroke.closed, stroke.says, stroke.of)
    if isinstance(stroke, Fill):
        return Fill(tuple(map(put, stroke.points)), stroke.ink, stroke.role, stroke.says, stroke.of)
    if isinstance(stroke, Arc):
        start = (stroke.start + 90 * move.quarters) % 360
        return Arc(put(stroke.centre), stroke.radius, start, stroke.sweep, stroke.role, stroke.says, stroke.of)
    turn = stroke.turn.further(move.quarters) if move.quarters else stroke.turn
    return Text(put(stroke.anchor), stroke.content, stroke.align, turn, stroke.ink, stroke.role, stroke.says, stroke.of)


_NONE: Final = Fraction(0)


def _back(text: Text) -> Fraction:
    """How far before its anchor a line of text begins."""
    if text.align is Align.LEFT:
        return _NONE
    width = set_line(text.content).width
    return width / 2 if text.align is Align.MIDDLE else width


def pieces_of(text: Text) -> Iterator[tuple[SetRun, Point]]:
    """Each piece of type of a line of text, and the point of the paper where its baseline begins."""
    back = _back(text)
    if text.turn is Turn.RIGHT:
        # Most lines; they need no turning.
        x, y = text.anchor
        for piece in set_line(text.content).pieces:
            yield piece, (x + piece.right - back, y + piece.up)
        return
    move = Move(*text.anchor, text.turn.value)
    for piece in set_line(text.content).pieces:
        yield piece, move.point((piece.right - back, piece.up))


def text_box(text: Text) -> Box:
    """The room a line of text takes on paper."""
    line, back = set_line(text.content), _back(text)
    if text.turn is Turn.RIGHT:
        x, y = text.anchor
        left = x - back
        return (left, y - line.fall, left + line.width, y + line.rise)
    return Move(*text.anchor, text.turn.value).box((-back, -line.fall, line.width - back, line.rise))


def bounds_of(strokes: Iterable[Stroke]) -> Box:
    """The smallest box that holds every stroke, by the middle of its line, and text by its letters. ValueError for none."""
    # Sides are gathered apart: what is known to be the left of two needs no look as the right.
    lefts: list[Fraction] = []
    lows: list[Fraction] = []
    rights: list[Fraction] = []
    tops: list[Fraction] = []
    for stroke in strokes:
        if isinstance(stroke, Line):
            x0, y0, x1, y1 = box_around(stroke)
        elif isinstance(stroke, Text):
            x0, y0, x1, y1 = text_box(stroke)
        elif isinstance(stroke, (Polyline, Fill)):
            x0, y0, x1, y1 = box_of(stroke.points)
        else:
            # The whole circle: an arc's box is wanted only to keep clear of it.
            (x, y), r = stroke.centre, stroke.radius
            x0, y0, x1, y1 = x - r, y - r, x + r, y + r
        lefts.append(x0)
        lows.append(y0)
        rights.append(x1)
        tops.append(y1)
    return (min(lefts), min(lows), max(rights), max(tops))


def box_around(stroke: Stroke) -> Box:
    """The smallest box that holds one stroke; what ``bounds_of`` has for it alone."""
    if isinstance(stroke, Line):
        (x0, y0), (x1, y1) = stroke.start, stroke.end
        if x1 < x0:
            x0, x1 = x1, x0
        return (x0, y0, x1, y1) if y0 <= y1 else (x0, y1, x1, y0)
    return text_box(stroke) if isinstance(stroke, Text) else bounds_of((stroke,))
