"""The templates of a whole piece, by steps of work."""

import pytest

from joinlay.documents.templates import plan_templates, steps_of_work, template_sheets
from tests.measured.packets import drawers, example


def test_the_steps_are_those_of_the_work():
    steps = dict(steps_of_work(example("moth-cabinet")))
    assert list(steps) == ["case", "face frame", "runners", "drawers", "your own outlines"]
    assert plan_templates(example("moth-cabinet")) == tuple(t for templates in steps.values() for t in templates)
    assert {t.part.split(" ")[0] for t in steps["drawers"]} == {"drawer"}
    # In a solid case the bearers are screwed through slots, which want marking; in one of plywood they are glued.
    assert "runners" not in dict(steps_of_work(example("print-chest")))


def test_openings_alone_have_one_step():
    assert [step for step, _ in steps_of_work(drawers("4"))] == ["drawers"]


@pytest.mark.parametrize("name", ["moth-cabinet", "print-chest", "seed-cabinet"])
def test_every_part_with_cuts_that_want_marking_has_its_templates(name):
    plan = example(name)
    own = dict(steps_of_work(plan)).get("your own outlines", ())
    marked = {board for template in plan_templates(plan) if template not in own for board in template.names}
    for board in plan.boards:
        near = [c for c in board.cuts if c.along.start.mm > 0 or c.along.stop < board.length]
        near = [c for c in near if min(c.along.start.mm, (board.length - c.along.stop).mm) <= 100]
        assert (board.name in marked) == bool(near), board.name


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize(("name", "most"), [("moth-cabinet", 12), ("print-chest", 22), ("seed-cabinet", 12)])
def test_a_whole_piece_takes_few_sheets(name, most, paper):
    assert len(template_sheets(example(name), paper)) <= most


def test_rails_that_are_alike_share_a_template():
    frame = dict(steps_of_work(example("moth-cabinet")))["face frame"]
    assert [t.quantity for t in frame if "rail" in t.part] == [2, 2, 7, 7]
