"""Sheet goods: plywood and other boards sold by a nominal thickness that must be measured."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from joinlay.errors import BadInput, nearest_names, quoted
from joinlay.lengths import Dimension, Length, mm, plain_mm

if TYPE_CHECKING:
    from typing import Final

__all__ = ["SHEET_KINDS", "Sheet", "sanded_plywood_limits"]

#: Kinds of sheet the physics knows, with the word a job file uses.
SHEET_KINDS: Final = ("plywood", "mdf", "hardboard", "particleboard")


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet good. ``nominal`` is the thickness it is sold as, ``measured`` what callipers say (None: not measured).

    ``length`` and ``width`` are the whole sheet's, length along the face grain. ``modulus_along`` and ``modulus_across`` are its
    stiffness in GPa with and across the face grain, where the maker knows them.
    """

    name: str
    nominal: Dimension
    measured: Dimension | None
    length: Dimension
    width: Dimension
    kind: str = "plywood"
    modulus_along: Fraction | None = None
    modulus_across: Fraction | None = None

    def __post_init__(self) -> None:
        """Refuse sizes that are not more than nothing, and kinds of sheet nothing is known of."""
        if self.kind not in SHEET_KINDS:
            near = nearest_names(self.kind, SHEET_KINDS) or SHEET_KINDS
            raise BadInput(f"{self.name}: {quoted(self.kind)} is no kind of sheet; write {' or '.join(near)}.")
        sizes = (self.nominal, self.length, self.width, *([self.measured] if self.measured is not None else []))
        for size in sizes:
            if size.mm <= 0:
                raise BadInput(f"{self.name}: {size.name or 'a size'} is {plain_mm(size)}; it must be more than nothing.")

    @property
    def thickness(self) -> Dimension:
        """The thickness every joint uses: the measured one, or the nominal where none was measured (section 0)."""
        return self.measured if self.measured is not None else self.nominal

    @property
    def is_solid(self) -> bool:
        """False: layered or pressed, so it hardly moves across its width."""
        return False


def sanded_plywood_limits(nominal: Length) -> tuple[Length, Length]:
    """The thinnest and thickest a sanded plywood of ``nominal`` thickness may be and still be in tolerance.

    +(0.2 + 0.03 t) and -(0.4 + 0.03 t) mm for t from 3 to 25 mm. Source: EN 315 (check value D1). Raises BadInput outside
    that range.
    """
    if not mm(3) <= nominal <= mm(25):
        raise BadInput(f"EN 315 gives limits from 3 to 25 mm; {plain_mm(nominal)} was asked.")
    share = Fraction(3, 100) * nominal
    return nominal - (mm("0.4") + share), nominal + (mm("0.2") + share)
