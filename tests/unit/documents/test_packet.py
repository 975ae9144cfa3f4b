"""The packet: chapters in the order of the work, numbered through, each thing on it leading to the right sheet."""

from io import BytesIO

import pdfplumber
import pypdfium2
import pytest

from joinlay.cutlist.cutting_list import cutting_list
from joinlay.documents.packet import packet_for
from tests.measured.collisions import collisions
from tests.measured.packets import example, examples


@pytest.fixture(scope="module", params=examples())
def plan(request):
    return example(request.param)


@pytest.fixture(scope="module")
def packet(plan):
    return packet_for(plan)


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
