"""Seating a drawer in its slot: moved there, its back notched for the stops, and every gap around it said."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from joinlay.boards import CutKind, Surface
from joinlay.casework.meeting import Meeting, Side, meeting
from joinlay.casework.stops import notch_back
from joinlay.lengths import NOTHING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.boards import Board, Cut
    from joinlay.casework.assembly import Drawer
    from joinlay.casework.piece import Piece
    from joinlay.casework.runners import SlotRunners
    from joinlay.casework.slot import Slot

__all__ = ["drawer_meetings", "seat_drawer", "with_board"]


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


def drawer_meetings(drawer: Drawer) -> tuple[Meeting, ...]:
    """Where the parts of one drawer meet: bottom in its grooves, back in its dadoes, tenons in their mortises (GR-2, LR-3, LT-5).

    The ends of a tapered bottom lie on a slant, so their gap is given for straight drawers only.
    """
    return (*_bottom_in_grooves(drawer), *_back_in_dadoes(drawer), *_slips(drawer))


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
        groove = _groove(drawer.board("left side"), bottom.name)
        gap = groove.across.start - block.width
        yield meeting(f"{bottom.name} over the {block.name}", (bottom, Surface.FAR_FACE), (block, Surface.FAR_EDGE), gap, "ST-3")


def _bottom_in_grooves(drawer: Drawer) -> Iterator[Meeting]:
    bottom = drawer.board("bottom")
    for hand, end in (("left", Surface.END), ("right", Surface.FAR_END)):
        side = drawer.board(f"{hand} side")
        groove = _groove(side, bottom.name)
        wall = Side(side.name, Surface.FAR_EDGE, side.width - groove.across.start)
        yield Meeting(
            f"{bottom.name} on the groove of the {side.name}", Side(bottom.name, Surface.FAR_FACE), wall, NOTHING, "GR-2"
        )
        if not drawer.taper:
            floor = Side(side.name, Surface.FACE, groove.into.stop)
            room = drawer.inside_width / 2 + groove.into.stop - bottom.length / 2
            yield Meeting(f"{bottom.name} in the {side.name}", Side(bottom.name, end), floor, room, "GR-2")


def _back_in_dadoes(drawer: Drawer) -> Iterator[Meeting]:
    back = drawer.board("back")
    if drawer.taper:
        return
    for hand, end in (("left", Surface.END), ("right", Surface.FAR_END)):
        side = drawer.board(f"{hand} side")
        dado = next(cut for cut in side.cuts if cut.mate == back.name)
        room = drawer.inside_width / 2 + dado.into.stop - back.length / 2
        yield Meeting(
            f"{back.name} in the {side.name}", Side(back.name, end), Side(side.name, Surface.FACE, dado.into.stop), room, "LR-3"
        )


def _slips(drawer: Drawer) -> Iterator[Meeting]:
    front = drawer.board("front")
    for slip in (board for board in drawer.assembly.boards if board.part == "loose tenon"):
        hand, n = slip.name.split()[-3], slip.name.split()[-1]
        side = drawer.board(f"{hand} side")
        in_front, in_side = front.cut_named(f"{hand} mortise {n}"), side.cut_named(f"mortise {n}")
        room = (in_front.depth + in_side.depth - slip.length) / 2
        yield Meeting(
            f"{slip.name} in the front",
            Side(slip.name, Surface.END),
            Side(front.name, Surface.FACE, in_front.depth),
            room,
            "LT-5",
        )
        yield Meeting(
            f"{slip.name} in the side",
            Side(slip.name, Surface.FAR_END),
            Side(side.name, Surface.END, in_side.depth),
            room,
            "LT-5",
        )


def _groove(side: Board, bottom: str) -> Cut:
    return next(cut for cut in side.cuts if cut.kind is CutKind.GROOVE and cut.mate == bottom)
