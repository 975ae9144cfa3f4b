"""Labels are spread as little as can be: held against a search by brute force."""

from fractions import Fraction
from itertools import combinations, pairwise

import pytest

from joinlay.pen.placing import spread, spread_down
from tests.unit.templates.reading import exact


def test_labels_with_room_stay_where_they_are():
    assert spread(exact(5, 20, 40), exact(6, 6, 6), Fraction(0)) == exact(5, 20, 40)


def test_two_labels_of_one_place_stand_on_both_sides_of_it():
    assert spread(exact(20, 20), exact(6, 4), Fraction(0)) == exact("17.5", "22.5")


def test_none_goes_below_the_end():
    assert spread(exact(0, 1), exact(6, 6), Fraction(0)) == exact(3, 9)
    assert spread((), (), Fraction(0)) == ()


def is_clear(way, sizes):
    """True where no label lies on the next."""
    return all(2 * (two - one) >= a + b for (one, two), (a, b) in zip(pairwise(way), pairwise(sizes), strict=True))


def moved(way, wanted):
    """The sum of the squares of what labels are moved by."""
    return sum((place - middle) ** 2 for place, middle in zip(way, wanted, strict=True))


@pytest.mark.parametrize("wanted", [(0, 1, 2), (0, 0, 7), (0, 6, 6), (1, 2, 9), (3, 3, 3)])
def test_no_other_way_on_a_grid_moves_labels_less(wanted):
    sizes = (2, 4, 2)
    best = min(moved(way, wanted) for way in combinations(range(-8, 24), 3) if is_clear(way, sizes))
    found = spread(exact(*wanted), exact(*sizes), Fraction(-100))
    assert moved(found, wanted) <= best
    assert is_clear(found, sizes)


def test_things_spread_keep_apart_and_in_bounds():
    wanted = [
        (Fraction(50), Fraction(10)),
        (Fraction(50), Fraction(10)),
        (Fraction(49), Fraction(10)),
        (Fraction(2), Fraction(10)),
    ]
    middles = spread_down(wanted, Fraction(0), Fraction(60))
    assert middles is not None
    assert all(above - below >= 10 for above, below in pairwise(middles))
    assert middles[-1] == 5
    assert middles[0] <= 55
    assert spread_down(wanted, Fraction(0), Fraction(39)) is None
