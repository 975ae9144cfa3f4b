"""What the parts weigh, empty and loaded (CK-4)."""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.checks.conditions import GRAVITY, weight
from joinlay.checks.sag import bottom_span
from joinlay.errors import BadInput
from joinlay.findings import Finding, Harm
from joinlay.records import dataclass
from joinlay.stock import density_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from joinlay.boards import Board
    from joinlay.casework.assembly import Drawer
    from joinlay.checks.conditions import Conditions
    from joinlay.shop import Shop
    from joinlay.stock import Stock

__all__ = ["Weighed", "board_weight", "check_weight", "drawer_load", "drawer_weight", "stocks_by_name", "weigh"]

#: Kilograms a cubic metre of wood that isn't known: a middling hardwood. Source: common practice.
_UNKNOWN = 650.0


def stocks_by_name(stocks: Iterable[Stock]) -> dict[str, Stock]:
    """The stocks by the name a board carries, to weigh it by (CK-4)."""
    return {stock.name: stock for stock in stocks}


def board_weight(board: Board, stocks: Mapping[str, Stock]) -> float:
    """Kilograms of ``board``, its cuts not taken off, which makes it a few per cent heavy (CK-4).

    A stock that isn't in ``stocks``, or whose species isn't in the table, is taken at 650 kg/m3.
    """
    stock = stocks.get(board.stock)
    try:
        density = _UNKNOWN if stock is None else float(density_of(stock))
    except BadInput:
        density = _UNKNOWN
    return density * float(board.length.mm * board.width.mm * board.thickness.mm) / 10**9


def drawer_weight(drawer: Drawer) -> float:
    """Kilograms of the empty drawer (CK-4)."""
    make = drawer.make
    stocks = stocks_by_name((make.front, make.sides, make.back, make.bottom, *((make.bar,) if make.bar else ())))
    return sum(board_weight(board, stocks) for board in drawer.assembly.boards)


def drawer_load(drawer: Drawer, conditions: Conditions) -> float:
    """Kilograms that lie in the loaded drawer: the load on its bottom (CK-3, CK-4; ANSI/KCMA A161.1 for the usual one)."""
    span = bottom_span(drawer)
    return conditions.load_of(drawer.name).pressure(span.area) * float(span.area) / 10**6 / GRAVITY


@dataclass(frozen=True, slots=True)
class Weighed:
    """What a drawer weighs, in kilograms: ``empty``, and ``loaded`` with what lies on its bottom."""

    drawer: str
    empty: float
    loaded: float


def weigh(drawers: Iterable[Drawer], conditions: Conditions) -> tuple[Weighed, ...]:
    """Every drawer empty and loaded, in their order (CK-4)."""
    weighed = ((drawer, drawer_weight(drawer)) for drawer in drawers)
    return tuple(Weighed(drawer.name, empty, empty + drawer_load(drawer, conditions)) for drawer, empty in weighed)


def check_weight(drawer: Drawer, shop: Shop, conditions: Conditions) -> tuple[Finding, ...]:
    """A note of what ``drawer`` weighs (CK-4)."""
    (weighed,) = weigh((drawer,), conditions)
    numbers = {"empty": weight(weighed.empty, shop.rule), "loaded": weight(weighed.loaded, shop.rule)}
    what = "It weighs about {empty} empty, {loaded} loaded."
    return (Finding("weight", Harm.NOTE, drawer.name, what, numbers, "CK-4", "Wood Handbook densities"),)
