"""Boxes, lines and polygons in the plane: small cases by hand, and laws that hold for any."""

from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from joinlay.geometry import (
    area,
    box_of,
    box_without,
    corners,
    overlap,
    pieces_of_line,
    polygon_in,
    quarter_circle,
    rest_of_line,
    shared_box,
    stretch_in,
    stretch_in_box,
    united,
)
from joinlay.lengths import Fraction
from tests.drawn import fractions

F = Fraction
BOX = (F(0), F(0), F(40), F(30))

numbers = fractions(-100, 100, max_denominator=8)
points = st.tuples(numbers, numbers)
boxes = st.tuples(points, points).filter(lambda two: two[0][0] != two[1][0] and two[0][1] != two[1][1]).map(box_of)


def enclosed(polygon):
    """The area within a polygon, by the shoelace formula (any handbook of surveying); positive where it runs anticlockwise."""
    return sum((x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairwise((*polygon, polygon[0]))), F(0)) / 2


def test_a_line_through_a_box_keeps_what_is_in_it():
    assert stretch_in_box((F(-10), F(15)), (F(90), F(15)), BOX) == (F(1, 10), F(1, 2))


def test_a_line_beside_a_box_or_at_its_corner_keeps_nothing():
    assert stretch_in_box((F(-10), F(31)), (F(90), F(31)), BOX) is None
    assert stretch_in_box((F(-10), F(10)), (F(10), F(-10)), BOX) is None


def test_a_line_along_the_border_of_a_box_is_in_it():
    assert stretch_in_box((F(10), F(30)), (F(20), F(30)), BOX) == (F(0), F(1))


@given(points, points, boxes)
def test_a_box_and_the_polygon_of_its_corners_cut_a_line_alike(one, two, box):
    assert stretch_in_box(one, two, box) == (stretch_in(one, two, corners(box)) if one != two else stretch_in_box(one, two, box))


@given(boxes, boxes)
def test_what_two_boxes_share_is_what_one_keeps_of_the_other(one, two):
    kept = polygon_in(corners(one), corners(two))
    shared = shared_box(one, two)
    assert (shared is not None) == overlap(one, two) == bool(kept)
    if shared is not None:
        assert box_of(kept) == shared
        assert enclosed(kept) == area(shared)


@given(st.tuples(points, points, points).filter(lambda three: enclosed(three) > 0), boxes)
def test_a_triangle_and_a_box_keep_the_same_of_each_other(three, box):
    one, two = polygon_in(three, corners(box)), polygon_in(corners(box), three)
    assert bool(one) == bool(two)
    if one:
        assert enclosed(one) == enclosed(two)
        assert box_of(one) == box_of(two)


def test_a_polygon_that_only_touches_keeps_nothing():
    assert polygon_in(corners((F(40), F(0), F(50), F(30))), corners(BOX)) == ()


def test_points_on_a_quarter_circle_are_on_it_exactly():
    found = quarter_circle(16)
    assert found[0] == (F(1), F(0))
    assert found[-1] == (F(0), F(1))
    assert all(x * x + y * y == 1 for x, y in found)
    assert all(x0 > x1 and y0 < y1 for (x0, y0), (x1, y1) in pairwise(found))


def test_the_stretch_of_a_line_within_a_polygon():
    slanted = ((F(0), F(0)), (F(4), F(0)), (F(6), F(4)), (F(2), F(4)))
    assert stretch_in((F(-4), F(2)), (F(6), F(2)), slanted) == (F(1, 2), F(9, 10))
    assert stretch_in((F(-4), F(5)), (F(6), F(5)), slanted) is None
    assert stretch_in((F(0), F(0)), (F(-3), F(0)), slanted) is None
    assert stretch_in((F(0), F(0)), (F(8), F(0)), slanted) == (F(0), F(1, 2))


def test_what_is_left_of_a_line():
    end = (F(10), F(0))
    covered = united([(F(3, 10), F(1, 2)), (F(1, 5), F(2, 5))])
    assert covered == [(F(1, 5), F(1, 2))]
    assert pieces_of_line((F(0), F(0)), end, rest_of_line(covered)) == (
        ((F(0), F(0)), (F(2), F(0))),
        ((F(5), F(0)), (F(10), F(0))),
    )
    assert rest_of_line([(F(0), F(1))]) == []


def exact(*numbers):
    """Numbers as exact ones: a point, a box."""
    return tuple(map(F, numbers))


def test_a_whole_box_is_its_four_corners():
    assert box_without(exact(0, 0, 20, 10), ()) == ((exact(0, 0), exact(20, 0), exact(20, 10), exact(0, 10)),)


def test_a_groove_has_four_corners_more():
    [loop] = box_without(exact(0, 0, 20, 10), [exact(5, 6, 8, 10)])
    assert len(loop) == 8
    assert enclosed(loop) == 188
    assert {exact(5, 6), exact(8, 6)} <= set(loop)


def test_a_cut_through_leaves_two_and_one_inside_a_hole():
    assert sorted(map(enclosed, box_without(exact(0, 0, 20, 10), [exact(5, 0, 8, 10)]))) == [50, 120]
    assert sorted(map(enclosed, box_without(exact(0, 0, 20, 10), [exact(5, 4, 8, 6)]))) == [-6, 200]
    assert box_without(exact(0, 0, 20, 10), [exact(-1, -1, 30, 30)]) == ()


def test_two_pieces_that_touch_in_a_corner_stay_two():
    loops = box_without(exact(0, 0, 2, 2), [exact(0, 1, 1, 2), exact(1, 0, 2, 1)])
    assert sorted(map(enclosed, loops)) == [1, 1]


taken = st.tuples(st.integers(-1, 8), st.integers(-1, 8), st.integers(1, 5), st.integers(1, 5)).map(
    lambda box: exact(box[0], box[1], box[0] + box[2], box[1] + box[3])
)


@settings(max_examples=60)
@given(st.lists(taken, max_size=4))
def test_the_area_left_is_the_squares_that_no_cut_takes(cuts):
    left = sum(
        not any(a <= x and x + 1 <= c and b <= y and y + 1 <= d for a, b, c, d in cuts) for x in range(8) for y in range(8)
    )
    assert sum(map(enclosed, box_without(exact(0, 0, 8, 8), cuts))) == F(left)
