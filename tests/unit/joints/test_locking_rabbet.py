"""The plain locking rabbet: LR-1 to LR-5."""

from __future__ import annotations

import pytest

from joinlay.boards import CutKind, Span, Surface
from joinlay.errors import BadInput
from joinlay.findings import Harm, Refused
from joinlay.joints.locking_rabbet import cut_end_part, cut_side, design_locking_rabbet
from joinlay.lengths import NOTHING, Unit, inches, mm
from tests import by_hand
from tests.unit.joints.wood import INCH, board, f, number, said, shop, size, spans, way_out


def designed(side="1/2", end="1/2", cutter="1/4", owned=None, named="", **given):
    owned = owned or shop()
    return design_locking_rabbet(
        side_thickness=size(side, "side"),
        end_thickness=size(end, "back"),
        cutter=size(cutter, "cutter"),
        practice=owned.practice,
        rule=owned.rule,
        role=by_hand.joint_called(named),
        **{name: size(text, name) for name, text in given.items()},
    )


def test_one_set_up_cuts_it_all():
    joint = designed()
    assert joint.one_setup
    sizes = (joint.dado_width, joint.dado_depth, joint.dado_offset, joint.tongue_thickness, joint.tongue_length)
    assert {*sizes, joint.rabbet_width, joint.rabbet_depth} == {inches("1/4")}
    assert joint.end_part_addition == inches("1/2")
    assert joint.tip_gap == mm(0)


def test_one_set_up_says_how_to_have_room_at_the_tip():
    (found,) = designed(named="drawer 2 back").findings
    assert (found.harm, found.where, found.rule) == (Harm.NOTE, "drawer 2 back", "LR-5")
    assert "ask for a tip gap of" in said(found)


def test_a_tip_gap_asked_for_is_kept():
    joint = designed(tip_gap="1/64")
    assert not joint.one_setup
    assert joint.tongue_length == joint.rabbet_width == inches("15/64")
    assert joint.end_part_addition == inches("15/32")
    assert joint.findings == ()


def test_the_shop_may_ask_for_a_tip_gap_or_a_fit():
    assert not designed(owned=shop(tip_gap="1/32")).one_setup
    fitted = designed(owned=shop(tongue_fit="0.1 mm"))
    assert not fitted.one_setup
    assert fitted.tongue_thickness == inches("1/4") - mm("0.1")
    assert fitted.rabbet_depth == inches("1/4") + mm("0.1")


def test_no_tip_gap_asked_for_is_one_set_up_without_remark():
    joint = designed(tip_gap="0")
    assert joint.one_setup
    assert joint.findings == ()


def test_a_cutter_deep_dado_asked_for_is_one_set_up_still():
    assert designed(dado_depth="1/4").one_setup


def test_a_dado_of_another_depth_is_not():
    joint = designed(dado_depth="3/16")
    assert not joint.one_setup
    assert joint.dado_depth == inches("3/16")
    assert joint.tongue_length == inches("11/64")


@pytest.mark.parametrize(
    ("side", "depth"),
    [
        ("1/2", "1/4"),
        ("5/8", "5/16"),
        ("15/32", "7/32"),  # half is 15/64: down to the rule
    ],
)
def test_half_the_side_down_to_the_rule(side, depth):
    assert designed(side=side, end="5/8").dado_depth == inches(depth)


def test_a_coarse_rule_does_not_make_it_too_shallow():
    assert designed(side="1/16", end="5/8", cutter="1/8").dado_depth == inches("1/32")


def test_ends_come_flush():
    joint = designed(side="1/2", end="3/4", cutter="3/8")
    assert joint.dado_offset == joint.rabbet_depth == inches("3/8")
    assert joint.dado_offset + joint.dado_width == inches("3/4")


def test_short_grain_is_refused_with_the_widest_cutter_that_works():
    with pytest.raises(Refused) as refused:
        designed(side="3/4", end="1/2", cutter="3/8", named="drawer 1 back")
    found = refused.value.finding
    assert (found.rule, found.where) == ("LR-4", "drawer 1 back")
    assert way_out(found) == "A cutter of 1/4 in or less would do, or an end part 5/8 in thick."
    assert designed(side="3/4", end="1/2", cutter="1/4").dado_offset == inches("1/4")
    assert designed(side="3/4", end="5/8", cutter="3/8").dado_offset == inches("1/4")


def test_a_cutter_as_wide_as_the_part_is_refused():
    with pytest.raises(Refused, match="leaves nothing beside the tongue"):
        designed(cutter="1/2")


def test_an_end_too_thin_for_any_cutter():
    with pytest.raises(Refused) as refused:
        designed(side="3/4", end="1/4", cutter="1/8")
    assert way_out(refused.value.finding) == "An end part 3/8 in thick would do."


@pytest.mark.parametrize(("depth", "harm"), [("1/16", Harm.WARN), ("5/16", Harm.WARN)])
def test_a_dado_off_the_usual_is_warned_of(depth, harm):
    (found,) = designed(side="1/2", end="5/8", dado_depth=depth).findings
    assert (found.rule, found.harm) == ("LR-4", harm)


