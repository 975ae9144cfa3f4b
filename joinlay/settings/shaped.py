"""Cuts of a cutter with a corner's shape: slot and tongue in one run, at one height for both halves of the corner (MS-11).

The flat part lies on its inside face with its end to the fence, the upright one stands on its end with its inside face to the
fence. What is set is the height, from the table to the top of the cutter's teeth, and how far those stand out of the fence: as
deep as the slot, or as the dado. A slot deeper than a pass is cut in several, the fence moved back between them, never the
height.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.boards import Axis, CutUse, Surface
from joinlay.findings import refusal
from joinlay.settings.elements import Guide, Pass, Role, Tool, ToolKind
from joinlay.settings.lying import Orientation, from_surface, nearer, opens_at
from joinlay.settings.ways import Attempt, WayToCut, depth_steps, refuse_large
from joinlay.shop import MachineKind

if TYPE_CHECKING:
    from joinlay.boards import Board, Cut
    from joinlay.lengths import Dimension, Length
    from joinlay.shop import CornerCutter, Shop

__all__ = ["way_to_shape"]


def way_to_shape(board: Board, cut: Cut, shop: Shop) -> WayToCut:
    """How the shop makes a shaped cut of ``board``; a slot's is its tongue's too. Rules MS-4, MS-11.

    Raises Refused where there is no router table, the part is too large for it, or the shop's cutter is another than the corner
    was designed for.
    """
    table = shop.machines.router_table
    if table is None:
        raise refusal("router table", "the shop has no router table", "A router table would do.", "MS-11")
    if cut.role.use is CutUse.SHAPED_DADO:
        how = Orientation(nearer(board, cut.span(Axis.ALONG), Axis.ALONG), Surface.FACE)
        from_end, deep = from_surface(board, cut.span(Axis.ALONG), how.entry), cut.depth
        tongue, slot, length = from_end.start, from_end.size, deep
    else:
        end = Surface.END if opens_at(board, cut, Surface.END) else Surface.FAR_END
        how = Orientation(Surface.FACE, end)
        whole = _of(board, cut, CutUse.SHAPED_SLOT)
        tip = _of(board, cut, CutUse.SHAPED_END)
        tongue, slot, deep = whole.into.start, whole.into.size, from_surface(board, whole.along, end).stop
        length = deep - from_surface(board, tip.along, end).stop
    cutter = _owned(slot, length, shop)
    refuse_large(Attempt(board, cut, how, shop, frozenset()), table, "router table")
    height = (tongue + slot).named("height of the cutter", "MS-11", "by geometry")
    most = min(cutter.diameter, shop.machines.limits.deepest_pass)
    passes = tuple(Pass(_near(step, cutter), height) for step in depth_steps(deep, most))
    tool = Tool(ToolKind.SHAPED, cutter.diameter, cutter.deepest, cutter)
    return WayToCut(MachineKind.ROUTER_TABLE, Guide.FENCE, how, Role.SHAPED, tool, passes)


def _near(deep: Dimension, cutter: CornerCutter) -> Dimension:
    """The near side of a cutter that stands ``deep`` out of the fence: inside it, so that this is negative."""
    return (deep - cutter.diameter).named("fence to the near side of the cutter", "MS-11", "by geometry")


def _of(board: Board, cut: Cut, use: CutUse) -> Cut:
    """The cut of this use that one run makes together with ``cut``."""
    return next(other for other in board.cuts_of(use) if other.role.mate == cut.role.mate)


def _owned(slot: Length, length: Length, shop: Shop) -> CornerCutter:
    found = next((cutter for cutter in shop.corner_cutters if cutter.slot == slot and cutter.length == length), None)
    if found is None:
        raise refusal(
            "shaped cutter",
            "the shop has no cutter that makes a slot {slot} wide beside a tongue {length} long",
            "The cutter that the corner was designed for would do.",
            "MS-11",
            slot=slot,
            length=length,
        )
    return found
