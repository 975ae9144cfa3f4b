"""Spreading labels: each as near as can be to the place it speaks of, none on another, their order kept."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from joinlay.lengths import Fraction

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["spread"]


@dataclass(slots=True)
class _Run:
    """Labels pushed together: where the first would have to begin for all to lie best, how many they are, and the sum behind that."""

    total: Fraction
    count: int

    @property
    def best(self) -> Fraction:
        return self.total / self.count


def spread(wanted: Sequence[Fraction], sizes: Sequence[Fraction], low: Fraction) -> tuple[Fraction, ...]:
    """The middles of labels of these ``sizes`` that stand in a row, each as near to the middle ``wanted`` as the others let it.

    ``wanted`` rises. The sum of the squares of what they are moved by is the least there is (labels that touch move as one; derived), and
    none reaches below ``low``. All in mm. No rule.
    """
    before = Fraction(0)
    ahead: list[Fraction] = []
    runs: list[_Run] = []
    for middle, size in zip(wanted, sizes, strict=True):
        # Counted without the labels below it, every label wants a place, and those places must rise.
        ahead.append(before + size / 2)
        runs.append(_Run(middle - before - size / 2, 1))
        before += size
        while len(runs) > 1 and runs[-2].best > runs[-1].best:
            last = runs.pop()
            runs[-1].total += last.total
            runs[-1].count += last.count
    places = [max(low, run.best) for run in runs for _ in range(run.count)]
    return tuple(place + offset for place, offset in zip(places, ahead, strict=True))
