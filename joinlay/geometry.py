"""Plane geometry in exact millimetres: points, boxes, polygons, and what of one lies in another.

Lines are cut to a box by Liang and Barsky's way, polygons side after side by Sutherland and Hodgman's. Both are exact in
fractions and take time in line with the corners there are. A polygon is cut only to a convex one, which is all that boxes and
windows are.
"""

from __future__ import annotations

from itertools import pairwise, product
from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

__all__ = [
    "Box",
    "Point",
    "Stretch",
    "area",
    "box_of",
    "box_without",
    "corners",
    "left_of",
    "overlap",
    "pieces_of_line",
    "point_at",
    "polygon_in",
    "quarter_circle",
    "rest_of_line",
    "shared_box",
    "stretch_in",
    "stretch_in_box",
    "stretch_left_of",
    "united",
]

#: A point in mm: right, up.
Point = tuple[Fraction, Fraction]

#: A box in mm: left, bottom, right, top.
Box = tuple[Fraction, Fraction, Fraction, Fraction]

#: A stretch of a line, as shares of the way from its start (0) to its end (1).
Stretch = tuple[Fraction, Fraction]

#: The sides of an outline: from each corner, the corners that sides go on to.
_Sides = dict[Point, list[Point]]

_WHOLE: Final[Stretch] = (Fraction(0), Fraction(1))


# -- boxes -------------------------------------------------------------------------------------------


def corners(box: Box) -> tuple[Point, Point, Point, Point]:
    """The corners of ``box``, anticlockwise from the lower left."""
    x0, y0, x1, y1 = box
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def box_of(points: Iterable[Point]) -> Box:
    """The smallest box that holds ``points``. ValueError where there is none."""
    xs, ys = zip(*points, strict=True)
    return (min(xs), min(ys), max(xs), max(ys))


def area(box: Box) -> Fraction:
    """What ``box`` takes up, in square mm."""
    x0, y0, x1, y1 = box
    return (x1 - x0) * (y1 - y0)


def overlap(one: Box, two: Box) -> bool:
    """True where the boxes share more than a border."""
    return one[0] < two[2] and two[0] < one[2] and one[1] < two[3] and two[1] < one[3]


def shared_box(one: Box, two: Box) -> Box | None:
    """What both boxes take up; None where that is nothing, or no more than a border."""
    if not overlap(one, two):
        return None
    return (max(one[0], two[0]), max(one[1], two[1]), min(one[2], two[2]), min(one[3], two[3]))


# -- lines -------------------------------------------------------------------------------------------


def stretch_in_box(one: Point, two: Point, box: Box) -> Stretch | None:
    """The stretch of the line from ``one`` to ``two`` that lies in ``box``, its border included; None where there is none, or
    only a point.
    """
    (x, y), dx, dy = one, two[0] - one[0], two[1] - one[1]
    enter, leave = _WHOLE
    for step, room in ((-dx, x - box[0]), (dx, box[2] - x), (-dy, y - box[1]), (dy, box[3] - y)):
        if not step:
            if room < 0:
                return None
        elif step < 0:
            enter = max(enter, room / step)
        else:
            leave = min(leave, room / step)
    return (enter, leave) if enter < leave else None


def stretch_in(one: Point, two: Point, around: Sequence[Point]) -> Stretch | None:
    """The stretch of the line from ``one`` to ``two`` in the convex polygon ``around`` (anticlockwise), its border included.

    None where there is none, or only a point.
    """
    return stretch_left_of(one, two, pairwise((*around, around[0])))


def stretch_left_of(one: Point, two: Point, sides: Iterable[tuple[Point, Point]]) -> Stretch | None:
    """The stretch of the line from ``one`` to ``two`` that lies left of every one of ``sides``, or on it; None where there is
    none, or only a point. Each side goes on without end, from its first point through its second.
    """
    enter, leave = _WHOLE
    for (x0, y0), (x1, y1) in sides:
        first = (x1 - x0) * (one[1] - y0) - (y1 - y0) * (one[0] - x0)
        last = (x1 - x0) * (two[1] - y0) - (y1 - y0) * (two[0] - x0)
        if first < 0 and last < 0:
            return None
        if first < 0:
            enter = max(enter, first / (first - last))
        elif last < 0:
            leave = min(leave, first / (first - last))
    return (enter, leave) if enter < leave else None


def united(stretches: Iterable[Stretch]) -> list[Stretch]:
    """Stretches of one line in order, those that overlap or touch drawn together."""
    made: list[Stretch] = []
    for start, stop in sorted(stretches):
        if made and start <= made[-1][1]:
            made[-1] = (made[-1][0], max(stop, made[-1][1]))
        else:
            made.append((start, stop))
    return made


def rest_of_line(stretches: Iterable[Stretch]) -> list[Stretch]:
    """What is left of a line once ``stretches``, which are united already, are taken out of it."""
    made, at = [], _WHOLE[0]
    for start, stop in stretches:
        if at < start:
            made.append((at, start))
        at = stop
    return [*made, (at, _WHOLE[1])] if at < 1 else made


def point_at(one: Point, two: Point, share: Fraction) -> Point:
    """The point that lies this ``share`` of the way from ``one`` to ``two``."""
    if not share:
        return one
    if share == 1:
        return two
    return (one[0] + (two[0] - one[0]) * share, one[1] + (two[1] - one[1]) * share)


