"""Where two parts meet (CK-8)."""

from fractions import Fraction

import pytest

from joinlay.boards import Datum, Place, Surface
from joinlay.casework.meeting import Meeting, Side, measured, meeting, unmet
from joinlay.errors import BadInput
from joinlay.lengths import NOTHING, dimension, mm
from tests import by_hand

DATUM = Datum("inside face", "bottom edge", "front end", "outside face", "top edge", "back end")


def board(name, place):
    return by_hand.board(name, "part", "ply", dimension(mm(400)), dimension(mm(100)), dimension(mm(18)), DATUM, place=place)


def placed(x, *, lean=None, into="-X"):
    return Place.at(mm(x), mm(0), mm(0), "+Y", "+Z", into, lean)


def named(*boards):
    return {one.name: one for one in boards}


LEFT, RIGHT = board("left", placed(0, into="-X")), board("right", placed(30, into="+X"))


def test_two_faces_are_as_far_apart_as_they_stand():
    assert measured(meeting("facing", (LEFT, Surface.FACE), (RIGHT, Surface.FACE)), named(LEFT, RIGHT)) == mm(30)


def test_a_floor_lies_under_its_surface():
    floor = Meeting("floor", Side("left", Surface.FACE), Side("right", Surface.FACE, dimension(mm(6))), dimension(mm(36)))
    assert measured(floor, named(LEFT, RIGHT)) == mm(36)


def test_an_overlap_is_less_than_nothing():
    near = board("right", placed(-2, into="+X"))
    assert measured(meeting("facing", (LEFT, Surface.FACE), (near, Surface.FACE)), named(LEFT, near)) == mm(-2)


def test_a_leaning_part_is_taken_where_it_is_asked():
    leaning = board("right", placed(30, into="+X", lean=("-X", Fraction(1, 100))))
    for at, gap in ((0, 30), (100, 29), (400, 26)):
        found = Meeting("gap", Side("right", Surface.FACE, at=dimension(mm(at))), Side("left", Surface.FACE), NOTHING)
        assert measured(found, named(LEFT, leaning)) == mm(gap)


def test_a_gap_to_a_leaning_plane_is_measured_in_its_boards_direction():
    leaning = board("right", placed(30, into="+X", lean=("-X", Fraction(1, 100))))
    found = Meeting("gap", Side("left", Surface.FACE, at=dimension(mm(400))), Side("right", Surface.FACE), NOTHING)
    assert measured(found, named(LEFT, leaning)) == mm(26)


def test_only_what_is_not_as_stated_is_unmet():
    true = meeting("facing", (LEFT, Surface.FACE), (RIGHT, Surface.FACE), dimension(mm(30)))
    untrue = meeting("facing", (LEFT, Surface.FACE), (RIGHT, Surface.FACE))
    assert unmet([true, untrue], named(LEFT, RIGHT)) == ((untrue, mm(30)),)


def test_sides_that_look_away_do_not_meet():
    with pytest.raises(BadInput, match="does not face"):
        measured(meeting("back", (LEFT, Surface.FAR_FACE), (RIGHT, Surface.FACE)), named(LEFT, RIGHT))


def test_an_unplaced_board_meets_nothing():
    with pytest.raises(BadInput, match="no place"):
        measured(meeting("facing", (LEFT, Surface.FACE), (RIGHT, Surface.FACE)), named(LEFT, board("right", None)))
