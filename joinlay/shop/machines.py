"""The machines a shop cuts at, how large a part each takes, and the maker's figures for running it safely.

Each size is the maker's to change. The defaults are a modest shop's: a router table, a hand-held router with a straightedge and
an edge guide, a table saw with one blade, a mortiser for the tenon stock it owns, a drill, and the hand tools of any bench.
"""

from __future__ import annotations

from dataclasses import field
from enum import Enum
from functools import cache
from typing import TYPE_CHECKING, Final

from joinlay.lengths import Unit, default, read_length, require_positive
from joinlay.records import dataclass

if TYPE_CHECKING:
    from joinlay.lengths import Dimension

__all__ = ["HandRouter", "HandTools", "MachineKind", "Machines", "RouterTable", "RunLimits", "TableSaw", "usual_machines"]


class MachineKind(Enum):
    """What a cut is made at."""

    ROUTER_TABLE = "router table"
    TABLE_SAW = "table saw"
    HAND_ROUTER = "hand-held router"
    MORTISER = "mortiser"
    DRILL = "drill"
    BENCH = "bench"  #: marked, and cut with hand tools


@dataclass(frozen=True, slots=True)
class RouterTable:
    """A router under a table.

    ``fence_height`` is how high its fence stands, ``fence_reach`` the farthest the fence can be set from the cutter. A part is
    carried over it up to ``longest`` along the fence and ``farthest`` from the fence (MS-5); what is larger stays on the bench.
    """

    fence_height: Dimension
    fence_reach: Dimension
    longest: Dimension
    farthest: Dimension

    def __post_init__(self) -> None:
        """Refuse sizes of zero or less."""
        require_positive("router table", self.fence_height, self.fence_reach, self.longest, self.farthest)


@dataclass(frozen=True, slots=True)
class TableSaw:
    """A table saw. ``dado_widths`` are the widths its dado set can be stacked to, empty where it has none.

    ``blade_height`` is the deepest it cuts with the dado set or the blade; the rest as for a router table.
    """

    fence_height: Dimension
    fence_reach: Dimension
    blade_height: Dimension
    longest: Dimension
    farthest: Dimension
    dado_widths: tuple[Dimension, ...] = ()

    def __post_init__(self) -> None:
        """Refuse sizes of zero or less."""
        sizes = (self.fence_height, self.fence_reach, self.blade_height, self.longest, self.farthest, *self.dado_widths)
        require_positive("table saw", *sizes)


@dataclass(frozen=True, slots=True)
class HandRouter:
    """A hand-held router.

    ``base`` is the width of its base across the straightedge, ``guide_reach`` the farthest its edge guide sets.
    ``to_centre`` is from the edge of the base that runs along the straightedge to the middle of the cutter, as measured on a
    trial cut; None where the cutter is taken to stand in the middle of the base.
    """

    base: Dimension
    guide_reach: Dimension
    to_centre: Dimension | None = None

    def __post_init__(self) -> None:
        """Refuse sizes of zero or less."""
        require_positive("hand-held router", self.base, self.guide_reach, self.to_centre)

    def offset(self, cutter: Dimension) -> Dimension:
        """From the straightedge to the near side of a cutter of this diameter.

        Rule MS-5: half the base less half the cutter, or the measured distance. Source: by geometry.
        """
        to_centre = self.base / 2 if self.to_centre is None else self.to_centre
        return (to_centre - cutter / 2).named("straightedge to the near side of the cutter", "MS-5", "by geometry")


@dataclass(frozen=True, slots=True)
class HandTools:
    """What is on any bench: gauge and knife, back saw, chisels, rabbet plane and router plane, brace and bits.

    ``narrowest_chisel`` is its width: a channel or mortise that is narrower can't be cleared by hand.
    """

    narrowest_chisel: Dimension

    def __post_init__(self) -> None:
        """Refuse a width of zero or less."""
        require_positive("hand tools", self.narrowest_chisel)


@dataclass(frozen=True, slots=True)
class RunLimits:
    """How a part is run (MS-4, MS-6).

    ``deepest_pass`` is the most a router takes at once, beside the cutter's own diameter. A part narrower than ``narrow`` or
    shorter than ``short`` gets a push block or a carrier; one with no side as long as ``smallest`` is not run at all; one is
    not stood on end higher than ``tallest_on_end``.
    """

    deepest_pass: Dimension
    narrow: Dimension
    short: Dimension
    smallest: Dimension
    tallest_on_end: Dimension

    def __post_init__(self) -> None:
        """Refuse sizes of zero or less."""
        require_positive("limits", self.deepest_pass, self.narrow, self.short, self.smallest, self.tallest_on_end)


