"""The outside of a drawer in its opening: front, sides and the box between them (DR-1 to DR-5).

Two datums meet here. The sides ride on the bearers, so their bottom edge is the drawer's zero; the front's bottom edge stands
one clearance above it (DR-2).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.findings import Remedy, at_most, figure, refusal
from joinlay.lengths import NOTHING, ZERO, smallest
from joinlay.records import dataclass

if TYPE_CHECKING:
    from joinlay.boards import DrawerRole
    from joinlay.casework.opening import DrawerMake, Opening
    from joinlay.lengths import Dimension
    from joinlay.shop import Practice

__all__ = ["DrawerSizes", "size_drawer"]


@dataclass(frozen=True, slots=True)
class DrawerSizes:
    """The outside of ``drawer`` and its clearances, each a named Dimension.

    ``front_rise`` is the front's bottom edge above the sides' (the clearance under the front, DR-2). ``joint_line`` is the height
    over which front and side meet. ``bottom_clearance`` is the bottom panel's in its grooves, in all. ``length`` is front
    included.
    """

    drawer: DrawerRole
    side_clearance: Dimension
    top_clearance: Dimension
    front_rise: Dimension
    taper: Dimension
    set_back: Dimension
    bottom_clearance: Dimension
    front_width: Dimension
    front_height: Dimension
    side_height: Dimension
    joint_line: Dimension
    length: Dimension
    inside_width: Dimension


def size_drawer(drawer: DrawerRole, opening: Opening, make: DrawerMake, practice: Practice) -> DrawerSizes:
    """The sizes of ``drawer`` in ``opening``.

    DR-1 front = opening less its clearances; DR-2 the front stands a clearance above the sides' bottom; DR-3 sides as high as the
    opening less the top clearance, or as asked; DR-4 taper; DR-5 length. Source: common practice. Raises Refused where
    the clearances leave no drawer, the sides asked for are higher than the opening lets pass, or the back is too wide to go in.
    """
    name = drawer.name
    side, top = practice.length("side clearance"), practice.length("top clearance")
    rise, taper = practice.length("bottom clearance of the front"), practice.length("taper")
    set_back = practice.length("front set-back")
    front_width = (opening.width - 2 * side).named(f"{name} front width", "DR-1", side.source)
    front_height = (opening.height - top - rise).named(f"{name} front height", "DR-1", top.source)
    highest = (opening.height - top).named(f"{name} side height", "DR-3", "common practice")
    side_height = _side_height(name, highest, make)
    length = (opening.depth - set_back - practice.length("back gap")).named(f"{name} length, front included", "DR-5")
    inside = (front_width - 2 * make.sides.thickness).named(f"{name} inside width", "DR-1", "by geometry")
    for size in (front_width, front_height, length - make.front.thickness, inside):
        _refuse_nothing_left(size)
    _refuse_wide_back(name, taper, side)
    line = (smallest(side_height, rise + front_height) - rise).named(f"{name} joint line at the front", "DR-2", "by geometry")
    _refuse_nothing_left(line)
    return DrawerSizes(
        drawer=drawer,
        side_clearance=side,
        top_clearance=top,
        front_rise=rise,
        taper=taper,
        set_back=set_back,
        bottom_clearance=practice.length("bottom panel clearance"),
        front_width=front_width,
        front_height=front_height,
        side_height=side_height,
        joint_line=line,
        length=length,
        inside_width=inside,
    )


def _side_height(name: str, highest: Dimension, make: DrawerMake) -> Dimension:
    if make.side_height is None:
        return highest
    if make.side_height > highest:
        raise refusal(
            "side height",
            "sides {asked} high do not pass an opening that lets {highest} through",
            "Make the sides {highest} or lower.",
            "DR-3",
            "common practice",
            asked=make.side_height,
            highest=highest,
        ).by(at_most("drawers", "side-height", highest))
    return make.side_height.named(f"{name} side height", "DR-3", "as asked")


def _refuse_wide_back(name: str, taper: Dimension, clearance: Dimension) -> None:
    """Refuse a drawer that widens to its back by more than both side clearances, for it goes in back first (DR-4, DR-6)."""
    play = 2 * clearance
    if taper < NOTHING and play + taper < NOTHING:
        refused = refusal(
            "drawer size",
            "The drawer is {wider} wider at its back than its front, and the opening leaves "
            "{play} in all, so its back won't go in.",
            "Let it widen by {play} at most (a taper of -{play}), or make the side clearance larger. A taper of "
            "more than 0 narrows it to "
            "the back, as most do.",
            "DR-4",
            "by geometry",
            wider=-taper,
            play=play,
        ).at(name)
        raise refused.by(Remedy("leave out the taper", (figure("taper", ZERO),)), figure("taper", -play))


def _refuse_nothing_left(size: Dimension) -> None:
    if size.mm <= 0:
        raise refusal(
            "drawer size",
            f"{size.name or 'what is left of the drawer'} would be {{left}}: the clearances and thicknesses take all of the "
            "opening",
            "Make the opening at least {short} larger that way, or the clearances or stock smaller.",
            "DR-1",
            "by geometry",
            left=size,
            short=-size,
        )
