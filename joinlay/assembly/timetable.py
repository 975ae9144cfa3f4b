"""The glue-ups in time: what is glued when, what can be done while it cures, and in how many spells and days (PT-9).

A ``Timetable`` has its ``slots`` in the order of time. A ``Slot`` is work without a break at one glue-up: one go, or several of
its goes one after the other. Times are in minutes from the beginning of the day's work: ``start``, ``stop`` when the hands are
free, ``free`` when its last clamps come off. A ``spell`` is work without a wait between; ``day`` counts from 1. What cures over
night is ready in the morning.

How it is found: by hand, as a maker would. At any moment the first glue-up that can be begun is begun: its parts are out of their
clamps, the clamps it needs are free, and it can be done before the day ends; those that most others wait for come first (frame
and case before drawers). Where there is none, the clock goes on to the next clamps that come off. That is not always the shortest
there is, and nobody works by the minute.
"""

from __future__ import annotations

from itertools import islice
from math import ceil
from typing import TYPE_CHECKING, Final

from joinlay.assembly.clamping import clamps_lacking
from joinlay.assembly.glue_ups import Hold, clamps_to_have
from joinlay.lengths import Fraction
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from joinlay.assembly.clamping import ClampRow
    from joinlay.assembly.glue_ups import GlueUp, Go
    from joinlay.shop import Clamps, Shop

__all__ = ["Slot", "Timetable", "timetable_of"]


@dataclass(frozen=True, slots=True)
class Slot:
    """Work without a break at one glue-up: ``goes`` of it, one after the other.

    Times in minutes from the start of the ``day``: ``frees`` is when each of the goes is out of its clamps.
    """

    glue_up: GlueUp
    goes: tuple[Go, ...]
    day: int
    spell: int
    start: int
    stop: int
    frees: tuple[int, ...]

    @property
    def free(self) -> int:
        """When its last clamps come off."""
        return self.frees[-1]

    def curing(self, day: int, minute: int) -> tuple[Go, ...]:
        """The goes that stand in their clamps then, or have not set."""
        return tuple(go for go, free in zip(self.goes, self.frees, strict=True) if self.day == day and self.stop <= minute < free)


@dataclass(frozen=True, slots=True)
class Timetable:
    """When each glue-up is done; see the head of this module. ``clamps`` are those it was reckoned with: the maker's, or the
    fewest that do.
    """

    slots: tuple[Slot, ...]
    clamps: tuple[Clamps, ...]

    @property
    def spells(self) -> int:
        """How often one goes to the bench."""
        return max((slot.spell for slot in self.slots), default=0)

    @property
    def days(self) -> int:
        """On how many days."""
        return max((slot.day for slot in self.slots), default=0)

    @property
    def minutes(self) -> int:
        """How long the hands are busy in all."""
        return sum(slot.stop - slot.start for slot in self.slots)

    def meanwhile(self, slot: Slot) -> tuple[Slot, ...]:
        """What is begun while ``slot`` cures, the same day (PT-9)."""
        return tuple(other for other in self.slots if slot.curing(other.day, other.start))


def timetable_of(glue_ups: Sequence[GlueUp], shop: Shop) -> Timetable:
    """When each of the ``glue_ups`` is done, with the clamps of ``shop``; with the fewest that do where it doesn't say (PT-9).

    A glue-up that lacks clamps is reckoned as if it had them: ``checks`` says what is lacking.
    """
    need = clamps_to_have(glue_ups, shop.rule.unit)
    return _Clock(glue_ups, shop, need if shop.clamps is None else shop.clamps).told()


#: Minutes of waiting for which nobody leaves the bench. Source: our own choice.
_PAUSE: Final = 15


@dataclass(frozen=True, slots=True)
class _Task:
    glue_up: GlueUp
    go: Go
    number: int
    after: tuple[int, ...]
    """Tasks that must be out of their clamps."""
    behind: int | None
    """The task that must have been begun."""
    rank: int


