"""The tools a shop brings to a job, and a modest shop to fall back on: no brand's series, only what most benches have."""

from __future__ import annotations

from dataclasses import field
from functools import cache
from typing import TYPE_CHECKING, Final

from joinlay.lengths import GRADUATIONS, BadSize, Unit, default, inches, mm, read_length, require_positive
from joinlay.records import dataclass
from joinlay.shop.gluing import USUAL_GLUE
from joinlay.shop.machines import Machines, usual_machines
from joinlay.shop.practice import usual_practice

if TYPE_CHECKING:
    from joinlay.lengths import Dimension, Graduation, Length
    from joinlay.shop.gluing import Clamps, Glue
    from joinlay.shop.practice import Practice

__all__ = ["CornerCutter", "Cutter", "Saw", "Shop", "TenonStock", "deepest_mortise", "is_sold", "usual_shop"]


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
        """Refuse sizes of zero or less."""
        require_positive("cutter", self.diameter, self.reach)


@dataclass(frozen=True, slots=True)
class CornerCutter:
    """A router cutter with a shape of its own that makes both halves of a corner at one height, known by its test cut (MS-11).

    A scrap is laid on the table and run with its end to the fence: ``slot`` is how wide the slot in its end is, ``tongue`` how
    thick the wood beside it that lay on the table, at the height where it goes into such a slot, ``length`` from the slot's floor
    to the tongue's tip. ``deepest`` is how deep a slot it can make; ``diameter`` the cutter's, where it is widest.
    """

    slot: Dimension
    tongue: Dimension
    length: Dimension
    deepest: Dimension
    diameter: Dimension

    def __post_init__(self) -> None:
        """Refuse sizes of zero or less, a tongue too thick for its slot, and one longer than any slot is deep."""
        require_positive("corner cutter", self.slot, self.tongue, self.length, self.deepest, self.diameter)
        if self.tongue > self.slot:
            raise BadSize(
                "the test piece's tongue is {tongue} thick and its slot {slot} wide; lower the cutter until it goes in.",
                tongue=self.tongue,
                slot=self.slot,
            )
        if self.length >= self.deepest:
            raise BadSize(
                "the test piece's tongue is {length} long and the deepest slot {deepest}; a slot is deeper than that.",
                length=self.length,
                deepest=self.deepest,
            )
        if self.deepest >= self.diameter:
            raise BadSize(
                "the deepest slot is {deepest} and the cutter {diameter} across; it stands out by less than it is wide.",
                deepest=self.deepest,
                diameter=self.diameter,
            )


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
        """Refuse sizes of zero or less."""
        require_positive("tenon", self.thickness, self.width, self.length, self.reach)


@dataclass(frozen=True, slots=True)
class Saw:
    """A saw: ``kerf`` is the width of its cut."""

    kerf: Dimension

    def __post_init__(self) -> None:
        """Refuse a kerf of zero or less."""
        require_positive("saw", self.kerf)


@dataclass(frozen=True, slots=True)
class Shop:
    """Everything a shop brings to a job: its tools and machines, the rule it reads and its own figures for the trade rules.

    ``cutters`` and ``tenons`` run thin to thick. ``clamps`` are all there are, as they are written; None where the maker hasn't
    said, so that they are only told and never found too few.
    """

    cutters: tuple[Cutter, ...]
    tenons: tuple[TenonStock, ...]
    saw: Saw
    rule: Graduation
    practice: Practice
    machines: Machines = field(default_factory=usual_machines)
    glue: Glue = USUAL_GLUE
    clamps: tuple[Clamps, ...] | None = None
    corner_cutters: tuple[CornerCutter, ...] = ()

    def cutters_up_to(self, width: Length) -> tuple[Cutter, ...]:
        """The cutters no wider than ``width``, widest first (MS-8: only what the shop owns is used)."""
        fitting = [cutter for cutter in self.cutters if cutter.diameter <= width]
        return tuple(sorted(fitting, key=lambda cutter: cutter.diameter, reverse=True))


#: Diameter and reach of the straight cutters, as written in each unit.
_CUTTERS: Final = {
    Unit.INCH: (("1/8", "3/8"), ("3/16", "5/8"), ("1/4", "1"), ("3/8", "1"), ("1/2", "1 1/4"), ("3/4", "1 1/4")),
    Unit.MM: (("3", "10"), ("4", "14"), ("5", "16"), ("6", "25"), ("8", "25"), ("10", "30"), ("12", "32"), ("18", "32")),
}

#: Tenon strip most shops can mill, in millimetres (A18: 6 mm in 3/4 in, 4 mm in 1/2 in).
_TENONS: Final = (4, 6, 8, 10, 12)

_KERF: Final = {Unit.INCH: "1/8", Unit.MM: "3"}
_RULE: Final = {Unit.INCH: "1/32 in", Unit.MM: "0.5 mm"}


def deepest_mortise(strip: Dimension, name: str) -> Dimension:
    """The deepest mortise for tenons out of ``strip``, under ``name``: five times its thickness (LT-4). Source: Moxon's rule,
    from memory.
    """
    return (strip * 5).named(name, "LT-4", "Moxon's rule, from memory")


@cache
def usual_shop(unit: Unit) -> Shop:
    """The default shop in ``unit``: its cutters, tenon strip, saw kerf and rule (1/32 in or 0.5 mm). Source: our own choice."""
    cutters = tuple(
        Cutter(_tool(f"{wide} cutter", wide, unit), _tool(f"reach of the {wide} cutter", reach, unit))
        for wide, reach in _CUTTERS[unit]
    )
    tenons = tuple(
        TenonStock(strip, reach=deepest_mortise(strip, f"deepest {thick} mm mortise"))
        for thick, strip in ((thick, default(mm(thick), f"{thick} mm tenon strip", "", "our own choice")) for thick in _TENONS)
    )
    saw = Saw(_tool("saw kerf", _KERF[unit], unit))
    return Shop(cutters, tenons, saw, GRADUATIONS[_RULE[unit]], usual_practice(unit), usual_machines(unit))


def _tool(name: str, spelled: str, unit: Unit) -> Dimension:
    return default(read_length(spelled, unit), name, "", "our own choice")
