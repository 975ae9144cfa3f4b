"""Loads, temperatures and per cent, as makers write them."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from joinlay.errors import BadInput
from joinlay.jobs.tables.amounts import read_load, read_percent, read_stiffness, read_temperature, read_time

POUND = Fraction("0.45359237")


@pytest.mark.parametrize(
    ("text", "kilograms"),
    [
        ("15 kg", Fraction(15)),
        ("15kg", Fraction(15)),
        ("1.5 kilos", Fraction("1.5")),
        ("800 g", Fraction(4, 5)),
        ("0,8 kg", Fraction(4, 5)),
        ("30 lb", 30 * POUND),
        ("30 lbs.", 30 * POUND),
        ("2 1/2 pounds", POUND * 5 / 2),
        ("12 oz", POUND * 3 / 4),
        ("0 kg", Fraction(0)),
    ],
)
def test_weights(text, kilograms):
    load = read_load(text)
    assert (load.amount, load.is_weight, load.spelled) == (kilograms, True, text)


@pytest.mark.parametrize(
    ("text", "pascals"),
    [
        ("718 Pa", 718.0),
        ("0.7 kPa", 700.0),
        ("15 lb/ft2", 718.2),
        ("15 lb/ft²", 718.2),
        ("15 psf", 718.2),
        ("15 pounds per square foot", 718.2),
        ("15 lb per sq ft", 718.2),
        ("75 kg/m2", 735.5),
        ("75 kg / m^2", 735.5),
        ("75 kilos per square metre", 735.5),
        ("0.1 lb/in2", 689.5),
    ],
)
def test_loads_on_an_area(text, pascals):
    load = read_load(text)
    assert not load.is_weight
    assert float(load.amount) == pytest.approx(pascals, abs=0.05)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("30", "a load without a unit"),
        ("", "cannot be read as a load"),
        ("heavy", "cannot be read"),
        ("30 stone", "no unit of load"),
        ("-3 kg", "negative"),
        ("600 kg", "more than any drawer holds; the most is 500 kg"),
        ("30 kPa", "the most is 20 kPa"),
        ("3/0 kg", "cannot be read"),
        ("9" * 50 + " kg", "cannot be read"),
        ("30 mm", "no unit of load"),
    ],
)
def test_loads_that_are_none(text, said):
    with pytest.raises(BadInput, match=said):
        read_load(text)


@pytest.mark.parametrize(
    ("text", "celsius"),
    [
        ("21 C", Fraction(21)), ("21°C", Fraction(21)), ("21.5 degrees celsius", Fraction("21.5")), ("70 F", Fraction(190, 9)),
        ("32 °F", Fraction(0)), ("-4 F", Fraction(-20)), ("−5 c", Fraction(-5)), ("60 C", Fraction(60)),
    ],
)  # fmt: skip
def test_temperatures(text, celsius):
    assert read_temperature(text) == celsius


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("21", 'without a scale; write "21 C" or'),
        ("21°", 'write "21 C"'),
        ("21 K", "cannot be read"),
        ("warm", "cannot be read"),
        ("61 C", "is not a temperature furniture is kept at"),
        ("-21 C", "is not a temperature furniture is kept at"),
        ("20 mm", "cannot be read"),
    ],
)
def test_temperatures_that_are_none(text, said):
    with pytest.raises(BadInput, match=said):
        read_temperature(text)


@pytest.mark.parametrize("text", ["45 %", "45%", "45 per cent", "45 percent", "45.0 %"])
def test_per_cent(text):
    assert read_percent(text) == 45


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("45", "could be a share"),
        ("0.45", "could be a share"),
        ("101 %", "0 to 100"),
        ("-1 %", "0 to 100"),
        ("45 C", "cannot be"),
    ],
)
def test_per_cent_that_is_none(text, said):
    with pytest.raises(BadInput, match=said):
        read_percent(text)


@pytest.mark.parametrize(
    ("text", "gigapascals"),
    [
        ("8.5 GPa", 8.5),
        ("8500 N/mm²", 8.5),
        ("8500 MPa", 8.5),
        ("1200000 psi", 8.274),
        ("1200000 lb/in2", 8.274),
        ("7 kN/mm2", 7.0),
    ],
)
def test_stiffness(text, gigapascals):
    assert float(read_stiffness(text)) == pytest.approx(gigapascals, abs=0.001)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("8.5", "cannot be read as a stiffness"),
        ("8500 GPa", "between 0.5 and 30 GPa"),
        ("8 psi", "Check the unit"),
        ("stiff", "write"),
    ],
)
def test_stiffness_that_is_none(text, said):
    with pytest.raises(BadInput, match=said):
        read_stiffness(text)


@given(st.text(max_size=60))
def test_whatever_is_written_is_read_or_refused_with_advice(text):
    assert all(_advice(read, text) for read in (read_load, read_temperature, read_percent, read_stiffness))


def _advice(read, text):
    """Whether ``text`` is read, or refused with what to write or look at."""
    try:
        read(text)
    except BadInput as bad:
        return any(said in str(bad) for said in ("write", "Check the unit", "at least 0"))
    return True


@pytest.mark.parametrize(
    ("text", "seconds"),
    [
        ("8 min", 480),
        ("8min", 480),
        ("90 s", 90),
        ("1 h", 3600),
        ("1 1/2 hours", 5400),
        ("1.5 h", 5400),
        ("20 minutes", 1200),
        ("24 hrs", 86_400),
    ],
)
def test_times(text, seconds):
    assert read_time(text) == seconds


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("8", "a time without a unit"),
        ("8 inches", "cannot be read as a time"),
        ("soon", "cannot be read"),
        ("0 min", "out of range"),
        ("-1 h", "out of range"),
        ("8 days", "cannot be read"),
        ("200 h", "out of range"),
    ],
)
def test_what_is_no_time(text, said):
    with pytest.raises(BadInput, match=said):
        read_time(text)
