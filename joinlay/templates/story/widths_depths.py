"""The sticks of widths and depths: what lies side by side from the left, and one behind the other from the face of the frame."""

from __future__ import annotations

from itertools import zip_longest
from typing import TYPE_CHECKING

from joinlay.boards import CutKind
from joinlay.templates.piece_axes import PieceAxis, centre_of, reach, reach_at_end
from joinlay.templates.story.heights import pull_centres
from joinlay.templates.story.stick import Apex, Centre, Stick, Stretch, merged

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.boards import Board
    from joinlay.casework.assembly import Drawer
    from joinlay.lengths import Fraction
    from joinlay.templates.banks import DrawerBank, WholePiece

__all__ = ["depth_sticks", "width_sticks"]


def width_sticks(whole: WholePiece) -> Iterator[Stick]:
    """The width over all at the face of the frame, from its left edge.

    In the first lane stiles and fronts, in the second case, guides and drawer sides, in the third bearers and stops. One stick
    shows one drawer of each bank; where drawers of a bank differ in their widths there are more sticks.
    """
    zero, end = whole.frame_reach(PieceAxis.WIDTH)
    fixed = [_wood(board, PieceAxis.WIDTH, zero, board.part, 0) for board in whole.frame_parts("stile", "mullion")]
    fixed += (_wood(board, PieceAxis.WIDTH, zero, board.part.removeprefix("case "), 1) for board in whole.uprights)
    kinds = [_kinds(whole, bank, zero, end) for bank in whole.banks]
    for chosen in zip_longest(*kinds):
        drawers = [stick for stick in chosen if stick is not None]
        yield _across_frame(
            names=tuple(name for stick in drawers for name in stick.names),
            length=end - zero,
            stretches=(*fixed, *(one for stick in drawers for one in stick.stretches)),
            centres=tuple(centre for stick in drawers for centre in stick.centres),
        )


def _across_frame(
    *, names: tuple[str, ...], length: Fraction, stretches: tuple[Stretch, ...], centres: tuple[Centre, ...]
) -> Stick:
    return Stick(
        names=names,
        measures="widths",
        datum="left edge of the frame",
        far="right edge of the frame",
        lies="hold across the front of the frame",
        length=length,
        stretches=stretches,
        centres=centres,
        top="top",
        apex=Apex.EDGE,
    )


def _kinds(whole: WholePiece, bank: DrawerBank, zero: Fraction, end: Fraction) -> tuple[Stick, ...]:
    """A bank's drawers by their widths: each kind once, with all it is for."""
    sticks = []
    for drawer in bank.drawers:
        stretches, centres = _drawer_widths(whole, drawer, zero)
        sticks.append(_across_frame(names=(drawer.name,), length=end - zero, stretches=stretches, centres=centres))
    return merged(sticks)


def _drawer_widths(whole: WholePiece, drawer: Drawer, zero: Fraction) -> tuple[tuple[Stretch, ...], tuple[Centre, ...]]:
    stretches = list(across_drawer(drawer, zero))
    for hand in ("left", "right"):
        for board in whole.runners_of(drawer, hand):
            if board.part in ("guide", "bearer"):
                stretches.append(_wood(board, PieceAxis.WIDTH, zero, board.part, 1 if board.part == "guide" else 2))
    stretches += (_wood(board, PieceAxis.WIDTH, zero, "stop", 2) for board in whole.blocks_of(drawer))
    return tuple(stretches), tuple(pull_centres(drawer.board("front"), PieceAxis.WIDTH, zero))


def across_drawer(drawer: Drawer, zero: Fraction) -> Iterator[Stretch]:
    """A drawer's front, and its sides where they meet it, from ``zero``."""
    yield _wood(drawer.board("front"), PieceAxis.WIDTH, zero, "front", 0)
    for hand in ("left", "right"):
        side = drawer.board(f"{hand} side")
        low, high = reach_at_end(side, PieceAxis.WIDTH)
        yield Stretch(low - zero, high - zero, "drawer side", side.name, 1)


def depth_sticks(whole: WholePiece) -> Iterator[Stick]:
    """The depth at each drawer, from the face of the frame or the front of a drawer that stands proud of it.

    Frame and case side, then front, back, stop and the case's back, then the drawer's side, then the bearer with its screws.
    """
    zero, _ = whole.frame_reach(PieceAxis.DEPTH)
    zero = min([zero, *(reach(drawer.board("front"), PieceAxis.DEPTH)[0] for bank in whole.banks for drawer in bank.drawers)])
    end = max(reach(board, PieceAxis.DEPTH)[1] for board in (*whole.case, *whole.frame))
    for bank in whole.banks:
        backs = [board for board in whole.case if board.part == "case back"]
        for drawer in bank.drawers:
            stretches = [
                _wood(whole.frame_parts("stile")[0], PieceAxis.DEPTH, zero, "frame", 0),
                _wood(whole.uprights[0], PieceAxis.DEPTH, zero, "case side", 0),
                *(_wood(board, PieceAxis.DEPTH, zero, "case back", 1) for board in backs),
                *along_drawer(drawer, zero),
                *(_wood(board, PieceAxis.DEPTH, zero, "stop", 1) for board in whole.blocks_of(drawer)[:1]),
            ]
            bearers = [board for board in whole.runners_of(drawer, "left") if board.part == "bearer"]
            stretches += (_wood(board, PieceAxis.DEPTH, zero, "bearer", 3) for board in bearers)
            centres = tuple(centre for board in bearers for centre in _screws(board, zero))
            yield Stick(
                names=(drawer.name,),
                measures="depths",
                datum="face of the frame",
                far="back of the case",
                lies="lay along the case, front to back",
                length=end - zero,
                stretches=tuple(stretches),
                centres=centres,
                top="front",
                apex=Apex.DATUM,
            )


def along_drawer(drawer: Drawer, zero: Fraction) -> Iterator[Stretch]:
    """A drawer's front, back and side from front to back, from ``zero``."""
    yield _wood(drawer.board("front"), PieceAxis.DEPTH, zero, "front", 1)
    yield _wood(drawer.board("back"), PieceAxis.DEPTH, zero, "drawer back", 1)
    yield _wood(drawer.board("left side"), PieceAxis.DEPTH, zero, "drawer side", 2)


def _screws(bearer: Board, zero: Fraction) -> Iterator[Centre]:
    """The screw at the front of a bearer, and the middles of the slots behind it (RN-4)."""
    for cut in bearer.cuts:
        if cut.kind in (CutKind.HOLE, CutKind.SLOT):
            word = "screw" if cut.kind is CutKind.HOLE else "screw slot"
            yield Centre(centre_of(bearer, PieceAxis.DEPTH, cut) - zero, word, f"{bearer.name} {cut.name}")


def _wood(board: Board, way: PieceAxis, zero: Fraction, word: str, lane: int) -> Stretch:
    low, high = reach(board, way)
    return Stretch(low - zero, high - zero, word, board.name, lane)
