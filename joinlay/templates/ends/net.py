"""A part as it lies on the bench to be marked, and its end laid out flat: the face, the end beside it, the far face beyond.

A part is looked at on its reference face, and on each edge that has cuts of its own (a stile's mortises): each is a view of the
board. Paper folded along the lines between the surfaces of a view wraps its end. Everything on that net is counted in two exact
numbers: ``u``, how far from the end (positive on the face; negative on the end and the far face, in the order the paper meets
them), and ``y``, how far from the reference edge. Only when marks are made does ``u`` become right or left, as the board is seen.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.boards import Axis, Board, Cut, CutKind, CutUse, Datum, Place, Shape, Span, Surface
from joinlay.lengths import NOTHING, Fraction
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.pen.marks import Box, Point

__all__ = ["Mouth", "Net", "lay_flat", "views_of"]

#: A cut that begins further than this from an end isn't marked from there, in mm.
_NEAR: Final = Fraction(100)
#: How far the paper reaches past the last cut on the far face, and how deep a plain flap is that only hooks over the end.
_FAR_MARGIN, _LEAST_FLAP = Fraction(8), Fraction(12)
#: So much of a cut on the far face is shown; of one that begins away from the end and runs on further, so much of itself, in mm.
_MOST_BEYOND, _BEGUN = Fraction(40), Fraction(12)


@dataclass(frozen=True, slots=True)
class Mouth:
    """Where ``cut`` opens on the surface ``on`` of the net, or (``is_hidden``) lies under its face.

    ``box`` is (u, y, u, y) in mm, the lesser of each first.
    """

    cut: Cut
    on: Surface
    box: Box
    is_hidden: bool = False

    @property
    def is_entered(self) -> bool:
        """True where this is the surface the cutter enters."""
        return self.on is self.cut.surface

    @property
    def is_centred(self) -> bool:
        """True where the cut is marked by its centre: a mortise or a hole, on the surface it is cut from."""
        return self.is_entered and self.cut.kind in (CutKind.MORTISE, CutKind.HOLE)

    @property
    def centre(self) -> Point:
        """The middle of the mouth, in u and y."""
        u0, y0, u1, y1 = self.box
        return ((u0 + u1) / 2, (y0 + y1) / 2)


@dataclass(frozen=True, slots=True)
class Net:
    """The ``end`` (END or FAR_END) of ``board`` laid flat, with the ``mouths`` of its cuts. All sizes in mm.

    ``flap`` is how much of the end is on the paper, ``far`` how much of the far face (0: none). ``shown`` is how much of the
    board's width is on the paper, from the reference edge up; None: all of it. ``part`` is the board with all its cuts where
    ``board`` is only one view of it, with the surface ``up``.
    """

    board: Board
    end: Surface
    mouths: tuple[Mouth, ...]
    flap: Fraction
    far: Fraction
    shown: Fraction | None = None
    part: Board | None = None
    up: Surface = Surface.FACE

    @property
    def hand(self) -> int:
        """1 where the end is at the left, looking at the face with the reference edge down; -1 where it is at the right."""
        return 1 if (self.end is Surface.END) == self.board.end_on_left else -1

    @property
    def height(self) -> Fraction:
        """As much of the board's width as is on the paper, upright."""
        return self.board.width.mm if self.shown is None else self.shown

    @property
    def is_through(self) -> bool:
        """True where nothing is seen but cuts that run out at this end and are marked from the other where they stop: a fence
        sets them all.
        """
        long = self.board.length.mm

        def runs_out(cut: Cut) -> bool:
            start, stop = _from_end(cut.along, self.board, self.end)
            return start == 0 and long - stop <= _NEAR and long - stop < long / 2

        return all(runs_out(mouth.cut) for mouth in self.mouths)

    @property
    def goes_on(self) -> bool:
        """True where the part has cuts too far along for a template at either end (a story stick has them), pull holes aside."""
        part = self.part or self.board
        return any(
            all(_from_end(cut.along, part, end)[0] > _NEAR for end in (Surface.END, Surface.FAR_END))
            for cut in part.cuts
            if cut.role.use is not CutUse.PULL_HOLE
        )

    @property
    def outer(self) -> Fraction:
        """The u where the paper begins, furthest from the face."""
        return -(self.flap + self.far)

    def panel(self, surface: Surface, reach: Fraction) -> Box:
        """The box (u, y, u, y) of one ``surface`` on the paper, in mm; the face as far as ``reach`` from the end."""
        spans = {
            self.end: (-self.flap, Fraction(0)),
            Surface.FACE: (Fraction(0), reach),
            Surface.FAR_FACE: (self.outer, -self.flap),
        }
        u0, u1 = spans[surface]
        return (u0, Fraction(0), u1, self.height)

    @property
    def surfaces(self) -> tuple[Surface, ...]:
        """The surfaces on the paper, in the order of u."""
        return ((Surface.FAR_FACE,) if self.far else ()) + (self.end, Surface.FACE)


