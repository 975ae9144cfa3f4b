"""A top that overhangs, and what a piece stands on (TO-1, BA-1, BA-3)."""

import pytest

from joinlay.boards import CutUse, PartKind, Whole
from joinlay.boards.meeting import Tie, unmet
from joinlay.casework.base import BaseMake
from joinlay.casework.case_sizes import CaseMake
from joinlay.casework.face_frame import FrameMake
from joinlay.casework.graduation import Equal
from joinlay.casework.top import TopMake
from joinlay.checks.solids import overlaps
from joinlay.findings import Refused
from joinlay.lengths import Length, inches
from joinlay.stock.movement import movement_of, usual_seasons
from tests.assembly.pieces import ply, shop, size, solid, spec, whole
from tests.assembly.solids import solids

CHERRY = solid("3/4")


def made(**changed):
    own = shop()
    return whole(spec(own, heights=Equal(2), **changed), own)


def parts(piece, kind):
    return [board for board in piece.boards if board.role.kind is kind]


def test_a_top_overhangs_front_and_ends_and_is_flush_behind():
    """TO-1, 3/4 in usual: a piece of 24 by 20."""
    (top,) = parts(made(top=TopMake(ply("3/4"))), PartKind.TOP)
    assert (top.length, top.width) == (inches("25 1/2"), inches("20 3/4"))
    assert top.place.point(Length(0), top.width, Length(0))[1] == inches(20).mm
    assert top.place.origin[2] == inches(36).mm


def test_each_overhang_is_as_it_is_asked_for():
    (top,) = parts(made(top=TopMake(CHERRY, size("1/2"), size("0"), size("1"))), PartKind.TOP)
    assert (top.length, top.width) == (inches(24), inches("21 1/2"))


@pytest.mark.parametrize(
    "base", [None, BaseMake(CHERRY, size(3)), BaseMake(CHERRY, size(2), size("-1/8")), BaseMake(CHERRY, size(4), None, size(3))]
)
@pytest.mark.parametrize("stock", [CHERRY, ply("3/4")], ids=["solid", "sheet"])
def test_they_meet_what_they_lie_on_and_nothing_is_in_anything_elses_place(stock, base):
    piece = made(top=TopMake(stock), base=base)
    assert unmet(piece.meetings, piece.by_role) == ()
    pairs = [frozenset((met.one, met.other)) for met in piece.meetings]
    assert len(set(pairs)) == len(pairs)
    assert overlaps(list(solids(piece.boards).values())) == ()


def test_a_solid_top_is_fast_midway_and_moves_in_slots_before_and_behind():
    piece = made(top=TopMake(CHERRY))
    front, middle, back = parts(piece, PartKind.TOP_STRIP)
    assert not middle.cuts_of(CutUse.SCREW_SLOT)
    assert len(middle.cuts_of(CutUse.SCREW_HOLE)) == 2
    usual, shank = usual_seasons(), inches("3/16").mm
    for strip, sign in ((front, -1), (back, 1)):
        way = Length(abs(strip.place.origin[1] - middle.place.origin[1]))
        grows, shrinks = (abs(movement_of(CHERRY, way, usual.workshop, day).mm) for day in (usual.dampest, usual.driest))
        for slot in strip.cuts_of(CutUse.SCREW_SLOT):
            assert slot.into.size.mm == shank + grows + shrinks
            # It is longer to the outside by what the wood grows more than it shrinks.
            assert (slot.into.centre.mm - strip.thickness.mm / 2) * 2 == sign * (grows - shrinks)


def test_the_holes_of_strip_and_case_top_lie_over_each_other():
    piece = made(top=TopMake(CHERRY))
    panel = piece.by_role[next(role for role in piece.by_role if role.kind is PartKind.CASE_TOP)]
    low = {
        tuple(round(float(n), 6) for n in panel.place.point(cut.along.centre, cut.across.centre, cut.into.centre)[:2])
        for cut in panel.cuts
        if cut.role.use.is_for_a_screw
    }
    high = {
        tuple(round(float(n), 6) for n in strip.place.point(cut.along.centre, cut.across.centre, cut.into.centre)[:2])
        for strip in parts(piece, PartKind.TOP_STRIP)
        for cut in strip.cuts
    }
    assert low == high
    assert len(low) == 6


def test_a_sheet_needs_no_slots():
    strips = parts(made(top=TopMake(ply("3/4"))), PartKind.TOP_STRIP)
    assert len(strips) == 2
    assert {cut.role.use for strip in strips for cut in strip.cuts} == {CutUse.SCREW_HOLE}


