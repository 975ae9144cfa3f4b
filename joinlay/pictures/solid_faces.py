"""Placed boards as flat faces and straight edges in space, those that are turned to the eye of an axonometric view.

The problem: what of a board with its cuts is turned to somebody who looks from the front, the right and above, wherever the board
stands and whatever is cut out of it. The method: the planes of its cuts part a board into a grid of cells, each all wood or all
air. A wall between wood and air that looks towards the eye is part of a face; walls that lie side by side in one plane are drawn
together to rectangles, and where such a plane's walls end there is an edge. Corners are reckoned in the board and only then put
into the piece, so that what leans or is planed to a slant comes out aslant.

Points are whole ten-thousandths of a millimetre: each is rounded once, from its exact place, so planes that touch in the plan
still touch, and what follows is in whole numbers and therefore exact and quick.

The cost is the cells of the grid: one for a plain board, some hundreds for a side with its dadoes. It knows boxes only: a round
end is drawn square, and round holes, which are small at the scale of a whole piece, are not drawn.
"""

from __future__ import annotations

from itertools import pairwise, product
from typing import TYPE_CHECKING, Final

from joinlay.boards import Axis, Shape, Surface
from joinlay.boards.place import dot
from joinlay.lengths import Fraction
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from joinlay.boards import Board, PartRole, Vector

__all__ = ["EYE", "PARTS_OF_MM", "Face", "Spot", "Wire", "faces_and_edges", "fine"]

#: A point of the piece: right, back, up, in whole ten-thousandths of a millimetre.
Spot = tuple[int, int, int]

#: How many of these there are in a millimetre.
PARTS_OF_MM: Final = 10_000

#: From the piece towards the eye: to the right, to the front and up alike, so that X, Y and Z are all seen at one scale (ISO
#: 5456-3).
EYE: Final = (Fraction(1), Fraction(-1), Fraction(1))

_AXES: Final = tuple(Axis)
#: The two other axes of a board, by the number of the one.
_OTHERS: Final = ((1, 2), (0, 2), (0, 1))

#: A cell of a board's grid, by its numbers along, across and into.
_Cell = tuple[int, int, int]


@dataclass(frozen=True, slots=True)
class Face:
    """A flat face of a part that looks towards the eye: four ``corners`` in order, and the plane they lie in.

    ``plane`` is (a, b, c, d): a x + b y + c z - d is positive on the eye's side, ``steep`` the largest of a, b and c without its
    sign.
    """

    role: PartRole
    corners: tuple[Spot, Spot, Spot, Spot]
    plane: tuple[int, int, int, int]
    steep: int

    def before(self, spot: Spot) -> int:
        """How far ``spot`` is before the plane, as a share of ``steep``; negative behind it."""
        a, b, c, d = self.plane
        return a * spot[0] + b * spot[1] + c * spot[2] - d


@dataclass(frozen=True, slots=True)
class Wire:
    """A straight edge of a part in space; ``is_rim`` where only one of the two faces that meet in it looks towards the eye."""

    role: PartRole
    start: Spot
    end: Spot
    is_rim: bool


def fine(point: Vector) -> Spot:
    """A point of the piece, in mm, in whole ten-thousandths."""
    x, y, z = point
    return _fine(x), _fine(y), _fine(z)


def _fine(at: Fraction) -> int:
    scaled = at * PARTS_OF_MM
    return (2 * scaled.numerator + scaled.denominator) // (2 * scaled.denominator)


def faces_and_edges(board: Board) -> tuple[tuple[Face, ...], tuple[Wire, ...]]:
    """The faces of a placed ``board`` that look towards the eye, and all edges of these; none for one without a place.

    Round holes are left out, and round ends are square.
    """
    if board.place is None:
        return (), ()
    walls = _Walls(board)
    return tuple(walls.faces()), tuple(walls.edges())


def plane_of(corners: Iterable[Spot]) -> tuple[int, int, int, int]:
    """The plane through the first three of ``corners``, its eye's side before it; in the smallest figures for one square to an
    axis.
    """
    (x0, y0, z0), (x1, y1, z1), (x2, y2, z2), *_ = corners
    a, b, c = x1 - x0, y1 - y0, z1 - z0
    d, e, f = x2 - x0, y2 - y0, z2 - z0
    n = [b * f - c * e, c * d - a * f, a * e - b * d]
    if sum(map(bool, n)) == 1:
        n = [(one > 0) - (one < 0) for one in n]
    if n[0] - n[1] + n[2] < 0:
        n = [-one for one in n]
    return n[0], n[1], n[2], n[0] * x0 + n[1] * y0 + n[2] * z0


