"""Packing: where on a sheet the next piece of paper goes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction

if TYPE_CHECKING:
    from collections.abc import Iterable

    from joinlay.pen.marks import Box

__all__ = ["GAP", "FreeRoom", "Spot", "Strip"]

#: Paper left between two templates, to cut along.
GAP: Final = Fraction(4)


@dataclass(frozen=True, slots=True)
class Spot:
    """A place on a sheet: the lower left corner, and whether the piece lies turned a quarter."""

    x: Fraction
    y: Fraction
    is_turned: bool


@dataclass(frozen=True, slots=True)
class Strip:
    """A long free place on a sheet: its upper left corner, its length and width in mm, and whether it runs up the sheet."""

    left: Fraction
    top: Fraction
    length: Fraction
    thick: Fraction
    is_upright: bool

    def cut_to(self, length: Fraction) -> Box:
        """The box of its first ``length`` mm, from the upper left."""
        wide, high = (self.thick, length) if self.is_upright else (length, self.thick)
        return (self.left, self.top - high, self.left + wide, self.top)


class FreeRoom:
    """The room left on a sheet, as the largest boxes that are free; they may overlap each other.

    Pieces go as high up as they can, then as far left, and are turned a quarter only where they fit no other way. Packed close, each goes
    where the least is left beside it, turned or not.
    """

    __slots__ = ("_boxes", "_is_close")

    def __init__(self, boxes: Iterable[Box], *, is_close: bool = False) -> None:
        """Begin with the boxes that are free."""
        self._boxes: list[Box] = list(boxes)
        self._is_close = is_close

    @property
    def boxes(self) -> tuple[Box, ...]:
        """The largest free boxes."""
        return tuple(self._boxes)

    def place(self, width: Fraction, height: Fraction) -> Spot | None:
        """Room for a piece of this size, taken at once; None where there is none."""
        fitting: list[tuple[Fraction, bool, Fraction, Fraction]] = []
        for is_turned in (False, True):
            wide, high = (height, width) if is_turned else (width, height)
            for left, bottom, right, top in self._boxes:
                beside, below = right - left - wide, top - bottom - high
                if beside >= 0 and below >= 0:
                    fitting.append((min(beside, below) if self._is_close else Fraction(0), is_turned, -top, left))
        if not fitting:
            return None
        _, is_turned, top, left = min(fitting)
        wide, high = (height, width) if is_turned else (width, height)
        self.take((left, -top - high, left + wide, -top))
        return Spot(left, -top - high, is_turned)

    def strip(self, thick: Fraction, most: Fraction) -> Strip | None:
        """The longest strip of this width that is free, at most ``most`` long; upright of two alike, then the highest. It is not taken."""
        strips = []
        for left, bottom, right, top in self._boxes:
            for is_upright, wide, long in ((True, right - left, top - bottom), (False, top - bottom, right - left)):
                if thick <= wide:
                    strips.append(Strip(left, top, min(long, most), thick, is_upright))
        return max(strips, key=lambda one: (one.length, one.is_upright, one.top, -one.left), default=None)

    def take(self, taken: Box) -> None:
        """Note that ``taken``, and the gap around it, is free no longer."""
        x0, y0, x1, y1 = (taken[0] - GAP, taken[1] - GAP, taken[2] + GAP, taken[3] + GAP)
        left: list[Box] = []
        for a, b, c, d in self._boxes:
            if x1 <= a or c <= x0 or y1 <= b or d <= y0:
                left.append((a, b, c, d))
                continue
            rests = ((a, b, x0, d), (x1, b, c, d), (a, b, c, y0), (a, y1, c, d))
            left += [box for box in rests if box[0] < box[2] and box[1] < box[3]]
        self._boxes = [
            box for n, box in enumerate(left) if not any(_holds(o, box, first=m < n) for m, o in enumerate(left) if m != n)
        ]


def _holds(outer: Box, inner: Box, *, first: bool) -> bool:
    """True where ``inner`` lies in ``outer``; of two equal boxes only the first holds the other."""
    inside = outer[0] <= inner[0] and outer[1] <= inner[1] and outer[2] >= inner[2] and outer[3] >= inner[3]
    return inside and (first or outer != inner)
