"""The runners of one drawer as they stand at the front of the case: bearer, guide and kicker against the side (RN)."""

from __future__ import annotations

from dataclasses import replace
from textwrap import wrap
from typing import TYPE_CHECKING, Final

from joinlay.boards import Hand, PartKind
from joinlay.boards.names import in_few_words
from joinlay.geometry import corners
from joinlay.lengths import Fraction
from joinlay.pen.blocks import beside, hand_sign, stacked
from joinlay.pen.lettering import words
from joinlay.pen.marks import Fill, Line, Polyline, Role, bounds_of, flatten
from joinlay.pen.signs import TONE
from joinlay.records import dataclass
from joinlay.templates.banks import whole_piece
from joinlay.templates.datum_marks import figures_below, figures_beside, name_in_box, upright_datum, words_beside
from joinlay.templates.piece_axes import PieceAxis, reach, reach_at_end
from joinlay.templates.template import FIGURE, SMALL, Template
from joinlay.templates.turn_over import TurnedOver, both_ways, turned_block

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.boards import Board
    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Graduation
    from joinlay.pen.blocks import Block
    from joinlay.pen.marks import Box, Mark
    from joinlay.templates.banks import DrawerBank, WholePiece

__all__ = ["FROM_THE_FRONT", "runner_templates"]

#: What such a template says for an end.
FROM_THE_FRONT: Final = "seen from the front"
#: So much of the drawer's side is shown above the runners.
_SEEN: Final = Fraction(12)
_ZERO: Final = Fraction(0)
_LETTERS: Final = 16
#: How far the figures under the drawing keep away from it.
_DOWN: Final = Fraction(7)
#: Between what is said of one hand and of the other.
_ROW: Final = Fraction(2)


@dataclass(frozen=True, slots=True)
class _Strip:
    """A strip seen from the front: its name, and its box in mm from the upright's face and the level the drawer rides on."""

    word: str
    box: Box
    is_fixed: bool = True


@dataclass(frozen=True, slots=True)
class _FrontView:
    """The strips at one side of a drawer, and what they are fixed to."""

    is_left: bool
    against: str
    strips: tuple[_Strip, ...]


def runner_templates(plan: Plan) -> tuple[Template, ...]:
    """The runners of each kind of drawer in ``plan``, seen from the front; at the other hand turned over, print down (PR-11).

    Drawn with x = 0 at the inside face of the case's side or partition and y = 0 at the level the drawer rides on, which is the
    top of the rail below it. The drawer's side is thin and white. RN-1 to RN-3; common practice.
    """
    whole = whole_piece(plan)
    if whole is None:
        return ()
    alike: dict[_FrontView, list[str]] = {}
    for bank in whole.banks:
        for hand in (Hand.LEFT, Hand.RIGHT):
            for front, name in _seen(whole, bank, hand):
                alike.setdefault(front, []).append(name)
    drawn = [[(front, name) for name in names] for front, names in alike.items()]
    pairs = both_ways(drawn, side=lambda one: 1 if one[0].is_left else -1, likeness=lambda one: replace(one[0], is_left=True))
    return tuple(
        _template(here[0][0], [name for _, name in here], tuple(name for _, name in over), plan.rule) for here, over in pairs
    )


def _seen(whole: WholePiece, bank: DrawerBank, hand: Hand) -> Iterator[tuple[_FrontView, str]]:
    side = 1 if hand is Hand.LEFT else -1
    for drawer in bank.drawers:
        if whole.is_shared(bank, drawer, hand):
            # A double bearer has no wood to hold a paper against; it is on the stick across.
            continue
        upright = whole.wood_beside(bank, drawer, hand)
        face = reach(upright, PieceAxis.WIDTH)[1 if hand is Hand.LEFT else 0]
        boards = whole.runners_of(drawer, hand)
        wood = drawer.side(hand)
        floor = reach(wood, PieceAxis.HEIGHT)[0]
        # The kicker over a drawer stands a whole drawer higher: it is on the story stick.
        low = [board for board in boards if reach(board, PieceAxis.HEIGHT)[0] < floor + _SEEN]
        strips = [_Strip(board.part, _box(board, face, floor, side)) for board in low]
        if strips:
            x0, x1 = sorted(side * (at - face) for at in reach_at_end(wood, PieceAxis.WIDTH))
            strips.append(_Strip("drawer side", (x0, _ZERO, x1, max(box.box[3] for box in strips) + _SEEN), is_fixed=False))
            against = "case side" if upright.role.kind is PartKind.CASE_SIDE else "partition"
            yield _FrontView(hand is Hand.LEFT, against, tuple(strips)), f"{drawer.name} {hand.value} runner"


