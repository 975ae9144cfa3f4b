"""What the checks assume, and how estimates are shown."""

from dataclasses import replace
from fractions import Fraction

import pytest

from joinlay.checks.conditions import estimate, usual_conditions, weight
from joinlay.errors import BadInput
from joinlay.lengths import GRADUATIONS, Unit, inches, mm
from tests.unit.checks.making import CONDITIONS, size

INCH, METRIC = GRADUATIONS["1/32 in"], GRADUATIONS["0.5 mm"]


def test_each_unit_has_its_own_cutting_tolerance():
    assert usual_conditions(Unit.INCH).cutting_tolerance == inches("1/64")
    assert usual_conditions(Unit.MM).cutting_tolerance == mm("0.4")


def test_loads_and_tolerances_under_nothing_are_refused():
    with pytest.raises(BadInput):
        replace(CONDITIONS, load=Fraction(-1))
    with pytest.raises(BadInput):
        replace(CONDITIONS, cutting_tolerance=size(-1))


@pytest.mark.parametrize(
    ("value", "shown"), [(0.123, "0.12"), (0.996, "1"), (0.99, "0.99"), (1.3, "1.5"), (-7.1, "-7"), (0.0, "0")]
)
def test_estimates_are_shown_on_the_rule_from_two_marks_on(value, shown):
    assert estimate(value, METRIC) == mm(shown)


@pytest.mark.parametrize(
    ("kilograms", "rule", "shown"),
    [
        (4.96, METRIC, "5.0 kg"),
        (9.97, METRIC, "10 kg"),
        (123.4, METRIC, "120 kg"),
        (4.5359237, INCH, "10 lb"),
        (1.0, INCH, "2.2 lb"),
    ],
)
def test_weights_are_shown_as_the_maker_weighs(kilograms, rule, shown):
    assert weight(kilograms, rule) == shown
