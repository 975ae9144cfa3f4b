"""Axes to draw a curve on: two lengths against each other, ticked on the maker's own rule, read and not measured from."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, Final

from joinlay.lengths import MM_PER_INCH, Fraction, Length, Unit, fraction_in
from joinlay.pen.lettering import figures, words
from joinlay.pen.marks import Align, Line, Polyline, Role, Text
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.lengths import Graduation
    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Point, Stroke

__all__ = ["Axes", "tick_step"]

#: Steps a maker counts in, in each unit, in mm.
_STEPS: Final = {
    Unit.INCH: tuple(
        MM_PER_INCH * fraction_in(step) for step in ("1/64", "1/32", "1/16", "1/8", "1/4", "1/2", "1", "2", "4", "6", "12")
    ),
    Unit.MM: tuple(fraction_in(step) for step in ("0.1", "0.2", "0.5", "1", "2", "5", "10", "20", "50", "100", "200")),
}
#: Height of the figures at the ticks, and how long a tick is.
_FIGURE: Final = Fraction(7, 2)
_TICK: Final = Fraction(2)


def tick_step(most: Length, unit: Unit, ticks: int) -> Length:
    """From one tick to the next of an axis that runs to ``most``: the smallest step of the unit that makes ``ticks`` or fewer."""
    fitting = (step for step in _STEPS[unit] if step * ticks >= most.mm)
    return Length(next(fitting, _STEPS[unit][-1]))


@dataclass(frozen=True, slots=True)
class Axes:
    """Two axes that begin at ``origin`` on the paper, ``size`` mm long, level and upright; they stand for the lengths ``most``.

    ``steps`` are from tick to tick. Figures stand on ``rule``, without their unit.
    """

    origin: Point
    size: Point
    most: tuple[Length, Length]
    steps: tuple[Length, Length]
    rule: Graduation

    def at(self, x: Length, y: Length) -> Point:
        """Where on the paper the two lengths are."""
        return (self.origin[0] + self.size[0] * (x / self.most[0]), self.origin[1] + self.size[1] * (y / self.most[1]))

    def curve(self, points: Sequence[tuple[Length, Length]], role: Role) -> Polyline:
        """The curve through ``points``, from left to right, as far as it stays on the chart; ValueError where it begins above."""
        top = self.most[1]
        if points[0][1] > top:
            raise ValueError(f"the curve begins at {points[0][1]}, above a chart of {top}")
        kept = [points[0]]
        for one, two in pairwise(points):
            if two[1] > top:
                share = (top - one[1]) / (two[1] - one[1])
                kept.append((one[0] + (two[0] - one[0]) * share, top))
                break
            kept.append(two)
        return Polyline(tuple(self.at(*point) for point in kept), role)

    def spelled(self) -> Iterator[Stroke]:
        """The axes, a thin line across at each upright tick, and the figures beside and below."""
        (left, bottom), (wide, high) = self.origin, self.size
        yield Polyline(((left, bottom + high), (left, bottom), (left + wide, bottom)), Role.DIMENSION)
        for n in range(int(self.most[1] / self.steps[1]) + 1):
            value = self.steps[1] * n
            _, y = self.at(Length(0), value)
            yield Line((left - _TICK, y), (left, y), Role.DIMENSION)
            if n:
                yield Line((left, y), (left + wide, y), Role.ROW)
            yield Text((left - _TICK - 1, y - _FIGURE / 2), self._figure(value), Align.RIGHT)
        for n in range(int(self.most[0] / self.steps[0]) + 1):
            value = self.steps[0] * n
            x, _ = self.at(value, Length(0))
            yield Line((x, bottom - _TICK), (x, bottom), Role.DIMENSION)
            yield Text((x, bottom - _TICK - 1 - _FIGURE), self._figure(value), Align.MIDDLE)

    def _figure(self, value: Length) -> Content:
        return figures(value, self.rule, _FIGURE) if value else words("0", _FIGURE)
