"""Where each part is: large enough to be found at a glance, and smaller where that saves a sheet; every part with its sheets."""

import pytest

from joinlay.lengths import Fraction
from joinlay.pages.index_sheets import IndexLine, index_sheets
from joinlay.paper import paper_named
from joinlay.pen.marks import Text
from tests.measured.packets import example


def lines(many):
    return [IndexLine(n, f"drawer {n} front", (6, 12, 19)) for n in range(1, many + 1)]


def named(sheet):
    return {stroke.plain: stroke.content[0].height for stroke in sheet.body if isinstance(stroke, Text)}


@pytest.mark.parametrize(("many", "sheets", "high"), [(20, 1, Fraction(7, 2)), (85, 1, Fraction(5, 2)), (110, 2, Fraction(7, 2))])
def test_it_is_set_smaller_where_that_saves_a_sheet_and_only_there(many, sheets, high):
    made = index_sheets(example("print-chest"), lines(many), paper_named("letter"))
    assert len(made) == sheets
    found = {name: one for sheet in made for name, one in named(sheet).items()}
    assert {found[f"drawer {n} front"] for n in range(1, many + 1)} == {high}
    assert [link.to for sheet in made for link in sheet.links] == [6, 12, 19] * many


def test_what_is_left_to_what_comes_before_may_make_it_smaller():
    plan, paper = example("print-chest"), paper_named("letter")
    heights = [
        {named(sheet)["drawer 1 front"] for sheet in index_sheets(plan, lines(45), paper, begun=Fraction(begun))[:1]}
        for begun in (0, 120)
    ]
    assert heights == [{Fraction(7, 2)}, {Fraction(5, 2)}]
