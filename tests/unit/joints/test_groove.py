"""The bottom groove: GR-1 and GR-3."""

from __future__ import annotations

import pytest

from joinlay.boards import CutKind, Surface
from joinlay.errors import BadInput
from joinlay.findings import Harm, Refused
from joinlay.joints.groove import cut_groove, design_groove
from joinlay.lengths import Unit, inches, mm
from tests import by_hand
from tests.unit.joints.wood import board, f, said, shop, size, spans, way_out, with_cutters


def designed(into="1/2", panel="1/4", owned=None, named="", **given):
    asked = {name: size(text, name) for name, text in given.items()}
    return design_groove(
        into=size(into, "side"), panel=size(panel, "bottom"), shop=owned or shop(), role=by_hand.joint_called(named), **asked
    )


def test_the_usual_groove():
    joint = designed(named="drawer 1")
    assert (joint.width, joint.depth, joint.offset) == (inches("1/4"), inches("1/4"), inches("3/8"))
    assert (joint.cutter, len(joint.passes), joint.findings) == (inches("1/4"), 1, ())
    assert joint.offset.name == "drawer 1 groove offset"


def test_half_of_a_thin_side():
    assert designed(into="3/8").depth == inches("3/16")
    assert designed(into="11/32").depth == inches("5/32")


def test_a_fit_widens_it():
    assert designed(owned=shop(panel_fit="1/64")).width == inches("17/64")


def test_a_metric_groove():
    joint = designed(into="12 mm", panel="5.6 mm", owned=shop(Unit.MM))
    assert (joint.width, joint.depth, joint.offset, joint.cutter) == (mm("5.6"), mm(6), mm(10), mm(5))
    assert [one.aside for one in joint.passes] == [mm(0), mm("0.6")]


@pytest.mark.parametrize(("panel", "said"), [("1/2", []), ("17/32", ["panel thickness"]), ("1 1/2", ["panel thickness"])])
def test_a_bottom_thicker_than_its_sides_is_warned_of(panel, said):
    found = designed(panel=panel, offset="2").findings
    assert [(one.kind, one.harm) for one in found] == [(kind, Harm.WARN) for kind in said]


def test_a_bottom_over_three_times_its_sides_is_refused_and_the_most_is_said_and_goes():
    with pytest.raises(Refused) as refused:
        designed(into="1/4", panel="3", offset="6")
    assert said(refused.value.finding) == "A panel 3 in thick can't be held by a groove in wood only 1/4 in thick."
    assert "A panel of at most 3/4 in" in way_out(refused.value.finding)
    assert "wood of at least 1 in" in way_out(refused.value.finding)
    designed(into="1/4", panel="3/4", offset="6")
    designed(into="1", panel="3", offset="6")


def test_a_thick_bottom_keeps_as_much_wood_below_it():
    assert designed(into="3/4", panel="1/2").offset == inches("1/2")


@pytest.mark.parametrize(("offset", "panel"), [("7/32", "1/4"), ("1/4", "3/8"), ("1/8", "1/4")])
def test_little_wood_below_is_warned_of(offset, panel):
    (found,) = designed(offset=offset, panel=panel, named="drawer 1").findings
    assert (found.rule, found.harm, found.where) == ("GR-1", Harm.WARN, "drawer 1")


@pytest.mark.parametrize("offset", ["1/4", "3/8", "1"])
def test_wood_enough_below(offset):
    joint = designed(offset=offset)
    assert joint.offset == inches(offset)
    assert joint.findings == ()


def test_hardly_any_wood_below_is_refused():
    with pytest.raises(Refused) as refused:
        designed(offset="3/32")
    assert said(refused.value.finding) == "Only 3/32 in of wood would be left below the groove, and it would break out."
    assert way_out(refused.value.finding) == "Leave at least 1/4 in."


def test_the_shops_own_offset_is_held_to_the_rule_too():
    assert [found.rule for found in designed(owned=shop(groove_offset="3/16"), panel="1/8").findings] == ["GR-1"]


@pytest.mark.parametrize(("depth", "kinds"), [("1/4", []), ("1/16", []), ("1/32", ["groove depth"]), ("5/16", ["groove depth"])])
def test_a_depth_asked_for(depth, kinds):
    joint = designed(depth=depth)
    assert joint.depth == inches(depth)
    assert [found.kind for found in joint.findings] == kinds


def test_too_deep_is_refused():
    with pytest.raises(Refused) as refused:
        designed(depth="3/8")
    assert refused.value.finding.rule == "GR-1"


def test_no_cutter_fits():
    with pytest.raises(Refused) as refused:
        designed(panel="1/8", owned=with_cutters("1/4"), named="drawer 1")
    assert (refused.value.finding.rule, refused.value.finding.where) == ("MS-8", "drawer 1")


def test_a_cutter_asked_for():
    assert [one.aside for one in designed(cutter="3/16").passes] == [mm(0), inches("1/16")]
    with pytest.raises(Refused) as refused:
        designed(cutter="3/8")
    assert way_out(refused.value.finding) == "A cutter of 1/4 in would do."


@pytest.mark.parametrize("wrong", [{"into": "0"}, {"panel": "-1"}, {"cutter": "0"}, {"offset": "0"}, {"depth": "-1/4"}])
def test_sizes_that_are_none(wrong):
    with pytest.raises(BadInput, match="must be more than 0"):
        designed(**wrong)


def test_a_through_groove():
    (cut,) = cut_groove(designed(named="drawer 1"), board("18", "4", "1/2"), by_hand.part("bottom")).cuts
    assert (cut.kind, cut.name, cut.mate, cut.joint, cut.surface) == (
        CutKind.GROOVE,
        "groove",
        "bottom",
        "drawer 1",
        Surface.FACE,
    )
    assert spans(cut) == ((0, 18), (f("3/8"), f("5/8")), (0, f("1/4")))


def test_a_groove_stopped_at_both_ends_at_its_own_height():
    front = board("18", "4", "3/4", "front")
    (cut,) = cut_groove(
        designed(), front, None, offset=size("11/32"), start=size("1/4"), stop=size("3/8"), which=by_hand.part("bottom")
    ).cuts
    assert cut.name == "bottom groove"
    assert spans(cut) == ((f("1/4"), f("17 5/8")), (f("11/32"), f("19/32")), (0, f("1/4")))


def test_a_groove_in_the_far_face_along_the_far_edge():
    (cut,) = cut_groove(designed(), board("18", "4", "1/2"), None, face=Surface.FAR_FACE, edge=Surface.FAR_EDGE).cuts
    assert spans(cut) == ((0, 18), (f("3 3/8"), f("3 5/8")), (f("1/4"), f("1/2")))


@pytest.mark.parametrize("wrong", [{"face": Surface.END}, {"edge": Surface.END}])
def test_surfaces_of_the_wrong_kind(wrong):
    with pytest.raises(BadInput, match="a groove lies in a face"):
        cut_groove(designed(), board("18", "4", "1/2"), None, **wrong)
