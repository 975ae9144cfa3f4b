"""The openings of a piece: each bank between its uprights, and each drawer's slot: its opening, and what its runners go
between.
"""

from __future__ import annotations

from itertools import count
from typing import TYPE_CHECKING, Final

from joinlay.boards import DrawerRole, Hand, PartKind, PartRole, Surface
from joinlay.casework.graduation import ACROSS, Equal, Rounding, opening_heights, room_for_openings
from joinlay.casework.opening import Opening
from joinlay.casework.row import RowWish, divide_row, name_of_row
from joinlay.errors import BadInput
from joinlay.findings import larger, refusal
from joinlay.lengths import rounded_up
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.casework.case import Case, Cavity
    from joinlay.casework.graduation import Heights
    from joinlay.casework.opening import DrawerMake
    from joinlay.casework.row import Row, RowPlace
    from joinlay.lengths import Dimension, Graduation
    from joinlay.shop import Shop, TenonStock

__all__ = ["BankWish", "Bay", "DrawerWish", "OpenBay", "Slot", "lay_out_bays", "slots_in"]


@dataclass(frozen=True, slots=True)
class BankWish:
    """What the maker asks of a bank: how it is divided, how the division is rounded, and the height of the rails between.

    ``rail`` None: as high as the frame's, and ``mullion``, between two drawers of a row, as wide as the frame's. ``first`` is the
    number of its topmost drawer, ``first_open`` that of its topmost open bay. ``rows`` are its rows from the top down, as many as
    openings in its height; none: one drawer each.
    """

    heights: Heights
    rounding: Rounding | None = None
    rail: Dimension | None = None
    first: int = 1
    rows: tuple[RowWish, ...] = ()
    mullion: Dimension | None = None
    first_open: int = 1

    @property
    def places_by_row(self) -> tuple[tuple[RowPlace, ...], ...]:
        """What stands in each row from the top down, from the left: drawers and open bays, each numbered through."""
        numbers, opens = count(self.first), count(self.first_open)
        return tuple(
            tuple(next(opens) if n in row.open_places else DrawerRole(next(numbers)) for n in range(1, row.place_count + 1))
            for row in self.all_rows
        )

    @property
    def all_rows(self) -> tuple[RowWish, ...]:
        """Its rows from the top down, also where none was asked for."""
        return self.rows or (RowWish(),) * self.heights.count


