"""What holds the piece together besides its joints: screws through slots and holes, and how much is glued."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Final

from joinlay.boards import Axis, CutKind
from joinlay.cutlist.cutting_list import LOOSE_TENON

if TYPE_CHECKING:
    from joinlay.boards import Board, Cut
    from joinlay.jobs.plan import Plan

__all__ = ["glue_area", "screws"]

#: Pi, near enough for glue.
_PI: Final = Fraction(355, 113)


def screws(plan: Plan) -> int:
    """How many screws: one for each hole or slot that is named for one (RN-4, GR-2; common practice)."""
    return sum("screw" in cut.name for board in plan.boards for cut in board.cuts)


def glue_area(plan: Plan) -> Fraction:
    """How much is glued in the joints, in square millimetres: the loose tenons all round, and dadoes on their floor and walls.

    Each dado is counted once, in the part it is cut in; grooves for bottoms and rabbets for backs are left dry. Source: by geometry.
    """
    return sum((_around(board) if board.part == LOOSE_TENON else _in_dadoes(board) for board in plan.boards), Fraction(0))


def _around(tenon: Board) -> Fraction:
    """The two cheeks and the rounded edges of a loose tenon."""
    wide, thick = tenon.width.mm, tenon.thickness.mm
    around = 2 * (wide - thick) + _PI * thick if tenon.has_round_edges else 2 * (wide + thick)
    return around * tenon.length.mm


def _in_dadoes(board: Board) -> Fraction:
    return sum((_walls(cut) for cut in board.cuts if cut.kind is CutKind.DADO and cut.mate), Fraction(0))


def _walls(cut: Cut) -> Fraction:
    along, across = (cut.span(axis).size.mm for axis in Axis if axis is not cut.surface.axis)
    long, short = max(along, across), min(along, across)
    return long * (short + 2 * cut.depth.mm)
