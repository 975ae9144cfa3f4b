"""The order of the cards: fewest cutter changes, then fence changes, then heights, then walks, with the cuts of a joint together (MS-3).

An exact search (A*): each state is what is done and how each machine stands, and no estimate of what is left is ever too high, so
the first complete order found is one of the best.
"""

from __future__ import annotations

from dataclasses import dataclass
from heapq import heappop, heappush
from itertools import count
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Hashable, Sequence

__all__ = ["Cost", "Step", "best_order", "cost_of"]

#: Cutter changes, fence changes, height changes, walks to another machine, neighbours that share no joint. Compared from the left.
Cost = tuple[int, int, int, int, int]

#: States looked at before the search settles for the best it can build step by step.
_PATIENCE: Final = 60_000


@dataclass(frozen=True, slots=True)
class Step:
    """What ordering needs to know of a card: how the machine must stand before it, and how it stands after.

    ``begin`` and ``end`` are (cutter, fence, height); they differ where the card has several passes. Anything hashable will do.
    """

    machine: Hashable
    begin: tuple[Hashable, Hashable, Hashable]
    end: tuple[Hashable, Hashable, Hashable]
    joints: frozenset[str]


#: How machines stand: (machine, (cutter, fence, height)) pairs, and the last step, -1 before any.
_Standing = tuple[frozenset[tuple["Hashable", tuple["Hashable", "Hashable", "Hashable"]]], int]


def _add(one: Cost, other: Cost) -> Cost:
    a, b, c, d, e = (x + y for x, y in zip(one, other, strict=True))
    return a, b, c, d, e


def _move(steps: Sequence[Step], standing: _Standing, n: int) -> tuple[Cost, _Standing]:
    machines, last = standing
    step = steps[n]
    was = dict(machines)
    cost = _set(was.get(step.machine), step.begin)
    walk = int(last < 0 or steps[last].machine != step.machine)
    apart = int(last >= 0 and not steps[last].joints & step.joints)
    was[step.machine] = step.end
    return (*cost, walk, apart), (frozenset(was.items()), n)


def _set(was: tuple[Hashable, ...] | None, begin: tuple[Hashable, ...]) -> tuple[int, int, int]:
    """What must be touched; with another cutter fence and height are set anew, whatever they were."""
    if was is None or was[0] != begin[0]:
        return 1, 1, 1
    return 0, int(was[1] != begin[1]), int(was[2] != begin[2])


def cost_of(steps: Sequence[Step], order: Sequence[int]) -> Cost:
    """What ``order`` (places in ``steps``) costs, changes within a card left out, since every order has those."""
    total: Cost = (0, 0, 0, 0, 0)
    standing: _Standing = (frozenset(), -1)
    for n in order:
        cost, standing = _move(steps, standing, n)
        total = _add(total, cost)
    return total


def best_order(steps: Sequence[Step], before: frozenset[tuple[int, int]]) -> tuple[tuple[int, ...], bool]:
    """The order of least cost in which i comes before j for every (i, j) of ``before``, and whether it is proved to be.

    Among equals the one that keeps nearest to the given order, so the answer is always the same. ``before`` must have no circle.
    Rule MS-3. For usual jobs (some dozen cards) the search is exact; past 60 000 states it takes the best step after step and says False.
    """
    needs = [frozenset(i for i, j in before if j == n) for n in range(len(steps))]
    everything = frozenset(range(len(steps)))
    start: _Standing = (frozenset(), -1)
    tick = count()
    nothing: Cost = (0, 0, 0, 0, 0)
    heap: list[tuple[Cost, tuple[int, ...], int, Cost, _Standing]] = []
    heappush(heap, (_least(steps, everything, start), (), next(tick), nothing, start))
    seen: set[tuple[frozenset[int], _Standing]] = set()
    while heap and len(seen) < _PATIENCE:
        _, order, _, spent, standing = heappop(heap)
        done = frozenset(order)
        if len(order) == len(steps):
            return order, True
        if (done, standing) in seen:
            continue
        seen.add((done, standing))
        for n in sorted(everything - done):
            if needs[n] <= done:
                cost, after = _move(steps, standing, n)
                reached = _add(spent, cost)
                least = _add(reached, _least(steps, everything - done - {n}, after))
                heappush(heap, (least, (*order, n), next(tick), reached, after))
    return _step_by_step(steps, needs), False


def _step_by_step(steps: Sequence[Step], needs: Sequence[frozenset[int]]) -> tuple[int, ...]:
    """Always the cheapest next card, the earliest of equals."""
    order: list[int] = []
    standing: _Standing = (frozenset(), -1)
    while len(order) < len(steps):
        ready = [n for n in range(len(steps)) if n not in order and needs[n] <= set(order)]
        n = min(ready, key=lambda each: (_move(steps, standing, each)[0], each))
        _, standing = _move(steps, standing, n)
        order.append(n)
    return tuple(order)


def _least(steps: Sequence[Step], left: frozenset[int], standing: _Standing) -> Cost:
    """No order of the cards that are left can cost less than this.

    Each cutter, fence and height that some card begins with has to be set once, unless it is so already or a card that begins
    otherwise ends with it; each machine not stood at is walked to; cards that no joint links fall apart at least once a group.
    """
    machines, last = standing
    changes = []
    for depth in (1, 2, 3):
        wanted = {(steps[n].machine, _key(steps[n].begin, depth)) for n in left}
        free = {(machine, _key(state, depth)) for machine, state in machines}
        free |= {(s.machine, _key(s.end, depth)) for s in (steps[n] for n in left) if _key(s.end, depth) != _key(s.begin, depth)}
        changes.append(len(wanted - free))
    at = steps[last].machine if last >= 0 else None
    walks = len({steps[n].machine for n in left} - ({at} if last >= 0 else set()))
    return changes[0], changes[1], changes[2], walks, _groups(steps, left, last)


def _key(state: tuple[Hashable, Hashable, Hashable], depth: int) -> tuple[Hashable, ...]:
    """Cutter alone; cutter and fence; cutter and height: a height that stays is not set again when only the fence moves."""
    return {1: state[:1], 2: state[:2], 3: (state[0], state[2])}[depth]


def _groups(steps: Sequence[Step], left: frozenset[int], last: int) -> int:
    """How many times neighbours without a joint in common cannot be helped: groups of cards linked by joints, less one."""
    groups: list[set[str]] = []
    lone = 0
    for n in sorted(left | ({last} if last >= 0 else set())):
        joints = set(steps[n].joints)
        if not joints:
            lone += 1
            continue
        for group in [group for group in groups if group & joints]:
            groups.remove(group)
            joints |= group
        groups.append(joints)
    return max(len(groups) + lone - 1, 0)
