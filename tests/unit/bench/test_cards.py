"""What is told of a part and of a number that is pressed, and that what can be pressed is there to be told of."""

from __future__ import annotations

import json
import re
from html import unescape

import pytest

from tests.house.source import ROOT
from tests.unit.bench.asking import Page, words_of


@pytest.fixture(scope="module")
def chest(tmp_path_factory):
    text = (ROOT / "examples" / "print-chest.toml").read_text(encoding="utf-8")
    return Page(tmp_path_factory.mktemp("look") / "chest.toml", text)


def test_a_number_leads_down_to_the_line_it_was_written_in(chest):
    found = chest.get("/why", params={"name": "drawer 3 front width"})
    said = words_of(found.text)
    assert "Why 32 7/16 in?" in said
    line = chest.text.splitlines().index('width = "36"') + 1
    assert f"piece width over all = 36 in written in chest.toml:{line}" in said
    assert f'data-line="{line}"' in found.text


def test_every_figure_that_can_be_pressed_has_its_working(chest):
    html = "".join(chest.get(f"/drawing/{view}").text for view in ("front", "section", "plan"))
    names = {unescape(name) for name in re.findall(r'data-why="([^"]+)"', html)}
    assert len(names) > 12
    for name in names:
        assert chest.get("/why", params={"name": name}).status_code == 200


def test_every_part_that_can_be_pressed_has_its_card(chest):
    html = "".join(chest.get(f"/drawing/{view}").text for view in ("front", "section", "plan", "details"))
    names = {name for told in re.findall(r'data-part="([^"]+)"', html) for name in json.loads(unescape(told))}
    assert names == {board.name for board in chest.desk.showing.seen().plan.boards} | names
    assert {"drawer 2 front", "face frame left stile", "case back"} <= names
    for name in sorted(names)[::9]:
        assert chest.get("/part", params={"name": name}).status_code == 200


def test_parts_can_be_pressed_where_the_piece_is_taken_apart(chest):
    html = chest.get("/drawing/apart").text
    assert "taken apart" in words_of(html)
    names = {name for told in re.findall(r'data-part="([^"]+)"', html) for name in json.loads(unescape(told))}
    assert {"case right side", "case top", "face frame top rail", "drawer 4 front"} <= names


def test_a_part_s_card_tells_its_sizes_joints_cuts_and_faces(chest):
    found = chest.get("/part", params={"name": "drawer 2 front"})
    said = words_of(found.text)
    front = next(board for board in chest.desk.showing.seen().plan.boards if board.name == "drawer 2 front")
    for words in ("Length 32 7/16 in", "Wood cherry", "Joined to drawer 2 left side", "Cutting list line", "Settings card"):
        assert words in said
    assert 'data-why="drawer 2 front width"' in found.text
    assert all(cut.name in said for cut in front.cuts)
    assert found.text.count("<svg") == len({cut.surface for cut in front.cuts} | {"face"}) - (
        "face" in {c.surface.value for c in front.cuts}
    )


@pytest.mark.parametrize("address", ["/part", "/why"])
def test_what_is_not_there_is_said(chest, address):
    assert chest.get(address, params={"name": "../../etc/passwd"}).status_code == 404
    assert chest.get(address).status_code == 404
