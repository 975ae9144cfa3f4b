"""How few whole sheets can do, whatever the cuts: what a layout can be proved best by.

The problem: a layout that takes two sheets may have missed one that takes one, and to look at every layout is out of the
question. The method: three bounds below which none can go, of which the greatest counts. By area; by pieces no two of which can
share a sheet; and by weights.

Weights: a function of a piece's share of a side, 0 to 1, that never adds up to more than 1 where the shares don't, makes another
list of pieces that fits wherever the first does, and whose area may say more: what is longer than half a side counts as all of
it, since nothing as long stands beside it. One such function for the length and one for the width go together in any pair.
Source: Fekete and Schepers 2004, Lueker 1983, from memory.

What it costs: pairs of functions times different pieces, a hundredth of a second for a hundred. What it can't do: not every list
that needs a sheet more is found out, and with pieces on hand only the first two bounds are asked.
"""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

    from joinlay.cutlist.guillotine import Bin, Item

__all__ = ["least_sheets"]

#: Weighs a size: in parts of the whole, which is the second.
_Weight = tuple["Callable[[int], int]", int]

#: Into how many equal parts a side is rounded down to, and at how many sizes what is smaller is left out, at most.
_PARTS: Final = range(1, 6)
_MOST: Final = 16


def least_sheets(items: Sequence[Item], bins: Sequence[Bin], sheet: Bin) -> int:
    """The number of whole sheets below which no layout of ``items`` can go, whatever its cuts: the largest of three bounds.

    By area: what is left of the pieces once ``bins`` are full must fit into the sheets. By size: pieces no two of which can
    share a sheet need one each, less one for each bin that takes any of them. By weights, where no bin takes any: see above.
    Sizes are whole numbers, the kerf in them.
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
    by_weights = 0 if useful else _by_weights(items, sheet)
    return max(by_area, len(apart) - len(useful), by_weights, 0)


def _can_share(one: Item, other: Item, sheet: Bin) -> bool:
    return any(a + c <= sheet.length or b + d <= sheet.width for a, b in _stood(one) for c, d in _stood(other))


def _goes_in(item: Item, each: Bin) -> bool:
    fits = any(long <= each.length and wide <= each.width for long, wide in _stood(item))
    return fits and (item.turnable or not each.only_turnable)


def _stood(item: Item) -> tuple[tuple[int, int], ...]:
    sizes = (item.length, item.width)
    return (sizes, sizes[::-1]) if item.turnable else (sizes,)


# -- by weights ------------------------------------------------------------------------------------------


def _by_weights(items: Iterable[Item], sheet: Bin) -> int:
    """The greatest of the bounds that pairs of weights give. A piece larger than the sheet, which lies on none, counts for
    nothing.
    """
    alike = Counter(
        tuple((long, wide) for long, wide in _stood(item) if long <= sheet.length and wide <= sheet.width) for item in items
    )
    stood = [(sizes, count) for sizes, count in alike.items() if sizes]
    lengths = {long for sizes, _ in stood for long, _ in sizes}
    widths = {wide for sizes, _ in stood for _, wide in sizes}
    found = 0
    for by_length, longest in _weights(lengths, sheet.length):
        for by_width, widest in _weights(widths, sheet.width):
            weight = sum(count * min(by_length(long) * by_width(wide) for long, wide in sizes) for sizes, count in stood)
            found = max(found, -(-weight // (longest * widest)))
    return found


def _weights(sizes: Iterable[int], side: int) -> Iterator[_Weight]:
    """Functions of a size along ``side`` whose values never add up to more than the whole where the sizes fit the side."""
    for parts in _PARTS:
        yield _rounded(parts, side), parts * side
    small = sorted(size for size in sizes if 2 * size <= side)
    for least in small[:: 1 + len(small) // _MOST]:
        yield _without_small(least, side), side


def _rounded(parts: int, side: int) -> Callable[[int], int]:
    """A size of n + 1 parts and a little more of ``parts`` + 1 counts as n + 1 of ``parts``; one of just so many as itself.

    With one part: what is longer than half is all, what is shorter nothing.
    """

    def weight(size: int) -> int:
        whole, over = divmod((parts + 1) * size, side)
        return whole * side if over else parts * size

    return weight


def _without_small(least: int, side: int) -> Callable[[int], int]:
    """What is smaller than ``least``, half the side at most, is left out, and what leaves less than that beside it is all of
    the side.
    """

    def weight(size: int) -> int:
        return side if size > side - least else size if size >= least else 0

    return weight
