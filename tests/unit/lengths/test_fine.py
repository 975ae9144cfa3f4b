"""Lengths that are told and not set."""

import copy
import pickle

import pytest
from hypothesis import given
from hypothesis import strategies as st

from joinlay.lengths import GRADUATIONS, Fine, Length, Unit, inches, mm


@pytest.mark.parametrize(
    ("length", "rule", "said"),
    [
        (inches("0.0311"), "1/32 in", "1/32 in"), (inches("0.0469"), "1/32 in", "3/64 in"), (inches("0.001"), "1/32 in", "under 1/64 in"),
        (mm("1.6"), "0.5 mm", "1.6 mm"), (mm("0.04"), "0.5 mm", "under 0.1 mm"), (mm("0.05"), "1 mm", "0.1 mm"), (mm(0), "0.5 mm", "0 mm"),
        (mm("-1.23"), "0.5 mm", "-1.2 mm"), (inches(0), "1/16 in", "0 in"), (inches("1 1/2"), "1/16 in", "1 1/2 in"),
    ],
)  # fmt: skip
def test_it_is_told_to_the_nearest_mark_with_nothing_left_over(length, rule, said):
    assert GRADUATIONS[rule].text(Fine(length)) == said


@given(st.fractions(-1000, 1000), st.sampled_from(list(Unit)))
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
