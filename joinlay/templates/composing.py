"""Composing a template: first the wood and its cuts, then words and figures, each where nothing else is.

The words begin in a column just past the cuts and their figures. A template reaches as far along the part as its words need, at least
60 mm; where they find no room on the wood they stand above it.
"""

from __future__ import annotations

from fractions import Fraction
from math import ceil
from typing import TYPE_CHECKING, Final

from joinlay.lengths import Length
from joinlay.pen.dimensioning import RisingDimensions
from joinlay.pen.lettering import figures, set_line, words
from joinlay.pen.marks import Text, Turn, flatten
from joinlay.pen.placing import MM, Room, whole
from joinlay.pen.signs import DatumEdge
from joinlay.templates.arranging import Arranged, arrange, arrange_heights
from joinlay.templates.captions import caption_shapes, datum_words
from joinlay.templates.face import centre_marks, cut_marks, on_paper, outline_marks
from joinlay.templates.notes import FIGURE, WORD, notes_of, plain_note

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.lengths import Graduation
    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Box, Mark, Stroke
    from joinlay.pen.placing import Whole
    from joinlay.templates.net import Net
    from joinlay.templates.notes import Note

__all__ = ["compose"]

_LEAST_REACH, _MOST_REACH = Fraction(60), Fraction(160)
#: Cuts that end within this of the end make up the corner; longer ones run on under the words.
_CORNER: Final = Fraction(45)
#: A part higher than this is better marked from a narrow template.
_TALL: Final = Fraction(160)
#: From the corner to the line the heights rise along, and how far their centre lines go past it.
_TO_RISING, _STUB = Fraction(5), Fraction(1)
#: From the words to the break line, whose zigzags reach 2 mm to either side.
_TO_BREAK: Final = Fraction(7, 2)
_ZERO: Final = Fraction(0)
#: How far the zigzags of a break line reach to either side, and a little more.
_ZIGZAG: Final = Fraction(5, 2)
#: White over and under a figure, so that it isn't read with the words next to it, in micrometres.
_WHITE: Final = 3 * MM // 2
_FLAP_HEIGHTS: Final = (WORD, Fraction(5, 2))


def compose(net: Net, names: Sequence[str], rule: Graduation, beside: Sequence[str] = ()) -> tuple[Stroke, ...]:
    """Every stroke of a template for ``names``, all of which look like ``net``; x = 0 at the fold, y = 0 at the datum edge.

    ``beside`` is what else is to be said there, each in a few words.
    """
    corner = max((m.box[2] for m in net.mouths if 0 < m.box[2] <= _CORNER), default=_ZERO)
    heights = sorted({mouth.centre[1] for mouth in net.mouths if mouth.is_centred and not mouth.is_hidden})
    rising = corner + _TO_RISING if heights else corner
    stub = rising + _STUB if heights else _ZERO
    notes = (*notes_of(net, rule), *map(plain_note, beside))
    arranged = _arranged(net, names, rule, heights, rising, list(map(whole, _taken(net, stub))), notes)
    reach = _reach(net, arranged, rising)
    marks: list[Mark] = [*cut_marks(net, reach), *outline_marks(net, reach), *centre_marks(net, stub)]
    if heights:
        marks.append(RisingDimensions((net.hand * rising, _ZERO), tuple(heights)))
    marks += [_datum(net, reach), *_on_flaps(net)]
    for one in arranged:
        left, bottom, _, _ = on_paper(net, _box(one.box))
        marks += one.block.marks(left, bottom)
    return tuple(flatten(marks))


def _arranged(
    net: Net,
    names: Sequence[str],
    rule: Graduation,
    heights: Sequence[Fraction],
    rising: Fraction,
    taken: list[Whole],
    notes: Sequence[Note],
) -> list[Arranged]:
    """The figures of the heights, the caption and the notes, each with its place on the face."""
    face = whole((_ZERO, _ZERO, min(_MOST_REACH, net.board.length.mm), net.height))
    levels = [(whole((_ZERO, y, _ZERO, y))[1], figures(Length(y), rule, FIGURE)) for y in heights]
    numbers = arrange_heights(levels, ceil(rising * MM), Room(taken, face))
    # The words of a tall part go between its figures, so that the paper is narrow enough to stand beside a check square.
    columns = [max([ceil(rising * MM), *(one.box[2] for one in numbers)])]
    if net.height > _TALL:
        columns.append(ceil(rising * MM))
    taken += [(x0, y0 - _WHITE, x1, y1 + _WHITE) for x0, y0, x1, y1 in (one.box for one in numbers)]
    words = arrange(caption_shapes(net, names), notes, taken, face, columns)
    return [*numbers, *_in_line(net, words, taken)]


