"""The whole piece and its seated drawers."""

import pytest

from joinlay.boards import PartKind, Whole
from joinlay.casework.bay import DrawerWish
from joinlay.casework.graduation import Arithmetic, Equal
from joinlay.casework.piece import Bank, plan_piece, within_room
from joinlay.casework.seating import seat_drawer, with_board
from joinlay.errors import BadInput
from joinlay.lengths import inches
from tests.assembly.pieces import drawer_make, shop, size, spec, whole

SHOP = shop()


@pytest.fixture(scope="module")
def chest():
    return whole(spec(SHOP, heights=Arithmetic(4, size("1"))), SHOP)


def test_the_parts_come_in_the_order_they_are_built(chest):
    assert [assembly.name for assembly in chest.piece.assemblies] == ["case", "face frame", "runners", "stops"]


def test_every_board_has_its_own_name_and_a_place(chest):
    names = [board.name for board in chest.boards]
    assert len(set(names)) == len(names)
    assert all(board.place is not None for board in chest.boards)


def test_every_meeting_names_boards_that_are_there(chest):
    assert {role for met in chest.meetings for role in (met.one, met.other)} <= set(chest.by_role)


def test_every_board_but_the_show_side_of_the_frame_meets_something(chest):
    met = {role for one in chest.meetings for role in (one.one, one.other)}
    assert set(chest.by_role) - met == set()


def test_drawers_stand_in_their_slots(chest):
    for slot, drawer in zip(chest.piece.slots, chest.drawers, strict=True):
        front = drawer.board("front")
        assert front.place.origin[0] == (slot.left + inches("1/32")).mm
        assert front.place.origin[2] == (slot.floor + inches("1/32")).mm


def test_the_case_stands_behind_the_frame(chest):
    assert {board.place.origin[1] for board in chest.piece.frame.boards if board.part != "loose tenon"} == {0}
    sides = [board for board in chest.piece.boards if board.part == "case side"]
    assert {board.place.origin[1] for board in sides} == {inches("3/4").mm}


def test_a_room_leaves_the_piece_what_is_not_kept_free():
    width, height, depth = within_room((size(40), size(90), size(24)), beside=size("1/2"), above=size(2), behind=size("1/4"))
    assert (width, height, depth) == (inches(39), inches(88), inches("23 3/4"))
    with pytest.raises(BadInput, match="free space smaller"):
        within_room((size(40), size(90), size(24)), beside=size(20), above=size(2), behind=size(0))


def test_a_bank_has_as_many_openings_as_drawers():
    with pytest.raises(BadInput, match="3 openings for 2 drawers"):
        Bank(Equal(3), (DrawerWish(drawer_make(), SHOP),) * 2)


def test_a_board_may_be_put_in_the_place_of_another(chest):
    drawer = chest.drawers[0]
    changed = drawer.board("back").moved(inches(0), inches(1), inches(0))
    assert with_board(drawer, changed).board("back") is changed
    assert with_board(drawer, changed).board("front") is drawer.board("front")


def test_seating_moves_the_drawer_and_states_its_gaps(chest):
    piece = plan_piece(spec(SHOP), SHOP)
    slot = piece.slots[2]
    drawer = whole(spec(SHOP), SHOP).drawers[2].moved(-slot.left, inches(0), -slot.floor)
    seated = seat_drawer(piece, slot, drawer)
    front = seated.board("front")
    assert front.place is not None
    assert front.place.origin[2] == (slot.floor + inches("1/32")).mm
    gaps = {met.says(facing): facing.gap for met in seated.assembly.meetings for facing in met.facings}
    assert gaps["drawer 3 front at the face frame left stile"] == inches("1/32")
    assert gaps["drawer 3 left side under the runners drawer 3 left kicker"] == inches("1/16")
    assert gaps["drawer 3 front against the stops drawer 3 left block"] == inches(0)
    assert gaps["drawer 3 bottom over the stops drawer 3 left block"] == inches("3/16")


def test_a_frame_is_glued_wherever_it_covers_an_edge_of_the_case():
    """Whole front edges of sides and panels, but for what is let into the sides: 24 in wide, stiles 1 1/2 in, sides 3/4 in."""
    piece = plan_piece(spec(SHOP), SHOP)
    case = piece.case.assembly
    glue = {(met.one.short, met.other.short): met.glue for met in piece.frame.meetings if met.other.whole is Whole.CASE}
    side, bottom = case.of_kind(PartKind.CASE_SIDE)[0], case.of_kind(PartKind.CASE_BOTTOM)[0]
    assert glue["left stile", "left side"] == side.length.mm * side.thickness.mm
    assert glue["bottom rail", "bottom"] == (inches(24) - 2 * inches("1 1/2")).mm * bottom.thickness.mm
    assert {pair for pair in glue if pair[1] == "bottom"} == {
        (one, "bottom") for one in ("left stile", "right stile", "bottom rail")
    }
    beside = sum(glue[f"{hand} stile", "bottom"] for hand in ("left", "right"))
    assert beside + glue["bottom rail", "bottom"] == bottom.length.mm * bottom.thickness.mm


def test_a_mullion_is_glued_to_its_partition():
    wish = DrawerWish(drawer_make(), SHOP)
    piece = plan_piece(spec(SHOP, banks=(Bank(Equal(2), (wish,) * 2),) * 2, width=size(48)), SHOP)
    (met,) = (
        met for met in piece.frame.meetings if met.other.kind is PartKind.CASE_PARTITION and met.one.kind is PartKind.MULLION
    )
    partition, mullion = piece.case.assembly.part(met.other), piece.frame.part(met.one)
    assert met.glue == mullion.length.mm * partition.thickness.mm
