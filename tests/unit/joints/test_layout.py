"""The search for the most even row of places."""

from __future__ import annotations

from fractions import Fraction

import pytest

from joinlay.joints.layout import free, lay_out, nearest


def row(firsts, others, least, most):
    pieces = [tuple((Fraction(a), Fraction(b)) for a, b in some) for some in (firsts, others)]
    return lay_out(pieces[0], pieces[1], Fraction(least), Fraction(most), Fraction(50))


@pytest.mark.parametrize(
    ("blocked", "left"),
    [
        ([], [(0, 10)]),
        ([(3, 4)], [(0, 3), (4, 10)]),
        ([(-5, 0)], [(0, 10)]),
        ([(-5, 1)], [(1, 10)]),
        ([(9, 20)], [(0, 9)]),
        ([(10, 20)], [(0, 10)]),
        ([(-1, 11)], []),
        ([(-1, 5), (5, 11)], [(5, 5)]),
        ([(0, 10)], [(0, 0), (10, 10)]),
        ([(1, 8), (2, 3)], [(0, 1), (8, 10)]),
        ([(6, 7), (2, 3)], [(0, 2), (3, 6), (7, 10)]),
        ([(12, 15)], [(0, 10)]),
        ([(-9, -3)], [(0, 10)]),
    ],
)
def test_what_keep_outs_leave(blocked, left):
    assert list(free(Fraction(0), Fraction(10), blocked)) == left


def test_nothing_is_left_of_a_line_too_short():
    assert free(Fraction(6), Fraction(4), [(Fraction(1), Fraction(2))]) == ()


def test_the_nearest_place_is_the_lower_of_two():
    assert nearest(Fraction(5), [(Fraction(0), Fraction(3)), (Fraction(7), Fraction(9))]) == 3
    assert nearest(Fraction(6), [(Fraction(0), Fraction(3)), (Fraction(7), Fraction(9))]) == 7
    assert nearest(Fraction(8), [(Fraction(0), Fraction(3)), (Fraction(7), Fraction(9))]) == 8


def test_two_at_the_ends_where_that_is_near_enough():
    assert row([(0, 100)], [(0, 100)], 20, 100) == (0, 100)


def test_one_more_for_the_least_over():
    assert row([(0, 100)], [(0, 100)], 20, Fraction(9999, 100)) == (0, 50, 100)


def test_thirds_stay_exact():
    assert row([(0, 100)], [(0, 100)], 20, 40) == (0, Fraction(100, 3), Fraction(200, 3), 100)


def test_one_place_nearest_the_middle_where_two_do_not_fit():
    assert row([(45, 60)], [(45, 60)], 20, 40) == (50,)
    assert row([(55, 60)], [(55, 60)], 20, 40) == (55,)


def test_none_where_nothing_is_free():
    assert row([], [], 20, 40) == ()


def test_a_keep_out_pushes_its_neighbour_and_the_rest_evens_out():
    # The even row 0 25 50 75 100 has its middle blocked from 45 to 58.
    free_now = [(0, 45), (58, 100)]
    assert row(free_now, free_now, 10, 30) == (0, Fraction(45, 2), 45, Fraction(145, 2), 100)


def test_the_smallest_gap_is_as_large_as_the_largest_lets_it_be():
    # One place must stand at 40 exactly or past 90; 0-40-100 has the gap 60 whatever else is done.
    assert row([(0, 40), (90, 100)], [(0, 40), (90, 100)], 5, 70) == (0, 40, 100)


def test_the_fewest_may_need_one_more_than_the_even_row():
    # Three would have to stand at 0, 50, 100; 50 is blocked, so four.
    assert row([(0, 40), (60, 100)], [(0, 40), (60, 100)], 5, 50) == (0, Fraction(100, 3), Fraction(200, 3), 100)


def test_what_fits_where_the_limit_cannot_be_kept():
    # The gap from 20 to 80 must be; more places do not make it smaller than the fewest that reach it.
    assert row([(0, 20), (80, 100)], [(0, 20), (80, 100)], 5, 30) == (0, 20, 80, 100)


def test_beside_a_stretch_without_room_the_rest_keeps_to_the_limit():
    pieces = [(0, 60), (120, 150)]
    assert row(pieces, pieces, 5, 30) == (0, 30, 60, 120, 150)


def test_a_short_run_between_two_stretches_takes_one_midway():
    pieces = [(0, 20), (80, 90), (140, 160)]
    assert row(pieces, pieces, 15, 30) == (0, 20, 80, 140, 160)
    pieces = [(0, 20), (60, 70), (110, 130)]
    assert row(pieces, pieces, 15, 30) == (0, 20, 65, 110, 130)


def test_short_runs_in_a_row_keep_the_widest_gap_the_least():
    pieces = [(0, 0), (40, 50), (85, 95), (140, 140)]
    assert row(pieces, pieces, 15, 30) == (0, Fraction(140, 3), Fraction(280, 3), 140)
    # From 50 the place at 95 is 45 off; nearer to 0 would make that gap the widest, nearer to 95 the other.
    pieces = [(0, 0), (40, 50), (95, 97), (140, 140)]
    assert row(pieces, pieces, 15, 30) == (0, Fraction(95, 2), 95, 140)


def test_a_limit_under_the_least_gap_gives_the_tightest_row_there_is():
    assert row([(0, 100)], [(0, 100)], 30, 10) == (0, Fraction(100, 3), Fraction(200, 3), 100)


def test_the_first_place_may_be_freer_than_the_rest():
    assert row([(0, 100)], [(5, 95)], 20, 100) == (0, 95)
