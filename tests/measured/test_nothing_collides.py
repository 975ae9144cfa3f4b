"""No word on any sheet lies on a line, a fill or another word."""

from dataclasses import replace
from itertools import product

import pytest

from joinlay.findings import Finding, Harm
from joinlay.lengths import Fraction, Unit
from joinlay.pen.lettering import words
from joinlay.pen.marks import Fill, Line, Role, Text
from tests.measured.collisions import collisions
from tests.measured.packets import MAKES, drawers, example, examples, template_sheets
from tests.unit.templates.reading import exact


def wrong_on(plan, paper):
    return [(sheet.number, *found) for sheet in template_sheets(plan, paper) for found in collisions(sheet.strokes)]


@pytest.mark.parametrize("paper", ["letter", "a4", "legal"])
@pytest.mark.parametrize("name", examples())
def test_the_examples(name, paper):
    assert wrong_on(example(name), paper) == []


HEIGHTS = ("2", "2 1/2", "3 1/8", "4 5/16", "6", "8", "11", "14")


@pytest.mark.parametrize(("height", "make"), list(product(HEIGHTS, MAKES)))
def test_drawers_in_inches_from_the_smallest_to_the_largest(height, make):
    for paper in ("letter", "a4"):
        assert wrong_on(drawers(height, make=make), paper) == []


@pytest.mark.parametrize("height", ["45", "75", "110", "163.5", "240", "350"])
def test_drawers_in_millimetres(height):
    for make in MAKES:
        assert wrong_on(drawers(height, unit=Unit.MM, paper="a4", make=make), "a4") == []


@pytest.mark.parametrize("make", MAKES)
@pytest.mark.parametrize("height", ["2 1/2", "4 5/16", "11"])
def test_what_was_found_beside_every_part(height, make):
    plan = drawers(height, make=make)
    clash = Finding("clash", Harm.WARN, "", "Near.", mark="only 1/8 in between the left mortise 2 and the groove")
    thin = Finding("thin wood", Harm.WARN, "", "Thin.", mark="only 1/16 in behind the groove")
    names = tuple(board.name for board in plan.boards)
    told = replace(plan, findings=tuple(replace(finding, parts=names) for finding in (clash, thin)))
    assert wrong_on(told, "letter") == []
    words = " ".join(
        stroke.plain for sheet in template_sheets(told, "letter") for stroke in sheet.strokes if isinstance(stroke, Text)
    )
    # Left and right share a template, so that few are left of some corners.
    assert words.count("finding 1:") == words.count("finding 2:") >= 3


def test_many_drawers_alike():
    assert wrong_on(drawers("3", "3", "3", "4", "5", "5", "6", "7", "7", "8", "8"), "letter") == []


def test_a_collision_is_found():
    text = Text(exact(0, 0), words("front", 5))
    through, corner = Line(exact(-5, 2), exact(50, 2), Role.CUT), Line(exact(-1, 1), exact(1, 8), Role.HATCH)
    for stroke in (through, corner):
        assert collisions([text, stroke]) == [("front", stroke)]
    assert collisions([text, Line(exact(-5, 9), exact(50, 9), Role.CUT)]) == []
    assert collisions([text, Text(exact(5, 1), words("back", 5))]) == [("front", "back")]
    corners = (exact(-5, -5), exact(60, -5), exact(60, 20), exact(-5, 20))
    black, grey = Fill(corners, Fraction(1)), Fill(corners, Fraction(1, 8))
    assert collisions([text, black]) == [("front", black)]
    assert collisions([text, grey]) == []
