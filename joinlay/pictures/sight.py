"""What is seen of the piece in one view: facets, edges parted into seen and hidden, and places that are in plain sight.

The problem: of each edge, which stretches are hidden behind nearer wood. The method: facets lie on shelves, level strips of the
drawing, the nearest first on each. For an edge, only the facets on its shelves whose boxes meet its own are asked, in order,
until they are no nearer than the edge or it is hidden whole; each gives the stretch of the edge that it covers, and what all
these leave over is seen. All of it is in exact fractions; boxes in whole micrometres, rounded outwards, only save asking.

The cost is edges times the facets over them, far below edges times facets: a chest of four drawers, some 200 facets and 600
edges, is looked at in a fifth of a second. It compares whole facets by one depth each, so two that lean through each other, or
lie askew over each other in depth, would be taken wrong; boards of furniture don't. Round parts are not its business: holes
looked along and knobs are drawn as circles over it.
"""

from __future__ import annotations

from dataclasses import field
from typing import TYPE_CHECKING, Final

from joinlay.geometry import area, box_of, pieces_of_line, rest_of_line, stretch_in, stretch_in_box, united
from joinlay.lengths import Fraction
from joinlay.pen.placing import MM, whole
from joinlay.pictures.projecting import project
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from joinlay.boards import Board, PartRole
    from joinlay.geometry import Box, Point, Stretch
    from joinlay.pen.placing import Whole
    from joinlay.pictures.projecting import Edge, Facet, View

__all__ = ["Parted", "Sight", "look"]

#: How high the shelves are that facets are looked up by.
_SHELF: Final = 40 * MM
_WHOLE: Final[Stretch] = (Fraction(0), Fraction(1))

#: Facets by the number of each shelf they reach over, each with its box in whole micrometres, the nearest first.
_Shelves = dict[int, list[tuple["Whole", "Facet"]]]


@dataclass(frozen=True, slots=True)
class Parted:
    """An ``edge`` with what is ``seen`` of it and what is ``hidden``, each as pairs of points."""

    edge: Edge
    seen: tuple[tuple[Point, Point], ...]
    hidden: tuple[tuple[Point, Point], ...]


#: Where in a facet a leader may end, as shares of its width and height.
_SHARES: Final = tuple((Fraction(a, 8), Fraction(b, 16)) for a in (7, 4, 1) for b in (8, 12, 4, 14, 2, 10, 6))


@dataclass(frozen=True, slots=True)
class Sight:
    """What ``view`` shows of some boards: every facet turned to the eye, and each edge with what is seen and hidden of it.

    ``box`` is the room it takes, in mm of wood; ``owned`` are the facets by the role of their board, cut ones first, then the
    largest.
    """

    view: View
    facets: tuple[Facet, ...]
    edges: tuple[Parted, ...]
    box: Box
    owned: dict[PartRole, tuple[Facet, ...]] = field(repr=False)
    _shelves: _Shelves = field(repr=False)

    def of(self, board: Board) -> tuple[Facet, ...]:
        """The facets of ``board``; none where it is not there."""
        return self.owned.get(board.role, ())

    def spots(self, board: Board) -> Iterator[Point]:
        """Points of ``board`` that nothing hides, those at the right first."""
        for facet in self.of(board):
            x0, y0, x1, y1 = facet.box
            for across, up in _SHARES:
                point = (x0 + (x1 - x0) * across, y0 + (y1 - y0) * up)
                if (facet.is_box or _holds(facet, point)) and self.is_clear(facet, point):
                    yield point

    def is_clear(self, facet: Facet, point: Point) -> bool:
        """True where nothing nearer covers ``point``, which lies in ``facet``."""
        left, bottom, right, top = whole((*point, *point))
        for (x0, y0, x1, y1), other in self._shelves.get(bottom // _SHELF, ()):
            if other.depth >= facet.depth:
                break
            if x0 <= right and left <= x1 and y0 <= top and bottom <= y1 and other.board is not facet.board:
                return False
        return True


def look(boards: Iterable[Board], view: View, within: Box | None = None) -> Sight:
    """What ``view`` shows of ``boards``, in mm of wood; only edges that come into the box ``within``, where one is given.

    ValueError where that is nothing.
    """
    shown = [project(board, view) for board in boards]
    facets = tuple(facet for own, _ in shown for facet in own)
    shelves = _shelved(facets)
    own_edges = (edge for _, edges in shown for edge in edges)
    edges = tuple(_part_edges(own_edges if within is None else _coming_into(within, own_edges), shelves))
    owned: dict[PartRole, list[Facet]] = {}
    for facet in facets:
        owned.setdefault(facet.board.role, []).append(facet)
    ordered = {role: tuple(sorted(own, key=lambda facet: (not facet.is_cut, -area(facet.box)))) for role, own in owned.items()}
    box = box_of([corner for facet in facets for corner in (facet.box[:2], facet.box[2:])])
    return Sight(view=view, facets=facets, edges=edges, box=box, owned=ordered, _shelves=shelves)


def _shelved(facets: Iterable[Facet]) -> _Shelves:
    """The facets on every shelf they reach over, the nearest first: they hide the most, and end the search soonest."""
    shelves: _Shelves = {}
    for facet in sorted(facets, key=lambda facet: facet.depth):
        box = whole(facet.box)
        for shelf in range(box[1] // _SHELF, box[3] // _SHELF + 1):
            shelves.setdefault(shelf, []).append((box, facet))
    return shelves


def _coming_into(box: Box, edges: Iterable[Edge]) -> Iterator[Edge]:
    left, bottom, right, top = box
    for edge in edges:
        (x0, y0), (x1, y1) = edge.start, edge.end
        if min(x0, x1) <= right and left <= max(x0, x1) and min(y0, y1) <= top and bottom <= max(y0, y1):
            yield edge


def _part_edges(edges: Iterable[Edge], shelves: _Shelves) -> Iterator[Parted]:
    """Each of ``edges`` with what nearer ones of the facets on ``shelves`` hide of it.

    An edge in line with the border of a nearer facet is hidden.
    """
    for edge in edges:
        hidden = _hidden(edge, shelves)
        seen = rest_of_line(hidden)
        yield Parted(edge, pieces_of_line(edge.start, edge.end, seen), pieces_of_line(edge.start, edge.end, hidden))


def _hidden(edge: Edge, shelves: _Shelves) -> list[Stretch]:
    (left, bottom), (right, top) = edge.start, edge.end
    if right < left:
        left, right = right, left
    x0, y0, x1, y1 = whole((left, bottom, right, top) if bottom <= top else (left, top, right, bottom))
    hidden: list[Stretch] = []
    for shelf in range(y0 // _SHELF, y1 // _SHELF + 1):
        for (a, b, c, d), facet in shelves.get(shelf, ()):
            if facet.depth >= edge.depth or hidden == [_WHOLE]:
                break
            if c < x0 or x1 < a or d < y0 or y1 < b or facet.board is edge.board:
                continue
            stretch = (
                stretch_in_box(edge.start, edge.end, facet.box)
                if facet.is_box
                else stretch_in(edge.start, edge.end, facet.corners)
            )
            if stretch is not None:
                hidden = united((*hidden, stretch))
    return hidden


def _holds(facet: Facet, point: Point) -> bool:
    """Whether a point lies in the facet, which may be slanted."""
    corners = facet.corners
    x, y = point
    pairs = zip(corners, (*corners[1:], corners[0]), strict=True)
    return all((x1 - x0) * (y - y0) >= (y1 - y0) * (x - x0) for (x0, y0), (x1, y1) in pairs)
