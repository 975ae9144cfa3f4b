"""All the checks over a whole piece, gathered so that the worst stands first and a sound piece says little."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING, Final

from joinlay.checks.clashes import check_clashes
from joinlay.checks.corners import check_corners
from joinlay.checks.fit import check_fit
from joinlay.checks.play import check_play
from joinlay.checks.racking import check_racking
from joinlay.checks.reach import check_reach
from joinlay.checks.sag import check_sag
from joinlay.checks.seasons import check_seasons
from joinlay.checks.tipping import check_tipping
from joinlay.checks.walls import check_walls
from joinlay.checks.weights import check_weight, drawer_load, drawer_weight, stocks_by_name
from joinlay.findings import Finding, Harm
from joinlay.lengths import ZERO, Length

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

    from joinlay.boards import Board
    from joinlay.casework.assembly import Assembly, Drawer
    from joinlay.checks.conditions import Conditions
    from joinlay.shop import Shop
    from joinlay.stock import Stock

__all__ = ["check_board", "check_drawer", "find_everything", "gathered"]

#: Among findings of one kind the worst is where this number is the largest (or, after a minus, the smallest). Of notes of these kinds only
#: that one is told.
_WORST_BY: Final = {
    "side play": "play",
    "fit": "-least",
    "racking": "-planed",
    "bottom sag": "sag",
    "wood movement": "moves",
    "droop": "droop",
}
#: What is told first of findings that are as bad as each other; kinds that aren't here come last.
_ORDER: Final = (
    "clash", "thin wood", "cutter reach", "tipping", "side play", "droop", "fit", "racking", "bottom sag", "wood movement",
    "corner strength", "weight",
)  # fmt: skip
_DRAWER: Final = re.compile(r"drawer (?P<number>\d+)(?P<tail>| .*)")
#: Places named in one finding before the rest are only counted.
_NAMED: Final = 4


def find_everything(
    drawers: Sequence[Drawer], others: Sequence[Assembly], stocks: Mapping[str, Stock], shop: Shop, conditions: Conditions
) -> tuple[Finding, ...]:
    """Every finding of the checks floor over a planned piece, the worst first (CK-1 to CK-7, DR-6, RN-5).

    ``drawers`` from the top down, ``others`` the case, frame and runners (none where only openings are planned), ``stocks`` as the job
    names them. The same warning about several parts is told once with their names; of notes, one of each kind.
    """
    found: list[Finding] = []
    for drawer in drawers:
        found += check_drawer(drawer, shop, conditions, tuple(stocks.values()), others)
    for board in _boards(drawers, others):
        found += check_board(board, shop)
    found += check_tipping(others, drawers, stocks_by_name(stocks.values()), shop, conditions)
    return gathered(_only_heaviest(found, drawers, conditions))


def check_drawer(
    drawer: Drawer, shop: Shop, conditions: Conditions, stocks: Sequence[Stock] = (), others: Sequence[Assembly] = ()
) -> tuple[Finding, ...]:
    """Every finding about one drawer as a whole; its boards one by one are ``check_board``'s."""
    return (
        *check_play(drawer, shop, kicker_gap(drawer, others)),
        *check_fit(drawer, shop, conditions),
        *check_racking(drawer, shop),
        *check_sag(drawer, shop, conditions, stocks, stop_height(drawer, others, shop)),
        *check_seasons(drawer, shop, conditions),
        *check_weight(drawer, shop, conditions),
        *check_corners(drawer, shop, conditions),
    )


def check_board(board: Board, shop: Shop) -> tuple[Finding, ...]:
    """Every finding about the cuts of one board."""
    return (*check_clashes(board, shop.practice), *check_walls(board, shop.practice), *check_reach(board, shop))


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


def _boards(drawers: Sequence[Drawer], others: Sequence[Assembly]) -> Iterator[Board]:
    for assembly in others:
        yield from assembly.boards
    for drawer in drawers:
        yield from drawer.assembly.boards


def _only_heaviest(found: list[Finding], drawers: Sequence[Drawer], conditions: Conditions) -> list[Finding]:
    """Weight and corner notes carry their numbers as words, so the heaviest drawer speaks for the rest."""
    if not drawers:
        return found
    heaviest = max(drawers, key=lambda drawer: drawer_weight(drawer) + drawer_load(drawer, conditions)).name
    return [
        f for f in found if f.harm is not Harm.NOTE or f.kind not in ("weight", "corner strength") or f.where == heaviest
    ]  # fmt: skip


def gathered(found: Iterable[Finding]) -> tuple[Finding, ...]:
    """The findings with the same words and numbers put together, a long row of the same words too, one note of each kind; worst first."""
    merged = _together(
        found, lambda finding: (finding.kind, finding.harm, finding.what, finding.remedy, _spelled(finding)), least=2
    )
    merged = _together(merged, lambda finding: (finding.kind, finding.harm, finding.what, finding.remedy), least=_NAMED + 1)
    return tuple(sorted(_one_note_each(merged), key=_rank))


def _spelled(finding: Finding) -> tuple[tuple[str, object], ...]:
    return tuple((name, number.mm if isinstance(number, Length) else str(number)) for name, number in finding.numbers.items())


def _together(found: Iterable[Finding], alike: Callable[[Finding], object], least: int) -> list[Finding]:
    """Findings that are ``alike`` as one, where there are at least ``least`` of them: all their places, the worst one's numbers."""
    groups: dict[object, list[Finding]] = {}
    for finding in found:
        groups.setdefault(alike(finding), []).append(finding)
    return [one for same in groups.values() for one in (same if len(same) < least else [_as_one(same)])]


def _as_one(same: list[Finding]) -> Finding:
    worst = max(same, key=_badness)
    places = _places([finding.where for finding in same])
    alone = all(finding.numbers == worst.numbers for finding in same)
    return replace(worst, where=places if alone else f"{places} (figures: {worst.where})")


def _rank(finding: Finding) -> tuple[int, int]:
    return finding.harm, _ORDER.index(finding.kind) if finding.kind in _ORDER else len(_ORDER)


def _places(places: Sequence[str]) -> str:
    """``drawers 1, 2, 3 bottom`` for the same part of several drawers, else the places one after the other; at most a few."""
    named = list(dict.fromkeys(places))
    parts = [_DRAWER.fullmatch(place) for place in named]
    tails = {part["tail"] for part in parts if part}
    if len(named) > 1 and all(parts) and len(tails) == 1:
        return f"drawers {', '.join(part['number'] for part in parts if part)}{tails.pop()}"
    more = len(named) - _NAMED
    listed = ", ".join(named[:_NAMED])
    return f"{listed} and {more} more" if more > 0 else listed


def _one_note_each(found: Iterable[Finding]) -> Iterator[Finding]:
    notes: dict[str, list[Finding]] = {}
    for finding in found:
        if finding.harm is Harm.NOTE and finding.kind in _WORST_BY:
            notes.setdefault(finding.kind, []).append(finding)
        else:
            yield finding
    for same in notes.values():
        worst = max(same, key=_badness)
        yield worst if len(same) == 1 else replace(worst, where=f"{worst.where} (of all, the most)")


def _badness(finding: Finding) -> Fraction:
    """How bad among findings of its kind, by the number that tells it; nothing where none does."""
    by = _WORST_BY.get(finding.kind, "")
    number = finding.numbers.get(by.removeprefix("-"))
    size = number.mm if isinstance(number, Length) else Fraction(0)
    return -size if by.startswith("-") else size
