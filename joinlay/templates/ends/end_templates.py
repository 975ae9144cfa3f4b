"""Which templates the ends of the parts have: one for all that are marked alike, no higher than it need be.

Where every cut goes right across a part, the lower part of the paper tells it all. So the drawers of a bank that differ only in
height share their templates, and the side of a deep case needs a strip along one edge.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.boards import Axis, Hand, Surface
from joinlay.lengths import Fraction
from joinlay.pen.marks import bounds_of
from joinlay.templates.ends.end_drawing import draw_end
from joinlay.templates.ends.net import lay_flat, views_of
from joinlay.templates.template import Template

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterable, Mapping, Sequence

    from joinlay.boards import Board
    from joinlay.lengths import Graduation
    from joinlay.pen.marks import Box
    from joinlay.templates.ends.net import Mouth, Net

__all__ = ["templates_for"]

#: Past this, what the wood does is on no template.
_SEEN: Final = Fraction(250)
#: A part wider than this is marked from a strip of this height, if that tells it all; the strip carries the words too.
_WIDE: Final = Fraction(250)
_STRIP: Final = Fraction(125)
#: Wood shown above the highest thing that is told, where a strip has to be higher.
_ABOVE: Final = Fraction(20)


def templates_for(
    boards: Iterable[Board],
    rule: Graduation,
    beside: Mapping[str, tuple[str, ...]] | None = None,
    *,
    only_needed: bool = False,
    elsewhere: Mapping[tuple[str, str], str] | None = None,
) -> tuple[Template, ...]:
    """A template for each end of each of ``boards`` that has a cut within 100 mm of it, in the order of the boards (PR-6).

    Equal ones (the same part of several drawers) become one, with all the names and the quantity; parts of several widths do too
    where every cut goes right across. A wide part whose cuts do is marked from a strip, and cuts in an edge from a template laid
    on that edge. Figures are on ``rule``. ``beside`` has short sayings that belong beside a board, by its name. ``only_needed``
    leaves out an end where nothing is seen but cuts the whole length of the part, which a fence sets. ``elsewhere`` are cuts that
    are marked from another paper, (board, cut) by their names, and what to say of that; they are left out (PR-11).

    Each is drawn with x = 0 where the end meets the face, the face to the right of it where the end is seen at the left and to
    the left of it where it is seen at the right; y = 0 at the reference edge.
    """
    words, other = beside or {}, elsewhere or {}
    found: dict[tuple[Hashable, tuple[str, ...]], list[Net]] = {}
    for board in boards:
        for up, view in views_of(board):
            for end in (Surface.END, Surface.FAR_END):
                flat, there = _parted(lay_flat(view, end), other)
                if flat is not None and not (only_needed and flat.is_through):
                    net = replace(flat, part=board, up=up)
                    said = (*words.get(board.name, ()), *there)
                    found.setdefault((_likeness(net), said), []).append(net)
    return tuple(_template(nets, rule, said) for (_, said), nets in found.items())


def _parted(net: Net | None, elsewhere: Mapping[tuple[str, str], str]) -> tuple[Net | None, tuple[str, ...]]:
    """``net`` without what is marked from another paper, None where nothing is left of it; and what to say of that paper."""
    if net is None or not elsewhere:
        return net, ()
    names = [(net.board.name, mouth.cut.name) for mouth in net.mouths]
    said = tuple(dict.fromkeys(elsewhere[name] for name in names if name in elsewhere))
    cuts = tuple(cut for cut in net.board.cuts if (net.board.name, cut.name) not in elsewhere)
    return (lay_flat(replace(net.board, cuts=cuts), net.end) if said else net), said


def _template(nets: list[Net], rule: Graduation, said: tuple[str, ...]) -> Template:
    names = tuple(net.board.name for net in nets)
    shown = _lowest_shown(nets) if _likeness_across(nets[0]) is not None else None
    lowest = min(nets, key=lambda net: net.height)
    strokes = draw_end(lowest if shown is None else _cut_off(lowest, shown), names, rule, said)
    datum = lowest.board.datum
    on = "" if lowest.up is Surface.FACE else datum.face
    return Template(names, datum.word(lowest.end), strokes, bounds_of(strokes), on)


def _likeness(net: Net) -> Hashable:
    """Nets of one likeness are one drawing but for the parts' names, and for their heights where all goes right across."""
    view, across = net.board, _likeness_across(net)
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
    hand = view.role.hand if view.role.hand in (Hand.LEFT, Hand.RIGHT) else None
    return (view.role.kind, hand, view.datum, net.end, net.hand, net.goes_on, sizes, mouths, across)


def _seen(box: Box, across: Hashable) -> tuple[Fraction, ...]:
    """What of a mouth is on a template: along the part, and across it too where ``across`` doesn't say that already."""
    u0, y0, u1, y1 = max(box[0], -_SEEN), box[1], min(box[2], _SEEN), box[3]
    return (u0, y0, u1, y1) if across is None else (u0, u1)


def _likeness_across(net: Net) -> Hashable | None:
    """What of the cuts matters whatever the part's width; None where a cut ends short of the far edge too high up for a strip."""
    told = []
    for mouth in net.mouths:
        _, low, _, high = mouth.box
        if _runs_along_the_top(net, mouth):
            continue
        top = None if high == net.height else high
        if max(low, top or Fraction(0)) > _STRIP:
            return None
        told.append((mouth.on, mouth.cut.name, low, top))
    return tuple(told)


def _lowest_shown(nets: Sequence[Net]) -> Fraction | None:
    """How high the one template of ``nets``, alike across, is to be, in mm; None: as high as the parts, all of one width."""
    widths = {net.height for net in nets}
    least = min(widths)
    if least > _WIDE:
        return max([_STRIP, *(m.box[3] + _ABOVE for m in nets[0].mouths if m.box[3] < least and m.box[3] > _STRIP - _ABOVE)])
    return None if len(widths) == 1 else least


def _cut_off(net: Net, shown: Fraction) -> Net:
    """``net`` with only the lowest ``shown`` of its part on the paper, and without what runs along above it."""
    kept = []
    for mouth in net.mouths:
        u0, low, u1, high = mouth.box
        if low < shown and not _runs_along_the_top(net, mouth):
            kept.append(replace(mouth, box=(u0, low, u1, min(high, shown))))
    return replace(net, mouths=tuple(kept), shown=shown)


def _runs_along_the_top(net: Net, mouth: Mouth) -> bool:
    """True for a rabbet or groove the whole length of the part by its far edge: a fence sets it, and it needs no template."""
    along = mouth.cut.span(Axis.ALONG)
    whole = along.start.mm == 0 and along.stop.mm == net.board.length.mm
    return whole and mouth.box[3] == net.height and mouth.box[1] > 0
