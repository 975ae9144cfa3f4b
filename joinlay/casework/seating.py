"""Seating a drawer in its slot: moved there, its back notched for the stops, and every gap around it said."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.boards import Hand, PartKind, PartRole, Surface
from joinlay.casework.meeting import Meeting, Side, meeting
from joinlay.casework.stops import notch_back
from joinlay.casework.within_drawer import bottom_groove
from joinlay.lengths import NOTHING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.boards import Board
    from joinlay.casework.assembly import Drawer
    from joinlay.casework.piece import Piece
    from joinlay.casework.runners import SlotRunners
    from joinlay.casework.slot import Slot

__all__ = ["seat_drawer", "with_board"]

#: The surface that a part a drawer kicks against turns down.
_UNDER: Final = {PartKind.CASE_TOP: Surface.FACE, PartKind.BEARER: Surface.FAR_FACE, PartKind.KICKER: Surface.EDGE}


def seat_drawer(piece: Piece, slot: Slot, drawer: Drawer) -> tuple[Drawer, tuple[Meeting, ...]]:
    """``drawer``, planned for the slot's opening, closed in its slot; and where it meets the piece.

    Its back is notched where the stop blocks must pass (ST-1). Rules RN-1 to RN-3, ST-2, ST-3, DR-1.
    """
    seated = drawer.moved(slot.left, NOTHING, slot.floor)
    blocks = piece.blocks(slot.name)
    back = notch_back(seated.back, blocks, slot.wish.shop.practice)
    if back.cuts != seated.back.cuts:
        seated = with_board(seated, back)
    found = (*_in_frame(slot, seated), *_on_runners(slot, seated, piece.runners.of[slot.name]), *_at_stops(seated, blocks))
    return seated, found


def with_board(drawer: Drawer, board: Board) -> Drawer:
    """``drawer`` with ``board`` in the place of its own of that role; no rule."""
    boards = tuple(board if own.role == board.role else own for own in drawer.assembly.boards)
    return replace(drawer, assembly=replace(drawer.assembly, boards=boards))


def _in_frame(slot: Slot, drawer: Drawer) -> Iterator[Meeting]:
    front = drawer.front
    left, right = slot.uprights
    at_left = Surface.FAR_EDGE if left.kind is PartKind.MULLION else Surface.EDGE
    below, above = slot.rails
    clearance = drawer.side_clearance
    yield meeting(f"{front.name} at the {left.name}", (front, Surface.END), (left, at_left), clearance, "DR-1")
    yield meeting(f"{front.name} at the {right.name}", (front, Surface.FAR_END), (right, Surface.EDGE), clearance, "DR-1")
    yield meeting(
        f"{front.name} over the {below.name}", (front, Surface.EDGE), (below, Surface.FAR_EDGE), drawer.bottom_clearance, "DR-2"
    )
    yield meeting(
        f"{front.name} under the {above.name}", (front, Surface.FAR_EDGE), (above, Surface.EDGE), drawer.top_clearance, "DR-1"
    )


def _on_runners(slot: Slot, drawer: Drawer, runners: SlotRunners) -> Iterator[Meeting]:
    hands = (
        (Hand.LEFT, runners.bears_left, runners.kicks_left),
        (Hand.RIGHT, runners.bears_right, runners.kicks_right),
    )
    for hand, bears, kicks in hands:
        side = drawer.side(hand)
        yield meeting(f"{side.name} on the {bears.name}", (side, Surface.EDGE), (bears, Surface.FACE), rule="RN-1")
        if slot.guide(hand):
            beside, surface = PartRole(PartKind.GUIDE, slot.drawer, hand), Surface.FAR_EDGE
        else:
            beside, surface = slot.cavity.wood(hand), slot.cavity.facing(hand)
        for where, at, more in (("front", NOTHING, NOTHING), ("back", side.length, drawer.taper / 2)):
            one = Side(side.name, Surface.FAR_FACE, at=at)
            gap = drawer.side_clearance + more if more else drawer.side_clearance
            yield Meeting(f"{side.name} beside the {beside.name}, at its {where}", one, Side(beside.name, surface), gap, "DR-6")
        under = _UNDER[kicks.kind]
        lower = slot.opening.height - drawer.top_clearance - side.width
        gap = runners.kicker_gap + lower if lower else runners.kicker_gap
        yield meeting(f"{side.name} under the {kicks.name}", (side, Surface.FAR_EDGE), (kicks, under), gap, "RN-3")


def _at_stops(drawer: Drawer, blocks: tuple[Board, ...]) -> Iterator[Meeting]:
    front, bottom = drawer.front, drawer.bottom
    for block in blocks:
        yield meeting(f"{front.name} against the {block.name}", (front, Surface.FACE), (block, Surface.FACE), rule="ST-2")
        groove = bottom_groove(drawer.side(Hand.LEFT))
        gap = groove.across.start - block.width
        yield meeting(f"{bottom.name} over the {block.name}", (bottom, Surface.FAR_FACE), (block, Surface.FAR_EDGE), gap, "ST-3")
