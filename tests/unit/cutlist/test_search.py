"""Saving a sheet by laying a few of them anew, and sheets used beside a general rectangle packer, which may lay pieces as no
saw could.
"""

from itertools import product
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from joinlay.cutlist.blocks import joined
from joinlay.cutlist.fewest import least_sheets
from joinlay.cutlist.guillotine import FITS, SPLITS, Bin, Item, Manner, pack
from joinlay.cutlist.search import regrouped, search
from tests.benchmarks.shop_lists import SHEET, fewest_by_packer, instance, parts_list

SQUARE = Bin(100, 100)
ORDERS = (lambda item: (-item.length * item.width, -item.length), lambda item: (-item.width, -item.length))


def ways(first=None):
    return [Manner(fit, split, first) for fit, split in product(FITS, SPLITS)]


def again(packing, on_hand=0, least=1, effort=20_000, first=None):
    return regrouped(packing, on_hand, SQUARE, ways(first), ORDERS, Random(1), least, effort)


def poorly(items, bins=(), first=None):
    """Laid as they come."""
    return pack(items, list(bins), SQUARE, ways(first)[0])


#: Pairs that share a sheet only with each other: 60 and 40, 70 and 30, 80 and 20, laid so that they do not meet.
PAIRS = [Item(n, 100, wide, turnable=False) for n, wide in enumerate((20, 30, 40, 60, 70, 80))]


def test_a_poor_packing_gets_the_fewest_sheets():
    first = poorly(PAIRS)
    assert first.opened == 4
    found = again(first)
    assert found.opened == 3
    assert sorted(step.item.number for step in found.steps) == [0, 1, 2, 3, 4, 5]


def test_it_stops_at_the_least():
    assert again(poorly(PAIRS), least=4).opened == 4
    assert again(poorly(PAIRS), effort=0) == poorly(PAIRS)


def test_what_is_on_hand_stays_as_it_is():
    first = poorly(PAIRS, [Bin(100, 20), Bin(7, 7)])
    found = again(first, on_hand=2)
    assert [step for step in found.steps if step.space.bin < 2] == [step for step in first.steps if step.space.bin < 2]
    assert [space for space in found.left if space.bin < 2] == [space for space in first.left if space.bin < 2]
    assert {step.space.bin for step in found.steps if step.space.bin >= 2} == set(range(2, 2 + found.opened))


def test_what_fits_nowhere_stays_left_out():
    large = Item(9, 200, 200, turnable=False)
    assert again(poorly([*PAIRS, large])).left_out == (large,)


@pytest.mark.parametrize("first", [True, False])
def test_the_first_cut_is_kept(first):
    found = again(poorly(PAIRS, first=first), first=first)
    assert all(step.rip_first is first for step in found.steps if step.space[1:5] == (0, 0, 100, 100))


@given(st.lists(st.tuples(st.integers(5, 100), st.integers(5, 100), st.booleans()), min_size=1, max_size=25))
@settings(max_examples=30, deadline=None)
def test_nothing_is_lost_and_nothing_overlaps(sizes):
    items = [Item(n, *size) for n, size in enumerate(sizes)]
    first = poorly(items)
    found = again(first, effort=2_000)
    assert found.opened <= first.opened
    assert sorted(step.item.number for step in found.steps) == list(range(len(items)))
    assert {step.space.bin for step in found.steps} == set(range(found.opened))
    boxes = [box(step) for step in found.steps]
    for n, (sheet, x0, y0, x1, y1) in enumerate(boxes):
        assert 0 <= x0 < x1 <= 100
        assert 0 <= y0 < y1 <= 100
        for other, a, b, c, d in boxes[n + 1 :]:
            assert sheet != other or x1 <= a or c <= x0 or y1 <= b or d <= y0


def box(step):
    long, wide = (step.item.width, step.item.length) if step.turned else (step.item.length, step.item.width)
    return step.space.bin, step.space.along, step.space.across, step.space.along + long, step.space.across + wide


@pytest.mark.parametrize("seed", [2, 10, 13, 19])
def test_never_a_sheet_more(seed):
    items = parts_list(seed)
    found = search(items, [], SHEET, first_rip=None)
    assert not found.left_out
    assert least_sheets(items, [], SHEET) <= found.opened <= fewest_by_packer(items)


@pytest.mark.parametrize(("number", "seed"), [(5, 1)])
def test_never_a_sheet_more_by_published_recipes(number, seed):
    # Berkey and Wang 1987, Martello and Vigo 1998, from memory.
    sheet, items = instance(number, seed)
    found = search(items, [], sheet, first_rip=None)
    assert not found.left_out
    assert least_sheets(items, [], sheet) <= found.opened <= fewest_by_packer(items, sheet)


@given(
    st.lists(st.tuples(st.integers(5, 100), st.integers(5, 100), st.booleans()), min_size=2, max_size=12), st.integers(0, 10**6)
)
@settings(max_examples=60, deadline=None)
def test_blocks_part_into_the_pieces_they_were_joined_of(sizes, seed):
    items = [Item(n, *size) for n, size in enumerate(sizes)]
    pool, blocks = joined(items, SQUARE, Random(seed))
    assert sorted(item.number for item in blocks.pieces(pool)) == list(range(len(items)))
    assert all(item.length <= 100 and item.width <= 100 for item in pool)
    found = blocks.parted(pack(pool, [], SQUARE, ways()[seed % 30]), first_rip=None)
    assert found is not None
    assert sorted(step.item.number for step in found.steps) == list(range(len(items)))
    taken = sum(item.length * item.width for item in items) + sum(space.length * space.width for space in found.left)
    assert taken == found.opened * 100 * 100
    boxes = [box(step) for step in found.steps]
    for n, (sheet, x0, y0, x1, y1) in enumerate(boxes):
        assert 0 <= x0 < x1 <= 100
        assert 0 <= y0 < y1 <= 100
        for other, a, b, c, d in boxes[n + 1 :]:
            assert sheet != other or x1 <= a or c <= x0 or y1 <= b or d <= y0
