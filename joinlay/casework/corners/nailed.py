"""Butted and nailed: boards that stand against each other uncut, held by glue and nails in end grain, for rough work (DJ-4)."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar, Final

from joinlay.boards import Hand, JointKind, JointRole, Surface
from joinlay.boards.fastener import FastenerKind
from joinlay.boards.meeting import Facing, Meeting, Plane, Tie, Way, butted
from joinlay.casework.corners.corner import BackCorner, Cornered, CornerKind, FrontCorner
from joinlay.findings import note
from joinlay.joints.fasteners import fastener_for, spread
from joinlay.lengths import NOTHING, Length
from joinlay.records import dataclass

if TYPE_CHECKING:
    from joinlay.boards import Board
    from joinlay.boards.fastener import Fastener
    from joinlay.casework.corners.corner import Wanted
    from joinlay.casework.drawer_sizes import DrawerSizes
    from joinlay.findings import Finding
    from joinlay.lengths import Dimension

__all__ = ["NAILED", "NailedBack", "NailedFront"]


@dataclass(frozen=True, slots=True)
class NailedFront(FrontCorner):
    """The sides' ends against the back of the front, which is nailed to them through its face."""

    nail: Fastener
    nails: int

    @property
    def findings(self) -> tuple[Finding, ...]:
        """That it is the weaker way."""
        return _weak(self.role, "A rabbet, pinned from the sides, holds better and shows no nails.")

    def join(self, front: Board, left: Board, right: Board, sizes: DrawerSizes) -> Cornered:
        """Nothing is cut."""
        line = sizes.joint_line.mm
        meetings = tuple(
            butted(
                (side, Surface.END), (front, Surface.FACE), "against the", rule="DJ-4", tie=Tie.NAILED, joint=self.role,
                glue=side.thickness.mm * line, fasteners=self.nails, fastener=self.nail,
            )
            for side in (left, right)
        )  # fmt: skip
        return Cornered(front, left, right, meetings)


@dataclass(frozen=True, slots=True)
class NailedBack(BackCorner):
    """The back between the sides, flush with their ends, nailed through them."""

    nail: Fastener
    nails: int

    LENGTH_RULE: ClassVar[str] = "DJ-4"

    @property
    def findings(self) -> tuple[Finding, ...]:
        """That it is the weaker way."""
        return _weak(self.role, "A dado or a locking rabbet holds better.")

    def join(self, back: Board, left: Board, right: Board, sizes: DrawerSizes) -> Cornered:
        """Nothing is cut."""
        return Cornered(back, left, right, tuple(self._between(back, side, sizes) for side in (left, right)))

    def _between(self, back: Board, side: Board, sizes: DrawerSizes) -> Meeting:
        """One end of the back against a side; in a tapered drawer the room there is stated at both faces of the back."""
        is_left = side.role.hand is Hand.LEFT
        end = Surface.END if is_left else Surface.FAR_END
        inside, outside = Length(side.length.mm - back.thickness.mm), side.length
        facings = []
        for which, at in (("inside", inside), ("outside", outside)) if sizes.taper else (("", None),):
            half = sizes.inside_width.mm / 2 - (sizes.taper.mm / 2 * (at.mm / side.length.mm) if at is not None else 0)
            where = f"against, at its {which} face, the" if which else "against the"
            facings.append(Facing(where, Plane(end), Plane(Surface.FACE, at=at), Length(half - back.length.mm / 2), "DJ-4"))
        into = Way.LEFT if is_left else Way.RIGHT
        return Meeting(
            one=back.role,
            other=side.role,
            facings=tuple(facings),
            closes=tuple(way for way in Way if way is not into.opposite),
            tie=Tie.NAILED,
            joint=self.role,
            glue=back.thickness.mm * back.width.mm,
            fasteners=self.nails,
            fastener=self.nail,
        )


def _weak(role: JointRole, better: str) -> tuple[Finding, ...]:
    """The word that it is weaker."""
    what = f"Butted and nailed it is for rough work: nails and glue in end grain are all that holds it. {better}"
    return (note("nailed corner", what, "DJ-4", "common practice").at(role.name),)


def _at_front(wanted: Wanted) -> NailedFront:
    """Nails through the front into the sides' ends."""
    make, shop, role = wanted.make, wanted.shop, JointRole(JointKind.FRONT_CORNER, wanted.drawer)
    start = (wanted.sizes.set_back + make.front.thickness).named(
        f"{wanted.drawer.name} face of the frame to the sides", "DR-5", "by geometry"
    )
    nail = fastener_for(
        FastenerKind.NAIL, make.front.thickness, None, shop.rule, spacing=shop.practice.length("corner nail spacing")
    )
    return NailedFront(role, start, nail, _count(wanted, wanted.sizes.joint_line))


def _at_back(wanted: Wanted) -> NailedBack:
    """Nails through the sides into the back's ends."""
    make, shop, role = wanted.make, wanted.shop, JointRole(JointKind.BACK_CORNER, wanted.drawer)
    nail = fastener_for(
        FastenerKind.NAIL, make.sides.thickness, None, shop.rule, spacing=shop.practice.length("corner nail spacing")
    )
    return NailedBack(
        role,
        thickness=make.back.thickness,
        set_in=NOTHING,
        addition=NOTHING,
        groove_limit=make.back.thickness / 2,
        groove_stop=make.back.thickness / 2,
        nail=nail,
        nails=_count(wanted, wanted.sizes.side_height),
    )


def _count(wanted: Wanted, line: Dimension) -> int:
    return len(spread(line, wanted.shop.practice.length("corner nail spacing"), least=2))


NAILED: Final = CornerKind("nailed butt", at_front=_at_front, at_back=_at_back)
