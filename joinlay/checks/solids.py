"""The piece put together in the model: boards as solids, nothing in anything else's place (CK-8).

The solids are made by a geometry kernel that isn't ours, which a maker may do without: only what puts the piece together imports
this module, and importing it raises BadInput where the kernel isn't installed. Exact lengths become floats only here, at the last
step; what overlaps by less than a cube of a hundredth of a millimetre is contact.

A solid is made when it is first looked at. Most boards never are: that a tenon is all in its mortise is told by their ``blocks``,
and the kernel is asked where that doesn't settle it.
"""

from __future__ import annotations

from functools import cache, lru_cache
from math import cos, pi, sin
from typing import TYPE_CHECKING, Final

from joinlay.boards import Axis, PartKind, Shape
from joinlay.checks.blocks import blocks_of, most_shared, moved
from joinlay.errors import BadInput
from joinlay.findings import refusal
from joinlay.lengths import ZERO, Fraction, dimension, mm
from joinlay.records import dataclass

try:
    from manifold3d import Manifold, Mesh64
    from numpy import array
except ModuleNotFoundError as missing:
    raise BadInput(
        "putting the piece together needs the geometry kernel: install joinlay with its 'assembly' extra."
    ) from missing

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

    from joinlay.boards import Board, Cut, PartRole, Place, Taper
    from joinlay.casework.assembly import Drawer
    from joinlay.checks.blocks import Block
    from joinlay.findings import Finding

__all__ = ["CONTACT", "Body", "Overlap", "check_assembly", "overlaps", "overlaps_between", "solid_of", "solids_of"]

#: The volume, in cubic millimetres, up to which two parts only touch.
CONTACT: Final = 1e-6

#: Straight pieces in a half round; a mortise's are drawn outside its circle and a tenon's inside, so that one goes into the
#: other.
_PIECES: Final = 12

#: How far a cut that runs out of the wood is carried past it, in millimetres, so that no skin is left.
_PAST: Final = 1.0

#: The two axes square to each, in the order in which they make a right-handed three with it.
_PLANES: Final = {
    Axis.ALONG: (Axis.ACROSS, Axis.INTO),
    Axis.ACROSS: (Axis.INTO, Axis.ALONG),
    Axis.INTO: (Axis.ALONG, Axis.ACROSS),
}

_Point = tuple[float, float]

#: A prism: its convex outline in the plane square to an axis, the axis, and from where to where on it.
_Prism = tuple[tuple[_Point, ...], Axis, float, float]


@dataclass(frozen=True, slots=True)
class Body:
    """A board in its place: the corners ``low`` and ``high`` of a box around it, in mm, ``made`` to get it as the kernel knows
    it, and ``cut`` to get the blocks that its wood lies in.
    """

    role: PartRole
    low: tuple[float, float, float]
    high: tuple[float, float, float]
    made: Callable[[], Manifold]
    cut: Callable[[], tuple[Block, ...]]

    @property
    def name(self) -> str:
        """The board's name."""
        return self.role.name

    @property
    def wood(self) -> Manifold:
        """The solid."""
        return self.made()

    def moved(self, x: float, y: float, z: float) -> Body:
        """The same solid shifted."""
        (a, b, c), (d, e, f) = self.low, self.high
        return Body(
            self.role,
            (a + x, b + y, c + z),
            (d + x, e + y, f + z),
            cache(lambda: self.made().translate((x, y, z))),
            cache(lambda: moved(self.cut(), x, y, z)),
        )

    def meets(self, other: Body) -> bool:
        """True where the boxes around both share more than a surface."""
        # Asked of every two parts of a piece with a drawer out, so it is spelled out.
        (a, b, c), (d, e, f) = self.low, self.high
        (u, v, w), (x, y, z) = other.low, other.high
        hair = 1e-9
        return a < x - hair and u < d - hair and b < y - hair and v < e - hair and c < z - hair and w < f - hair

    def shared(self, other: Body) -> float:
        """The volume of what both take up, in cubic millimetres; 0 where it is certainly no more than contact."""
        if not self.meets(other) or most_shared(self.cut(), other.cut()) <= CONTACT:
            return 0.0
        return float((self.wood ^ other.wood).volume())


@dataclass(frozen=True, slots=True)
class Overlap:
    """Two boards that take up the same ``volume`` of space, in cubic millimetres."""

    one: str
    other: str
    volume: float


def solid_of(board: Board) -> Body:
    """``board`` with its tapers and all its cuts, in its place (CK-8). Raises BadInput where it has no place."""
    place = board.place
    if place is None:
        raise BadInput(f"{board.name} has no place in the piece, so it can't be put together with the rest.")
    made, cut = cache(lambda: _put(_carved(_stock(board), _gone(board)), place)), cache(lambda: blocks_of(board))
    if len(cut()) == 1 and not board.tapers:
        a, b, c, d, e, f = cut()[0].box
    else:
        a, b, c, d, e, f = made().bounding_box()
    return Body(board.role, (a, b, c), (d, e, f), made, cut)


