"""The packet as it is printed unless told: what it leaves out, that it says so, and that every cut is still marked from some
paper.
"""

import re
from dataclasses import replace
from typing import Any

import pytest

from joinlay.boards import PartKind
from joinlay.boards.extent import outer_corners
from joinlay.cli.starter import starter_job
from joinlay.documents.lean_templates import marked_elsewhere, not_on_sticks
from joinlay.documents.true_size import steps_of_work
from joinlay.documents.wanted_sheets import CHAPTERS, EVERYTHING, LEAN, Wanted, chapters_called
from joinlay.errors import BadInput
from joinlay.jobs.planning import plan as planned
from joinlay.jobs.reader import read_job
from joinlay.lengths import Unit
from joinlay.pages.title_block import TemplateFoot
from joinlay.pen.marks import Text
from joinlay.templates.drilling import pull_templates, runner_templates, stop_templates
from joinlay.templates.fold_strips import fold_strips, grooves_on_strips
from joinlay.templates.story.story_sticks import cuts_on_sticks, sticks_of, story_sticks
from tests.measured import packets
from tests.measured.packets import example, lean_ends, packet_of, plan_templates
from tests.unit.documents.odd_jobs import BOX, TWO_BANKS
from tests.unit.documents.test_packet import bored_by_card

PIECES = ("moth-cabinet", "print-chest", "seed-cabinet")


def lean(name):
    return packets.packet(name, wanted=LEAN)


def words_on(sheet):
    return " ".join(stroke.plain for stroke in sheet.strokes if isinstance(stroke, Text))


@pytest.mark.parametrize(("name", "most"), [("moth-cabinet", 25), ("print-chest", 25), ("seed-cabinet", 32)])
def test_it_takes_no_more_paper_than_it_did(name, most):
    # The chapter on putting it together came later, and keeps to three sheets of its own.
    together = [sheet for sheet in lean(name).sheets if sheet.section == "Putting it together"]
    assert 1 <= len(together) <= 3
    assert len(lean(name).sheets) - len(together) <= most
    assert len(packets.packet(name).sheets) >= len(lean(name).sheets) + 10


def test_a_drawer_for_one_small_opening_takes_eleven_sheets():
    """What ``start`` writes, for one opening of 9 x 4 1/2 x 7 in."""
    told = starter_job(Unit.INCH)
    first, second = [at.start() for at in re.finditer(r"^\[\[drawer\]\]", told, re.MULTILINE)]
    size = re.sub(r"opening = \{.*?\}", 'opening = { width = "9", height = "4 1/2", depth = "7" }', told[first:second])
    size = re.sub(r"count = 2 ", "count = 1 ", size)
    plan = planned(read_job(told[:first] + size, "small.toml"))
    assert len(plan.drawers) == 1
    assert len(packet_of(plan, wanted=LEAN).sheets) <= 11


@pytest.mark.parametrize(("job", "most"), [(BOX, 15), (TWO_BANKS, 39)], ids=["box", "two banks"])
def test_a_small_piece_and_a_large_one_take_no_more_paper_than_they_did(job, most):
    bound = packet_of(planned(read_job(job, "odd.toml")), wanted=LEAN)
    assert len(bound.sheets) <= most
    assert job is BOX or at_true_size(bound) <= 16


def at_true_size(bound):
    """How many of its sheets are measured from."""
    return sum(isinstance(sheet.foot, TemplateFoot) for sheet in bound.sheets)


