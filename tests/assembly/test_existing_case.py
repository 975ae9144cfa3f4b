"""Runners for openings that are there: the same that the case would get if it were made here, and assembled in it as solids.

The check from outside is the other way of working: a case designed as a whole, whose parts are proved by themselves, measured and
told again as one that someone else built.
"""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from joinlay.boards import DrawerRole, PartKind
from joinlay.boards.meeting import unmet
from joinlay.checks.closing import check_moves
from joinlay.checks.solids import check_assembly
from joinlay.findings import Harm
from tests.assembly.existing_cases import measured, ours, planned, runners_of

KINDS = (PartKind.BEARER, PartKind.GUIDE, PartKind.KICKER, PartKind.STOP_STRIP, PartKind.STOP_BLOCK)


def prove(there):
    """Everything stated of ``there`` holds in the model, each drawer shut and pulled out, each part brought in its way."""
    assert unmet(there.meetings, there.placed) == ()
    standing = [*there.existing, *(board for assembly in there.others for board in assembly.boards)]
    assert check_assembly(standing, there.drawers) == ()
    assert check_moves(there.order.moves, tuple(there.placed.values())) == ()
    assert {role for move in there.order.moves for role in move.parts} >= {board.role for board in there.boards}


@pytest.mark.parametrize("sides", ["ply", "ash"])
def test_the_runners_are_those_of_the_same_case_made_here(sides):
    made = planned(ours(sides=sides))
    there = planned(measured(made, sides=sides))
    wanted = runners_of(made, 2)
    assert {role.kind for role in wanted} == set(KINDS)
    assert any(cuts for *_, cuts in wanted.values()) is (sides == "ash")
    assert runners_of(there, 2) == wanted
    assert [front.length for front in (one.front for one in there.drawers)] == [one.front.length for one in made.drawers]
    assert not there.is_whole
    assert there.is_placed
    assert [one.harm for one in there.findings if one.kind in ("tipping", "face frame")] == []
    prove(there)


def test_of_two_banks_one_is_measured_to_the_partition_and_stands_off_its_middle():
    made = planned(ours(banks=((2,), (3,)), width="900"))
    there = planned(measured(made))
    assert runners_of(there, 2) == runners_of(made, 2)
    widths = {board.role.hand: board.width for board in there.boards if board.role.kind is PartKind.GUIDE}
    assert len(set(widths.values())) == 2
    prove(there)


@settings(max_examples=6)
@given(
    width=st.integers(300, 900),
    height=st.integers(330, 700),
    depth=st.integers(260, 600),
    stile=st.integers(20, 60),
    rail=st.integers(24, 40),
    sides=st.sampled_from(["ply", "ash"]),
    drawers=st.integers(1, 3),
)
def test_any_case_that_was_measured_gets_the_runners_it_would_have_been_made_with(
    width, height, depth, stile, rail, sides, drawers
):
    sizes = {"width": width, "height": height, "depth": depth, "stile": stile, "rail": rail}
    made = planned(ours(banks=((drawers,),), sides=sides, **sizes))
    if made.is_refused:
        return
    there = planned(measured(made, sides=sides))
    assert runners_of(there, drawers) == runners_of(made, drawers)
    assert unmet(there.meetings, there.placed) == ()


def test_with_neither_top_nor_bottom_near_the_runners_hang_on_the_sides():
    made = planned(ours())
    there = planned(measured(made, left_out=("below", "above")))
    boards = {(board.role.kind, board.role.drawer.number): board for board in there.boards if board.role.kind in KINDS}
    kicker, bearer = boards[PartKind.KICKER, 1], boards[PartKind.BEARER, 1]
    # Nothing to hang from: it lies flat on the side, as wide as the bearer, clear of the rail by the lift.
    assert (kicker.width, kicker.thickness) == (bearer.width, bearer.thickness)
    (side,) = (met for met in there.meetings if met.one == kicker.role and met.other.kind is PartKind.CASE_SIDE)
    assert side.fasteners > 0
    low = there.placed[kicker.role].place.origin[2] - kicker.thickness.mm
    drawer = there.drawers[0]
    assert low - (drawer.corner[1] + drawer.opening.height).mm == there.shop.practice.length("kicker lift").mm
    assert (PartKind.PACKING, 2) not in boards
    assert {board.role.kind for board in there.existing} == {
        PartKind.CASE_SIDE,
        PartKind.CASE_BACK,
        PartKind.STILE,
        PartKind.RAIL,
    }
    prove(there)


def test_openings_as_wide_as_the_case_have_no_guides_and_run_between_its_sides():
    made = planned(ours(banks=((1,),)))
    text = measured(made, left_out=("inside-width", "left-edge"))
    there = planned(text.replace("[[drawer]]", "left-edge = 0\nright-edge = 0\n[[drawer]]", 1))
    assert not [board for board in there.boards if board.role.kind is PartKind.GUIDE]
    assert PartKind.STILE not in {board.role.kind for board in there.existing}
    prove(there)


def test_a_drawer_on_the_bottom_of_the_case_has_no_bearers():
    text = measured(planned(ours(banks=((1,),))), left_out=("below",))
    there = planned(text.replace("[[drawer]]", "below = 0\n[[drawer]]", 1))
    assert not [board for board in there.boards if board.role.kind is PartKind.BEARER]
    (rides, *_) = (
        met for met in there.meetings if met.one == there.drawers[0].sides[0].role and met.other.kind is PartKind.CASE_BOTTOM
    )
    assert rides.one.drawer == DrawerRole(1)
    prove(there)


def test_a_rail_too_low_for_the_stock_is_refused_with_stock_that_works_and_no_word_of_another_rail():
    text = measured(planned(ours())).replace('"ash"\nsides', '"ply"\nsides')
    low = planned(_with(text, "rail", "14"))
    refused = [one for one in low.findings if one.harm is Harm.REFUSE]
    assert [one.kind for one in refused] == ["runners"]
    assert "rail at least" not in refused[0].way_out(low.rule.text)
    assert "14" in refused[0].way_out(low.rule.text)


def _with(text, key, value):
    lines = [f'{key} = "{value}"' if line.startswith(f"{key} = ") else line for line in text.splitlines()]
    return "\n".join(lines)
