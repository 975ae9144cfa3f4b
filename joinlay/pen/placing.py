"""Finding room for words: nothing that is read may lie on anything that is drawn.

Where a word stands need not be exact, only clear of everything else, so boxes here are in whole micrometres. What is drawn is rounded
outwards, so that looking is quick and never lets two things touch.
"""

from __future__ import annotations

from math import ceil, floor
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Iterable

    from joinlay.pen.marks import Box

__all__ = ["CLEAR", "MM", "Room", "Whole", "whole"]

#: Micrometres in a millimetre.
MM: Final = 1000
#: Paper left white around every line of words, in micrometres.
CLEAR: Final = 4 * MM // 5

#: A box in whole micrometres: left, bottom, right, top.
Whole = tuple[int, int, int, int]

#: A kilometre each way: more than any paper.
ANYWHERE: Final[Whole] = (-(10**9), -(10**9), 10**9, 10**9)


def whole(box: Box) -> Whole:
    """A box in whole micrometres that holds ``box``, which is in mm."""
    x0, y0, x1, y1 = box
    return (floor(x0 * MM), floor(y0 * MM), ceil(x1 * MM), ceil(y1 * MM))


class Room:
    """What is taken on a piece of paper. ``within`` is where words may go at all (anywhere, unless given). All in micrometres."""

    __slots__ = ("_taken", "_within")

    def __init__(self, taken: Iterable[Whole] = (), within: Whole = ANYWHERE) -> None:
        """Begin with the boxes already ``taken``; a line is a box with no width."""
        self._taken: list[Whole] = list(taken)
        self._within = within

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
        return all(x1 <= a or c <= x0 or y1 <= b or d <= y0 for a, b, c, d in self._taken)

    def first_free(self, candidates: Iterable[Whole], clear: int = CLEAR) -> Whole | None:
        """The first of ``candidates`` that is free; None where none is. It is not taken yet."""
        return next((box for box in candidates if self.is_free(box, clear)), None)

    def first_free_above(self, bottoms: Iterable[int], left: int, wide: int, high: int, clear: int = CLEAR) -> Whole | None:
        """The first of ``bottoms`` above which a box of this size is free, its left side at ``left``; quick where many are to be tried."""
        x0, x1 = left - clear, left + wide + clear
        if x0 < self._within[0] or x1 > self._within[2]:
            return None
        lowest, highest = self._within[1] + clear, self._within[3] - clear - high
        spans = [(b - clear - high, d + clear) for a, b, c, d in self._taken if a < x1 and x0 < c]
        for y in bottoms:
            if lowest <= y <= highest and all(y <= below or above <= y for below, above in spans):
                return (left, y, left + wide, y + high)
        return None
