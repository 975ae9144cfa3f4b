"""A part drawn small: its outline to scale, its cuts where they are, its marks on the side the templates have them."""

from joinlay.lengths import Fraction
from joinlay.pen.marks import Arc, Fill, Line, Polyline, Role
from joinlay.pictures.part_picture import part_picture
from joinlay.pictures.picture import Scale
from tests.unit.templates.parts import board, front, side

F = Fraction
FIFTH = Scale(1, 5)


def lines(strokes, role):
    return {(s.start, s.end) for s in strokes if isinstance(s, Line) and s.role is role}


def test_the_outline_is_the_board_to_scale():
    wood = lines(part_picture(board(length=400, width=100), FIFTH), Role.OUTLINE)
    assert wood == {
        ((F(0), F(0)), (F(80), F(0))),
        ((F(0), F(20)), (F(80), F(20))),
        ((F(0), F(0)), (F(0), F(20))),
        ((F(80), F(0)), (F(80), F(20))),
    }


def test_a_groove_in_the_face_is_drawn_and_a_mortise_in_the_end_is_dashed():
    strokes = part_picture(side(), FIFTH)
    seen = {y for (x0, y), (x1, z) in lines(strokes, Role.SEEN) if y == z and x1 - x0 > 50}
    assert {F(2), F(16, 5)} <= seen
    dashed = [x for (x0, y0), (x1, y1) in lines(strokes, Role.HIDDEN) for x in (x0, x1)]
    assert max(dashed) == F(3)


def test_the_reference_end_is_where_the_template_has_it():
    for one, is_left in ((side(), True), (front(), False)):
        assert one.end_on_left is is_left
        mark = next(s for s in part_picture(one, FIFTH) if isinstance(s, Polyline) and s.says == "reference edge")
        middle = one.length.mm * FIFTH.factor / 2
        assert (mark.points[1][0] < middle) is is_left


def test_the_bar_lies_along_the_reference_edge():
    bar = next(s for s in part_picture(board(length=400), FIFTH) if isinstance(s, Fill))
    assert bar.says == "bottom edge"
    assert {x for x, _ in bar.points} == {0, 80}
    assert all(y < 0 for _, y in bar.points)


def test_the_grain_runs_with_the_length_where_there_is_any():
    assert any(isinstance(s, Line) and s.says == "grain" for s in part_picture(board(), FIFTH))
    assert not any(isinstance(s, Line) and s.says == "grain" for s in part_picture(board(), FIFTH, has_grain=False))


def test_a_tiny_part_has_no_marks_but_its_outline():
    strokes = part_picture(board(length=20, width=5), Scale(1, 50))
    assert lines(strokes, Role.OUTLINE)
    assert not any(isinstance(s, Arc) for s in strokes)
