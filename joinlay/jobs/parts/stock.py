"""``[stock.NAME]``: what the parts are made of, with the thickness it is sold as and the one callipers say."""

from typing import Annotated, Final

from pydantic import Field, PlainValidator, model_validator

from joinlay.errors import BadInput
from joinlay.jobs.parts.amounts import Stiff
from joinlay.jobs.parts.given import Given, Part, Size, checked_name, dimension_of, one_of
from joinlay.lengths import Dimension, Fraction, Unit, default, read_length
from joinlay.stock import SHEET_KINDS, Sheet, Solid, Stock, species_named

__all__ = ["StockPart"]

_SOLID: Final = "solid"

#: Length and width of a sheet where the job names none.
_SHEET: Final = {Unit.INCH: ("96", "48"), Unit.MM: ("2440", "1220")}

#: Measured outside these shares of nominal is a wrong unit or a slip, not a thin sheet: 4/4 solid wood is sold at 13/16, two-inch at 1 1/2.
_LEAST_SHARE, _MOST_SHARE = Fraction(1, 2), Fraction(3, 2)

Kind = Annotated[Given[str], PlainValidator(one_of({kind: kind for kind in (*SHEET_KINDS, _SOLID)}))]


def _species(given: object) -> Given[str]:
    """A wood by its table name or a bench name; the table's own name is kept."""
    found = checked_name(given)
    return Given(species_named(found.value).name, found.spelled, found.origin)


Wood = Annotated[Given[str], PlainValidator(_species)]
Sawn = Annotated[Given[str], PlainValidator(one_of({"flat": "flat", "quarter": "quarter"}))]


class StockPart(Part):
    """One stock. ``sheet`` is length and width of a whole sheet; ``species`` and ``cut`` (flat or quarter) are for solid wood.

    ``stiffness`` is a sheet's along its face grain and, where it is another, across it.
    """

    kind: Kind | None = None
    nominal: Size
    measured: Size | None = None
    sheet: Annotated[list[Size], Field(min_length=2, max_length=2)] | None = None
    species: Wood | None = None
    cut: Sawn | None = None
    stiffness: Annotated[list[Stiff], Field(min_length=1, max_length=2)] | None = None

    @model_validator(mode="after")
    def _fits_together(self) -> "StockPart":
        if self.is_solid and self.sheet is not None:
            raise BadInput('sheet is for sheet goods; solid wood has none, so leave it out or change kind = "solid".')
        if self.is_solid and self.species is None:
            raise BadInput('solid wood needs its species, such as species = "black cherry".')
        if not self.is_solid and (self.species or self.cut):
            raise BadInput('species and cut are for solid wood; write kind = "solid", or leave them out.')
        if self.is_solid and self.stiffness is not None:
            raise BadInput("the stiffness of solid wood follows from its species; leave stiffness out.")
        if self.measured is not None:
            share = self.measured.value / self.nominal.value
            if not _LEAST_SHARE <= share <= _MOST_SHARE:
                raise BadInput(
                    f"measured {self.measured.spelled} is too far from nominal {self.nominal.spelled} to be the same stock; "
                    "check both, and the unit."
                )
        return self

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
        stiffness = [given.value for given in self.stiffness or ()]
        return Sheet(name, nominal, measured, length, width, kind, *stiffness)

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
