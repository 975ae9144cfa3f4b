"""The tools a shop owns: cutters, tenon stock, saw, and the rule the maker reads."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from joinlay.errors import BadInput
from joinlay.lengths import inches, mm, plain_mm
from joinlay.shop.machines import Machines, usual_machines

if TYPE_CHECKING:
    from joinlay.lengths import Dimension, Graduation, Length
    from joinlay.shop.practice import Practice

__all__ = ["Cutter", "Saw", "Shop", "TenonStock", "is_sold"]


def _more_than_nothing(what: str, size: Dimension | None) -> None:
    if size is not None and size.mm <= 0:
        raise BadInput(f"{what}: {size.name or 'a size'} is {plain_mm(size)}; it must be more than nothing.")


def is_sold(diameter: Length) -> bool:
    """True for a diameter straight cutters come in: whole 32nds of an inch, or half millimetres. Common practice."""
    steps = (inches("1/32"), mm("0.5"))
    return any((diameter.mm / step.mm).denominator == 1 for step in steps)


@dataclass(frozen=True, slots=True)
class Cutter:
    """A straight cutter for a router: ``diameter``, and ``reach``, the deepest it cuts."""

    diameter: Dimension
    reach: Dimension

    def __post_init__(self) -> None:
        """Refuse sizes that are not more than nothing."""
        _more_than_nothing("cutter", self.diameter)
        _more_than_nothing("cutter", self.reach)


@dataclass(frozen=True, slots=True)
class TenonStock:
    """Loose tenons the shop can cut mortises for: ``thickness`` is the mortise cutter's diameter too.

    ``width`` and ``length`` are given for ready-made tenons, None where rules LT-6 and LT-5 size them from strip.
    ``reach`` is the deepest mortise, None where nothing limits it.
    """

    thickness: Dimension
    width: Dimension | None = None
    length: Dimension | None = None
    reach: Dimension | None = None

    def __post_init__(self) -> None:
        """Refuse sizes that are not more than nothing."""
        for size in (self.thickness, self.width, self.length, self.reach):
            _more_than_nothing("tenon", size)


@dataclass(frozen=True, slots=True)
class Saw:
    """A saw: ``kerf`` is the width of its cut."""

    kerf: Dimension

    def __post_init__(self) -> None:
        """Refuse a kerf that is not more than nothing."""
        _more_than_nothing("saw", self.kerf)


@dataclass(frozen=True, slots=True)
class Shop:
    """Everything a shop brings to a job: ``cutters`` and ``tenons`` thin to thick, ``saw``, ``rule``, ``practice`` and ``machines``."""

    cutters: tuple[Cutter, ...]
    tenons: tuple[TenonStock, ...]
    saw: Saw
    rule: Graduation
    practice: Practice
    machines: Machines = field(default_factory=usual_machines)

    def cutters_up_to(self, width: Length) -> tuple[Cutter, ...]:
        """The cutters no wider than ``width``, widest first (MS-8: only what the shop owns is used)."""
        fitting = [cutter for cutter in self.cutters if cutter.diameter <= width]
        return tuple(sorted(fitting, key=lambda cutter: cutter.diameter, reverse=True))
