"""The bottom under load: how far it sags in years, against the room under it (CK-3)."""

from __future__ import annotations

from math import ceil
from typing import TYPE_CHECKING, Final

from joinlay.boards import CutUse, Hand
from joinlay.boards.meeting import Tie
from joinlay.casework.opening import BackHeight
from joinlay.checks.bar_sag import bar_of, bars_that_fit, check_bar
from joinlay.checks.conditions import GRAVITY, estimate, weight
from joinlay.checks.plates import CREEP, Plate, sag_on_four_edges, sag_with_a_free_edge
from joinlay.findings import Change, Finding, Harm, Remedy, figure
from joinlay.lengths import ZERO, Fine, Fraction, Length, mm
from joinlay.records import dataclass
from joinlay.stock import Sheet, stiffness_of, taken_as_three_ply

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from joinlay.casework.assembly import Drawer
    from joinlay.checks.bar_sag import BarBeam
    from joinlay.checks.conditions import Conditions
    from joinlay.shop import Shop
    from joinlay.stock import Stock

__all__ = ["LEAST_BOTTOM", "BottomSpan", "bottom_span", "check_sag", "loaded_sag", "room_under", "sag_of", "stop_height"]

#: A bottom thinner than this rattles and breaks out of its groove, however little lies on it. Source: our own choice.
LEAST_BOTTOM: Final = mm(3)
#: The most that a groove is set higher to leave a bottom room to sag in, for it takes as much from the drawer. Source: our own
#: choice.
_HIGHER: Final = mm(20)
_SOURCE: Final = "Timoshenko's plates; Wood Handbook ch. 5"


@dataclass(frozen=True, slots=True)
class BottomSpan:
    """What a bottom spans between its grooves: ``across`` from side to side, ``deep`` from front to back.

    Beside a bar that is each of two ``halves``.
    """

    across: Length
    deep: Length
    halves: int = 1

    @property
    def area(self) -> Fraction:
        """Of the whole bottom, in square mm."""
        return self.halves * self.across.mm * self.deep.mm


def bottom_span(drawer: Drawer) -> BottomSpan:
    """The free span of the drawer's bottom: the inside of the drawer, at its front; of each half of it beside a bar (CK-3,
    BO-1).
    """
    front, back = drawer.front, drawer.back
    # Both have their inside face as reference face: placed, it is where the y of their corner lies.
    ys = [board.place.origin[1] for board in (front, back) if board.place is not None]
    across, deep, bar = drawer.inside_width.mm, Length(ys[1] - ys[0]), drawer.bar
    return BottomSpan(Length(across), deep) if bar is None else BottomSpan(Length((across - bar.thickness.mm) / 2), deep, 2)


def room_under(drawer: Drawer, stop: Length = ZERO) -> Length:
    """From the bottom's lower face to the bearers the sides ride on, less a ``stop`` block and its clearance (CK-3, ST-3)."""
    bottom, side = drawer.bottom, drawer.side(Hand.LEFT)
    if bottom.place is None or side.place is None:
        return ZERO
    low = bottom.place.point(ZERO, ZERO, bottom.thickness)[2]
    return Length(low - side.place.origin[2]) - stop


def stop_height(drawer: Drawer, shop: Shop) -> Length:
    """How much of the room under the bottom the drawer's stop blocks take, their clearance included; nothing without stops
    (ST-3).
    """
    passed = [met.facings[0].gap.mm for met in drawer.tied(Tie.CLEARS) if met.one == drawer.bottom.role]
    if not passed:
        return ZERO
    return Length(room_under(drawer).mm - min(passed) + shop.practice.length("stop clearance").mm)


