"""The case's back set forward and how it is held (SC-2), and the frame of a piece that is built in (SC-1)."""

import pytest

from joinlay.boards import CutUse, PartKind
from joinlay.boards.fastener import FastenerKind
from joinlay.boards.meeting import Tie, Way, unmet
from joinlay.casework.case_sizes import CaseMake
from joinlay.casework.face_frame import FrameMake
from joinlay.casework.graduation import Equal
from joinlay.checks.solids import overlaps
from joinlay.findings import Refused
from joinlay.lengths import inches
from tests.assembly.pieces import ply, shop, size, solid, spec, whole
from tests.assembly.solids import solids
from tests.assembly.test_settings_cut_the_board import assert_cut_as_planned

PLY = ply("3/4")


def made(back=None, inset=None, held=None, **changed):
    own = shop()
    case = CaseMake(PLY, PLY, back or ply("1/4"), back_inset=None if inset is None else size(inset), back_held=held)
    return whole(spec(own, heights=Equal(2), case=case, **changed), own)


def only(piece, kind):
    (board,) = (board for board in piece.boards if board.role.kind is kind)
    return board


def of_the_back(piece):
    return [met for met in piece.meetings if met.one.kind is PartKind.CASE_BACK]


def test_a_back_set_forward_stands_in_grooves_of_the_sides():
    piece = made(inset="1/2")
    back = only(piece, PartKind.CASE_BACK)
    assert inches(20).mm - back.place.origin[1] == inches("3/4").mm  # 1/2 behind it, and 1/4 of its own
    sides = [board for board in piece.boards if board.role.kind is PartKind.CASE_SIDE]
    for side in sides:
        (groove,) = side.cuts_of(CutUse.GROOVE)
        assert (side.width - groove.across.stop, groove.across.size, groove.depth) == (
            inches("1/2"),
            inches("1/4"),
            inches("1/4"),
        )
        assert groove.along.size == side.length
    assert unmet(piece.meetings, piece.by_role) == ()
    assert overlaps(list(solids(piece.boards).values())) == ()
    assert_cut_as_planned(sides, shop())


def test_it_slides_along_its_grooves_and_is_not_nailed():
    for met in of_the_back(made(inset="1/2")):
        assert met.tie is Tie.DRY
        assert not met.fasteners
        if met.other.kind is PartKind.CASE_SIDE:
            assert set(met.closes) == {Way.UP, Way.DOWN, Way.LEFT if met.other.hand.value == "left" else Way.RIGHT}


def test_what_stands_before_it_is_shorter_by_as_much():
    plain, inset = made(), made(inset="1/2")
    for kind in (PartKind.CASE_BOTTOM, PartKind.BEARER):
        one, other = (next(board for board in piece.boards if board.role.kind is kind) for piece in (plain, inset))
        size_of = (lambda board: board.width) if kind is PartKind.CASE_BOTTOM else (lambda board: board.length)
        # A rabbet is 1/32 wider than the back.
        assert size_of(one) - size_of(other) == inches("1/2") - inches("1/32")


def test_a_groove_too_near_the_edge_is_refused():
    with pytest.raises(Refused, match="would break out"):
        made(inset="1/16")


def test_a_sheet_is_nailed_all_along_in_its_rabbets():
    met = of_the_back(made())
    assert {one.tie for one in met} == {Tie.FASTENED}
    (nail,) = {one.fastener for one in met}
    assert (nail.kind, nail.length, nail.spacing) == (FastenerKind.NAIL, inches("3/4"), inches(6))
    counts = {one.other.name: one.fasteners for one in met}
    # Sides of 36, panels of about 23: no more than 6 apart.
    assert counts == {"case left side": 6, "case right side": 6, "case bottom": 4, "case top": 4}


def test_solid_wood_is_nailed_in_the_middle_only():
    counts = {one.other.name: (one.tie, one.fasteners) for one in of_the_back(made(solid("1/4")))}
    assert counts["case left side"] == (Tie.DRY, 0)
    assert counts["case bottom"] == counts["case top"] == (Tie.FASTENED, 1)


@pytest.mark.parametrize("inset", [None, "1/2"], ids=["in rabbets", "in grooves"])
def test_a_sheet_may_be_screwed_at_the_same_spacing(inset):
    """SC-2: at most 6 apart, three times as long as the back is thick (NAVEDTRA 14119), 1/8 in the shank (common practice)."""
    piece = made(held=FastenerKind.SCREW, inset=inset)
    met = [one for one in of_the_back(piece) if one.fasteners]
    (screw,) = {one.fastener for one in met}
    assert (screw.kind, screw.length, screw.shank, screw.spacing) == (
        FastenerKind.SCREW,
        inches("3/4"),
        inches("1/8"),
        inches(6),
    )
    sides = {} if inset else {"case left side": 6, "case right side": 6}
    assert {one.other.name: one.fasteners for one in met} == {**sides, "case bottom": 4, "case top": 4}
    assert unmet(piece.meetings, piece.by_role) == ()


def test_solid_wood_in_grooves_is_screwed_in_the_middle_only():
    counts = {one.other.name: one.fasteners for one in of_the_back(made(solid("1/4"), "1/2", FastenerKind.SCREW))}
    assert counts == {"case left side": 0, "case right side": 0, "case bottom": 1, "case top": 1}


def test_stiles_are_wider_by_what_is_scribed_away_and_stand_farther_out():
    usual = made(width=size(24))
    built_in = made(width=size("25 1/2"), frame=FrameMake(solid("3/4"), scribe=size("3/4")))
    stiles = [board.width for board in built_in.boards if board.role.kind is PartKind.STILE]
    assert set(stiles) == {inches("2 1/4")}
    # Planed right away on both sides it is the piece that fits walls 24 apart: the same openings, the same case.
    assert [drawer.opening.width for drawer in built_in.drawers] == [drawer.opening.width for drawer in usual.drawers]
    assert only(built_in, PartKind.CASE_BOTTOM).length == only(usual, PartKind.CASE_BOTTOM).length
    (told,) = (finding for finding in built_in.piece.findings if finding.kind == "scribe")
    assert (told.numbers["narrow"], told.numbers["wide"]) == (inches(24), inches("25 1/2"))
