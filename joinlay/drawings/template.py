"""Templates: paper to lay on the end of a part and mark it from."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from joinlay.boards import Surface
from joinlay.boards.names import in_few_words
from joinlay.drawings.composing import compose
from joinlay.drawings.marks import bounds_of
from joinlay.drawings.net import lay_flat

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterable, Mapping

    from joinlay.boards import Board
    from joinlay.drawings.marks import Box, Stroke
    from joinlay.drawings.net import Net
    from joinlay.lengths import Graduation

__all__ = ["Template", "templates_for"]

#: Past this, what the wood does is on no template.
_SEEN = Fraction(250)


@dataclass(frozen=True, slots=True)
class Template:
    """One piece of paper: the end of a part laid flat, at true size.

    ``names`` are the boards it is for, ``end`` the maker's word for the end. ``strokes`` are drawn with x = 0 where the end meets the
    face and y = 0 at the datum edge; ``box`` is the room they take.
    """

    names: tuple[str, ...]
    end: str
    strokes: tuple[Stroke, ...]
    box: Box

    @property
    def part(self) -> str:
        """The boards in few words: ``drawer 1 to 3 left side``."""
        return in_few_words(self.names)

    @property
    def title(self) -> str:
        """``drawer 1 left side, front end``."""
        return f"{self.part}, {self.end}"

    @property
    def quantity(self) -> int:
        """How many boards are marked from it."""
        return len(self.names)

    @property
    def size(self) -> tuple[Fraction, Fraction]:
        """Its width and height on paper, in mm."""
        left, bottom, right, top = self.box
        return right - left, top - bottom


def templates_for(
    boards: Iterable[Board], rule: Graduation, beside: Mapping[str, tuple[str, ...]] | None = None
) -> tuple[Template, ...]:
    """A template for each end of each board that has a cut within 100 mm of it, in the order of the boards (PR-6).

    Equal ones (the same part of several drawers) become one, with all the names and the quantity. Figures are on ``rule``. ``beside`` has words
    that belong beside a board, by its name.
    """
    words = beside or {}
    found: dict[Hashable, list[Net]] = {}
    for board in boards:
        for end in (Surface.END, Surface.FAR_END):
            net = lay_flat(board, end)
            if net is not None:
                found.setdefault((_likeness(net), words.get(board.name, ())), []).append(net)
    return tuple(_template(nets, rule, words.get(nets[0].board.name, ())) for nets in found.values())


def _template(nets: list[Net], rule: Graduation, said: tuple[str, ...]) -> Template:
    names = tuple(net.board.name for net in nets)
    strokes = compose(nets[0], names, rule, said)
    return Template(names, nets[0].board.datum.word(nets[0].end), strokes, bounds_of(strokes))


def _likeness(net: Net) -> Hashable:
    """Two nets with the same likeness are the same drawing, but for the numbers in the parts' names."""
    board = net.board
    mouths = tuple(
        (mouth.cut.kind, mouth.cut.surface, mouth.on, mouth.cut.shape, mouth.cut.depth.mm, mouth.is_hidden, _seen(mouth.box))
        for mouth in net.mouths
    )
    sizes = (board.width.mm, board.thickness.mm, min(board.length.mm, _SEEN))
    return (re.sub(r"\d+", "", board.name), board.datum, net.end, net.hand, sizes, mouths)


def _seen(box: Box) -> Box:
    u0, y0, u1, y1 = box
    return (max(u0, -_SEEN), y0, min(u1, _SEEN), y1)
