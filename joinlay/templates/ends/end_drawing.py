"""Drawing the template of an end: first the wood and its cuts, then words and figures, each where nothing else is.

The words begin in a column just past the cuts and their figures. A template reaches as far along the part as its words need, at
least 60 mm; where they find no room on the wood they stand above it.
"""

from __future__ import annotations

from math import ceil
from typing import TYPE_CHECKING, Final

from joinlay.boards import Shape, Surface
from joinlay.lengths import Fraction, Length
from joinlay.pen.dimensioning import RisingDimensions
from joinlay.pen.hatching import Waste
from joinlay.pen.lettering import figures, set_line, words
from joinlay.pen.marks import Line, Role, Text, Turn, flatten
from joinlay.pen.mouths import mouth_polygon, mouth_strokes
from joinlay.pen.signs import BreakLine, DatumEdge
from joinlay.templates.ends.captions import caption_shapes, datum_words, notes_of, plain_note, turned_note
from joinlay.templates.ends.word_places import place_on_flap, place_words
from joinlay.templates.template import FIGURE, SMALL, WORD

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.lengths import Graduation
    from joinlay.pen.marks import Box, Mark, Point, Stroke
    from joinlay.templates.ends.net import Mouth, Net
    from joinlay.templates.ends.word_places import PlacedBlock
    from joinlay.templates.turn_over import TurnedOver

__all__ = ["centre_marks", "cut_marks", "draw_end", "outline_marks"]

#: The least a template reaches along the part, in mm.
_LEAST_REACH: Final = Fraction(60)
#: Cuts that end within this of the end make up the corner; longer ones run on under the words.
_CORNER: Final = Fraction(45)
#: From the corner to the line the heights rise along, and how far their centre lines go past it.
_TO_RISING, _STUB = Fraction(5), Fraction(1)
#: From the words to the break line, whose zigzags reach 2 mm to either side.
_TO_BREAK: Final = Fraction(7, 2)
#: How far a fold line shows past the wood, above and below; below it ends short of the words under the datum bar.
_PAST_TOP, _PAST_FOOT = Fraction(2), Fraction(12, 5)
#: Half the cross at the middle of a mortise.
_CROSS: Final = Fraction(3)
_ZERO: Final = Fraction(0)


def draw_end(
    net: Net, names: Sequence[str], rule: Graduation, beside: Sequence[str] = (), turned: TurnedOver | None = None
) -> tuple[Stroke, ...]:
    """Every stroke of a template for ``names``, all of which look like ``net``; x = 0 at the fold, y = 0 at the datum edge.

    Figures are on ``rule``. ``beside`` is what else is to be said there, each in a few words; ``turned`` are the parts it serves
    turned over.
    """
    corner = max((m.box[2] for m in net.mouths if 0 < m.box[2] <= _CORNER), default=_ZERO)
    heights = sorted({mouth.centre[1] for mouth in net.mouths if mouth.is_centred and not mouth.is_hidden})
    rising = corner + _TO_RISING if heights else corner
    stub = rising + _STUB if heights else _ZERO
    placed = place_words(
        net,
        captions=caption_shapes(net, names),
        notes=(*map(turned_note, (turned,) if turned else ()), *notes_of(net, rule), *map(plain_note, beside)),
        heights=[(y, figures(Length(y), rule, FIGURE)) for y in heights],
        rising=rising,
        stub=stub,
    )
    reach = _reach(net, placed, rising)
    marks: list[Mark] = [*cut_marks(net, reach), *outline_marks(net, reach), *centre_marks(net, stub)]
    if heights:
        marks.append(RisingDimensions((net.hand * rising, _ZERO), tuple(heights)))
    marks += [_datum(net, reach), *_on_flaps(net)]
    for one in placed:
        left, bottom, _, _ = _on_paper(net, one.box)
        marks += one.block.marks(left, bottom)
    return tuple(flatten(marks))


def _reach(net: Net, placed: Sequence[PlacedBlock], rising: Fraction) -> Fraction:
    """How far it reaches, in whole millimetres: past the cuts that end near and the words on the wood, never past the wood."""
    ends = (mouth.box[2] for mouth in net.mouths if mouth.box[2] - mouth.box[0] <= _CORNER)
    words_end = (one.box[2] for one in placed if one.is_on_wood)
    wanted = max([_LEAST_REACH, rising + 4, *(u + _TO_BREAK for u in (*ends, *words_end))])
    return min(Fraction(ceil(wanted)), net.board.length.mm)


def _datum(net: Net, reach: Fraction) -> DatumEdge:
    left, _, right, _ = _on_paper(net, (net.outer, _ZERO, reach, _ZERO))
    return DatumEdge((left, _ZERO), (right, _ZERO), (left + right) / 2, datum_words(net, right - left))


