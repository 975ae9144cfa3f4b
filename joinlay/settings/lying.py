"""How a board lies to the machine for a cut: where the cutter comes in, what the fence may bear on, and which surface goes
first.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.boards import Axis, CutKind, Span, Surface
from joinlay.findings import refusal
from joinlay.lengths import NOTHING, ZERO
from joinlay.records import dataclass
from joinlay.settings.elements import Guide, PlainCut, Role

if TYPE_CHECKING:
    from joinlay.boards import Board, Cut
    from joinlay.lengths import Fraction

__all__ = [
    "Orientation",
    "first_surface",
    "from_surface",
    "low_and_high",
    "nearer",
    "opens_at",
    "role_of",
    "run_axis",
    "third_axis",
    "ways_of",
]

_SURFACES = {
    Axis.ALONG: (Surface.END, Surface.FAR_END),
    Axis.ACROSS: (Surface.EDGE, Surface.FAR_EDGE),
    Axis.INTO: (Surface.FACE, Surface.FAR_FACE),
}


def third_axis(one: Axis, other: Axis) -> Axis:
    """The axis square to both, which differ."""
    if Axis.ALONG not in (one, other):
        return Axis.ALONG
    return Axis.ACROSS if Axis.ACROSS not in (one, other) else Axis.INTO


@dataclass(frozen=True, slots=True)
class Orientation:
    """``entry`` is where the cutter comes in, ``fence`` what the fence or guide bears on; the board is fed along the third
    axis.
    """

    entry: Surface
    fence: Surface

    @property
    def feed(self) -> Axis:
        """The direction the cut runs in."""
        return third_axis(self.entry.axis, self.fence.axis)

    @property
    def ends(self) -> tuple[Surface, Surface]:
        """Where the cut begins and ends if it runs right through."""
        return low_and_high(self.feed)

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
    guide, the turning must pull work and guide together; along a straightedge it must push the base against it. So the three
    directions cut, away from the guide, into the wood are left-handed with a fence or edge guide, right-handed with a
    straightedge. Source: by geometry from MS-6; agrees with feeding right to left over a table.
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


def opens_at(board: Board, cut: Cut, surface: Surface) -> bool:
    """True where the cut reaches ``surface`` of the board."""
    span = cut.span(surface.axis)
    return span.stop >= board.size(surface.axis) if surface.is_far else span.start <= ZERO


def _is_whole(board: Board, cut: Cut, axis: Axis) -> bool:
    low, high = low_and_high(axis)
    return opens_at(board, cut, low) and opens_at(board, cut, high)


def role_of(board: Board, cut: Cut, how: Orientation) -> Role:
    """What the fence and height decide for this cut lying like this; see Role."""
    if opens_at(board, cut, how.fence):
        return Role.STEP
    return Role.TONGUE if opens_at(board, cut, how.fence.opposite) else Role.CHANNEL


def run_axis(board: Board, cut: Cut) -> Axis:
    """The direction a channel or rabbet runs in: one it takes up wholly before one it stops in, then the longest.

    A channel does not run in the direction its cutter enters.
    """
    entry = cut.surface.axis
    open_to = [axis for axis in Axis if cut.kind is CutKind.RABBET or axis is not entry]
    return max(open_to, key=lambda axis: (_is_whole(board, cut, axis), _long(cut, axis)))


def _long(cut: Cut, axis: Axis) -> Fraction:
    """How long the cut is that way; its working isn't asked for."""
    span = cut.span(axis)
    return span.stop.mm - span.start.mm


def ways_of(board: Board, cut: Cut) -> tuple[Orientation, ...]:
    """The ways to lay ``board`` for ``cut``, the one a maker would try first in front.

    The reference edge or face goes to the fence, but of the ends the nearer one, since the joint counts from it (LR-2, LR-5).
    Raises Refused for a cut that no cutter can get at.
    """
    if cut.kind is CutKind.RABBET and (ways := _rabbet(board, cut)):
        return ways
    if not opens_at(board, cut, cut.surface):
        raise refusal(
            "hidden cut",
            "the {cut} does not reach the {surface} it is said to enter",
            "Let it start at the surface of the wood.",
            "MS-1",
            cut=PlainCut.of(cut.role).words,
            surface=board.datum.word(cut.surface),
        )
    across = third_axis(run_axis(board, cut), cut.surface.axis)
    first, second = low_and_high(across)
    if across is Axis.ALONG and nearer(board, cut.span(across), across) is second:
        first, second = second, first
    return (Orientation(cut.surface, first), Orientation(cut.surface, second))


def _rabbet(board: Board, cut: Cut) -> tuple[Orientation, ...]:
    feed = run_axis(board, cut)
    corner = [
        next((surface for surface in low_and_high(axis) if opens_at(board, cut, surface)), None)
        for axis in Axis
        if axis is not feed
    ]
    one, other = corner
    if one is None or other is None:
        return ()
    # Of the two surfaces of the corner the last is the face where there is one: axes are taken along, across, into.
    ways = [Orientation(other, one), Orientation(one, other)]
    if other is Surface.FAR_FACE and not _is_tenon(board, cut, one):
        ways.insert(0, Orientation(one, Surface.FACE))
    return tuple(ways)


def _is_tenon(board: Board, cut: Cut, at: Surface) -> bool:
    """True where another rabbet faces this one at the same end: both are cut lying flat, at one fence and height."""
    return any(
        other.kind is CutKind.RABBET and opens_at(board, other, at) and opens_at(board, other, Surface.FACE)
        and from_surface(board, other.span(at.axis), at).overlaps(from_surface(board, cut.span(at.axis), at))
        for other in board.cuts
    )  # fmt: skip
