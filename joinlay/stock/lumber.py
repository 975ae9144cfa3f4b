"""Solid wood as it is sold: sawn to a few thicknesses, each of which planes to somewhat less (CL-1)."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.lengths import Dimension, Length, Unit, default, inches, mm
from joinlay.records import dataclass

if TYPE_CHECKING:
    from joinlay.stock.stocks import Solid

__all__ = ["LUMBER_IN_INCHES", "LUMBER_IN_MM", "Lumber", "lumber_for"]

#: Hardwood by the quarter inch: its name, rough thickness, and thickness once planed both sides, in inches. Source: NHLA (D6).
LUMBER_IN_INCHES: Final = (("4/4", "1", "13/16"), ("5/4", "1 1/4", "1 1/16"), ("6/4", "1 1/2", "1 5/16"), ("8/4", "2", "1 3/4"))

#: Sawn hardwood thicknesses in mm. Source: EN 1313-2, from memory.
LUMBER_IN_MM: Final = ("20", "27", "32", "40", "50", "60", "65", "70", "80", "100")

#: What planing both faces of a sawn board takes, in mm. Source: our own choice (NHLA's figures take 3/16 in, 4.8 mm).
_PLANED_OFF: Final = mm(5)


@dataclass(frozen=True, slots=True)
class Lumber:
    """Solid wood as it is sold: ``name`` to ask for, ``thickness`` as sawn; not ``is_listed``: none sold is thick enough."""

    name: str
    thickness: Dimension
    is_listed: bool = True


def lumber_for(stock: Solid, unit: Unit) -> Lumber:
    """The lumber that ``stock`` is planed from, as it is sold where the job's ``unit`` is used (D6; CL-1).

    Where the job gives a nominal thickness over the planed one, that is what was bought. Else it is the thinnest sold that still
    planes to the stock's thickness: by the quarter inch after NHLA, or in millimetres after EN 1313-2 (from memory) less 5 mm for
    planing.
    """
    if stock.measured is not None and stock.nominal > stock.measured:
        return Lumber(_known_name(stock.nominal, unit), stock.nominal)
    for name, rough, planed in _sold(unit):
        if planed >= stock.thickness:
            source = "NHLA" if unit is Unit.INCH else "EN 1313-2, from memory"
            return Lumber(name, default(rough, f"{stock.name} sawn thickness", "CL-1", source))
    return Lumber("", stock.thickness, is_listed=False)


def _sold(unit: Unit) -> list[tuple[str, Length, Length]]:
    if unit is Unit.INCH:
        return [(name, inches(rough), inches(planed)) for name, rough, planed in LUMBER_IN_INCHES]
    return [(f"{rough} mm", mm(rough), mm(rough) - _PLANED_OFF) for rough in LUMBER_IN_MM]


def _known_name(thickness: Length, unit: Unit) -> str:
    return next((name for name, rough, _ in _sold(unit) if rough == thickness), "")
