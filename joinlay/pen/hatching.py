"""Hatching: thin lines at 45 degrees, clipped to what they fill, exactly (ISO 128: areas cut away)."""

from __future__ import annotations

from itertools import pairwise
from math import ceil
from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction
from joinlay.pen.marks import Line, Role
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.pen.marks import Point

__all__ = ["Hatch"]

#: From one line to the next, measured upright, in mm.
STEP: Final = Fraction(3)


@dataclass(frozen=True, slots=True)
class Hatch:
    """A hatched polygon. ``points`` are its corners in order, not repeated.

    The lines are y = x + n x ``step``, whatever the polygon, so that hatched areas that meet look like one.
    """

    points: tuple[Point, ...]
    step: Fraction = STEP
    says: str = ""

    def spelled(self) -> Iterator[Line]:
        """The hatch lines, each from edge to edge of the polygon (even-odd where it crosses itself)."""
        crossings: dict[int, list[Fraction]] = {}
        for one, two in pairwise((*self.points, self.points[0])):
            self._cross(one, two, crossings)
        for n in sorted(crossings):
            xs, rise = sorted(crossings[n]), n * self.step
            for left, right in zip(xs[::2], xs[1::2], strict=True):
                if left < right:
                    yield Line((left, left + rise), (right, right + rise), Role.HATCH, self.says)

    def _cross(self, one: Point, two: Point, crossings: dict[int, list[Fraction]]) -> None:
        """Note where the polygon's edge meets each hatch line; its upper end is left out, so no corner counts twice."""
        (x0, y0), (x1, y1) = sorted((one, two), key=lambda point: point[1] - point[0])
        low, high = y0 - x0, y1 - x1
        if low == high:
            return
        slope = (x1 - x0) / (high - low)
        for n in range(ceil(low / self.step), ceil(high / self.step)):
            crossings.setdefault(n, []).append(x0 + (n * self.step - low) * slope)