def test_the_screws_stay_in_the_top():
    piece = made(top=TopMake(CHERRY))
    (size_of,) = {met.fastener.length for met in piece.meetings if met.one.kind is PartKind.TOP and met.tie is Tie.FASTENED}
    panel, strip = parts(piece, PartKind.CASE_TOP)[0], parts(piece, PartKind.TOP_STRIP)[0]
    through = panel.thickness.mm + strip.width.mm
    assert through < size_of.mm < through + inches("3/4").mm


@pytest.mark.parametrize(("what", "key"), [("top", "overhang-top"), ("base", "overhang-bottom")])
def test_a_frame_that_stands_past_the_case_there_is_refused_with_what_would_do(what, key):
    frame = FrameMake(CHERRY, **{key.replace("-", "_"): size("1/8")})
    asked = {"top": TopMake(CHERRY)} if what == "top" else {"base": BaseMake(CHERRY, size(3))}
    with pytest.raises(Refused, match="meet the frame alone") as refused:
        made(frame=frame, **asked)
    (change,) = refused.value.finding.remedies[0].changes
    assert (change.table, change.key) == ("frame", key)


def test_a_plinth_goes_round_the_piece_set_back_and_flush_behind():
    piece = made(base=BaseMake(CHERRY, size(3)))
    (front,), (back,), sides = (parts(piece, kind) for kind in (PartKind.BASE_FRONT, PartKind.BASE_BACK, PartKind.BASE_SIDE))
    assert (front.length, back.length) == (inches("23 3/4"), inches("22 1/4"))
    assert {side.length for side in sides} == {inches("20") - inches("1/8") - inches("3/4")}
    assert {board.place.origin[2] for board in (front, back, *sides)} == {-inches(3).mm}


@pytest.mark.parametrize(("set_back", "before", "behind"), [("1/4", "1/4", "1/4"), ("-1/8", "-1/8", "0")])
def test_feet_that_stand_proud_do_so_before_the_piece_and_never_behind_it(set_back, before, behind):
    feet = parts(made(base=BaseMake(CHERRY, size(3), size(set_back), size(3))), PartKind.FOOT)
    depths = [float(foot.place.origin[1]) for foot in feet]
    thick, deep = float(CHERRY.thickness.mm), 20 * 25.4
    front, back = (float(size(text).mm) for text in (before, behind))
    assert depths == pytest.approx([front, front, deep - back - thick, deep - back - thick])


def test_a_base_that_stands_inside_the_case_is_refused():
    with pytest.raises(Refused, match="do not stand on it"):
        made(base=BaseMake(CHERRY, size(3), size("3/4")))


def test_a_base_is_glued_to_solid_sides_at_the_front_only():
    piece = made(base=BaseMake(CHERRY, size(3)), case=CaseMake(CHERRY, CHERRY, ply("1/4")))
    up = [met for met in piece.meetings if met.one.whole is Whole.BASE and met.other.whole is not Whole.BASE]
    assert {met.one.kind for met in up if met.tie is Tie.GLUED} == {PartKind.BASE_FRONT}
    assert {met.one.kind for met in up if met.tie is Tie.DRY} == {PartKind.BASE_SIDE, PartKind.BASE_BACK}


def test_of_a_wood_that_is_not_in_the_table_a_fiftieth_of_the_way_is_left():
    rare = solid("3/4", "cocobolo")
    strips = parts(made(top=TopMake(rare)), PartKind.TOP_STRIP)
    way = Length(abs(strips[2].place.origin[1] - strips[1].place.origin[1]))
    assert {cut.into.size.mm for cut in strips[2].cuts} == {inches("3/16").mm + way.mm / 25}


def test_a_top_that_moves_past_its_strips_is_refused_with_what_would_do():
    own = shop()
    with pytest.raises(Refused, match="more than a strip") as refused:
        whole(spec(own, heights=Equal(2), depth=size(60), top=TopMake(solid("3/4", "red oak"))), own)
    needed = refused.value.finding.numbers["needed"]
    assert whole(
        spec(own, heights=Equal(2), depth=size(60), top=TopMake(solid("3/4", "red oak")), runner=solid(needed)), own
    ).drawers


def test_a_recess_for_toes_sets_the_front_of_the_base_back():
    """BA-2: 3 in deep."""
    piece = made(base=BaseMake(CHERRY, size("3 1/2"), has_recess=True))
    (front,), sides = parts(piece, PartKind.BASE_FRONT), parts(piece, PartKind.BASE_SIDE)
    assert front.place.origin[1] == inches(3).mm
    assert {side.length for side in sides} == {inches(20) - inches(3) - inches("3/4")}
    assert unmet(piece.meetings, piece.by_role) == ()
    assert overlaps(list(solids(piece.boards).values())) == ()
    deeper = made(base=BaseMake(CHERRY, size("3 1/2"), has_recess=True, toe=size(4)))
    assert parts(deeper, PartKind.BASE_FRONT)[0].place.origin[1] == inches(4).mm
