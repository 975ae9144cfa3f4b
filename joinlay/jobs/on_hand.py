"""What a maker has on hand, how the wood is to be sawn, and what things cost.

None of it changes a part: the cutting list, the sheet layouts and the list of what to buy are made with it, and a job that says
nothing of it still gets all three.
"""

from __future__ import annotations

from dataclasses import field
from enum import Enum
from typing import TYPE_CHECKING

from joinlay.errors import BadInput
from joinlay.lengths import BadSize, require_positive
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Mapping

    from joinlay.lengths import Dimension, Fraction, Length

__all__ = ["NOTHING_ON_HAND", "BoardOnHand", "Defect", "FirstCut", "OnHand", "Prices", "Sawing", "SheetOnHand"]


class FirstCut(Enum):
    """Which way a whole sheet is cut first."""

    RIP = "rip"  #: with the grain, into strips: a table saw with a long fence
    CROSSCUT = "crosscut"  #: across the grain: a sliding table, or a saw on a guide rail
    EITHER = "either"  #: whichever wastes least


@dataclass(frozen=True, slots=True)
class SheetOnHand:
    """An offcut, or a whole sheet the maker already has, of ``stock``; ``count`` of them alike.

    ``length`` is with the grain and ``width`` across it. ``grain_known`` False: the maker did not say which way it runs, so only
    parts whose grain does not matter can be cut from it.
    """

    name: str
    stock: str
    length: Dimension
    width: Dimension
    grain_known: bool = True
    count: int = 1

    def __post_init__(self) -> None:
        """Refuse sizes of zero or less, and a count under 1."""
        _check(self.name, (self.length, self.width), self.count)


@dataclass(frozen=True, slots=True)
class Defect:
    """A length of board to be cut out (a knot, a split end), ``start`` to ``stop`` from the board's marked end."""

    start: Length
    stop: Length


@dataclass(frozen=True, slots=True)
class BoardOnHand:
    """A solid wood board the maker has, of ``stock``; ``count`` of them alike. ``defects`` are cut out over the whole width."""

    name: str
    stock: str
    length: Dimension
    width: Dimension
    defects: tuple[Defect, ...] = ()
    count: int = 1

    def __post_init__(self) -> None:
        """Refuse sizes of zero or less, a count under 1, and defects that are not on the board."""
        _check(self.name, (self.length, self.width), self.count)
        for defect in self.defects:
            if not 0 <= defect.start.mm < defect.stop.mm <= self.length.mm:
                raise BadSize(
                    "{name}: the defect from {start} to {stop} is not on a board {length} long; give its start "
                    "and stop from one end, start first.",
                    name=self.name,
                    start=defect.start,
                    stop=defect.stop,
                    length=self.length,
                )


@dataclass(frozen=True, slots=True)
class Prices:
    """What things cost, in ``currency`` (``GBP``, ``$``: shown as written).

    ``of`` is keyed by a stock's name (a whole sheet; a board foot or cubic metre of solid wood) or by the name of another line of
    the list of what to buy. ``slides`` is what a pair of metal slides for one of these drawers would cost.
    """

    currency: str = ""
    of: Mapping[str, Fraction] = field(default_factory=dict)
    slides: Fraction | None = None

    def __post_init__(self) -> None:
        """Refuse a negative price."""
        for name, price in (*self.of.items(), ("slides", self.slides or 0)):
            if price < 0:
                raise BadInput(f"the price of {name} is {price}; a price is at least 0.")


@dataclass(frozen=True, slots=True)
class Sawing:
    """How sheets are to be sawn.

    ``fronts_together`` cuts the drawer fronts of a bank from one column, in their order, so that the grain runs down it.
    ``any_grain`` are the kinds of part (``drawer bottom``) whose grain does not matter.
    """

    first_cut: FirstCut = FirstCut.RIP
    fronts_together: bool = True
    any_grain: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class OnHand:
    """All of it; empty where the job says nothing."""

    sheets: tuple[SheetOnHand, ...] = ()
    boards: tuple[BoardOnHand, ...] = ()
    prices: Prices = field(default_factory=Prices)
    sawing: Sawing = field(default_factory=Sawing)


#: A job that says nothing of what is on hand.
NOTHING_ON_HAND = OnHand()


def _check(name: str, sizes: tuple[Dimension, ...], count: int) -> None:
    require_positive(name, *sizes)
    if count < 1:
        raise BadInput(f"{name}: the count is {count}; it must be at least 1.")
