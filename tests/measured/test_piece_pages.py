"""The pages that show the piece: nothing on them collides, and what is measured on paper is the wood at the scale they say."""

import re
from functools import cache
from itertools import cycle

import pytest

from joinlay.documents.pdf import sheets_pdf
from joinlay.pages.part_sheets import parts_sheets
from joinlay.pages.piece_sheets import piece_sheets
from joinlay.paper import paper_named
from tests.measured.collisions import collisions
from tests.measured.odd_pieces import ODD, odd
from tests.measured.packets import drawers, example, examples, piece, pieces
from tests.measured.reading import strokes_of, words_of

PAPERS = ("letter", "a4")


@cache
def odd_sheets(name, paper):
    return piece_sheets(odd(name), paper_named(paper))


def wrong_on(sheets):
    return [(sheet.title, *found) for sheet in sheets for found in collisions(sheet.strokes)]


def test_whole_pieces_are_known_by_where_their_jobs_lie():
    assert [name for name in examples() if example(name).others] == pieces()
    assert all(odd(name).others for name in ODD)


@pytest.mark.parametrize(("name", "paper"), list(zip(ODD, cycle(PAPERS), strict=False)))
def test_nothing_collides_in_odd_pieces(name, paper):
    """One after the other on the two papers in turn: no kind of sheet is drawn for one alone. Those of the examples are looked at
    on both, with their whole packets (``test_whole_packets``).
    """
    assert wrong_on(odd_sheets(name, paper)) == []
    assert wrong_on(parts_sheets(odd(name), paper_named(paper))) == []


@pytest.mark.parametrize(("name", "paper"), [("seed-cabinet", "120 x 160 mm"), ("moth-cabinet", "a3")])
def test_nothing_collides_on_small_and_large_paper(name, paper):
    assert wrong_on(piece(name, paper)) == []


def test_nothing_collides_where_only_openings_are_given():
    for plan in (drawers("2"), drawers("3", "4", "8"), drawers(*["2 1/2"] * 12)):
        assert wrong_on(piece_sheets(plan, paper_named("letter"))) == []


def test_every_stroke_stays_on_the_paper():
    for name, paper in zip(ODD, cycle(PAPERS), strict=False):
        sheets = odd_sheets(name, paper)
        left, bottom, right, top = paper_named(paper).printable
        for sheet in sheets:
            x0, y0, x1, y1 = sheet.laid[0].template.box
            assert left <= x0
            assert bottom <= y0
            assert x1 <= right
            assert y1 <= top


def test_the_front_measured_on_paper_is_the_front_at_its_scale():
    plan = example("moth-cabinet")
    pdf = sheets_pdf(piece("moth-cabinet", "a4"), title=plan.title)
    (scale,) = re.findall(r"\b1:(\d+)\b", words_of(pdf, 0))
    level = sorted({round(abs(x1 - x0), 3) for x0, y0, x1, y1 in strokes_of(pdf, 0) if abs(y0 - y1) < 0.001})
    for board in (drawer.board("front") for drawer in plan.drawers):
        assert any(abs(long - float(board.length.mm / int(scale))) < 0.001 for long in level)
    upright = sorted({round(abs(y1 - y0), 3) for x0, y0, x1, y1 in strokes_of(pdf, 0) if abs(x0 - x1) < 0.001})
    for board in (drawer.board("front") for drawer in plan.drawers):
        assert any(abs(high - float(board.width.mm / int(scale))) < 0.001 for high in upright)
