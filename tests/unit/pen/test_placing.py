"""Finding room for words, in whole micrometres."""

from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from joinlay.pen.placing import CLEAR, MM, Room, whole

BOX = st.tuples(*[st.integers(0, 60)] * 2, *[st.integers(1, 40)] * 2).map(
    lambda b: (b[0] * MM, b[1] * MM, (b[0] + b[2]) * MM, (b[1] + b[3]) * MM)
)


def test_boxes_are_rounded_outwards():
    third = Fraction(1, 3)
    assert whole((third, -third, 2 * third, third)) == (333, -334, 667, 334)


def test_words_keep_their_distance():
    room = Room([(0, 0, 10 * MM, 10 * MM)])
    assert room.is_free((10 * MM + CLEAR, 0, 20 * MM, 5 * MM))
    assert not room.is_free((10 * MM + CLEAR - 1, 0, 20 * MM, 5 * MM))
    # A line is a box with no width, and takes room all the same.
    assert not Room([(5 * MM, 0, 5 * MM, 10 * MM)]).is_free((3 * MM, 2 * MM, 8 * MM, 4 * MM))


def test_words_stay_within_bounds():
    room = Room(within=(0, 0, 50 * MM, 20 * MM))
    assert room.is_free((CLEAR, CLEAR, 50 * MM - CLEAR, 20 * MM - CLEAR))
    assert not room.is_free((0, CLEAR, 10 * MM, 10 * MM))
    assert room.first_free_above([5 * MM], 45 * MM, 10 * MM, 5 * MM) is None


def test_what_is_taken_with_white_around_it():
    room = Room()
    room.take((0, 0, 10 * MM, 10 * MM), white=3 * MM)
    assert not room.is_free((11 * MM, 0, 20 * MM, 10 * MM), clear=0)
    assert room.is_free((13 * MM, 0, 20 * MM, 10 * MM), clear=0)


def test_the_first_of_several_places():
    room = Room([(0, 0, 100 * MM, 30 * MM)])
    assert room.first_free([(0, y * MM, 20 * MM, (y + 5) * MM) for y in (10, 30, 40)]) == (0, 40 * MM, 20 * MM, 45 * MM)
    assert room.first_free([(0, 0, 5, 5)]) is None


@settings(max_examples=80)
@given(taken=st.lists(BOX, max_size=6), left=st.integers(0, 60), wide=st.integers(1, 30), high=st.integers(1, 30))
def test_the_quick_way_up_a_column_finds_what_the_plain_way_finds(taken, left, wide, high):
    room = Room(taken, (0, 0, 90 * MM, 90 * MM))
    left, wide, high = left * MM, wide * MM, high * MM
    bottoms = range(80 * MM, 0, -MM)
    plain = room.first_free((left, y, left + wide, y + high) for y in bottoms)
    assert room.first_free_above(bottoms, left, wide, high) == plain
