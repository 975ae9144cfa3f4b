"""Which tenon, and how wide: LT-1, LT-2, LT-6, FF-2."""

from __future__ import annotations

import pytest

from joinlay.findings import Harm, Refused
from joinlay.joints.tenon_size import Use, tenon_sizes, wall_needed
from joinlay.lengths import inches, mm
from tests.unit.joints.wood import number, said, shop, size, tenon, way_out, with_tenons


def sizes(end, *, line="6", owned=None, use=Use.DRAWER, given=None):
    return tenon_sizes(size(end, "side"), size(line, "line"), owned or shop(), use, given, "")


@pytest.mark.parametrize(
    ("end", "thickness"),
    [("12 mm", 4), ("1/2", 4), ("17.9 mm", 4), ("18 mm", 6), ("3/4", 6), ("24 mm", 8), ("36 mm", 12), ("3", 12)],
)
def test_the_thickest_up_to_a_third(end, thickness):
    best = sizes(end)[0]
    assert best.thickness == mm(thickness)
    assert best.width == mm(3 * thickness)
    assert best.finding is None


def test_a_tenon_whose_walls_just_hold_may_be_asked_for():
    """In wood 1 in thick a quarter stays at each side, so 1/2 in is over its third and holds; a hair more doesn't (LT-1,
    LT-2).
    """
    for thickness, holds in (("1/2", True), ("33/64", False)):
        with pytest.raises(Refused) as refused:
            sizes("1", owned=with_tenons(tenon(thickness)))
        assert ("its walls hold" in way_out(refused.value.finding)) is holds
        assert ("cannot hold" in said(refused.value.finding)) is not holds


def test_two_fifths_of_the_wood_is_the_most_without_asking():
    """LT-1: up to 2/5, common practice. A tenon of 6 mm in wood of 15 mm, and no longer in a hair less."""
    own = with_tenons(tenon("6 mm"))
    assert sizes("15 mm", owned=own)[0].thickness == mm(6)
    with pytest.raises(Refused, match="thinnest is 6 mm"):
        sizes("14.9 mm", owned=own)


def test_thinner_ones_follow():
    assert [found.thickness.mm for found in sizes("1")] == [8, 6, 4]


def test_the_thinnest_of_the_shop_may_be_a_hair_over_its_third():
    best = sizes("15/32")[0]
    assert best.thickness == mm(4)
    assert best.finding is not None
    assert best.finding.harm is Harm.NOTE


def test_further_over_its_third_is_a_warning():
    best = sizes("10 mm")[0]
    assert best.finding is not None
    assert best.finding.harm is Harm.WARN
    assert way_out(best.finding) == "A tenon of 1/8+ in (0.131) or less is usual."


def test_over_two_fifths_is_refused_with_wood_that_would_do():
    with pytest.raises(Refused) as refused:
        sizes("9.9 mm")
    assert refused.value.finding.rule == "LT-1"
    assert "Wood 15/32+ in (12 mm)" in way_out(refused.value.finding)


def test_a_tenon_that_holds_its_walls_may_be_asked_for_by_name():
    thick = with_tenons(tenon("6 mm"))
    with pytest.raises(Refused) as refused:
        sizes("13 mm", owned=thick)
    assert "ask for the" in way_out(refused.value.finding)
    asked = sizes("13 mm", owned=thick, given=tenon("6 mm"))[0]
    assert asked.finding is not None
    assert asked.finding.harm is Harm.WARN


def test_a_tenon_asked_for_with_thin_walls_is_refused_with_one_that_holds():
    with pytest.raises(Refused) as refused:
        sizes("1/2", given=tenon("8 mm"))
    found = refused.value.finding
    assert found.rule == "LT-2"
    assert "must stay" in said(found)
    assert way_out(found) == "The 1/4- in (6 mm) tenon of the shop would hold."


def test_a_thin_tenon_asked_for_is_taken():
    asked = sizes("3/4", given=tenon("4 mm"))
    assert [found.thickness.mm for found in asked] == [4]
    assert asked[0].finding is None
    assert asked[0].thickness.operands[0].origin == "a test"


def test_a_shop_without_tenons_is_told_what_to_get():
    with pytest.raises(Refused) as refused:
        sizes("3/4", owned=with_tenons())
    assert way_out(refused.value.finding) == "Add a tenon 1/4 in thick or less to the shop."