def views_of(board: Board) -> tuple[tuple[Surface, Board], ...]:
    """``board`` as it is laid down to be marked: its face up, then each edge up that has cuts which come out on neither face.

    Each is (the surface that is up, view). A view is a board whose reference face is the surface looked at, with the cuts that
    are marked there: a joint is marked on the surface the cutter enters. A view with no cuts is left out.
    """
    sunk = {edge: _sunk_in(board, edge) for edge in (Surface.EDGE, Surface.FAR_EDGE)}
    away = [cut for cuts in sunk.values() for cut in cuts]
    face = replace(board, cuts=tuple(cut for cut in board.cuts if cut not in away)) if away else board
    edges = tuple((edge, _on_edge(board, edge, cuts)) for edge, cuts in sunk.items() if cuts)
    return (*(((Surface.FACE, face),) if face.cuts else ()), *edges)


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
        board,
        width=board.thickness,
        thickness=board.width,
        datum=datum,
        cuts=tuple(_turned(cut, edge, board) for cut in cuts),
        tapers=(),
        bands=(),
        place=turned,
    )


def _turned(cut: Cut, edge: Surface, board: Board) -> Cut:
    deep = cut.span(Axis.ACROSS)
    if edge is Surface.FAR_EDGE:
        deep = Span(board.width - deep.stop, board.width - deep.start)
    return replace(cut, surface=Surface.FACE, across=cut.into, into=deep)


def _opposite(edge: Surface) -> Surface:
    return Surface.FAR_EDGE if edge is Surface.EDGE else Surface.EDGE


def lay_flat(board: Board, end: Surface) -> Net | None:
    """The net at ``end`` (END or FAR_END) of ``board``, one of ``views_of``; None where no cut comes within 100 mm of it.

    A cut in the other half of a short board is marked from the other end alone (PR-11).
    """
    thick, half = board.thickness.mm, board.length.mm / 2
    mouths: list[Mouth] = []
    for cut in board.cuts:
        u0, u1 = _from_end(cut.along, board, end)
        if u0 <= _NEAR and u0 < half:
            mouths += _mouths(cut, u0, u1, end, thick)
    if not mouths:
        return None
    far = [mouth for mouth in mouths if mouth.on is Surface.FAR_FACE]
    depth = max((_shown_beyond(-thick - mouth.box[2], -thick - mouth.box[0]) for mouth in far), default=None)
    full = depth is not None or any(mouth.on is end for mouth in mouths)
    return Net(
        board,
        end,
        tuple(mouths),
        flap=thick if full else min(thick, _LEAST_FLAP),
        far=Fraction(0) if depth is None else depth + _FAR_MARGIN,
    )


def _shown_beyond(u0: Fraction, u1: Fraction) -> Fraction:
    """How much of the far face is shown of a cut from ``u0`` to ``u1`` from the end: of one that runs on only a little."""
    return min(_MOST_BEYOND, u1 if u0 == 0 or u1 <= _MOST_BEYOND else u0 + _BEGUN)


def _from_end(along: Span, board: Board, end: Surface) -> tuple[Fraction, Fraction]:
    if end is Surface.END:
        return along.start.mm, along.stop.mm
    return board.length.mm - along.stop.mm, board.length.mm - along.start.mm


def _mouths(cut: Cut, u0: Fraction, u1: Fraction, end: Surface, thick: Fraction) -> list[Mouth]:
    """Every surface of the net that the cut opens on; on the face also what lies under it."""
    across, into = cut.span(Axis.ACROSS), cut.span(Axis.INTO)
    y0, y1 = across.start.mm, across.stop.mm
    found = [Mouth(cut, Surface.FACE, (u0, y0, u1, y1), is_hidden=into.start.mm > 0)]
    if u0 == 0:
        found.append(Mouth(cut, end, (-into.stop.mm, y0, -into.start.mm, y1)))
    # What is drilled or routed right through comes out where it will; only cuts with corners are marked on both faces.
    if into.stop.mm == thick and (cut.shape is Shape.SQUARE or cut.surface is Surface.FAR_FACE):
        found.append(Mouth(cut, Surface.FAR_FACE, (-thick - u1, y0, -thick - u0, y1)))
    return found
