"""Placed boards seen from one side, whole or cut through: their faces as flat polygons with a depth, and their edges.

The problem: what of a board with its cuts is seen from one side, exactly, wherever it stands. The method: the planes of its cuts
part a board into a grid of cells, each all wood or all air. Looked at along the board's own axis that runs away from the eye, the
grid is a field of columns; the first cell of wood in each is what is seen there, or where the piece is cut through, the plane of
the cut in it. Neighbouring columns that show one surface are drawn together to a facet, and where two differ there is an edge.
Only the corners of facets and edges are turned into points of the piece, so that a leaning or tapered board is drawn aslant
without being reckoned aslant.

The cost is the cells of the grid times the cuts: a few hundred for a board with a dozen cuts. It knows boxes and nothing else: a
round hole looked along is left to be drawn as a circle, a round end is drawn square, and a board that stands at any angle to the
piece other than the slight lean of a tapered drawer would show only the side that faces the eye most.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise, product
from typing import TYPE_CHECKING, Final

from joinlay.boards import Axis, Shape, Surface
from joinlay.geometry import box_of
from joinlay.lengths import Fraction
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.boards import Board, Cut, Vector
    from joinlay.boards.extent import SpaceBox
    from joinlay.geometry import Box, Point

__all__ = ["FROM_ABOVE", "FROM_FRONT", "FROM_RIGHT", "Edge", "Facet", "View", "project"]

_AXES: Final = tuple(Axis)
_HALF: Final = Fraction(1, 2)


@dataclass(frozen=True, slots=True)
class View:
    """How the piece is looked at: which of X, Y and Z (0, 1, 2) runs ``right`` on the drawing, which ``up``, and which ``away``.

    ``sign`` is 1 where ``away`` grows with distance, -1 where it shrinks. ``cut`` is where on that axis the piece is cut through;
    what lies this side of it is not there. None: the whole piece is seen.
    """

    right: int
    up: int
    away: int
    sign: int
    cut: Fraction | None = None

    def at(self, cut: Fraction) -> View:
        """The same view of the piece cut through at ``cut``."""
        return View(self.right, self.up, self.away, self.sign, cut)

    def flat(self, point: Vector) -> Point:
        """Where a point of the piece is seen, in mm."""
        return (point[self.right], point[self.up])

    def box(self, space: SpaceBox) -> Box:
        """Where what takes up ``space`` is seen, in mm."""
        return (*self.flat(space.low), *self.flat(space.high))

    def depth(self, point: Vector) -> Fraction:
        """How far away a point is: from the cut where there is one, else from the piece's zero."""
        return self.sign * (point[self.away] - (self.cut or 0))


#: The front of the piece; from its right, the front at the left; from above, the front below.
FROM_FRONT: Final = View(0, 2, 1, 1)
FROM_RIGHT: Final = View(1, 2, 0, -1)
FROM_ABOVE: Final = View(0, 1, 2, -1)


@dataclass(frozen=True, slots=True)
class Facet:
    """A flat piece of ``board`` that is turned to the eye.

    ``corners`` run anticlockwise, in mm; ``depth`` is how far away it is; ``is_cut`` where it lies in the cut itself. ``box`` is
    the smallest box around it, and ``is_box`` where it fills that.
    """

    board: Board
    corners: tuple[Point, ...]
    depth: Fraction
    is_cut: bool
    box: Box
    is_box: bool


@dataclass(frozen=True, slots=True)
class Edge:
    """A straight edge of a facet of ``board``; ``is_cut`` where it bounds wood that is cut through."""

    board: Board
    start: Point
    end: Point
    depth: Fraction
    is_cut: bool


#: What is seen in one column of cells: how deep in the board the wood begins, and whether it is cut there.
_Top = tuple[Fraction, bool]


def project(board: Board, view: View) -> tuple[tuple[Facet, ...], tuple[Edge, ...]]:
    """What ``board`` shows in ``view``: its facets and its edges, in mm; nothing for one without a place or this side of the cut.

    Round holes looked along are left to be drawn as circles.
    """
    return ((), ()) if board.place is None else _projected(_Itself(board), view)


