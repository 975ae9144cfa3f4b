"""What the template of an end says: which part, which end, which face is up, how many; and of each cut how deep it is and where.

The place of a cut is on the paper and in figures too, since paper moves and figures don't (PR-5).
"""

from __future__ import annotations

import re
from textwrap import wrap
from typing import TYPE_CHECKING, Final

from joinlay.boards import Axis, CutKind, Hand, PartKind, Surface
from joinlay.boards.names import in_few_words
from joinlay.lengths import Fraction, Length
from joinlay.pen.blocks import Block, beside, hand_sign, stacked
from joinlay.pen.lettering import Run, figures, fitted, unparted, words
from joinlay.pen.signs import DatumEdge
from joinlay.records import dataclass
from joinlay.templates.piece_axes import hand_of
from joinlay.templates.template import FIGURE, SMALL, WORD
from joinlay.templates.turn_over import turned_block

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.lengths import Graduation
    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Box
    from joinlay.templates.ends.net import Mouth, Net
    from joinlay.templates.turn_over import TurnedOver

__all__ = ["Note", "caption_shapes", "datum_words", "notes_of", "plain_note", "turned_note"]

#: Letters in a line of a part's name, at most, before it goes on to the next.
_LONGEST: Final = 14
_NUMBERED: Final = re.compile(r"(.*\d)\s+(\D+)")
#: A cut longer than this runs on under the words of its template, in mm.
_RUNS_ON: Final = Fraction(45)

#: A length between the words before and after it: ("", 1/4 in, "deep").
_Fact = tuple[str, Fraction, str]


def caption_shapes(net: Net, names: Sequence[str]) -> tuple[tuple[Block, ...], ...]:
    """The caption for ``names``, which all look like ``net``, in several shapes, each of one block or two.

    Hand, part, end, face up, how many to make.
    """
    datum = net.board.datum
    lines = _lines(names)
    part = [words(line, FIGURE, bold=True) for line in lines]
    in_a_row = words(" ".join(lines), FIGURE, bold=True)
    where = words(datum.word(net.end).upper(), FIGURE, bold=True)
    face = words(f"{datum.word(Surface.FACE)} up", WORD, bold=True)
    count = words(f"make {len(names)}", WORD, bold=True)
    low = stacked([in_a_row, (*where, Run("   ", WORD), *face, Run("   ", WORD), *count)])
    shapes = (
        stacked([*part, where, face]),
        stacked([*part, (*where, Run("  ", WORD), *count), face]),
        stacked([in_a_row, (*where, Run("   ", WORD), *count), face]),
        low,
    )
    hand = hand_of(net.board, net.end)
    if hand is None:
        return ((stacked([*part, where, face, count]),), *((shape,) for shape in shapes[1:]))
    sign = hand_sign(is_left=hand is Hand.LEFT)
    first = beside(sign, stacked([count]))
    named = stacked([beside(sign, stacked(part)), where, face, count])
    return ((stacked([first, shapes[0]]),), (named,), *((beside(sign, shape),) for shape in shapes[1:]), (first, shapes[0]))


def datum_words(net: Net, room: Fraction) -> Content:
    """``BOTTOM EDGE  lay on this edge`` of ``net``, or as much of it as ``room`` mm hold, triangles and all."""
    said = net.board.datum.word(Surface.EDGE).upper()
    edge = words(said, WORD, bold=True)
    for content in ((*edge, Run("  lay on this edge", WORD)), (Run("lay on ", WORD), *edge), edge):
        if DatumEdge.room(content)[0] <= room:
            return content
    return fitted(said, room - DatumEdge.room(())[0], (WORD, Fraction(5, 2)), bold=True)


def _lines(names: Sequence[str]) -> list[str]:
    """The part's name in short lines: ``drawer 1 to 4`` / ``left side``."""
    said = in_few_words(names)
    numbered = _NUMBERED.fullmatch(said)
    return [line for stretch in (numbered.groups() if numbered else (said,)) for line in _wrapped(stretch)]


def _wrapped(said: str) -> list[str]:
    """``said`` in lines, no number alone on the last."""
    lines = wrap(said, _LONGEST)
    return wrap(said, _LONGEST + 3) if lines[-1].isdigit() else lines


@dataclass(frozen=True, slots=True)
class Note:
    """What is said of one cut, or of several alike.

    ``shapes`` are ways of setting it. ``band`` is the cut, in u and y, where it runs on along the part under the words; None
    where it doesn't.
    """

    shapes: tuple[Block, ...]
    band: Box | None


def notes_of(net: Net, rule: Graduation) -> tuple[Note, ...]:
    """A note for every kind of cut on ``net``, figures on ``rule``; mortises and holes last, whose place figures tell already."""
    groups: dict[tuple[str, str, tuple[_Fact, ...]], list[Mouth]] = {}
    for mouth in net.mouths:
        into_an_edge = mouth.is_hidden and mouth.cut.surface in (Surface.EDGE, Surface.FAR_EDGE)
        # A stub is left between two rabbets, each from its own edge.
        of_a_stub = mouth.on is Surface.FACE and mouth.cut.kind is CutKind.RABBET and mouth.cut.surface.axis is Axis.ACROSS
        if mouth.is_entered or into_an_edge or of_a_stub:
            key = (mouth.cut.kind.value, _where(net, mouth), tuple(_facts(mouth, net)))
            groups.setdefault(key, []).append(mouth)
    ordered = sorted(groups.items(), key=lambda said: said[1][0].is_centred)
    return (*(_note(*said, mouths, rule) for said, mouths in ordered), *_beyond(net))


