"""Close packing: many small templates on few sheets, tried in several orders and ways, in whole micrometres so that it is quick.

Sheets that hold something already give the room that is left on them; others are opened as they are needed. Each try is a greedy
one over the largest free boxes (see ``packing``): the next template goes to the place that the way of the try calls best, and
never moves again. The first tries lay everything the right way up. The try that takes fewest sheets is kept, the first of
several; tries end as soon as no fewer could do, by area. The cost of a try is templates times free boxes, and some for what is
cut out of these.

What is found is good and not proved best. Sizes are rounded up and rooms down, by less than a micrometre, so nothing ever
overlaps.
"""

from __future__ import annotations

from itertools import pairwise
from math import ceil, floor
from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.pen.marks import Box

__all__ = ["Lain", "packed"]

#: Micrometres in a millimetre, and lower than anything on a sheet.
_UM, _LOWEST = 1000, -(10**9)
#: So many templates are laid in all tries together, but for the four plain ones, and so many tries there are at most.
_MOST_LAID, _MOST_TRIES = 700, 40
#: Sizes are weighed by the residues of this prime to get other orders, the same ones every time.
_PRIME: Final = 13

#: Left, bottom, right and top in whole micrometres.
_Box = tuple[int, int, int, int]
_Size = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Lain:
    """Where a template goes: the number of its sheet from 0, its lower left corner there in mm, and whether it lies turned a
    quarter.
    """

    sheet: int
    x: Fraction
    y: Fraction
    is_turned: bool


def packed(
    sizes: Sequence[tuple[Fraction, Fraction]], rooms: Sequence[Sequence[Box]], fresh: Sequence[Box], gap: Fraction
) -> tuple[Lain, ...]:
    """Where rectangles of ``sizes`` in mm go, in the order given (PR-4, PR-11).

    ``rooms`` are the free boxes of each sheet there is, ``fresh`` those of every sheet that is added; ``gap`` is kept between
    two. Each must fit one of ``fresh``. ValueError where it doesn't.
    """
    whole = [(ceil(wide * _UM), ceil(high * _UM)) for wide, high in sizes]
    begun, new = [_inside(boxes) for boxes in rooms], _inside(fresh)
    between = ceil(gap * _UM)
    least = len(begun) + _sheets_by_area(whole, begun, new, between)
    best: list[Lain] | None = None
    count = 0
    for order, way in _tries(whole):
        found = _Try(begun, new, between, way).laid(whole, order)
        many = max((one.sheet + 1 for one in found), default=0)
        if best is None or many < count:
            best, count = found, many
        if count <= least:
            break
    return tuple(best or ())


def _inside(boxes: Sequence[Box]) -> list[_Box]:
    return [(ceil(a * _UM), ceil(b * _UM), floor(c * _UM), floor(d * _UM)) for a, b, c, d in boxes]


