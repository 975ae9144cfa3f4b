"""Loose tenons as strip, screws, and what is glued."""

from dataclasses import replace
from fractions import Fraction

from joinlay.boards import CutKind, Place
from joinlay.cutlist.cutting_list import cutting_list
from joinlay.cutlist.fastenings import glued, nails, screws, tenon_strips
from joinlay.lengths import inches, mm
from tests.unit.cutlist.bench import board, glue_area, groove, make_plan, mortise, size, tenon


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
    assert thin.length.name == "strip for 3.969 mm by 12.7 mm tenons"


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
    # Glued at the front only, round the first screw (RN-4): from the end to as far behind its middle, 4 in.
    assert glue_area(make_plan(screwed)) == inches(4).mm * inches("3/4").mm
    short = replace(screwed, length=size("3"))
    assert glue_area(make_plan(short)) == inches(3).mm * inches("3/4").mm


def test_a_frame_is_glued_where_it_lies_against_the_case():
    # A stile 2 by 20 in, 3/4 thick, before a case side 3/4 thick: its whole length by the side's thickness.
    stile = board("stile", "20", "2", thickness="3/4", part="stile", place=Place.at(mm(0), mm(0), mm(0), "+Z", "+X", "+Y"))
    side = board("case left side", "24", "12", thickness="3/4", part="case side",
                 place=Place.at(mm(0), inches("3/4"), mm(0), "+Z", "+Y", "+X"))  # fmt: skip
    assert glued(make_plan(stile, side)) == {"frame on the case": (inches(20) * inches("3/4").mm).mm}
    apart = replace(side, place=Place.at(mm(0), inches(1), mm(0), "+Z", "+Y", "+X"))
    beside = replace(side, place=Place.at(inches(2), inches("3/4"), mm(0), "+Z", "+Y", "+X"))
    assert glued(make_plan(stile, apart)) == glued(make_plan(stile, beside)) == {}


def test_what_is_glued_is_told_apart():
    slot = replace(groove(), kind=CutKind.SLOT)
    bearer = board("bearer", "18", "2", thickness="3/4", part="bearer")
    found = glued(make_plan(board("a", cuts=[slot]), bearer, tenon("t"), board("s", part="stop block")))
    assert list(found) == ["loose tenons", "dadoes", "runners", "stops"]
    # The slot's floor and its outer wall, 20 in by 1/4 + 1/4; its inner wall is the tongue's.
    assert found["dadoes"] == inches(20).mm * inches("1/2").mm
    assert sum(found.values()) == glue_area(make_plan(board("a", cuts=[slot]), bearer, tenon("t"), board("s", part="stop block")))


def test_guides_and_stops_are_glued_flat():
    assert glue_area(make_plan(board("g", "18", "3/4", part="guide"))) == inches(18).mm * inches("3/4").mm
    assert nails(make_plan(board("g", "18", "3/4", part="guide"))) == 0
