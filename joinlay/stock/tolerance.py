"""How far the thickness of a stock may stray: by the standard it is sold to, or by callipers where it was measured."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Final

from joinlay.errors import BadInput
from joinlay.lengths import Length, inches, mm, plain_mm
from joinlay.stock.sheet import Sheet, sanded_plywood_limits

if TYPE_CHECKING:
    from joinlay.stock.solid import Solid

__all__ = ["PANEL_LABELS", "Spread", "american_plywood_limits", "thickness_spread"]

#: True thickness printed on a panel of each category. Source: US panel categories (check value D3).
PANEL_LABELS: Final[dict[Length, Length]] = {
    inches("1/4"): inches("0.225"),
    inches("1/2"): inches("0.483"),
    inches("23/32"): inches("0.703"),
    inches("3/4"): inches("0.734"),
}

#: What a measured sheet or planed board still strays from place to place. Source: common practice.
_MEASURED: Final = mm("0.1")
#: Pressed boards keep closer than plywood. Source: common practice.
_PRESSED: Final = mm("0.3")
#: Solid wood that nobody has measured: a thickness-planer's setting. Source: common practice.
_PLANED: Final = mm("0.4")


@dataclass(frozen=True, slots=True)
class Spread:
    """The thinnest and thickest that a stock may turn out, and who says so."""

    thinnest: Length
    thickest: Length
    source: str


def american_plywood_limits(thickness: Length, *, sanded: bool = True) -> tuple[Length, Length]:
    """The thinnest and thickest plywood of ``thickness`` may be: 1/64 in either way sanded, 1/32 in unsanded.

    Source: PS 1-19, panels to 3/4 in (check value D2). Raises BadInput for a thicker one.
    """
    if not mm(0) < thickness <= inches("3/4"):
        raise BadInput(f"PS 1 gives these limits up to 3/4 in; {plain_mm(thickness)} was asked.")
    either_way = inches("1/64") if sanded else inches("1/32")
    return thickness - either_way, thickness + either_way


def thickness_spread(stock: Sheet | Solid) -> Spread:
    """Between which thicknesses ``stock`` lies (CK-1): about what was measured, or what its standard lets a nominal sheet be."""
    if stock.measured is not None:
        return _about(stock.measured, _MEASURED, "as measured; common practice")
    if not isinstance(stock, Sheet):
        return _about(stock.nominal, _PLANED, "common practice")
    if stock.kind != "plywood":
        return _about(stock.nominal, _PRESSED, "common practice")
    return _plywood(stock.nominal)


def _about(thickness: Length, either_way: Length, source: str) -> Spread:
    plain = Length(thickness.mm)
    return Spread(plain - either_way, plain + either_way, source)


def _plywood(nominal: Length) -> Spread:
    plain = Length(nominal.mm)
    if (plain.inches * 32).denominator == 1 and plain <= inches("3/4"):
        # Sold in inches: the label may promise less than the name does.
        thinnest, _ = american_plywood_limits(PANEL_LABELS.get(plain, plain))
        return Spread(thinnest, american_plywood_limits(plain)[1], "PS 1-19")
    if mm(3) <= plain <= mm(25):
        return Spread(*sanded_plywood_limits(plain), "EN 315")
    return _about(plain, plain * Fraction(1, 20), "common practice")
