"""Looking for a good sheet layout: every order and rule once, then small changes to the best, until it can't be bettered or time is up.

"Time" is a count of pieces laid, never a clock, so the same parts always give the same layout.
"""

from __future__ import annotations

from itertools import product
from random import Random
from typing import TYPE_CHECKING, Final

from joinlay.cutlist.guillotine import FITS, SPLITS, Bin, Item, Packing, Way, pack

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

__all__ = ["least_sheets", "search"]

#: Orders in which to lay pieces: the awkward ones first, by one notion of awkward or another.
_ORDERS: Final[tuple[Callable[[Item], tuple[int, ...]], ...]] = (
    lambda item: (-item.length * item.width, -item.length),
    lambda item: (-item.width, -item.length),
    lambda item: (-item.length, -item.width),
    lambda item: (-max(item.length, item.width), -min(item.length, item.width)),
    lambda item: (-item.length - item.width, -item.length),
)

#: How many pieces may be laid in all first tries together, and in all small changes: each about a quarter of a second's work.
_FIRST_EFFORT: Final = 27_000
_EFFORT: Final = 18_000

#: The most small changes tried: past this a short list gains nothing.
_MOST_CHANGES: Final = 400

#: How often a small change tries another fit and split as well.
_OTHER_WAY: Final = 0.2


def search(items: Sequence[Item], bins: Sequence[Bin], sheet: Bin | None, *, first_rip: bool | None) -> Packing:
    """The best packing found of ``items`` into ``bins`` on hand, all of them before any whole ``sheet``.

    Best is: no piece left out, then fewest whole sheets, then the rest in the fewest, largest panels (CL-2). ``first_rip`` True: whole sheets
    are ripped first; False: crosscut first; None: either.
    """
    firsts = (None, True, False) if first_rip is None else (first_rip,)
    ways = [Way(fit, split, first) for fit, split, first in product(FITS, SPLITS, firsts)]
    tries = [(sorted(items, key=order), way) for way, order in product(ways, _ORDERS)]
    tries = tries[:: 1 + len(tries) * len(items) // _FIRST_EFFORT]
    best, order, way = min(
        ((pack(order, bins, sheet, way), order, way) for order, way in tries), key=lambda tried: tried[0].merit
    )
    chance = Random(len(items))
    for _ in range(min(_EFFORT // len(items), _MOST_CHANGES) if len(items) > 1 else 0):
        changed = _changed(order, chance)
        other = ways[int(chance.random() * len(ways))] if chance.random() < _OTHER_WAY else way
        packing = pack(changed, bins, sheet, other)
        if packing.merit <= best.merit:
            best, order, way = packing, changed, other
    return best


def _changed(order: Sequence[Item], chance: Random) -> list[Item]:
    """The order with one piece moved elsewhere."""
    changed = list(order)
    moved = changed.pop(int(chance.random() * len(changed)))
    changed.insert(int(chance.random() * (len(changed) + 1)), moved)
    return changed


def least_sheets(items: Sequence[Item], bins: Sequence[Bin], sheet: Bin) -> int:
    """The number of whole sheets below which no layout can go, whatever its cuts: the larger of two bounds.

    By area: what is left of the pieces once ``bins`` are full must fit into the sheets. By size: pieces no two of which can
    share a sheet need one each, less one for each bin that takes any of them.
    """
    if not items or sheet.length <= 0 or sheet.width <= 0:
        return 0
    useful = [each for each in bins if any(_goes_in(item, each) for item in items)]
    spare = sum(each.length * each.width for each in useful)
    area = sum(item.length * item.width for item in items) - spare
    by_area = -(-area // (sheet.length * sheet.width))
    apart: list[Item] = []
    for item in sorted(items, key=lambda item: -item.length * item.width):
        if not any(_can_share(item, other, sheet) for other in apart):
            apart.append(item)
    return max(by_area, len(apart) - len(useful), 0)


def _can_share(one: Item, other: Item, sheet: Bin) -> bool:
    return any(a + c <= sheet.length or b + d <= sheet.width for a, b in _stood(one) for c, d in _stood(other))


def _goes_in(item: Item, each: Bin) -> bool:
    fits = any(long <= each.length and wide <= each.width for long, wide in _stood(item))
    return fits and (item.turnable or not each.only_turnable)


def _stood(item: Item) -> tuple[tuple[int, int], ...]:
    sizes = (item.length, item.width)
    return (sizes, sizes[::-1]) if item.turnable else (sizes,)
