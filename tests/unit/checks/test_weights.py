"""Weights of boards and drawers."""

from dataclasses import replace
from fractions import Fraction

import pytest

from joinlay.checks.conditions import Load
from joinlay.checks.weights import board_weight, check_weight, drawer_load, drawer_weight, stocks_by_name, weigh
from joinlay.findings import Harm
from tests.unit.checks.making import CONDITIONS, SHOP, board, drawer, sheet, solid


def test_a_board_weighs_its_size_times_its_density():
    made = board(length=1000, width=1000, thickness=18)
    assert board_weight(made, {"stock": sheet("stock", 18)}) == pytest.approx(620 * 0.018)
    assert board_weight(made, {"stock": solid("stock", 18, "cherry")}) == pytest.approx(560 * 0.018)


@pytest.mark.parametrize("stocks", [{}, {"stock": solid("stock", 18, "lignum vitae")}])
def test_wood_nobody_knows_is_a_middling_hardwood(stocks):
    assert board_weight(board(length=1000, width=1000, thickness=10), stocks) == pytest.approx(6.5)


def test_a_drawer_weighs_all_its_boards():
    made = drawer()
    known = stocks_by_name((made.make.front, made.make.sides, made.make.back, made.make.bottom))
    assert drawer_weight(made) == pytest.approx(sum(board_weight(one, known) for one in made.assembly.boards))
    assert drawer_weight(drawer(height=250)) > drawer_weight(made)


def test_the_load_is_what_lies_on_the_bottom():
    assert drawer_load(drawer(), replace(CONDITIONS, load=Load(Fraction(0)))) == 0
    assert drawer_load(drawer(width=900), CONDITIONS) > drawer_load(drawer(width=500), CONDITIONS)


def test_every_drawer_is_weighed():
    bank = [drawer(name="drawer 1"), drawer(name="drawer 2", height=250)]
    one, two = weigh(bank, replace(CONDITIONS, own_loads={"drawer 2": Load(Fraction(7), is_weight=True)}))
    assert (one.drawer, two.drawer) == ("drawer 1", "drawer 2")
    assert one.empty == drawer_weight(bank[0])
    assert one.loaded - one.empty == pytest.approx(drawer_load(bank[0], CONDITIONS))
    assert two.loaded - two.empty == pytest.approx(7)


def test_one_note_with_both_weights():
    (finding,) = check_weight(drawer(), SHOP, CONDITIONS)
    assert finding.harm is Harm.NOTE
    assert all(str(number).endswith(" kg") for number in finding.numbers.values())
