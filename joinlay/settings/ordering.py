"""The order of the cards: fewest cutter changes, then fence changes, then heights, then walks, with the cuts of a joint together
(MS-3).

The problem: each card wants its machine to stand in some way (cutter, fence, height) and leaves it so; some must come before
others. An order costs what has to be changed between neighbours, a cutter more than any number of fences, a fence more than any
number of heights.

The method: an exact search (A*). A state is what is done and how each machine stands; the estimate of what is left is never too
high, so the first complete order found is one of the best. Cards that cost nothing now are cut at once, and a cutter is used up
before another goes in, where it can be shown that no better order is lost (``worth_trying``). Ways to stand are numbered first,
since exact lengths are slow to hash.

The cost: a dozen cards or two take some hundredths of a second. It grows with the ways to share out the cards among what is done
and what is not, so past 12 000 states the cheapest next card is taken step after step, and the answer says that it isn't proved.
Joints are kept together as well as can be up to nine cards; in a longer list only as far as the search happens on it. How long a
run takes, and where a machine stands in the workshop, it doesn't know.
"""

from __future__ import annotations

from functools import lru_cache
from heapq import heappop, heappush
from typing import TYPE_CHECKING, Final

from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterable, Sequence

__all__ = ["Cost", "MachineStand", "best_order", "cost_of"]

#: Cutter changes, fence changes, height changes, walks to another machine, neighbours that share no joint. Compared from the
#: left.
Cost = tuple[int, int, int, int, int]

#: States looked at before the search settles for the best it can build step by step; a second or two.
_PATIENCE: Final = 12_000

#: Up to so many cards, the cuts of a joint are kept together as well as can be; past it, as well as the fewest changes let them.
_SHORT: Final = 9


@dataclass(frozen=True, slots=True)
class MachineStand:
    """What ordering needs to know of a card: how the machine must stand before it, and how it stands after.

    ``begin`` and ``end`` are (cutter, fence, height); they differ where the card has several passes. Anything hashable will do.
    """

    machine: Hashable
    begin: tuple[Hashable, Hashable, Hashable]
    end: tuple[Hashable, Hashable, Hashable]
    joints: frozenset[str]


#: How each machine stands, as the number of the last card cut there (-1 for none), and the last card of all.
_Standing = tuple[tuple[int, ...], int]

#: In what order things are told apart: cutter alone, cutter and fence, cutter and height. A height that stays need not be set
#: again when only the fence moves.
_LEVELS: Final = ((0,), (0, 1), (0, 2))


def _add(one: Cost, other: Cost) -> Cost:
    return one[0] + other[0], one[1] + other[1], one[2] + other[2], one[3] + other[3], one[4] + other[4]


