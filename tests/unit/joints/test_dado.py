"""The dado: DA-1 to DA-5."""

from __future__ import annotations

import pytest

from joinlay.boards import CutKind, Span, Surface
from joinlay.errors import BadInput
from joinlay.findings import Harm, Refused
from joinlay.joints.dado import cut_dado, cut_notch, design_dado
from joinlay.lengths import inches, mm
from tests import by_hand
from tests.unit.joints.wood import board, f, said, shop, size, spans, way_out, with_cutters


def designed(into="3/4", panel="23/32", owned=None, **given):
    asked = {name: size(text, name) if isinstance(text, str) and name != "named" else text for name, text in given.items()}
    asked["role"] = by_hand.joint_called(asked.pop("named", ""))
    return design_dado(into=size(into, "side"), panel=size(panel, "shelf"), shop=owned or shop(), **asked)


def test_as_wide_as_its_panel():
    assert designed().width == inches("23/32")
    assert designed(owned=shop(panel_fit="1/64")).width == inches("47/64")


@pytest.mark.parametrize(("into", "depth"), [("3/4", "1/4"), ("1", "5/16"), ("1/2", "5/32")])
def test_a_third_down_to_the_rule(into, depth):
    assert designed(into=into).depth == inches(depth)


def test_a_coarse_rule_does_not_make_it_too_shallow():
    assert designed(into="1/16", panel="1/4", owned=with_cutters("1/4")).depth == inches("1/48")


@pytest.mark.parametrize("depth", ["3/16", "3/8"])
def test_a_quarter_to_a_half_may_be_asked_for(depth):
    joint = designed(depth=depth)
    assert joint.depth == inches(depth)
    assert joint.findings == ()


@pytest.mark.parametrize("depth", ["11/64", "13/32", "1/2"])
def test_less_or_more_is_warned_of(depth):
    (found,) = designed(depth=depth, named="left side").findings
    assert (found.rule, found.harm, found.where) == ("DA-2", Harm.WARN, "left side")


@pytest.mark.parametrize("depth", ["17/32", "3/4", "1 1/4"])
def test_much_more_is_refused(depth):
    with pytest.raises(Refused) as refused:
        designed(depth=depth)
    assert way_out(refused.value.finding) == "At most 1/2 in deep, 3/8 in usual."


def test_the_widest_cutter_that_fits():
    assert designed(panel="1/2").cutter == inches("1/2")
    assert designed(panel="1/2").passes[0].aside == mm(0)
    assert len(designed(panel="1/2").passes) == 1


def test_two_passes_move_the_fence_away_by_what_is_left():
    joint = designed()
    assert joint.cutter == inches("1/2")
    assert [one.aside for one in joint.passes] == [mm(0), inches("7/32")]


def test_more_passes_leave_nothing_between_them():
    moves = [one.aside for one in designed(panel="1", cutter="3/8").passes]
    assert moves == [mm(0), inches("5/16"), inches("5/8")]


def test_no_cutter_fits():
    with pytest.raises(Refused) as refused:
        designed(panel="1/8", owned=with_cutters("3/16", "1/4"), named="shelf")
    found = refused.value.finding
    assert (found.rule, found.where) == ("MS-8", "shelf")
    assert said(found) == "No cutter of the shop fits a dado 1/8 in wide; the thinnest is 3/16 in."
    assert way_out(found) == "A cutter of 1/8 in or less would do, or a dado at least 3/16 in wide."


def test_no_cutter_at_all():
    with pytest.raises(Refused, match="the shop has none"):
        designed(owned=with_cutters())


def test_a_cutter_too_wide_names_the_one_that_fits():
    with pytest.raises(Refused) as refused:
        designed(panel="3/16", cutter="1/4")
    assert way_out(refused.value.finding) == "A cutter of 3/16 in would do."


def test_dadoes_from_both_faces_leave_a_third():
    assert designed(opposite_depth="1/4").depth == inches("1/4")
    with pytest.raises(Refused) as refused:
        designed(opposite_depth="9/32")
    assert refused.value.finding.rule == "DA-3"
    assert way_out(refused.value.finding) == "Together they may be 1/2 in deep."


@pytest.mark.parametrize("wrong", [{"into": "0"}, {"panel": "-1"}, {"cutter": "0"}, {"depth": "-1/4"}, {"opposite_depth": "0"}])
def test_sizes_that_are_none(wrong):
    with pytest.raises(BadInput, match="must be more than 0"):
        designed(**wrong)


def test_a_through_dado_in_a_board():
    side = cut_dado(
        designed(named="case"), board("30", "12", "3/4"), size("8"), by_hand.part("shelf"), which=by_hand.part("shelf")
    )
    (cut,) = side.cuts
    assert (cut.kind, cut.name, cut.mate, cut.joint, cut.surface) == (CutKind.DADO, "shelf dado", "shelf", "case", Surface.FACE)
    assert spans(cut) == ((8, f("8 23/32")), (0, 12), (0, f("1/4")))


def test_a_dado_counts_from_the_far_end_and_in_the_far_face():
    side = cut_dado(designed(), board("30", "12", "3/4"), size("1/2"), None, at=Surface.FAR_END, face=Surface.FAR_FACE)
    assert spans(side.cuts[0]) == ((30 - f("1 7/32"), f("29 1/2")), (0, 12), (f("1/2"), f("3/4")))


def test_a_stopped_dado_and_its_notch():
    joint = designed(is_stopped=True)
    assert joint.margin == inches("1/2")
    assert [(found.rule, found.harm) for found in joint.findings] == [("DA-4", Harm.NOTE)]
    near = cut_dado(joint, board("30", "12", "3/4"), size("8"), by_hand.part("shelf"))
    far = cut_dado(joint, board("30", "12", "3/4"), size("8"), by_hand.part("shelf"), show_edge=Surface.FAR_EDGE)
    assert (spans(near.cuts[0])[1], spans(far.cuts[0])[1]) == ((f("1/2"), 12), (0, f("11 1/2")))
    shelf = cut_notch(
        joint, board("20", "12", "23/32", "shelf"), Surface.END, by_hand.part("side"), which=by_hand.part("left front")
    )
    shelf = cut_notch(joint, shelf, Surface.FAR_END, by_hand.part("side"), show_edge=Surface.FAR_EDGE)
    assert [cut.name for cut in shelf.cuts] == ["left front notch", "notch"]
    assert spans(shelf.cuts[0]) == ((0, f("1/4")), (0, f("1/2")), (0, f("23/32")))
    assert spans(shelf.cuts[1]) == ((f("19 3/4"), 20), (f("11 1/2"), 12), (0, f("23/32")))


def test_a_dado_may_be_told_where_to_run():
    side = cut_dado(designed(is_stopped=True), board("30", "12", "3/4"), size("8"), None, across=Span(size("2"), size("3")))
    assert spans(side.cuts[0])[1] == (2, 3)


def test_a_through_dado_has_no_notch():
    with pytest.raises(BadInput, match="needs no notch"):
        cut_notch(designed(), board("20", "12", "23/32"), Surface.END, None)


@pytest.mark.parametrize("wrong", [{"at": Surface.EDGE}, {"face": Surface.EDGE}, {"show_edge": Surface.FACE}])
def test_surfaces_of_the_wrong_kind(wrong):
    with pytest.raises(BadInput):
        cut_dado(designed(), board("30", "12", "3/4"), size("8"), None, **wrong)


def test_a_dado_past_the_end_of_the_board():
    with pytest.raises(BadInput, match="dado runs from"):
        cut_dado(designed(), board("30", "12", "3/4"), size("29 1/2"), None)
