"""What holds the piece together besides its joints: screws, nails, glue, and the strip that loose tenons are cut from."""

from __future__ import annotations

from math import ceil
from typing import TYPE_CHECKING

from joinlay.boards import JointKind, PartKind, Whole
from joinlay.lengths import NOTHING, Fraction, plain_mm
from joinlay.records import dataclass

if TYPE_CHECKING:
    from joinlay.boards.fastener import Fastener
    from joinlay.boards.meeting import Meeting
    from joinlay.cutlist.cutting_list import CuttingList, Row
    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Dimension

__all__ = ["FastenersFor", "TenonStrip", "fasteners_of", "glued", "tenon_strips"]


@dataclass(frozen=True, slots=True)
class FastenersFor:
    """So many of one size of nail, pin or screw, through parts of the kind ``through`` into parts of the kind ``into``."""

    fastener: Fastener
    through: PartKind
    into: PartKind
    count: int


def fasteners_of(plan: Plan) -> tuple[FastenersFor, ...]:
    """Every size of nail, pin and screw in ``plan`` by what it goes through and into, in the order they are met (DJ-1, DJ-3,
    DJ-4, RN-4).
    """
    counts: dict[tuple[Fastener, PartKind, PartKind], int] = {}
    for met in plan.meetings:
        if met.fastener is not None:
            key = (met.fastener, met.one.kind, met.other.kind)
            counts[key] = counts.get(key, 0) + met.fasteners
    return tuple(FastenersFor(*key, count) for key, count in counts.items() if count)


def glued(plan: Plan) -> dict[str, Fraction]:
    """How much of ``plan`` is glued where, in square millimetres, by the trade's word for it; only what there is any of (RN-4).

    Loose tenons all round. Dadoes on their floor and walls, with the slots of half-blind fronts; corners of drawers that have
    none by themselves. Runners, stop strips and blocks where they lie on; runners that are screwed through slots only round their
    front screw. The face frame where its back lies against the front edges of the case. Grooves for bottoms and rabbets for backs
    are left dry. Source: by geometry.
    """
    loose = tuple(f"{kind.value}s" for kind in PartKind if kind.is_loose)
    areas = dict.fromkeys(
        (
            *loose,
            "dadoes",
            "corners",
            "bottoms at the front",
            "bottom bars",
            "runners",
            "stops",
            "frame on the case",
            "top",
            "base",
        ),
        Fraction(0),
    )
    for met in plan.meetings:
        areas[_place_of(met)] += met.glue
    return {where: area for where, area in areas.items() if area}


def _place_of(met: Meeting) -> str:
    """Where a glued meeting is counted: a joint in which a wall faces something is a dado or locks like one."""
    if met.one.kind.is_loose:
        return f"{met.one.kind.value}s"
    places = {
        Whole.RUNNERS: "runners",
        Whole.STOPS: "stops",
        Whole.FRAME: "frame on the case",
        Whole.TOP: "top",
        Whole.BASE: "base",
    }
    whole = met.one.whole
    if isinstance(whole, Whole) and whole in places:
        return places[whole]
    if met.one.kind is PartKind.DRAWER_BOTTOM:
        return "bottoms at the front"
    if met.one.kind is PartKind.BOTTOM_BAR:
        return "bottom bars"
    is_corner = met.joint is not None and met.joint.kind in (JointKind.FRONT_CORNER, JointKind.BACK_CORNER)
    return "corners" if is_corner and not met.is_housed else "dadoes"


@dataclass(frozen=True, slots=True)
class TenonStrip:
    """Strip of one section: ``thickness`` by ``width``, rounded on its two narrow edges, to be crosscut into tenons.

    ``rows`` are those of the cutting list, one for each length of tenon. ``spare`` is how many are made over ``count``.
    ``length`` is all that must be milled, a kerf for each tenon included.
    """

    thickness: Dimension
    width: Dimension
    rows: tuple[Row, ...]
    count: int
    spare: int
    length: Dimension


def tenon_strips(plan: Plan, parts: CuttingList) -> tuple[TenonStrip, ...]:
    """The strips to mill for the loose tenons of ``parts``, thinnest first, with some over for trials (LT-5; our own choice).

    ``parts`` is the cutting list of ``plan``, whose shop gives the kerf and the share to spare.
    """
    sections: dict[tuple[Fraction, Fraction], list[Row]] = {}
    for group in parts.groups:
        for row in group.rows if group.is_tenons else ():
            sections.setdefault((row.finished.thickness.mm, row.finished.width.mm), []).append(row)
    return tuple(_strip(plan, rows) for _, rows in sorted(sections.items()))


def _strip(plan: Plan, rows: list[Row]) -> TenonStrip:
    length: Dimension = NOTHING
    spares = 0
    for row in rows:
        spare = ceil(row.quantity * plan.shop.practice.ratio("spare tenons"))
        length = length + (row.finished.length + plan.shop.saw.kerf) * (row.quantity + spare)
        spares += spare
    size = rows[0].finished
    named = length.named(f"strip for {plain_mm(size.thickness)} by {plain_mm(size.width)} tenons", "LT-5", "our own choice")
    return TenonStrip(size.thickness, size.width, tuple(rows), sum(row.quantity for row in rows), spares, named)
