"""How a placed board lies in the piece: how far it, or a cut in it, reaches to the right, back and up; and at which hand."""

from __future__ import annotations

from enum import Enum
from typing import TYPE_CHECKING

from joinlay.boards import Axis, Hand
from joinlay.boards.extent import SpaceBox
from joinlay.lengths import NOTHING

if TYPE_CHECKING:
    from joinlay.boards import Board, Cut, Surface
    from joinlay.boards.extent import Spans
    from joinlay.lengths import Fraction

__all__ = ["PieceAxis", "centre_of", "hand_of", "reach", "reach_at_end"]

#: From where to where, in mm of the piece.
Reach = tuple["Fraction", "Fraction"]


class PieceAxis(Enum):
    """An axis of the piece: which of a place's three numbers it is."""

    WIDTH = 0  #: X, to the right seen from the front
    DEPTH = 1  #: Y, to the back
    HEIGHT = 2  #: Z, up


def reach(board: Board, axis: PieceAxis, cut: Cut | None = None) -> Reach:
    """From where to where ``board``, or ``cut`` in it, lies along ``axis``, in mm; BadInput for a board with no place."""
    if cut is None:
        return _between(board, axis, [(NOTHING, board.size(own)) for own in Axis])
    return _between(board, axis, [(cut.span(own).start, cut.span(own).stop) for own in Axis])


def reach_at_end(board: Board, axis: PieceAxis) -> Reach:
    """The same for the reference end of ``board`` alone, along ``axis``: for the side of a tapered drawer, which leans (DR-4)."""
    return _between(board, axis, [(NOTHING, NOTHING), (NOTHING, board.width), (NOTHING, board.thickness)])


def centre_of(board: Board, axis: PieceAxis, cut: Cut) -> Fraction:
    """The middle of ``cut`` in ``board`` along ``axis``, in mm of the piece; BadInput for a board with no place."""
    low, high = reach(board, axis, cut)
    return (low + high) / 2


def hand_of(board: Board, end: Surface) -> Hand | None:
    """Left or right: the hand of ``board`` itself, else that of its ``end`` (END or FAR_END) as the piece is seen from the front.

    None where neither has one, as for a case's partition, and for the ends of a board with no place.
    """
    if board.role.hand in (Hand.LEFT, Hand.RIGHT):
        return board.role.hand
    if board.place is None:
        return None
    x, y, z = board.place.along
    if abs(x) <= max(abs(y), abs(z)):
        return None
    return Hand.LEFT if (x > 0) is not end.is_far else Hand.RIGHT


def _between(board: Board, axis: PieceAxis, spans: Spans) -> Reach:
    box = SpaceBox.around(board, spans)
    return box.low[axis.value], box.high[axis.value]