def sag_of(stock: Stock, span: BottomSpan, pressure: float, *, free_back: bool = False) -> float:
    """How far a bottom of ``stock`` sags in years, in mm, under ``pressure`` pascals (CK-3): the plate's first sag, doubled for
    creep.

    Its grain runs from side to side (GR-2). ``free_back``: nothing holds its back edge. BadInput for a stock the tables don't
    know.
    """
    stiff = stiffness_of(stock)
    plate = Plate.of(
        float(span.across.mm),
        float(span.deep.mm),
        float(stock.thickness.mm),
        1000 * float(stiff.along),
        1000 * float(stiff.across),
    )
    solve = sag_with_a_free_edge if free_back else sag_on_four_edges
    return CREEP * solve(plate, pressure / 10**6)


def loaded_sag(stock: Stock, span: BottomSpan, pressure: float, bar: BarBeam | None) -> float:
    """The same of a bottom as it lies in its drawer: beside a ``bar`` each half sags, and goes down by half of what that sags
    (CK-3, BO-1).
    """
    return sag_of(stock, span, pressure) + (bar.sag(span, pressure) / 2 if bar is not None else 0)


def check_sag(
    drawer: Drawer, shop: Shop, conditions: Conditions, others: Iterable[Stock] = (), stop: Length = ZERO
) -> tuple[Finding, ...]:
    """Whether the loaded bottom stays clear of the rail, or of a ``stop`` block and its clearance (CK-3).

    A bottom under a standing back is taken as fastened to it, and the note says what it would sag left loose. The remedy of a
    warning is the thinnest of ``others`` that would do in its place, else how thick a bottom of its kind would have to be; a note
    names a thinner one that would do too. Sag that just uses up the room is no warning. Beside a bar both halves are judged as
    one, for they are alike, and the bar too (BO-1).
    """
    span, room, bar, others = bottom_span(drawer), room_under(drawer, stop), bar_of(drawer), tuple(others)
    pressure = conditions.load_of(drawer.name).pressure(span.area)
    sag = loaded_sag(drawer.make.bottom, span, pressure, bar)
    at_bar_half = sag - sag_of(drawer.make.bottom, span, pressure)
    at_bar = check_bar(drawer, span, pressure, shop, others)
    stands = drawer.make.back_height is BackHeight.ON_BOTTOM
    load = pressure * float(span.area) / 10**6 / GRAVITY
    numbers: dict[str, Length | int | str] = {
        "sag": estimate(sag, shop.rule), "room": Fine(room), "load": weight(load, shop.rule), "stock": drawer.make.bottom.name,
    }  # fmt: skip
    where, it = f"{drawer.name} bottom", "it sags"
    if bar is not None:
        it, numbers["bar"] = "each half sags", estimate(bar.sag(span, pressure), shop.rule)
    if sag <= float(room.mm):
        what = f"With {{load}} spread over it for years {it} about {{sag}}; there is {{room}} under it." + _plies(
            drawer.make.bottom
        )
        if bar is not None:
            what += " The bar between them sags about {bar}."
        if stands:
            what += " Screw its back edge up to the drawer back: left loose it would sag {loose}."
            numbers["loose"] = estimate(sag_of(drawer.make.bottom, span, pressure, free_back=True), shop.rule)
        thinner = _thinnest(
            others, span, pressure, room, bar, lambda stock: LEAST_BOTTOM <= stock.thickness < drawer.make.bottom.thickness
        )
        if thinner is not None:
            what += " The thinner {thinner} of your stock would do too."
            numbers["thinner"] = thinner.name
        return (Finding("bottom sag", Harm.NOTE, where, what, numbers, "CK-3", _SOURCE), *at_bar)
    what = f"With {{load}} spread over it for years {it} about {{sag}}, and there is only {{room}} under it." + _plies(
        drawer.make.bottom
    )
    make = drawer.make
    better = _thinnest(
        others, span, pressure, room, bar, lambda stock: make.bottom.thickness < stock.thickness <= make.sides.thickness
    )
    needed = shop.rule.up(_thick_enough(make.bottom, sag, room, at_bar_half)) if room.mm > 0 else ZERO
    ways, remedy = [], ""
    if better is not None:
        numbers["better"] = better.name
        ways.append(Remedy("take the {better} of your stock", (Change("drawers", "bottom", better.name),)))
    elif ZERO < needed <= make.sides.thickness:
        numbers["needed"] = needed
        remedy = "A bottom of its kind {needed} thick would do."
    if 0 < sag - float(room.mm) <= float(_HIGHER.mm):
        ways.append(_higher_groove(drawer, sag, room, shop, numbers))
    ways += _with_a_bar(drawer, span, pressure, room, shop, others, numbers)
    remedy = remedy or ("" if ways else "Only a much stiffer bottom would do, or two drawers in its place.")
    mark = "sags {sag}, only {room} under it"
    return (Finding("bottom sag", Harm.WARN, where, what, numbers, "CK-3", _SOURCE, remedy, mark, remedies=tuple(ways)), *at_bar)


