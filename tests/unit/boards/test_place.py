"""Where a board stands: X to the right seen from the front, Y to the back, Z up."""

from fractions import Fraction

import pytest

from joinlay.boards import Place
from joinlay.errors import BadInput
from joinlay.lengths import ZERO, mm

#: The inside face of the left side of a drawer looks to the right; its front end lies at the front, its bottom edge down.
LEFT_SIDE = Place.at(mm(12), mm(18), ZERO, "+Y", "+Z", "-X")
RIGHT_SIDE = Place.at(mm(300), mm(18), ZERO, "+Y", "+Z", "+X")
#: The inside face of the front looks to the back; its left end is on the left as seen from the front of the piece.
FRONT = Place.at(ZERO, mm(18), ZERO, "+X", "+Z", "-Y")
BACK = Place.at(ZERO, mm(400), ZERO, "+X", "+Z", "+Y")


def numbers(*of):
    """Whole numbers as the exact ones of a point."""
    return tuple(map(Fraction, of))


def test_a_point_of_a_placed_board():
    assert LEFT_SIDE.point(mm(10), mm(5), mm(2)) == numbers(10, 28, 5)
    assert RIGHT_SIDE.point(mm(10), mm(5), mm(2)) == numbers(302, 28, 5)
    assert FRONT.point(ZERO, ZERO, ZERO) == numbers(0, 18, 0)


def test_left_and_right_side_are_told_apart():
    # Standing in the drawer and facing its left side, the front of the piece is at one's left hand.
    assert LEFT_SIDE.end_on_left
    assert not RIGHT_SIDE.end_on_left


def test_the_left_end_of_a_front_is_on_the_right_seen_from_inside():
    assert not FRONT.end_on_left
    assert BACK.end_on_left


def test_moving():
    assert FRONT.moved(mm(1), mm(2), mm(3)).origin == numbers(1, 20, 3)
    assert FRONT.moved(mm(1), mm(2), mm(3)).moved(mm(-1), mm(-2), mm(-3)) == FRONT


def test_a_lean_carries_a_board_sideways_along_its_length():
    place = Place.at(ZERO, ZERO, ZERO, "+Y", "+Z", "-X", lean=("+X", Fraction(1, 1000)))
    assert place.point(mm(500), ZERO, ZERO) == numbers(Fraction(1, 2), 500, 0)
    assert place.point(ZERO, mm(80), mm(12)) == numbers(-12, 0, 80)


@pytest.mark.parametrize("wrong", ["X", "+W", "", "up", "+x"])
def test_a_direction_that_is_none_is_answered_with_all_of_them(wrong):
    with pytest.raises(BadInput, match=r"\+X, -X, \+Y, -Y, \+Z, -Z"):
        Place.at(ZERO, ZERO, ZERO, wrong, "+Z", "+Y")
    with pytest.raises(BadInput, match="is no direction"):
        Place.at(ZERO, ZERO, ZERO, "+Y", "+Z", "-X", lean=(wrong, Fraction(1, 1000)))