def _sheets_by_area(sizes: Sequence[_Size], begun: Sequence[Sequence[_Box]], new: Sequence[_Box], gap: int) -> int:
    """No fewer sheets than so many can be added, by what all takes and what there is."""
    needed = sum((wide + gap) * (high + gap) for wide, high in sizes)
    there = sum(_reach(boxes, gap) for boxes in begun)
    return max(0, -(-(needed - there) // max(1, _reach(new, gap))))


def _reach(boxes: Sequence[_Box], gap: int) -> int:
    """How much ``boxes``, which overlap, cover together, each with the gap beside it."""
    wider = [(a, b, c + gap, d + gap) for a, b, c, d in boxes]
    sides = sorted({x for a, _, c, _ in wider for x in (a, c)})
    total = 0
    for left, right in pairwise(sides):
        top, high = _LOWEST, 0
        for b, d in sorted((b, d) for a, b, c, d in wider if a <= left and right <= c):
            high += max(0, d - max(b, top))
            top = max(top, d)
        total += (right - left) * high
    return total


def _tries(sizes: Sequence[_Size]) -> Iterator[tuple[list[int], str]]:
    """The orders to lay in, as numbers of ``sizes``, and the way of each: ``up``, ``snug`` or ``first``; the same ones every
    time.
    """
    area = [wide * high for wide, high in sizes]
    numbers = range(len(sizes))
    by_area = sorted(numbers, key=lambda n: -area[n])
    by_round = sorted(numbers, key=lambda n: -sum(sizes[n]))
    for way in ("up", "snug", "first"):
        yield by_area, way
    yield by_round, "snug"
    if not sizes:
        return
    for turn in range(1, min(_MOST_TRIES, _MOST_LAID // len(sizes))):
        # Each is taken for larger than it is, by up to so much again, in a pattern that is another every turn.
        weight = {n: area[n] * (_PRIME + 5 * (at + 1) * turn % _PRIME) for at, n in enumerate(by_area)}
        yield [n for _, n in sorted((-weight[n], n) for n in numbers)], ("snug", "first")[turn % 2]


class _Try:
    """Sheets being filled in one way."""

    def __init__(self, begun: Sequence[Sequence[_Box]], new: Sequence[_Box], gap: int, way: str) -> None:
        self.sheets = [list(boxes) for boxes in begun]
        self.new, self.gap, self.way = new, gap, way

    def laid(self, sizes: Sequence[_Size], order: Sequence[int]) -> list[Lain]:
        """Where each of ``sizes`` goes, laid in this ``order``."""
        places: dict[int, Lain] = {}
        for n in order:
            spot = self._best(sizes[n])
            if spot is None:
                self.sheets.append(list(self.new))
                spot = self._best(sizes[n], len(self.sheets) - 1)
            if spot is None:
                raise ValueError(f"{sizes[n]} fits on no sheet")
            at, x, y, is_turned = spot
            wide, high = sizes[n][::-1] if is_turned else sizes[n]
            self.sheets[at] = _less(self.sheets[at], (x, y, x + wide, y + high), self.gap)
            places[n] = Lain(at, Fraction(x, _UM), Fraction(y, _UM), is_turned)
        return [places[n] for n in range(len(sizes))]

    def _best(self, size: _Size, first: int = 0) -> tuple[int, int, int, bool] | None:
        """Sheet, left, bottom and turn of the best place from sheet number ``first`` on; None where there is none."""
        found: list[tuple[tuple[int, ...], int, int, int, bool]] = []
        for at in range(first, len(self.sheets)):
            for a, b, c, d in self.sheets[at]:
                for is_turned in (False, True):
                    wide, high = size[::-1] if is_turned else size
                    beside, below = c - a - wide, d - b - high
                    if beside < 0 or below < 0:
                        continue
                    snug = (min(beside, below), max(beside, below))
                    found.append((self._rank(snug, at, (a, d), is_turned=is_turned), at, a, d - high, is_turned))
            if found and self.way == "first":
                break
        return min(found)[1:] if found else None

    def _rank(self, snug: _Size, at: int, corner: tuple[int, int], *, is_turned: bool) -> tuple[int, ...]:
        """How good a place is, the least best: upright and early, with the least left beside it, or that on an early sheet."""
        if self.way == "up":
            return (is_turned, at, -corner[1], corner[0])
        return (*snug, at, corner[0]) if self.way == "snug" else (at, *snug, corner[0])


def _less(boxes: Sequence[_Box], taken: _Box, gap: int) -> list[_Box]:
    """The largest boxes free when ``taken``, and the gap around it, is free no longer."""
    x0, y0, x1, y1 = taken[0] - gap, taken[1] - gap, taken[2] + gap, taken[3] + gap
    kept: list[_Box] = []
    cut: list[_Box] = []
    for box in boxes:
        a, b, c, d = box
        if x1 <= a or c <= x0 or y1 <= b or d <= y0:
            kept.append(box)
            continue
        rests = ((a, b, x0, d), (x1, b, c, d), (a, b, c, y0), (a, y1, c, d))
        cut += [one for one in rests if one[0] < one[2] and one[1] < one[3]]
    # What was whole holds none of the others that was whole, so only what was cut can lie in another.
    for n, one in enumerate(cut):
        others = (*kept, *cut[n + 1 :])
        if not any(o[0] <= one[0] and o[1] <= one[1] and o[2] >= one[2] and o[3] >= one[3] for o in others):
            kept.append(one)
    return kept
