"""How far a placed board, or a cut in it, reaches in the piece: to the right, to the back, and up."""

from __future__ import annotations

from enum import Enum
from typing import TYPE_CHECKING

from joinlay.boards import Axis
from joinlay.boards.extent import SpaceBox
from joinlay.lengths import NOTHING

if TYPE_CHECKING:
    from joinlay.boards import Board, Cut
    from joinlay.boards.extent import Spans
    from joinlay.lengths import Fraction

__all__ = ["Way", "centre_of", "reach", "reach_at_end"]

#: From where to where, in mm of the piece.
Reach = tuple["Fraction", "Fraction"]


class Way(Enum):
    """A direction of the piece: which of a place's three numbers it is."""

    WIDTH = 0  #: X, to the right seen from the front
    DEPTH = 1  #: Y, to the back
    HEIGHT = 2  #: Z, up


def reach(board: Board, way: Way, cut: Cut | None = None) -> Reach:
    """From where to where ``board``, or one ``cut`` in it, lies in the piece, in mm. Raises BadInput for a board without a place. No rule."""
    if cut is None:
        return _between(board, way, [(NOTHING, board.size(axis)) for axis in Axis])
    return _between(board, way, [(cut.span(axis).start, cut.span(axis).stop) for axis in Axis])


def reach_at_end(board: Board, way: Way) -> Reach:
    """The same at the board's reference end alone: for the side of a tapered drawer, which leans (DR-4)."""
    return _between(board, way, [(NOTHING, NOTHING), (NOTHING, board.width), (NOTHING, board.thickness)])


def centre_of(board: Board, way: Way, cut: Cut) -> Fraction:
    """The middle of ``cut``, in mm of the piece. Raises BadInput for a board without a place. No rule."""
    low, high = reach(board, way, cut)
    return (low + high) / 2


def _between(board: Board, way: Way, spans: Spans) -> Reach:
    box = SpaceBox.around(board, spans)
    return box.low[way.value], box.high[way.value]