def _gone(board: Board) -> tuple[_Prism, ...]:
    """All that is cut and planed off."""
    tapers = (_wedge(board, taper) for taper in board.tapers if taper.near.mm or taper.far.mm)
    return (*tapers, *(_hollow(board, cut) for cut in board.cuts))


def solids_of(boards: Iterable[Board]) -> tuple[Body, ...]:
    """The solids of all placed ``boards``; one that stands alone, such as a blank to turn, is left out (CK-8)."""
    return tuple(solid_of(board) for board in boards if board.place is not None)


def overlaps(solids: Sequence[Body]) -> tuple[Overlap, ...]:
    """Every two of ``solids`` that overlap by more than ``CONTACT`` (CK-8).

    A sweep along X leaves only near ones to the kernel.
    """
    found, open_now = [], list[Body]()
    for solid in sorted(solids, key=lambda one: one.low[0]):
        open_now = [one for one in open_now if one.high[0] > solid.low[0]]
        found += [Overlap(one.name, solid.name, volume) for one in open_now if (volume := one.shared(solid)) > CONTACT]
        open_now.append(solid)
    return tuple(found)


def overlaps_between(some: Sequence[Body], others: Sequence[Body]) -> tuple[Overlap, ...]:
    """Every overlap of one of ``some`` with one of ``others`` (CK-8)."""
    pairs = ((one, other) for one in some for other in others if one.meets(other))
    return tuple(Overlap(one.name, other.name, volume) for one, other in pairs if (volume := one.shared(other)) > CONTACT)


def check_assembly(boards: Sequence[Board], drawers: Sequence[Drawer]) -> tuple[Finding, ...]:
    """Put the whole piece together, closed and with each drawer pulled out, and say what would be in something else's place.

    ``boards`` are those that stay; the drawers bring their own. Each is tried half out, right out, and where its back passes the
    stops. Rule CK-8, derived.
    """
    staying = solids_of(boards)
    moving = {drawer.name: solids_of(drawer.assembly.boards) for drawer in drawers}
    found = [_clash(one, "put together") for one in overlaps([*staying, *(solid for own in moving.values() for solid in own)])]
    for drawer in drawers:
        for when, out in _extensions(drawer, staying):
            pulled = [solid.moved(0, -out, 0) for solid in moving[drawer.name]]
            found += [_clash(one, when) for one in overlaps_between(pulled, staying)]
    return tuple(found)


def _extensions(drawer: Drawer, staying: Sequence[Body]) -> Iterator[tuple[str, float]]:
    length = float(drawer.length.mm)
    yield "pulled half out", length / 2
    yield "pulled right out", length
    back = solid_of(drawer.back)
    blocks = [one for one in staying if one.role.kind is PartKind.STOP_BLOCK and one.role.drawer == drawer.role]
    for block in blocks[:1]:
        yield "its back passes the stops", (back.low[1] + back.high[1] - block.low[1] - block.high[1]) / 2


def _clash(found: Overlap, when: str) -> Finding:
    side = mm(f"{max(found.volume, 0) ** (1 / 3):.3f}")
    return refusal(
        "assembly", f"{found.one} and {found.other} are in each other's place when {when}, by as much as a cube of {{side}}.",
        "Nothing should be cut from this plan: please report the job.", "CK-8", "by geometry", side=dimension(side),
    ).at(found.one).finding  # fmt: skip


# -- shapes, in the board's own directions: along, across, into ----------------------------------------------


def _put(body: Manifold, place: Place) -> Manifold:
    """``body`` in the piece.

    A side that leans is held square by its front joint when the drawer is glued up. So it stands straight as far as that joint
    reaches, and as far again behind it has caught up with the lean that its place states.
    """
    straight = [Fraction(int(part)) for part in place.along]
    sideways = [leaning - square for leaning, square in zip(place.along, straight, strict=True)]
    joint = place.square_for
    if not any(sideways) or not joint:
        return _transformed(body, place.along, place, place.origin)
    rest, front = body.split_by_plane((1, 0, 0), float(joint))
    back, between = rest.split_by_plane((1, 0, 0), float(2 * joint))
    steep = [square + 2 * lean for square, lean in zip(straight, sideways, strict=True)]
    origin = [at - 2 * lean * joint for at, lean in zip(place.origin, sideways, strict=True)]
    return (
        _transformed(front, straight, place, place.origin)
        + _transformed(between, steep, place, origin)
        + _transformed(back, place.along, place, place.origin)
    )


def _transformed(body: Manifold, along: Sequence[Fraction], place: Place, origin: Sequence[Fraction]) -> Manifold:
    rows = zip(along, place.across, place.into, origin, strict=True)
    return body.transform([[float(number) for number in row] for row in rows])


