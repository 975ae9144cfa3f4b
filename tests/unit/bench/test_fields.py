"""The job as fields: what is shown of each key, and what a change to one makes of the file."""

from __future__ import annotations

import json
import random
import re
import tomllib

import pytest

from joinlay.bench.field_changes import nudged
from joinlay.bench.fields import groups_in
from joinlay.errors import BadInput
from joinlay.lengths import Graduation, Unit, read_length
from tests.house.source import ROOT
from tests.unit.bench.asking import JOB, Page, words_of


@pytest.fixture
def page(tmp_path):
    return Page(tmp_path / "under.toml")


def field(groups, *way):
    found = [one for group in groups for one in (*group.fields, *group.more) if json.loads(one.way) == list(way)]
    assert len(found) == 1, way
    return found[0]


def test_every_value_of_an_example_has_its_field_in_the_order_of_the_file():
    for job in sorted((ROOT / "examples").glob("*.toml")):
        text = job.read_text(encoding="utf-8")
        groups = groups_in(text, (), job.name, Unit.INCH)
        written = [one for group in groups for one in group.fields if one.written is not None]
        assert [group.line for group in groups] == sorted(group.line for group in groups)
        for one in written:
            here = tomllib.loads(text)
            for name in json.loads(one.way):
                here = here[name]
            if one.is_plain and isinstance(here, str):
                assert one.written == here
            assert one.line > 0
            assert one.means, one.way


def test_a_field_tells_what_it_means_what_holds_and_what_it_takes():
    groups = groups_in(JOB, (), "under.toml", Unit.MM)
    side = field(groups, "drawers", "side-clearance")
    assert (side.written, side.usual, side.is_length) == (None, "0.8 mm", True)
    assert "(DR-1, common practice)" in side.means
    assert field(groups_in(JOB, (), "under.toml", Unit.INCH), "drawers", "side-clearance").usual == "1/32 in"
    kind = field(groups, "stock", "maple", "kind")
    assert kind.written == "solid"
    assert "plywood" in kind.choices
    assert field(groups, "drawer", 1, "opening", "height").written == "160"


def test_the_pane_shows_them_and_says_a_fault_beside_its_field(page):
    assert "Drawer to opening at each side" in words_of(page.get("/pane/fields").text)
    found = page.post("/field", way='["drawers", "side-clearance"]', value="a hair", mode="fields").text
    assert page.text == JOB.replace('bottom = "thin"\n', 'bottom = "thin"\nside-clearance = "a hair"\n')
    said = re.findall(r'<p class="said"[^>]*>([^<]+)</p>', found)
    assert len(said) == 1
    assert "cannot be read as a length" in said[0]
    assert "The last drawing that was good" in found
    # The fields themselves are left alone while one of them is typed in.
    assert "<fieldset" not in found


def test_a_field_is_set_and_taken_out_with_comments_and_order_as_they_were(page):
    page.post("/field", way='["stock", "birch", "measured"]', value="11.9", mode="fields")
    assert page.text == JOB.replace('"11.8"', '"11.9"')
    page.post("/field", way='["drawer", 0, "opening", "width"]', value="410", mode="fields")
    assert page.text == JOB.replace('"11.8"', '"11.9"').replace("width = 400, height = 120", "width = 410, height = 120")
    page.post("/field", way='["units"]', value="", mode="fields")
    assert 'units = "mm"\n' not in page.text
    page.post("/undo")
    page.post("/field", way='["case", "dadoes"]', value="stopped", mode="fields")
    assert tomllib.loads(page.text)["case"] == {"dadoes": "stopped"}


@pytest.mark.parametrize(
    "way",
    [
        "",
        "[]",
        "{}",
        "[1",
        '["nowhere"]',
        '["drawers", "nowhere"]',
        '["drawer", -1, "name"]',
        "[[]]",
        '["drawer", true]',
        "9" * 5000,
    ],
)
def test_a_way_that_a_job_does_not_have_changes_nothing(page, way):
    found = page.post("/field", way=way, value="x", mode="fields")
    assert "no such key" in words_of(found.text)
    assert page.text == JOB


def test_an_odd_place_is_said_and_changes_nothing(page):
    found = page.post("/field", way='["drawer", 7, "name"]', value="x", mode="fields")
    assert "write it by hand" in words_of(found.text)
    assert page.text == JOB