class _Clock:
    """A day's work after the other. What was done is kept by the tasks' numbers."""

    def __init__(self, glue_ups: Sequence[GlueUp], shop: Shop, clamps: tuple[Clamps, ...]) -> None:
        practice = shop.practice
        self._clamps = clamps
        self._set_up = practice.ratio("minutes to set up a glue-up")
        self._day_long = ceil(practice.ratio("hours at the bench") * 60)
        self._cures = ceil(Fraction(shop.glue.clamp_time, 60))
        self._tasks = list(_tasks(glue_ups))
        self._free: dict[int, tuple[int, int]] = {}
        self._standing: dict[int, _Task] = {}
        self._day, self._now, self._spell = 1, 0, 1
        self._slots: list[Slot] = []

    def told(self) -> Timetable:
        left = sorted(self._tasks, key=lambda task: (task.rank, task.number))
        while left:
            standing = [row for other in self._curing() for row in other.go.clamps]
            task = next((one for one in left if self._can_begin(one, standing)), None)
            if task is None:
                self._wait()
                continue
            left.remove(task)
            self._do(task)
        return Timetable(tuple(self._slots), self._clamps)

    def _can_begin(self, task: _Task, standing: Sequence[ClampRow]) -> bool:
        """Whether it may be begun now, while other clamps are ``standing``."""
        if not self._is_ready(task) or (self._now and self._now + self._takes(task) > self._day_long):
            return False
        # What the clamps there are never do for is begun when all of them are free.
        if not standing:
            return True
        wanted = [row for other in self._with(task) for row in other.go.clamps]
        return not clamps_lacking([*standing, *wanted], self._clamps)[0]

    def _with(self, task: _Task) -> Iterator[_Task]:
        """The task, and of strips that are alike as many as there are clamps for, unless some of them were begun just now."""
        yield task
        if task.glue_up.steps[0].is_whole and not self._goes_on(task):
            left = (one for one in self._tasks if one.glue_up is task.glue_up and one.number > task.number)
            yield from islice(left, task.glue_up.at_once - 1)

    def _goes_on(self, task: _Task) -> bool:
        """True where what was just done was of the same glue-up."""
        last = self._slots[-1] if self._slots else None
        return last is not None and last.glue_up is task.glue_up and (last.day, last.stop) == (self._day, self._now)

    def _is_ready(self, task: _Task) -> bool:
        return all(n in self._free and self._is_past(self._free[n]) for n in task.after) and (
            task.behind is None or task.behind in self._free
        )

    def _is_past(self, time: tuple[int, int]) -> bool:
        return time <= (self._day, self._now)

    def _curing(self) -> Iterable[_Task]:
        """What is in its clamps now. No time comes again, so what is past is asked no more."""
        self._standing = {n: task for n, task in self._standing.items() if not self._is_past(self._free[n])}
        return self._standing.values()

    def _takes(self, task: _Task) -> int:
        """Its minutes; what goes on at the same glue-up is laid ready already."""
        is_more = self._goes_on(task) and not _is_big(task)
        return ceil(Fraction(task.go.seconds, 60) + (0 if is_more else self._set_up))

    def _do(self, task: _Task) -> None:
        takes = self._takes(task)
        stop = self._now + takes
        free = stop + (0 if task.glue_up.hold is Hold.FASTENERS else self._cures)
        goes: tuple[Go, ...] = (task.go,)
        frees: tuple[int, ...] = (free,)
        start = self._now
        if self._goes_on(task):
            last = self._slots.pop()
            goes, frees, start = (*last.goes, task.go), (*last.frees, free), last.start
        elif self._slots and (self._slots[-1].day < self._day or self._now - self._slots[-1].stop >= _PAUSE):
            self._spell += 1
        self._slots.append(Slot(task.glue_up, goes, self._day, self._spell, start, stop, frees))
        self._now = stop
        self._free[task.number] = (self._day, free)
        self._standing[task.number] = task

    def _wait(self) -> None:
        """On to the next clamps that come off, or to the next day."""
        coming = [minute for day, minute in self._free.values() if day == self._day and minute > self._now]
        if coming and min(coming) < self._day_long:
            self._now = min(coming)
        else:
            self._day, self._now = self._day + 1, 0


def _is_big(task: _Task) -> bool:
    """True where each go has its own clamps to lay ready and its own diagonals to measure."""
    return not task.glue_up.steps[0].is_whole and task.glue_up.hold is Hold.CLAMPS


def _tasks(glue_ups: Sequence[GlueUp]) -> Iterator[_Task]:
    """Each go once, with what it waits for: all goes before it that its own parts were in."""
    touched: dict[object, int] = {}
    number = 0
    before: int | None = None
    for one in glue_ups:
        is_whole = one.steps[0].is_whole
        own: dict[object, int] = {}
        for go in one.goes:
            roles = {role for met in go.glued for role in (met.one, met.other)}
            after = {touched[role] for role in roles if role in touched}
            rank = 1 if is_whole else 2 if one.is_of_drawers else 0
            yield _Task(one, go, number, tuple(sorted(after)), before if is_whole else None, rank)
            own |= dict.fromkeys(roles, number)
            if is_whole:
                before = number
            number += 1
        touched |= own
