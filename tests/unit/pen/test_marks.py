"""Marks: moved without changing, measured, and spelled in strokes."""

from fractions import Fraction

import pytest

from joinlay.pen.lettering import set_line, words
from joinlay.pen.marks import (
    PENS,
    Align,
    Arc,
    Fill,
    Line,
    Move,
    Polyline,
    Role,
    Text,
    Turn,
    bounds_of,
    flatten,
    moved,
    pieces_of,
    text_box,
)
from joinlay.pen.signs import BreakLine, HandSign
from tests.unit.templates.reading import exact, spelled

F = Fraction


def test_a_quarter_turn_and_a_shift():
    move = Move(F(10), F(20), 1)
    assert move.point((F(3), F(1))) == exact(9, 23)
    assert moved(Line((F(0), F(0)), (F(3), F(1)), Role.CUT, "here"), move) == Line(
        (F(10), F(20)), (F(9), F(23)), Role.CUT, "here"
    )
    assert moved(Arc((F(1), F(0)), F(2), F(30), F(60), Role.CUT), move) == Arc((F(10), F(21)), F(2), F(120), F(60), Role.CUT)


def test_four_quarter_turns_are_none():
    strokes = (
        Polyline(((F(0), F(0)), (F(5), F(2))), Role.BREAK),
        Fill(((F(0), F(0)), (F(5), F(2)), (F(1), F(1))), F(1)),
        Text((F(2), F(3)), words("drawer", 5), turn=Turn.UP),
    )
    for stroke in strokes:
        assert four_times(stroke) == stroke


def four_times(stroke):
    for _ in range(4):
        stroke = moved(stroke, Move(quarters=1))
    return stroke


@pytest.mark.parametrize(("align", "left"), [(Align.LEFT, 0), (Align.MIDDLE, F(1, 2)), (Align.RIGHT, 1)])
def test_the_room_of_a_line_of_text(align, left):
    content = words("drawer", 5)
    line = set_line(content)
    box = text_box(Text((F(100), F(50)), content, align))
    assert box == (100 - left * line.width, 50 - line.fall, 100 + (1 - left) * line.width, 50 + line.rise)


def test_text_that_reads_upwards_stands_to_the_left_of_its_baseline():
    content = words("H", 5)
    left, bottom, right, top = text_box(Text((F(10), F(0)), content, turn=Turn.UP))
    assert right - 10 == set_line(content).fall
    assert bottom == 0
    assert 10 - left == set_line(content).rise
    assert top == set_line(content).width
    ((_, start),) = pieces_of(Text((F(10), F(0)), content, turn=Turn.UP))
    assert start == exact(10, 0)


def test_bounds_hold_every_kind_of_stroke():
    strokes = (
        Line((F(0), F(0)), (F(1), F(1)), Role.CUT),
        Arc((F(10), F(0)), F(3), F(0), F(360), Role.CUT),
        Fill(((F(0), F(-4)), (F(1), F(-4)), (F(1), F(0))), F(1)),
    )
    assert bounds_of(strokes) == exact(0, -4, 13, 3)


def test_composed_marks_are_spelled_to_the_last_stroke():
    strokes = spelled(HandSign((F(0), F(0)), is_left=True), BreakLine((F(0), F(0)), (F(0), F(50))))
    assert [type(stroke) for stroke in strokes] == [Fill, Text, Polyline]
    assert strokes[1].ink == 0  # white on black


def test_left_and_right_can_be_told_apart_without_reading():
    left, right = (next(flatten((HandSign((F(0), F(0)), is_left=hand),))) for hand in (True, False))
    assert isinstance(left, Fill)
    assert isinstance(right, Polyline)


def test_a_short_break_line_has_no_zigzag():
    assert list(flatten((BreakLine((F(0), F(0)), (F(0), F(8))),))) == [Line((F(0), F(0)), (F(0), F(8)), Role.BREAK)]


def test_everything_marked_from_is_a_hairline():
    """ISO 128 asks for wide outlines and narrow lines for the rest; hairlines here are 0.1 to 0.15 mm."""
    assert PENS[Role.OUTLINE].weight == F("0.35")
    for role in (Role.CUT, Role.CENTRE, Role.HIDDEN, Role.HATCH, Role.CHECK, Role.REGISTER):
        assert F("0.1") <= PENS[role].weight <= F("0.15")
    assert PENS[Role.CUT].dash == PENS[Role.CHECK].dash == ()
