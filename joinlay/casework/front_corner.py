"""The two front corners of a drawer: how the sides meet the front (LT at the corner, or LR-6 to LR-8).

Both corners are one joint cut twice; the front and the side read the same joint, each from its own bottom edge.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from joinlay.boards import Axis, Board, Datum, Hand, JointKind, JointRole, PartKind, PartRole, Place, Span, Surface
from joinlay.casework.cutter_choice import with_nearest_cutter
from joinlay.casework.opening import FrontJoint
from joinlay.joints.locking_rabbet import cut_end_part, cut_side, design_half_blind
from joinlay.joints.loose_tenon import KeepOut, Seat, Use, cut_mortises, design_loose_tenon
from joinlay.lengths import NOTHING

if TYPE_CHECKING:
    from joinlay.boards import DrawerRole
    from joinlay.casework.drawer_sizes import DrawerSizes
    from joinlay.casework.opening import DrawerMake
    from joinlay.findings import Finding
    from joinlay.joints.locking_rabbet import HalfBlind
    from joinlay.joints.loose_tenon import LooseTenon
    from joinlay.lengths import Dimension
    from joinlay.shop import Shop, TenonStock

__all__ = ["FrontCorner", "GrooveLines", "design_front_corner"]

_TENON_DATUM = Datum("cheek", "bottom edge", "front end", "far cheek", "top edge", "back end")


@dataclass(frozen=True, slots=True)
class GrooveLines:
    """Where the bottom groove runs, so that a joint can keep clear: from the sides' bottom edge, and how deep."""

    offset: Dimension
    width: Dimension
    depth: Dimension


@dataclass(frozen=True, slots=True)
class FrontCorner:
    """The joint of both front corners.

    ``side_front`` is how far behind the face of the frame the sides begin. One of ``tenons`` and ``half_blind`` is the joint.
    """

    drawer: DrawerRole
    side_front: Dimension
    tenons: LooseTenon | None
    half_blind: HalfBlind | None

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What the joint found."""
        joint = self.tenons or self.half_blind
        return joint.findings if joint else ()

    def cut(self, front: Board, left: Board, right: Board, sizes: DrawerSizes) -> tuple[Board, Board, Board]:
        """Front, left and right side with the corner's cuts."""
        if self.half_blind is not None:
            return self._cut_half_blind(self.half_blind, front, left, right, sizes)
        assert self.tenons is not None
        return self._cut_mortises(self.tenons, front, left, right, sizes)

    def _cut_half_blind(
        self, joint: HalfBlind, front: Board, left: Board, right: Board, sizes: DrawerSizes
    ) -> tuple[Board, Board, Board]:
        # Where the sides are lower than the front, the slot stops at their top, or it would show.
        across = Span.of(NOTHING, sizes.joint_line)
        for at, side in ((Surface.END, left), (Surface.FAR_END, right)):
            front = cut_end_part(joint, front, at, side.role, across=across, which=side.role.hand)
        sides = [cut_side(joint, side, Surface.END, front.role, which=front.role) for side in (left, right)]
        return front, sides[0], sides[1]

    def _cut_mortises(
        self, joint: LooseTenon, front: Board, left: Board, right: Board, sizes: DrawerSizes
    ) -> tuple[Board, Board, Board]:
        middle = joint.from_reference_face
        in_side = Seat(Surface.END, Axis.ACROSS, start=sizes.front_rise, centre=middle)
        for across, side in ((middle, left), (front.length - middle, right)):
            in_front = Seat(Surface.FACE, Axis.ACROSS, start=NOTHING, centre=across)
            front = cut_mortises(joint, front, in_front, joint.depth_in_face, mate=side.role, which=side.role.hand)
        sides = [cut_mortises(joint, side, in_side, joint.depth_in_end, mate=front.role) for side in (left, right)]
        return front, sides[0], sides[1]

    def slips(self, sizes: DrawerSizes) -> tuple[Board, ...]:
        """The loose tenons of both corners, placed; none where the joint is a locking rabbet."""
        joint = self.tenons
        if joint is None:
            return ()
        left = sizes.side_clearance + joint.from_reference_face
        right = sizes.side_clearance + sizes.front_width - joint.from_reference_face
        made = []
        front = PartRole(PartKind.DRAWER_FRONT, self.drawer)
        for hand, middle in ((Hand.LEFT, left), (Hand.RIGHT, right)):
            for n, centre in enumerate(joint.centres, start=1):
                place = Place.at(
                    middle - joint.tenon_thickness / 2,
                    self.side_front - joint.tenon_length / 2 + (joint.depth_in_end - joint.depth_in_face) / 2,
                    sizes.front_rise + centre - joint.tenon_width / 2,
                    "+Y",
                    "+Z",
                    "+X",
                )
                made.append(
                    Board(
                        PartRole(PartKind.LOOSE_TENON, self.drawer, hand, n, front),
                        "loose tenon strip",
                        joint.tenon_length,
                        joint.tenon_width,
                        joint.tenon_thickness,
                        _TENON_DATUM,
                        place=place,
                        has_round_edges=True,
                    )
                )
        return tuple(made)


