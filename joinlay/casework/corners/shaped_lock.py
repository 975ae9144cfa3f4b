"""The shaped lock: a cutter with a shape of its own makes both halves, the end part flat on the table and the sides upright
(MS-11).

At the front the front laps over the sides' ends, at the back the back does. Which of the shop's cutters it is follows from the
wood: of those that suit it the one whose slot is nearest to a third of the end part.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, ClassVar, Final

from joinlay.boards import Axis, CutUse, Hand, JointKind, JointRole, Span, Surface
from joinlay.boards.meeting import Facing, Meeting, Plane, Tie, Way
from joinlay.casework.corners.corner import BackCorner, Cornered, CornerKind, FrontCorner
from joinlay.findings import Refused, Remedy, figure, refusal
from joinlay.joints.shaped_corner import ShapedCorner, cut_flat_part, cut_upright_part, design_shaped_corner
from joinlay.lengths import NOTHING, ZERO, Length, smallest
from joinlay.records import dataclass

if TYPE_CHECKING:
    from joinlay.boards import Board
    from joinlay.casework.corners.corner import Wanted
    from joinlay.casework.drawer_sizes import DrawerSizes
    from joinlay.findings import Finding
    from joinlay.lengths import Dimension

__all__ = ["SHAPED_LOCK", "ShapedBack", "ShapedFront"]


@dataclass(frozen=True, slots=True)
class ShapedFront(FrontCorner):
    """A shaped lock at both ends of the front."""

    joint: ShapedCorner

    LENGTH_RULE: ClassVar[str] = "MS-11, LR-8"

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What the joint found."""
        return self.joint.findings

    @property
    def holds_square(self) -> Length:
        """To the far wall of the side's dado, which the tongue fills."""
        return self.joint.dado_offset + self.joint.slot_width

    @property
    def opens_groove(self) -> Dimension | None:
        """As deep as the tongue is long: the groove begins as far from the sides' inside as it is deep, so then past its tip
        (GR-3).
        """
        return self.joint.tongue_length

    def join(self, front: Board, left: Board, right: Board, sizes: DrawerSizes) -> Cornered:
        """Slot and tongue at both ends of the front, a dado in each side."""
        # Where the sides are lower than the front, the slot stops at their top, or it would show.
        across = Span.of(NOTHING, sizes.joint_line)
        return _joined(self.joint, front, (left, right), Surface.END, across, is_open_above=sizes.joint_line >= front.width)


