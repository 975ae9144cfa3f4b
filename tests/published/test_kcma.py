"""ANSI/KCMA A161.1-2012: load on a drawer bottom (check value D8, seen second hand)."""

import pytest

from joinlay.checks.conditions import GRAVITY, USUAL_LOAD, usual_conditions


def test_15_pounds_a_square_foot():
    """15 lb/ft2 is 718 Pa."""
    pounds = 15 * 0.45359237 * GRAVITY / 0.3048**2
    assert float(USUAL_LOAD.amount) == pytest.approx(pounds, abs=0.5)
    assert usual_conditions().load == USUAL_LOAD
