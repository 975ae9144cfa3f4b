"""Whether a maker's own outline runs over a cut of its part (CK-7): by its lines and what they enclose, exactly."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from joinlay.boards import Surface
from joinlay.boards.outline import Ring
from joinlay.findings import warning
from joinlay.geometry import point_at, stretch_in_box

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.boards import Cut
    from joinlay.boards.outline import Outline, PlacedOutline
    from joinlay.findings import Finding
    from joinlay.geometry import Box, Point

__all__ = ["check_outline"]


def check_outline(placed: PlacedOutline) -> Iterator[Finding]:
    """A warning for each cut of the board that an outline meets (CK-7, by geometry).

    What is cut away inside it must not reach the cut's wood; what is only marked must not run over a cut that opens on its face.
    """
    for cut in placed.board.cuts:
        if _are_level(placed, cut) and _meets(placed.outline, _seen(placed, cut)):
            yield warning(
                "outline",
                f"The {placed.purpose} ({placed.outline.file}) runs over the {cut.name}, which is {{depth}} deep",
                "Move it, draw it smaller, or cut it less deep; where it is meant so, cut the joint first.",
                "CK-7",
                "by geometry",
                depth=cut.depth,
            ).at(placed.board.name)


def _are_level(placed: PlacedOutline, cut: Cut) -> bool:
    """Whether both take wood from the same depth; what is only marked lies on its face."""
    if placed.into is not None:
        return placed.into.overlaps(cut.into)
    return not cut.into.start if placed.face is Surface.FACE else cut.into.stop == placed.board.thickness


def _seen(placed: PlacedOutline, cut: Cut) -> Box:
    """The cut's box as it is seen beside the outline, whose lower left corner is the zero point."""
    along, across = placed.along, placed.across
    start, stop = (at.mm - along.start.mm for at in (cut.along.start, cut.along.stop))
    if not placed.end_on_left:
        start, stop = along.size.mm - stop, along.size.mm - start
    return (start, cut.across.start.mm - across.start.mm, stop, cut.across.stop.mm - across.start.mm)


def _meets(outline: Outline, box: Box) -> bool:
    return any(
        _ring_meets(line, box) if isinstance(line, Ring) else _run_meets(line.points, box, is_closed=line.is_closed)
        for line in outline.lines
    )


def _ring_meets(ring: Ring, box: Box) -> bool:
    """Whether any of the box lies within the circle."""
    (x, y), (left, bottom, right, top) = ring.centre, box
    aside, above = x - min(max(x, left), right), y - min(max(y, bottom), top)
    return aside**2 + above**2 < ring.radius**2


def _run_meets(points: Sequence[Point], box: Box, *, is_closed: bool) -> bool:
    whole = (*points, points[0]) if is_closed else tuple(points)
    if any(_crosses(one, two, box) for one, two in pairwise(whole)):
        return True
    middle = ((box[0] + box[2]) / 2, (box[1] + box[3]) / 2)
    return is_closed and _holds(whole, middle)


def _crosses(one: Point, two: Point, box: Box) -> bool:
    """Whether a straight line runs through the inside of the box, not only along its border."""
    stretch = stretch_in_box(one, two, box)
    if stretch is None:
        return False
    x, y = point_at(one, two, (stretch[0] + stretch[1]) / 2)
    return box[0] < x < box[2] and box[1] < y < box[3]


def _holds(whole: Sequence[Point], spot: Point) -> bool:
    """Whether a closed line, its first point repeated, goes round ``spot``: how often a level line to the right crosses it
    tells.
    """
    inside = False
    for (x0, y0), (x1, y1) in pairwise(whole):
        if (y0 > spot[1]) != (y1 > spot[1]) and spot[0] < x0 + (spot[1] - y0) * (x1 - x0) / (y1 - y0):
            inside = not inside
    return inside
