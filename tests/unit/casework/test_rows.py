"""Rows of drawers side by side: their openings, the wood between them, and what is refused (RO-1)."""

import pytest

from joinlay.boards import CutUse, DrawerRole, Hand, PartKind, PartRole, Surface
from joinlay.boards.extent import SpaceBox
from joinlay.casework.bay import BankWish, DrawerWish, lay_out_bays
from joinlay.casework.case_sizes import CaseMake
from joinlay.casework.face_frame import FrameMake
from joinlay.casework.graduation import ByShares, Equal, OneByOne
from joinlay.casework.piece import Bank, plan_piece
from joinlay.casework.row import RowWish
from joinlay.casework.shelves import OpenMake
from joinlay.errors import BadInput
from joinlay.findings import Refused
from joinlay.lengths import Fraction, inches
from tests.assembly.pieces import drawer_make, ply, shop, size, solid, spec, tried, way_out, whole

SHOP = shop()


def row(*wishes, width="24", mullion="1"):
    """The first row of a bank of ``wishes``, in a frame with stiles of 2."""
    bank = BankWish(Equal(len(wishes)), rows=wishes, mullion=size(mullion))
    (bay,) = lay_out_bays(
        size(width), size(30), stile=size(2), mullion=size(2), top_rail=size(2), bottom_rail=size(2), rail=size(1), banks=[bank]
    )
    return bay.rows[0]


def rows(*counts, **changed):
    """A bank with as many drawers in each row as asked."""
    wish = DrawerWish(drawer_make(), SHOP)
    return Bank(Equal(len(counts)), (wish,) * sum(counts), rows=tuple(RowWish(count) for count in counts), **changed)


def chest(*counts, mullion="1 1/2", **changed):
    return spec(SHOP, banks=(rows(*counts, mullion=size(mullion)),), width=size(32), **changed)


def refused(wanted):
    """What the refusal of a piece says."""
    made = tried(wanted, SHOP)
    assert isinstance(made, Refused)
    return way_out(made, SHOP)


def test_drawers_side_by_side_and_their_mullions_fill_the_row():
    one = row(RowWish(3))
    assert one.widths == (inches(6),) * 3
    assert one.lefts == (inches(2), inches(9), inches(16))


def test_a_row_may_be_divided_by_shares_or_widths():
    assert row(RowWish(3, ByShares((Fraction(1), Fraction(2), Fraction(1))))).widths == (
        inches("4 1/2"),
        inches(9),
        inches("4 1/2"),
    )
    given = row(RowWish(3, OneByOne((size(4), None, size(5)))))
    assert given.widths == (inches(4), inches(9), inches(5))
    assert given.lefts[2] == inches(17)


def test_drawers_are_numbered_along_each_row():
    piece = plan_piece(chest(2, 1, 3), SHOP)
    (bay,) = piece.bays
    assert [[drawer.number for drawer in one.drawers] for one in bay.rows] == [[1, 2], [3], [4, 5, 6]]
    assert [slot.drawer.number for slot in piece.slots] == [1, 2, 3, 4, 5, 6]


def left_open(*places, drawers=1, widths=None, **holds):
    """A row of ``drawers`` with ``places`` of it left open."""
    return RowWish(drawers, widths, OpenMake(**holds), left_open=places)


def open_chest(*wishes):
    """A chest of rows, places of some of them left open."""
    made = DrawerWish(drawer_make(), SHOP)
    bank = Bank(Equal(len(wishes)), (made,) * sum(wish.count for wish in wishes), rows=wishes, mullion=size("1 1/2"))
    return plan_piece(spec(SHOP, banks=(bank,), width=size(32)), SHOP)


def test_a_place_left_open_takes_its_share_of_the_row_and_drawers_are_numbered_past_it():
    one = row(left_open(2, drawers=2, widths=OneByOne((size(4), None, size(5)))))
    assert (one.widths, one.lefts[2]) == ((inches(4), inches(9), inches(5)), inches(17))
    assert one.places == (DrawerRole(1), 1, DrawerRole(2))
    piece = open_chest(left_open(1), left_open(1, 2, drawers=0), left_open(2, drawers=2))
    assert [bay.number for bay in piece.opens] == [1, 2, 3, 4]
    assert [slot.drawer.number for slot in piece.slots] == [1, 2, 3]
    assert piece.opens[0].left == piece.bays[0].left
    assert [board.name for board in piece.frame.of_kind(PartKind.MULLION)] == [
        "face frame mullion right of open bay 1",
        "face frame mullion right of open bay 2",
        "face frame mullion right of drawer 2",
        "face frame mullion right of open bay 4",
    ]


