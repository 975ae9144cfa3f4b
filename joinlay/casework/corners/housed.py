"""The housed back: its whole thickness in a dado of each side, a little in from their ends (DA-1 to DA-3)."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar, Final

from joinlay.boards import Axis, JointKind, JointRole, Surface
from joinlay.casework.corners.corner import BackCorner, Cornered, CornerKind
from joinlay.joints.dado import cut_dado, design_dado
from joinlay.records import dataclass

if TYPE_CHECKING:
    from joinlay.boards import Board
    from joinlay.casework.corners.corner import Wanted
    from joinlay.casework.drawer_sizes import DrawerSizes
    from joinlay.findings import Finding
    from joinlay.joints.dado import Dado

__all__ = ["HOUSED", "Housed"]


@dataclass(frozen=True, slots=True)
class Housed(BackCorner):
    """A dado in both sides; the back's ends go in as they are."""

    joint: Dado

    LENGTH_RULE: ClassVar[str] = "DA-2"

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What the joint found."""
        return self.joint.findings

    def join(self, back: Board, left: Board, right: Board, sizes: DrawerSizes) -> Cornered:
        """A dado in each side; the back isn't cut."""
        sides, meetings = [], []
        for side in (left, right):
            cut = cut_dado(self.joint, side, self.set_in, back.role, at=Surface.FAR_END, which=back.role)
            meetings.append(self.in_dado(back, cut, cut.cuts[-1], back.thickness, sizes))
            sides.append(cut)
        return Cornered(back, sides[0], sides[1], tuple(meetings))


def _design(wanted: Wanted) -> Housed:
    """A dado ``back set-in`` from the sides' ends. Raises Refused where it cannot be made."""
    make, shop, role = wanted.make, wanted.shop, JointRole(JointKind.BACK_CORNER, wanted.drawer)
    joint = design_dado(into=make.sides.thickness, panel=make.back.thickness, shop=shop, is_judged_later=True, role=role)
    set_in, tip_gap = shop.practice.length("back set-in"), shop.practice.length("tip gap")
    return Housed(
        role,
        thickness=make.back.thickness,
        set_in=set_in,
        addition=(2 * (joint.depth - tip_gap)).named(f"{role.name} addition to the inside width", "CA-1", "common practice"),
        groove_limit=make.back.thickness / 2,
        groove_stop=set_in,
        joint=joint,
    )


HOUSED: Final = CornerKind("dado", at_back=_design, section=Axis.ACROSS)
