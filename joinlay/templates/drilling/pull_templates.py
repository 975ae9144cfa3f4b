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
from joinlay.pen.placing import spread_down
from joinlay.records import dataclass
from joinlay.templates.datum_marks import level_datum, upright_datum
from joinlay.templates.template import FIGURE, WORD, Template
from joinlay.templates.turn_over import TurnedOver, both_ways, turned_block

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterable, Iterator, Sequence

    from joinlay.boards import Board
    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Graduation
    from joinlay.pen.blocks import Block
    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Mark

__all__ = ["holes_drilled", "pull_templates"]

#: Paper past the hole, letters in a line of the fronts' names, and half the paper about a line that is squared across.
_PAST, _LETTERS = Fraction(8), 20
_HALF: Final = Fraction(17)
#: Farther from an end than this, a strip of paper all the way would only be waste.
_FAR: Final = Fraction(80)
#: Between the two columns of words, and white to the sides of them, over and under.
_COLUMNS, _MARGIN, _CLEAR = Fraction(8), Fraction(4), Fraction(2)
_FACE_UP: Final = words("outside face up", WORD, bold=True)
_ZERO: Final = Fraction(0)
#: How far the line of each height reaches to either side of the centre line, and from the paper's edge to its words.
_ARM, _LEAD = Fraction(8), Fraction(7, 2)
#: Longer paper lies across few sheets: its words go under the drawing where they take less paper there.
_ACROSS: Final = Fraction(185)
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


@dataclass(frozen=True, slots=True)
class _Rung:
    """A height that holes are drilled at: the first such ``hole``, the ``fronts`` it is for and the names of their cuts, in
    their order.
    """

    hole: _Hole
    fronts: tuple[str, ...]
    cuts: tuple[str, ...]

    @property
    def says(self) -> str:
        """The first of its holes."""
        return f"{self.fronts[0]} {self.cuts[0]}"


#: Holes that differ in nothing but how far they are from the top edge, the highest first; one template serves them all.
_Ladder = tuple[_Rung, ...]
#: A dot inlaid in a knob, by the name of the front it is on: whose drawer, how wide, and how deep it is let in.
_Dots = dict[str, tuple[str, "Length", "Length"]]


def pull_templates(plan: Plan) -> tuple[Template, ...]:
    """A template for all holes for pulls in ``plan`` that are as far from the end, turned over for the other end (PU-1, PU-3,
    PR-11).

    Where fronts differ in how far the hole is from the top edge, each has a line of its own on it. Drawn with x = 0 at the end of
    the front and y = 0 at its top edge, as seen from outside; a hole farther from the end than 80 mm is drawn about a line that
    the maker squares across the front, with x = 0 there. Figures are on the plan's rule.
    """
    drilled: dict[_Hole, dict[Fraction, list[tuple[_Hole, Board, str]]]] = {}
    for drawer in plan.drawers:
        for hole, name in _holes(drawer.front):
            alike = replace(hole, from_top=_ZERO, height=_ZERO)
            drilled.setdefault(alike, {}).setdefault(hole.from_top, []).append((hole, drawer.front, name))
    ladders = [[tuple(_rung(at) for _, at in sorted(heights.items()))] for heights in drilled.values()]
    pairs = both_ways(ladders, side=lambda one: 1 if one[0].hole.is_left else -1, likeness=_likeness)
    dots: _Dots = {
        knob.on.name: (knob.on.drawer.name, knob.dot, knob.dot_depth)
        for knob in plan.knobs
        if knob.dot is not None and knob.dot_depth is not None and knob.on.drawer is not None
    }
    return tuple(_template(here[0], over[0] if over else (), plan.rule, dots) for here, over in pairs)


def _rung(drilled: Sequence[tuple[_Hole, Board, str]]) -> _Rung:
    """Holes at one height; the paper reaches no lower than the lowest of their fronts."""
    least = min(hole.height for hole, _, _ in drilled)
    fronts = {front.name: name for _, front, name in drilled}
    return _Rung(replace(drilled[0][0], height=least), tuple(fronts), tuple(fronts.values()))