def test_up_to_two_fifths_where_the_shop_says_so():
    assert sizes("15 mm", owned=shop(ratios={"tenon share": "2/5"}))[0].thickness == mm(6)


def test_walls_of_a_quarter_and_3_mm():
    assert wall_needed(size("1"), shop().practice) == inches("1/4")
    assert wall_needed(size("10 mm"), shop().practice) == mm(3)


def test_ready_made_tenons_keep_their_width():
    assert sizes("3/4", owned=with_tenons(tenon("6 mm", width="20 mm")))[0].width == mm(20)


def test_over_six_times_its_thickness_is_refused():
    with pytest.raises(Refused) as refused:
        sizes("3/4", given=tenon("6 mm", width="37 mm"))
    assert refused.value.finding.rule == "LT-6"
    assert sizes("3/4", given=tenon("6 mm", width="36 mm"))[0].width == mm(36)


def test_a_thinner_tenon_too_wide_for_itself_does_not_spoil_the_best():
    owned = with_tenons(tenon("4 mm", width="30 mm"), tenon("6 mm"))
    assert [found.thickness.mm for found in sizes("3/4", owned=owned)] == [6]


def test_a_frame_rail_narrows_the_tenon_to_its_shoulders():
    # 1 in less two shoulders of 3/16: 5/8, on the rule.
    assert sizes("3/4", line="1", use=Use.FRAME)[0].width == inches("5/8")


def test_a_narrowed_tenon_is_cut_on_the_rule_unless_that_is_too_narrow():
    assert sizes("3/4", line="1.01", use=Use.FRAME)[0].width == inches("5/8")
    # 2 x 6 mm needs 12 mm; the room is 12.05 mm, and the mark below it 11.9.
    rail = f"{mm('12.05').mm + 2 * inches('3/16').mm} mm"
    assert sizes("3/4", line=rail, use=Use.FRAME)[0].width == mm("12.05")


def test_a_lower_rail_takes_a_thinner_tenon():
    found = sizes("3/4", line="3/4", use=Use.FRAME)
    assert [best.thickness.mm for best in found] == [4]
    assert found[0].width == inches("3/8")
    assert "thinner tenon of the shop" in found[0].thickness.operation


def test_too_low_a_rail_is_refused_with_the_lowest_that_works():
    with pytest.raises(Refused) as refused:
        sizes("3/4", line="11/16", use=Use.FRAME)
    found = refused.value.finding
    assert found.rule == "FF-2"
    lowest = number(found, "lowest")
    # 8 mm and two shoulders of 3/16 are 0.69 in; the next mark of the rule is one that can be set.
    assert lowest == inches("23/32")
    assert sizes("3/4", line=f"{lowest.mm} mm", use=Use.FRAME)[0].width == inches("11/32")


def test_a_ready_made_tenon_is_not_narrowed():
    with pytest.raises(Refused) as refused:
        sizes("3/4", line="1", use=Use.FRAME, given=tenon("6 mm", width="18 mm"))
    assert number(refused.value.finding, "lowest") == inches("1 3/32")


def test_a_tenon_asked_for_as_thick_as_the_wood():
    with pytest.raises(Refused) as refused:
        sizes("5 mm", given=tenon("6 mm"))
    assert said(refused.value.finding).startswith("A 1/4- in (6 mm) tenon is as thick as the wood")
    assert way_out(refused.value.finding) == "Wood 15/32+ in (12 mm) thick would take it."


def test_a_tenon_asked_for_where_the_shop_has_none_that_holds():
    with pytest.raises(Refused) as refused:
        sizes("9 mm", given=tenon("6 mm"))
    assert way_out(refused.value.finding).startswith("A tenon 1/8- in (3 mm) thick at most would hold")


@pytest.mark.parametrize("ratios", [{"tenon wall share": "1/2"}, {"tenon wall share": "3/4"}, {"tenon share": "0"}])
def test_shares_that_leave_no_tenon_at_all(ratios):
    with pytest.raises(Refused) as refused:
        sizes("9 mm", owned=shop(ratios=ratios))
    assert "With the shop's shares" in way_out(refused.value.finding)
