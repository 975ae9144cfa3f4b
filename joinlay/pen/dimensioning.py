"""Dimensions on a drawing after ISO 129-1: extension lines, terminations, and the figure above the line.

One distance alone, distances that all rise from one origin, and chains of lengths one after the other along one line. In a chain
each figure stands where it has room: between its two strokes; else beside the line, at the ends outside, elsewhere on the other
side of it.
"""

from __future__ import annotations

from dataclasses import field
from itertools import combinations, pairwise
from typing import TYPE_CHECKING, Final

from joinlay.geometry import overlap
from joinlay.lengths import Fraction
from joinlay.pen.lettering import set_line
from joinlay.pen.marks import Align, Arc, Fill, Line, Role, Text, Turn, text_box
from joinlay.pen.placing import spread_down
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Of, Point, Stroke

__all__ = ["DimensionLine", "LevelChain", "RisingDimensions", "Stop", "UprightChain"]

_GAP: Final = Fraction(1)  #: from the thing measured to its extension line
_PAST: Final = Fraction(3, 2)  #: how far extension lines go past the dimension line
_STROKE: Final = Fraction(5, 4)  #: half an oblique stroke, each way
_ABOVE: Final = Fraction(1)  #: from the dimension line to its figure
_HEAD: Final = (Fraction(13, 5), Fraction(2, 5))  #: an arrow head: its length, half its width
_ORIGIN: Final = Fraction(1)  #: radius of the ring at a common origin


@dataclass(frozen=True, slots=True)
class DimensionLine:
    """The distance from ``start`` to ``end``, level or upright, shown ``away`` mm from them: up or to the right where positive.

    Oblique strokes end it; the figure stands above the line, or reads upwards along it. Raises ValueError where the two points
    lie neither level nor upright.
    """

    start: Point
    end: Point
    away: Fraction
    content: Content
    says: str = ""
    of: Of = field(default=None, compare=False, repr=False)

    def __post_init__(self) -> None:
        """Refuse a slanting dimension."""
        if (self.start[0] == self.end[0]) == (self.start[1] == self.end[1]):
            raise ValueError(f"a dimension runs level or upright, not from {self.start} to {self.end}")

    def spelled(self) -> Iterator[Stroke]:
        """Extension lines, the dimension line, its two strokes, and the figure."""
        upright = self.start[0] == self.end[0]
        line = [self._aside(point, self.away, upright=upright) for point in (self.start, self.end)]
        sign = 1 if self.away >= 0 else -1
        for point in (self.start, self.end):
            if abs(self.away) > _GAP:
                near, past = sign * _GAP, self.away + sign * _PAST
                yield Line(self._aside(point, near, upright=upright), self._aside(point, past, upright=upright), Role.DIMENSION)
        yield Line(line[0], line[1], Role.DIMENSION, self.says)
        for x, y in line:
            yield Line((x - _STROKE, y - _STROKE), (x + _STROKE, y + _STROKE), Role.DIMENSION)
        middle = ((line[0][0] + line[1][0]) / 2, (line[0][1] + line[1][1]) / 2)
        lift = _ABOVE + set_line(self.content).fall
        anchor = (middle[0] - lift, middle[1]) if upright else (middle[0], middle[1] + lift)
        yield Text(anchor, self.content, Align.MIDDLE, Turn.UP if upright else Turn.RIGHT, of=self.of)

    @staticmethod
    def _aside(point: Point, by: Fraction, *, upright: bool) -> Point:
        return (point[0] + by, point[1]) if upright else (point[0], point[1] + by)


@dataclass(frozen=True, slots=True)
class RisingDimensions:
    """Distances that all rise from one origin, so that no marking error adds to the next (running dimensions of ISO 129-1).

    A ring at ``origin``, one line upwards, and a slim arrow head at each of ``levels`` (heights on paper). The figures are text
    of their own, placed where there is room.
    """

    origin: Point
    levels: tuple[Fraction, ...]

    def spelled(self) -> Iterator[Stroke]:
        """The ring, the line and the arrow heads."""
        x, y = self.origin
        long, half = _HEAD
        yield Arc(self.origin, _ORIGIN, Fraction(0), Fraction(360), Role.DIMENSION)
        yield Line((x, y + _ORIGIN), (x, max(self.levels)), Role.DIMENSION)
        for level in self.levels:
            yield Fill(((x, level), (x - half, level - long), (x + half, level - long)), Fraction(1), Role.DIMENSION)


# -- chains --------------------------------------------------------------------------------------------

#: Half an oblique stroke of a chain, and from its line to its figures: smaller than those of a dimension that stands alone.
_SHORT, _NEAR = Fraction(1), Fraction(4, 5)
#: White beside a figure that stands between its strokes, and between two figures.
_WHITE: Final = Fraction(1)

#: Where a length ends, in mm on paper, and the figure of the length from there to the next one (empty: none is said).
Stop = tuple[Fraction, "Content"]


