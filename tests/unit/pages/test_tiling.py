"""Tiles: how many, where the seams fall, and what says which is which."""

from fractions import Fraction
from itertools import islice

import pytest

from joinlay.pages.seams import OVERLAP, count_tiles, match_letters
from joinlay.pages.tiling import tile
from joinlay.pen.lettering import words
from joinlay.pen.marks import Arc, Line, Role, Stroke, Text, bounds_of

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
