"""The half-blind locking rabbet: the front laps over the sides' ends, which lock on its tongue (LR-6 to LR-8)."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar, Final

from joinlay.boards import Axis, CutUse, Hand, JointKind, JointRole, Span, Surface
from joinlay.boards.meeting import Facing, Meeting, Plane, Tie, Way
from joinlay.casework.corners.corner import Cornered, CornerKind, FrontCorner, with_nearest_cutter
from joinlay.joints.locking_rabbet import cut_end_part, cut_side, design_half_blind
from joinlay.lengths import NOTHING, Length
from joinlay.records import dataclass

if TYPE_CHECKING:
    from joinlay.boards import Board
    from joinlay.casework.corners.corner import Wanted
    from joinlay.casework.drawer_sizes import DrawerSizes
    from joinlay.findings import Finding
    from joinlay.joints.locking_rabbet import HalfBlind
    from joinlay.lengths import Dimension

__all__ = ["HALF_BLIND", "HalfBlindFront"]


@dataclass(frozen=True, slots=True)
class HalfBlindFront(FrontCorner):
    """A half-blind locking rabbet at both ends of the front."""

    joint: HalfBlind

    LENGTH_RULE: ClassVar[str] = "LR-8"

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What the joint found."""
        return self.joint.findings

    def join(self, front: Board, left: Board, right: Board, sizes: DrawerSizes) -> Cornered:
        """Slot and tongue at both ends of the front, a dado in each side."""
        # Where the sides are lower than the front, the slot stops at their top, or it would show.
        across = Span.of(NOTHING, sizes.joint_line)
        sides, meetings = [], []
        for end, side in ((Surface.END, left), (Surface.FAR_END, right)):
            front = cut_end_part(self.joint, front, end, side.role, across=across, which=side.role.hand)
            sides.append(cut_side(self.joint, side, Surface.END, front.role, which=front.role))
            meetings.append(self._locked(front, sides[-1], end, is_open_above=sizes.joint_line >= front.width))
        return Cornered(front, sides[0], sides[1], tuple(meetings))

    @property
    def holds_square(self) -> Length:
        """To the far wall of the side's dado, which the tongue fills."""
        return self.joint.dado_offset + self.joint.dado_width

    @property
    def opens_groove(self) -> Dimension | None:
        """As deep as the tongue is long: the groove begins as far from the sides' inside as it is deep, so then past its tip
        (GR-3).
        """
        return self.joint.tongue_length

    def _locked(self, front: Board, side: Board, end: Surface, *, is_open_above: bool) -> Meeting:
        """The side's end against the lip, its inside against the floor of the slot, and the tongue in the side's dado.

        It closes square to the side, or along the dado from where the slot is open: below, and above where it runs right through.
        """
        slot, tip = (cut for cut in front.cuts_of(CutUse.SLOT, CutUse.TONGUE_END) if cut.role.mate == side.role)
        (dado,) = side.cuts_for(front.role)
        tongue = slot.into.start.mm
        facings = (
            Facing("against the lip of the", Plane(Surface.END), Plane(Surface.FACE, slot.into.stop), rule="LR-8"),
            Facing("on the floor of the slot in the", Plane(Surface.FACE, at=NOTHING), Plane.floor(slot), rule="LR-7"),
            Facing(
                "with its dado against the tongue of the",
                Plane.wall(side, dado, Surface.END),
                Plane(Surface.FACE),
                rule="LR-7",
            ),
            Facing(
                "with its dado past the tongue of the",
                Plane.wall(side, dado, Surface.FAR_END),
                Plane.wall(front, slot, Surface.FAR_FACE),
                Length(dado.along.size.mm - tongue),
                "LR-8",
            ),
            # The tongue reaches past the floor of the slot by what is left of it; the tip gap is the rest of the dado.
            Facing(
                "with its dado over the tip of the tongue of the",
                Plane.floor(dado, NOTHING),
                Plane(end, tip.along.size),
                Length(dado.depth.mm - slot.along.size.mm + tip.along.size.mm),
                "LR-6",
            ),
        )
        into = Way.RIGHT if side.role.hand is Hand.LEFT else Way.LEFT
        closes = (into, Way.UP, Way.DOWN) if is_open_above else (into, Way.UP)
        # The slot's inner wall is the tongue's, which has its glue in the dado.
        glue = dado.floor_area + 2 * dado.wall_area + slot.floor_area + slot.wall_area
        return Meeting(one=side.role, other=front.role, facings=facings, closes=closes, tie=Tie.GLUED, joint=self.role, glue=glue)


def _design(wanted: Wanted) -> HalfBlindFront:
    """A half-blind locking rabbet with the owned cutter nearest a third of the front's thickness.

    Raises Refused where none can be made.
    """
    make, shop, role = wanted.make, wanted.shop, JointRole(JointKind.FRONT_CORNER, wanted.drawer)
    joint = with_nearest_cutter(
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
    start = (wanted.sizes.set_back + joint.lip).named(
        f"{wanted.drawer.name} face of the frame to the sides", "LR-8", "by geometry"
    )
    return HalfBlindFront(role, start, joint)


HALF_BLIND: Final = CornerKind("half-blind locking rabbet", at_front=_design, section=Axis.ACROSS)
