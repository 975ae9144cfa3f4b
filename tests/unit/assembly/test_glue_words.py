"""What is said of glue-ups: their names, minutes, clamps and timetable, read as at the bench; and what is done before they
shut.
"""

import pytest

from joinlay.assembly.before_it_shuts import before_words, shut_in_by
from joinlay.assembly.glue_ups import Hold
from joinlay.assembly.glue_words import (
    clamps_owned_words,
    clamps_words,
    cure_words,
    dry_words,
    glue_up_name,
    glue_up_words,
    hours_words,
    minutes_words,
    row_words,
    slot_rows,
    timetable_words,
)
from joinlay.assembly.squaring import windings_of
from joinlay.boards import PartKind
from joinlay.lengths import Unit, mm
from joinlay.shop import USUAL_GLUE, Glue
from tests.measured.packets import example


def glue_up(job, number):
    made = example(job)
    return made, made.glue_ups[number - 1]


@pytest.mark.parametrize(
    ("seconds", "said"), [(1, "1/2 min"), (30, "1/2 min"), (60, "1 min"), (330, "5 1/2 min"), (331, "6 min")]
)
def test_minutes_are_told_by_halves(seconds, said):
    assert minutes_words(seconds) == said


@pytest.mark.parametrize(("minutes", "said"), [(0, "0 min"), (50, "50 min"), (60, "1 h"), (140, "2 h 20 min")])
def test_hours(minutes, said):
    assert hours_words(minutes) == said


def test_the_names_of_the_glue_ups():
    assert [glue_up_name(one) for one in example("print-chest").glue_ups] == [
        "case",
        "face frame: loose tenons",
        "face frame, first of two",
        "face frame, second of two",
        "drawers 1 to 4, each by itself: loose tenons",
        "drawers 1 to 4, each by itself",
        "face frame on the case",
        "8 bearers",
        "6 kickers",
        "8 guides",
        "4 strips",
        "8 blocks",
    ]


def test_a_case_in_words():
    made, case = glue_up("print-chest", 1)
    assert glue_up_words(case, USUAL_GLUE) == "4 surfaces and 8 clamps: 6 min of the 8 min that the usual glue is open"
    assert glue_up_words(case, Glue(300, 3600, is_written=True)).endswith("6 min, longer than the 5 min that your glue is open")
    assert cure_words(case, Glue(480, 5400)) == "leave it in its clamps for 1 h 30 min"
    (said,) = clamps_words(case, made.rule)
    assert said == (
        "8 clamps from side to side, 4 along each of the bottom and top, 6 1/8 in apart, the first half of that "
        "from the end; to open 37 1/2 in, "
        "cauls included"
    )
    assert row_words(case.most.clamps[0], made.rule).startswith("4 clamps from side to side, along the bottom, 6 1/8 in apart")
    assert dry_words(case) == ""


def test_a_drawer_in_words():
    made, drawer = glue_up("print-chest", 6)
    assert glue_up_words(drawer, USUAL_GLUE).startswith("up to 8 surfaces and 3 clamps each: 5 1/2 min of the 8 min")
    across, along = clamps_words(drawer, made.rule)
    assert across.startswith("1 clamp from side to side, over the back; to open 34 in")
    assert along.startswith("2 clamps from front to back, one over each of the left and right side; to open 26 1/2 in")
    assert dry_words(drawer) == "no glue on the bottom, which stays loose in its grooves"


def test_what_nails_screws_and_rubbing_hold():
    _, bearers = glue_up("print-chest", 8)
    assert glue_up_words(bearers, USUAL_GLUE) == "1 surface and 6 nails each: 3 1/2 min, one after the other"
    assert cure_words(bearers, USUAL_GLUE) == "the nails hold it: go on at once"
    _, screwed = glue_up("moth-cabinet", 6)
    assert cure_words(screwed, USUAL_GLUE) == "the screws hold it: go on at once"
    _, blocks = glue_up("print-chest", 12)
    assert cure_words(blocks, USUAL_GLUE) == "rub each to and fro until it grips, and leave it alone for 1 h"


def test_the_timetable_in_words():
    table = example("print-chest").timetable
    assert timetable_words(table, is_said=True) == "5 h 28 min of work in 7 spells on 2 days"
    assert timetable_words(table, is_said=False).endswith(", with as many clamps as the largest glue-up takes")
    assert (
        clamps_owned_words(table.clamps, example("print-chest").rule) == "16 that open 4 in, 8 that open 27 in, 8 that open 38 in"
    )
    rows = slot_rows(table)
    assert rows[0] == ("day 1, 0:00", "1. case", "16 min", "cures until 1:16; meanwhile 2 and 5")
    assert rows[-1][1] == "12. 8 blocks"
    assert {row[3] for row in rows if row[1].startswith("8.")} == {"go on at once"}


# -- before it shuts -------------------------------------------------------------------------------------


def test_what_a_case_shuts_in():
    made, case = glue_up("print-chest", 1)
    assert {(one.part.short, one.word) for one in shut_in_by(case, made.boards)} == {
        ("left side", "inside face"), ("right side", "inside face"), ("bottom", "upper face"), ("top", "lower face"),
    }  # fmt: skip
    first, last = before_words(case, made.boards)
    assert first.startswith(
        "Sand now, while you can reach: the inside faces of the left and right side, the upper face of the bottom"
    )
    assert "mask every joint" in last


def test_a_drawers_bottom_is_finished_on_both_faces_first():
    made, drawer = glue_up("print-chest", 6)
    both = [one.surface for one in shut_in_by(drawer, made.boards) if one.part.kind is PartKind.DRAWER_BOTTOM]
    assert len(both) == 2
    assert any("edges and all" in said for said in before_words(drawer, made.boards))


def test_no_glue_where_a_drawer_rides():
    made = example("seed-cabinet")
    said = {one.number: before_words(one, made.boards) for one in made.glue_ups if one.steps[0].is_whole}
    kinds = {one.number: one.goes[0].moves[0].moving[0].kind for one in made.glue_ups}
    for number, words in said.items():
        rides = kinds[number] in (PartKind.BEARER, PartKind.GUIDE, PartKind.KICKER)
        assert bool(words) is rides
        assert not rides or "No glue where a drawer rides" in words[0]


def test_nothing_is_shut_in_by_a_frame_or_by_tenons():
    made = example("print-chest")
    for one in made.glue_ups:
        if one.hold is Hold.ITSELF or one.of == ("face frame",):
            assert shut_in_by(one, made.boards) == ()


# -- winding ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize("job", ["print-chest", "moth-cabinet", "paper-drawers"])
def test_how_far_each_thing_may_be_in_winding(job):
    made = example(job)
    found = {one.of: one for one in windings_of(made.drawers, made.others)}
    assert set(found) == {drawer.name for drawer in made.drawers} | ({"case", "face frame"} if made.others else set())
    for drawer in made.drawers:
        # Half of what is over its sides is left when its fourth corner stands up.
        room = min(
            [
                drawer.opening.height.mm - drawer.sides[0].width.mm,
                *(f.gap.mm for m in drawer.assembly.meetings for f in m.facings if m.tie.value == "kicks against"),
            ]
        )
        assert found[drawer.name].differ.mm == room / 2
    if made.others:
        stile = next(board for board in made.boards if board.role.kind is PartKind.STILE)
        for drawer in made.drawers:
            # PT-12: the front's share of the frame's height.
            stands_out = found["face frame"].differ.mm * (drawer.front.width / stile.length)
            assert stands_out <= drawer.side_clearance.mm / 2 + mm("0.001").mm
    assert made.rule.unit in Unit
