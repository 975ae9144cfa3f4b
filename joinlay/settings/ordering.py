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
    """The cards with everything that is asked of them again and again worked out once."""

    __slots__ = ("_ends", "_groups", "_least", "_left", "_levels", "machine_of", "machines", "needs", "steps")

    def __init__(self, steps: Sequence[MachineStand], before: frozenset[tuple[int, int]] = frozenset()) -> None:
        self.steps = steps
        self.needs = [frozenset(i for i, j in before if j == n) for n in range(len(steps))]
        by_cutter: dict[Hashable, set[int]] = {}
        for n, step in enumerate(steps):
            by_cutter.setdefault((step.machine, step.begin[0]), set()).add(n)
        # The cards of each cutter of each machine, by card; none where a card changes its cutter itself.
        is_plain = all(step.begin[0] == step.end[0] for step in steps)
        self._groups = [frozenset(by_cutter[step.machine, step.begin[0]]) if is_plain else frozenset() for step in steps]
        names = list(dict.fromkeys(step.machine for step in steps))
        self.machines = len(names)
        self.machine_of = [names.index(step.machine) for step in steps]
        # The first card that leaves its machine as this one does: equal standings are then equal numbers.
        ends = [(step.machine, step.end) for step in steps]
        self._ends = [ends.index(end) for end in ends]
        self._levels = [self._numbered([self._keys(level, n) for n in range(len(steps))]) for level in _LEVELS]
        self._least: dict[tuple[frozenset[int], _Standing], Cost] = {}
        self._left: dict[frozenset[int], _Left] = {}

    def _keys(self, level: tuple[int, ...], n: int) -> tuple[Hashable, Hashable]:
        step = self.steps[n]
        begin, end = (tuple(state[place] for place in level) for state in (step.begin, step.end))
        return (step.machine, begin), (step.machine, end)

    @staticmethod
    def _numbered(keys: list[tuple[Hashable, Hashable]]) -> list[tuple[int, int]]:
        """Equal keys as equal numbers: they are compared a million times, and exact lengths are slow to hash."""
        numbers: dict[Hashable, int] = {}
        return [(numbers.setdefault(begin, len(numbers)), numbers.setdefault(end, len(numbers))) for begin, end in keys]

    def start(self) -> _Standing:
        return (-1,) * self.machines, -1

    def move(self, standing: _Standing, n: int) -> tuple[Cost, _Standing]:
        """What it costs to cut card ``n`` now, and how the machines stand after."""
        at, last = standing
        machine, step = self.machine_of[n], self.steps[n]
        was = self.steps[at[machine]].end if at[machine] >= 0 else None
        changes = (1, 1, 1)
        if was is not None and was[0] == step.begin[0]:
            changes = (0, int(was[1] != step.begin[1]), int(was[2] != step.begin[2]))
        walk = int(last < 0 or self.machine_of[last] != machine)
        apart = int(last >= 0 and self.steps[last].joints.isdisjoint(step.joints))
        return (*changes, walk, apart), ((*at[:machine], self._ends[n], *at[machine + 1 :]), n)

    def ready(self, done: frozenset[int]) -> list[int]:
        """The cards that may come next."""
        return [n for n in range(len(self.steps)) if n not in done and self.needs[n] <= done]

    def worth_trying(self, standing: _Standing, done: frozenset[int]) -> Sequence[int]:
        """The cards that may come next in a best order.

        In a long list a card for which nothing has to be touched, and which leaves everything as it was, is cut at once: later it
        could only cost more, but for the company of its joint. Of several the one whose joint is being cut goes first. And a
        cutter whose cards wait for nothing but each other is used up before another is put in; once it is, any such cutter of the
        same machine may follow, so the first one does.
        """
        ready = self.ready(done)
        if len(self.steps) <= _SHORT:
            return ready
        free = [n for n in ready if self.steps[n].begin == self.steps[n].end and self.move(standing, n)[0][:4] == (0, 0, 0, 0)]
        if free:
            return [min(free, key=lambda n: (self.move(standing, n)[0], n))]
        last = standing[1]
        if last < 0:
            return ready
        here = [n for n in ready if self.machine_of[n] == self.machine_of[last]]
        groups = [self._groups[last]] if self._groups[last] - done else [self._groups[n] for n in here]
        for group in groups:
            if group and all(self.needs[n] <= done | group for n in group):
                return [n for n in ready if n in group]
        return ready

    def least(self, left: frozenset[int], standing: _Standing) -> Cost:
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
            cutters, fences, heights = (
                wants.unset(keys[n][1] for n in stands) for wants, keys in zip(of_left.wants, self._levels, strict=True)
            )
            walks = len(of_left.machines - {self.machine_of[last]} if last >= 0 else of_left.machines)
            known = (cutters, fences, heights, walks, of_left.falls_apart(self.steps[last].joints if last >= 0 else None))
            self._least[left, standing] = known
        return known

    def _of(self, left: frozenset[int]) -> _Left:
        wants = tuple(_Wants([keys[n] for n in left]) for keys in self._levels)
        groups, lone = _groups([self.steps[n].joints for n in left])
        return _Left(wants, frozenset(self.machine_of[n] for n in left), groups, lone)


