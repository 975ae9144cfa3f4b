"""How much room placed boards take."""

from __future__ import annotations

from itertools import product
from typing import TYPE_CHECKING

from joinlay.lengths import ZERO, Length

if TYPE_CHECKING:
    from collections.abc import Iterable

    from joinlay.boards.board import Board
    from joinlay.boards.place import Vector

__all__ = ["extent"]


def extent(boards: Iterable[Board]) -> tuple[Length, Length, Length]:
    """The smallest box around ``boards``: its size across, front to back and up; unplaced boards are left out. No rule, by geometry.

    Nothing (0, 0, 0) where none is placed.
    """
    points = [point for board in boards for point in _corners(board)]
    if not points:
        return (Length(0), Length(0), Length(0))
    across, deep, high = (Length(max(p[i] for p in points) - min(p[i] for p in points)) for i in range(3))
    return across, deep, high


def _corners(board: Board) -> Iterable[Vector]:
    if board.place is None:
        return ()
    sizes = ((ZERO, board.length), (ZERO, board.width), (ZERO, board.thickness))
    return tuple(board.place.point(*at) for at in product(*sizes))
