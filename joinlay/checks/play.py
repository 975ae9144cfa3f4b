"""How a drawer sits on its way out: side play (DR-6) and droop (RN-5). Exact, from the boards as they stand."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.boards import Hand
from joinlay.boards.meeting import Tie
from joinlay.findings import Change, Finding, Harm, Remedy, figure
from joinlay.lengths import ZERO, BadSize, Fine, Fraction, Length, dimension, mm
from joinlay.shop import usual_practice

if TYPE_CHECKING:
    from joinlay.casework.assembly import Drawer
    from joinlay.lengths import Dimension
    from joinlay.shop import Shop

__all__ = ["LOOSE", "OUT", "check_play", "droop", "guide_play", "height_gap", "kicker_gap", "side_play"]

#: How far out a drawer is judged, as a share of its length: as far as one is pulled to look in. Source: our own choice.
OUT: Final = Fraction(2, 3)
#: Side play from which a drawer wanders and cocks. Source: our own choice.
LOOSE: Final = mm(5)
#: Droop at the front that anyone sees. Source: our own choice.
_DROOPS: Final = mm(6)


def side_play(drawer: Drawer, out: Length) -> Dimension:
    """Side play at the frame, both sides together, with the drawer ``out`` from closed: 2 c + taper x x / length (DR-6; by
    geometry).

    The taper begins where the sides do, so that the answer is what the placed boards leave. BadInput for a negative length or
    more than the drawer's length.
    """
    if not ZERO <= out <= drawer.length:
        raise BadSize("{drawer} is {length} long; {out} out was asked.", drawer=drawer.name, length=drawer.length, out=out)
    side = drawer.side(Hand.LEFT)
    run = max(out - (drawer.length - side.length), ZERO)
    closed = 2 * drawer.side_clearance
    grown = closed + drawer.taper * (run / side.length) if drawer.taper and run else closed
    return grown.named(f"{drawer.name} side play", "DR-6", "by geometry")


def droop(gap: Length, length: Length, out: Length) -> Dimension:
    """How far the front of a drawer ``length`` long sinks when ``out``: gap x / (length - x), with ``gap`` between side and
    kicker.

    It turns about the front of the bearer until its back meets the kicker (RN-5; by geometry). BadInput where nothing is left
    inside.
    """
    if not ZERO <= out < length:
        raise BadSize("a drawer {length} long was to be {out} out; something must stay inside.", length=length, out=out)
    return dimension(gap) * (out / (length - out))


def height_gap(drawer: Drawer) -> Dimension:
    """From the top of the drawer's sides to the top of its opening, where no kicker comes lower (DR-3)."""
    return (drawer.opening.height - drawer.side(Hand.LEFT).width).named(
        f"{drawer.name} gap over the sides", "DR-3", "by geometry"
    )


def kicker_gap(drawer: Drawer) -> Length | None:
    """From the top of the drawer's sides to what they kick against; None for a drawer that stands in no piece (RN-3, RN-5).

    That is a kicker or, where none was needed, the bearer of the drawer above or the case top.
    """
    return min((Length(facing.gap.mm) for met in drawer.tied(Tie.KICKS) for facing in met.facings), default=None)


def guide_play(drawer: Drawer) -> Length | None:
    """What the sides have between their guides, both together, closed; None for a drawer that stands in no piece (RN-2, DR-6).

    Where no guide was needed the case's own side guides.
    """
    guided = drawer.tied(Tie.GUIDED)
    # A side that leans has the least room at its front, where the first of its gaps is stated, or the most.
    return Length(sum(met.facings[0].gap.mm for met in guided)) if guided else None


def check_play(drawer: Drawer, shop: Shop) -> tuple[Finding, ...]:
    """Side play closed and two-thirds out, and the droop there (DR-6, RN-5).

    Refused: no room for the drawer at all on some of its way. Warned: no play to move in, over 5 mm of play, or over 6 mm of
    droop.
    """
    out = drawer.length * OUT
    least = min(side_play(drawer, ZERO), side_play(drawer, drawer.length))
    if least <= ZERO:
        return (_tight(drawer, least, shop),)
    kicks = kicker_gap(drawer)
    kicked = height_gap(drawer) if kicks is None else kicks
    play, sinks = side_play(drawer, out), droop(kicked, drawer.length, out)
    numbers: dict[str, Length | int | str] = {
        "closed": Fine(side_play(drawer, ZERO)),
        "play": Fine(play),
        "droop": Fine(sinks),
        "out": shop.rule.round(out),
        "gap": Fine(kicked),
    }
    found = []
    if play > LOOSE:
        found.append(
            Finding(
                "side play",
                Harm.WARN,
                drawer.name,
                "Out by {out}, it has {play} of side play and will wander.",
                numbers,
                "DR-6",
                "our own choice",
                remedies=_less_play(drawer, shop, numbers),
            )
        )
    if sinks > _DROOPS:
        found.append(
            Finding(
                "droop",
                Harm.WARN,
                drawer.name,
                "Out by {out}, its front droops {droop}: the kicker or rail is {gap} above the sides.",
                numbers,
                "RN-5",
                "by geometry",
                remedies=_less_droop(drawer, kicked, out, shop, numbers),
            )
        )
    return tuple(found) or (_note(drawer, numbers),)


