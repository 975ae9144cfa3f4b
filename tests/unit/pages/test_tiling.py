"""Tiling: drawings too large for a sheet, cut exactly, and put together again over register marks."""

from fractions import Fraction
from itertools import islice
from math import cos, radians, sin

import pytest

from joinlay.pages.seams import OVERLAP, count_tiles, match_letters
from joinlay.pages.tiling import clip, tile
from joinlay.pen.lettering import words
from joinlay.pen.marks import Arc, Fill, Line, Polyline, Role, Stroke, Text, bounds_of
from tests.unit.templates.reading import exact

F = Fraction


def frame(width, height):
    """The outline of a drawing of this size."""
    w, h = F(width), F(height)
    corners = ((F(0), F(0)), (w, F(0)), (w, h), (F(0), h))
    return [Line(one, two, Role.OUTLINE) for one, two in zip(corners, (*corners[1:], corners[0]), strict=True)]


@pytest.mark.parametrize(("size", "room", "tiles"), [(100, 100, 1), (101, 100, 2), (190, 100, 2), (191, 100, 3), (280, 100, 3)])
def test_how_many(size, room, tiles):
    assert count_tiles(F(size), F(room)) == tiles
    assert len(tile(frame(50, size), F(60), F(room))) == tiles


def test_what_fits_is_one_tile_as_it_was():
    drawing = frame(50, 80)
    (only,) = tile(drawing, F(60), F(90))
    assert only.strokes == tuple(drawing)


def test_neighbours_overlap_by_ten_millimetres():
    low, high = tile(frame(50, 150), F(60), F(100))
    assert low.window[3] - high.window[1] == OVERLAP
    assert low.window[1] == 0
    assert high.window[3] == 150


def test_both_sides_of_a_seam_carry_the_same_two_register_marks():
    low, high = tile(frame(80, 150), F(90), F(100))
    marks = [[s for s in one.strokes if isinstance(s, Arc) and s.role is Role.REGISTER] for one in (low, high)]
    assert marks[0] == marks[1]
    assert len(marks[0]) == 2
    assert abs(marks[0][0].centre[0] - marks[0][1].centre[0]) > 40
    letters = [[s.plain for s in one.strokes if isinstance(s, Text) and s.role is Role.REGISTER] for one in (low, high)]
    assert letters == [["A", "A"], ["A", "A"]]


def test_seams_keep_off_joint_marks_and_words():
    marks: list[Stroke] = [Line((F(5), F(y)), (F(5), F(y + 12)), Role.CUT) for y in (60, 84)]
    marks.append(Text((F(10), F(75)), words("front", 5)))
    low, high = tile([*frame(80, 150), *marks], F(90), F(100))
    seam = (high.window[1], low.window[3])
    for stroke in marks:
        _, bottom, _, top = bounds_of((stroke,))
        assert top <= seam[0] or seam[1] <= bottom


def test_every_tile_says_what_it_is():
    tiles = tile(frame(100, 150), F(110), F(100), title="drawer 1 front, left end")
    for n, one in enumerate(tiles, start=1):
        said = [stroke.plain for stroke in one.strokes if isinstance(stroke, Text)]
        assert "drawer 1 front, left end" in said
        assert f"tile {n} of 2" in said


def test_seams_of_several_drawings_share_no_letter():
    letters = match_letters()
    first = tile(frame(50, 250), F(60), F(100), letters=letters)
    second = tile(frame(50, 150), F(60), F(100), letters=letters)

    def used(tiles):
        return {s.plain for one in tiles for s in one.strokes if isinstance(s, Text) and s.role is Role.REGISTER}

    assert used(first) == {"A", "B"}
    assert used(second) == {"C"}


def test_letters_never_run_out():
    assert list(islice(match_letters(), 28))[-3:] == ["Z", "AA", "AB"]


def test_a_tile_too_small_to_overlap_is_refused():
    with pytest.raises(ValueError, match="too small"):
        tile(frame(100, 100), F(20), F(100))


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
