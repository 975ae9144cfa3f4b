"""The scales a drawing of the piece may have (ISO 5455, and halves for an inch rule)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from joinlay.lengths import Fraction, Unit

__all__ = ["PLAIN", "TRUE", "Scale", "scales_of"]


@dataclass(frozen=True, slots=True)
class Scale:
    """``over`` mm on paper for ``under`` mm of wood."""

    over: int
    under: int

    @property
    def factor(self) -> Fraction:
        """What a length of wood is multiplied by to be drawn."""
        return Fraction(self.over, self.under)

    @property
    def text(self) -> str:
        """``1:5``."""
        return f"{self.over}:{self.under}"


TRUE: Final = Scale(1, 1)

#: From true size down, as ISO 5455 has them.
_METRIC: Final = (TRUE, *(Scale(1, n) for n in (2, 5, 10, 20, 50, 100, 200, 500, 1000)))

#: Full, half, quarter and so on: what an inch rule measures at once (common practice; ASME Y14.1).
_HALVED: Final = tuple(Scale(1, 2**n) for n in range(11))

#: One to any whole number, for a small picture that nobody measures.
PLAIN: Final = tuple(Scale(1, n) for n in (*range(1, 200), *range(200, 2001, 100)))


def scales_of(unit: Unit) -> tuple[Scale, ...]:
    """The scales that are usual with a rule in ``unit``, from the largest. ISO 5455; in inches common practice."""
    return _HALVED if unit is Unit.INCH else _METRIC