def _beyond(net: Net) -> Iterator[Note]:
    """What the maker must know of the wood that is not on the paper: cuts that go on across it, and cuts further along."""
    if net.shown is not None and any(mouth.box[3] == net.shown for mouth in net.mouths):
        yield _two("right across:", "square it over")
    if net.goes_on:
        # No story stick goes along a runner: where its screws stand is on the card they are drilled by.
        is_runner = (net.part or net.board).role.kind in (PartKind.BEARER, PartKind.KICKER)
        yield _two("more cuts further along:", "see its setting card" if is_runner else "see the story stick")


def _two(what: str, do: str) -> Note:
    return Note((stacked([(_blank(what),), (_blank(do),)]), stacked([(_blank(f"{what} {do}"),)])), None)


def turned_note(turned: TurnedOver) -> Note:
    """Which parts are marked with the paper turned over, and how many there are of them (PR-11); as high as wide, or flat."""
    lines = _lines(turned.names)
    return Note(tuple(turned_block(turned, said, len(turned.names)) for said in (lines, [" ".join(lines)])), None)


def plain_note(said: str) -> Note:
    """The words ``said``, small, in one line, two or three."""
    return Note(tuple(stacked([words(line, SMALL) for line in _in_lines(said, count)]) for count in (1, 2, 3)), None)


def _in_lines(said: str, count: int) -> list[str]:
    """The words in ``count`` lines about as long as each other; fewer where there are fewer words."""
    target = len(said) / count
    lines: list[str] = []
    for word in unparted(said):
        if lines and len(lines[-1]) + len(word) / 2 < target:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return lines


def _note(kind: str, where: str, facts: tuple[_Fact, ...], mouths: list[Mouth], rule: Graduation) -> Note:
    called = _bold(f"{len(mouths)} {kind}s" if len(mouths) > 1 else kind)
    place = [_bold(where)] if where else []
    both = (*called, _blank(" "), *place[0]) if place else called
    deep, *rest = (_set_fact(fact, rule) for fact in facts)
    in_a_row: Content = (*both, _blank(" "), *deep)
    for fact in rest:
        in_a_row += (_blank(", "), *fact)
    if not place:
        shapes = [stacked([called, deep, *rest]), stacked([(*called, _blank(" "), *deep), *rest])]
    else:
        shapes = [
            stacked([called, *place, deep, *rest]),
            stacked([called, (*place[0], _blank(" "), *deep), *rest]),
            stacked([both, in_a_row[len(both) + 1 :]]),
        ]
    box = mouths[0].box
    runs_on = mouths[0].on is Surface.FACE and box[2] - box[0] > _RUNS_ON
    return Note((*shapes, stacked([in_a_row])), box if runs_on else None)


def _bold(text: str) -> Content:
    return (Run(text, WORD, bold=True),)


def _blank(text: str) -> Run:
    return Run(text, WORD)


def _where(net: Net, mouth: Mouth) -> str:
    """Where the cut goes in, unless that is the face that is up."""
    return "" if mouth.cut.surface is Surface.FACE else f"in {net.board.datum.word(mouth.cut.surface)}"


def _facts(mouth: Mouth, net: Net) -> Iterator[_Fact]:
    """Depth first, then where the cut lies: from the end, from the face, up from the edge, whichever marks it out."""
    cut, (u0, y0, u1, _) = mouth.cut, mouth.box
    yield "", cut.depth.mm, "deep"
    if cut.surface in (Surface.END, Surface.FAR_END):
        yield "", (cut.into.centre if mouth.is_centred else cut.into.start).mm, "from face"
    elif mouth.on is Surface.FAR_FACE:
        # Counted backwards past the end, so the near wall is the larger number.
        thick = net.board.thickness.mm
        yield from _from_end(-thick - u1, -thick - u0, cut.kind)
    elif mouth.is_centred:
        yield "", mouth.centre[0], "from end"
    elif cut.kind is CutKind.GROOVE:
        yield "", y0, "up"
        if u0 > 0:
            yield "stops", u0, "from end"
    else:
        yield from _from_end(u0, u1, cut.kind)


def _from_end(near: Fraction, far: Fraction, kind: CutKind) -> Iterator[_Fact]:
    if near > 0:
        yield "", near, "from end"
        if kind is CutKind.SLOT:
            yield "", far - near, "long"
    elif kind is CutKind.RABBET:
        yield "", far, "wide"


def _set_fact(fact: _Fact, rule: Graduation) -> Content:
    before, size, after = fact
    lead = (_blank(f"{before} "),) if before else ()
    return (*lead, *figures(Length(size), rule, FIGURE), _blank(f" {after}"))
