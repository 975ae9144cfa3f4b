"""Saving a sheet by sawing a few of them up again: the emptiest sheet and some others are laid anew, until the emptiest is gone.

Small groups are quick to lay and there are many of them, so this finds in a moment what laying everything again seldom does.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from joinlay.cutlist.guillotine import Packing, pack

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from random import Random

    from joinlay.cutlist.guillotine import Bin, Item, Space, Step, Way

__all__ = ["regrouped"]

#: How many sheets are laid anew beside the one to be emptied, and how many of their pieces change place in the order, at most.
_BESIDE, _MOVED = 3, 3
#: So often in ten the emptiest sheet is the one to be emptied, else one of the first few; and a change that gains nothing is gone on with.
_EMPTIEST, _AS_GOOD = 5, 8
_FEW: Final = 3
#: What a try costs beside the pieces it lays, in pieces.
_TRY: Final = 4


@dataclass(frozen=True, slots=True)
class _Group:
    """What lies on one sheet, how much of it that takes up, and what is left of it."""

    steps: tuple[Step, ...]
    area: int
    left: tuple[Space, ...]


@dataclass(frozen=True, slots=True)
class _Bench:
    """What stays the same while sheets are laid again."""

    sheet: Bin
    ways: Sequence[Way]
    orders: Sequence[Callable[[Item], tuple[int, ...]]]
    chance: Random

    def parted(self, groups: Sequence[_Group]) -> tuple[_Group, list[_Group], list[_Group]]:
        """One of the emptiest of ``groups``, which stand in that order, to be emptied; a few others to be laid anew with it; and the rest."""
        rest = list(groups)
        emptied = rest.pop(0 if self.pick(10) < _EMPTIEST else self.pick(min(_FEW, len(rest))))
        others = [rest.pop(self.pick(len(rest))) for _ in range(min(1 + self.pick(_BESIDE), len(rest)))]
        return emptied, others, rest

    def laid(self, emptied: _Group, others: Sequence[_Group]) -> list[_Group] | None:
        """The pieces of all of them on other sheets, less on the one to be emptied; None where that can't be had this time."""
        pool = self.mixed([step.item for group in (emptied, *others) for step in group.steps])
        way = self.ways[self.pick(len(self.ways))]
        tried = pack(pool, [], self.sheet, way, len(others))
        gain = emptied.area - _area(tried.left_out)
        if gain < 0 or (gain == 0 and self.pick(10) >= _AS_GOOD):
            return None
        rest = pack(sorted(tried.left_out, key=self.orders[0]), [], self.sheet, way, 1)
        return None if rest.left_out else [*_groups(tried, 0), *_groups(rest, 0)]

    def mixed(self, items: list[Item]) -> list[Item]:
        """Largest first by one notion of large, then a few of them moved."""
        items.sort(key=self.orders[self.pick(len(self.orders))])
        for _ in range(self.pick(_MOVED + 1)):
            items.insert(self.pick(len(items)), items.pop(self.pick(len(items))))
        return items

    def pick(self, count: int) -> int:
        """A number below ``count``."""
        return self.chance.randrange(count)


def regrouped(
    packing: Packing, on_hand: int, sheet: Bin, ways: Sequence[Way], orders: Sequence[Callable[[Item], tuple[int, ...]]], chance: Random,
    least: int, effort: int,
) -> Packing:  # fmt: skip
    """``packing`` in as few whole sheets as can be found, ``least`` at the fewest (CL-2).

    Its first ``on_hand`` bins, and what is left out, stay as they are. ``effort`` is how many pieces may be laid in all tries together. Source: by
    geometry.
    """
    bench, groups = _Bench(sheet, ways, orders, chance), _groups(packing, on_hand)
    while effort > 0 and len(groups) > max(least, 1):
        emptied, others, rest = bench.parted(groups)
        effort -= _TRY + sum(len(group.steps) for group in (emptied, *others))
        laid = bench.laid(emptied, others)
        if laid is not None:
            groups = sorted((*rest, *laid), key=lambda group: group.area)
    if len(groups) == packing.opened:
        return packing
    held = [step for step in packing.steps if step.space.bin < on_hand]
    left = [space for space in packing.left if space.bin < on_hand]
    for number, group in enumerate(groups, start=on_hand):
        held += [step._replace(space=step.space._replace(bin=number)) for step in group.steps]
        left += [space._replace(bin=number) for space in group.left]
    return Packing(tuple(held), tuple(left), packing.left_out, len(groups))


def _groups(packing: Packing, on_hand: int) -> list[_Group]:
    """What lies on each whole sheet of ``packing``, the emptiest first."""
    steps: dict[int, list[Step]] = {}
    left: dict[int, list[Space]] = {}
    for step in packing.steps:
        steps.setdefault(step.space.bin, []).append(step)
    for space in packing.left:
        left.setdefault(space.bin, []).append(space)
    groups = [
        _Group(tuple(some), _area([step.item for step in some]), tuple(left.get(number, ())))
        for number, some in steps.items()
        if number >= on_hand
    ]
    return sorted(groups, key=lambda group: group.area)


def _area(items: Sequence[Item]) -> int:
    return sum(item.length * item.width for item in items)
