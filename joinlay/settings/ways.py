"""The ways a cut can lie to a machine: which surface the cutter enters, and which one the fence may bear on."""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.boards import Axis, CutKind, Surface
from joinlay.findings import refusal
from joinlay.lengths import ZERO
from joinlay.settings.cut_names import kind_of_cut
from joinlay.settings.elements import Role
from joinlay.settings.orientation import Orientation, from_surface, low_and_high, nearer

if TYPE_CHECKING:
    from joinlay.boards import Board, Cut

__all__ = ["opens_at", "role_of", "run_axis", "ways_of"]


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
    open_to = [axis for axis in Axis if cut.kind is CutKind.RABBET or axis is not cut.surface.axis]
    return max(open_to, key=lambda axis: (_is_whole(board, cut, axis), cut.span(axis).size))


def ways_of(board: Board, cut: Cut) -> tuple[Orientation, ...]:
    """The ways to lay ``board`` for ``cut``, the one a maker would try first in front.

    The reference edge or face goes to the fence, but of the ends the nearer one, since the joint counts from it (LR-2, LR-5). Raises
    Refused for a cut that no cutter can get at.
    """
    if cut.kind is CutKind.RABBET and (ways := _rabbet(board, cut)):
        return ways
    if not opens_at(board, cut, cut.surface):
        raise refusal("hidden cut", "the {cut} does not reach the {surface} it is said to enter",
                      "Let it start at the surface of the wood.", "MS-1",
                      cut=kind_of_cut(cut.name), surface=board.datum.word(cut.surface))  # fmt: skip
    across = next(axis for axis in Axis if axis not in (run_axis(board, cut), cut.surface.axis))
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
