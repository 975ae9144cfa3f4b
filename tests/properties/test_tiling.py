"""The law of tiles: put together again they are the drawing."""

from itertools import pairwise
from math import radians

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from joinlay.lengths import Fraction
from joinlay.pages.seams import OVERLAP
from joinlay.pages.tiling import tile
from joinlay.pen.marks import Arc, Fill, Line, Role, Text
from tests.drawn import fractions

LENGTH = fractions(Fraction(0), Fraction(400), max_denominator=64)
POINT = st.tuples(LENGTH, LENGTH)
LINES = st.lists(st.tuples(POINT, POINT).filter(lambda ends: ends[0] != ends[1]), min_size=1, max_size=8)
ROOM = fractions(Fraction(120), Fraction(300), max_denominator=16)


def share_along(line, point):
    """How far along a line a point on it lies, 0 to 1; fails where it isn't on the line."""
    (x0, y0), (x1, y1) = line.start, line.end
    x, y = point
    assert (x - x0) * (y1 - y0) == (y - y0) * (x1 - x0)
    return (x - x0) / (x1 - x0) if x0 != x1 else (y - y0) / (y1 - y0)


def covers(spans, start, stop):
    """True where ``spans`` together leave no gap between ``start`` and ``stop``."""
    at = start
    for low, high in sorted(spans):
        if low > at:
            return False
        at = max(at, high)
    return at >= stop


@settings(max_examples=30, deadline=None)
@given(ends=LINES, width=ROOM, height=ROOM)
def test_every_line_is_whole_again(ends, width, height):
    lines = [Line(one, two, Role.OUTLINE, str(n)) for n, (one, two) in enumerate(ends)]
    tiles = tile(lines, width, height)
    for line in lines:
        pieces = [s for one in tiles for s in one.strokes if isinstance(s, Line) and s.says == line.says]
        spans = [tuple(sorted((share_along(line, s.start), share_along(line, s.end)))) for s in pieces]
        assert covers(spans, 0, 1)
        assert all(0 <= low < high <= 1 for low, high in spans)


@settings(max_examples=30, deadline=None)
@given(ends=LINES, width=ROOM, height=ROOM)
def test_tiles_keep_to_their_size_and_overlap_as_they_should(ends, width, height):
    lines = [Line(one, two, Role.OUTLINE) for one, two in ends]
    tiles = {(one.column, one.row): one.window for one in tile(lines, width, height)}
    for (column, row), (x0, y0, x1, y1) in tiles.items():
        assert x1 - x0 <= width
        assert y1 - y0 <= height
        if (column + 1, row) in tiles:
            assert x1 - tiles[column + 1, row][0] == OVERLAP
        if (column, row + 1) in tiles:
            assert y1 - tiles[column, row + 1][1] == OVERLAP


@settings(max_examples=25, deadline=None)
@given(ends=LINES, width=ROOM, height=ROOM)
def test_no_piece_leaves_its_window(ends, width, height):
    lines = [Line(one, two, Role.OUTLINE) for one, two in ends]
    for one in tile(lines, width, height):
        x0, y0, x1, y1 = one.window
        for stroke in one.strokes:
            if isinstance(stroke, Line):
                assert all(x0 <= x <= x1 and y0 <= y <= y1 for x, y in (stroke.start, stroke.end))


@settings(max_examples=25, deadline=None)
@given(centre=POINT, radius=fractions(Fraction(1), Fraction(90), max_denominator=8), width=ROOM, height=ROOM)
def test_a_circle_is_whole_again(centre, radius, width, height):
    circle = Arc(centre, radius, Fraction(0), Fraction(360), Role.CUT, "hole")
    frame = Line((Fraction(-100), Fraction(-100)), (Fraction(500), Fraction(500)), Role.OUTLINE)
    pieces = [s for one in tile([circle, frame], width, height) for s in one.strokes if isinstance(s, Arc) and s.says == "hole"]
    spans = [(piece.start, piece.start + piece.sweep) for piece in pieces]
    spans += [(low - 360, high - 360) for low, high in spans]
    # A billionth of a degree on a radius of 90 mm is far less than anything that can be drawn.
    slack = Fraction(1, 10**8)
    assert covers([(low - slack, high + slack) for low, high in spans], Fraction(0), Fraction(360))
    assert float(radius) * radians(slack) < 1e-7


@settings(max_examples=25, deadline=None)
@given(corner=POINT, width=ROOM, height=ROOM)
def test_a_fill_covers_as_much_as_before(corner, width, height):
    x, y = corner
    square = Fill(((x, y), (x + 150, y), (x + 150, y + 90), (x, y + 90)), Fraction(1))
    pieces = [(one.window, s) for one in tile([square], width, height) for s in one.strokes if isinstance(s, Fill)]
    # Count what lies in an overlap once: to the tile that ends there.
    total = sum(area(own(points.points, window, (x, y, x + 150, y + 90))) for window, points in pieces)
    assert total == 150 * 90


def own(points, window, whole):
    """A rectangle's corners without the overlap at the sides where the next tile goes on."""
    x1 = window[2] if window[2] >= whole[2] else window[2] - OVERLAP
    y1 = window[3] if window[3] >= whole[3] else window[3] - OVERLAP
    return [(min(x, x1), min(y, y1)) for x, y in points]


def area(points):
    """Twice round a polygon, halved."""
    return abs(sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(points, (*points[1:], points[0]), strict=True))) / 2


@pytest.mark.parametrize("height", [360, 2400])
def test_a_long_drawing_comes_out_true_from_end_to_end(height):
    """A 2.4 m strip on letter paper: the tick at its far end, added up tile by tile over the register marks, is where it was."""
    ticks = [
        Line((Fraction(0), Fraction(y)), (Fraction(20), Fraction(y)), Role.CUT, f"tick {y}") for y in range(0, height + 1, 20)
    ]
    tiles = tile(ticks, Fraction(50), Fraction(267))
    shift = Fraction(0)
    for low, high in pairwise(tiles):
        marks = [
            next(s for s in one.strokes if isinstance(s, Arc) and s.role is Role.REGISTER and s.centre[1] > high.window[1])
            for one in (low, high)
        ]
        # Each tile is cut out by itself: its own zero is its lower edge.
        shift += (marks[0].centre[1] - low.window[1]) - (marks[1].centre[1] - high.window[1])
    last = next(s for s in tiles[-1].strokes if isinstance(s, Line) and s.says == f"tick {height}")
    assert last.start[1] - tiles[-1].window[1] + shift == height
    letters = [s.plain for one in tiles for s in one.strokes if isinstance(s, Text) and s.role is Role.REGISTER]
    assert len(set(letters)) == len(tiles) - 1
