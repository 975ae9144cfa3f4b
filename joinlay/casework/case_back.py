"""The back of the case: the rabbets or grooves it sits in, where it meets the rest, and the nails that hold it (RA-1, SC-2)."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from joinlay.boards import Surface
from joinlay.boards.fastener import FastenerKind
from joinlay.boards.meeting import Facing, Meeting, Plane, Tie, Way, butted
from joinlay.joints.fasteners import fastener_for, spread
from joinlay.joints.groove import Groove, cut_groove, design_groove
from joinlay.joints.rabbet import Rabbet, cut_rabbet, design_rabbet
from joinlay.lengths import Length
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.boards import Board, JointRole, PartRole
    from joinlay.casework.case_sizes import CaseMake
    from joinlay.lengths import Dimension
    from joinlay.shop import Shop

__all__ = ["BackSeat", "back_seat", "meet_back"]


@dataclass(frozen=True, slots=True)
class BackSeat:
    """What the case's back sits in: a rabbet, or where it is set forward a groove, in each side (RA-1, SC-2).

    ``behind`` is from the inner face of the back to the sides' rear edges.
    """

    joint: Rabbet | Groove
    behind: Dimension

    @property
    def depth(self) -> Dimension:
        """How far it goes into a side."""
        return self.joint.depth

    def cut(self, side: Board, back: PartRole) -> Board:
        """A side with it."""
        if isinstance(self.joint, Groove):
            return cut_groove(self.joint, side, back, edge=Surface.FAR_EDGE, which=back)
        return cut_rabbet(self.joint, side, Surface.FAR_EDGE, mate=back, which=back)


def back_seat(make: CaseMake, shop: Shop, role: JointRole) -> BackSeat:
    """A rabbet as wide as the back and its allowance, or a groove that stands the back forward by its inset (RA-1, SC-2)."""
    if make.back_inset is None:
        rabbet = design_rabbet(into=make.sides.thickness, panel=make.back.thickness, shop=shop, role=role)
        return BackSeat(rabbet, rabbet.width)
    groove = design_groove(
        into=make.sides.thickness, panel=make.back.thickness, shop=shop, offset=make.back_inset, is_judged_later=True, role=role
    )
    return BackSeat(
        groove,
        (groove.offset + groove.width).named("case back's inner face from the sides' rear edges", "SC-2", "common practice"),
    )


def meet_back(
    seat: BackSeat,
    back: Board,
    sides: Sequence[Board],
    panels: Sequence[Board],
    inside_width: Dimension,
    shop: Shop,
    *,
    is_solid: bool,
    held: FastenerKind | None = None,
) -> Iterator[Meeting]:
    """The back in the rabbets or grooves of the sides and against the panels' back edges, without glue.

    One in rabbets is nailed or screwed there, a sheet all along, solid wood in the middle of top and bottom only, so that it may
    move; one in grooves only where ``held`` asks for it, and to top and bottom alone (SC-2, RA-1, CK-6).
    """
    joint, is_groove = seat.joint.role, isinstance(seat.joint, Groove)
    ways = (Way.UP, Way.DOWN) if is_groove else (Way.FRONT, Way.UP, Way.DOWN)
    tip, apart = shop.practice.length("tip gap"), shop.practice.length("back nail spacing")
    kind = held or FastenerKind.NAIL
    shank = shop.practice.length("back screw") if kind is FastenerKind.SCREW else None
    nail = fastener_for(kind, back.thickness, None, shop.rule, shank, None if is_solid else apart)
    up, across = (len(spread(run, apart, least=2)) for run in (back.length, inside_width))
    for side, edge, into in zip(sides, (Surface.EDGE, Surface.FAR_EDGE), (Way.LEFT, Way.RIGHT), strict=True):
        facings: tuple[Facing, ...] = (
            Facing("in the", Plane(edge), Plane(Surface.FACE, seat.depth), tip, "RA-1"),
            Facing(
                f"against the {'groove' if is_groove else 'rabbet'} of the",
                Plane(Surface.FACE),
                Plane(Surface.FAR_EDGE, seat.behind),
                rule="SC-2" if is_groove else "RA-1",
            ),
        )
        if isinstance(seat.joint, Groove):
            (groove,) = side.cuts_for(back.role)
            fit = Length(seat.joint.width.mm - back.thickness.mm)
            wall = Facing(
                "before the rear wall of the groove of the",
                Plane(Surface.FAR_FACE),
                Plane.wall(side, groove, Surface.EDGE),
                fit,
                "SC-2",
            )
            facings = (*facings, wall)
        count = 0 if is_groove or is_solid else up
        yield Meeting(
            one=back.role,
            other=side.role,
            facings=facings,
            closes=(into, *ways),
            tie=Tie.FASTENED if count else Tie.DRY,
            joint=joint,
            fasteners=count,
            fastener=nail if count else None,
        )
    for panel in panels:
        count = 0 if is_groove and held is None else 1 if is_solid else across
        met = butted((back, Surface.FACE), (panel, Surface.FAR_EDGE), "on the", rule="RA-1", fasteners=count)
        yield replace(met, tie=Tie.FASTENED, fastener=nail) if count else met
