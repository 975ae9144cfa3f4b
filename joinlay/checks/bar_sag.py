"""The bar down the middle of a bottom as a beam: how far it sags in years under what the two halves lay on it (BO-1, CK-3)."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.boards import CutUse, Hand
from joinlay.casework.bottom_bar import bar_shape
from joinlay.casework.opening import BackHeight
from joinlay.checks.conditions import estimate
from joinlay.checks.plates import CREEP
from joinlay.findings import Change, Finding, Harm, Remedy, figure
from joinlay.lengths import ZERO, Fine, Length
from joinlay.records import dataclass
from joinlay.stock import Solid, stiffness_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from joinlay.casework.assembly import Drawer
    from joinlay.casework.bottom_bar import BarShape
    from joinlay.checks.sag import BottomSpan
    from joinlay.shop import Shop
    from joinlay.stock import Stock

__all__ = ["BarBeam", "bar_of", "bars_that_fit", "check_bar"]

_SOURCE: Final = "trapezoidal load on a beam; Wood Handbook ch. 5"
#: How many steps of the maker's rule higher a bar is proposed to be, at most. Source: our own choice.
_MOST_STEPS: Final = 40


@dataclass(frozen=True, slots=True)
class BarBeam:
    """A bar as a beam resting on front and back: ``thick`` from side to side and ``high``, its grooves ``deep`` in each face,
    ``wide`` and ``below`` above its lower edge, all in mm; ``modulus`` in N/mm2 on edge.
    """

    thick: float
    high: float
    below: float
    wide: float
    deep: float
    modulus: float

    @classmethod
    def of(cls, shape: BarShape, groove_width: Length, stock: Stock) -> BarBeam:
        """The beam of a bar of that ``shape`` (BO-1)."""
        return cls.sized((shape.thickness, shape.height, shape.below, groove_width, shape.depth), stock)

    @classmethod
    def sized(cls, sizes: tuple[Length, Length, Length, Length, Length], stock: Stock) -> BarBeam:
        """The beam of ``stock`` that is so thick and high, its grooves so far up, wide and deep (BO-1)."""
        thick, high, below, wide, deep = (float(size.mm) for size in sizes)
        return cls(thick, high, below, wide, deep, _on_edge(stock))

    @property
    def stiffness(self) -> float:
        """E I in N mm2: the whole section less its two grooves, about the middle of what is left (CK-3; by geometry)."""
        parts = ((self.thick, self.high, self.high / 2, 1), (2 * self.deep, self.wide, self.below + self.wide / 2, -1))
        area = sum(sign * b * h for b, h, _, sign in parts)
        middle = sum(sign * b * h * at for b, h, at, sign in parts) / area
        return self.modulus * sum(sign * (b * h**3 / 12 + b * h * (at - middle) ** 2) for b, h, at, sign in parts)

    def sag(self, span: BottomSpan, pressure: float) -> float:
        """How far its middle goes down in years, in mm, between halves of that ``span`` under ``pressure`` pascals (CK-3).

        Each half lays on it what lies nearer to it than to the three other edges: a load that grows from either end at 45 degrees
        and then stays, w (5 L^2 - 4 a^2)^2 / (1920 E I), a the length of each slope; doubled for creep. Source: the trapezoidal
        load of the handbooks, from memory; a = 0 is 5 w L^4 / (384 E I), a = L / 2 is w L^4 / (120 E I).
        """
        run, slope = float(span.deep.mm), min(float(span.across.mm), float(span.deep.mm)) / 2
        newtons_a_mm = 2 * slope * pressure / 10**6
        return CREEP * newtons_a_mm * (5 * run**2 - 4 * slope**2) ** 2 / (1920 * self.stiffness)


def _on_edge(stock: Stock) -> float:
    """Its modulus bent on edge, in N/mm2: of a sheet all plies bend alike then, so that it is the mean of both ways."""
    stiff = stiffness_of(stock)
    return 1000 * float(stiff.along if isinstance(stock, Solid) else (stiff.along + stiff.across) / 2)


def bar_of(drawer: Drawer) -> BarBeam | None:
    """The bar of the drawer's bottom as a beam; None where it has none (BO-1)."""
    bar, stock = drawer.bar, drawer.make.bar
    if bar is None or stock is None:
        return None
    groove = bar.cuts_of(CutUse.GROOVE)[0]
    return BarBeam.sized((bar.thickness, bar.width, groove.across.start, groove.across.size, groove.depth), stock)


