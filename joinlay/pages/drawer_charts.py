"""How a drawer behaves on its way out, as a chart: its side play and droop, and where it jams when pulled by one hand.

Rules DR-6, RN-5, CK-2. Nothing is judged here: the figures are those of the checks, drawn for every depth from shut to all the
way out.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.boards import Hand
from joinlay.boards.names import in_few_words
from joinlay.checks.play import OUT, droop, height_gap, kicker_gap, side_play
from joinlay.checks.racking import FRICTION, jams_at, pull_offset
from joinlay.geometry import corners
from joinlay.lengths import GRADUATIONS, ZERO, Fine, Fraction, Length, Unit
from joinlay.pages.plain_sheet import PageBlock
from joinlay.pen.chart import Axes, tick_step
from joinlay.pen.lettering import Run, figures, fitted, set_line, words
from joinlay.pen.marks import Align, Arc, Line, Polyline, Role, Text, flatten
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterator, Sequence

    from joinlay.boards import DrawerRole
    from joinlay.casework.assembly import Drawer
    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Graduation
    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Mark

__all__ = ["WayOut", "chart_block", "drawers_named", "ways_out", "worst_ways"]

_KEY, _WORD, _SMALL = Fraction(5), Fraction(7, 2), Fraction(5, 2)
#: Room left of the axes, above them and below them for one row of a bar.
_LEFT, _RIGHT, _HEAD, _ROW = Fraction(34), Fraction(32), Fraction(34), Fraction(6)
#: How high the axes are, and the figures under them.
_HIGH, _UNDER = Fraction(42), Fraction(14)
#: Points of a curve from shut to as far out as it is drawn.
_POINTS: Final = 60
_ZERO: Final = Fraction(0)


@dataclass(frozen=True, slots=True)
class WayOut:
    """Drawers that come out alike, and how they do.

    ``drawers`` say which, ``first`` is the first of them; ``gap`` is the room over its sides, ``offset`` how far an outer pull
    stands from the middle of its front, zero where it is pulled in the middle.
    """

    drawers: tuple[DrawerRole, ...]
    first: Drawer
    gap: Length
    offset: Length

    def play(self, out: Length) -> Length:
        """Side play at the frame, both sides together, with the drawer pulled ``out`` so far (DR-6)."""
        return side_play(self.first, out)

    def droop(self, out: Length) -> Length:
        """How far the front sinks with the drawer pulled ``out`` so far (RN-5)."""
        return droop(self.gap, self.first.length, out)

    @property
    def looked_in(self) -> Length:
        """Two-thirds out: as far as it is pulled to look in."""
        return self.first.length * OUT

    def jams(self) -> tuple[tuple[str, Length], ...]:
        """How far it comes by one outer pull, as (state of the runners, length): waxed, planed, rough (CK-2).

        Empty where it is pulled in its middle, and so never jams.
        """
        if not self.offset:
            return ()
        return tuple((state, jams_at(self.first, self.offset, friction)) for state, friction in FRICTION.items())


def ways_out(plan: Plan) -> tuple[WayOut, ...]:
    """The drawers of ``plan`` by how they come out, each kind once, in their order (DR-6, RN-5, CK-2)."""
    found: dict[Hashable, list[tuple[Drawer, Length, Length]]] = {}
    for drawer in plan.drawers:
        kicked = kicker_gap(drawer)
        gap = Length((height_gap(drawer) if kicked is None else kicked).mm)
        offset = Length(pull_offset(drawer, plan.shop).mm)
        side = drawer.side(Hand.LEFT).length
        likeness = (drawer.length.mm, side.mm, drawer.side_clearance.mm, drawer.taper.mm, gap.mm, offset.mm)
        found.setdefault(likeness, []).append((drawer, gap, offset))
    return tuple(WayOut(tuple(drawer.role for drawer, _, _ in same), *same[0]) for same in found.values())


def worst_ways(ways: Sequence[WayOut], most: int) -> tuple[WayOut, ...]:
    """At most ``most`` of ``ways``, in their own order: those that jam soonest for their length, of those alike the droopiest."""
    if len(ways) <= most:
        return tuple(ways)

    def badness(way: WayOut) -> tuple[Fraction, Fraction]:
        length = way.first.length
        comes = min((out for _, out in way.jams()), default=length)
        return comes / length, -way.droop(way.looked_in).mm

    kept = sorted(ways, key=badness)[:most]
    return tuple(way for way in ways if way in kept)


def drawers_named(drawers: Sequence[DrawerRole]) -> str:
    """Which ``drawers`` in few words: ``drawer 1``, ``drawers 2 to 8``, ``drawers 1, socks``."""
    told = in_few_words(drawer.title or str(drawer.number) for drawer in drawers)
    return f"drawer{'s' if len(drawers) > 1 else ''} {told}"


def chart_block(way: WayOut, rule: Graduation, wide: Fraction) -> PageBlock:
    """The chart of one ``way`` out, ``wide`` mm across: key figures on ``rule``, two curves, and bars for how far it comes.

    Rules DR-6, RN-5, CK-2.
    """
    axes = _axes(way, rule, wide)
    rows = _bars(way, rule)
    marks: list[Mark] = [*_head(way, rule, wide), axes, *_curves(way, axes, rule), *_rows(rows, axes)]
    height = _HEAD + _HIGH + _UNDER + _ROW * len(rows) + 10
    return PageBlock(tuple(flatten(marks)), height)


def _axes(way: WayOut, rule: Graduation, wide: Fraction) -> Axes:
    length = Length(way.first.length.mm)
    tallest = max(way.droop(way.looked_in), *(way.play(out) for out in (ZERO, length))) * Fraction(3, 2)
    step = tick_step(tallest, rule.unit, 6)
    # A drawer without any play still has a chart to say so on.
    top = Length(step.mm * max(1, -(-tallest.mm // step.mm)))
    size = (wide - _LEFT - _RIGHT, _HIGH)
    return Axes(
        origin=(_LEFT, -_HEAD - _HIGH), size=size, most=(length, top), steps=(tick_step(length, rule.unit, 10), step), rule=rule
    )


def _head(way: WayOut, rule: Graduation, wide: Fraction) -> Iterator[Mark]:
    named = drawers_named(way.drawers)
    yield Text((_ZERO, Fraction(-7)), fitted(f"{named}: on the way out", wide, (_KEY, _WORD), bold=True))
    out = way.looked_in
    shut = (*_told(way.play(ZERO), rule), Run(" side play shut,  ", _WORD), *_told(way.play(out), rule))
    sinks = (Run(" two-thirds out;  the front droops ", _WORD), *_told(way.droop(out), rule), Run(" there", _WORD))
    whole = (*shut, *sinks)
    if set_line(whole).width <= wide:
        yield Text((_ZERO, Fraction(-15)), whole)
    else:
        yield Text((_ZERO, Fraction(-14)), (*shut, sinks[0]))
        yield Text((_ZERO, Fraction(-21)), (Run("the front droops ", _WORD), *sinks[1:]))


def _told(length: Length, rule: Graduation) -> Content:
    """A key figure, to the nearest 1/64 in or 0.1 mm."""
    fine = Fine(length)
    too_small = fine.too_small(rule.unit)
    return words(too_small, _KEY, bold=True) if too_small else figures(fine.nearest(rule.unit), _finest(rule), _KEY, bold=True)


def _finest(rule: Graduation) -> Graduation:
    return GRADUATIONS["1/64 in" if rule.unit is Unit.INCH else "0.1 mm"]


def _curves(way: WayOut, axes: Axes, rule: Graduation) -> Iterator[Mark]:
    length = axes.most[0]
    steps = [length * Fraction(n, _POINTS) for n in range(_POINTS + 1)]
    sinking = [(out, way.droop(out)) for out in steps[:-1]]
    yield axes.curve([(out, way.play(out)) for out in steps], Role.SEEN)
    yield axes.curve(sinking, Role.OUTLINE)
    out = way.looked_in
    foot, top = axes.at(out, ZERO), axes.at(out, axes.most[1])
    yield Line(foot, top, Role.CENTRE)
    for value in (way.play(out), way.droop(out)):
        yield Arc(axes.at(out, value), Fraction(1), _ZERO, Fraction(360), Role.OUTLINE)
    yield from _names(axes, top)
    unit = "in" if rule.unit is Unit.INCH else "mm"
    right = axes.origin[0] + axes.size[0]
    yield Text((right, axes.origin[1] - 11), words(f"pulled out by, {unit}", _SMALL), Align.RIGHT)
    yield Text((axes.origin[0] - 3, top[1] + 3), words(unit, _SMALL), Align.RIGHT)


def _names(axes: Axes, top: tuple[Fraction, Fraction]) -> Iterator[Mark]:
    """What each line is, above the chart, with a piece of the line."""
    left, y = axes.origin[0], top[1] + 9
    for said, role in (("side play", Role.SEEN), ("droop of the front", Role.OUTLINE)):
        yield Line((left, y + 1), (left + 12, y + 1), role)
        line = words(said, _SMALL)
        yield Text((left + 14, y), line)
        left += 22 + set_line(line).width
    yield Text((top[0], top[1] + 3), words("two-thirds out", _SMALL), Align.MIDDLE)


@dataclass(frozen=True, slots=True)
class _Bar:
    """A row under the axes: how it is pulled, how far it comes, and what to say of that."""

    pulled: str
    comes: Length
    said: Content


def _bars(way: WayOut, rule: Graduation) -> Sequence[_Bar]:
    length = Length(way.first.length.mm)
    middle = _Bar("in the middle", length, words("never jams", _WORD))
    outer = []
    for state, comes in way.jams():
        said: Content = (Run("jams at ", _WORD), *figures(rule.down(comes), rule, _WORD, bold=True))
        outer.append(_Bar(f"outer pull, {state}", Length(comes.mm), said if comes < length else words("never jams", _WORD)))
    return (*outer, middle)


def _rows(bars: Sequence[_Bar], axes: Axes) -> Iterator[Mark]:
    """A bar for each, as long as the drawer comes; past its end it jams."""
    y = axes.origin[1] - _UNDER
    yield Text((_ZERO, y), words("how far it comes when pulled by", _SMALL))
    for bar in bars:
        y -= _ROW
        yield Text((_LEFT - 2, y + 1), fitted(bar.pulled, _LEFT - 2, (_SMALL,)), Align.RIGHT)
        left, right = axes.at(ZERO, ZERO)[0], axes.at(bar.comes, ZERO)[0]
        yield Polyline(corners((left, y, right, y + Fraction(7, 2))), Role.FRAME, closed=True)
        yield Line((right, y - Fraction(1, 2)), (right, y + 4), Role.OUTLINE)
        yield Text((right + 2, y), bar.said)
