"""The round window of a detail: polygons cut down to what is seen in it, exactly."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction
from joinlay.pen.outlines import corners
from joinlay.pictures.hiding import box_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.pen.marks import Point

__all__ = ["AROUND", "WINDOW", "boxed", "clipped"]

#: The radius of the window on paper, in mm, about zero.
WINDOW: Final = Fraction(30)
#: Points on a quarter of the circle.
_POINTS: Final = 16


def _quarter() -> list[Point]:
    """Points exactly on a quarter of the circle (the rational points of t = n over their count)."""
    shares = (Fraction(n, _POINTS) for n in range(_POINTS))
    return [(WINDOW * (1 - t * t) / (1 + t * t), WINDOW * 2 * t / (1 + t * t)) for t in shares]


def _around() -> tuple[Point, ...]:
    points = _quarter()
    found: list[Point] = []
    for _ in range(4):
        found += points
        points = [(-y, x) for x, y in points]
    return tuple(found)


#: The window as a polygon, anticlockwise; nowhere more than a tenth of a millimetre within the circle.
AROUND: Final = _around()


def clipped(points: tuple[Point, ...]) -> tuple[Point, ...]:
    """What of a convex polygon lies in the window: its corners in order, none where nothing does. No rule: derived."""
    return _cut(boxed(points), AROUND)


def boxed(points: tuple[Point, ...]) -> tuple[Point, ...]:
    """What of a convex polygon lies in the square around the window, none where nothing does; quick. No rule: derived."""
    x0, y0, x1, y1 = box_of(points)
    if x1 < -WINDOW or x0 > WINDOW or y1 < -WINDOW or y0 > WINDOW:
        return ()
    return _cut(points, corners((-WINDOW, -WINDOW, WINDOW, WINDOW)))


def _cut(points: tuple[Point, ...], around: tuple[Point, ...]) -> tuple[Point, ...]:
    kept: Sequence[Point] = points
    for one, two in pairwise((*around, around[0])):
        if not kept:
            return ()
        kept = _within(kept, one, two)
    return tuple(kept)


def _within(points: Sequence[Point], one: Point, two: Point) -> list[Point]:
    """What of a polygon lies left of the line from ``one`` to ``two``."""
    (x0, y0), (x1, y1) = one, two
    sides = [(x1 - x0) * (y - y0) - (y1 - y0) * (x - x0) for x, y in points]
    if min(sides) >= 0:
        return list(points)
    made: list[Point] = []
    for n, ((ax, ay), side) in enumerate(zip(points, sides, strict=True)):
        (bx, by), other = points[(n + 1) % len(points)], sides[(n + 1) % len(points)]
        if side >= 0:
            made.append((ax, ay))
        if side * other < 0:
            share = side / (side - other)
            made.append((ax + (bx - ax) * share, ay + (by - ay) * share))
    return made
