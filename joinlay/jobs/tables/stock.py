"""``[stock.NAME]``, ``[[offcut]]``, ``[[board]]``, ``[sawing]`` and ``[prices]``: the wood.

What the parts are made of, with the thickness it is sold as and the one callipers say; what there is of it, how it is sawn, and
what the rest costs.
"""

from collections.abc import Sequence
from typing import Annotated, Final

from pydantic import Field, WithJsonSchema, model_validator

from joinlay.errors import BadInput
from joinlay.jobs.on_hand import BoardOnHand, Defect, FirstCut, OnHand, Prices, Sawing, SheetOnHand
from joinlay.jobs.source import Spelled
from joinlay.jobs.tables.amounts import Stiff
from joinlay.jobs.tables.given import (
    Checked,
    Count,
    Entry,
    Gap,
    Given,
    Name,
    Size,
    StockName,
    YesOrNo,
    checked_name,
    dimension_of,
    one_of,
)
from joinlay.lengths import Dimension, Fraction, Unit, default, exact_fraction, read_length
from joinlay.stock import SHEET_KINDS, Sheet, Solid, Stock, species_named

__all__ = ["BoardEntry", "OffcutEntry", "PricesEntry", "SawingEntry", "StockEntry", "on_hand_of"]

_SOLID: Final = "solid"

#: Length and width of a sheet where the job names none.
_SHEET: Final = {Unit.INCH: ("96", "48"), Unit.MM: ("2440", "1220")}

#: Measured outside these shares of nominal is a wrong unit or a slip, not a thin sheet: 4/4 solid wood is sold at 13/16,
#: two-inch at 1 1/2.
_LEAST_SHARE, _MOST_SHARE = Fraction(1, 2), Fraction(3, 2)

Kind = Annotated[Given[str], one_of({kind: kind for kind in (*SHEET_KINDS, _SOLID)})]


def _species(given: object) -> Given[str]:
    """A wood by its table name or a bench name; the table's own name is kept."""
    found = checked_name(given)
    return Given(species_named(found.value).name, found.spelled, found.origin)


Wood = Annotated[Given[str], Checked(_species), WithJsonSchema({"type": "string", "examples": ["black cherry", "white oak"]})]
#: More layers than any plywood has.
_MOST_PLIES: Final = 51


def _plies(given: object) -> int:
    """An odd number of layers."""
    value = given.value if isinstance(given, Spelled) else None
    if isinstance(value, bool) or not isinstance(value, int) or not 3 <= value <= _MOST_PLIES or value % 2 == 0:
        raise BadInput(
            f"plywood has an odd number of plies, from 3 to {_MOST_PLIES}; count them at its edge and write plies = 5, say."
        )
    return value


Plies = Annotated[int, Checked(_plies), WithJsonSchema({"type": "integer", "minimum": 3, "maximum": _MOST_PLIES})]
Sawn = Annotated[Given[str], one_of({"flat": "flat", "quarter": "quarter"})]


class StockEntry(Entry):
    """One stock. ``sheet`` is length and width of a whole sheet; ``species`` and ``cut`` (flat or quarter) are for solid wood.

    ``stiffness`` is a sheet's along its face grain and, where it is another, across it; ``plies`` are plywood's layers, counted
    at its edge.
    """

    kind: Kind | None = None
    nominal: Size
    measured: Size | None = None
    sheet: Annotated[list[Size], Field(min_length=2, max_length=2)] | None = None
    species: Wood | None = None
    cut: Sawn | None = None
    stiffness: Annotated[list[Stiff], Field(min_length=1, max_length=2)] | None = None
    plies: Plies | None = None

    @model_validator(mode="after")
    def _fits_together(self) -> "StockEntry":
        if self.is_solid and self.sheet is not None:
            raise BadInput('sheet is for sheet goods; solid wood has none, so leave it out or change kind = "solid".')
        if self.is_solid and self.species is None:
            raise BadInput('solid wood needs its species, such as species = "black cherry".')
        if not self.is_solid and (self.species or self.cut):
            raise BadInput('species and cut are for solid wood; write kind = "solid", or leave them out.')
        if self.is_solid and self.stiffness is not None:
            raise BadInput("the stiffness of solid wood follows from its species; leave stiffness out.")
        if self.plies is not None and not self._is_plywood:
            raise BadInput("plies are counted of plywood alone; leave plies out.")
        if self.measured is not None:
            share = self.measured.value / self.nominal.value
            if not _LEAST_SHARE <= share <= _MOST_SHARE:
                raise BadInput(
                    f"measured {self.measured.spelled} is too far from nominal {self.nominal.spelled} to be the same stock; "
                    "check both, and the unit."
                )
        return self

    @property
    def _is_plywood(self) -> bool:
        return self.kind is None or self.kind.value == "plywood"

    @property
    def is_solid(self) -> bool:
        """True for solid wood."""
        return self.kind is not None and self.kind.value == _SOLID

    def stock(self, name: str, unit: Unit) -> Stock:
        """The stock itself, called ``name``; a sheet of the usual size in ``unit`` where none is written."""
        nominal = dimension_of(self.nominal, f"{name} nominal thickness")
        measured = None if self.measured is None else dimension_of(self.measured, f"{name} measured thickness")
        if self.is_solid:
            species = "" if self.species is None else self.species.value
            return Solid(name, nominal, measured, species, "flat" if self.cut is None else self.cut.value)
        length, width = self._sheet(name, unit)
        kind = "plywood" if self.kind is None else self.kind.value
        along, across = (*(given.value for given in self.stiffness or ()), None, None)[:2]
        return Sheet(name, nominal, measured, length, width, kind, along, across, self.plies)

    def _sheet(self, name: str, unit: Unit) -> tuple[Dimension, Dimension]:
        names = (f"{name} sheet length", f"{name} sheet width")
        if self.sheet is not None:
            length, width = (dimension_of(size, word) for size, word in zip(self.sheet, names, strict=True))
        else:
            length, width = (
                default(read_length(size, unit), word, "", "our own choice")
                for size, word in zip(_SHEET[unit], names, strict=True)
            )
        return length, width


