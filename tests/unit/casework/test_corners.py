"""The corners of a drawer, and where its parts meet."""

import pytest

from joinlay.boards import Axis, CutUse, JointKind, Surface
from joinlay.boards.fastener import FastenerKind
from joinlay.boards.meeting import Tie, unmet
from joinlay.casework.corners import (
    AT_BACK,
    AT_FRONT,
    CORNERS,
    HALF_BLIND,
    HOUSED,
    LOCKED,
    NAILED,
    RABBETED,
    SHAPED_LOCK,
    TENONED,
)
from joinlay.casework.opening import BackHeight, BottomReach
from joinlay.errors import BadInput
from joinlay.findings import Refused
from joinlay.lengths import Length, dimension, inches, mm
from joinlay.stock.movement import movement_of, usual_seasons
from tests.assembly.pieces import drawer_make, ply, shop, size, solid, spec, whole

NOWHERE = dimension(mm(0))


def made(front=HALF_BLIND, back=LOCKED, **figures):
    shop_of = shop(**figures)
    return whole(spec(shop_of, make=drawer_make(front_joint=front, back_joint=back)), shop_of).drawers[0]


def boards_of(drawer):
    return {board.role: board for board in drawer.assembly.boards}


def own(drawer):
    """Where its parts meet each other, not what is around it."""
    return [met for met in drawer.assembly.meetings if met.one.drawer == met.other.drawer and met.other.whole == drawer.role]


def said(drawer):
    return {met.says(facing).replace("drawer 1 ", ""): facing.gap for met in own(drawer) for facing in met.facings}


def gaps(drawer, words):
    return {what: gap for what, gap in said(drawer).items() if words in what}


@pytest.mark.parametrize("taper", ["0", "1/32", "-1/32"])
@pytest.mark.parametrize("back", AT_BACK.values(), ids=list(AT_BACK))
@pytest.mark.parametrize("front", AT_FRONT.values(), ids=list(AT_FRONT))
def test_every_part_meets_the_others_as_stated(front, back, taper):
    if back is SHAPED_LOCK and taper != "0":
        with pytest.raises(Refused, match="tapers") as refused:
            made(front, back, taper=taper)
        assert refused.value.finding.remedies[0].changes[0].value == NOWHERE
        return
    drawer = made(front, back, taper=taper)
    assert own(drawer)
    assert unmet(own(drawer), boards_of(drawer)) == ()


@pytest.mark.parametrize(
    ("part", "way", "untrue"),
    [
        ("front", (0, 1, 0), {"left side against the lip of the front", "right side against the lip of the front"}),
        (
            "left side",
            (1, 0, 0),
            {
                "left side on the floor of the slot in the front",
                "left side with its dado over the tip of the tongue of the front",
            },
        ),
        ("back", (0, 1, 0), {"back against the left side", "back from the left side"}),
        ("back", (1, 0, 0), {"back in, at its wall inside, the left side", "back in, at its wall outside, the left side"}),
        ("bottom", (1, 0, 0), {"bottom in, at its front, the right side"}),
        ("bottom", (0, 1, 0), {"bottom in the front", "bottom in the back"}),
        ("bottom", (0, 0, 1), {"bottom on the groove of the front", "bottom on the groove of the back"}),
    ],
)
def test_a_part_a_hair_out_of_place_is_found(part, way, untrue):
    drawer = made(taper="1/32")
    moved = drawer.board(part).moved(*(dimension(mm("0.01") * step) for step in way))
    wrong = unmet(own(drawer), {**boards_of(drawer), moved.role: moved})
    assert untrue <= {told.split(":")[0].replace("drawer 1 ", "") for told in wrong}


def test_the_gaps_are_those_of_the_rules():
    straight = made(tip_gap="1/64", tongue_fit="1/128", bottom_panel_clearance="1/16")
    half_blind = gaps(straight, "tongue")
    assert half_blind["left side with its dado over the tip of the tongue of the front"] == mm("0.396875")
    assert half_blind["left side with its dado past the tongue of the front"] == mm("0.1984375")
    assert gaps(straight, "bottom in")["bottom in the left side"] == mm("0.79375")
    tapered = gaps(made(taper="1/32", bottom_panel_clearance="1/16"), "bottom in")
    assert set(tapered.values()) == {mm("0.79375")}


@pytest.mark.parametrize("back", [LOCKED, HOUSED], ids=["locked", "housed"])
@pytest.mark.parametrize("front", [HALF_BLIND, SHAPED_LOCK], ids=["half-blind", "shaped"])
def test_the_play_that_a_tongue_is_given_lies_at_the_wall_where_it_is_stated(front, back):
    drawer = made(front, back, tongue_fit="1/128")
    assert unmet(own(drawer), boards_of(drawer)) == ()
    # Flush with the sides' ends outside, a locked back has its play there; one that is housed was pushed against the outer wall.
    found = gaps(drawer, "back from the")
    assert set(found.values()) == {inches("1/128") if back is LOCKED else NOWHERE}


