"""Graduation of a bank (DR-7)."""

import pytest

from joinlay.casework.graduation import (
    Arithmetic,
    Equal,
    Geometric,
    OneByOne,
    Rounding,
    filled,
    opening_heights,
    room_for_openings,
)
from joinlay.errors import BadInput
from joinlay.findings import Refused
from joinlay.lengths import GRADUATIONS, Fraction, Length, dimension, inches, mm, written


def inch(text):
    return written(inches(text), text, "test")


def names(count):
    return [f"drawer {n}" for n in range(1, count + 1)]


def test_equal_openings_and_rails_fill_the_frame():
    room = room_for_openings(inch("30"), inch("2"), inch("2"), [inch("1")] * 3)
    heights = opening_heights(Equal(4), room, names=names(4))
    assert heights == (inches("5 3/4"),) * 4
    assert heights[2].name == "drawer 3 opening height"


def test_arithmetic_openings_grow_by_the_step():
    heights = opening_heights(Arithmetic(3, inch("3/4")), inch("15"), names=names(3))
    assert heights == (inches("4 1/4"), inches("5"), inches("5 3/4"))


def test_geometric_openings_grow_by_the_ratio_exactly():
    heights = opening_heights(Geometric(3, Fraction(6, 5)), dimension(mm(364)), names=names(3))
    assert heights == (mm(100), mm(120), mm(144))


def test_one_opening_may_fill_what_is_left():
    heights = opening_heights(OneByOne((inch("3"), None, inch("6"))), inch("14"), names=names(3))
    assert heights[1] == inches("5")


@pytest.mark.parametrize(("last", "word", "amount", "nearest"), [("6", "short", "1", "7"), ("8 1/2", "over", "1 1/2", "7")])
def test_openings_that_do_not_fill_say_by_how_much_and_what_fits(last, word, amount, nearest):
    with pytest.raises(Refused) as caught:
        opening_heights(OneByOne((inch("3"), inch("4"), inch(last))), inch("14"), names=names(3))
    finding = caught.value.finding
    show = GRADUATIONS["1/16 in"].text
    assert f"{amount} in {word}" in finding.sentence(show)
    assert f"make the last one {nearest} in" in finding.way_out(show)


def test_a_last_opening_that_no_size_can_mend_is_not_offered():
    with pytest.raises(Refused) as caught:
        opening_heights(OneByOne((inch("9"), inch("8"), inch("1"))), inch("14"), names=names(3))
    assert "make the last one" not in caught.value.finding.way_out(GRADUATIONS["1/16 in"].text)


def test_a_fill_with_nothing_left_is_refused():
    with pytest.raises(Refused, match="drawer 2 would be"):
        opening_heights(OneByOne((inch("9"), None, inch("6"))), inch("14"), names=names(3))


def test_too_large_a_step_names_the_largest_that_works():
    with pytest.raises(Refused) as caught:
        opening_heights(Arithmetic(4, inch("3")), inch("14"), names=names(4))
    limit = caught.value.finding.numbers["limit"]
    assert isinstance(limit, Length)
    assert limit == inches("14") / 6
    under = opening_heights(Arithmetic(4, dimension(Length(limit.mm - 1))), inch("14"), names=names(4))
    assert under[0].mm > 0


def test_rails_as_high_as_the_frame_are_refused():
    with pytest.raises(Refused, match="rails alone"):
        room_for_openings(inch("5"), inch("2"), inch("2"), [inch("1")])


@pytest.mark.parametrize("place", [0, 1, -1])
def test_the_remainder_of_rounding_goes_where_the_maker_says(place):
    rule = GRADUATIONS["1/16 in"]
    room = inch("10")
    heights = opening_heights(Equal(3), room, names=names(3), rounding=Rounding(rule, place))
    assert sum((h.mm for h in heights), Fraction(0)) == room.mm
    others = [h for n, h in enumerate(heights) if n != place % 3]
    assert all(rule.round(h) == h for h in others)
    assert heights[place] == inches("3 6/16")


@pytest.mark.parametrize(
    ("heights", "said"),
    [
        (Equal(0), "at least one"),
        (Geometric(2, Fraction(0)), "more than 0"),
        (OneByOne((None, None)), "one at most"),
        (Equal(3), "3 openings were described but 2 named"),
    ],
)
def test_what_is_no_graduation_is_said(heights, said):
    with pytest.raises(BadInput, match=said):
        opening_heights(heights, inch("14"), names=names(2) if heights.count else [])


def test_a_remainder_in_no_opening_is_said():
    with pytest.raises(BadInput, match="openings 1 to 2"):
        opening_heights(Equal(2), inch("14"), names=names(2), rounding=Rounding(GRADUATIONS["1/16 in"], 2))


def test_the_frame_follows_from_openings_given_one_by_one():
    whole = filled(OneByOne((inch("3"), inch("4"))), [inch("1")], inch("2"), inch("2 1/2"))
    assert whole == inches("12 1/2")
    with pytest.raises(BadInput, match="give the frame's height"):
        filled(Equal(2), [inch("1")], inch("2"), inch("2"))


def test_the_working_leads_back_to_what_was_written():
    room = room_for_openings(inch("30"), inch("2"), inch("2 1/2"), [inch("1")])
    height = opening_heights(Equal(2), room, names=names(2))[0]
    assert "room for openings" in height.expression(GRADUATIONS["1/32 in"].text)
    assert [d.name for d in room.inputs] == ["30", "2", "2 1/2", "1"]


def test_a_frame_too_narrow_for_its_stiles_is_asked_to_be_wider_not_higher():
    with pytest.raises(Refused) as caught:
        room_for_openings(inch("3"), inch("1 1/2"), inch("1 1/2"), [], across=True)
    said = caught.value.finding
    assert said.sentence(GRADUATIONS["1/32 in"].text) == "The stiles alone take 3 in of a frame 3 in wide."
    assert said.way_out(GRADUATIONS["1/32 in"].text) == "Make the frame wider than 3 in."