def _likeness(ladder: _Ladder) -> Hashable:
    """What a ladder and its mirror image have in common; where there are several lines, which fronts each of them is for."""
    return tuple((replace(one.hole, end="", is_left=True), one.fronts if len(ladder) > 1 else ()) for one in ladder)


def holes_drilled(plan: Plan) -> frozenset[tuple[str, str]]:
    """The holes that the drill templates of ``plan`` mark, as (front, hole) by their names: no other template need mark them
    (PR-11).
    """
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


def _template(here: _Ladder, over: _Ladder, rule: Graduation, dots: _Dots) -> Template:
    names, turned = (tuple(dict.fromkeys(name for rung in ladder for name in rung.fronts)) for ladder in (here, over))
    other = TurnedOver(() if turned == names else turned, over[0].hole.end, _hand(over[0].hole)) if over else None
    told = tuple(_of_dots(dict.fromkeys((*names, *turned)), dots, rule))
    strokes = tuple(flatten(_marks(here, names, rule, other, told)))
    called = _called(over[0].hole) if over else ""
    return Template(names, _called(here[0].hole), strokes, bounds_of(strokes), turned=turned, turned_end=called)


def _called(hole: _Hole) -> str:
    return f"drill template, {'' if hole.in_middle else f'{_hand(hole).value} '}pull"


def _hand(hole: _Hole) -> Hand:
    return Hand.LEFT if hole.is_left else Hand.RIGHT


def _of_dots(fronts: Iterable[str], dots: _Dots, rule: Graduation) -> Iterator[Content]:
    """The dots to bore for in the knobs of these ``fronts``, whose drawers are named where their sizes differ (PU-2)."""
    alike: dict[tuple[Length, Length], list[str]] = {}
    for drawer, across, deep in (dots[front] for front in fronts if front in dots):
        alike.setdefault((across, deep), []).append(drawer)
    for (across, deep), drawers in alike.items():
        where = "the middle of each knob" if len(alike) == 1 else f"the knob of {in_few_words(drawers)}"
        size = (*figures(across, rule, FIGURE), Run(" across, ", WORD), *figures(deep, rule, FIGURE), Run(" deep", WORD))
        yield (Run("dot ", WORD), *size)
        yield words(f"in {where}", WORD)


def _marks(
    ladder: _Ladder, names: tuple[str, ...], rule: Graduation, turned: TurnedOver | None, dots: tuple[Content, ...]
) -> Iterator[Mark]:
    hole, says = ladder[0].hole, ladder[0].says
    side = 1 if hole.is_left else -1
    foot = -max(min(rung.hole.height, rung.hole.from_top + hole.past) for rung in ladder)
    x = _ZERO if hole.is_far else side * hole.from_end
    near, far = (-hole.half, hole.half) if hole.is_far else sorted((_ZERO, x + side * hole.past))
    yield from level_datum(near, far, _ZERO, "top edge", is_top=True)
    if hole.is_far:
        yield Line((x, _ZERO), (x, foot), Role.CENTRE, "squared across")
        yield from (Line((at, foot), (at, _ZERO), Role.CUT) for at in (near, far))
    else:
        yield from upright_datum(foot, _ZERO, _ZERO, hole.end, -side)
        yield Line((x + side * hole.past, foot), (x + side * hole.past, _ZERO), Role.CUT)
        yield Line((x, _ZERO), (x, foot + 1), Role.CENTRE, f"{says} from the {hole.end}")
    is_end = len(ladder) == 1 and foot == -hole.height
    yield Line((near, foot), (far, foot), Role.OUTLINE if is_end else Role.CUT)
    if len(ladder) > 1:
        yield from _rungs(ladder, x, foot, names, rule, turned, dots)
        return
    y, r = -hole.from_top, hole.across / 2
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
    yield from _words(hole, names, rule, turned, dots)


