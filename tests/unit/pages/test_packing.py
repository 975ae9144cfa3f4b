"""Where on a sheet the next piece goes."""

from fractions import Fraction
from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from joinlay.pages.packing import GAP, FreeRoom
from tests.unit.drawings.reading import exact

SIZES = st.lists(st.tuples(st.integers(5, 90), st.integers(5, 90)), min_size=1, max_size=12)


def room_of(*boxes):
    return FreeRoom([exact(*box) for box in boxes])


def place(room, width, height):
    """Where a piece goes: left, bottom, and whether it is turned; None where it doesn't fit."""
    spot = room.place(Fraction(width), Fraction(height))
    return spot and (spot.x, spot.y, spot.is_turned)


def test_pieces_go_up_and_left():
    room = room_of((6, 6, 206, 286))
    assert place(room, 100, 50) == (6, 236, False)
    assert place(room, 90, 50) == (110, 236, False)
    assert place(room, 150, 60) == (6, 172, False)


def test_a_piece_is_turned_only_where_it_fits_no_other_way():
    room = room_of((0, 0, 60, 200))
    assert place(room, 150, 50) == (0, 50, True)
    assert place(room, 50, 45) == (0, 1, False)
    assert place(room, 50, 45) is None


def test_a_corner_taken_leaves_an_l_of_two_boxes():
    room = room_of((0, 0, 200, 300))
    room.take(exact(100, 0, 200, 100))
    assert set(room.boxes) == {exact(0, 0, 96, 300), exact(0, 104, 200, 300)}


@settings(max_examples=60)
@given(sizes=SIZES)
def test_pieces_never_come_closer_than_the_gap(sizes):
    room, placed = room_of((0, 0, 200, 280)), []
    for wide, high in sizes:
        found = place(room, wide, high)
        if found:
            x, y, is_turned = found
            w, h = (high, wide) if is_turned else (wide, high)
            placed.append((x, y, x + w, y + h))
    assert placed
    for x0, y0, x1, y1 in placed:
        assert x0 >= 0
        assert y0 >= 0
        assert x1 <= 200
        assert y1 <= 280
    for a, b in combinations(placed, 2):
        assert a[2] + GAP <= b[0] or b[2] + GAP <= a[0] or a[3] + GAP <= b[1] or b[3] + GAP <= a[1]