@dataclass(frozen=True, slots=True)
class Bay:
    """One bank's openings in the frame, row by row from the top down.

    ``left`` is the left of the openings from the frame's left edge, ``width`` their width. ``rail`` is the height of the rails
    between rows, ``mullion`` the width of the uprights between drawers of a row.
    """

    number: int
    rows: tuple[Row, ...]
    left: Dimension
    width: Dimension
    rail: Dimension
    mullion: Dimension

    @property
    def drawers(self) -> tuple[DrawerRole, ...]:
        """Those that go in, from the top down, and each row from the left."""
        return tuple(drawer for row in self.rows for drawer in row.drawers)

    @property
    def floors(self) -> tuple[Dimension, ...]:
        """The tops of the rails under its rows, above the frame's underside."""
        return tuple(row.floor for row in self.rows)

    @property
    def heights(self) -> tuple[Dimension, ...]:
        """Its rows' heights."""
        return tuple(row.height for row in self.rows)

    @property
    def right(self) -> Dimension:
        """The right of the openings, from the frame's left edge."""
        return self.left + self.width

    def has_panel_under(self, n: int) -> bool:
        """True where a dust panel lies under row ``n``: where that, or the one below it, is parted or open. Never under the
        last.
        """
        return n + 1 < len(self.rows) and (self.rows[n].needs_panels or self.rows[n + 1].needs_panels)


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
    """The banks side by side in a frame ``width`` by ``height``, ``mullion`` between each two (DR-7), their rows parted (RO-1).

    ``widths`` divides the width as heights are divided, from the left; None: alike. Openings and wood fill the frame exactly,
    both ways. Raises Refused where they don't fit, BadInput where ``widths`` isn't for as many banks.
    """
    if not banks:
        raise BadInput("a piece was asked with no drawers; describe one bank at least.")
    across = room_for_openings(width, stile, stile, [mullion] * (len(banks) - 1), "frame width's", across=True)
    names = [f"bank {n}" if len(banks) > 1 else "bank" for n in range(1, len(banks) + 1)]
    sizes = opening_heights(widths or Equal(len(banks)), across, names=names, divided=ACROSS)
    bays, left = [], stile
    for number, (wish, name, wide) in enumerate(zip(banks, names, sizes, strict=True), start=1):
        between = wish.rail if wish.rail is not None else rail
        parting = wish.mullion if wish.mullion is not None else mullion
        room = room_for_openings(height, top_rail, bottom_rail, [between] * (wish.heights.count - 1), name)
        places = wish.places_by_row
        called = [name_of_row(row) for row in places]
        heights = opening_heights(wish.heights, room, names=called, rounding=wish.rounding)
        landing = None if wish.rounding is None else Rounding(wish.rounding.rule)
        at = left.named(f"{name} left of the openings", "FF-2")
        floors = _floors(called, heights, between, bottom_rail)
        rows = tuple(
            divide_row(row, own, floor, high, at, wide, parting, landing)
            for row, own, floor, high in zip(wish.all_rows, places, floors, heights, strict=True)
        )
        bays.append(Bay(number=number, rows=rows, left=at, width=wide, rail=between, mullion=parting))
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
class OpenBay:
    """An open bay in its place (SH-1): its ``number`` through the piece, the ``bank`` it is of, and the opening before it,
    ``left`` from the frame's left edge and ``floor`` above its underside. ``row`` is the row it is of, where drawers may stand
    beside it.
    """

    number: int
    bank: int
    left: Dimension
    floor: Dimension
    width: Dimension
    height: Dimension
    row: Row


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
    it may be high: the rail's height, or the way down to the panel that it stands over. ``above`` is the same over the opening,
    up to the runner of the next drawer or the panel. ``uprights`` are the frame's members left and right, ``rails`` those below
    and above. ``ground`` and ``roof`` are the panels under and over it, of the case or between rows; None where only a rail parts
    it from the next drawer. ``is_there`` where frame and case were there before, so that nothing can be asked of them.
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
    ground: PartRole | None
    roof: PartRole | None
    is_there: bool = False

    @property
    def name(self) -> str:
        """``drawer 3``."""
        return self.drawer.name

    @property
    def is_lowest(self) -> bool:
        """True where no other drawer's runners are under it: it stands over a panel."""
        return self.ground is not None

    @property
    def is_topmost(self) -> bool:
        """True where no other drawer's runners are over it: a panel is."""
        return self.roof is not None

    def is_shared(self, hand: Hand) -> bool:
        """True where no wood stands at that hand, but a double bearer lies on the panel, for this drawer and the next (RO-1)."""
        return self.cavity.wood(hand) == self.ground

    def upright(self, hand: Hand) -> PartRole:
        """The stile or mullion at that hand."""
        return self.uprights[hand is Hand.RIGHT]

    def upright_facing(self, hand: Hand) -> Surface:
        """The surface that upright turns to the opening: where no frame covers it, the wood of the case itself."""
        kind = self.upright(hand).kind
        if kind not in (PartKind.STILE, PartKind.MULLION):
            return self.cavity.facing(hand)
        return Surface.FAR_EDGE if kind is PartKind.MULLION and hand is Hand.LEFT else Surface.EDGE

    def guide(self, hand: Hand) -> Dimension:
        """From the wood at that hand to the opening."""
        return self.guide_left if hand is Hand.LEFT else self.guide_right


