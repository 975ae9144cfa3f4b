"""Turning a joint's own distances into spans on a board: from either end, edge or face inwards."""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.boards import Span
from joinlay.errors import BadInput
from joinlay.lengths import NOTHING

if TYPE_CHECKING:
    from joinlay.boards import Axis, Board, Surface
    from joinlay.lengths import Dimension

__all__ = ["inwards", "refuse_not_end", "whole"]


def whole(board: Board, axis: Axis) -> Span:
    """All of the board on ``axis``. By geometry."""
    return Span(NOTHING, board.size(axis))


def inwards(board: Board, surface: Surface, start: Dimension, stop: Dimension) -> Span:
    """From ``start`` to ``stop``, both counted inwards from ``surface``, as a span from the board's reference.

    By geometry.
    """
    if not surface.is_far:
        return Span(start, stop)
    size = board.size(surface.axis)
    return Span(size - stop, size - start if start.mm else size)


def refuse_not_end(surface: Surface) -> None:
    """Raise BadInput unless ``surface`` is one of the two ends. By geometry."""
    if "end" not in surface.value:
        raise BadInput(f"the joint lies at an end of the board, not at its {surface.value}; give END or FAR_END.")
