"""Glue-ups of odd jobs: whatever is asked for, everything that is glued is glued once, in clamps that stand on it, and said in
whole sentences.
"""

import re
import time
from functools import cache

import pytest

from joinlay.assembly.before_it_shuts import before_words
from joinlay.assembly.glue_ups import Hold, glue_ups_of
from joinlay.assembly.glue_words import clamps_words, cure_words, dry_words, glue_up_name, glue_up_words, slot_rows
from joinlay.assembly.squaring import squares_of, windings_of
from joinlay.assembly.steps import steps_of
from joinlay.assembly.timetable import timetable_of
from joinlay.boards import PartKind
from joinlay.boards.meeting import Tie
from joinlay.checks.fitting import fitting_words, fittings
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from tests.cli.test_odd_jobs import INCHES
from tests.unit.jobs.jobs import GOOD

SOLID_BOTTOM = GOOD.replace(
    '[stock.thin]\nnominal = "1/4"', '[stock.thin]\nkind = "solid"\nspecies = "yellow-poplar"\nnominal = "1/4"\nmeasured = "1/4"'
)

#: Jobs that have little in common, and what is to be found in each of them.
JOBS = {
    "openings alone": GOOD,
    "half-blind fronts on a bottom that is shut in": INCHES + 'front-joint = "half-blind locking rabbet"\n',
    "a solid case with screwed runners": INCHES.replace('sides = "ply"', 'sides = "maple"'),
    "two banks": INCHES.replace("[[bank]]\ndrawers = 4", "[[bank]]\ndrawers = 3\n[[bank]]\ndrawers = 2"),
    "a drawer that tapers": GOOD + 'taper = "3/8"\n',
    "a drawer wider at its back": GOOD.replace(
        "[drawers]", '[drawers]\ntaper = "-1/32"\nback-height = "on bottom"\nside-clearance = "1/16"'
    ),
    "pinned rabbets": GOOD.replace("[drawers]", '[drawers]\nfront-joint = "rabbet"'),
    "nailed butts": GOOD.replace(
        "[drawers]", '[drawers]\nfront-joint = "nailed butt"\nback-joint = "nailed butt"\nback-height = "on bottom"'
    ),
    "a solid bottom under the back": SOLID_BOTTOM.replace(
        "[drawers]", '[drawers]\nback-joint = "dado"\nback-height = "on bottom"'
    ),
    "a top and a plinth": INCHES.replace("[[bank]]", '[top]\nstock = "cherry"\n[base]\nstock = "cherry"\nheight = "4"\n[[bank]]'),
    "four feet": INCHES.replace("[[bank]]", '[base]\nstock = "thick-cherry"\nheight = "4"\nkind = "feet"\nfoot = "2"\n[[bank]]'),
    "drawers planed until they go": INCHES.replace("[drawers]", '[drawers]\nfit = "plane"'),
    "an open bay with shelves": INCHES.replace("drawers = 4", "rows = [2, { fixed = 1 }, 1]"),
    "drawers side by side": INCHES.replace("drawers = 4", "rows = [2, 1, 3]"),
}


@cache
def planned(name):
    made = plan(read_job(JOBS[name], "odd.toml"))
    assert not made.is_refused, [one.sentence(str) for one in made.findings if one.harm == 0]
    return made


@pytest.mark.parametrize("name", JOBS)
def test_every_glued_meeting_is_in_one_go_and_every_clamp_on_its_joint(name):
    made = planned(name)
    wet = sorted((met.one.name, met.other.name) for met in made.meetings if met.tie in (Tie.GLUED, Tie.NAILED, Tie.SCREWED))
    goes = [go for one in made.glue_ups for go in one.goes]
    assert wet
    assert sorted((met.one.name, met.other.name) for go in goes for met in go.glued) == wet
    for go in goes:
        pressed = {role for row in go.clamps for role in row.parts}
        for met in go.glued:
            if met.tie is Tie.GLUED and go.clamps and met.one.kind is not PartKind.DRAWER_BOTTOM:
                # Both parts of a joint are between jaws; a tenon is where the part is that it stands in, a bottom is held by its
                # groove.
                one = met.one.of if met.one.kind.is_loose else met.one
                assert {one, met.other} <= pressed, met
        for row in go.clamps:
            assert row.joint.mm / row.count <= made.shop.practice.length("clamp spacing").mm
            assert row.reach.mm == row.outside.mm + 2 * made.shop.practice.length("caul thickness").mm


