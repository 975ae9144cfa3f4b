"""Tiling: a drawing too large for a sheet is cut into tiles that overlap, to be put together again over register marks (PR-4).

Where the seams fall is chosen first (``seams``), along each axis by itself, so that tiles lie in straight rows and columns. The
register marks are then drawn on the whole drawing, and every stroke is clipped to each window it reaches: lines and areas
exactly, arcs at angles to a billionth of a degree, words never (they stand whole on the tiles that hold them whole, or on the
one that holds their middle). Put together, the tiles are the drawing again, line on line. The cost is strokes times tiles, most
of them passed over by their bounds.

It can't lay tiles any other way than in rows and columns, nor leave out a tile with nothing on it; and it doesn't turn the
drawing.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from math import acos, asin, ceil, cos, degrees, radians, sin
from typing import TYPE_CHECKING, Final

from joinlay.geometry import corners, point_at, polygon_in, stretch_in_box
from joinlay.lengths import Fraction
from joinlay.pages.seams import OVERLAP, match_letters, registers, seams_across, spans_of, with_boxes
from joinlay.pen.blocks import stacked
from joinlay.pen.lettering import words
from joinlay.pen.marks import Arc, Fill, Line, Polyline, Role, Text, bounds_of, box_around, flatten, text_box
from joinlay.pen.placing import MM, Room, whole
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.pages.seams import Span
    from joinlay.pen.marks import Box, Point, Stroke

__all__ = ["Tile", "clip", "tile", "tile_at"]


_SMALL: Final = Fraction(5, 2)


@dataclass(frozen=True, slots=True)
class Tile:
    """One tile of a drawing, in the drawing's own millimetres. ``column`` and ``row`` count from 0 at the lower left.

    ``letters`` are the match letters of all the drawing's seams, in their order.
    """

    column: int
    row: int
    window: Box
    strokes: tuple[Stroke, ...]
    letters: tuple[str, ...] = ()


def tile(
    strokes: Sequence[Stroke], width: Fraction, height: Fraction, *, title: str = "", letters: Iterator[str] | None = None
) -> tuple[Tile, ...]:
    """``strokes`` cut into tiles of at most ``width`` by ``height`` mm, row by row from the lower left (PR-4).

    Neighbours overlap by 10 mm, and each overlap carries two register marks with the next of ``letters`` (A, B .. unless
    given). Seams keep off joint marks and words where that can be done. Each tile says that it is one, and of which ``title``.
    A drawing that fits is one tile. Raises ValueError for a tile no larger than two overlaps.
    """
    if min(width, height) <= 2 * OVERLAP:
        raise ValueError(f"a tile of {width} x {height} mm is too small to overlap by {OVERLAP} mm")
    left, bottom, right, top = box = bounds_of(strokes)
    drawn = with_boxes(strokes)
    across = spans_of(left, right, width, seams_across(drawn, box, 0))
    up = spans_of(bottom, top, height, seams_across(drawn, box, 1))
    return tile_at(strokes, across, up, title=title, letters=letters)


def tile_at(
    strokes: Sequence[Stroke],
    across: Sequence[Span],
    up: Sequence[Span],
    *,
    title: str = "",
    letters: Iterator[str] | None = None,
) -> tuple[Tile, ...]:
    """``strokes`` cut into tiles from where to where ``across`` and ``up`` say, row by row from the lower left (PR-4).

    Each span, in the drawing's mm, begins 10 mm before the last one's end. Register marks, letters and labels as ``tile`` has
    them.
    """
    left, bottom, right, top = box = (across[0][0], up[0][0], across[-1][1], up[-1][1])
    given = letters or match_letters()
    own = tuple(next(given) for _ in range(len(across) + len(up) - 2))
    letters = iter(own)
    drawn = with_boxes(strokes)
    upright, level = seams_across(drawn, box, 0), seams_across(drawn, box, 1)
    drawn = [*drawn, *with_boxes((*registers(across, upright, letters), *registers(up, level, letters)))]
    tiles: list[Tile] = []
    windows = [(x0, y0, x1, y1) for y0, y1 in up for x0, x1 in across]
    for row, (y0, y1) in enumerate(up):
        for column, (x0, x1) in enumerate(across):
            window = (x0, y0, x1, y1)
            near = (stroke for stroke, b in drawn if b[0] <= x1 and x0 <= b[2] and b[1] <= y1 and y0 <= b[3])
            inside = [piece for stroke in near if _belongs(stroke, window, windows) for piece in clip(stroke, window)]
            number, many = len(tiles) + 1, len(up) * len(across)
            says = _label(title, f"tile {number} of {many}", inside, window) if many > 1 else ()
            tiles.append(Tile(column, row, window, (*inside, *_seams(window, (left, bottom, right, top)), *says), own))
    return tuple(tiles)


def _belongs(stroke: Stroke, window: Box, windows: Sequence[Box]) -> bool:
    """Words stand on the tiles that hold them whole, where there is one: those lower than an overlap always find one."""
    if not isinstance(stroke, Text):
        return True
    box = text_box(stroke)
    whole = [one for one in windows if one[0] <= box[0] and one[1] <= box[1] and box[2] <= one[2] and box[3] <= one[3]]
    return not whole or window in whole


def _label(title: str, tile_of: str, strokes: Sequence[Stroke], window: Box) -> Iterator[Stroke]:
    """What a tile is, in small letters wherever it lies on nothing; nowhere, where there is no room at all."""
    block = stacked([words(line, _SMALL) for line in (title, tile_of) if line])
    wide, high = ceil(block.width * MM), ceil(block.height * MM)
    left, bottom, right, top = edges = whole(window)
    room = Room((whole(box_around(stroke)) for stroke in strokes), edges)
    spots = ((x, y) for y in range(top - high - MM, bottom, -2 * MM) for x in range(left + MM, right - wide, 2 * MM))
    box = room.first_free(((x, y, x + wide, y + high) for x, y in spots), MM // 2)
    if box is not None:
        yield from flatten(block.marks(Fraction(box[0], MM), Fraction(box[1], MM)))


def _seams(window: Box, whole: Box) -> Iterator[Line]:
    """A thin line along each side of the window where the drawing goes on: the tile is trimmed or laid there."""
    x0, y0, x1, y1 = window
    if x0 > whole[0]:
        yield Line((x0, y0), (x0, y1), Role.REGISTER)
    if x1 < whole[2]:
        yield Line((x1, y0), (x1, y1), Role.REGISTER)
    if y0 > whole[1]:
        yield Line((x0, y0), (x1, y0), Role.REGISTER)
    if y1 < whole[3]:
        yield Line((x0, y1), (x1, y1), Role.REGISTER)


def clip(stroke: Stroke, window: Box) -> Iterator[Stroke]:
    """The pieces of ``stroke`` in ``window``, edges included; both in the same mm.

    Straight strokes and fills are cut exactly; an arc's new ends are right to a billionth of a degree. Text is never cut: it
    stays whole where its middle is.
    """
    if isinstance(stroke, Line):
        cut = _line(stroke.start, stroke.end, window)
        if cut is not None:
            yield replace(stroke, start=cut[0], end=cut[1])
    elif isinstance(stroke, Polyline):
        yield from _polyline(stroke, window)
    elif isinstance(stroke, Fill):
        points = polygon_in(stroke.points, corners(window))
        if points:
            yield replace(stroke, points=points)
    elif isinstance(stroke, Arc):
        yield from _arc(stroke, window)
    elif _holds_text(stroke, window):
        yield stroke


def _line(one: Point, two: Point, window: Box) -> tuple[Point, Point] | None:
    """The part of a line within the window; None where there is none, or only a point."""
    stretch = stretch_in_box(one, two, window)
    return None if stretch is None else (point_at(one, two, stretch[0]), point_at(one, two, stretch[1]))


def _polyline(stroke: Polyline, window: Box) -> Iterator[Stroke]:
    left, bottom, right, top = window
    if all(left <= x <= right and bottom <= y <= top for x, y in stroke.points):
        yield stroke
        return
    points = (*stroke.points, stroke.points[0]) if stroke.closed else stroke.points
    for one, two in pairwise(points):
        cut = _line(one, two, window)
        if cut is not None:
            yield Line(cut[0], cut[1], stroke.role, stroke.says)


def _arc(arc: Arc, window: Box) -> Iterator[Arc]:
    x0, y0, x1, y1 = box_around(arc)
    left, bottom, right, top = window
    if left <= x0 and bottom <= y0 and x1 <= right and y1 <= top:
        yield arc
        return
    stops = sorted({Fraction(0), arc.sweep, *_meetings(arc, window)})
    for one, two in pairwise(stops):
        middle = radians(float(arc.start + (one + two) / 2))
        x = float(arc.centre[0]) + float(arc.radius) * cos(middle)
        y = float(arc.centre[1]) + float(arc.radius) * sin(middle)
        if float(left) <= x <= float(right) and float(bottom) <= y <= float(top):
            yield replace(arc, start=(arc.start + one) % 360, sweep=two - one)


def _meetings(arc: Arc, window: Box) -> Iterator[Fraction]:
    """The angles past the arc's start, within its sweep, where it meets a side of the window."""
    (x, y), r = arc.centre, arc.radius
    angles: list[float] = []
    for side in (window[0], window[2]):
        if abs(side - x) < r:
            angle = degrees(acos((side - x) / r))
            angles += [angle, -angle]
    for side in (window[1], window[3]):
        if abs(side - y) < r:
            angle = degrees(asin((side - y) / r))
            angles += [angle, 180 - angle]
    for angle in angles:
        past = (Fraction(round(angle * 10**9), 10**9) - arc.start) % 360
        if past < arc.sweep:
            yield past


def _holds_text(text: Text, window: Box) -> bool:
    x0, y0, x1, y1 = text_box(text)
    left, bottom, right, top = window
    return left <= (x0 + x1) / 2 <= right and bottom <= (y0 + y1) / 2 <= top
