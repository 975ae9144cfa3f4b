"""The boards of a whole piece as sticks and drill templates need them: uprights, rails, and the drawers bank by bank."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.boards import Hand, PartKind, Whole
from joinlay.boards.fastener import FastenerKind
from joinlay.casework.row import right_of
from joinlay.records import dataclass
from joinlay.templates.piece_axes import PieceAxis, reach

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from joinlay.boards import Board, PartRole
    from joinlay.casework.assembly import Drawer
    from joinlay.casework.bay import OpenBay
    from joinlay.casework.row import RowPlace
    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Fraction, Length

__all__ = ["DrawerBank", "WholePiece", "whole_piece"]


_UPRIGHTS: Final = (PartKind.CASE_SIDE, PartKind.CASE_PARTITION)


@dataclass(frozen=True, slots=True)
class DrawerBank:
    """The drawers that stand over each other, row by row from the top down, each row from the left; and its open bays."""

    by_row: tuple[tuple[Drawer, ...], ...]
    opens: tuple[OpenBay, ...] = ()

    @property
    def drawers(self) -> tuple[Drawer, ...]:
        """All of them, in that order."""
        return tuple(drawer for row in self.by_row for drawer in row)

    @property
    def middle(self) -> Fraction:
        """Half-way across the bank, in X."""
        spans = [reach(drawer.front, PieceAxis.WIDTH) for drawer in self.drawers]
        spans += ((bay.left.mm, bay.left.mm + bay.width.mm) for bay in self.opens)
        return (min(low for low, _ in spans) + max(high for _, high in spans)) / 2

    def rows(self) -> tuple[tuple[int, str, Drawer], ...]:
        """The first drawer of each row with the row's place from the top and its numbers, or what the maker calls them: (1,
        ``3``, drawer 3).
        """
        return tuple((n, ", ".join(map(_number, row)), row[0]) for n, row in enumerate(self.by_row, start=1))

    def rows_at(self, hand: Hand) -> tuple[tuple[int, str, Drawer], ...]:
        """The drawer of each row that is the last at that ``hand``, with the row's place and its own number; none where a place
        left open is.
        """
        at = 0 if hand is Hand.LEFT else -1
        ends = ((n, row[at]) for n, row in enumerate(self.by_row, start=1) if self.places_beside(row[at])[at] == row[at].role)
        return tuple((n, _number(drawer), drawer) for n, drawer in ends)

    def places_beside(self, drawer: Drawer) -> tuple[RowPlace, ...]:
        """The places of the row that ``drawer`` stands in, from the left, those left open among them (RO-1)."""
        held = next((bay.row.places for bay in self.opens if drawer.role in bay.row.places), None)
        return held or tuple(one.role for row in self.by_row if drawer in row for one in row)

    def place_before(self, drawer: Drawer, hand: Hand) -> RowPlace | None:
        """The place whose partition stands at that ``hand`` of ``drawer``: its own, or the one left of it; None at either end of
        the row.
        """
        places = self.places_beside(drawer)
        at = places.index(drawer.role) - (hand is Hand.LEFT)
        return places[at] if 0 <= at < len(places) - 1 else None

    def places_by_row(self) -> tuple[tuple[RowPlace, ...], ...]:
        """Every row that more than one place is in, from the left: those with drawers from the top down, then those without."""
        rows = [self.places_beside(row[0]) for row in self.by_row]
        rows += dict.fromkeys(bay.row.places for bay in self.opens if not bay.row.drawers)
        return tuple(row for row in rows if len(row) > 1)


@dataclass(frozen=True, slots=True)
class WholePiece:
    """A whole piece: its boards by assembly, and its banks from the left.

    ``nails`` are where they stand along each runner from its front end, where it is nailed (RN-4). ``is_there`` where frame and
    case were there before: then they are only as large as they were measured, and none of them is made.
    """

    frame: tuple[Board, ...]
    case: tuple[Board, ...]
    runners: tuple[Board, ...]
    stops: tuple[Board, ...]
    top: tuple[Board, ...]
    base: tuple[Board, ...]
    banks: tuple[DrawerBank, ...]
    nails: Mapping[PartRole, tuple[Length, ...]]
    is_there: bool = False

    def frame_parts(self, *kinds: PartKind) -> tuple[Board, ...]:
        """The frame's boards of these ``kinds``: stiles, mullions, rails."""
        return tuple(board for board in self.frame if board.role.kind in kinds)

    def frame_reach(self, axis: PieceAxis) -> tuple[Fraction, Fraction]:
        """From where to where the frame reaches along ``axis``, in mm of the piece."""
        stiles = [reach(board, axis) for board in self.frame_parts(PartKind.STILE) or self.frame]
        return min(low for low, _ in stiles), max(high for _, high in stiles)

    @property
    def uprights(self) -> tuple[Board, ...]:
        """The sides of the case and the partitions, from the left."""
        boards = (board for board in self.case if board.role.kind in _UPRIGHTS and not board.role.is_in_a_row)
        return tuple(sorted(boards, key=lambda board: reach(board, PieceAxis.WIDTH)))

    def beside(self, bank: DrawerBank) -> dict[Hand, Board]:
        """The upright at the left of ``bank``, and the one at its right."""
        left = [board for board in self.uprights if reach(board, PieceAxis.WIDTH)[1] <= bank.middle]
        right = [board for board in self.uprights if reach(board, PieceAxis.WIDTH)[0] >= bank.middle]
        return {Hand.LEFT: left[-1], Hand.RIGHT: right[0]}

    def partition_right_of(self, place: RowPlace) -> Board | None:
        """The partition between a ``place`` of a row and the next; None where it stands alone or at the right (RO-1)."""
        role = right_of(place, PartKind.CASE_PARTITION)
        return next((board for board in self.case if board.role == role), None)

    def mullion_right_of(self, place: RowPlace) -> Board | None:
        """The same for the upright in the frame."""
        role = right_of(place, PartKind.MULLION)
        return next((board for board in self.frame if board.role == role), None)

    @property
    def frame_uprights(self) -> tuple[Board, ...]:
        """Stiles, and mullions between banks, from the left."""
        boards = (board for board in self.frame_parts(PartKind.STILE, PartKind.MULLION) if not board.role.is_in_a_row)
        return tuple(sorted(boards, key=lambda board: reach(board, PieceAxis.WIDTH)))

    def is_shared(self, bank: DrawerBank, drawer: Drawer, hand: Hand) -> bool:
        """True where no wood stands beside ``drawer`` at that hand, but a double bearer lies under it and the next of its row
        (RO-1).
        """
        place = bank.place_before(drawer, hand)
        return place is not None and self.partition_right_of(place) is None

    def guide_beside(self, bank: DrawerBank, drawer: Drawer, hand: Hand) -> Board:
        """The guide that ``drawer`` shares with the next at that hand."""
        row = next(row for row in bank.by_row if drawer in row)
        owner = row[row.index(drawer) - (hand is Hand.LEFT)]
        return next(board for board in self.runners_of(owner, Hand.RIGHT) if board.role.kind is PartKind.GUIDE)

    def wood_beside(self, bank: DrawerBank, drawer: Drawer, hand: Hand) -> Board:
        """What stands beside ``drawer`` of ``bank`` at that hand: a side of the case, a partition between banks, or one in its
        row.
        """
        place = bank.place_before(drawer, hand)
        parting = None if place is None else self.partition_right_of(place)
        return parting if parting is not None else self.beside(bank)[hand]

    def rails(self, bank: DrawerBank) -> tuple[Board, ...]:
        """The rails over, between and under the openings of ``bank``, from the top down."""
        over = (board for board in self.frame_parts(PartKind.RAIL) if _is_over(board, bank))
        return tuple(sorted(over, key=lambda board: reach(board, PieceAxis.HEIGHT), reverse=True))

    def runners_of(self, drawer: Drawer, hand: Hand) -> tuple[Board, ...]:
        """The runners of ``drawer`` at its left or right ``hand``."""
        return tuple(board for board in self.runners if board.role.drawer == drawer.role and board.role.hand is hand)

    def bearer_of(self, drawer: Drawer, hand: Hand) -> Board | None:
        """The bearer that the side of ``drawer`` at this ``hand`` rides on; None where it rides on the bottom of the case."""
        return next((board for board in self.runners_of(drawer, hand) if board.role.kind is PartKind.BEARER), None)

    def blocks_of(self, drawer: Drawer) -> tuple[Board, ...]:
        """The stop blocks of ``drawer``, from the left."""
        return tuple(board for board in self._stops_of(drawer) if board.role.kind is PartKind.STOP_BLOCK)

    def strip_of(self, drawer: Drawer) -> Board | None:
        """The strip behind the rail that the blocks of ``drawer`` stand on; None where they stand on the bottom of the case."""
        return next((board for board in self._stops_of(drawer) if board.role.kind is PartKind.STOP_STRIP), None)

    def _stops_of(self, drawer: Drawer) -> Iterator[Board]:
        return (board for board in self.stops if board.role.drawer == drawer.role)


