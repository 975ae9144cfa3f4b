"""The profile of a board: a rectangle less rectangles, as polygons in exact millimetres."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from joinlay.lengths import Fraction
    from joinlay.pen.marks import Box, Point

__all__ = ["profile"]

_Edges = dict["Point", list["Point"]]


def profile(wood: Box, cuts: Iterable[Box]) -> tuple[tuple[Point, ...], ...]:
    """What is left of ``wood`` (left, bottom, right, top) when ``cuts`` are taken away: its outlines, anticlockwise, holes clockwise.

    Only corners are given, no points along a straight side. Nothing at all is an empty tuple. No rule: geometry.
    """
    gone = tuple(cuts)
    xs = sorted({x for x0, _, x1, _ in (wood, *gone) for x in (x0, x1) if wood[0] <= x <= wood[2]})
    ys = sorted({y for _, y0, _, y1 in (wood, *gone) for y in (y0, y1) if wood[1] <= y <= wood[3]})
    edges: _Edges = {}
    filled = {
        (i, j) for i, (x0, x1) in enumerate(pairwise(xs)) for j, (y0, y1) in enumerate(pairwise(ys))
        if not any(a <= x0 and x1 <= c and b <= y0 and y1 <= d for a, b, c, d in gone)
    }  # fmt: skip
    for i, j in sorted(filled):
        corners = ((xs[i], ys[j]), (xs[i + 1], ys[j]), (xs[i + 1], ys[j + 1]), (xs[i], ys[j + 1]))
        # A side that the next cell shares is no outline.
        beyond = ((i, j - 1), (i + 1, j), (i, j + 1), (i - 1, j))
        for side, other in enumerate(beyond):
            if other not in filled:
                edges.setdefault(corners[side], []).append(corners[(side + 1) % 4])
    return tuple(_loops(edges))


def _loops(edges: _Edges) -> Iterable[tuple[Point, ...]]:
    while edges:
        start = min(edges)
        loop = [start]
        at = _take(edges, start, None)
        while at != start:
            before = loop[-1]
            loop.append(at)
            at = _take(edges, at, before)
        yield _straightened(loop)


def _take(edges: _Edges, at: Point, before: Point | None) -> Point:
    """The next corner from ``at``; where two outlines touch in it, the one that turns left, so that they stay two."""
    following = edges[at]
    choice = following[0]
    if before is not None and len(following) > 1:
        choice = next((point for point in following if _turns_left(before, at, point)), choice)
    following.remove(choice)
    if not following:
        del edges[at]
    return choice


def _turns_left(one: Point, two: Point, three: Point) -> bool:
    return _turn(one, two, three) > 0


def _turn(one: Point, two: Point, three: Point) -> Fraction:
    return (two[0] - one[0]) * (three[1] - two[1]) - (two[1] - one[1]) * (three[0] - two[0])


def _straightened(loop: Sequence[Point]) -> tuple[Point, ...]:
    around = (loop[-1], *loop, loop[0])
    return tuple(two for one, two, three in zip(around, around[1:], around[2:], strict=False) if _turn(one, two, three) != 0)
