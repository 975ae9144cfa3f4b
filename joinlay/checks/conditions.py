"""What the checks assume about the room, the load and the maker's hand, and how their estimates are shown."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Final

from joinlay.errors import BadInput
from joinlay.lengths import Length, Unit, default, read_length
from joinlay.stock import usual_seasons

if TYPE_CHECKING:
    from joinlay.lengths import Dimension, Graduation
    from joinlay.stock import Seasons

__all__ = ["GRAVITY", "USUAL_LOAD", "Conditions", "estimate", "usual_conditions", "weight"]

#: Weight of a kilogram in newtons.
GRAVITY: Final = 9.80665
#: Load on a drawer bottom in pascals: 15 lb/ft2. Source: ANSI/KCMA A161.1 (check value D8).
USUAL_LOAD: Final = Fraction(718)

_CUTTING: Final = {Unit.INCH: "1/64", Unit.MM: "0.4"}
_KG_PER_POUND: Final = 0.45359237


@dataclass(frozen=True, slots=True)
class Conditions:
    """The circumstances the checks judge by.

    ``seasons`` is the air the piece is made in and will stand in, ``load`` what lies on a drawer bottom, in pascals, spread evenly.
    ``cutting_tolerance`` is how far any cut strays either way. ``is_anchored`` is True where the piece will be fixed to the wall.
    """

    seasons: Seasons
    load: Fraction
    cutting_tolerance: Dimension
    is_anchored: bool = False

    def __post_init__(self) -> None:
        """Refuse a load or a tolerance under nothing."""
        if self.load < 0:
            raise BadInput(f"a load of {self.load} Pa was given; write 0 or more (15 lb/ft2 is 718 Pa).")
        if self.cutting_tolerance.mm < 0:
            raise BadInput(f"a cutting tolerance of {self.cutting_tolerance.mm} mm was given; write 0 or more.")


def usual_conditions(unit: Unit) -> Conditions:
    """A heated house, 15 lb/ft2 (718 Pa) on each bottom, and cuts within 1/64 in or 0.4 mm (CK-1, CK-3, CK-6)."""
    tolerance = default(read_length(_CUTTING[unit], unit), "cutting tolerance", "CK-1", "our own choice")
    return Conditions(usual_seasons(), USUAL_LOAD, tolerance)


def estimate(value: float, rule: Graduation) -> Length:
    """``value`` in mm as a length to show: on a mark of ``rule`` where it is worth two or more, else to 0.01 mm.

    Physics is no better than that, and a row of decimals would only look so. How it is shown: no rule.
    """
    fine = Length(Fraction(round(value * 100), 100))
    return rule.round(fine) if abs(fine) >= 2 * rule.division else fine


def weight(kilograms: float, rule: Graduation) -> str:
    """``kilograms`` as the maker weighs: pounds where the rule is in inches, else kilograms; about two figures, no more are known (CK-4)."""
    number, unit = (kilograms / _KG_PER_POUND, "lb") if rule.unit is Unit.INCH else (kilograms, "kg")
    if round(number) >= 100:
        return f"{round(number, -1):.0f} {unit}"
    return f"{number:.0f} {unit}" if round(number, 1) >= 10 else f"{number:.1f} {unit}"
