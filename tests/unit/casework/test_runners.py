"""Wooden runners (RN-1 to RN-4)."""

from joinlay.boards import CutKind, CutUse, DrawerRole, PartKind, Surface
from joinlay.boards.meeting import Tie
from joinlay.casework.case_sizes import CaseMake
from joinlay.casework.face_frame import FrameMake
from joinlay.casework.piece import plan_piece
from joinlay.findings import Harm, Refused
from joinlay.lengths import inches, mm
from joinlay.stock import Solid
from joinlay.stock.movement import Day, Seasons, movement_of
from tests.assembly.pieces import drawer_make, ply, shop, size, solid, spec, tried, way_out, whole

SHOP = shop()


def runners(**changed):
    return plan_piece(spec(SHOP, **changed), SHOP).runners


def frame(**changed):
    return FrameMake(solid("3/4"), **{name: size(value) for name, value in changed.items()})


def top(board):
    return board.place.origin[2]


def test_a_bearer_is_level_with_its_rail_and_as_wide_as_guide_side_and_margin():
    piece = plan_piece(spec(SHOP), SHOP)
    bearer = piece.runners.assembly.board("drawer 2 left bearer")
    assert top(bearer) == piece.slots[1].floor.mm
    assert bearer.width == inches("3/4") + inches("1/2") + inches("1/4")
    assert bearer.length == piece.case.sizes.inside_depth


def test_a_wide_clearance_widens_the_bearer():
    own = shop(side_clearance="1/2")
    wide = plan_piece(spec(own), own).runners.assembly.board("drawer 2 left bearer")
    assert wide.width == inches("3/4") + inches("1/2") + inches("1/2") + inches("1/8")


def test_a_guide_lies_on_its_bearer_even_with_the_frame():
    piece = plan_piece(spec(SHOP), SHOP)
    guide = piece.runners.assembly.board("drawer 1 right guide")
    assert guide.width == inches("3/4")
    assert guide.place is not None
    inner = guide.place.point(mm(0), guide.width, mm(0))[0]
    assert inner == (piece.slots[0].left + piece.slots[0].opening.width).mm


def test_a_frame_even_with_the_case_needs_no_guides():
    made = runners(frame=frame(stile="3/4"))
    assert not [board for board in made.assembly.boards if board.part == "guide"]


def test_a_guide_as_thick_as_the_thinnest_strip_is_ripped_and_a_thinner_one_is_not():
    for stile, guides in (("7/8", 8), ("55/64", 0)):
        made = runners(frame=frame(stile=stile))
        assert len([board for board in made.assembly.boards if board.part == "guide"]) == guides


UNDER_OR_OVER = {PartKind.BEARER: True, PartKind.PACKING: True, PartKind.KICKER: False}


def test_each_runner_meets_the_rail_at_its_own_level_and_no_other():
    """Bearers and packing lie behind the rail under their drawer, kickers behind the one over it (RN-1, RN-3)."""
    # Its bottom lies so low that the lowest bearers are packed.
    low = CaseMake(ply("3/4"), ply("3/4"), ply("1/4"), bottom_offset=size("1/4"))
    piece = plan_piece(spec(SHOP, case=low), SHOP)
    boards = {board.role: board for assembly in piece.assemblies for board in assembly.boards}
    slots = {slot.drawer: slot for slot in piece.slots}
    seen = {True: 0, False: 0}
    for met in piece.runners.assembly.meetings:
        if met.one.kind not in UNDER_OR_OVER or met.other.kind is not PartKind.RAIL:
            continue
        assert met.one.drawer is not None
        slot, rail, is_under = slots[met.one.drawer], boards[met.other], UNDER_OR_OVER[met.one.kind]
        assert rail.place is not None
        foot, top_edge = sorted(rail.place.point(mm(0), across, mm(0))[2] for across in (mm(0), rail.width))
        roof = slot.floor.mm + slot.opening.height.mm
        assert (top_edge == slot.floor.mm) if is_under else (foot == roof), (met.one.name, met.other.name)
        seen[is_under] += 1
    assert seen == {True: 10, False: 8}


def test_a_kicker_fills_the_rail_less_bearer_and_lift():
    piece = plan_piece(spec(SHOP), SHOP)
    kicker = piece.runners.assembly.board("drawer 2 left kicker")
    assert kicker.width == inches(1) - inches("3/4") - inches("1/32")
    rail_underside = piece.slots[1].floor + piece.slots[1].opening.height
    assert top(kicker) == (rail_underside + inches("1/32")).mm
    assert piece.runners.of[DrawerRole(2)].kicker_gap == inches("1/16")


