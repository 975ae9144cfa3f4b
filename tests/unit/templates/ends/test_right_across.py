"""Templates lower than their parts."""

from dataclasses import replace

import pytest

from joinlay.boards import CutKind, Surface
from joinlay.pen.marks import Text
from joinlay.templates import templates_for
from tests import by_hand
from tests.measured.collisions import collisions
from tests.unit.templates.parts import METRIC, board, cut, end_mortise, groove, side


def dado(width, end=(6, 12)):
    return cut(CutKind.DADO, Surface.FACE, end, (0, width), (0, 5), "front dado")


def drawer_side(n, width):
    return board(f"drawer {n} left side", width=width, cuts=(dado(width), groove()))


def case_side(width=440, *more):
    rabbet = cut(CutKind.RABBET, Surface.FACE, (0, 400), (width - 7, width), (0, 6), "back rabbet")
    return board("case left side", "case side", width=width, cuts=(dado(width, (10, 30)), rabbet, *more))


def said_on(template):
    return [stroke.plain for stroke in template.strokes if isinstance(stroke, Text)]


def test_sides_of_several_heights_share_what_goes_right_across():
    front, back = templates_for([drawer_side(n, width) for n, width in enumerate((90, 60, 120), start=1)], METRIC)
    assert (front.quantity, back.quantity) == (3, 3)
    assert front.title == "drawer 1 to 3 left side, front end"
    # As high as the lowest of them, and the hairs the fold line goes past it.
    assert 60 <= front.box[3] < 64
    assert "square it over" in " ".join(said_on(front))
    # The groove alone says the same whatever the height: nothing is to be squared over.
    assert "square it over" not in " ".join(said_on(back))


def test_sides_alike_are_drawn_whole():
    front, _ = templates_for([drawer_side(1, 90), drawer_side(2, 90)], METRIC)
    assert front.box[3] >= 90
    assert "square it over" not in " ".join(said_on(front))


def test_a_mortise_in_another_place_needs_another_template():
    sides = [
        by_hand.called(side(), "drawer 1 left side"),
        by_hand.called(replace(side(), width=board(width=120).width), "drawer 2 left side"),
    ]
    moved = replace(sides[1], cuts=(end_mortise(1, 30), end_mortise(2, 100), *side().cuts[2:]))
    assert len([t for t in templates_for([sides[0], moved], METRIC) if t.end == "front end"]) == 2


def test_a_wide_part_is_marked_from_a_strip():
    front, back = templates_for([case_side()], METRIC)
    assert front.size[1] < 140
    said = " ".join(said_on(front))
    assert "square it over" in said
    # The rabbet runs the whole length by the far edge, off the strip: a fence sets it.
    assert "rabbet" not in said
    assert collisions(front.strokes) == collisions(back.strokes) == []


@pytest.mark.parametrize("width", [110, 111])
def test_a_part_is_wide_past_110_mm(width):
    front, *_ = templates_for([case_side(width)], METRIC)
    assert (front.size[1] < 100) == (width > 110)


def test_a_wide_part_with_a_cut_high_up_is_drawn_whole():
    hole = cut(CutKind.MORTISE, Surface.FACE, (20, 26), (300, 312), (0, 6), "peg")
    front, *_ = templates_for([case_side(440, hole)], METRIC)
    assert front.size[1] > 440


def test_ends_that_only_a_fence_is_set_for_are_left_out_where_asked():
    only_grooved = board(cuts=(groove(),))
    [both] = templates_for([only_grooved], METRIC)
    assert both.turned == both.names
    assert templates_for([only_grooved], METRIC, only_needed=True) == ()
    assert len(templates_for([drawer_side(1, 90)], METRIC, only_needed=True)) == 1
