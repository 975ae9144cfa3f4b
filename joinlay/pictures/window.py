"""The round window of a detail: polygons cut down to what is seen in it, exactly."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.geometry import box_of, corners, polygon_in, quarter_circle
from joinlay.lengths import Fraction

if TYPE_CHECKING:
    from joinlay.pen.marks import Point

__all__ = ["AROUND", "WINDOW", "boxed", "clipped"]

#: The radius of the window on paper, in mm, about zero.
WINDOW: Final = Fraction(30)
#: Points on a quarter of the circle.
_POINTS: Final = 16


def _around() -> tuple[Point, ...]:
    points = [(WINDOW * x, WINDOW * y) for x, y in quarter_circle(_POINTS)[:-1]]
    found: list[Point] = []
    for _ in range(4):
        found += points
        points = [(-y, x) for x, y in points]
    return tuple(found)


#: The window as a polygon, anticlockwise; nowhere more than a tenth of a millimetre within the circle.
AROUND: Final = _around()


def clipped(points: tuple[Point, ...]) -> tuple[Point, ...]:
    """What of a convex polygon lies in the window: its corners in order, none where nothing does. No rule: derived."""
    return polygon_in(boxed(points), AROUND)


def boxed(points: tuple[Point, ...]) -> tuple[Point, ...]:
    """What of a convex polygon lies in the square around the window, none where nothing does; quick. No rule: derived."""
    x0, y0, x1, y1 = box_of(points)
    if x1 < -WINDOW or x0 > WINDOW or y1 < -WINDOW or y0 > WINDOW:
        return ()
    return polygon_in(points, corners((-WINDOW, -WINDOW, WINDOW, WINDOW)))