def _note(drawer: Drawer, numbers: dict[str, Length | int | str]) -> Finding:
    what = "Side play is {closed} closed and {play} when out by {out}; its front droops {droop} there."
    if numbers["closed"] == numbers["play"]:
        what = "It has {play} of side play all the way; out by {out} its front droops {droop}."
    return Finding("side play", Harm.NOTE, drawer.name, what, numbers, "DR-6, RN-5", "by geometry")


def _less_play(drawer: Drawer, shop: Shop, numbers: dict[str, Length | int | str]) -> tuple[Remedy, ...]:
    """The most clearance that leaves no more than is loose; no taper; or as much clearance as may be without one."""
    opens = side_play(drawer, drawer.length * OUT) - 2 * drawer.side_clearance
    numbers |= {"most": shop.rule.down(Length((LOOSE.mm - opens.mm) / 2)), "half": shop.rule.down(LOOSE / 2)}
    most, half = (figure("side clearance", _length(numbers, name)) for name in ("most", "half"))
    straight = figure("taper", ZERO)
    ways = [Remedy("give it {most} of clearance at each side", (most,))] if _length(numbers, "most") > ZERO else []
    if drawer.taper > ZERO:
        ways.append(Remedy("leave out the taper", (straight,)))
        ways.append(Remedy("leave out the taper and give it {half} of clearance at each side", (straight, half)))
    return tuple(ways)


def _less_droop(
    drawer: Drawer, gap: Length, out: Length, shop: Shop, numbers: dict[str, Length | int | str]
) -> tuple[Remedy, ...]:
    """So much less over the sides that it droops no more than is seen: higher sides where they were asked for, else less
    clearance at the top.
    """
    most = _DROOPS.mm * (drawer.length.mm - out.mm) / out.mm
    over = gap.mm - most
    ways = []
    if drawer.make.side_height is not None:
        numbers["higher"] = shop.rule.up(Length(drawer.make.side_height.mm + over))
        ways.append(Remedy("make its sides {higher} high", (Change("drawers", "side-height", _length(numbers, "higher")),)))
    numbers["less"] = shop.rule.down(Length(drawer.top_clearance.mm - over))
    if _length(numbers, "less") > ZERO:
        ways.append(Remedy("give it {less} of clearance at the top", (figure("top clearance", _length(numbers, "less")),)))
    lift = shop.practice.length("kicker lift").mm - over
    numbers["lift"] = shop.rule.down(Length(lift))
    if kicker_gap(drawer) is not None and _length(numbers, "lift") >= ZERO:
        ways.append(
            Remedy("set the kickers {lift} above the rail's underside", (figure("kicker lift", _length(numbers, "lift")),))
        )
    return tuple(ways)


def _length(numbers: dict[str, Length | int | str], name: str) -> Length:
    found = numbers[name]
    assert isinstance(found, Length)
    return found


def _tight(drawer: Drawer, least: Length, shop: Shop) -> Finding:
    what = (
        "It is wider than its opening by {over} on its way out." if least.mm < 0 else "It has no side play at all on its way out."
    )
    # Play of the usual clearance, wherever it is the least.
    usual = shop.rule.up(usual_practice(shop.rule.unit).length("side clearance"))
    give = shop.rule.up(max(Length(drawer.side_clearance.mm - least.mm / 2 + usual.mm), usual))
    straight, usually = figure("taper", ZERO), figure("side clearance", usual)
    ways = [Remedy("give it {give} of clearance at each side", (figure("side clearance", give),))]
    if drawer.taper < ZERO:
        both = Remedy("leave out the taper, and give it {usual} of clearance at each side", (straight, usually))
        ways = [Remedy("leave out the taper", (straight,)), both, *ways]
    return Finding(
        "side play",
        Harm.REFUSE if least.mm < 0 else Harm.WARN,
        drawer.name,
        what,
        {"over": Fine(abs(Length(least.mm))), "give": give, "usual": usual},
        "DR-6",
        "by geometry",
        remedies=tuple(ways),
    )
