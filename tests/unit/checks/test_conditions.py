"""What the checks assume, and how estimates are shown."""

from dataclasses import replace
from fractions import Fraction

import pytest

from joinlay.checks.conditions import Load, area, estimate, weight
from joinlay.errors import BadInput
from joinlay.lengths import GRADUATIONS, Unit, inches, mm
from joinlay.shop.practice import usual_practice
from tests.unit.checks.making import CONDITIONS

INCH, METRIC = GRADUATIONS["1/32 in"], GRADUATIONS["0.5 mm"]


def test_each_unit_has_its_own_cutting_tolerance():
    assert usual_practice(Unit.INCH).length("cutting tolerance") == inches("1/64")
    assert usual_practice(Unit.MM).length("cutting tolerance") == mm("0.4")


@pytest.mark.parametrize("is_weight", [True, False])
def test_a_load_under_nothing_is_refused(is_weight):
    assert Load(Fraction(0), is_weight).pressure(Fraction(10**6)) == 0
    with pytest.raises(BadInput, match="write 0 or more"):
        Load(Fraction(-1), is_weight)


def test_a_weight_presses_by_the_area_it_lies_on():
    """20 kg on 500 x 400 mm: 980.7 Pa, as check value C3 has it; a pressure stays what it is."""
    assert Load(Fraction(20), is_weight=True).pressure(Fraction(500 * 400)) == pytest.approx(980.665)
    assert Load(Fraction(718)).pressure(Fraction(500 * 400)) == 718


def test_a_drawer_may_hold_a_load_of_its_own():
    own = replace(CONDITIONS, own_loads={"drawer 2": Load(Fraction(20), is_weight=True)})
    assert own.load_of("drawer 1") == CONDITIONS.load
    assert own.load_of("drawer 2").amount == 20


@pytest.mark.parametrize(
    ("value", "shown"), [(0.123, "0.12"), (0.996, "1"), (0.99, "0.99"), (1.3, "1.5"), (-7.1, "-7"), (0.0, "0")]
)
def test_estimates_are_shown_on_the_rule_from_two_marks_on(value, shown):
    assert estimate(value, METRIC) == mm(shown)


@pytest.mark.parametrize(
    ("square_mm", "rule", "shown"),
    [(645.16, INCH, "1 sq in"), (9032.2, INCH, "14 sq in"), (250, METRIC, "2.5 cm2"), (4321, METRIC, "43 cm2")],
)
def test_areas_are_shown_as_the_maker_reckons(square_mm, rule, shown):
    assert area(square_mm, rule) == shown


@pytest.mark.parametrize(
    ("kilograms", "rule", "shown"),
    [
        (4.96, METRIC, "5.0 kg"),
        (9.97, METRIC, "10 kg"),
        (123.4, METRIC, "120 kg"),
        (4.5359237, INCH, "10 lb"),
        (1.0, INCH, "2.2 lb"),
        (0.0, METRIC, "0 kg"),
    ],
)
def test_weights_are_shown_as_the_maker_weighs(kilograms, rule, shown):
    assert weight(kilograms, rule) == shown
