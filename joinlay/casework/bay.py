"""The openings of a piece: each bank between its uprights, and each drawer's slot: its opening, and what its runners go
between.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.boards import DrawerRole, Hand, PartKind, PartRole
from joinlay.casework.graduation import Equal, opening_heights, room_for_openings
from joinlay.casework.opening import Opening
from joinlay.errors import BadInput
from joinlay.findings import refusal
from joinlay.lengths import rounded_up
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.casework.case import CaseSizes, Cavity
    from joinlay.casework.graduation import Heights, Rounding
    from joinlay.casework.opening import DrawerMake
    from joinlay.lengths import Dimension, Graduation
    from joinlay.shop import Shop, TenonStock

__all__ = ["BankWish", "Bay", "DrawerWish", "Slot", "lay_out_bays", "slots_in"]


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

    ``left`` is the left of the openings from the frame's left edge, ``width`` their width. ``floors`` are the tops of the rails
    under the openings, above the frame's underside; ``heights`` the openings'. ``rail`` is the height of the rails between them.
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

    ``widths`` divides the width as heights are divided, from the left; None: alike. Openings and wood fill the frame exactly,
    both ways. Raises Refused where they don't fit, BadInput where ``widths`` isn't for as many banks.
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
        bays.append(
            Bay(
                number=number,
                drawers=wish.drawers,
                left=at,
                width=wide,
                floors=_floors(drawers, heights, between, bottom_rail),
                heights=heights,
                rail=between,
            )
        )
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


@dataclass(frozen=True, slots=True)
class DrawerWish:
    """What the maker asks of one drawer: what it is made of, the ``shop`` with the drawer's own figures, the tenon for its
    front.
    """

    make: DrawerMake
    shop: Shop
    tenon: TenonStock | None = None


@dataclass(frozen=True, slots=True)
class Slot:
    """Where ``drawer`` goes: ``left`` and ``floor`` are the opening's left and the level it rides on, in X and Z.

    ``guide_left`` and ``guide_right`` are from the wood at either side to the opening (RN-2). ``below`` is what the runner under
    it may be high: the rail's height, or for the lowest drawer the way down to the case bottom. ``above`` is the same over the
    opening, up to the runner of the next drawer or the case top. ``uprights`` are the frame's members left and right, ``rails``
    those below and above.
    """

    drawer: DrawerRole
    bank: int
    opening: Opening
    wish: DrawerWish
    left: Dimension
    floor: Dimension
    guide_left: Dimension
    guide_right: Dimension
    cavity: Cavity
    below: Dimension
    above: Dimension
    uprights: tuple[PartRole, PartRole]
    rails: tuple[PartRole, PartRole]
    is_lowest: bool
    is_topmost: bool

    @property
    def name(self) -> str:
        """``drawer 3``."""
        return self.drawer.name

    def upright(self, hand: Hand) -> PartRole:
        """The stile or mullion at that hand."""
        return self.uprights[hand is Hand.RIGHT]

    def guide(self, hand: Hand) -> Dimension:
        """From the wood at that hand to the opening."""
        return self.guide_left if hand is Hand.LEFT else self.guide_right


def slots_in(bay: Bay, cavity: Cavity, sizes: CaseSizes, wishes: Sequence[DrawerWish], *, is_last: bool) -> tuple[Slot, ...]:
    """The slots of one bank, from the top down; ``is_last`` of the bank at the right.

    RN-2: the guide is as thick as the frame covers the case at that side. Raises Refused where the frame doesn't cover the case:
    then wooden runners can't work.
    """
    guides = (
        (bay.left - cavity.left).named(f"bank {bay.number} left guide", "RN-2", "by geometry"),
        (cavity.right - bay.right).named(f"bank {bay.number} right guide", "RN-2", "by geometry"),
    )
    for guide, hand, wood in zip(guides, (Hand.LEFT, Hand.RIGHT), (cavity.left_wood, cavity.right_wood), strict=True):
        _refuse_uncovered(guide, hand, wood, bay, wishes[0].shop.rule)
    depth = (sizes.front + sizes.inside_depth).named("opening depth, from the face of the frame to the case back", "DR-5")
    uprights = (
        PartRole(PartKind.MULLION, number=bay.number - 1) if bay.number > 1 else PartRole(PartKind.STILE, hand=Hand.LEFT),
        PartRole(PartKind.STILE, hand=Hand.RIGHT) if is_last else PartRole(PartKind.MULLION, number=bay.number),
    )
    between = [PartRole(PartKind.RAIL, drawer) for drawer in bay.drawers[:-1]]
    rails = [PartRole(PartKind.RAIL, hand=Hand.TOP), *between, PartRole(PartKind.RAIL, hand=Hand.BOTTOM)]
    slots, last = [], len(bay.drawers) - 1
    for n, (drawer, wish) in enumerate(zip(bay.drawers, wishes, strict=True)):
        name = drawer.name
        lowest, topmost = n == last, n == 0
        floor, height = bay.floors[n], bay.heights[n]
        slots.append(
            Slot(
                drawer=drawer,
                bank=bay.number,
                opening=Opening(bay.width.named(f"{name} opening width", "DR-7"), height, depth),
                wish=wish,
                left=bay.left,
                floor=floor,
                guide_left=guides[0],
                guide_right=guides[1],
                cavity=cavity,
                below=(floor - sizes.floor).named(f"{name} floor above the case bottom", "RN-3") if lowest else bay.rail,
                above=(sizes.ceiling - floor - height).named(f"{name} opening to the case top", "RN-3") if topmost else bay.rail,
                uprights=uprights,
                rails=(rails[n + 1], rails[n]),
                is_lowest=lowest,
                is_topmost=topmost,
            )
        )
    return tuple(slots)


def _refuse_uncovered(guide: Dimension, hand: Hand, wood: PartRole, bay: Bay, rule: Graduation) -> None:
    if guide.mm >= 0:
        return
    member = PartKind.STILE if wood.kind is PartKind.CASE_SIDE else PartKind.MULLION
    raise refusal(
        "runners",
        f"The frame leaves {{short}} of the {wood.name} in the opening at its {hand.value}, so the drawers of this bank would "
        "run "
        "against it.",
        f"Make the {member.value} at least {{more}} wider, or the case's sides thinner.", "RN-2", "by geometry",
        short=-guide, more=rounded_up(-guide if member is PartKind.STILE else -2 * guide, rule),
    ).at(f"bank {bay.number}")  # fmt: skip
