"""A recess for toes cut in the sides: notches, toe board, what stands on the floor, and what is refused (BA-2)."""

import pytest

from joinlay.boards import CutUse, Hand, PartKind
from joinlay.boards.meeting import Tie, unmet
from joinlay.casework.base import BaseMake
from joinlay.casework.case_sizes import CaseMake
from joinlay.casework.graduation import Equal
from joinlay.checks.solids import overlaps
from joinlay.findings import Refused
from joinlay.lengths import inches
from tests.assembly.pieces import ply, shop, size, solid, spec, whole
from tests.assembly.solids import solids

CHERRY = solid("3/4")


def made(base, **changed):
    own = shop()
    return whole(spec(own, heights=Equal(2), base=base, **changed), own)


def part(piece, kind, hand=None):
    return next(board for board in piece.boards if board.role.kind is kind and (hand is None or board.role.hand is hand))


@pytest.fixture(scope="module")
def piece():
    return made(BaseMake(CHERRY, size("3 1/2"), is_cut=True))


@pytest.mark.parametrize("hand", [Hand.LEFT, Hand.RIGHT])
def test_the_sides_stand_on_the_floor_notched_three_by_three_and_a_half(piece, hand):
    """BA-2, common practice: 3 in deep from the face of the frame, which is 3/4 in thick, and 3 1/2 in high."""
    side = part(piece, PartKind.CASE_SIDE, hand)
    assert side.length == inches(36) + inches("3 1/2")
    assert side.place.origin[2] == -inches("3 1/2").mm
    (notch,) = side.cuts_of(CutUse.TOE_NOTCH)
    assert (notch.along.size, notch.across.size, notch.into.size) == (inches("3 1/2"), inches("2 1/4"), side.thickness)
    assert (notch.along.start.mm, notch.across.start.mm) == (0, 0)


def test_the_frame_and_what_is_in_the_case_stand_as_they_would_without(piece):
    bare = made(None)
    for kind in (PartKind.STILE, PartKind.CASE_BOTTOM, PartKind.CASE_TOP, PartKind.BEARER, PartKind.DRAWER_FRONT):
        mine, its = part(piece, kind), part(bare, kind)
        assert (mine.place, mine.length, mine.width) == (its.place, its.length, its.width)
    assert part(piece, PartKind.STILE).place.origin[2] == 0


def test_the_toe_board_stands_between_the_sides_from_the_floor_to_the_bottom(piece):
    board, bottom = part(piece, PartKind.TOE_BOARD), part(piece, PartKind.CASE_BOTTOM)
    left = part(piece, PartKind.CASE_SIDE, Hand.LEFT)
    assert board.length == inches(24) - 2 * left.thickness
    assert board.place.origin == (left.thickness.mm, inches(3).mm, -inches("3 1/2").mm)
    assert board.place.origin[2] + board.width.mm == bottom.place.origin[2] - bottom.thickness.mm


def test_the_back_goes_down_with_the_sides(piece):
    assert part(piece, PartKind.CASE_BACK).length == part(piece, PartKind.CASE_SIDE).length


def test_it_is_nailed_through_the_sides_and_glued_under_the_bottom(piece):
    held = {met.one.kind: met for met in piece.meetings if PartKind.TOE_BOARD in (met.one.kind, met.other.kind)}
    nailed, glued = held[PartKind.CASE_SIDE], held[PartKind.TOE_BOARD]
    assert (nailed.tie, glued.tie) == (Tie.NAILED, Tie.GLUED)
    # Three times what they go through (NAVEDTRA 14119): 23/32 or 3/4, and two at least.
    assert nailed.fasteners >= 2
    assert nailed.fastener.length == inches("2 1/4")
    assert glued.other.kind is PartKind.CASE_BOTTOM


@pytest.mark.parametrize("toe", [None, size("7/8"), size(6)])
@pytest.mark.parametrize(
    "case", [{}, {"has_stopped_dadoes": True}, {"back_inset": size("1/2")}], ids=["through", "stopped", "back inset"]
)
def test_all_of_it_meets_and_nothing_is_in_anything_elses_place(toe, case):
    one = made(BaseMake(CHERRY, size(4), toe=toe, is_cut=True), case=CaseMake(ply("3/4"), ply("3/4"), ply("1/4"), **case))
    assert unmet(one.meetings, one.by_role) == ()
    assert overlaps(list(solids(one.boards).values())) == ()


@pytest.mark.parametrize(("toe", "way"), [("3/4", 1), ("1/4", 1), ("19 1/2", -1)])
def test_a_recess_within_the_frame_or_the_back_is_refused_with_what_would_do(toe, way):
    with pytest.raises(Refused, match="leaves no place for its board") as refused:
        made(BaseMake(CHERRY, size("3 1/2"), toe=size(toe), is_cut=True))
    (remedy,) = refused.value.finding.remedies
    (change,) = remedy.changes
    assert (change.table, change.key, change.toward) == ("base", "toe", way)
    assert made(BaseMake(CHERRY, size("3 1/2"), toe=size(change.value), is_cut=True)).drawers
