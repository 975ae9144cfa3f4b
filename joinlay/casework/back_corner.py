"""The two back corners of a drawer: a locking rabbet (LR-1 to LR-5) or a dado (DA-1 to DA-3)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from joinlay.boards import Hand, JointKind, JointRole, Surface
from joinlay.casework.cutter_choice import with_nearest_cutter
from joinlay.casework.opening import BackJoint
from joinlay.joints.dado import cut_dado, design_dado
from joinlay.joints.locking_rabbet import cut_end_part, cut_side, design_locking_rabbet
from joinlay.lengths import NOTHING

if TYPE_CHECKING:
    from joinlay.boards import Board, DrawerRole
    from joinlay.casework.drawer_sizes import DrawerSizes
    from joinlay.casework.opening import DrawerMake
    from joinlay.findings import Finding
    from joinlay.joints.dado import Dado
    from joinlay.joints.locking_rabbet import LockingRabbet
    from joinlay.lengths import Dimension
    from joinlay.shop import Shop

__all__ = ["BackCorner", "design_back_corner"]

_HAND = {Surface.END: Hand.LEFT, Surface.FAR_END: Hand.RIGHT}


@dataclass(frozen=True, slots=True)
class BackCorner:
    """The joint of both back corners; one of ``locking_rabbet`` and ``dado`` is the joint.

    ``set_in`` is from the sides' back ends to the outer face of the back. ``thickness`` is the back's. ``addition`` is what the back is
    longer than the inside width, ``groove_limit`` how deep the back may be grooved for the bottom without breaking its tongue off,
    and ``groove_stop`` how far from their back ends the side's grooves end, hidden inside the joint (GR-3).
    """

    locking_rabbet: LockingRabbet | None
    dado: Dado | None
    thickness: Dimension
    set_in: Dimension
    addition: Dimension
    groove_limit: Dimension
    groove_stop: Dimension

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What the joint found."""
        joint = self.locking_rabbet or self.dado
        return joint.findings if joint else ()

    def inside_face(self, side_length: Dimension) -> Dimension:
        """How far the back's inside face lies from the sides' front ends."""
        return side_length - self.set_in - self.thickness

    def back_length(self, name: str, sizes: DrawerSizes, side_length: Dimension) -> Dimension:
        """The back's length: the narrowest the drawer is over the thickness of the back, and the joint at both ends (LR-3, DR-4)."""
        outer, inner = side_length - self.set_in, self.inside_face(side_length)
        at = outer if sizes.taper.mm >= 0 else inner
        inside = sizes.inside_width - sizes.taper * (at / side_length) if sizes.taper else sizes.inside_width
        return (inside + self.addition).named(f"{name} back length", "LR-3" if self.locking_rabbet else "DA-2", "common practice")

    def cut(self, back: Board, left: Board, right: Board) -> tuple[Board, Board, Board]:
        """Back, left and right side with the corner's cuts."""
        if self.locking_rabbet is not None:
            for at, side in ((Surface.END, left), (Surface.FAR_END, right)):
                back = cut_end_part(self.locking_rabbet, back, at, side.role, which=_HAND[at])
            sides = [cut_side(self.locking_rabbet, side, Surface.FAR_END, back.role, which=back.role) for side in (left, right)]
        else:
            assert self.dado is not None
            sides = [
                cut_dado(self.dado, side, self.set_in, back.role, at=Surface.FAR_END, which=back.role) for side in (left, right)
            ]
        return back, sides[0], sides[1]


def design_back_corner(drawer: DrawerRole, make: DrawerMake, shop: Shop) -> BackCorner:
    """The back corners of ``drawer`` (LR-1 to LR-5; DA-1, DA-2).

    A locking rabbet with the owned cutter nearest half the back's thickness, its ends flush with the back; or a dado ``back set-in`` from
    the sides' ends. Raises Refused where the joint cannot be made.
    """
    role = JointRole(JointKind.BACK_CORNER, drawer)
    return _dado(role, make, shop) if make.back_joint is BackJoint.DADO else _locking_rabbet(role, make, shop)


def _locking_rabbet(role: JointRole, make: DrawerMake, shop: Shop) -> BackCorner:
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
    return BackCorner(
        joint,
        None,
        thickness=make.back.thickness,
        set_in=NOTHING,
        addition=joint.end_part_addition,
        groove_limit=joint.tongue_thickness,
        groove_stop=joint.dado_offset,
    )


def _dado(role: JointRole, make: DrawerMake, shop: Shop) -> BackCorner:
    joint = design_dado(
        into=make.sides.thickness,
        panel=make.back.thickness,
        shop=shop,
        role=role,
    )
    set_in = shop.practice.length("back set-in")
    tip_gap = shop.practice.length("tip gap")
    return BackCorner(
        None,
        joint,
        thickness=make.back.thickness,
        set_in=set_in,
        addition=(2 * (joint.depth - tip_gap)).named(f"{role.name} addition to the inside width", "CA-1", "common practice"),
        groove_limit=make.back.thickness / 2,
        groove_stop=set_in,
    )
