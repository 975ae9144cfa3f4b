"""Shelves under load: how far each sags in years, against what the eye takes for straight (SH-1)."""

from __future__ import annotations

from dataclasses import replace
from math import ceil, cos, radians, sin
from typing import TYPE_CHECKING, Final

from joinlay.boards import Axis, PartKind, Whole
from joinlay.boards.extent import SpaceBox
from joinlay.checks.conditions import GRAVITY, estimate, weight
from joinlay.checks.plates import CREEP
from joinlay.findings import Finding, Harm
from joinlay.lengths import Fine, Fraction, Length
from joinlay.records import dataclass
from joinlay.stock import Solid, stiffness_of

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from joinlay.boards import Board, PartRole
    from joinlay.casework.assembly import Assembly
    from joinlay.checks.conditions import Conditions, Load
    from joinlay.shop import Shop
    from joinlay.stock import Stock

__all__ = ["SEEN", "LadenShelf", "ShelfBeam", "check_shelves", "laden_shelves", "seen_sag"]

#: A shelf that sags more than this share of its span is seen to: 0.02 in a foot. Source: common practice.
SEEN: Final = Fraction(2, 100) / 12
_SOURCE: Final = "Wood Handbook ch. 9; common practice"
_SHELVES: Final = (PartKind.SHELF, PartKind.LOOSE_SHELF)


@dataclass(frozen=True, slots=True)
class ShelfBeam:
    """A shelf as a beam on its two ends: ``span``, ``deep`` from front to back and ``thick`` in mm, ``modulus`` in N/mm2.

    ``lipping`` is how thick and how high a strip along its front edge is, in mm, and its modulus; None: none.
    """

    span: float
    deep: float
    thick: float
    modulus: float
    lipping: tuple[float, float, float] | None = None

    @property
    def stiffness(self) -> float:
        """E I in N mm2; a lipping adds its own, bent about its own middle (SH-1)."""
        own = self.modulus * self.deep * self.thick**3 / 12
        return own if self.lipping is None else own + self.lipping[2] * self.lipping[0] * self.lipping[1] ** 3 / 12

    def sag(self, newtons_a_mm: float) -> float:
        """How far the middle goes down at once, in mm, under a load spread evenly along it: 5 w L^4 / (384 E I) (SH-1; Wood
        Handbook ch. 9).
        """
        return 5 * newtons_a_mm * self.span**4 / (384 * self.stiffness)


@dataclass(frozen=True, slots=True)
class LadenShelf:
    """A ``shelf``, its ``lipping`` if it has one, as the ``beam`` that it is, and what is laid on it: the ``load`` (SH-1)."""

    shelf: Board
    lipping: Board | None
    beam: ShelfBeam
    load: Load

    def newtons_a_mm(self, span: float) -> float:
        """The load on each mm of its length, were it ``span`` mm long: a weight lies closer on a shorter shelf."""
        return self.load.pressure(Fraction(span * self.beam.deep)) / 10**6 * self.beam.deep

    def sag(self, span: float) -> float:
        """How far it would sag in years, in mm, if its span were so many mm: doubled for creep (SH-1)."""
        return CREEP * replace(self.beam, span=span).sag(self.newtons_a_mm(span))


def seen_sag(span: float) -> float:
    """The most that a shelf over so many mm may sag, in mm, and still be straight to the eye (SH-1)."""
    return float(SEEN) * span


def check_shelves(
    others: Sequence[Assembly], stocks: Mapping[str, Stock], shop: Shop, conditions: Conditions
) -> tuple[Finding, ...]:
    """Whether each shelf of the open bays stays straight to the eye under its load, doubled for years (SH-1).

    Fixed shelves are taken as resting on their two ends, for a dado holds them little against bending; so are loose ones. A
    warning says the span, the thickness and, of fixed shelves, the lipping that would do. ``stocks`` are the job's by the names
    on its boards.
    """
    found = (_judged(laden, stocks, shop) for laden in laden_shelves(others, stocks, conditions))
    return (*found, *_tilted_in(others))


def laden_shelves(others: Sequence[Assembly], stocks: Mapping[str, Stock], conditions: Conditions) -> tuple[LadenShelf, ...]:
    """The shelves of the open bays with what lies on them, in the order of the boards of ``others`` (SH-1)."""
    boards = [board for assembly in others for board in assembly.boards]
    housed = _housed(others)
    found = []
    for shelf in (board for board in boards if board.role.kind in _SHELVES):
        lipping = next((b for b in boards if b.role.kind is PartKind.LIPPING and _same(b, shelf)), None)
        beam = _beam(shelf, lipping, housed.get(shelf.role, Fraction(0)), stocks)
        found.append(LadenShelf(shelf, lipping, beam, conditions.load_on_shelf(shelf.role.bay)))
    return tuple(found)


def _same(lipping: Board, shelf: Board) -> bool:
    return (lipping.role.bay, lipping.role.number) == (shelf.role.bay, shelf.role.number)


def _modulus(stock: Stock) -> float:
    return 1000 * float(stiffness_of(stock).along)


def _housed(others: Sequence[Assembly]) -> dict[PartRole, Fraction]:
    """How much of the length of each shelf lies in its dadoes, in mm, as its meetings have it."""
    found: dict[PartRole, Fraction] = {}
    for met in (met for assembly in others for met in assembly.meetings):
        if met.one.kind is PartKind.SHELF and met.joint is not None:
            facing = met.facings[0]
            found[met.one] = found.get(met.one, Fraction(0)) + facing.other.depth.mm - facing.gap.mm
    return found


