"""What the solids must show: gaps as stated, and nothing in the way of a drawer."""

from __future__ import annotations

from joinlay.casework.meeting import unmet
from joinlay.checks.assembly import CONTACT, check_assembly, solid_of
from joinlay.lengths import NOTHING

#: A hair: less than the smallest gap anybody states, in mm.
HAIR = 1e-3


def direction_into(board, surface):
    """The way, in the piece, that leads into ``board`` through ``surface``."""
    place = board.place
    run = {"along": place.along, "across": place.across, "into": place.into}[surface.axis.value]
    sign = -1 if surface.is_far else 1
    return tuple(float(sign * round(part)) for part in run)


def gap_is_true(found, boards, solids):
    """Moved towards the other by the gap less a hair, a part still only touches; by the gap and a hair, it is in it."""
    one, other = solids[found.one.board], solids[found.other.board]
    way = direction_into(boards[found.other.board], found.other.surface)
    gap = float(found.gap.mm)
    # A part that touches may be held on its other side as well, so it isn't drawn back.
    near, past = (one.moved(*(part * far for part in way)) for far in (gap and gap - HAIR, gap + HAIR))
    return near.shared(other) <= CONTACT < past.shared(other)


def can_be_pushed(found, boards):
    """True for a meeting that a straight push proves: not the further end of a side that leans, nor a tongue whose shoulder touches first."""
    one = boards[found.one.board]
    way = direction_into(one, found.one.surface)
    leans_that_way = sum(-a * float(b) for a, b in zip(way, one.place.along, strict=True)) > 0
    nearest = found.one.at is None or (found.one.at == NOTHING and not leans_that_way)
    return found.rule not in ("LR-3", "LR-6") and nearest


def prove_gaps(whole):
    """Every meeting of the piece, on the planes exactly and on the solids to a hair."""
    boards = whole.by_name
    assert unmet(whole.meetings, boards) == ()
    solids = {name: solid_of(board) for name, board in boards.items() if board.place is not None}
    untrue = [m.what for m in whole.meetings if can_be_pushed(m, boards) and not gap_is_true(m, boards, solids)]
    assert untrue == [], untrue


def prove_assembled(whole):
    """No two parts overlap, closed or with any drawer half or right out; every plane lies where it is stated."""
    assert [finding.what for finding in check_assembly(whole.piece.boards, whole.drawers)] == []
    assert [(m.what, gap, m.gap) for m, gap in unmet(whole.meetings, whole.by_name)] == []
