"""Small maps of tiled drawings: which tile of which a sheet holds, and where it belongs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from joinlay.geometry import corners
from joinlay.lengths import Fraction
from joinlay.pages.seams import OVERLAP
from joinlay.pen.lettering import words
from joinlay.pen.marks import Align, Fill, Polyline, Role, Text

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.pen.marks import Box, Mark

__all__ = ["TileMap", "tile_maps"]

#: How many maps there are at most.
_MOST_MAPS: Final = 2
#: The letters of a map, and the least side of a tile that has room for its number.
_TINY: Final = Fraction(9, 5)
_CELL: Final = Fraction(13, 4)
#: A tile of a strip, where the strip is too long to be drawn in proportion, and the white between two rows of them.
_WIDE: Final = Fraction(4)
_ROW: Final = Fraction(5, 4)


@dataclass(frozen=True, slots=True)
class TileMap:
    """Which tile of which a sheet holds: ``windows`` of all of them in the drawing's millimetres, and the ``number`` of this one from 1."""

    windows: tuple[Box, ...]
    number: int


def tile_maps(maps: Sequence[TileMap], room: Box) -> Iterator[Mark]:
    """Small maps, side by side in ``room``, of the tiled drawings on a sheet, the tiles that are on it in grey (PR-4)."""
    by_drawing: dict[tuple[Box, ...], set[int]] = {}
    for one in maps:
        by_drawing.setdefault(one.windows, set()).add(one.number)
    x0, y0, x1, y1 = room
    for n, (windows, here) in enumerate(list(by_drawing.items())[:_MOST_MAPS]):
        wide = (x1 - x0) / min(len(by_drawing), _MOST_MAPS)
        own = (x0 + n * wide, y0, x0 + (n + 1) * wide - 1, y1)
        yield from _row_map(windows, here, own) if _is_long(windows, own) else _tile_map(windows, here, own)


def _scale(windows: Sequence[Box], room: Box) -> tuple[Fraction, Fraction, Fraction]:
    """The lower left corner of the drawing, and how small it must be for ``room``."""
    left, bottom = min(w[0] for w in windows), min(w[1] for w in windows)
    right, top = max(w[2] for w in windows), max(w[3] for w in windows)
    return left, bottom, min((room[2] - room[0] - _CELL) / (right - left), (room[3] - room[1]) / (top - bottom))


def _is_long(windows: Sequence[Box], room: Box) -> bool:
    """True where the tiles are strips in one row, so long or so thin that their numbers have no room in them."""
    _, _, scale = _scale(windows, room)
    shortest = min(min(w[2] - w[0], w[3] - w[1]) - OVERLAP for w in windows)
    is_row = len({(w[0], w[2]) for w in windows}) == 1 or len({(w[1], w[3]) for w in windows}) == 1
    return is_row and shortest * scale < _CELL


def _row_map(windows: Sequence[Box], here: set[int], room: Box) -> Iterator[Mark]:
    """The tiles of a strip as cells in their order, row under row, not in proportion; those around the ones here where there are very many."""
    columns, rows = int((room[2] - room[0]) / _WIDE), int((room[3] - room[1]) / (_CELL + _ROW))
    first = 0 if len(windows) <= columns * rows else (min(here) - 1) // columns * columns
    for n, number in enumerate(range(first + 1, min(len(windows), first + columns * rows) + 1)):
        row, column = divmod(n, columns)
        x, y = room[0] + column * _WIDE, room[3] - _CELL - row * (_CELL + _ROW)
        yield from _cell((x, y, x + _WIDE, y + _CELL), number, is_here=number in here)


def _tile_map(windows: Sequence[Box], here: set[int], room: Box) -> Iterator[Mark]:
    """The windows drawn small in ``room``, each without what it has in common with the next, and with its number in it or beside it."""
    left, bottom, scale = _scale(windows, room)
    right, top = max(w[2] for w in windows), max(w[3] for w in windows)
    for number, (x0, y0, x1, y1) in enumerate(windows, start=1):
        own = (x0, y0, x1 if x1 == right else x1 - OVERLAP, y1 if y1 == top else y1 - OVERLAP)
        a, b, c, d = ((own[n] - (left, bottom)[n % 2]) * scale + room[n % 2] for n in range(4))
        yield from _cell((a, b, c, d), number, is_here=number in here)


def _cell(box: Box, number: int, *, is_here: bool) -> Iterator[Mark]:
    """One tile, grey where it is on this sheet, with its number in it, or beside it where it is too small."""
    left, bottom, right, top = box
    if is_here:
        yield Fill(corners(box), Fraction(1, 5), Role.FRAME)
    yield Polyline(corners(box), Role.FRAME, closed=True)
    fits = min(right - left, top - bottom) >= _CELL
    middle = (left + right) / 2 if fits else right + _CELL / 2
    yield Text((middle, (bottom + top - _TINY) / 2), words(str(number), _TINY), Align.MIDDLE)
