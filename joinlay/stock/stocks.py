"""What a part may be made of: sheet goods and solid wood, and how far their thickness may stray.

Both are sold by a nominal thickness that must be measured. Where it isn't, the standard a sheet is sold to says between which
limits it lies; where it is, callipers do.
"""

from __future__ import annotations

from typing import Final, Union

from joinlay.errors import BadInput, nearest_names, quoted
from joinlay.lengths import BadSize, Dimension, Fraction, Length, inches, mm, require_positive
from joinlay.records import dataclass

__all__ = [
    "PANEL_LABELS",
    "SHEET_KINDS",
    "Sheet",
    "Solid",
    "Spread",
    "Stock",
    "american_plywood_limits",
    "sanded_plywood_limits",
    "thickness_spread",
]

#: Kinds of sheet the physics knows, with the word a job file uses.
SHEET_KINDS: Final = ("plywood", "mdf", "hardboard", "particleboard")

#: Fewer layers make no plywood: two faces that run alike and a core across them.
_FEWEST_PLIES: Final = 3


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet good. ``nominal`` is the thickness it is sold as, ``measured`` what callipers say (None: not measured).

    ``length`` and ``width`` are the whole sheet's, length along the face grain. ``modulus_along`` and ``modulus_across`` are its
    stiffness in GPa with and across the face grain, where the maker knows them; ``plies`` how many layers plywood has (None: not
    counted).
    """

    name: str
    nominal: Dimension
    measured: Dimension | None
    length: Dimension
    width: Dimension
    kind: str = "plywood"
    modulus_along: Fraction | None = None
    modulus_across: Fraction | None = None
    plies: int | None = None

    def __post_init__(self) -> None:
        """Refuse sizes of zero or less, and kinds of sheet nothing is known of."""
        if self.kind not in SHEET_KINDS:
            near = nearest_names(self.kind, SHEET_KINDS) or SHEET_KINDS
            raise BadInput(f"{self.name}: {quoted(self.kind)} is not a kind of sheet known here; write {' or '.join(near)}.")
        require_positive(self.name, self.nominal, self.length, self.width, self.measured)
        if self.plies is not None and (self.plies < _FEWEST_PLIES or self.plies % 2 == 0):
            raise BadInput(
                f"{self.name}: plies is {self.plies}; plywood has an odd number of them, 3 or more, since both "
                f"faces run the same way."
            )

    @property
    def thickness(self) -> Dimension:
        """The thickness every joint uses: the measured one, or the nominal where none was measured (section 0)."""
        return self.measured if self.measured is not None else self.nominal

    @property
    def is_solid(self) -> bool:
        """False: layered or pressed, so it hardly moves across its width."""
        return False


@dataclass(frozen=True, slots=True)
class Solid:
    """A solid wood stock: ``species`` as the species table names it, ``nominal`` as sold, ``measured`` as planed (None: not yet).

    ``cut`` is ``flat`` (flat-sawn: the width moves tangentially) or ``quarter`` (quarter-sawn: radially).
    """

    name: str
    nominal: Dimension
    measured: Dimension | None
    species: str
    cut: str = "flat"

    def __post_init__(self) -> None:
        """Refuse sizes of zero or less, and cuts the trade has no name for."""
        require_positive(self.name, self.nominal, self.measured)
        if self.cut not in ("flat", "quarter"):
            raise BadInput(f"{self.name}: cut is {quoted(self.cut)}; write 'flat' or 'quarter'.")

    @property
    def thickness(self) -> Dimension:
        """The thickness every joint uses: the measured one, or the nominal where none was measured."""
        return self.measured if self.measured is not None else self.nominal

    @property
    def is_solid(self) -> bool:
        """True: it moves across its width with the seasons."""
        return True


#: What a part may be made of.
Stock = Union[Sheet, Solid]


# -- how far the thickness may stray ------------------------------------------------------------------

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


def sanded_plywood_limits(nominal: Length) -> tuple[Length, Length]:
    """The thinnest and thickest a sanded plywood of ``nominal`` thickness may be and still be in tolerance.

    +(0.2 + 0.03 t) and -(0.4 + 0.03 t) mm for t from 3 to 25 mm. Source: EN 315 (check value D1). Raises BadInput outside
    that range.
    """
    if not mm(3) <= nominal <= mm(25):
        raise BadSize("EN 315 gives limits from {least} to {most}; {asked} was asked.", least=mm(3), most=mm(25), asked=nominal)
    share = Fraction(3, 100) * nominal
    return nominal - (mm("0.4") + share), nominal + (mm("0.2") + share)


def american_plywood_limits(thickness: Length, *, sanded: bool = True) -> tuple[Length, Length]:
    """The thinnest and thickest plywood of ``thickness`` may be: 1/64 in either way sanded, 1/32 in unsanded.

    Source: PS 1-19, panels to 3/4 in (check value D2). Raises BadInput for a thicker one.
    """
    if not mm(0) < thickness <= inches("3/4"):
        raise BadSize("PS 1 gives these limits up to {most}; {asked} was asked.", most=inches("3/4"), asked=thickness)
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
