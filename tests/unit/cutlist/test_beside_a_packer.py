"""Sheets used, beside a general rectangle packer that may lay pieces as no saw could cut them."""

import pytest

from joinlay.cutlist.search import least_sheets, search
from tests.benchmarks.shop_lists import SHEET, fewest_by_packer, instance, parts_list


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
