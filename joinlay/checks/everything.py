"""All the checks over a whole piece, gathered so that the worst stands first and a sound piece says little."""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.checks.bar_end import check_bar_end
from joinlay.checks.case_seasons import check_case_seasons, check_damp_play, frame_year
from joinlay.checks.clashes import check_clashes
from joinlay.checks.corner_strength import check_corners
from joinlay.checks.fit import check_fit
from joinlay.checks.fitting import note_full
from joinlay.checks.gathering import gathered
from joinlay.checks.panel_sag import check_panels
from joinlay.checks.play import check_play
from joinlay.checks.racking import check_racking
from joinlay.checks.runner_wear import check_wear
from joinlay.checks.sag import check_sag, stop_height
from joinlay.checks.seasons import check_seasons
from joinlay.checks.shelf_sag import check_shelves
from joinlay.checks.tipping import check_tipping
from joinlay.checks.walls import check_walls
from joinlay.checks.weights import check_weight, drawer_load, drawer_weight, stocks_by_name
from joinlay.findings import Finding, Harm

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from joinlay.boards import Board
    from joinlay.casework.assembly import Assembly, Drawer
    from joinlay.checks.conditions import Conditions
    from joinlay.shop import Shop
    from joinlay.stock import Stock

__all__ = ["check_board", "check_drawer", "find_everything", "gathered"]


def find_everything(
    drawers: Sequence[Drawer],
    others: Sequence[Assembly],
    stocks: Mapping[str, Stock],
    shop: Shop,
    conditions: Conditions,
    shops: Mapping[str, Shop] | None = None,
) -> tuple[Finding, ...]:
    """Every finding of the checks floor over a planned piece, the worst first (CK-1 to CK-7, DR-6, RN-5).

    ``drawers`` from the top down, ``others`` the case, frame and runners (none where only openings are planned), ``stocks`` as
    the job names them. ``shops`` are the shops of drawers that have figures of their own, by the drawer's name; ``shop`` is
    everything else's. The same warning about several parts is told once with their names; of notes, one of each kind.
    """
    found: list[Finding] = []
    for drawer in drawers:
        own = (shops or {}).get(drawer.name, shop)
        found += check_drawer(drawer, own, conditions, tuple(stocks.values()), others)
        for board in drawer.assembly.boards:
            found += check_board(board, own)
    for assembly in others:
        for board in assembly.boards:
            found += check_board(board, shop)
    by_name = stocks_by_name(stocks.values())
    found += check_case_seasons(others, drawers, by_name, shop, conditions)
    found += check_shelves(others, by_name, shop, conditions)
    found += check_panels(others, drawers, by_name, shop, conditions)
    found += check_wear(others, by_name)
    found += check_tipping(others, drawers, by_name, shop, conditions)
    return gathered(_only_heaviest(found, drawers, conditions))


def check_drawer(
    drawer: Drawer,
    shop: Shop,
    conditions: Conditions,
    stocks: Sequence[Stock] = (),
    others: Sequence[Assembly] = (),
) -> tuple[Finding, ...]:
    """Every finding about one drawer as a whole (CK-1 to CK-7); its boards one by one are ``check_board``'s."""
    sideways, (_, lower) = frame_year(drawer, others, stocks_by_name(stocks), conditions)
    planed = drawer.make.planed
    room = (
        (*check_play(drawer, shop), *check_fit(drawer, shop, conditions.finish))
        if planed is None
        else (note_full(drawer.name, planed),)
    )
    return (
        *room,
        *check_racking(drawer, shop),
        *check_sag(drawer, shop, conditions, stocks, stop_height(drawer, shop)),
        *check_bar_end(drawer, shop),
        *check_seasons(drawer, shop, conditions, lower),
        *check_damp_play(drawer, sideways, shop, conditions),
        *check_weight(drawer, shop, conditions),
        *check_corners(drawer, shop, conditions),
    )


def check_board(board: Board, shop: Shop) -> tuple[Finding, ...]:
    """Every finding about the cuts of one board (CK-7)."""
    return (*check_clashes(board, shop.practice), *check_walls(board, shop.practice))


def _only_heaviest(found: list[Finding], drawers: Sequence[Drawer], conditions: Conditions) -> list[Finding]:
    """Weight and corner notes carry their numbers as words, so the heaviest drawer speaks for the rest."""
    if not drawers:
        return found
    heaviest = max(drawers, key=lambda drawer: drawer_weight(drawer) + drawer_load(drawer, conditions)).name
    return [
        f for f in found if f.harm is not Harm.NOTE or f.kind not in ("weight", "corner strength") or f.where == heaviest
    ]  # fmt: skip
