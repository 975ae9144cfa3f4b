"""Clipping strokes to a window."""

from fractions import Fraction
from math import cos, radians, sin

import pytest

from joinlay.pages.clipping import clip
from joinlay.pen.lettering import words
from joinlay.pen.marks import Arc, Fill, Line, Polyline, Role, Text
from tests.unit.templates.reading import exact

F = Fraction
WINDOW = (F(0), F(0), F(10), F(10))


def clipped(stroke, window=WINDOW):
    return list(clip(stroke, window))


def line(*ends):
    (x0, y0), (x1, y1) = ends
    return Line((F(x0), F(y0)), (F(x1), F(y1)), Role.CUT, "here")


def test_a_line_is_cut_exactly():
    (cut,) = clipped(line((-1, 0), (11, 5)))
    assert cut == Line((F(0), F(5, 12)), (F(10), F(55, 12)), Role.CUT, "here")


@pytest.mark.parametrize(
    "outside", [line((-5, 0), (-1, 9)), line((0, 11), (10, 11)), line((-2, 1), (1, -2)), line((10, 10), (12, 12))]
)
def test_a_line_outside_leaves_nothing(outside):
    assert clipped(outside) == []


def test_a_line_along_the_edge_stays():
    assert clipped(line((2, 0), (8, 0))) == [line((2, 0), (8, 0))]


def test_a_polyline_is_kept_whole_or_cut_in_lines():
    inside = Polyline(((F(1), F(1)), (F(9), F(1)), (F(9), F(9))), Role.BREAK, closed=True)
    assert clipped(inside) == [inside]
    across = Polyline(((F(5), F(5)), (F(15), F(5)), (F(15), F(15)), (F(5), F(15))), Role.BREAK, closed=True)
    assert [(s.start, s.end) for s in clipped(across)] == [((5, 5), (10, 5)), ((5, 10), (5, 5))]


def test_a_fill_is_cut_at_the_window():
    (cut,) = clipped(Fill(((F(5), F(5)), (F(15), F(5)), (F(15), F(15)), (F(5), F(15))), F(1)))
    assert set(cut.points) == {(5, 5), (10, 5), (10, 10), (5, 10)}
    assert clipped(Fill(((F(11), F(0)), (F(12), F(0)), (F(12), F(5))), F(1))) == []


def test_a_fill_that_only_touches_the_window_is_left_out():
    assert clipped(Fill(((F(10), F(0)), (F(12), F(0)), (F(12), F(5)), (F(10), F(5))), F(1))) == []


def test_an_arc_keeps_only_what_lies_inside():
    (cut,) = clipped(Arc((F(10), F(5)), F(2), F(0), F(360), Role.CUT))
    assert (cut.start, cut.sweep) == (90, 180)
    whole = Arc((F(5), F(5)), F(2), F(0), F(360), Role.CUT)
    assert clipped(whole) == [whole]
    assert clipped(Arc((F(20), F(5)), F(2), F(0), F(360), Role.CUT)) == []


def test_the_ends_of_a_cut_arc_lie_on_the_window():
    pieces = clipped(Arc((F(9), F(9)), F(3), F(0), F(360), Role.CUT))
    assert pieces
    for piece in pieces:
        for angle in (piece.start, piece.start + piece.sweep):
            x, y = 9 + 3 * cos(radians(angle)), 9 + 3 * sin(radians(angle))
            assert min(abs(x - 10), abs(y - 10)) < 1e-9


def test_text_is_never_cut():
    inside, across, outside = (Text((F(x), F(5)), words("wide words", 3)) for x in (1, 0, 9))
    assert clipped(inside, exact(0, 0, 30, 10)) == [inside]
    assert clipped(across, exact(0, 0, 15, 10)) == [across]
    assert clipped(outside) == []
