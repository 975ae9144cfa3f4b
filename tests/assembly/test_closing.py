"""The order of assembly on the solids: each move swept whole, orders taken at random, and where each part ends."""

from random import Random

import pytest
from hypothesis import HealthCheck, given, settings
from manifold3d import Manifold

from joinlay.assembly.blocking import Blocking
from joinlay.assembly.order import Move, order_of
from joinlay.boards import PartKind, PartRole
from joinlay.boards.meeting import Way, measured
from joinlay.checks.blocks import Block
from joinlay.checks.closing import bodies_of, check_moves, in_the_way, swept
from joinlay.checks.solids import CONTACT, Body, check_assembly
from joinlay.findings import Refused
from tests.assembly.any_piece import specs
from tests.assembly.pieces import tried
from tests.assembly.test_meetings import CHESTS, chest
from tests.measured.packets import example


def test_a_sweep_is_all_the_room_a_solid_passes_through():
    """A cube with a hole: swept across the hole it fills it, along it the hole stays (worked out by hand)."""
    pierced = Manifold.cube((10, 10, 10)) - Manifold.cube((4, 4, 10)).translate((3, 3, 0))
    body = Body(
        PartRole(PartKind.LONE, called="cube"), (0, 0, 0), (10, 10, 10), lambda: pierced, lambda: (Block((0, 0, 0, 10, 10, 10)),)
    )
    assert swept(body, Way.UP, 5).wood.volume() == pytest.approx(15 * (100 - 16))
    assert swept(body, Way.RIGHT, 5).wood.volume() == pytest.approx(15 * 100)
    assert swept(body, Way.LEFT, 1).wood.volume() == pytest.approx(11 * 100 - 3 * 4 * 10)
    assert swept(body, Way.DOWN, 2).low == pytest.approx((0, 0, -2))


@pytest.mark.parametrize("name", ["print-chest", "moth-cabinet", "seed-cabinet", "paper-drawers", "seed-drawers"])
def test_every_move_of_an_example_meets_nothing_and_ends_where_it_belongs(name):
    plan = example(name)
    assert plan.order.findings == ()
    assert check_moves(plan.order.moves, plan.boards) == ()
    boards = {board.role: board for board in plan.boards}
    ended = [(met, facing) for move in plan.order.moves for met in move.closing for facing in met.facings]
    assert [met.says(facing) for met, facing in ended if measured(met, facing, boards) != facing.gap] == []


@pytest.mark.parametrize("changed", CHESTS.values(), ids=list(CHESTS))
def test_every_move_of_an_odd_chest_meets_nothing(changed):
    piece = chest(**changed)
    order = order_of(piece.drawers, piece.piece.assemblies)
    assert order.findings == ()
    assert check_moves(order.moves, piece.boards) == ()


@settings(max_examples=4, deadline=None, suppress_health_check=list(HealthCheck))
@given(specs())
def test_any_piece_has_an_order_that_works(wanted):
    piece = tried(*wanted)
    if isinstance(piece, Refused):
        return
    order = order_of(piece.drawers, piece.piece.assemblies)
    assert order.findings == ()
    if check_assembly(piece.piece.boards, piece.drawers) == ():
        assert check_moves(order.moves, piece.boards) == ()


def test_moves_taken_at_random_are_stopped_in_the_model_where_the_order_says_so():
    """What the exact search calls free is free on the solids, and what it calls stopped is stopped there (PT-2)."""
    draw = Random(14)
    counted = {True: 0, False: 0}
    # A side that leans counts as the box around it, so straight drawers are looked at.
    for drawers in (chest(taper="0").drawers, example("seed-drawers").drawers):
        for drawer in drawers[:2]:
            boards = [board for board in drawer.assembly.boards if not board.role.kind.is_loose]
            bodies = bodies_of(boards)
            blocking = Blocking([(board,) for board in boards], drawer.assembly.meetings)
            for _ in range(40):
                part, way = draw.randrange(len(boards)), draw.choice(list(Way))
                rest = [board for board in boards if board is not boards[part] and draw.random() < 0.6]
                if not rest:
                    continue
                bits = sum(1 << boards.index(board) for board in rest)
                free = not blocking.stopped_by(part, way) & bits
                met = list(in_the_way([bodies[boards[part].role]], [bodies[board.role] for board in rest], way.opposite))
                assert (met == []) is free, (boards[part].name, way, [board.name for board in rest])
                counted[free] += 1
    assert min(counted.values()) > 20


def test_a_wrong_order_is_found_out():
    """The front glued on before the bottom is in: the bottom can't come from the front any more."""
    plan = example("print-chest")
    stage = next(one for one in plan.order.stages if one.name == "drawer 1")
    bottom, front = stage.moves[-2:]
    late = Move(bottom.moving, (*bottom.onto, *front.moving), bottom.way, bottom.closing)
    (finding,) = check_moves([late], plan.boards)[:1]
    assert finding.kind == "assembly"
    assert finding.sentence(str).startswith("drawer 1 bottom would run into drawer 1 front on its way")
    bodies = bodies_of(plan.boards)
    moving, onto = ([bodies[role] for role in roles] for roles in (late.moving, late.onto))
    assert min(volume for *_, volume in in_the_way(moving, onto, late.way)) > CONTACT
