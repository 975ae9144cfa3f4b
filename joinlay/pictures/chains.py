"""Dimensions one after the other along one line (chain dimensions of ISO 129-1), each figure where it has room.

A figure that has no room between its two strokes stands beside the line: at the ends outside, elsewhere on the other side of it.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations, pairwise
from typing import TYPE_CHECKING, Final

from joinlay.geometry import overlap
from joinlay.lengths import Fraction
from joinlay.pen.lettering import set_line
from joinlay.pen.marks import Align, Line, Role, Text, text_box

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Stroke

__all__ = ["LevelChain", "Stop", "UprightChain", "spread"]

#: From the wood to its extension lines, past the dimension line, half an oblique stroke, from a line to its figure.
_GAP, _PAST, _STROKE, _ABOVE = Fraction(1), Fraction(3, 2), Fraction(1), Fraction(4, 5)
#: White beside a figure that stands between its strokes, and between two figures.
_WHITE: Final = Fraction(1)

#: Where a length ends, in mm on paper, and the figure of the length from there to the next one (empty: none is said).
Stop = tuple[Fraction, "Content"]


def spread(wanted: Sequence[tuple[Fraction, Fraction]], low: Fraction, high: Fraction) -> list[Fraction] | None:
    """Middles for things that want to stand at ``wanted`` (middle, height), from the highest down, none over another.

    Each as near to where it wants to be as those above allow, all from ``low`` to ``high``; None where they don't fit.
    """
    if sum((height for _, height in wanted), Fraction(0)) > high - low:
        return None
    tops, floor = [], high
    for middle, height in wanted:
        tops.append(min(middle + height / 2, floor))
        floor = tops[-1] - height
    ground = low
    for n in reversed(range(len(tops))):
        tops[n] = max(tops[n], ground + wanted[n][1])
        ground = tops[n]
    return [top - height / 2 for top, (_, height) in zip(tops, wanted, strict=True)]


@dataclass(frozen=True, slots=True)
class LevelChain:
    """Lengths from ``stops`` to the next along a level line at ``y``, under the wood, whose underside is at ``wood``.

    ``is_inner`` where the lines of a longer dimension pass its ends: then no figure stands outside them.
    """

    stops: tuple[Stop, ...]
    y: Fraction
    wood: Fraction
    says: str = ""
    is_inner: bool = False

    @property
    def is_roomy(self) -> bool:
        """Whether every figure has room between its strokes."""
        pairs = pairwise(self.stops)
        return all(set_line(content).width + 2 * _WHITE <= x1 - x0 for (x0, content), (x1, _) in pairs if content)

    @property
    def fits(self) -> bool:
        """Whether every figure has room, between its strokes, outside them or under the line."""
        boxes = [text_box(text) for text in self._figures()]
        low, high = self.stops[0][0], self.stops[-1][0]
        # Where a longer dimension goes on, its lines pass the ends: a figure stands within them, or quite outside.
        is_clear = all(
            (low < box[0] and box[2] < high) or (not self.is_inner and (box[2] < low or high < box[0])) for box in boxes
        )
        return is_clear and not any(overlap(one, two) for one, two in combinations(boxes, 2))

    def spelled(self) -> Iterator[Stroke]:
        """Extension lines, the line, its strokes, the figures."""
        xs = [x for x, _ in self.stops]
        for x in xs:
            yield Line((x, self.wood - _GAP), (x, self.y - _PAST), Role.DIMENSION)
            yield _oblique(x, self.y)
        yield Line((xs[0], self.y), (xs[-1], self.y), Role.DIMENSION, self.says)
        yield from self._figures()

    def _figures(self) -> Iterator[Text]:
        last = len(self.stops) - 2
        taken = [self.stops[0][0] + _WHITE] * 3
        for n, ((x0, content), (x1, _)) in enumerate(pairwise(self.stops)):
            if not content:
                continue
            line = set_line(content)
            up = self.y + _ABOVE + line.fall
            if line.width + 2 * _WHITE <= x1 - x0:
                yield Text(((x0 + x1) / 2, up), content, Align.MIDDLE)
            elif n == 0 and not self.is_inner:
                yield Text((x0 - _WHITE - _STROKE, self.y - line.rise / 2), content, Align.RIGHT)
            elif n == last and not self.is_inner:
                yield Text((x1 + _WHITE + _STROKE, self.y - line.rise / 2), content)
            else:
                left = min((x0 + x1 - line.width) / 2, self.stops[-1][0] - _WHITE - line.width)
                left = max(left, self.stops[0][0] + _WHITE)
                row = next((row for row, end in enumerate(taken) if end <= left), len(taken) - 1)
                taken[row] = left + line.width + _WHITE
                down = self.y - _PAST - _WHITE - line.rise - row * (line.rise + line.fall + _WHITE)
                yield Text((left, down), content)


@dataclass(frozen=True, slots=True)
class UprightChain:
    """Lengths from ``stops`` to the next, from below, along an upright line at ``x``, beside the wood, whose side is at ``wood``.

    The figures read level, on the side away from the wood, from ``low`` to ``high`` at most. ``fits`` says whether they all have room.
    """

    stops: tuple[Stop, ...]
    x: Fraction
    wood: Fraction
    low: Fraction
    high: Fraction
    says: str = ""

    @property
    def wide(self) -> Fraction:
        """How far the figures reach from the line."""
        return 2 * _PAST + 2 + max((set_line(content).width for _, content in self.stops if content), default=Fraction(0))

    @property
    def _sign(self) -> int:
        return -1 if self.x < self.wood else 1

    def _wanted(self) -> list[tuple[Fraction, Content]]:
        pairs = pairwise(self.stops)
        return [((y0 + y1) / 2, content) for (y0, content), (y1, _) in pairs if content][::-1]

    def _middles(self) -> list[Fraction] | None:
        wanted = [(y, set_line(content).rise + set_line(content).fall + _WHITE) for y, content in self._wanted()]
        return spread(wanted, self.low, self.high)

    @property
    def fits(self) -> bool:
        """Whether every figure has room."""
        return self._middles() is not None

    def spelled(self) -> Iterator[Stroke]:
        """Extension lines, the line, its strokes, the figures, each with a line to its length where it had to give way."""
        ys, sign = [y for y, _ in self.stops], self._sign
        for y in ys:
            yield Line((self.wood + sign * _GAP, y), (self.x + sign * _PAST, y), Role.DIMENSION)
            yield _oblique(self.x, y)
        yield Line((self.x, ys[0]), (self.x, ys[-1]), Role.DIMENSION, self.says)
        for (wanted, content), y in zip(self._wanted(), self._middles() or (), strict=True):
            line = set_line(content)
            out = _PAST + Fraction(1, 2)
            if y != wanted:
                out += 2
                yield Line((self.x, wanted), (self.x + sign * (out - Fraction(1, 2)), y), Role.DIMENSION)
            yield Text((self.x + sign * out, y - (line.rise - line.fall) / 2), content, Align.RIGHT if sign < 0 else Align.LEFT)


def _oblique(x: Fraction, y: Fraction) -> Line:
    return Line((x - _STROKE, y - _STROKE), (x + _STROKE, y + _STROKE), Role.DIMENSION)