def whole_piece(plan: Plan) -> WholePiece | None:
    """The piece of ``plan``, made or there before; None where the job gives only openings, or its case was refused, or no
    drawer could be made.
    """
    found = {assembly.of: assembly.boards for assembly in plan.others}
    if plan.existing:
        found |= {of: tuple(board for board in plan.existing if board.role.whole is of) for of in (Whole.CASE, Whole.FRAME)}
    if Whole.FRAME not in found or not (plan.drawers or plan.opens):
        return None
    drawers = {drawer.role: drawer for drawer in plan.drawers}
    banks = (
        DrawerBank(
            tuple(tuple(drawers[role] for role in row) for row in bank), tuple(bay for bay in plan.opens if bay.bank == number)
        )
        for number, bank in enumerate(plan.rows, start=1)
    )
    return WholePiece(
        frame=found[Whole.FRAME],
        case=found.get(Whole.CASE, ()),
        runners=found.get(Whole.RUNNERS, ()),
        stops=found.get(Whole.STOPS, ()),
        top=found.get(Whole.TOP, ()),
        base=found.get(Whole.BASE, ()),
        banks=tuple(bank for bank in banks if bank.by_row or bank.opens),
        nails={
            met.one: met.along
            for met in plan.meetings
            if met.fastener is not None and met.fastener.kind is FastenerKind.NAIL and met.along
        },
        is_there=bool(plan.existing),
    )


def _number(drawer: Drawer) -> str:
    return drawer.role.title or str(drawer.role.number)


def _is_over(board: Board, bank: DrawerBank) -> bool:
    low, high = reach(board, PieceAxis.WIDTH)
    return low < bank.middle < high
