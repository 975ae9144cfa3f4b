"""The openings of a piece: each bank between its uprights, each drawer's place in it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from joinlay.boards import DrawerRole
from joinlay.casework.graduation import Equal, opening_heights, room_for_openings
from joinlay.errors import BadInput

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.casework.graduation import Heights, Rounding
    from joinlay.lengths import Dimension

__all__ = ["BankWish", "Bay", "lay_out_bays"]


@dataclass(frozen=True, slots=True)
class BankWish:
    """What the maker asks of a bank: how it is divided, how the division is rounded, and the height of the rails between.

    ``rail`` None: as high as the frame's. ``first`` is the number of its topmost drawer.
    """

    heights: Heights
    rounding: Rounding | None = None
    rail: Dimension | None = None
    first: int = 1

    @property
    def drawers(self) -> tuple[DrawerRole, ...]:
        """Its drawers, from the top down."""
        return tuple(DrawerRole(n) for n in range(self.first, self.first + self.heights.count))


@dataclass(frozen=True, slots=True)
class Bay:
    """One bank's openings in the frame, from the top down; ``drawers`` are those that go in.

    ``left`` is the left of the openings from the frame's left edge, ``width`` their width. ``floors`` are the tops of the rails under
    the openings, above the frame's underside; ``heights`` the openings'. ``rail`` is the height of the rails between them.
    """

    number: int
    drawers: tuple[DrawerRole, ...]
    left: Dimension
    width: Dimension
    floors: tuple[Dimension, ...]
    heights: tuple[Dimension, ...]
    rail: Dimension

    @property
    def right(self) -> Dimension:
        """The right of the openings, from the frame's left edge."""
        return self.left + self.width


def lay_out_bays(
    width: Dimension,
    height: Dimension,
    *,
    stile: Dimension,
    mullion: Dimension,
    top_rail: Dimension,
    bottom_rail: Dimension,
    rail: Dimension,
    banks: Sequence[BankWish],
    widths: Heights | None = None,
) -> tuple[Bay, ...]:
    """The banks side by side in a frame ``width`` by ``height``, ``mullion`` between each two (DR-7).

    ``widths`` divides the width as heights are divided, from the left; None: alike. Openings and wood fill the frame exactly, both ways.
    Raises Refused where they don't fit, BadInput where ``widths`` isn't for as many banks.
    """
    if not banks:
        raise BadInput("a piece was asked with no drawers; describe one bank at least.")
    across = room_for_openings(width, stile, stile, [mullion] * (len(banks) - 1), "frame width's", across=True)
    names = [f"bank {n}" if len(banks) > 1 else "bank" for n in range(1, len(banks) + 1)]
    sizes = opening_heights(widths or Equal(len(banks)), across, names=names, words="opening width")
    bays, left = [], stile
    for number, (wish, name, wide) in enumerate(zip(banks, names, sizes, strict=True), start=1):
        between = wish.rail if wish.rail is not None else rail
        room = room_for_openings(height, top_rail, bottom_rail, [between] * (wish.heights.count - 1), name)
        drawers = [drawer.name for drawer in wish.drawers]
        heights = opening_heights(wish.heights, room, names=drawers, rounding=wish.rounding)
        at = left.named(f"{name} left of the openings", "FF-2")
        bays.append(Bay(number, wish.drawers, at, wide, _floors(drawers, heights, between, bottom_rail), heights, between))
        left = at + wide + mullion
    return tuple(bays)


def _floors(names: Sequence[str], heights: Sequence[Dimension], rail: Dimension, bottom_rail: Dimension) -> tuple[Dimension, ...]:
    """From the lowest opening up, turned round: every rail is measured from the underside of the frame."""
    floors, at = [], bottom_rail
    for name, height in zip(reversed(names), reversed(heights), strict=True):
        floor = at.named(f"{name} floor, above the underside of the frame", "DR-7")
        floors.append(floor)
        at = floor + height + rail
    return tuple(reversed(floors))