class _Search:
    """The cards with everything that is asked of them again and again worked out once; sets of cards, of joints and of machines
    are the bits of whole numbers, since they are compared a million times.
    """

    __slots__ = (
        "_ends", "_groups", "_joints", "_least", "_left", "_levels", "_stays", "_touched", "_walked", "machine_of", "machines",
        "needs", "steps",
    )  # fmt: skip

    def __init__(self, steps: Sequence[MachineStand], before: frozenset[tuple[int, int]] = frozenset()) -> None:
        self.steps = steps
        self.needs = [sum(1 << i for i, j in before if j == n) for n in range(len(steps))]
        by_cutter: dict[Hashable, int] = {}
        for n, step in enumerate(steps):
            own = step.machine, step.begin[0]
            by_cutter[own] = by_cutter.get(own, 0) | 1 << n
        # The cards of each cutter of each machine, by card; none where a card changes its cutter itself.
        is_plain = all(step.begin[0] == step.end[0] for step in steps)
        self._groups = [by_cutter[step.machine, step.begin[0]] if is_plain else 0 for step in steps]
        names = list(dict.fromkeys(step.machine for step in steps))
        self.machines = len(names)
        self.machine_of = [names.index(step.machine) for step in steps]
        # The first card that leaves its machine as this one does: equal standings are then equal numbers.
        ends = [(step.machine, step.end) for step in steps]
        self._ends = [ends.index(end) for end in ends]
        self._stays = [step.begin == step.end for step in steps]
        self._levels = [self._numbered([self._keys(level, n) for n in range(len(steps))]) for level in _LEVELS]
        joints = {name: 1 << n for n, name in enumerate(dict.fromkeys(name for step in steps for name in sorted(step.joints)))}
        self._joints = [sum(joints[name] for name in step.joints) for step in steps]
        # What is touched and walked from each card to each, a row at a time as it is asked for; the last row is for no card.
        self._touched: list[list[tuple[int, int, int]]] = [[] for _ in range(len(steps) + 1)]
        self._walked: list[list[tuple[int, int]]] = [[] for _ in range(len(steps) + 1)]
        self._least: dict[tuple[int, _Standing], Cost] = {}
        self._left: dict[int, _Left] = {}

    def _keys(self, level: tuple[int, ...], n: int) -> tuple[Hashable, Hashable]:
        step = self.steps[n]
        begin, end = (tuple(state[place] for place in level) for state in (step.begin, step.end))
        return (step.machine, begin), (step.machine, end)

    @staticmethod
    def _numbered(keys: list[tuple[Hashable, Hashable]]) -> list[tuple[int, int]]:
        """Equal keys as equal numbers: exact lengths are slow to hash."""
        numbers: dict[Hashable, int] = {}
        return [(numbers.setdefault(begin, len(numbers)), numbers.setdefault(end, len(numbers))) for begin, end in keys]

    def start(self) -> _Standing:
        return (-1,) * self.machines, -1

    def move(self, standing: _Standing, n: int) -> tuple[Cost, _Standing]:
        """What it costs to cut card ``n`` now, and how the machines stand after."""
        at, last = standing
        machine = self.machine_of[n]
        cost = self._touches(at[machine])[n] + self._walks(last)[n]
        return cost, ((*at[:machine], self._ends[n], *at[machine + 1 :]), n)

    def _touches(self, was: int) -> list[tuple[int, int, int]]:
        """Cutter, fence and height to be changed for each card where its machine stands as card ``was`` left it (-1 for none)."""
        row = self._touched[was]
        if not row:
            for n in range(len(self.steps)):
                same = [was >= 0 and keys[was][1] == keys[n][0] for keys in self._levels]
                row.append((0, int(not same[1]), int(not same[2])) if same[0] else (1, 1, 1))
        return row

    def _walks(self, last: int) -> list[tuple[int, int]]:
        """Whether another machine is gone to for each card, and whether it has no joint in common, after card ``last``."""
        row = self._walked[last]
        if not row:
            for n, machine in enumerate(self.machine_of):
                is_walk = last < 0 or self.machine_of[last] != machine
                row.append((int(is_walk), int(last >= 0 and not self._joints[last] & self._joints[n])))
        return row

    def ready(self, done: int) -> list[int]:
        """The cards that may come next."""
        return [n for n, needs in enumerate(self.needs) if not done >> n & 1 and not needs & ~done]

    def worth_trying(self, standing: _Standing, done: int) -> Sequence[int]:
        """The cards that may come next in a best order.

        In a long list a card for which nothing has to be touched, and which leaves everything as it was, is cut at once: later it
        could only cost more, but for the company of its joint. Of several the one whose joint is being cut goes first. And a
        cutter whose cards wait for nothing but each other is used up before another is put in; once it is, any such cutter of the
        same machine may follow, so the first one does.
        """
        ready = self.ready(done)
        at, last = standing
        if len(self.steps) <= _SHORT or last < 0:
            return ready
        machine = self.machine_of[last]
        here = [n for n in ready if self.machine_of[n] == machine]
        touches = self._touches(at[machine])
        free = [n for n in here if self._stays[n] and touches[n] == (0, 0, 0)]
        if free:
            return [min(free, key=lambda n: (self._walks(last)[n], n))]
        groups = [self._groups[last]] if self._groups[last] & ~done else [self._groups[n] for n in here]
        for group in groups:
            if group and not any(group >> n & 1 and needs & ~(done | group) for n, needs in enumerate(self.needs)):
                return [n for n in ready if group >> n & 1]
        return ready

    def least(self, left: int, standing: _Standing) -> Cost:
        """No order of the cards that are left can cost less than this.

        What a card begins with has to be set, unless the card before it ended so, and each card is before one only; a cutter,
        fence or height that no other card leaves behind has to be set once at least. Each machine not stood at is walked to;
        cards that no joint links fall apart at least once a group.
        """
        known = self._least.get((left, standing))
        if known is None:
            at, last = standing
            of_left = self._left.get(left)
            if of_left is None:
                of_left = self._left[left] = self._of(left)
            stands = [n for n in at if n >= 0]
            unset = []
            for (most, spared), keys in zip(of_left.wants, self._levels, strict=True):
                total = most
                for n in stands:
                    total -= spared.get(keys[n][1], 0)
                unset.append(total)
            cutters, fences, heights = unset
            walks = (of_left.machines & ~(1 << self.machine_of[last] if last >= 0 else 0)).bit_count()
            known = (cutters, fences, heights, walks, of_left.falls_apart(self._joints[last] if last >= 0 else None))
            self._least[left, standing] = known
        return known

    def _of(self, left: int) -> _Left:
        cards = [n for n in range(len(self.steps)) if left >> n & 1]
        wants = tuple(_wants([keys[n] for n in cards]) for keys in self._levels)
        machines = 0
        for n in cards:
            machines |= 1 << self.machine_of[n]
        joints = [self._joints[n] for n in cards]
        return _Left(wants, machines, _groups({own for own in joints if own}), joints.count(0))


#: How often the machines have to be set for the cards that are left, at one level, and how much less often by each way to stand,
#: by its number, where a machine stands so now.
_Wants = tuple[int, dict[int, int]]


