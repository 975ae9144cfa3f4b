"""Small maps of the drawings that are tiled on a sheet: which of their tiles are on it, in black, and where they belong (PR-4).

Each is named by the match letters of its seams, which no other drawing has. They stand one after the other, row under row, as
words do, in cells as large as all of them have room for: a sheet never leaves one out.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.geometry import corners
from joinlay.lengths import Fraction
from joinlay.pages.seams import OVERLAP
from joinlay.pen.lettering import set_line, words
from joinlay.pen.marks import Align, Fill, Polyline, Role, Text
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.pen.marks import Box, Mark

__all__ = ["TileMap", "tile_maps"]

_TINY: Final = Fraction(9, 5)
#: What stands over the maps, and how much of the room it takes.
_SAID, _HEAD = "black: tiles on this sheet", Fraction(3)
#: Width and height of a cell, from the largest; the white between two rows of cells, and between two maps.
_CELLS: Final = ((Fraction(4), Fraction(13, 4)), (Fraction(10, 3), Fraction(5, 2)), (Fraction(5, 2), Fraction(11, 5)))
_ROW, _BETWEEN = Fraction(1), Fraction(2)
#: How high a map of tiles in rows and columns is, in cells, and how wide at most.
_HIGH, _WIDE = 2, 4
#: A map of more rows of cells than this shows those around the tiles that are here.
_MOST_ROWS: Final = 3


@dataclass(frozen=True, slots=True)
class TileMap:
    """Which tile of which drawing a sheet holds: the ``windows`` of all in the drawing's mm, and this one's ``number`` from 1.

    ``letters`` are the match letters of the drawing's seams, in their order.
    """

    windows: tuple[Box, ...]
    number: int
    letters: tuple[str, ...] = ()


def tile_maps(maps: Sequence[TileMap], room: Box) -> Iterator[Mark]:
    """A map of every tiled drawing that ``maps`` name, in the box ``room``, the tiles that are on the sheet in black (PR-4)."""
    by_drawing: dict[tuple[tuple[Box, ...], tuple[str, ...]], set[int]] = {}
    for one in maps:
        by_drawing.setdefault((one.windows, one.letters), set()).add(one.number)
    if not by_drawing:
        return
    left, bottom, right, top = room
    yield Text((left, top - _TINY), words(_SAID, _TINY))
    below = (left, bottom, right, top - _HEAD)
    drawn: list[_Drawn] = []
    places: list[tuple[Fraction, Fraction]] = []
    for cell in _CELLS:
        drawn = [_Drawn(windows, here, letters, cell, right - left) for (windows, letters), here in by_drawing.items()]
        places = _placed(drawn, below)
        if places or cell == _CELLS[-1]:
            break
    for each, (x, y) in zip(drawn, places or _placed(drawn, (left, bottom - 99, right, below[3])), strict=True):
        yield from each.marks(x, y)


@dataclass(frozen=True, slots=True)
class _Drawn:
    """One map: the tiles that are ``here`` in black, in cells of the size ``cell``, at most ``wide`` mm across."""

    windows: tuple[Box, ...]
    here: set[int]
    letters: tuple[str, ...]
    cell: tuple[Fraction, Fraction]
    wide: Fraction

    @property
    def name(self) -> str:
        """The letters of its seams: ``A``, ``B–E``."""
        return "–".join(dict.fromkeys((*self.letters[:1], *self.letters[-1:])))

    @property
    def across(self) -> Fraction:
        """From its left side to the first cell: what its name takes."""
        return set_line(words(self.name, _TINY)).width + Fraction(4, 5) if self.letters else Fraction(0)

    @property
    def is_row(self) -> bool:
        """True where the tiles lie in one row, which is drawn as cells in order, not in proportion."""
        return len({(w[0], w[2]) for w in self.windows}) == 1 or len({(w[1], w[3]) for w in self.windows}) == 1

    @property
    def columns(self) -> int:
        """Cells side by side."""
        return min(len(self.windows), max(1, int((self.wide - self.across) / self.cell[0])))

    @property
    def rows(self) -> int:
        """Rows of cells under each other."""
        return min(_MOST_ROWS, -(-len(self.windows) // self.columns))

    @property
    def size(self) -> tuple[Fraction, Fraction]:
        """How wide and how high it is, in mm."""
        wide, high = self.cell
        if not self.is_row:
            return self.across + _WIDE * wide, _HIGH * (high + _ROW)
        return self.across + self.columns * wide, self.rows * (high + _ROW) - _ROW

    def marks(self, x: Fraction, y: Fraction) -> Iterator[Mark]:
        """The map, hung from its upper left corner."""
        yield Text((x, y - (self.cell[1] + _TINY) / 2), words(self.name, _TINY))
        yield from self._row(x + self.across, y) if self.is_row else self._plan(x + self.across, y)

    def _row(self, left: Fraction, top: Fraction) -> Iterator[Mark]:
        wide, high = self.cell
        most = self.columns * self.rows
        first = 0 if len(self.windows) <= most else (min(self.here) - 1) // self.columns * self.columns
        for n, number in enumerate(range(first + 1, min(len(self.windows), first + most) + 1)):
            row, column = divmod(n, self.columns)
            x, y = left + column * wide, top - high - row * (high + _ROW)
            yield from _cell((x, y, x + wide, y + high), number, self.cell, is_here=number in self.here)

    def _plan(self, x: Fraction, y: Fraction) -> Iterator[Mark]:
        """The windows drawn small, each without what it shares with the next."""
        left, bottom = min(w[0] for w in self.windows), min(w[1] for w in self.windows)
        right, top = max(w[2] for w in self.windows), max(w[3] for w in self.windows)
        wide, high = self.size
        scale = min((wide - self.across - self.cell[0]) / (right - left), high / (top - bottom))
        at = (x, y - (top - bottom) * scale)
        for number, (x0, y0, x1, y1) in enumerate(self.windows, start=1):
            own = (x0, y0, x1 if x1 == right else x1 - OVERLAP, y1 if y1 == top else y1 - OVERLAP)
            a, b, c, d = ((own[n] - (left, bottom)[n % 2]) * scale + at[n % 2] for n in range(4))
            yield from _cell((a, b, c, d), number, self.cell, is_here=number in self.here)


def _placed(drawn: Sequence[_Drawn], room: Box) -> list[tuple[Fraction, Fraction]]:
    """The upper left corners of ``drawn`` in ``room``, in rows from the top; none where they don't all go in."""
    left, bottom, right, top = room
    places, x, y, low = [], left, top, top
    for one in drawn:
        wide, high = one.size
        if x > left and x + wide > right:
            x, y = left, low - _ROW
        if x + wide > right or y - high < bottom:
            return []
        places.append((x, y))
        x, low = x + wide + _BETWEEN, min(low, y - high)
    return places


def _cell(box: Box, number: int, cell: tuple[Fraction, Fraction], *, is_here: bool) -> Iterator[Mark]:
    """One tile, black where it is on this sheet, with its number in it, or beside it where it is too small."""
    left, bottom, right, top = box
    if is_here:
        yield Fill(corners(box), Fraction(1), Role.FRAME)
    yield Polyline(corners(box), Role.FRAME, closed=True)
    fits = right - left >= set_line(words(str(number), _TINY)).width and top - bottom >= _TINY
    middle = (left + right) / 2 if fits else right + cell[0] / 2
    ink = Fraction(0) if is_here and fits else Fraction(1)
    yield Text((middle, (bottom + top - _TINY) / 2), words(str(number), _TINY), Align.MIDDLE, ink=ink)
