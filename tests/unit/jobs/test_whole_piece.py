"""A job that describes a whole piece is planned with every drawer in its slot."""

from __future__ import annotations

from itertools import pairwise

import pytest

from joinlay.checks.solids import check_assembly
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


def falling(planned):
    """What is said of tipping."""
    (found,) = [finding for finding in planned.findings if finding.kind == "tipping"]
    return found


def test_anchoring_is_asked_for_by_the_key_that_helps():
    """CK-5: a chest is warned of, and the line its remedy says to write takes the warning away."""
    warned = falling(made())
    assert warned.harm is Harm.WARN
    assert 'write stands = "anchored" under [use]' in warned.way_out(str)
    assert falling(made(more='[use]\nstands = "anchored"')).harm is Harm.NOTE


def test_a_box_for_the_table_is_not_warned_about():
    """CK-5: 4 1/2 in high and some pounds in weight, it is only noted, and told so."""
    box = JOB.replace('"24"', '"12"').replace('"36"', '"4 1/2"').replace('"20"', '"8"').replace("drawers = 4", "drawers = 1")
    box = box.replace('sides = "ply"', 'sides = "half"')
    rails = '[frame]\nstock = "cherry"\nstile = "1"\ntop-rail = "1"\nbottom-rail = "1"'
    text = box.replace('[frame]\nstock = "cherry"', rails).replace('graduation = "arithmetic"\n', "")
    planned = plan(read_job(text.format(runners=RUNNERS, more=""), "box.toml"))
    assert [f.sentence(str) for f in planned.findings if f.harm is Harm.REFUSE] == []
    assert falling(planned).harm is Harm.NOTE
    assert "so this is only noted" in falling(planned).what
