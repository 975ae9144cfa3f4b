"""W. Noyes, Handwork in Wood, 1910: drawer construction, and the lengths of nails."""

from __future__ import annotations

import pytest

from joinlay.boards import CutKind
from joinlay.boards.fastener import FastenerKind
from joinlay.casework.opening import BackHeight
from joinlay.joints.fasteners import fastener_for
from joinlay.lengths import Unit, dimension, inches
from joinlay.shop import usual_shop
from tests.unit.casework.drawers import drawer, usual_make


def test_page_191_the_groove_for_a_quarter_inch_bottom_is_a_quarter_wide():
    """A11."""
    groove = next(cut for cut in drawer().board("left side").cuts if cut.kind is CutKind.GROOVE)
    assert groove.across.size == inches("1/4")


def test_page_191_a_back_on_the_bottom_is_lower_by_the_groove_offset_and_the_bottom():
    """A12, also in C. G. Wheeler, Woodworking for Beginners, 1899."""
    made = drawer(make=usual_make(back_height=BackHeight.ON_BOTTOM))
    side = made.board("left side")
    assert made.board("back").width == side.width - inches("3/8") - inches("1/4")


#: F20: 1/2 in and a quarter for each penny from 3d to 10d; then 12d 3 1/4, 16d 3 1/2, 20d 4.
NAILS = {
    *(inches("1/2").mm + inches("1/4").mm * penny for penny in range(3, 11)),
    *(inches(long).mm for long in ("3 1/4", "3 1/2", "4")),
}


@pytest.mark.parametrize("upper", ["3/8", "7/16", "1/2", "5/8", "0.709", "3/4", "7/8", "1", "1 1/8", "1 3/16", "1 1/4", "1 5/16"])
@pytest.mark.parametrize("lower", [None, "3", "2"])
def test_a_nail_is_of_a_length_that_nails_are_sold_in(upper, lower):
    """F20."""
    deep = None if lower is None else inches(lower)
    nail = fastener_for(FastenerKind.NAIL, dimension(inches(upper)), deep, usual_shop(Unit.INCH).rule)
    assert nail.length.mm in NAILS