@pytest.mark.parametrize(
    ("name", "most"), [("moth-cabinet", 9), ("print-chest", 9), ("seed-cabinet", 13), ("fly-tying-chest", 9)]
)
def test_sticks_and_templates_take_no_more_paper_than_they_did(name, most):
    assert at_true_size(lean(name)) <= most


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_sticks_and_templates_of_a_box_take_three_sheets(paper):
    assert at_true_size(packet_of(replace(planned(read_job(BOX, "odd.toml")), paper=paper), wanted=LEAN)) <= 3


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_a_packet_of_few_sheets_has_no_index_on_a_sheet_of_its_own_and_says_so(paper):
    plan = replace(planned(read_job(BOX, "odd.toml")), paper=paper)
    bound = packet_of(plan, wanted=LEAN)
    *before, last = bound.chapters
    has_index = last.heading == "Where each part is"
    # Where it has one that is on the last sheet there is without it, under what ends there.
    assert not has_index or last.sheets == before[-1].sheets[-1:]
    assert ("a list of the sheets each part is on (--all)" in words_on(bound.sheets[0])) is not has_index
    assert "the sheets each part is on" not in words_on(lean("seed-cabinet").sheets[0])
    # Every part is found all the same.
    shown = {part for sheet in bound.sheets for part in sheet.parts}
    assert {board.name for board in plan.boards} <= shown


def test_what_is_packed_together_is_filed_under_both_chapters_and_led_to_from_each():
    bound = packets.packet("moth-cabinet", wanted=LEAN)
    sticks, templates = (next(c for c in bound.chapters if c.heading.startswith(word)) for word in ("Story", "Templates"))
    assert templates.sheets[0].number <= sticks.sheets[-1].number
    for chapter in (sticks, templates):
        for sheet in chapter.sheets:
            assert any(laid.chapter == chapter.heading for laid in sheet.laid)
    laid = [one for sheet in bound.sheets for one in sheet.laid if one.chapter in (sticks.heading, templates.heading)]
    assert {"story stick" in one.template.title for one in laid if one.chapter == sticks.heading} == {True}
    assert {"story stick" in one.template.title for one in laid if one.chapter == templates.heading} == {False}
    assert [sheet.number for sheet in bound.sheets] == list(range(1, len(bound.sheets) + 1))


@pytest.mark.parametrize("name", PIECES)
def test_the_cover_names_what_is_left_out_and_how_it_is_printed(name):
    left = {chapter.heading for chapter in packets.packet(name).chapters} - {chapter.heading for chapter in lean(name).chapters}
    assert left == {kind.heading for kind in CHAPTERS if not kind.is_lean}
    said = words_on(lean(name).sheets[0])
    assert f"joinlay make {name}.toml --all" in said
    assert all(f"--chapter {kind.word}" in said for kind in CHAPTERS if kind.heading in left)
    assert all(kind.left_out.lower() in said.lower() for kind in CHAPTERS if kind.left_out)
    assert "--chapter" not in words_on(packets.packet(name).sheets[0])


@pytest.mark.parametrize("name", PIECES)
def test_each_chapter_named_on_the_cover_can_be_had_by_itself(name):
    for word in ("parts", "gauges"):
        alone = packet_of(example(name), wanted=Wanted(chapters=(word,)))
        whole = next(c for c in packets.packet(name).chapters if c.heading == alone.chapters[0].heading)
        assert len(alone.chapters) == 1
        # What of another chapter shares its last sheet in the packet isn't there.
        own = [[laid.title for laid in sheet.laid if laid.chapter == whole.heading] for sheet in whole.sheets]
        assert [[laid.title for laid in sheet.laid] for sheet in alone.sheets] == own
        assert [sheet.number for sheet in alone.sheets] == list(range(1, len(whole.sheets) + 1))


def test_the_paper_of_the_whole_packet_stands_in_its_list_printed_alone():
    alone = packet_of(example("moth-cabinet"), wanted=Wanted(chapters=("list",)))
    said = [stroke.plain for sheet in alone.sheets for stroke in sheet.strokes if isinstance(stroke, Text)]
    many = str(len(lean("moth-cabinet").sheets))
    assert [many, "sheets", "paper"] in [said[n : n + 3] for n in range(len(said))]


