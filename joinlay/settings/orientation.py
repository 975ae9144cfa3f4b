"""How a board lies to the machine: where the cutter comes in, what is against the fence, and which surface goes first."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from joinlay.boards import Axis, Span, Surface
from joinlay.lengths import NOTHING
from joinlay.settings.elements import Guide

if TYPE_CHECKING:
    from joinlay.boards import Board

__all__ = ["Orientation", "first_surface", "from_surface", "low_and_high", "nearer"]

_SURFACES = {
    Axis.ALONG: (Surface.END, Surface.FAR_END),
    Axis.ACROSS: (Surface.EDGE, Surface.FAR_EDGE),
    Axis.INTO: (Surface.FACE, Surface.FAR_FACE),
}


@dataclass(frozen=True, slots=True)
class Orientation:
    """``entry`` is where the cutter comes in, ``fence`` what the fence or guide bears on; the board is fed along the third axis."""

    entry: Surface
    fence: Surface

    @property
    def feed(self) -> Axis:
        """The direction the cut runs in."""
        return next(axis for axis in Axis if axis not in (self.entry.axis, self.fence.axis))

    @property
    def stands(self) -> bool:
        """True where the board stands on an end or edge rather than lying flat."""
        return self.entry.axis is not Axis.INTO


def low_and_high(axis: Axis) -> tuple[Surface, Surface]:
    """The reference surface on ``axis`` and the one opposite."""
    return _SURFACES[axis]


def from_surface(board: Board, span: Span, surface: Surface) -> Span:
    """``span`` (on the axis of ``surface``) counted from that surface inwards."""
    if not surface.is_far:
        return span
    size = board.size(surface.axis)
    return Span(size - span.stop if span.stop != size else NOTHING, size - span.start)


def nearer(board: Board, span: Span, axis: Axis) -> Surface:
    """The surface on ``axis`` that the middle of ``span`` is nearer to; the reference where it is the same."""
    low, high = low_and_high(axis)
    return low if span.start + span.stop <= board.size(axis) else high


def first_surface(board: Board, how: Orientation, guide: Guide) -> Surface:
    """The surface at which the cut begins, fed against the cutter's turning (MS-6).

    Seen along the cutter from its shank, a router cutter turns clockwise. On a table with the fence behind it, and with an edge
    guide, the turning must pull work and guide together; along a straightedge it must push the base against it. So the three directions
    cut, away from the guide, into the wood are left-handed with a fence or edge guide, right-handed with a straightedge. Source: by
    geometry from MS-6; agrees with feeding right to left over a table.
    """
    hand = -1 if board.end_on_left else 1
    # The sign that makes (along, across, into), with entry and fence axes pointing inwards, of the board's own hand.
    place = {axis: n for n, axis in enumerate((how.feed, how.fence.axis, how.entry.axis))}
    order = [place[axis] for axis in (Axis.ALONG, Axis.ACROSS, Axis.INTO)]
    swaps = sum(order[i] > order[j] for i in range(3) for j in range(i + 1, 3))
    sign = hand * (-1) ** (swaps + how.entry.is_far + how.fence.is_far)
    wanted = 1 if guide is Guide.STRAIGHTEDGE else -1
    low, high = low_and_high(how.feed)
    return low if sign == wanted else high
