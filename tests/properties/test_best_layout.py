"""For lists short enough to try everything, the layout found is the best there is."""

from functools import cache
from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from joinlay.cutlist.fewest import least_sheets
from joinlay.cutlist.guillotine import Bin, Item
from joinlay.cutlist.search import search


def fewest_sheets(sizes: tuple[tuple[int, int], ...], length: int, width: int) -> int:
    """By trying every way to part the pieces, and every cut at a sum of their sizes."""

    @cache
    def fits(some: frozenset[int], long: int, wide: int) -> bool:
        if len(some) < 2:
            return all(sizes[n][0] <= long and sizes[n][1] <= wide for n in some)
        if sum(sizes[n][0] * sizes[n][1] for n in some) > long * wide:
            return False
        return any(
            fits(one, at, wide) and fits(some - one, long - at, wide) for one in parts(some) for at in sums(one, 0) if at < long
        ) or any(
            fits(one, long, at) and fits(some - one, long, wide - at) for one in parts(some) for at in sums(one, 1) if at < wide
        )

    def parts(some):
        return [frozenset(one) for count in range(1, len(some)) for one in combinations(sorted(some), count)]

    def sums(some, axis):
        found = {0}
        for n in some:
            found |= {so_far + sizes[n][axis] for so_far in found}
        return sorted(found - {0})

    @cache
    def fewest(some: frozenset[int]) -> int:
        if not some:
            return 0
        first = min(some)
        rest = some - {first}
        with_first = [frozenset({first, *one}) for count in range(len(rest) + 1) for one in combinations(sorted(rest), count)]
        return min(1 + fewest(some - one) for one in with_first if fits(one, length, width))

    return fewest(frozenset(range(len(sizes))))


@given(st.lists(st.tuples(st.integers(1, 12), st.integers(1, 8)), min_size=1, max_size=6))
@settings(max_examples=40, deadline=None)
def test_as_few_sheets_as_can_be(sizes):
    items = [Item(n, long, wide, turnable=False) for n, (long, wide) in enumerate(sizes)]
    best = fewest_sheets(tuple(sizes), 12, 8)
    assert search(items, [], Bin(12, 8), first_rip=None).opened == best
    assert least_sheets(items, [], Bin(12, 8)) <= best
