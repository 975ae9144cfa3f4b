"""Finding room for words: nothing that is read may lie on anything that is drawn.

The problem: a dozen figures and names want to stand by what they speak of, on a sheet that lines cross already. There are two
answers. ``Room`` knows every box that is taken and says of a place whether it is free: the caller offers places, the best first,
and takes the first one that is. That costs a look at every box near by for each place tried; nothing is moved once it stands, so
an early word may take the only room of a later one (callers therefore set first what has the fewest places). ``spread`` and
``spread_down`` are for labels in one row, which all move a little instead: they keep their order, and take time in line with
their number.

Where a word stands need not be exact, only clear of everything else, so the boxes of ``Room`` are in whole micrometres. What is
drawn is rounded outwards, so that looking is quick and never lets two things touch.
"""

from __future__ import annotations

from bisect import bisect_left
from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from joinlay.geometry import Box

__all__ = ["CLEAR", "MM", "Room", "Whole", "spread", "spread_down", "whole"]

#: Micrometres in a millimetre.
MM: Final = 1000
#: Paper left white around every line of words, in micrometres.
CLEAR: Final = 4 * MM // 5

#: A box in whole micrometres: left, bottom, right, top.
Whole = tuple[int, int, int, int]

#: A kilometre each way: more than any paper.
ANYWHERE: Final[Whole] = (-(10**9), -(10**9), 10**9, 10**9)

#: How high a strip is that boxes are looked up by, in micrometres, and up to how many boxes are looked at one by one.
_STRIP: Final = 8 * MM
_FEW: Final = 24


