"""Which templates the ends of the parts have: one for all that are marked alike, no higher than it need be.

Where every cut goes right across a part, the lower part of the paper tells it all. So the drawers of a bank that differ only in
height share their templates, and the side of a deep case needs a strip along one edge.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.boards import Axis, CutUse, Hand, PartKind, Surface
from joinlay.lengths import Fraction
from joinlay.pen.marks import bounds_of
from joinlay.records import dataclass
from joinlay.templates.ends.end_drawing import draw_end
from joinlay.templates.ends.net import lay_flat, views_of
from joinlay.templates.piece_axes import hand_of
from joinlay.templates.template import Template
from joinlay.templates.turn_over import TurnedOver, both_ways

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterable, Mapping, Sequence

    from joinlay.boards import Board
    from joinlay.lengths import Graduation
    from joinlay.pen.marks import Stroke
    from joinlay.templates.ends.net import Mouth, Net

    #: Templates by the ends they are for.
    Drawn = dict[Hashable, "Template"]

__all__ = ["templates_for"]

#: Past this, what the wood does is on no template.
_SEEN: Final = Fraction(250)
#: A part wider than this is marked from a strip no higher than that, if that tells it all; the strip carries the words too.
_WIDE: Final = Fraction(110)
_STRIP: Final = Fraction(125)
#: Heights that such a strip is tried at, in mm: the one that takes least paper is kept.
_TRIED: Final = (Fraction(60), Fraction(75), Fraction(90), Fraction(105))
#: Wood shown above the highest thing that is told, where a strip has to be higher.
_ABOVE: Final = Fraction(20)
_ZERO: Final = Fraction(0)


def templates_for(
    boards: Iterable[Board],
    rule: Graduation,
    beside: Mapping[str, tuple[str, ...]] | None = None,
    *,
    only_needed: bool = False,
    elsewhere: Mapping[tuple[str, str], str] | None = None,
    drawn: Drawn | None = None,
) -> tuple[Template, ...]:
    """A template for each end of each of ``boards`` that has a cut within 100 mm of it, in the order of the boards (PR-6).

    Equal ones (the same part of several drawers) become one, with all the names and the quantity; parts of several widths do too
    where every cut goes right across. A wide part whose cuts do is marked from a strip, and cuts in an edge from a template laid
    on that edge. Figures are on ``rule``. ``beside`` has short sayings that belong beside a board, by its name. ``only_needed``
    leaves out an end where nothing is seen but cuts the whole length of the part, which a fence sets. ``elsewhere`` are cuts that
    are marked from another paper, (board, cut) by their names, and what to say of that; they are left out (PR-11). ``drawn``
    keeps what was drawn of the same boards on the same rule, so that it isn't drawn again.

    Where an end is the mirror image of another, as those of left and right parts are, both have one, which is turned over for the
    second: its ``turned`` (PR-11).

    Each is drawn with x = 0 where the end meets the face, the face to the right of it where the end is seen at the left and to
    the left of it where it is seen at the right; y = 0 at the reference edge.
    """
    words, other = beside or {}, elsewhere or {}
    kept: Drawn = {} if drawn is None else drawn
    found: dict[tuple[Hashable, tuple[str, ...]], list[_Told]] = {}
    for board in boards:
        if _is_bored_by_its_card(board):
            continue
        for up, view in views_of(board):
            for end in (Surface.END, Surface.FAR_END):
                flat, there = _parted(lay_flat(view, end), other)
                if flat is not None and not (only_needed and flat.is_through):
                    net = replace(flat, part=board, up=up)
                    said = (*words.get(board.name, ()), *there)
                    found.setdefault((_likeness(net), said), []).append(_Told(net, said, is_whole=not there))
    pairs = both_ways(
        found.values(),
        side=lambda told: told.net.hand,
        likeness=lambda told: (_likeness_over(told.net), told.said),
        called=lambda told: told.net.board.datum.word(told.net.end),
    )
    return tuple(_drawn_once(up, over, rule, kept) for up, over in pairs)


@dataclass(frozen=True, slots=True)
class _Told:
    """A net, and what is said beside it; ``is_whole`` where none of its cuts is left to another paper."""

    net: Net
    said: tuple[str, ...]
    is_whole: bool

    @property
    def key(self) -> Hashable:
        """What tells it from every other one of the same boards."""
        return (self.net.board.name, self.net.up, self.net.end)


def _drawn_once(up: Sequence[_Told], over: Sequence[_Told], rule: Graduation, drawn: Drawn) -> Template:
    """The template of ends marked alike, ``over`` those it is turned over for; from among those ``drawn`` where it is there."""
    key = (tuple(one.key for one in up), tuple(one.key for one in over), up[0].said)
    known = drawn.get(key)
    if known is not None and all(one.is_whole for one in (*up, *over)):
        return known
    made = _template([one.net for one in up], [one.net for one in over], rule, up[0].said)
    if all(one.is_whole for one in (*up, *over)):
        drawn[key] = made
    return made


def _is_bored_by_its_card(board: Board) -> bool:
    """True for a drawer's bottom that has only holes or slots for its screws and a knob's blank with only its dots: all on
    their cards.
    """
    if board.role.kind is PartKind.KNOB_BLANK:
        return all(cut.role.use is CutUse.DOT_HOLE for cut in board.cuts)
    return board.role.kind is PartKind.DRAWER_BOTTOM and all(cut.role.use.is_for_a_screw for cut in board.cuts)


def _parted(net: Net | None, elsewhere: Mapping[tuple[str, str], str]) -> tuple[Net | None, tuple[str, ...]]:
    """``net`` without what is marked from another paper, None where nothing is left of it; and what to say of that paper."""
    if net is None or not elsewhere:
        return net, ()
    names = [(net.board.name, mouth.cut.name) for mouth in net.mouths]
    said = tuple(dict.fromkeys(elsewhere[name] for name in names if name in elsewhere))
    cuts = tuple(cut for cut in net.board.cuts if (net.board.name, cut.name) not in elsewhere)
    return (lay_flat(replace(net.board, cuts=cuts), net.end) if said else net), said


def _template(nets: list[Net], turned: list[Net], rule: Graduation, said: tuple[str, ...]) -> Template:
    names = tuple(net.board.name for net in nets)
    over = _turned_over(nets, turned)
    lowest = min(nets, key=lambda net: net.height)
    tried = _heights_shown([*nets, *turned]) if _goes_across(nets[0]) else [None]
    drawn = [draw_end(lowest if shown is None else _cut_off(lowest, shown), names, rule, said, over) for shown in tried]
    strokes = min(drawn, key=_paper)
    datum = lowest.board.datum
    on = "" if lowest.up is Surface.FACE else datum.face
    end = turned[0].board.datum.word(turned[0].end) if turned else ""
    return Template(
        names, datum.word(lowest.end), strokes, bounds_of(strokes), on, turned=over.names if over else (), turned_end=end
    )


def _turned_over(nets: list[Net], turned: list[Net]) -> TurnedOver | None:
    """What is marked with the paper turned over; its end is named where it is another than the one printed."""
    if not turned:
        return None
    one = turned[0]
    end, printed = (net.board.datum.word(net.end) for net in (one, nets[0]))
    return TurnedOver(tuple(net.board.name for net in turned), "" if end == printed else end, hand_of(one.board, one.end))


def _likeness(net: Net) -> Hashable:
    """Nets of one likeness are one drawing but for the parts' names, and for their heights where all goes right across."""
    view = net.board
    hand = view.role.hand if view.role.hand in (Hand.LEFT, Hand.RIGHT) else None
    return (_likeness_over(net), hand, view.datum, net.end, net.hand)


