"""Cuts made by hand: marked with gauge and knife, sawn, pared, planed or bored, where no machine of the shop makes them (MS-8).

Wood is cut to two lines instead of against a fence, so any size of part and any place of the cut will do, and a cut may stop
where it likes. Only what no chisel goes into can't be cut so. A part lies flat where it can, its lines gauged from the same
surface that a fence would bear on.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.boards import Axis, CutKind
from joinlay.findings import refusal
from joinlay.lengths import dimension
from joinlay.settings.elements import Guide, Pass, PlainCut, Role, Tool, ToolKind
from joinlay.settings.lying import from_surface, opens_at, role_of, run_axis, ways_of
from joinlay.settings.plunged import is_plunged, lying_to_plunge
from joinlay.settings.ways import WayToCut
from joinlay.shop import MachineKind

if TYPE_CHECKING:
    from joinlay.boards import Board, Cut
    from joinlay.settings.lying import Orientation
    from joinlay.shop import Shop

__all__ = ["way_by_hand"]


def way_by_hand(board: Board, cut: Cut, shop: Shop) -> WayToCut:
    """How ``cut`` of ``board`` is made at the bench, in one go to its full depth, with ``shop``'s hand tools.

    A mortise is bored and chopped, its ends left round; a hole is bored. A dado or groove is sawn along both walls and cleared
    with chisel and router plane; a slot in an end is sawn and chopped; a rabbet along the grain is planed, every other is sawn.
    Raises Refused where the shop has no hand tools, where none of its chisels is narrow enough, and for a cut that no tool can
    get at. Rule MS-8; common practice.
    """
    tools = shop.machines.hand_tools
    plain = PlainCut.of(cut.role).words
    if tools is None:
        raise refusal(
            "machine",
            "the shop has neither machine nor hand tools for the {cut}",
            "A router table, a table saw or a hand-held router would do, or hand tools.",
            "MS-8",
            cut=plain,
        )
    how = lying_to_plunge(board, cut) if is_plunged(cut) else _lying(board, cut)
    span = from_surface(board, cut.span(how.fence.axis), how.fence)
    depth = from_surface(board, cut.span(how.entry.axis), how.entry).stop
    role = _role(board, cut, how)
    if role in (Role.CHANNEL, Role.MORTISE) and span.size < tools.narrowest_chisel:
        raise refusal(
            "chisel",
            "the {cut} is {width} wide, and the narrowest chisel {chisel}",
            "A chisel of {width} or less would do, or a machine that cuts it.",
            "MS-8",
            cut=plain,
            width=span.size,
            chisel=tools.narrowest_chisel,
        )
    guide = Guide.CENTRE_LINE if role is Role.HOLE else Guide.GAUGED_LINE
    tool = Tool(_tool(board, cut, how, role), dimension(span.size))
    return WayToCut(MachineKind.BENCH, guide, how, role, tool, (Pass(span.start, depth),))


def _lying(board: Board, cut: Cut) -> Orientation:
    ways = ways_of(board, cut)
    return next((how for how in ways if not how.stands), ways[0])


def _role(board: Board, cut: Cut, how: Orientation) -> Role:
    if is_plunged(cut):
        return Role.MORTISE if cut.kind is CutKind.MORTISE else Role.HOLE
    return role_of(board, cut, how)


def _tool(board: Board, cut: Cut, how: Orientation, role: Role) -> ToolKind:
    if role is Role.MORTISE:
        return ToolKind.BRACE_AND_CHISEL
    if role is Role.HOLE:
        return ToolKind.BRACE
    feed = run_axis(board, cut)
    if feed is Axis.INTO:
        return ToolKind.HAND_SAW
    if role is Role.CHANNEL:
        # No router plane stands on the end of a board.
        return ToolKind.HAND_SAW if how.entry.axis is Axis.ALONG else ToolKind.ROUTER_PLANE
    is_through = all(opens_at(board, cut, surface) for surface in how.ends)
    return ToolKind.RABBET_PLANE if feed is Axis.ALONG and is_through else ToolKind.HAND_SAW