def design_front_corner(
    drawer: DrawerRole, make: DrawerMake, sizes: DrawerSizes, groove: GrooveLines, shop: Shop, tenon: TenonStock | None
) -> FrontCorner:
    """The front corners of ``drawer``, clear of the bottom groove.

    Loose tenons after LT-1 to LT-12, or a half-blind locking rabbet after LR-6 to LR-8 with the owned cutter nearest a third of the
    front's thickness. Raises Refused where the joint cannot be made.
    """
    role, name = JointRole(JointKind.FRONT_CORNER, drawer), drawer.name
    if make.front_joint is FrontJoint.HALF_BLIND:
        half_blind = _half_blind(role, make, shop)
        start = (sizes.set_back + half_blind.lip).named(f"{name} face of the frame to the sides", "LR-8", "by geometry")
        return FrontCorner(drawer, start, None, half_blind)
    start = (sizes.set_back + make.front.thickness).named(f"{name} face of the frame to the sides", "DR-5", "by geometry")
    tenons = design_loose_tenon(
        end_thickness=make.sides.thickness,
        face_thickness=make.front.thickness,
        line=sizes.joint_line,
        shop=shop,
        use=Use.DRAWER,
        is_solid=make.sides.is_solid,
        tenon=tenon,
        keep_outs=_groove_on_the_line(make, sizes, groove, shop, tenon),
        role=role,
    )
    return FrontCorner(drawer, start, tenons, None)


def _groove_on_the_line(
    make: DrawerMake, sizes: DrawerSizes, groove: GrooveLines, shop: Shop, tenon: TenonStock | None
) -> tuple[KeepOut, ...]:
    """The bottom groove as a keep-out; none where thick sides leave enough wood between it and the thickest mortise (LT-11).

    The groove begins as far behind the side's outer face in the front as it lies deep in the side, so one sum serves both.
    """
    thickest = tenon.thickness if tenon else make.sides.thickness * shop.practice.ratio("tenon share")
    between = (make.sides.thickness - thickest) / 2 - groove.depth
    if between >= shop.practice.length("keep-out clearance"):
        return ()
    low = groove.offset - sizes.front_rise
    return (KeepOut(low, low + groove.width, "bottom groove"),)


def _half_blind(role: JointRole, make: DrawerMake, shop: Shop) -> HalfBlind:
    return with_nearest_cutter(
        shop,
        make.front.thickness / 3,
        lambda cutter: design_half_blind(
            side_thickness=make.sides.thickness,
            end_thickness=make.front.thickness,
            cutter=cutter,
            practice=shop.practice,
            rule=shop.rule,
            role=role,
        ),
    )
