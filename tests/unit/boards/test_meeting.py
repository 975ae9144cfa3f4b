"""Where two boards meet (CK-8, PT-1)."""

from fractions import Fraction

import pytest

from joinlay.boards import CutKind, Datum, Place, Span, Surface
from joinlay.boards.meeting import Facing, Meeting, Plane, Tie, Way, butted, measured, unmet, way_into
from joinlay.errors import BadInput
from joinlay.lengths import dimension, mm
from tests import by_hand

DATUM = Datum("inside face", "bottom edge", "front end", "outside face", "top edge", "back end")


def board(name, place, cuts=()):
    long, wide, thick = (dimension(mm(size)) for size in (400, 100, 18))
    return by_hand.board(name, "part", "ply", long, wide, thick, DATUM, cuts, place=place)


def placed(x, *, lean=None, into="-X"):
    return Place.at(mm(x), mm(0), mm(0), "+Y", "+Z", into, lean)


def by_role(*boards):
    return {one.role: one for one in boards}


LEFT, RIGHT = board("left", placed(0, into="-X")), board("right", placed(30, into="+X"))


def faced(one, other, plane, far):
    """The gap of a meeting of one facing, as it is found on the boards."""
    facing = Facing("before", plane, far)
    met = Meeting(one.role, other.role, (facing,), ())
    return measured(met, facing, by_role(one, other))


def test_two_faces_are_as_far_apart_as_they_stand():
    assert faced(LEFT, RIGHT, Plane(Surface.FACE), Plane(Surface.FACE)) == mm(30)


def test_a_floor_lies_under_its_surface():
    assert faced(LEFT, RIGHT, Plane(Surface.FACE), Plane(Surface.FACE, mm(6))) == mm(36)


def test_an_overlap_is_negative():
    near = board("right", placed(-2, into="+X"))
    assert faced(LEFT, near, Plane(Surface.FACE), Plane(Surface.FACE)) == mm(-2)


def test_a_leaning_part_is_taken_where_it_is_asked():
    leaning = board("right", placed(30, into="+X", lean=("-X", Fraction(1, 100))))
    for at, gap in ((0, 30), (100, 29), (400, 26)):
        asked = Plane(Surface.FACE, at=mm(at))
        assert faced(leaning, LEFT, asked, Plane(Surface.FACE)) == mm(gap)
        # Whichever of the two goes in.
        assert faced(LEFT, leaning, Plane(Surface.FACE), asked) == mm(gap)


def test_a_gap_to_a_leaning_plane_is_measured_in_its_boards_direction():
    leaning = board("right", placed(30, into="+X", lean=("-X", Fraction(1, 100))))
    assert faced(LEFT, leaning, Plane(Surface.FACE, at=mm(400)), Plane(Surface.FACE)) == mm(26)


def test_only_what_is_not_as_stated_is_unmet():
    true = butted((LEFT, Surface.FACE), (RIGHT, Surface.FACE), "facing the", gap=mm(30))
    untrue = butted((LEFT, Surface.FACE), (RIGHT, Surface.FACE), "facing the")
    assert unmet([true, untrue], by_role(LEFT, RIGHT)) == ("left facing the right: 30 mm, stated 0 mm",)


def test_planes_that_look_away_do_not_meet():
    with pytest.raises(BadInput, match="does not face"):
        faced(LEFT, RIGHT, Plane(Surface.FAR_FACE), Plane(Surface.FACE))


def test_an_unplaced_board_meets_nothing():
    with pytest.raises(BadInput, match="no place"):
        faced(LEFT, board("right", None), Plane(Surface.FACE), Plane(Surface.FACE))


def test_the_walls_of_a_cut_look_at_each_other():
    """A dado from 50 to 60 along, 6 deep: its walls are met from within, its floor from over it."""
    along, across, into = (Span.of(mm(a), mm(b)) for a, b in ((50, 60), (0, 100), (0, 6)))
    made = board("side", placed(0), (by_hand.cut(CutKind.DADO, Surface.FACE, along, across, into, "dado"),))
    (dado,) = made.cuts
    assert Plane.floor(dado) == Plane(Surface.FACE, mm(6))
    assert Plane.wall(made, dado, Surface.END) == Plane(Surface.END, mm(60))
    assert Plane.wall(made, dado, Surface.FAR_END) == Plane(Surface.FAR_END, mm(350))
    assert (dado.floor_area, dado.wall_area) == (1000, 600)


def test_ways_lead_there_and_back():
    assert {way.opposite.opposite for way in Way} == set(Way)
    assert [sum(way.vector) for way in Way] == [1, -1] * 3
    assert way_into(LEFT, Surface.FACE) is Way.LEFT
    assert way_into(LEFT, Surface.END) is Way.BACK
    assert way_into(RIGHT, Surface.FAR_EDGE) is Way.DOWN
    leaning = board("right", placed(30, into="+X", lean=("-X", Fraction(1, 100))))
    assert way_into(leaning, Surface.END) is Way.BACK


def test_a_butt_closes_from_anywhere_but_through_the_board():
    """The left board stands before the face of the right one, which looks to the left."""
    met = butted((LEFT, Surface.FACE), (RIGHT, Surface.FACE), "on the", tie=Tie.GLUED)
    assert set(met.closes) == set(Way) - {Way.LEFT}
    assert met.tie.is_fixed
    assert not Tie.RIDES.is_fixed


def test_what_is_butted_to_may_be_known_by_its_role_alone():
    assert butted((LEFT, Surface.FACE), (RIGHT.role, Surface.FACE), "on the") == butted(
        (LEFT, Surface.FACE), (RIGHT, Surface.FACE), "on the"
    )
