"""The rabbet: RA-1."""

from __future__ import annotations

import pytest

from joinlay.boards import CutKind, Span, Surface
from joinlay.errors import BadInput
from joinlay.findings import Harm, Refused
from joinlay.joints.rabbet import cut_rabbet, design_rabbet
from joinlay.lengths import inches
from tests import by_hand
from tests.unit.joints.wood import board, f, shop, size, spans, way_out


def designed(into="3/4", panel="1/4", owned=None, named="", **given):
    asked = {name: size(text, name) for name, text in given.items()}
    return design_rabbet(
        into=size(into, "side"), panel=size(panel, "back"), shop=owned or shop(), role=by_hand.joint_called(named), **asked
    )


def test_as_wide_as_the_back_and_a_thirty_second_half_as_deep_as_the_side():
    joint = designed(named="case back")
    assert (joint.width, joint.depth, joint.findings) == (inches("9/32"), inches("3/8"), ())
    assert joint.width.name == "case back rabbet width"


def test_without_allowance():
    assert designed(owned=shop(rabbet_allowance="0")).width == inches("1/4")


def test_down_to_the_rule():
    assert designed(into="23/32").depth == inches("11/32")
    assert designed(into="1/32", panel="1/8").depth == inches("1/64")


def test_sizes_asked_for_are_kept():
    joint = designed(width="1/2", depth="1/4")
    assert (joint.width, joint.depth, joint.findings) == (inches("1/2"), inches("1/4"), ())


@pytest.mark.parametrize("depth", ["1/8", "7/16", "1/2"])
def test_a_depth_off_the_usual_is_warned_of(depth):
    (found,) = designed(depth=depth, named="case back").findings
    assert (found.rule, found.harm, found.where) == ("RA-1", Harm.WARN, "case back")


def test_over_two_thirds_is_refused():
    with pytest.raises(Refused) as refused:
        designed(depth="17/32")
    assert way_out(refused.value.finding) == "At most 1/2 in deep, 3/8 in usual."


@pytest.mark.parametrize("wrong", [{"into": "0"}, {"panel": "-1"}, {"width": "0"}, {"depth": "-1/4"}])
def test_sizes_that_are_none(wrong):
    with pytest.raises(BadInput, match="must be more than 0"):
        designed(**wrong)


@pytest.mark.parametrize(
    ("at", "where"),
    [
        (Surface.EDGE, ((0, 30), (0, f("9/32")))),
        (Surface.FAR_EDGE, ((0, 30), (12 - f("9/32"), 12))),
        (Surface.END, ((0, f("9/32")), (0, 12))),
        (Surface.FAR_END, ((30 - f("9/32"), 30), (0, 12))),
    ],
)
def test_along_any_edge_or_end(at, where):
    (cut,) = cut_rabbet(
        designed(named="case"), board("30", "12", "3/4"), at, by_hand.part("back"), which=by_hand.part("back")
    ).cuts
    assert (cut.kind, cut.name, cut.mate, cut.joint) == (CutKind.RABBET, "back rabbet", "back", "case")
    assert spans(cut) == (*where, (0, f("3/8")))


def test_in_the_far_face_for_part_of_its_length():
    run = Span(size("1"), size("29"))
    (cut,) = cut_rabbet(designed(), board("30", "12", "3/4"), Surface.EDGE, None, face=Surface.FAR_FACE, run=run).cuts
    assert spans(cut) == ((1, 29), (0, f("9/32")), (f("3/8"), f("3/4")))


@pytest.mark.parametrize("wrong", [{"at": Surface.FACE}, {"at": Surface.EDGE, "face": Surface.END}])
def test_surfaces_of_the_wrong_kind(wrong):
    with pytest.raises(BadInput, match="a rabbet lies in a face"):
        cut_rabbet(designed(), board("30", "12", "3/4"), mate=None, **wrong)
