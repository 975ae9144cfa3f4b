"""Diagonals after Pythagoras and the 3-4-5 triangle of any handbook; a drawer's order after common practice."""

from dataclasses import replace

import pytest

from joinlay.assembly.blocking import Blocking
from joinlay.assembly.order import Stage, put_together
from joinlay.assembly.squaring import apart, diagonal, may_differ
from joinlay.assembly.taking_apart import Stuck
from joinlay.boards import PartKind, PartRole, Place
from joinlay.boards.meeting import Way
from joinlay.checks.closing import bodies_of, in_the_way
from joinlay.lengths import Fraction, inches, mm
from tests.measured.packets import example
from tests.unit.assembly.test_order import box, hole


@pytest.mark.parametrize(("width", "height", "across"), [(36, 48, 60), (48, 36, 60), (3, 4, 5)])
def test_the_three_four_five_triangle_in_inches(width, height, across):
    # E2, any handbook.
    assert diagonal(inches(str(width)), inches(str(height))) == inches(str(across))


def test_the_three_four_five_triangle_in_millimetres():
    # E2, any handbook.
    assert diagonal(mm("1200"), mm("900")) == mm("1500")


def test_how_far_the_diagonals_of_a_leaning_rectangle_differ():
    # E1, worked out by hand: 24 x 18 in, 1/16 in over at the top of its 18: sqrt((24 +- .0625)^2 + 18^2) = 30.05002 and 29.95002.
    over = apart(inches("24"), inches("18"), inches("1/16"))
    assert round(float(over.inches), 4) == 0.1
    # E1: 900 x 600 mm, out by 1 mm.
    assert float(apart(mm("900"), mm("600"), mm("1")).mm) == pytest.approx(1.6641, abs=1e-4)


def test_what_a_drawer_may_be_out_leaves_it_half_its_clearance():
    # PT-5 turned round: out by half the clearance over its length, the diagonals of a drawer differ by what is said, to a
    # thousandth.
    width, length, clearance = mm("460"), mm("400"), mm("0.8")
    out = mm(Fraction(clearance.mm, 2))
    assert float(apart(width, length, out).mm) == pytest.approx(float(may_differ(width, length, clearance).mm), abs=1e-3)


def test_a_drawer_with_a_captured_bottom():
    # E6, common practice: sides on the back, bottom in from the front, front last.
    stage = next(stage for stage in example("print-chest").order.stages if stage.name == "drawer 2")
    kinds = [move.moving[0].kind for move in stage.moves if not move.moving[0].kind.is_loose]
    assert kinds == [PartKind.DRAWER_BACK, PartKind.DRAWER_SIDE, PartKind.DRAWER_BOTTOM, PartKind.DRAWER_FRONT]


def three_planks():
    """Three planks through each other in a ring, as three rectangles link without any two of them being linked: 200 x 100 x 10
    mm, each through a closed slot in the next, which is as wide and as thick as it is.
    """
    # Length on X, width on Y, thickness on Z; then X, Y and Z change places in turn.
    slot = [hole((50, 150), (45, 55), (0, 10))]
    plank = box("A", (0, 0, 0), (200, 100, 10), *slot)
    places = [
        Place.at(mm(-100), mm(-50), mm(-5), "+X", "+Y", "+Z"),
        Place.at(mm(-5), mm(-100), mm(-50), "+Y", "+Z", "+X"),
        Place.at(mm(-50), mm(-5), mm(-100), "+Z", "+X", "+Y"),
    ]
    return [
        replace(plank, role=PartRole(PartKind.LONE, called=name), place=place) for name, place in zip("ABC", places, strict=True)
    ]


def test_three_planks_in_a_ring_have_no_order_and_any_two_have_one():
    # E6, worked out: drawn any way, each takes the next along, and that the third; two alone slide apart along one of them.
    planks = three_planks()
    stuck = put_together(None, Blocking([(plank,) for plank in planks], ()))
    assert stuck == Stuck((0, 1, 2))
    for left_out in planks:
        two = [(plank,) for plank in planks if plank is not left_out]
        stage = put_together(None, Blocking(two, ()))
        assert isinstance(stage, Stage)
        (move,) = stage.moves
        assert {move.moving, move.onto} == {(part.role,) for (part,) in two}


def test_the_ring_on_solids():
    # E6 again, by another way: the planks as solids overlap nowhere, and each of them, drawn any of six ways, sweeps into
    # another.
    bodies = bodies_of(three_planks())
    names = list(bodies)
    for one in names:
        for other in names:
            assert one == other or bodies[one].shared(bodies[other]) < 1e-6
    for one in names:
        rest = [bodies[other] for other in names if other != one]
        for way in Way:
            # What comes that way from outside runs into them; and so does the one against the two that would be drawn off it.
            assert list(in_the_way([bodies[one]], rest, way))
            assert list(in_the_way(rest, [bodies[one]], way))