def test_a_place_left_open_has_a_floor_level_with_its_rail_a_ceiling_and_a_partition():
    piece = open_chest(RowWish(), left_open(1), RowWish())
    over, floor = piece.case.assembly.of_kind(PartKind.DUST_PANEL)
    partition = piece.case.assembly.part(PartRole(PartKind.CASE_PARTITION, bay=1))
    rail = piece.frame.part(PartRole(PartKind.RAIL, DrawerRole(2)))
    assert SpaceBox.around(floor).high[2] == SpaceBox.around(rail).high[2]
    low, high = SpaceBox.around(partition).low[2], SpaceBox.around(partition).high[2]
    assert low < SpaceBox.around(floor).high[2] < SpaceBox.around(over).low[2] < high
    (slot,) = [slot for slot in piece.slots if slot.drawer == DrawerRole(2)]
    assert slot.cavity.wood(Hand.LEFT) == partition.role
    assert (slot.ground, slot.roof) == (floor.role, over.role)


def test_shelves_of_a_place_left_open_lie_in_its_partition():
    piece = open_chest(left_open(1, fixed=1), left_open(2, loose=1), RowWish())
    shelf = piece.case.assembly.part(PartRole(PartKind.SHELF, number=1, bay=1))
    left, right = (part for part in piece.case.assembly.boards if any(cut.role.mate == shelf.role for cut in part.cuts))
    assert (left.role, right.role) == (
        PartRole(PartKind.CASE_SIDE, hand=Hand.LEFT),
        PartRole(PartKind.CASE_PARTITION, bay=1),
    )
    bored = piece.case.assembly.part(PartRole(PartKind.CASE_PARTITION, DrawerRole(2)))
    assert {cut.surface for cut in bored.cuts_of(CutUse.PIN_HOLE)} == {Surface.FAR_FACE}


def test_places_left_open_that_cannot_be_are_refused():
    for wrong in ((0,), (3,), (1, 1)):
        with pytest.raises(BadInput, match="name each once, from 1"):
            left_open(*wrong)
    with pytest.raises(BadInput, match="as many widths as places"):
        left_open(1, widths=Equal(3))
    with pytest.raises(BadInput, match="between partitions"):
        RowWish(1, open=OpenMake(), has_double_bearers=True, left_open=(1,))


def test_a_row_lies_between_panels_and_its_neighbours_too():
    piece = plan_piece(chest(1, 2, 1, 1), SHOP)
    panels = piece.case.assembly.of_kind(PartKind.DUST_PANEL)
    assert [panel.name for panel in panels] == ["case dust panel under drawer 1", "case dust panel under drawers 2 and 3"]
    first, second, third, fourth, fifth = piece.slots
    assert (first.ground, first.roof) == (panels[0].role, PartRole(PartKind.CASE_TOP))
    assert (second.ground, second.roof) == (third.ground, third.roof) == (panels[1].role, panels[0].role)
    assert (fourth.ground, fourth.roof) == (None, panels[1].role)
    assert (fifth.ground, fifth.roof) == (PartRole(PartKind.CASE_BOTTOM), None)
    # The drawers of the row ride on the panel, so they need no bearers.
    assert [board.role.drawer for board in piece.runners.assembly.of_kind(PartKind.BEARER)] == [
        DrawerRole(n) for n in (4, 4, 5, 5)
    ]


