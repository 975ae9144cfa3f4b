"""What is seen of an edge, and what is hidden behind nearer wood; exactly."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from joinlay.geometry import box_of, stretch_in
from joinlay.lengths import Fraction
from joinlay.pen.placing import MM, whole

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from joinlay.geometry import Point, Stretch
    from joinlay.pen.placing import Whole
    from joinlay.pictures.projecting import Edge, Facet

__all__ = ["Parted", "left_of", "part_edges"]

#: How high the shelves are that facets are looked up by.
_SHELF: Final = 40 * MM
_WHOLE: Final[Stretch] = (Fraction(0), Fraction(1))


@dataclass(frozen=True, slots=True)
class Parted:
    """An ``edge`` with what is ``seen`` of it and what is ``hidden``, each as pairs of points."""

    edge: Edge
    seen: tuple[tuple[Point, Point], ...]
    hidden: tuple[tuple[Point, Point], ...]


def left_of(one: Point, two: Point, hidden: Iterable[Stretch]) -> tuple[tuple[Point, Point], ...]:
    """What is left of the line from ``one`` to ``two`` once the stretches ``hidden`` are taken out."""
    return _pieces(one, two, _others(_drawn_together(hidden)))


def part_edges(edges: Iterable[Edge], facets: Sequence[Facet]) -> Iterator[Parted]:
    """Each of ``edges`` with what nearer ``facets`` hide of it; an edge in line with the border of a nearer facet is hidden.

    No rule: derived.
    """
    # The nearest first: they hide the most, and an edge that is hidden whole need not be looked at further.
    shelves: dict[int, list[tuple[Whole, Facet]]] = {}
    for facet in sorted(facets, key=lambda facet: facet.depth):
        box = whole(box_of(facet.corners))
        for shelf in range(box[1] // _SHELF, box[3] // _SHELF + 1):
            shelves.setdefault(shelf, []).append((box, facet))
    for edge in edges:
        hidden = _hidden(edge, shelves)
        yield Parted(edge, _pieces(edge.start, edge.end, _others(hidden)), _pieces(edge.start, edge.end, hidden))


def _hidden(edge: Edge, shelves: dict[int, list[tuple[Whole, Facet]]]) -> list[Stretch]:
    x0, y0, x1, y1 = whole(box_of((edge.start, edge.end)))
    hidden: list[Stretch] = []
    for shelf in range(y0 // _SHELF, y1 // _SHELF + 1):
        for (a, b, c, d), facet in shelves.get(shelf, ()):
            if facet.depth >= edge.depth or hidden == [_WHOLE]:
                break
            if c < x0 or x1 < a or d < y0 or y1 < b or facet.board is edge.board:
                continue
            stretch = stretch_in(edge.start, edge.end, facet.corners)
            if stretch is not None:
                hidden = _drawn_together((*hidden, stretch))
    return hidden


def _drawn_together(stretches: Iterable[Stretch]) -> list[Stretch]:
    made: list[Stretch] = []
    for start, stop in sorted(stretches):
        if made and start <= made[-1][1]:
            made[-1] = (made[-1][0], max(stop, made[-1][1]))
        else:
            made.append((start, stop))
    return made


def _others(stretches: Sequence[Stretch]) -> list[Stretch]:
    """What is left of the whole."""
    made, at = [], _WHOLE[0]
    for start, stop in stretches:
        if at < start:
            made.append((at, start))
        at = stop
    return [*made, (at, _WHOLE[1])] if at < 1 else made


def _pieces(one: Point, two: Point, stretches: Sequence[Stretch]) -> tuple[tuple[Point, Point], ...]:
    (x0, y0), (x1, y1) = one, two

    def at(share: Fraction) -> Point:
        return (x0 + (x1 - x0) * share, y0 + (y1 - y0) * share)

    return tuple((at(start), at(stop)) for start, stop in stretches)
