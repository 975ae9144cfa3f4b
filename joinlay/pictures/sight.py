"""What is seen of the piece in one view: facets, edges parted into seen and hidden, and places that are in plain sight."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final

from joinlay.geometry import area, box_of
from joinlay.lengths import Fraction
from joinlay.pen.placing import MM, whole
from joinlay.pictures.hiding import part_edges
from joinlay.pictures.projecting import project

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from joinlay.boards import Board
    from joinlay.pen.marks import Box, Point
    from joinlay.pen.placing import Whole
    from joinlay.pictures.hiding import Parted
    from joinlay.pictures.projecting import Facet, View

__all__ = ["Sight", "look"]

#: Where in a facet a leader may end, as shares of its width and height.
_SHARES: Final = tuple((Fraction(a, 8), Fraction(b, 16)) for a in (7, 4, 1) for b in (8, 12, 4, 14, 2, 10, 6))
#: How high the shelves are that facets are looked up by.
_SHELF: Final = 40 * MM


@dataclass(frozen=True, slots=True)
class Sight:
    """What ``view`` shows of some boards: every facet that is turned to the eye, and each edge with what is seen and hidden of it.

    ``box`` is the room it takes, in mm of wood; ``owned`` are the facets by the name of their board, cut ones first, then the largest.
    """

    view: View
    facets: tuple[Facet, ...]
    edges: tuple[Parted, ...]
    box: Box
    owned: dict[str, tuple[Facet, ...]] = field(repr=False)
    _shelves: dict[int, list[tuple[Whole, Facet]]] = field(repr=False)

    def of(self, board: Board) -> tuple[Facet, ...]:
        """The facets of ``board``; none where it is not there."""
        return self.owned.get(board.name, ())

    def spots(self, board: Board) -> Iterator[Point]:
        """Points of ``board`` that nothing hides, those at the right first."""
        for facet in self.of(board):
            x0, y0, x1, y1 = box_of(facet.corners)
            for across, up in _SHARES:
                point = (x0 + (x1 - x0) * across, y0 + (y1 - y0) * up)
                if _holds(facet, point) and self.is_clear(facet, point):
                    yield point

    def is_clear(self, facet: Facet, point: Point) -> bool:
        """True where nothing nearer covers ``point``, which lies in ``facet``."""
        left, bottom, right, top = whole((*point, *point))
        for (x0, y0, x1, y1), other in self._shelves.get(bottom // _SHELF, ()):
            if (
                x0 <= right
                and left <= x1
                and y0 <= top
                and bottom <= y1
                and other.depth < facet.depth
                and other.board is not facet.board
            ):
                return False
        return True


def look(boards: Iterable[Board], view: View) -> Sight:
    """What ``view`` shows of ``boards``. ValueError where that is nothing. No rule: derived."""
    shown = [project(board, view) for board in boards]
    facets = tuple(facet for own, _ in shown for facet in own)
    edges = tuple(part_edges((edge for _, edges in shown for edge in edges), facets))
    shelves: dict[int, list[tuple[Whole, Facet]]] = {}
    owned: dict[str, list[Facet]] = {}
    for facet in facets:
        owned.setdefault(facet.board.name, []).append(facet)
        box = whole(box_of(facet.corners))
        for shelf in range(box[1] // _SHELF, box[3] // _SHELF + 1):
            shelves.setdefault(shelf, []).append((box, facet))
    ordered = {
        name: tuple(sorted(own, key=lambda facet: (not facet.is_cut, -area(box_of(facet.corners)))))
        for name, own in owned.items()
    }
    return Sight(view, facets, edges, box_of([corner for facet in facets for corner in facet.corners]), ordered, shelves)


def _holds(facet: Facet, point: Point) -> bool:
    """Whether a point lies in the facet, which may be slanted."""
    corners = facet.corners
    x, y = point
    pairs = zip(corners, (*corners[1:], corners[0]), strict=True)
    return all((x1 - x0) * (y - y0) >= (y1 - y0) * (x - x0) for (x0, y0), (x1, y1) in pairs)
