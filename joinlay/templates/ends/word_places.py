"""Placing words on a template, so that nothing that is read lies on anything that is drawn.

The problem. A caption (part, end, face up, how many), a note for each kind of cut and a figure for each height must stand on a
drawing that is already there. The caption and each note can be set in a few shapes, from a narrow column to one long line. The
best template has every word on the wood and reaches least far along it, for paper that reaches far stretches and wastes a sheet.

The method. What is drawn is turned into boxes (``_taken``). The figures of the heights come first, each level with its own line
or just over or under it. Then the caption as high up as it goes, then note by note: one that speaks of a cut running on under the
words close to that cut, any other under what stands there already; each at the first free place, in columns 4 mm apart from the
cuts outwards, in steps of 1 mm up or down. No block is moved again. That is done once for each shape of the caption, each place
to begin the column and three orders of preference among a note's shapes (``_ORDERS``), at most thirty ways; the one with the
fewest blocks left off the wood wins, then the one that reaches least far. Where even that leaves one off, caption and notes all
stand above the wood, side by side.

The cost. A way looks at no more than (blocks x shapes x columns x millimetres of height) places, each held against the boxes in
that column. Once a way has everything on the wood, the others only look as far along as it reached, and most give up soon. Boxes
are whole micrometres, rounded outwards, since where a word stands need not be exact.

What it can't do. It takes the first place that is free and never goes back, so it can miss a way to get everything on the wood.
It sets no block on its side and draws no line from a note to its cut: a note tells of its cut by what it says.
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import product
from math import ceil, floor
from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction
from joinlay.pen.blocks import Block, stacked
from joinlay.pen.lettering import set_line
from joinlay.pen.placing import CLEAR, MM, Room, whole
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Box
    from joinlay.pen.placing import Whole
    from joinlay.templates.ends.captions import Note
    from joinlay.templates.ends.net import Net

__all__ = ["MOST_REACH", "PlacedBlock", "place_on_flap", "place_words"]

#: How far from the end words may stand on the wood, in mm.
MOST_REACH: Final = Fraction(160)
#: Between columns, and from one try to the next sideways.
_COLUMN_GAP: Final = 4 * MM
#: Between blocks above each other, off the wood, and what they may take side by side, in mm.
_ROW, _WIDEST = Fraction(3), Fraction(150)
#: At most so many columns of words above the wood, and how wide the wood under them is at least.
_MOST_COLUMNS: Final = 4
_LEAST_WIDE: Final = 85 * MM
#: From one try to the next up or down; white kept to the edges of the wood, and between blocks beyond what every line keeps.
_STEP, _EDGE, _WHITE = MM, 3 * MM // 2, 3 * MM // 2
#: A part higher than this is better marked from a narrow template, in mm.
_TALL: Final = Fraction(160)
#: How far the zigzags of a break line reach to either side, and a little more, in mm.
_ZIGZAG: Final = Fraction(5, 2)
_ZERO: Final = Fraction(0)


@dataclass(frozen=True, slots=True)
class PlacedBlock:
    """A ``block`` of words and its ``room``, a box (u, y, u, y) in micrometres; off the wood where none was free on it."""

    block: Block
    room: Whole
    is_on_wood: bool = True

    @property
    def box(self) -> Box:
        """The same room in mm."""
        return _in_mm(self.room)


def place_words(
    net: Net,
    captions: Sequence[Sequence[Block]],
    notes: Sequence[Note],
    heights: Sequence[tuple[Fraction, Content]],
    rising: Fraction,
    stub: Fraction,
) -> list[PlacedBlock]:
    """The figures of ``heights``, one of ``captions`` and all ``notes``, each with its place on or above the face of ``net``.

    ``captions`` are shapes of the caption, each of one block or more. ``heights`` are (y in mm, figures), rising. ``rising`` is
    the u of the line they rise along, ``stub`` the u that the centre lines across the fold go on to, both in mm.
    """
    face = whole((_ZERO, _ZERO, min(MOST_REACH, net.board.length.mm), net.height))
    taken = list(map(whole, _taken(net, stub)))
    numbers = _beside_heights(heights, ceil(rising * MM), Room(taken, face))
    # The words of a tall part go between its figures, so that the paper is narrow enough to stand beside a check square.
    columns = [max([ceil(rising * MM), *(one.room[2] for one in numbers)])]
    if net.height > _TALL:
        columns.append(ceil(rising * MM))
    taken += [(x0, y0 - _WHITE, x1, y1 + _WHITE) for x0, y0, x1, y1 in (one.room for one in numbers)]
    return [*numbers, *_in_line(net, _best(captions, notes, taken, face, columns), taken)]


def place_on_flap(net: Net, content: Content, panel: Box) -> Box | None:
    """Where ``content``, reading upwards, is free on ``panel`` of ``net`` (u, y, u, y in mm): its box in mm; None: nowhere."""
    left, bottom, right, top = whole(panel)
    room = Room(map(whole, _taken(net, _ZERO)), (left, bottom, right, top))
    line = set_line(content)
    wide, long = ceil((line.rise + line.fall) * MM), ceil(line.width * MM)
    lefts = sorted(range(left, right - wide, MM // 2), key=lambda u: abs(2 * u + wide - left - right))
    # Low down, since a tall template is parted about half-way up.
    bottoms = sorted(range(0, top - long, MM), key=lambda y: abs(y - (top - long) // 4))
    tries = (room.first_free_above(bottoms, u, wide, long, MM * 3 // 5) for u in lefts)
    found = next((box for box in tries if box is not None), None)
    return None if found is None else _in_mm(found)


def _taken(net: Net, stub: Fraction) -> Iterator[Box]:
    """What is drawn on ``net`` as boxes (u, y, u, y): cuts, outlines of hidden ones, centre lines, the break along the top."""
    if net.shown is not None:
        yield (net.outer, net.shown - _ZIGZAG, MOST_REACH, net.shown)
    for mouth in net.mouths:
        u0, y0, u1, y1 = mouth.box
        if mouth.is_hidden:
            yield from ((u0, y0, u1, y0), (u1, y0, u1, y1), (u0, y1, u1, y1), (u0, y0, u0, y1))
            continue
        yield mouth.box
        if mouth.is_centred:
            u, y = mouth.centre
            yield (u, _ZERO, u, net.height)
            yield (net.outer, y, max(stub, u1 + 3), y)
            yield (u0 - 1, y0 - 1, u1 + 1, y1 + 1)


def _beside_heights(heights: Sequence[tuple[Fraction, Content]], rising: int, room: Room) -> list[PlacedBlock]:
    """The figures of heights just past the line they rise along: level with each height, else over or under it."""
    placed = []
    for y, content in heights:
        level = floor(y * MM)
        block = stacked([content])
        wide, high = _size(block)
        lefts = (rising + 5 * MM // 2 + n * 6 * MM for n in range(12))
        bottoms = (level - high // 2, level + 6 * MM // 5, level - high - 6 * MM // 5)
        box = room.first_free(((x, y, x + wide, y + high) for x in lefts for y in bottoms), MM // 2)
        if box is not None:
            room.take(box)
            placed.append(PlacedBlock(block, box))
    return placed


def _best(
    captions: Sequence[Sequence[Block]], notes: Sequence[Note], taken: Sequence[Whole], face: Whole, columns: Sequence[int]
) -> list[PlacedBlock]:
    """One of the ``captions`` and all ``notes`` in the best way, from one of the ``columns`` on, clear of what is ``taken``."""
    best: list[PlacedBlock] = []
    for column, caption, order in product(columns, captions, _ORDERS):
        # Once everything stands on the wood, only what reaches less far is worth looking at.
        within = face if not best or _left_off(best) else (face[0], face[1], _reached(best), face[3])
        room, most = Room(taken, within), _left_off(best) if best else None
        way = _lay(caption, notes, order(max(block.width for block in caption)), room, within, column + _COLUMN_GAP, most)
        if way is None:
            continue
        if not best or (_left_off(way), _reached(way)) < (_left_off(best), _reached(best)):
            best = way
    return _above(captions, notes, face) if _left_off(best) else best


def _above(captions: Sequence[Sequence[Block]], notes: Sequence[Note], face: Whole) -> list[PlacedBlock]:
    """Caption and notes in columns above the wood, in the shapes and the number of columns that make the whole smallest."""
    best: list[PlacedBlock] = []
    for caption, flat, count in product(captions, (0, -1), range(1, _MOST_COLUMNS + 1)):
        way = _in_columns([*caption, *(note.shapes[flat] for note in notes)], count, face[3] + _COLUMN_GAP)
        if not best or _taken_above(way) < _taken_above(best):
            best = way
    return best


def _in_columns(blocks: Sequence[Block], count: int, bottom: int) -> list[PlacedBlock]:
    """``blocks`` in their order in at most ``count`` columns about as high as each other, the first from the top of each down."""
    share = sum((block.height + _ROW for block in blocks), _ZERO) / count
    columns: list[list[Block]] = [[]]
    for block in blocks:
        filled = sum((one.height + _ROW for one in columns[-1]), _ZERO)
        if columns[-1] and len(columns) < count and filled + block.height / 2 > share:
            columns.append([])
        columns[-1].append(block)
    stacks = [stacked(column, _ROW) for column in columns]
    top, left = max(_size(stack)[1] for stack in stacks), 0
    placed = []
    for stack in stacks:
        wide, high = _size(stack)
        placed.append(PlacedBlock(stack, (left, bottom + top - high, left + wide, bottom + top), is_on_wood=False))
        left += wide + 2 * _COLUMN_GAP
    return placed


def _taken_above(way: Sequence[PlacedBlock]) -> tuple[bool, int]:
    """Whether the words above the wood are wider than they may be, and how much paper they and the wood under them take."""
    wide, high = max(one.room[2] for one in way), max(one.room[3] for one in way)
    return wide > _WIDEST * MM, max(wide, _LEAST_WIDE) * high


def _left_off(way: Sequence[PlacedBlock]) -> int:
    return sum(not one.is_on_wood for one in way)


def _reached(way: Sequence[PlacedBlock]) -> int:
    return max(one.room[2] for one in way)


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


def _lay(
    caption: Sequence[Block], notes: Sequence[Note], order: _Order, room: Room, face: Whole, column: int, most: int | None
) -> list[PlacedBlock] | None:
    """The caption as high up as it goes, each note under it or near its own band; those with no room on the wood off it.

    None as soon as more than ``most`` have none (None: any number).
    """
    placed: list[PlacedBlock] = []
    homeless: list[Block] = []
    bands = [whole(note.band) for note in notes if note.band is not None]
    # Under a low groove only its own note may stand, or one might be read for the other.
    lowest = max((top for _, bottom, _, top in bands if bottom + top < face[3]), default=0)
    wishes: list[tuple[Sequence[Block], Whole | None]] = [((block,), None) for block in caption]
    wishes += [(sorted(note.shapes, key=order), whole(note.band) if note.band else None) for note in notes]
    for shapes, band in wishes:
        one = _first(shapes, band, lowest, room, face, column)
        if one is None:
            homeless.append(shapes[0])
            if most is not None and len(homeless) > most:
                return None
        else:
            room.take(one.room, _WHITE)
            placed.append(one)
    placed += (PlacedBlock(block, (column, 0, column, 0), is_on_wood=False) for block in homeless)
    return placed


def _first(shapes: Sequence[Block], band: Whole | None, lowest: int, room: Room, face: Whole, column: int) -> PlacedBlock | None:
    """The first place, from the column outwards, that is free for one of ``shapes``."""
    tries = [
        (block, wide, high, _bottoms(high, band, lowest, face[3])) for block, (wide, high) in ((b, _size(b)) for b in shapes)
    ]
    for left in range(column, face[2], _COLUMN_GAP):
        for block, wide, high, bottoms in tries:
            box = room.first_free_above(bottoms, left, wide, high)
            if box is not None:
                return PlacedBlock(block, box)
    return None


def _bottoms(high: int, band: Whole | None, lowest: int, height: int) -> Sequence[int]:
    """Heights to try for the lower side of a block: next to its own band first, then from the top down to ``lowest``."""
    steps = range(height - high - _EDGE, lowest, -_STEP)
    if band is None:
        return steps
    return (band[3] + _EDGE, band[1] - high - CLEAR, *reversed(steps))


def _size(block: Block) -> tuple[int, int]:
    return ceil(block.width * MM), ceil(block.height * MM)


def _in_line(net: Net, placed: Sequence[PlacedBlock], taken: Sequence[Whole]) -> list[PlacedBlock]:
    """Blocks that stand in a column, moved so that their left sides are in line where the end is at the right."""
    if net.hand > 0:
        return list(placed)
    made = []
    for one in placed:
        u0, y0, u1, y1 = one.room
        right = max(other.room[2] for other in placed if other.room[0] == u0 and other.is_on_wood == one.is_on_wood)
        box = (right - (u1 - u0), y0, right, y1)
        others = [other.room for other in placed if other is not one]
        made.append(PlacedBlock(one.block, box, one.is_on_wood) if Room((*others, *taken)).is_free(box) else one)
    return made


def _in_mm(box: Whole) -> Box:
    x0, y0, x1, y1 = box
    return (Fraction(x0, MM), Fraction(y0, MM), Fraction(x1, MM), Fraction(y1, MM))