def test_a_dado_through_the_side_is_refused():
    with pytest.raises(Refused) as refused:
        designed(dado_depth="3/8")
    assert number(refused.value.finding, "most") == inches("1/4")


@pytest.mark.parametrize(
    ("end", "cutter", "says"),
    [
        ("31/64", "1/4", "An end part 1/2 in thick (it is 31/64 in) would let one set-up cut it all."),
        ("17/32", "1/4", "An end part 1/2 in thick (it is 17/32 in) would let one set-up cut it all."),
        ("9/16", "1/4", "A 9/32 in cutter in place of the 1/4 in one would let one set-up cut it all."),
    ],
)
def test_what_would_make_it_one_set_up(end, cutter, says):
    (found,) = designed(side="9/16", end=end, cutter=cutter).findings
    assert said(found) == says


def test_a_cutter_that_nobody_sells_is_not_named():
    # Half of 0.472 is 0.236; and a quarter-inch dado is over half the side, so a thicker back would not do either.
    assert designed(side="0.472", end="0.472", cutter="1/4").findings == ()


def test_far_from_one_set_up_nothing_is_said():
    assert designed(end="3/4", side="3/4", cutter="1/4").findings == ()


def test_a_metric_rule_is_near_at_0_8():
    metric = shop(Unit.MM)
    assert [found.kind for found in designed(side="12 mm", end="12.8 mm", cutter="6 mm", owned=metric).findings] == ["one set-up"]
    assert designed(side="12 mm", end="12.8 mm", cutter="6 mm").findings == ()  # over 1/32 in
    assert designed(side="12 mm", end="13.7 mm", cutter="6 mm", owned=metric).findings == ()


@pytest.mark.parametrize("wrong", [{"side": "0"}, {"end": "-1/2"}, {"cutter": "0"}, {"dado_depth": "0"}, {"dado_depth": "-1/4"}])
def test_sizes_that_are_none(wrong):
    with pytest.raises(BadInput, match="must be more than 0"):
        designed(**wrong)


@pytest.mark.parametrize("gap", ["-1/64", "1/4", "1"])
def test_a_tip_gap_leaves_a_tongue(gap):
    with pytest.raises(BadInput, match="less than the dado"):
        designed(tip_gap=gap)


@pytest.mark.parametrize("fit", ["-0.1 mm", "1/4"])
def test_a_fit_leaves_a_tongue(fit):
    with pytest.raises(BadInput, match="tongue fit"):
        designed(owned=shop(tongue_fit=fit))


def test_the_side_gets_a_dado_near_either_end():
    joint = designed(named="drawer 1 back corner")
    side = cut_side(joint, board("18", "4", "1/2"), Surface.FAR_END, by_hand.part("back"), which=by_hand.part("back"))
    side = cut_side(joint, side, Surface.END, by_hand.part("front"))
    far, near = side.cuts
    assert (far.kind, far.name, far.mate, far.joint, far.surface) == (
        CutKind.DADO, "back dado", "back", "drawer 1 back corner", Surface.FACE,
    )  # fmt: skip
    assert near.name == "dado"
    assert spans(far) == ((f("17 1/2"), f("17 3/4")), (0, 4), (0, f("1/4")))
    assert spans(near) == ((f("1/4"), f("1/2")), (0, 4), (0, f("1/4")))


def test_the_end_part_gets_a_rabbet_in_its_outer_face():
    joint = designed(tip_gap="1/64")
    back = cut_end_part(
        joint, board("17", "4", "1/2", "back"), Surface.FAR_END, by_hand.part("right side"), which=by_hand.part("right")
    )
    back = cut_end_part(joint, back, Surface.END, by_hand.part("left side"), which=by_hand.part("left"))
    right, left = back.cuts
    assert (right.kind, right.name, right.surface) == (CutKind.RABBET, "right rabbet", Surface.FAR_FACE)
    assert spans(left) == ((0, f("15/64")), (0, 4), (f("1/4"), f("1/2")))
    assert spans(right) == ((17 - f("15/64"), 17), (0, 4), (f("1/4"), f("1/2")))


def test_both_may_stop_short_of_the_full_width():
    low = Span(NOTHING, size("3"))
    joint = designed()
    assert spans(cut_side(joint, board("18", "4", "1/2"), Surface.END, None, across=low).cuts[0])[1] == (0, 3)
    assert spans(cut_end_part(joint, board("17", "4", "1/2"), Surface.END, None, across=low).cuts[0])[1] == (0, 3)


@pytest.mark.parametrize("surface", [Surface.FACE, Surface.EDGE, Surface.FAR_EDGE])
def test_it_lies_at_an_end(surface):
    for cut in (cut_side, cut_end_part):
        with pytest.raises(BadInput, match="give END or FAR_END"):
            cut(designed(), board("18", "4", "1/2"), surface, None)


def test_the_working_names_its_numbers():
    joint = designed(named="drawer 1 back corner", tip_gap="1/64")
    assert joint.end_part_addition.expression(INCH.text) == "2 x drawer 1 back corner tongue length 15/64 in"
    assert joint.tongue_length.expression(INCH.text).startswith("drawer 1 back corner dado depth 1/4 in - tip_gap")
    assert (joint.dado_offset.rule, joint.tongue_length.rule) == ("LR-2", "LR-3")