def _on_flaps(net: Net) -> Iterator[Text]:
    """The names of the end and the far face on the paper that is folded over them, reading upwards, where they fit."""
    for surface in net.surfaces[:-1]:
        said = net.board.datum.word(surface).upper()
        for height in (WORD, SMALL):
            content = words(said, height)
            box = place_on_flap(net, content, net.panel(surface, _LEAST_REACH))
            if box is not None:
                _, bottom, right, _ = _on_paper(net, box)
                yield Text((right - set_line(content).fall, bottom), content, turn=Turn.UP)
                break


def _on_paper(net: Net, box: Box) -> Box:
    """A box of the net, given in u and y, as it lies on paper: mirrored where the end is seen at the right."""
    u0, y0, u1, y1 = box
    return box if net.hand > 0 else (-u1, y0, -u0, y1)


def _point(net: Net, u: Fraction, y: Fraction) -> Point:
    return (net.hand * u, y)


def _line(net: Net, one: Point, two: Point, role: Role, says: str = "") -> Line:
    return Line(_point(net, *one), _point(net, *two), role, says)


def outline_marks(net: Net, reach: Fraction) -> Iterator[Mark]:
    """The edges of the wood on every surface of ``net``, the face as far as ``reach`` mm; fold and break lines."""
    high, name = net.height, net.board.name
    for surface in net.surfaces:
        u0, _, u1, _ = net.panel(surface, reach)
        edges = ((_ZERO, Surface.EDGE), (high, Surface.FAR_EDGE))
        for y, edge in edges[: 1 if net.shown is not None else 2]:
            says = f"{name} {net.board.datum.word(edge)}" if surface is Surface.FACE else ""
            yield _line(net, (u0, y), (u1, y), Role.OUTLINE, says)
    folds = (_ZERO, -net.flap) if net.far else (_ZERO,)
    for u in folds:
        says = f"{name} {net.board.datum.word(net.end)}" if u == 0 else ""
        yield _line(net, (u, -_PAST_FOOT), (u, high + _PAST_TOP), Role.FOLD, says)
    whole = net.board.length.mm
    breaks = ([reach] if reach < whole else []) + ([net.outer] if net.far else [])
    for u in breaks:
        yield BreakLine(_point(net, u, _ZERO), _point(net, u, high))
    if net.shown is not None:
        yield BreakLine(_point(net, net.outer, high), _point(net, reach, high))
    if reach >= whole:
        yield _line(net, (whole, _ZERO), (whole, high), Role.OUTLINE)
    if not net.far:
        # The far edge of the end itself, or of a flap that only hooks over it.
        role = Role.OUTLINE if net.flap == net.board.thickness.mm else Role.CUT
        yield _line(net, (net.outer, _ZERO), (net.outer, high), role)


def cut_marks(net: Net, reach: Fraction) -> Iterator[Mark]:
    """Every cut of ``net`` as far as ``reach`` mm: hidden ones dashed, all others but mortises and holes crossed out."""
    for mouth in net.mouths:
        panel = net.panel(mouth.on, reach)
        box = _clipped(mouth.box, panel)
        if box is None:
            continue
        lies, within = _on_paper(net, box), _on_paper(net, panel)
        says = f"{net.board.name} {mouth.cut.name}"
        shape = mouth.cut.shape if mouth.is_entered else Shape.SQUARE
        if mouth.is_hidden:
            yield from mouth_strokes(lies, Shape.SQUARE, Role.HIDDEN, within)
            continue
        if not mouth.is_centred:
            yield Waste(mouth_polygon(lies, shape))
        yield from mouth_strokes(lies, shape, Role.CUT, within, says)


def _clipped(box: Box, panel: Box) -> Box | None:
    u0, y0, u1, y1 = max(box[0], panel[0]), box[1], min(box[2], panel[2]), box[3]
    return (u0, y0, u1, y1) if u0 < u1 else None


def centre_marks(net: Net, stub: Fraction) -> Iterator[Mark]:
    """The centre of every mortise and hole of ``net``: a cross in hairlines, centre lines out to the edges and over the folds.

    ``stub`` is how far along the face the lines that cross the fold go on, for their figures.
    """
    centred = [mouth for mouth in net.mouths if not mouth.is_hidden and mouth.is_centred]
    upright = sorted({(mouth.centre[0], mouth.on.value) for mouth in centred})
    for u, _ in upright:
        yield _line(net, (u, _ZERO), (u, net.height), Role.CENTRE)
    for y in sorted({mouth.centre[1] for mouth in centred}):
        past = max([stub, *(mouth.box[2] + _CROSS for mouth in centred if mouth.centre[1] == y)])
        yield _line(net, (net.outer, y), (past, y), Role.CENTRE)
    for mouth in centred:
        yield from _cross(net, mouth)


def _cross(net: Net, mouth: Mouth) -> Iterator[Line]:
    u, y = mouth.centre
    u0, y0, u1, y1 = mouth.box
    wide, high = max(_CROSS, (u1 - u0) / 2 + 1), max(_CROSS, (y1 - y0) / 2 + 1)
    says = f"{net.board.name} {mouth.cut.name} centre"
    yield _line(net, (u - wide, y), (u + wide, y), Role.CUT, says)
    yield _line(net, (u, y - high), (u, y + high), Role.CUT, says)