class _Itself:
    """A board to look up by: as the very one it is, not as one that is like it, which takes long to tell."""

    __slots__ = ("board",)

    def __init__(self, board: Board) -> None:
        self.board = board

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Itself) and other.board is self.board

    def __hash__(self) -> int:
        return id(self.board)


#: A detail shows boards that a section has shown from the same side.
@lru_cache(maxsize=512)
def _projected(itself: _Itself, view: View) -> tuple[tuple[Facet, ...], tuple[Edge, ...]]:
    board = itself.board
    grid = _SquareGrid(board, view) if _is_square(board) else _Grid(board, view)
    return tuple(grid.facets()), tuple(grid.edges())


class _Grid:
    """The columns of one board, looked along its own axis that runs away from the eye."""

    def __init__(self, board: Board, view: View) -> None:
        assert board.place is not None
        self.board, self.view, self.place = board, view, board.place
        runs = (self.place.along, self.place.across, self.place.into)
        away = max(range(3), key=lambda n: abs(runs[n][view.away]))
        self.flat = tuple(n for n in range(3) if n != away)
        self.away, self.is_with = away, runs[away][view.away] * view.sign > 0
        cuts = [cut for cut in board.cuts if not (cut.shape is Shape.ROUND and cut.surface.axis is _AXES[away])]
        self.spans = [_spans(cut) for cut in cuts]
        self.lines = [self._lines(n) for n in range(3)]
        self.taken = self._taken()
        self.tops = self._tops()

    def _lines(self, axis: int) -> list[Fraction]:
        size = self.board.size(_AXES[axis]).mm
        return sorted({Fraction(0), size, *(end for spans in self.spans for end in spans[axis])})

    def _taken(self) -> set[tuple[int, int, int]]:
        """The cells of air, by their numbers along, across and into: each cut takes those between the planes it begins and
        ends at.
        """
        numbers = [{line: n for n, line in enumerate(lines)} for lines in self.lines]
        cells = (product(*(range(at[a], at[b]) for at, (a, b) in zip(numbers, spans, strict=True))) for spans in self.spans)
        return {(i, j, k) for some in cells for i, j, k in some}

    # -- columns -------------------------------------------------------------------------------------

    def _columns(self) -> Iterator[tuple[int, int]]:
        first, second = self.flat
        yield from product(range(len(self.lines[first]) - 1), range(len(self.lines[second]) - 1))

    def _tops(self) -> dict[tuple[int, int], _Top]:
        """What is seen in each column, where anything is."""
        middles = [[(a + b) / 2 for a, b in pairwise(self.lines[n])] for n in self.flat]
        return {(i, j): top for i, j in self._columns() if (top := self._top(i, j, middles[0][i], middles[1][j])) is not None}

    def _top(self, i: int, j: int, a: Fraction, b: Fraction) -> _Top | None:
        """The nearest wood of a column, which has its middle at ``a``, ``b``; None where all is cut away or this side of the
        cut.
        """
        first, second = self.flat
        cell = [0, 0, 0]
        cell[first], cell[second] = i, j
        stops = self.lines[self.away]
        cells = range(len(stops) - 1)
        for n in cells if self.is_with else reversed(cells):
            near, far = (stops[n], stops[n + 1]) if self.is_with else (stops[n + 1], stops[n])
            if self.view.cut is not None and self._depth(a, b, far) <= 0:
                continue
            cell[self.away] = n
            if tuple(cell) in self.taken:
                continue
            depth = self._depth(a, b, near)
            if self.view.cut is None or depth >= 0:
                return near, False
            # The plane of the cut lies in this cell: where, by the share of the way from near to far.
            return near + (far - near) * depth / (depth - self._depth(a, b, far)), True
        return None

    def _local(self, a: Fraction, b: Fraction, c: Fraction) -> tuple[Fraction, Fraction, Fraction]:
        """Along, across and into, from a column's two and the third."""
        if self.away == 2:
            return a, b, c
        return (a, c, b) if self.away == 1 else (c, a, b)

    def _point(self, a: Fraction, b: Fraction, c: Fraction) -> Vector:
        return self.place.spot(*self._planed(*self._local(a, b, c)))

    def _depth(self, a: Fraction, b: Fraction, c: Fraction) -> Fraction:
        return self.view.depth(self._point(a, b, c))

    def _planed(self, along: Fraction, across: Fraction, into: Fraction) -> Vector:
        """A point of the square board, moved where a taper has planed its edge or end off."""
        if not self.board.tapers:
            return along, across, into
        length, width = self.board.length.mm, self.board.width.mm
        for taper in self.board.tapers:
            share = across / width if taper.surface.axis is Axis.ALONG else along / length
            off = taper.near.mm + (taper.far.mm - taper.near.mm) * share
            if taper.surface is Surface.END and along == 0:
                along = off
            elif taper.surface is Surface.FAR_END and along == length:
                along = length - off
            elif taper.surface is Surface.EDGE and across == 0:
                across = off
            elif taper.surface is Surface.FAR_EDGE and across == width:
                across = width - off
        return along, across, into

    # -- facets and edges ----------------------------------------------------------------------------

    def facets(self) -> Iterator[Facet]:
        """Columns that show one surface, drawn together to rectangles of the board."""
        left = dict(self.tops)
        while left:
            i, j = min(left)
            top = left[i, j]
            k = j
            while left.get((i, k + 1)) == top:
                k += 1
            h = i
            while all(left.get((h + 1, n)) == top for n in range(j, k + 1)):
                h += 1
            for cell in product(range(i, h + 1), range(j, k + 1)):
                del left[cell]
            yield self._facet((i, j), (h + 1, k + 1), top)

    def _facet(self, low: tuple[int, int], high: tuple[int, int], top: _Top) -> Facet:
        (a0, b0), (a1, b1) = (tuple(self.lines[axis][n] for axis, n in zip(self.flat, at, strict=True)) for at in (low, high))
        c, is_cut = top
        points = [self._point(a, b, c) for a, b in ((a0, b0), (a1, b0), (a1, b1), (a0, b1))]
        depth = sum((self.view.depth(point) for point in points), Fraction(0)) / 4
        corners = _anticlockwise([self.view.flat(point) for point in points])
        return Facet(self.board, corners, Fraction(0) if is_cut else depth, is_cut, box_of(corners), is_box=False)

    def edges(self) -> Iterator[Edge]:
        """The lines between columns that show different surfaces, each as long as both its sides stay the same."""
        for turn in (0, 1):
            counts = [len(self.lines[axis]) for axis in self.flat]
            for line in range(counts[turn]):
                run: tuple[_Top, int] | None = None
                for n in range(counts[1 - turn]):
                    top = self._parting(turn, line, n) if n < counts[1 - turn] - 1 else None
                    if run is not None and (top is None or top != run[0]):
                        yield self._edge(turn, line, run[1], n, run[0])
                        run = None
                    if top is not None and run is None:
                        run = (top, n)

    def _parting(self, turn: int, line: int, n: int) -> _Top | None:
        """The nearer of the two surfaces that meet at a stretch of a grid line; None where they are one, or there is none."""
        cells = ((line - 1, n), (line, n)) if turn == 0 else ((n, line - 1), (n, line))
        one, two = (self.tops.get(cell) for cell in cells)
        if one == two:
            return None
        tops = [top for top in (one, two) if top is not None]
        nearest = min(tops, key=lambda top: top[0] if self.is_with else -top[0])
        return nearest[0], any(is_cut for _, is_cut in tops)

    def _edge(self, turn: int, line: int, start: int, stop: int, top: _Top) -> Edge:
        fixed, (first, last) = self.lines[self.flat[turn]][line], (self.lines[self.flat[1 - turn]][n] for n in (start, stop))
        ends = ((fixed, first), (fixed, last)) if turn == 0 else ((first, fixed), (last, fixed))
        one, two = (self._point(a, b, top[0]) for a, b in ends)
        depth = Fraction(0) if top[1] else (self.view.depth(one) + self.view.depth(two)) * _HALF
        return Edge(self.board, self.view.flat(one), self.view.flat(two), depth, top[1])


