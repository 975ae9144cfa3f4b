"""Which named length of the plan spans a stretch that is dimensioned, so that a figure in a picture can be asked for its working.

A picture measures from one plane of the piece to another: the sides of a rail, the floor and ceiling of an opening, a show face
and a drawer's end. Each of these pairs comes from a length of the plan, which knows how it was worked out. They are gathered once
for a scene, by axis and by where they begin and end; a stretch between planes of two parts, which is no length of the plan, has
none.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from joinlay.boards import Axis, PartKind
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from joinlay.boards import Board
    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Dimension, Fraction
    from joinlay.pictures.scene import Scene

__all__ = ["Stretches", "stretches_of"]

#: An axis of the piece (0, 1, 2 for X, Y, Z) and where on it a length begins and ends, in mm.
_Stretch = tuple[int, "Fraction", "Fraction"]


@dataclass(frozen=True, slots=True)
class Stretches:
    """The lengths of a plan by what they span; of several of one stretch, the one a maker thinks of first."""

    known: dict[_Stretch, Dimension]

    def between(self, axis: int, ends: Sequence[Fraction]) -> tuple[Dimension | None, ...]:
        """What spans each stretch from one of ``ends`` to the next, in mm on an ``axis`` of the piece (0, 1, 2); None where
        nothing does.
        """
        return tuple(self.known.get((axis, low, high)) for low, high in pairwise(ends))


def stretches_of(plan: Plan, scene: Scene) -> Stretches:
    """The lengths of ``plan`` as they stand in its ``scene``: over all, openings, drawers and pulls, then each part's own."""
    known: dict[_Stretch, Dimension] = {}
    for axis, low, high, size in (*_over_all(plan, scene), *_openings(scene), *_parts(scene.boards)):
        # A leaning board reaches farther than its length: only what is as long as it says is taken at its word.
        if size.name and size.mm == high - low:
            known.setdefault((axis, low, high), size)
    return Stretches(known)


def _over_all(plan: Plan, scene: Scene) -> Iterator[tuple[int, Fraction, Fraction, Dimension]]:
    if plan.over_all and scene.is_whole:
        low, high = scene.box
        for axis, size in zip((0, 2, 1), plan.over_all, strict=True):
            yield axis, low[axis], high[axis], size


def _openings(scene: Scene) -> Iterator[tuple[int, Fraction, Fraction, Dimension]]:
    """Openings, the length of each drawer from its show face, and its pulls from the front's left end."""
    for opening in scene.openings:
        drawer, (x0, z0, x1, z1) = opening.drawer, opening.box
        yield 0, x0, x1, drawer.opening.width
        yield 2, z0, z1, drawer.opening.height
        if drawer.front.place is not None:
            start, face = drawer.front.place.origin[0], drawer.front.place.origin[1] - drawer.front.thickness.mm
            yield 1, face, face + drawer.length.mm, drawer.length
            yield 0, start, start + drawer.front.length.mm, drawer.front.length
            for knob in scene.knobs:
                if knob.pull.on == drawer.front.role:
                    yield 0, start, knob.centre[0], knob.pull.from_left


#: Whose sizes come first: what stands around is measured before what is in it.
_FIRST = (PartKind.STILE, PartKind.RAIL, PartKind.MULLION, PartKind.CASE_SIDE, PartKind.CASE_BOTTOM, PartKind.CASE_TOP)


def _parts(boards: Iterable[Board]) -> Iterator[tuple[int, Fraction, Fraction, Dimension]]:
    """Each part's length, width and thickness, along the axis of the piece that each of them runs on."""
    for board in sorted(boards, key=lambda board: board.role.kind not in _FIRST):
        if board.place is None:
            continue
        for axis in Axis:
            way, size = board.place.direction(axis), board.size(axis)
            on = max(range(3), key=lambda n: abs(way[n]))
            start = board.place.origin[on]
            low, high = sorted((start, start + way[on] * size.mm))
            yield on, low, high, size
