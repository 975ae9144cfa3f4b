"""Where points may stand on a line, and the most even row of them: exact, on plain fractions.

``spacing`` puts this to work for mortises. A row is a first place, a last place, and the rest between, each in one of the closed
intervals that keep-outs leave free. For a row of known count the least possible largest gap is one of (end - end) / steps, taken
over the ends of the free intervals and whole numbers of steps: the constraints are differences along a chain, so what binds is
always a run of equal gaps between two such ends. The same holds for the smallest gap. So both are found by trying those few
numbers, each test being one sweep of reachable intervals along the line.
"""

from __future__ import annotations

from bisect import bisect_left
from functools import lru_cache
from itertools import pairwise
from math import ceil
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from joinlay.lengths import Fraction

__all__ = ["Free", "free", "lay_out", "nearest"]

#: Closed intervals, in order, none touching another.
Free = tuple[tuple["Fraction", "Fraction"], ...]


def free(low: Fraction, high: Fraction, blocked: Iterable[tuple[Fraction, Fraction]]) -> Free:
    """What the open intervals ``blocked`` leave of the closed interval from ``low`` to ``high``; a single point counts (LT-7,
    LT-11).
    """
    pieces, at = [], low
    for start, stop in sorted(blocked):
        if stop <= at:
            continue
        if at <= min(start, high):
            pieces.append((at, min(start, high)))
        at = stop
    if at <= high:
        pieces.append((at, high))
    return tuple(pieces)


def nearest(place: Fraction, pieces: Iterable[tuple[Fraction, Fraction]]) -> Fraction:
    """The point of ``pieces`` (at least one) nearest to ``place``; the lower of two that are as near (LT-10)."""
    return min((min(max(place, low), high) for low, high in pieces), key=lambda point: (abs(point - place), point))


@lru_cache(maxsize=512)
def lay_out(firsts: Free, others: Free, least: Fraction, most: Fraction, middle: Fraction) -> tuple[Fraction, ...]:
    """The row of places: the first as near the start, the last as near the end, as they are free (LT-7 to LT-10; derived).

    ``firsts`` are free for the first of the row, ``others`` for the rest; gaps are ``least`` or more. Of all rows the fewest
    places whose largest gap is within ``most``. Among those the largest gap is the least there can be, then the smallest as large
    as it can be, and each place stands as near its even one as that lets it. Where a stretch without room is wider than ``most``,
    each side of it is laid out so by itself; where no count keeps to ``most`` for other reasons, the fewest places with the least
    largest gap. One place, nearest ``middle``, where two don't fit; none where ``firsts`` is empty. ``least`` and ``most`` are
    greater than zero.
    """
    if not firsts:
        return ()
    start = firsts[0][0]
    if not others or others[-1][1] - start < least:
        return (nearest(middle, firsts),)
    from_start = ((start, start), *((max(low, start), high) for low, high in others if high >= start))
    runs = _runs(from_start, max(least, most))
    if len(runs) == 1:
        return _one_row(runs[0], least, most)
    return _rows_apart(runs, least, most)


def _runs(pieces: Free, widest: Fraction) -> list[Free]:
    """The intervals in runs, each parted from the next by a stretch without room wider than ``widest``."""
    runs: list[list[tuple[Fraction, Fraction]]] = [[pieces[0]]]
    for piece in pieces[1:]:
        if piece[0] - runs[-1][-1][1] > widest:
            runs.append([])
        runs[-1].append(piece)
    return [tuple(run) for run in runs]


def _one_row(run: Free, least: Fraction, most: Fraction) -> tuple[Fraction, ...]:
    """The best row from the start of the run to its end, which are at least ``least`` apart."""
    start, stop = run[0][0], run[-1][1]
    evenly = _even_row(start, stop, ceil((stop - start) / most) + 1)
    if stop - start >= least * (len(evenly) - 1) and all(_is_free(place, run) for place in evenly):
        return evenly
    row = _Row(start, stop, run)
    count = row.fewest(least, most)
    if count is None:
        most = row.least_largest(least, most)
        count = row.fewest(least, most) or 2
    return row.most_even(count, least, most)


def _rows_apart(runs: list[Free], least: Fraction, most: Fraction) -> tuple[Fraction, ...]:
    """A row in each run. In a run too short for two stands one: at the end of the line in the first and the last, else midway.

    Midway is between its neighbours, as near as keeps the widest gap of all the least it can be. Where the runs by themselves
    can't keep that, as with mortises so wide that two hardly fit, all of them are one row.
    """
    start, stop = runs[0][0][0], runs[-1][-1][1]
    whole = _Row(start, stop, tuple(piece for run in runs for piece in run))
    widest = whole.least_largest(least, most)
    # The lowest place in each run from which the next is not too far.
    lows = [run[0][0] for run in runs]
    lows[-1] = stop if _is_short(runs[-1], least) else lows[-1]
    for n in range(len(runs) - 2, 0, -1):
        if _is_short(runs[n], least):
            lows[n] = nearest(lows[n + 1] - widest, _both(runs[n], ((lows[n + 1] - widest, stop),)))
    row: list[Fraction] = []
    for n, run in enumerate(runs):
        if not _is_short(run, least):
            row += _one_row(run, least, most)
        elif n in (0, len(runs) - 1):
            row.append(lows[n])
        else:
            window = ((lows[n + 1] - widest, row[-1] + widest),)
            row.append(nearest((row[-1] + lows[n + 1]) / 2, _both(window, run)))
    if max(after - before for before, after in pairwise(row)) > widest:
        return whole.most_even(whole.fewest(least, widest) or 2, least, widest)
    return tuple(row)


