"""When two boards are the same piece of wood: same size, same stock, same wood taken out, whichever way they are turned.

A left and a right drawer side have the same cuts at the same distances, yet one is the other's mirror image and cannot take its
place, unless the cuts happen to be alike end for end, face for face or edge for edge.
"""

from __future__ import annotations

from itertools import product
from typing import TYPE_CHECKING

from joinlay.boards import Axis, Shape, Surface

if TYPE_CHECKING:
    from collections.abc import Hashable

    from joinlay.boards import Band, Board, Cut, Taper
    from joinlay.lengths import Fraction

__all__ = ["shape_key"]

_AXES = tuple(Axis)

#: Which of length, width and thickness are counted from the far end instead. An even number of them is a turn of the board, which
#: changes nothing; an odd number is its mirror image.
_FLIPS = tuple(product((False, True), repeat=3))

_Flips = tuple[bool, ...]


def shape_key(board: Board) -> Hashable:
    """A key that two boards share only where one can stand in for the other (CL-1).

    Equal for boards of one kind, stock and size whose cuts, tapers and bands take the same wood once one of the two is turned over or end for
    end. A mirror image has another key, unless the board is its own mirror image.
    """
    hand = not board.end_on_left
    turns = [flips for flips in _FLIPS if sum(flips) % 2 == hand]
    sizes = tuple(board.size(axis).mm for axis in _AXES)
    return (board.part, board.stock, sizes, board.has_round_edges, min(_seen(board, flips) for flips in turns))


def _seen(board: Board, flips: _Flips) -> tuple[tuple[tuple[object, ...], ...], ...]:
    """Everything that shapes the board, counted from the references that ``flips`` picks, in an order that can be compared."""
    cuts = {_cut_key(board, cut, flips) for cut in board.cuts}
    tapers = {_taper_key(taper, flips) for taper in board.tapers}
    bands = {_band_key(band, flips) for band in board.bands}
    return tuple(tuple(sorted(keys)) for keys in (cuts, tapers, bands))


def _cut_key(board: Board, cut: Cut, flips: _Flips) -> tuple[object, ...]:
    spans: list[Fraction] = []
    for axis, flip in zip(_AXES, flips, strict=True):
        span, size = cut.span(axis), board.size(axis).mm
        spans += [size - span.stop.mm, size - span.start.mm] if flip else [span.start.mm, span.stop.mm]
    # Where the cutter enters matters only to rounded mouths; a square pocket is the wood it takes.
    entered = "" if cut.shape is Shape.SQUARE else cut.surface.axis.value
    return (*spans, cut.shape.value, entered)


def _taper_key(taper: Taper, flips: _Flips) -> tuple[object, ...]:
    ends = (taper.near.mm, taper.far.mm)
    runs_along = taper.surface.axis is Axis.ACROSS
    swapped = flips[_AXES.index(Axis.ALONG if runs_along else Axis.ACROSS)]
    return (_turned(taper.surface, flips).value, *(reversed(ends) if swapped else ends))


def _band_key(band: Band, flips: _Flips) -> tuple[object, ...]:
    return (_turned(band.surface, flips).value, band.stock, band.thickness.mm, band.length.mm)


def _turned(surface: Surface, flips: _Flips) -> Surface:
    return surface.opposite if flips[_AXES.index(surface.axis)] else surface
