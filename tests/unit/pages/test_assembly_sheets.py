"""The chapter on putting it together: every step to tick, every diagonal, drawers of a kind once, on few sheets."""

from dataclasses import replace

import pytest

from joinlay.assembly.before_it_shuts import before_words
from joinlay.assembly.glue_words import clamps_words, cure_words, glue_up_words, slot_rows
from joinlay.assembly.squaring import squares_of
from joinlay.assembly.steps import step_words, steps_of
from joinlay.checks.fitting import fitting_order, fitting_words, fittings
from joinlay.checks.setting_down import anchor_words, beware_words, lifting_words
from joinlay.checks.weights import stocks_by_name
from joinlay.jobs.plan import Plan
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from joinlay.lengths import Fraction, Unit
from joinlay.pages.assembly_sheets import assembly_sheets, numbers_of
from joinlay.pages.plain_sheet import FOOT
from joinlay.paper import paper_named
from joinlay.pen.marks import Arc, Line, Polyline, Role, Text, bounds_of
from joinlay.shop import usual_shop
from tests.measured.collisions import collisions
from tests.measured.packets import example
from tests.unit.documents.odd_jobs import BOX

EXAMPLES = ("print-chest", "moth-cabinet", "seed-cabinet")


def words(sheets):
    return " ".join(stroke.plain for sheet in sheets for stroke in sheet.strokes if isinstance(stroke, Text))


@pytest.fixture(scope="module", params=EXAMPLES)
def made(request):
    planned = example(request.param)
    return planned, assembly_sheets(planned, paper_named("letter"))


def test_it_takes_few_sheets(made):
    _, sheets = made
    assert len(sheets) <= 3


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_a_box_of_one_drawer_is_told_on_two_sheets(paper):
    sheets = assembly_sheets(plan(read_job(BOX, "box.toml")), paper_named(paper))
    assert len(sheets) == 2
    assert [found for sheet in sheets for found in collisions(sheet.strokes)] == []


@pytest.mark.parametrize("begun", [100, 160, 200])
def test_where_it_begins_below_something_what_has_room_comes_first(begun):
    """Where the picture of the whole is too high for what is left of the sheet, the timetable goes before it."""
    first, *_ = assembly_sheets(plan(read_job(BOX, "box.toml")), paper_named("letter"), begun=Fraction(begun))
    room = first.printer.room(first.paper)
    reaches = room[3] - bounds_of(first.body)[1]
    assert 0.7 * (room[3] - room[1] - FOOT - begun) < reaches <= room[3] - room[1] - FOOT - begun


def test_every_step_is_there_with_a_box_to_tick(made):
    planned, sheets = made
    said = words(sheets)
    steps = steps_of(planned.order)
    assert [step.number for step in steps if f"{step.number} {step_words(step)}" not in said] == []
    boxes = [stroke for sheet in sheets for stroke in sheet.strokes if isinstance(stroke, Polyline) and stroke.closed]
    assert len(boxes) == len(steps) + 1 + len(fitting_order(planned.others, has_pulls=bool(planned.knobs)))


def test_every_diagonal_is_told(made):
    planned, sheets = made
    said = words(sheets)
    for square in squares_of(planned.drawers, planned.others):
        assert planned.rule.text(planned.rule.round(square.diagonal)) in said


def test_each_thing_has_its_picture(made):
    planned, sheets = made
    # A balloon for each number, of whole, case, frame and one drawer.
    assert sum(isinstance(stroke, Arc) for sheet in sheets for stroke in sheet.strokes) > 15
    served = {name for sheet in sheets for laid in sheet.laid for name in laid.serves}
    assert {board.name for board in planned.drawers[0].assembly.boards if board.place is not None} <= served


def test_of_drawers_that_are_alike_the_others_are_told_by_their_numbers(made):
    planned, sheets = made
    said = words(sheets)
    numbers = numbers_of(planned)
    for drawer in planned.drawers:
        assert f"{numbers[drawer.front.role]} front" in said
        assert f"{numbers[drawer.bottom.role]} bottom" in said
        assert all(
            f"{numbers[side.role]} {side.role.short}" in said or f"{numbers[side.role]} left and right" in said
            for side in drawer.sides
        )


def test_what_all_drawers_have_alike_is_numbered_once(made):
    planned, sheets = made
    numbers = numbers_of(planned)
    bottoms = {numbers[drawer.bottom.role] for drawer in planned.drawers}
    if len(bottoms) == 1:
        assert words(sheets).count(f"{bottoms.pop()} bottom") == 1


def test_each_glue_up_is_told_with_its_minutes_its_clamps_and_what_comes_before(made):
    planned, sheets = made
    said = words(sheets).lower()
    for one in planned.glue_ups:
        told = [glue_up_words(one, planned.shop.glue), cure_words(one, planned.shop.glue), *clamps_words(one, planned.rule)]
        told += before_words(one, planned.boards)
        assert [sentence for sentence in told if sentence.lower() not in said] == []
    assert all(what.lower() in said for row in slot_rows(planned.timetable) for what in row)


def test_fitting_finish_and_cautions_are_on_it(made):
    planned, sheets = made
    said = words(sheets)
    for one in fittings(planned.drawers, planned.shop.practice, planned.conditions):
        assert all(sentence in said for sentence in fitting_words(one, planned.rule))
    assert all(sentence in said for sentence in anchor_words(planned.conditions, planned.others))
    stocks = stocks_by_name(planned.stocks.values())
    assert all(sentence in said for sentence in lifting_words(planned.drawers, planned.others, stocks, planned.rule))
    assert all(sentence in said for _, sentence in beware_words(planned.conditions))


def test_openings_alone_are_put_together_too():
    sheets = assembly_sheets(example("seed-drawers"), paper_named("a4"))
    assert len(sheets) == 1
    assert "First dry" in words(sheets)


def test_a_plan_without_an_order_has_no_sheets():
    shop = usual_shop(Unit.MM)
    assert assembly_sheets(Plan("Empty", "empty.toml", Unit.MM, shop.rule, shop, {}, (), (), (), "a4"), paper_named("a4")) == ()
    planned = example("print-chest")
    assert assembly_sheets(replace(planned, order=replace(planned.order, stages=())), paper_named("a4")) == ()


def test_what_is_made_whole_stands_there_with_both_its_diagonals(made):
    """Each rectangle in its own shape, its diagonals from corner to corner (PT-5)."""
    planned, sheets = made
    drawn = {
        (abs(one.end[0] - one.start[0]), abs(one.end[1] - one.start[1]))
        for sheet in sheets
        for one in sheet.strokes
        if isinstance(one, Line) and one.role is Role.DIMENSION
    }
    wholes = [one for one in squares_of(planned.drawers, planned.others) if one.of == one.made_in]
    assert {one.of for one in wholes} >= {"case", "face frame", "drawer 1"}
    for one in wholes:
        if one.of in ("case", "face frame", "drawer 1"):
            assert any(wide * one.height.mm == high * one.width.mm for wide, high in drawn), one.of
