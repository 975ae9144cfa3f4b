"""``[sawing]``, ``[[offcut]]``, ``[[board]]`` and ``[prices]``: how wood is sawn, what there is of it, and what the rest costs."""

from collections.abc import Sequence
from typing import Annotated, Final

from pydantic import Field, PlainValidator, model_validator

from joinlay.errors import BadInput
from joinlay.jobs.on_hand import BoardOnHand, Defect, FirstCut, OnHand, Prices, Sawing, SheetOnHand
from joinlay.jobs.parts.given import Count, Gap, Given, Name, Part, Size, Spelled, StockName, dimension_of, one_of
from joinlay.lengths import Fraction, exact_fraction

__all__ = ["BoardPart", "OffcutPart", "PricesPart", "SawingPart", "on_hand_of"]

#: A price past this is a slip of the pen.
_DEAREST: Final = 1_000_000


def _price(given: object) -> Fraction:
    """An exact sum of nothing or more."""
    value = given.value if isinstance(given, Spelled) else None
    if isinstance(value, bool) or not isinstance(value, (int, str)):
        raise BadInput("a price is wanted here; write a number, such as 62.50.")
    price = exact_fraction(value if isinstance(value, int) else str(value).replace("_", ""))
    if not 0 <= price <= _DEAREST:
        raise BadInput(f"{value} is out of range for a price; it must be from 0 to {_DEAREST}.")
    return price


def _yes_or_no(given: object) -> bool:
    value = given.value if isinstance(given, Spelled) else None
    if not isinstance(value, bool):
        raise BadInput("true or false is wanted here.")
    return value


Price = Annotated[Fraction, PlainValidator(_price)]
YesOrNo = Annotated[bool, PlainValidator(_yes_or_no)]
First = Annotated[Given[FirstCut], PlainValidator(one_of({cut.value: cut for cut in FirstCut}))]
Grain = Annotated[Given[str], PlainValidator(one_of({"length": "length", "width": "width"}))]


class SawingPart(Part):
    """How sheets are cut: which way first, whether a bank's fronts stay in one column, and which parts may be turned."""

    first_cut: First | None = None
    fronts_together: YesOrNo = True
    any_grain: list[Name] | None = None

    def sawing(self) -> Sawing:
        """The same as the layouts read it."""
        names = frozenset(name.value for name in self.any_grain or ())
        first = Sawing().first_cut if self.first_cut is None else self.first_cut.value
        return Sawing(first, self.fronts_together, names)


class OffcutPart(Part):
    """A piece of sheet on hand, or a whole sheet. ``grain`` says whether it runs with the length or the width; left out: not known."""

    stock: StockName
    length: Size
    width: Size
    grain: Grain | None = None
    count: Count = 1
    name: Name | None = None

    def sheet(self, number: int) -> SheetOnHand:
        """The offcut itself, its length with the grain; called by its number where it has no name."""
        name = f"offcut {number}" if self.name is None else self.name.value
        length, width = dimension_of(self.length, f"{name} length"), dimension_of(self.width, f"{name} width")
        if self.grain is not None and self.grain.value == "width":
            length, width = width, length
        return SheetOnHand(name, self.stock.value, length, width, self.grain is not None, self.count)


class BoardPart(Part):
    """A board of solid wood on hand. ``defects`` are stretches to cut out, each its start and stop from one end."""

    stock: StockName
    length: Size
    width: Size
    defects: list[Annotated[list[Gap], Field(min_length=2, max_length=2)]] | None = None
    count: Count = 1
    name: Name | None = None

    @model_validator(mode="after")
    def _defects_lie_on_it(self) -> "BoardPart":
        for start, stop in self.defects or ():
            if not start.value < stop.value <= self.length.value:
                raise BadInput(
                    f"the defect from {start.spelled} to {stop.spelled} is not on a board {self.length.spelled} long; "
                    "give its start and stop from one end, start first."
                )
        return self

    def board(self, number: int) -> BoardOnHand:
        """The board itself; called by its number where it has no name."""
        name = f"board {number}" if self.name is None else self.name.value
        length, width = dimension_of(self.length, f"{name} length"), dimension_of(self.width, f"{name} width")
        defects = tuple(Defect(start.value, stop.value) for start, stop in self.defects or ())
        return BoardOnHand(name, self.stock.value, length, width, defects, self.count)


class PricesPart(Part):
    """What things cost: ``of`` by the name of a stock or of another line of the list of what to buy; ``slides`` for a pair."""

    currency: Name | None = None
    slides: Price | None = None
    of: dict[str, Price] = Field(default_factory=dict)

    def prices(self) -> Prices:
        """The same as the list of what to buy reads it."""
        return Prices("" if self.currency is None else self.currency.value, self.of, self.slides)


def on_hand_of(
    sawing: SawingPart | None, offcuts: Sequence[OffcutPart] | None, boards: Sequence[BoardPart] | None, prices: PricesPart | None
) -> OnHand:
    """What the four tables say together; nothing on hand and the usual sawing where they are left out."""
    return OnHand(
        tuple(part.sheet(n) for n, part in enumerate(offcuts or (), start=1)),
        tuple(part.board(n) for n, part in enumerate(boards or (), start=1)),
        Prices() if prices is None else prices.prices(),
        Sawing() if sawing is None else sawing.sawing(),
    )
