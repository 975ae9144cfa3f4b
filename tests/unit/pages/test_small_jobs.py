"""What is read of a small job before its templates: little paper, every line led to, and nothing said twice or left out."""

from functools import cache

import pytest

from joinlay.cutlist.cutting_list import cutting_list
from joinlay.cutlist.lists import all_lists, with_paper
from joinlay.documents.wanted_sheets import LEAN, is_small
from joinlay.jobs.planning import plan as planned
from joinlay.jobs.reader import read_job
from joinlay.lengths import Fraction
from joinlay.pages.plain_sheet import PageBlock, flow
from joinlay.pages.shopping_rows import shopping_blocks
from joinlay.pages.work_sheets import work_lines
from joinlay.pen.marks import Arc, Polyline, Text, bounds_of
from joinlay.pictures.balloons import RADIUS_OF_BALLOON
from joinlay.pictures.details import RADIUS, details
from tests.measured.collisions import collisions
from tests.measured.packets import example, packet_of, pieces
from tests.unit.documents.odd_jobs import BOX


@cache
def box():
    return planned(read_job(BOX, "odd.toml"))


def said_on(strokes):
    return [stroke.plain for stroke in strokes if isinstance(stroke, Text)]


def test_all_that_is_read_before_the_templates_of_a_box_goes_on_a_cover_and_five_sheets():
    bound = packet_of(box(), wanted=LEAN)
    chapters = {chapter.heading: [sheet.number for sheet in chapter.sheets] for chapter in bound.chapters}
    assert chapters["Story sticks"][0] <= 7
    # What was found begins under the order of the work, the views under what was found.
    work, found, piece = (chapters[name] for name in ("The whole job, in order", "What was found", "The piece"))
    assert work == [2]
    assert found[0] == 2
    assert piece[0] == found[-1]
    assert list(chapters)[1:4] == ["The whole job, in order", "What was found", "The piece"]
    for sheet in bound.sheets[:6]:
        assert collisions(sheet.strokes) == []


def test_the_order_of_a_small_job_leads_to_every_sheet_in_fewer_lines_each_with_a_box():
    bound = packet_of(box(), wanted=LEAN)
    sheet = bound.sheets[1]
    own = next(laid.template.strokes for laid in sheet.laid if laid.chapter == "The whole job, in order")
    boxes = [stroke for stroke in own if isinstance(stroke, Polyline) and stroke.closed]
    lists = all_lists(box())
    at = dict.fromkeys(("piece", "findings", "list", "sawing", "sticks", "templates", "settings", "assembly"), ())
    short, whole = (work_lines(box(), lists, at, in_short=in_short) for in_short in (True, False))
    assert len(boxes) == len(short) < len(whole)
    words = " ".join(said_on(own))
    assert f"Glue-ups 1 to {len(box().glue_ups)}, in their order" in words
    assert all(layout.stock in words for layout in lists.layouts)
    assert str(len(box().settings.settings)) in words
    # Stages are the same, in the same order.
    assert list(dict.fromkeys(line.stage for line in short)) == list(dict.fromkeys(line.stage for line in whole))
    # Whatever it leads to, it takes as much room: its boxes keep clear of the lines between them.
    led = {link.to for link in sheet.links}
    for chapter in bound.chapters[2:]:
        assert {chapter.sheets[0].number} <= led
    assert max(led) == max(each.number for each in bound.chapters[-1].sheets)
    rows = sorted({stroke.start[1] for stroke in own if getattr(stroke, "role", None) and stroke.role.name == "ROW"})
    for one in boxes:
        _, low, _, high = bounds_of((one,))
        assert not any(low < row < high for row in rows)


def test_only_a_job_of_one_or_two_drawers_is_small():
    assert is_small(box())
    assert not any(is_small(example(name)) for name in pieces())


@pytest.mark.parametrize("name", pieces())
def test_close_details_have_the_numbers_of_the_list_in_a_third_of_the_width_and_say_their_gaps(name):
    plan = example(name)
    numbers = {board: row.number for row in cutting_list(plan).rows for board in row.names}
    by_role = {board.role: numbers[board.name] for board in plan.boards if board.name in numbers}
    named, close = details(plan, by_role), details(plan, by_role, are_close=True)
    assert len(named) == len(close) == 5
    for one, two in zip(named, close, strict=True):
        assert not two.unsaid
        left, _, right, _ = two.box
        assert left >= -32
        assert right <= 32
        assert collisions(two.strokes) == []
        balloons = [stroke for stroke in two.strokes if isinstance(stroke, Arc) and stroke.radius == RADIUS_OF_BALLOON]
        told = {by_role[role] for balloon in balloons if isinstance(balloon.of, tuple) for role in balloon.of}
        words = said_on(two.strokes)
        assert {str(number) for number in told} <= set(words)
        # No part is told of beside the same detail with names that is missing here.
        named_too = [stroke.of for stroke in one.strokes if isinstance(stroke, Text) and isinstance(stroke.of, tuple)]
        assert told >= {by_role[role] for roles in named_too for role in roles}
        gaps = [word for word in words if not word.isdigit()]
        assert len(gaps) == (two.title[0] in "ACDE")
        # A gap's words stand under the circle.
        assert all(stroke.anchor[1] < -RADIUS for stroke in two.strokes if isinstance(stroke, Text) and stroke.plain in gaps)


def test_at_the_head_of_a_page_what_stands_there_says_more():
    row, head = PageBlock((Text((Fraction(0), Fraction(0)), ()),), Fraction(10)), PageBlock((), Fraction(20), leads=True)
    short = PageBlock(row.strokes, Fraction(5), leads=True, at_head=head)
    # Elsewhere it is short; where it begins a page, and where it goes to the next with what it heads, it isn't.
    assert flow([row, short, row], Fraction(40)) == [[row, short, row]]
    assert flow([short, row], Fraction(40)) == [[head, row]]
    assert flow([row, short, row], Fraction(24)) == [[row], [head, row]]


@pytest.mark.parametrize("name", pieces())
@pytest.mark.parametrize("wide", [Fraction(2039, 10), Fraction(198)])
def test_everything_to_buy_is_said_with_a_box_in_one_column_or_two(name, wide):
    plan = example(name)
    shopping = with_paper(all_lists(plan), plan, 30).shopping
    blocks = list(shopping_blocks(plan, shopping, wide))
    strokes = [stroke for block in blocks for stroke in block.strokes]
    boxes = [stroke for stroke in strokes if isinstance(stroke, Polyline) and stroke.closed]
    assert len(boxes) == len(shopping.lines)
    words = " ".join(said_on(strokes))
    for line in shopping.lines:
        assert line.figures in words
        assert line.what in words
        assert all(word in words for word in line.remark.split())
    for block in blocks:
        assert collisions(block.strokes) == []
        if block.strokes and not block.leads:
            left, low, right, _ = bounds_of(block.strokes)
            assert left >= 0
            assert right <= wide
            assert -low <= block.height
    # Two columns take less than a row each.
    assert sum(block.height for block in blocks) < 8 * len(shopping.lines) + 30
