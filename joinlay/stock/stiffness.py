"""How stiff and how heavy a stock is: figures for sheet goods, and solid wood from the species table."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final, TypeVar

from joinlay.errors import BadInput, nearest_names, quoted
from joinlay.lengths import Fraction, fraction_in, mm
from joinlay.records import dataclass
from joinlay.stock.species import species_named
from joinlay.stock.stocks import Sheet

if TYPE_CHECKING:
    from joinlay.stock.stocks import Solid

__all__ = ["SHEET_DENSITY", "SHEET_MODULUS", "Stiffness", "across_share", "density_of", "stiffness_of", "taken_as_three_ply"]

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

#: Plywood up to this is taken as three-ply where nobody has counted: PS 1 lets a 1/4 in panel have three plies, and what is sold
#: at 3 and 4 mm has no more. Source: PS 1 and common practice, from memory.
_THIN_PLYWOOD: Final = mm(7)
_THREE: Final = 3


@dataclass(frozen=True, slots=True)
class Stiffness:
    """Modulus of elasticity in GPa ``along`` and ``across`` the (face) grain, and where it stands."""

    along: Fraction
    across: Fraction
    source: str


def stiffness_of(stock: Sheet | Solid) -> Stiffness:
    """How stiff ``stock`` is (CK-3). Without figures of its own, a sheet is taken as the softest of its kind.

    Plywood whose plies are counted, and thin plywood, which is taken as three-ply, is the weaker across its face grain
    (``across_share``); any other sheet is taken as stiff both ways alike. Raises BadInput for a kind of sheet or a species that
    isn't in the tables.
    """
    if isinstance(stock, Sheet):
        if stock.modulus_along is not None:
            across = stock.modulus_across if stock.modulus_across is not None else stock.modulus_along
            return Stiffness(stock.modulus_along, across, "as given")
        softest = _of_kind(SHEET_MODULUS, stock)[0]
        plies = _THREE if taken_as_three_ply(stock) else stock.plies if stock.kind == "plywood" else None
        return Stiffness(softest, softest if plies is None else softest * across_share(plies), _BOOK)
    wood = species_named(stock.species)
    return Stiffness(wood.modulus.value, wood.modulus.value * _ACROSS[stock.cut], wood.modulus.source)


def taken_as_three_ply(sheet: Sheet) -> bool:
    """True for thin plywood of which neither stiffness nor plies are known: it is judged as the weakest that is sold so thin
    (CK-3).
    """
    return sheet.kind == "plywood" and sheet.plies is None and sheet.modulus_along is None and sheet.thickness <= _THIN_PLYWOOD


def across_share(plies: int) -> Fraction:
    """How stiff plywood of so many equal ``plies`` is in bending across its face grain, as a share of that along it (CK-3).

    Every other ply runs across, and each counts with the cube of its distance from the middle: 0.09 of three plies, 0.31 of five,
    0.45 of seven. ``plies`` is odd, 3 or more. Source: theory of layered beams, plies as stiff across the grain as flat-sawn
    wood.
    """
    runs_along = Fraction(0)
    for outer in range(plies, 0, -2):
        # The outermost two run along the face grain, the next two across it.
        shell = outer**3 - max(outer - 2, 0) ** 3
        runs_along += shell if (plies - outer) % 4 == 0 else 0
    along, soft = runs_along / plies**3, _ACROSS["flat"]
    return (1 - along + along * soft) / (along + (1 - along) * soft)


def density_of(stock: Sheet | Solid) -> Fraction:
    """Kilograms a cubic metre of ``stock``; solid wood at 12 % moisture (CK-4). BadInput as ``stiffness_of``."""
    return _of_kind(SHEET_DENSITY, stock) if isinstance(stock, Sheet) else species_named(stock.species).density()


def _of_kind(table: dict[str, _T], sheet: Sheet) -> _T:
    if sheet.kind in table:
        return table[sheet.kind]
    near = nearest_names(sheet.kind, tuple(table))
    raise BadInput(f"{sheet.name}: no figures for a sheet of kind {quoted(sheet.kind)}; write {' or '.join(near or table)}.")
