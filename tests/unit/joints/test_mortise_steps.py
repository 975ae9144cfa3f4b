"""Mortises on a machine whose fence has steps and which gives certain widths only (MS-10); the values counted by hand."""

from dataclasses import replace
from typing import Any

import pytest

from joinlay.findings import Refused
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from joinlay.joints.loose_tenon import Use, design_loose_tenon
from joinlay.lengths import Length, Unit, inches, mm
from joinlay.settings.elements import Guide
from joinlay.shop import MachineKind, TenonStock, usual_shop
from tests.unit.casework.drawers import size
from tests.unit.jobs.jobs import GOOD, only_trouble


def shop_with(heights=(), widths=(), tenon=None, slack=None, **machines):
    usual = usual_shop(Unit.INCH)
    steps: dict[str, Any] = {"mortise_heights": tuple(map(size, heights)), "mortise_widths": tuple(map(size, widths))}
    practice = usual.practice if slack is None else usual.practice.but({"mortise slack": size(slack)}, {})
    tenons = usual.tenons if tenon is None else (tenon,)
    return replace(usual, machines=replace(usual.machines, **steps, **machines), practice=practice, tenons=tenons)


def joint(shop, end="1/2", use=Use.DRAWER, line="4 1/4"):
    return design_loose_tenon(end_thickness=size(end), face_thickness=size("3/4"), line=size(line), shop=shop, use=use)


def test_the_fence_takes_the_step_nearest_the_middle_and_of_two_as_near_the_lower():
    # Half of 1/2 is 1/4; 4 mm are 0.157, a wall is 1/8: from 0.204 to 0.296 will do, and both 7/32 and 9/32 are 1/32 off.
    made = joint(shop_with(heights=("1/8", "7/32", "9/32", "3/8")))
    assert (made.from_reference_face, made.from_far_face) == (inches("7/32"), inches("9/32"))
    assert made.from_reference_face.rule == "MS-10, MS-7"
    centred = joint(shop_with(heights=("1/8", "1/4")))
    assert centred.from_reference_face == centred.from_far_face == inches("1/4")


def test_a_fence_that_leaves_too_thin_a_wall_is_refused_with_steps_that_would_do():
    with pytest.raises(Refused, match="the nearest is") as refused:
        joint(shop_with(heights=("3/16", "5/16")))
    numbers = refused.value.finding.numbers
    # 13/64 is 0.203, less than 0.204; so 7/32, and 9/32 at most.
    assert (numbers["nearest"], numbers["least"], numbers["most"]) == (inches("3/16"), inches("7/32"), inches("9/32"))
    for would_do in (numbers["least"], numbers["most"]):
        assert isinstance(would_do, Length)
        assert joint(shop_with(heights=("3/16", f"{would_do.inches}"))).from_reference_face == would_do


def test_tenons_are_as_wide_as_the_machine_can_cut_their_mortises():
    # 3 x 4 mm is 12; 11 and 13 are as near.
    assert joint(shop_with(widths=("8 mm", "11 mm", "13 mm", "30 mm"))).tenon_width == mm(11)
    # 4 mm takes 8 to 24.
    with pytest.raises(Refused, match="nearest width the mortiser gives is") as refused:
        joint(shop_with(widths=("7 mm", "25 mm"), tenon=TenonStock(size("4 mm"))))
    numbers = refused.value.finding.numbers
    assert (numbers["nearest"], numbers["least"], numbers["most"]) == (mm(7), mm(8), mm(24))
    assert joint(shop_with(widths=("24 mm",))).tenon_width == mm(24)


def test_in_a_rail_the_width_lies_between_the_shoulders():
    # 3/4 less twice 3/16 leaves 3/8, 9.525 mm; 6 mm of 3/4 in wants 18, and takes 12 at least, so the 4 mm one at 8 or 9.
    rail = {"end": "3/4", "use": Use.FRAME, "line": "3/4"}
    assert joint(shop_with(widths=("8 mm", "9 mm", "10 mm")), **rail).tenon_width == mm(9)
    with pytest.raises(Refused, match="nearest width") as refused:
        joint(shop_with(widths=("10 mm",), tenon=TenonStock(size("4 mm"))), **rail)
    numbers = refused.value.finding.numbers
    assert (numbers["least"], numbers["most"]) == (mm(8), inches("3/8"))
    with pytest.raises(Refused, match="lowest rail"):
        joint(shop_with(widths=("10 mm",)), **{**rail, "line": "1/2"})


def test_ready_made_tenons_want_their_own_width_and_the_rest_the_next_one():
    ready = TenonStock(size("4 mm"), size("12 mm"), size("20 mm"))
    with pytest.raises(Refused, match="nearest width") as refused:
        joint(shop_with(widths=("10 mm", "16 mm"), tenon=ready))
    assert refused.value.finding.numbers["least"] == mm(12)
    # 1/16 in is 1.59 mm; the next width leaves 4.
    made = joint(shop_with(widths=("12 mm", "13 mm", "16 mm"), tenon=ready, slack="1/16"))
    assert [made.mortise_width(n) for n in range(2)] == [mm(12), mm(16)]
    with pytest.raises(Refused, match="widest the mortiser gives") as refused:
        joint(shop_with(widths=("12 mm", "13 mm"), tenon=ready, slack="1/16"))
    assert refused.value.finding.numbers["less"] == mm(1)
    assert joint(shop_with(widths=("12 mm", "13 mm"), tenon=ready, slack="1 mm")).mortise_width(1) == mm(13)


def test_without_a_mortiser_no_step_counts():
    routed = shop_with(heights=("1",), widths=("1",), has_mortiser=False)
    plain = joint(usual_shop(Unit.INCH))
    assert joint(routed) == plain


STEPS = """
[shop]
mortise-heights = ["3/16", "9/32", "3/8"]
mortise-widths = ["5/8", "3/8"]

[practice]
mortise-slack = "1/16"
"""


@pytest.fixture(scope="module")
def made():
    return plan(read_job(GOOD + STEPS, "chest.toml"))


def test_each_card_names_its_steps(made):
    assert not made.is_refused
    told = {remark.sentence(made.rule.text) for remark in made.settings.remarks if remark.rule == "MS-10"}
    assert told == {
        "set its fence to the step at 9/32 in, to the mortise's middle: the 2nd of 3 from the lowest",
        "where a mortise is 3/8 in wide, set its width to that step, the 1st of 2 from the narrowest",
        "where a mortise is 5/8 in wide, set its width to that step, the 2nd of 2 from the narrowest",
    }


def test_the_fence_bears_on_what_comes_flush(made):
    """The sides' outsides and the front's ends, so that the step off the middle is the same on both."""
    mortised = [setting for setting in made.settings.settings if setting.machine is MachineKind.MORTISER]
    assert all(setting.guide is Guide.FENCE and setting.centre == inches("9/32") for setting in mortised)
    assert {work.fence_word for setting in mortised for work in setting.works} == {"left end", "right end", "outside face"}


def test_why_says_which_step_it_is(made):
    above = made.dimensions()["drawer 1 front corner mortise centre above the face"]
    assert above.rule == "MS-10, MS-7"
    assert above == inches("9/32")


@pytest.mark.parametrize("key", ["mortise-heights", "mortise-widths"])
@pytest.mark.parametrize("written", ['["0"]', "[]", '["deep"]'])
def test_what_is_no_step_is_said_with_its_line(key, written):
    trouble = only_trouble(f"{GOOD}\n[shop]\n{key} = {written}\n")
    assert trouble.startswith("chest.toml:")
    assert key.removesuffix("s") in trouble
