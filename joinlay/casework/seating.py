"""Seating a drawer in its slot: moved there, its back notched for the stops, and every gap around it said."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Protocol

from joinlay.boards import CutUse, Hand, PartKind, PartRole, Surface
from joinlay.boards.meeting import Facing, Meeting, Plane, Tie, Way, butted
from joinlay.casework.opening import BackHeight
from joinlay.casework.runners import has_guide
from joinlay.casework.stops import notch_back
from joinlay.lengths import NOTHING, ZERO, Length

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.boards import Board, DrawerRole
    from joinlay.casework.assembly import Drawer
    from joinlay.casework.bay import Slot
    from joinlay.casework.runners import Behind, Runners, RunnersAt

__all__ = ["seat_drawer", "with_board"]


class Around(Protocol):
    """What stands around a drawer: a whole piece, or the runners and stops of a case that was there."""

    @property
    def runners(self) -> Runners:
        """What each drawer rides on."""

    @property
    def behind(self) -> Behind:
        """Where the runners lie."""

    def blocks(self, drawer: DrawerRole) -> tuple[Board, ...]:
        """The stop blocks of a drawer."""


def seat_drawer(piece: Around, slot: Slot, drawer: Drawer) -> Drawer:
    """``drawer``, planned for the slot's opening, closed in its slot, with the meetings it has there.

    Its back is notched where the stop blocks must pass (ST-1). Rules RN-1 to RN-3, ST-2, ST-3, DR-1.
    """
    seated = drawer.moved(slot.left, NOTHING, slot.floor)
    blocks = piece.blocks(slot.drawer)
    back = notch_back(seated.back, blocks, slot.wish.shop.practice)
    if back.cuts != seated.back.cuts:
        seated = with_board(seated, back)
    found = (*_in_frame(slot, seated), *_on_runners(slot, seated, piece), *_at_stops(seated, blocks))
    assembly = seated.assembly
    return replace(seated, assembly=replace(assembly, meetings=(*assembly.meetings, *found)))


def with_board(drawer: Drawer, board: Board) -> Drawer:
    """``drawer`` with ``board`` in the place of its own of that role; no rule."""
    boards = tuple(board if own.role == board.role else own for own in drawer.assembly.boards)
    return replace(drawer, assembly=replace(drawer.assembly, boards=boards))


def _in_frame(slot: Slot, drawer: Drawer) -> Iterator[Meeting]:
    front, clearance = drawer.front, drawer.side_clearance
    below, above = slot.rails
    for surface, around, words, gap, rule in (
        (Surface.END, (slot.upright(Hand.LEFT), slot.upright_facing(Hand.LEFT)), "at the", clearance, "DR-1"),
        (Surface.FAR_END, (slot.upright(Hand.RIGHT), slot.upright_facing(Hand.RIGHT)), "at the", clearance, "DR-1"),
        (Surface.EDGE, (below, Surface.FAR_EDGE), "over the", drawer.bottom_clearance, "DR-2"),
        (Surface.FAR_EDGE, (above, Surface.EDGE), "under the", drawer.top_clearance, "DR-1"),
    ):
        yield butted((front, surface), around, words, gap=gap, rule=rule, tie=Tie.CLEARS)


def _on_runners(slot: Slot, drawer: Drawer, piece: Around) -> Iterator[Meeting]:
    runners = piece.runners.of[slot.drawer]
    is_back_low = drawer.make.back_height is BackHeight.FULL
    for hand in (Hand.LEFT, Hand.RIGHT):
        side, bears, kicks = drawer.side(hand), runners.at(hand).bears, runners.at(hand).kicks
        yield butted((side, Surface.EDGE), (bears, Surface.FACE), "on the", rule="RN-1", tie=Tie.RIDES)
        assert side.place is not None
        if side.place.origin[1] < piece.behind.front.mm:
            # Where the front laps over its end, a side begins over the rail.
            yield butted((side, Surface.EDGE), (slot.rails[0], Surface.FAR_EDGE), "on the", rule="RN-1", tie=Tie.RIDES)
        # A back that reaches down as far rides with its ends; where there is one board under both sides, it is on it once.
        if is_back_low and (hand is Hand.LEFT or bears != runners.left.bears):
            yield butted((drawer.back, Surface.EDGE), (bears, Surface.FACE), "on the", rule="RN-1", tie=Tie.RIDES)
        yield _guided(slot, drawer, side, hand, runners.at(hand))
        lower = slot.opening.height - drawer.top_clearance - side.width
        gap = runners.kicker_gap + lower if lower else runners.kicker_gap
        yield butted((side, Surface.FAR_EDGE), (kicks, runners.at(hand).kicked), "under the", gap=gap, rule="RN-3", tie=Tie.KICKS)


def _guided(slot: Slot, drawer: Drawer, side: Board, hand: Hand, runs: RunnersAt) -> Meeting:
    """A side beside its guide, or the case where no guide is needed; the gap is stated at both of its ends."""
    if runs.guide is not None:
        beside, surface, stands = runs.guide, runs.inner_edge, ZERO
    elif has_guide(slot, hand):
        beside, surface, stands = PartRole(PartKind.GUIDE, slot.drawer, hand), Surface.FAR_EDGE, ZERO
    else:
        beside, surface, stands = slot.cavity.wood(hand), slot.cavity.facing(hand), slot.guide(hand)
    facings = tuple(
        Facing(f"beside, at its {where}, the", Plane(Surface.FAR_FACE, at=at), Plane(surface), Length(gap), "DR-6")
        for where, at, gap in (
            ("front", NOTHING, stands.mm + drawer.side_clearance.mm),
            ("back", side.length, stands.mm + drawer.side_clearance.mm + drawer.taper.mm / 2),
        )
    )
    out = Way.LEFT if hand is Hand.LEFT else Way.RIGHT
    return Meeting(
        one=side.role, other=beside, facings=facings, closes=tuple(way for way in Way if way is not out.opposite), tie=Tie.GUIDED
    )


def _at_stops(drawer: Drawer, blocks: tuple[Board, ...]) -> Iterator[Meeting]:
    """The front comes to rest against its blocks, which the bottom passes over."""
    (groove,) = drawer.side(Hand.LEFT).cuts_of(CutUse.GROOVE)
    for block in blocks:
        yield butted((drawer.front, Surface.FACE), (block, Surface.FACE), "against the", rule="ST-2", tie=Tie.STOPPED)
        gap = groove.across.start - block.width
        under = (block, Surface.FAR_EDGE)
        over = next(bottom for bottom in drawer.bottoms if bottom.role.hand in (None, block.role.hand))
        yield butted((over, Surface.FAR_FACE), under, "over the", gap=gap, rule="ST-3", tie=Tie.CLEARS)