class _Walls:
    """The walls between wood and air of one board that look towards the eye."""

    def __init__(self, board: Board) -> None:
        assert board.place is not None
        self.board, self.place = board, board.place
        spans = [
            [(cut.span(axis).start.mm, cut.span(axis).stop.mm) for axis in _AXES]
            for cut in board.cuts
            if cut.shape is not Shape.ROUND
        ]
        none = Fraction(0)
        self.lines = [
            sorted({none, board.size(axis).mm, *(end for span in spans for end in span[n])}) for n, axis in enumerate(_AXES)
        ]
        self.counts = tuple(len(lines) - 1 for lines in self.lines)
        numbers = [{line: n for n, line in enumerate(lines)} for lines in self.lines]
        self.air = {
            cell for span in spans for cell in product(*(range(numbers[n][a], numbers[n][b]) for n, (a, b) in enumerate(span)))
        }
        self.wood = [cell for cell in product(*map(range, self.counts)) if cell not in self.air]
        #: Whether the far side of each axis looks towards the eye.
        self.is_far = tuple(dot(run, EYE) > 0 for run in (self.place.along, self.place.across, self.place.into))
        self.planes = list(self._planes())
        self._spots: dict[_Cell, Spot] = {}

    def _planes(self) -> Iterator[tuple[int, int, set[tuple[int, int]]]]:
        """Each plane of walls: its axis, which line of that axis it lies on, and the cells of the two other axes that have a
        wall there.
        """
        for axis in range(3):
            step = 1 if self.is_far[axis] else -1
            found: dict[int, set[tuple[int, int]]] = {}
            first, second = _OTHERS[axis]
            for cell in self.wood:
                beyond = cell[axis] + step
                if 0 <= beyond < self.counts[axis]:
                    other = list(cell)
                    other[axis] = beyond
                    if (other[0], other[1], other[2]) not in self.air:
                        continue
                found.setdefault(cell[axis] + self.is_far[axis], set()).add((cell[first], cell[second]))
            for line in sorted(found):
                yield axis, line, found[line]

    def faces(self) -> Iterator[Face]:
        """Walls side by side in one plane, drawn together to rectangles of the board."""
        for axis, line, cells in self.planes:
            left = set(cells)
            while left:
                i, j = min(left)
                k = j
                while (i, k + 1) in left:
                    k += 1
                h = i
                while all((h + 1, n) in left for n in range(j, k + 1)):
                    h += 1
                left.difference_update(product(range(i, h + 1), range(j, k + 1)))
                yield self._face(axis, line, (i, j), (h + 1, k + 1))

    def _face(self, axis: int, line: int, low: tuple[int, int], high: tuple[int, int]) -> Face:
        (a, b), (c, d) = low, high
        one, two, three, four = (self._spot(axis, line, at) for at in ((a, b), (c, b), (c, d), (a, d)))
        plane = plane_of((one, two, three))
        return Face(self.board.role, (one, two, three, four), plane, max(abs(n) for n in plane[:3]))

    def edges(self) -> Iterator[Wire]:
        """Where the walls of a plane end, each edge as long as it goes on; one that ends two planes comes once."""
        #: How many planes end in each piece of an edge, one cell long: by the axis it runs on, where it lies on the two others,
        #: and its number.
        found: dict[tuple[int, int, int], dict[int, int]] = {}
        for axis, line, cells in self.planes:
            first, second = _OTHERS[axis]
            for i, j in cells:
                for beside, run, at, n in _sides(i, j, first, second):
                    if beside not in cells:
                        where = {axis: line, first + second - run: at}
                        low, high = _OTHERS[run]
                        pieces = found.setdefault((run, where[low], where[high]), {})
                        pieces[n] = pieces.get(n, 0) + 1
        for (run, low, high), pieces in sorted(found.items()):
            ordered = sorted(pieces)
            ends = (n for n, (a, b) in enumerate(pairwise(ordered), start=1) if b > a + 1 or pieces[a] != pieces[b])
            for start, stop in pairwise((0, *ends, len(ordered))):
                first, last = ordered[start], ordered[stop - 1]
                one, two = self._node(run, low, high, first), self._node(run, low, high, last + 1)
                yield Wire(self.board.role, one, two, is_rim=pieces[first] == 1)

    def _node(self, run: int, low: int, high: int, at: int) -> Spot:
        cell = [0, 0, 0]
        one, two = _OTHERS[run]
        cell[run], cell[one], cell[two] = at, low, high
        return self._at((cell[0], cell[1], cell[2]))

    def _spot(self, axis: int, line: int, at: tuple[int, int]) -> Spot:
        cell = [0, 0, 0]
        first, second = _OTHERS[axis]
        cell[axis], cell[first], cell[second] = line, *at
        return self._at((cell[0], cell[1], cell[2]))

    def _at(self, node: _Cell) -> Spot:
        """A corner of the grid in the piece."""
        found = self._spots.get(node)
        if found is None:
            point = (self.lines[0][node[0]], self.lines[1][node[1]], self.lines[2][node[2]])
            found = self._spots[node] = fine(self.place.spot(*self._planed(point)))
        return found

    def _planed(self, point: Vector) -> Vector:
        """A point of the square board, moved where a taper has planed its edge or end off."""
        along, across, into = point
        length, width = self.board.length.mm, self.board.width.mm
        for taper in self.board.tapers:
            is_end = taper.surface.axis is Axis.ALONG
            share = across / width if is_end else along / length
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


def _sides(i: int, j: int, first: int, second: int) -> Iterator[tuple[tuple[int, int], int, int, int]]:
    """The four sides of a cell: the cell beyond, the axis the side runs on, where it lies on the other, and its number on its
    own.
    """
    yield (i - 1, j), second, i, j
    yield (i + 1, j), second, i + 1, j
    yield (i, j - 1), first, j, i
    yield (i, j + 1), first, j + 1, i