def bars_that_fit(drawer: Drawer, stocks: Iterable[Stock], shop: Shop) -> Iterator[tuple[Stock, BarShape, BarBeam]]:
    """Bars that a drawer without one could have, by the stocks there are: solid ones first, the thinnest of each first (BO-1)."""
    (groove,) = drawer.side(Hand.LEFT).cuts_of(CutUse.GROOVE)
    if drawer.bar is not None:
        return
    for stock in sorted(stocks, key=lambda one: (not isinstance(one, Solid), one.thickness.mm, one.name)):
        shape = bar_shape(
            "a bar",
            stock.thickness,
            drawer.make.bottom.thickness,
            groove.depth,
            groove.across.start,
            shop,
            is_under_back=drawer.make.back_height is BackHeight.ON_BOTTOM,
        )
        if shape.fits(drawer.inside_width, Length(min(board.width.mm for board in drawer.sides))):
            yield stock, shape, BarBeam.of(shape, groove.across.size, stock)


def check_bar(drawer: Drawer, span: BottomSpan, pressure: float, shop: Shop, others: Iterable[Stock]) -> tuple[Finding, ...]:
    """Whether the loaded bar stays above what the sides ride on (BO-1, CK-3); nothing to say where it does.

    The remedies of a warning are a bar so much higher, and the thinnest stock of ``others`` that would be stiff enough. Sag that
    just uses up the room is no warning.
    """
    beam, bar = bar_of(drawer), drawer.bar
    if beam is None or bar is None:
        return ()
    room = _room_under(drawer)
    sag = beam.sag(span, pressure)
    if sag <= float(room.mm):
        return ()
    numbers: dict[str, Length | int | str] = {"sag": estimate(sag, shop.rule), "room": Fine(room)}
    ways = []
    rise = shop.practice.length("bottom bar rise").mm
    for n in range(1, _MOST_STEPS):
        taller = shop.rule.up(Length(rise + n * shop.rule.division.mm))
        high = beam.high + float(taller.mm - rise)
        if BarBeam(beam.thick, high, beam.below, beam.wide, beam.deep, beam.modulus).sag(span, pressure) <= float(room.mm):
            numbers["rise"] = taller
            ways.append(Remedy("let it stand {rise} above the bottom", (figure("bottom bar rise", taller),)))
            break
    thicker = sorted((one for one in others if one.thickness > bar.thickness), key=lambda one: one.thickness.mm)
    for stock in thicker:
        wide = float(stock.thickness.mm)
        if BarBeam(wide, beam.high, beam.below, beam.wide, beam.deep, _on_edge(stock)).sag(span, pressure) <= float(room.mm):
            numbers["stock"] = stock.name
            ways.append(Remedy("make it of the {stock} of your stock", (Change("drawers", "bottom-bar", stock.name),)))
            break
    what = "Loaded for years it sags about {sag}, and its lower edge is only {room} above that of the sides."
    remedy = "" if ways else "Only a much stiffer bar would do, or two drawers in place of one."
    mark = "sags {sag}, only {room} under it"
    return (Finding("bottom sag", Harm.WARN, bar.name, what, numbers, "BO-1, CK-3", _SOURCE, remedy, mark, remedies=tuple(ways)),)


def _room_under(drawer: Drawer) -> Length:
    bar, side = drawer.bar, drawer.side(Hand.LEFT)
    if bar is None or bar.place is None or side.place is None:
        return ZERO
    return Length(bar.place.origin[2] - side.place.origin[2])
