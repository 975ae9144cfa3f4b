"""Beer and Johnston, statics: the bracket that slides on a pipe or doesn't (check value C4)."""

from fractions import Fraction

import pytest

from joinlay.checks.racking import jamming_length, pull_over_friction
from joinlay.lengths import inches, mm


def test_the_bracket_slips_only_inside_12_inches():
    """Contacts 6 in apart, mu .25: L / (2 mu) = 12 in."""
    assert jamming_length(inches(12), Fraction(1, 4)) == inches(6)
    assert pull_over_friction(inches(12), inches(6), Fraction(1, 4)) is None
    assert pull_over_friction(inches("11 63/64"), inches(6), Fraction(1, 4)) is not None


def test_a_drawer_pulled_200_mm_off_jams_at_200_mm():
    """mu .5, offset 200 mm (worked out)."""
    assert jamming_length(mm(200), Fraction(1, 2)) == mm(200)


@pytest.mark.parametrize(("inside", "pull"), [(400, 2), (300, 3), (250, 5)])
def test_pull_over_the_friction_of_its_weight(inside, pull):
    """mu .5, offset 200 mm (worked out)."""
    assert pull_over_friction(mm(200), mm(inside), Fraction(1, 2)) == pull