#: A price past this is a slip of the pen.
_DEAREST: Final = 1_000_000


def _price(given: object) -> Fraction:
    """An exact sum of at least zero."""
    value = given.value if isinstance(given, Spelled) else None
    if isinstance(value, bool) or not isinstance(value, (int, str)):
        raise BadInput("write a price here, as a number such as 62.50.")
    price = exact_fraction(value if isinstance(value, int) else str(value).replace("_", ""))
    if not 0 <= price <= _DEAREST:
        raise BadInput(f"{value} is out of range for a price; it must be from 0 to {_DEAREST}.")
    return price


Price = Annotated[Fraction, Checked(_price), WithJsonSchema({"type": ["string", "number"]})]
First = Annotated[Given[FirstCut], one_of({cut.value: cut for cut in FirstCut})]
Grain = Annotated[Given[str], one_of({"length": "length", "width": "width"})]


class SawingEntry(Entry):
    """How sheets are cut: which way first, whether a bank's fronts stay in one column, and which parts may be turned."""

    first_cut: First | None = None
    fronts_together: YesOrNo = True
    any_grain: Annotated[list[Name], Field(max_length=50)] | None = None

    def sawing(self) -> Sawing:
        """The same as the layouts read it."""
        names = frozenset(name.value for name in self.any_grain or ())
        first = Sawing().first_cut if self.first_cut is None else self.first_cut.value
        return Sawing(first, self.fronts_together, names)


class OffcutEntry(Entry):
    """A piece of sheet on hand, or a whole sheet; ``grain`` runs with its length or width, and is unknown where left out."""

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


class BoardEntry(Entry):
    """A board of solid wood on hand. ``defects`` are stretches to cut out, each its start and stop from one end."""

    stock: StockName
    length: Size
    width: Size
    defects: Annotated[list[Annotated[list[Gap], Field(min_length=2, max_length=2)]], Field(max_length=20)] | None = None
    count: Count = 1
    name: Name | None = None

    @model_validator(mode="after")
    def _defects_lie_on_it(self) -> "BoardEntry":
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


class PricesEntry(Entry):
    """What things cost: ``of`` by the name of a stock or of another line of the list of what to buy; ``slides`` for a pair."""

    currency: Name | None = None
    slides: Price | None = None
    of: Annotated[dict[str, Price], Field(max_length=200)] = Field(default_factory=dict)

    def prices(self) -> Prices:
        """The same as the list of what to buy reads it."""
        return Prices("" if self.currency is None else self.currency.value, self.of, self.slides)


def on_hand_of(
    sawing: SawingEntry | None,
    offcuts: Sequence[OffcutEntry] | None,
    boards: Sequence[BoardEntry] | None,
    prices: PricesEntry | None,
) -> OnHand:
    """What ``[sawing]``, ``[[offcut]]``, ``[[board]]`` and ``[prices]`` say together.

    Each is None where the job hasn't it: then nothing is on hand, nothing has a price, and sheets are sawn as usual.
    ``offcuts`` and ``boards`` are in their order; ``prices`` may name stocks and lines of the list of what to buy.
    """
    return OnHand(
        sheets=tuple(part.sheet(n) for n, part in enumerate(offcuts or (), start=1)),
        boards=tuple(part.board(n) for n, part in enumerate(boards or (), start=1)),
        prices=Prices() if prices is None else prices.prices(),
        sawing=Sawing() if sawing is None else sawing.sawing(),
    )
