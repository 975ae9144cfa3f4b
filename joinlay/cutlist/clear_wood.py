"""The boards that are there, one by one, and their clear lengths between knots and split ends (CL-2)."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from joinlay.cutlist.pattern import Direction, Keeps, Panel, SawCut
from joinlay.lengths import ZERO, Length

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.jobs.on_hand import BoardOnHand
    from joinlay.jobs.plan import Plan
    from joinlay.stock import Solid

__all__ = ["boards_there", "clear_lengths"]


def boards_there(plan: Plan, stock: Solid) -> list[BoardOnHand]:
    """Every board of ``stock`` that ``plan`` has on hand, those alike one by one."""
    names = {stock.name, *(key for key, each in plan.stocks.items() if each == stock)}
    return [each for have in plan.on_hand.boards if have.stock in names for each in _each(have)]


def _each(have: BoardOnHand) -> Iterator[BoardOnHand]:
    """Boards that are alike, one by one."""
    for n in range(1, have.count + 1):
        yield replace(have, name=have.name if have.count == 1 else f"{have.name}, {n} of {have.count}", count=1)


def clear_lengths(board: BoardOnHand, kerf: Length) -> tuple[tuple[tuple[Length, Length], ...], tuple[SawCut, ...]]:
    """Where the clear lengths of ``board`` start and stop, and the crosscuts that part them from the defects, in order.

    A cut takes its kerf from the defect's side, so no clear wood is lost to it, save where a defect is thinner than the kerf.
    """
    clear: list[tuple[Length, Length]] = []
    cuts: list[SawCut] = []
    start, end = Length(0), Length(board.length.mm)

    def crosscut(at: Length, keeps: Keeps) -> None:
        """Cut what is left of the board at ``at``, counted from the board's end."""
        panel = Panel(start, ZERO, end - start, Length(board.width.mm))
        cuts.append(SawCut(len(cuts) + 1, Direction.CROSSCUT, panel, at - start, keeps))

    for defect in sorted(board.defects, key=lambda defect: defect.start):
        if defect.stop <= start:
            continue
        if defect.start > start:
            clear.append((start, Length(defect.start.mm)))
            crosscut(defect.start, Keeps.NEAR if defect.stop >= end else Keeps.BOTH)
            start = defect.start + kerf
        if start < defect.stop < end:
            crosscut(defect.stop - kerf, Keeps.FAR)
        start = max(start, Length(defect.stop.mm))
    if start < end:
        clear.append((start, end))
    return tuple(clear), tuple(cuts)
