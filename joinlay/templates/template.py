"""Templates: paper to lay on the end of a part and mark it from."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TYPE_CHECKING

from joinlay.boards import Surface
from joinlay.boards.names import in_few_words
from joinlay.pen.marks import bounds_of
from joinlay.templates.composing import compose
from joinlay.templates.net import lay_flat
from joinlay.templates.right_across import cut_off, likeness_across, lowest_shown
from joinlay.templates.views import views_of

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterable, Mapping

    from joinlay.boards import Board
    from joinlay.lengths import Graduation
    from joinlay.pen.marks import Box, Stroke
    from joinlay.templates.net import Net

__all__ = ["Template", "templates_for"]

#: Past this, what the wood does is on no template.
_SEEN = Fraction(250)


@dataclass(frozen=True, slots=True)
class Template:
    """One piece of paper: the end of a part laid flat, at true size.

    ``names`` are the boards it is for, ``end`` the maker's word for the end; ``on`` is the edge it is laid on, '' where that is the
    reference face. ``strokes`` are drawn with x = 0 where the end meets the
    face and y = 0 at the datum edge; ``box`` is the room they take.
    """

    names: tuple[str, ...]
    end: str
    strokes: tuple[Stroke, ...]
    box: Box
    on: str = ""

    @property
    def part(self) -> str:
        """The boards in few words: ``drawer 1 to 3 left side``."""
        return in_few_words(self.names)

    @property
    def title(self) -> str:
        """``drawer 1 left side, front end``; ``face frame left stile, top end, inside edge`` where it is laid on an edge."""
        return f"{self.part}, {self.end}{f', {self.on}' if self.on else ''}"

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
    boards: Iterable[Board],
    rule: Graduation,
    beside: Mapping[str, tuple[str, ...]] | None = None,
    *,
    only_needed: bool = False,
) -> tuple[Template, ...]:
    """A template for each end of each board that has a cut within 100 mm of it, in the order of the boards (PR-6).

    Equal ones (the same part of several drawers) become one, with all the names and the quantity; parts of several widths do too
    where every cut goes right across. A wide part whose cuts do is marked from a strip, and cuts in an edge from a template laid on
    that edge. ``beside`` has words that belong beside a board, by its name. ``only_needed`` leaves out an end where nothing is seen but
    cuts the whole length of the part, which a fence sets. Figures are on ``rule``.
    """
    words = beside or {}
    found: dict[Hashable, list[Net]] = {}
    for board in boards:
        for view in views_of(board):
            for end in (Surface.END, Surface.FAR_END):
                flat = lay_flat(view, end)
                if flat is not None and not (only_needed and flat.is_through):
                    net = replace(flat, part=board)
                    found.setdefault((_likeness(net), words.get(board.name, ())), []).append(net)
    return tuple(_template(nets, rule, words.get(nets[0].board.name, ())) for nets in found.values())


def _template(nets: list[Net], rule: Graduation, said: tuple[str, ...]) -> Template:
    names = tuple(net.board.name for net in nets)
    shown = lowest_shown(nets) if likeness_across(nets[0]) is not None else None
    lowest = min(nets, key=lambda net: net.height)
    strokes = compose(lowest if shown is None else cut_off(lowest, shown), names, rule, said)
    datum = lowest.board.datum
    on = datum.face if datum.face.endswith("edge") else ""
    return Template(names, datum.word(lowest.end), strokes, bounds_of(strokes), on)


def _likeness(net: Net) -> Hashable:
    """Two nets with the same likeness are the same drawing, but for the parts' names, and for their heights where all goes right across."""
    view, across = net.board, likeness_across(net)
    mouths = tuple(
        (
            mouth.cut.kind,
            mouth.cut.surface,
            mouth.on,
            mouth.cut.shape,
            mouth.cut.depth.mm,
            mouth.is_hidden,
            _seen(mouth.box, across),
        )
        for mouth in net.mouths
    )
    sizes = (None if across is not None else view.width.mm, view.thickness.mm, min(view.length.mm, _SEEN))
    hand = tuple(word for word in view.name.split() if word in ("left", "right"))
    return (view.part, hand, view.datum, net.end, net.hand, net.goes_on, sizes, mouths, across)


def _seen(box: Box, across: Hashable) -> tuple[Fraction, ...]:
    """What of a mouth is on a template: along the part, and across it too where ``across`` doesn't say that already."""
    u0, y0, u1, y1 = max(box[0], -_SEEN), box[1], min(box[2], _SEEN), box[3]
    return (u0, y0, u1, y1) if across is None else (u0, u1)
