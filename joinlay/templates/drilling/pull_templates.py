"""Drill templates for pulls: laid on the outside of a front, against its end and its top edge (PU-3)."""

from __future__ import annotations

from dataclasses import replace
from textwrap import wrap
from typing import TYPE_CHECKING, Final

from joinlay.boards import CutUse, Hand, Surface
from joinlay.boards.names import in_few_words
from joinlay.lengths import Fraction, Length
from joinlay.pen.blocks import beside, hand_sign, stacked
from joinlay.pen.lettering import Run, figures, words
from joinlay.pen.marks import Arc, Line, Role, bounds_of, flatten
from joinlay.records import dataclass
from joinlay.templates.datum_marks import level_datum, upright_datum
from joinlay.templates.template import FIGURE, WORD, Template
from joinlay.templates.turn_over import TurnedOver, both_ways, turned_block

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.boards import Board
    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Graduation
    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Mark

__all__ = ["holes_drilled", "pull_templates"]

#: Paper past the hole, letters in a line of the fronts' names, and half the paper about a line that is squared across.
_PAST, _LETTERS = Fraction(8), 20
_HALF: Final = Fraction(18)
#: Farther from an end than this, a strip of paper all the way would only be waste.
_FAR: Final = Fraction(80)
#: Between the two columns of words, and white to the sides of them, over and under.
_COLUMNS, _MARGIN, _CLEAR = Fraction(8), Fraction(4), Fraction(2)
_FACE_UP: Final = words("outside face up", WORD, bold=True)
_ZERO: Final = Fraction(0)
#: Between what is said of one end and of the other.
_ROW: Final = Fraction(2)


@dataclass(frozen=True, slots=True)
class _Hole:
    """A hole as seen on the outside face of a front, in mm: how far from the nearer end, called ``end``, and from the top edge.

    ``height`` is the front's, ``across`` the hole's diameter; ``depth`` None: right through.
    """

    end: str
    is_left: bool
    in_middle: bool
    from_end: Fraction
    from_top: Fraction
    height: Fraction
    across: Fraction
    depth: Fraction | None

    @property
    def is_far(self) -> bool:
        """Whether it is laid on a line squared across the front, not against the end."""
        return self.from_end > _FAR

    @property
    def past(self) -> Fraction:
        """How far the paper reaches past the middle of the hole."""
        return self.across / 2 + _PAST

    @property
    def half(self) -> Fraction:
        """How far the paper about a line that is squared across reaches to either side of it."""
        return max(self.past, _HALF)


#: A hole, the front it is in, and its name there.
_Drilled = tuple[_Hole, "Board", str]


def pull_templates(plan: Plan) -> tuple[Template, ...]:
    """A template for each pull's hole in ``plan``, one for all fronts drilled alike, turned over for the other end (PU-1, PU-3, PR-11).

    Drawn with x = 0 at the end of the front and y = 0 at its top edge, as seen from outside; a hole farther from the end than 150
    mm is drawn about a line that the maker squares across the front, with x = 0 there. Figures are on the plan's rule.
    """
    alike: dict[_Hole, dict[str, tuple[Board, str]]] = {}
    for drawer in plan.drawers:
        front = drawer.front
        for hole, name in _holes(front):
            alike.setdefault(hole, {})[front.name] = (front, name)
    drawn = [[(hole, front, name) for front, name in fronts.values()] for hole, fronts in alike.items()]
    pairs = both_ways(
        drawn, side=lambda one: 1 if one[0].is_left else -1, likeness=lambda one: replace(one[0], end="", is_left=True)
    )
    return tuple(_template(here, over, plan.rule) for here, over in pairs)


def holes_drilled(plan: Plan) -> frozenset[tuple[str, str]]:
    """The holes that the drill templates of ``plan`` mark, as (front, hole) by their names: no other template need mark them (PR-11)."""
    return frozenset((drawer.front.name, name) for drawer in plan.drawers for _, name in _holes(drawer.front))


def _holes(front: Board) -> Iterator[tuple[_Hole, str]]:
    for cut in front.cuts:
        if cut.role.use is not CutUse.PULL_HOLE:
            continue
        left = cut.along.centre.mm
        right = front.length.mm - left
        hole = _Hole(
            # Outside, the front is seen with its left end at the left.
            end=front.datum.word(Surface.END if left <= right else Surface.FAR_END),
            is_left=left <= right,
            in_middle=left == right,
            from_end=min(left, right),
            from_top=front.width.mm - cut.across.centre.mm,
            height=front.width.mm,
            across=cut.along.size.mm,
            depth=None if cut.into.start.mm == 0 else cut.depth.mm,
        )
        yield hole, cut.name


