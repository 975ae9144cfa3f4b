"""The words that say which part this is, which end, which face is up, and how many to make."""

from __future__ import annotations

import re
from fractions import Fraction
from textwrap import wrap
from typing import TYPE_CHECKING, Final

from joinlay.boards import Surface
from joinlay.boards.names import in_few_words
from joinlay.pen.blocks import Block, beside, hand_sign, stacked
from joinlay.pen.lettering import Run, fitted, words
from joinlay.pen.signs import DatumEdge
from joinlay.templates.notes import FIGURE, WORD

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.pen.lettering import Content
    from joinlay.templates.net import Net

__all__ = ["caption_shapes", "datum_words", "is_left"]

#: Letters in a line of a part's name, at most, before it goes on to the next.
_LONGEST: Final = 14
_NUMBERED: Final = re.compile(r"(.*\d)\s+(\D+)")


def caption_shapes(net: Net, names: Sequence[str]) -> tuple[tuple[Block, ...], ...]:
    """The caption of a template in several shapes, each of one block or two: hand, part, end, face up, how many."""
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
    left = is_left(net)
    if left is None:
        return ((stacked([*part, where, face, count]),), *((shape,) for shape in shapes[1:]))
    sign = hand_sign(is_left=left)
    first = beside(sign, stacked([count]))
    named = stacked([beside(sign, stacked(part)), where, face, count])
    return ((stacked([first, shapes[0]]),), (named,), *((beside(sign, shape),) for shape in shapes[1:]), (first, shapes[0]))


def is_left(net: Net) -> bool | None:
    """Whether the template is for a left or a right part or end, as the part's name or its end says; None where neither does."""
    for said in (net.board.name, net.board.datum.word(net.end)):
        for word in said.lower().split():
            if word in ("left", "right"):
                return word == "left"
    return None


def datum_words(net: Net, room: Fraction) -> Content:
    """``BOTTOM EDGE  lay on this edge``, or as much of it as there is ``room`` for, triangles and all."""
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