def test_the_tongue_of_a_tapered_back_has_least_room_outside():
    found = gaps(made(taper="1/16"), "back in")
    for hand in ("left", "right"):
        inside, outside = (found[f"back in, at its wall {where}, the {hand} side"] for where in ("inside", "outside"))
        assert inside > outside >= NOWHERE


# -- the table of corners ------------------------------------------------------------------------------


def test_each_kind_stands_where_it_can():
    assert list(AT_FRONT) == ["loose tenon", "half-blind locking rabbet", "rabbet", "shaped lock", "nailed butt"]
    assert list(AT_BACK) == ["locking rabbet", "dado", "shaped lock", "nailed butt"]
    assert {kind.word for kind in CORNERS} == {*AT_FRONT, *AT_BACK}


@pytest.mark.parametrize("changed", [{"front_joint": LOCKED}, {"back_joint": TENONED}])
def test_a_corner_where_it_cannot_stand_is_refused(changed):
    usual = shop()
    with pytest.raises(BadInput, match=r"can't stand at the (front|back) of a drawer"):
        whole(spec(usual, make=drawer_make(**changed)), usual)


def test_a_section_shows_the_corners_that_are_cut_through_their_run():
    assert {kind.word: kind.section for kind in CORNERS if kind.section is None} == {"loose tenon": None, "nailed butt": None}
    assert {kind.section for kind in CORNERS} == {None, Axis.ACROSS}


# -- the housed back and the bottom that passes under it -------------------------------------------------


def under(front=TENONED, back=HOUSED, bottom=None, reach=BottomReach.BACK, **figures):
    shop_of = shop(**figures)
    make = drawer_make(
        front_joint=front, back_joint=back, back_height=BackHeight.ON_BOTTOM, bottom=bottom or solid("5/16"), bottom_reach=reach
    )
    return whole(spec(shop_of, make=make), shop_of).drawers[0]


def told(drawer, kind):
    return [finding for finding in drawer.assembly.findings if finding.kind == kind]


def test_a_housed_back_near_the_ends_of_its_sides_is_warned_of_and_nearer_refused():
    # Sides of 1/2: as much as that behind the dado is enough, less is warned of, under a third breaks off (LR-4).
    assert not told(under(**{"back_set-in": "1/2"}), "short grain")
    (finding,) = told(under(**{"back_set-in": "3/8"}), "short grain")
    assert finding.remedies[0].changes[0].value == inches("1/2")
    assert told(under(**{"back_set-in": "1/4"}), "short grain")
    with pytest.raises(Refused, match="would break off"):
        under(**{"back_set-in": "5/32"})


def test_a_bottom_under_the_back_reaches_its_outside_or_the_ends_of_the_sides():
    short, long = under(), under(reach=BottomReach.ENDS)
    assert long.bottom.width - short.bottom.width == inches("1/2")
    ends = {board.place.point(board.length, NOWHERE, NOWHERE)[1] for board in long.sides}
    assert {long.bottom.place.point(NOWHERE, long.bottom.width, NOWHERE)[1]} == ends


def test_a_bottom_that_is_to_pass_under_a_back_of_full_height_is_refused_with_the_way_to_do_it():
    own_shop = shop()
    with pytest.raises(Refused) as refused:
        whole(spec(own_shop, make=drawer_make(bottom_reach=BottomReach.ENDS)), own_shop)
    (way,) = refused.value.finding.remedies
    assert [(change.key, change.value) for change in way.changes] == [("back-height", "on bottom")]


def test_a_solid_bottom_is_glued_at_its_front_and_its_screws_let_it_move():
    drawer = under(reach=BottomReach.ENDS)
    bottom = drawer.bottom
    slots = bottom.cuts_of(CutUse.SCREW_SLOT)
    (screwed,) = [met for met in own(drawer) if met.tie is Tie.FASTENED]
    assert len(slots) == screwed.fasteners == 4  # a back of 20 in: no more than 6 in apart
    assert (screwed.fastener.kind, screwed.fastener.length) == (FastenerKind.SCREW, inches("1"))  # three times 5/16, as sold
    shank, usual = inches("1/8"), usual_seasons()
    stock = drawer.make.bottom
    middle = Length(drawer.back.place.origin[1] + drawer.back.thickness.mm / 2 - bottom.place.origin[1])
    grows, shrinks = (movement_of(stock, middle, usual.workshop, day).mm for day in (usual.dampest, usual.driest))
    for slot in slots:
        assert slot.across.start.mm == middle.mm - shank.mm / 2 - grows
        assert slot.across.stop.mm == middle.mm + shank.mm / 2 - shrinks
    assert [met.other for met in own(drawer) if met.one == bottom.role and met.tie is Tie.GLUED] == [drawer.front.role]


