"""The least number of sheets by weights: worked by hand, and never more than a layout that was found takes."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from joinlay.cutlist.fewest import least_sheets
from joinlay.cutlist.guillotine import Bin, Item
from joinlay.cutlist.search import search


def items(*sizes, turnable=False):
    return [Item(n, long, wide, turnable) for n, (long, wide) in enumerate(sizes)]


@pytest.mark.parametrize(
    ("sizes", "least"),
    [
        # Wider than half the sheet, they lie one behind the other: 7 and 7 and 5 and 5 take 24 of 20. Three fifths of it by area.
        ([(7, 6), (7, 6), (5, 6), (5, 6)], 2),
        ([(7, 5), (7, 5), (5, 5), (5, 5)], 1),
        ([(7, 6), (7, 6), (5, 6)], 1),
        # Each more than a quarter both ways, so no more than three by three go on it, and one that is longer than half takes two
        # places.
        ([(6, 3)] * 9, 1),
        ([(6, 3)] * 8 + [(11, 3)], 2),
        ([(6, 3)] * 7 + [(11, 3)], 1),
        # As large as all but a strip in which nothing of what is there can lie.
        ([(17, 8), (4, 3), (4, 3)], 2),
        ([(17, 8), (4, 2), (3, 2)], 1),
    ],
)
def test_what_fits_by_area_and_in_pairs_may_need_a_sheet_more(sizes, least):
    sheet = Bin(20, 10)
    assert least_sheets(items(*sizes), [], sheet) == least
    assert search(items(*sizes), [], sheet, first_rip=None).opened == least


def test_a_piece_that_may_be_turned_counts_as_it_takes_less():
    sizes = [(7, 6), (7, 6), (5, 6), (5, 6)]
    assert least_sheets(items(*sizes, turnable=True), [], Bin(20, 10)) == 1
    assert least_sheets(items(*sizes), [], Bin(20, 10)) == 2
    # Too wide to be turned, it counts as it stands.
    assert least_sheets(items((11, 6), (11, 6), turnable=True), [], Bin(20, 10)) == 2


@given(
    st.lists(st.tuples(st.integers(1, 24), st.integers(1, 17), st.booleans()), min_size=1, max_size=14),
)
@settings(max_examples=60, deadline=None)
def test_never_more_than_a_layout_takes(sizes):
    pieces = [Item(n, *size) for n, size in enumerate(sizes)]
    found = search(pieces, [], Bin(24, 17), first_rip=None)
    assert not found.left_out
    assert least_sheets(pieces, [], Bin(24, 17)) <= found.opened
