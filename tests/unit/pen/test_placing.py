"""Finding room for words, in whole micrometres."""

from fractions import Fraction
from random import Random

import pytest
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


@settings(max_examples=80)
@given(taken=st.lists(BOX, min_size=1, max_size=6), wide=st.integers(1, 30), high=st.integers(20, 60), extra=BOX)
def test_column_after_column_is_asked_as_if_it_were_the_first(taken, wide, high, extra):
    """What is known of one column of the next is right, and forgotten once more is taken."""
    room = Room(taken, (0, 0, 90 * MM, 90 * MM))
    bottoms = range(60 * MM, 0, -7 * MM)
    for _ in range(2):
        found = [room.first_free_above(bottoms, left * MM, wide * MM, high * MM) for left in (*range(0, 80, 3), *range(80))]
        fresh = [
            room.copied().first_free_above(bottoms, left * MM, wide * MM, high * MM) for left in (*range(0, 80, 3), *range(80))
        ]
        assert found == fresh
        room.take(extra)


@pytest.mark.parametrize("many", [5, 24, 25, 120])
def test_room_is_free_where_every_box_taken_says_so(many):
    random = Random(many)

    def box(most):
        x, y = random.randrange(-60 * MM, 60 * MM), random.randrange(-60 * MM, 60 * MM)
        return (x, y, x + random.choice((0, random.randrange(most))), y + random.choice((0, random.randrange(most))))

    taken = [box(40 * MM) for _ in range(many)]
    room = Room(taken[: many // 2])
    for one in taken[many // 2 :]:
        room.is_free(box(6 * MM))  # what is looked at before is filed apart from what is taken after
        room.take(one)
    for n in range(200):
        asked = box(9 * MM)
        if n % 4 == 0:
            # As near to a box as it may be, or nearer by a micrometre.
            _, y, x, _ = taken[n % many]
            asked = (x + CLEAR - n % 8 // 4, y, x + 5 * MM, y + 3 * MM)
        x0, y0, x1, y1 = asked
        x0, y0, x1, y1 = x0 - CLEAR, y0 - CLEAR, x1 + CLEAR, y1 + CLEAR
        plainly = not any(a < x1 and x0 < c and b < y1 and y0 < d for a, b, c, d in taken)
        assert room.is_free(asked) is room.copied().is_free(asked) is plainly
