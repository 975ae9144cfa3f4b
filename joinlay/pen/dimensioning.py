"""Dimensions on a drawing after ISO 129-1: extension lines, terminations, and the figure above the line."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction
from joinlay.pen.lettering import set_line
from joinlay.pen.marks import Align, Arc, Fill, Line, Role, Text, Turn

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Point, Stroke

__all__ = ["DimensionLine", "RisingDimensions"]

_GAP: Final = Fraction(1)  #: from the thing measured to its extension line
_PAST: Final = Fraction(3, 2)  #: how far extension lines go past the dimension line
_STROKE: Final = Fraction(5, 4)  #: half an oblique stroke, each way
_ABOVE: Final = Fraction(1)  #: from the dimension line to its figure
_HEAD: Final = (Fraction(13, 5), Fraction(2, 5))  #: an arrow head: its length, half its width
_ORIGIN: Final = Fraction(1)  #: radius of the ring at a common origin


@dataclass(frozen=True, slots=True)
class DimensionLine:
    """The distance from ``start`` to ``end``, level or upright, shown ``away`` from them: up or to the right where it is positive.

    Oblique strokes end it; the figure stands above the line, or reads upwards along it. Raises ValueError where the two points lie
    neither level nor upright.
    """

    start: Point
    end: Point
    away: Fraction
    content: Content
    says: str = ""

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
                yield Line(self._aside(point, sign * _GAP, upright=upright),
                           self._aside(point, self.away + sign * _PAST, upright=upright), Role.DIMENSION)  # fmt: skip
        yield Line(line[0], line[1], Role.DIMENSION, self.says)
        for x, y in line:
            yield Line((x - _STROKE, y - _STROKE), (x + _STROKE, y + _STROKE), Role.DIMENSION)
        middle = ((line[0][0] + line[1][0]) / 2, (line[0][1] + line[1][1]) / 2)
        lift = _ABOVE + set_line(self.content).fall
        anchor = (middle[0] - lift, middle[1]) if upright else (middle[0], middle[1] + lift)
        yield Text(anchor, self.content, Align.MIDDLE, Turn.UP if upright else Turn.RIGHT)

    @staticmethod
    def _aside(point: Point, by: Fraction, *, upright: bool) -> Point:
        return (point[0] + by, point[1]) if upright else (point[0], point[1] + by)


@dataclass(frozen=True, slots=True)
class RisingDimensions:
    """Distances that all rise from one origin, so that no marking error adds to the next (running dimensions of ISO 129-1).

    A ring at ``origin``, one line upwards, and a slim arrow head at each of ``levels`` (heights on paper). The figures are text of
    their own, placed where there is room.
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
