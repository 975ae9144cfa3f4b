"""Sheet layouts beside a general rectangle packer: never a sheet more, in under a second for sixty parts."""

from time import process_time

import pytest

from joinlay.cutlist.search import least_sheets, search
from tests.benchmarks.shop_lists import LISTS, SHEET, fewest_by_packer, parts_list


@pytest.mark.benchmark(timer=process_time)
@pytest.mark.parametrize("seed", range(LISTS))
@pytest.mark.parametrize("first_rip", [True, False, None], ids=["rip first", "crosscut first", "either"])
def test_sixty_parts(benchmark, seed, first_rip):
    items = parts_list(seed)
    found = benchmark.pedantic(search, (items, [], SHEET), {"first_rip": first_rip}, rounds=2)
    by_packer = fewest_by_packer(items)
    benchmark.extra_info.update(sheets=found.opened, bound=least_sheets(items, [], SHEET), packer=by_packer)
    assert not found.left_out
    assert found.opened <= by_packer
    # By the processor's own clock: other work on the machine is no fault of the layout.
    assert benchmark.stats["max"] < 1
