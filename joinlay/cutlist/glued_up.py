"""Wide parts of solid wood as the boards they are glued up from: what each is sawn to, and what that part is then called
(PN-1).
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from joinlay.assembly.edge_joints import joint_lines
from joinlay.cutlist.pattern import PartToSaw
from joinlay.lengths import Length, dimension
from joinlay.stock import Solid

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.cutlist.cutting_list import Group, Row
    from joinlay.lengths import Dimension
    from joinlay.shop import Practice

__all__ = ["boards_to_saw", "strip_widths"]


def strip_widths(row: Row, practice: Practice) -> tuple[Dimension, ...]:
    """How wide each board is sawn that a part of ``row`` is glued up from, from its reference edge; one where it is no wider than
    boards come.

    Each joint takes an allowance to plane off both its boards; what is sawn over on a part's two edges stays on the outer ones
    (PN-1, common practice).
    """
    lines = joint_lines(row.board, practice)
    if not lines:
        return (row.sawn.width,)
    joint, outer = practice.length("edge joint allowance").mm, (row.sawn.width.mm - row.board.width.mm) / 2
    ends = [-outer, *(line.mm for line in lines), row.board.width.mm + outer]
    last = len(lines)
    return tuple(
        dimension(Length(high - low + joint * ((n > 0) + (n < last)))).named(
            f"{row.board.name} board {n + 1} sawn to", "PN-1", "common practice"
        )
        for n, (low, high) in enumerate(pairwise(ends))
    )


def boards_to_saw(groups: Sequence[Group], practice: Practice) -> list[PartToSaw]:
    """Every part of ``groups`` to be sawn from boards, wide ones as the boards they are glued up from: ``case left side, board
    1 of 3``.
    """
    return [
        piece
        for group in groups
        for row in group.rows
        for piece in _pieces(row, practice, is_solid=isinstance(group.stock, Solid))
    ]


def _pieces(row: Row, practice: Practice, *, is_solid: bool) -> Iterator[PartToSaw]:
    widths = strip_widths(row, practice) if is_solid else (row.sawn.width,)
    for name in row.names:
        for n, width in enumerate(widths, start=1):
            called = name if len(widths) == 1 else f"{name}, board {n} of {len(widths)}"
            yield PartToSaw(called, row.number, row.sawn.length, width)
