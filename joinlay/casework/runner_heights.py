"""How high each strip under and over a drawer's slot is, and whether one is needed at all (RN-3)."""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.findings import Change, at_least, larger, note, refusal, stock_of
from joinlay.records import dataclass

if TYPE_CHECKING:
    from joinlay.casework.bay import Slot
    from joinlay.findings import Finding, Refused
    from joinlay.lengths import Dimension
    from joinlay.shop import Practice
    from joinlay.stock import Stock

__all__ = ["RunnerHeights", "size_runner"]


@dataclass(frozen=True, slots=True)
class RunnerHeights:
    """The heights of one slot's strips; None: that strip is not needed.

    ``bearer`` None: the drawer rides on the panel under it. ``packing`` is under the lowest bearer, ``kicker`` under a bearer for
    the drawer below, ``top_kicker`` under the panel over a drawer that has no other over it.
    """

    bearer: Dimension | None
    packing: Dimension | None
    kicker: Dimension | None
    top_kicker: Dimension | None
    findings: tuple[Finding, ...]


def size_runner(slot: Slot, stock: Stock, practice: Practice) -> RunnerHeights:
    """The strips under ``slot``, and over it where it is the topmost.

    RN-3: kicker = what is below the level of the rail's top, less the bearer and the lift; where too little is left the bearer is
    its own kicker, planed to the rail less the lift where the stock is thicker than the rail. Packing = the rest down to the case
    bottom. Source: common practice. Raises Refused where sheet stock, which can't be planed, is thicker than the rail.
    """
    bearer, findings = _bearer(slot, stock, practice)
    packing = kicker = None
    if bearer is not None and slot.is_lowest:
        packing = _packing(slot, bearer, practice)
    elif bearer is not None:
        kicker = _worth((slot.below - bearer - practice.length("kicker lift")), slot, "kicker height below", practice)
    top_kicker = (
        _worth(slot.above - practice.length("kicker lift"), slot, "top kicker height", practice) if slot.is_topmost else None
    )
    return RunnerHeights(bearer, packing, kicker, top_kicker, tuple(finding.at(slot.name) for finding in findings))


def _bearer(slot: Slot, stock: Stock, practice: Practice) -> tuple[Dimension | None, list[Finding]]:
    name = f"{slot.name} bearer thickness"
    if not slot.below:
        return None, []
    if stock.thickness <= slot.below:
        return stock.thickness.named(name, "RN-1", "the stock's own"), []
    lift = practice.length("kicker lift")
    planed = slot.below if slot.is_lowest else slot.below - lift
    if not stock.is_solid or planed < practice.length("thinnest strip"):
        raise _too_thick(slot, stock, practice)
    found = note(
        "runners",
        "The bearers are planed to {planed}, so that they pass the rail, {rail} high.",
        "RN-3",
        "common practice",
        planed=planed,
        rail=slot.below,
    )
    return planed.named(name, "RN-3", "common practice"), [found]


def _too_thick(slot: Slot, stock: Stock, practice: Practice) -> Refused:
    least = stock.thickness if not stock.is_solid else practice.length("thinnest strip") + practice.length("kicker lift")
    below, rail = (
        ("the rail", "the rail at least {least} high")
        if not slot.is_lowest
        else ("the way down to the case bottom", "the case bottom lower until {least} is left there")
    )
    higher = "" if slot.is_there else f", or make {rail}"
    unplaned = "" if stock.is_solid else ", and sheet stock can't be planed"
    return (
        refusal(
            "runners",
            f"A bearer {{bearer}} thick does not go in {below}, {{room}} high{unplaned}.",
            f"Use runner stock of {{room}} or thinner{higher}.",
            "RN-3",
            "by geometry",
            bearer=stock.thickness,
            room=slot.below,
            least=least,
        )
        .at(slot.name)
        .by(
            stock_of("runners", "stock", thickest=slot.below),
            None if slot.is_lowest or slot.is_there else at_least("frame", "rail", least),
        )
    )


def _unpacked(slot: Slot, rest: Dimension, least: Dimension) -> tuple[Change, ...]:
    """What leaves no packing, or some that is worth ripping: in a case that is there another stock, else the case bottom
    higher or lower.
    """
    if slot.is_there:
        exactly = stock_of("runners", "stock", thinnest=slot.below, thickest=slot.below)
        return exactly, stock_of("runners", "stock", thickest=slot.below - least)
    return Change("case", "bottom-offset", rest, is_more=True), larger("case", "bottom-offset", rest - least)


def _packing(slot: Slot, bearer: Dimension, practice: Practice) -> Dimension | None:
    """From the case bottom up to the bearer; refused where that is too thin a strip to rip."""
    rest, least = slot.below - bearer, practice.length("thinnest strip")
    if not rest:
        return None
    if rest < least:
        raise (
            refusal(
                "runners",
                "The lowest bearers would need packing {rest} thick; {least} is the thinnest strip worth ripping.",
                "Use runner stock {below} thick, or {thinner} at most."
                if slot.is_there
                else "Move the case bottom {rest} up, or at least {more} down.",
                "RN-3",
                "our own choice",
                rest=rest,
                least=least,
                more=least - rest,
                below=slot.below,
                thinner=slot.below - least,
            )
            .at(slot.name)
            .by(*_unpacked(slot, rest, least))
        )
    return rest.named(f"{slot.name} packing height", "RN-3", "common practice")


def _worth(height: Dimension, slot: Slot, words: str, practice: Practice) -> Dimension | None:
    """``height`` where a strip of it is worth ripping."""
    return (
        height.named(f"{slot.name} {words}", "RN-3", "common practice") if height >= practice.length("thinnest strip") else None
    )
