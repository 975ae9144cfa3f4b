"""The law of the settings over whole pieces drawn at random: solid wood and sheets, every joint, inches and millimetres, shops
of all kinds.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import permutations

from hypothesis import assume, event, given, settings
from hypothesis import strategies as st

from joinlay.boards import PartKind
from joinlay.findings import Harm, Refused
from joinlay.settings import Adjustment, Guide, settings_for
from joinlay.shop import MachineKind, Shop
from joinlay.stock import Solid
from tests.assembly.any_piece import specs
from tests.assembly.cutting import assert_no_pass_climbs, cells, cut_boxes, grid_of, taken_by_settings
from tests.assembly.pieces import tried
from tests.properties.test_settings import drawer_jobs
from tests.unit.templates.story.pieces import left_open

#: What a shop may lack, and how it may like to work.
KINDS = ("usual", "no router table", "saw first, with a dado set", "only a hand-held router", "no mortiser")


def a_shop_like(own: Shop, kind: str) -> Shop:
    """``own`` with other machines."""
    machines = own.machines
    if kind in ("no router table", "only a hand-held router"):
        machines = replace(machines, router_table=None)
    if kind == "only a hand-held router":
        machines = replace(machines, table_saw=None, has_mortiser=False)
    if kind == "no mortiser":
        machines = replace(machines, has_mortiser=False)
    if kind == "saw first, with a dado set" and machines.table_saw is not None:
        widths = tuple(cutter.diameter for cutter in own.cutters)
        order = (MachineKind.TABLE_SAW, MachineKind.ROUTER_TABLE, MachineKind.HAND_ROUTER)
        machines = replace(machines, table_saw=replace(machines.table_saw, dado_widths=widths), first_choice=order)
    return replace(own, machines=machines)


def assert_cut_as_planned(boards, found):
    """Cell for cell, what the cards take out is what the plan takes out, but for the cuts that were refused by name."""
    refused = {finding.where for finding in found.findings if finding.harm is Harm.REFUSE}
    taken = taken_by_settings(found.settings, boards)
    for board in boards:
        wanted = [
            box for cut, box in zip(board.cuts, cut_boxes(board), strict=True) if f"{board.name}, {cut.name}" not in refused
        ]
        grid = grid_of(wanted, taken[board.name])
        assert cells(wanted, grid) == cells(taken[board.name], grid), board.name


def test_a_piece_with_places_left_open_is_cut_by_its_settings_exactly():
    """Shelves in dadoes of a partition and on pins in it, panels over and under, and pigeonholes alone (RO-1, SH-1, SH-2)."""
    plan = left_open()
    assert not plan.is_refused
    found = settings_for(plan.boards, plan.shop)
    assert {board.role.kind for board in plan.boards if board.role.bay} >= {PartKind.SHELF, PartKind.CASE_PARTITION}
    assert_cut_as_planned(plan.boards, found)


@settings(max_examples=20)
@given(specs(), st.sampled_from(KINDS))
def test_every_board_of_a_piece_is_cut_by_its_settings_exactly(drawn, kind):
    spec, own = drawn
    made = tried(spec, own)
    if isinstance(made, Refused):
        event("refused")
        return
    shop = a_shop_like(own, kind)
    found = settings_for(made.boards, shop)
    event(f"{kind}, {'solid' if isinstance(spec.case.sides, Solid) else 'sheet'} case")
    assert_cut_as_planned(made.boards, found)
    assert_no_pass_climbs(found.settings, made.boards)
    assert found.set_ups <= found.naive_set_ups
    assert sum(card.set_ups for card in found.settings) == found.set_ups
    cut = {board.name for board in made.boards if board.cuts}
    refused = {finding.where.split(", ")[0] for finding in found.findings if finding.harm is Harm.REFUSE}
    assert cut == {name for card in found.settings for name in card.board_names} | (refused & cut)


def changes_of(order):
    """How often cutter, fence and height change over these cards, counted afresh from what they say."""
    standing: dict[MachineKind, tuple[object, ...]] = {}
    count = (0, 0, 0)
    for card in order:
        for each in card.passes:
            line = None if card.guide in (Guide.CENTRE_LINE, Guide.GAUGED_LINE) else each.guide or each.near_side
            now, was = (card.tool, (card.guide, line), each.height), standing.get(card.machine)
            changed = (1, 1, 1) if was is None or was[0] != now[0] else (0, int(was[1] != now[1]), int(was[2] != now[2]))
            count = (count[0] + changed[0], count[1] + changed[1], count[2] + changed[2])
            standing[card.machine] = now
    return count


@settings(max_examples=25)
@given(drawer_jobs())
def test_no_order_of_a_small_job_s_cards_changes_less(job):
    drawer, shop = job
    found = settings_for(drawer.assembly.boards, shop)
    assume(len(found.settings) <= 7)
    event(f"{len(found.settings)} cards")
    first = [(found.settings[i - 1].number, found.settings[j - 1].number) for i, j in found.first_then]
    orders = permutations(found.settings)
    kept = (order for order in orders if all(place[i] < place[j] for place in [_places(order)] for i, j in first))
    assert changes_of(found.settings) == min(changes_of(order) for order in kept)
    assert [Adjustment.CUTTER in card.changes for card in found.settings].count(True) == found.cutter_changes


def _places(order):
    return {card.number: n for n, card in enumerate(order)}
