"""A modest shop to fall back on, in inches and in millimetres: no brand's series, only what most benches have."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.lengths import GRADUATIONS, Unit, default, mm, read_length
from joinlay.shop.machines import usual_machines
from joinlay.shop.practice import usual_practice
from joinlay.shop.tools import Cutter, Saw, Shop, TenonStock

if TYPE_CHECKING:
    from joinlay.lengths import Dimension

__all__ = ["usual_shop"]

#: Diameter and reach of the straight cutters, as written in each unit.
_CUTTERS: Final = {
    Unit.INCH: (("1/8", "3/8"), ("3/16", "5/8"), ("1/4", "1"), ("3/8", "1"), ("1/2", "1 1/4"), ("3/4", "1 1/4")),
    Unit.MM: (("3", "10"), ("4", "14"), ("5", "16"), ("6", "25"), ("8", "25"), ("10", "30"), ("12", "32"), ("18", "32")),
}

#: Tenon strip most shops can mill, by thickness and deepest mortise in millimetres (A18: 6 mm in 3/4 in, 4 mm in 1/2 in).
_TENONS: Final = ((4, 20), (6, 28), (8, 35), (10, 40), (12, 45))

_KERF: Final = {Unit.INCH: "1/8", Unit.MM: "3"}
_RULE: Final = {Unit.INCH: "1/32 in", Unit.MM: "0.5 mm"}


def usual_shop(unit: Unit) -> Shop:
    """The default shop in ``unit``: its cutters, tenon strip, saw kerf and rule (1/32 in or 0.5 mm). Source: our own choice."""
    cutters = tuple(
        Cutter(_tool(f"{wide} cutter", wide, unit), _tool(f"reach of the {wide} cutter", reach, unit))
        for wide, reach in _CUTTERS[unit]
    )
    tenons = tuple(
        TenonStock(
            default(mm(thick), f"{thick} mm tenon strip", "", "our own choice"),
            reach=default(mm(reach), f"deepest {thick} mm mortise", "", "our own choice"),
        )
        for thick, reach in _TENONS
    )
    saw = Saw(_tool("saw kerf", _KERF[unit], unit))
    return Shop(cutters, tenons, saw, GRADUATIONS[_RULE[unit]], usual_practice(unit), usual_machines(unit))


def _tool(name: str, spelled: str, unit: Unit) -> Dimension:
    return default(read_length(spelled, unit), name, "", "our own choice")
