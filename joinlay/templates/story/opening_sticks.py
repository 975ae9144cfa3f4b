"""A drawer in its own opening on a stick: up, across, and front to back."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.boards import CutUse, Hand
from joinlay.lengths import Fraction
from joinlay.templates.piece_axes import PieceAxis, centre_of, reach, reach_at_end
from joinlay.templates.story.stick import Apex, Centre, Stick, Stretch

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.boards import Board
    from joinlay.casework.assembly import Drawer

__all__ = ["across_drawer", "along_drawer", "opening_heights", "opening_sticks", "pull_centres", "wood"]

_ZERO: Final = Fraction(0)


def opening_heights(drawers: Sequence[Drawer]) -> Iterator[Stick]:
    """Heights from the floor of its own opening, for each of ``drawers``."""
    for drawer in drawers:
        yield Stick(
            names=(drawer.name,),
            kind=None,
            measures="heights",
            datum="floor of the opening",
            far="top of the opening",
            lies="hold up in the opening",
            length=drawer.opening.height.mm,
            stretches=tuple(_up(drawer)),
            centres=tuple(pull_centres(drawer.front, PieceAxis.HEIGHT, _ZERO)),
            top="top",
            apex=Apex.FAR,
        )


def opening_sticks(drawers: Sequence[Drawer]) -> Iterator[Stick]:
    """Heights from the floor of the opening, widths from its left, depths from the face of the frame, for each of ``drawers``.

    Each drawer stands in its own opening, whose left, face and floor are its zero.
    """
    yield from opening_heights(drawers)
    for drawer in drawers:
        yield Stick(
            names=(drawer.name,),
            kind=None,
            measures="widths",
            datum="left of the opening",
            far="right of the opening",
            lies="hold across the opening",
            length=drawer.opening.width.mm,
            stretches=tuple(across_drawer(drawer, _ZERO)),
            centres=tuple(pull_centres(drawer.front, PieceAxis.WIDTH, _ZERO)),
            top="top",
            apex=Apex.EDGE,
        )
    for drawer in drawers:
        zero = min(_ZERO, reach(drawer.front, PieceAxis.DEPTH)[0])
        yield Stick(
            names=(drawer.name,),
            kind=None,
            measures="depths",
            datum="face of the frame",
            far="back of the opening",
            lies="lay in the opening, front to back",
            length=drawer.opening.depth.mm - zero,
            stretches=tuple(along_drawer(drawer, zero)),
            centres=(),
            top="front",
            apex=Apex.DATUM,
        )


def _up(drawer: Drawer) -> Iterator[Stretch]:
    """Front, side, bottom and back as they stand over each other, and a bar beside the side."""
    bar = ((drawer.bar, "bottom bar", 3),) if drawer.bar is not None else ()
    for board, word, lane in (
        (drawer.front, "front", 0),
        (drawer.side(Hand.LEFT), "drawer side", 1),
        (drawer.bottom, "bottom", 2),
        (drawer.back, "back", 2),
        *bar,
    ):
        low, high = reach(board, PieceAxis.HEIGHT)
        yield Stretch(low, high, word, board.name, lane)


def pull_centres(front: Board, way: PieceAxis, zero: Fraction, number: str = "", row: int = 0) -> Iterator[Centre]:
    """The middles of the holes for pulls in ``front``, from ``zero`` in mm of the piece, one for each place (PU-3).

    ``number`` and ``row`` are the drawer's, as a stretch has them.
    """
    found: dict[Fraction, str] = {}
    for cut in front.cuts_of(CutUse.PULL_HOLE):
        found.setdefault(centre_of(front, way, cut) - zero, f"{front.name} {cut.name}")
    yield from (Centre(at, "pull", part, number, row) for at, part in sorted(found.items()))


def across_drawer(drawer: Drawer, zero: Fraction) -> Iterator[Stretch]:
    """A drawer's front, and its sides where they meet it, with the bar between, from ``zero``."""
    yield wood(drawer.front, PieceAxis.WIDTH, zero, "front", 0)
    for side in drawer.sides:
        low, high = reach_at_end(side, PieceAxis.WIDTH)
        yield Stretch(low - zero, high - zero, "drawer side", side.name, 1)
    if drawer.bar is not None:
        yield wood(drawer.bar, PieceAxis.WIDTH, zero, "bottom bar", 1)


def along_drawer(drawer: Drawer, zero: Fraction) -> Iterator[Stretch]:
    """A drawer's front, back and side from front to back, from ``zero``."""
    yield wood(drawer.front, PieceAxis.DEPTH, zero, "front", 1)
    yield wood(drawer.back, PieceAxis.DEPTH, zero, "drawer back", 1)
    yield wood(drawer.side(Hand.LEFT), PieceAxis.DEPTH, zero, "drawer side", 2)


def wood(board: Board, way: PieceAxis, zero: Fraction, word: str, lane: int) -> Stretch:
    """A ``board`` from where to where it reaches along ``way``, from ``zero`` in mm of the piece, called by a ``word`` in a
    ``lane``.
    """
    low, high = reach(board, way)
    return Stretch(low - zero, high - zero, word, board.name, lane)
