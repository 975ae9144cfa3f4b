"""A job that describes a whole piece is planned with every drawer in its slot."""

from __future__ import annotations

from itertools import pairwise

import pytest

from joinlay.checks.assembly import check_assembly
from joinlay.errors import Troubles
from joinlay.findings import Harm
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from joinlay.lengths import inches

JOB = """
title = "Chest"
units = "inch"
[stock.cherry]
kind = "solid"
species = "black cherry"
nominal = "3/4"
[stock.ply]
nominal = "3/4"
[stock.half]
nominal = "1/2"
[stock.quarter]
nominal = "1/4"
[case]
width = "24"
height = "36"
depth = "20"
sides = "ply"
back = "quarter"
[frame]
stock = "cherry"
{runners}
[[bank]]
drawers = 4
graduation = "arithmetic"
[drawers]
front = "cherry"
sides = "half"
bottom = "quarter"
top-clearance = "1/16"
{more}
"""
RUNNERS = '[runners]\nstock = "cherry"'


def made(runners=RUNNERS, more=""):
    return plan(read_job(JOB.format(runners=runners, more=more), "chest.toml"))


def test_the_drawers_stand_in_the_piece_from_the_top_down():
    chest = made()
    fronts = [drawer.board("front") for drawer in chest.drawers]
    assert len(fronts) == 4
    heights = [front.place.origin[2] for front in fronts if front.place]
    assert heights == sorted(heights, reverse=True)
    # DR-7, arithmetic: each a rail's height (1 in) deeper than the one above.
    assert [below.width - above.width for above, below in pairwise(fronts)] == [inches(1)] * 3
    assert {assembly.name for assembly in chest.others} == {"case", "face frame", "runners", "stops"}


def test_the_planned_piece_goes_together():
    chest = made()
    assert not chest.is_refused
    standing = [board for assembly in chest.others for board in assembly.boards]
    assert [f for f in check_assembly(standing, chest.drawers) if f.harm is Harm.REFUSE] == []


def test_a_piece_that_cannot_be_is_refused_and_still_reported():
    low = made(more='back-gap = "19"')
    assert low.is_refused


@pytest.mark.parametrize(
    ("runners", "more", "said"),
    [
        ("", "", "the piece lacks its [runners]"),
        (RUNNERS, '[[drawer]]\nopening = { width = "9", height = "4", depth = "12" }', "leave [[drawer]] out, or the piece"),
    ],
)
def test_half_a_piece_or_two_kinds_of_drawers_are_answered(runners, more, said):
    with pytest.raises(Troubles) as wrong:
        made(runners, more)
    assert said in str(wrong.value)


def test_a_bank_without_stock_says_what_is_missing():
    text = JOB.format(runners=RUNNERS, more="").replace('front = "cherry"\n', "")
    with pytest.raises(Troubles, match="nothing says what the front is made of"):
        read_job(text, "chest.toml")


def test_a_job_counts_the_drawers_of_its_banks():
    assert read_job(JOB.format(runners=RUNNERS, more=""), "chest.toml").drawer_count == 4
