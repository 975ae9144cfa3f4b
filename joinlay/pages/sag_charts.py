"""How far a drawer's bottom or a shelf sags over its span, as a chart: the curve, the most it may sag, and where this one stands.

Rules CK-3, SH-1. Nothing is judged here: each figure is that of the check, worked out for every span from side to side up to
half as much again, with the load, the depth and the stock as they are.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.checks.bar_sag import bar_of
from joinlay.checks.conditions import GRAVITY, estimate, weight
from joinlay.checks.sag import BottomSpan, bottom_span, loaded_sag, room_under, stop_height
from joinlay.checks.shelf_sag import laden_shelves, seen_sag
from joinlay.checks.weights import stocks_by_name
from joinlay.lengths import ZERO, Fine, Fraction, Length
from joinlay.pages.drawer_charts import drawers_named
from joinlay.pages.plain_sheet import PageBlock
from joinlay.pen.chart import Axes, tick_step
from joinlay.pen.lettering import Run, figures, fitted, set_line, words
from joinlay.pen.marks import Align, Arc, Line, Role, Text, flatten
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Callable, Hashable, Iterator

    from joinlay.boards import DrawerRole
    from joinlay.checks.bar_sag import BarBeam
    from joinlay.checks.shelf_sag import LadenShelf
    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Graduation
    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Mark
    from joinlay.stock import Stock

__all__ = ["Bottom", "bottoms", "sag_block", "shelf_block", "shelves"]

_KEY, _WORD, _SMALL = Fraction(5), Fraction(7, 2), Fraction(5, 2)
#: Room left and right of the axes, above them, their height, and the figures under them.
_LEFT, _RIGHT, _HEAD, _HIGH, _UNDER = Fraction(34), Fraction(32), Fraction(30), Fraction(42), Fraction(14)
#: Points of the curve, and how much wider than the drawer it goes.
_POINTS: Final = 24
_WIDER: Final = Fraction(3, 2)


@dataclass(frozen=True, slots=True)
class Bottom:
    """Bottoms that sag alike: those of ``drawers``, of ``stock``, over ``span`` with ``room`` under them, at a ``pressure`` in
    pascals; of halves beside a ``bar`` each of the two (BO-1).
    """

    drawers: tuple[DrawerRole, ...]
    stock: Stock
    span: BottomSpan
    room: Length
    pressure: float
    bar: BarBeam | None = None

    def sag(self, across: Length) -> Length:
        """How far it would sag in years if it were ``across`` wide, from side to side (CK-3)."""
        sag = loaded_sag(self.stock, BottomSpan(across, self.span.deep, self.span.halves), self.pressure, self.bar)
        return Length(Fraction(round(sag * 1000), 1000))


def bottoms(plan: Plan) -> tuple[Bottom, ...]:
    """The bottoms of ``plan``, each kind once, in the order of their drawers (CK-3)."""
    found: dict[Hashable, list[Bottom]] = {}
    for drawer in plan.drawers:
        span, room = bottom_span(drawer), Length(room_under(drawer, stop_height(drawer, plan.shop)).mm)
        pressure = plan.conditions.load_of(drawer.name).pressure(span.area)
        one = Bottom((drawer.role,), drawer.make.bottom, span, room, pressure, bar_of(drawer))
        found.setdefault((one.stock, span.across.mm, span.deep.mm, room.mm, pressure, one.bar), []).append(one)
    return tuple(replace(same[0], drawers=tuple(role for one in same for role in one.drawers)) for same in found.values())


@dataclass(frozen=True, slots=True)
class _Chart:
    """One chart: what it is ``named``, what is said under that, the span it has, its sag and the most it may, each for any span;
    ``line`` is what that most is called. The span runs from side ``to`` side, or to a bar.
    """

    named: str
    said: Content
    span: Length
    sag: Callable[[Length], Length]
    most: Callable[[Length], Length]
    line: str
    to: str = "side"


def sag_block(bottom: Bottom, rule: Graduation, wide: Fraction) -> PageBlock:
    """The chart of one ``bottom``, ``wide`` mm across, its figures on ``rule``. Rule CK-3."""
    what, to = ("sag of the bottom", "side") if bottom.bar is None else ("sag of each half of the bottom", "bar")
    named = f"{drawers_named(bottom.drawers)}: {what}, {bottom.stock.name}"
    load = weight(bottom.pressure * float(bottom.span.area) / 10**6 / GRAVITY, rule)
    now = estimate(float(bottom.sag(bottom.span.across).mm), rule)
    said = (*_told(now, rule), Run(f" in years with {load} spread over it; ", _WORD), *_told(Fine(bottom.room), rule))
    said += (Run(" is under it", _WORD),)
    return _drawn(_Chart(named, said, bottom.span.across, bottom.sag, lambda _: bottom.room, "room under it", to), rule, wide)


def shelf_block(laden: LadenShelf, rule: Graduation, wide: Fraction) -> PageBlock:
    """The same of a shelf; the most it may sag is what the eye takes for straight over that span. Rule SH-1."""
    span = laden.beam.span
    load = weight(laden.newtons_a_mm(span) * span / GRAVITY, rule)
    said = (*_told(estimate(laden.sag(span), rule), rule), Run(f" in years with {load} spread over it; the eye takes ", _WORD))
    said += (*_told(estimate(seen_sag(span), rule), rule), Run(" for straight", _WORD))
    chart = _Chart(
        named=f"{laden.shelf.name}: sag of the shelf, {laden.shelf.stock}",
        said=said,
        span=_exactly(span),
        sag=lambda across: _exactly(laden.sag(float(across.mm))),
        most=lambda across: _exactly(seen_sag(float(across.mm))),
        line="what the eye takes for straight",
    )
    return _drawn(chart, rule, wide)


def shelves(plan: Plan) -> tuple[LadenShelf, ...]:
    """The shelves of ``plan``, each kind once, in the order of their bays (SH-1)."""
    laden = laden_shelves(plan.others, stocks_by_name(plan.stocks.values()), plan.conditions)
    return tuple({(one.beam, one.load, one.shelf.stock): one for one in reversed(laden)}.values())[::-1]


def _exactly(mm: float) -> Length:
    return Length(Fraction(round(mm * 1000), 1000))


def _drawn(chart: _Chart, rule: Graduation, wide: Fraction) -> PageBlock:
    now = chart.sag(chart.span)
    most = Length(chart.span.mm * _WIDER)
    tallest = Length(max(now.mm, chart.most(chart.span).mm, rule.division.mm) * Fraction(3, 2))
    step = tick_step(tallest, rule.unit, 6)
    top = Length(step.mm * max(1, -(-tallest.mm // step.mm)))
    axes = Axes(
        origin=(_LEFT, -_HEAD - _HIGH),
        size=(wide - _LEFT - _RIGHT, _HIGH),
        most=(most, top),
        steps=(tick_step(most, rule.unit, 10), step),
        rule=rule,
    )
    head = (
        Text((Fraction(0), Fraction(-7)), fitted(chart.named, wide, (_KEY, _WORD), bold=True)),
        Text((Fraction(0), Fraction(-15)), chart.said),
    )
    marks: list[Mark] = [*head, axes, *_curve(chart, now, axes, rule)]
    return PageBlock(tuple(flatten(marks)), _HEAD + _HIGH + _UNDER)


def _told(length: Fine, rule: Graduation) -> Content:
    too_small = length.too_small(rule.unit)
    return words(too_small, _KEY, bold=True) if too_small else figures(length.nearest(rule.unit), rule, _KEY, bold=True)


def _curve(chart: _Chart, now: Length, axes: Axes, rule: Graduation) -> Iterator[Mark]:
    most, across = axes.most[0], chart.span
    # What spans nothing doesn't sag.
    spans = [Length(most.mm * Fraction(n, _POINTS)) for n in range(1, _POINTS + 1)]
    yield axes.curve([(ZERO, ZERO), *((span, chart.sag(span)) for span in spans)], Role.OUTLINE)
    # Where the most grows with the span it leaves the axes before that does.
    far = most if chart.most(most) <= axes.most[1] else Length(most.mm * axes.most[1].mm / chart.most(most).mm)
    left, right = axes.at(ZERO, chart.most(ZERO)), axes.at(far, chart.most(far))
    yield Line(left, right, Role.FOLD)
    yield Line(axes.at(across, ZERO), axes.at(across, axes.most[1]), Role.CENTRE)
    yield Arc(axes.at(across, now), Fraction(1), Fraction(0), Fraction(360), Role.OUTLINE)
    unit, top = rule.unit.value if rule.unit.value != "inch" else "in", axes.at(across, axes.most[1])
    x = axes.origin[0]
    for said, role in (("sag", Role.OUTLINE), (chart.line, Role.FOLD)):
        yield Line((x, top[1] + 10), (x + 12, top[1] + 10), role)
        line = words(said, _SMALL)
        yield Text((x + 14, top[1] + 9), line)
        x += 22 + set_line(line).width
    yield Text((top[0], top[1] + 3), words("as it is", _SMALL), Align.MIDDLE)
    yield Text(
        (axes.origin[0] + axes.size[0], axes.origin[1] - 11),
        words(f"span from side to {chart.to}, {unit}", _SMALL),
        Align.RIGHT,
    )
    yield Text((axes.origin[0] - 3, top[1] + 3), words(unit, _SMALL), Align.RIGHT)
