"""Laws of graduation: openings and rails fill the frame exactly, rounded or not, in inches as in millimetres (DR-7)."""

from itertools import combinations, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from joinlay.casework.graduation import (
    Arithmetic,
    ByShares,
    Equal,
    Geometric,
    OneByOne,
    Rounding,
    filled,
    opening_heights,
    room_for_openings,
)
from joinlay.findings import Refused
from joinlay.lengths import GRADUATIONS, Fraction, Length, dimension
from tests.drawn import fractions

sizes = fractions(Fraction(1), Fraction(300), max_denominator=640).map(lambda n: dimension(Length(n)))
rooms = fractions(Fraction(2000), Fraction(4000), max_denominator=640).map(lambda n: dimension(Length(n)))
steps = fractions(Fraction(-20), Fraction(20), max_denominator=64).map(lambda n: dimension(Length(n)))
ratios = fractions(Fraction(4, 5), Fraction(5, 4), max_denominator=20)
counts = st.integers(1, 12)


@st.composite
def divisions(draw):
    count = draw(counts)
    given_sizes = draw(st.lists(sizes, min_size=count, max_size=count))
    given_sizes[draw(st.integers(0, count - 1))] = None
    return draw(
        st.sampled_from(
            [Equal(count), Arithmetic(count, draw(steps)), Geometric(count, draw(ratios)), OneByOne(tuple(given_sizes))]
        )
    )


def names(count):
    return [f"drawer {n}" for n in range(1, count + 1)]


def total(lengths):
    return sum((length.mm for length in lengths), Fraction(0))


def divided(heights, room, rounding=None):
    """The openings, or None where they are refused: then one of them would be nothing."""
    try:
        return opening_heights(heights, room, names=names(heights.count), rounding=rounding)
    except Refused:
        return None


@given(divisions(), rooms)
def test_openings_fill_their_room_exactly(heights, room):
    made = divided(heights, room)
    if made is not None:
        assert len(made) == heights.count
        assert total(made) == room.mm
        assert min(made).mm > 0


@given(divisions(), rooms, st.sampled_from(sorted(GRADUATIONS)), st.data())
def test_rounding_loses_nothing(heights, room, rule, data):
    place = data.draw(st.integers(-heights.count, heights.count - 1))
    graduation = GRADUATIONS[rule]
    made = divided(heights, room, Rounding(graduation, place))
    exact = divided(heights, room)
    if made is None or exact is None:
        return
    assert total(made) == room.mm
    takes = place % heights.count
    for n, (rounded, whole) in enumerate(zip(made, exact, strict=True)):
        if n != takes:
            assert rounded == graduation.round(whole)


@st.composite
def series(draw):
    """A division that is free to land on the rule."""
    count = draw(counts)
    shares = st.lists(st.sampled_from((Fraction(1), Fraction(3, 2), Fraction(2))), min_size=1, max_size=5).map(tuple)
    return draw(
        st.one_of(
            steps.map(lambda step: Arithmetic(count, step)),
            ratios.map(lambda ratio: Geometric(count, ratio)),
            shares.map(ByShares),
        )
    )


def order(lengths):
    """How each stands to the next: shallower, alike, deeper."""
    return [(after > before) - (after < before) for before, after in pairwise(lengths)]


@given(series(), rooms, st.sampled_from(sorted(GRADUATIONS)), st.booleans())
def test_a_series_lands_on_the_rule_wherever_one_as_good_does(heights, room, rule, room_is_on_it):
    """FR-1: on the marks, within a division, steps within a division, in the same order, and together their room exactly.

    Where that isn't to be had they stay as they are, and nothing says otherwise.
    """
    graduation = GRADUATIONS[rule]
    room = dimension(graduation.down(room)) if room_is_on_it else room
    exact, made = divided(heights, room), divided(heights, room, Rounding(graduation))
    assert (exact is None) == (made is None)
    if exact is None or made is None:
        return
    assert total(made) == room.mm
    assert order(made) == order(exact)
    assert all(one == other for (one, a), (other, b) in combinations(zip(made, exact, strict=True), 2) if a == b)
    division = graduation.division.mm
    assert all(abs(one.mm - size.mm) < division for one, size in zip(made, exact, strict=True))
    asked, got = (([b.mm - a.mm for a, b in pairwise(row)]) for row in (exact, made))
    assert all(abs(one - step) <= division for one, step in zip(got, asked, strict=True))
    assert all(("FR-1" in one.rule) == (one != size) for one, size in zip(made, exact, strict=True))
    if any(graduation.round(one) != one for one in made):
        # No series on the rule fills a room that isn't on it; one of alike ones, or of steps under a division, isn't as good.
        assert made == exact
        assert graduation.round(room) != room or any(abs(a.mm - b.mm) < division for a, b in combinations(exact, 2))


@given(counts, sizes, rooms)
def test_alike_openings_stay_alike_and_given_ones_as_they_are_given(count, size, room):
    for heights in (Equal(count), OneByOne((size, *(None,) * (count > 1)))):
        whole = size if heights == OneByOne((size,)) else room
        assert divided(heights, whole, Rounding(GRADUATIONS["1 mm"])) == divided(heights, whole)


@given(counts, steps, rooms)
def test_each_arithmetic_opening_is_the_step_deeper(count, step, room):
    made = divided(Arithmetic(count, step), room)
    for upper, lower in pairwise(made or ()):
        assert lower == upper + step


@given(counts, ratios, rooms)
def test_each_geometric_opening_is_the_ratio_deeper(count, ratio, room):
    made = opening_heights(Geometric(count, ratio), room, names=names(count))
    for upper, lower in pairwise(made):
        assert lower / upper == ratio


@given(st.lists(sizes, min_size=1, max_size=8), sizes, st.data())
def test_a_frame_made_for_its_openings_is_filled_and_any_other_is_refused(given_sizes, rail, data):
    heights = OneByOne(tuple(given_sizes))
    rails = [rail] * (len(given_sizes) - 1)
    whole = filled(heights, rails, rail, rail)
    assert opening_heights(heights, room_for_openings(whole, rail, rail, rails), names=names(heights.count)) == tuple(given_sizes)
    off = data.draw(fractions(Fraction(-1), Fraction(50), max_denominator=64).filter(bool))
    room = room_for_openings(whole + Length(off), rail, rail, rails) if total(given_sizes) + off > 0 else None
    if room is None:
        return
    with pytest.raises(Refused) as caught:
        opening_heights(heights, room, names=names(heights.count))
    assert caught.value.finding.numbers["amount"] == Length(abs(off))


@given(divisions(), rooms)
def test_equal_numbers_give_equal_openings_whatever_the_room_is_called(heights, room):
    again = dimension(Length(room.mm)).named("another name")
    assert divided(heights, room) == divided(heights, again)
