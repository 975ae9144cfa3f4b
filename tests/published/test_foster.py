"""E. W. Foster, Carpentry and Woodwork, 1911: check values A6, A7, A14 and F13 (figures seen in a copy)."""

from joinlay.boards import CutUse, DrawerRole, PartKind
from joinlay.casework.bay import BankWish, DrawerWish, lay_out_bays
from joinlay.casework.case_sizes import CaseMake
from joinlay.casework.drawer import plan_drawer
from joinlay.casework.face_frame import FrameMake
from joinlay.casework.graduation import ACROSS, Equal, OneByOne, filled, opening_heights, room_for_openings
from joinlay.casework.opening import Opening
from joinlay.casework.piece import Bank, plan_piece
from joinlay.casework.pulls import Pulls, place_pulls
from joinlay.casework.row import RowWish
from joinlay.casework.top import TopMake
from joinlay.lengths import NOTHING, Fraction, inches
from tests.assembly.pieces import drawer_make, ply, shop, size, solid, spec, whole

HALF, QUARTER = solid("1/2"), ply("1/4")


def test_nail_cabinet_heights_fill_the_side():
    # Fig. 136: three spaces of 4 in between four shelves of 1/2 in fill sides of 14 in; the first and last shelf are top and
    # bottom.
    shelf = size("1/2")
    room = room_for_openings(size(14), shelf, shelf, [shelf] * 2)
    assert opening_heights(Equal(3), room, names=["a", "b", "c"]) == (inches(4),) * 3
    assert filled(OneByOne((size(4),) * 3), [shelf] * 2, shelf, shelf) == inches(14)


def test_nail_cabinet_shelves_are_longer_than_the_inside_by_two_dadoes_of_a_quarter():
    # Outside 25 1/8, inside 24 1/8, shelves 24 5/8 in sides of 1/2: dadoes 1/4 deep, half of the side, tongues to the bottom of
    # them.
    own = shop(tip_gap="0")
    own = type(own)(
        own.cutters,
        own.tenons,
        own.saw,
        own.rule,
        own.practice.but(ratios={"dado share": own.practice.ratio("largest dado share")}),
    )
    frame = FrameMake(solid("3/4"), stile=size("3/4"))
    case = plan_piece(
        spec(own, width=size("25 1/8"), frame=frame, case=CaseMake(HALF, HALF, QUARTER), runner=solid("1/2")), own
    ).case
    assert case.sizes.inside_width == inches("24 1/8")
    assert case.assembly.board("left side").cut_named("bottom dado").depth == inches("1/4")
    assert case.assembly.board("bottom").length == inches("24 5/8")


def test_nail_cabinet_drawers_leave_an_eighth_in_all():
    # Four drawers of 6 in side by side in 24 1/8.
    openings = opening_heights(Equal(4), size("24 1/8"), names=["a", "b", "c", "d"], divided=ACROSS)
    own = shop(side_clearance="1/64")
    (drawer,) = {
        plan_drawer(DrawerRole(1), Opening(wide, size(4), size(12)), drawer_make(), own).board("front").length
        for wide in openings
    }
    assert drawer == inches(6)


def test_filing_cabinet_openings_fill_its_outside():
    # Fig. 195: four across and three high, compartments 5 1/2 by 3 1/2, dividers and outside 1/2: 24 1/2 by 12 1/2 (outside
    # derived).
    half = size("1/2")
    banks = [BankWish(Equal(3), first=1 + 3 * n) for n in range(4)]
    bays = lay_out_bays(
        size("24 1/2"), size("12 1/2"), stile=half, mullion=half, top_rail=half, bottom_rail=half, rail=half, banks=banks
    )
    assert {bay.width for bay in bays} == {inches("5 1/2")}
    assert {height for bay in bays for height in bay.heights} == {inches("3 1/2")}


def test_filing_cabinet_openings_are_the_same_row_by_row():
    half = size("1/2")
    bank = BankWish(Equal(3), rows=(RowWish(4),) * 3)
    (bay,) = lay_out_bays(
        size("24 1/2"), size("12 1/2"), stile=half, mullion=half, top_rail=half, bottom_rail=half, rail=half, banks=[bank]
    )
    assert {wide for row in bay.rows for wide in row.widths} == {inches("5 1/2")}
    assert [left.mm for left in bay.rows[0].lefts] == [inches(f"{6 * n} 1/2").mm for n in range(4)]
    assert set(bay.heights) == {inches("3 1/2")}


def test_filing_cabinet_drawers_have_a_sixteenth_of_play_each_way():
    # Compartment 5 1/2 by 3 1/2, drawer 5 7/16 by 3 7/16.
    own = shop(side_clearance="1/32", top_clearance="1/32", bottom_clearance_of_the_front="1/32")
    make = drawer_make(front=solid("1/2"), sides=solid("1/2"), back=solid("1/2"))
    front = plan_drawer(DrawerRole(1), Opening(size("5 1/2"), size("3 1/2"), size(12)), make, own).board("front")
    assert (front.length, front.width) == (inches("5 7/16"), inches("3 7/16"))


def test_a_knob_is_in_the_middle_by_the_diagonals():
    own = shop()
    piece = plan_piece(spec(own, banks=(Bank(Equal(2), (DrawerWish(drawer_make(), own),) * 2),)), own)
    fronts = [plan_drawer(slot.drawer, slot.opening, slot.wish.make, own).board("front") for slot in piece.slots]
    knobs = place_pulls(fronts, Pulls("walnut", size("1"), size("1"), size("3/8")), own)
    for front, knob in zip(fronts, knobs, strict=True):
        # On both diagonals at once: as far along as across, in their own measures.
        assert knob.from_left / front.length == knob.from_top / front.width == 1 - knob.from_bottom / front.width
        assert knob.from_left > NOTHING


def test_a_wide_board_across_other_wood_is_fast_in_its_middle_six_to_eight_inches_only():
    """F13, fig. 206: two tongued cleats make a board of 20 by 18 one of 24: 20 + 2 x (2 1/2 - 1/2), and only the middle of its 18
    is glued.

    Our tops lie across strips in place of cleats. The screws of one 18 deep that hold it fast keep within its middle 6; all
    others are in slots.
    """
    assert inches(20) + (inches("2 1/2") - inches("1/2")) * 2 == inches(24)
    own = shop()
    top = TopMake(solid("7/8"), front=size(1), ends=size(1))
    piece = whole(spec(own, heights=Equal(2), width=size(22), depth=size(17), top=top), own)
    (board,) = (one for one in piece.boards if one.role.kind is PartKind.TOP)
    assert (board.length, board.width) == (inches(24), inches(18))
    middle = board.place.origin[1] + board.width.mm / 2
    fast: list[Fraction] = []
    loose: list[Fraction] = []
    for strip in (one for one in piece.boards if one.role.kind is PartKind.TOP_STRIP):
        for cut in strip.cuts:
            (fast if cut.role.use is CutUse.SCREW_HOLE else loose).append(
                abs(strip.place.origin[1] + cut.into.centre.mm - middle)
            )
    assert fast
    assert loose
    assert max(fast) <= inches(3).mm < min(loose)