@dataclass(frozen=True, slots=True)
class ShapedBack(BackCorner):
    """A shaped lock at both ends of the back, whose lip stands behind the sides' ends."""

    joint: ShapedCorner

    LENGTH_RULE: ClassVar[str] = "MS-11, LR-6"

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What the joint found."""
        return self.joint.findings

    @property
    def laps(self) -> Dimension:
        """As far as its lip is thick."""
        return self.joint.lip

    def join(self, back: Board, left: Board, right: Board, sizes: DrawerSizes) -> Cornered:
        """Slot and tongue at both ends of the back, a dado in each side."""
        across = Span.of(NOTHING, smallest(back.width, sizes.side_height))
        return _joined(self.joint, back, (left, right), Surface.FAR_END, across, is_open_above=True)


def _joined(
    joint: ShapedCorner, flat: Board, sides: tuple[Board, Board], at: Surface, across: Span, *, is_open_above: bool
) -> Cornered:
    """Both ends of the front or back, ``flat``, cut for the ends ``at`` of the sides, and where they meet."""
    cut, meetings = [], []
    for end, side in ((Surface.END, sides[0]), (Surface.FAR_END, sides[1])):
        flat = cut_flat_part(joint, flat, end, side.role, across, side.role.hand)
        cut.append(cut_upright_part(joint, side, at, flat.role, which=flat.role))
        meetings.append(_locked(joint, flat, cut[-1], end, at, is_open_above=is_open_above))
    return Cornered(flat, cut[0], cut[1], tuple(meetings))


def _locked(joint: ShapedCorner, flat: Board, side: Board, end: Surface, at: Surface, *, is_open_above: bool) -> Meeting:
    """The side's end against the lip, its inside against the floor of the slot, and the tongue in the side's dado to its floor.

    It closes square to the side, or along the dado from where the slot is open: below, and above where it runs right through.
    """
    (slot,) = (cut for cut in flat.cuts_of(CutUse.SHAPED_SLOT) if cut.role.mate == side.role)
    (tip,) = (cut for cut in flat.cuts_of(CutUse.SHAPED_END) if cut.role.mate == side.role)
    (dado,) = side.cuts_for(flat.role)
    play = Length(joint.slot_width.mm - joint.tongue_thickness.mm)
    facings = (
        Facing("against the lip of the", Plane(at), Plane(Surface.FACE, slot.into.stop), rule="MS-11"),
        Facing("on the floor of the slot in the", Plane(Surface.FACE, at=NOTHING), Plane.floor(slot), rule="MS-11"),
        Facing(
            "in the slot of the", Plane.wall(side, dado, at.opposite), Plane.wall(flat, slot, Surface.FAR_FACE), play, "MS-11"
        ),
        Facing("with its dado against the tongue of the", Plane.wall(side, dado, at), Plane(Surface.FACE), rule="MS-11"),
        Facing(
            "with its dado over the tip of the tongue of the",
            Plane.floor(dado, NOTHING),
            Plane(end, tip.along.size),
            rule="MS-11",
        ),
    )
    into = Way.RIGHT if side.role.hand is Hand.LEFT else Way.LEFT
    glue = dado.floor_area + 2 * dado.wall_area + slot.floor_area + slot.wall_area
    return Meeting(
        one=side.role,
        other=flat.role,
        facings=facings,
        closes=(into, Way.UP, Way.DOWN) if is_open_above else (into, Way.UP),
        tie=Tie.GLUED,
        joint=joint.role,
        glue=glue,
    )


def _designed(wanted: Wanted, flat: Dimension, kind: JointKind) -> ShapedCorner:
    """The joint with the shop's cutter nearest to a third of the front or back, of those that suit the wood; Refused where
    none does.
    """
    shop, role, side = wanted.shop, JointRole(kind, wanted.drawer), wanted.make.sides.thickness
    end = "front" if kind is JointKind.FRONT_CORNER else "back"
    if not shop.corner_cutters:
        raise refusal(
            "shaped cutter",
            "The shop has no cutter that makes both halves of a corner.",
            'Describe it by its test cut: corner-cutters = [{{ slot = "3/16", length = "1/4", deepest '
            '= "5/8", diameter = "1 1/2" }}] '
            "under [shop].",
            "MS-11",
            "common practice",
        ).at(role.name)
    if shop.machines.router_table is None:
        raise refusal(
            "router table",
            "A cutter that makes both halves of a corner runs at a router table, and the shop has none.",
            "",
            "MS-11",
            "common practice",
        ).at(role.name)
    first: Refused | None = None
    for cutter in sorted(shop.corner_cutters, key=lambda cutter: abs(cutter.slot.mm - flat.mm / 3)):
        try:
            return design_shaped_corner(upright=side, flat=flat, cutter=cutter, practice=shop.practice, end=end, role=role)
        except Refused as refused:
            first = first or refused
    assert first is not None
    raise first


def _design_front(wanted: Wanted) -> ShapedFront:
    joint = _designed(wanted, wanted.make.front.thickness, JointKind.FRONT_CORNER)
    start = (wanted.sizes.set_back + joint.lip).named(
        f"{wanted.drawer.name} face of the frame to the sides", "MS-11", "by geometry"
    )
    return ShapedFront(JointRole(JointKind.FRONT_CORNER, wanted.drawer), start, joint)


def _design_back(wanted: Wanted) -> ShapedBack:
    """At the back; Refused also where the drawer tapers, since a slot holds the sides square to the back."""
    role, back = JointRole(JointKind.BACK_CORNER, wanted.drawer), wanted.make.back.thickness
    joint = _designed(wanted, back, JointKind.BACK_CORNER)
    if wanted.sizes.taper:
        refused = refusal(
            "drawer size",
            "The sides of a drawer that tapers by {taper} don't stand square in the slots of its back.",
            "",
            "MS-11, DR-4",
            "by geometry",
            taper=abs(wanted.sizes.taper),
        ).at(role.name)
        raise Refused(replace(refused.finding, remedies=(Remedy("leave out the taper", (figure("taper", ZERO),)),)))
    return ShapedBack(
        role,
        thickness=back,
        # The sides' ends stop inside the back, so what they reach past its outer face is nothing, and it reaches past them.
        set_in=-joint.lip,
        addition=joint.end_part_addition,
        groove_limit=joint.tongue_thickness,
        groove_stop=joint.dado_offset,
        joint=joint,
    )


SHAPED_LOCK: Final = CornerKind("shaped lock", at_front=_design_front, at_back=_design_back, section=Axis.ACROSS)
