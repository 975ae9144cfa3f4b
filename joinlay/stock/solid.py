"""Solid wood: boards of one species at a thickness, which move across the grain."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from joinlay.errors import BadInput
from joinlay.lengths import plain_mm

if TYPE_CHECKING:
    from joinlay.lengths import Dimension

__all__ = ["Solid"]


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
        """Refuse sizes that are not more than nothing, and cuts the trade has no name for."""
        for size in (self.nominal, *([self.measured] if self.measured is not None else [])):
            if size.mm <= 0:
                raise BadInput(f"{self.name}: {size.name or 'a size'} is {plain_mm(size)}; it must be more than nothing.")
        if self.cut not in ("flat", "quarter"):
            raise BadInput(f"{self.name}: cut is {self.cut!r}; write 'flat' or 'quarter'.")

    @property
    def thickness(self) -> Dimension:
        """The thickness every joint uses: the measured one, or the nominal where none was measured."""
        return self.measured if self.measured is not None else self.nominal

    @property
    def is_solid(self) -> bool:
        """True: it moves across its width with the seasons."""
        return True
