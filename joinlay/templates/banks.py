"""The boards of a whole piece as sticks and drill templates need them: uprights, rails, and the drawers bank by bank."""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.boards import Hand, PartKind, Whole
from joinlay.records import dataclass
from joinlay.templates.piece_axes import PieceAxis, reach

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.boards import Board
    from joinlay.casework.assembly import Drawer
    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Fraction

__all__ = ["DrawerBank", "WholePiece", "whole_piece"]


@dataclass(frozen=True, slots=True)
class DrawerBank:
    """The drawers that stand over each other, from the top down."""

    drawers: tuple[Drawer, ...]

    @property
    def middle(self) -> Fraction:
        """Half-way across the bank, in X."""
        low, high = reach(self.drawers[0].front, PieceAxis.WIDTH)
        return (low + high) / 2

    def rows(self) -> tuple[tuple[int, str, Drawer], ...]:
        """Each drawer with its place from the top and its number, or what the maker calls it: (1, ``3``, drawer 3)."""
        return tuple(
            (row, drawer.role.title or str(drawer.role.number), drawer) for row, drawer in enumerate(self.drawers, start=1)
        )


@dataclass(frozen=True, slots=True)
class WholePiece:
    """A whole piece: its boards by assembly, and its banks from the left."""

    frame: tuple[Board, ...]
    case: tuple[Board, ...]
    runners: tuple[Board, ...]
    stops: tuple[Board, ...]
    banks: tuple[DrawerBank, ...]

    def frame_parts(self, *kinds: PartKind) -> tuple[Board, ...]:
        """The frame's boards of these ``kinds``: stiles, mullions, rails."""
        return tuple(board for board in self.frame if board.role.kind in kinds)

    def frame_reach(self, axis: PieceAxis) -> tuple[Fraction, Fraction]:
        """From where to where the frame reaches along ``axis``, in mm of the piece."""
        stiles = [reach(board, axis) for board in self.frame_parts(PartKind.STILE)]
        return min(low for low, _ in stiles), max(high for _, high in stiles)

    @property
    def uprights(self) -> tuple[Board, ...]:
        """The sides of the case and the partitions, from the left."""
        boards = (board for board in self.case if board.role.kind in (PartKind.CASE_SIDE, PartKind.CASE_PARTITION))
        return tuple(sorted(boards, key=lambda board: reach(board, PieceAxis.WIDTH)))

    def beside(self, bank: DrawerBank) -> dict[Hand, Board]:
        """The upright at the left of ``bank``, and the one at its right."""
        left = [board for board in self.uprights if reach(board, PieceAxis.WIDTH)[1] <= bank.middle]
        right = [board for board in self.uprights if reach(board, PieceAxis.WIDTH)[0] >= bank.middle]
        return {Hand.LEFT: left[-1], Hand.RIGHT: right[0]}

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
    """The piece of ``plan``; None where the job gives only openings, or its case was refused, or no drawer could be made."""
    found = {assembly.of: assembly.boards for assembly in plan.others}
    if Whole.FRAME not in found or not plan.drawers:
        return None
    banks: dict[Fraction, list[Drawer]] = {}
    for drawer in plan.drawers:
        # Drawers of one bank share their opening's left side, and nothing else of them need be alike.
        low, _ = reach(drawer.front, PieceAxis.WIDTH)
        banks.setdefault(low - drawer.side_clearance.mm, []).append(drawer)
    return WholePiece(
        frame=found[Whole.FRAME],
        case=found.get(Whole.CASE, ()),
        runners=found.get(Whole.RUNNERS, ()),
        stops=found.get(Whole.STOPS, ()),
        banks=tuple(DrawerBank(tuple(sorted(banks[at], key=_height, reverse=True))) for at in sorted(banks)),
    )


def _height(drawer: Drawer) -> Fraction:
    return reach(drawer.front, PieceAxis.HEIGHT)[0]


def _is_over(board: Board, bank: DrawerBank) -> bool:
    low, high = reach(board, PieceAxis.WIDTH)
    return low < bank.middle < high
