"""Templates for stop blocks: laid on the rail and the strip behind it, seen from above (ST-1, ST-2, ST-4)."""

from __future__ import annotations

from dataclasses import replace
from textwrap import wrap
from typing import TYPE_CHECKING, Final

from joinlay.boards import Hand, PartKind
from joinlay.boards.names import in_few_words
from joinlay.geometry import corners
from joinlay.lengths import Fraction
from joinlay.pen.blocks import beside, hand_sign, stacked
from joinlay.pen.lettering import set_line, words
from joinlay.pen.marks import Fill, Line, Polyline, Role, Text, bounds_of, flatten
from joinlay.pen.signs import TONE
from joinlay.records import dataclass
from joinlay.templates.banks import whole_piece
from joinlay.templates.datum_marks import figures_below, figures_beside, level_datum, name_in_box, upright_datum, words_beside
from joinlay.templates.piece_axes import PieceAxis, reach
from joinlay.templates.template import FIGURE, SMALL, Template
from joinlay.templates.turn_over import TurnedOver, both_ways, turned_block

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.boards import Board
    from joinlay.casework.assembly import Drawer
    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Graduation
    from joinlay.pen.blocks import Block
    from joinlay.pen.marks import Box, Mark
    from joinlay.templates.banks import WholePiece

__all__ = ["ON_THE_RAIL", "stop_templates"]

#: What such a template says for an end.
ON_THE_RAIL: Final = "template on the rail"
_PAST: Final = Fraction(8)
_ZERO: Final = Fraction(0)
_LETTERS: Final = 16
#: Between what is said of one hand and of the other.
_ROW: Final = Fraction(2)


@dataclass(frozen=True, slots=True)
class _BlockPlace:
    """A ``block`` seen from above, its box counted in mm from ``datum`` and from the face of the frame.

    ``rail`` is how deep the rail is, ``strip`` from where to where the strip behind it goes (None: there is none), ``height`` the
    block's.
    """

    hand: Hand
    datum: str
    block: Box
    rail: Fraction
    strip: tuple[Fraction, Fraction] | None
    height: Fraction

    @property
    def top(self) -> Fraction:
        """How far back the paper goes: past the block, and past the strip behind the rail."""
        return max(self.block[3], self.strip[1] if self.strip else self.block[3])

    def either_hand(self) -> _BlockPlace:
        """The same place at the left, whichever hand it is at."""
        return replace(self, hand=Hand.LEFT)


def stop_templates(plan: Plan) -> tuple[Template, ...]:
    """A template for the left stop block, turned over for the right (PR-11), for all drawers of ``plan`` whose blocks stand
    alike.

    Drawn as seen from above, with y = 0 at the face of the frame and x = 0 at the end of the strip; where the block stands on the
    case bottom, x = 0 is the inner edge of the bearer, or the inside of the case. None where the piece has no stops. ST-1, ST-2,
    ST-4; common practice.
    """
    whole = whole_piece(plan)
    if whole is None:
        return ()
    alike: dict[_BlockPlace, list[Board]] = {}
    for bank in whole.banks:
        for drawer in bank.drawers:
            for block in whole.blocks_of(drawer):
                alike.setdefault(_place(whole, drawer, block), []).append(block)
    drawn = [[(place, block) for block in blocks] for place, blocks in alike.items()]
    pairs = both_ways(drawn, side=lambda one: 1 if one[0].hand is Hand.LEFT else -1, likeness=lambda one: one[0].either_hand())
    return tuple(
        _template(here[0][0], [block for _, block in here], [block for _, block in over], plan.rule) for here, over in pairs
    )


def _across(whole: WholePiece, drawer: Drawer, strip: Board | None, hand: Hand) -> tuple[str, Fraction]:
    """What the block is measured from across the piece, and where that is: the strip's end, the bearer's edge or the upright."""
    inner = 1 if hand is Hand.LEFT else 0
    if strip is not None:
        return "end of the strip", reach(strip, PieceAxis.WIDTH)[1 - inner]
    bearer = whole.bearer_of(drawer, hand)
    if bearer is not None:
        return "inner edge of the bearer", reach(bearer, PieceAxis.WIDTH)[inner]
    bank = next(bank for bank in whole.banks if drawer in bank.drawers)
    if whole.is_shared(bank, drawer, hand):
        return "edge of the guide", reach(whole.guide_beside(bank, drawer, hand), PieceAxis.WIDTH)[inner]
    upright = whole.wood_beside(bank, drawer, hand)
    return "inside of the case" if upright.role.kind is PartKind.CASE_SIDE else "partition", reach(upright, PieceAxis.WIDTH)[
        inner
    ]


