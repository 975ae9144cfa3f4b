"""Tiling: a drawing too large for a sheet is cut into tiles that overlap, to be put together again over register marks (PR-4)."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import ceil
from string import ascii_uppercase
from typing import TYPE_CHECKING, Final

from joinlay.drawings.blocks import stacked
from joinlay.drawings.lettering import set_line, words
from joinlay.drawings.marks import Arc, Line, Role, Text, bounds_of, flatten
from joinlay.drawings.placing import MM, Room, whole
from joinlay.pages.clipping import clip

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.drawings.marks import Box, Stroke

__all__ = ["OVERLAP", "Tile", "count_tiles", "match_letters", "tile"]

#: How much two neighbours have in common, in mm.
OVERLAP: Final = Fraction(10)
#: Strokes longer than this along the way can't be kept off every seam.
_LONG: Final = Fraction(40)
#: No tile is smaller than this along the way.
_LEAST: Final = Fraction(40)
_RING, _ARM = Fraction(2), Fraction(3)
_SMALL: Final = Fraction(5, 2)

_Span = tuple[Fraction, Fraction]


@dataclass(frozen=True, slots=True)
class Tile:
    """One tile of a drawing, in the drawing's own millimetres. ``column`` and ``row`` count from 0 at the lower left."""

    column: int
    row: int
    window: Box
    strokes: tuple[Stroke, ...]


def count_tiles(size: Fraction, room: Fraction) -> int:
    """How many tiles a length takes where each has ``room``."""
    return 1 if size <= room else ceil((size - OVERLAP) / (room - OVERLAP))


def tile(
    strokes: Sequence[Stroke], width: Fraction, height: Fraction, *, title: str = "", letters: Iterator[str] | None = None
) -> tuple[Tile, ...]:
    """``strokes`` cut into tiles of at most ``width`` by ``height``, row by row from the lower left (PR-4).

    Neighbours overlap by 10 mm, and each overlap carries two register marks with the next of ``letters`` (A, B .. unless given). Seams
    keep off joint marks and words where that can be done. Each tile says that it is one, and of which ``title``. A drawing that fits is
    one tile. Raises ValueError for a tile no larger than two overlaps.
    """
    if min(width, height) <= 2 * OVERLAP:
        raise ValueError(f"a tile of {width} x {height} mm is too small to overlap by {OVERLAP} mm")
    left, bottom, right, top = bounds_of(strokes)
    across = _spans(left, right, width, _keep_off(strokes, 0))
    up = _spans(bottom, top, height, _keep_off(strokes, 1))
    letters = letters or match_letters()
    marks = [
        *_registers(strokes, across, (bottom, top), letters, upright=True),
        *_registers(strokes, up, (left, right), letters, upright=False),
    ]
    tiles: list[Tile] = []
    for row, (y0, y1) in enumerate(up):
        for column, (x0, x1) in enumerate(across):
            window = (x0, y0, x1, y1)
            inside = [piece for stroke in (*strokes, *marks) for piece in clip(stroke, window)]
            number, many = len(tiles) + 1, len(up) * len(across)
            says = _label(title, f"tile {number} of {many}", inside, window) if many > 1 else ()
            tiles.append(Tile(column, row, window, (*inside, *_seams(window, (left, bottom, right, top)), *says)))
    return tuple(tiles)


def match_letters() -> Iterator[str]:
    """A, B .. Z, AA, AB ..: no two seams share one."""
    yield from ascii_uppercase
    for first in match_letters():
        yield from (first + letter for letter in ascii_uppercase)


