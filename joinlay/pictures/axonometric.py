"""An axonometric view: boards seen from the front, the right and above at once, what is hidden taken away (ISO 5456-3,
isometric).

The problem: of each edge of boards that stand anywhere, square or leaning, which stretches are seen. The method: the eye looks
along (-1, 1, -1), so a point (x, y, z) is seen where (x + y, z + y) is, in whole numbers; two points that fall together there
differ only in depth. An edge is hidden where it lies, seen so, within a face that is turned to the eye, and behind the plane of
that face. Both are decided exactly, by the signs of whole numbers, and along an edge each face gives one stretch; what these
leave over is seen. Only when it is drawn does (x + y, z + y) come to paper, where X, Y and Z run 120 degrees apart at one scale.

Faces are looked up in squares of that plane, so that an edge asks only those near it: a chest taken apart, a hundred parts with
some 2000 edges, takes three tenths of a second. What is less than a twentieth of a millimetre behind a face counts as flush with
it: a leaning side, which stands in its square joint by a hair aslant, would else lose its edges. Faces that pass through each
other are taken as they lie; nothing is drawn where they meet.
"""

from __future__ import annotations

from dataclasses import field
from itertools import pairwise
from math import floor
from typing import TYPE_CHECKING, Final

from joinlay.geometry import polygon_in, rest_of_line, united
from joinlay.lengths import Fraction
from joinlay.pictures.solid_faces import PARTS_OF_MM, Face, Spot, faces_and_edges
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

    from joinlay.boards import Board, PartRole
    from joinlay.geometry import Box, Point, Stretch

__all__ = ["Seen", "ViewFromCorner", "drawing_at", "drawn_at", "look_from_corner", "seen_size"]

#: The cosine of 30 degrees, to twelve places.
_COS_30: Final = Fraction(866_025_403_784, 10**12)
#: How far behind a face still counts as flush with it, and what is too short to draw, in ten-thousandths of a millimetre.
_FLUSH: Final = PARTS_OF_MM // 20
_SHORT: Final = PARTS_OF_MM // 5
#: The side of the squares that faces are looked up by.
_SQUARE: Final = 160 * PARTS_OF_MM
_WHOLE: Final[Stretch] = (Fraction(0), Fraction(1))

#: Where a point is seen: (x + y, z + y).
_Flat = tuple[int, int]


def _flat(spot: Spot) -> _Flat:
    x, y, z = spot
    return x + y, z + y


def drawn_at(spot: Spot) -> Point:
    """Where a point of the piece comes to on paper at full size, in mm: X to the right and down, Y to the right and up, Z up
    (ISO 5456-3).
    """
    return drawing_at(Fraction(1))(spot)


def drawing_at(factor: Fraction) -> Callable[[Spot], Point]:
    """The same, ``factor`` times full size, for many points."""
    across, up = factor * _COS_30 / PARTS_OF_MM, factor / (2 * PARTS_OF_MM)

    def put(spot: Spot) -> Point:
        x, y, z = spot
        return (x + y) * across, (2 * z + y - x) * up

    return put


def seen_size(face: Face) -> int:
    """How much of the paper a face takes, to be compared with others."""
    points = [_flat(corner) for corner in face.corners]
    return abs(sum(a * d - b * c for (a, b), (c, d) in zip(points, (*points[1:], points[0]), strict=True)))


@dataclass(frozen=True, slots=True)
class Seen:
    """A stretch of an edge of the part ``role`` that is seen, its ends in space; ``is_rim`` where the part ends there for the
    eye.
    """

    role: PartRole
    start: Spot
    end: Spot
    is_rim: bool = False


@dataclass(frozen=True, slots=True)
class _Cover:
    """A face as it is seen: a convex polygon, anticlockwise, and the box around it.

    ``reach`` is where it is nearest to the eye, that box, and the plane that what it hides lies behind, together since every edge
    asks for them.
    """

    face: Face
    polygon: tuple[_Flat, ...]
    box: tuple[int, int, int, int]
    reach: tuple[int, int, int, int, int, int, int, int, int]


