"""Stops: a strip behind each rail stiffens it and carries two blocks, which the drawer's front comes to rest against (ST-1 to
ST-4).
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from joinlay.boards import Board, Cut, CutKind, CutRole, CutUse, Datum, Hand, PartKind, PartRole, Place, Span, Surface, Whole
from joinlay.boards.meeting import Meeting, Tie, butted
from joinlay.casework.assembly import Assembly
from joinlay.casework.drawer_bottom import groove_offset
from joinlay.findings import Change, Refused, Remedy, at_least, at_most, figure, refusal, stock_of
from joinlay.lengths import NOTHING, ZERO, Length, dimension, smallest
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from joinlay.boards import DrawerRole
    from joinlay.casework.bay import Slot
    from joinlay.casework.runners import SlotRunners
    from joinlay.lengths import Dimension
    from joinlay.shop import Practice
    from joinlay.stock import Stock

__all__ = ["StopMake", "Stops", "make_stops", "notch_back"]

_ON_EDGE = Datum("front face", "lower edge", "left end", "back face", "upper edge", "right end")
_FLAT = Datum("upper face", "front edge", "left end", "lower face", "back edge", "right end")


@dataclass(frozen=True, slots=True)
class StopMake:
    """What strips and blocks are ripped from, how high the blocks stand (None: as usual), and how far a loaded bottom may
    ``sag``.
    """

    stock: Stock
    thickness: Dimension | None = None
    sag: Dimension = NOTHING


@dataclass(frozen=True, slots=True)
class Stops:
    """All strips and blocks of a piece, and the blocks by the drawer they stop."""

    assembly: Assembly
    of: Mapping[DrawerRole, tuple[Board, ...]]


def make_stops(
    make: StopMake, slots: Sequence[Slot], runners: Mapping[DrawerRole, SlotRunners], behind: Dimension, practice: Practice
) -> Stops:
    """Strips and blocks for every slot; ``behind`` is the back of the frame, in Y.

    ST-1: two blocks, near the drawer's sides. ST-2: their front is as far behind the face of the frame as the back of the drawer
    front. ST-3: they pass under the bottom. ST-4: they stand on a strip glued to the back of the rail, or on the case bottom
    where that is level with the rail. Raises Refused where a block can't pass, or doesn't reach up behind the front. Source:
    common practice.
    """
    return _StopMaker(make, tuple(slots), runners, behind, practice).made()


def notch_back(back: Board, blocks: Sequence[Board], practice: Practice) -> Board:
    """A drawer back that reaches down to the bearers, notched so that it passes the stop ``blocks`` on its way in and out.

    A back that stands on the bottom passes them as it is. Each notch is a margin wider than its block at both sides and a stop
    clearance higher; ST-1, our own choice. Both parts must be placed.
    """
    assert back.place is not None
    for n, block in enumerate(blocks, start=1):
        assert block.place is not None
        height = (block.width + practice.length("stop clearance")).named(
            f"{back.name} stop notch height", "ST-1", "our own choice"
        )
        foot, rail = back.place.origin[2], block.place.origin[2]
        if foot >= rail + height.mm:
            continue
        margin = practice.length("stop notch margin")
        left = dimension(Length(block.place.origin[0])) - Length(back.place.origin[0])
        start = left.named(f"{back.name} left end to stop block {n}", "ST-1", "by geometry") - margin
        along = Span(start, start + block.length + 2 * margin)
        cut = Cut(
            CutKind.SLOT,
            Surface.EDGE,
            along,
            Span(NOTHING, height),
            Span(NOTHING, back.thickness),
            CutRole(CutUse.STOP_NOTCH, block.role, number=n),
        )
        back = back.with_cuts(cut)
    return back


class _StopMaker:
    def __init__(
        self,
        make: StopMake,
        slots: tuple[Slot, ...],
        runners: Mapping[DrawerRole, SlotRunners],
        behind: Dimension,
        practice: Practice,
    ) -> None:
        self._make, self._slots, self._runners = make, slots, runners
        self._behind, self._practice = behind, practice
        self._boards: list[Board] = []
        self._meetings: list[Meeting] = []

    def made(self) -> Stops:
        of = {slot.drawer: self._slot(slot) for slot in self._slots}
        return Stops(Assembly(Whole.STOPS, tuple(self._boards), tuple(self._meetings)), of)

    def _slot(self, slot: Slot) -> tuple[Board, ...]:
        self._refuse_block(slot)
        front = self._block_front(slot)
        if slot.below:
            return self._blocks(slot, front, self._strip(slot, front))
        assert slot.ground is not None
        seat = (slot.ground, Surface.FACE)
        return self._blocks(slot, front, seat)

    def _thickness(self) -> Dimension:
        return self._make.thickness if self._make.thickness is not None else self._practice.length("stop thickness")

    def _block_front(self, slot: Slot) -> Dimension:
        """ST-2: from the face of the frame to the blocks."""
        wish = slot.wish
        back_of_front = wish.shop.practice.length("front set-back") + wish.make.front.thickness
        return back_of_front.named(f"{slot.name} face of the frame to the stop blocks", "ST-2", "common practice")

    def _refuse_block(self, slot: Slot) -> None:
        """ST-3, and that the front's back finds the block: it stands a clearance above the rail itself."""
        practice, block = slot.wish.shop.practice, self._thickness()
        rise, least = practice.length("bottom clearance of the front"), practice.length("stop overlap")
        groove = groove_offset(slot.wish.make.bottom, rise, slot.wish.shop)
        space = (groove - self._make.sag - practice.length("stop clearance")).named(
            f"{slot.name} space for a stop block", "ST-3", "common practice"
        )
        if block > space:
            # A block so low would not find the front.
            lower = "it {space} or lower, or " if space - rise >= least else ""
            refused = refusal(
                "stop block",
                f"A stop block {{block}} high does not pass under the bottom, which leaves "
                f"{'{space}' if space.mm > 0 else 'no room'}.",
                f"Make {lower}the groove at least {{more}} further from the edge.",
                "ST-3",
                "common practice",
                block=block,
                space=space,
                more=block - space,
            ).at(slot.name)
            raise self._with_remedies(refused, slot, groove, block, space)
        if block - rise < least:
            low = smallest(space, block)
            remedy = "Make it at least {needed} high, or the clearance under the front smaller."
            if rise + least > space:
                smaller = "the clearance under the front {most} at most, or " if space > least else ""
                remedy = f"Under the bottom there is room for {{space}}: make {smaller}the groove {{more}} further from the edge."
            reach = "reaches only {reach} up behind the front" if block > rise else "stays under the front"
            raise (
                refusal(
                    "stop block",
                    f"A stop block {{block}} high {reach}, which stands {{rise}} above the rail.",
                    remedy,
                    "ST-2",
                    "our own choice",
                    block=block,
                    reach=block - rise,
                    rise=rise,
                    needed=least + rise,
                    space=space,
                    most=space - least,
                    more=least + rise - space,
                )
                .at(slot.name)
                .by(
                    at_least("stops", "thickness", least + rise) if rise + least <= space else None,
                    at_most("practice", "bottom clearance of the front", low - least) if low > least else None,
                    at_least("practice", "groove offset", groove + least + rise - space) if rise + least > space else None,
                )
            )

    def _with_remedies(self, refused: Refused, slot: Slot, groove: Dimension, block: Dimension, space: Dimension) -> Refused:
        """The same refusal with the block that passes, and the groove that lets it."""
        rule = slot.wish.shop.rule
        lower, higher = rule.down(space), rule.up(groove + (block - space))
        ways = [Remedy("set the groove {higher} above the sides' bottom edge", (figure("groove offset", higher),))]
        if lower > ZERO:
            ways.insert(0, Remedy("make the blocks {lower} high", (Change("stops", "thickness", lower),)))
        numbers = {**refused.finding.numbers, "higher": higher, "lower": lower}
        return Refused(replace(refused.finding, numbers=numbers, remedies=tuple(ways)))

    def _strip(self, slot: Slot, front: Dimension) -> tuple[PartRole, Surface]:
        """The strip behind the rail: on edge as high as the rail lets it be, or flat where that is too thin for a block's
        seat.
        """
        role = PartRole(PartKind.STOP_STRIP, slot.drawer)
        name, left, right = role.name, *self._between(slot)
        lift = NOTHING if slot.is_lowest else self._practice.length("kicker lift")
        height = slot.below - lift if lift else slot.below
        thickness, seat = self._make.stock.thickness, self._practice.length("stop seat")
        behind = self._behind
        wanted = (front + seat - behind).named(f"{slot.name} strip, from front to back, at least", "ST-4", "our own choice")
        length = (right - left).named(f"{name} length", "ST-4", "by geometry")
        if thickness >= wanted:
            place = Place.at(left, behind, slot.floor - height, "+X", "+Z", "+Y")
            size = (length, height.named(f"{name} width", "ST-4", "common practice"))
        elif thickness <= height:
            place = Place.at(left, behind, slot.floor, "+X", "+Y", "-Z")
            size = (length, wanted.named(f"{name} width", "ST-4", "our own choice"))
        else:
            raise (
                refusal(
                    "stop strip",
                    "The strip behind the rail would have to be {wanted} deep to carry the stop blocks, and the stock is {stock} "
                    "thick.",
                    "Use strip stock at least {wanted} thick or at most {height}, or thinner fronts.",
                    "ST-4",
                    "by geometry",
                    wanted=wanted,
                    stock=thickness,
                    height=height,
                )
                .at(slot.name)
                .by(stock_of("stops", "stock", thinnest=wanted), stock_of("stops", "stock", thickest=height))
            )
        flat = thickness < wanted
        datum = _FLAT if flat else _ON_EDGE
        board = Board(
            role, self._make.stock.name, *size, thickness.named(f"{name} thickness", "ST-3", "by geometry"), datum, place=place
        )
        self._boards.append(board)
        near = Surface.EDGE if flat else Surface.FACE
        self._glue(board, near, (slot.rails[0], Surface.FAR_FACE))
        self._lay(slot, board, flat=flat)
        return role, Surface.FACE if flat else Surface.FAR_EDGE

    def _lay(self, slot: Slot, board: Board, *, flat: bool) -> None:
        """The ends of a strip between the bearers, and between the strips under them where those are as thick as the bearers are
        wide.
        """
        for end, hand in ((Surface.END, Hand.LEFT), (Surface.FAR_END, Hand.RIGHT)):
            found = self._runners[slot.drawer].at(hand)
            self._meetings.append(butted((board, end), (found.bears, found.inner_edge), "between the", rule="ST-4"))
            if found.under is not None and not flat:
                self._meetings.append(butted((board, end), (found.under, Surface.FAR_FACE), "between the", rule="ST-4"))
        down = Surface.FAR_FACE if flat else Surface.EDGE
        if slot.is_lowest and board.size(down.axis) == slot.below:
            self._meetings.append(butted((board, down), (PartRole(PartKind.CASE_BOTTOM), Surface.FACE), "on the", rule="ST-4"))

    def _between(self, slot: Slot) -> tuple[Dimension, Dimension]:
        found = self._runners[slot.drawer]
        return found.left.inner, found.right.inner

    def _blocks(self, slot: Slot, front: Dimension, seat: tuple[PartRole, Surface]) -> tuple[Board, ...]:
        left, right = self._between(slot)
        margin = self._practice.length("stop notch margin")
        third = (right - left - 2 * margin) / 3
        width = smallest(self._practice.length("stop width"), third).named(
            f"{slot.name} stop block width", "ST-1", "common practice"
        )
        made = []
        for hand, x in ((Hand.LEFT, left + margin), (Hand.RIGHT, right - margin - width)):
            role = PartRole(PartKind.STOP_BLOCK, slot.drawer, hand)
            name = role.name
            stock = self._make.stock
            board = Board(
                role,
                stock.name,
                width,
                self._thickness().named(f"{name} height", "ST-3"),
                stock.thickness.named(f"{name} thickness", "ST-4", "the stock's own"),
                _ON_EDGE,
                place=Place.at(x, front, slot.floor, "+X", "+Z", "+Y"),
            )
            self._boards.append(board)
            made.append(board)
            self._glue(board, Surface.EDGE, seat)
        return tuple(made)

    def _glue(self, board: Board, near: Surface, wood: tuple[PartRole, Surface]) -> None:
        """A strip or block glued on the wood with all of its surface ``near`` it."""
        glue = board.length.mm * (board.width if near is Surface.FACE else board.thickness).mm
        self._meetings.append(butted((board, near), wood, "on the", rule="ST-4", tie=Tie.GLUED, glue=glue))
