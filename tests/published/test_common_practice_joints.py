"""Common practice at the bench, with no single source: A16, A17 and A18 on the joints themselves. Inches."""

from __future__ import annotations

import pytest

from joinlay.boards import Surface
from joinlay.joints.groove import design_groove
from joinlay.joints.locking_rabbet import cut_end_part, cut_side, design_half_blind, design_locking_rabbet
from joinlay.joints.loose_tenon import KeepOut, Use, design_loose_tenon
from joinlay.lengths import inches, mm
from tests import by_hand
from tests.unit.joints.wood import board, shop, size, spans

QUARTER = inches("1/4")


def test_a16_the_classic_half_blind_set():
    """Front 3/4, side 1/2: slot 1/4 by 1/2 deep, tongue 1/4 cut to 1/4, lip 1/4, dado 1/4 by 1/4 at 1/4 from the end."""
    owned = shop()
    joint = design_half_blind(
        side_thickness=size("1/2"), end_thickness=size("3/4"), cutter=size("1/4"), practice=owned.practice, rule=owned.rule
    )
    assert (joint.slot_width, joint.slot_depth) == (QUARTER, inches("1/2"))
    assert (joint.tongue_thickness, joint.tongue_length, joint.lip) == (QUARTER, QUARTER, QUARTER)
    assert (joint.dado_width, joint.dado_depth, joint.dado_offset) == (QUARTER, QUARTER, QUARTER)
    # The side is as much shorter than the drawer as the lip is thick: from the front's face to the drawer's back.
    front = cut_end_part(joint, board("18", "4", "3/4"), Surface.END, by_hand.part("side"))
    side = cut_side(joint, board("19 3/4", "4", "1/2"), Surface.END, by_hand.part("front"))
    lip = front.thickness - front.cut_named("slot").into.stop
    assert inches(20) - lip == side.length
    assert joint.end_part_addition == inches(1)


def test_a17_one_set_up_makes_everything_a_quarter():
    """Stock 1/2, cutter 1/4; the bottom groove falls in with it."""
    owned = shop()
    joint = design_locking_rabbet(
        side_thickness=size("1/2"), end_thickness=size("1/2"), cutter=size("1/4"), practice=owned.practice, rule=owned.rule
    )
    side = cut_side(joint, board("18", "4", "1/2"), Surface.FAR_END, by_hand.part("back")).cuts[0]
    back = cut_end_part(joint, board("18", "4", "1/2"), Surface.END, by_hand.part("side")).cuts[0]
    groove = design_groove(into=size("1/2"), panel=size("1/4"), shop=owned, offset=size("1/4"))
    assert joint.one_setup
    quarters = {
        joint.dado_width, joint.dado_depth, joint.dado_offset, joint.tongue_thickness, joint.tongue_length, joint.rabbet_width,
        joint.rabbet_depth, side.along.size, side.depth, back.along.size, back.depth, groove.width, groove.depth, groove.offset,
    }  # fmt: skip
    assert quarters == {QUARTER}
    assert spans(side)[0] == (17.5, 17.75)


def test_a17_with_a_tip_gap_takes_more_than_one():
    owned = shop()
    joint = design_locking_rabbet(
        side_thickness=size("1/2"), end_thickness=size("1/2"), cutter=size("1/4"), practice=owned.practice, rule=owned.rule,
        tip_gap=size("1/64"),
    )  # fmt: skip
    assert not joint.one_setup


@pytest.mark.parametrize("is_solid", [False, True])
def test_a18_a_drawer_corner_4_1_4_high_takes_three_small_tenons(is_solid):
    """Side 1/2, bottom groove low down: three tenons of 4 mm, all above the groove."""
    groove = KeepOut(size("3/8"), size("5/8"), "bottom groove")
    joint = design_loose_tenon(
        end_thickness=size("1/2"), face_thickness=size("3/4"), line=size("4 1/4"), shop=shop(), use=Use.DRAWER,
        is_solid=is_solid, keep_outs=[groove],
    )  # fmt: skip
    assert len(joint.centres) == 3
    assert joint.tenon_thickness == mm(4)
    assert joint.mortise_span(0).start >= inches("3/4")
    assert joint.largest_spacing == joint.smallest_spacing
    assert joint.findings == ()


def test_a18_a_three_quarter_face_frame_takes_6_mm():
    joint = design_loose_tenon(
        end_thickness=size("3/4"), face_thickness=size("1 1/2"), line=size("1 1/2"), shop=shop(), use=Use.FRAME
    )
    assert joint.tenon_thickness == mm(6)
    assert joint.from_reference_face == inches("3/8")
