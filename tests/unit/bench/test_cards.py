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


def leads_in(html):
    """The addresses that a card leads to."""
    return [unescape(one) for one in re.findall(r'hx-get="([^"]+)"', html)]


def test_a_part_s_card_leads_to_its_templates_settings_line_and_what_it_is_joined_to(chest):
    found = chest.get("/part", params={"name": "drawer 2 front"}).text
    assert 'data-part="[&#34;drawer 2 left side&#34;]"' in found
    leads = leads_in(found)
    assert {lead.partition("?")[0] for lead in leads} == {"/list", "/setting", "/templates"}
    for lead in leads:
        told = chest.get(lead)
        assert told.status_code == 200, lead
        assert "drawer 2 front" in words_of(told.text) or "drawer 2" in words_of(told.text)


def test_a_part_s_templates_are_those_it_is_marked_from(chest):
    found = chest.get("/templates", params={"name": "drawer 2 front"})
    said = words_of(found.text)
    for title in (
        "drawer 2 front, left and right end",
        "drawer 1 to 4 front, drill template",
        "fold-over strip",
        "story stick of widths",
    ):
        assert title in said
    assert "drawer 3 front, left" not in said
    for lead in leads_in(found.text):
        told = chest.get(lead)
        assert told.text.count("<svg") == 1, lead
    # Those named are the sheets that are made for it.
    assert 'hx-post="/make"' in found.text
    assert "none: nothing is marked on it" in words_of(chest.get("/templates", params={"name": "case back"}).text)
    bottom = words_of(chest.get("/templates", params={"name": "drawer 2 bottom"}).text)
    assert "story stick of depths" in bottom
    assert "Make the sheets" not in bottom


def test_a_setting_has_its_figures_and_the_list_marks_the_line_that_was_asked_for(chest):
    plan = chest.desk.showing.seen().plan
    card = plan.settings.settings[0]
    said = words_of(chest.get("/setting", params={"number": 1}).text)
    assert said.startswith("Card 1:")
    assert all(reading.on_rule.figures in said for reading in card.readings)
    assert set(card.board_names) <= {part for part in card.board_names if part in said}
    listed = chest.get("/list", params={"name": "drawer 3 back"}).text
    assert listed.count('aria-current="true"') == 1
    assert words_of(listed[listed.index("aria-current") :]).partition("drawer 3 back")[0].strip().endswith(" 1")


@pytest.mark.parametrize("address", ["/template?title=x", "/setting?number=999", "/setting?number=x", "/templates?name=x"])
def test_a_card_that_is_not_there_is_said(chest, address):
    assert chest.get(address).status_code == 404
