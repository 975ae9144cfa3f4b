"""Looking for a good layout: many orders and ways of laying, then sheets laid anew, then small changes, while effort is left.

The problem: fewest whole sheets, and what is left over in few large panels. There is no quick way to know the best, and trying
every order is out of the question past a dozen pieces.

How it works, in five steps, each starting from the best so far:

1. Every order (largest first, by five notions of large) with every way of ``guillotine``, or as many as there is effort for.
2. While more sheets are used than the lower bound, the emptiest sheet and a few others are laid anew, until the emptiest is gone.
   Small groups are quick to lay and there are many of them, so this finds in a moment what laying everything again seldom does.
3. While there are still too many, the whole list is laid again and again on one sheet fewer, one piece moved each time; a change
   that leaves a little more out than the best is gone on with, or the search would stick where it first comes to rest.
4. Where there are still too many, sheets are laid anew as in 2, with some pieces joined into ``blocks`` first.
5. At that number of sheets, pieces are moved for as long as what is left gathers in larger panels.

``least_sheets`` is the lower bound: where it is met, the number of sheets is proved best and steps 2 to 4 end at once.

What it costs: effort is a count of pieces laid, never a clock, so the same parts give the same layout on any computer;
at most about a second. Chance is seeded by the number of pieces.

What it can't do: where the bound isn't met it can't say that its answer is the best, and it doesn't count the settings of fence
and stop a layout needs.
"""

from __future__ import annotations

from itertools import product
from random import Random
from typing import TYPE_CHECKING, Final

from joinlay.cutlist.blocks import Blocks, joined
from joinlay.cutlist.fewest import least_sheets
from joinlay.cutlist.guillotine import FITS, SPLITS, Bin, Item, Manner, Packing, pack
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from joinlay.cutlist.guillotine import Laying, Space

__all__ = ["regrouped", "search"]

#: Orders in which to lay pieces: the awkward ones first, by one notion of awkward or another.
_ORDERS: Final[tuple[Callable[[Item], tuple[int, ...]], ...]] = (
    lambda item: (-item.length * item.width, -item.length),
    lambda item: (-item.width, -item.length),
    lambda item: (-item.length, -item.width),
    lambda item: (-max(item.length, item.width), -min(item.length, item.width)),
    lambda item: (-item.length - item.width, -item.length),
)

#: How many pieces may be laid in each of the five steps and, since a short list gains nothing past that, how many changes (for
#: the second and fourth step: pieces for each piece of the list) may be tried in the last four. A second's work at most.
_FIRST_EFFORT: Final = 27_000
_REGROUPING_EFFORT, _MOST_TO_REGROUP = 36_000, 800
_SAVING_EFFORT, _MOST_TO_SAVE = 60_000, 1_000
_JOINING_EFFORT, _MOST_TO_JOIN = 20_000, 6_000
_TIDYING_EFFORT, _MOST_TO_TIDY = 18_000, 400

#: By how many hundredths a change may leave more out than the best so far.
_SLACK: Final = 5

#: How often a small change tries another fit and split as well.
_OTHER_WAY: Final = 0.2

#: Up to how many pieces what was laid is remembered: of more, the same order hardly ever comes again.
_MOST_KNOWN: Final = 6

#: How often a piece that found no room is left where it stands in the order.
_AS_IT_IS: Final = 0.5


