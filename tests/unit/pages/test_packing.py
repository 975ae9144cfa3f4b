"""Where on a sheet the next piece goes."""

from fractions import Fraction
from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from joinlay.pages.packing import GAP, FreeRoom, Spot
from tests.unit.templates.reading import exact

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


def test_packed_close_a_piece_goes_where_the_least_is_left_beside_it():
    room = FreeRoom(
        [(Fraction(0), Fraction(0), Fraction(200), Fraction(50)), (Fraction(0), Fraction(60), Fraction(100), Fraction(160))],
        is_close=True,
    )
    # 48 by 180 lies level along the low box with 2 mm to spare.
    assert room.place(Fraction(48), Fraction(180)) == Spot(Fraction(0), Fraction(2), is_turned=True)
    assert room.place(Fraction(99), Fraction(20)) == Spot(Fraction(0), Fraction(140), is_turned=False)


def test_the_longest_strip_is_found_and_not_yet_taken():
    room = FreeRoom(
        [(Fraction(0), Fraction(0), Fraction(90), Fraction(260)), (Fraction(0), Fraction(100), Fraction(200), Fraction(260))]
    )
    strip = room.strip(Fraction(40), Fraction(1000))
    assert strip is not None
    assert (strip.length, strip.is_upright) == (Fraction(260), True)
    assert strip.cut_to(Fraction(50)) == exact(0, 210, 40, 260)
    assert room.strip(Fraction(40), Fraction(30)) == room.strip(Fraction(40), Fraction(30))
    level = room.strip(Fraction(100), Fraction(1000))
    assert level is not None
    assert (level.length, level.is_upright) == (Fraction(200), False)
    assert level.cut_to(Fraction(50)) == exact(0, 160, 50, 260)
    assert room.strip(Fraction(261), Fraction(1000)) is None
