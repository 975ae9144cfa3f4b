"""Signs a maker knows at a glance: the datum edge, the hand of a part, where the wood goes on; and what every sign on paper
means.

A sign is a kind of line or a tone of a filled area. Each has one meaning throughout a packet (PR-8): ``LINES`` and ``TONES`` have
them all, and no mark is drawn with another. Those that don't speak for themselves are members of ``Sign``; a sheet explains the
ones on it in its foot, and no others.
"""

from __future__ import annotations

from enum import Enum
from typing import TYPE_CHECKING, Final

from joinlay.geometry import corners
from joinlay.lengths import Fraction
from joinlay.pen.hatching import Hatch, Stipple, Waste
from joinlay.pen.lettering import set_line, words
from joinlay.pen.marks import Align, Arc, Fill, Line, Polyline, Role, Text
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Mark, Point, Stroke

__all__ = [
    "BAR",
    "HAND_SIZE",
    "LINES",
    "TONE",
    "TONES",
    "BreakLine",
    "DatumEdge",
    "HandSign",
    "Sign",
    "double_line",
    "sample_of",
    "signs_on",
]

#: How thick the datum bar is; its upper side is the edge itself.
BAR: Final = Fraction(8, 5)
#: The side of a hand sign.
HAND_SIZE: Final = Fraction(12)

_BLACK, _WHITE = Fraction(1), Fraction(0)
#: The tone of wood in its place, light enough to see a pencil line or a prick on: 0 is white, 1 black.
TONE: Final = Fraction(1, 8)
_HALF_BASE, _HIGH, _ROW, _ASIDE = Fraction(2), Fraction(7, 2), Fraction(6, 5), Fraction(4)


@dataclass(frozen=True, slots=True)
class DatumEdge:
    """The edge the paper is laid on: a heavy bar under it, its words below, between triangles that point at it.

    ``left`` and ``right`` are the ends of the bar on the edge, at one height; ``middle`` is where the words are centred.
    """

    left: Point
    right: Point
    middle: Fraction
    content: Content

    def spelled(self) -> Iterator[Stroke]:
        """The bar, the words, the triangles."""
        (x0, y), (x1, _) = self.left, self.right
        yield Fill(((x0, y - BAR), (x1, y - BAR), (x1, y), (x0, y)), _BLACK)
        line = set_line(self.content)
        row = y - BAR - _ROW
        yield Text((self.middle, row - line.rise), self.content, Align.MIDDLE, role=Role.DATUM)
        for side in (-1, 1):
            tip = self.middle + side * (line.width / 2 + _ASIDE)
            yield Fill(((tip, row), (tip - _HALF_BASE, row - _HIGH), (tip + _HALF_BASE, row - _HIGH)), _BLACK)

    @staticmethod
    def room(content: Content) -> tuple[Fraction, Fraction]:
        """How wide the words and triangles are together, and how far they reach below the edge."""
        line = set_line(content)
        return line.width + 2 * (_ASIDE + _HALF_BASE), BAR + _ROW + max(line.rise + line.fall, _HIGH)


@dataclass(frozen=True, slots=True)
class HandSign:
    """Left or right, in a square that can't be taken for the other: white on black for left, black on white for right.

    ``corner`` is its lower left one.
    """

    corner: Point
    is_left: bool

    def spelled(self) -> Iterator[Stroke]:
        """The square and its letter."""
        x, y = self.corner
        square = ((x, y), (x + HAND_SIZE, y), (x + HAND_SIZE, y + HAND_SIZE), (x, y + HAND_SIZE))
        if self.is_left:
            yield Fill(square, _BLACK)
        else:
            yield Polyline(square, Role.OUTLINE, closed=True)
        letter = words("L" if self.is_left else "R", 7, bold=True)
        up = (HAND_SIZE - 7) / 2
        yield Text((x + HAND_SIZE / 2, y + up), letter, Align.MIDDLE, ink=Fraction(0) if self.is_left else _BLACK)


@dataclass(frozen=True, slots=True)
class BreakLine:
    """Where the drawing stops and the wood goes on: a thin line with zigzags, upright or level (ISO 128)."""

    start: Point
    stop: Point

    def spelled(self) -> Iterator[Stroke]:
        """One polyline, or a plain line where there is no room for a zigzag."""
        (x, y), (x1, y1) = self.start, self.stop
        long = max(abs(x1 - x), abs(y1 - y))
        if long < 12:
            yield Line(self.start, self.stop, Role.BREAK)
            return
        run, aside = ((x1 - x) / long, (y1 - y) / long), (-(y1 - y) / long, (x1 - x) / long)
        points = [self.start]
        for share in (Fraction(1, 4), Fraction(3, 4)):
            for on, off in ((-2, 0), (-1, 2), (1, -2), (2, 0)):
                at = long * share + on
                points.append((x + run[0] * at + aside[0] * off, y + run[1] * at + aside[1] * off))
        yield Polyline((*points, self.stop), Role.BREAK)


# -- what every sign means -------------------------------------------------------------------------------


