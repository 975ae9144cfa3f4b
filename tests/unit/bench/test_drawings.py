"""The drawings on the page: which there are follows from the plan, and what of it each shows."""

from __future__ import annotations

import json
import re
from functools import cache, partial
from html import unescape

import pytest

from joinlay.bench.drawings import DRAWINGS, drawing_of, views_of
from joinlay.errors import BadInput
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from tests.unit.bench.asking import JOB, Page, words_of

#: A piece with two banks, one of them parted in a row and open in another, a top and a base.
PIECE = """
title = "Sewing cabinet"
units = "mm"

[stock.maple]
kind = "solid"
species = "sugar maple"
nominal = 19
measured = 19

[stock.birch]
nominal = 12
measured = 12

[stock.thin]
nominal = 6
measured = "5.6"

[drawers]
front = "maple"
sides = "birch"
bottom = "thin"

[case]
width = 900
height = 500
depth = 420
sides = "maple"
back = "thin"

[frame]
stock = "maple"

[runners]
stock = "maple"

[top]
stock = "maple"

[base]
stock = "maple"
height = 80

[[bank]]
rows = [2, 1]

[[bank]]
rows = [1, "open"]
"""


def planned(text):
    return plan(read_job(text, "job.toml"))


@pytest.fixture(scope="module")
def piece():
    return planned(PIECE)


@pytest.fixture(scope="module")
def drawn(piece):
    """A drawing of the piece by its key, made once."""
    return cache(partial(drawing_of, piece))


def parts_in(html):
    return {name for told in re.findall(r'data-part="([^"]+)"', html) for name in json.loads(unescape(told))}


def test_every_drawing_that_is_offered_shows_something_of_it(piece, drawn):
    assert [key for key, _ in views_of(piece)] == list(DRAWINGS)
    for key, _ in views_of(piece):
        assert "<svg" in drawn(key), key


def test_rows_bays_top_and_base_are_in_the_drawings(piece, drawn):
    front = parts_in(drawn("front"))
    names = {board.name for board in piece.boards}
    assert {"drawer 1 front", "drawer 2 front", "drawer 4 front"} <= front
    assert {name for name in names if name.startswith(("top", "base"))} & front
    assert drawn("section").count("<svg") == 2
    assert {name for name in names if "top" in name} & parts_in(drawn("apart"))


def test_drawers_for_openings_alone_have_no_piece_to_take_apart():
    assert {"across", "apart"}.isdisjoint(dict(views_of(planned(JOB))))
    assert [key for key, _ in views_of(None)] == ["front"]


def test_a_case_of_open_bays_has_no_charts_of_drawers():
    bare = planned(re.sub(r"(?s)\[\[bank\]\].*", '[[bank]]\nrows = ["open", "open"]\n', PIECE))
    assert not bare.drawers
    assert {"charts", "details", "plan"}.isdisjoint(dict(views_of(bare)))
    for key, _ in views_of(bare):
        assert "<svg" in drawing_of(bare, key), key


def test_what_was_looked_at_and_is_gone_gives_way_to_the_front(tmp_path):
    page = Page(tmp_path / "sewing.toml", PIECE)
    shown = page.write(PIECE.replace("width = 900", "width = 910"), view="apart")
    assert 'hx-get="/drawing/apart" aria-current="true"' in shown
    shown = page.write(JOB, view="apart")
    assert "/drawing/apart" not in shown
    assert 'hx-get="/drawing/front" aria-current="true"' in shown


def test_a_chart_is_to_no_scale_and_moves_with_its_figures(piece, drawn):
    charts = drawn("charts")
    assert "1:1" not in charts
    assert 'class="scale"' not in charts
    assert 'class="scale"' in drawn("front")
    looser = planned(PIECE.replace("[drawers]", "[drawers]\nside-clearance = 2"))
    assert drawing_of(looser, "charts") != charts


def test_a_drawing_has_words_for_those_who_cannot_see_it(piece, drawn):
    for key, _ in views_of(piece):
        html = drawn(key)
        for titled, told in re.findall(r'aria-labelledby="([^" ]+) ([^" ]+)"', html):
            assert re.search(rf'<title id="{titled}">[^<]+</title><desc id="{told}">[^<]*</desc>', html)
        if key in ("front", "section", "plan"):
            said = words_of(html)
            assert "Parts seen:" in said
            assert "drawer 1" in said[said.index("Parts seen:") :]


def test_boards_on_hand_are_drawn_with_the_sheets():
    made = planned(PIECE + '\n[[board]]\nstock = "maple"\nlength = 2400\nwidth = 200\n')
    assert "maple, board 1 of 1" in words_of(drawing_of(made, "layouts")).casefold()


def test_a_drawing_that_is_not_there_is_told_with_the_nearest(piece):
    with pytest.raises(BadInput, match="the nearest is section"):
        drawing_of(piece, "sectoin")
