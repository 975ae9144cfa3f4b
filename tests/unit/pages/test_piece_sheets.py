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
from joinlay.pen.marks import Arc, Fill, Line, Role, Text
from joinlay.pictures.balloons import RADIUS_OF_BALLOON
from tests.measured.odd_pieces import odd
from tests.measured.packets import drawers, example, examples, piece, pieces

PIECES = pieces()


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


def test_the_views_stand_on_one_sheet_in_projection():
    plan = example("moth-cabinet")
    sheets = piece("moth-cabinet", "a4")
    assert [sheet.number for sheet in sheets] == [1, 2, 3]
    general = sheets[0]
    assert all(view in general.title for view in ("front elevation", "vertical section", "seen from above"))
    over, under = (int(part) for part in scale_of(general).split(":"))

    def ends(name, axis):
        """From where to where the lines that bound a part go, in each view they are in: those that overlap are one view's."""
        lines = [s for s in general.body if isinstance(s, Line) and s.says == name and s.role is not Role.HIDDEN]
        stretches = sorted((min(s.start[axis], s.end[axis]), max(s.start[axis], s.end[axis])) for s in lines)
        found = [list(stretches[0])]
        for low, high in stretches[1:]:
            if low <= found[-1][1]:
                found[-1][1] = max(found[-1][1], high)
            else:
                found.append([low, high])
        return [tuple(one) for one in found]

    # A front is as high, on the same level, in the front and in the section beside it; as wide in the front and in the one over
    # it.
    fronts = [drawer.board("front") for drawer in plan.drawers]
    for front in fronts[1:]:
        (level,) = ends(front.name, 1)
        assert level[1] - level[0] == front.width.mm * over / under
        assert len(ends(front.name, 0)) == 2
    wide = ends(fronts[0].name, 0)
    assert wide[0][1] - wide[0][0] == fronts[0].length.mm * over / under
    assert len(ends(fronts[0].name, 1)) == 2


@pytest.mark.parametrize("name", PIECES)
def test_numbers_in_balloons_are_those_of_the_cutting_list(name):
    plan = example(name)
    rows = {row.number for row in cutting_list(plan).rows}
    told = set()
    for sheet in piece(name, "a4"):
        balloons = {s.centre: s for s in sheet.body if isinstance(s, Arc) and s.radius == RADIUS_OF_BALLOON}
        for text in (s for s in sheet.body if isinstance(s, Text)):
            if (text.anchor[0], text.anchor[1] + Fraction(5, 4)) in balloons:
                told.add(int(text.plain))
        if "details" not in sheet.title:
            assert balloons
            assert "those of the cutting list" in " ".join(said(sheet))
    assert told <= rows
    fronts = {row.number for row in cutting_list(plan).rows if row.board.part in ("drawer front", "stile", "drawer back")}
    assert fronts <= told
    # Every drawer is named, by its name or by its number.
    words = {word for sheet in piece(name, "a4")[:1] for word in said(sheet)}
    assert all(drawer.name in words or str(drawer.role.number) in words for drawer in plan.drawers)


@pytest.mark.parametrize("name", PIECES)
def test_a_section_parallel_to_the_front_cuts_bearers_guides_and_sides_and_has_the_circles_of_d_and_e(name):
    plan = example(name)
    (sheet,) = [one for one in piece(name, "a4") if "parallel to the front" in one.title]
    cut = {s.says for s in sheet.body if isinstance(s, Line) and s.role is Role.OUTLINE}
    hands = ("left", "right")
    # Over a dust panel a drawer has no bearer, and by a partition no guide: all there are, are cut.
    runners = {board.name for board in plan.boards if board.part in ("bearer", "guide")}
    assert {name.split()[-1] for name in runners} == {"bearer", "guide"}
    assert runners <= cut
    assert {f"{drawer.name} {hand} side" for drawer in plan.drawers for hand in hands} <= cut
    assert {board.name for board in plan.boards if board.part == "kicker"} <= cut
    circles = {s.says for one in piece(name, "a4") for s in one.body if isinstance(s, Arc)}
    # In the views themselves, whichever sheet they share with the details.
    views = [laid.template for one in piece(name, "a4") for laid in one.laid if laid.template.title != "the piece, details"]
    letters = {stroke.plain for view in views for stroke in view.strokes if isinstance(stroke, Text)}
    assert {f"detail {letter}" for letter in "ABCDE"} <= circles
    assert set("ABCDE") <= letters


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