@lru_cache(maxsize=512)
def _carved(stock: _Prism, gone: tuple[_Prism, ...]) -> Manifold:
    """``stock`` less all that is ``gone``. Many parts of a piece are alike but for their place, and are carved once."""
    body = _prism(*stock)
    for each in gone:
        body = body - _prism(*each)
    # Worked out here and now, else each part would have the kernel do it again.
    body.num_tri()
    return body


def _stock(board: Board) -> _Prism:
    length, width, thickness = (float(board.size(axis).mm) for axis in Axis)
    if board.has_round_edges:
        return tuple(_stadium(0, width, 0, thickness, inside=True)), Axis.ALONG, 0, length
    return ((0, 0), (width, 0), (width, thickness), (0, thickness)), Axis.ALONG, 0, length


def _hollow(board: Board, cut: Cut) -> _Prism:
    """The wood a cut takes, carried past the board where it runs out of it."""
    spans = {axis: _span(board, cut, axis) for axis in Axis}
    through = cut.surface.axis
    first, second = _PLANES[through]
    (a, b), (c, d) = spans[first], spans[second]
    if cut.shape is Shape.SQUARE:
        outline: tuple[_Point, ...] = ((a, c), (b, c), (b, d), (a, d))
    else:
        outline = tuple(_stadium(a, b, c, d, inside=False))
    return outline, through, *spans[through]


def _span(board: Board, cut: Cut, axis: Axis) -> tuple[float, float]:
    span = cut.span(axis)
    start, stop = float(span.start.mm), float(span.stop.mm)
    if cut.shape is not Shape.SQUARE and axis is not cut.surface.axis:
        return start, stop
    return start - _PAST * (span.start == ZERO), stop + _PAST * (span.stop == board.size(axis))


def _wedge(board: Board, taper: Taper) -> _Prism:
    """The wood planed off an edge or end, carried past the board on all sides."""
    run = Axis.ALONG if taper.surface.axis is Axis.ACROSS else Axis.ACROSS
    length, size = float(board.size(run).mm), float(board.size(taper.surface.axis).mm)
    near, far = float(taper.near.mm), float(taper.far.mm)
    slope = (far - near) / length
    line = [(-_PAST, near - slope * _PAST), (length + _PAST, far + slope * _PAST)]
    outside = -_PAST - abs(near) - abs(far)
    quad = [*line, (length + _PAST, outside), (-_PAST, outside)]
    if taper.surface.is_far:
        quad = [(at, size - off) for at, off in quad]
    # The prism stands on the board's face, whose plane is (along, across).
    outline = quad if run is Axis.ALONG else [(off, at) for at, off in quad]
    return tuple(outline), Axis.INTO, -_PAST, float(board.thickness.mm) + _PAST


def _prism(outline: Sequence[_Point], through: Axis, start: float, stop: float) -> Manifold:
    """The convex ``outline``, in the plane square to ``through``, as a solid from ``start`` to ``stop``, its corners exactly as
    given.
    """
    area = sum(a * d - b * c for (a, b), (c, d) in zip(outline, [*outline[1:], outline[0]], strict=True))
    counted = outline if area > 0 else list(reversed(outline))
    count = len(counted)
    order = (*_PLANES[through], through)
    columns = [order.index(axis) for axis in Axis]
    corners = array([(x, y, z) for z in (start, stop) for x, y in counted])[:, columns]
    ends = [face for n in range(1, count - 1) for face in ((0, n + 1, n), (count, count + n, count + n + 1))]
    walls = [(n, (n + 1) % count, count + n) for n in range(count)]
    walls += [((n + 1) % count, count + (n + 1) % count, count + n) for n in range(count)]
    return Manifold(Mesh64(vert_properties=corners.copy(), tri_verts=array(ends + walls, dtype="uint64")))


def _stadium(a: float, b: float, c: float, d: float, *, inside: bool) -> list[_Point]:
    """A slot from a to b and from c to d, half round at both ends of its longer side."""
    if b - a < d - c:
        return [(x, y) for y, x in _stadium(c, d, a, b, inside=inside)]
    radius, middle = (d - c) / 2, (c + d) / 2
    turns = list(_half_round(radius, inside=inside))
    right = [(b - radius + x, middle + y) for x, y in turns]
    left = [(a + radius - x, middle - y) for x, y in turns]
    return right + left


def _half_round(radius: float, *, inside: bool) -> Iterator[_Point]:
    """From straight down to straight up by way of the right; the ends lie on the circle, the rest on it or just outside it."""
    step = pi / _PIECES
    yield 0.0, -radius
    if inside:
        yield from ((radius * cos(n * step - pi / 2), radius * sin(n * step - pi / 2)) for n in range(1, _PIECES))
    else:
        out = radius / cos(step / 2)
        yield from ((out * cos((n + 0.5) * step - pi / 2), out * sin((n + 0.5) * step - pi / 2)) for n in range(_PIECES))
    yield 0.0, radius