def _place(whole: WholePiece, drawer: Drawer, block: Board) -> _BlockPlace:
    hand = Hand.LEFT if block.role.hand is Hand.LEFT else Hand.RIGHT
    face = whole.frame_reach(PieceAxis.DEPTH)[0]
    back = max(reach(board, PieceAxis.DEPTH)[1] for board in whole.frame_parts(PartKind.RAIL))
    strip = whole.strip_of(drawer)
    datum, zero = _across(whole, drawer, strip, hand)
    x0, x1 = sorted(abs(at - zero) for at in reach(block, PieceAxis.WIDTH))
    y0, y1 = reach(block, PieceAxis.DEPTH)
    deep = reach(strip, PieceAxis.DEPTH) if strip is not None else None
    z0, z1 = reach(block, PieceAxis.HEIGHT)
    return _BlockPlace(
        hand=hand,
        datum=datum,
        block=(x0, y0 - face, x1, y1 - face),
        rail=back - face,
        strip=None if deep is None else (deep[0] - face, deep[1] - face),
        height=z1 - z0,
    )


def _template(place: _BlockPlace, blocks: list[Board], turned: list[Board], rule: Graduation) -> Template:
    names = tuple(block.name for block in blocks)
    drawn = tuple(flatten(_drawing(place, blocks, rule)))
    side = 1 if place.hand is Hand.LEFT else -1
    strokes = (*drawn, *flatten(words_beside(_words(place, blocks, turned), drawn, side, place.top)))
    others = tuple(block.name for block in turned)
    return Template(names, ON_THE_RAIL, strokes, bounds_of(strokes), turned=others, turned_end=ON_THE_RAIL if turned else "")


def _drawing(place: _BlockPlace, blocks: list[Board], rule: Graduation) -> Iterator[Mark]:
    side = 1 if place.hand is Hand.LEFT else -1
    x0, y0, x1, y1 = place.block
    reach_x = x1 + _PAST
    top = place.top
    left, right = sorted((_ZERO, side * reach_x))
    yield from level_datum(left, right, _ZERO, "face of the frame", is_top=False)
    yield from upright_datum(_ZERO, top, _ZERO, place.datum, -side)
    yield Line((side * reach_x, _ZERO), (side * reach_x, top), Role.CUT)
    yield Line((left, top), (right, top), Role.OUTLINE)
    if 0 < place.rail < top:
        yield Line((left, place.rail), (right, place.rail), Role.OUTLINE, "back of the rail")
        yield from name_in_box("rail", (left, _ZERO, right, min(place.rail, y0)))
    box = (min(side * x0, side * x1), y0, max(side * x0, side * x1), y1)
    yield Fill(corners(box), TONE, Role.CUT)
    yield Polyline(corners(box), Role.CUT, closed=True, says=blocks[0].name)
    yield from name_in_box("stop block", box)
    yield from figures_beside((_ZERO, y0, y1), _ZERO, side * reach_x, side, rule, FIGURE)
    yield from _above((side * x0, side * x1), top, rule)


def _words(place: _BlockPlace, blocks: list[Board], turned: list[Board]) -> Block:
    """Which blocks it is for, as printed and turned over."""
    block = stacked(
        [words(line, FIGURE, bold=True) for line in wrap(in_few_words(block.role.short for block in blocks), _LETTERS)]
    )
    block = stacked([block, words("seen from above", SMALL)])
    block = beside(hand_sign(is_left=place.hand is Hand.LEFT), block)
    if turned:
        over = TurnedOver(tuple(one.role.short for one in turned), hand=Hand.RIGHT if place.hand is Hand.LEFT else Hand.LEFT)
        block = stacked([block, turned_block(over, wrap(in_few_words(over.names), _LETTERS))], _ROW)
    return block


def _above(places: tuple[Fraction, ...], y: Fraction, rule: Graduation) -> Iterator[Mark]:
    """Figures over the drawing: those of ``figures_below`` turned up about ``y``."""
    for stroke in figures_below(places, _ZERO, -y, rule, FIGURE):
        if isinstance(stroke, Line):
            yield Line((stroke.start[0], -stroke.start[1]), (stroke.end[0], -stroke.end[1]), stroke.role)
        elif isinstance(stroke, Text):
            x, low = stroke.anchor
            yield Text((x, -low - set_line(stroke.content).rise), stroke.content, stroke.align)
