"""The packet: its chapters in the order of the work, numbered through, and everything that is measured from in them."""

from io import BytesIO

import pdfplumber
import pypdfium2
import pytest

from joinlay.boards import CutUse, PartKind
from joinlay.cutlist.cutting_list import cutting_list
from joinlay.documents.true_size import plan_templates
from tests.measured import packets
from tests.measured.collisions import collisions
from tests.measured.packets import drawers, example, examples, steps_of_work, template_sheets


@pytest.fixture(scope="module", params=examples())
def name(request):
    return request.param


@pytest.fixture(scope="module")
def plan(name):
    return example(name)


@pytest.fixture(scope="module")
def packet(name):
    return packets.packet(name)


def test_sheets_are_numbered_through(packet):
    assert [sheet.number for sheet in packet.sheets] == list(range(1, len(packet.sheets) + 1))
    assert {sheet.of for sheet in packet.sheets} == {len(packet.sheets)}
    assert packet.chapters[0].heading == "Cover"
    assert len(packet.chapters[0].sheets) == 1


def test_the_contents_lead_to_their_chapters(packet):
    cover = packet.sheets[0]
    assert [link.to for link in cover.links] == [chapter.sheets[0].number for chapter in packet.chapters[1:]]
    said = [stroke.plain for stroke in cover.strokes if hasattr(stroke, "plain")]
    for chapter in packet.chapters[1:]:
        first, last = chapter.sheets[0].number, chapter.sheets[-1].number
        assert (str(first) if first == last else f"{first} to {last}") in said


def test_the_index_leads_from_each_part_to_its_sheets(plan, packet):
    boards = {board.name for board in plan.boards}
    led = {link.to for sheet in packet.chapters[-1].sheets for link in sheet.links}
    assert led == {sheet.number for sheet in packet.sheets if sheet.parts & boards}
    assert len(led) > 5


def test_every_part_is_in_the_index_and_leads_somewhere(plan, packet):
    shown = {name for sheet in packet.sheets for name in sheet.parts}
    assert {board.name for board in plan.boards} <= shown
    rows = cutting_list(plan).rows
    said = [stroke.plain for sheet in packet.chapters[-1].sheets for stroke in sheet.strokes if hasattr(stroke, "plain")]
    links = [link for sheet in packet.chapters[-1].sheets for link in sheet.links]
    assert all(str(row.number) in said for row in rows)
    assert len(links) >= len(rows)


def test_the_paper_it_takes_is_among_what_to_have_ready(packet):
    lists = next(chapter for chapter in packet.chapters if chapter.heading.startswith("Cutting list"))
    said = [stroke.plain for sheet in lists.sheets for stroke in sheet.strokes if hasattr(stroke, "plain")]
    assert [str(len(packet.sheets)), "sheets", "paper"] in [said[n : n + 3] for n in range(len(said))]


def test_nothing_collides_on_the_cover_and_the_index(packet):
    for sheet in (packet.sheets[0], *packet.chapters[-1].sheets):
        assert collisions(sheet.strokes) == []


def test_the_pdf_has_chapters_and_links(packet):
    made = packet.pdf()
    document = pypdfium2.PdfDocument(made)
    outline = [(mark.get_title(), mark.level, mark.get_dest().get_index()) for mark in document.get_toc()]
    tops = [(title, page) for title, level, page in outline if level == 0]
    assert tops == [(chapter.heading, chapter.sheets[0].number - 1) for chapter in packet.chapters]
    with pdfplumber.open(BytesIO(made)) as pdf:
        assert len(pdf.pages[0].annots) == len(packet.chapters) - 1


def test_the_steps_are_those_of_the_work():
    steps = dict(steps_of_work(example("moth-cabinet")))
    assert list(steps) == ["case", "face frame", "runners", "drawers", "your own outlines"]
    assert plan_templates(example("moth-cabinet")) == tuple(t for templates in steps.values() for t in templates)
    assert {t.part.split(" ")[0] for t in steps["drawers"]} == {"drawer"}
    # In a solid case the bearers are screwed through slots, which want marking; in one of plywood they are glued.
    assert "runners" not in dict(steps_of_work(example("print-chest")))


def test_openings_alone_have_one_step():
    assert [step for step, _ in steps_of_work(drawers("4"))] == ["drawers"]


def bored_by_card(plan, board):
    """True for a bottom's screws under its back and a knob's dots: a card must then give each one's place, from two sides."""
    if board.role.kind not in (PartKind.DRAWER_BOTTOM, PartKind.KNOB_BLANK) or not board.cuts:
        return False
    works = [work for card in plan.settings.settings for work in card.works if board.name in work.boards]
    lines = [position.line for work in works for position in work.positions]
    assert len(lines) == len(board.cuts)
    assert None not in lines
    return all(cut.role.use.is_for_a_screw or cut.role.use is CutUse.DOT_HOLE for cut in board.cuts)


@pytest.mark.parametrize("name", ["moth-cabinet", "print-chest", "seed-cabinet"])
def test_every_part_with_cuts_that_want_marking_has_its_templates(name):
    plan = example(name)
    own = dict(steps_of_work(plan)).get("your own outlines", ())
    marked = {board for template in plan_templates(plan) if template not in own for board in template.marks}
    for board in plan.boards:
        if bored_by_card(plan, board):
            assert board.name not in marked
            continue
        near = [c for c in board.cuts if c.along.start.mm > 0 or c.along.stop < board.length]
        near = [c for c in near if min(c.along.start.mm, (board.length - c.along.stop).mm) <= 100]
        assert (board.name in marked) == bool(near), board.name


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize(("name", "most"), [("moth-cabinet", 12), ("print-chest", 22), ("seed-cabinet", 12)])
def test_a_whole_piece_takes_few_sheets(name, most, paper):
    assert len(template_sheets(example(name), paper)) <= most


def test_rails_that_are_alike_share_a_template():
    frame = dict(steps_of_work(example("moth-cabinet")))["face frame"]
    rails = [t for t in frame if "rail" in t.part]
    assert [(t.quantity, len(t.turned)) for t in rails] == [(2, 2), (7, 7)]
    assert [(t.end, t.turned_end) for t in rails] == [("left end", "right end")] * 2
