"""Strip packing instances C1 of Hopper and Turton 2001, from memory: pieces that fill a square of 20 exactly, a quarter turn
allowed.

They were cut from one square, not always by cuts right across, so a saw may need a second sheet.
"""

import pytest

from joinlay.cutlist.fewest import least_sheets
from joinlay.cutlist.guillotine import Bin, Item
from joinlay.cutlist.search import search
from tests.benchmarks.shop_lists import fewest_by_packer

SQUARE = Bin(20, 20)
C1 = {
    "P1": "2x12 7x12 8x6 3x6 3x5 5x5 3x12 3x7 5x7 2x6 3x2 4x2 3x4 4x4 9x2 11x2",
    "P2": "4x1 4x5 9x4 3x5 3x9 1x4 5x3 4x1 5x5 7x2 9x3 3x13 2x8 15x4 5x4 10x6 7x2",
    "P3": "4x14 5x2 2x2 9x7 5x5 2x5 7x7 3x5 6x5 3x2 6x2 4x6 6x3 10x3 6x3 10x3",
}


def items_of(name):
    sizes = [tuple(map(int, size.split("x"))) for size in C1[name].split()]
    return [Item(n, long, wide, turnable=True) for n, (long, wide) in enumerate(sizes)]


@pytest.mark.parametrize("name", C1)
def test_the_pieces_fill_the_square(name):
    assert sum(item.length * item.width for item in items_of(name)) == 400
    assert least_sheets(items_of(name), [], SQUARE) == 1


@pytest.mark.parametrize(("name", "sheets", "over"), [("P1", 1, 0), ("P2", 2, 40), ("P3", 1, 0)])
def test_how_many_sheets_they_take(name, sheets, over):
    found = search(items_of(name), [], SQUARE, first_rip=None)
    assert not found.left_out
    assert found.opened == sheets <= fewest_by_packer(items_of(name), SQUARE, rotation=True)
    # On a second sheet lies no more than a tenth of it.
    assert sum(step.item.length * step.item.width for step in found.steps if step.space.bin) <= over
