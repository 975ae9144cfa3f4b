"""How deep the mortises go: LT-3 to LT-5."""

from __future__ import annotations

import pytest

from joinlay.findings import Harm, Refused
from joinlay.joints.mortise_depth import mortise_depths
from joinlay.joints.tenon_size import TenonSize
from joinlay.lengths import inches, mm
from tests.unit.joints.wood import number, said, shop, size, tenon, way_out


def depths(stock, face, owned=None):
    owned = owned or shop()
    found = TenonSize(stock, stock.thickness, stock.thickness * 3)
    return mortise_depths(found, size(face, "face"), owned, "")


def test_four_times_its_thickness_in_the_end():
    assert depths(tenon("1/4"), "2").in_end == inches(1)


def test_as_deep_in_the_face_where_that_is_thick():
    found = depths(tenon("1/4"), "2")
    assert found.in_face == inches(1)
    assert found.length == inches("1 7/8")


@pytest.mark.parametrize(("face", "depth"), [("1", "3/4"), ("3/4", "9/16"), ("1/2", "3/8"), ("7/16", "5/16")])
def test_an_eighth_or_a_quarter_stays_behind(face, depth):
    assert depths(tenon("3/16"), face).in_face == inches(depth)


def test_both_go_down_to_the_rule():
    found = depths(tenon("6 mm"), "3/4")
    assert found.in_end == inches("15/16")  # 24 mm is 30.2 marks of 1/32
    assert found.in_face == inches("9/16")


def test_the_reach_limits_both():
    found = depths(tenon("1/4", reach="3/4"), "2")
    assert (found.in_end, found.in_face) == (inches("3/4"), inches("3/4"))
    assert found.finding is None


def test_a_short_reach_is_warned_of():
    found = depths(tenon("1/4", reach="5/8"), "2").finding
    assert found is not None
    assert (found.harm, found.rule) == (Harm.WARN, "LT-4")


def test_the_rules_own_mark_is_not_held_against_it():
    # 3 x 4 mm is 12 mm; down to 1/32 in it is 11.9, and that is still three times.
    assert depths(tenon("4 mm"), "2", shop(ratios={"tenon depth": "3"})).finding is None
    assert depths(tenon("4 mm"), "2", shop(ratios={"tenon depth": "2"})).finding is not None
    assert depths(tenon("6 mm"), "3", shop(ratios={"tenon depth": "5"})).finding is None
    assert depths(tenon("6 mm"), "3", shop(ratios={"tenon depth": "11/2"})).finding is not None


def test_a_ready_made_length_is_split_with_glue_room():
    found = depths(tenon("1/4", length="1 3/8"), "1")
    assert (found.in_face, found.in_end, found.length) == (inches("3/4"), inches("3/4"), inches("1 3/8"))


def test_the_face_gives_way_to_its_floor():
    found = depths(tenon("1/4", length="1 3/8"), "3/4")
    assert (found.in_face, found.in_end) == (inches("9/16"), inches("15/16"))


def test_a_split_off_the_rule_leaves_more_room_never_less():
    found = depths(tenon("1/4", length="30 mm"), "3/4")
    assert found.in_end == inches("3/4")  # 30 + 3.175 - 14.29 = 18.89 mm, up to the next mark
    assert found.in_end + found.in_face >= mm(30) + inches("1/8")


def test_a_reach_that_just_takes_the_next_mark_is_used_up():
    assert depths(tenon("1/4", length="30 mm", reach="3/4"), "3/4").in_end == inches("3/4")


def test_a_split_at_the_end_of_the_reach_is_exact():
    found = depths(tenon("1/4", length="30 mm", reach="18.9 mm"), "3/4")
    assert found.in_end == mm(30) + inches("1/8") - inches("9/16")


def test_too_long_a_tenon_is_refused_with_the_longest_that_would_do():
    with pytest.raises(Refused) as refused:
        depths(tenon("1/4", length="2", reach="1"), "3/4")
    longest = number(refused.value.finding, "longest")
    assert longest == inches("9/16") + inches(1) - inches("1/8")
    assert depths(tenon("1/4", length=f"{longest.mm} mm", reach="1"), "3/4").in_end == inches(1)


def test_too_thin_a_face_is_refused_with_the_thinnest_that_would_do():
    for stock in (tenon("1/4"), tenon("1/4", length="1 1/2")):
        with pytest.raises(Refused) as refused:
            depths(stock, "3/8")
        found = refused.value.finding
        assert found.rule == "LT-3"
        assert said(found) == "The mortise in the face could be 1/4 in deep, and a 1/4 in tenon needs 5/16 in."
        assert way_out(found) == "A part 7/16 in thick there would do (it is 3/8 in)."
        assert depths(stock, "7/16").in_face == inches("5/16")


def test_a_face_that_is_all_floor():
    for stock in (tenon("1/4"), tenon("1/4", length="1 1/2")):
        with pytest.raises(Refused, match="could be 0 mm deep"):
            depths(stock, "1/16")


def test_too_short_a_reach_is_not_blamed_on_the_face():
    with pytest.raises(Refused) as refused:
        depths(tenon("1/2", reach="1/2"), "2")
    assert way_out(refused.value.finding) == "A mortise cutter that reaches 9/16 in would do."


def test_a_floor_that_takes_the_whole_face():
    with pytest.raises(Refused) as refused:
        depths(tenon("1/4"), "2", shop(ratios={"mortise floor share": "1"}))
    assert way_out(refused.value.finding) == "With the shop's share for the mortise floor no face would do."
