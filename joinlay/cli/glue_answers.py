"""What ``why`` answers for the numbers of a glue-up that are no lengths: how many clamps, and how many minutes (PT-3, PT-4)."""

from __future__ import annotations

from math import ceil
from typing import TYPE_CHECKING

from joinlay.assembly.edge_joints import glued_panels
from joinlay.assembly.glue_ups import Hold
from joinlay.assembly.glue_words import hours_words, minutes_words
from joinlay.cli.words import counted
from joinlay.cutlist.chosen_boards import joints_in
from joinlay.lengths import decimal_text, fraction_in
from joinlay.shop import RATIO_RULES

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from joinlay.assembly.edge_joints import GluedPanel
    from joinlay.assembly.glue_ups import GlueUp, Go
    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Graduation
    from joinlay.shop import Shop

__all__ = ["glue_answers"]


def glue_answers(plan: Plan, *, is_short: bool = False) -> Mapping[str, tuple[str, ...]]:
    """The working of each count of clamps and of minutes, as lines, by its name: ``case clamps``, ``drawer 3 minutes`` (PT-3,
    PT-4).

    ``is_short``: of several goes of one glue-up only the largest.
    """
    found: dict[str, tuple[str, ...]] = {}
    for glue_up in plan.glue_ups:
        for go in (glue_up.most,) if is_short else glue_up.goes:
            name = _name(glue_up, go)
            if go.clamps:
                found[f"{name} clamps"] = (f"{name} clamps = {go.clamp_count}", *_clamps(go, plan.shop, plan.rule))
            found[f"{name} minutes"] = (f"{name} minutes = {minutes_words(go.seconds)}", *_minutes(glue_up, go, plan.shop))
    for panel in glued_panels(plan.boards, plan.stocks.values(), plan.shop.practice, joints_in(plan)):
        for role in panel.parts[:1] if is_short else panel.parts:
            name = f"{role.name} edge clamps"
            found[name] = (f"{name} = {panel.clamps}", *_edges(panel, plan.shop, plan.rule))
    if plan.timetable.slots:
        found["hours of gluing"] = tuple(_hours(plan))
    return found


def _name(glue_up: GlueUp, go: Go) -> str:
    tenons = " loose tenons" if glue_up.hold is Hold.ITSELF else ""
    half = "" if glue_up.split is None else f", {'first' if glue_up.split[0] == 1 else 'second'} half,"
    return f"{go.of}{tenons}{half}"


def _clamps(go: Go, shop: Shop, rule: Graduation) -> Iterator[str]:
    yield f"  = {' + '.join(f'{row.along.short} {row.count}' for row in go.clamps)}   (PT-4, common practice)"
    spacing = shop.practice.length("clamp spacing")
    for row in go.clamps:
        yield f"    {row.along.short} = {row.count}"
        yield (
            f"      = joint line {rule.text(rule.round(row.joint))} / clamp spacing {rule.text(spacing)}, up to "
            f"the next whole number, one at least"
        )
    where = "the usual figure (PT-4, common practice)" if spacing.origin == "default" else f"written in {spacing.origin} (PT-4)"
    yield f"    clamp spacing = {rule.text(spacing)}   {where}"


def _edges(panel: GluedPanel, shop: Shop, rule: Graduation) -> Iterator[str]:
    force = shop.practice.ratio("clamp force")
    by_force, by_spread = ceil(panel.force / force), ceil(panel.length / panel.spread)
    yield f"  = largest of 2, {by_force} by the pressure, {by_spread} by 45 degrees   (PT-4, common practice)"
    low, high = panel.pressure
    yield f"    by the pressure = {by_force}"
    yield (
        f"      = {low} lb/in2 x {rule.text(panel.length)} x {rule.text(panel.thickness)} / {float(force):g} kN "
        f"a clamp; {low} to {high} lb/in2   "
        "(Wood Handbook ch. 10, from memory)"
    )
    yield f"    by 45 degrees = {by_spread}"
    yield (
        f"      = {rule.text(panel.length)} / {rule.text(rule.round(panel.spread))}, twice the width of board "
        f"and caul   (PT-4, common practice)"
    )
    yield f"    {_figure('clamp force', shop)}"


def _minutes(glue_up: GlueUp, go: Go, shop: Shop) -> Iterator[str]:
    surface, clamp = (shop.practice.ratio(name) for name in ("seconds to glue a surface", "seconds to set a clamp"))
    held = [(go.clamp_count, "clamp"), (go.fasteners, "nail or screw")]
    terms = [f"{counted(go.surfaces, 'surface')} x {surface} s"]
    terms += [
        f"{counted(count, word, 'nails or screws' if word != 'clamp' else '')} x {clamp} s" for count, word in held if count
    ]
    more = ""
    if go.open_seconds != go.seconds:
        more = f"; one after the other, so that the glue is open for {minutes_words(go.open_seconds)} at a time"
    elif glue_up.split is not None:
        more = f"; split, for all at once it would take {minutes_words(glue_up.whole_seconds)}"
    yield f"  = {' + '.join(terms)}   (PT-3, our own choice){more}"
    yield from (f"    {_figure(name, shop)}" for name in ("seconds to glue a surface", "seconds to set a clamp"))
    glue = shop.glue
    where = f"written in {glue.origin} (PT-3)" if glue.is_written else "the usual figure (PT-3, our own choice)"
    yield f"    the glue is open = {minutes_words(glue.open_time)}   {where}"


def _hours(plan: Plan) -> Iterator[str]:
    yield f"hours of gluing = {hours_words(plan.timetable.minutes)}"
    yield f"  = the minutes of {counted(len(plan.glue_ups), 'glue-up')}, and to set up each time   (PT-9, our own choice)"
    yield f"    {_figure('minutes to set up a glue-up', plan.shop)}"


def _figure(name: str, shop: Shop) -> str:
    """A number of the maker's practice and where it is from; it has no line of its own in the job to name."""
    own = shop.practice.ratio(name)
    (row,) = (row for row in RATIO_RULES if row.name == name)
    usual = f"the usual figure ({row.rule}, {row.source})"
    return (
        f"{name} = {decimal_text(own, 2)}   "
        f"{usual if own == fraction_in(row.value) else f'written under [practice] ({row.rule})'}"
    )
