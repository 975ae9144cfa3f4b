"""What to buy and have ready, and what it costs."""

from dataclasses import replace
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from joinlay.boards import Band, Surface
from joinlay.boards.meeting import Meeting, Tie
from joinlay.casework.pulls import Pull
from joinlay.cutlist.cutting_list import cutting_list
from joinlay.cutlist.sheet_goods import sheet_layouts
from joinlay.cutlist.shopping import Shopping, ShoppingLine, shopping_list
from joinlay.cutlist.solid_wood import solid_needs
from joinlay.jobs.on_hand import OnHand, Prices, SheetOnHand
from joinlay.lengths import Unit, inches
from joinlay.stock import Solid
from tests import by_hand
from tests.drawn import fractions
from tests.unit.casework.drawers import drawer
from tests.unit.cutlist.bench import board, cherry, make_plan, ply, size, tenon


def shop_for(*boards, paper=None, glue=0, **more):
    glued = Meeting(by_hand.part("a"), by_hand.part("b"), (), (), Tie.GLUED, glue=Fraction(glue))
    plan = make_plan(*boards, meetings=[glued], **more)
    parts = cutting_list(plan)
    return shopping_list(plan, parts, sheet_layouts(plan, parts), solid_needs(plan, parts), paper)


def lines(shopping):
    return {line.what: (line.figures, line.unit) for line in shopping.lines}


STOCKS = {"ply": ply(), "cherry": cherry()}
RAIL = board("rail", "23 1/2", "5 3/4", "cherry", "13/16", "rail")


def test_everything_is_there():
    bands = (Band(Surface.EDGE, "tape", size("1/50"), size("21"), 1),)
    knob = board("drawer 1 front knob blank", "3", "1", "cherry", "1", "knob blank")
    boards = [board("a"), board("b", "22", bands=bands), RAIL, knob, *(tenon(f"t {n}") for n in range(10))]
    shopping = shop_for(*boards, stocks=STOCKS, paper=7, glue=inches(1).mm * inches("11 1/2").mm)
    assert lines(shopping) == {
        "ply": ("1", "sheet"),
        "cherry": ("1.23", "board feet"),
        "tape": ("1.75", "feet"),
        "loose tenon strip": ("1.04", "feet"),
        "glue": ("12", "square inches"),
        "knob blanks": ("1", "pieces"),
        "paper": ("7", "sheets"),
    }
    assert shopping.total is None
    assert shopping.findings == ()


def test_paper_is_called_by_its_title():
    plan = replace(make_plan(board("a")), paper="a4")
    said = {line.what: line.remark for line in shopping_list(plan, cutting_list(plan), (), (), 12).lines}
    assert said["paper"] == "A4, for the packet"
    assert "paper" not in {line.what for line in shop_for(board("a"), paper=0).lines}


def test_metric_units():
    shopping = shop_for(*(tenon(f"t {n}", "30 mm", "12 mm", "4 mm") for n in range(10)), unit=Unit.MM, glue=100)
    assert lines(shopping)["loose tenon strip"] == ("0.37", "metres")
    assert lines(shopping)["glue"][1] == "square cm"


def test_costs_are_exact():
    prices = Prices("GBP", {"ply": Fraction("44.50"), "cherry": Fraction("12.35")})
    shopping = shop_for(board("a"), RAIL, stocks=STOCKS, on_hand=OnHand(prices=prices))
    costs = {line.what: line.cost for line in shopping.lines}
    assert costs["ply"] == Fraction(89, 2)
    assert costs["cherry"] == Fraction("12.35") * Fraction(6, 5)
    assert shopping.total == Fraction("59.32")
    assert shopping.is_whole
    assert shopping.money(shopping.total) == "59.32 GBP"
    assert shopping.money(Fraction(1, 2)) == "0.50 GBP"


def test_a_missing_price_is_said_and_the_total_is_at_least():
    shopping = shop_for(board("a"), RAIL, stocks=STOCKS, on_hand=OnHand(prices=Prices("", {"ply": Fraction(40)})))
    assert shopping.total == 40
    assert not shopping.is_whole
    assert [finding.sentence(str) for finding in shopping.findings] == ["The total leaves out cherry, for want of a price."]
    assert shopping.money(shopping.total) == "40.00"


def test_a_price_that_belongs_to_nothing_is_said():
    shopping = shop_for(board("a"), on_hand=OnHand(prices=Prices("", {"plly": Fraction(40), "ply": Fraction(1)})))
    (finding,) = shopping.findings
    assert finding.sentence(str) == "There is a price for plly, but nothing on the list is called that."
    assert finding.way_out(str) == "The nearest name is ply."


def test_a_price_may_go_by_the_jobs_own_key():
    stocks = {"p": ply("ply")}
    shopping = shop_for(board("a", stock="ply"), stocks=stocks, on_hand=OnHand(prices=Prices("", {"p": Fraction(3)})))
    assert shopping.total == 3
    assert shopping.findings == ()


