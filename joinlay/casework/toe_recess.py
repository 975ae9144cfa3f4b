"""A recess for toes cut in the case's sides: they stand on the floor, its bottom over the recess, which a toe board closes behind
(BA-2).

The frame stands as it would without, its stiles ending over the recess. The toe board stands between the sides, flush with the
upright edges of their notches, and carries the front of the case's bottom.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.boards import (
    Axis,
    Board,
    Cut,
    CutKind,
    CutRole,
    CutUse,
    Datum,
    Hand,
    PartKind,
    PartRole,
    Place,
    Span,
    Surface,
    Whole,
)
from joinlay.boards.fastener import FastenerKind
from joinlay.boards.meeting import Meeting, Tie, butted
from joinlay.casework.assembly import Assembly
from joinlay.casework.over_and_under import refuse_step
from joinlay.findings import at_least, at_most, refusal
from joinlay.joints.fasteners import fastener_for, spread
from joinlay.joints.spans import whole
from joinlay.lengths import NOTHING

if TYPE_CHECKING:
    from joinlay.casework.base import BaseMake
    from joinlay.casework.case import Case
    from joinlay.casework.face_frame import FrameSizes
    from joinlay.lengths import Dimension
    from joinlay.shop import Shop

__all__ = ["cut_toe_recess"]

_RULE: Final = "BA-2"
_BOARD: Final = Datum("outside face", "lower edge", "left end", "inside face", "upper edge", "right end")
_ROLE: Final = PartRole(PartKind.TOE_BOARD)


def cut_toe_recess(make: BaseMake, case: Case, frame: FrameSizes, shop: Shop) -> tuple[Assembly, Case]:
    """The toe board of a ``case`` whose sides stand on the floor, and the case with its sides notched for toes (BA-2).

    The recess is as high as the base and reaches from the frame's face as far back as it is asked for: 3 in deep and 3 1/2 in
    high usually (common practice). Raises Refused where the frame reaches lower than the case, where the recess doesn't reach
    past the frame, or where it leaves no room for the toe board before the case's back.
    """
    refuse_step("base", "overhang-bottom", frame.overhang_bottom)
    toe = shop.practice.length("toe depth") if make.toe is None else make.toe
    thick = make.stock.thickness
    _refuse_depth(toe, thick, case, frame)
    deep = (toe - frame.thickness).named("toe notch depth, from the front edge of the side", _RULE, "common practice")
    sides = [_notched(case.assembly.part(PartRole(PartKind.CASE_SIDE, hand=hand)), make.height, deep) for hand in _HANDS]
    notched = {side.role: side for side in sides}
    boards = tuple(notched.get(board.role, board) for board in case.assembly.boards)
    board = _toe_board(make, case, toe)
    assembly = Assembly(Whole.BASE, (board,), tuple(_held(board, sides, case, shop)), (make.height, toe))
    return assembly, replace(case, assembly=replace(case.assembly, boards=boards))


_HANDS: Final = (Hand.LEFT, Hand.RIGHT)


def _refuse_depth(toe: Dimension, thick: Dimension, case: Case, frame: FrameSizes) -> None:
    """Refuse a recess that ends within the frame, or with its toe board in the case's back (BA-2)."""
    most = case.sizes.back - thick
    if frame.thickness < toe <= most:
        return
    least = frame.thickness * 2
    raise (
        refusal(
            "base",
            "A recess for toes {toe} deep from the frame's face leaves no place for its board: the frame takes {frame} of that, "
            "and the case's back stands {back} behind the face.",
            "Make it {least} deep at least, and {most} at most.",
            _RULE,
            "by geometry",
            toe=toe,
            frame=frame.thickness,
            back=case.sizes.back,
            least=least,
            most=most,
        )
        .at("base")
        .by(at_least("base", "toe", least) if toe <= frame.thickness else at_most("base", "toe", most))
    )


def _notched(side: Board, high: Dimension, deep: Dimension) -> Board:
    """A side without its lower front corner."""
    return side.with_cuts(
        Cut(
            kind=CutKind.SLOT,
            surface=Surface.EDGE,
            along=Span(NOTHING, high),
            across=Span(NOTHING, deep),
            into=whole(side, Axis.INTO),
            role=CutRole(CutUse.TOE_NOTCH, _ROLE),
        )
    )


def _toe_board(make: BaseMake, case: Case, toe: Dimension) -> Board:
    """Between the sides, from the floor up to the case's bottom."""
    sizes, name = case.sizes, _ROLE.name
    return Board(
        _ROLE,
        make.stock.name,
        sizes.inside_width.named(f"{name} length", _RULE, "by geometry"),
        sizes.above_foot.named(f"{name} width", _RULE, "by geometry"),
        make.stock.thickness.named(f"{name} thickness", "", "the stock's own"),
        _BOARD,
        place=Place.at(sizes.inside_left, toe, sizes.foot, "+X", "+Z", "+Y"),
    )


def _held(board: Board, sides: list[Board], case: Case, shop: Shop) -> list[Meeting]:
    """Glued and nailed through the sides, and glued under the case's bottom, whose grain runs with its own."""
    spacing = shop.practice.length("corner nail spacing")
    nail = fastener_for(FastenerKind.NAIL, sides[0].thickness, None, shop.rule, spacing=spacing)
    nails = len(spread(board.width, spacing, least=2))
    end = board.width.mm * board.thickness.mm
    ends = zip(sides, (Surface.END, Surface.FAR_END), strict=True)
    met = [
        butted(
            (side, Surface.FACE),
            (board, surface),
            "against the",
            rule=_RULE,
            tie=Tie.NAILED,
            glue=end,
            fasteners=nails,
            fastener=nail,
        )
        for side, surface in ends
    ]
    bottom = case.assembly.part(PartRole(PartKind.CASE_BOTTOM))
    under = butted(
        (board, Surface.FAR_EDGE),
        (bottom, Surface.FAR_FACE),
        "under the",
        rule=_RULE,
        tie=Tie.GLUED,
        glue=board.length.mm * board.thickness.mm,
    )
    return [*met, under]