def _beam(shelf: Board, lipping: Board | None, housed: Fraction, stocks: Mapping[str, Stock]) -> ShelfBeam:
    """Its span is between the wood at its two ends: its length less what of it is ``housed`` in dadoes."""
    span = shelf.length.mm - housed
    strip = None
    if lipping is not None:
        strip = (float(lipping.thickness.mm), float(lipping.width.mm), _modulus(stocks[lipping.stock]))
    return ShelfBeam(float(span), float(shelf.width.mm), float(shelf.thickness.mm), _modulus(stocks[shelf.stock]), strip)


def _judged(one: LadenShelf, stocks: Mapping[str, Stock], shop: Shop) -> Finding:
    shelf, lipping, beam, laden, rule = one.shelf, one.lipping, one.beam, one.load, shop.rule
    load = one.newtons_a_mm(beam.span)
    sag, limit = one.sag(beam.span), seen_sag(beam.span)
    numbers: dict[str, Length | int | str] = {
        "sag": estimate(sag, rule), "load": weight(load * beam.span / GRAVITY, rule), "seen": estimate(limit, rule),
    }  # fmt: skip
    what = "With {load} spread over it for years it sags about {sag}"
    if sag <= limit:
        return Finding(
            "shelf sag", Harm.NOTE, shelf.name, what + "; the eye takes {seen} for straight.", numbers, "SH-1", _SOURCE
        )
    times = sag / limit
    # A weight lies on a shorter shelf as well, so much the closer; of what is given by the area there is then less.
    numbers["span"] = rule.down(_exact(beam.span / times ** (1 / 2 if laden.is_weight else 1 / 3)))
    numbers["thick"] = rule.up(_exact(beam.thick * times ** (1 / 3)))
    remedy = "A span of {span} would do, or a shelf of its kind {thick} thick"
    if shelf.role.kind is PartKind.SHELF and (wood := _lipping_wood(lipping, stocks)) is not None:
        strip = float(wood.thickness.mm)
        needed = times * beam.stiffness - beam.modulus * beam.deep * beam.thick**3 / 12
        # The lipping's own thickness comes off the shelf's depth, so it makes up for that too.
        needed += 0.0 if lipping is not None else beam.modulus * strip * beam.thick**3 / 12
        high = (12 * needed / (_modulus(wood) * strip)) ** (1 / 3)
        numbers |= {"high": rule.up(_exact(high)), "wood": wood.name}
        remedy += ", or a lipping of {wood} {high} high"
    what += ", and the eye takes {seen} for straight."
    return Finding("shelf sag", Harm.WARN, shelf.name, what, numbers, "SH-1", _SOURCE, remedy + ".", "sags {sag}")


def _lipping_wood(lipping: Board | None, stocks: Mapping[str, Stock]) -> Stock | None:
    """What a lipping is, or would be: of the one there, else the job's first solid wood."""
    if lipping is not None:
        return stocks[lipping.stock]
    return next((stock for stock in stocks.values() if isinstance(stock, Solid)), None)


def _exact(mm: float) -> Length:
    return Length(Fraction(ceil(mm * 1000), 1000))


def _tilted_in(others: Sequence[Assembly]) -> tuple[Finding, ...]:
    """Whether loose shelves, longer than the frame's opening is wide, can be tilted in from the front (SH-2).

    Tilted, a shelf goes in between floor and ceiling of its bay and the frame's uprights where its length and thickness pass the
    opening's diagonal. Source: by geometry.
    """
    parts = {assembly.of: assembly for assembly in others}
    if Whole.SHELVES not in parts or Whole.FRAME not in parts:
        return ()
    frame = [SpaceBox.around(board) for board in parts[Whole.FRAME].boards if not board.role.kind.is_loose]
    found = []
    for shelf in parts[Whole.SHELVES].boards:
        wide, high = _opening_before(SpaceBox.around(shelf), frame)
        length, thick = float(shelf.size(Axis.ALONG).mm), float(shelf.thickness.mm)
        if length <= wide or shelf.role.number > 1:
            continue
        numbers = {"length": shelf.length, "wide": Fine(Length(Fraction(wide)))}
        what = "It is {length} long, and the opening before it {wide} wide: "
        if _passes(length, thick, wide, high):
            said = what + "tilt it in, one end first, and let it down on its pins."
            found.append(Finding("loose shelf", Harm.NOTE, shelf.name, said, numbers, "SH-2", "by geometry"))
        else:
            said = what + "it does not go in tilted either, once the case is closed."
            remedy = "Put it in from behind before the back goes on, or leave the back to be screwed; or make the bay higher."
            found.append(Finding("loose shelf", Harm.WARN, shelf.name, said, numbers, "SH-2", "by geometry", remedy))
    return tuple(found)


def _opening_before(shelf: SpaceBox, frame: Sequence[SpaceBox]) -> tuple[float, float]:
    """The width and height of the frame's opening that the middle of the shelf lies behind."""
    x, z = ((shelf.low[axis] + shelf.high[axis]) / 2 for axis in (0, 2))
    left = max(box.high[0] for box in frame if box.high[0] <= x and box.low[2] <= z <= box.high[2])
    right = min(box.low[0] for box in frame if box.low[0] >= x and box.low[2] <= z <= box.high[2])
    below = max(box.high[2] for box in frame if box.high[2] <= z and box.low[0] <= x <= box.high[0])
    above = min(box.low[2] for box in frame if box.low[2] >= z and box.low[0] <= x <= box.high[0])
    return float(right - left), float(above - below)


def _passes(length: float, thick: float, wide: float, high: float) -> bool:
    """True where a board seen on its edge, ``length`` by ``thick``, goes through an opening at some slope."""
    slopes = ((cos(angle), sin(angle)) for angle in map(radians, range(1, 90)))
    return any(length * level + thick * up <= wide and length * up + thick * level <= high for level, up in slopes)
