"""Lumber to ask for, and how much of it."""

from fractions import Fraction

import pytest

from joinlay.cutlist.board_layout import board_layouts
from joinlay.cutlist.cutting_list import cutting_list
from joinlay.cutlist.lumber import board_feet, cubic_metres, lumber_for
from joinlay.cutlist.solid_wood import solid_needs
from joinlay.jobs.on_hand import BoardOnHand, OnHand
from joinlay.lengths import Unit, inches, mm
from joinlay.stock import Solid
from tests.unit.cutlist.bench import board, cherry, make_plan, size


def test_what_was_bought_is_what_the_job_says():
    assert lumber_for(cherry(), Unit.INCH).thickness == inches(1)
    assert lumber_for(cherry(), Unit.INCH).name == "4/4"
    odd = lumber_for(cherry(nominal="1 1/8"), Unit.INCH)
    assert (odd.name, odd.thickness, odd.is_listed) == ("", inches("1 1/8"), True)


@pytest.mark.parametrize(("planed", "name"), [("1/2", "4/4"), ("3/4", "4/4"), ("7/8", "5/4"), ("1", "5/4"), ("1 1/2", "8/4")])
def test_else_the_thinnest_that_planes_to_it(planed, name):
    lumber = lumber_for(cherry(nominal=planed, measured=None), Unit.INCH)
    assert lumber.name == name
    assert lumber.thickness.origin == "default"


@pytest.mark.parametrize(("planed", "name"), [("15", "20 mm"), ("18", "27 mm"), ("22", "27 mm"), ("23", "32 mm")])
def test_in_millimetres(planed, name):
    stock = Solid("oak", size(planed, Unit.MM), None, "white oak")
    assert lumber_for(stock, Unit.MM).name == name


def test_too_thick_for_any_is_said():
    thick = cherry(nominal="3", measured=None)
    assert not lumber_for(thick, Unit.INCH).is_listed
    plan = make_plan(board("post", "20", "3", "cherry", "3"), stocks={"cherry": thick})
    (need,) = solid_needs(plan, cutting_list(plan))
    assert need.findings[0].sentence(plan.rule.text) == "No lumber is sold thick enough to plane to 3 in."
    assert need.buy > 0


def test_a_part_thicker_than_its_lumber_is_said():
    plan = make_plan(board("post", "20", "3", "cherry", "2"), stocks={"cherry": cherry()})
    (need,) = solid_needs(plan, cutting_list(plan))
    assert need.findings[0].sentence(plan.rule.text) == "They are 2 in thick, more than the 1 in they are to come from."
    assert need.findings[0].where == "post"


def test_thin_wood_counts_as_an_inch():
    assert board_feet(inches(12), inches(12), inches("1/2")) == 1
    assert cubic_metres(mm(1000), mm(1000), mm(27)) == Fraction(27, 1000)


def test_need_is_the_rough_sizes_and_the_waste():
    boards = [board(f"rail {n}", "23 1/2", "5 3/4", "cherry", "13/16", "rail") for n in (1, 2)]
    plan = make_plan(*boards, stocks={"cherry": cherry()})
    (need,) = solid_needs(plan, cutting_list(plan))
    assert need.unit == "board feet"
    assert [need.net, need.buy] == [2, Fraction(12, 5)]
    thrifty = make_plan(*boards, stocks={"cherry": cherry()})
    assert need.on_hand == 0
    assert solid_needs(thrifty, cutting_list(thrifty)) == (need,)


def test_need_in_cubic_metres():
    stock = Solid("oak", size("27", Unit.MM), size("20", Unit.MM), "white oak")
    part = board("rail", "988 mm", "94 mm", "oak", "20 mm", "rail")
    plan = make_plan(part, stocks={"oak": stock}, unit=Unit.MM)
    (need,) = solid_needs(plan, cutting_list(plan))
    assert (need.unit, need.net) == ("cubic metres", Fraction(27, 10000))
    assert need.buy == need.net * Fraction(6, 5)


def test_boards_on_hand_are_taken_off():
    boards = [board(f"rail {n}", "23 1/2", "5 3/4", "cherry", "13/16", "rail") for n in (1, 2)]
    have = OnHand(boards=(BoardOnHand("b", "cherry", size("25"), size("6")),))
    plan = make_plan(*boards, stocks={"cherry": cherry()}, on_hand=have)
    parts = cutting_list(plan)
    (need,) = solid_needs(plan, parts, board_layouts(plan, parts))
    assert [need.net, need.on_hand, need.buy] == [2, 1, Fraction(6, 5)]
