"""W. Noyes, Handwork in Wood, 1910: drawer construction."""

from __future__ import annotations

from joinlay.boards import CutKind
from joinlay.casework.opening import BackHeight
from joinlay.lengths import inches
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
