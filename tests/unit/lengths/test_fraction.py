"""Fractions in C and Python's own are alike: what they take and say, how they mix, and every byte that is made with them."""

import fractions
import importlib
import operator
import pickle
import subprocess
import sys
from math import ceil, floor, trunc
from pathlib import Path

import pytest
from hypothesis import given

from joinlay.lengths import Fraction, Length, dimension, exact_fraction, fraction_in, mm
from joinlay.lengths.fraction import EVERY_FRACTION
from tests import drawn

ROOT = Path(__file__).resolve().parents[3]

#: Leaves quicktions out, as on a machine where it cannot be had.
WITHOUT = "import sys; sys.modules['quicktions'] = None\n"

numbers = drawn.fractions(-5000, 5000, max_denominator=10_000, of=fractions.Fraction)


def both(number):
    """A number as the fraction we reckon with and as Python's own."""
    return Fraction(number.numerator, number.denominator), number


def test_quicktions_is_used_where_it_is():
    quicktions = importlib.import_module("quicktions")
    assert Fraction is quicktions.Fraction
    assert (quicktions.Fraction, fractions.Fraction) == EVERY_FRACTION


def alone(code, *given, folder=ROOT):
    """What a Python of its own prints that runs ``code``."""
    done = subprocess.run([sys.executable, "-c", code, *map(str, given)], cwd=folder, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    return done.stdout.strip()


def test_python_s_own_serve_where_it_is_not():
    assert alone(f"{WITHOUT}from joinlay.lengths import Fraction; print(Fraction.__module__)") == "fractions"


def test_a_packet_is_the_same_to_the_byte_with_either(tmp_path):
    made = []
    for name, before in (("with", ""), ("without", WITHOUT)):
        out = tmp_path / name
        alone(f"{before}from joinlay.cli import main; main()", "make", "tests/openings/seed-drawers.toml", "--out", out)
        made.append({path.name: path.read_bytes() for path in out.iterdir()})
    assert {"packet.pdf", "plan.json"} <= made[0].keys()
    assert made[0] == made[1]


@given(numbers, numbers)
def test_they_reckon_alike_and_mix(one, other):
    ours, own = both(one)
    for reckon in (operator.add, operator.sub, operator.mul, operator.truediv, operator.floordiv, operator.mod, divmod):
        if not other and reckon not in (operator.add, operator.sub, operator.mul):
            continue
        found = [reckon(a, b) for a in (ours, own) for b in both(other)]
        assert len(set(found)) == 1
        assert found[0] == reckon(one, other)
    for compare in (operator.eq, operator.lt, operator.le, operator.gt, operator.ge):
        assert {compare(a, b) for a in (ours, own) for b in both(other)} == {compare(one, other)}


@given(numbers)
def test_they_say_and_round_alike(number):
    ours, own = both(number)
    assert ours == own
    assert {ours: "found"}[own] == "found"
    for asked in (str, repr, float, int, floor, ceil, trunc, round, abs, bool, hash, operator.neg, Fraction, lambda n: n**3):
        assert asked(ours) == asked(own)
    assert [round(ours, places) for places in range(-2, 5)] == [round(own, places) for places in range(-2, 5)]
    assert pickle.loads(pickle.dumps(ours)) == own


@given(numbers)
def test_lengths_take_either_and_keep_ours(number):
    ours, own = both(number)
    for length in (mm(own), Length(own), mm(1) * own, own * mm(1), own * dimension(mm(1)), mm(exact_fraction(own))):
        assert type(length.mm) is Fraction
        assert length == mm(ours)
        assert hash(length) == hash(mm(ours))


@pytest.mark.parametrize("text", ["", "a", "1/0", "1//2", "0.5.1", "1 / 2 3"])
def test_they_refuse_alike(text):
    said = []
    for kind in (Fraction, fractions.Fraction):
        with pytest.raises((ValueError, ZeroDivisionError)) as refused:
            kind(text)
        said.append((type(refused.value), str(refused.value)))
    assert said[0] == said[1]


@given(numbers)
def test_text_is_read_alike(number):
    for text in (str(number), f"{float(number):.4f}", str(number.numerator % 10)):
        assert fraction_in(text) == fractions.Fraction(text)


@pytest.mark.parametrize("text", ["", "a", "-", "1/0", "1//2"])
def test_text_that_spells_none_is_refused(text):
    with pytest.raises((ValueError, ZeroDivisionError)):
        fraction_in(text)


def test_no_byte_of_zero_becomes_a_figure():
    """A text of one letter, given to quicktions as it stands, is written over Python's own constant."""
    run = "from joinlay.lengths import fraction_in, mm; fraction_in('4'); mm('7'); print(bytes(range(2))[:1][0])"
    assert alone(run) == "0"
