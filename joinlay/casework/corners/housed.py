"""The housed back: its whole thickness in a dado of each side, a little in from their ends (DJ-2, DA-1 to DA-3)."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, ClassVar, Final

from joinlay.boards import Axis, JointKind, JointRole, Surface
from joinlay.casework.corners.corner import BackCorner, Cornered, CornerKind
from joinlay.findings import Refused, Remedy, figure, refusal, warning
from joinlay.joints.dado import cut_dado, design_dado
from joinlay.records import dataclass

if TYPE_CHECKING:
    from joinlay.boards import Board
    from joinlay.casework.corners.corner import Wanted
    from joinlay.casework.drawer_sizes import DrawerSizes
    from joinlay.findings import Finding
    from joinlay.joints.dado import Dado
    from joinlay.lengths import Dimension
    from joinlay.shop import Shop

__all__ = ["HOUSED", "Housed"]


@dataclass(frozen=True, slots=True)
class Housed(BackCorner):
    """A dado in both sides; the back's ends go in as they are."""

    joint: Dado
    found: tuple[Finding, ...] = ()

    LENGTH_RULE: ClassVar[str] = "DA-2"

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What the joint found."""
        return (*self.found, *self.joint.findings)

    def join(self, back: Board, left: Board, right: Board, sizes: DrawerSizes) -> Cornered:
        """A dado in each side; the back isn't cut."""
        sides, meetings = [], []
        for side in (left, right):
            cut = cut_dado(self.joint, side, self.set_in, back.role, at=Surface.FAR_END, which=back.role)
            meetings.append(self.in_dado(back, cut, cut.cuts[-1], back.thickness, sizes))
            sides.append(cut)
        return Cornered(back, sides[0], sides[1], tuple(meetings))


def _design(wanted: Wanted) -> Housed:
    """A dado ``back set-in`` from the sides' ends, a third of their thickness deep (DJ-2; Foster).

    Warned where the wood between it and the end is less than the sides are thick. Raises Refused where it is so little that it
    breaks off (LR-4), or the dado cannot be made.
    """
    make, shop, role = wanted.make, wanted.shop, JointRole(JointKind.BACK_CORNER, wanted.drawer)
    joint = design_dado(into=make.sides.thickness, panel=make.back.thickness, shop=shop, is_judged_later=True, role=role)
    set_in, tip_gap = shop.practice.length("back set-in"), shop.practice.length("tip gap")
    found = _judge_set_in(set_in, make.sides.thickness, shop, role)
    return Housed(
        role,
        thickness=make.back.thickness,
        set_in=set_in,
        addition=(2 * (joint.depth - tip_gap)).named(f"{role.name} addition to the inside width", "CA-1", "common practice"),
        groove_limit=make.back.thickness / 2,
        groove_stop=set_in,
        joint=joint,
        found=found,
    )


def _judge_set_in(set_in: Dimension, sides: Dimension, shop: Shop, role: JointRole) -> tuple[Finding, ...]:
    """The short grain behind the dado: a warning where it is thinner than the ``sides``, a refusal under the share of them
    that breaks.
    """
    least = sides * shop.practice.ratio("short grain share")
    better = shop.rule.up(sides)
    numbers = {"left": set_in, "sides": sides, "better": better}
    ways = (Remedy("set the back {better} in from their ends", (figure("back set-in", better),)),)
    what = "Behind the dado for the back only {left} of the sides is left"
    if set_in < least:
        refused = refusal(
            "short grain",
            what + ", across the grain, and it would break off.",
            "A locking rabbet takes a back flush with the sides' ends.",
            "DJ-2, LR-4",
            "common practice; Wheeler",
            **numbers,
        ).at(role.name)
        raise Refused(replace(refused.finding, remedies=ways))
    if set_in >= sides:
        return ()
    told = warning(
        "short grain",
        what + ", less than they are thick; a knock at the end breaks it off.",
        "",
        "DJ-2",
        "Foster; common practice",
        **numbers,
    ).at(role.name)
    return (replace(told, remedies=ways),)


HOUSED: Final = CornerKind("dado", at_back=_design, section=Axis.ACROSS)
