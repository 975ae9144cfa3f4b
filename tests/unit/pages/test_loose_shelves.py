"""Loose shelves in the whole job's order and in the steps that put it together (SH-2, PT-2)."""

from functools import cache

from joinlay.assembly.steps import step_words, steps_of
from joinlay.boards import PartKind
from joinlay.cutlist.lists import all_lists
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from joinlay.pages.work_sheets import work_lines
from tests.measured.packets import example
from tests.published.test_mission_furniture import BOOKCASE


@cache
def bookcase():
    return plan(read_job(BOOKCASE + "[[bank]]\nrows = [{ loose = 3 }]\n", "bookcase.toml"))


def told(made):
    return [line.said for line in work_lines(made, all_lists(made), {})]


def test_loose_shelves_are_set_on_their_pins_when_all_is_finished():
    said = told(bookcase())
    assert said.index("Set the loose shelves on their pins") == said.index("Finish what shows, and wax what slides") + 1
    assert "Set the loose shelves on their pins" not in told(example("print-chest"))


def test_a_loose_shelf_no_longer_than_its_opening_goes_in_from_the_front():
    (step,) = (step for step in steps_of(bookcase().order) if step.moves[0].moving[0].kind is PartKind.LOOSE_SHELF)
    assert step_words(step) == "Set the open bay 1 loose shelves 1 to 3 on their pins, from the front."


def test_one_that_is_longer_goes_in_from_behind_or_last_of_all():
    wide = BOOKCASE.replace('stile = "3/4"', 'stile = "1 1/2"')
    made = plan(read_job(wide + "[[bank]]\nrows = [{ loose = 1 }]\n", "bookcase.toml"))
    (step,) = (step for step in steps_of(made.order) if step.moves[0].moving[0].kind is PartKind.LOOSE_SHELF)
    assert step_words(step).endswith(" on its pins, from behind, or last of all from the front, where found to go in tilted.")