@pytest.mark.parametrize("name", PIECES)
def test_a_cut_that_an_end_leaves_out_is_drawn_on_a_strip_or_a_drill_template(name):
    plan = example(name)
    papers = (*fold_strips(plan), *pull_templates(plan))
    left_out = {cut: said for cut, said in marked_elsewhere(plan).items() if cut not in cuts_on_sticks(plan)}
    assert len(left_out) >= len(plan.drawers)
    # A paper for several parts that are alike names the cuts of the first of them.
    assert {board for board, _ in left_out} <= {board for paper in papers for board in paper.marks}
    said = {stroke.says for paper in papers for stroke in paper.strokes if getattr(stroke, "says", "")}
    for paper in papers:
        for first in (paper.names[0], *paper.mates[:1]):
            cuts = {f"{board} {cut}" for board, cut in left_out if board == first}
            assert cuts & said


@pytest.mark.parametrize("name", PIECES)
def test_a_dado_that_an_end_leaves_out_is_on_the_stick_of_its_board_where_it_is_in_the_wood(name):
    plan = example(name)
    left_out = cuts_on_sticks(plan)
    assert {board for board, _ in left_out} >= {"case left side", "case right side"}
    boards = {board.name: board for board in plan.boards}
    for stick in sticks_of(plan):
        for called in set(stick.names) & {board for board, _ in left_out}:
            board = boards[called]
            for cut in board.cuts:
                if (board.name, cut.name) in left_out:
                    # The lower end of an upright is its reference end, and the stick's zero.
                    assert {cut.along.start.mm, cut.along.stop.mm} <= set(stick.places)
    # It is squared over right across; the sticks are named for every board that it is left out for.
    assert all(
        cut.across.stop == boards[board].width for board, name in left_out for cut in boards[board].cuts if cut.name == name
    )
    assert {board for board, _ in left_out} <= {board for one in story_sticks(plan) for board in one.marks}


@pytest.mark.parametrize("name", [*PIECES, "fly-tying-chest"])
def test_runners_and_stop_blocks_that_have_no_template_are_on_the_sticks_of_their_drawer(name):
    plan = example(name)
    papers = (*runner_templates(plan), *stop_templates(plan))
    assert list(not_on_sticks(plan, papers)) == []
    assert not any(paper.title in sheet.title for paper in papers for sheet in lean(name).sheets)
    looked_at = 0
    for drawer in plan.drawers:
        told = {
            measures: {
                at
                for stick in sticks_of(plan)
                if drawer.name in stick.names and stick.measures == measures
                for at in stick.places
            }
            for measures in ("widths", "depths")
        }
        for board in (one for one in plan.boards if one.role.drawer == drawer.role):
            # A piece is counted from the left edge and the face of its frame, as its sticks are.
            across, deep = ({corner[axis] for corner in outer_corners(board)} for axis in (0, 1))
            if board.role.kind in (PartKind.BEARER, PartKind.GUIDE, PartKind.STOP_BLOCK):
                assert across <= told["widths"]
                looked_at += 1
            if board.role.kind in (PartKind.BEARER, PartKind.STOP_BLOCK):
                assert deep <= told["depths"]
    assert looked_at >= 3 * len(plan.drawers)


@pytest.mark.parametrize("name", PIECES)
def test_every_cut_near_an_end_is_marked_from_an_end_or_elsewhere(name):
    plan = example(name)
    marked = {board for template in lean_ends(plan) for board in template.marks}
    for board in plan.boards:
        if bored_by_card(plan, board):
            continue
        near = [c for c in board.cuts if c.along.start.mm > 0 or c.along.stop < board.length]
        near = [c for c in near if min(c.along.start.mm, (board.length - c.along.stop).mm) <= 100]
        if any((board.name, cut.name) not in marked_elsewhere(plan) for cut in near):
            assert board.name in marked


