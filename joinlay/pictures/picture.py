"""A picture of the piece being put together: strokes at a scale, the room they take, and where words may still go.

A drawing is made on an ``Easel``, wood first and words after, each word keeping clear of what stands there already. It is tried
at one scale after the other (ISO 5455, and halves for an inch rule) until it fits the room it has, and is then a ``Picture``.
"""

from __future__ import annotations

from dataclasses import field, replace
from itertools import pairwise
from typing import TYPE_CHECKING, Final

from joinlay.geometry import pieces_of_line, rest_of_line, stretch_in_box, united
from joinlay.lengths import Fraction, Length, Unit
from joinlay.pen.dimensioning import DimensionLine
from joinlay.pen.lettering import figures, set_line
from joinlay.pen.marks import Align, Fill, Line, Polyline, Text, Turn, bounds_of, box_around, flatten, text_box
from joinlay.pen.placing import Room, whole
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

    from joinlay.geometry import Box, Point
    from joinlay.lengths import Graduation
    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Mark, Of, Stroke

__all__ = ["FIGURE", "KEY", "PLAIN", "SMALL", "Easel", "Picture", "Scale", "Size", "largest_that_fits", "scales_of"]

#: Width and height, in mm.
Size = tuple[Fraction, Fraction]

#: Heights of figures and names in mm (ISO 3098): of a size over all, of a length in a chain, and the smallest there is.
KEY, FIGURE, SMALL = Fraction(5), Fraction(7, 2), Fraction(5, 2)
#: From one line of words to the next, in heights of a capital.
_LEADING: Final = Fraction(8, 5)
#: White around words that interrupt a line.
_WHITE: Final = Fraction(4, 5)


# -- scales --------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Scale:
    """``over`` mm on paper for ``under`` mm of wood."""

    over: int
    under: int

    @property
    def factor(self) -> Fraction:
        """What a length of wood is multiplied by to be drawn."""
        return Fraction(self.over, self.under)

    @property
    def text(self) -> str:
        """``1:5``."""
        return f"{self.over}:{self.under}"


_TRUE: Final = Scale(1, 1)

#: From true size down, as ISO 5455 has them.
_METRIC: Final = (_TRUE, *(Scale(1, n) for n in (2, 5, 10, 20, 50, 100, 200, 500, 1000)))

#: Full, half, quarter and so on: what an inch rule measures at once (common practice; ASME Y14.1).
_HALVED: Final = tuple(Scale(1, 2**n) for n in range(11))

#: One to any whole number, for a small picture that nobody measures.
PLAIN: Final = tuple(Scale(1, n) for n in (*range(1, 200), *range(200, 2001, 100)))


def scales_of(unit: Unit) -> tuple[Scale, ...]:
    """The scales that are usual with a rule in ``unit``, from the largest. ISO 5455; in inches common practice."""
    return _HALVED if unit is Unit.INCH else _METRIC


# -- pictures ------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Picture:
    """A finished drawing at ``scale``: its ``strokes`` in mm on paper, zero anywhere. ``title`` says what is seen.

    ``names`` are what the numbers in it stand for, from 1; ``unsaid`` is what it had no room to say, as sentences for a list.
    ``parts_seen`` finds where each part is seen, which takes long and is seldom asked.
    """

    title: str
    strokes: tuple[Stroke, ...]
    scale: Scale
    names: tuple[str, ...] = ()
    unsaid: tuple[str, ...] = ()
    parts_seen: Callable[[], Iterable[Fill]] = field(default=tuple, compare=False, repr=False)

    @property
    def areas(self) -> tuple[Fill, ...]:
        """Where each part is seen, the nearest last, for a surface on which parts can be pressed; they aren't drawn."""
        return tuple(self.parts_seen())

    @property
    def box(self) -> Box:
        """The room it takes, in mm on paper."""
        return bounds_of(self.strokes)

    @property
    def size(self) -> Size:
        """Its width and height on paper, in mm."""
        left, bottom, right, top = self.box
        return right - left, top - bottom


def largest_that_fits(draw: Callable[[Scale], Sequence[Picture]], wood: Size, room: Size, scales: Sequence[Scale]) -> Picture:
    """The picture at the largest of ``scales`` at which one that ``draw`` makes fits ``room``; of several, what says most.

    ``wood`` is the width and height of what is drawn, in mm of wood; ``scales`` run from the largest. Where nothing fits: the
    last picture at the smallest scale.
    """
    for scale in scales:
        if all(size * scale.factor <= free for size, free in zip(wood, room, strict=True)):
            fitting = [
                picture for picture in draw(scale) if all(size <= free for size, free in zip(picture.size, room, strict=True))
            ]
            if fitting:
                return min(fitting, key=lambda picture: sum(map(len, picture.unsaid)))
    return draw(scales[-1])[-1]