def _template(here: list[_Drilled], over: list[_Drilled], rule: Graduation) -> Template:
    names, turned = (tuple(front.name for _, front, _ in drilled) for drilled in (here, over))
    hole, _, cut = here[0]
    other = TurnedOver(() if turned == names else turned, over[0][0].end, _hand(over[0][0])) if over else None
    strokes = tuple(flatten(_marks(hole, names, f"{names[0]} {cut}", rule, other)))
    return Template(
        names, _called(hole), strokes, bounds_of(strokes), turned=turned, turned_end=_called(over[0][0]) if over else ""
    )


def _called(hole: _Hole) -> str:
    return f"drill template, {'' if hole.in_middle else f'{_hand(hole).value} '}pull"


def _hand(hole: _Hole) -> Hand:
    return Hand.LEFT if hole.is_left else Hand.RIGHT


def _marks(hole: _Hole, names: tuple[str, ...], says: str, rule: Graduation, turned: TurnedOver | None) -> Iterator[Mark]:
    side = 1 if hole.is_left else -1
    foot = -min(hole.height, hole.from_top + hole.past)
    x = _ZERO if hole.is_far else side * hole.from_end
    y, r = -hole.from_top, hole.across / 2
    near, far = (-hole.half, hole.half) if hole.is_far else sorted((_ZERO, x + side * hole.past))
    yield from level_datum(near, far, _ZERO, "top edge", is_top=True)
    if hole.is_far:
        yield Line((x, _ZERO), (x, foot), Role.CENTRE, "squared across")
        yield from (Line((at, foot), (at, _ZERO), Role.CUT) for at in (near, far))
    else:
        yield from upright_datum(foot, _ZERO, _ZERO, hole.end, -side)
        yield Line((x + side * hole.past, foot), (x + side * hole.past, _ZERO), Role.CUT)
        yield Line((x, _ZERO), (x, foot + 1), Role.CENTRE, f"{says} from the {hole.end}")
    yield Line((near, foot), (far, foot), Role.OUTLINE if foot == -hole.height else Role.CUT)
    yield Arc((x, y), r, _ZERO, Fraction(360), Role.CUT, says)
    yield Line(
        (near if hole.is_far else _ZERO, y),
        (far if hole.is_far else x + side * (hole.past - 1), y),
        Role.CENTRE,
        f"{says} from the top edge",
    )
    arm = r + 3
    yield Line((x - arm, y), (x + arm, y), Role.CUT)
    yield Line((x, y - arm), (x, y + arm), Role.CUT)
    yield from _words(hole, names, rule, turned)


def _words(hole: _Hole, names: tuple[str, ...], rule: Graduation, turned: TurnedOver | None) -> Iterator[Mark]:
    """What it is for and how large the hole is: over the line to the hole where there is room, else past the paper's end."""
    side = 1 if hole.is_left else -1
    named = stacked([*(words(line, FIGURE, bold=True) for line in wrap(in_few_words(names), _LETTERS)), _FACE_UP])
    named = named if hole.in_middle else beside(hand_sign(is_left=hole.is_left), named)
    if turned:
        named = stacked([named, turned_block(turned, wrap(in_few_words(turned.names), _LETTERS))], _ROW)
    facts = list(_facts(hole, rule))
    if hole.is_far:
        block = stacked([named, *facts])
        yield from block.marks(hole.half + _MARGIN, _ZERO - block.height)
        return
    low = beside(named, stacked(facts), _COLUMNS)
    if low.width + hole.across / 2 + 2 * _MARGIN <= hole.from_end and low.height + 2 * _CLEAR <= hole.from_top:
        yield from low.marks(_MARGIN if side > 0 else -_MARGIN - low.width, -_CLEAR - low.height)
        return
    high = stacked([named, *facts])
    past = hole.from_end + hole.past + _MARGIN
    yield from high.marks(past if side > 0 else -past - high.width, -high.height)


def _facts(hole: _Hole, rule: Graduation) -> Iterator[Content]:
    """How large the hole is, how deep, and where: figures that can be checked with a rule."""
    deep: Content = (Run(", right through", WORD),)
    if hole.depth is not None:
        deep = (Run(", ", WORD), *figures(Length(hole.depth), rule, FIGURE), Run(" deep", WORD))
    yield (Run("hole ", WORD), *figures(Length(hole.across), rule, FIGURE), *deep)
    middle = " (the middle)" if hole.in_middle else ""
    yield (*figures(Length(hole.from_end), rule, FIGURE), Run(f" from the {hole.end}{middle}", WORD))
    if hole.is_far:
        yield words("square a line across there,", WORD)
        yield words("lay the long centre line on it", WORD)
    yield (*figures(Length(hole.from_top), rule, FIGURE), Run(" from the top edge", WORD))
