"""Banks side by side and their openings (DR-7)."""

import pytest

from joinlay.boards import DrawerRole
from joinlay.casework.bay import BankWish, lay_out_bays
from joinlay.casework.graduation import Arithmetic, Equal, OneByOne
from joinlay.errors import BadInput
from joinlay.findings import Refused
from joinlay.lengths import inches, written


def inch(text):
    return written(inches(text), text, "test")


def bays(width, height, *banks, widths=None):
    return lay_out_bays(
        inch(width),
        inch(height),
        stile=inch("2"),
        mullion=inch("1 1/2"),
        top_rail=inch("2"),
        bottom_rail=inch("3"),
        rail=inch("1"),
        banks=banks,
        widths=widths,
    )


def test_one_bank_is_between_the_stiles():
    (bay,) = bays("24", "30", BankWish(Equal(3)))
    assert (bay.left, bay.width, bay.right) == (inches(2), inches(20), inches(22))
    assert bay.heights == (inches("7 2/3"),) * 3
    assert bay.floors[-1] == inches(3)


def test_floors_and_heights_fill_the_frame_to_the_top_rail():
    (bay,) = bays("24", "31", BankWish(Arithmetic(4, inch("1/2"))))
    for upper, (lower, height) in zip(bay.floors, zip(bay.floors[1:], bay.heights[1:], strict=True), strict=False):
        assert upper == lower + height + bay.rail
    assert bay.floors[0] + bay.heights[0] + inches(2) == inches(31)


def test_drawers_are_numbered_on_from_bank_to_bank():
    left, right = bays("41 1/2", "30", BankWish(Equal(2)), BankWish(Equal(3), first=3))
    assert left.drawers + right.drawers == tuple(DrawerRole(n) for n in range(1, 6))
    assert (left.width, right.left, right.width) == (inches(18), inches("21 1/2"), inches(18))
    assert right.left.name == "bank 2 left of the openings"


def test_banks_may_be_of_different_widths():
    left, right = bays("41 1/2", "30", BankWish(Equal(1)), BankWish(Equal(1), first=2), widths=OneByOne((inch("12"), None)))
    assert (left.width, right.width) == (inches(12), inches(24))


def test_a_bank_may_have_rails_of_its_own():
    (bay,) = bays("24", "30", BankWish(Equal(2), rail=inch("2")))
    assert bay.heights == (inches("11 1/2"),) * 2


def test_a_frame_that_leaves_no_width_is_refused():
    with pytest.raises(Refused, match="stiles alone"):
        bays("4", "30", BankWish(Equal(1)))


def test_a_piece_has_a_bank():
    with pytest.raises(BadInput, match="no drawers"):
        bays("24", "30")
