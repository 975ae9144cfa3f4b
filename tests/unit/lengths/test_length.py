"""A length is exact, never a float, and a value: it cannot change and it compares by how long it is."""

import copy
import pickle
from decimal import Decimal
from typing import Any

import pytest

from joinlay.errors import BadInput, NotExact
from joinlay.lengths import MM_PER_INCH, ZERO, Fraction, Length, dimension, exact_fraction, inches, mm


def test_an_inch_is_25_4_mm():
    # International yard and pound agreement, 1959.
    assert Fraction(254, 10) == MM_PER_INCH
    assert inches(1) == mm("25.4")


@pytest.mark.parametrize(
    ("given", "value"),
    [
        (7, Fraction(7)),
        ("7", Fraction(7)),
        ("7.25", Fraction(29, 4)),
        ("5/8", Fraction(5, 8)),
        ("7 5/8", Fraction(61, 8)),
        (" 7  5/8 ", Fraction(61, 8)),
        ("-7 5/8", Fraction(-61, 8)),
        ("+3", Fraction(3)),
        (".5", Fraction(1, 2)),
        ("3.", Fraction(3)),
        (Fraction(1, 3), Fraction(1, 3)),
        (Decimal("7.10"), Fraction(71, 10)),
        (Decimal("1E+3"), Fraction(1000)),
        (Decimal("-0"), Fraction(0)),
    ],
)
def test_exact_numbers(given, value):
    assert exact_fraction(given) == value
    assert mm(given).mm == value
    assert Length(given).mm == value
    assert inches(given).inches == value


@pytest.mark.parametrize("given", [0.1, 1.0, float("nan"), float("inf"), True, False])
@pytest.mark.parametrize("make", [mm, inches, Length, exact_fraction])
def test_floats_and_truths_are_refused_with_what_to_write(make, given):
    with pytest.raises(NotExact, match="write") as refused:
        make(given)
    assert isinstance(refused.value, TypeError)
    assert isinstance(refused.value, ValueError)


def test_the_advice_for_a_float_can_be_followed():
    given: Any = 0.1
    with pytest.raises(NotExact, match=r"write inches\('0\.1'\)"):
        inches(given)
    assert inches("0.1").inches == Fraction(1, 10)


@pytest.mark.parametrize(
    "given",
    [
        "",
        " ",
        "seven",
        "7 8 9",
        "7 -5/8",
        "7.5 5/8",
        "1/0",
        "1 1/0",
        "nan",
        "inf",
        "1e5",
        "1_000",
        "7 mm",
        "--1",
        "٣",
        "9" * 1001,
        Decimal("NaN"),
        Decimal("Infinity"),
        Decimal("sNaN"),
        Decimal("1E+999999"),
        Decimal("1E-999999"),
        Decimal("9" * 2000),
        None,
        b"7",
        [7],
        1j,
    ],
)
def test_what_is_no_exact_number_is_refused(given):
    with pytest.raises(BadInput, match="not an exact number") as refused:
        mm(given)
    assert len(str(refused.value)) < 250


def test_arithmetic():
    assert inches(1) + mm("0.6") == mm(26)
    assert mm(10) - mm(12) == mm(-2)
    assert mm(10) * 3 == 3 * mm(10) == mm(30)
    assert mm(10) / 3 == mm(Fraction(10, 3))
    assert Fraction(1, 3) * mm(10) == mm(10) / 3
    assert mm(10) / mm(4) == Fraction(5, 2)
    assert isinstance(mm(10) / mm(4), Fraction)
    assert -mm(3) == mm(-3)
    assert abs(mm(-3)) == mm(3)
    assert sum([mm(1), mm(2)], ZERO) == mm(3)
    assert not ZERO
    assert mm(-1)


#: Sums that mix a length with what is none, by how they are spelled.
MIXED = {
    "a + 1": lambda a: a + 1,
    "1 + a": lambda a: 1 + a,
    "a - 1.5": lambda a: a - 1.5,
    "1.5 - a": lambda a: 1.5 - a,
    "a * 1.5": lambda a: a * 1.5,
    "1.5 * a": lambda a: 1.5 * a,
    "a * True": lambda a: a * True,
    "a / 2.0": lambda a: a / 2.0,
    "a / text": lambda a: a / "2",
    "a < 5": lambda a: a < 5,
    "a >= 5.0": lambda a: a >= 5.0,
    "a > text": lambda a: a > "5",
    "a + None": lambda a: a + None,
    "sum of a": lambda a: sum([a]),
    "a * nan": lambda a: a * float("nan"),
    "a + huge": lambda a: a + 10**5000,
    "a * Decimal": lambda a: a * Decimal(2),
    "a * a": lambda a: a * a,
}


@pytest.mark.parametrize("spelled", MIXED)
@pytest.mark.parametrize("kind", [mm, lambda n: dimension(mm(n))], ids=["length", "dimension"])
def test_arithmetic_with_what_is_no_length_says_what_to_write(kind, spelled):
    with pytest.raises(NotExact, match="write "):
        MIXED[spelled](kind(10))


def test_a_length_equals_only_a_length():
    assert mm(5) != 5
    assert mm(5) != "5"
    assert inches("1/2") == mm("12.7")
    assert hash(inches("1/2")) == hash(mm("12.7"))
    assert len({mm(5), mm("5.0"), mm(6)}) == 2


def test_a_length_never_changes():
    length = mm(5)
    with pytest.raises(AttributeError, match="cannot be changed"):
        length.mm = Fraction(6)
    with pytest.raises(AttributeError, match="cannot be changed"):
        del length.mm
    assert length == mm(5)


def test_a_length_tells_how_to_write_it():
    assert repr(mm("18.2")) == "mm('91/5')"
    assert eval(repr(inches("1/3")), {"mm": mm}) == inches("1/3")  # the repr is meant to be pasted


@pytest.mark.parametrize(
    "again", [copy.copy, copy.deepcopy, lambda length: pickle.loads(pickle.dumps(length))], ids=["copy", "deepcopy", "pickle"]
)
def test_copies_are_equal(again):
    length = inches("18 5/16")
    assert again(length) == length
    assert type(again(length)) is Length
