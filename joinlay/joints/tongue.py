"""What the plain and the half-blind locking rabbet share: how deep the dado is, and the room at the tongue's tip."""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.errors import BadInput
from joinlay.joints.fits import depth_down, judge_depth, label
from joinlay.lengths import Unit, inches, mm, plain_mm

if TYPE_CHECKING:
    from joinlay.findings import Finding
    from joinlay.lengths import Dimension, Graduation, Length
    from joinlay.shop import Practice

__all__ = ["dado_depth", "is_near", "judge_dado_depth", "tip_gap_asked", "tongue_length", "tongue_thickness"]


def dado_depth(side: Dimension, practice: Practice, rule: Graduation, given: Dimension | None, named: str) -> Dimension:
    """The depth of the dado in the side: the maker's own, or half the side's thickness down to the rule (LR-4; Foster's drawings)."""
    name = label(named, "dado depth")
    if given is not None:
        return given.named(name, "LR-4")
    most = side * practice.ratio("largest dado share")
    return depth_down(most, rule, side * practice.ratio("least dado share")).named(name, "LR-4", "Foster's drawings")


def judge_dado_depth(side: Dimension, depth: Dimension, practice: Practice) -> Finding | None:
    """A warning where the dado is shallower or deeper than LR-4 has it; raises Refused where it would leave under 1/3 (as DA-3)."""
    shares = (practice.ratio("least dado share"), practice.ratio("largest dado share"), practice.ratio("largest rabbet share"))
    return judge_depth("dado", depth, side, shares, "LR-4")


def tip_gap_asked(given: Dimension | None, practice: Practice) -> Dimension | None:
    """The tip gap somebody asked for: for this joint, or for the whole shop; None where it would only be the default (LR-3)."""
    usual = practice.length("tip gap")
    return given if given is not None else (usual if usual.origin != "default" else None)


def tongue_length(depth: Dimension, gap: Dimension, named: str) -> Dimension:
    """How long the tongue is: the dado's depth less the tip gap (LR-3). BadInput where nothing would be left."""
    if gap.mm < 0 or gap >= depth:
        raise BadInput(
            f"{gap.name or 'tip gap'} is {plain_mm(gap)} in a dado {plain_mm(depth)} deep; it must be at least 0 and less than the dado."
        )
    whole = depth - gap if gap else depth
    return whole.named(label(named, "tongue length"), "LR-3", "common practice")


def tongue_thickness(dado_width: Dimension, fit: Dimension, named: str) -> Dimension:
    """How thick the tongue is: the dado's width less the tongue fit (LR-1, LR-8; Elek 2020). BadInput where nothing would be left."""
    if fit.mm < 0 or fit >= dado_width:
        raise BadInput(
            f"{fit.name or 'tongue fit'} is {plain_mm(fit)}; it must be at least 0 and less than the dado, {plain_mm(dado_width)}."
        )
    whole = dado_width - fit if fit else dado_width
    return whole.named(label(named, "tongue thickness"), "LR-1", "Elek 2020")


def is_near(one: Length, other: Length, rule: Graduation) -> bool:
    """True where two lengths differ, but by no more than 1/32 in (0.8 mm on a metric rule) (LR-5)."""
    return one != other and abs(one.mm - other.mm) <= (inches("1/32") if rule.unit is Unit.INCH else mm("0.8")).mm
