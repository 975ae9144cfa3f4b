"""What is seen of the piece in one view: facets, edges parted into seen and hidden, and places that are in plain sight."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Final

from joinlay.drawings.hiding import box_of, part_edges
from joinlay.drawings.projecting import project

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from joinlay.boards import Board
    from joinlay.drawings.hiding import Parted
    from joinlay.drawings.marks import Box, Point
    from joinlay.drawings.projecting import Facet, View

__all__ = ["Sight", "look"]

#: Where in a facet a leader may end, as shares of its width and height.
_SHARES: Final = tuple((Fraction(a, 8), Fraction(b, 2 if b < 2 else 8)) for a in (7, 6, 5, 4, 2, 1) for b in (1, 2, 6))


@dataclass(frozen=True, slots=True)
class Sight:
    """What ``view`` shows of some boards: every facet that is turned to the eye, and each edge with what is seen and hidden of it."""

    view: View
    facets: tuple[Facet, ...]
    edges: tuple[Parted, ...]

    @property
    def box(self) -> Box:
        """The room it takes, in mm of wood. ValueError where there is nothing."""
        return box_of([corner for facet in self.facets for corner in facet.corners])

    def of(self, board: Board) -> tuple[Facet, ...]:
        """The facets of ``board``, cut ones first, then the largest."""
        own = [facet for facet in self.facets if facet.board is board]
        return tuple(sorted(own, key=lambda facet: (not facet.is_cut, -_area(facet))))

    def spots(self, board: Board) -> Iterator[Point]:
        """Points of ``board`` that nothing hides, those at the right first."""
        for facet in self.of(board):
            x0, y0, x1, y1 = box_of(facet.corners)
            for across, up in _SHARES:
                point = (x0 + (x1 - x0) * across, y0 + (y1 - y0) * up)
                if _holds(facet, point) and self.is_clear(facet, (*point, *point)):
                    yield point

    def is_clear(self, facet: Facet, box: Box) -> bool:
        """True where nothing nearer covers any of ``box``, which lies in ``facet``."""
        left, bottom, right, top = box
        for other in self.facets:
            if other.depth < facet.depth and other.board is not facet.board:
                x0, y0, x1, y1 = box_of(other.corners)
                if x0 < right and left < x1 and y0 < top and bottom < y1:
                    return False
                if (left, bottom) == (right, top) and x0 <= left <= x1 and y0 <= bottom <= y1:
                    return False
        return True


def look(boards: Iterable[Board], view: View) -> Sight:
    """What ``view`` shows of ``boards``. No rule: derived."""
    shown = [project(board, view) for board in boards]
    facets = tuple(facet for own, _ in shown for facet in own)
    return Sight(view, facets, tuple(part_edges((edge for _, edges in shown for edge in edges), facets)))


def _area(facet: Facet) -> Fraction:
    x0, y0, x1, y1 = box_of(facet.corners)
    return (x1 - x0) * (y1 - y0)


def _holds(facet: Facet, point: Point) -> bool:
    """Whether a point lies in the facet, which may be slanted."""
    corners = facet.corners
    x, y = point
    pairs = zip(corners, (*corners[1:], corners[0]), strict=True)
    return all((x1 - x0) * (y - y0) >= (y1 - y0) * (x - x0) for (x0, y0), (x1, y1) in pairs)
