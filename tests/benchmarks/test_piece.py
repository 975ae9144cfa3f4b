"""Forty drawers plan in under a second, and in line with their number."""

from __future__ import annotations

import pytest

from joinlay.casework.bay import DrawerWish
from joinlay.casework.graduation import Equal
from joinlay.casework.piece import Bank
from tests.assembly.pieces import drawer_make, shop, size, spec, whole


@pytest.mark.parametrize("banks", [1, 2, 4])
def test_a_piece_of_ten_drawers_a_bank(benchmark, banks):
    own = shop()
    bank = Bank(Equal(10), (DrawerWish(drawer_make(), own),) * 10)
    wanted = spec(own, banks=(bank,) * banks, width=size(24 * banks), height=size(70))
    made = benchmark(whole, wanted, own)
    assert len(made.drawers) == 10 * banks
    assert benchmark.stats is None or benchmark.stats.stats.mean < 1
