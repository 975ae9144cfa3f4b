"""Packing close: every template once, fewer sheets, and the sheets in the order of the work."""

from dataclasses import replace

import pytest

from joinlay.documents.templates import plan_templates
from joinlay.lengths import Unit
from joinlay.pages import lay_out, paper_named
from joinlay.pages.packing_close import pack_close
from joinlay.pen.marks import Text
from joinlay.templates import templates_for
from tests.measured.packets import example, examples
from tests.unit.templates.parts import METRIC, board, end_mortise, side


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