def _wants(keys: Sequence[tuple[int, int]]) -> _Wants:
    """What cards want that begin and end as ``keys`` say.

    A card that leaves its machine as it found it wants that set once, if no other leaves it so. Of the rest it is counted how
    many don't find what they want left so by another, and how many wouldn't if the machine stood so now.
    """
    begun = set[int]()
    missing: dict[int, int] = {}
    others = set[int]()
    for begin, end in keys:
        begun.add(begin)
        if begin != end:
            missing[begin] = missing.get(begin, 0) + 1
            missing[end] = missing.get(end, 0) - 1
            others.add(end)
    spared = dict.fromkeys(begun.difference(missing), 1)
    total = len(spared)
    for key, short in missing.items():
        if key in begun:
            unset = short if short > 0 else int(key not in others)
            total += unset
            spared[key] = unset - (short - 1 if short > 1 else 0)
    return total, spared


@dataclass(frozen=True, slots=True)
class _Left:
    """What can be said of some cards that are left, however the machines stand: what they want at each level, their machines,
    the groups of joints that link them, and how many have no joint.
    """

    wants: tuple[_Wants, ...]
    machines: int
    groups: tuple[int, ...]
    lone: int

    def falls_apart(self, last: int | None) -> int:
        """How many times neighbours without a joint in common can't be helped, after a card of the joints ``last`` if any."""
        lone, groups = self.lone, len(self.groups)
        if last is not None:
            lone += not last
            groups += bool(last) - sum(bool(group & last) for group in self.groups)
        return max(groups + lone - 1, 0)


def _groups(joints: Iterable[int]) -> tuple[int, ...]:
    """The groups of cards linked by joints, each as its joints; ``joints`` are those of each card that has any."""
    groups: list[int] = []
    for own in joints:
        linked, apart = own, list[int]()
        for group in groups:
            if group & own:
                linked |= group
            else:
                apart.append(group)
        groups = [*apart, linked]
    return tuple(groups)


def cost_of(steps: Sequence[MachineStand], order: Sequence[int]) -> Cost:
    """What ``order`` (places in ``steps``) costs, changes within a card left out, since every order has those. Rule MS-3."""
    search = _looked_over(tuple(steps))
    total: Cost = (0, 0, 0, 0, 0)
    standing = search.start()
    for n in order:
        cost, standing = search.move(standing, n)
        total = _add(total, cost)
    return total


@lru_cache(maxsize=1)
def _looked_over(steps: tuple[MachineStand, ...]) -> _Search:
    """The cards whose orders are compared: what many orders of the same cards cost is asked one after the other."""
    return _Search(steps)


def best_order(
    steps: Sequence[MachineStand], before: frozenset[tuple[int, int]], *, patience: int = _PATIENCE
) -> tuple[tuple[int, ...], bool]:
    """The order of least cost in which i comes before j for every (i, j) of ``before``, and whether it is proved to be.

    Among equals the first as words in a dictionary are, so the answer is always the same. ``before`` must have no circle. Rule
    MS-3. For usual jobs (a dozen cards or two) the search is exact: nothing has fewer changes of cutter, fence and height, in
    that order of weight; up to nine cards, nothing that is as good in these keeps joints together better. Past ``patience``
    states, 12 000 unless told, it takes the best step after step and says False.
    """
    search = _Search(steps, before)
    everything = (1 << len(steps)) - 1
    nothing: Cost = (0, 0, 0, 0, 0)
    # Each entry: how good it can be, the order so far, what it cost, how the machines stand, and the cards that are done.
    heap: list[tuple[tuple[int, ...], tuple[int, ...], Cost, _Standing, int]] = [((), (), nothing, search.start(), 0)]
    seen: set[tuple[int, _Standing]] = set()
    while heap and len(seen) < patience:
        _, order, spent, standing, done = heappop(heap)
        if len(order) == len(steps):
            return order, True
        if (done, standing) in seen:
            continue
        seen.add((done, standing))
        for n in search.worth_trying(standing, done):
            cost, after = search.move(standing, n)
            then = done | 1 << n
            if (then, after) not in seen:
                reached = _add(spent, cost)
                least = _add(reached, search.least(everything & ~then, after))
                # In a long list a complete order is worth more than company: the deepest of equals is followed up first.
                rank = least if len(steps) <= _SHORT else (*least[:4], -len(order), reached[4])
                heappush(heap, (rank, (*order, n), reached, after, then))
    return _step_by_step(search), False


def _step_by_step(search: _Search) -> tuple[int, ...]:
    """Always the cheapest next card, the earliest of equals."""
    order: list[int] = []
    standing, done = search.start(), 0
    while len(order) < len(search.steps):
        n = min(search.ready(done), key=lambda each: (search.move(standing, each)[0], each))
        _, standing = search.move(standing, n)
        order.append(n)
        done |= 1 << n
    return tuple(order)