def pieces_of_line(one: Point, two: Point, stretches: Iterable[Stretch]) -> tuple[tuple[Point, Point], ...]:
    """The ends of each of ``stretches`` of the line from ``one`` to ``two``."""
    return tuple((point_at(one, two, start), point_at(one, two, stop)) for start, stop in stretches)


# -- polygons and circles ----------------------------------------------------------------------------


def polygon_in(points: Sequence[Point], around: Sequence[Point]) -> tuple[Point, ...]:
    """What of the polygon ``points`` lies in the convex polygon ``around`` (anticlockwise): its corners in order.

    None where nothing does, or no more than a line. A polygon that isn't convex may come out with sides that run along
    ``around``.
    """
    kept = points
    for one, two in pairwise((*around, around[0])):
        if not kept:
            return ()
        kept = left_of(kept, one, two)
    return tuple(kept) if all(len({point[axis] for point in kept}) > 1 for axis in (0, 1)) else ()


def left_of(points: Sequence[Point], one: Point, two: Point) -> Sequence[Point]:
    """What of a convex polygon lies left of the line through ``one`` and on through ``two``, or on it: its corners in order,
    maybe none.
    """
    (x0, y0), (x1, y1) = one, two
    sides = [(x1 - x0) * (y - y0) - (y1 - y0) * (x - x0) for x, y in points]
    if min(sides) >= 0:
        return points
    made: list[Point] = []
    for n, ((ax, ay), side) in enumerate(zip(points, sides, strict=True)):
        (bx, by), other = points[(n + 1) % len(points)], sides[(n + 1) % len(points)]
        if side >= 0:
            made.append((ax, ay))
        if side * other < 0:
            share = side / (side - other)
            made.append((ax + (bx - ax) * share, ay + (by - ay) * share))
    return made


def box_without(box: Box, taken: Iterable[Box]) -> tuple[tuple[Point, ...], ...]:
    """What is left of ``box`` when the boxes ``taken`` are taken away: its outlines, outsides anticlockwise, holes clockwise.

    Only corners are given, no points along a straight side; none where all is taken. The sides of all boxes make a grid, and the
    sides of its filled cells that no other filled cell shares make the outlines: the time it takes grows with the cube of how
    many are taken, which are few.
    """
    gone = tuple(taken)
    xs = sorted({x for x0, _, x1, _ in (box, *gone) for x in (x0, x1) if box[0] <= x <= box[2]})
    ys = sorted({y for _, y0, _, y1 in (box, *gone) for y in (y0, y1) if box[1] <= y <= box[3]})
    sides: _Sides = {}
    cells = product(enumerate(pairwise(xs)), enumerate(pairwise(ys)))
    filled = {
        (i, j)
        for (i, (x0, x1)), (j, (y0, y1)) in cells
        if not any(a <= x0 and x1 <= c and b <= y0 and y1 <= d for a, b, c, d in gone)
    }
    for i, j in sorted(filled):
        cell = corners((xs[i], ys[j], xs[i + 1], ys[j + 1]))
        # A side that the next cell shares is no outline.
        beyond = ((i, j - 1), (i + 1, j), (i, j + 1), (i - 1, j))
        for side, other in enumerate(beyond):
            if other not in filled:
                sides.setdefault(cell[side], []).append(cell[(side + 1) % 4])
    return tuple(_loops(sides))


def _loops(sides: _Sides) -> Iterable[tuple[Point, ...]]:
    while sides:
        start = min(sides)
        loop = [start]
        at = _take(sides, start, None)
        while at != start:
            before = loop[-1]
            loop.append(at)
            at = _take(sides, at, before)
        yield _straightened(loop)


def _take(sides: _Sides, at: Point, before: Point | None) -> Point:
    """The next corner from ``at``; where two outlines touch in it, the one that turns left, so that they stay two."""
    following = sides[at]
    choice = following[0]
    if before is not None and len(following) > 1:
        choice = next((point for point in following if _turns_left(before, at, point)), choice)
    following.remove(choice)
    if not following:
        del sides[at]
    return choice


def _turns_left(one: Point, two: Point, three: Point) -> bool:
    return _turn(one, two, three) > 0


def _turn(one: Point, two: Point, three: Point) -> Fraction:
    return (two[0] - one[0]) * (three[1] - two[1]) - (two[1] - one[1]) * (three[0] - two[0])


def _straightened(loop: Sequence[Point]) -> tuple[Point, ...]:
    around = (loop[-1], *loop, loop[0])
    return tuple(two for one, two, three in zip(around, around[1:], around[2:], strict=False) if _turn(one, two, three) != 0)


def quarter_circle(pieces: int) -> tuple[Point, ...]:
    """Exact points on the quarter of a circle of radius 1 about zero, from (1, 0) to (0, 1): one more than its ``pieces``.

    They are the rational points of t = 0, 1/pieces .. 1, which lie a little closer towards the end.
    """
    shares = (Fraction(n, pieces) for n in range(pieces + 1))
    return tuple(((1 - t * t) / (1 + t * t), 2 * t / (1 + t * t)) for t in shares)
