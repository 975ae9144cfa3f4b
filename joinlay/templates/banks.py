"""The boards of a whole piece as sticks and drill templates need them: uprights, rails, and the drawers bank by bank."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from joinlay.templates.piece_axes import PieceAxis, reach

if TYPE_CHECKING:
    from collections.abc import Sequence

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
        low, high = reach(self.drawers[0].board("front"), PieceAxis.WIDTH)
        return (low + high) / 2

    def rows(self) -> tuple[tuple[int, str, Drawer], ...]:
        """Each drawer with its place from the top and its number: (1, ``3``, drawer 3)."""
        return tuple((row, drawer.name.removeprefix("drawer "), drawer) for row, drawer in enumerate(self.drawers, start=1))


@dataclass(frozen=True, slots=True)
class WholePiece:
    """A whole piece: its boards by assembly, and its banks from the left."""

    frame: tuple[Board, ...]
    case: tuple[Board, ...]
    runners: tuple[Board, ...]
    stops: tuple[Board, ...]
    banks: tuple[DrawerBank, ...]

    def frame_parts(self, *parts: str) -> tuple[Board, ...]:
        """The frame's boards of these kinds: ``stile``, ``mullion``, ``rail``."""
        return tuple(board for board in self.frame if board.part in parts)

    def frame_reach(self, way: PieceAxis) -> tuple[Fraction, Fraction]:
        """From where to where the frame reaches."""
        stiles = [reach(board, way) for board in self.frame_parts("stile")]
        return min(low for low, _ in stiles), max(high for _, high in stiles)

    @property
    def uprights(self) -> tuple[Board, ...]:
        """The sides of the case and the partitions, from the left."""
        boards = (board for board in self.case if board.part in ("case side", "case partition"))
        return tuple(sorted(boards, key=lambda board: reach(board, PieceAxis.WIDTH)))

    def beside(self, bank: DrawerBank) -> tuple[Board, Board]:
        """The upright at the left of a bank, and the one at its right."""
        left = [board for board in self.uprights if reach(board, PieceAxis.WIDTH)[1] <= bank.middle]
        right = [board for board in self.uprights if reach(board, PieceAxis.WIDTH)[0] >= bank.middle]
        return left[-1], right[0]

    def rails(self, bank: DrawerBank) -> tuple[Board, ...]:
        """The rails over, between and under a bank's openings, from the top down."""
        over = (board for board in self.frame_parts("rail") if _is_over(board, bank))
        return tuple(sorted(over, key=lambda board: reach(board, PieceAxis.HEIGHT), reverse=True))

    def runners_of(self, drawer: Drawer, hand: str) -> tuple[Board, ...]:
        """The runners of one drawer at its ``left`` or ``right``."""
        return _of(self.runners, f"runners {drawer.name} {hand} ")

    def blocks_of(self, drawer: Drawer) -> tuple[Board, ...]:
        """The stop blocks of one drawer, from the left."""
        return tuple(board for board in _of(self.stops, f"stops {drawer.name} ") if board.part == "stop block")


def whole_piece(plan: Plan) -> WholePiece | None:
    """The piece of ``plan``; None where the job gives only openings, or its case was refused, or no drawer could be made."""
    found = {assembly.name: assembly.boards for assembly in plan.others}
    if "face frame" not in found or not plan.drawers:
        return None
    banks: dict[Fraction, list[Drawer]] = {}
    for drawer in plan.drawers:
        # Drawers of one bank share their opening's left side, and nothing else of them need be alike.
        low, _ = reach(drawer.board("front"), PieceAxis.WIDTH)
        banks.setdefault(low - drawer.side_clearance.mm, []).append(drawer)
    return WholePiece(
        frame=found["face frame"],
        case=found.get("case", ()),
        runners=found.get("runners", ()),
        stops=found.get("stops", ()),
        banks=tuple(DrawerBank(tuple(sorted(banks[at], key=_height, reverse=True))) for at in sorted(banks)),
    )


def _height(drawer: Drawer) -> Fraction:
    return reach(drawer.board("front"), PieceAxis.HEIGHT)[0]


def _is_over(board: Board, bank: DrawerBank) -> bool:
    low, high = reach(board, PieceAxis.WIDTH)
    return low < bank.middle < high


def _of(boards: Sequence[Board], beginning: str) -> tuple[Board, ...]:
    return tuple(board for board in boards if board.name.startswith(beginning))
