"""How a part is looked at for its templates: on its reference face, and on each edge that has cuts of its own (a stile's mortises)."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from joinlay.boards import Axis, Board, Cut, Datum, Place, Span, Surface
from joinlay.lengths import NOTHING

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["views_of"]


def views_of(board: Board) -> tuple[Board, ...]:
    """``board`` as it is laid down to be marked: its face up, then each edge up that is cut into without a cut showing on the face.

    A view is a board whose reference face is the surface looked at, with the cuts that are marked there. One with no cuts is left out.
    No rule: a joint is marked on the surface the cutter enters.
    """
    sunk = {edge: _sunk_in(board, edge) for edge in (Surface.EDGE, Surface.FAR_EDGE)}
    away = [cut for cuts in sunk.values() for cut in cuts]
    face = replace(board, cuts=tuple(cut for cut in board.cuts if cut not in away)) if away else board
    edges = tuple(_on_edge(board, edge, cuts) for edge, cuts in sunk.items() if cuts)
    return (*((face,) if face.cuts else ()), *edges)


def _sunk_in(board: Board, edge: Surface) -> list[Cut]:
    """Cuts entered from ``edge`` that come out on neither face."""
    return [c for c in board.cuts if c.surface is edge and c.into.start > NOTHING and c.into.stop < board.thickness]


def _on_edge(board: Board, edge: Surface, cuts: Sequence[Cut]) -> Board:
    """The view with ``edge`` up and the reference face as the edge to lay on."""
    # An unplaced board has its reference end at the left; so has this place.
    place = board.place or Place.at(NOTHING, NOTHING, NOTHING, "+X", "+Z", "+Y")
    if edge is Surface.FAR_EDGE:
        x, y, z = place.across
        place = replace(place, origin=place.point(NOTHING, board.width, NOTHING), across=(-x, -y, -z))
    seen = board.datum
    datum = Datum(seen.word(edge), seen.face, seen.end, seen.word(_opposite(edge)), seen.far_face, seen.far_end)
    turned = replace(place, across=place.into, into=place.across)
    return replace(
        board, width=board.thickness, thickness=board.width, datum=datum, cuts=tuple(_turned(cut, edge, board) for cut in cuts),
        tapers=(), bands=(), place=turned,
    )  # fmt: skip


def _turned(cut: Cut, edge: Surface, board: Board) -> Cut:
    deep = cut.span(Axis.ACROSS)
    if edge is Surface.FAR_EDGE:
        deep = Span(board.width - deep.stop, board.width - deep.start)
    return replace(cut, surface=Surface.FACE, across=cut.into, into=deep)


def _opposite(edge: Surface) -> Surface:
    return Surface.FAR_EDGE if edge is Surface.EDGE else Surface.EDGE