def _rungs(
    ladder: _Ladder,
    x: Fraction,
    foot: Fraction,
    names: tuple[str, ...],
    rule: Graduation,
    turned: TurnedOver | None,
    dots: tuple[Content, ...],
) -> Iterator[Mark]:
    """A line across the centre line for each height, led to the fronts it is for and its figure; all the other words past
    them, or under the ``foot`` of the drawing where they would make it too long for most sheets.
    """
    hole = ladder[0].hole
    way = 1 if hole.is_far or hole.is_left else -1
    edge = way * (hole.half if hole.is_far else hole.from_end + hole.past)
    blocks = [stacked([_rung_said(rung, rule)]) for rung in ladder]
    high = max(block.height for block in blocks) + _CLEAR
    low = -max(high * len(ladder), ladder[-1].hole.from_top + high)
    middles = spread_down([(-rung.hole.from_top, high) for rung in ladder], low, _ZERO) or []
    column = edge + way * _LEAD
    for rung, block, middle in zip(ladder, blocks, middles, strict=True):
        y = -rung.hole.from_top
        yield Line((x - way * _ARM, y), (x + way * _ARM, y), Role.CUT, rung.says)
        yield Line((x + way * _ARM, y), (edge, middle), Role.DIMENSION, f"{rung.says} is told here")
        yield Line((edge, middle), (column - way, middle), Role.DIMENSION)
        yield from block.marks(column if way > 0 else column - block.width, middle - block.height / 2)
    said = stacked([_named(hole, names, turned), *_facts(ladder, rule), *dots])
    told = abs(column) + max(block.width for block in blocks)
    start, under = (hole.half if hole.is_far else _ZERO), max(-low, -foot) + _MARGIN
    past = told + _COLUMNS
    long = past + said.width + start
    narrow = (max(told, said.width + 1 - start) + start) * (under + said.height)
    if long > _ACROSS and narrow < long * max(under, said.height):
        yield from said.marks(1 - start if way > 0 else start - 1 - said.width, -under - said.height)
    else:
        yield from said.marks(way * past if way > 0 else way * past - said.width, -said.height)


def _rung_said(rung: _Rung, rule: Graduation) -> Content:
    """The fronts that a line is for, and how far it is from the top edge."""
    fronts = in_few_words(rung.fronts).removesuffix(" front")
    return (Run(f"{fronts}  ", WORD, bold=True), *figures(Length(rung.hole.from_top), rule, FIGURE))


def _named(hole: _Hole, names: tuple[str, ...], turned: TurnedOver | None) -> Block:
    """The fronts a template is for, which way up it lies, and what it marks turned over."""
    named = stacked([*(words(line, FIGURE, bold=True) for line in wrap(in_few_words(names), _LETTERS)), _FACE_UP])
    named = named if hole.in_middle else beside(hand_sign(is_left=hole.is_left), named)
    return stacked([named, turned_block(turned, wrap(in_few_words(turned.names), _LETTERS))], _ROW) if turned else named


def _words(
    hole: _Hole, names: tuple[str, ...], rule: Graduation, turned: TurnedOver | None, dots: tuple[Content, ...]
) -> Iterator[Mark]:
    """What it is for and how large the hole is: over the line to the hole where there is room, else past the paper's end."""
    side = 1 if hole.is_left else -1
    named = _named(hole, names, turned)
    facts = [*_facts((_Rung(hole, names, ()),), rule), *dots]
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


def _facts(ladder: _Ladder, rule: Graduation) -> Iterator[Content]:
    """How large the holes are, how deep, and where: figures that can be checked with a rule."""
    hole = ladder[0].hole
    deep: Content = (Run(", right through", WORD),)
    if hole.depth is not None:
        deep = (Run(", ", WORD), *figures(Length(hole.depth), rule, FIGURE), Run(" deep", WORD))
    yield (Run("hole ", WORD), *figures(Length(hole.across), rule, FIGURE), *deep)
    middle = " (the middle)" if hole.in_middle else ""
    yield (*figures(Length(hole.from_end), rule, FIGURE), Run(f" from the {hole.end}{middle}", WORD))
    if hole.is_far:
        yield words("square a line across there,", WORD)
        yield words("lay the long centre line on it", WORD)
    if len(ladder) > 1:
        yield words("prick where the drawer's own line", WORD)
        yield words("crosses it; figures from the top edge", WORD)
    else:
        yield (*figures(Length(hole.from_top), rule, FIGURE), Run(" from the top edge", WORD))