@pytest.mark.parametrize("name", JOBS)
def test_everything_is_said_in_whole_sentences(name):
    made = planned(name)
    glue = made.shop.glue
    said = [sentence for one in made.glue_ups for sentence in (
        glue_up_name(one), glue_up_words(one, glue), cure_words(one, glue), *clamps_words(one, made.rule),
        *before_words(one, made.boards))]  # fmt: skip
    said += [part for row in slot_rows(made.timetable) for part in row]
    said += [
        words for one in fittings(made.drawers, made.shop.practice, made.conditions) for words in fitting_words(one, made.rule)
    ]
    for sentence in said:
        assert sentence
        assert not re.search(r"[{}]|None|  |\b1 (surfaces|clamps|nails)\b| ,|the the\b", sentence), sentence


@pytest.mark.parametrize("name", JOBS)
def test_the_timetable_ends_and_does_all_of_it(name):
    made = planned(name)
    assert sorted(go.of for slot in made.timetable.slots for go in slot.goes) == sorted(
        go.of for one in made.glue_ups for go in one.goes
    )
    assert all(slot.stop > slot.start for slot in made.timetable.slots)


@pytest.mark.parametrize("name", JOBS)
def test_all_that_is_measured_has_a_figure(name):
    made = planned(name)
    windings = windings_of(made.drawers, made.others)
    assert {one.of for one in windings} >= {drawer.name for drawer in made.drawers}
    assert all(one.differ.mm > 0 for one in windings)
    assert all(one.differ.mm > 0 for one in squares_of(made.drawers, made.others))


def test_what_is_nailed_all_round_stands_in_no_clamp():
    (box,) = planned("nailed butts").glue_ups
    assert box.hold is Hold.FASTENERS
    assert box.most.fasteners >= 8
    assert "nails hold it" in cure_words(box, planned("nailed butts").shop.glue)


def test_a_base_is_glued_under_the_piece_by_its_own_name():
    names = [glue_up_name(one) for one in planned("a top and a plinth").glue_ups]
    assert {"base", "base under the piece", "face frame on the case"} <= set(names)
    (base,) = (one for one in planned("a top and a plinth").glue_ups if glue_up_name(one) == "base")
    assert before_words(base, planned("a top and a plinth").boards) == ()


def test_a_solid_bottom_is_glued_in_one_groove_and_finished_but_there():
    made = planned("a solid bottom under the back")
    box = made.glue_ups[-1]
    assert dry_words(box) == "glue on the bottom in the groove of the front only; in the others it stays loose"
    assert any("all but the edge that is glued" in said for said in before_words(box, made.boards))
    # Its groove holds it: three clamps, as for any other box.
    assert box.most.clamp_count == 3


def test_screwed_runners_are_done_one_by_one():
    (bearers,) = (one for one in planned("a solid case with screwed runners").glue_ups if "bearers" in glue_up_name(one))
    assert bearers.hold is Hold.FASTENERS
    assert bearers.most.open_seconds == bearers.most.seconds


FORTY = INCHES.replace('height = "36"', 'height = "120"').replace("drawers = 4", "drawers = 20\n[[bank]]\ndrawers = 20").replace(
    'width = "24"', 'width = "40"')  # fmt: skip


def test_forty_drawers_take_less_than_a_second():
    made = plan(read_job(FORTY, "odd.toml"))
    assert len(made.drawers) == 40
    began = time.process_time()
    glue_ups = glue_ups_of(steps_of(made.order), made.boards, made.shop)
    table = timetable_of(glue_ups, made.shop)
    took = time.process_time() - began
    assert sum(len(slot.goes) for slot in table.slots) == sum(len(one.goes) for one in glue_ups)
    assert took < 1
