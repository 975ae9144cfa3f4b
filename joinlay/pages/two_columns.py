"""A chapter that is read in two columns: blocks one under the other, on from the foot of one column at the head of the next.

Lines of half a sheet are read without losing one's place, and a short line leaves half as much white as it would across the
whole. What stands ``over`` the columns is as wide as both. Pages are filled in their order, none goes back; only the columns of
the last are evened, so that what comes after it may begin high up.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction
from joinlay.pen.marks import Move, moved
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.pages.plain_sheet import PageBlock
    from joinlay.pen.marks import Stroke

__all__ = ["ColumnPage", "column_width", "in_columns"]

#: White between the two columns.
_GUTTER: Final = Fraction(6)
_ZERO: Final = Fraction(0)


def column_width(wide: Fraction) -> Fraction:
    """How wide each of two columns is on a page ``wide`` mm across."""
    return (wide - _GUTTER) / 2


@dataclass(frozen=True, slots=True)
class ColumnPage:
    """One page: what stands ``over`` its columns, as wide as both, and the blocks of each of these, the left one first."""

    over: tuple[PageBlock, ...]
    columns: tuple[tuple[PageBlock, ...], ...]

    @property
    def blocks(self) -> tuple[PageBlock, ...]:
        """All of them as they are read."""
        return (*self.over, *(block for column in self.columns for block in column))

    @property
    def height(self) -> Fraction:
        """How high it is, in mm, down to the foot of the longer column."""
        return _high(self.over) + max(map(_high, self.columns), default=_ZERO)

    def strokes(self, left: Fraction, top: Fraction, wide: Fraction) -> tuple[Stroke, ...]:
        """The page as strokes, down from ``top`` and on from ``left``, ``wide`` mm across, in the order it is read."""
        strokes: list[Stroke] = []
        for x, begins, blocks in self._stacks(left, top, wide):
            y = begins
            for block in blocks:
                strokes += (moved(stroke, Move(x, y)) for stroke in block.strokes)
                y -= block.height
        return tuple(strokes)

    def _stacks(
        self, left: Fraction, top: Fraction, wide: Fraction
    ) -> Iterator[tuple[Fraction, Fraction, tuple[PageBlock, ...]]]:
        """Where each stack of blocks begins, and they themselves."""
        yield left, top, self.over
        under = top - _high(self.over)
        for n, column in enumerate(self.columns):
            yield left + n * (column_width(wide) + _GUTTER), under, column


def in_columns(over: Sequence[PageBlock], blocks: Sequence[PageBlock], room: Fraction, begun: Fraction) -> list[ColumnPage]:
    """``blocks``, each a column wide, parted into pages of at most ``room`` mm, with what is ``over`` the columns of the first.

    No heading is last in a column; one block too high for a column has it alone. The first page has ``begun`` mm less, unless
    not even the first of the blocks has room there.
    """
    left = _without_white(blocks)
    heads, high = tuple(over), room - begun - _high(over)
    if not _many(left, high):
        high = room - _high(over)
    pages: list[ColumnPage] = []
    while left:
        columns: list[Sequence[PageBlock]] = []
        for _ in range(2):
            # One too high for any column isn't waited with.
            many = _many(left, high) or (0 if columns else _first(left))
            if many:
                columns.append(left[:many])
            left = _without_white(left[many:])
        pages.append(ColumnPage(heads, tuple(map(tuple, columns if left else _evened(columns)))))
        heads, high = (), room
    return pages


def _many(blocks: Sequence[PageBlock], high: Fraction) -> int:
    """How many of ``blocks`` go into a column so ``high``, with no heading last; white at its foot takes no room."""
    many = 0
    for n, block in enumerate(blocks, start=1):
        high -= block.height
        if high < 0 and block.strokes:
            break
        if not block.leads:
            many = n
    return many


def _first(blocks: Sequence[PageBlock]) -> int:
    """How many the first of ``blocks`` are that isn't a heading, and the headings before it."""
    return next((n for n, block in enumerate(blocks, start=1) if not block.leads), len(blocks))


def _evened(columns: Sequence[Sequence[PageBlock]]) -> list[Sequence[PageBlock]]:
    """The last ``columns`` of a chapter parted again, so that the higher of them is as low as it can be."""
    blocks = [block for column in columns for block in column]
    parted = [(blocks[:n], _without_white(blocks[n:])) for n in range(1, len(blocks) + 1) if not blocks[n - 1].leads]
    best = min(parted, key=lambda pair: max(map(_high, pair)), default=(blocks, []))
    return [column for column in best if column]


def _without_white(blocks: Sequence[PageBlock]) -> Sequence[PageBlock]:
    """``blocks`` without the white before the first that has anything in it."""
    return blocks[next((n for n, block in enumerate(blocks) if block.strokes), len(blocks)) :]


def _high(blocks: Sequence[PageBlock]) -> Fraction:
    """How high they are together, in mm; white at the foot takes no room."""
    high = sum((block.height for block in blocks), _ZERO)
    return high if not blocks or blocks[-1].strokes else high - blocks[-1].height
