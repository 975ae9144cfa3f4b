"""What stands over and under a drawer in the piece: its kicker and its stop blocks, found where they are placed."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.boards import Hand, PartKind
from joinlay.boards.extent import SpaceBox
from joinlay.lengths import ZERO, Length

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.boards import Board
    from joinlay.casework.assembly import Assembly, Drawer
    from joinlay.shop import Shop

__all__ = ["Neighbours"]

#: Parts that a drawer may kick against.
_KICKS: Final = (PartKind.KICKER, PartKind.BEARER, PartKind.CASE_TOP)
#: Parts that keep a drawer from wandering sideways.
_GUIDES: Final = (PartKind.GUIDE, PartKind.CASE_SIDE, PartKind.CASE_PARTITION)
#: A drawer past its guide by more than this, in mm, isn't beside it.
_LEAST: Final = 5


class Neighbours:
    """What drawers kick against and are stopped by, among the boards of ``others``: measured once for a whole piece."""

    def __init__(self, others: Sequence[Assembly] = ()) -> None:
        """Take the case, frame, runners and stops; unplaced boards are passed over."""
        placed = [board for assembly in others for board in assembly.boards if board.place is not None]
        self._guides = [SpaceBox.around(board) for board in placed if board.role.kind in _GUIDES]
        self._kicks = [SpaceBox.around(board) for board in placed if board.role.kind in _KICKS]
        self._stops = [SpaceBox.around(board) for board in placed if board.role.kind is PartKind.STOP_BLOCK]

    def guide_play(self, drawer: Drawer) -> Length | None:
        """Both sides together, what the drawer's sides have between the guides beside them; None where either side has none (RN-2, DR-6).

        Where no guide was needed the case's own side guides.
        """
        gaps = []
        for hand in (Hand.LEFT, Hand.RIGHT):
            side = drawer.side(hand)
            place = side.place
            if place is None:
                return None
            box = SpaceBox.around(side)
            # The outer face at its front; a leaning side's box would take in more than it fills.
            face = place.point(ZERO, ZERO, side.thickness)[0]
            level = [one for one in self._guides if one.is_beside(box)]
            beside = [face - one.high[0] if hand is Hand.LEFT else one.low[0] - face for one in level]
            near = [gap for gap in beside if gap >= -_LEAST]
            if not near:
                return None
            gaps.append(min(near))
        return Length(gaps[0] + gaps[1])

    def kicker_gap(self, drawer: Drawer) -> Length | None:
        """From the top of the drawer's sides to the lowest kicker above them; None where the piece has none (RN-3, RN-5).

        Where no kicker was needed, the bearer of the drawer above or the case top kicks.
        """
        side = _side(drawer)
        if side is None:
            return None
        over = [box.low[2] for box in self._kicks if box.low[2] >= side.high[2] and box.is_over(side)]
        return Length(min(over) - side.high[2]) if over else None

    def stop_height(self, drawer: Drawer, shop: Shop) -> Length:
        """How much of the room under the bottom its stop blocks take, their clearance included; nothing without stops (ST-3)."""
        side, bottom = _side(drawer), _box_of(drawer.bottom)
        if side is None or bottom is None:
            return ZERO
        foot, top = side.low[2], side.high[2]
        # Only those under this drawer: a bank beside it has its own, at other heights.
        stops = [box.high[2] - foot for box in self._stops if foot < box.high[2] < top and box.is_over(bottom)]
        return Length(max(stops)) + shop.practice.length("stop clearance") if stops else ZERO


def _side(drawer: Drawer) -> SpaceBox | None:
    return _box_of(drawer.side(Hand.LEFT))


def _box_of(board: Board) -> SpaceBox | None:
    return None if board.place is None else SpaceBox.around(board)
