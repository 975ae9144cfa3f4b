"""The half-blind locking rabbet: LR-6 to LR-8."""

from __future__ import annotations

import pytest

from joinlay.boards import CutKind, Span, Surface
from joinlay.errors import BadInput
from joinlay.findings import Harm, Refused
from joinlay.joints.locking_rabbet import cut_end_part, cut_side, design_half_blind
from joinlay.lengths import NOTHING, inches, mm
from tests import by_hand
from tests.unit.joints.wood import board, f, number, said, shop, size, spans, way_out


def designed(side="1/2", end="3/4", cutter="1/4", owned=None, named="", **given):
    owned = owned or shop()
    return design_half_blind(
        side_thickness=size(side, "side"),
        end_thickness=size(end, "front"),
        cutter=size(cutter, "cutter"),
        practice=owned.practice,
        rule=owned.rule,
        role=by_hand.joint_called(named),
        **{name: size(text, name) for name, text in given.items()},
    )


def test_the_classic_set():
    joint = designed()
    quarter = inches("1/4")
    assert (joint.slot_width, joint.slot_depth) == (quarter, inches("1/2"))
    assert (joint.dado_width, joint.dado_depth, joint.dado_offset) == (quarter, quarter, quarter)
    assert (joint.tongue_thickness, joint.tongue_length, joint.lip, joint.tip_gap) == (quarter, quarter, quarter, mm(0))
    assert joint.end_part_addition == inches(1)
    assert not joint.one_setup
    assert [(found.rule, found.harm) for found in joint.findings] == [("LR-8", Harm.NOTE)]


def test_a_tip_gap_asked_for_is_kept_in_the_classic_set():
    joint = designed(tip_gap="1/64")
    assert joint.tongue_length == inches("15/64")
    assert joint.findings == ()
    assert designed(owned=shop(tip_gap="1/32")).tongue_length == inches("7/32")


def test_any_other_set_leaves_the_usual_tip_gap():
    for joint in (designed(end="13/16"), designed(side="5/8"), designed(dado_depth="3/16"), designed(tongue="5/16", end="1")):
        assert joint.tip_gap == inches("1/64")
        assert joint.tongue_length == joint.dado_depth - inches("1/64")
        assert joint.findings == ()


def test_the_lip_takes_what_is_left():
    assert designed(end="13/16").lip == inches("5/16")
    assert designed(end="5/8").lip == inches("1/8")


def test_a_thin_lip_is_refused_with_the_front_and_the_cutter_that_would_do():
    with pytest.raises(Refused) as refused:
        designed(end="9/16", named="drawer 1 front")
    found = refused.value.finding
    assert (found.rule, found.where) == ("LR-6", "drawer 1 front")
    assert said(found) == "The lip would be 1/16 in thick, under the least of 1/8 in."
    assert way_out(found) == "A front 5/8 in thick would do, or a cutter of 7/32 in or less."
    assert designed(end="9/16", cutter="7/32").lip == inches("1/8")


def test_no_lip_at_all():
    with pytest.raises(Refused) as refused:
        designed(end="1/8", cutter="3/16")
    assert said(refused.value.finding).startswith("Slot and tongue take the front's whole thickness")
    assert way_out(refused.value.finding) == "A front 1/2 in thick would do."


def test_with_a_tongue_of_its_own_the_cutter_takes_what_it_leaves():
    with pytest.raises(Refused) as refused:
        designed(end="11/16", tongue="3/8")
    assert number(refused.value.finding, "widest") == inches("3/16")


def test_a_wider_dado_is_cut_in_passes():
    joint = designed(tongue="5/16", end="1")
    assert joint.dado_width == joint.tongue_thickness == inches("5/16")
    assert [one.aside for one in joint.dado_passes] == [mm(0), inches("1/16")]
    assert [one.aside for one in designed().dado_passes] == [mm(0)]


def test_a_cutter_wider_than_the_dado_is_refused():
    with pytest.raises(Refused, match="wider than the dado"):
        designed(tongue="1/8")


def test_a_thin_wall_beyond_the_dado_is_refused():
    with pytest.raises(Refused) as refused:
        designed(side="3/4", end="1", cutter="3/16")
    assert refused.value.finding.rule == "LR-4"
    assert way_out(refused.value.finding) == "A cutter of 1/4 in or more would do."


def test_a_fit_thins_tongue_and_wall_alike():
    joint = designed(owned=shop(tongue_fit="0.1 mm"))
    assert joint.tongue_thickness == inches("1/4") - mm("0.1")
    assert joint.dado_offset == inches("1/4") - mm("0.1")
    # The side's end meets the lip, and its far wall comes flush with the front's inner face.
    assert joint.tongue_thickness + joint.slot_width - joint.dado_offset - joint.dado_width == mm(0)
    assert joint.lip + joint.slot_width + joint.tongue_thickness == inches("3/4")


def test_a_deep_dado_is_warned_of_and_then_refused():
    assert [found.rule for found in designed(dado_depth="5/16").findings] == ["LR-4"]
    with pytest.raises(Refused):
        designed(dado_depth="3/8")


@pytest.mark.parametrize("wrong", [{"side": "0"}, {"end": "-3/4"}, {"cutter": "0"}, {"dado_depth": "0"}, {"tongue": "0"}])
def test_sizes_that_are_none(wrong):
    with pytest.raises(BadInput, match="must be more than 0"):
        designed(**wrong)


def test_the_front_gets_a_slot_and_a_shorter_tongue_at_either_end():
    joint = designed(tip_gap="1/64", named="drawer 1 front corner")
    front = board("18", "4", "3/4", "front")
    front = cut_end_part(joint, front, Surface.END, by_hand.part("left side"), which=by_hand.part("left"))
    front = cut_end_part(joint, front, Surface.FAR_END, by_hand.part("right side"), which=by_hand.part("right"))
    slot, tip, far_slot, far_tip = front.cuts
    assert [cut.name for cut in front.cuts] == ["left slot", "left tongue end", "right slot", "right tongue end"]
    assert (slot.kind, slot.surface, tip.kind, tip.surface) == (CutKind.SLOT, Surface.END, CutKind.RABBET, Surface.FACE)
    assert far_slot.surface is Surface.FAR_END
    assert spans(slot) == ((0, f("1/2")), (0, 4), (f("1/4"), f("1/2")))
    assert spans(tip) == ((0, f("17/64")), (0, 4), (0, f("1/4")))
    assert spans(far_slot) == ((f("17 1/2"), 18), (0, 4), (f("1/4"), f("1/2")))
    assert spans(far_tip) == ((18 - f("17/64"), 18), (0, 4), (0, f("1/4")))


def test_the_side_gets_its_dado():
    side = cut_side(designed(), board("18", "4", "1/2"), Surface.END, by_hand.part("front"), which=by_hand.part("front"))
    assert spans(side.cuts[0]) == ((f("1/4"), f("1/2")), (0, 4), (0, f("1/4")))


def test_the_slot_may_stop_where_a_lower_side_ends():
    front = cut_end_part(designed(), board("18", "4", "3/4"), Surface.END, None, across=Span(NOTHING, size("3 1/2")))
    assert [spans(cut)[1] for cut in front.cuts] == [(0, f("3 1/2"))] * 2
