"""The order of assembly proved on solids: each move swept from outside to its end meets nothing on the way (PT-2).

What a solid passes through as it moves straight is the solid with a prism on each of its facets that looks that way, so the sweep is
whole: nothing thin is stepped over. Like ``solids`` it needs the geometry kernel.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from manifold3d import Manifold, Mesh64, OpType
from numpy import array, concatenate, cross, dot

from joinlay.checks.solids import CONTACT, Body, solid_of
from joinlay.findings import refusal
from joinlay.lengths import dimension, mm

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from joinlay.assembly.order import Move
    from joinlay.boards import Board, PartRole
    from joinlay.boards.meeting import Way
    from joinlay.findings import Finding

__all__ = ["bodies_of", "check_moves", "in_the_way", "swept"]

#: How far past the last that it could meet a part is drawn off, in mm.
_CLEAR = 1.0

#: A facet that looks less than this share of its size that way is walked along, not into.
_FLAT = 1e-12

#: The corners of the facets of a prism: its two ends, its three walls.
_PRISM = ((0, 2, 1), (3, 4, 5), (0, 1, 4), (0, 4, 3), (1, 2, 5), (1, 5, 4), (2, 0, 3), (2, 3, 5))


def bodies_of(boards: Iterable[Board]) -> dict[PartRole, Body]:
    """The solid of each placed board by its role (CK-8)."""
    return {board.role: solid_of(board) for board in boards if board.place is not None}


def swept(body: Body, way: Way, far: float) -> Body:
    """All the room that ``body`` takes up while it goes ``far`` mm that ``way``, where it began and where it ends included (PT-2, by geometry)."""
    by = tuple(float(part) * far for part in way.vector)
    mesh = body.wood.to_mesh64()
    corners = array(mesh.vert_properties)[:, :3]
    step = array(by)
    prisms = []
    for facet in array(mesh.tri_verts):
        one, two, three = corners[facet]
        # Twice the volume that the facet pushes in front of it; nothing where it looks back or sideways.
        pushed = float(dot(cross(two - one, three - one), step))
        if pushed > _FLAT * far:
            points = concatenate([corners[facet], corners[facet] + step])
            prisms.append(Manifold(Mesh64(vert_properties=points, tri_verts=array(_PRISM, dtype="uint64"))))
    wood = Manifold.batch_boolean([body.wood, body.wood.translate(by), *prisms], OpType.Add)
    a, b, c, d, e, f = wood.bounding_box()
    return Body(body.role, wood, (a, b, c), (d, e, f))


def in_the_way(moving: Sequence[Body], onto: Sequence[Body], way: Way) -> Iterator[tuple[Body, Body, float]]:
    """What the ``moving`` would run into as they come ``way`` from outside: which, into which, and the volume in cubic mm (PT-2)."""
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
    """Every move of an order made on the solids: a refusal for each part that would run into another on its way. Rule PT-2, by geometry."""
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
