"""The plain rabbet: the front laps over the sides' ends and is glued and pinned to them, through their outsides (DJ-1)."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar, Final

from joinlay.boards import Axis, CutUse, Hand, JointKind, JointRole, Span, Surface
from joinlay.boards.fastener import FastenerKind
from joinlay.boards.meeting import Facing, Meeting, Plane, Tie, Way
from joinlay.casework.corners.corner import Cornered, CornerKind, FrontCorner
from joinlay.findings import Change, refusal, stock_of
from joinlay.joints.fasteners import fastener_for, spread
from joinlay.joints.fits import depth_down
from joinlay.joints.rabbet import cut_rabbet, design_rabbet
from joinlay.lengths import NOTHING, Length
from joinlay.records import dataclass

if TYPE_CHECKING:
    from joinlay.boards import Board
    from joinlay.boards.fastener import Fastener
    from joinlay.casework.corners.corner import Wanted
    from joinlay.casework.drawer_sizes import DrawerSizes
    from joinlay.findings import Finding
    from joinlay.joints.rabbet import Rabbet
    from joinlay.lengths import Dimension

__all__ = ["RABBETED", "RabbetedFront"]


@dataclass(frozen=True, slots=True)
class RabbetedFront(FrontCorner):
    """A rabbet at both ends of the front, as wide as the sides are thick; ``pin`` and ``pins`` are what holds a corner beside
    its glue.
    """

    joint: Rabbet
    pin: Fastener
    pins: int

    LENGTH_RULE: ClassVar[str] = "DJ-1"

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What the joint found."""
        return self.joint.findings

    @property
    def holds_square(self) -> Length:
        """As far as the side lies against the shoulder."""
        return self.joint.depth

    @property
    def opens_groove(self) -> Dimension | None:
        """The rabbet takes the wood off that would stop the groove, however shallow that is."""
        return NOTHING

    @property
    def hides_groove(self) -> Length:
        """As deep as the rabbet."""
        return self.joint.depth

    def join(self, front: Board, left: Board, right: Board, sizes: DrawerSizes) -> Cornered:
        """A rabbet at both ends of the front; the sides aren't cut."""
        # Where the sides are lower than the front, the rabbet stops at their top, or it would show.
        across = Span.of(NOTHING, sizes.joint_line)
        meetings = []
        for end, side in ((Surface.END, left), (Surface.FAR_END, right)):
            front = cut_rabbet(self.joint, front, end, side.role, run=across, which=side.role.hand)
            meetings.append(self._lapped(front, side, end, is_open_above=sizes.joint_line >= front.width))
        return Cornered(front, left, right, tuple(meetings))

    def _lapped(self, front: Board, side: Board, end: Surface, *, is_open_above: bool) -> Meeting:
        """The side's end against the lip and its inside against the shoulder; it comes to either, or along them from where
        they are open.
        """
        (rabbet,) = (cut for cut in front.cuts_of(CutUse.RABBET) if cut.role.mate == side.role)
        facings = (
            Facing("against the lip of the", Plane(Surface.END), Plane(Surface.FACE, rabbet.depth), rule="DJ-1"),
            Facing("against the shoulder of the", Plane(Surface.FACE, at=NOTHING), Plane.wall(front, rabbet, end), rule="DJ-1"),
        )
        into = Way.RIGHT if side.role.hand is Hand.LEFT else Way.LEFT
        return Meeting(
            one=side.role,
            other=front.role,
            facings=facings,
            closes=(into, Way.FRONT, Way.UP, Way.DOWN) if is_open_above else (into, Way.FRONT, Way.UP),
            tie=Tie.NAILED,
            joint=self.role,
            glue=rabbet.floor_area + rabbet.wall_area,
            fasteners=self.pins,
            fastener=self.pin,
        )


def _design(wanted: Wanted) -> RabbetedFront:
    """A rabbet two thirds into the front (DJ-1; Noyes; Griffith). Raises Refused where its lip would be too thin."""
    make, shop, role = wanted.make, wanted.shop, JointRole(JointKind.FRONT_CORNER, wanted.drawer)
    front, practice = make.front.thickness, shop.practice
    share = practice.ratio("front rabbet share")
    deep = depth_down(front * share, shop.rule, front * practice.ratio("least dado share"))
    joint = design_rabbet(
        into=front,
        panel=make.sides.thickness,
        shop=shop,
        width=make.sides.thickness,
        depth=deep,
        usual_share=share,
        rule="DJ-1",
        source="Noyes; Griffith",
        role=role,
    )
    lip, least = front - joint.depth, practice.length("least lip")
    if lip < least:
        raise (
            refusal(
                "lip",
                "A rabbet {deep} deep leaves a lip of {lip} on a front {front} thick; {least} must stay.",
                "Make the front {thick} thick or more, or the rabbet shallower: front-rabbet-share under [practice].",
                "DJ-1",
                "common practice",
                deep=joint.depth,
                lip=lip,
                front=front,
                least=least,
                thick=shop.rule.up(3 * least),
            )
            .at(role.name)
            .by(
                Change("practice", "front rabbet share", "1/2") if front >= 2 * least else None,
                stock_of("drawers", "front", thinnest=3 * least),
            )
        )
    start = (wanted.sizes.set_back + lip).named(f"{wanted.drawer.name} face of the frame to the sides", "DJ-1", "by geometry")
    pin = fastener_for(FastenerKind.PIN, make.sides.thickness, None, shop.rule, spacing=practice.length("corner nail spacing"))
    pins = len(spread(wanted.sizes.joint_line, practice.length("corner nail spacing"), least=2))
    return RabbetedFront(role, start, joint, pin, pins)


RABBETED: Final = CornerKind("rabbet", at_front=_design, section=Axis.ACROSS)