@dataclass(slots=True)
class Easel:
    """Strokes gathered one after the other; ``taken`` is where words can no longer go."""

    strokes: list[Stroke] = field(default_factory=list)
    taken: Room = field(default_factory=Room)

    def copied(self) -> Easel:
        """Another easel with the same on it, to go on in another way."""
        return Easel(list(self.strokes), self.taken.copied())

    def draw(self, marks: Iterable[Mark]) -> None:
        """Add marks; words keep clear of them from now on."""
        for stroke in flatten(marks):
            self.strokes.append(stroke)
            if isinstance(stroke, Line):
                # Most of what is drawn.
                self.taken.take(whole(box_around(stroke)))
                continue
            for box in _boxes(stroke):
                self.taken.take(whole(box))

    def draw_around(self, lines: Iterable[Line]) -> None:
        """Add straight lines, each interrupted where words stand already."""
        boxes = [_wider(text_box(text)) for text in self.texts]
        for line in lines:
            hidden = [stretch for box in boxes if (stretch := stretch_in_box(line.start, line.end, box)) is not None]
            seen = pieces_of_line(line.start, line.end, rest_of_line(united(hidden)))
            self.draw(replace(line, start=one, end=two) for one, two in seen)

    def over_all(
        self, start: Point, end: Point, *, away: Fraction, size: Length, rule: Graduation, says: str, of: Of = None
    ) -> None:
        """Draw a ``size`` over all from ``start`` to ``end`` on paper, its line ``away`` mm from them, figures as large as fit.

        Level or upright (ISO 129-1). Where no figures fit along the line they stand beside it. ``of`` is the length of the plan
        it is.
        """
        is_upright = start[0] == end[0]
        room = end[0] - start[0] + end[1] - start[1] - 4
        contents = [figures(size, rule, height) for height in (KEY, FIGURE, SMALL)]
        content = next((content for content in contents if set_line(content).width <= room), None)
        if content is not None:
            self.draw((DimensionLine(start, end, away, content, says, of),))
            return
        bare = DimensionLine(start, end, away, (), says).spelled()
        self.draw(stroke for stroke in bare if not isinstance(stroke, Text))
        if is_upright:
            beside = Text((start[0] + away - 2, (start[1] + end[1] - FIGURE) / 2), contents[1], Align.RIGHT, of=of)
        else:
            beside = Text((end[0] + 3, end[1] + away - FIGURE / 2), contents[1], of=of)
        self.draw((beside,))

    @property
    def texts(self) -> tuple[Text, ...]:
        """The words so far."""
        return tuple(stroke for stroke in self.strokes if isinstance(stroke, Text))

    def write(self, lines: Sequence[Content], within: Box, of: Of = None) -> bool:
        """Set ``lines``, which tell ``of`` a part, one under the other in ``within``, where nothing else is; False where they
        find no room.
        """
        settings = [set_line(line) for line in lines]
        wide = max(setting.width for setting in settings)
        steps = [_height(line) * _LEADING for line in lines]
        high = sum(steps[:-1], Fraction(0)) + settings[0].rise + settings[-1].fall
        left, bottom, right, top = within
        if wide > right - left or high > top - bottom:
            return False
        for y in ((top + bottom + high) / 2, top - 1, bottom + high + 1):
            x = left
            while x + wide <= right:
                if self.taken.is_free(whole((x, y - high, x + wide, y))):
                    self._set(lines, x, y - settings[0].rise, steps, of)
                    return True
                x += 2
        return False

    def write_up(self, content: Content, within: Box, of: Of = None) -> bool:
        """Set one line reading upwards in ``within``, from its middle up, where nothing else is; False where it finds no room."""
        line = set_line(content)
        left, bottom, right, top = within
        wide = line.rise + line.fall
        x, y = (left + right - wide) / 2, max(bottom + 2, (bottom + top) / 2 - line.width)
        while x >= left and y + line.width <= top:
            if self.taken.is_free(whole((x, y, x + wide, y + line.width))):
                self.draw((Text((x + line.rise, y), content, turn=Turn.UP, of=of),))
                return True
            y += 2
        return False

    def _set(self, lines: Sequence[Content], x: Fraction, y: Fraction, steps: Sequence[Fraction], of: Of) -> None:
        for line, step in zip(lines, steps, strict=True):
            self.draw((Text((x, y), line, of=of),))
            y -= step


def _wider(box: Box) -> Box:
    return (box[0] - _WHITE, box[1] - _WHITE, box[2] + _WHITE, box[3] + _WHITE)


def _height(line: Content) -> Fraction:
    return max(run.height for run in line)


def _boxes(stroke: Stroke) -> Iterator[Box]:
    """Where a stroke is: each side of an outline by itself, so that words may stand within it."""
    if isinstance(stroke, Text):
        yield text_box(stroke)
    elif isinstance(stroke, Polyline):
        points = (*stroke.points, stroke.points[0]) if stroke.closed else stroke.points
        yield from (bounds_of((Line(one, two, stroke.role),)) for one, two in pairwise(points))
    else:
        yield box_around(stroke)