@dataclass(frozen=True, slots=True)
class LevelChain:
    """Lengths from ``stops`` to the next along a level line at ``y``, under the wood, whose underside is at ``wood``.

    ``is_inner`` where the lines of a longer dimension pass its ends: then no figure stands outside them. ``of`` is what of the
    plan each of the lengths is, in their order; none where that isn't told.
    """

    stops: tuple[Stop, ...]
    y: Fraction
    wood: Fraction
    says: str = ""
    is_inner: bool = False
    of: tuple[Of, ...] = field(default=(), compare=False, repr=False)

    @property
    def is_roomy(self) -> bool:
        """Whether every figure has room between its strokes."""
        pairs = pairwise(self.stops)
        return all(set_line(content).width + 2 * _WHITE <= x1 - x0 for (x0, content), (x1, _) in pairs if content)

    @property
    def fits(self) -> bool:
        """Whether every figure has room, between its strokes, outside them or under the line."""
        boxes = [text_box(text) for text in self._figures()]
        low, high = self.stops[0][0], self.stops[-1][0]
        # Where a longer dimension goes on, its lines pass the ends: a figure stands within them, or quite outside.
        is_clear = all(
            (low < box[0] and box[2] < high) or (not self.is_inner and (box[2] < low or high < box[0])) for box in boxes
        )
        return is_clear and not any(overlap(one, two) for one, two in combinations(boxes, 2))

    def spelled(self) -> Iterator[Stroke]:
        """Extension lines, the line, its strokes, the figures."""
        xs = [x for x, _ in self.stops]
        for x in xs:
            yield Line((x, self.wood - _GAP), (x, self.y - _PAST), Role.DIMENSION)
            yield _oblique(x, self.y)
        yield Line((xs[0], self.y), (xs[-1], self.y), Role.DIMENSION, self.says)
        yield from self._figures()

    def _figures(self) -> Iterator[Text]:
        last = len(self.stops) - 2
        taken = [self.stops[0][0] + _WHITE] * 3
        for n, ((x0, content), (x1, _)) in enumerate(pairwise(self.stops)):
            if not content:
                continue
            line, of = set_line(content), self.of[n] if self.of else None
            up = self.y + _NEAR + line.fall
            if line.width + 2 * _WHITE <= x1 - x0:
                yield Text(((x0 + x1) / 2, up), content, Align.MIDDLE, of=of)
            elif n == 0 and not self.is_inner:
                yield Text((x0 - _WHITE - _SHORT, self.y - line.rise / 2), content, Align.RIGHT, of=of)
            elif n == last and not self.is_inner:
                yield Text((x1 + _WHITE + _SHORT, self.y - line.rise / 2), content, of=of)
            else:
                left = min((x0 + x1 - line.width) / 2, self.stops[-1][0] - _WHITE - line.width)
                left = max(left, self.stops[0][0] + _WHITE)
                row = next((row for row, end in enumerate(taken) if end <= left), len(taken) - 1)
                taken[row] = left + line.width + _WHITE
                down = self.y - _PAST - _WHITE - line.rise - row * (line.rise + line.fall + _WHITE)
                yield Text((left, down), content, of=of)


@dataclass(frozen=True, slots=True)
class UprightChain:
    """Lengths from ``stops`` to the next, from below, along an upright line at ``x``, beside the wood, whose side is at ``wood``.

    The figures read level, on the side away from the wood, from ``low`` to ``high`` at most. ``fits`` says whether they all have
    room. ``of`` is what of the plan each of the lengths is, in their order; none where that isn't told.
    """

    stops: tuple[Stop, ...]
    x: Fraction
    wood: Fraction
    low: Fraction
    high: Fraction
    says: str = ""
    of: tuple[Of, ...] = field(default=(), compare=False, repr=False)

    @property
    def wide(self) -> Fraction:
        """How far the figures reach from the line."""
        return 2 * _PAST + 2 + max((set_line(content).width for _, content in self.stops if content), default=Fraction(0))

    @property
    def _sign(self) -> int:
        return -1 if self.x < self.wood else 1

    def _wanted(self) -> list[tuple[Fraction, Content]]:
        pairs = pairwise(self.stops)
        return [((y0 + y1) / 2, content) for (y0, content), (y1, _) in pairs if content][::-1]

    def _middles(self) -> list[Fraction] | None:
        wanted = [(y, set_line(content).rise + set_line(content).fall + _WHITE) for y, content in self._wanted()]
        return spread_down(wanted, self.low, self.high)

    @property
    def fits(self) -> bool:
        """Whether every figure has room."""
        return self._middles() is not None

    def spelled(self) -> Iterator[Stroke]:
        """Extension lines, the line, its strokes, the figures, each with a line to its length where it had to give way."""
        ys, sign = [y for y, _ in self.stops], self._sign
        for y in ys:
            yield Line((self.wood + sign * _GAP, y), (self.x + sign * _PAST, y), Role.DIMENSION)
            yield _oblique(self.x, y)
        yield Line((self.x, ys[0]), (self.x, ys[-1]), Role.DIMENSION, self.says)
        of = [one for one, (_, content) in zip(self.of, self.stops, strict=False) if content][::-1]
        for n, ((wanted, content), y) in enumerate(zip(self._wanted(), self._middles() or (), strict=True)):
            line = set_line(content)
            out = _PAST + Fraction(1, 2)
            if y != wanted:
                out += 2
                yield Line((self.x, wanted), (self.x + sign * (out - Fraction(1, 2)), y), Role.DIMENSION)
            yield Text(
                (self.x + sign * out, y - (line.rise - line.fall) / 2),
                content,
                Align.RIGHT if sign < 0 else Align.LEFT,
                of=of[n] if of else None,
            )


def _oblique(x: Fraction, y: Fraction) -> Line:
    return Line((x - _SHORT, y - _SHORT), (x + _SHORT, y + _SHORT), Role.DIMENSION)
