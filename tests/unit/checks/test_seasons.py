"""Solid parts through the year."""

from dataclasses import replace
from fractions import Fraction

import pytest

from joinlay.boards import Hand
from joinlay.casework.opening import BackHeight
from joinlay.checks.seasons import check_seasons, room_to_swell, year_of
from joinlay.findings import Harm
from joinlay.lengths import ZERO, mm
from joinlay.stock import Day, Seasons, movement_of
from tests.unit.checks.making import CONDITIONS, SHOP, drawer, shop_with, solid


def found(made, shop=SHOP, conditions=CONDITIONS):
    return [(finding.harm, finding.where) for finding in check_seasons(made, shop, conditions)]


def test_sheet_goods_say_nothing():
    assert found(drawer()) == []


def test_a_year_is_two_moves_of_nothing_or_more():
    shrinks, grows = year_of(solid("ash", 18), mm(150), CONDITIONS)
    seasons = CONDITIONS.seasons
    assert grows == movement_of(solid("ash", 18), mm(150), seasons.workshop, seasons.dampest)
    assert shrinks == -movement_of(solid("ash", 18), mm(150), seasons.workshop, seasons.driest)
    still = replace(CONDITIONS, seasons=Seasons(seasons.workshop, seasons.workshop, seasons.workshop))
    assert year_of(solid("ash", 18), mm(150), still) == (ZERO, ZERO)


def test_parts_swell_up_to_the_top_of_the_opening():
    made = drawer(shop=shop_with(top_clearance="1.2"))
    assert room_to_swell(made, made.front, SHOP) == room_to_swell(made, made.side(Hand.LEFT), SHOP) == mm("1.2")


def test_room_stays_the_same_wherever_the_drawer_stands():
    made = drawer(back_height=BackHeight.ON_BOTTOM)
    moved = made.moved(mm(100), mm(200), mm(300))
    for part in ("front", "left side", "back", "bottom"):
        assert room_to_swell(made, made.board(part), SHOP) == room_to_swell(moved, moved.board(part), SHOP)


def test_a_bottom_has_the_gap_behind_the_drawer_or_its_groove():
    stands, grooved = drawer(back_height=BackHeight.ON_BOTTOM), drawer()
    assert room_to_swell(stands, stands.bottom, SHOP) == mm(12)
    assert room_to_swell(grooved, grooved.bottom, SHOP) == SHOP.practice.length("bottom panel clearance") / 2


def test_the_room_itself_is_enough():
    """A front that swells exactly its clearance stays silent; a hair less room and it binds."""
    wood = solid("fronts", 20, "ash")
    _, grows = year_of(wood, mm(150), CONDITIONS)
    for clearance, harm in ((grows, Harm.NOTE), (grows - mm("0.0001"), Harm.WARN)):
        # The opening grows with the clearance, so that the front stays 150 mm high.
        height = 150 + clearance.mm + Fraction(4, 5)
        made = drawer(height=height, front=wood, shop=shop_with(top_clearance=clearance.mm))
        assert made.board("front").width == mm(150)
        assert found(made) == [(harm, "drawer 1 front")]


def test_parts_that_bind_are_named_together():
    wood = solid("wood", 12)
    made = drawer(front=solid("fronts", 20), sides=wood, back=wood, height=250)
    ((harm, where),) = found(made)
    assert (harm, where) == (Harm.WARN, "drawer 1 front, sides, back")


def test_a_solid_bottom_in_a_grooved_back_has_no_room():
    wide = drawer(bottom=solid("bottoms", 8))
    (finding,) = check_seasons(wide, SHOP, CONDITIONS)
    assert finding.harm is Harm.WARN
    assert "Let the back stand on the bottom" in finding.way_out(str)
    (finding,) = check_seasons(drawer(bottom=solid("bottoms", 8), back_height=BackHeight.ON_BOTTOM), SHOP, CONDITIONS)
    assert finding.harm is Harm.NOTE
    assert "slots at the back" in finding.sentence(str)


def test_a_bottom_that_dries_out_of_its_groove():
    desert = Day(Fraction(30), Fraction(8, 100))
    dry = replace(CONDITIONS, seasons=replace(CONDITIONS.seasons, driest=desert, workshop=CONDITIONS.seasons.dampest))
    short = check_seasons(drawer(bottom=solid("bottoms", 8), depth=500), SHOP, dry)
    assert [finding.harm for finding in short if "only" in finding.what] == [Harm.WARN]
    assert not [
        finding
        for finding in check_seasons(drawer(bottom=solid("bottoms", 8, "white pine", "quarter")), SHOP, dry)
        if "only" in finding.what
    ]


@pytest.mark.parametrize(("height", "warned"), [(100, False), (300, True)])
def test_a_high_solid_front_on_sides_of_sheet_strains_its_glue(height, warned):
    made = drawer(front=solid("fronts", 20), height=height, shop=shop_with(top_clearance=6))
    assert any("glued to don't" in finding.what for finding in check_seasons(made, SHOP, CONDITIONS)) is warned


def test_quarter_sawn_wood_may_do_where_flat_sawn_binds():
    flat = drawer(front=solid("fronts", 20, "ash", "flat"), shop=shop_with(top_clearance=1))
    quarter = drawer(front=solid("fronts", 20, "ash", "quarter"), shop=shop_with(top_clearance=1))
    assert [harm for harm, _ in found(flat)] == [Harm.WARN]
    assert [harm for harm, _ in found(quarter)] == [Harm.NOTE]


def test_a_wood_that_is_not_in_the_table_is_said_to_be_unknown():
    ((harm, where),) = found(drawer(front=solid("fronts", 20, "lignum vitae")))
    assert (harm, where) == (Harm.NOTE, "drawer 1 front")


@pytest.mark.parametrize(("humidity", "said"), [(30, False), (20, True)])
def test_days_that_the_coefficients_do_not_serve_are_owned_up_to(humidity, said):
    dry = Day(Fraction(21), Fraction(humidity, 100))
    conditions = replace(CONDITIONS, seasons=replace(CONDITIONS.seasons, driest=dry))
    (finding,) = check_seasons(drawer(front=solid("fronts", 20), height=100), SHOP, conditions)
    assert ("6 to 14 %" in finding.what) is said
