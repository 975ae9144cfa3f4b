"""On a machine's limit itself it still takes the part; the least division past it, it doesn't (MS-5, MS-6, MS-8)."""

from dataclasses import replace

import pytest

from joinlay.findings import Refused
from joinlay.lengths import Unit
from joinlay.settings import Guide, Role, settings_for
from joinlay.settings.ways import blade
from joinlay.shop import MachineKind, TenonStock, usual_shop
from tests.unit.settings.test_list import notes, quarter_inch_drawer
from tests.unit.settings.wood import board, dado, end_mortises, groove, inch, span

SHOP = usual_shop(Unit.INCH)
TABLE, BENCH = MachineKind.ROUTER_TABLE, MachineKind.BENCH


def card(of, shop=SHOP):
    (made,) = settings_for([of], shop).settings
    return made


def with_machines(**figures):
    return replace(SHOP, machines=replace(SHOP.machines, **figures))


def with_table(**figures):
    assert SHOP.machines.router_table is not None
    return with_machines(router_table=replace(SHOP.machines.router_table, **{key: inch(text) for key, text in figures.items()}))


@pytest.mark.parametrize(("length", "is_taken"), [("20", True), ("20 1/64", False)])
def test_the_longest_part_a_table_takes(length, is_taken):
    made = card(groove(board(length, "5", "1/2"), "3/8", "1/4", "1/4"), with_table(longest="20"))
    assert (made.machine is TABLE) is is_taken


@pytest.mark.parametrize(("length", "is_taken"), [("20", True), ("20 1/64", False)])
def test_the_farthest_a_part_reaches_from_its_fence(length, is_taken):
    made = card(dado(board(length, "5", "1/2"), "1/4", "1/4", "1/4"), with_table(farthest="20"))
    assert (made.machine is TABLE) is is_taken


@pytest.mark.parametrize(("near", "is_taken"), [("6", True), ("6 1/64", False)])
def test_the_farthest_a_fence_is_set(near, is_taken):
    made = card(dado(board("18", "5", "1/2"), near, "1/4", "1/4"), with_table(fence_reach="6"))
    assert (made.machine is TABLE) is is_taken


@pytest.mark.parametrize(("near", "is_guided"), [("6", True), ("6 1/64", False)])
def test_the_farthest_an_edge_guide_reaches(near, is_guided):
    assert SHOP.machines.hand_router is not None
    shop = with_machines(router_table=None, table_saw=None, hand_router=replace(SHOP.machines.hand_router, guide_reach=inch("6")))
    made = card(dado(board("18", "5", "1/2"), near, "1/4", "1/4"), shop)
    assert (made.guide is Guide.EDGE_GUIDE) is is_guided


@pytest.mark.parametrize(("deep", "is_reached"), [("1", True), ("1 1/64", False)])
def test_the_deepest_a_mortise_cutter_goes(deep, is_reached):
    shop = replace(with_machines(hand_router=None), tenons=(TenonStock(inch("1/4"), None, None, inch("1")),))
    of = end_mortises(board("18", "5", "1"), "1/2", "1/4", "3/4", deep, "2")
    assert (settings_for([of], shop).settings[0].machine is MachineKind.MORTISER) is is_reached


@pytest.mark.parametrize(("depth", "is_cut"), [("2", True), ("2 1/64", False)])
def test_the_deepest_a_saw_cuts(depth, is_cut):
    assert SHOP.machines.table_saw is not None
    shop = with_machines(table_saw=replace(SHOP.machines.table_saw, blade_height=inch("2")))
    cut = span("1", "1 1/2"), inch(depth), Role.CHANNEL, "groove", shop
    if is_cut:
        assert blade(*cut).width == shop.saw.kerf
    else:
        with pytest.raises(Refused, match=r"saw cuts 50\.8 mm at most"):
            blade(*cut)


@pytest.mark.parametrize(("wide", "is_cut"), [("1/8", True), ("7/64", False)])
def test_the_narrowest_channel_a_blade_cuts(wide, is_cut):
    shop = replace(SHOP, saw=replace(SHOP.saw, kerf=inch("1/8")))
    cut = span("1", f"1 {wide}"), inch("1/4"), Role.CHANNEL, "groove", shop
    if is_cut:
        assert blade(*cut).width == inch("1/8")
    else:
        with pytest.raises(Refused, match="the saw cuts"):
            blade(*cut)


@pytest.mark.parametrize(("longest", "is_run"), [("4", True), ("3 63/64", False)])
def test_the_smallest_part_that_is_run(longest, is_run):
    limits = replace(SHOP.machines.limits, smallest=inch("4"))
    made = card(dado(board(longest, "3", "1/2"), "1/4", "1/4", "1/4"), with_machines(limits=limits))
    assert (made.machine is not BENCH) is is_run


@pytest.mark.parametrize(("wide", "is_cut"), [("1/8", True), ("7/64", False)])
def test_the_narrowest_chisel(wide, is_cut):
    shop = with_machines(router_table=None, table_saw=None, hand_router=None)
    assert shop.machines.hand_tools is not None
    assert shop.machines.hand_tools.narrowest_chisel == inch("1/8")
    found = settings_for([groove(board("18", "5", "1/2"), "3/8", wide, "1/4")], shop)
    assert [each.machine for each in found.settings] == ([BENCH] if is_cut else [])


# One cutter of 1/4 in: an end part 1/2 in thick is one set-up, and up to 2 mm off it is worth saying.
@pytest.mark.parametrize(("over", "is_said"), [("2 mm", True), ("2.1 mm", False)])
def test_how_far_off_one_set_up_is_worth_saying(over, is_said):
    millimetres = {"2 mm": "14.7 mm", "2.1 mm": "14.8 mm"}[over]
    found = settings_for(quarter_inch_drawer(thick=millimetres), SHOP)
    assert bool(notes(found, "nearly one set-up")) is is_said
