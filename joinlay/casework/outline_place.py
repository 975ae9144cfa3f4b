"""Where a maker's own outline goes on a part, and whether it lies on the wood (CK-7)."""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.boards import Span, Surface
from joinlay.boards.names import is_called
from joinlay.boards.outline import PlacedOutline
from joinlay.errors import BadInput, nearest_names, quoted
from joinlay.findings import refusal
from joinlay.lengths import NOTHING, ZERO, Length, dimension
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.boards import Board
    from joinlay.boards.outline import Outline
    from joinlay.lengths import Dimension, Fraction

__all__ = ["OutlineSpot", "OutlineWish", "is_for", "place_outline"]

_FACES = (Surface.FACE, Surface.FAR_FACE)
_ENDS = (Surface.END, Surface.FAR_END)
_EDGES = (Surface.EDGE, Surface.FAR_EDGE)


@dataclass(frozen=True, slots=True)
class OutlineSpot:
    """Where an outline goes, in the words of the part it goes on.

    ``from_end`` is from ``end`` (a word such as ``left end``; None: the part's reference end) to the outline's near side, or,
    where ``to_middle``, to its middle; None puts it in the middle of the length. ``edge`` and ``from_edge`` alike across the
    part.
    """

    end: str | None = None
    from_end: Dimension | None = None
    edge: str | None = None
    from_edge: Dimension | None = None
    to_middle: bool = False


@dataclass(frozen=True, slots=True)
class OutlineWish:
    """An outline a maker wants on the parts called ``on`` (a kind of part, a part's name, or how it ends), for a ``purpose``.

    ``outline`` is as it is seen on ``face`` (None: the reference face), turned and mirrored already. ``depth`` is how deep the
    wood inside it is cut away: None right through, nothing where it is only marked.
    """

    outline: Outline
    on: str
    purpose: str
    spot: OutlineSpot = OutlineSpot()
    face: str | None = None
    depth: Dimension | None = None


def is_for(wish: OutlineWish, board: Board) -> bool:
    """True where ``board`` is one of the parts that ``wish`` names: ``drawer front``, ``left side``, ``drawer 2 front``. No
    rule.
    """
    return is_called(board.role, wish.on)


def place_outline(board: Board, wish: OutlineWish) -> PlacedOutline:
    """``wish`` on ``board`` (CK-7: it must lie on the wood, and be cut no deeper than that is thick).

    Raises Refused where it hangs over, with how far and over which edge, or is too deep; BadInput for a word the board hasn't.
    """
    outline, spot = wish.outline, wish.spot
    face = _found(board, wish.face, _FACES)
    end = None if spot.from_end is None and spot.end is None else _found(board, spot.end, _ENDS)
    edge = None if spot.from_edge is None and spot.edge is None else _found(board, spot.edge, _EDGES)
    if not outline.width or not outline.height:
        raise BadInput(f"{outline.file} draws only a straight line; an outline takes up room both ways.")
    along = _span(board.length, outline.width, spot.from_end, end, to_middle=spot.to_middle)
    across = _span(board.width, outline.height, spot.from_edge, edge, to_middle=spot.to_middle)
    _refuse_over(board, wish, along, across)
    into = _into(board, wish, face)
    return PlacedOutline(
        board=board,
        outline=outline,
        purpose=wish.purpose,
        face=face,
        along=along,
        across=across,
        into=into,
        end=end,
        edge=edge,
        to_middle=spot.to_middle,
    )


def _found(board: Board, word: str | None, surfaces: Sequence[Surface]) -> Surface:
    """The surface the board has ``word`` for; the first, its reference, where none is given."""
    if word is None:
        return surfaces[0]
    words = {board.datum.word(surface): surface for surface in surfaces}
    if word in words:
        return words[word]
    near = nearest_names(word, tuple(words), 1)
    raise BadInput(
        f"a {board.part} has no {quoted(word)}; write {' or '.join(words)}{f' (the nearest is {near[0]})' if near else ''}."
    )


def _span(whole: Dimension, size: Fraction, away: Dimension | None, surface: Surface | None, *, to_middle: bool) -> Span:
    """What an outline of ``size`` mm takes up of ``whole``: in its middle, or so far away from the surface."""
    wide = dimension(Length(size))
    if surface is None:
        return Span.about(whole / 2, wide)
    near = (NOTHING if away is None else away) - (wide / 2 if to_middle else NOTHING)
    return Span.of(whole - near - wide, whole - near) if surface.is_far else Span.of(near, near + wide)


def _refuse_over(board: Board, wish: OutlineWish, along: Span, across: Span) -> None:
    """Refuse an outline that doesn't lie on the wood, naming the side it hangs over most."""
    past = {
        Surface.END: -along.start,
        Surface.FAR_END: along.stop - board.length,
        Surface.EDGE: -across.start,
        Surface.FAR_EDGE: across.stop - board.width,
    }
    side = max(past, key=lambda surface: past[surface])
    if past[side] <= ZERO:
        return
    remedy = "Move it in, or draw it smaller."
    if along.size > board.length or across.size > board.width:
        remedy = "Draw it smaller, or turn it by 90."
    raise refusal(
        "outline",
        f"The {wish.purpose} ({wish.outline.file}, {{wide}} x {{high}}) hangs {{over}} over the {board.datum.word(side)}.",
        remedy,
        "CK-7",
        "by geometry",
        wide=along.size,
        high=across.size,
        over=past[side],
    ).at(board.name)


def _into(board: Board, wish: OutlineWish, face: Surface) -> Span | None:
    """The wood that is cut away inside the outline."""
    depth = board.thickness if wish.depth is None else wish.depth
    if depth > board.thickness:
        raise refusal(
            "outline",
            f"The {wish.purpose} is to be cut {{depth}} deep in wood {{thick}} thick.",
            "Cut it at most {thick} deep.",
            "CK-7",
            "by geometry",
            depth=depth,
            thick=board.thickness,
        ).at(board.name)
    if not depth:
        return None
    return Span(board.thickness - depth, board.thickness) if face is Surface.FAR_FACE else Span(NOTHING, depth)
