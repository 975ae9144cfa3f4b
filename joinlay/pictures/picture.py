"""A picture of the piece being put together: strokes at a scale, the room they take, and where words may still go."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from itertools import pairwise
from typing import TYPE_CHECKING, Final

from joinlay.geometry import stretch_in_box
from joinlay.lengths import Fraction
from joinlay.pen.lettering import set_line
from joinlay.pen.marks import Line, Polyline, Text, Turn, bounds_of, flatten, text_box
from joinlay.pen.placing import Room, whole
from joinlay.pictures.hiding import left_of

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Box, Mark, Stroke
    from joinlay.pen.scales import Scale

__all__ = ["Easel", "Picture", "Size", "largest_that_fits"]

#: Width and height, in mm.
Size = tuple[Fraction, Fraction]

#: From one line of words to the next, in heights of a capital.
_LEADING: Final = Fraction(8, 5)
#: White around words that interrupt a line.
_WHITE: Final = Fraction(4, 5)


@dataclass(frozen=True, slots=True)
class Picture:
    """A finished drawing at ``scale``: its ``strokes`` in mm on paper, zero anywhere. ``title`` says what is seen.

    ``names`` are what the numbers in it stand for, from 1; ``unsaid`` is what it had no room to say, as sentences for a list.
    """

    title: str
    strokes: tuple[Stroke, ...]
    scale: Scale
    names: tuple[str, ...] = ()
    unsaid: tuple[str, ...] = ()

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
    """The picture at the largest of ``scales`` at which one of those that ``draw`` makes fits ``room``: of those the one that leaves least unsaid.

    ``wood`` is the width and height of what is drawn, in mm of wood; ``scales`` run from the largest. Where nothing fits: the last picture at
    the smallest scale. No rule.
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
            for box in _boxes(stroke):
                self.taken.take(whole(box))

    def draw_around(self, lines: Iterable[Line]) -> None:
        """Add straight lines, each interrupted where words stand already."""
        boxes = [_wider(text_box(text)) for text in self.texts]
        for line in lines:
            hidden = [stretch for box in boxes if (stretch := stretch_in_box(line.start, line.end, box)) is not None]
            self.draw(replace(line, start=one, end=two) for one, two in left_of(line.start, line.end, hidden))

    @property
    def texts(self) -> tuple[Text, ...]:
        """The words so far."""
        return tuple(stroke for stroke in self.strokes if isinstance(stroke, Text))

    def write(self, lines: Sequence[Content], within: Box) -> bool:
        """Set ``lines`` one under the other in ``within``, where nothing else is; False where they find no room there."""
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
                    self._set(lines, x, y - settings[0].rise, steps)
                    return True
                x += 2
        return False

    def write_up(self, content: Content, within: Box) -> bool:
        """Set one line reading upwards in ``within``, from its middle up, where nothing else is; False where it finds no room there."""
        line = set_line(content)
        left, bottom, right, top = within
        wide = line.rise + line.fall
        x, y = (left + right - wide) / 2, max(bottom + 2, (bottom + top) / 2 - line.width)
        while x >= left and y + line.width <= top:
            if self.taken.is_free(whole((x, y, x + wide, y + line.width))):
                self.draw((Text((x + line.rise, y), content, turn=Turn.UP),))
                return True
            y += 2
        return False

    def _set(self, lines: Sequence[Content], x: Fraction, y: Fraction, steps: Sequence[Fraction]) -> None:
        for line, step in zip(lines, steps, strict=True):
            self.draw((Text((x, y), line),))
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
        yield bounds_of((stroke,))