@pytest.mark.parametrize("name", ["print-chest", "moth-cabinet"])
def test_an_end_that_was_drawn_with_everything_is_what_it_would_be_by_itself(name):
    plan = example(name)
    drawn: dict[Any, Any] = {}
    every = steps_of_work(plan, drawn=drawn)
    kept = steps_of_work(plan, marked_elsewhere(plan), drawn)
    assert kept == steps_of_work(plan, marked_elsewhere(plan))
    assert {id(template) for _, own in kept for template in own} & {id(template) for _, own in every for template in own}


def test_ends_that_differ_only_by_mortises_share_a_template_and_say_where_those_are():
    plan = example("print-chest")
    mortises = {cut: said for cut, said in marked_elsewhere(plan).items() if said.startswith("mortises")}
    fronts = [t for _, own in steps_of_work(plan, mortises) for t in own if "front, left and right end" in t.title]
    assert [(t.quantity, len(t.turned)) for t in fronts] == [(4, 4)]
    said = " ".join(stroke.plain for stroke in fronts[0].strokes if isinstance(stroke, Text))
    assert "mortises:" in said
    assert len([t for t in plan_templates(plan) if "front, left and right end" in t.title]) == 4
    # The strips mark their grooves too.
    assert not [t for t in lean_ends(plan) if "front, left and right end" in t.title]
    assert (
        {("drawer 1 front", "groove"), ("drawer 4 front", "groove")} <= grooves_on_strips(plan) <= marked_elsewhere(plan).keys()
    )


@pytest.mark.parametrize("name", PIECES)
def test_every_part_leads_somewhere(name):
    shown = {part for sheet in lean(name).sheets for part in sheet.parts}
    assert {board.name for board in example(name).boards} <= shown


def test_a_part_told_by_a_strip_alone_is_found_by_it():
    stile = lean("print-chest").sheets_for({"face frame left stile"})
    assert any("fold-over strip" in sheet.title for sheet in stile)


def test_chapters_come_in_the_order_of_the_work_each_once():
    assert chapters_called(["sticks", " Gauges ", "gauges"]) == ("gauges", "sticks")
    with pytest.raises(BadInput, match="--chapter: there is no chapter called 'stick'; near it: sticks"):
        chapters_called(["stick"])
    with pytest.raises(BadInput, match="there are piece, parts, findings"):
        chapters_called(["zzz"])


@pytest.mark.parametrize(("wanted", "begins"), [(LEAN, ""), (EVERYTHING, "all "), (Wanted(chapters=("findings",)), "part ")])
def test_sheets_that_are_numbered_otherwise_say_so_before_their_number(wanted, begins):
    bound = (
        packets.packet("moth-cabinet", wanted=wanted)
        if not wanted.chapters
        else packet_of(example("moth-cabinet"), wanted=wanted)
    )
    numbered = [
        re.findall(r"(?:all |part )?\d+ of \d+$", stroke.plain) for stroke in bound.sheets[-1].strokes if isinstance(stroke, Text)
    ]
    assert [f"{begins}{len(bound.sheets)} of {len(bound.sheets)}"] in numbered
    assert begins.strip() in words_on(bound.sheets[0])


def test_maker_and_date_stand_at_every_foot_and_change_no_mark():
    plain, named = example("moth-cabinet"), replace(example("moth-cabinet"), maker="Ada Fir", date="28 November 2026")
    bare, bound = (packet_of(plan, wanted=Wanted(chapters=("findings", "templates"))) for plan in (plain, named))
    assert {sheet.section for sheet in bound.sheets} == {"What was found", "Templates, strips and drilling"}
    assert all("made by Ada Fir, 28 November 2026" in words_on(sheet) for sheet in bound.sheets)
    assert not any("made by" in words_on(sheet) for sheet in bare.sheets)
    assert bound.mark == bare.mark
    held = bound.pdf(bound.sheets[:1])
    assert b"/Author (Ada Fir)" in held
    assert b"/Lang (en-GB)" in held
    assert b"/Author (joinlay)" in bare.pdf(bare.sheets[:1])
