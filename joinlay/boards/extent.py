"""The corners of placed boards, and how much room they take."""

from __future__ import annotations

from itertools import product
from typing import TYPE_CHECKING

from joinlay.lengths import NOTHING, Length

if TYPE_CHECKING:
    from collections.abc import Iterable

    from joinlay.boards.board import Board
    from joinlay.boards.place import Vector

__all__ = ["extent", "outer_corners"]


def extent(boards: Iterable[Board]) -> tuple[Length, Length, Length]:
    """The smallest box around ``boards``: its size across, front to back and up; unplaced boards are left out. No rule, by geometry.

    Nothing (0, 0, 0) where none is placed.
    """
    points = [point for board in boards for point in outer_corners(board)]
    if not points:
        return (Length(0), Length(0), Length(0))
    across, deep, high = (Length(max(p[i] for p in points) - min(p[i] for p in points)) for i in range(3))
    return across, deep, high


def outer_corners(board: Board) -> tuple[Vector, ...]:
    """The eight corners of ``board`` in the piece, in mm, as if it were whole; none for one without a place. No rule, by geometry."""
    if board.place is None:
        return ()
    sizes = ((NOTHING, board.length), (NOTHING, board.width), (NOTHING, board.thickness))
    return tuple(board.place.point(*at) for at in product(*sizes))
