"""Where the piece is cut through to be drawn, and which boards are near the cut."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.boards.extent import SpaceBox
from joinlay.geometry import overlap
from joinlay.lengths import Fraction

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from joinlay.boards import Board
    from joinlay.pen.marks import Box
    from joinlay.pictures.projecting import View
    from joinlay.pictures.scene import Mouth, Scene

__all__ = ["in_bank", "level_cut", "meeting_box", "near_cut"]

#: How far below the opening of the drawer that is cut there is wood worth drawing: its bearers.
_BELOW: Final = Fraction(60)


def level_cut(scene: Scene) -> Fraction:
    """The height at which the piece is cut level: through the first drawer's knobs, or the middle of its front where it has none. No rule."""
    front = scene.mouths[0].drawer.board("front")
    assert front.place is not None
    own = [knob.centre[2] for knob in scene.knobs if knob.pull.front == front.name]
    return own[0] if own else front.place.origin[2] + front.width.mm / 2


def near_cut(scene: Scene) -> tuple[Board, ...]:
    """The boards that the level cut goes through or that lie close below it; where only openings are given, the first drawer's. No rule."""
    if not scene.is_whole:
        return scene.mouths[0].drawer.assembly.boards
    cut, deep = level_cut(scene), scene.mouths[0].drawer.opening.height.mm + _BELOW
    return tuple(board for board in scene.boards if SpaceBox.around(board).high[2] > cut - deep)


def in_bank(scene: Scene, mouths: Sequence[Mouth]) -> list[Board]:
    """Case, frame and runners, and the drawers of ``mouths``; other banks stand beyond a partition or before the cut. No rule."""
    others = {board.name for mouth in scene.mouths if mouth not in mouths for board in mouth.drawer.assembly.boards}
    return [board for board in scene.boards if board.name not in others]


def meeting_box(boards: Iterable[Board], view: View, box: Box) -> list[Board]:
    """Those of ``boards`` that, looked at in ``view``, meet ``box`` (in mm of wood) at any depth. No rule."""
    return [board for board in boards if overlap(view.box(SpaceBox.around(board)), box)]