def _likeness_over(net: Net) -> Hashable:
    """Nets of one likeness are one drawing, or each other's mirror image: hand, end and the words for ends are left out."""
    view, is_across = net.board, _goes_across(net)

    def on(surface: Surface) -> str:
        return "end" if surface is net.end else surface.value

    mouths = Counter(
        (
            mouth.cut.kind,
            on(mouth.cut.surface),
            on(mouth.on),
            mouth.cut.shape,
            mouth.cut.depth.mm,
            mouth.is_hidden,
            (max(mouth.box[0], -_SEEN), min(mouth.box[2], _SEEN)),
            _up(net, mouth) if is_across else (mouth.box[1], mouth.box[3]),
        )
        for mouth in net.mouths
    )
    datum = view.datum
    surfaces = (datum.face, datum.edge, datum.far_face, datum.far_edge)
    sizes = (None if is_across else view.width.mm, view.thickness.mm, min(view.length.mm, _SEEN))
    return (view.role.kind, net.up, surfaces, net.goes_on, sizes, frozenset(mouths.items()))


def _up(net: Net, mouth: Mouth) -> tuple[Fraction, Fraction | None] | None:
    """From where to where a mouth goes up a part of any width: None for the top where that is the far edge, or it all is
    there.
    """
    _, low, _, high = mouth.box
    return None if _runs_along_the_top(net, mouth) else (low, None if high == net.height else high)


def _goes_across(net: Net) -> bool:
    """Whether the cuts tell all whatever the part's width: none ends short of the far edge too high up for a strip."""
    told = [place for mouth in net.mouths if (place := _up(net, mouth)) is not None]
    return all(max(low, top or Fraction(0)) <= _STRIP for low, top in told)


def _heights_shown(nets: Sequence[Net]) -> list[Fraction | None]:
    """How high the one template of ``nets``, alike across, may be, in mm, the highest first; None: as high as the parts, all
    of one width.
    """
    widths = {net.height for net in nets}
    least = min(widths)
    whole = None if len(widths) == 1 else least
    if least <= _WIDE:
        return [whole]
    ends = [mouth.box[3] for mouth in nets[0].mouths if mouth.box[3] < least and not _runs_along_the_top(nets[0], mouth)]
    needed = max(ends, default=_ZERO) + _ABOVE
    strips = [high for high in reversed(_TRIED) if high >= needed]
    return [whole if least <= max(_STRIP, needed) else max(_STRIP, needed), *strips]


def _paper(strokes: Sequence[Stroke]) -> Fraction:
    """How much paper a template takes, in square mm."""
    left, bottom, right, top = bounds_of(strokes)
    return (right - left) * (top - bottom)


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