@dataclass(frozen=True, slots=True)
class ViewFromCorner:
    """What is seen of some boards: the stretches of their edges, and the faces that hide."""

    edges: tuple[Seen, ...]
    faces: tuple[Face, ...]
    _covers: dict[tuple[int, int], list[_Cover]] = field(repr=False)

    @property
    def box(self) -> Box:
        """The room it takes on paper at full size, in mm. ValueError where nothing is seen."""
        ends = [end for edge in self.edges for end in (edge.start, edge.end)]
        xs, ys = [x + y for x, y, _ in ends], [2 * z + y - x for x, y, z in ends]
        across, up = _COS_30 / PARTS_OF_MM, Fraction(1, 2 * PARTS_OF_MM)
        return min(xs) * across, min(ys) * up, max(xs) * across, max(ys) * up

    def seen_of(self, start: Spot, end: Spot) -> tuple[tuple[Spot, Spot], ...]:
        """What is seen of a straight line in space, in its order."""
        return tuple(_seen(start, end, self._covers))

    def is_seen(self, spot: Spot) -> bool:
        """True where nothing hides a point; on the border of what is nearer it is hidden."""
        x, y, z = spot
        p, q = _flat(spot)
        for cover in self._covers.get((p // _SQUARE, q // _SQUARE), ()):
            nearest, x0, y0, x1, y1, a, b, c, d = cover.reach
            if nearest >= y:
                return True
            if x0 <= p <= x1 and y0 <= q <= y1 and a * x + b * y + c * z < d and _holds(cover.polygon, (p, q)):
                return False
        return True

    def is_bare(self, factor: Fraction) -> Callable[[int, int], bool]:
        """What says of a point of the paper in whole mm, drawn ``factor`` times full size, whether no part is seen there."""
        run, up = PARTS_OF_MM / factor / _COS_30, PARTS_OF_MM / factor
        covers = self._covers

        def is_bare(x: int, y: int) -> bool:
            p, q = floor(x * run), floor(y * up + x * run / 2)
            return not any(
                x0 <= p <= x1 and y0 <= q <= y1 and _holds(cover.polygon, (p, q))
                for cover in covers.get((p // _SQUARE, q // _SQUARE), ())
                for x0, y0, x1, y1 in (cover.box,)
            )

        return is_bare

    def seen_area(self, face: Face) -> tuple[tuple[Point, ...], ...]:
        """What is seen of a face or a part of one, as convex polygons on paper at full size, in mm; none where all of it is
        hidden.
        """
        flat = _anticlockwise([_flat(corner) for corner in face.corners])
        box, polygon = _box(flat), _exact(flat)
        pieces: list[Sequence[Point]] = [polygon]
        for cover in _near(self._covers, box):
            # Most faces lie behind this one or beside it, which is seen soonest in whole numbers.
            if (
                not pieces
                or not _are_over(cover.box, box)
                or not _may_be_nearer(cover.face, face, flat)
                or _are_apart(cover.polygon, flat)
            ):
                continue
            both = polygon_in(polygon, _exact(cover.polygon))
            if both and _is_nearer(cover.face, face, _middle(both)):
                pieces = [left for piece in pieces for left in _without(piece, cover.polygon)]
        return tuple(tuple((p / PARTS_OF_MM * _COS_30, (2 * q - p) / (2 * PARTS_OF_MM)) for p, q in piece) for piece in pieces)


def look_from_corner(boards: Iterable[Board]) -> ViewFromCorner:
    """What is seen of placed ``boards`` from the front, the right and above (ISO 5456-3)."""
    shown = [faces_and_edges(board) for board in boards]
    faces = tuple(face for own, _ in shown for face in own)
    covers: dict[tuple[int, int], list[_Cover]] = {}
    for face in faces:
        polygon = _anticlockwise([_flat(corner) for corner in face.corners])
        a, b, c, d = face.plane
        box = _box(polygon)
        nearest = min(y for _, y, _ in face.corners)
        cover = _Cover(face, polygon, box, (nearest, *box, a, b, c, d - _FLUSH * face.steep))
        for square in _squares(cover.box):
            covers.setdefault(square, []).append(cover)
    for some in covers.values():
        # What is farther than a line can't hide it, nor can any after that.
        some.sort(key=lambda cover: cover.reach[0])
    edges = tuple(
        Seen(wire.role, *ends, is_rim=wire.is_rim)
        for _, wires in shown
        for wire in wires
        for ends in _seen(wire.start, wire.end, covers)
    )
    return ViewFromCorner(edges, faces, covers)


# -- lines -------------------------------------------------------------------------------------------


def _seen(start: Spot, end: Spot, covers: dict[tuple[int, int], list[_Cover]]) -> Iterator[tuple[Spot, Spot]]:
    one, two = _flat(start), _flat(end)
    hidden: list[Stretch] = []
    asked: set[int] = set()
    left, right = sorted((one[0], two[0]))
    low, high = sorted((one[1], two[1]))
    (ax, ay, az), (bx, by, bz) = start, end
    farthest = max(ay, by)
    for square in _squares_on(one, two):
        for cover in covers.get(square, ()):
            nearest, x0, y0, x1, y1, a, b, c, d = cover.reach
            if nearest >= farthest:
                break
            if x0 > right or left > x1 or y0 > high or low > y1:
                continue
            # Most of those near it lie behind it.
            first, last = a * ax + b * ay + c * az - d, a * bx + b * by + c * bz - d
            if (first >= 0 and last >= 0) or id(cover) in asked:
                continue
            asked.add(id(cover))
            stretch = _hidden_by(cover, first, last, one, two)
            if stretch == _WHOLE:
                return
            if stretch is not None:
                hidden.append(stretch)
    for one_end, other in rest_of_line(united(hidden)):
        ends = _between(start, end, one_end), _between(start, end, other)
        if sum(abs(p - q) for p, q in zip(*ends, strict=True)) > _SHORT:
            yield ends


def _between(start: Spot, end: Spot, share: Fraction) -> Spot:
    """The point this share of the way from ``start`` to ``end``."""
    if not share:
        return start
    if share == 1:
        return end
    x, y, z = (a + _nearest((b - a) * share) for a, b in zip(start, end, strict=True))
    return x, y, z


def _nearest(number: Fraction) -> int:
    return int((2 * number.numerator + number.denominator) // (2 * number.denominator))


def _hidden_by(cover: _Cover, first: int, last: int, one: _Flat, two: _Flat) -> Stretch | None:
    """The stretch of a line that lies behind a face, as shares of its length; None where that is none of it.

    ``first`` and ``last`` are how far its ends lie before the plane that hides, not both of them before it.
    """
    enter, leave = _WHOLE
    if first > 0:
        enter = Fraction(first, first - last)
    elif last > 0:
        leave = Fraction(first, first - last)
    (ax, ay), (bx, by) = one, two
    corners = cover.polygon
    x0, y0 = corners[-1]
    for x1, y1 in corners:
        dx, dy = x1 - x0, y1 - y0
        before = dx * (ay - y0) - dy * (ax - x0)
        after = dx * (by - y0) - dy * (bx - x0)
        if before < 0:
            if after <= 0:
                return None
            enter = max(enter, Fraction(before, before - after))
        elif after < 0:
            leave = min(leave, Fraction(before, before - after))
        x0, y0 = x1, y1
    return (enter, leave) if enter < leave else None


# -- squares to look faces up by -----------------------------------------------------------------------


def _squares(box: tuple[int, int, int, int]) -> Iterator[tuple[int, int]]:
    x0, y0, x1, y1 = (at // _SQUARE for at in box)
    for x in range(x0, x1 + 1):
        for y in range(y0, y1 + 1):
            yield x, y


def _squares_on(one: _Flat, two: _Flat) -> Iterator[tuple[int, int]]:
    """The squares that a line passes, and some beside them."""
    (ax, ay), (bx, by) = (one, two) if one[0] <= two[0] else (two, one)
    first, last = ax // _SQUARE, bx // _SQUARE
    for x in range(first, last + 1):
        if bx == ax:
            ends = ay, by
        else:
            left, right = max(ax, x * _SQUARE), min(bx, (x + 1) * _SQUARE)
            ends = ay + (by - ay) * (left - ax) // (bx - ax), ay + (by - ay) * (right - ax) // (bx - ax)
        low, high = sorted(ends)
        for y in range((low - 1) // _SQUARE, (high + 1) // _SQUARE + 1):
            yield x, y


def _near(covers: dict[tuple[int, int], list[_Cover]], box: tuple[int, int, int, int]) -> list[_Cover]:
    """The faces in the squares of a box, each once; the largest first, so that what they hide is soon gone and falls into few
    pieces.
    """
    found = {id(cover): cover for square in _squares(box) for cover in covers.get(square, ())}
    return sorted(
        found.values(), key=lambda cover: (-(cover.box[2] - cover.box[0]) * (cover.box[3] - cover.box[1]), cover.polygon)
    )


def _box(polygon: Sequence[_Flat]) -> tuple[int, int, int, int]:
    xs, ys = zip(*polygon, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def _are_over(one: tuple[int, int, int, int], two: tuple[int, int, int, int]) -> bool:
    return one[0] < two[2] and two[0] < one[2] and one[1] < two[3] and two[1] < one[3]


def _anticlockwise(points: Sequence[_Flat]) -> tuple[_Flat, ...]:
    turn = sum(a * d - b * c for (a, b), (c, d) in zip(points, (*points[1:], points[0]), strict=True))
    return tuple(points) if turn > 0 else tuple(reversed(points))


def _holds(polygon: Sequence[_Flat], at: _Flat) -> bool:
    x, y = at
    x0, y0 = polygon[-1]
    for x1, y1 in polygon:
        if (x1 - x0) * (y - y0) < (y1 - y0) * (x - x0):
            return False
        x0, y0 = x1, y1
    return True


# -- areas -------------------------------------------------------------------------------------------


def _is_nearer(one: Face, two: Face, at: Point) -> bool:
    """True where, at a point of the plane of the view that both cover, ``one`` lies before ``two``."""
    return _depth(one, at) < _depth(two, at) - _FLUSH


def _may_be_nearer(one: Face, two: Face, polygon: Sequence[_Flat]) -> bool:
    """False where ``one`` lies before ``two`` nowhere in a convex polygon, since it doesn't at a corner."""
    (a, b, c, d), (e, f, g, h) = one.plane, two.plane
    own, other = a - b + c, e - f + g
    flush = _FLUSH * own * other
    return any((a * p + c * q - d) * other < (e * p + g * q - h) * own - flush for p, q in polygon)


def _are_apart(one: Sequence[_Flat], two: Sequence[_Flat]) -> bool:
    """True where a side of one of two convex polygons shows that they share nothing, or no more than a level or upright line."""
    for around, points in ((one, two), (two, one)):
        x0, y0 = around[-1]
        for x1, y1 in around:
            dx, dy = x1 - x0, y1 - y0
            nearest = max(dx * (y - y0) - dy * (x - x0) for x, y in points)
            if nearest < 0 or (nearest == 0 and not (dx and dy)):
                return True
            x0, y0 = x1, y1
    return False


def _depth(face: Face, at: Point) -> Fraction:
    """How far back the plane of a face is where it is seen at this point: y, since x is p - y and z is q - y."""
    a, b, c, d = face.plane
    return Fraction(a * at[0] + c * at[1] - d, a - b + c)


def _without(piece: Sequence[Point], cover: Sequence[_Flat]) -> Iterator[Sequence[Point]]:
    """What of a convex polygon lies outside another: up to four convex polygons."""
    rest = piece
    for (x0, y0), (x1, y1) in pairwise((cover[-1], *cover)):
        dx, dy = x1 - x0, y1 - y0
        sides = [dx * (y - y0) - dy * (x - x0) for x, y in rest]
        if min(sides) >= 0:
            continue
        if max(sides) <= 0:
            # Most pieces lie outside as they are.
            yield rest
            return
        outside, rest = _parted(rest, sides)
        if _has_area(outside):
            yield outside
        if not _has_area(rest):
            return


def _parted(points: Sequence[Point], sides: Sequence[Fraction]) -> tuple[list[Point], list[Point]]:
    """What of a convex polygon lies right of a line, and what lies left of it; ``sides`` are how far its corners lie left."""
    right: list[Point] = []
    left: list[Point] = []
    for n, ((ax, ay), side) in enumerate(zip(points, sides, strict=True)):
        (bx, by), other = points[(n + 1) % len(points)], sides[(n + 1) % len(points)]
        if side <= 0:
            right.append((ax, ay))
        if side >= 0:
            left.append((ax, ay))
        if side * other < 0:
            share = side / (side - other)
            right.append((ax + (bx - ax) * share, ay + (by - ay) * share))
            left.append(right[-1])
    return right, left


def _has_area(polygon: Sequence[Point]) -> bool:
    return len(polygon) > 2 and sum(a * d - b * c for (a, b), (c, d) in pairwise((polygon[-1], *polygon))) > 0


def _exact(polygon: Sequence[_Flat]) -> tuple[Point, ...]:
    return tuple((Fraction(x), Fraction(y)) for x, y in polygon)


def _middle(polygon: Sequence[Point]) -> Point:
    return sum((x for x, _ in polygon), Fraction(0)) / len(polygon), sum((y for _, y in polygon), Fraction(0)) / len(polygon)
