"""The cutting list and sheet layouts on paper: nothing missing, nothing off the page, no word on another."""

from fractions import Fraction

import pytest

from joinlay.cutlist.lists import all_lists
from joinlay.drawings.marks import Fill, Line, Text, bounds_of, text_box
from joinlay.jobs.on_hand import BoardOnHand, OnHand, Prices, Sawing
from joinlay.pages import PAPERS
from joinlay.pages.cutting_list import cutting_list_sheets
from joinlay.pages.plain_sheet import Block, flow
from joinlay.pages.sheet import bind
from joinlay.pages.sheet_layout import layout_sheets
from tests.unit.cutlist.bench import board, cherry, make_plan, ply, size, tenon

A4, LETTER = PAPERS["a4"], PAPERS["letter"]


def big_plan(**more):
    stocks = {"ply": ply(), "cherry": cherry()}
    boards = [board(f"drawer {n} {hand} side", "19 1/2", f"4 {n}/16") for n in range(1, 31) for hand in ("left", "right")]
    boards += [board(f"rail {n}", "30", "2", "cherry", "13/16", "rail") for n in range(6)] + [tenon(f"t {n}") for n in range(40)]
    return make_plan(*boards, stocks=stocks, **more)


def texts(sheet):
    return [stroke for stroke in sheet.strokes if isinstance(stroke, Text)]


def said(sheets):
    return [text.plain for sheet in sheets for text in texts(sheet)]


def overlaps(one, other):
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


@pytest.mark.parametrize("paper", [A4, LETTER])
def test_every_part_is_in_the_list_with_its_sizes(paper):
    plan = big_plan()
    sheets = cutting_list_sheets(plan, all_lists(plan), paper)
    words = " ".join(said(sheets))
    for row in all_lists(plan).parts.rows:
        assert row.where.split(",")[0] in words
        assert f"{row.quantity} ×" in words
    # Rough, for the cherry: 30 1/2 by 2 1/4.
    assert "30 1/2" in words
    assert "2 1/4" in words
    assert "what to buy and have ready" in words


@pytest.mark.parametrize("paper", [A4, LETTER])
def test_nothing_lies_off_the_page_or_on_another_word(paper):
    plan = big_plan(on_hand=OnHand(boards=(BoardOnHand("b", "cherry", size("8 ft"), size("7")),)))
    lists = all_lists(plan, paper=9)
    for sheet in (*cutting_list_sheets(plan, lists, paper), *layout_sheets(plan, lists, paper)):
        left, bottom, right, top = bounds_of(sheet.strokes)
        low_x, low_y, high_x, high_y = paper.printable
        assert low_x <= left
        assert low_y <= bottom
        assert right <= high_x
        assert top <= high_y
        # Numbers of cuts stand on white spots of their own and may touch where a corner is crowded.
        boxes = [text_box(text) for text in texts(sheet)]
        spots = [bounds_of((stroke,)) for stroke in sheet.strokes if isinstance(stroke, Fill) and stroke.ink == 0]
        plain = [box for box in boxes if not any(overlaps(box, spot) for spot in spots)]
        clashes = [(a, b) for n, a in enumerate(plain) for b in plain[n + 1 :] if overlaps(a, b)]
        assert not clashes


def test_sheets_are_numbered_within_the_packet():
    plan = big_plan()
    sheets = cutting_list_sheets(plan, all_lists(plan), A4)
    assert len(sheets) > 1
    assert [sheet.number for sheet in sheets] == list(range(1, len(sheets) + 1))
    bound = bind([*sheets, *sheets])
    assert [sheet.number for sheet in bound] == list(range(1, 2 * len(sheets) + 1))
    assert f"{len(sheets) + 1} of {2 * len(sheets)}" in said(bound[len(sheets) :][:1])
    assert [sheet.title for sheet in sheets[:2]] == ["cutting list, page 1", "cutting list, page 2"]
    assert "not to scale" in said(sheets[:1])


def test_costs_and_slides_are_shown():
    prices = Prices("GBP", {"ply": Fraction(40)})
    plan = big_plan(on_hand=OnHand(prices=prices))
    words = said(cutting_list_sheets(plan, all_lists(plan), A4))
    assert "80.00 GBP" in words
    assert "in all, without what has no price" in words


def test_a_layout_page_for_each_sheet_with_parts_cuts_and_offcuts():
    plan = big_plan()
    lists = all_lists(plan)
    sheets = layout_sheets(plan, lists, A4)
    (layout,) = lists.sheets
    words = said(sheets)
    for cut_sheet in layout.sheets:
        for laid in cut_sheet.pieces:
            assert any(laid.piece.name in word for word in words)
    numbers = [word for word in words if word.isdigit()]
    for cut in layout.sheets[0].cuts:
        assert numbers.count(str(cut.number)) >= 2  # on the drawing and in the list
    assert any(word.startswith("Keep what is left: ") for word in words)
    assert any(word.startswith("2 whole sheets; no layout takes fewer than 2.") for word in words)


def test_a_layout_is_drawn_in_proportion():
    plan = make_plan(board("a", "48", "24"), practice={"edge trim": size("0")}, on_hand=OnHand(sawing=Sawing()))
    (sheet,) = layout_sheets(plan, all_lists(plan), A4)
    part = bounds_of([next(stroke for stroke in sheet.strokes if isinstance(stroke, Fill) and 0 < stroke.ink < 1)])
    assert (part[2] - part[0]) == 2 * (part[3] - part[1])
    lines = [stroke for stroke in sheet.strokes if isinstance(stroke, Line)]
    assert any(line.start[1] == line.end[1] and line.start[1] > part[3] for line in lines)


def test_a_part_as_large_as_its_sheet():
    plan = make_plan(board("a", "96", "48"), practice={"edge trim": size("0")})
    words = said(layout_sheets(plan, all_lists(plan), A4))
    assert "All of it is one part: no cut." in words


def test_an_empty_plan():
    plan = make_plan()
    assert len(cutting_list_sheets(plan, all_lists(plan), A4)) == 1
    assert layout_sheets(plan, all_lists(plan), A4) == ()


def block(height, leads=False):
    return Block((), Fraction(height), leads)


def test_flow_keeps_headings_with_what_they_head():
    pages = flow([block(5, True), block(40), block(5, True), block(3, True), block(40)], Fraction(60))
    assert [[each.height for each in page] for page in pages] == [[5, 40], [5, 3, 40]]


def test_flow_of_a_block_higher_than_the_page():
    pages = flow([block(5), block(90), block(5)], Fraction(60))
    assert [[each.height for each in page] for page in pages] == [[5], [90], [5]]
    assert flow([], Fraction(60)) == []
