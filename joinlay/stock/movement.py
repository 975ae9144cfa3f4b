"""Wood movement: how damp wood gets on a given day, and how much wider that makes a part."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Final, Union

from joinlay.errors import BadInput
from joinlay.lengths import NOTHING, Fraction, chosen, decimal_text
from joinlay.records import dataclass
from joinlay.stock.species import species_named

if TYPE_CHECKING:
    from joinlay.lengths import Dimension, Length
    from joinlay.stock.stocks import Solid

__all__ = [
    "MOVEMENT_SOURCE",
    "Air",
    "Day",
    "Metered",
    "Seasons",
    "equilibrium_moisture",
    "in_range",
    "movement",
    "movement_of",
    "usual_seasons",
    "year_of",
]

MOVEMENT_SOURCE: Final = "Wood Handbook 2010, equation 13-2"

#: The change coefficients hold in this range of moisture, in per cent (table 13-5).
_RANGE: Final = (Fraction(6), Fraction(14))
#: Moisture of wood that has been seasoned, in per cent. Source: common practice.
_SEASONED: Final = (Fraction(3), Fraction(25))


@lru_cache(maxsize=64)
def equilibrium_moisture(humidity: float, celsius: float) -> float:
    """The moisture, in per cent, that wood settles at in air of ``humidity`` (0 to 1) at ``celsius`` degrees.

    Source: Wood Handbook 2010, equation 4-5 (check values B4 and B5). Raises BadInput outside 0 to 1 and -20 to 60 degrees.
    """
    if not 0 <= humidity <= 1:
        raise BadInput(f"a humidity of {humidity} was given; it lies from 0 to 1 (45 % is 0.45).")
    if not -20 <= celsius <= 60:
        raise BadInput(f"{celsius} degrees Celsius were given; the equation serves from -20 to 60.")
    t, h = celsius, humidity
    w = 349 + 1.29 * t + 0.0135 * t**2
    k = 0.805 + 0.000736 * t - 0.00000273 * t**2
    k1 = 6.27 - 0.00938 * t - 0.000303 * t**2
    k2 = 1.91 + 0.0407 * t - 0.000293 * t**2
    kh = k * h
    bound = (k1 * kh + 2 * k1 * k2 * kh**2) / (1 + k1 * kh + k1 * k2 * kh**2)
    return 1800 / w * (kh / (1 - kh) + bound)


@dataclass(frozen=True, slots=True)
class Day:
    """The air of a room: ``celsius`` degrees and ``humidity`` as a share (45 % is 9/20)."""

    celsius: Fraction
    humidity: Fraction

    def __post_init__(self) -> None:
        """Refuse air that the equation does not serve."""
        equilibrium_moisture(float(self.humidity), float(self.celsius))

    @property
    def moisture(self) -> Fraction:
        """The moisture wood settles at on this day, in per cent to two places (CK-6)."""
        return Fraction(round(100 * equilibrium_moisture(float(self.humidity), float(self.celsius))), 100)


@dataclass(frozen=True, slots=True)
class Metered:
    """A day by the ``moisture`` that a meter shows in the wood, in per cent, where that is known better than the air (CK-6)."""

    moisture: Fraction

    def __post_init__(self) -> None:
        """Refuse wood that is no longer seasoned."""
        if not _SEASONED[0] <= self.moisture <= _SEASONED[1]:
            raise BadInput(
                f"wood of {decimal_text(self.moisture, 1)} % moisture was given; indoors it lies from 3 to 25 %, "
                "and mostly from 6 to 14 %."
            )


#: A day, by its air or by the wood itself.
Air = Union[Day, Metered]


@dataclass(frozen=True, slots=True)
class Seasons:
    """The air where the piece will stand, on its ``driest`` and ``dampest`` days, and in the ``workshop`` when it is made."""

    driest: Air
    dampest: Air
    workshop: Air

    def __post_init__(self) -> None:
        """Refuse a driest day that is damper than the dampest."""
        if self.driest.moisture > self.dampest.moisture:
            raise BadInput(
                f"wood settles at {decimal_text(self.driest.moisture, 1)} % on the driest day and "
                f"{decimal_text(self.dampest.moisture, 1)} % on the dampest: are the two the wrong way round?"
            )


def usual_seasons() -> Seasons:
    """A heated house: driest at 21 C and 30 %, dampest at 24 C and 65 %, a workshop at 20 C and 45 % (CK-6; our own choice)."""
    return Seasons(
        Day(Fraction(21), Fraction(30, 100)), Day(Fraction(24), Fraction(65, 100)), Day(Fraction(20), Fraction(45, 100))
    )


def movement(width: Length, coefficient: Fraction, before: Fraction, after: Fraction) -> Dimension:
    """How much wider ``width`` gets from ``before`` to ``after`` per cent of moisture: D C (MF - MI); negative when it dries.

    ``width`` is the size across the grain at ``before``; ``coefficient`` the change coefficient for one per cent. Exact. Rule
    CK-6; source: Wood Handbook 2010, equation 13-2. The coefficients hold from 6 to 14 %.
    """
    grown = width * (coefficient * (after - before))
    by = decimal_text(abs(after - before), 2)
    because = f"{decimal_text(coefficient, 5)} x {by} % " + ("drier, of" if after < before else "of")
    return chosen(grown, because, width).named("wood movement", "CK-6", MOVEMENT_SOURCE)


def movement_of(stock: Solid, width: Length, before: Air, after: Air) -> Dimension:
    """How much wider a part of ``stock`` gets from the day ``before`` to the day ``after``; negative when it dries (CK-6).

    ``width`` is its size across the grain. Raises BadInput where the species isn't in the table. Where a day lies outside the 6
    to 14 % that the coefficients serve, the nearest coefficient is all there is and it is used.
    """
    coefficient = species_named(stock.species).coefficient(stock.cut)
    return movement(width, coefficient.value, before.moisture, after.moisture)


def year_of(stock: Solid, width: Length, seasons: Seasons) -> tuple[Dimension, Dimension]:
    """How much narrower ``width`` of ``stock`` gets by the driest day, and how much wider by the dampest (CK-6).

    Nothing, not less, where a shop is drier or damper than the room ever is. Raises as ``movement_of`` does.
    """
    dry, damp = (movement_of(stock, width, seasons.workshop, day) for day in (seasons.driest, seasons.dampest))
    return abs(dry) if dry.mm < 0 else NOTHING, damp if damp.mm > 0 else NOTHING


def in_range(day: Air) -> bool:
    """True where wood on this day lies in the 6 to 14 % of moisture that the change coefficients serve."""
    return _RANGE[0] <= day.moisture <= _RANGE[1]
