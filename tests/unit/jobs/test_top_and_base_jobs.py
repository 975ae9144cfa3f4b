"""``[top]`` and ``[base]`` in a job: read, planned, judged, drawn on the stick of heights; and what can't be read."""

import pytest

from joinlay.boards import PartKind, Whole
from joinlay.checks.tipping import standing
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from joinlay.lengths import inches
from joinlay.templates.story.story_sticks import sticks_of
from tests.assembly.test_settings_cut_the_board import assert_cut_as_planned
from tests.unit.jobs.jobs import GOOD, only_trouble

PIECE = (
    GOOD.replace('[[drawer]]\nopening = { width = "18 3/8", height = "4 1/4", depth = "20" }\n', "")
    + """
[case]
width = "24"
height = "20"
depth = "18"
sides = "cherry"
back = "thin"

[frame]
stock = "cherry"

[runners]
stock = "cherry"

[[bank]]
drawers = 2
"""
)
TOP, BASE = '\n[top]\nstock = "cherry"\n', '\n[base]\nstock = "cherry"\nheight = "3"\n'


def planned(text):
    return plan(read_job(text, "chest.toml"))


def reach(made, kind, axis):
    """From where to where the boards of a kind reach."""
    points = [
        board.place.point(along, across, into)[axis]
        for board in made.boards
        if board.role.kind is kind
        for along in (board.length * 0, board.length)
        for across in (board.width * 0, board.width)
        for into in (board.thickness * 0, board.thickness)
    ]
    return min(points), max(points)


def test_a_job_with_a_top_and_a_plinth_is_made_and_every_cut_has_its_card():
    made = planned(PIECE + TOP + BASE)
    assert not made.is_refused
    assert {assembly.of for assembly in made.others} >= {Whole.TOP, Whole.BASE}
    assert_cut_as_planned(made.boards, made.shop)
    assert not made.order.findings


def test_in_a_room_top_and_base_are_taken_off_first():
    room = PIECE.replace(
        'width = "24"\nheight = "20"\ndepth = "18"', 'room = { width = "26", height = "24", depth = "19", above = "1/4" }'
    )
    made = planned(room + TOP + BASE)
    assert reach(made, PartKind.TOP, 0)[1] - reach(made, PartKind.TOP, 0)[0] == inches("26").mm
    assert reach(made, PartKind.TOP, 2)[1] - reach(made, PartKind.BASE_FRONT, 2)[0] == inches("23 3/4").mm
    assert reach(made, PartKind.TOP, 1)[1] - reach(made, PartKind.TOP, 1)[0] == inches("19").mm


def test_it_tips_about_the_front_of_its_base():
    for base, behind in (("", "0"), (BASE, "1/8"), (f'{BASE}set-back = "-1/4"\n', "-1/4"), (f'{BASE}kind = "recess"\n', "3")):
        made = planned(PIECE + TOP + base)
        weighed = standing(made.others, made.drawers, {stock.name: stock for stock in made.stocks.values()}, made.conditions)
        front = made.drawers[0].front.place.origin[1] - made.drawers[0].front.thickness.mm
        (drawer, *_) = weighed.drawers
        assert drawer.reach == pytest.approx(drawer.out + float(inches(behind).mm) - float(front))


def test_the_stick_of_heights_begins_at_the_floor_and_ends_over_the_top():
    stick = next(stick for stick in sticks_of(planned(PIECE + TOP + BASE)) if stick.datum == "floor")
    assert (stick.far, stick.length) == ("top of the piece", inches("23 3/4").mm)
    found = {stretch.word: (stretch.low, stretch.high) for stretch in stick.stretches}
    assert found["base"] == (inches(0).mm, inches(3).mm)
    assert found["top"] == (inches(23).mm, inches("23 3/4").mm)


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ('\n[top]\nstock = "oak"\n', "oak"),
        ('\n[top]\nstock = "cherry"\nsides = "1"\n', "sides"),
        ('\n[base]\nstock = "cherry"\n', "height"),
        ('\n[base]\nstock = "cherry"\nheight = "3"\nkind = "wheels"\n', '"plinth", "recess" or "feet"'),
        ('\n[base]\nstock = "cherry"\nheight = "3"\ntoe = "2"\n', 'write it with kind = "recess"'),
        ('\n[base]\nstock = "cherry"\nheight = "3"\nkind = "feet"\n', 'write it with kind = "feet"'),
        ('\n[base]\nstock = "cherry"\nheight = "3"\nfoot = "2"\n', 'write it with kind = "feet"'),
        ('\n[base]\nstock = "cherry"\nheight = "-3"\n', "-3"),
    ],
)
def test_what_can_not_be_read_is_said_with_its_line(line, said):
    trouble = only_trouble(PIECE + line)
    assert trouble.startswith("chest.toml:")
    assert said in trouble


def test_a_room_too_low_for_top_and_base_is_said():
    room = PIECE.replace('width = "24"\nheight = "20"\ndepth = "18"', 'room = { width = "26", height = "3", depth = "19" }')
    assert "once its top and base are taken off" in only_trouble(room + TOP + BASE)