def test_the_topmost_kicker_hangs_from_the_case_top():
    piece = plan_piece(spec(SHOP), SHOP)
    kicker = piece.runners.assembly.board("drawer 1 right kicker")
    assert top(kicker) + kicker.width.mm == piece.case.sizes.ceiling.mm
    assert kicker.width == inches("3/4") - inches("1/32")


def test_the_lowest_bearer_is_packed_up_from_the_case_bottom():
    case = CaseMake(ply("3/4"), ply("3/4"), ply("1/4"), bottom_offset=size("1/4"))
    packing = runners(case=case).assembly.board("drawer 4 left packing")
    assert packing.width == inches(2) - inches("1/4") - inches("3/4") - inches("3/4")


def test_level_with_the_rail_the_case_bottom_is_the_bearer():
    made = runners(frame=frame(bottom_rail="1 1/2"))
    assert made.of[DrawerRole(4)].left.bears.name == "case bottom"
    assert not [board for board in made.assembly.boards if "drawer 4" in board.name and board.part in ("bearer", "packing")]


def test_where_nothing_is_left_the_bearer_is_its_own_kicker():
    made = runners(runner=solid("15/16", "red maple"))
    assert made.of[DrawerRole(2)].left.kicks.name == "runners drawer 1 left bearer"
    assert made.of[DrawerRole(2)].kicker_gap == inches("1/32") + inches("1/16")


def test_a_bearer_thicker_than_its_rail_is_planed_to_it():
    made = runners(runner=solid("5/4", "red maple"), frame=frame(bottom_rail="2 1/2"))
    assert made.assembly.board("drawer 1 left bearer").thickness == inches("31/32")
    assert {f.rule for f in made.assembly.findings if "planed" in f.what} == {"RN-3"}


def test_sheet_stock_is_not_planed():
    wanted = spec(SHOP, runner=ply("1 1/8"), frame=frame(bottom_rail="2 1/2"))
    made = tried(wanted, SHOP)
    assert isinstance(made, Refused)
    said = way_out(made, SHOP)
    assert "sheet stock can't be planed" in said
    assert "Use runner stock of 1 in or thinner, or make the rail at least 1 1/8 in high" in said
    assert whole(spec(SHOP, runner=ply("1 1/8"), frame=frame(bottom_rail="2 1/2", rail="1 1/8")), SHOP)


def test_packing_too_thin_to_rip_says_where_the_case_bottom_may_go():
    case = CaseMake(ply("3/4"), ply("3/4"), ply("1/4"), bottom_offset=size("7/16"))
    made = tried(spec(SHOP, case=case), SHOP)
    assert isinstance(made, Refused)
    assert "Move the case bottom 1/16 in up, or at least 1/16 in down" in way_out(made, SHOP)


def test_an_opening_too_narrow_for_two_bearers_is_refused():
    made = tried(spec(SHOP, width=size("4 3/4")), SHOP)
    assert isinstance(made, Refused)
    assert "Make the opening at least 3/4 in wider" in way_out(made, SHOP)


def test_guides_higher_than_their_opening_are_refused():
    made = tried(spec(SHOP, height=size("9"), stops=None, frame=frame(rail="1 1/4")), SHOP)
    assert isinstance(made, Refused)
    assert "The guides are 3/4 in high" in way_out(made, SHOP)


def solid_case():
    return CaseMake(solid("3/4", "red oak"), solid("3/4", "red oak"), ply("1/4"))


def test_a_plywood_case_has_glued_bearers():
    assert not any(board.cuts for board in runners().assembly.boards)


