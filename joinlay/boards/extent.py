"""How much room placed boards take in the piece: the box around one, or around a cut in it, and the size of them all.

A board that leans takes less than its box; nothing here is worked out from more than the eight corners of a box in the board.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product
from typing import TYPE_CHECKING

from joinlay.errors import BadInput
from joinlay.lengths import NOTHING, Length
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterable

    from joinlay.boards.board import Board
    from joinlay.boards.place import Vector

__all__ = ["SpaceBox", "Spans", "extent", "outer_corners"]

#: From where to where along, across and into a board, in that order, each from its reference end, edge or face.
Spans = Sequence[tuple[Length, Length]]


@dataclass(frozen=True, slots=True)
class SpaceBox:
    """The space a placed board takes up, from ``low`` to ``high`` in X, Y and Z, in mm; a leaning or round board takes less
    (CK-8).
    """

    low: Vector
    high: Vector

    @classmethod
    def around(cls, board: Board, spans: Spans | None = None) -> SpaceBox:
        """The box of ``board``, or of what ``spans`` take up in it. Raises BadInput for a board without a place."""
        place = board.place
        if place is None:
            raise BadInput(f"{board.name} has no place in the piece, so nothing can be said of where it reaches.")
        low, high = list(place.origin), list(place.origin)
        for way, (start, stop) in zip((place.along, place.across, place.into), spans or _whole(board), strict=True):
            for axis, share in enumerate(way):
                if share:
                    near, far = (start.mm, stop.mm) if share > 0 else (stop.mm, start.mm)
                    low[axis] += share * near
                    high[axis] += share * far
        return cls((low[0], low[1], low[2]), (high[0], high[1], high[2]))

    def is_over(self, other: SpaceBox) -> bool:
        """True where both share some of the floor, seen from above."""
        return all(self.low[axis] < other.high[axis] and other.low[axis] < self.high[axis] for axis in (0, 1))

    def is_beside(self, other: SpaceBox) -> bool:
        """True where both share some height and some depth, seen from the side."""
        return all(self.low[axis] < other.high[axis] and other.low[axis] < self.high[axis] for axis in (1, 2))


def extent(boards: Iterable[Board]) -> tuple[Length, Length, Length]:
    """The smallest box around ``boards``: its size across, front to back and up; unplaced boards are left out.

    Nothing (0, 0, 0) where none is placed.
    """
    boxes = [SpaceBox.around(board) for board in boards if board.place is not None]
    if not boxes:
        return (Length(0), Length(0), Length(0))
    across, deep, high = (Length(max(box.high[i] for box in boxes) - min(box.low[i] for box in boxes)) for i in range(3))
    return across, deep, high


def outer_corners(board: Board, spans: Spans | None = None) -> tuple[Vector, ...]:
    """The eight corners of ``board`` as if it were whole, or of what ``spans`` take up in it, in mm of the piece.

    None for a board without a place.
    """
    place = board.place
    if place is None:
        return ()
    return tuple(place.point(*at) for at in product(*(spans or _whole(board))))


def _whole(board: Board) -> Spans:
    return ((NOTHING, board.length), (NOTHING, board.width), (NOTHING, board.thickness))
