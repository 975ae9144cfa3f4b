"""What the checks assume about the room, the load and how the piece stands, and how their estimates are shown."""

from __future__ import annotations

from dataclasses import field
from enum import Enum
from typing import TYPE_CHECKING, Final

from joinlay.errors import BadInput
from joinlay.lengths import MM_PER_INCH, ZERO, Fine, Fraction, Length, Unit
from joinlay.records import dataclass
from joinlay.stock import usual_seasons

if TYPE_CHECKING:
    from collections.abc import Mapping

    from joinlay.lengths import Graduation
    from joinlay.stock import Seasons

__all__ = ["GRAVITY", "USUAL_LOAD", "Conditions", "Finish", "Load", "Stands", "area", "estimate", "usual_conditions", "weight"]

#: Weight of a kilogram in newtons.
GRAVITY: Final = 9.80665
_KG_PER_POUND: Final = 0.45359237


class Stands(Enum):
    """How the piece will stand."""

    FREE = "free"
    ANCHORED = "anchored"
    BUILT_IN = "built in"


class Finish(Enum):
    """What the piece is finished with, by what it leaves on the wood (PT-11)."""

    OIL = "oil"
    WAX = "wax"
    FILM = "film"  #: lacquer, varnish, shellac, paint: whatever builds up

    @property
    def builds(self) -> bool:
        """True where it takes room from a gap."""
        return self is Finish.FILM


@dataclass(frozen=True, slots=True)
class Load:
    """What lies on the bottom of a drawer, spread evenly.

    ``amount`` is in pascals, or in kilograms for the whole drawer where ``is_weight``. ``spelled`` is how the maker wrote it, ''
    where nobody did.
    """

    amount: Fraction
    is_weight: bool = False
    spelled: str = ""

    def __post_init__(self) -> None:
        """Refuse a negative load."""
        if self.amount < 0:
            unit = "kg" if self.is_weight else "Pa"
            raise BadInput(f"a load of {self.amount} {unit} was given; write 0 or more (15 lb/ft2 is 718 Pa).")

    def pressure(self, area: Fraction) -> float:
        """Pascals on a bottom of ``area`` square mm (CK-3)."""
        return float(self.amount) * GRAVITY * 10**6 / float(area) if self.is_weight else float(self.amount)


@dataclass(frozen=True, slots=True)
class Conditions:
    """The circumstances the checks judge by.

    ``seasons`` is the air the piece is made in and will stand in. ``load`` lies on every drawer's bottom but those that
    ``own_loads`` names; on each shelf of an open bay lies what ``shelf_loads`` has by the bay's number, else the usual load.
    ``stands`` says how the piece stands, and ``feet_back`` how far its front feet stand behind its foremost point. ``finish`` is
    what it is finished with, None where nobody said. ``written`` says in which file and line the maker wrote a figure, by its
    name; those that aren't there are the usual ones.
    """

    seasons: Seasons
    load: Load
    own_loads: Mapping[str, Load] = field(default_factory=dict, hash=False)
    shelf_loads: Mapping[int, Load] = field(default_factory=dict, hash=False)
    stands: Stands = Stands.FREE
    feet_back: Length = ZERO
    written: Mapping[str, str] = field(default_factory=dict, hash=False)
    finish: Finish | None = None

    def load_of(self, drawer: str) -> Load:
        """What lies in the drawer of that name (CK-3)."""
        return self.own_loads.get(drawer, self.load)

    def load_on_shelf(self, bay: int) -> Load:
        """What lies on each shelf of the open bay of that number (SH-1)."""
        return self.shelf_loads.get(bay, USUAL_LOAD)


#: Load on a drawer bottom: 15 lb/ft2 in pascals. Source: ANSI/KCMA A161.1 (check value D8).
USUAL_LOAD: Final = Load(Fraction(718))


def usual_conditions() -> Conditions:
    """A heated house, 15 lb/ft2 (718 Pa) on each bottom, and a piece that stands free (CK-3, CK-5, CK-6)."""
    return Conditions(usual_seasons(), USUAL_LOAD)


def estimate(value: float, rule: Graduation) -> Fine:
    """``value`` in mm as a length to tell: on a mark of ``rule`` where it is worth two or more, else to 0.01 mm.

    Physics is no better than that, and a row of decimals would only look so. How it is shown: no rule.
    """
    fine = Length(Fraction(round(value * 100), 100))
    return Fine(rule.round(fine) if abs(fine) >= 2 * rule.division else fine)


def area(square_mm: float, rule: Graduation) -> str:
    """``square_mm`` as the maker reckons: square inches or square centimetres, to two figures."""
    number, unit = (square_mm / float(MM_PER_INCH) ** 2, "sq in") if rule.unit is Unit.INCH else (square_mm / 100, "cm2")
    return f"{number:.2g} {unit}" if number < 10 else f"{number:.0f} {unit}"


def weight(kilograms: float, rule: Graduation) -> str:
    """``kilograms`` as the maker weighs: pounds where the rule is in inches, else kilograms; about two figures, no more are known
    (CK-4).
    """
    number, unit = (kilograms / _KG_PER_POUND, "lb") if rule.unit is Unit.INCH else (kilograms, "kg")
    if not number:
        return f"0 {unit}"
    if round(number) >= 100:
        return f"{round(number, -1):.0f} {unit}"
    return f"{number:.0f} {unit}" if round(number, 1) >= 10 else f"{number:.1f} {unit}"
