"""The table of defaults: every row reads alike in inches and millimetres, names a rule, and answers to its name."""

from fractions import Fraction

import pytest

from joinlay.errors import BadInput
from joinlay.lengths import Unit, inches, mm, read_length, written
from joinlay.shop import LENGTH_RULES, RATIO_RULES, LengthRule, Practice, RatioRule, usual_practice
from tests.house.rules import rule_numbers, rules_named_in

INCH, METRIC = usual_practice(Unit.INCH), usual_practice(Unit.MM)
ROWS: list[LengthRule | RatioRule] = [*LENGTH_RULES, *RATIO_RULES]


@pytest.mark.parametrize("row", LENGTH_RULES, ids=lambda row: row.name)
def test_inch_and_metric_are_about_the_same(row):
    inch, metric = read_length(row.inch, Unit.INCH), read_length(row.metric, Unit.MM)
    if row.name == "pin hole":
        # Shelf pins are sold for holes of 1/4 in and of 5 mm, which is nearer to 3/16.
        assert (inch, metric) == (mm("6.35"), mm(5))
        return
    assert abs(inch - metric) <= max(mm("0.6"), inch / 10)


@pytest.mark.parametrize("row", LENGTH_RULES, ids=lambda row: row.name)
def test_no_default_length_is_less_than_nothing(row):
    assert INCH.length(row.name) >= mm(0)
    assert METRIC.length(row.name) >= mm(0)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.name)
def test_every_row_names_rules_that_exist_its_source_and_its_meaning(row):
    assert rules_named_in(row.rule)
    assert rules_named_in(row.rule) <= rule_numbers()
    assert row.source
    assert len(row.meaning) > 10
    assert row.name == row.name.strip().lower()


def test_no_name_is_used_twice():
    names = [row.name for row in ROWS]
    assert len(names) == len(set(names))


@pytest.mark.parametrize("row", LENGTH_RULES, ids=lambda row: row.name)
@pytest.mark.parametrize("unit", list(Unit))
def test_a_default_says_that_it_is_one(row, unit):
    figure = usual_practice(unit).length(row.name)
    assert (figure.name, figure.rule, figure.source, figure.origin) == (row.name, row.rule, row.source, "default")


@pytest.mark.parametrize("row", RATIO_RULES, ids=lambda row: row.name)
def test_ratios_are_exact_and_more_than_nothing(row):
    assert INCH.ratio(row.name) == METRIC.ratio(row.name) == Fraction(row.value) > 0


@pytest.mark.parametrize(
    ("asked", "near"), [("tip gp", "tip gap"), ("Tenon Wall", "tenon wall"), ("clearance", "side clearance")]
)
def test_an_unknown_length_is_answered_with_near_ones(asked, near):
    with pytest.raises(BadInput, match="no rule called") as refused:
        INCH.length(asked)
    assert near in str(refused.value)


def test_an_unknown_ratio_is_answered_with_near_ones():
    with pytest.raises(BadInput, match=r"nearest: .*tenon share"):
        INCH.ratio("tenon shares")


@pytest.mark.parametrize("nonsense", ["", "zzzz"])
def test_nonsense_is_answered_without_guessing(nonsense):
    with pytest.raises(BadInput, match=r"no rule called .*'\.$"):
        METRIC.length(nonsense)


def test_changing_some_figures_leaves_the_rest():
    gap = written(inches("1/32"), "tip gap", "chest.toml:30")
    changed = INCH.but({"tip gap": gap}, {"tenon share": Fraction(2, 5)})
    assert changed.length("tip gap").origin == "chest.toml:30"
    assert changed.ratio("tenon share") == Fraction(2, 5)
    assert changed.length("taper") is INCH.length("taper")
    assert INCH.length("tip gap").origin == "default"
    assert changed != INCH
    assert INCH.but() == INCH


def test_only_rules_that_exist_can_be_changed():
    with pytest.raises(BadInput, match="nearest: tip gap"):
        INCH.but({"tip gapp": written(mm(1), "tip gap", "here")})
    with pytest.raises(BadInput, match="no rule called 'tip gap'"):
        INCH.but(ratios={"tip gap": Fraction(1)})


def test_equal_practices_are_one_key_however_they_were_put_together():
    lengths = {row.name: INCH.length(row.name) for row in LENGTH_RULES}
    ratios = {row.name: INCH.ratio(row.name) for row in RATIO_RULES}
    turned = Practice(dict(reversed(lengths.items())), dict(reversed(ratios.items())))
    assert turned == INCH
    assert hash(turned) == hash(INCH)
    assert INCH != METRIC
    assert INCH != "practice"


def test_a_practice_keeps_its_own_tables():
    lengths = {row.name: INCH.length(row.name) for row in LENGTH_RULES}
    practice = Practice(lengths, {})
    lengths.clear()
    assert practice.length("tip gap") == inches("1/64")