def _taken(net: Net, stub: Fraction) -> Iterator[Box]:
    """What is drawn on the net, as boxes in u and y: cuts whole, hidden ones by their outline, centre lines, the break along the top."""
    if net.shown is not None:
        yield (net.outer, net.shown - _ZIGZAG, _MOST_REACH, net.shown)
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


def _in_line(net: Net, arranged: Sequence[Arranged], taken: Sequence[Whole]) -> list[Arranged]:
    """Blocks that stand in a column, moved so that their left sides are in line where the end is at the right."""
    if net.hand > 0:
        return list(arranged)
    made = []
    for one in arranged:
        u0, y0, u1, y1 = one.box
        right = max(other.box[2] for other in arranged if other.box[0] == u0 and other.is_on_wood == one.is_on_wood)
        box = (right - (u1 - u0), y0, right, y1)
        others = [other.box for other in arranged if other is not one]
        made.append(Arranged(one.block, box, one.is_on_wood) if Room((*others, *taken)).is_free(box) else one)
    return made


def _box(box: Whole) -> Box:
    x0, y0, x1, y1 = box
    return (Fraction(x0, MM), Fraction(y0, MM), Fraction(x1, MM), Fraction(y1, MM))


def _reach(net: Net, arranged: Sequence[Arranged], rising: Fraction) -> Fraction:
    """How far the template reaches: past the cuts that end near and the words on the wood, in whole millimetres, never past the wood."""
    ends = (mouth.box[2] for mouth in net.mouths if mouth.box[2] - mouth.box[0] <= _CORNER)
    wanted = max(
        [
            _LEAST_REACH,
            rising + 4,
            *(u + _TO_BREAK for u in ends),
            *(Fraction(one.box[2], MM) + _TO_BREAK for one in arranged if one.is_on_wood),
        ]
    )
    return min(Fraction(ceil(wanted)), net.board.length.mm)


def _datum(net: Net, reach: Fraction) -> DatumEdge:
    left, _, right, _ = on_paper(net, (net.outer, _ZERO, reach, _ZERO))
    return DatumEdge((left, _ZERO), (right, _ZERO), (left + right) / 2, datum_words(net, right - left))


def _on_flaps(net: Net) -> Iterator[Mark]:
    """The name of the end, and of the far face, on the part of the paper that is folded over it, reading upwards, where it fits."""
    taken = list(map(whole, _taken(net, _ZERO)))
    for surface in net.surfaces[:-1]:
        panel = whole(net.panel(surface, _LEAST_REACH))
        said = net.board.datum.word(surface).upper()
        text = next(
            filter(None, (_upwards(net, words(said, height), Room(taken, panel), panel) for height in _FLAP_HEIGHTS)), None
        )
        if text is not None:
            yield text


def _upwards(net: Net, content: Content, room: Room, panel: Whole) -> Text | None:
    left, _, right, top = panel
    line = set_line(content)
    wide, long = ceil((line.rise + line.fall) * MM), ceil(line.width * MM)
    lefts = sorted(range(left, right - wide, MM // 2), key=lambda u: abs(2 * u + wide - left - right))
    # Low down, since a tall template is parted about half-way up.
    bottoms = sorted(range(0, top - long, MM), key=lambda y: abs(y - (top - long) // 4))
    tries = (room.first_free_above(bottoms, u, wide, long, MM * 3 // 5) for u in lefts)
    box = next((found for found in tries if found is not None), None)
    if box is None:
        return None
    _, bottom, right_side, _ = on_paper(net, _box(box))
    return Text((right_side - line.fall, bottom), content, turn=Turn.UP)
