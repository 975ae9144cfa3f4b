"""What the solids must show: gaps as stated, closing as stated, and nothing in the way of a drawer."""

from __future__ import annotations

from joinlay.boards.meeting import unmet
from joinlay.checks.solids import CONTACT, check_assembly, solid_of
from joinlay.lengths import NOTHING

#: A hair: less than the smallest gap anybody states, in mm.
HAIR = 1e-3


def solids(boards):
    """The solid of each placed board, by its role."""
    return {board.role: solid_of(board) for board in boards if board.place is not None}


def direction_into(board, surface):
    """The way, in the piece, that leads into ``board`` through ``surface``."""
    place = board.place
    run = {"along": place.along, "across": place.across, "into": place.into}[surface.axis.value]
    sign = -1 if surface.is_far else 1
    return tuple(float(sign * round(part)) for part in run)


def ends_of(met, facing):
    """Both parts of a facing with their planes, first the one at which its gap is taken."""
    one, other = (met.one, facing.one), (met.other, facing.other)
    return (other, one) if facing.other.at is not None else (one, other)


def gap_is_true(met, facing, boards, wood):
    """Moved towards the other by the gap less a hair, a part still only touches; by the gap and a hair, it is in it."""
    (moving, _), (standing, plane) = ends_of(met, facing)
    way = direction_into(boards[standing], plane.surface)
    gap = float(facing.gap.mm)
    # A part that touches may be held on its other side as well, so it isn't drawn back.
    near, past = (wood[moving].moved(*(part * far for part in way)) for far in (gap and gap - HAIR, gap + HAIR))
    return near.shared(wood[standing]) <= CONTACT < past.shared(wood[standing])


def can_be_pushed(met, facing, boards):
    """True for a gap that a straight push proves: not the further end of a side that leans, nor a tongue whose shoulder
    touches first.
    """
    (moving, plane), _ = ends_of(met, facing)
    one = boards[moving]
    way = direction_into(one, plane.surface)
    leans_that_way = sum(-a * float(b) for a, b in zip(way, one.place.along, strict=True)) > 0
    nearest = plane.at is None or (plane.at == NOTHING and not leans_that_way)
    return facing.rule not in ("LR-3", "LR-6") and nearest


def prove_gaps(whole):
    """Every meeting of the piece, on the planes exactly and on the solids to a hair."""
    boards = whole.by_role
    assert unmet(whole.meetings, boards) == ()
    wood = solids(boards.values())
    facings = [(met, facing) for met in whole.meetings for facing in met.facings if can_be_pushed(met, facing, boards)]
    untrue = [met.says(facing) for met, facing in facings if not gap_is_true(met, facing, boards, wood)]
    assert untrue == [], untrue


def prove_assembled(whole):
    """No two parts overlap, closed or with any drawer half or right out; every plane lies where it is stated."""
    assert [finding.what for finding in check_assembly(whole.piece.boards, whole.drawers)] == []
    assert unmet(whole.meetings, whole.by_role) == ()
