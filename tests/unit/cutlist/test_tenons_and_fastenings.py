"""Loose tenons as strip, screws, and what is glued."""

from dataclasses import replace
from fractions import Fraction

from joinlay.boards import CutKind
from joinlay.cutlist.cutting_list import cutting_list
from joinlay.cutlist.fastening import glue_area, nails, screws
from joinlay.cutlist.tenon_strip import tenon_strips
from joinlay.lengths import inches
from tests.unit.cutlist.bench import board, groove, make_plan, mortise, tenon


def strips(*boards):
    plan = make_plan(*boards, kerf=inches("1/8"))
    return tenon_strips(plan, cutting_list(plan))


def test_tenons_are_counted_by_section_and_length():
    (thin, thick) = strips(
        *(tenon(f"t {n}") for n in range(11)), tenon("u 1", length="1 1/2"), *(tenon(f"v {n}", thickness="1/4") for n in range(3)),
    )  # fmt: skip
    assert (thin.count, thin.spare) == (12, 2 + 1)
    assert [row.quantity for row in thin.rows] == [11, 1]
    # 13 at 1 in and 2 at 1 1/2 in, a kerf each.
    assert thin.length == 13 * inches("1 1/8") + 2 * inches("1 5/8")
    assert (thick.thickness, thick.count, thick.spare) == (inches("1/4"), 3, 1)
    assert thin.length.name == "strip for 127/32 by 127/10 mm tenons"


def test_no_tenons_no_strip():
    assert strips(board("a")) == ()


def test_screws_are_counted_by_their_holes():
    slot = replace(mortise("2", name="screw slot 1"), kind=CutKind.SLOT)
    hole = replace(mortise("4", name="screw hole"), kind=CutKind.HOLE)
    assert screws(make_plan(board("a", cuts=[slot, hole, groove()]), board("b", cuts=[slot]))) == 3
    assert screws(make_plan(board("a", cuts=[groove(), mortise("2")]))) == 0


def test_glue_goes_all_round_a_tenon():
    plan = make_plan(tenon("t", "1", "1/2", "1/4"))
    around = (2 * inches("1/4").mm + Fraction(355, 113) * inches("1/4").mm) * inches(1).mm
    assert glue_area(plan) == around
    square = replace(tenon("t", "1", "1/2", "1/4"), has_round_edges=False)
    assert glue_area(make_plan(square)) == 2 * inches("3/4").mm * inches(1).mm


def test_glue_goes_on_the_floor_and_walls_of_a_dado_but_not_into_grooves():
    dado = replace(groove(), kind=CutKind.DADO)
    assert glue_area(make_plan(board("a", cuts=[dado]))) == inches(20).mm * inches("3/4").mm
    assert glue_area(make_plan(board("a", cuts=[groove()]))) == 0


def test_runners_without_screws_are_nailed_and_glued():
    bearer = board("bearer", "18", "2", thickness="3/4", part="bearer")
    # 18 in (457 mm) is four spacings, so five nails.
    assert nails(make_plan(bearer)) == 5
    assert glue_area(make_plan(bearer)) == inches(18).mm * inches("3/4").mm
    assert nails(make_plan(board("short", "2", "2", part="kicker"))) == 2
    screwed = replace(bearer, cuts=(mortise("2", name="screw hole"),))
    assert nails(make_plan(screwed)) == 0
    assert glue_area(make_plan(screwed)) == 0


def test_guides_and_stops_are_glued_flat():
    assert glue_area(make_plan(board("g", "18", "3/4", part="guide"))) == inches(18).mm * inches("3/4").mm
    assert nails(make_plan(board("g", "18", "3/4", part="guide"))) == 0
