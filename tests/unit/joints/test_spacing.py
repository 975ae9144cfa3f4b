"""Spacing mortises on a joint line, and the working of each centre."""

from __future__ import annotations

import pytest

from joinlay.errors import BadInput
from joinlay.joints.spacing import KeepOut, shortest_line, spread
from joinlay.lengths import NOTHING, inches
from tests.unit.joints.wood import INCH, f, keep_out, size


def spaced(line, *keep_outs, width="1", margin="1/2", between="1/2", widest="3", clearance="1/8", slack="0"):
    return spread(
        size(line, "line"),
        size(width, "width"),
        size(margin, "margin"),
        size(between),
        size(widest),
        keep_outs,
        clearance=size(clearance, "clearance"),
        slack=size(slack),
        named="corner",
    )


def in_inches(spacing):
    return [centre.inches for centre in spacing.centres]


def test_the_end_ones_stand_at_the_margin():
    found = spaced("6")
    assert in_inches(found) == [1, 3, 5]
    assert found.largest == found.smallest == inches(2)
    assert found.is_within


def test_a_keep_out_at_the_datum_end_moves_the_first():
    found = spaced("6", keep_out("3/8", "5/8"))
    assert in_inches(found) == [f("1 1/4"), f("3 1/8"), 5]


def test_a_keep_out_at_the_far_end_moves_the_last():
    assert in_inches(spaced("6", keep_out("5", "5 1/2"))) == [1, f("2 11/16"), f("4 3/8")]


def test_a_keep_out_may_be_touched_but_for_its_clearance():
    # From 1/2 to 1 1/2 the first mortise ends 1/8 before the keep-out: it may stay.
    assert in_inches(spaced("6", keep_out("1 5/8", "2")))[0] == 1
    assert in_inches(spaced("6", keep_out("1 19/32", "2")))[0] == f("2 5/8")


def test_the_mortises_after_the_first_make_room_for_their_slack():
    found = spaced("6", slack="1/16")
    assert in_inches(found) == [1, (1 + 5 - f("1/32")) / 2, 5 - f("1/32")]


def test_the_working_of_the_ends_is_arithmetic():
    first, middle, last = spaced("6", keep_out("3/8", "5/8")).centres
    assert first.expression(INCH.text) == "size 5/8 in + clearance 1/8 in + width 1 in / 2"
    assert middle.expression(INCH.text) == (
        "corner tenon 1 centre 1 1/4 in + 1/2 x (corner tenon 3 centre 5 in - corner tenon 1 centre 1 1/4 in)"
    )
    assert last.expression(INCH.text) == "line 6 in - margin 1/2 in - width 1 in / 2"
    assert [centre.name for centre in (first, middle, last)] == [f"corner tenon {n} centre" for n in (1, 2, 3)]
    assert [centre.rule for centre in (first, middle, last)] == ["LT-7", "LT-9", "LT-7"]


def test_a_place_that_was_searched_for_says_so():
    found = spaced("9 1/2", keep_out("4", "5 1/2"))
    assert in_inches(found) == [1, f("3 3/8"), f("6 1/8"), f("8 1/2")]
    assert (
        found.centres[1].expression(INCH.text).startswith("place 2 of 4, as even as keep-outs let it be, between corner tenon 1")
    )


def test_one_in_the_middle_of_a_short_line():
    found = spaced("3")
    assert found.centres[0].expression(INCH.text) == "line 3 in / 2"
    assert (found.largest, found.smallest, found.is_within) == (None, None, True)


def test_one_beside_the_keep_out_of_a_short_line():
    found = spaced("3", keep_out("1/2", "1 1/4"))
    assert in_inches(found) == [f("1 7/8")]
    assert found.centres[0].expression(INCH.text) == "free place nearest the middle of line 3 in, size 1/2 in, size 1 1/4 in"


def test_none_where_there_is_no_room():
    assert spaced("1 3/4").centres == ()
    assert spaced("3", keep_out("1/4", "2 3/4")).centres == ()


def test_the_shortest_line_has_room_for_one_and_no_less():
    for keep_outs in ([], [keep_out("1", "2")], [keep_out("-1", "0"), keep_out("1 3/4", "5"), keep_out("3", "4")]):
        shortest = shortest_line(size("1"), size("1/2"), keep_outs, clearance=size("1/8"))
        assert len(spaced(f"{shortest.mm} mm", *keep_outs).centres) == 1
        assert spaced(f"{shortest.mm - 1} mm", *keep_outs).centres == ()


def test_the_gap_over_the_limit_is_told():
    found = spaced("14", keep_out("2 1/2", "11 1/2"))
    assert in_inches(found) == [1, 13]
    assert not found.is_within
    assert found.largest == inches(12)


@pytest.mark.parametrize(
    "wrong",
    [{"line": "0"}, {"line": "-6"}, {"width": "0"}, {"margin": "-1"}, {"widest": "0"}, {"clearance": "-1/8"}, {"slack": "-1"}],
)
def test_sizes_that_are_none(wrong):
    with pytest.raises(BadInput, match=r"must be (more than 0|at least 0)"):
        spaced(wrong.pop("line", "6"), **wrong)


def test_more_mortises_than_anyone_cuts_are_a_slip_of_the_pen():
    with pytest.raises(BadInput, match="would hold over 2000 mortises"):
        spaced("1000000")


def test_a_line_that_is_long_but_possible():
    assert len(spaced("2500", keep_out("100", "110"), keep_out("1703", "1750")).centres) > 800


def test_a_keep_out_must_have_an_extent():
    with pytest.raises(BadInput, match="must end past its start"):
        KeepOut(size("1"), size("1"), "groove")
    assert KeepOut(NOTHING, size("1"), "groove").stop == inches(1)
