"""The order of assembly proved on solids: each move swept from outside to its end meets nothing on the way (PT-2).

What a solid passes through as it moves straight is the solid with a block on each of its faces that looks that way, so the sweep
is whole: nothing thin is stepped over. Like ``solids`` it needs the geometry kernel.
"""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from manifold3d import Error, Manifold, Mesh64, OpType
from numpy import array, concatenate, cross

from joinlay.checks.blocks import swept_by
from joinlay.checks.solids import CONTACT, Body, solid_of
from joinlay.findings import refusal
from joinlay.lengths import dimension, mm

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from numpy import float64, uint64
    from numpy.typing import NDArray

    from joinlay.assembly.order import Move
    from joinlay.boards import Board, PartRole
    from joinlay.boards.meeting import Way
    from joinlay.findings import Finding

__all__ = ["bodies_of", "check_moves", "in_the_way", "swept"]

#: How far past the last that it could meet a part is drawn off, in mm.
_CLEAR = 1.0

#: A facet that looks less than this share of its size that way is walked along, not into.
_FLAT = 1e-9


#: A facet, by the numbers of its three corners, in order as they go round.
_Facet = tuple[int, int, int]


def bodies_of(boards: Iterable[Board]) -> dict[PartRole, Body]:
    """The solid of each placed board by its role (CK-8)."""
    return {board.role: solid_of(board) for board in boards if board.place is not None}


def swept(body: Body, way: Way, far: float) -> Body:
    """All the room that ``body`` takes up while it goes ``far`` mm that ``way``, where it began and where it ends included
    (PT-2, by geometry).
    """
    axis, signed = "XYZ".index(way.value[1]), far if way.value[0] == "+" else -far
    low, high = list(body.low), list(body.high)
    if signed < 0:
        low[axis] += signed
    else:
        high[axis] += signed
    by = tuple(float(part) * far for part in way.vector)
    return Body(
        body.role,
        (low[0], low[1], low[2]),
        (high[0], high[1], high[2]),
        cache(lambda: _room_of(body, by, far)),
        cache(lambda: swept_by(body.cut(), axis, signed)),
    )


def _room_of(body: Body, by: tuple[float, ...], far: float) -> Manifold:
    """All that ``body`` passes through as it goes ``by`` so much, which is ``far`` mm, as a solid."""
    mesh = body.wood.to_mesh64()
    corners, facets, step = array(mesh.vert_properties)[:, :3], array(mesh.tri_verts), array(by)
    one, two, three = (corners[facets[:, n]] for n in range(3))
    square = cross(two - one, three - one)
    # Twice the volume that each facet pushes in front of it; nothing where it looks back or sideways.
    looking = square @ step > _FLAT * far * (square**2).sum(axis=1) ** 0.5
    # Those that hang together by their edges, a flat face or a rounded end, push one block before them.
    pushed = [block for own in _hanging_together(facets[looking]) for block in _pushed(corners, own, step)]
    return Manifold.batch_boolean([body.wood, body.wood.translate(by), *pushed], OpType.Add)


def _hanging_together(facets: NDArray[uint64]) -> Iterator[list[_Facet]]:
    """The facets, parted into those that hang together by their edges."""
    over = dict[tuple[int, int], _Facet]()
    for one, two, three in facets.tolist():
        over |= dict.fromkeys(((one, two), (two, three), (three, one)), (one, two, three))
    left = set(over.values())
    while left:
        own, reached = list[_Facet](), [left.pop()]
        while reached:
            one, two, three = facet = reached.pop()
            own.append(facet)
            beside = {over.get(edge) for edge in ((two, one), (three, two), (one, three))} & left
            left -= beside
            reached += [facet for facet in beside if facet]
        yield own


def _pushed(corners: NDArray[float64], facets: list[_Facet], step: NDArray[float64]) -> list[Manifold]:
    """What ``facets`` that hang together push before them: one block; where they meet again at a corner, a prism for each."""
    edges = [edge for one, two, three in facets for edge in ((one, two), (two, three), (three, one))]
    rim = set(edges) - {(then, first) for first, then in edges}
    used = sorted({corner for edge in edges for corner in edge})
    at, many = {corner: n for n, corner in enumerate(used)}, len(used)
    near = [[at[corner] for corner in facet] for facet in facets]
    triangles = [
        *([a, c, b] for a, b, c in near),
        *([a + many, b + many, c + many] for a, b, c in near),
        *(wall for one, two in rim for wall in ([at[one], at[two], at[two] + many], [at[one], at[two] + many, at[one] + many])),
    ]
    ends = corners[used]
    block = Manifold(Mesh64(vert_properties=concatenate([ends, ends + step]), tri_verts=array(triangles, dtype="uint64")))
    if block.status() == Error.NoError:
        return [block]
    return [prism for facet in facets for prism in _pushed(corners, [facet], step)] if len(facets) > 1 else []


def in_the_way(moving: Sequence[Body], onto: Sequence[Body], way: Way) -> Iterator[tuple[Body, Body, float]]:
    """What the ``moving`` would run into as they come ``way`` from outside: which, into which, and the volume in cubic mm
    (PT-2).
    """
    axis = "XYZ".index(way.value[1])
    for one in moving:
        near = [other for other in onto if _is_abreast(one, other, axis)]
        if not near:
            continue
        if way.value[0] == "+":
            far = one.high[axis] - min(other.low[axis] for other in near)
        else:
            far = max(other.high[axis] for other in near) - one.low[axis]
        if far <= 0:
            continue
        room = swept(one, way.opposite, far + _CLEAR)
        for other in near:
            volume = room.shared(other)
            if volume > CONTACT:
                yield one, other, volume


def check_moves(moves: Iterable[Move], boards: Iterable[Board]) -> tuple[Finding, ...]:
    """Every move of an order made on the solids: a refusal for each part that would run into another on its way. Rule PT-2, by
    geometry.
    """
    bodies = bodies_of(boards)
    found = []
    for move in moves:
        moving, onto = ([bodies[role] for role in roles] for roles in (move.moving, move.onto))
        for one, other, volume in in_the_way(moving, onto, move.way):
            side = mm(f"{volume ** (1 / 3):.3f}")
            found.append(
                refusal(
                    "assembly",
                    "{part} would run into {other} on its way, by as much as a cube of {side}.",
                    "Nothing should be cut from this plan: please report the job.",
                    "PT-2",
                    "by geometry",
                    part=one.name,
                    other=other.name,
                    side=dimension(side),
                ).at(one.name).finding
            )  # fmt: skip
    return tuple(found)


def _is_abreast(one: Body, other: Body, axis: int) -> bool:
    """True where both share some of what is seen along the axis."""
    return all(one.low[n] < other.high[n] and other.low[n] < one.high[n] for n in range(3) if n != axis)
