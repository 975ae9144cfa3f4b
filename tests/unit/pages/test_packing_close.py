"""Packing close: every template once, fewer sheets, and the sheets in the order of the work."""

import pytest

from joinlay.documents.templates import plan_templates
from joinlay.pages import lay_out, paper_named
from joinlay.pages.packing_close import pack_close
from tests.measured.packets import example, examples


def laid(how, plan, templates):
    return how(templates, paper_named(plan.paper), title=plan.title, file=plan.file, unit=plan.rule.unit)


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
    firsts = [min(turn.index(one.template.title) for one in sheet.laid) for sheet in close]
    assert firsts == sorted(firsts)
    assert len(close) < len(laid(lay_out, plan, templates))
