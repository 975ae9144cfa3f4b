"""The mouth of a cut on paper: square, round-ended or round; as strokes to mark from and as a polygon to fill or hatch."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, Final

from joinlay.boards import Shape
from joinlay.geometry import corners, quarter_circle
from joinlay.lengths import Fraction
from joinlay.pen.marks import Arc, Line, Role

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.geometry import Box, Point
    from joinlay.pen.marks import Stroke

__all__ = ["mouth_polygon", "mouth_strokes"]

#: A quarter of a circle, for fills only.
_QUARTER: Final = quarter_circle(4)


def _ends(box: Box) -> tuple[tuple[Point, Fraction], tuple[Point, Fraction], Fraction]:
    """The two half-circles of a round-ended mouth as (centre, angle they start at), and their radius."""
    x0, y0, x1, y1 = box
    r = min(x1 - x0, y1 - y0) / 2
    if x1 - x0 > y1 - y0:
        return ((x1 - r, y0 + r), Fraction(-90)), ((x0 + r, y0 + r), Fraction(90)), r
    return ((x0 + r, y1 - r), Fraction(0)), ((x0 + r, y0 + r), Fraction(180)), r


def mouth_strokes(box: Box, shape: Shape, role: Role, within: Box, says: str = "") -> Iterator[Stroke]:
    """The strokes of a mouth of this ``shape`` that fills ``box``, in ``role``; each ``says`` its place in the plan.

    Edges on the border of ``within``, the surface it lies on, are left out: the wood's own outline is there.
    """
    if shape is Shape.ROUND:
        (centre, _), _, r = _ends(box)
        yield Arc(centre, r, Fraction(0), Fraction(360), role, says)
    elif shape is Shape.ROUND_ENDS:
        (one, turn), (two, other), r = _ends(box)
        (ox, oy), (tx, ty) = one, two
        yield Arc(one, r, turn % 360, Fraction(180), role, says)
        yield Arc(two, r, other % 360, Fraction(180), role, says)
        if oy == ty and ox != tx:
            yield from (Line((tx, y), (ox, y), role, says) for y in (oy - r, oy + r))
        elif oy != ty:
            yield from (Line((x, ty), (x, oy), role, says) for x in (ox - r, ox + r))
    else:
        left, bottom, right, top = within
        for one, two in pairwise((*corners(box), (box[0], box[1]))):
            upright, level = one[0] == two[0], one[1] == two[1]
            if not (upright and one[0] in (left, right)) and not (level and one[1] in (bottom, top)):
                yield Line(one, two, role, says)


def mouth_polygon(box: Box, shape: Shape) -> tuple[Point, ...]:
    """The mouth as a polygon; round parts by points that lie on the circle."""
    if shape is Shape.SQUARE:
        return corners(box)
    (one, turn), (two, other), r = _ends(box)
    return _half(one, turn, r) + _half(two, other, r)


def _half(centre: Point, start: Fraction, r: Fraction) -> tuple[Point, ...]:
    """Half a circle from ``start`` (a multiple of 90 degrees), anticlockwise."""
    quarters = int(start) // 90 % 4
    arc = [_turned(point, quarters) for point in _QUARTER] + [_turned(point, quarters + 1) for point in _QUARTER[1:]]
    return tuple((centre[0] + r * x, centre[1] + r * y) for x, y in arc)


def _turned(point: Point, quarters: int) -> Point:
    x, y = point
    for _ in range(quarters % 4):
        x, y = -y, x
    return (x, y)
