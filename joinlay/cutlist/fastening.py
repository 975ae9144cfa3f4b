"""What holds the piece together besides its joints: screws and nails for the runners, and how much is glued."""

from __future__ import annotations

from fractions import Fraction
from math import ceil
from typing import TYPE_CHECKING, Final

from joinlay.boards import Axis, CutKind
from joinlay.cutlist.cutting_list import LOOSE_TENON
from joinlay.lengths import mm

if TYPE_CHECKING:
    from joinlay.boards import Board, Cut
    from joinlay.jobs.plan import Plan

__all__ = ["glue_area", "nails", "screws"]

#: Pi, near enough for glue.
_PI: Final = Fraction(355, 113)

#: The widest spacing of nails along a runner. Source: our own choice.
_NAIL_SPACING: Final = mm(150)

#: Runners that are glued and nailed in a plywood case: on edge, so the glue covers length by thickness (RN-4).
_NAILED: Final = ("bearer", "kicker", "packing")

#: Strips and blocks glued flat, over length by width (RN-2, ST-2, ST-4).
_GLUED_FLAT: Final = ("guide", "stop strip", "stop block")


def screws(plan: Plan) -> int:
    """How many screws: one for each hole or slot that is named for one (RN-4, GR-2; common practice)."""
    return sum("screw" in cut.name for board in plan.boards for cut in board.cuts)


def nails(plan: Plan) -> int:
    """How many nails for the runners of a plywood case: at both ends and at most 150 mm (6 in) apart (RN-4; spacing our own choice)."""
    return sum(1 + max(1, ceil(board.length / _NAIL_SPACING)) for board in plan.boards if _is_nailed(board))


def _is_nailed(board: Board) -> bool:
    return board.part in _NAILED and not any("screw" in cut.name for cut in board.cuts)


def glue_area(plan: Plan) -> Fraction:
    """How much is glued, in square millimetres. Source: by geometry.

    Loose tenons all round; dadoes on their floor and walls, once, in the part they are cut in; nailed runners, guides, stop strips and
    blocks where they lie on. Grooves for bottoms and rabbets for backs are left dry; the face frame on the case is not counted.
    """
    return sum(
        (_around(board) if board.part == LOOSE_TENON else _in_dadoes(board) + _laid_on(board) for board in plan.boards),
        Fraction(0),
    )


def _around(tenon: Board) -> Fraction:
    """The two cheeks and the rounded edges of a loose tenon."""
    wide, thick = tenon.width.mm, tenon.thickness.mm
    around = 2 * (wide - thick) + _PI * thick if tenon.has_round_edges else 2 * (wide + thick)
    return around * tenon.length.mm


def _laid_on(board: Board) -> Fraction:
    """What a strip or block is glued over where it lies on something."""
    if board.part in _GLUED_FLAT:
        return board.length.mm * board.width.mm
    return board.length.mm * board.thickness.mm if _is_nailed(board) else Fraction(0)


def _in_dadoes(board: Board) -> Fraction:
    return sum((_walls(cut) for cut in board.cuts if cut.kind is CutKind.DADO and cut.mate), Fraction(0))


def _walls(cut: Cut) -> Fraction:
    along, across = (cut.span(axis).size.mm for axis in Axis if axis is not cut.surface.axis)
    long, short = max(along, across), min(along, across)
    return long * (short + 2 * cut.depth.mm)