@pytest.mark.parametrize(
    ("written", "is_up", "after"),
    [
        ("36", True, "36 1/32"),
        ("36", False, "35 31/32"),
        ("26 5/8", True, "26 21/32"),
        ("0.709", True, "23/32"),
        ("0.709", False, "11/16"),
        ("18 mm", True, "23/32 in"),
        ("1/32", False, "0"),
        ("2' 3\"", True, "27 1/32 in"),
    ],
)
def test_a_nudge_goes_to_the_next_mark_of_the_rule(written, is_up, after):
    rule = Graduation(Unit.INCH, read_length("1/32 in"))
    assert nudged(written, rule, Unit.INCH, is_up=is_up) == after


def test_arrow_keys_change_the_file_one_division_at_a_time(page):
    for _ in range(3):
        found = page.post("/nudge", way='["drawer", 0, "opening", "width"]', value="400", by="more", mode="fields")
    assert "width = 401.5, height = 120" in page.text.replace('"', "")
    assert json.loads(found.headers["hx-trigger"])["nudged"]["value"] == "401.5"
    page.post("/nudge", way='["drawer", 0, "opening", "width"]', by="less", times=13, mode="fields")
    assert "width = 395, height = 120" in page.text.replace('"', "")
    assert "is to be a number" in page.post("/nudge", way='["drawer", 0, "opening", "width"]', times="-1", mode="fields").text
    assert "cannot be read as a length" in page.post("/nudge", way='["stock", "maple", "species"]', value="", mode="fields").text


def drawers(text):
    return [row["opening"]["height"] for row in tomllib.loads(text)["drawer"]]


def test_rows_are_added_moved_and_taken_out(page):
    page.post("/row", key="drawer", at=0, what="add", mode="fields")
    assert drawers(page.text) == [120, 120, 160]
    page.post("/row", key="drawer", at=2, what="up", mode="fields")
    assert drawers(page.text) == [120, 160, 120]
    page.post("/row", key="drawer", at=0, what="remove", mode="fields")
    assert drawers(page.text) == [160, 120]
    assert "no such row" in page.post("/row", key="drawer", at=9, what="up", mode="fields").text
    assert "no such row" in page.post("/row", key="drawer", at=0, what="up", mode="fields").text
    assert "no such rows" in page.post("/row", key="drawers", at=0, what="add", mode="fields").text
    for _ in range(3):
        page.post("/undo")
    assert page.text == JOB


def test_a_stock_is_added_by_a_name_of_its_own(page):
    page.post("/row", key="stock", at=0, what="add", name="oak", mode="fields")
    assert tomllib.loads(page.text)["stock"]["oak"] == {"nominal": "18 mm"}
    assert "# the sheet that was left" in page.text
    assert "that no other has" in page.post("/row", key="stock", at=0, what="add", name="oak", mode="fields").text


def test_comments_go_with_their_row(page):
    text = JOB.replace(
        "[[drawer]]\nopening = { width = 400, height = 160", "# the deep one\n[[drawer]]\nopening = { width = 400, height = 160"
    )
    page.write(text)
    page.post("/row", key="drawer", at=1, what="up", mode="fields")
    assert drawers(page.text) == [160, 120]
    assert "# the deep one\n[[drawer]]\nopening = { width = 400, height = 160" in page.text
    assert page.text.startswith(JOB[: JOB.index("[[drawer]]")])


def test_a_text_that_is_no_toml_is_put_right_in_the_text_first(page):
    page.write("title = \n")
    assert "put it right in the text first" in words_of(page.get("/pane/fields").text)
    with pytest.raises(BadInput):
        groups_in("= 1", (), "under.toml", Unit.MM)


def test_many_odd_changes_to_fields_are_answered(page):
    of = random.Random(7)
    ways = [json.loads(one.way) for group in groups_in(JOB, (), "under.toml", Unit.MM) for one in (*group.fields, *group.more)]
    values = [
        "",
        "0",
        "-1",
        "1e9",
        "true",
        "400",
        "18 mm",
        "x" * 300,
        '"',
        "\x00",
        "½",
        "4,5",
        "1.234,5",
        "[1]",
        "solid",
        "birch",
        "\u202e",
    ]
    for _ in range(120):
        found = page.post("/field", way=json.dumps(of.choice(ways)), value=of.choice(values), mode="fields")
        assert found.status_code == 200
        tomllib.loads(page.text)
        if of.random() < 0.3:
            page.desk.draft.put(JOB)


SHOP = JOB.replace(
    "[drawers]",
    """[shop]
cutters = [
  { diameter = 6, reach = 20 },    # the old one
  { diameter = 12, reach = 30 },
]

[drawers]""",
)
CUTTERS = '["shop", "cutters"]'


