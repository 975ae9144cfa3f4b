"""The bottom of a drawer and the grooves it lies in (GR-1 to GR-4)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from joinlay.boards import Board, Datum, PartKind, PartRole, Place, Surface, Taper
from joinlay.errors import BadInput
from joinlay.lengths import Fraction, rounded_up
from joinlay.stock import Solid
from joinlay.stock.movement import movement_of

if TYPE_CHECKING:
    from joinlay.boards import DrawerRole
    from joinlay.casework.drawer_sizes import DrawerSizes
    from joinlay.lengths import Dimension, Graduation, Length
    from joinlay.shop import Shop
    from joinlay.stock import Stock
    from joinlay.stock.movement import Seasons

__all__ = ["BottomSeat", "behind_bottom", "groove_offset", "lay_bottom"]

_DATUM = Datum("upper face", "front edge", "left end", "lower face", "back edge", "right end")


@dataclass(frozen=True, slots=True)
class BottomSeat:
    """The room the grooves leave for a bottom.

    ``depth`` is the grooves' in the sides, ``offset`` from the sides' bottom edge to the groove. ``front`` and ``back`` are how far
    back, from the face of the frame, the bottom's two edges lie; ``clearance`` is in all, half of it at each side. ``side_front`` is
    where the sides begin, ``side_length`` how long they are: what the taper runs over.
    """

    depth: Dimension
    offset: Dimension
    clearance: Dimension
    front: Dimension
    back: Dimension
    side_front: Dimension
    side_length: Dimension


def behind_bottom(
    stock: Stock, width: Length, depth: Dimension, usual: Dimension, rule: Graduation, seasons: Seasons
) -> Dimension:
    """What a bottom about ``width`` from front to back leaves free in a groove ``depth`` deep in the back: ``usual``, or room to swell.

    GR-2: a solid bottom is held at the front and swells into the back's groove, so that the room is what it grows by the dampest day, up to the next
    mark on ``rule``; where it would then shrink out of the groove by the driest day no room helps, and it is as for a sheet. Source: common
    practice; CK-6.
    """
    if not isinstance(stock, Solid):
        return usual
    try:
        grows, shrinks = (
            movement_of(stock, width, seasons.workshop, seasons.dampest), movement_of(stock, width, seasons.driest, seasons.workshop),
        )  # fmt: skip
    except BadInput:
        return usual
    room = rounded_up(grows, rule)
    if room <= usual or room + shrinks >= depth:
        return usual
    return room.named("room for the bottom to swell in", "GR-2, CK-6", "common practice")


def groove_offset(bottom: Stock, rise: Dimension, shop: Shop) -> Dimension:
    """The sides' bottom edge to the groove: as the maker asks, else the usual, or what a thick bottom needs below it in the front (GR-1, DR-2).

    ``rise`` is how far the front's bottom edge stands above the sides'. Source: common practice.
    """
    usual = shop.practice.length("groove offset")
    needed = bottom.thickness + shop.practice.length("panel fit") + rise
    if usual.origin != "default" or needed <= usual:
        return usual
    return rounded_up(needed, shop.rule)


def lay_bottom(drawer: DrawerRole, stock: Stock, sizes: DrawerSizes, opening_width: Length, seat: BottomSeat) -> Board:
    """The bottom of ``drawer``, placed in its grooves.

    GR-2: as wide as the inside of the drawer and both grooves, less the clearance; DR-4: it narrows with the taper, so its two ends
    are planed to a slant. Its length runs from side to side, its width from front to back. Source: common practice.
    """
    role = PartRole(PartKind.DRAWER_BOTTOM, drawer)
    at_front = sizes.inside_width + 2 * seat.depth - seat.clearance
    width_at = [at_front - sizes.taper * ((y - seat.side_front) / seat.side_length) for y in (seat.front, seat.back)]
    front_width = width_at[0].named(f"{role.name} width at the front", "GR-2", "common practice")
    back_width = width_at[1].named(f"{role.name} width at the back", "GR-2, DR-4", "common practice")
    length = max(front_width, back_width).named(f"{role.name} length, side to side", "GR-2", "common practice")
    width = (seat.back - seat.front).named(f"{role.name} width, front to back", "GR-2", "common practice")
    off_front, off_back = ((length - end) / 2 for end in (front_width, back_width))
    tapers = (Taper(Surface.END, off_front, off_back), Taper(Surface.FAR_END, off_front, off_back)) if sizes.taper else ()
    place = Place.at(
        (opening_width - length) * Fraction(1, 2), seat.front, seat.offset + stock.thickness, "+X", "+Y", "-Z"
    )  # fmt: skip
    return Board(
        role, stock.name, length, width, stock.thickness.named(f"{role.name} thickness"), _DATUM, tapers=tapers, place=place
    )  # fmt: skip
