"""Rough sizes after E. Joyce, Technique of Furniture Making; lumber thickness and board feet after the NHLA's rules."""

from fractions import Fraction

import pytest

from joinlay.cutlist.cutting_list import cutting_list
from joinlay.cutlist.solid_wood import board_feet
from joinlay.lengths import Unit, inches
from joinlay.stock.lumber import LUMBER_IN_INCHES, lumber_for
from tests.unit.cutlist.bench import board, cherry, make_plan


@pytest.mark.parametrize(("length", "width"), [("18 5/16", "4 3/16"), ("36", "6"), ("23 31/32", "7 1/4")])
def test_joyce_rough_sizes(length, width):
    # A15, Joyce (numbers only): a quarter of an inch wider, half an inch longer.
    plan = make_plan(board("a", length, width, "cherry", "13/16"), stocks={"cherry": cherry()})
    (row,) = cutting_list(plan).rows
    assert row.rough is not None
    assert row.rough.length == inches(length) + inches("1/2")
    assert row.rough.width == inches(width) + inches("1/4")
    assert row.rough.thickness == inches("13/16")
    assert (row.rough.length.rule, row.rough.length.source) == ("CL-1", "Joyce")


@pytest.mark.parametrize(("name", "planed"), [("4/4", "13/16"), ("5/4", "1 1/16"), ("6/4", "1 5/16"), ("8/4", "1 3/4")])
def test_nhla_surfaced_thickness(name, planed):
    # D6, NHLA: hardwood surfaced two sides.
    assert {row[0]: row[2] for row in LUMBER_IN_INCHES}[name] == planed
    stock = cherry(nominal=planed, measured=None)
    assert lumber_for(stock, Unit.INCH).name == name
    # A hair more can't be planed from it.
    thicker = cherry(nominal=f"{inches(planed).inches + Fraction(1, 64)}", measured=None)
    assert lumber_for(thicker, Unit.INCH).name != name


def test_nhla_board_foot():
    # D6, NHLA: a board foot is 144 cubic inches; 4/4 x 8 in x 10 ft holds 6.667.
    assert board_feet(inches(12), inches(12), inches(1)) == 1
    assert board_feet(inches(120), inches(8), inches(1)) == Fraction(20, 3)
    assert round(float(board_feet(inches(120), inches(8), inches(1))), 3) == 6.667