def whole(box: Box) -> Whole:
    """A box in whole micrometres that holds ``box``, which is in mm."""
    x0, y0, x1, y1 = box
    # Rounded down and up in whole numbers, which takes a third of the time of a product of fractions.
    return (
        x0.numerator * MM // x0.denominator,
        y0.numerator * MM // y0.denominator,
        -(-x1.numerator * MM // x1.denominator),
        -(-y1.numerator * MM // y1.denominator),
    )


class Room:
    """What is taken on a piece of paper. ``within`` is where words may go at all (anywhere, unless given). All in micrometres."""

    __slots__ = ("_alike", "_filed", "_in_vain", "_rising", "_strips", "_taken", "_within")

    def __init__(self, taken: Iterable[Whole] = (), within: Whole = ANYWHERE) -> None:
        """Begin with the boxes already ``taken``; a line is a box with no width."""
        self._taken: list[Whole] = list(taken)
        self._within = within
        #: Boxes by the level strips of paper they reach into, and how many of those taken are filed there.
        self._strips: dict[int, list[Whole]] = {}
        self._filed = 0
        #: Those taken, by how high they begin.
        self._rising: list[Whole] = []
        #: For heights that were asked, by their ``id`` and what was asked with them: what had no room between which stretches.
        self._in_vain: dict[tuple[int, int, int], tuple[Iterable[int], list[tuple[int, int]]]] = {}
        #: And for a width and how many boxes there were: from which left side to which the same boxes lie over it.
        self._alike: dict[tuple[int, int, int, int, int], tuple[Iterable[int], int, int]] = {}

    def copied(self) -> Room:
        """The same room, to be taken further in another way."""
        return Room(self._taken, self._within)

    def take(self, box: Whole, white: int = 0) -> None:
        """Note that ``box``, and so much ``white`` all round it, is taken."""
        x0, y0, x1, y1 = box
        self._taken.append((x0 - white, y0 - white, x1 + white, y1 + white))

    def is_free(self, box: Whole, clear: int = CLEAR) -> bool:
        """True where ``box`` lies within bounds and at least ``clear`` from them and from everything taken."""
        x0, y0, x1, y1 = box[0] - clear, box[1] - clear, box[2] + clear, box[3] + clear
        left, bottom, right, top = self._within
        if x0 < left or y0 < bottom or x1 > right or y1 > top:
            return False
        # Loops as plain as can be: most of the time that words take is spent here.
        for boxes in self._near(y0, y1):
            for a, b, c, d in boxes:
                if a < x1 and x0 < c and b < y1 and y0 < d:
                    return False
        return True

    def _near(self, low: int, high: int) -> Sequence[list[Whole]]:
        """The boxes that may lie between two levels: all of them where they are few, else those of the strips between."""
        if len(self._taken) <= _FEW:
            return (self._taken,)
        strips = self._strips
        for box in self._taken[self._filed :]:
            for strip in range(box[1] // _STRIP, box[3] // _STRIP + 1):
                strips.setdefault(strip, []).append(box)
        self._filed = len(self._taken)
        return [strips[strip] for strip in range(low // _STRIP, high // _STRIP + 1) if strip in strips]

    def first_free(self, candidates: Iterable[Whole], clear: int = CLEAR) -> Whole | None:
        """The first of ``candidates`` that is free; None where none is. It is not taken yet."""
        return next((box for box in candidates if self.is_free(box, clear)), None)

    def first_free_above(self, bottoms: Iterable[int], left: int, wide: int, high: int, clear: int = CLEAR) -> Whole | None:
        """The first of ``bottoms`` above which a box of this size is free, its left side at ``left``; quick for many of them."""
        x0, x1 = left - clear, left + wide + clear
        if x0 < self._within[0] or x1 > self._within[2]:
            return None
        # Column after column is asked for the same heights, and most have the same boxes over them as the one before.
        column = id(bottoms), high, clear, wide, len(self._taken)
        alike = self._alike.get(column)
        if alike is not None and alike[0] is bottoms and alike[1] <= left < alike[2]:
            return None
        lowest, highest = self._within[1] + clear, self._within[3] - clear - high
        if len(self._rising) != len(self._taken):
            self._rising = sorted(self._taken, key=_bottom)
        stretches = [(b - clear - high, d + clear) for a, b, c, d in self._rising if a < x1 and x0 < c]
        asked = id(bottoms), high, clear
        if asked in self._in_vain and self._in_vain[asked][0] is bottoms and self._in_vain[asked][1] == stretches:
            self._alike[column] = bottoms, left, self._until(left, x0, x1)
            return None
        starts, ends = _joined(stretches)
        for y in bottoms:
            if lowest <= y <= highest:
                # The last stretch that begins below y is the only one that can hold it.
                before = bisect_left(starts, y)
                if not before or ends[before - 1] <= y:
                    return (left, y, left + wide, y + high)
        self._in_vain[asked] = bottoms, stretches
        self._alike[column] = bottoms, left, self._until(left, x0, x1)
        return None

    def _until(self, left: int, x0: int, x1: int) -> int:
        """Up to which left side, without it, the boxes over what reaches from ``x0`` to ``x1`` there are the same ones."""
        changes = (a - x1 + 1 if a >= x1 else c - x0 for a, _, c, _ in self._rising if x0 < c)
        return left + min(changes, default=ANYWHERE[2])


def _bottom(box: Whole) -> int:
    return box[1]


def _joined(stretches: Iterable[tuple[int, int]]) -> tuple[list[int], list[int]]:
    """Where ``stretches``, given by their rising starts, begin and end once those that share more than a point are one."""
    starts: list[int] = []
    ends: list[int] = []
    for start, end in stretches:
        if ends and start < ends[-1]:
            ends[-1] = max(ends[-1], end)
        else:
            starts.append(start)
            ends.append(end)
    return starts, ends


# -- labels in a row -----------------------------------------------------------------------------------


@dataclass(slots=True)
class _Run:
    """Labels pushed together: their ``count``, and the ``total`` of where each would have the first begin."""

    total: Fraction
    count: int

    @property
    def best(self) -> Fraction:
        return self.total / self.count


def spread(wanted: Sequence[Fraction], sizes: Sequence[Fraction], low: Fraction) -> tuple[Fraction, ...]:
    """The middles of labels of these ``sizes`` that stand in a row, each as near to the middle ``wanted`` as the others let it.

    ``wanted`` rises. The sum of the squares of what they are moved by is the least there is (labels that touch move as one;
    derived), and none reaches below ``low``. All in mm.
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


def spread_down(wanted: Sequence[tuple[Fraction, Fraction]], low: Fraction, high: Fraction) -> list[Fraction] | None:
    """Middles for labels that want to stand at ``wanted`` (middle, height), from the highest down, none over another.

    Each as near to where it wants to be as those above allow, all from ``low`` to ``high``; None where they don't fit. All in mm.
    """
    if sum((height for _, height in wanted), Fraction(0)) > high - low:
        return None
    tops, free = [], high
    for middle, height in wanted:
        tops.append(min(middle + height / 2, free))
        free = tops[-1] - height
    ground = low
    for n in reversed(range(len(tops))):
        tops[n] = max(tops[n], ground + wanted[n][1])
        ground = tops[n]
    return [top - height / 2 for top, (_, height) in zip(tops, wanted, strict=True)]
