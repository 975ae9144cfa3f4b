"""Signs a maker knows at a glance: the datum edge, the hand of a part, and where the wood goes on."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction
from joinlay.pen.lettering import set_line, words
from joinlay.pen.marks import Align, Fill, Line, Polyline, Role, Text
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Point, Stroke

__all__ = ["BAR", "HAND_SIZE", "BreakLine", "DatumEdge", "HandSign"]

#: How thick the datum bar is; its upper side is the edge itself.
BAR: Final = Fraction(8, 5)
#: The side of a hand sign.
HAND_SIZE: Final = Fraction(12)

_BLACK: Final = Fraction(1)
_HALF_BASE, _HIGH, _ROW, _ASIDE = Fraction(2), Fraction(7, 2), Fraction(6, 5), Fraction(4)


@dataclass(frozen=True, slots=True)
class DatumEdge:
    """The edge the paper is laid on: a heavy bar under it, its words below, between triangles that point at it.

    ``left`` and ``right`` are the ends of the bar on the edge, at one height; ``middle`` is where the words are centred.
    """

    left: Point
    right: Point
    middle: Fraction
    content: Content

    def spelled(self) -> Iterator[Stroke]:
        """The bar, the words, the triangles."""
        (x0, y), (x1, _) = self.left, self.right
        yield Fill(((x0, y - BAR), (x1, y - BAR), (x1, y), (x0, y)), _BLACK)
        line = set_line(self.content)
        row = y - BAR - _ROW
        yield Text((self.middle, row - line.rise), self.content, Align.MIDDLE, role=Role.DATUM)
        for side in (-1, 1):
            tip = self.middle + side * (line.width / 2 + _ASIDE)
            yield Fill(((tip, row), (tip - _HALF_BASE, row - _HIGH), (tip + _HALF_BASE, row - _HIGH)), _BLACK)

    @staticmethod
    def room(content: Content) -> tuple[Fraction, Fraction]:
        """How wide the words and triangles are together, and how far they reach below the edge."""
        line = set_line(content)
        return line.width + 2 * (_ASIDE + _HALF_BASE), BAR + _ROW + max(line.rise + line.fall, _HIGH)


@dataclass(frozen=True, slots=True)
class HandSign:
    """Left or right, in a square that can't be taken for the other: white on black for left, black on white for right.

    ``corner`` is its lower left one.
    """

    corner: Point
    is_left: bool

    def spelled(self) -> Iterator[Stroke]:
        """The square and its letter."""
        x, y = self.corner
        square = ((x, y), (x + HAND_SIZE, y), (x + HAND_SIZE, y + HAND_SIZE), (x, y + HAND_SIZE))
        if self.is_left:
            yield Fill(square, _BLACK)
        else:
            yield Polyline(square, Role.OUTLINE, closed=True)
        letter = words("L" if self.is_left else "R", 7, bold=True)
        up = (HAND_SIZE - 7) / 2
        yield Text((x + HAND_SIZE / 2, y + up), letter, Align.MIDDLE, ink=Fraction(0) if self.is_left else _BLACK)


@dataclass(frozen=True, slots=True)
class BreakLine:
    """Where the drawing stops and the wood goes on: a thin line with zigzags, upright or level (ISO 128)."""

    start: Point
    stop: Point

    def spelled(self) -> Iterator[Stroke]:
        """One polyline, or a plain line where there is no room for a zigzag."""
        (x, y), (x1, y1) = self.start, self.stop
        long = max(abs(x1 - x), abs(y1 - y))
        if long < 12:
            yield Line(self.start, self.stop, Role.BREAK)
            return
        run, aside = ((x1 - x) / long, (y1 - y) / long), (-(y1 - y) / long, (x1 - x) / long)
        points = [self.start]
        for share in (Fraction(1, 4), Fraction(3, 4)):
            for on, off in ((-2, 0), (-1, 2), (1, -2), (2, 0)):
                at = long * share + on
                points.append((x + run[0] * at + aside[0] * off, y + run[1] * at + aside[1] * off))
        yield Polyline((*points, self.stop), Role.BREAK)
