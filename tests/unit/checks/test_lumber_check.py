"""Parts that no lumber is thick enough for: found by the checks, and told in the same words by the lists."""

from fractions import Fraction

import pytest

from joinlay.checks.lumber_check import check_lumber
from joinlay.cutlist.lists import all_lists
from joinlay.findings import Harm
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from joinlay.lengths import GRADUATIONS, Unit
from joinlay.stock.lumber import lumber_for
from tests.unit.cutlist.bench import board, cherry, ply

SHOW = GRADUATIONS["1/16 in"].text


def found(*boards, stock=None):
    return check_lumber(boards, {"wood": stock or cherry(), "ply": ply()}, Unit.INCH)


def test_too_thick_for_any_is_said():
    thick = cherry(nominal="3", measured=None)
    assert not lumber_for(thick, Unit.INCH).is_listed
    (finding,) = found(board("post", "20", "3", "cherry", "3"), stock=thick)
    assert finding.sentence(SHOW) == "No lumber is sold thick enough to plane to 3 in, as cherry is."
    assert (finding.harm, finding.where, finding.about) == (Harm.WARN, "cherry", ("post",))


def test_a_part_thicker_than_its_lumber_is_said():
    (finding,) = found(board("post", "20", "3", "cherry", "2"), board("rail", "20", "3", "wood", "1"))
    assert finding.sentence(SHOW) == "They are 2 in thick, more than the 1 in of the cherry they are to come from."
    assert (finding.harm, finding.about) == (Harm.WARN, ("post",))


def test_as_thick_as_it_and_sheet_goods_are_none_of_it():
    assert found(board("rail", "20", "3", "cherry", "1"), board("post", "20", "3", "ply", "3")) == ()
    assert found(board("drawer side", "20", "3", "ply", "1/2"), stock=cherry(nominal="3", measured=None)) == ()


JOB = """
title = "A box"
units = "inch"
[stock.front]
kind = "solid"
species = "black cherry"
nominal = "1"
measured = "13/16"
[stock.ply]
nominal = "1/2"
measured = "1/2"
[stock.thin]
nominal = "1/4"
measured = "1/4"
plies = 5
[drawers]
front = "front"
sides = "ply"
bottom = "thin"
{more}
[[drawer]]
opening = {{ width = "16", height = "6", depth = "18" }}
[pulls]
stock = "front"
diameter = "{knob}"
projection = "1"
hole = "1/4"
"""


def planned(knob="3/4", more=""):
    return plan(read_job(JOB.format(knob=knob, more=more), "job.toml"))


# A knob's blank is 1/4 in thicker than the knob, so of 4/4 wood the largest is 3/4 in across.
@pytest.mark.parametrize(("knob", "kinds"), [("3/4", []), ("25/32", ["too thick"]), ("1 1/2", ["too thick"])])
def test_a_knob_blank_too_thick_is_found_by_check_and_told_by_the_lists(knob, kinds):
    worked_out = planned(knob)
    of_lumber = [one for one in worked_out.findings if one.kind == "too thick"]
    assert [one.kind for one in of_lumber] == kinds
    assert [one.where for one in of_lumber] == ["drawer 1 front knob blank"] * len(kinds)
    assert [one for one in all_lists(worked_out).findings if one.kind == "too thick"] == of_lumber


@pytest.mark.parametrize(("offset", "warned"), [("3/8", False), ("3", False), ("3 23/32", False), ("3 3/4", True), ("5", True)])
def test_a_groove_that_leaves_the_drawer_no_room_is_said(offset, warned):
    """The side is 5 31/32 in high and the bottom 1/4 in thick: a third is left above it while the groove is no higher than 3
    35/48 in.
    """
    found = [one for one in planned(more=f'groove-offset = "{offset}"').findings if one.kind == "shallow drawer"]
    assert bool(found) is warned
    for one in found:
        assert (one.harm, one.where) == (Harm.WARN, "drawer 1")
        assert [(change.key, change.value) for remedy in one.remedies for change in remedy.changes] == [("groove-offset", "3/8")]
        assert one.numbers["inside"].inches == Fraction(573, 96) - Fraction(1, 4) - read(offset)


def read(text):
    whole, _, part = text.partition(" ")
    return Fraction(whole) + Fraction(part or 0)
