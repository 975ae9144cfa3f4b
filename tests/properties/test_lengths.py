"""Laws of lengths: text -> length -> text, nothing lost in rounding, arithmetic as on paper, nothing but BadInput for
nonsense.
"""

from __future__ import annotations

import copy
import pickle
from decimal import Decimal
from fractions import Fraction as PythonsOwn
from math import gcd
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from joinlay.errors import BadInput, NotExact
from joinlay.lengths import (
    GRADUATIONS,
    MM_PER_INCH,
    ZERO,
    Fraction,
    Length,
    Unit,
    exact_fraction,
    inches,
    mm,
    read_length,
)
from tests.drawn import fractions

if TYPE_CHECKING:
    from collections.abc import Callable

sizes = fractions(-5000, 5000, max_denominator=10_000, of=PythonsOwn)
lengths = sizes.map(Length)
numbers = fractions(-100, 100, max_denominator=100, of=PythonsOwn)
rules = st.sampled_from(list(GRADUATIONS.values()))
units = st.sampled_from(list(Unit))

#: What a length is made of on paper, and what looks like it.
CHARACTERS = "0123456789 .,/-–+'\"’”′″½⅝⅓infetcmINEMouhs \u00a0\t\n٣１²ıſK^e_()%x"


@given(rules, lengths)
def test_what_a_rule_shows_is_read_back(rule, length):
    read = rule.read(length)
    assert read_length(read.figures, rule.unit) == read.nearest
    assert read_length(f"{read.figures} {read.unit}") == read.nearest


@given(rules, lengths)
def test_nothing_is_lost_in_rounding(rule, length):
    read = rule.read(length)
    assert read.nearest + read.left_over == length
    assert abs(read.left_over) * 2 <= rule.division
    assert (read.nearest / rule.division).denominator == 1
    assert (read.hair == "") == (not read.left_over)


@given(rules, lengths)
def test_a_remainder_never_reads_as_nothing(rule, length):
    read = rule.read(length)
    if read.left_over:
        shown = read_length(read.exactly, rule.unit)
        assert shown
        assert (shown < ZERO) == (length < ZERO)
        assert abs(shown - length) <= (inches("0.0005") if rule.unit is Unit.INCH else mm("0.005"))
        assert (read.hair == "-") == (read.left_over < ZERO)


@given(rules, lengths)
def test_no_length_is_told_as_a_sum(rule, length):
    # FR-1: what callipers show may stand in brackets behind a mark; taking away is never left to the maker.
    said = rule.text(length)
    assert " + " not in said
    assert " - " not in said
    few = rule.few(length)
    if few is not None and rule.read(length).nearest:
        assert read_length(few.partition(" (")[0], rule.unit) == length


@given(
    rules,
    fractions(-900, 900, max_denominator=10, of=PythonsOwn).map(mm)
    | fractions(-40, 40, max_denominator=64, of=PythonsOwn).map(inches),
)
def test_what_is_said_in_the_other_system_is_exact(rule, length):
    read = rule.read(length)
    if read.elsewhere:
        assert read_length(read.elsewhere) == length
        assert read.left_over
        assert read.elsewhere.endswith("mm" if rule.unit is Unit.INCH else "in")
        assert read.text.endswith(f" ({read.elsewhere})")


@given(rules, lengths, lengths)
def test_rounding_keeps_the_order_and_marks_stay_put(rule, a, b):
    assert rule.down(a) <= a <= rule.up(a)
    assert rule.up(a) - rule.down(a) in (ZERO, rule.division)
    assert rule.down(a) <= rule.round(a) <= rule.up(a)
    if a <= b:
        assert rule.round(a) <= rule.round(b)
    for how in (rule.round, rule.down, rule.up):
        assert how(how(a)) == how(a)


@given(rules, lengths, st.integers(-200, 200))
def test_rounding_does_not_depend_on_where_the_rule_is_held(rule, length, marks):
    moved = length + rule.division * marks
    assert rule.round(moved) == rule.round(length) + rule.division * marks
    assert rule.read(moved).left_over == rule.read(length).left_over


@given(st.integers(0, 500), st.sampled_from((2, 4, 8, 16, 32, 64)), st.data())
def test_every_spelling_of_inches_is_the_same_length(whole, under, data):
    over = data.draw(st.integers(1, under - 1))
    length = inches(whole + Fraction(over, under))
    lowest = gcd(over, under)
    fraction = data.draw(st.sampled_from((f"{over}/{under}", f"{over // lowest}/{under // lowest}", f"{over} / {under}")))
    between = data.draw(st.sampled_from((" ", "-", "  ", "\u00a0")))
    mark = data.draw(
        st.sampled_from(("", '"', " in", "in", " in.", "in.", "″", "”", "''", " inch", "-inch", " inches", " INCHES"))
    )
    assert read_length(f"{whole}{between}{fraction}{mark}") == length
    feet, rest = divmod(whole, 12)
    foot = data.draw(st.sampled_from(("'", " ft ", "ft ", " ft. ", "′ ", "’", " feet ", "' - ", "'-")))
    assert read_length(f"{feet}{foot}{rest}{between}{fraction}{mark}") == length