def test_a_solid_case_has_slots_as_long_as_the_screw_and_the_movement():
    piece = plan_piece(spec(SHOP, case=solid_case()), SHOP)
    bearer = piece.runners.assembly.board("drawer 2 left bearer")
    assert bearer.length == piece.case.sizes.inside_depth - inches("1/8")
    hole, *slots = bearer.cuts
    assert (hole.kind, hole.surface, hole.along.centre) == (CutKind.HOLE, Surface.EDGE, inches("1 1/2"))
    assert [slot.kind for slot in slots] == [CutKind.SLOT] * 2
    seasons, oak = piece.spec.seasons, piece.spec.case.sides
    assert isinstance(oak, Solid)
    for slot, distance in zip(slots, ((bearer.length - inches(3)) / 2, bearer.length - inches(3)), strict=True):
        moved = movement_of(oak, distance, seasons.workshop, seasons.dampest) - movement_of(
            oak, distance, seasons.workshop, seasons.driest
        )
        assert slot.along.size.mm == inches("3/16").mm + moved.mm
        assert slot.across.size == bearer.width
    assert slots[1].along.size > slots[0].along.size


def test_a_longer_way_to_the_dry_side_leaves_more_of_the_slot_in_front():
    damp, dry = Day(mm("24").mm, mm("13/20").mm), Day(mm("21").mm, mm("3/10").mm)
    made_dry = runners(case=solid_case(), seasons=Seasons(dry, damp, workshop=dry))
    made_damp = runners(case=solid_case(), seasons=Seasons(dry, damp, workshop=damp))
    in_dry, in_damp = (made.assembly.board("drawer 2 left bearer").cuts[-1].along for made in (made_dry, made_damp))
    assert in_dry.start > in_damp.start
    assert in_dry.stop > in_damp.stop
    assert abs(in_dry.size - in_damp.size) < mm("0.2")


def test_screws_need_wood_around_them():
    made = tried(spec(SHOP, case=solid_case(), runner=solid("5/16", "red maple")), SHOP)
    assert isinstance(made, Refused)
    assert "Use stock of 3/8 in or more" in way_out(made, SHOP)


def test_a_strip_as_thin_as_two_screws_holds_them():
    piece = plan_piece(spec(SHOP, case=solid_case(), runner=solid("3/8", "red maple")), SHOP)
    assert piece.runners.assembly.board("drawer 2 left bearer").cuts_of(CutUse.SCREW_HOLE)


def test_a_shallow_case_has_no_room_for_screws():
    own = shop(screw_from_the_end="5")
    made = tried(spec(own, case=solid_case(), depth=size("11"), make=drawer_make()), own)
    assert isinstance(made, Refused)
    assert "has no room for two screws" in way_out(made, own)


def test_what_holds_the_runners_is_said_once():
    piece = plan_piece(spec(SHOP, case=solid_case()), SHOP)
    said = [f for f in piece.findings if f.rule == "RN-4"]
    assert [f.harm for f in said] == [Harm.NOTE]
    assert "slots" in said[0].what


# -- how they are held ---------------------------------------------------------------------------------


def held(made, kind, other=None):
    """The fixed meetings of the runners of a kind that are glued."""
    return [met for met in made.assembly.meetings if met.one.kind is kind and met.glue and other in (None, met.other.kind)]


def test_runners_in_a_plywood_case_are_nailed_and_glued():
    made = plan_piece(spec(SHOP), SHOP).runners
    length = made.assembly.boards[0].length
    # That is four spacings of at most 150 mm, so five nails.
    assert mm(450) < length < mm(600)
    for met in (*held(made, PartKind.BEARER), *held(made, PartKind.KICKER)):
        thick = made.assembly.part(met.one).thickness
        assert (met.tie, met.fasteners, met.glue) == (Tie.NAILED, 5, length.mm * thick.mm)


def test_a_guide_is_glued_flat_to_its_bearer():
    made = plan_piece(spec(SHOP), SHOP).runners
    (first, *_) = held(made, PartKind.GUIDE)
    guide = made.assembly.part(first.one)
    assert first.other.kind is PartKind.BEARER
    assert (first.tie, first.fasteners, first.glue) == (Tie.GLUED, 0, guide.length.mm * guide.width.mm)


def test_a_bearer_that_is_screwed_is_glued_round_its_front_screw_only():
    case = CaseMake(solid("3/4"), solid("3/4"), ply("1/4"))
    made = plan_piece(spec(SHOP, case=case), SHOP).runners
    (first, *_) = held(made, PartKind.BEARER)
    bearer = made.assembly.part(first.one)
    (hole,), slots = bearer.cuts_of(CutUse.SCREW_HOLE), bearer.cuts_of(CutUse.SCREW_SLOT)
    assert (first.tie, first.fasteners) == (Tie.SCREWED, 1 + len(slots))
    assert first.glue == 2 * hole.along.centre.mm * bearer.thickness.mm
