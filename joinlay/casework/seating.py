"""Seating a drawer in its slot: moved there, its back notched for the stops, and every gap around it said."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from joinlay.boards import Surface
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


def seat_drawer(piece: Piece, slot: Slot, drawer: Drawer) -> tuple[Drawer, tuple[Meeting, ...]]:
    """``drawer``, planned for the slot's opening, closed in its slot; and where it meets the piece.

    Its back is notched where the stop blocks must pass (ST-1). Rules RN-1 to RN-3, ST-2, ST-3, DR-1.
    """
    seated = drawer.moved(slot.left, NOTHING, slot.floor)
    blocks = piece.blocks(slot.name)
    back = notch_back(seated.board("back"), blocks, slot.wish.shop.practice)
    if back.cuts != seated.board("back").cuts:
        seated = with_board(seated, back)
    found = (*_in_frame(slot, seated), *_on_runners(slot, seated, piece.runners.of[slot.name]), *_at_stops(seated, blocks))
    return seated, found


def with_board(drawer: Drawer, board: Board) -> Drawer:
    """``drawer`` with ``board`` in the place of its own of that name; no rule."""
    boards = tuple(board if own.name == board.name else own for own in drawer.assembly.boards)
    return replace(drawer, assembly=replace(drawer.assembly, boards=boards))


def _in_frame(slot: Slot, drawer: Drawer) -> Iterator[Meeting]:
    front = drawer.board("front")
    left, right = slot.uprights
    at_left = Surface.FAR_EDGE if "mullion" in left else Surface.EDGE
    below, above = slot.rails
    clearance = drawer.side_clearance
    yield meeting(f"{front.name} at the {left}", (front, Surface.END), (left, at_left), clearance, "DR-1")
    yield meeting(f"{front.name} at the {right}", (front, Surface.FAR_END), (right, Surface.EDGE), clearance, "DR-1")
    yield meeting(
        f"{front.name} over the {below}", (front, Surface.EDGE), (below, Surface.FAR_EDGE), drawer.bottom_clearance, "DR-2"
    )
    yield meeting(
        f"{front.name} under the {above}", (front, Surface.FAR_EDGE), (above, Surface.EDGE), drawer.top_clearance, "DR-1"
    )


def _on_runners(slot: Slot, drawer: Drawer, runners: SlotRunners) -> Iterator[Meeting]:
    hands = (
        ("left", runners.bears_left, runners.kicks_left, slot.guide_left, slot.cavity.left_wood),
        ("right", runners.bears_right, runners.kicks_right, slot.guide_right, slot.cavity.right_wood),
    )
    for hand, bears, kicks, guide, wood in hands:
        side = drawer.board(f"{hand} side")
        yield meeting(f"{side.name} on the {bears}", (side, Surface.EDGE), (bears, Surface.FACE), rule="RN-1")
        if guide:
            beside, surface = f"runners {slot.name} {hand} guide", Surface.FAR_EDGE
        else:
            beside, surface = wood, Surface.FAR_FACE if "partition" in wood and hand == "left" else Surface.FACE
        for where, at, more in (("front", NOTHING, NOTHING), ("back", side.length, drawer.taper / 2)):
            one = Side(side.name, Surface.FAR_FACE, at=at)
            gap = drawer.side_clearance + more if more else drawer.side_clearance
            yield Meeting(f"{side.name} beside the {beside}, at its {where}", one, Side(beside, surface), gap, "DR-6")
        under = Surface.FACE if kicks == "case top" else Surface.FAR_FACE if kicks.endswith("bearer") else Surface.EDGE
        lower = slot.opening.height - drawer.top_clearance - side.width
        gap = runners.kicker_gap + lower if lower else runners.kicker_gap
        yield meeting(f"{side.name} under the {kicks}", (side, Surface.FAR_EDGE), (kicks, under), gap, "RN-3")


def _at_stops(drawer: Drawer, blocks: tuple[Board, ...]) -> Iterator[Meeting]:
    front, bottom = drawer.board("front"), drawer.board("bottom")
    for block in blocks:
        yield meeting(f"{front.name} against the {block.name}", (front, Surface.FACE), (block, Surface.FACE), rule="ST-2")
        groove = bottom_groove(drawer.board("left side"), bottom.name)
        gap = groove.across.start - block.width
        yield meeting(f"{bottom.name} over the {block.name}", (bottom, Surface.FAR_FACE), (block, Surface.FAR_EDGE), gap, "ST-3")
