"""J. S. Zerbe, Carpentry for Boys, 1914: a table with a drawer (check value A8; figures seen in a copy)."""

from joinlay.casework.bay import BankWish, lay_out_bays
from joinlay.casework.face_frame import FrameMake, make_frame
from joinlay.casework.graduation import Equal, OneByOne, opening_heights, room_for_openings
from joinlay.lengths import inches
from tests.assembly.pieces import shop, size, solid

OVERHANG, LEG, TENON = size(2), size(2), size("1 1/2")


def test_aprons_between_the_legs_are_the_top_less_overhangs_and_legs():
    # Top 36 by 42, overhang 2, legs 2 by 2: 34 and 28 between shoulders, 37 and 31 with tenons of 1 1/2.
    own = shop()
    for top, between, long in (("42", "34", "37"), ("36", "28", "31")):
        over_legs = size(top) - 2 * OVERHANG
        make = FrameMake(solid("7/8"), stile=LEG, top_rail=size(2), bottom_rail=size(2))
        sizes = make.sizes(own.practice)
        (bay,) = lay_out_bays(
            over_legs,
            size(30),
            stile=LEG,
            mullion=LEG,
            top_rail=size(2),
            bottom_rail=size(2),
            rail=size(1),
            banks=[BankWish(Equal(1))],
        )
        rail = make_frame(make, sizes, over_legs, size(30), [bay], own).board("top rail")
        assert rail.length == inches(between)
        assert rail.length + 2 * TENON == inches(long)


def test_the_drawer_opening_is_what_the_apron_leaves():
    # An opening of 4 in a 7 in apron, 1 above and 2 below.
    room = room_for_openings(size(7), size(1), size(2), [])
    for heights in (Equal(1), OneByOne((size(4),)), OneByOne((None,))):
        assert opening_heights(heights, room, names=["drawer 1"]) == (inches(4),)
