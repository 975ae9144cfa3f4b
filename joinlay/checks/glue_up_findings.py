"""Glue-ups that the shop can't do: longer than the glue is open, or with more clamps than there are (PT-3, PT-4).

They are judged after everything that the order of assembly allows was tried: a glue-up that fits when it is split has been split
already.
"""

from __future__ import annotations

from dataclasses import replace
from math import ceil
from typing import TYPE_CHECKING

from joinlay.assembly.clamping import clamps_lacking
from joinlay.assembly.glue_words import glue_up_name, minutes_words, opening_of
from joinlay.boards.names import listed
from joinlay.findings import Change, Remedy, note, warning
from joinlay.lengths import Fraction
from joinlay.shop import Clamps

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.assembly.glue_ups import GlueUp
    from joinlay.findings import Finding
    from joinlay.lengths import Length
    from joinlay.shop import Shop

__all__ = ["check_glue_ups"]

#: So many clamps at most are asked for.
_MOST = 100


def check_glue_ups(glue_ups: Sequence[GlueUp], shop: Shop) -> tuple[Finding, ...]:
    """Those that take longer than the glue is open, and those that lack clamps, each told together (PT-3, PT-4).

    A warning where the maker said what the bottle says and what clamps there are. Of the usual glue only a note; of clamps
    nothing, where nobody said.
    """
    return (*_late(glue_ups, shop), *_lacking(glue_ups, shop))


def _late(glue_ups: Sequence[GlueUp], shop: Shop) -> tuple[Finding, ...]:
    glue = shop.glue
    late = [one for one in glue_ups if one.most.open_seconds > glue.open_time]
    if not late:
        return ()
    worst = max(late, key=lambda one: one.most.open_seconds)
    minutes = ceil(Fraction(worst.most.open_seconds, 60))
    numbers: dict[str, Length | int | str] = {
        "takes": minutes_words(worst.most.open_seconds), "open": minutes_words(glue.open_time), "slow": f"{minutes} min",
        "worst": glue_up_name(worst),
    }  # fmt: skip
    if len(late) > 1:
        numbers["others"] = listed([glue_up_name(one) for one in late if one is not worst])
    what = "Spreading and clamping takes {takes}"
    what += ", for the {worst}; the {others} takes too long as well" if len(late) > 1 else ""
    where, parts = glue_up_name(worst), tuple(dict.fromkeys(name for one in late for name in one.of))
    if not glue.is_written:
        what += (
            ". The usual glue is open for {open}: take a slower one, or a second pair of hands, and write "
            "what its bottle says under [shop], "
        )
        what += 'such as glue = {{ open-time = "{slow}" }}'
        finding = note("glue time", what, "PT-3", "our own choice", **numbers)
    else:
        what += ". Your glue is open for {open}: it skins over before all is closed."
        remedy = "Four hands halve the time; or work where it is cooler, if the bottle allows it."
        finding = warning("glue time", what, remedy, "PT-3", "our own choice", **numbers)
        ways = (Remedy("take a slower glue, open for {slow} or more", (Change("shop.glue", "open-time", f"{minutes} min"),)),)
        finding = _with(finding, ways)
    return (_about(finding, where, parts),)


def _lacking(glue_ups: Sequence[GlueUp], shop: Shop) -> tuple[Finding, ...]:
    owned = shop.clamps
    if owned is None:
        return ()
    short = [one for one in glue_ups if any(clamps_lacking(go.clamps, owned)[0] for go in one.goes)]
    if not short:
        return ()
    lacks = [(clamps_lacking(go.clamps, owned), go, one) for one in short for go in one.goes]
    (count, reach), go, worst = max(lacks, key=lambda some: some[0][0])
    assert reach is not None
    numbers: dict[str, Length | int | str] = {
        "takes": go.clamp_count, "lacks": count, "reach": opening_of(reach, shop.rule), "worst": glue_up_name(worst),
    }  # fmt: skip
    what = "It takes {takes} clamps at once, and of those that open {reach} {lacks} are lacking."
    if len(short) > 1:
        numbers["others"] = "1 other glue-up lacks" if len(short) == 2 else f"{len(short) - 1} other glue-ups lack"
        what += " {others} clamps too."
    remedy = (
        "A stiff caul, planed a little round along its length and clamped at its two ends, presses in "
        "between and saves the clamps there."
    )
    finding = warning("clamps", what, remedy, "PT-4", "common practice", **numbers)
    ways, more = _to_buy(short, owned, shop)
    finding = _with(finding, ways, **more)
    return (_about(finding, glue_up_name(worst), tuple(dict.fromkeys(name for one in short for name in one.of))),)


def _to_buy(
    short: Sequence[GlueUp], owned: Sequence[Clamps], shop: Shop
) -> tuple[tuple[Remedy, ...], dict[str, Length | int | str]]:
    """As many more as the glue-ups lack, alike, as long as the longest of them must be: of a length there is, or else of a new
    one.
    """
    rows = [go.clamps for one in short for go in one.goes]
    reach = max(found for found in (clamps_lacking(some, owned)[1] for some in rows) if found is not None)
    buy = next((n for n in range(1, _MOST) if not any(clamps_lacking(some, [*owned, Clamps(reach, n)])[0] for some in rows)), 0)
    if not buy:
        return (), {}
    long_enough = [n for n, clamps in enumerate(owned) if clamps.length >= reach]
    if long_enough:
        row = min(long_enough, key=lambda n: owned[n].length)
        changes: tuple[Change, ...] = (Change("shop.clamps", "count", owned[row].count + buy, row),)
    else:
        row = len(owned)
        changes = (Change("shop.clamps", "length", opening_of(reach, shop.rule), row), Change("shop.clamps", "count", buy, row))
    return (Remedy("have {buy} more that open {long} or more", changes),), {"buy": buy, "long": opening_of(reach, shop.rule)}


def _with(finding: Finding, ways: tuple[Remedy, ...], **numbers: Length | int | str) -> Finding:
    return replace(finding, remedies=ways, numbers={**finding.numbers, **numbers})


def _about(finding: Finding, where: str, parts: tuple[str, ...]) -> Finding:
    return replace(finding.at(where), parts=parts)