def test_a_partition_stands_behind_the_mullion_in_dadoes_of_both_panels():
    piece = plan_piece(chest(1, 2, 1), SHOP)
    partition = piece.case.assembly.part(PartRole(PartKind.CASE_PARTITION, DrawerRole(2)))
    mullion = piece.frame.part(PartRole(PartKind.MULLION, DrawerRole(2)))
    assert partition.name == "case partition right of drawer 2"
    ends = [SpaceBox.around(board) for board in (partition, mullion)]
    assert len({box.low[0] + box.high[0] for box in ends}) == 1
    over, under = piece.case.assembly.of_kind(PartKind.DUST_PANEL)
    (above,), (below,) = ([cut for cut in panel.cuts if cut.role.mate == partition.role] for panel in (over, under))
    assert (above.surface, below.surface) == (Surface.FAR_FACE, Surface.FACE)


def test_a_row_at_the_top_hangs_its_partition_in_the_case_top():
    piece = plan_piece(chest(3, 1), SHOP)
    top = piece.case.assembly.part(PartRole(PartKind.CASE_TOP))
    assert [cut.role.mate for cut in top.cuts] == [PartRole(PartKind.CASE_PARTITION, DrawerRole(n)) for n in (1, 2)]


def test_mullions_over_and_under_each_other_share_their_rail():
    piece = plan_piece(chest(2, 2), SHOP)
    rail = piece.frame.part(PartRole(PartKind.RAIL, DrawerRole(1), number=2))
    mortises = [cut for cut in rail.cuts if cut.surface.axis is Surface.EDGE.axis]
    assert {cut.surface for cut in mortises} == {Surface.EDGE, Surface.FAR_EDGE}
    assert sum(cut.across.size.mm for cut in mortises) < rail.width.mm


def test_a_guide_too_thin_to_rip_is_left_out_and_said():
    piece = plan_piece(chest(2, mullion="13/16"), SHOP)
    guides = [one.role for one in piece.runners.assembly.of_kind(PartKind.GUIDE)]
    assert guides == [PartRole(PartKind.GUIDE, DrawerRole(1), Hand.LEFT), PartRole(PartKind.GUIDE, DrawerRole(2), Hand.RIGHT)]
    (said, _) = [found for found in piece.runners.assembly.findings if "for a guide" in found.what]
    assert said.where == "drawer 1"
    assert said.sentence(SHOP.rule.text).startswith("The case partition beside the drawer guides it: it stands")


def test_what_a_row_cannot_be_is_refused_with_what_would_work():
    with pytest.raises(Refused, match=r"over: the openings come to 19\.05 mm|over"):
        row(RowWish(2, OneByOne((size(10), size(12)))))
    with pytest.raises(Refused, match="The mullions alone take"):
        row(RowWish(3), mullion="10")
    with pytest.raises(BadInput, match="as many widths as drawers"):
        RowWish(2, Equal(3))
    with pytest.raises(BadInput, match="for 2 rows"):
        Bank(Equal(3), (DrawerWish(drawer_make(), SHOP),) * 3, rows=(RowWish(2), RowWish()))


def test_a_dust_panel_higher_than_its_rail_is_refused_and_its_remedies_help():
    def tall(rail, panels="7/8"):
        frame = FrameMake(solid("3/4"), rail=size(rail), bottom_rail=size("2 1/2"))
        return chest(2, 1, frame=frame, case=CaseMake(ply("3/4"), ply(panels), ply("1/4")))

    said = refused(tall("3/4"))
    assert "A dust panel 7/8 in thick does not go behind a rail 3/4 in high" in said
    assert "Make the rail at least 7/8 in high, or the case's panels of stock 3/4 in thick at most" in said
    for mended in (tall("7/8"), tall("3/4", panels="3/4")):
        assert len(whole(mended, SHOP).drawers) == 3


def test_a_mullion_narrower_than_its_partition_is_refused_and_the_remedy_helps():
    thick = CaseMake(ply("7/8"), ply("3/4"), ply("1/4"))
    said = refused(chest(2, mullion="3/4", case=thick))
    assert "leaves 1/16 in of the case partition right of drawer 1 in the opening at its right" in said
    assert "Make the mullion at least 1/8 in wider" in said
    assert len(whole(chest(2, mullion="7/8", case=thick), SHOP).drawers) == 2
    said = refused(chest(2, mullion="1/2"))
    assert "A mullion 1/2 in wide leaves no room for a tenon" in said
    assert "The narrowest mullion that holds one is 23/32 in wide" in said
