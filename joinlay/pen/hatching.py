"""Hatching for wood that is cut through, crosses for wood that is taken away, dots for glue: one sign for each (PR-8).

Hatching is thin lines at 45 degrees, clipped to what they fill, exactly (ISO 128-50). A cross is what makers put on their waste.
"""

from __future__ import annotations

from itertools import pairwise
from math import ceil
from typing import TYPE_CHECKING, Final

from joinlay.geometry import box_of
from joinlay.lengths import Fraction
from joinlay.pen.marks import Line, Role
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.pen.marks import Of, Point

__all__ = ["Hatch", "Stipple", "Waste"]

#: From one line to the next, measured upright, in mm.
STEP: Final = Fraction(3)
#: From one row of dots to the next.
_DOTS_APART: Final = Fraction(6, 5)
#: A cross on waste takes this share of the narrower side, no more than so many mm, and crosses stand so far apart at least.
_SHARE, _MOST, _APART = Fraction(7, 10), Fraction(8), Fraction(12)


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
        first = ceil(low / self.step)
        x, further = x0 + (first * self.step - low) * slope, self.step * slope
        for n in range(first, ceil(high / self.step)):
            crossings.setdefault(n, []).append(x)
            x += further


@dataclass(frozen=True, slots=True)
class Stipple:
    """Where glue goes: rows of dots over a polygon, ``points`` its corners in order; the rows of all lie at the same heights."""

    points: tuple[Point, ...]
    says: str = ""
    of: Of = None

    def spelled(self) -> Iterator[Line]:
        """A dotted line for each row, from edge to edge of the polygon (even-odd)."""
        crossings: dict[int, list[Fraction]] = {}
        for (x0, y0), (x1, y1) in pairwise((*self.points, self.points[0])):
            if y0 == y1:
                continue
            slope = (x1 - x0) / (y1 - y0)
            # An edge's upper end is left out, so no corner counts twice.
            for n in range(ceil(min(y0, y1) / _DOTS_APART), ceil(max(y0, y1) / _DOTS_APART)):
                crossings.setdefault(n, []).append(x0 + (n * _DOTS_APART - y0) * slope)
        for n in sorted(crossings):
            xs = sorted(crossings[n])
            for left, right in zip(xs[::2], xs[1::2], strict=True):
                if left < right:
                    yield Line((left, n * _DOTS_APART), (right, n * _DOTS_APART), Role.GLUE, self.says, self.of)


@dataclass(frozen=True, slots=True)
class Waste:
    """Wood that is taken away, ``points`` its corners in order: crosses in a row along its longer side."""

    points: tuple[Point, ...]
    says: str = ""

    def spelled(self) -> Iterator[Line]:
        """Two strokes for each cross, all inside the box around the polygon."""
        x0, y0, x1, y1 = box_of(self.points)
        wide, high = x1 - x0, y1 - y0
        short, long = min(wide, high), max(wide, high)
        arm = min(short * _SHARE, _MOST) / 2
        count = max(1, int(long / max(3 * short, _APART)))
        for n in range(count):
            on = long * Fraction(2 * n + 1, 2 * count)
            x, y = (x0 + on, (y0 + y1) / 2) if wide >= high else ((x0 + x1) / 2, y0 + on)
            yield Line((x - arm, y - arm), (x + arm, y + arm), Role.WASTE, self.says)
            yield Line((x - arm, y + arm), (x + arm, y - arm), Role.WASTE, self.says)
