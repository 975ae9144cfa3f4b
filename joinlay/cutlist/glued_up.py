"""Wide parts of solid wood as the boards they are glued up from: what each is sawn to, and what that part is then called
(PN-1).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.assembly.edge_joints import joint_lines
from joinlay.cutlist.chosen_boards import sawn_widths
from joinlay.cutlist.pattern import PartToSaw
from joinlay.lengths import Length, dimension
from joinlay.stock import Solid

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.cutlist.chosen_boards import Joints
    from joinlay.cutlist.cutting_list import Group, Row
    from joinlay.lengths import Dimension
    from joinlay.shop import Practice

__all__ = ["boards_to_saw", "joints_of", "strip_widths"]


def joints_of(row: Row, joints: Joints, practice: Practice) -> tuple[Dimension, ...]:
    """The edge joints of a solid part of ``row``: as its boards are chosen, where ``joints`` has it, else even (PN-1)."""
    chosen = joints.get(row.board.name)
    return joint_lines(row.board, practice) if chosen is None else chosen


def strip_widths(row: Row, practice: Practice, joints: Joints) -> tuple[Dimension, ...]:
    """How wide each board is sawn that a part of ``row`` is glued up from, from its reference edge; one where it is no wider than
    boards come. ``joints`` are those that boards on hand decide.

    Each joint takes an allowance to plane off both its boards; what is sawn over on a part's two edges stays on the outer ones
    (PN-1, common practice).
    """
    lines = joints_of(row, joints, practice)
    if not lines:
        return (row.sawn.width,)
    return tuple(
        dimension(Length(width)).named(f"{row.board.name} board {n} sawn to", "PN-1", "common practice")
        for n, width in enumerate(sawn_widths(row, lines, practice), start=1)
    )


def boards_to_saw(groups: Sequence[Group], practice: Practice, joints: Joints) -> list[PartToSaw]:
    """Every part of ``groups`` to be sawn from boards, wide ones as the boards they are glued up from: ``case left side, board
    1 of 3``; ``joints`` are those that boards on hand decide.
    """
    return [
        piece
        for group in groups
        for row in group.rows
        for piece in _pieces(row, practice, joints, is_solid=isinstance(group.stock, Solid))
    ]


def _pieces(row: Row, practice: Practice, joints: Joints, *, is_solid: bool) -> Iterator[PartToSaw]:
    widths = strip_widths(row, practice, joints) if is_solid else (row.sawn.width,)
    for name in row.names:
        for n, width in enumerate(widths, start=1):
            called = name if len(widths) == 1 else f"{name}, board {n} of {len(widths)}"
            yield PartToSaw(called, row.number, row.sawn.length, width)