def _is_short(run: Free, least: Fraction) -> bool:
    """True where the run has no room for two places."""
    return run[-1][1] - run[0][0] < least


class _Row:
    """Rows that begin at ``start`` and end at ``stop``, the ends of the intervals ``others``."""

    def __init__(self, start: Fraction, stop: Fraction, others: Free) -> None:
        self.start, self.stop, self.others = start, stop, others
        self._ends = sorted({end for piece in others for end in piece})

    def fewest(self, least: Fraction, most: Fraction) -> int | None:
        """The fewest places with every gap from ``least`` to ``most``; None where no count will do."""
        for count, reached in enumerate(self._sweep(least, most), start=1):
            if count > 1 and reached and reached[-1][1] == self.stop:
                return count
        return None

    def least_largest(self, least: Fraction, most: Fraction) -> Fraction:
        """The least largest gap of any row, known to be over ``most``."""
        tries = sorted(self._candidates(most, self.stop - self.start) | {least})
        return _first_that(tries, lambda gap: self.fewest(least, gap) is not None)

    def _candidates(self, least: Fraction, most: Fraction, longest: int | None = None) -> set[Fraction]:
        """Every gap from ``least`` to ``most`` that may bind: a distance between two ends, over whole steps, ``longest`` of them
        at most.
        """
        found = set()
        for n, low in enumerate(self._ends):
            for high in self._ends[n + 1 :]:
                first, last = ceil((high - low) / most), (high - low) // least
                last = last if longest is None else min(last, longest)
                found |= {(high - low) / steps for steps in range(max(1, first), last + 1)}
        return found

    def most_even(self, count: int, least: Fraction, most: Fraction) -> tuple[Fraction, ...]:
        """The most even row of ``count`` places; there is one with every gap from ``least`` to ``most``."""
        even = (self.stop - self.start) / (count - 1)
        tries = sorted(self._candidates(even, most) | {most})
        most = _first_that(tries, lambda gap: self._is_possible(count, least, gap))
        tries = sorted(self._candidates(least, even, count - 1) | {least}, reverse=True)
        least = _first_that(tries, lambda gap: self._is_possible(count, gap, most))
        return self._nearest_even(count, least, most)

    def _is_possible(self, count: int, least: Fraction, most: Fraction) -> bool:
        *_, reached = self._sweep(least, most, count)
        return bool(reached) and reached[-1][1] == self.stop

    def _nearest_even(self, count: int, least: Fraction, most: Fraction) -> tuple[Fraction, ...]:
        """The row with gaps from ``least`` to ``most``, taken back from its end, each place as near its even one as can be."""
        evenly, row = _even_row(self.start, self.stop, count), [self.stop]
        reached = list(self._sweep(least, most, count))
        for n in range(count - 2, 0, -1):
            window = ((row[-1] - most, row[-1] - least),)
            row.append(nearest(evenly[n], _both(window, reached[n])))
        return (self.start, *reversed(row))

    def _sweep(self, least: Fraction, most: Fraction, count: int | None = None) -> Iterator[Free]:
        """Where the first place may stand, then the second, and so on: ``count`` of them, or until there is no room."""
        reached: Free = ((self.start, self.start),)
        steps = 1
        yield reached
        while reached if count is None else steps < count:
            reached = _both(_joined([(low + least, high + most) for low, high in reached]), self.others)
            steps += 1
            yield reached


def _even_row(start: Fraction, stop: Fraction, count: int) -> tuple[Fraction, ...]:
    gap = (stop - start) / (count - 1)
    return (*(start + gap * n for n in range(count - 1)), stop)


def _is_free(place: Fraction, pieces: Free) -> bool:
    return any(low <= place <= high for low, high in pieces)


def _joined(pieces: list[tuple[Fraction, Fraction]]) -> Free:
    """The same points, with intervals that meet made one; ``pieces`` are in order of their starts."""
    joined: list[tuple[Fraction, Fraction]] = []
    for low, high in pieces:
        if joined and low <= joined[-1][1]:
            joined[-1] = (joined[-1][0], max(joined[-1][1], high))
        else:
            joined.append((low, high))
    return tuple(joined)


def _both(one: Free, other: Free) -> Free:
    """The points that lie in both."""
    met = ((max(a, c), min(b, d)) for a, b in one for c, d in other)
    return tuple((low, high) for low, high in met if low <= high)


def _first_that(tries: list[Fraction], is_so: Callable[[Fraction], bool]) -> Fraction:
    """The first of ``tries`` that is so; all after it are so too."""
    return tries[bisect_left(tries, 1, key=lambda gap: int(is_so(gap)))]