def _is_square(board: Board) -> bool:
    """Whether a placed board stands square in the piece, and no edge or end of it is planed aslant."""
    place = board.place
    return (
        place is not None
        and not board.tapers
        and all(sum(map(bool, run)) == 1 for run in (place.along, place.across, place.into))
    )


class _SquareGrid(_Grid):
    """The same of a board that stands square in the piece, as most do: each of its planes is as far away all over, and is seen as
    a line or as a box.
    """

    def __init__(self, board: Board, view: View) -> None:
        assert board.place is not None
        #: Which axis of the piece each of the board's runs on, where it begins there, and which way it goes.
        self.ons = [
            next((n, board.place.origin[n], size) for n, size in enumerate(run) if size)
            for run in (board.place.along, board.place.across, board.place.into)
        ]
        super().__init__(board, view)

    def _tops(self) -> dict[tuple[int, int], _Top]:
        layers = list(self._layers())
        tops: dict[tuple[int, int], _Top] = {}
        taken, away = self.taken, self.away
        for i, j in self._columns():
            for n, top in layers:
                if ((i, j, n) if away == 2 else (i, n, j) if away == 1 else (n, i, j)) not in taken:
                    tops[i, j] = top
                    break
        return tops

    def _layers(self) -> Iterator[tuple[int, _Top]]:
        """The layers of cells beyond the cut, the nearest first, each with what is seen where there is wood in it."""
        stops = self.lines[self.away]
        depths = [self._away(stop) for stop in stops]
        cells = range(len(stops) - 1)
        for n in cells if self.is_with else reversed(cells):
            near, far = (n, n + 1) if self.is_with else (n + 1, n)
            if self.view.cut is not None and depths[far] <= 0:
                continue
            if self.view.cut is None or depths[near] >= 0:
                yield n, (stops[near], False)
            else:
                share = depths[near] / (depths[near] - depths[far])
                yield n, (stops[near] + (stops[far] - stops[near]) * share, True)

    def _away(self, at: Fraction) -> Fraction:
        """How far away a plane of the board is."""
        _, start, run = self.ons[self.away]
        return self.view.sign * (start + run * at - (self.view.cut or 0))

    def _flat(self, a: Fraction, b: Fraction) -> Point:
        """Where in the view a line of the board is seen as a point."""
        (on, start, run), (_, other, over) = (self.ons[n] for n in self.flat)
        first, second = start + run * a, other + over * b
        return (first, second) if on == self.view.right else (second, first)

    def _facet(self, low: tuple[int, int], high: tuple[int, int], top: _Top) -> Facet:
        first, second = (self.lines[axis] for axis in self.flat)
        x0, y0 = self._flat(first[low[0]], second[low[1]])
        x1, y1 = self._flat(first[high[0]], second[high[1]])
        is_first_right = self.ons[self.flat[0]][0] == self.view.right
        one, three = (x0, y0), (x1, y1)
        two, four = ((x1, y0), (x0, y1)) if is_first_right else ((x0, y1), (x1, y0))
        is_turned = ((x1 > x0) is (y1 > y0)) is not is_first_right
        corners = (four, three, two, one) if is_turned else (one, two, three, four)
        box = (min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1))
        return Facet(self.board, corners, Fraction(0) if top[1] else self._away(top[0]), top[1], box, is_box=True)

    def _edge(self, turn: int, line: int, start: int, stop: int, top: _Top) -> Edge:
        fixed, along = self.lines[self.flat[turn]][line], self.lines[self.flat[1 - turn]]
        ends = ((fixed, along[start]), (fixed, along[stop])) if turn == 0 else ((along[start], fixed), (along[stop], fixed))
        one, two = (self._flat(a, b) for a, b in ends)
        return Edge(self.board, one, two, Fraction(0) if top[1] else self._away(top[0]), top[1])


def _spans(cut: Cut) -> tuple[tuple[Fraction, Fraction], ...]:
    return tuple((cut.span(axis).start.mm, cut.span(axis).stop.mm) for axis in _AXES)


def _anticlockwise(points: Sequence[Point]) -> tuple[Point, ...]:
    area = sum((x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(points, (*points[1:], points[0]), strict=True)), Fraction(0))
    return tuple(points) if area > 0 else tuple(reversed(points))