#: Every default of this module, by its words: its inch and metric value as written, the rule and source.
MACHINE_FIGURES: Final = {
    "table fence height": ("4", "100", "MS-5", "our own choice"),
    "table fence reach": ("8", "200", "MS-5", "our own choice"),
    "longest part on the table": ("48", "1200", "MS-5", "our own choice"),
    "farthest from the fence": ("36", "900", "MS-5", "our own choice"),
    "saw fence height": ("3", "75", "MS-5", "our own choice"),
    "saw fence reach": ("24", "600", "MS-5", "our own choice"),
    "blade height": ("2 1/2", "65", "MS-5", "our own choice"),
    "longest part on the saw": ("96", "2400", "MS-5", "our own choice"),
    "router base": ("6", "150", "MS-5", "our own choice"),
    "edge guide reach": ("6", "150", "MS-5", "our own choice"),
    # A hair over a quarter inch in millimetres, so that neither 6, 6.35 nor 6.5 mm takes a second pass.
    "deepest pass": ("1/4", "6.5", "MS-4", "common practice"),
    "narrow part": ("3", "75", "MS-6", "common practice"),
    "short part": ("12", "300", "MS-6", "common practice"),
    "smallest part": ("4", "100", "MS-6", "our own choice"),
    "narrowest chisel": ("1/8", "3", "MS-8", "our own choice"),
    "tallest part on end": ("24", "600", "MS-5", "our own choice"),
}


def _figure(name: str, unit: Unit) -> Dimension:
    inch, metric, rule, source = MACHINE_FIGURES[name]
    return default(read_length(inch if unit is Unit.INCH else metric, unit), name, rule, source)


def _usual_hand_tools(unit: Unit) -> HandTools:
    return HandTools(_figure("narrowest chisel", unit))


def _usual_limits(unit: Unit) -> RunLimits:
    names = ("deepest pass", "narrow part", "short part", "smallest part", "tallest part on end")
    return RunLimits(*(_figure(name, unit) for name in names))


@dataclass(frozen=True, slots=True)
class Machines:
    """What a shop cuts joints with; None for a machine it has not.

    ``has_mortiser`` is for the mortiser that cuts mortises for the shop's tenon stock. ``first_choice`` is the order in which the
    machines are tried for a channel or a rabbet; the first that can take the part is used and the reason is said. ``hand_tools``
    cut what no machine does; None for a shop where nothing is cut by hand. What the mortiser can be set to, small to large, is in
    ``mortise_depths``, ``mortise_heights`` (from its fence to the mortise's centre) and ``mortise_widths``; none of one: any
    (MS-10).
    """

    router_table: RouterTable | None
    table_saw: TableSaw | None
    hand_router: HandRouter | None
    has_mortiser: bool = True
    has_drill: bool = True
    first_choice: tuple[MachineKind, ...] = (MachineKind.ROUTER_TABLE, MachineKind.TABLE_SAW, MachineKind.HAND_ROUTER)
    limits: RunLimits = field(default_factory=lambda: _usual_limits(Unit.INCH))
    hand_tools: HandTools | None = field(default_factory=lambda: _usual_hand_tools(Unit.INCH))
    mortise_depths: tuple[Dimension, ...] = ()
    mortise_heights: tuple[Dimension, ...] = ()
    mortise_widths: tuple[Dimension, ...] = ()

    def __post_init__(self) -> None:
        """Refuse a step of zero or less."""
        require_positive("mortise depths", *self.mortise_depths)
        require_positive("mortise heights", *self.mortise_heights)
        require_positive("mortise widths", *self.mortise_widths)

    @property
    def depth_stops(self) -> tuple[Dimension, ...]:
        """The depths a mortise can have, shallow to deep, where the mortiser has stops; none where it takes any, or there is
        no mortiser (MS-10).
        """
        return self.mortise_depths if self.has_mortiser else ()

    @property
    def fence_steps(self) -> tuple[Dimension, ...]:
        """From the mortiser's fence to the mortise's centre, low to high, where the fence has steps; else none (MS-10)."""
        return self.mortise_heights if self.has_mortiser else ()

    @property
    def width_steps(self) -> tuple[Dimension, ...]:
        """The widths along its line a mortise can have, narrow to wide, where the mortiser gives certain ones; else none
        (MS-10).
        """
        return self.mortise_widths if self.has_mortiser else ()

    def fence_height(self, kind: MachineKind) -> Dimension | None:
        """How high the fence of this machine stands; None for what has no fence to stand work against, and for a machine the
        shop hasn't.
        """
        if kind is MachineKind.ROUTER_TABLE:
            return None if self.router_table is None else self.router_table.fence_height
        return self.table_saw.fence_height if kind is MachineKind.TABLE_SAW and self.table_saw is not None else None


@cache
def usual_machines(unit: Unit = Unit.INCH) -> Machines:
    """The default machines in ``unit``, each figure a Dimension that says so (MS-4 to MS-6). Source: our own choice."""
    reach, height = (_figure(f"table fence {what}", unit) for what in ("reach", "height"))
    farthest = _figure("farthest from the fence", unit)
    return Machines(
        RouterTable(height, reach, _figure("longest part on the table", unit), farthest),
        TableSaw(
            _figure("saw fence height", unit),
            _figure("saw fence reach", unit),
            _figure("blade height", unit),
            _figure("longest part on the saw", unit),
            farthest,
        ),
        HandRouter(_figure("router base", unit), _figure("edge guide reach", unit)),
        limits=_usual_limits(unit),
        hand_tools=_usual_hand_tools(unit),
    )
