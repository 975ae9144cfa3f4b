"""Where glue goes, as flat faces in space: of every glued meeting, what the one part covers of the planes of the other."""

from __future__ import annotations

from itertools import product
from typing import TYPE_CHECKING, Final

from joinlay.boards import Axis
from joinlay.boards.extent import SpaceBox
from joinlay.boards.place import dot
from joinlay.lengths import Fraction
from joinlay.pictures.solid_faces import EYE, Face, fine, plane_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from joinlay.boards import Board, PartRole, Vector
    from joinlay.boards.meeting import Meeting, Plane

__all__ = ["glue_faces"]

_AXES: Final = tuple(Axis)
#: Planes farther apart than this are a gap left on purpose, in mm.
_GAP: Final = Fraction(1, 2)


def glue_faces(
    meetings: Iterable[Meeting], boards: Mapping[PartRole, Board], offsets: Mapping[PartRole, Vector]
) -> Iterator[Face]:
    """The faces that get glue where ``meetings`` close and that look towards the eye, each on its part as it stands taken apart
    (PT-3).

    ``boards`` are in their true places, by role; ``offsets`` is how far each stands from there, in mm. Where a gap is left
    between two planes no glue is told.
    """
    for met in meetings:
        one, other = boards.get(met.one), boards.get(met.other)
        if one is None or other is None or not met.glue:
            continue
        for facing in met.facings:
            if abs(facing.gap.mm) <= _GAP:
                for board, plane, mate in ((one, facing.one, other), (other, facing.other, one)):
                    yield from _covered(board, plane, mate, offsets.get(board.role))


def _covered(board: Board, plane: Plane, mate: Board, offset: Vector | None) -> Iterator[Face]:
    """What ``mate`` covers of a plane of ``board``, if that looks towards the eye."""
    place = board.place
    if place is None or dot(place.outward(plane.surface), EYE) <= 0:
        return
    spans = _spans(board, mate)
    fixed = _AXES.index(plane.surface.axis)
    size = board.size(plane.surface.axis).mm
    at = size - plane.depth.mm if plane.surface.is_far else plane.depth.mm
    others = [n for n in range(3) if n != fixed]
    (a, b), (c, d) = (spans[n] for n in others)
    if a >= b or c >= d:
        return
    moved = offset or (Fraction(0), Fraction(0), Fraction(0))
    corners = []
    for u, v in ((a, c), (b, c), (b, d), (a, d)):
        local = [at, at, at]
        local[others[0]], local[others[1]] = u, v
        x, y, z = (p + q for p, q in zip(place.spot(*local), moved, strict=True))
        corners.append(fine((x, y, z)))
    lies_in = plane_of(corners)
    yield Face(board.role, (corners[0], corners[1], corners[2], corners[3]), lies_in, max(abs(n) for n in lies_in[:3]))


def _spans(board: Board, mate: Board) -> list[tuple[Fraction, Fraction]]:
    """From where to where ``mate`` reaches along, across and into ``board``; one that leans is taken as the box around it."""
    place = board.place
    assert place is not None
    space = SpaceBox.around(mate)
    spans = []
    for axis in _AXES:
        run = place.direction(axis)
        long = dot(run, run)
        ends = [
            dot((x - place.origin[0], y - place.origin[1], z - place.origin[2]), run) / long
            for x, y, z in product(*zip(space.low, space.high, strict=True))
        ]
        spans.append((max(min(ends), Fraction(0)), min(max(ends), board.size(axis).mm)))
    return spans