def cutters(text):
    return [one["diameter"] for one in tomllib.loads(text)["shop"]["cutters"]]


def test_a_list_has_a_field_for_all_that_is_in_it():
    groups = groups_in(SHOP, (), "under.toml", Unit.MM)
    shown = field(groups, "shop", "cutters")
    assert not shown.is_plain
    assert shown.can_grow
    assert [[(one.key, one.written, one.is_length) for one in item] for item in shown.items] == [
        [("diameter", "6", True), ("reach", "20", True)],
        [("diameter", "12", True), ("reach", "30", True)],
    ]
    # Length and width of a sheet are two, no more and no fewer.
    sheet = field(
        groups_in(JOB.replace("nominal = 12", 'nominal = 12\nsheet = ["2440", 1220]'), (), "a", Unit.MM),
        "stock",
        "birch",
        "sheet",
    )
    assert [item[0].written for item in sheet.items] == ["2440", "1220"]
    assert not sheet.can_grow
    assert not field(groups, "shop", "clamps").items


def test_items_of_a_list_are_written_added_moved_and_taken_out(page):
    page.write(SHOP)
    page.post("/field", way='["shop", "cutters", 1, "diameter"]', value="12.7", mode="fields")
    assert page.text == SHOP.replace("diameter = 12,", 'diameter = "12.7",')
    page.post("/nudge", way='["shop", "cutters", 0, "diameter"]', by="more", mode="fields")
    assert cutters(page.text) == ["6.5", "12.7"]
    page.post("/item", way=CUTTERS, at=1, what="add", mode="fields")
    assert cutters(page.text) == ["6.5", "12.7", "12.7"]
    page.post("/item", way=CUTTERS, at=1, what="up", mode="fields")
    assert cutters(page.text) == ["12.7", "6.5", "12.7"]
    assert "reach = 20 },    # the old one" in page.text
    page.post("/item", way=CUTTERS, at=0, what="remove", mode="fields")
    assert cutters(page.text) == ["6.5", "12.7"]
    for what, at, said in (("up", 0, "no such item"), ("remove", 9, "no such item"), ("turn", 0, "added, removed")):
        assert said in words_of(page.post("/item", way=CUTTERS, at=at, what=what, mode="fields").text)
    assert "no such list" in words_of(page.post("/item", way='["drawers", "front"]', at=0, what="add", mode="fields").text)
    assert "<fieldset" in page.post("/undo", mode="fields").text


def lists_of_a_job():
    """Every way to a list that a job may have, through what this one has."""
    for group in groups_in(SHOP + "\n[[bank]]\ndrawers = 1\n", (), "under.toml", Unit.MM):
        for one in group.more:
            if not one.is_plain:
                yield one.way


def test_every_list_is_begun_by_one_press_with_something_to_write_over(page):
    text = SHOP + "\n[[bank]]\ndrawers = 1\n"
    ways = list(lists_of_a_job())
    assert {'["shop", "clamps"]', '["shop", "tenons"]', '["bank", 0, "rows"]', '["stock", "birch", "sheet"]'} <= set(ways)
    for way in ways:
        page.desk.draft.put(text)
        found = page.post("/item", way=way, at=0, what="add", mode="fields").text
        assert page.text != text, way
        shown = field(groups_in(page.text, (), "under.toml", Unit.MM), *json.loads(way))
        assert shown.items, way
        assert all(item for item in shown.items), way
        assert f'id="{shown.name}"' in found


def test_a_stock_is_chosen_from_those_the_job_has():
    groups = groups_in(JOB, (), "under.toml", Unit.MM)
    for key in ("front", "sides", "bottom"):
        shown = field(groups, "drawers", key)
        assert shown.choices == ("maple", "birch", "thin")
        assert "name of a stock" not in shown.means


def test_a_fault_in_a_list_is_said_where_it_is(page):
    found = page.write(SHOP.replace("diameter = 12", 'diameter = "wide"'), mode="fields")
    assert found
    found = page.post("/field", way='["shop", "cutters", 0, "reach"]', value="21", mode="fields").text
    said = re.findall(r'<p class="said" id="([^"]+)"[^>]*>([^<]+)</p>', found)
    assert said
    assert all("wide" in words for _, words in said)
    shown = field(groups_in(page.text, page.desk.showing.seen().troubles, "under.toml", Unit.MM), "shop", "cutters")
    assert {name for name, _ in said} <= {f"{one.name}-said" for one in shown.items[1]}
    found = page.post("/field", way='["shop", "cutters", 1, "diameter"]', value="12", mode="fields").text
    assert 'data-ids=""' in found
