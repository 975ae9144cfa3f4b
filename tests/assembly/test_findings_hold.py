"""What the checks say clears does clear in the solids of whole pieces: guides, kickers, stops and the frame, shut and on the
way out.
"""

from __future__ import annotations

import pytest
from hypothesis import assume, event, given, settings
from hypothesis import strategies as st

from joinlay.boards import Hand
from joinlay.boards.meeting import Tie
from joinlay.casework.stops import StopMake
from joinlay.checks.conditions import usual_conditions
from joinlay.checks.everything import find_everything
from joinlay.checks.play import guide_play, kicker_gap, side_play
from joinlay.checks.sag import room_under, stop_height
from joinlay.checks.solids import CONTACT, solid_of
from joinlay.findings import Harm, Refused
from joinlay.lengths import ZERO, Fraction
from tests.assembly.any_piece import specs
from tests.assembly.pieces import shop, solid, spec, tried, whole

#: Less than the smallest gap anybody states, in mm.
HAIR = 1e-3


def made_or_none(wanted, own):
    made = tried(wanted, own)
    return None if isinstance(made, Refused) else made


def bodies(boards):
    return [solid_of(board) for board in boards if board.place is not None]


def touches(moving, standing, way, far):
    """Whether any of ``moving``, shifted ``far`` mm along ``way``, comes into any of ``standing``."""
    moved = [body.moved(*(part * far for part in way)) for body in moving]
    return any(body.shared(other) > CONTACT for body in moved for other in standing)


def clears_by(moving, standing, way, gap):
    """True where the way is free for ``gap`` less a hair and not for a hair more."""
    return not touches(moving, standing, way, gap - HAIR) and touches(moving, standing, way, gap + HAIR)


def prove_drawer(made, drawer, own, share):
    boards = made.piece.boards
    sides = bodies([drawer.board("left side"), drawer.board("right side")])
    kicks = bodies([board for board in boards if board.part in ("kicker", "bearer", "case top", "dust panel", "shelf")])
    hang = kicker_gap(drawer)
    assert hang is not None
    assert clears_by(sides, kicks, (0, 0, 1), float(hang.mm))
    frame = bodies([board for board in boards if board.name.startswith("face frame") and board.part != "loose tenon"])
    out = float(drawer.length.mm) * share
    # A side that leans is held square by its joint, so its solid parts from its place by a little.
    bent = abs(float(drawer.taper.mm)) * 2 * 25 / float(drawer.board("left side").length.mm)
    pulled = [body.moved(0, -out, 0) for body in (*sides, *bodies([drawer.board("front")]))]
    play = float(side_play(drawer, drawer.length * Fraction(share)).mm)
    shift = play / 2 + bent + HAIR
    assert touches(pulled, frame, (1, 0, 0), shift) or out == 0
    assert not touches(pulled, frame, (1, 0, 0), play / 2 - bent - HAIR)
    assert not touches(pulled, frame, (-1, 0, 0), play / 2 - bent - HAIR)
    prove_guides(boards, drawer, sides)
    stop = stop_height(drawer, own)
    if stop:
        room = room_under(drawer, stop) + own.practice.length("stop clearance")
        blocks = bodies(made.piece.blocks(drawer.role))
        bottom = bodies(drawer.bottoms)
        assert clears_by(bottom, blocks, (0, 0, -1), float(room.mm))


def prove_guides(boards, drawer, sides):
    guides = bodies([board for board in boards if board.part in ("guide", "case side", "case partition")])
    between = guide_play(drawer)
    if between is not None and not drawer.taper:
        # Where a partition guides on one hand only, it has more room there than at its guide on the other.
        gaps = {met.one.hand: met.facings[0].gap for met in drawer.tied(Tie.GUIDED)}
        assert gaps[Hand.LEFT].mm + gaps[Hand.RIGHT].mm == between.mm
        assert clears_by(sides[:1], guides, (-1, 0, 0), float(gaps[Hand.LEFT].mm))
        assert clears_by(sides[1:], guides, (1, 0, 0), float(gaps[Hand.RIGHT].mm))


@settings(max_examples=12, deadline=None)
@given(specs(), st.sampled_from([0.25, 0.5, 0.75]), st.data())
def test_whole_pieces_clear_by_what_the_checks_say(drawn, share, data):
    wanted, own = drawn
    made = made_or_none(wanted, own)
    assume(made is not None)
    assert made is not None
    assume(made.drawers)
    drawer = data.draw(st.sampled_from(made.drawers), label="drawer")
    event("with stops" if made.piece.stops else "without stops")
    prove_drawer(made, drawer, own, share)


@settings(max_examples=8, deadline=None)
@given(specs())
def test_no_whole_piece_that_is_made_is_refused_by_the_checks(drawn):
    """The joints and the casework keep every rule that the checks refuse by."""
    wanted, own = drawn
    made = made_or_none(wanted, own)
    assume(made is not None)
    assert made is not None
    own_stocks = [stock for bank in wanted.banks for wish in bank.drawers for stock in (wish.make.front, wish.make.sides)]
    stocks = {stock.name: stock for stock in (*own_stocks, wanted.case.sides, wanted.case.panels, wanted.frame.stock)}
    found = find_everything(made.drawers, made.piece.assemblies, stocks, own, usual_conditions())
    assert [(f.where, f.sentence(str)) for f in found if f.harm is Harm.REFUSE] == []


@pytest.mark.parametrize("taper", ["0", "1/32"])
def test_a_plain_chest(taper):
    own = shop(taper=taper)
    made = whole(spec(own, stops=StopMake(solid("3/4", "red maple", "runner stock"))), own)
    for drawer in made.drawers:
        assert stop_height(drawer, own) > ZERO
        prove_drawer(made, drawer, own, 0.5)
