"""Sheets of the piece and of its parts: every part once, at one scale, under its own number."""

from dataclasses import replace
from fractions import Fraction

import pytest

from joinlay.cutlist.cutting_list import cutting_list
from joinlay.pages.part_sheets import parts_sheets
from joinlay.pages.piece_sheets import piece_sheets
from joinlay.pages.plain_sheet import PlainFoot
from joinlay.pages.printer import Printer
from joinlay.paper import paper_named
from joinlay.pen.marks import Fill, Text
from tests.measured.odd_pieces import odd
from tests.measured.packets import drawers, example, examples


def scale_of(sheet):
    """The scale the foot says."""
    assert isinstance(sheet.foot, PlainFoot)
    assert sheet.foot.scale in [stroke.plain for stroke in sheet.foot.strokes(1, 1) if isinstance(stroke, Text)]
    return sheet.foot.scale


def said(sheet):
    return [stroke.plain for stroke in sheet.body if isinstance(stroke, Text)]


@pytest.mark.parametrize("name", examples())
def test_every_row_of_the_cutting_list_has_a_picture(name):
    plan = example(name)
    sheets = parts_sheets(plan, paper_named("a4"))
    words = [word for sheet in sheets for word in said(sheet)]
    rows = cutting_list(plan).rows
    for row in rows:
        assert f"{row.number}   {row.quantity} ×" in words
    bars = [stroke for sheet in sheets for stroke in sheet.body if isinstance(stroke, Fill)]
    assert len(bars) == len(rows)


def test_all_parts_have_the_scale_the_foot_says():
    plan = example("moth-cabinet")
    sheets = parts_sheets(plan, paper_named("a4"))
    assert {scale_of(sheet) for sheet in sheets} == {"1:10"}
    longs = sorted(
        max(x for x, _ in s.points) - min(x for x, _ in s.points) for sheet in sheets for s in sheet.body if isinstance(s, Fill)
    )
    assert longs == sorted(row.board.length.mm / 10 for row in cutting_list(plan).rows)


def test_views_of_one_scale_share_a_sheet_where_there_is_room():
    titles = [sheet.title for sheet in piece_sheets(odd("one drawer"), paper_named("a4"))]
    assert any("vertical section" in title and "from above" in title for title in titles) or any(
        "front elevation" in title and "vertical section" in title for title in titles
    )


def test_sheets_are_numbered_through():
    sheets = piece_sheets(example("moth-cabinet"), paper_named("a4"))
    assert [sheet.number for sheet in sheets] == [1, 2, 3, 4]
    assert [scale_of(sheet) for sheet in sheets] == ["1:5", "1:5", "1:5", "2:1"]


def test_a_plan_of_nothing_has_no_sheets():
    for plan in (drawers(), odd("a cabinet of 60 mm")):
        assert not plan.boards
        assert piece_sheets(plan, paper_named("a4")) == ()
        assert parts_sheets(plan, paper_named("a4")) == ()


def test_a_case_whose_drawers_were_all_refused_still_has_its_front():
    plan = replace(example("moth-cabinet"), drawers=())
    assert [sheet.title for sheet in piece_sheets(plan, paper_named("a4"))] == ["the piece, front elevation"]


def test_a_printer_that_prints_short_leaves_less_room():
    printer = Printer(across=Fraction(102, 100), down=Fraction(102, 100))
    plan = example("moth-cabinet")
    left, bottom, right, top = printer.room(paper_named("a4"))
    for sheet in (
        *piece_sheets(plan, paper_named("a4"), printer=printer),
        *parts_sheets(plan, paper_named("a4"), printer=printer),
    ):
        x0, y0, x1, y1 = sheet.laid[0].template.box
        assert left <= x0
        assert bottom <= y0
        assert x1 <= right
        assert y1 <= top
