"""A job file changed by a program: what is meant is changed, and nothing else."""

from __future__ import annotations

import tomllib

import pytest

from joinlay.documents.editing import with_row_added, with_row_moved, with_row_removed, with_values
from joinlay.errors import BadInput
from tests.house.source import ROOT

EXAMPLES = sorted((ROOT / "examples").glob("*.toml"))

ROWS = """\
top = 1

# the first
[[drawer]]
name = "a"   # its name
opening = { width = 1 }

[[drawer]]
name = "b"
[drawer.opening]
width = 2

# a stock
[stock.x]
nominal = 3
"""


def plain_ways(tree, path=()):
    for key, value in tree.items():
        if isinstance(value, dict):
            yield from plain_ways(value, (*path, key))
        elif isinstance(value, str):
            yield (*path, key)


def value_at(tree, way):
    for name in way:
        tree = tree[name]
    return tree


@pytest.mark.parametrize("job", EXAMPLES, ids=lambda job: job.stem)
def test_a_value_set_to_what_it_is_leaves_the_file_to_the_letter(job):
    text = job.read_text(encoding="utf-8")
    tree = tomllib.loads(text)
    for way in plain_ways(tree):
        assert with_values(text, [(way, value_at(tree, way))]) == text


@pytest.mark.parametrize("job", EXAMPLES, ids=lambda job: job.stem)
def test_a_value_changed_changes_its_line_alone(job):
    text = job.read_text(encoding="utf-8")
    for way in plain_ways(tomllib.loads(text)):
        after = with_values(text, [(way, "changed")])
        differ = [(a, b) for a, b in zip(text.splitlines(), after.splitlines(), strict=True) if a != b]
        assert len(differ) <= 1
        for was, now in differ:
            assert was.partition("#")[2] == now.partition("#")[2]


def test_a_value_is_taken_out_and_one_that_is_not_there_stays_out():
    assert with_values(ROWS, [(("top",), None)]) == ROWS.replace("top = 1\n", "", 1)
    assert with_values(ROWS, [(("nowhere", "key"), None)]) == ROWS


def test_a_row_is_copied_without_what_it_is_called():
    after = with_row_added(ROWS, "drawer", 0)
    assert tomllib.loads(after)["drawer"] == [
        {"name": "a", "opening": {"width": 1}},
        {"opening": {"width": 1}},
        {"name": "b", "opening": {"width": 2}},
    ]
    assert tomllib.loads(with_row_added("top = 1\n", "offcut", 0)) == {"top": 1, "offcut": [{}]}


def test_a_row_moves_with_its_comment_and_what_is_under_it():
    after = with_row_moved(ROWS, "drawer", 1, is_up=True)
    assert [row["name"] for row in tomllib.loads(after)["drawer"]] == ["b", "a"]
    assert '# the first\n[[drawer]]\nname = "a"   # its name\n' in after
    assert "# a stock\n[stock.x]\n" in after
    back = with_row_moved(after, "drawer", 0, is_up=False)
    assert [row["name"] for row in tomllib.loads(back)["drawer"]] == ["a", "b"]
    assert sorted(back.splitlines()) == sorted(ROWS.splitlines())


def test_a_row_is_taken_out_with_its_comment():
    after = with_row_removed(ROWS, "drawer", 0)
    assert "# the first" not in after
    assert tomllib.loads(after)["drawer"] == [{"name": "b", "opening": {"width": 2}}]
    assert "drawer" not in tomllib.loads(with_row_removed(after, "drawer", 0))


@pytest.mark.parametrize("text", ["drawer = [{ name = 1 }, { name = 2 }]\n", "drawer = [\n  { name = 1 },\n  { name = 2 },\n]\n"])
def test_rows_written_in_another_way_are_left_to_the_hand(text):
    for change in (with_row_added, with_row_removed):
        with pytest.raises(BadInput, match="do it in the text"):
            change(text, "drawer", 0)


def test_what_is_no_toml_is_left_alone():
    with pytest.raises(BadInput):
        with_row_added("= 1", "drawer", 0)
    with pytest.raises(BadInput, match="write it by hand"):
        with_values("= 1", [(("top",), 1)])
