"""Many rectangles on few sheets: none on another, none off the sheet, and no more sheets than are needed."""

from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from joinlay.pages.close_packing import packed

WHOLE = ((Fraction(0), Fraction(0), Fraction(200), Fraction(280)),)
GAP = Fraction(4)
SIZES = st.lists(st.tuples(st.integers(5, 190), st.integers(5, 190)), min_size=1, max_size=14)


def boxes(sizes, found):
    for (wide, high), one in zip(sizes, found, strict=True):
        across, up = (high, wide) if one.is_turned else (wide, high)
        yield one.sheet, (one.x, one.y, one.x + across, one.y + up)


@settings(max_examples=40)
@given(sizes=SIZES)
def test_nothing_lies_nearer_to_another_than_the_gap_or_off_its_sheet(sizes):
    exact = [(Fraction(wide) + Fraction(1, 3), Fraction(high)) for wide, high in sizes]
    lain = list(boxes(exact, packed(exact, [], WHOLE, GAP)))
    for _, (x0, y0, x1, y1) in lain:
        assert (x0 >= 0, y0 >= 0, x1 <= 200, y1 <= 280) == (True,) * 4
    for (m, a), (n, b) in combinations(lain, 2):
        assert m != n or a[2] + GAP <= b[0] or b[2] + GAP <= a[0] or a[3] + GAP <= b[1] or b[3] + GAP <= a[1]
    assert {n for n, _ in lain} == set(range(len({n for n, _ in lain})))


def test_what_is_left_on_a_sheet_is_used_before_another_is_opened():
    left = ((Fraction(0), Fraction(0), Fraction(60), Fraction(60)),)
    sizes = [(Fraction(50), Fraction(50)), (Fraction(55), Fraction(20))]
    assert [one.sheet for one in packed(sizes, [left], WHOLE, GAP)] == [0, 1]
    assert [one.sheet for one in packed(sizes[:1], [left], WHOLE, GAP)] == [0]


def test_turning_saves_a_sheet_and_is_not_done_where_it_saves_none():
    lies, stands = (Fraction(200), Fraction(100)), (Fraction(172), Fraction(200))
    one, two = packed([lies, stands], [], WHOLE, GAP)
    assert (one.sheet, two.sheet) == (0, 0)
    assert two.is_turned
    assert not any(each.is_turned for each in packed([(Fraction(90), Fraction(120))] * 4, [], WHOLE, GAP))


def test_several_orders_find_what_the_largest_first_misses():
    # Two rows of two fill the sheet but for the gaps, with nothing to spare.
    sizes = [(Fraction(wide), Fraction(high)) for wide, high in ((120, 138), (76, 138), (96, 138), (100, 138))]
    assert {one.sheet for one in packed(sizes, [], WHOLE, GAP)} == {0}


def test_what_fits_no_sheet_is_refused():
    with pytest.raises(ValueError, match="fits on no sheet"):
        packed([(Fraction(300), Fraction(10))], [], WHOLE, GAP)