def test_what_the_maker_makes_has_a_cost_only_where_it_has_a_price():
    prices = Prices("", {"loose tenon strip": Fraction(2), "ply": Fraction(1)})
    shopping = shop_for(board("a"), *(tenon(f"t {n}") for n in range(10)), on_hand=OnHand(prices=prices))
    strip = next(line for line in shopping.lines if line.what == "loose tenon strip")
    # 11 pieces of 1 1/8 in are 1.03125 ft: printed as 1.04, and paid for as printed, at 2 a foot.
    assert strip.amount == (11 * inches("1 1/8")) / inches(12)
    assert (strip.figures, strip.cost) == ("1.04", Fraction("2.08"))
    assert shopping.is_whole


def test_offcuts_that_do_it_all_need_no_sheet():
    on_hand = OnHand(sheets=(SheetOnHand("o", "ply", size("30"), size("20")),), prices=Prices("", {"ply": Fraction(9)}))
    shopping = shop_for(board("a"), on_hand=on_hand)
    line = shopping.lines[0]
    assert (line.figures, line.unit, line.remark) == ("0", "sheets", "1 piece on hand will do")
    assert shopping.total == 0
    assert shopping.is_whole


def test_offcuts_that_do_some_of_it_are_said_beside_the_sheets():
    held = SheetOnHand("o", "ply", size("30"), size("20"), count=2)
    boards = [board(f"a {n}", "30", "18") for n in range(3)]
    line = shop_for(*boards, on_hand=OnHand(sheets=(held,))).lines[0]
    assert (line.figures, line.unit, line.remark) == ("1", "sheet", "besides 2 pieces on hand")


def test_cubic_metres_have_three_places():
    # 600 by 150 mm with the rough allowances of 12 and 6 mm, of 32 mm stock, and a fifth for waste: 0.003667 cubic metres.
    oak = Solid("oak", size("32 mm"), size("26 mm"), "white oak")
    shopping = shop_for(board("a", "600 mm", "150 mm", "oak", "26 mm", "rail"), stocks={"oak": oak}, unit=Unit.MM)
    assert lines(shopping) == {"oak": ("0.004", "cubic metres")}
    assert shopping.lines[0].amount == Fraction(612 * 156 * 32 * 12, 10**10)


def knob(front, number, dot=None):
    return Pull(by_hand.part(front), number, *(size("1"),) * 5, None, size("1"), None if dot is None else size(dot))


def test_knobs_and_their_dots_are_counted():
    blanks = [board(f"drawer {n} front knob blank", "5", "1 1/4", "cherry", "1 1/4", "knob blank") for n in (1, 2)]
    knobs = tuple(knob(f"drawer {n} front", k, "1/8" if n == 1 else "3/16") for n in (1, 2) for k in (1, 2))
    plan = replace(make_plan(*blanks, stocks=STOCKS), knobs=knobs)
    parts = cutting_list(plan)
    said = {line.what: line for line in shopping_list(plan, parts, (), ()).lines}
    assert (said["knob blanks"].figures, said["inlaid dots"].figures) == ("2", "4")
    assert said["knob blanks"].remark == "for 4 knobs, two from one blank where a front has two; their wood is counted above"
    assert said["inlaid dots"].remark == "for the knobs, across: 2 of 1/8 in, 2 of 3/16 in"


def test_knobs_without_dots():
    plan = replace(
        make_plan(board("k", "5", "1", "cherry", "1", "knob blank"), stocks=STOCKS), knobs=(knob("drawer 1 front", 1),)
    )
    said = {line.what: line.remark for line in shopping_list(plan, cutting_list(plan), (), ()).lines}
    assert said == {"knob blanks": "for 1 knob; their wood is counted above"}


def test_metal_slides_are_priced_for_comparison():
    made = drawer()
    prices = Prices("GBP", {}, Fraction("24.90"))
    plan_of = {"stocks": {"half": ply("half"), "cherry": cherry(nominal="3/4", measured=None)}}
    shopping = shop_for(*made.assembly.boards, drawers=[made], on_hand=OnHand(prices=prices), **plan_of)
    assert shopping.slides is not None
    assert shopping.slides.cost == Fraction("24.90")
    assert shopping.slides.figures == "1"
    assert "for drawers up to 19 1/2 in long" in shopping.slides.remark
    assert shop_for(board("a")).slides is None


@given(
    st.lists(
        st.tuples(fractions(0, 50, max_denominator=97, of=Fraction), fractions(0, 80, max_denominator=100, of=Fraction)),
        min_size=1,
        max_size=9,
    )
)
def test_costs_add_up_as_they_are_printed(bought):
    lines = tuple(ShoppingLine("wood", amount, "board feet", price=price) for amount, price in bought)
    shopping = Shopping(lines, "", sum((line.cost or Fraction(0) for line in lines), Fraction(0)), True, None, ())
    assert sum(Fraction(shopping.money(line.cost or Fraction(0))) for line in lines) == Fraction(
        shopping.money(shopping.total or Fraction(0))
    )
    for line in lines:
        assert abs(Fraction(line.figures) * (line.price or 0) - (line.cost or 0)) <= Fraction(1, 200)
