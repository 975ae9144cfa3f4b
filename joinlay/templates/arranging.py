"""Arranging words on the face of a template: figures beside their lines, the caption at the top, notes near their cuts.

On a part too narrow for them they stand on the paper above it, and the template stays short. All in micrometres of u and y, as placing has it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from itertools import product
from math import ceil
from typing import TYPE_CHECKING, Final

from joinlay.pen.blocks import Block, stacked
from joinlay.pen.placing import CLEAR, MM, Room, whole

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.pen.lettering import Content
    from joinlay.pen.placing import Whole
    from joinlay.templates.notes import Note

__all__ = ["Arranged", "arrange", "arrange_heights"]

#: Between columns, and from one try to the next sideways.
_COLUMN_GAP: Final = 4 * MM
#: Between blocks above each other, off the wood, and what they may take side by side, in mm.
_ROW, _WIDEST = Fraction(3), Fraction(150)
#: From one try to the next up or down; white kept to the edges of the wood, and between blocks beyond what every line keeps.
_STEP, _EDGE, _WHITE = MM, 3 * MM // 2, 3 * MM // 2


@dataclass(frozen=True, slots=True)
class Arranged:
    """A block of words and the box it has got; on the wood, or off it where there was no room."""

    block: Block
    box: Whole
    is_on_wood: bool = True


def arrange_heights(levels: Sequence[tuple[int, Content]], rising: int, room: Room) -> list[Arranged]:
    """The figures of heights (level, figures), just past the line they rise along: level with each, else above or below it."""
    arranged = []
    for level, content in levels:
        block = stacked([content])
        wide, high = _size(block)
        lefts = (rising + 5 * MM // 2 + n * 6 * MM for n in range(12))
        bottoms = (level - high // 2, level + 6 * MM // 5, level - high - 6 * MM // 5)
        box = room.first_free(((x, y, x + wide, y + high) for x in lefts for y in bottoms), MM // 2)
        if box is not None:
            room.take(box)
            arranged.append(Arranged(block, box))
    return arranged


def arrange(
    captions: Sequence[Sequence[Block]], notes: Sequence[Note], taken: Sequence[Whole], face: Whole, columns: Sequence[int]
) -> list[Arranged]:
    """One of the ``captions`` (each of one block or more) and all ``notes`` on the ``face``, clear of what is ``taken``.

    They begin at one of ``columns``. Among the ways tried, it is the one with the fewest blocks left off the wood, and then the one that
    reaches least far.
    """
    best: list[Arranged] = []
    for column, caption, order in product(columns, captions, _ORDERS):
        # Once everything stands on the wood, only what reaches less far is worth looking at.
        within = face if not best or _left_off(best) else (face[0], face[1], _reached(best), face[3])
        way = _lay(
            caption, notes, order(max(block.width for block in caption)), Room(taken, within), within, column + _COLUMN_GAP
        )
        if not best or (_left_off(way), _reached(way)) < (_left_off(best), _reached(best)):
            best = way
    return _above(captions, notes, face) if _left_off(best) else best


def _above(captions: Sequence[Sequence[Block]], notes: Sequence[Note], face: Whole) -> list[Arranged]:
    """The caption and the notes side by side, above the wood: the caption in the shape that makes the whole lowest, then narrowest."""
    said = [note.shapes[0] for note in notes]
    ways = [[stacked(shape, _ROW), *([stacked(said, _ROW)] if said else [])] for shape in captions]
    ways += [[stacked(shape, _ROW), *said] for shape in captions] if len(said) > 1 else []

    def room(way: Sequence[Block]) -> tuple[bool, Fraction]:
        wide, high = sum(block.width for block in way), max(block.height for block in way)
        return wide > _WIDEST, wide * high

    arranged, left = [], 0
    for block in min(ways, key=room):
        wide, high = _size(block)
        bottom = face[3] + _COLUMN_GAP
        arranged.append(Arranged(block, (left, bottom, left + wide, bottom + high), is_on_wood=False))
        left += wide + 2 * _COLUMN_GAP
    return arranged


def _left_off(way: Sequence[Arranged]) -> int:
    return sum(not one.is_on_wood for one in way)


def _reached(way: Sequence[Arranged]) -> int:
    return max(one.box[2] for one in way)


#: How a shape ranks, the least first.
_Order = Callable[[Block], tuple[Fraction, Fraction]]


def _narrowest(_: Fraction) -> _Order:
    return lambda block: (block.width, block.height)


def _lowest_in_column(column: Fraction) -> _Order:
    """The lowest of those no wider than the caption, then the narrowest."""
    return lambda block: (max(block.width, column), block.height)


def _lowest(_: Fraction) -> _Order:
    return lambda block: (block.height, block.width)


#: Orders in which the shapes of a note are tried beside a caption of some width.
_ORDERS: Final = (_narrowest, _lowest_in_column, _lowest)


def _lay(caption: Sequence[Block], notes: Sequence[Note], order: _Order, room: Room, face: Whole, column: int) -> list[Arranged]:
    """The caption as high up as it can be, each note under it or near its own band; those with no room on the wood are left off it."""
    arranged: list[Arranged] = []
    homeless: list[Block] = []
    bands = [whole(note.band) for note in notes if note.band is not None]
    # Under a low groove only its own note may stand, or one might be read for the other.
    floor = max((top for _, bottom, _, top in bands if bottom + top < face[3]), default=0)
    wishes: list[tuple[Sequence[Block], Whole | None]] = [((block,), None) for block in caption]
    wishes += [(sorted(note.shapes, key=order), whole(note.band) if note.band else None) for note in notes]
    for shapes, band in wishes:
        one = _first(shapes, band, floor, room, face, column)
        if one is None:
            homeless.append(shapes[0])
        else:
            room.take(one.box, _WHITE)
            arranged.append(one)
    arranged += (Arranged(block, (column, 0, column, 0), is_on_wood=False) for block in homeless)
    return arranged


def _first(shapes: Sequence[Block], band: Whole | None, floor: int, room: Room, face: Whole, column: int) -> Arranged | None:
    """The first place, from the column outwards, that is free for one of ``shapes``."""
    tries = [(block, wide, high, _bottoms(high, band, floor, face[3])) for block, (wide, high) in ((b, _size(b)) for b in shapes)]
    for left in range(column, face[2], _COLUMN_GAP):
        for block, wide, high, bottoms in tries:
            box = room.first_free_above(bottoms, left, wide, high)
            if box is not None:
                return Arranged(block, box)
    return None


def _bottoms(high: int, band: Whole | None, floor: int, height: int) -> Sequence[int]:
    """Heights to try for the lower side of a block: next to its own band first, then from the top down to ``floor``."""
    steps = range(height - high - _EDGE, floor, -_STEP)
    if band is None:
        return steps
    return (band[3] + _EDGE, band[1] - high - CLEAR, *reversed(steps))


def _size(block: Block) -> tuple[int, int]:
    return ceil(block.width * MM), ceil(block.height * MM)
