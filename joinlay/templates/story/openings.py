"""Sticks for drawers of which only the openings are known: each drawer in its own opening, up, across and front to back."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction
from joinlay.templates.reach import Way, reach
from joinlay.templates.story.across import across_drawer, along_drawer
from joinlay.templates.story.heights import pull_centres
from joinlay.templates.story.stick import Apex, Stick, Stretch

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.casework.assembly import Drawer

__all__ = ["opening_sticks"]

_ZERO: Final = Fraction(0)


def opening_sticks(drawers: Sequence[Drawer]) -> Iterator[Stick]:
    """Heights from the floor of the opening, widths from its left, depths from the face of the frame, for each of ``drawers``."""
    for drawer in drawers:
        front = drawer.board("front")
        centres = tuple(pull_centres(front, Way.HEIGHT, _ZERO))
        yield Stick(
            (drawer.name,), "heights", "floor of the opening", "top of the opening", "hold up in the opening", drawer.opening.height.mm,
            tuple(_up(drawer)), centres, "top", Apex.FAR,
        )  # fmt: skip
    for drawer in drawers:
        centres = tuple(pull_centres(drawer.board("front"), Way.WIDTH, _ZERO))
        yield Stick(
            (drawer.name,), "widths", "left of the opening", "right of the opening", "hold across the opening",
            drawer.opening.width.mm, tuple(across_drawer(drawer, _ZERO)), centres, "top", Apex.EDGE,
        )  # fmt: skip
    for drawer in drawers:
        zero = min(_ZERO, reach(drawer.board("front"), Way.DEPTH)[0])
        yield Stick(
            (drawer.name,), "depths", "face of the frame", "back of the opening", "lay in the opening, front to back",
            drawer.opening.depth.mm - zero, tuple(along_drawer(drawer, zero)), (), "front", Apex.DATUM,
        )  # fmt: skip


def _up(drawer: Drawer) -> Iterator[Stretch]:
    """Front, side, bottom and back as they stand over each other."""
    for part, word, lane in (
        ("front", "front", 0),
        ("left side", "drawer side", 1),
        ("bottom", "bottom", 2),
        ("back", "back", 2),
    ):
        board = drawer.board(part)
        low, high = reach(board, Way.HEIGHT)
        yield Stretch(low, high, word, board.name, lane)