def _box(board: Board, face: Fraction, floor: Fraction, side: int) -> Box:
    x0, x1 = sorted(side * (at - face) for at in reach(board, PieceAxis.WIDTH))
    z0, z1 = reach(board, PieceAxis.HEIGHT)
    return (x0, z0 - floor, x1, z1 - floor)


def _template(front: _FrontView, names: list[str], turned: tuple[str, ...], rule: Graduation) -> Template:
    drawn = tuple(flatten(_drawing(front, names, rule)))
    top = max(strip.box[3] for strip in front.strips)
    strokes = (*drawn, *flatten(words_beside(_words(front, names, turned), drawn, 1 if front.is_left else -1, top)))
    over = FROM_THE_FRONT if turned else ""
    return Template(tuple(names), FROM_THE_FRONT, strokes, bounds_of(strokes), turned=turned, turned_end=over)


def _drawing(front: _FrontView, names: list[str], rule: Graduation) -> Iterator[Mark]:
    side = 1 if front.is_left else -1
    fixed = [strip for strip in front.strips if strip.is_fixed]
    low, high = min(strip.box[1] for strip in fixed), max(strip.box[3] for strip in front.strips)
    wide = max(strip.box[2] for strip in front.strips)
    yield from upright_datum(low, high, _ZERO, front.against, -side)
    for strip in front.strips:
        yield from _strip(strip, side, names[0])
    levels = {level for strip in fixed for level in (strip.box[1], strip.box[3])}
    yield from figures_beside({*levels, _ZERO}, _ZERO, side * wide, side, rule, FIGURE)
    across = {side * x for strip in front.strips for x in (strip.box[0], strip.box[2])}
    # Carried down first, clear of the lowest figure beside.
    yield from (Line((x, low - 1), (x, low - _DOWN), Role.DIMENSION) for x in sorted({*across, _ZERO}))
    yield from figures_below({*across, _ZERO}, _ZERO, low - _DOWN, rule, FIGURE)


def _words(front: _FrontView, names: list[str], turned: tuple[str, ...]) -> Block:
    """What it is for, as printed and turned over, and how it is held."""
    said = [words(line, FIGURE, bold=True) for line in wrap(in_few_words(names), _LETTERS)]
    block = stacked([*said, *(words(line, SMALL) for line in ("hold to the front ends;", "0 is the top of the rail"))])
    block = beside(hand_sign(is_left=front.is_left), block)
    if turned:
        over = TurnedOver(turned, hand=Hand.RIGHT if front.is_left else Hand.LEFT)
        block = stacked([block, turned_block(over, wrap(in_few_words(turned), _LETTERS))], _ROW)
    return block


def _strip(strip: _Strip, side: int, says: str) -> Iterator[Mark]:
    """The strip's outline and its name in the middle; the drawer's side, which isn't fixed there, thin."""
    x0, y0, x1, y1 = strip.box
    box = (min(side * x0, side * x1), y0, max(side * x0, side * x1), y1)
    if strip.is_fixed:
        yield Fill(corners(box), TONE, Role.CUT)
    yield Polyline(corners(box), Role.OUTLINE if strip.is_fixed else Role.SEEN, closed=True, says=f"{says} {strip.word}")
    yield from name_in_box(strip.word, box)
