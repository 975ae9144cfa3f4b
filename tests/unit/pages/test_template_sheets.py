"""Sheets: small templates share one, large ones are tiled, every sheet can be checked, and paper is saved where it can be."""

from dataclasses import replace
from fractions import Fraction

import pytest

from joinlay.errors import BadInput
from joinlay.lengths import Unit
from joinlay.pages import Printer, lay_out
from joinlay.pages.packing import Cutout, SheetStack
from joinlay.pages.printed_sheet import Laid
from joinlay.pages.template_sheets import pack_close
from joinlay.paper import PAPERS, Paper, paper_named
from joinlay.pen.marks import Line, Move, Polyline, Text, bounds_of
from joinlay.templates import templates_for
from joinlay.templates.fold_strips import fold_strips
from tests.measured.packets import drawers, example, examples, plan_templates, template_sheets
from tests.unit.templates.parts import METRIC, board, end_mortise, side

PAPER_NAMES = sorted(PAPERS)


def saying(sheet, said):
    return [stroke for stroke in sheet.strokes if getattr(stroke, "says", "") == said]


@pytest.mark.parametrize("paper", PAPER_NAMES)
def test_every_sheet_has_the_check_square_and_the_first_has_the_bars(paper):
    sheets = template_sheets(drawers("4 5/16", "2 1/2"), paper)
    for sheet in sheets:
        (outer,) = saying(sheet, "check square 4 in")
        assert isinstance(outer, Polyline)
        left, bottom, right, top = bounds_of((outer,))
        assert right - left == top - bottom == Fraction("101.6")
        inner = saying(sheet, "check square 100 mm")
        assert bounds_of(inner) == (left, bottom, left + 100, bottom + 100)
    assert [len(saying(sheet, "long bar")) for sheet in sheets] == [2] + [0] * (len(sheets) - 1)


@pytest.mark.parametrize(("paper", "across", "up"), [("a4", 190, 200), ("letter", 200, 200), ("a3", 200, 200)])
def test_long_bars_are_200_mm_where_the_paper_has_room(paper, across, up):
    level, upright = saying(template_sheets(drawers("4 5/16"), paper)[0], "long bar")
    assert level.end[0] - level.start[0] == across
    assert upright.end[1] - upright.start[1] == up
    assert saying(template_sheets(drawers("4 5/16"), paper)[0], "long bar 7 in")


@pytest.mark.parametrize("paper", PAPER_NAMES)
@pytest.mark.parametrize("height", ["2", "4 5/16", "9", "14"])
def test_nothing_is_drawn_outside_the_printable_area(paper, height):
    """But for the ends of dimension strokes and zigzags, which show 2 mm of themselves at most."""
    sheet_of = paper_named(paper)
    left, bottom, right, top = sheet_of.printable
    for sheet in template_sheets(drawers(height), paper):
        x0, y0, x1, y1 = bounds_of(sheet.strokes)
        assert x0 >= left - 2
        assert y0 >= bottom - 2
        assert x1 <= right + 2
        assert y1 <= top + 2


def test_every_template_is_laid_once_or_in_all_its_tiles():
    plan = drawers("14", "2 1/2")
    laid = [one for sheet in template_sheets(plan) for one in sheet.laid]
    for template in plan_templates(plan):
        mine = [one for one in laid if one.template is template or one.template == template]
        whole = [one for one in mine if not one.tile]
        if whole:
            assert len(mine) == 1
        else:
            assert sorted(one.tile for one in mine) == list(range(1, mine[0].tiles + 1))


def test_a_tall_part_is_one_sheet_where_the_paper_is_large_enough():
    sheets = template_sheets(drawers("14"), "a3")
    assert all(not one.tile for sheet in sheets for one in sheet.laid)


def test_the_foot_says_what_is_on_the_sheet():
    sheets = template_sheets(drawers("4 5/16"), "a4")
    for sheet in sheets:
        said = " ".join(stroke.plain for stroke in sheet.strokes if isinstance(stroke, Text))
        for words in (
            "Print at 100 %, no fit to page.",
            "Then measure this square.",
            "1:1",
            "map-chest.toml",
            "A4",
            "Chest for drawn maps",
        ):
            assert words in said
        assert f"{sheet.number} of {len(sheets)}" in said
        assert sheet.laid[0].title in said
        assert sheet.laid[0].title in sheet.title


def test_tiles_of_a_template_come_in_their_order():
    for name in ("legal", "letter", "a4"):
        order: dict[str, list[int]] = {}
        for sheet in template_sheets(drawers("14"), name):
            for one in sheet.laid:
                if one.tile:
                    order.setdefault(one.template.title, []).append(one.tile)
        assert order
        assert all(tiles == sorted(tiles) for tiles in order.values())