def _label(title: str, tile_of: str, strokes: Sequence[Stroke], window: Box) -> Iterator[Stroke]:
    """What a tile is, in small letters wherever it lies on nothing; nowhere, where there is no room at all."""
    block = stacked([words(line, _SMALL) for line in (title, tile_of) if line])
    wide, high = ceil(block.width * MM), ceil(block.height * MM)
    left, bottom, right, top = edges = whole(window)
    room = Room((whole(bounds_of((stroke,))) for stroke in strokes), edges)
    spots = ((x, y) for y in range(top - high - MM, bottom, -2 * MM) for x in range(left + MM, right - wide, 2 * MM))
    box = room.first_free(((x, y, x + wide, y + high) for x, y in spots), MM // 2)
    if box is not None:
        yield from flatten(block.marks(Fraction(box[0], MM), Fraction(box[1], MM)))


def _keep_off(strokes: Sequence[Stroke], axis: int) -> list[_Span]:
    """Where no seam should fall on an axis: joint marks and words."""
    spans = []
    for stroke in strokes:
        if stroke.role in (Role.CUT, Role.TEXT, Role.DATUM):
            box = bounds_of((stroke,))
            if box[axis + 2] - box[axis] <= _LONG:
                spans.append((box[axis], box[axis + 2]))
    return spans


def _spans(low: Fraction, high: Fraction, room: Fraction, keep_off: Sequence[_Span]) -> list[_Span]:
    """From where to where each tile goes on one axis: each as long as it can be with its overlap clear of ``keep_off``."""
    spans: list[_Span] = []
    start = low
    while high - start > room:
        # The last tile must be worth handling, and no tile is added for the sake of a clear seam.
        most = min(start + room, high - _LEAST + OVERLAP)
        least = start + max(2 * OVERLAP, high - start - (count_tiles(high - start, room) - 1) * (room - OVERLAP))
        stop = _clear(least, most, keep_off)
        spans.append((start, stop))
        start = stop - OVERLAP
    return [*spans, (start, high)]


def _clear(least: Fraction, most: Fraction, keep_off: Sequence[_Span]) -> Fraction:
    """The last stop from ``least`` to ``most`` whose overlap, the 10 mm before it, touches nothing to keep off; ``most`` if all do."""
    tries = [most, *(a for a, _ in keep_off), *(b + OVERLAP for _, b in keep_off)]
    allowed = [stop for stop in tries if least <= stop <= most]
    clear = [stop for stop in allowed if not any(a < stop and stop - OVERLAP < b for a, b in keep_off)]
    # Where all is full, the two lines at least that bound the overlap cross nothing.
    crossing = [stop for stop in allowed if not any(a < at < b for at in (stop, stop - OVERLAP) for a, b in keep_off)]
    return max(clear or crossing, default=most)


def _registers(
    strokes: Sequence[Stroke], spans: Sequence[_Span], other: _Span, letters: Iterator[str], *, upright: bool
) -> Iterator[Stroke]:
    """Two register marks in each overlap, as far apart as there is room for them, drawn once and clipped with the rest."""
    for (_, stop), _ in pairwise(spans):
        letter, strip = next(letters), (stop - OVERLAP, stop)
        box = (strip[0], other[0], strip[1], other[1]) if upright else (other[0], strip[0], other[1], strip[1])
        near = [b for b in map(_bounds, strokes) if b[0] <= box[2] and box[0] <= b[2] and b[1] <= box[3] and box[1] <= b[3]]
        for spot in _two_spots(box, Room(map(whole, near)), letter, upright=upright):
            yield from _register(*spot, letter)


def _bounds(stroke: Stroke) -> Box:
    return bounds_of((stroke,))


def _two_spots(box: Box, room: Room, letter: str, *, upright: bool) -> Iterator[_Span]:
    """The first and last place along the overlap where a register mark and its letter lie on nothing; its very ends where all is full."""
    wide = 2 * _ARM + 1 + set_line(words(letter, _LETTER, bold=True)).width
    long = (box[3] - box[1] - 2 * _ARM) if upright else (box[2] - box[0] - wide)
    steps = range(max(1, int(long) + 1))
    middle = (box[0] + box[2] - wide) / 2 + _ARM if upright else (box[1] + box[3]) / 2
    for order in (steps, steps[::-1]):
        spots = [(middle, box[1] + _ARM + n) if upright else (box[0] + _ARM + n, middle) for n in order]
        boxes = [whole((x - _ARM, y - _ARM, x - _ARM + wide, y + _ARM)) for x, y in spots]
        n = next((n for n, one in enumerate(boxes) if room.is_free(one, MM // 2)), 0)
        room.take(boxes[n])
        yield spots[n]


_LETTER: Final = Fraction(7, 2)


def _register(x: Fraction, y: Fraction, letter: str) -> Iterator[Stroke]:
    """A ring with a cross through it, and the letter to the right."""
    yield Arc((x, y), _RING, Fraction(0), Fraction(360), Role.REGISTER)
    yield Line((x - _ARM, y), (x + _ARM, y), Role.REGISTER, f"register {letter}")
    yield Line((x, y - _ARM), (x, y + _ARM), Role.REGISTER, f"register {letter}")
    yield Text((x + _ARM + 1, y - _LETTER / 2), words(letter, _LETTER, bold=True), role=Role.REGISTER)


def _seams(window: Box, whole: Box) -> Iterator[Line]:
    """A thin line along each side of the window where the drawing goes on: the tile is trimmed or laid there."""
    x0, y0, x1, y1 = window
    if x0 > whole[0]:
        yield Line((x0, y0), (x0, y1), Role.REGISTER)
    if x1 < whole[2]:
        yield Line((x1, y0), (x1, y1), Role.REGISTER)
    if y0 > whole[1]:
        yield Line((x0, y0), (x1, y0), Role.REGISTER)
    if y1 < whole[3]:
        yield Line((x0, y1), (x1, y1), Role.REGISTER)