def slots_in(bay: Bay, case: Case, wishes: Sequence[DrawerWish], *, is_last: bool) -> tuple[Slot, ...]:
    """The slots of one bank, from the top down and each row from the left; ``is_last`` of the bank at the right.

    RN-2: the guide is as thick as the frame covers the case at that side. Raises Refused where the frame doesn't cover the case:
    then wooden runners can't work.
    """
    depth = (case.sizes.front + case.sizes.inside_depth).named(
        "opening depth, from the face of the frame to the case back", "DR-5"
    )
    outer = (
        PartRole(PartKind.MULLION, number=bay.number - 1) if bay.number > 1 else PartRole(PartKind.STILE, hand=Hand.LEFT),
        PartRole(PartKind.STILE, hand=Hand.RIGHT) if is_last else PartRole(PartKind.MULLION, number=bay.number),
    )
    rails = [PartRole(PartKind.RAIL, hand=Hand.TOP), *(row.under(PartKind.RAIL) for row in bay.rows[:-1])]
    rails.append(PartRole(PartKind.RAIL, hand=Hand.BOTTOM))
    slots, own = [], iter(wishes)
    for n, row in enumerate(bay.rows):
        members = [outer[0], *row.partings(PartKind.MULLION), outer[1]]
        for place, drawer in enumerate(row.places):
            if not isinstance(drawer, DrawerRole):
                continue
            wish, name, cell = next(own), drawer.name, case.cells[drawer]
            left, right = row.lefts[place], row.lefts[place] + row.widths[place]
            label = f"bank {bay.number}" if not row.is_parted else name
            guides = (
                (left - cell.cavity.left).named(f"{label} left guide", "RN-2", "by geometry"),
                (cell.cavity.right - right).named(f"{label} right guide", "RN-2", "by geometry"),
            )
            woods = (cell.cavity.left_wood, cell.cavity.right_wood)
            for guide, hand, wood in zip(guides, (Hand.LEFT, Hand.RIGHT), woods, strict=True):
                _refuse_uncovered(guide, hand, wood, label, wish.shop.rule)
            below = bay.rail if cell.floor is None else row.floor - cell.floor
            above = bay.rail if cell.ceiling is None else cell.ceiling - row.floor - row.height
            if cell.ground is not None:
                below = below.named(f"{name} floor above the {_PANEL[cell.ground.kind]}", "RN-3")
            if cell.roof is not None:
                above = above.named(f"{name} opening to the {_PANEL[cell.roof.kind]}", "RN-3")
            slots.append(
                Slot(
                    drawer=drawer,
                    bank=bay.number,
                    opening=Opening(row.widths[place].named(f"{name} opening width", "DR-7"), row.height, depth),
                    wish=wish,
                    left=left,
                    floor=row.floor,
                    guide_left=guides[0],
                    guide_right=guides[1],
                    cavity=cell.cavity,
                    below=below,
                    above=above,
                    uprights=(members[place], members[place + 1]),
                    rails=(rails[n + 1], rails[n]),
                    ground=cell.ground,
                    roof=cell.roof,
                )
            )
    return tuple(slots)


#: What a panel under or over a drawer is called there.
_PANEL: Final = {PartKind.CASE_BOTTOM: "case bottom", PartKind.CASE_TOP: "case top", PartKind.DUST_PANEL: "dust panel"}


def _refuse_uncovered(guide: Dimension, hand: Hand, wood: PartRole, where: str, rule: Graduation) -> None:
    if guide.mm >= 0:
        return
    member = PartKind.STILE if wood.kind is PartKind.CASE_SIDE else PartKind.MULLION
    more = rounded_up(-guide if member is PartKind.STILE else -2 * guide, rule)
    runs = "the drawer would" if wood.is_in_a_row else "the drawers of this bank would"
    raise (
        refusal(
            "runners",
            f"The frame leaves {{short}} of the {wood.name} in the opening at its {hand.value}, so {runs} run against it.",
            f"Make the {member.value} at least {{more}} wider, or the case's sides thinner.",
            "RN-2",
            "by geometry",
            short=-guide,
            more=more,
        )
        .at(where)
        .by(larger("frame", member.value, more))
    )
