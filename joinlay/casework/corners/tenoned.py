"""Loose tenons: the sides' front ends butt against the back of the front, and separate tenons hold them (LT-1 to LT-12)."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.boards import Axis, Board, Datum, JointKind, JointRole, PartKind, PartRole, Place, Surface
from joinlay.boards.meeting import Meeting, butted
from joinlay.casework.corners.corner import Cornered, CornerKind, FrontCorner
from joinlay.joints.loose_tenon import KeepOut, Seat, Use, cut_mortises, design_loose_tenon, meet_mortise
from joinlay.lengths import NOTHING
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.casework.corners.corner import Wanted
    from joinlay.casework.drawer_sizes import DrawerSizes
    from joinlay.findings import Finding
    from joinlay.joints.loose_tenon import LooseTenon
    from joinlay.lengths import Dimension, Length

__all__ = ["TENONED", "Tenoned"]

_DATUM: Final = Datum("cheek", "bottom edge", "front end", "far cheek", "top edge", "back end")


@dataclass(frozen=True, slots=True)
class Tenoned(FrontCorner):
    """Loose tenons along both corners; front and side read the same ``joint``, each from its own bottom edge."""

    joint: LooseTenon

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What the joint found."""
        return self.joint.findings

    @property
    def holds_square(self) -> Length:
        """As deep as its tenons go into the side's end."""
        return self.joint.depth_in_end

    def join(self, front: Board, left: Board, right: Board, sizes: DrawerSizes) -> Cornered:
        """Both parts mortised, and the tenons that go between."""
        # The fence bears on the sides' outsides, which come flush with the front's ends: a step off the middle is so on both
        # alike.
        joint, middle = self.joint, self.joint.from_reference_face
        in_side = Seat(Surface.END, Axis.ACROSS, start=sizes.front_rise, centre=joint.from_far_face)
        sides, loose, meetings = [], list[Board](), list[Meeting]()
        for side, from_left in ((left, middle), (right, front.length - middle)):
            in_front = Seat(Surface.FACE, Axis.ACROSS, start=NOTHING, centre=from_left)
            front = cut_mortises(joint, front, in_front, joint.depth_in_face, mate=side.role, which=side.role.hand)
            sides.append(cut_mortises(joint, side, in_side, joint.depth_in_end, mate=front.role))
            tenons = tuple(self._tenons(front, side, sizes.side_clearance + from_left, sizes))
            shoulder = butted((side, Surface.END), (front, Surface.FACE), "against the", rule="DR-5", joint=self.role)
            meetings.append(shoulder)
            for n, tenon in enumerate(tenons):
                meetings.append(meet_mortise(joint, n, tenon, Surface.END, front, Surface.FACE))
                meetings.append(meet_mortise(joint, n, tenon, Surface.FAR_END, side, Surface.END))
            loose += tenons
        return Cornered(front, sides[0], sides[1], tuple(meetings), tuple(loose))

    def _tenons(self, front: Board, side: Board, across: Dimension, sizes: DrawerSizes) -> Iterator[Board]:
        """The tenons of one corner, placed; ``across`` is their middle, in X."""
        joint = self.joint
        for n, centre in enumerate(joint.centres, start=1):
            place = Place.at(
                across - joint.tenon_thickness / 2,
                self.side_front - joint.tenon_length / 2 + (joint.depth_in_end - joint.depth_in_face) / 2,
                sizes.front_rise + centre - joint.tenon_width / 2,
                "+Y",
                "+Z",
                "+X",
            )
            yield Board(
                PartRole(PartKind.LOOSE_TENON, sizes.drawer, side.role.hand, n, front.role),
                "loose tenon strip",
                joint.tenon_length,
                joint.tenon_width,
                joint.tenon_thickness,
                _DATUM,
                place=place,
                has_round_edges=True,
            )


def _design(wanted: Wanted) -> Tenoned:
    """Loose tenons after LT-1 to LT-12, clear of the bottom groove. Raises Refused where none can be made."""
    make, sizes = wanted.make, wanted.sizes
    role = JointRole(JointKind.FRONT_CORNER, wanted.drawer)
    start = (sizes.set_back + make.front.thickness).named(
        f"{wanted.drawer.name} face of the frame to the sides", "DR-5", "by geometry"
    )
    joint = design_loose_tenon(
        end_thickness=make.sides.thickness,
        face_thickness=make.front.thickness,
        line=sizes.joint_line,
        shop=wanted.shop,
        use=Use.DRAWER,
        is_solid=make.sides.is_solid,
        tenon=wanted.tenon,
        keep_outs=_groove_on_the_line(wanted),
        role=role,
    )
    return Tenoned(role, start, joint)


def _groove_on_the_line(wanted: Wanted) -> tuple[KeepOut, ...]:
    """The bottom groove as a keep-out; none where thick sides leave enough wood between it and the thickest mortise (LT-11).

    The groove begins as far behind the side's outer face in the front as it lies deep in the side, so one sum serves both.
    """
    groove, sides, practice = wanted.groove, wanted.make.sides, wanted.shop.practice
    if groove is None:
        return ()
    thickest = wanted.tenon.thickness if wanted.tenon else sides.thickness * practice.ratio("tenon share")
    between = (sides.thickness - thickest) / 2 - groove.depth
    # A fence with steps may put the mortises nearer to the groove than the middle of the side.
    if between >= practice.length("keep-out clearance") and not wanted.shop.machines.fence_steps:
        return ()
    low = groove.offset - wanted.sizes.front_rise
    return (KeepOut(low, low + groove.width, "bottom groove"),)


TENONED: Final = CornerKind("loose tenon", at_front=_design)