@given(
    st.decimals(min_value=0, max_value=9999, places=3),
    st.sampled_from((("mm", 1), (" mm", 1), ("mm.", 1), (" cm", 10), ("cm", 10), (" m", 1000), (" millimetres", 1))),
)
def test_metric_decimals_are_exact(number, unit):
    name, size = unit
    assert read_length(f"{number}{name}") == mm(Fraction(number) * size)


@given(lengths)
def test_the_repr_writes_the_length_again(length):
    assert repr(length) == f"mm('{length.mm}')"
    assert mm(repr(length)[4:-2]) == length


def read_or_refusal(text, unit):
    """The length, or the words of the refusal; any other error is let through."""
    try:
        return read_length(text, unit)
    except BadInput as refused:
        return str(refused)


@given(st.text(max_size=80) | st.text(CHARACTERS, max_size=70), units)
@example("9" * 64, Unit.INCH)
@example("1/" + "9" * 62, Unit.MM)
@example("0/0", Unit.INCH)
@example("-" * 64, Unit.INCH)
@example(" " * 10_000 + "1", Unit.INCH)
@example("1" * 1_000_000, Unit.MM)
@example("1 -" * 20, Unit.INCH)
@example("5 ın", Unit.INCH)
def test_nonsense_is_a_length_or_bad_input_and_nothing_else(text, unit):
    answer = read_or_refusal(text, unit)
    if isinstance(answer, str):
        assert len(answer) < 350
        assert "\n" not in answer
    else:
        assert type(answer) is Length
        assert any(character.isnumeric() for character in text)


@given(st.text(max_size=40) | st.text("0123456789./ -+eE_", max_size=20))
def test_nonsense_is_an_exact_number_or_bad_input(text):
    try:
        number = exact_fraction(text)
    except BadInput:
        return
    assert type(number) is Fraction


@given(st.decimals())
def test_any_decimal_is_exact_or_refused(number):
    try:
        assert exact_fraction(number) == Fraction(number)
    except BadInput:
        assert not number.is_finite() or abs(number.as_tuple().exponent) + len(number.as_tuple().digits) > 1000


#: Sums of a length with something else.
MIXED: tuple[Callable[[Any], object], ...] = (
    lambda n: mm(1) * n,
    lambda n: n * mm(1),
    lambda n: mm(1) / n,
    lambda n: mm(1) + n,
    lambda n: n - mm(1),
    lambda n: mm(1) < n,
)


@given(st.floats(allow_nan=True, allow_infinity=True))
def test_no_float_is_ever_taken(number):
    for make in (mm, inches, Length, *MIXED):
        with pytest.raises(NotExact, match="write"):
            make(number)


@given(lengths, lengths, lengths)
def test_sums(a, b, c):
    assert a + b == b + a
    assert (a + b) + c == a + (b + c)
    assert a - b == -(b - a)
    assert a + ZERO == a
    assert a - a == ZERO
    assert (a < b) == (a + c < b + c)


@given(lengths, lengths, numbers, numbers)
def test_products(a, b, m, n):
    assert (a + b) * n == a * n + b * n
    assert a * m * n == a * (m * n)
    assert n * a == a * n
    if n:
        assert a * n / n == a
        assert a / n == a * (1 / n)
    if b:
        assert b * (a / b) == a


@given(lengths)
def test_inches_and_millimetres_are_one_length(length):
    assert inches(length.inches) == length == mm(length.mm)
    assert length.inches * MM_PER_INCH == length.mm


@given(lengths, lengths)
def test_order_and_hash_follow_the_value(a, b):
    assert (a == b) == (a.mm == b.mm)
    assert (a < b, a <= b, a > b, a >= b) == (a.mm < b.mm, a.mm <= b.mm, a.mm > b.mm, a.mm >= b.mm)
    assert hash(a) == hash(Length(a.mm))
    assert bool(a) == (a.mm != 0)


@given(lengths)
def test_copies_are_the_same_length(length):
    for twin in (copy.copy(length), copy.deepcopy(length), pickle.loads(pickle.dumps(length))):
        assert twin == length
        assert hash(twin) == hash(length)


@given(st.decimals(min_value=-9999, max_value=9999, places=4))
def test_decimals_written_in_a_job_stay_exact(number):
    assert mm(number) == mm(str(number)) == mm(Fraction(str(number)))
    assert isinstance(number, Decimal)