def search(items: Sequence[Item], bins: Sequence[Bin], sheet: Bin | None, *, first_rip: bool | None) -> Packing:
    """The best packing found of ``items`` into ``bins`` on hand, all of them before any whole ``sheet`` (None: none to be had).

    Best is: as little as can be left out, then fewest whole sheets, then the rest in the fewest, largest panels (CL-2).
    ``first_rip`` True: whole sheets are ripped first; False: crosscut first; None: either.
    """
    bench = _Bench(items, bins, sheet, first_rip=first_rip)
    found = bench.first()
    least = least_sheets(items, bins, sheet) if sheet is not None else 0
    several = max(len(items), 1)
    if sheet is not None and found.packing.opened > least:
        found = bench.regrouped(found, sheet, least)
    chances = min(_SAVING_EFFORT // several, _MOST_TO_SAVE)
    while found.packing.opened > least and chances:
        fewer, chances = bench.squeezed(found, found.packing.opened - 1, chances)
        if fewer is None:
            break
        found = fewer
    if sheet is not None and found.packing.opened > least:
        found = bench.regrouped(found, sheet, least, joins=True)
    return bench.tidied(found, min(_TIDYING_EFFORT // several, _MOST_TO_TIDY)).packing


@dataclass(frozen=True, slots=True)
class _Try:
    packing: Packing
    order: Sequence[Item]
    way: Manner


class _Bench:
    """Everything that stays the same while one list is laid again and again."""

    def __init__(self, items: Sequence[Item], bins: Sequence[Bin], sheet: Bin | None, *, first_rip: bool | None) -> None:
        firsts = (None, True, False) if first_rip is None else (first_rip,)
        self._items, self._bins, self._sheet, self._first_rip = items, bins, sheet, first_rip
        self._ways = [Manner(fit, split, first) for fit, split, first in product(FITS, SPLITS, firsts)]
        self._chance = Random(len(items))
        #: What was laid already: few pieces come in the same order again and again.
        self._known: dict[tuple[tuple[int, ...], Manner, int | None], Packing] = {}

    def first(self) -> _Try:
        """The best of every order with every rule, or of as many of them as there is time for."""
        tries = [(sorted(self._items, key=order), way) for way, order in product(self._ways, _ORDERS)]
        tries = tries[:: 1 + len(tries) * len(self._items) // _FIRST_EFFORT]
        return min((self._tried(order, way) for order, way in tries), key=lambda tried: tried.packing.merit)

    def regrouped(self, found: _Try, sheet: Bin, least: int, *, joins: bool = False) -> _Try:
        """``found`` with a few of its sheets at a time laid anew, so that it may take fewer; ``joins``: some pieces joined
        into blocks.
        """
        most, each = (_JOINING_EFFORT, _MOST_TO_JOIN) if joins else (_REGROUPING_EFFORT, _MOST_TO_REGROUP)
        effort = min(most, each * len(self._items))
        # Chances of its own, so that how long it takes changes nothing of what is tried after it.
        chance = Random(len(self._items))
        packing = regrouped(
            found.packing,
            len(self._bins),
            sheet,
            self._ways,
            _ORDERS,
            chance,
            least,
            effort,
            joins=joins,
            first_rip=self._first_rip,
        )
        if joins and packing is found.packing:
            return found
        return _Try(packing, [step.item for step in packing.steps] + list(packing.left_out), found.way)

    def squeezed(self, found: _Try, most: int, chances: int) -> tuple[_Try | None, int]:
        """``found`` changed until it takes ``most`` sheets, None where it can't be; and how many chances are left.

        A change that leaves a little more out than the best so far is gone on with, or the search would stick where it first
        comes to rest.
        """
        wanted = found.packing.merit[0]
        now = self._tried(found.order, found.way, most)
        least = now.packing.merit[0]
        while least > wanted and chances:
            chances -= 1
            changed = self._changed(now, most, self._pressed(now))
            out = changed.packing.merit[0]
            if out * 100 <= least * (100 + _SLACK):
                now, least = changed, min(least, out)
        return (now, chances) if least <= wanted else (None, 0)

    def tidied(self, found: _Try, chances: int) -> _Try:
        """``found`` with what is left of its sheets gathered in fewer, larger panels."""
        for _ in range(chances if len(self._items) > 1 else 0):
            changed = self._changed(found, found.packing.opened, found.order)
            if changed.packing.merit <= found.packing.merit:
                found = changed
        return found

    def _tried(self, order: Sequence[Item], way: Manner, most: int | None = None) -> _Try:
        if len(order) > _MOST_KNOWN:
            return _Try(pack(order, self._bins, self._sheet, way, most), order, way)
        key = (tuple(item.number for item in order), way, most)
        if key not in self._known:
            self._known[key] = pack(order, self._bins, self._sheet, way, most)
        return _Try(self._known[key], order, way)

    def _changed(self, found: _Try, most: int, order: Sequence[Item]) -> _Try:
        """One piece moved elsewhere in ``order``, now and then with another way of fitting as well."""
        changed = list(order)
        moved = changed.pop(self._pick(len(changed)))
        changed.insert(self._pick(len(changed) + 1), moved)
        way = self._ways[self._pick(len(self._ways))] if self._chance.random() < _OTHER_WAY else found.way
        return self._tried(changed, way, most)

    def _pressed(self, found: _Try) -> Sequence[Item]:
        """The order with one of the pieces left out moved to another place, half the time."""
        out = found.packing.left_out
        if not out or self._chance.random() < _AS_IT_IS:
            return found.order
        moved = out[self._pick(len(out))]
        order = [item for item in found.order if item is not moved]
        order.insert(self._pick(len(order) + 1), moved)
        return order

    def _pick(self, count: int) -> int:
        return int(self._chance.random() * count)


# -- sheets laid anew -------------------------------------------------------------------------------

#: How many sheets are laid anew beside the one to be emptied, and how many of their pieces change place in the order, at most.
_BESIDE, _MOVED = 3, 3
#: In how many tries of ten the emptiest sheet is the one to be emptied (else it is one of the first few), and in how many a
#: change that gains nothing is gone on with.
_EMPTIEST, _AS_GOOD = 5, 8
_FEW: Final = 3
#: What a try costs beside the pieces it lays, in pieces.
_TRY: Final = 4


@dataclass(frozen=True, slots=True)
class _Group:
    """What lies on one sheet, how much of it that takes up, and what is left of it."""

    steps: tuple[Laying, ...]
    area: int
    left: tuple[Space, ...]
    blocks: tuple[Laying, ...]


@dataclass(frozen=True, slots=True)
class _Regrouping:
    """What stays the same while sheets are laid again."""

    sheet: Bin
    ways: Sequence[Manner]
    orders: Sequence[Callable[[Item], tuple[int, ...]]]
    chance: Random
    joins: bool
    first_rip: bool | None

    def parted(self, groups: Sequence[_Group]) -> tuple[_Group, list[_Group], list[_Group]]:
        """One of the emptiest of ``groups``, which come emptiest first; a few others to be laid anew with it; and the rest."""
        rest = list(groups)
        emptied = rest.pop(0 if self.pick(10) < _EMPTIEST else self.pick(min(_FEW, len(rest))))
        others = [rest.pop(self.pick(len(rest))) for _ in range(min(1 + self.pick(_BESIDE), len(rest)))]
        return emptied, others, rest

    def laid(self, emptied: _Group, others: Sequence[_Group]) -> list[_Group] | None:
        """The pieces of all of them laid anew, with less on the one to be emptied; None where that can't be had this time."""
        pool = [step.item for group in (emptied, *others) for step in group.steps]
        blocks = Blocks()
        if self.joins:
            pool, blocks = joined(pool, self.sheet, self.chance)
        pool = self.mixed(pool)
        way = self.ways[self.pick(len(self.ways))]
        tried = blocks.parted(pack(pool, [], self.sheet, way, len(others)), first_rip=self.first_rip)
        if tried is None:
            return None
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
    packing: Packing,
    on_hand: int,
    sheet: Bin,
    ways: Sequence[Manner],
    orders: Sequence[Callable[[Item], tuple[int, ...]]],
    chance: Random,
    least: int,
    effort: int,
    *,
    joins: bool = False,
    first_rip: bool | None = None,
) -> Packing:
    """``packing`` in as few whole sheets as can be found, ``least`` at the fewest (CL-2).

    Its first ``on_hand`` bins, and what is left out, stay as they are; whole sheets are as large as ``sheet``. ``ways`` and
    ``orders`` are picked from by ``chance``. ``effort`` is how many pieces may be laid in all tries together. ``joins``: some
    pieces are joined into blocks first, so that cuts may run at the sum of their sizes; ``first_rip`` is then how whole sheets
    are cut first, None for either way. Source: by geometry.
    """
    bench, groups = _Regrouping(sheet, ways, orders, chance, joins, first_rip), _groups(packing, on_hand)
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
    blocks = [step for step in packing.blocks if step.space.bin < on_hand]
    for number, group in enumerate(groups, start=on_hand):
        held += [step._replace(space=step.space._replace(bin=number)) for step in group.steps]
        left += [space._replace(bin=number) for space in group.left]
        blocks += [step._replace(space=step.space._replace(bin=number)) for step in group.blocks]
    return Packing(tuple(held), tuple(left), packing.left_out, len(groups), tuple(blocks))


def _groups(packing: Packing, on_hand: int) -> list[_Group]:
    """What lies on each whole sheet of ``packing``, the emptiest first."""
    steps: dict[int, list[Laying]] = {}
    left: dict[int, list[Space]] = {}
    for step in packing.steps:
        steps.setdefault(step.space.bin, []).append(step)
    for space in packing.left:
        left.setdefault(space.bin, []).append(space)
    blocks: dict[int, list[Laying]] = {}
    for step in packing.blocks:
        blocks.setdefault(step.space.bin, []).append(step)
    groups = [
        _Group(tuple(some), _area([step.item for step in some]), tuple(left.get(number, ())), tuple(blocks.get(number, ())))
        for number, some in steps.items()
        if number >= on_hand
    ]
    return sorted(groups, key=lambda group: group.area)


def _area(items: Sequence[Item]) -> int:
    return sum(item.length * item.width for item in items)