def _with_a_bar(
    drawer: Drawer,
    span: BottomSpan,
    pressure: float,
    room: Length,
    shop: Shop,
    others: Iterable[Stock],
    numbers: dict[str, Length | int | str],
) -> Iterator[Remedy]:
    """A bar down its middle of the thinnest stock there is, solid before sheet, if both halves and the bar would stay clear
    (BO-1).
    """
    for stock, shape, beam in bars_that_fit(drawer, others, shop):
        half = BottomSpan(Length((span.across.mm - shape.thickness.mm) / 2), span.deep, 2)
        if beam.sag(half, pressure) <= float(shape.lift.mm) and loaded_sag(drawer.make.bottom, half, pressure, beam) <= float(
            room.mm
        ):
            numbers["muntin"] = stock.name
            words = "put a grooved bar of the {muntin} of your stock down its middle, which halves its span"
            yield Remedy(words, (Change("drawers", "bottom-bar", stock.name),))
            return


def _plies(bottom: Stock) -> str:
    """What is taken of the plies of thin plywood, where nobody has counted them."""
    if not (isinstance(bottom, Sheet) and taken_as_three_ply(bottom)):
        return ""
    return (
        " It is taken as three-ply, which is weak across its face grain; where you count more, write plies = 5, say, for {stock}."
    )


def _higher_groove(drawer: Drawer, sag: float, room: Length, shop: Shop, numbers: dict[str, Length | int | str]) -> Remedy:
    """The groove so much higher that what the bottom sags finds its room."""
    offset = drawer.side(Hand.LEFT).cuts_of(CutUse.GROOVE)[0].across.start.mm
    numbers["offset"] = higher = shop.rule.up(Length(offset + Fraction(ceil(sag * 1000), 1000) - room.mm))
    return Remedy("put the groove higher up, {offset} above the sides' bottom edge", (figure("groove offset", higher),))


def _thick_enough(stock: Stock, sag: float, room: Length, at_bar: float) -> Length:
    """How thick a bottom like this would have to be to sag no more than ``room``: its stiffness goes with the cube of its
    thickness. What of it is ``at_bar``, in mm, stays; nothing where that alone takes the room.
    """
    left = float(room.mm) - at_bar
    if left <= 0:
        return ZERO
    times = ((sag - at_bar) / left) ** (1 / 3)
    return Length(stock.thickness.mm * Fraction(ceil(times * 10**6), 10**6))


def _thinnest(
    others: Iterable[Stock], span: BottomSpan, pressure: float, room: Length, bar: BarBeam | None, wanted: Callable[[Stock], bool]
) -> Stock | None:
    """The thinnest sheet among ``others`` that is ``wanted`` and would stay clear in the bottom's place; None where none does."""
    sheets = [stock for stock in others if isinstance(stock, Sheet) and wanted(stock)]
    enough = [stock for stock in sheets if loaded_sag(stock, span, pressure, bar) <= float(room.mm)]
    return min(enough, key=lambda stock: stock.thickness, default=None)
