"""How far a drawer's bottom sags over its span, as a chart: the curve, the room that is under it, and where this drawer stands.

Rule CK-3. Nothing is judged here: each figure is that of the check, worked out for every span from side to side up to half as
much again, with the load on each square metre, the depth and the stock as they are.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.checks.conditions import GRAVITY, estimate, weight
from joinlay.checks.sag import BottomSpan, bottom_span, room_under, sag_of, stop_height
from joinlay.lengths import ZERO, Fine, Fraction, Length
from joinlay.pages.drawer_charts import drawers_named
from joinlay.pages.plain_sheet import PageBlock
from joinlay.pen.chart import Axes, tick_step
from joinlay.pen.lettering import Run, figures, fitted, set_line, words
from joinlay.pen.marks import Align, Arc, Line, Role, Text, flatten
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterator

    from joinlay.boards import DrawerRole
    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Graduation
    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Mark
    from joinlay.stock import Stock

__all__ = ["Bottom", "bottoms", "sag_block"]

_KEY, _WORD, _SMALL = Fraction(5), Fraction(7, 2), Fraction(5, 2)
#: Room left and right of the axes, above them, their height, and the figures under them.
_LEFT, _RIGHT, _HEAD, _HIGH, _UNDER = Fraction(34), Fraction(32), Fraction(30), Fraction(42), Fraction(14)
#: Points of the curve, and how much wider than the drawer it goes.
_POINTS: Final = 24
_WIDER: Final = Fraction(3, 2)


@dataclass(frozen=True, slots=True)
class Bottom:
    """Bottoms that sag alike: those of ``drawers``, of ``stock``, over ``span`` with ``room`` under them, at a ``pressure`` in
    pascals.
    """

    drawers: tuple[DrawerRole, ...]
    stock: Stock
    span: BottomSpan
    room: Length
    pressure: float

    def sag(self, across: Length) -> Length:
        """How far it would sag in years if it were ``across`` wide, from side to side (CK-3)."""
        sag = sag_of(self.stock, BottomSpan(across, self.span.deep), self.pressure)
        return Length(Fraction(round(sag * 1000), 1000))


def bottoms(plan: Plan) -> tuple[Bottom, ...]:
    """The bottoms of ``plan``, each kind once, in the order of their drawers (CK-3)."""
    found: dict[Hashable, list[Bottom]] = {}
    for drawer in plan.drawers:
        span, room = bottom_span(drawer), Length(room_under(drawer, stop_height(drawer, plan.shop)).mm)
        pressure = plan.conditions.load_of(drawer.name).pressure(span.area)
        one = Bottom((drawer.role,), drawer.make.bottom, span, room, pressure)
        found.setdefault((one.stock, span.across.mm, span.deep.mm, room.mm, pressure), []).append(one)
    return tuple(
        Bottom(tuple(role for one in same for role in one.drawers), first.stock, first.span, first.room, first.pressure)
        for same in found.values()
        for first in same[:1]
    )


def sag_block(bottom: Bottom, rule: Graduation, wide: Fraction) -> PageBlock:
    """The chart of one ``bottom``, ``wide`` mm across, its figures on ``rule``. Rule CK-3."""
    now = bottom.sag(bottom.span.across)
    most = Length(bottom.span.across.mm * _WIDER)
    tallest = Length(max(now.mm, bottom.room.mm, rule.division.mm) * Fraction(3, 2))
    step = tick_step(tallest, rule.unit, 6)
    top = Length(step.mm * max(1, -(-tallest.mm // step.mm)))
    axes = Axes(
        origin=(_LEFT, -_HEAD - _HIGH),
        size=(wide - _LEFT - _RIGHT, _HIGH),
        most=(most, top),
        steps=(tick_step(most, rule.unit, 10), step),
        rule=rule,
    )
    marks: list[Mark] = [*_head(bottom, now, rule, wide), axes, *_curve(bottom, now, axes, rule)]
    return PageBlock(tuple(flatten(marks)), _HEAD + _HIGH + _UNDER)


def _head(bottom: Bottom, now: Length, rule: Graduation, wide: Fraction) -> Iterator[Mark]:
    named = f"{drawers_named(bottom.drawers)}: sag of the bottom, {bottom.stock.name}"
    yield Text((Fraction(0), Fraction(-7)), fitted(named, wide, (_KEY, _WORD), bold=True))
    load = weight(bottom.pressure * float(bottom.span.area) / 10**6 / GRAVITY, rule)
    said = (*_told(estimate(float(now.mm), rule), rule), Run(f" in years with {load} spread over it; ", _WORD))
    yield Text((Fraction(0), Fraction(-15)), (*said, *_told(Fine(bottom.room), rule), Run(" is under it", _WORD)))


def _told(length: Fine, rule: Graduation) -> Content:
    too_small = length.too_small(rule.unit)
    return words(too_small, _KEY, bold=True) if too_small else figures(length.nearest(rule.unit), rule, _KEY, bold=True)


def _curve(bottom: Bottom, now: Length, axes: Axes, rule: Graduation) -> Iterator[Mark]:
    most, across = axes.most[0], bottom.span.across
    # What spans nothing doesn't sag.
    spans = [Length(most.mm * Fraction(n, _POINTS)) for n in range(1, _POINTS + 1)]
    yield axes.curve([(ZERO, ZERO), *((span, bottom.sag(span)) for span in spans)], Role.OUTLINE)
    left, right = axes.at(ZERO, bottom.room), axes.at(most, bottom.room)
    yield Line(left, right, Role.FOLD)
    yield Line(axes.at(across, ZERO), axes.at(across, axes.most[1]), Role.CENTRE)
    yield Arc(axes.at(across, now), Fraction(1), Fraction(0), Fraction(360), Role.OUTLINE)
    unit, top = rule.unit.value if rule.unit.value != "inch" else "in", axes.at(across, axes.most[1])
    x = axes.origin[0]
    for said, role in (("sag", Role.OUTLINE), ("room under it", Role.FOLD)):
        yield Line((x, top[1] + 10), (x + 12, top[1] + 10), role)
        line = words(said, _SMALL)
        yield Text((x + 14, top[1] + 9), line)
        x += 22 + set_line(line).width
    yield Text((top[0], top[1] + 3), words("as it is", _SMALL), Align.MIDDLE)
    yield Text(
        (axes.origin[0] + axes.size[0], axes.origin[1] - 11), words(f"span from side to side, {unit}", _SMALL), Align.RIGHT
    )
    yield Text((axes.origin[0] - 3, top[1] + 3), words(unit, _SMALL), Align.RIGHT)