def test_a_first_sheet_with_no_room_beside_its_bars_says_what_it_is_for():
    # A mortise high up, so that no strip along the lower edge would do.
    tall = replace(side(), width=board(width=262).width, cuts=(end_mortise(1, 30), end_mortise(2, 240)))
    first, *rest = lay_out(templates_for([tall], METRIC), paper_named("a4"), title="", file="", unit=Unit.MM)
    assert [len(sheet.laid) for sheet in rest] == [1]
    assert first.laid == ()
    assert "none: measure the two long bars" in [stroke.plain for stroke in first.strokes if isinstance(stroke, Text)]


def test_many_parts_on_one_sheet_are_counted():
    plan = drawers("1 3/4", "1 7/8", "2", "2 1/8")
    sheets = laid(pack_close, replace(plan, paper="tabloid"), (*plan_templates(plan), *fold_strips(plan)))
    crowded = next(sheet for sheet in sheets if len(sheet.laid) > 4)
    said = [stroke.plain for stroke in crowded.strokes if isinstance(stroke, Text)]
    assert f"and {len(crowded.laid) - 3} more" in said


def test_a_correction_only_takes_room_away():
    printer = Printer(across=Fraction(102, 100), down=Fraction(1))
    sheets = template_sheets(drawers("4 5/16"), "letter", printer)
    assert {sheet.printer for sheet in sheets} == {printer}
    assert max(bounds_of(sheet.strokes)[2] for sheet in sheets) < paper_named("letter").width - 6


def test_paper_too_small_is_refused():
    tiny = Paper("card", "card", Fraction(100), Fraction(148))
    with pytest.raises(BadInput, match="too small"):
        lay_out((), tiny, title="", file="", unit=Unit.MM)
    with pytest.raises(BadInput, match="use A4 or letter"):
        lay_out(templates_for([side()], METRIC), tiny, title="", file="", unit=Unit.MM)


def test_nothing_to_lay_is_no_sheet():
    assert lay_out((), paper_named("a4"), title="", file="", unit=Unit.MM) == ()


def test_lines_of_a_laid_template_are_where_its_move_puts_them():
    for sheet in template_sheets(drawers("2 1/2"), "a4"):
        strokes = set(map(repr, (stroke for stroke in sheet.strokes if isinstance(stroke, Line))))
        for one in sheet.laid:
            for stroke in one.template.strokes:
                if isinstance(stroke, Line):
                    put = Line(one.move.point(stroke.start), one.move.point(stroke.end), stroke.role, stroke.says)
                    assert repr(put) in strokes


def test_templates_are_turned_only_where_that_saves_a_sheet():
    def whole(template):
        return Cutout(Laid(template, Move()), lambda: template.strokes, template.box)

    def desk_of(templates, *, is_close):
        desk = SheetStack(paper_named("a4"), Printer(), is_close=is_close)
        for template in templates:
            desk.put(whole(template))
        return desk

    saved = 0
    for heights in (("4", "4", "5"), ("3", "4", "5", "7"), ("2", "3", "4", "5", "6")):
        templates = plan_templates(drawers(*heights))
        plain, close = desk_of(templates, is_close=False), desk_of(templates, is_close=True)
        chosen = close if close.used < plain.used else plain
        saved += len(plain.sheets) - len(chosen.sheets)
        sheets = template_sheets(drawers(*heights), "a4")
        assert [[one.move for one in sheet.laid] for sheet in sheets] == [
            [one.move for one in each.laid] for each in chosen.sheets
        ]
    assert saved > 0


def laid(how, plan, templates):
    return how(templates, paper_named(plan.paper), title=plan.title, file=plan.file, unit=plan.rule.unit)


def words_of(sheet):
    return [stroke.plain for stroke in sheet.strokes if isinstance(stroke, Text)]


@pytest.mark.parametrize("name", examples())
def test_it_saves_paper_and_loses_nothing(name):
    plan = example(name)
    templates = plan_templates(plan)
    close, plain = laid(pack_close, plan, templates), laid(lay_out, plan, templates)
    assert len(close) <= len(plain)
    whole = [one.template.title for sheet in close for one in sheet.laid if one.tile in (0, 1)]
    assert sorted(whole) == sorted(template.title for template in templates)
    assert [sheet.number for sheet in close] == list(range(1, len(close) + 1))


def test_the_sheets_come_in_the_order_of_the_work():
    plan = example("print-chest")
    templates = plan_templates(plan)
    turn = [template.title for template in templates]
    close = laid(pack_close, plan, templates)
    assert any("between the long strokes" in said for said in words_of(close[0]))
    firsts = [min(turn.index(one.template.title) for one in sheet.laid) for sheet in close]
    assert firsts[1:] == sorted(firsts[1:])
    assert len(close) < len(laid(lay_out, plan, templates))


def test_a_first_sheet_with_nothing_but_its_bars_stays_the_first():
    tall = replace(side(), width=board(width=262).width, cuts=(end_mortise(1, 30), end_mortise(2, 240)))
    sheets = pack_close(templates_for([tall], METRIC), paper_named("a4"), title="", file="", unit=Unit.MM)
    assert [len(sheet.laid) for sheet in sheets] == [0, 1]
