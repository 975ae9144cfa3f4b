"""Tracing a job's outlines: each on every part it is for, with what is wrong with it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from joinlay.casework.tracing import is_for, place_outline
from joinlay.checks.traced import check_outline
from joinlay.errors import BadInput, nearest_names
from joinlay.findings import Finding, Refused, refusal

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.boards import Board
    from joinlay.boards.outline import PlacedOutline
    from joinlay.casework.tracing import OutlineWish

__all__ = ["Traced", "trace"]


@dataclass(frozen=True, slots=True)
class Traced:
    """Outlines in their places, in the order of the job and then of the boards, and what was found on the way."""

    placed: tuple[PlacedOutline, ...]
    findings: tuple[Finding, ...]


def trace(boards: Sequence[Board], wishes: Sequence[OutlineWish]) -> Traced:
    """Each of ``wishes`` on every one of ``boards`` it is for (CK-7). Nothing is raised: what is refused is among the findings."""
    placed: list[PlacedOutline] = []
    findings: list[Finding] = []
    for wish in wishes:
        own = [board for board in boards if is_for(wish, board)]
        if not own and boards:
            findings.append(_unknown(wish, boards))
        for board in own:
            try:
                one = place_outline(board, wish)
            except Refused as refused:
                findings.append(refused.finding)
            except BadInput as bad:
                findings.append(_impossible(str(bad)).at(board.name))
            else:
                placed.append(one)
                findings += check_outline(one)
    return Traced(tuple(placed), tuple(findings))


def _unknown(wish: OutlineWish, boards: Sequence[Board]) -> Finding:
    kinds = tuple(dict.fromkeys(board.part for board in boards))
    near = nearest_names(wish.on, (*kinds, *(board.name for board in boards))) or kinds
    return _impossible(f"The {wish.purpose} is for {wish.on!r}, and no part is called that; nearest: {', '.join(near)}.").at(
        wish.outline.file
    )


def _impossible(why: str) -> Finding:
    return refusal("outline", "{why}", "Change it in the job file.", "CK-7", "by geometry", why=why).finding
