"""The outline of a rectangle less rectangles: its area, its corners, and what touches in a corner."""

from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from joinlay.templates.sections.joint_sections import profile
from tests.unit.templates.reading import exact


def area(loop):
    """The area a loop goes round, negative where it goes clockwise."""
    return sum(one[0] * two[1] - two[0] * one[1] for one, two in zip(loop, (*loop[1:], loop[0]), strict=True)) / 2


def test_a_whole_board_is_its_four_corners():
    assert profile(exact(0, 0, 20, 10), ()) == ((exact(0, 0), exact(20, 0), exact(20, 10), exact(0, 10)),)


def test_a_groove_has_four_corners_more():
    [loop] = profile(exact(0, 0, 20, 10), [exact(5, 6, 8, 10)])
    assert len(loop) == 8
    assert area(loop) == 188
    assert {exact(5, 6), exact(8, 6)} <= set(loop)


def test_a_cut_through_leaves_two_and_one_inside_a_hole():
    assert sorted(map(area, profile(exact(0, 0, 20, 10), [exact(5, 0, 8, 10)]))) == [50, 120]
    assert sorted(map(area, profile(exact(0, 0, 20, 10), [exact(5, 4, 8, 6)]))) == [-6, 200]
    assert profile(exact(0, 0, 20, 10), [exact(-1, -1, 30, 30)]) == ()


def test_two_pieces_that_touch_in_a_corner_stay_two():
    loops = profile(exact(0, 0, 2, 2), [exact(0, 1, 1, 2), exact(1, 0, 2, 1)])
    assert sorted(map(area, loops)) == [1, 1]


BOX = st.tuples(st.integers(-1, 8), st.integers(-1, 8), st.integers(1, 5), st.integers(1, 5)).map(
    lambda box: exact(box[0], box[1], box[0] + box[2], box[1] + box[3])
)


@settings(max_examples=60)
@given(st.lists(BOX, max_size=4))
def test_the_area_left_is_the_squares_that_no_cut_takes(cuts):
    left = sum(
        not any(a <= x and x + 1 <= c and b <= y and y + 1 <= d for a, b, c, d in cuts) for x in range(8) for y in range(8)
    )
    assert sum(map(area, profile(exact(0, 0, 8, 8), cuts))) == Fraction(left)
