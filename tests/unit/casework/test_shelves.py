"""Open bays: their shelves in dadoes and on pins, and what is refused (SH-1, SH-2)."""

import pytest

from joinlay.boards import CutUse, Hand, PartKind, PartRole
from joinlay.boards.meeting import Tie
from joinlay.casework.bay import DrawerWish
from joinlay.casework.case_sizes import CaseMake
from joinlay.casework.graduation import Equal
from joinlay.casework.piece import Bank, plan_piece
from joinlay.casework.row import RowWish
from joinlay.casework.shelves import Lipping, OpenMake, fixed_levels, pin_lines
from joinlay.errors import BadInput
from joinlay.findings import Refused
from joinlay.lengths import inches
from tests.assembly.pieces import drawer_make, ply, shop, size, solid, spec, whole
from tests.assembly.solids import prove_assembled

SHOP = shop()


def chest(*rows, own=SHOP, **changed):
    """A chest of one bank: each of ``rows`` is how many drawers it has, or what an open bay holds."""
    wish = DrawerWish(drawer_make(), own)
    made = tuple(RowWish(row) if isinstance(row, int) else RowWish(0, open=row) for row in rows)
    drawers = sum(row.count for row in made)
    return spec(own, banks=(Bank(Equal(len(rows)), (wish,) * drawers, rows=made),), width=size(30), **changed)


def case_of(*rows, **changed):
    return plan_piece(chest(*rows, **changed), SHOP).case


def test_an_open_bay_has_panels_under_and_over_it():
    piece = plan_piece(chest(1, OpenMake(), 1), SHOP)
    panels = [board.name for board in piece.case.assembly.of_kind(PartKind.DUST_PANEL)]
    assert panels == ["case dust panel under drawer 1", "case dust panel under open bay 1"]
    assert piece.frame.part(PartRole(PartKind.RAIL, bay=1)).name == "face frame rail under open bay 1"
    (bay,) = piece.opens
    assert (bay.number, bay.bank, bay.height) == (1, 1, piece.bays[0].heights[1])


def test_the_case_bottom_is_level_with_the_rail_where_a_bay_is_open_over_it():
    assert case_of(1, OpenMake()).sizes.floor == inches(2)
    assert case_of(OpenMake(), 1).sizes.floor < inches(2)


def test_fixed_shelves_part_the_bay_alike():
    levels = fixed_levels(2, size(10), size(24), size("3/4"), "open bay 1")
    room = inches("12 1/2") / 3
    assert levels == (inches(24) - room, inches(10) + room + inches("3/4"))


def test_a_fixed_shelf_lies_in_dadoes_of_both_sides():
    case = case_of(OpenMake(fixed=1), 1)
    shelf = PartRole(PartKind.SHELF, number=1, bay=1)
    for hand in (Hand.LEFT, Hand.RIGHT):
        side = case.assembly.part(PartRole(PartKind.CASE_SIDE, hand=hand))
        assert [cut.role.use for cut in side.cuts if cut.role.mate == shelf] == [CutUse.DADO]
    assert {met.tie for met in case.assembly.meetings if met.one == shelf} == {Tie.GLUED}


def test_a_lipping_is_flush_with_the_case_and_its_shelf():
    case = case_of(OpenMake(fixed=1, lipping=Lipping(solid("3/4"), size("1 1/2"))))
    shelf, lipping = (case.assembly.part(PartRole(kind, number=1, bay=1)) for kind in (PartKind.SHELF, PartKind.LIPPING))
    assert shelf.width == case.sizes.inside_depth - lipping.thickness
    assert lipping.length == case.sizes.inside_width


def test_pin_holes_are_from_one_datum_and_a_spacing_apart():
    lines = pin_lines(size(16), size(12), 2, SHOP.practice, "open bay 1")
    # 1 1/4 apart, the first and last two spacings from floor and ceiling.
    assert [level.mm for level in lines.levels] == [inches("1 1/4").mm * n for n in range(2, 11)]
    assert (lines.front, lines.back) == (inches("1 1/2"), inches("10 1/2"))


def test_both_sides_of_a_bay_are_bored_alike():
    case = case_of(OpenMake(loose=2), 1)
    bored = []
    for hand in (Hand.LEFT, Hand.RIGHT):
        side = case.assembly.part(PartRole(PartKind.CASE_SIDE, hand=hand))
        bored.append({(cut.along.centre.mm, cut.across.centre.mm) for cut in side.cuts_of(CutUse.PIN_HOLE)})
    assert bored[0] == bored[1] != set()


def test_loose_shelves_clear_the_sides_and_stand_on_pins_in_their_holes():
    case = case_of(OpenMake(loose=2), 1)
    assert [board.length for board in case.shelves.boards] == [case.sizes.inside_width - inches("1/8")] * 2
    side = case.assembly.part(PartRole(PartKind.CASE_SIDE, hand=Hand.LEFT))
    levels = {cut.along.centre.mm + case.sizes.underside.mm for cut in side.cuts_of(CutUse.PIN_HOLE)}
    for board in case.shelves.boards:
        assert board.place is not None
        under = board.place.origin[2] - board.thickness.mm
        assert under - inches("1/8").mm in levels  # half a pin over the middle of its hole


def test_what_an_open_bay_cannot_be_is_refused_with_what_would_work():
    with pytest.raises(BadInput, match="one kind"):
        OpenMake(fixed=1, loose=1)
    with pytest.raises(BadInput, match="glued to fixed shelves"):
        OpenMake(loose=1, lipping=Lipping(solid("3/4"), size(2)))
    with pytest.raises(Refused, match="The shelves alone take"):
        fixed_levels(20, size(0), size(10), size("3/4"), "open bay 1")
    with pytest.raises(Refused, match="does not cover the edge"):
        case_of(OpenMake(fixed=1, lipping=Lipping(solid("3/4"), size("1/2"))))
    with pytest.raises(Refused, match="leave nothing between them") as refused:
        pin_lines(size(16), size(3), 1, SHOP.practice, "open bay 1")
    assert pin_lines(size(16), size(refused.value.finding.numbers["least"]) + size("1/4"), 1, SHOP.practice, "open bay 1").levels


def test_a_bay_too_low_for_its_loose_shelves_says_how_high_would_do():
    with pytest.raises(Refused, match="has room for 1 pin holes") as refused:
        pin_lines(size("5 1/4"), size(12), 2, SHOP.practice, "open bay 1")
    enough = refused.value.finding.numbers["enough"]
    assert len(pin_lines(size(enough), size(12), 2, SHOP.practice, "open bay 1").levels) == 2


def test_pieces_with_open_bays_assemble():
    thin = CaseMake(ply("3/4"), ply("3/4"), ply("1/4"), has_stopped_dadoes=True)
    lipped = OpenMake(fixed=2, stock=ply("5/8"), lipping=Lipping(solid("3/4"), size("1 1/2")))
    prove_assembled(whole(chest(2, lipped, 1, OpenMake(loose=1), case=thin, height=size(48)), SHOP))
    wish = DrawerWish(drawer_make(), SHOP)
    beside = (
        Bank(Equal(1), (), rows=(RowWish(0, open=OpenMake(loose=3)),)),
        Bank(Equal(2), (wish,), rows=(RowWish(0, open=OpenMake(loose=2)), RowWish())),
    )
    prove_assembled(whole(spec(SHOP, banks=beside, width=size(40)), SHOP))