def test_a_slot_with_too_little_wood_behind_it_runs_out_at_the_edge():
    # Flush with the outside of the back a slot of 1/8 and what the wood shrinks leave less than half a screw.
    wide = under(bottom=solid("5/16", "red oak"))
    assert {slot.surface for slot in wide.bottom.cuts_of(CutUse.SCREW_SLOT)} == {Surface.FAR_EDGE}
    assert {slot.across.stop for slot in wide.bottom.cuts_of(CutUse.SCREW_SLOT)} == {wide.bottom.width}
    closed = under(bottom=solid("5/16", "red oak"), reach=BottomReach.ENDS)
    assert {slot.surface for slot in closed.bottom.cuts_of(CutUse.SCREW_SLOT)} == {Surface.FAR_FACE}


def test_a_sheet_is_screwed_through_holes_and_stays_dry():
    drawer = under(bottom=ply("1/4"))
    assert len(drawer.bottom.cuts_of(CutUse.SCREW_HOLE)) == 4
    assert not drawer.bottom.cuts_of(CutUse.SCREW_SLOT)
    assert not [met for met in own(drawer) if met.one == drawer.bottom.role and met.tie is Tie.GLUED]


def test_the_front_corner_says_how_far_it_holds_a_leaning_side_square():
    for front in AT_FRONT.values():
        drawer = made(front, taper="1/32")
        for side in drawer.sides:
            assert side.place.leans
            # A side that only butts against its front leans from there on.
            assert (side.place.square_for == 0) is (front is NAILED)
            assert side.place.square_for < side.length.mm / 3
        assert {side.place.square_for for side in made(front).sides} == {0}


# -- the plain rabbet and the nailed butt ----------------------------------------------------------------


def test_a_plain_rabbet_is_two_thirds_deep_and_the_sides_lie_in_it():
    drawer = made(RABBETED)
    rabbets = drawer.front.cuts_of(CutUse.RABBET)
    assert [(cut.along.size, cut.depth) for cut in rabbets] == [(inches("1/2"), inches("1/2"))] * 2
    assert {side.length for side in drawer.sides} == {drawer.length - inches("1/4")}  # the lip stands before them
    pinned = [met for met in own(drawer) if met.joint is not None and met.joint.kind is JointKind.FRONT_CORNER]
    assert {(met.fastener.kind, met.fastener.length) for met in pinned} == {(FastenerKind.PIN, inches("1 1/2"))}
    assert all(met.fasteners >= 2 for met in pinned)
    # The groove may run right through: what would show is taken off with the rabbet.
    (groove,) = drawer.front.cuts_of(CutUse.GROOVE)
    assert groove.along.size == drawer.front.length


def test_the_rabbet_stops_at_the_top_of_lower_sides():
    own_shop = shop()
    make = drawer_make(front_joint=RABBETED, side_height=size("5"))
    drawer = whole(spec(own_shop, make=make), own_shop).drawers[0]
    assert {cut.across.stop for cut in drawer.front.cuts_of(CutUse.RABBET)} == {inches("5") - inches("1/32")}


def test_a_front_too_thin_for_a_rabbet_is_refused_and_told_which_corner_would_work():
    own_shop = shop()
    with pytest.raises(Refused, match="lip") as refused:
        whole(spec(own_shop, make=drawer_make(front_joint=RABBETED, front=solid("1/4"))), own_shop)
    (change,) = refused.value.finding.remedies[-1].changes
    assert change.key == "front-joint"
    whole(spec(own_shop, make=drawer_make(front_joint=AT_FRONT[str(change.value)], front=solid("1/4"))), own_shop)


def test_sides_too_thin_for_a_tenon_are_told_which_corner_would_work():
    own_shop = shop()
    with pytest.raises(Refused, match="thinnest tenon") as refused:
        whole(spec(own_shop, make=drawer_make(sides=solid("3/8"), back=solid("3/8"))), own_shop)
    (change,) = refused.value.finding.remedies[-1].changes
    assert AT_FRONT[str(change.value)] is not TENONED
    whole(
        spec(own_shop, make=drawer_make(sides=solid("3/8"), back=solid("3/8"), front_joint=AT_FRONT[str(change.value)])), own_shop
    )


def test_a_nailed_butt_cuts_nothing_and_says_that_it_is_weaker():
    drawer = made(NAILED, NAILED)
    corners = (JointKind.FRONT_CORNER, JointKind.BACK_CORNER)
    assert not [
        cut for board in drawer.assembly.boards for cut in board.cuts if cut.role.joint and cut.role.joint.kind in corners
    ]
    assert len(told(drawer, "nailed corner")) == 2
    nailed = [met for met in own(drawer) if met.tie is Tie.NAILED]
    # Through a front of 3/4, and sides of 1/2, three times as long.
    assert {met.fastener.length for met in nailed} == {inches("2 1/4"), inches("1 1/2")}
    assert drawer.back.length == drawer.inside_width
