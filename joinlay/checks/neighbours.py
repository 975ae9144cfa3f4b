"""What stands over and under a drawer in the piece: its kicker and its stop blocks, found where they are placed."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from joinlay.lengths import ZERO, Length

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.boards import Board
    from joinlay.casework.assembly import Assembly, Drawer
    from joinlay.shop import Shop

__all__ = ["kicker_gap", "stop_height"]


def kicker_gap(drawer: Drawer, others: Sequence[Assembly]) -> Length | None:
    """From the top of the drawer's sides to the lowest kicker above them; None where the piece has none (RN-3, RN-5)."""
    side = drawer.board("left side")
    if side.place is None:
        return None
    top = side.place.origin[2] + side.width.mm
    over = [low - top for board in _named(others, "kicker") if (low := _heights(board)[0]) >= top and _is_over(board, side)]
    return Length(min(over)) if over else None


def stop_height(drawer: Drawer, others: Sequence[Assembly], shop: Shop) -> Length:
    """How much of the room under the bottom its stop blocks take, their clearance included; nothing without stops (ST-3)."""
    side = drawer.board("left side")
    if side.place is None:
        return ZERO
    foot, top = side.place.origin[2], side.place.origin[2] + side.width.mm
    stops = [high - foot for board in _named(others, "stop") if foot < (high := _heights(board)[1]) < top]
    return Length(max(stops)) + shop.practice.length("stop clearance") if stops else ZERO


def _named(others: Sequence[Assembly], part: str) -> Iterator[Board]:
    for assembly in others:
        yield from (board for board in assembly.boards if part in board.part and board.place is not None)


def _heights(board: Board) -> tuple[Fraction, Fraction]:
    return _extent(board, 2)


def _is_over(board: Board, side: Board) -> bool:
    """True where ``board`` lies over or under ``side``, seen from above."""
    return all(
        _extent(board, axis)[0] < _extent(side, axis)[1] and _extent(side, axis)[0] < _extent(board, axis)[1] for axis in (0, 1)
    )


def _extent(board: Board, axis: int) -> tuple[Fraction, Fraction]:
    assert board.place is not None
    place = board.place
    start = place.origin[axis]
    steps = [place.along[axis] * board.length.mm, place.across[axis] * board.width.mm, place.into[axis] * board.thickness.mm]
    return start + sum((s for s in steps if s < 0), Fraction(0)), start + sum((s for s in steps if s > 0), Fraction(0))
