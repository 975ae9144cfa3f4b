"""The species table: how much each wood moves, how stiff and how heavy it is, with the source of every figure."""

from __future__ import annotations

from typing import Final

from joinlay.errors import BadInput, nearest_names, quoted
from joinlay.lengths import Fraction, fraction_in
from joinlay.records import dataclass

__all__ = ["ALSO_CALLED", "SPECIES", "Figure", "Species", "species_named"]

_MOVES: Final = "Wood Handbook 2010, table 13-5"
_SHRINKS: Final = "Wood Handbook 2010, table 4-3"
_STRENGTH: Final = "Wood Handbook 2010, table 5-3"


@dataclass(frozen=True, slots=True)
class Figure:
    """A number out of a handbook, exactly as it is printed there, and where it stands."""

    value: Fraction
    source: str


@dataclass(frozen=True, slots=True)
class Species:
    """One wood.

    ``radial`` and ``tangential`` are its change coefficients: the share of its width it gains for each per cent of moisture,
    quarter-sawn and flat-sawn, good from 6 to 14 % moisture. ``radial_shrinkage`` and ``tangential_shrinkage`` are per cent of
    the green size, green to ovendry. ``modulus`` is its stiffness along the grain in GPa and ``gravity`` its specific gravity
    (ovendry mass), both at 12 % moisture.
    """

    name: str
    radial: Figure
    tangential: Figure
    radial_shrinkage: Figure
    tangential_shrinkage: Figure
    modulus: Figure
    gravity: Figure

    @property
    def is_softwood(self) -> bool:
        """True for a conifer, whatever its hardness (PT-4)."""
        return self.name in _CONIFERS

    def coefficient(self, cut: str) -> Figure:
        """The change coefficient across a board whose ``cut`` is ``flat`` or ``quarter`` (CK-6). BadInput for another word."""
        if cut not in ("flat", "quarter"):
            raise BadInput(f"cut is {quoted(cut)}; write 'flat' or 'quarter'.")
        return self.tangential if cut == "flat" else self.radial

    def density(self, moisture: Fraction = Fraction(12)) -> Fraction:
        """Kilograms a cubic metre at ``moisture`` per cent: 1000 G (1 + M/100). Source: Wood Handbook ch. 4 (B8, from memory)."""
        return 1000 * self.gravity.value * (1 + moisture / 100)


#: Name; change coefficients radial, tangential; shrinkage radial, tangential (%); stiffness (GPa); specific gravity.
#: A figure marked * was recalled and not read again in the book.
_ROWS: Final = (
    ("white ash", "0.00169", "0.00274", "4.9", "7.8", "12.0", "0.60"),
    ("American basswood", "0.00230", "0.00330", "6.6", "9.3", "10.1", "0.37"),
    ("American beech", "0.00190", "0.00431", "5.5", "11.9", "11.9", "0.64"),
    ("yellow birch", "0.00256", "0.00338", "7.3", "9.5", "13.9", "0.62"),
    ("paper birch", "0.00219", "0.00304", "6.3", "8.6", "11.0*", "0.55*"),
    ("black cherry", "0.00126", "0.00248", "3.7", "7.1", "10.3", "0.50"),
    ("sugar maple", "0.00165", "0.00353", "4.8", "9.9", "12.6", "0.63"),
    ("red maple", "0.00137", "0.00289", "4.0*", "8.2*", "11.3", "0.54"),
    ("silver maple", "0.00102", "0.00252", "3.0*", "7.2*", "7.9*", "0.47*"),
    ("bigleaf maple", "0.00126", "0.00248", "3.7*", "7.1*", "10.0*", "0.48*"),
    ("red oak", "0.00158", "0.00369", "4.0*", "8.6*", "12.5*", "0.63*"),
    ("white oak", "0.00180", "0.00365", "5.6*", "10.5*", "12.3*", "0.68*"),
    ("black walnut", "0.00190", "0.00274", "5.5", "7.8", "11.6*", "0.55*"),
    ("red alder", "0.00151", "0.00256", "4.4", "7.3", "9.5*", "0.41*"),
    ("pecan hickory", "0.00169", "0.00315", "4.9*", "8.9*", "11.9*", "0.66*"),
    ("sycamore", "0.00172", "0.00296", "5.0*", "8.4*", "9.8*", "0.49*"),
    ("yellow-poplar", "0.00158", "0.00289*", "4.6", "8.2", "10.9*", "0.42*"),
    ("white fir", "0.00112", "0.00245*", "3.3", "7.0", "10.3*", "0.39*"),
    ("Douglas-fir", "0.00165*", "0.00267", "4.8", "7.6", "13.4*", "0.48*"),
    ("eastern white pine", "0.00071", "0.00212*", "2.1*", "6.1*", "8.5*", "0.35*"),
)

#: Those that have needles.
_CONIFERS: Final = ("white fir", "Douglas-fir", "eastern white pine")

#: What woods are called at the bench, and the name they have in the table.
ALSO_CALLED: Final = {
    "ash": "white ash",
    "basswood": "American basswood",
    "beech": "American beech",
    "birch": "yellow birch",
    "cherry": "black cherry",
    "hard maple": "sugar maple",
    "rock maple": "sugar maple",
    "soft maple": "red maple",
    "walnut": "black walnut",
    "alder": "red alder",
    "pecan": "pecan hickory",
    "poplar": "yellow-poplar",
    "tulip poplar": "yellow-poplar",
    "tulipwood": "yellow-poplar",
    "fir": "white fir",
    "white pine": "eastern white pine",
}


def _figure(text: str, source: str) -> Figure:
    recalled = text.endswith("*")
    return Figure(fraction_in(text.rstrip("*")), f"{source}, from memory" if recalled else source)


def _species(name: str, *figures: str) -> Species:
    sources = (_MOVES, _MOVES, _SHRINKS, _SHRINKS, _STRENGTH, _STRENGTH)
    return Species(name, *(_figure(text, source) for text, source in zip(figures, sources, strict=True)))


#: Every wood in the table, by its name. The oaks are the commercial mixtures for movement and the northern red and the
#: white oak for stiffness and weight; Douglas-fir is the coast type.
SPECIES: Final[dict[str, Species]] = {row[0]: _species(*row) for row in _ROWS}


def _folded(name: str) -> str:
    return " ".join(name.casefold().replace("-", " ").split())


_BY_FOLDED: Final = {_folded(name): made for name, made in SPECIES.items()} | {
    _folded(called): SPECIES[name] for called, name in ALSO_CALLED.items()
}


def species_named(name: str) -> Species:
    """The wood called ``name``, by its table name or a bench name (``soft maple``); case and hyphens don't matter.

    Raises BadInput with the nearest names where the table has no such wood.
    """
    found = _BY_FOLDED.get(_folded(name))
    if found is not None:
        return found
    near = nearest_names(_folded(name), tuple(_BY_FOLDED))
    known = tuple(dict.fromkeys(_BY_FOLDED[n].name for n in near))
    raise BadInput(
        f"there is no wood called {quoted(name)} in the species table; "
        + (f"nearest: {', '.join(known)}." if known else f"it has {', '.join(SPECIES)}.")
    )
