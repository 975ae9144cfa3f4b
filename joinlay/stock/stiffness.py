"""How stiff and how heavy a stock is: figures for sheet goods, and solid wood from the species table."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final, TypeVar

from joinlay.errors import BadInput, nearest_names, quoted
from joinlay.lengths import Fraction, fraction_in
from joinlay.records import dataclass
from joinlay.stock.species import species_named
from joinlay.stock.stocks import Sheet

if TYPE_CHECKING:
    from joinlay.stock.stocks import Solid

__all__ = ["SHEET_DENSITY", "SHEET_MODULUS", "Stiffness", "density_of", "stiffness_of"]

_T = TypeVar("_T")

_BOOK: Final = "Wood Handbook 2010, table 12-1"

#: Softest and stiffest of each kind of sheet, GPa. Source: Wood Handbook 2010, table 12-1 (B6).
SHEET_MODULUS: Final[dict[str, tuple[Fraction, Fraction]]] = {
    "plywood": (fraction_in("6.96"), fraction_in("8.55")),
    "mdf": (fraction_in("3.59"), fraction_in("3.59")),
    "hardboard": (fraction_in("3.10"), fraction_in("5.52")),
    "particleboard": (fraction_in("2.76"), fraction_in("4.14")),
}

#: Kilograms a cubic metre, about the middle of what is sold. Source: common practice.
SHEET_DENSITY: Final[dict[str, Fraction]] = {
    "plywood": Fraction(620),
    "mdf": Fraction(750),
    "hardboard": Fraction(950),
    "particleboard": Fraction(680),
}

#: Stiffness across the grain as a share of that along it, by how the board is sawn. Lower than most hardwoods in the Wood
#: Handbook 2010, table 5-1 (from memory), so that a sag is not made to look small.
_ACROSS: Final = {"flat": Fraction(1, 20), "quarter": Fraction(1, 10)}


@dataclass(frozen=True, slots=True)
class Stiffness:
    """Modulus of elasticity in GPa ``along`` and ``across`` the (face) grain, and where it stands."""

    along: Fraction
    across: Fraction
    source: str


def stiffness_of(stock: Sheet | Solid) -> Stiffness:
    """How stiff ``stock`` is (CK-3). Without figures of its own, a sheet is taken as the softest of its kind, both ways alike.

    Raises BadInput for a kind of sheet or a species that isn't in the tables.
    """
    if isinstance(stock, Sheet):
        if stock.modulus_along is not None:
            across = stock.modulus_across if stock.modulus_across is not None else stock.modulus_along
            return Stiffness(stock.modulus_along, across, "as given")
        softest = _of_kind(SHEET_MODULUS, stock)[0]
        return Stiffness(softest, softest, _BOOK)
    wood = species_named(stock.species)
    return Stiffness(wood.modulus.value, wood.modulus.value * _ACROSS[stock.cut], wood.modulus.source)


def density_of(stock: Sheet | Solid) -> Fraction:
    """Kilograms a cubic metre of ``stock``; solid wood at 12 % moisture (CK-4). BadInput as ``stiffness_of``."""
    return _of_kind(SHEET_DENSITY, stock) if isinstance(stock, Sheet) else species_named(stock.species).density()


def _of_kind(table: dict[str, _T], sheet: Sheet) -> _T:
    if sheet.kind in table:
        return table[sheet.kind]
    near = nearest_names(sheet.kind, tuple(table))
    raise BadInput(f"{sheet.name}: no figures for a sheet of kind {quoted(sheet.kind)}; write {' or '.join(near or table)}.")
