"""The maker's rule: rounding to its divisions, setting out figures with what is left over, and lengths that are only told."""

import copy
import pickle
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from joinlay.errors import BadInput
from joinlay.lengths import GRADUATIONS, ZERO, Fine, Graduation, Length, Unit, decimal_text, inches, mm, plain_mm
from tests.drawn import fractions


def test_the_rules_a_maker_may_have():
    assert list(GRADUATIONS) == ["1/16 in", "1/32 in", "1/64 in", "1 mm", "0.5 mm", "0.1 mm"]


@pytest.mark.parametrize(
    ("rule", "length", "text"),
    [
        ("1/32 in", inches("18 5/16"), "18 5/16 in"),
        ("1/32 in", inches("5/16"), "5/16 in"),
        ("1/32 in", inches(3), "3 in"),
        ("1/32 in", ZERO, "0 in"),
        ("1/32 in", inches("-1 1/2"), "-1 1/2 in"),
        ("1/64 in", inches("23/64"), "23/64 in"),
        ("1/32 in", inches("23/64"), "23/64 in"),
        ("1/16 in", inches("1/3"), "5/16+ in (0.333)"),
        ("1/32 in", inches("0.00001"), "0.00001 in"),
        ("1/32 in", mm(6), "1/4- in (6 mm)"),
        ("0.5 mm", mm("18.5"), "18.5 mm"),
        ("0.5 mm", mm(18), "18 mm"),
        ("0.5 mm", mm("18.2"), "18.2 mm"),
        ("0.5 mm", mm("18.25"), "18.25 mm"),
        ("0.1 mm", mm("18.2"), "18.2 mm"),
        ("1/32 in", inches("0.709"), "0.709 in"),
        ("1/32 in", inches("18.494"), "18.494 in"),
        ("1/32 in", inches("17.72236"), "17 23/32+ in (17.722)"),
        ("0.5 mm", mm("18.037"), "18+ mm (18.04)"),
        ("0.5 mm", inches("1 3/4"), "44.45 mm (1 3/4 in)"),
        ("0.1 mm", inches("1/64"), "0.4- mm (1/64 in)"),
        ("1 mm", mm("-7.3"), "-7.3 mm"),
        ("1 mm", mm(Fraction(1, 3)), "0.33 mm"),
    ],
)
def test_a_length_as_the_maker_reads_it(rule, length, text):
    assert GRADUATIONS[rule].text(length) == text


def test_the_parts_to_set_a_fraction_from():
    read = GRADUATIONS["1/32 in"].read(inches("-2 5/8"))
    assert (read.sign, read.whole, read.over, read.under, read.unit) == ("-", "2", 5, 8, "in")
    assert read.figures == "-2 5/8"
    whole = GRADUATIONS["0.1 mm"].read(mm("18.2"))
    assert (whole.sign, whole.whole, whole.over, whole.under, whole.unit) == ("", "18.2", 0, 1, "mm")


def test_halfway_goes_up():
    rule = GRADUATIONS["1 mm"]
    assert rule.round(mm("2.5")) == mm(3)
    assert rule.round(mm("-2.5")) == mm(-2)
    assert rule.round(mm("2.499")) == mm(2)


def test_down_and_up():
    rule = GRADUATIONS["1/32 in"]
    assert rule.down(inches("0.99")) == inches("31/32")
    assert rule.up(inches("0.96")) == inches("31/32")
    assert rule.down(inches("-0.99")) == inches(-1)
    assert rule.down(inches("31/32")) == rule.up(inches("31/32")) == inches("31/32")


@pytest.mark.parametrize("division", [ZERO, mm(-1)], ids=["zero", "negative"])
def test_a_rule_needs_a_division(division):
    with pytest.raises(BadInput, match="more than 0"):
        Graduation(Unit.MM, division)


@pytest.mark.parametrize(
    ("number", "places", "text"),
    [
        ("18.20", 2, "18.2"), ("18", 2, "18"), ("0.005", 2, "0.01"), ("-0.005", 2, "-0.01"), ("-0.001", 2, "0"), ("2.5", 0, "3"),
        ("1/3", 5, "0.33333"), ("2/3", 3, "0.667"), ("1000000", 3, "1000000"),
    ],
)  # fmt: skip
def test_decimals(number, places, text):
    assert decimal_text(Fraction(number), places) == text


def test_a_length_without_a_rule():
    assert plain_mm(mm("18.25")) == "18.25 mm"
    assert plain_mm(inches("-1/32")) == "-0.794 mm"
    assert plain_mm(mm(Fraction(1, 3))) == "0.333 mm"


@pytest.mark.parametrize(
    ("rule", "given", "says"),
    [
        ("1/32 in", mm(4), "4 mm"),
        ("1/32 in", inches("1/4"), "1/4 in"),
        ("0.5 mm", inches("1/4"), "1/4 in"),
        ("0.5 mm", mm(6), "6 mm"),
        ("1/32 in", inches("21/100"), "0.21 in"),
    ],
)
def test_a_tool_is_called_by_the_size_it_is_sold_as(rule, given, says):
    assert GRADUATIONS[rule].sold(given) == says


@pytest.mark.parametrize(
    ("length", "rule", "said"),
    [
        (inches("0.0311"), "1/32 in", "1/32 in"),
        (inches("0.0469"), "1/32 in", "3/64 in"),
        (inches("0.001"), "1/32 in", "under 1/64 in"),
        (mm("1.6"), "0.5 mm", "1.6 mm"),
        (mm("0.04"), "0.5 mm", "under 0.1 mm"),
        (mm("0.05"), "1 mm", "0.1 mm"),
        (mm(0), "0.5 mm", "0 mm"),
        (mm("-1.23"), "0.5 mm", "-1.2 mm"),
        (inches("-0.001"), "1/32 in", "minus under 1/64 in"),
        (inches(0), "1/16 in", "0 in"),
        (inches("1 1/2"), "1/16 in", "1 1/2 in"),
    ],
)
def test_it_is_told_to_the_nearest_mark_with_nothing_left_over(length, rule, said):
    assert GRADUATIONS[rule].text(Fine(length)) == said


@given(fractions(-1000, 1000, of=Fraction), st.sampled_from(list(Unit)))
def test_it_is_the_same_length_and_told_within_half_a_mark(number, unit):
    fine = Fine(Length(number))
    assert fine == Length(number)
    half = inches("1/128") if unit is Unit.INCH else mm("0.05")
    assert abs(fine.nearest(unit) - fine) <= half


def test_it_can_be_copied():
    fine = Fine(mm("1.6"))
    for same in (copy.deepcopy(fine), pickle.loads(pickle.dumps(fine))):
        assert type(same) is Fine
        assert same == fine


def test_callipers_show_thousandths_or_hundredths_and_reach_150_millimetres():
    inch, metric = GRADUATIONS["1/32 in"], GRADUATIONS["0.5 mm"]
    assert inch.callipers(inches("7/32")) == "0.219 in"
    assert inch.callipers(inches("1/4")) == "0.25 in"
    assert metric.callipers(mm("17.656")) == "17.66 mm"
    assert metric.callipers(mm(150)) == "150 mm"
    # Past their reach it is a rule that is held to it.
    assert inch.callipers(inches("6 1/2")) == inch.text(inches("6 1/2")) == "6 1/2 in"
