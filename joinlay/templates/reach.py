"""How far a placed board, or a cut in it, reaches in the piece: to the right, to the back, and up."""

from __future__ import annotations

from enum import Enum
from typing import TYPE_CHECKING

from joinlay.boards import Axis
from joinlay.errors import BadInput
from joinlay.lengths import NOTHING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.boards import Board, Cut
    from joinlay.lengths import Fraction, Length

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


def _between(board: Board, way: Way, spans: Sequence[tuple[Length, Length]]) -> Reach:
    """The least and the most of one of the place's numbers, over the corners of a box given by its span on each of the board's axes."""
    place = board.place
    if place is None:
        raise BadInput(f"{board.name} has no place in the piece, so it stands nowhere on a story stick.")
    low = high = place.origin[way.value]
    for direction, span in zip((place.along, place.across, place.into), spans, strict=True):
        step = direction[way.value]
        if step:
            one, two = sorted(step * end.mm for end in span)
            low, high = low + one, high + two
    return low, high
