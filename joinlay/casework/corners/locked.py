"""The locking rabbet: the back's tongue in a dado near the sides' ends, all ends flush (LR-1 to LR-5)."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.boards import Axis, JointKind, JointRole, Surface
from joinlay.casework.corners.corner import BackCorner, Cornered, CornerKind, with_nearest_cutter
from joinlay.joints.locking_rabbet import cut_end_part, cut_side, design_locking_rabbet
from joinlay.lengths import NOTHING
from joinlay.records import dataclass

if TYPE_CHECKING:
    from joinlay.boards import Board
    from joinlay.casework.corners.corner import Wanted
    from joinlay.casework.drawer_sizes import DrawerSizes
    from joinlay.findings import Finding
    from joinlay.joints.locking_rabbet import LockingRabbet

__all__ = ["LOCKED", "Locked"]


@dataclass(frozen=True, slots=True)
class Locked(BackCorner):
    """A plain locking rabbet at both ends of the back."""

    joint: LockingRabbet

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What the joint found."""
        return self.joint.findings

    def join(self, back: Board, left: Board, right: Board, sizes: DrawerSizes) -> Cornered:
        """A rabbet at both ends of the back, a dado in each side."""
        sides, meetings = [], []
        for end, side in ((Surface.END, left), (Surface.FAR_END, right)):
            back = cut_end_part(self.joint, back, end, side.role, which=side.role.hand)
            cut = cut_side(self.joint, side, Surface.FAR_END, back.role, which=back.role)
            # Its outside is flush with the sides' ends, so that the fit is between the outer wall and the tongue.
            meetings.append(self.in_dado(back, cut, cut.cuts[-1], self.joint.tongue_thickness, sizes, lies_inside=True))
            sides.append(cut)
        return Cornered(back, sides[0], sides[1], tuple(meetings))


def _design(wanted: Wanted) -> Locked:
    """A locking rabbet with the owned cutter nearest half the back's thickness. Raises Refused where none can be made."""
    make, shop, role = wanted.make, wanted.shop, JointRole(JointKind.BACK_CORNER, wanted.drawer)
    joint = with_nearest_cutter(
        shop,
        make.back.thickness / 2,
        lambda cutter: design_locking_rabbet(
            side_thickness=make.sides.thickness,
            end_thickness=make.back.thickness,
            cutter=cutter,
            practice=shop.practice,
            rule=shop.rule,
            role=role,
        ),
    )
    return Locked(
        role,
        thickness=make.back.thickness,
        set_in=NOTHING,
        addition=joint.end_part_addition,
        groove_limit=joint.tongue_thickness,
        groove_stop=joint.dado_offset,
        joint=joint,
    )


LOCKED: Final = CornerKind("locking rabbet", at_back=_design, section=Axis.ACROSS)
