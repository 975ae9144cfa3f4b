"""The sticks of widths and depths: what lies beside each other from the left, and behind each other from the face of the frame."""

from __future__ import annotations

from itertools import zip_longest
from typing import TYPE_CHECKING

from joinlay.boards import CutKind
from joinlay.templates.reach import Way, centre_of, reach, reach_at_end
from joinlay.templates.story.heights import pull_centres
from joinlay.templates.story.stick import Apex, Centre, Kind, Stick, Stretch, merged

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.boards import Board
    from joinlay.casework.assembly import Drawer
    from joinlay.lengths import Fraction
    from joinlay.templates.story.banks import Bank, Whole

__all__ = ["depth_sticks", "width_sticks"]


def width_sticks(whole: Whole) -> Iterator[Stick]:
    """The width over all at the face of the frame, from its left edge: stiles and fronts, then case, guides and drawer sides, then bearers.

    One stick shows one drawer of each bank; where drawers of a bank differ in their widths there are more sticks.
    """
    zero, end = whole.frame_reach(Way.WIDTH)
    fixed = [_wood(board, Way.WIDTH, zero, board.part, 0) for board in whole.frame_parts("stile", "mullion")]
    fixed += (_wood(board, Way.WIDTH, zero, board.part.removeprefix("case "), 1) for board in whole.uprights)
    kinds = [_kinds(whole, bank, zero) for bank in whole.banks]
    for chosen in zip_longest(*kinds):
        drawers = [stick for stick in chosen if stick is not None]
        names = tuple(name for stick in drawers for name in stick.names)
        stretches = (*fixed, *(one for stick in drawers for one in stick.stretches))
        centres = tuple(centre for stick in drawers for centre in stick.centres)
        yield Stick(
            names, "widths", "left edge of the frame", "right edge of the frame", "hold across the front of the frame", end - zero,
            stretches, centres, "top", Apex.EDGE,
        )  # fmt: skip


def _kinds(whole: Whole, bank: Bank, zero: Fraction) -> tuple[Stick, ...]:
    """A bank's drawers by their widths: each kind once, with all it is for."""
    return merged(
        Stick((drawer.name,), "", "", "", "", zero, *_drawer_widths(whole, drawer, zero), "top", Apex.EDGE)
        for drawer in bank.drawers
    )


def _drawer_widths(whole: Whole, drawer: Drawer, zero: Fraction) -> tuple[tuple[Stretch, ...], tuple[Centre, ...]]:
    stretches = list(across_drawer(drawer, zero))
    for hand in ("left", "right"):
        for board in whole.runners_of(drawer, hand):
            if board.part in ("guide", "bearer"):
                stretches.append(_wood(board, Way.WIDTH, zero, board.part, 1 if board.part == "guide" else 2))
    stretches += (_wood(board, Way.WIDTH, zero, "stop", 2) for board in whole.blocks_of(drawer))
    return tuple(stretches), tuple(pull_centres(drawer.board("front"), Way.WIDTH, zero))


def across_drawer(drawer: Drawer, zero: Fraction) -> Iterator[Stretch]:
    """A drawer's front, and its sides where they meet it, from ``zero``."""
    yield _wood(drawer.board("front"), Way.WIDTH, zero, "front", 0)
    for hand in ("left", "right"):
        side = drawer.board(f"{hand} side")
        low, high = reach_at_end(side, Way.WIDTH)
        yield Stretch(low - zero, high - zero, "drawer side", side.name, 1)


def depth_sticks(whole: Whole) -> Iterator[Stick]:
    """For each drawer, the depth at it from the face of the frame: frame and case, front, stop, box and back, bearer with its screws."""
    zero, _ = whole.frame_reach(Way.DEPTH)
    zero = min([zero, *(reach(drawer.board("front"), Way.DEPTH)[0] for bank in whole.banks for drawer in bank.drawers)])
    end = max(reach(board, Way.DEPTH)[1] for board in (*whole.case, *whole.frame))
    for bank in whole.banks:
        backs = [board for board in whole.case if board.part == "case back"]
        for drawer in bank.drawers:
            stretches = [
                _wood(whole.frame_parts("stile")[0], Way.DEPTH, zero, "frame", 0),
                _wood(whole.uprights[0], Way.DEPTH, zero, "case side", 0),
                *(_wood(board, Way.DEPTH, zero, "case back", 1) for board in backs),
                *along_drawer(drawer, zero),
                *(_wood(board, Way.DEPTH, zero, "stop", 1) for board in whole.blocks_of(drawer)[:1]),
            ]
            bearers = [board for board in whole.runners_of(drawer, "left") if board.part == "bearer"]
            stretches += (_wood(board, Way.DEPTH, zero, "bearer", 3) for board in bearers)
            centres = tuple(centre for board in bearers for centre in _screws(board, zero))
            yield Stick(
                (drawer.name,), "depths", "face of the frame", "back of the case", "lay along the case, front to back", end - zero,
                tuple(stretches), centres, "front", Apex.DATUM,
            )  # fmt: skip


def along_drawer(drawer: Drawer, zero: Fraction) -> Iterator[Stretch]:
    """A drawer's front, back and side from front to back, from ``zero``."""
    yield _wood(drawer.board("front"), Way.DEPTH, zero, "front", 1)
    yield _wood(drawer.board("back"), Way.DEPTH, zero, "drawer back", 1)
    yield _wood(drawer.board("left side"), Way.DEPTH, zero, "drawer side", 2)


def _screws(bearer: Board, zero: Fraction) -> Iterator[Centre]:
    """The screw at the front of a bearer, and the middles of the slots behind it (RN-4)."""
    for cut in bearer.cuts:
        if cut.kind in (CutKind.HOLE, CutKind.SLOT):
            word = "screw" if cut.kind is CutKind.HOLE else "screw slot"
            yield Centre(centre_of(bearer, Way.DEPTH, cut) - zero, word, f"{bearer.name} {cut.name}")


def _wood(board: Board, way: Way, zero: Fraction, word: str, lane: int) -> Stretch:
    low, high = reach(board, way)
    return Stretch(low - zero, high - zero, word, board.name, lane, Kind.WOOD)
