"""A board's surfaces as marks: everything where the cuts say, left and right in mirror image."""

from fractions import Fraction

from joinlay.boards import Surface
from joinlay.pen.marks import Arc, Fill, Line, Role
from joinlay.templates.ends.end_drawing import centre_marks, cut_marks, outline_marks
from tests.unit.templates.parts import back, front, side
from tests.unit.templates.reading import flat, lines, spelled

REACH = Fraction(70)


def strokes(net, *, stub=Fraction(20)):
    return spelled(*cut_marks(net, REACH), *outline_marks(net, REACH), *centre_marks(net, stub))


def saying(found, said, kind=Line):
    return [s for s in found if isinstance(s, kind) and s.says == said]


def test_mortise_centres_are_crosses_in_hairlines():
    level, upright = saying(strokes(flat(side(), Surface.END)), "drawer 1 left side mortise 2 centre")
    assert level.start[1] == level.end[1] == 80
    assert upright.start[0] == upright.end[0] == -6
    assert level.role is upright.role is Role.CUT
    assert (level.start[0] + level.end[0]) / 2 == -6


def test_mirrored_parts_are_mirror_images():
    level, upright = saying(strokes(flat(front(), Surface.END)), "drawer 1 front left mortise 1 centre")
    assert upright.start[0] == -6  # the end is at the right, so the face lies left of it
    assert level.start[1] == 30


def test_a_mortise_has_two_round_ends_and_two_sides():
    found = strokes(flat(side(), Surface.END))
    arcs = saying(found, "drawer 1 left side mortise 1", Arc)
    assert {arc.centre for arc in arcs} == {(-6, 26), (-6, 34)}
    assert {(arc.radius, arc.sweep) for arc in arcs} == {(2, 180)}
    assert {line.start[0] for line in saying(found, "drawer 1 left side mortise 1")} == {-8, -4}


def test_centre_lines_are_carried_out_to_the_edges_and_over_the_fold():
    centres = [s for s in lines(strokes(flat(side(), Surface.END))) if s.role is Role.CENTRE]
    levels = {s.start[1]: (s.start[0], s.end[0]) for s in centres if s.start[1] == s.end[1]}
    assert levels == {30: (-12, 20), 80: (-12, 20)}
    (upright,) = (s for s in centres if s.start[0] == s.end[0])
    assert (upright.start, upright.end) == ((-6, 0), (-6, 100))


def test_a_groove_is_drawn_as_far_as_the_paper_and_crossed_out():
    found = strokes(flat(side(), Surface.END))
    walls = [s for s in saying(found, "drawer 1 left side bottom groove") if s.start[1] == s.end[1]]
    assert {s.start[1] for s in walls} == {10, 16}
    assert max(x for s in walls for x, _ in (s.start, s.end)) == 70
    crosses = [s for s in found if isinstance(s, Line) and s.role is Role.WASTE]
    assert len(crosses) >= 6
    assert all(10 <= y <= 16 for s in crosses for _, y in (s.start, s.end))
    # Hatching is for wood that is cut through.
    assert not [s for s in found if isinstance(s, Line) and s.role is Role.HATCH]


def test_hidden_cuts_are_dashed_and_no_mortise_is_grey():
    found = strokes(flat(side(), Surface.END))
    hidden = [s for s in found if isinstance(s, Line) and s.role is Role.HIDDEN]
    assert {x for s in hidden for x, _ in (s.start, s.end)} == {0, 15}
    assert not [s for s in found if isinstance(s, Fill)]


def test_fold_lines_lie_on_the_edges_of_the_end():
    folds = [s for s in strokes(flat(back(), Surface.END)) if isinstance(s, Line) and s.role is Role.FOLD]
    assert sorted(s.start[0] for s in folds) == [-12, 0]
    assert {s.says for s in folds} == {"drawer 1 back left end", ""}


def test_the_datum_edge_is_where_y_is_zero():
    (datum,) = saying(strokes(flat(side(), Surface.END)), "drawer 1 left side bottom edge")
    assert {datum.start, datum.end} == {(0, 0), (70, 0)}