class Sign(Enum):
    """A sign that the foot of a sheet explains, with its one meaning in the whole packet (PR-8), the most telling first."""

    ROUND = "cut out along this"
    WASTE = "taken away"
    WOOD = "wood in its place"
    SECTION = "wood cut through"
    GLUE = "glue goes here"
    MACHINE = "fence, guide or table"
    LAST = "last place of the cutter"
    REFERENCE = "loop: reference face; thick: reference edge"
    FOLD = "fold over the edge"
    HIDDEN = "behind the surface"


#: What each kind of line means.
LINES: Final = {
    Role.OUTLINE: "an edge that is seen",
    Role.SEEN: "an edge that is seen beyond",
    Role.CUT: "where a cut is, and what is marked from",
    Role.HIDDEN: Sign.HIDDEN.value,
    Role.SHAPE: "your own outline",
    Role.CENTRE: "an axis",
    Role.HATCH: Sign.SECTION.value,
    Role.WASTE: Sign.WASTE.value,
    Role.GLUE: Sign.GLUE.value,
    Role.MACHINE: Sign.MACHINE.value,
    Role.LAST: Sign.LAST.value,
    Role.REFERENCE: Sign.REFERENCE.value,
    Role.DIMENSION: "a size or a name belongs here",
    Role.DATUM: "the edge that is measured from",
    Role.FOLD: Sign.FOLD.value,
    Role.BREAK: "here it goes on",
    Role.REGISTER: "where sheets are put together",
    Role.ROUND: Sign.ROUND.value,
    Role.CHECK: "measure this to see that the print is true",
    Role.FRAME: "a frame of words",
    Role.ROW: "a row of a list or a chart",
    Role.TEXT: "words",
}
#: What each tone of a filled area means, by the kinds of marks that may have it; very thin wood that is cut through is black (ISO
#: 128).
TONES: Final = {
    (TONE, Role.CUT): Sign.WOOD.value,
    (_BLACK, Role.HATCH): Sign.SECTION.value,
    (_BLACK, Role.REFERENCE): Sign.REFERENCE.value,
    (_BLACK, Role.DATUM): LINES[Role.DATUM],
    (_BLACK, Role.DIMENSION): LINES[Role.DIMENSION],
    (_BLACK, Role.FRAME): "this one",
    (_WHITE, Role.DIMENSION): "nothing: it keeps words clear",
    (_WHITE, Role.SEEN): "nothing: it keeps words clear",
}
_BY_MEANING: Final = {sign.value: sign for sign in Sign}


def signs_on(strokes: Iterable[Stroke]) -> tuple[Sign, ...]:
    """The signs among ``strokes``, in the order they are explained; no others, and each once (PR-8)."""
    found = {_BY_MEANING.get(TONES.get((one.ink, one.role), "") if isinstance(one, Fill) else LINES[one.role]) for one in strokes}
    return tuple(sign for sign in Sign if sign in found)


def sample_of(sign: Sign, wide: Fraction, high: Fraction) -> Iterator[Mark]:
    """A sample of ``sign``, ``wide`` by ``high`` mm, its lower left corner at zero."""
    none = Fraction(0)
    box = corners((none, none, wide, high))
    middle = high / 2
    match sign:
        case Sign.WASTE:
            yield Waste(box)
        case Sign.SECTION:
            yield Hatch(box)
        case Sign.GLUE:
            yield Stipple(box)
        case Sign.WOOD:
            yield Fill(box, TONE, Role.CUT)
        case Sign.ROUND:
            yield Polyline(box, Role.ROUND, closed=True)
        case Sign.MACHINE:
            yield from double_line(none, none, wide, high)
        case Sign.REFERENCE:
            yield Fill(corners((none, none, wide, high / 4)), _BLACK, Role.REFERENCE)
            r = high / 4
            yield Line((wide / 2, high / 4), (wide / 2, high - r), Role.REFERENCE)
            yield Arc((wide / 2 + r, high - r), r, Fraction(270), Fraction(270), Role.REFERENCE)
        case Sign.FOLD | Sign.HIDDEN | Sign.LAST:
            role = {Sign.FOLD: Role.FOLD, Sign.HIDDEN: Role.HIDDEN, Sign.LAST: Role.LAST}[sign]
            yield Line((none, middle), (wide, middle), role)


#: From one line of a fence or table to the other.
_DOUBLE: Final = Fraction(4, 5)


def double_line(x0: Fraction, y0: Fraction, x1: Fraction, y1: Fraction) -> Iterator[Polyline]:
    """A fence, guide or table: its outline twice, one within the other; once where it is too thin for two."""
    yield Polyline(corners((x0, y0, x1, y1)), Role.MACHINE, closed=True)
    if min(x1 - x0, y1 - y0) > 3 * _DOUBLE:
        yield Polyline(corners((x0 + _DOUBLE, y0 + _DOUBLE, x1 - _DOUBLE, y1 - _DOUBLE)), Role.MACHINE, closed=True)
