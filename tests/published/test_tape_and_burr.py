"""Diagonals after Pythagoras and the 3-4-5 triangle of any handbook; a drawer's order after common practice."""

import pytest

from joinlay.assembly.squaring import apart, diagonal, may_differ
from joinlay.boards import PartKind
from joinlay.lengths import Fraction, inches, mm
from tests.measured.packets import example


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
    # PT-5 turned round: out by half the clearance over its length, the diagonals of a drawer differ by what is said, to a thousandth.
    width, length, clearance = mm("460"), mm("400"), mm("0.8")
    out = mm(Fraction(clearance.mm, 2))
    assert float(apart(width, length, out).mm) == pytest.approx(float(may_differ(width, length, clearance).mm), abs=1e-3)


def test_a_drawer_with_a_captured_bottom():
    # E6, common practice: sides on the back, bottom in from the front, front last.
    stage = next(stage for stage in example("print-chest").order.stages if stage.name == "drawer 2")
    kinds = [move.moving[0].kind for move in stage.moves if not move.moving[0].kind.is_loose]
    assert kinds == [PartKind.DRAWER_BACK, PartKind.DRAWER_SIDE, PartKind.DRAWER_BOTTOM, PartKind.DRAWER_FRONT]
