"""Stops (ST-1 to ST-4)."""

import pytest

from joinlay.boards import DrawerRole, PartKind
from joinlay.casework.face_frame import FrameMake
from joinlay.casework.opening import BackHeight
from joinlay.casework.piece import plan_piece
from joinlay.casework.stops import StopMake
from joinlay.findings import Refused
from joinlay.lengths import inches
from tests.assembly.pieces import drawer_make, ply, shop, size, solid, spec, tried, way_out, whole

SHOP = shop()
MAPLE = solid("3/4", "red maple")


def piece(own=SHOP, **changed):
    return plan_piece(spec(own, **changed), own)


def test_two_blocks_stand_behind_each_front_near_its_sides():
    made = piece()
    left, right = made.blocks(DrawerRole(2))
    assert left.place.origin[1] == right.place.origin[1] == inches("3/4").mm
    slot = made.slots[1]
    assert left.place.origin[2] == slot.floor.mm
    from_left = left.place.origin[0] - slot.left.mm
    from_right = (slot.left + slot.opening.width).mm - right.place.origin[0] - right.length.mm
    assert from_left == from_right == (inches("3/4") + inches("1/8")).mm
    assert left.width == inches("3/16")


def test_a_set_back_front_moves_its_blocks_back():
    own = shop(**{"front_set-back": "1/16"})
    assert piece(own).blocks(DrawerRole(1))[0].place.origin[1] == inches("13/16").mm


def test_the_strip_is_ripped_to_the_rail_less_the_lift():
    strip = piece().stops.assembly.board("drawer 2 strip")
    assert strip.width == inches("31/32")
    assert strip.length == inches(24) - 2 * inches("3/4") - 2 * inches("1 1/2")
    assert piece().stops.assembly.board("drawer 4 strip").width == inches("3/4")


def test_behind_a_thick_front_the_strip_lies_flat_and_is_wide_enough():
    made = piece(make=drawer_make(front=solid("1 1/4")))
    strip = made.stops.assembly.board("drawer 2 strip")
    assert strip.datum.face == "upper face"
    assert strip.width == inches("1 1/4") + inches("1/2") - inches("3/4")


def test_on_a_case_bottom_level_with_the_rail_there_is_no_strip():
    made = piece(frame=FrameMake(solid("3/4"), bottom_rail=size("1 1/2")))
    names = [board.name for board in made.stops.assembly.boards]
    assert "stops drawer 4 strip" not in names
    assert "stops drawer 4 left block" in names


@pytest.mark.parametrize(
    ("own", "stops", "said"),
    [
        (SHOP, StopMake(MAPLE, size("3/8")), "Make it 11/32 in or lower, or the groove at least 1/32 in further"),
        (SHOP, StopMake(MAPLE, sag=size("3/16")), "Make it 5/32 in or lower"),
        (SHOP, StopMake(MAPLE, sag=size("1/4")), "leaves 3/32 in. Make the groove at least 3/32 in further"),
        (SHOP, StopMake(MAPLE, size("3/32")), "Make it at least 1/8 in high"),
        (shop(groove_offset="1/4"), StopMake(MAPLE, size("1/4")), "which leaves 7/32 in"),
        (
            shop(groove_offset="5/8", **{"bottom_clearance_of_the_front": "9/16"}),
            StopMake(MAPLE),
            "room for 19/32 in: make the clearance under the front 1/2 in at most, or the groove 1/16 in further from the edge",
        ),
    ],
)
def test_a_block_that_does_not_serve_says_what_would(own, stops, said):
    made = tried(spec(own, stops=stops), own)
    assert isinstance(made, Refused)
    assert said in way_out(made, own)


def test_a_groove_moved_up_for_a_high_front_leaves_room_for_a_higher_block():
    # DR-2: the groove stands clear of a front half an inch up, so there is more than the usual room below the bottom.
    own = shop(**{"bottom_clearance_of_the_front": "1/2"})
    assert whole(spec(own, stops=StopMake(MAPLE, size("19/32"))), own)


def test_a_block_as_high_as_the_space_passes():
    assert whole(spec(SHOP, stops=StopMake(MAPLE, size("11/32"))), SHOP)


def test_a_full_back_is_notched_to_pass_the_blocks():
    made = whole(spec(SHOP), SHOP)
    back = made.drawers[1].board("back")
    notches = [cut for cut in back.cuts if cut.name.startswith("stop notch")]
    assert [notch.mate for notch in notches] == ["stops drawer 2 left block", "stops drawer 2 right block"]
    assert {(notch.across.size, notch.along.size) for notch in notches} == {(inches("7/32"), inches("1 3/4"))}


def test_a_back_that_stands_on_the_bottom_passes_as_it_is():
    made = whole(spec(SHOP, make=drawer_make(back_height=BackHeight.ON_BOTTOM)), SHOP)
    assert not [cut for cut in made.drawers[1].board("back").cuts if cut.name.startswith("stop notch")]


def test_without_stops_nothing_is_notched():
    made = whole(spec(SHOP, stops=None), SHOP)
    assert made.piece.blocks(DrawerRole(1)) == ()
    assert not [cut for cut in made.drawers[0].board("back").cuts if cut.name.startswith("stop notch")]


def test_narrow_drawers_have_narrower_blocks():
    made = piece(width=size("8"), runner=ply("1/2"))
    left, right = made.blocks(DrawerRole(1))
    strip = made.stops.assembly.board("drawer 1 strip")
    assert left.length == (strip.length - inches("1/4")) / 3
    assert left.place.origin[0] + left.length.mm < right.place.origin[0]


def test_a_strip_is_glued_to_the_rail_and_its_blocks_to_the_strip():
    made = piece()
    glued = {met.one.kind: met for met in made.stops.assembly.meetings if met.glue}
    strip, block = (made.stops.assembly.part(glued[kind].one) for kind in (PartKind.STOP_STRIP, PartKind.STOP_BLOCK))
    assert glued[PartKind.STOP_STRIP].other.kind is PartKind.RAIL
    assert glued[PartKind.STOP_STRIP].glue == strip.length.mm * strip.width.mm
    assert glued[PartKind.STOP_BLOCK].other == strip.role
    # A block stands on its edge: it is as thick from front to back.
    assert glued[PartKind.STOP_BLOCK].glue == block.length.mm * block.thickness.mm
