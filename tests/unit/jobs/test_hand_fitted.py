"""Drawers fitted by hand: made full to the opening, with a word on where to plane and how much (HF-1)."""

import pytest

import joinlay
from joinlay.boards import Hand, Surface
from joinlay.checks.fitting import fitting_words, fittings
from joinlay.cutlist.cutting_list import planing_words_of
from joinlay.errors import Troubles
from joinlay.findings import Harm
from joinlay.jobs.reader import read_job
from joinlay.lengths import ZERO, inches
from tests.unit.jobs.test_inside_out import CASE, WOOD

FULL = 'fit = "plane"\nopening = { width = "20", height = "5", depth = "18" }'


def alone(drawers=FULL, more=""):
    return joinlay.plan(read_job(f"{WOOD.format(drawers=drawers)}\n[[drawer]]\n{more}", "job.toml"))


def test_its_parts_are_full_to_the_opening():
    (drawer,) = alone().drawers
    assert (drawer.front.length, drawer.front.width) == (inches(20), inches(5))
    assert drawer.side(Hand.LEFT).width == inches(5)
    assert drawer.inside_width == inches(20) - 2 * drawer.make.sides.thickness


def test_what_is_planed_off_is_said_by_part():
    (drawer,) = alone(more='side-clearance = "1/16"\nbottom-clearance = "0"').drawers
    assert drawer.front.planed == (
        (Surface.END, inches("1/16")), (Surface.FAR_END, inches("1/16")), (Surface.FAR_EDGE, inches("1/32"))
    )  # fmt: skip
    assert drawer.side(Hand.LEFT).planed == ((Surface.FAR_FACE, inches("1/16")), (Surface.FAR_EDGE, inches("1/32")))
    text = joinlay.plan(read_job(WOOD.format(drawers=FULL) + "\n[[drawer]]\n", "job.toml")).rule.text
    said = planing_words_of(drawer.back, text)
    assert said == "made full, plane until it goes: about 1/32 in off the top edge"
    assert planing_words_of(drawer.bottom, text) == ""


def test_it_is_a_note_and_not_warnings_of_what_would_bind():
    plan = alone()
    kinds = {found.kind: found.harm for found in plan.findings}
    assert kinds["hand fitted"] is Harm.NOTE
    assert not {"fit", "side play", "binding"} & set(kinds)
    found = next(found for found in plan.findings if found.kind == "hand fitted")
    assert "about 1/32 in off the outside of each side" in found.sentence(plan.rule.text)


def test_fitting_says_the_same():
    plan = alone()
    (fitting,) = fittings(plan.drawers, plan.shop.practice, plan.conditions)
    (said,) = fitting_words(fitting, plan.rule)
    assert said.startswith("It is made full and does not go in before it is planed: about 1/32 in off the outside of each side")


def test_its_room_for_damp_days_is_what_is_planed_off():
    def swelling(drawers):
        return [
            found.numbers.get("room")
            for found in alone(drawers).findings
            if found.kind == "wood movement" and found.harm is Harm.WARN
        ]

    assert swelling(FULL) == swelling(FULL.replace('fit = "plane"\n', ""))


def test_one_may_be_fitted_by_hand_and_the_rest_not():
    text = f'{WOOD.format(drawers="")}{CASE.format(case=SIZES)}[[bank]]\ndrawers = 2\n[[bank]]\ndrawers = 2\nfit = "plane"\n'
    plan = joinlay.plan(read_job(text, "job.toml"))
    assert not plan.is_refused
    clearances = [(drawer.side_clearance, drawer.top_clearance, drawer.bottom_clearance) for drawer in plan.drawers]
    assert clearances[2:] == [(ZERO, ZERO, ZERO)] * 2
    assert clearances[0] == clearances[1] == (inches("1/32"),) * 3
    assert plan.order.findings == ()


SIZES = 'width = "40"\nheight = "14"\ndepth = "18"'


def test_a_drawer_around_its_inside_may_be_made_full_too():
    inside = 'fit = "plane"\ninside = { width = "18", height = "4", depth = "15" }'
    (drawer,) = alone(inside).drawers
    assert drawer.inside_width == inches(18)
    assert drawer.front.length == drawer.opening.width


def test_another_word_is_refused_with_those_there_are():
    with pytest.raises(Troubles, match='write "clearances" or "plane"'):
        alone(FULL.replace("plane", "tight"))
