"""Mortises by the stops of a mortiser that takes no other depth (MS-10), and corners in a shop without a router."""

from dataclasses import replace

import pytest

from joinlay.casework.corners import HALF_BLIND, LOCKED
from joinlay.findings import Refused
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from joinlay.joints.loose_tenon import Use, design_loose_tenon
from joinlay.lengths import Length, Unit, inches
from joinlay.shop import Cutter, TenonStock, usual_shop
from tests.unit.casework.drawers import drawer, size, usual_make
from tests.unit.jobs.jobs import GOOD, only_trouble


def shop_with(*stops, tenon=None):
    usual = usual_shop(Unit.INCH)
    machines = replace(usual.machines, mortise_depths=tuple(size(stop) for stop in stops))
    return replace(usual, machines=machines, tenons=usual.tenons if tenon is None else (tenon,))


def joint(shop, end="1/2", face="3/4"):
    return design_loose_tenon(end_thickness=size(end), face_thickness=size(face), line=size("4 1/4"), shop=shop, use=Use.DRAWER)


def test_both_depths_are_stops_and_the_tenon_is_as_long_as_they_leave():
    made = joint(shop_with("3/8", "1/2", "5/8", "3/4"))
    # 4 x 4 mm is nearest to 5/8; the face of 3/4 keeps a quarter of itself, 3/16, so 9/16 at most.
    assert (made.depth_in_end, made.depth_in_face) == (inches("5/8"), inches("1/2"))
    assert made.tenon_length == inches("5/8") + inches("1/2") - inches("1/8")


def test_without_a_mortiser_its_stops_do_not_count():
    usual = shop_with("3/8")
    routed = replace(usual, machines=replace(usual.machines, has_mortiser=False))
    assert joint(routed).depth_in_end == joint(usual_shop(Unit.INCH)).depth_in_end


def test_a_face_too_thin_for_the_shallowest_stop_is_refused_with_the_stop_that_would_do():
    with pytest.raises(Refused, match="shallowest stop") as refused:
        joint(shop_with("5/8", "3/4"))
    limit = refused.value.finding.numbers["limit"]
    assert isinstance(limit, Length)
    assert joint(shop_with(f"{limit.inches}", "5/8")).depth_in_face == limit


def test_tenons_of_a_length_take_the_shallowest_stops_that_hold_them():
    ready = TenonStock(size("4 mm"), size("12 mm"), size("20 mm"))
    made = joint(shop_with("8 mm", "10 mm", "13 mm", "14 mm", "20 mm", tenon=ready))
    assert (made.depth_in_face, made.depth_in_end) == (size("10 mm"), size("14 mm"))
    with pytest.raises(Refused, match="deep together"):
        joint(shop_with("8 mm", "10 mm", tenon=ready))


def test_a_job_lists_them_and_each_card_names_its_stop():
    text = GOOD + '\n[shop]\nmortise-depths = ["3/4", "1/2", "5/8"]\n'
    made = plan(read_job(text, "chest.toml"))
    assert [depth.inches for depth in made.shop.machines.mortise_depths] == [
        inches(stop).inches for stop in ("1/2", "5/8", "3/4")
    ]
    told = [remark.sentence(made.rule.text) for remark in made.settings.remarks if remark.kind == "depth stop"]
    assert sorted(told) == [
        "set its depth to the stop at 1/2 in, the 1st of 3 from the shallowest",
        "set its depth to the stop at 5/8 in, the 2nd of 3 from the shallowest",
    ]


@pytest.mark.parametrize("written", ['["0"]', "[]", '["deep"]'])
def test_what_is_no_depth_is_said_with_its_line(written):
    trouble = only_trouble(f"{GOOD}\n[shop]\nmortise-depths = {written}\n")
    assert trouble.startswith("chest.toml:")
    assert "mortise-depth" in trouble


@pytest.mark.parametrize("make", [{"back_joint": LOCKED}, {"front_joint": HALF_BLIND}])
@pytest.mark.parametrize("stacks", [(), ("3/16", "5/16")])
def test_a_shop_without_a_router_takes_its_corners_from_what_it_has(make, stacks):
    usual = usual_shop(Unit.INCH)
    assert usual.machines.table_saw is not None
    saw = replace(usual.machines.table_saw, dado_widths=tuple(size(stack) for stack in stacks))
    machines = replace(usual.machines, router_table=None, hand_router=None, table_saw=saw)
    made = drawer(make=usual_make(**make), shop=replace(usual, machines=machines, cutters=()))
    # Half the back, or a third of the front, is a quarter on the rule; the saw's stacks serve as cutters of their widths do.
    cutters = tuple(Cutter(size(width), size("1")) for width in stacks or ("1/4",))
    routed = drawer(make=usual_make(**make), shop=replace(usual, cutters=cutters))
    assert [board.cuts for board in made.sides] == [board.cuts for board in routed.sides]
    with pytest.raises(Refused, match="no cutter"):
        drawer(make=usual_make(**make), shop=replace(usual, cutters=()))
