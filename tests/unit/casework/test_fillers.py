"""Fillers beside the stiles: where they stand, what holds them, and what is refused (SC-1, common practice)."""

from itertools import pairwise

import pytest

from joinlay.boards import CutUse, Hand, PartKind
from joinlay.boards.meeting import Tie, unmet
from joinlay.casework.base import BaseMake
from joinlay.casework.fillers import FillerMake
from joinlay.casework.graduation import Equal, OneByOne
from joinlay.casework.top import TopMake
from joinlay.checks.solids import overlaps
from joinlay.findings import Refused
from joinlay.lengths import inches
from tests.assembly.pieces import ply, shop, size, solid, spec, whole
from tests.assembly.solids import solids

CHERRY = solid("3/4")
BOTH = {Hand.LEFT: size("1 1/2"), Hand.RIGHT: size(3)}


def made(gaps, stock=CHERRY, scribe=None, heights=None, **changed):
    own = shop()
    return whole(spec(own, heights=heights or Equal(3), filler=FillerMake(stock, gaps, scribe), **changed), own)


def fillers(piece):
    return {board.role.hand: board for board in piece.boards if board.role.kind is PartKind.FILLER}


def test_each_is_as_wide_as_its_gap_and_what_is_scribed_away_and_as_long_as_the_stile():
    left, right = fillers(made(BOTH)).values()
    assert (left.width, right.width) == (inches("2 1/4"), inches("3 3/4"))
    assert left.length == right.length == inches(36)
    # Beside the stiles of a piece 24 wide, level with the face of the frame.
    assert left.place.point(left.length, left.width, left.thickness)[0] == -inches("2 1/4").mm
    assert (left.place.origin[:2], right.place.origin[:2]) == ((0, 0), (inches(24).mm, 0))


def test_the_allowance_is_as_it_is_asked_for():
    (only,) = fillers(made({Hand.RIGHT: size(2)}, scribe=size("1/4"))).values()
    assert only.width == inches("2 1/4")


@pytest.mark.parametrize("stock", [CHERRY, ply("1/2"), solid("1")], ids=["as the frame", "thinner", "thicker"])
@pytest.mark.parametrize(
    "more",
    [
        {},
        {"top": TopMake(ply("3/4"))},
        {"top": TopMake(CHERRY, size("1/2"), size("1 1/2")), "base": BaseMake(CHERRY, size(3), size("-1/8"))},
        {"base": BaseMake(CHERRY, size("3 1/2"), is_cut=True)},
    ],
    ids=["alone", "top", "top over them and a proud plinth", "recess"],
)
def test_they_meet_what_they_touch_and_nothing_is_in_anything_elses_place(stock, more):
    piece = made(BOTH, stock, **more)
    assert unmet(piece.meetings, piece.by_role) == ()
    assert overlaps(list(solids(piece.boards).values())) == ()


def test_screws_stand_in_the_openings_clear_of_the_rails():
    piece = made(BOTH)
    floors = [(slot.floor.mm, slot.floor.mm + slot.opening.height.mm) for slot in piece.piece.slots]
    for stile in (board for board in piece.boards if board.role.kind is PartKind.STILE):
        holes = [cut.along.centre.mm for cut in stile.cuts_of(CutUse.SCREW_HOLE)]
        assert len(holes) >= 2
        assert all(any(low < hole < high for low, high in floors) for hole in holes)


@pytest.mark.parametrize(
    ("heights", "count"),
    [(Equal(1), 3), (Equal(12), 4), (OneByOne((size(26), None)), 4)],
    ids=["one high opening", "many low ones", "one high and one low"],
)
def test_screws_are_no_farther_apart_than_they_should_be_where_openings_allow_it(heights, count):
    piece = made({Hand.LEFT: size(2)}, heights=heights)
    (held,) = [met for met in piece.meetings if met.other.kind is PartKind.FILLER]
    assert (held.tie, held.one.kind, held.fasteners) == (Tie.FASTENED, PartKind.STILE, count)
    stile = piece.by_role[held.one]
    holes = [cut.along.centre.mm for cut in stile.cuts_of(CutUse.SCREW_HOLE)]
    assert len(holes) == count
    assert all(b - a <= inches(12).mm + inches(2).mm for a, b in pairwise(holes))


@pytest.mark.parametrize("gap", ["1/2", "1", "2", "6"])
def test_a_screw_bites_and_never_comes_out_at_the_wall(gap):
    piece = made({Hand.LEFT: size(gap)})
    (held,) = [met for met in piece.meetings if met.other.kind is PartKind.FILLER]
    into = held.fastener.length.mm - inches("1 1/2").mm
    assert 0 < into < inches(gap).mm
    assert into <= inches("1 1/4").mm


@pytest.mark.parametrize(("gaps", "more", "keys"), [
    ({Hand.LEFT: size("3/8")}, {}, [("filler", "left", inches("1/2")), ("case", "width", -inches("1/8"))]),
    ({Hand.RIGHT: size("5/8")}, {"top": TopMake(CHERRY)}, [("top", "ends", inches("5/8"))]),
])  # fmt: skip
def test_a_gap_that_a_filler_can_not_close_is_refused_with_what_would_do(gaps, more, keys):
    """The wall stands where it does: a gap is made wider by a piece that is narrower by as much."""
    with pytest.raises(Refused) as refused:
        made(gaps, **more)
    changes = refused.value.finding.remedies[0].changes
    assert [(change.table, change.key, change.value) for change in changes] == keys
