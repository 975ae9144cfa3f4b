"""How a top or a base meets case and frame: flush with them, and on whatever comes up or down to it (TO-1, BA-1)."""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.boards import (
    Board,
    Surface,
)
from joinlay.boards.extent import SpaceBox
from joinlay.boards.meeting import Meeting, Tie, butted
from joinlay.findings import Change, Remedy, refusal
from joinlay.lengths import NOTHING, Fraction

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from joinlay.lengths import Dimension

__all__ = ["laid", "refuse_step", "share"]


def refuse_step(what: str, key: str, overhang: Dimension) -> None:
    """Refuse a top or base for a frame that stands past the case there, so that it would lie on the frame alone (FF-3)."""
    if overhang.mm == 0:
        return
    refused = refusal(
        what,
        f"The frame stands {{overhang}} past the case there, so the {what} would meet the frame alone.",
        "",
        "FF-3, TO-1, BA-1",
        "by geometry",
        overhang=overhang,
    ).at(what)
    raise refused.by(Remedy("make the frame flush there", (Change("frame", key, NOTHING),)))


def share(one: SpaceBox, other: SpaceBox, *axes: int) -> bool:
    """True where both share more than a line on each of the ``axes``."""
    return all(one.low[axis] < other.high[axis] and other.low[axis] < one.high[axis] for axis in axes)


def laid(
    part: Board, surface: Surface, around: Iterable[Board], level: Fraction, where: str, rule: str, tie: Tie = Tie.DRY
) -> Iterator[Meeting]:
    """Where ``part`` meets with its ``surface``, at that ``level``, the boards that come up or down to it, over or under it."""
    mine = SpaceBox.around(part)
    for board in around:
        its = SpaceBox.around(board)
        up = level == its.high[2]
        if not (up or level == its.low[2]) or not mine.is_over(its):
            continue
        assert board.place is not None
        place = board.place
        facing = next(one for one in Surface if place.outward(one)[2] * (1 if up else -1) > 0)
        wide, deep = (min(mine.high[n], its.high[n]) - max(mine.low[n], its.low[n]) for n in (0, 1))
        yield butted(
            (part, surface), (board, facing), where, rule=rule, tie=tie, glue=wide * deep if tie is Tie.GLUED else Fraction(0)
        )