class _Wants:
    """How the cards that are left want their machines to stand, at one level: what each begins and ends with, as numbers."""

    __slots__ = ("_short", "_still", "_total")

    def __init__(self, keys: Sequence[tuple[int, int]]) -> None:
        begins: dict[int, int] = {}
        ends: dict[int, int] = {}
        others: set[int] = set()
        for begin, end in keys:
            begins[begin] = begins.get(begin, 0) + 1
            ends[end] = ends.get(end, 0) + 1
            if begin != end:
                others.add(end)
        #: By what is wanted: how many don't find it left so by another, and how many wouldn't if the machine stood so now.
        self._short: dict[int, int] = {}
        self._still: dict[int, int] = {}
        for key, count in begins.items():
            missing = count - ends.get(key, 0)
            self._short[key] = max(missing, 0 if key in others else 1)
            self._still[key] = max(missing - 1, 0)
        self._total = sum(self._short.values())

    def unset(self, standing: Iterable[int]) -> int:
        """How often the machines have to be set, standing now as the numbers of ``standing`` say, one a machine."""
        return self._total - sum(self._short[key] - self._still[key] for key in standing if key in self._short)


@dataclass(frozen=True, slots=True)
class _Left:
    """What can be said of some cards that are left, however the machines stand: what they want at each level, their machines,
    the groups of joints that link them, and how many have no joint.
    """

    wants: tuple[_Wants, ...]
    machines: frozenset[int]
    groups: tuple[frozenset[str], ...]
    lone: int

    def falls_apart(self, last: frozenset[str] | None) -> int:
        """How many times neighbours without a joint in common can't be helped, after a card of the joints ``last`` if any."""
        lone, groups = self.lone, len(self.groups)
        if last is not None:
            lone += not last
            groups += bool(last) - sum(not group.isdisjoint(last) for group in self.groups)
        return max(groups + lone - 1, 0)


def _groups(joints: Sequence[frozenset[str]]) -> tuple[tuple[frozenset[str], ...], int]:
    """The groups of cards linked by joints, each as its joints, and how many cards have none."""
    groups: list[frozenset[str]] = []
    lone = 0
    for names in joints:
        if not names:
            lone += 1
            continue
        linked = [group for group in groups if not group.isdisjoint(names)]
        groups = [group for group in groups if group.isdisjoint(names)]
        groups.append(names.union(*linked))
    return tuple(groups), lone


def cost_of(steps: Sequence[MachineStand], order: Sequence[int]) -> Cost:
    """What ``order`` (places in ``steps``) costs, changes within a card left out, since every order has those. Rule MS-3."""
    search = _Search(steps)
    total: Cost = (0, 0, 0, 0, 0)
    standing = search.start()
    for n in order:
        cost, standing = search.move(standing, n)
        total = _add(total, cost)
    return total


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
    everything = frozenset(range(len(steps)))
    nothing: Cost = (0, 0, 0, 0, 0)
    # Each entry: how good it can be, the order so far, what it cost, and how the machines stand.
    heap: list[tuple[tuple[int, ...], tuple[int, ...], Cost, _Standing]] = [((), (), nothing, search.start())]
    seen: set[tuple[frozenset[int], _Standing]] = set()
    while heap and len(seen) < patience:
        _, order, spent, standing = heappop(heap)
        done = frozenset(order)
        if len(order) == len(steps):
            return order, True
        if (done, standing) in seen:
            continue
        seen.add((done, standing))
        for n in search.worth_trying(standing, done):
            cost, after = search.move(standing, n)
            if (done | {n}, after) not in seen:
                reached = _add(spent, cost)
                least = _add(reached, search.least(everything - done - {n}, after))
                # In a long list a complete order is worth more than company: the deepest of equals is followed up first.
                rank = least if len(steps) <= _SHORT else (*least[:4], -len(order), reached[4])
                heappush(heap, (rank, (*order, n), reached, after))
    return _step_by_step(search), False


def _step_by_step(search: _Search) -> tuple[int, ...]:
    """Always the cheapest next card, the earliest of equals."""
    order: list[int] = []
    standing = search.start()
    while len(order) < len(search.steps):
        n = min(search.ready(frozenset(order)), key=lambda each: (search.move(standing, each)[0], each))
        _, standing = search.move(standing, n)
        order.append(n)
    return tuple(order)
