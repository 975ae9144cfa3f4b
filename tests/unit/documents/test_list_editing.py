"""Lists in a job changed by a program: what is said beside an item goes with it, and all else stays to the letter."""

from __future__ import annotations

import tomllib

import pytest

from joinlay.documents.list_editing import with_item_added, with_item_moved, with_item_removed, with_list
from joinlay.errors import BadInput

TEXT = """\
title = "A chest"    # of pine

[shop]
kerf = "1/8"
cutters = [
  { diameter = "1/8", reach = "3/8" },   # the rusty one
  # sharpened in May
  { diameter = "1/4", reach = "1" },
  { diameter = "1/2", reach = "1 1/4" },
]
mortise-depths = [ "10 mm",  "15 mm" ]   # its stops
saw = { dado-set = ["1/4", "1/2"] }

[[bank]]
heights = ["3", "fill", "5"]
"""
CUTTERS, DEPTHS, HEIGHTS = ("shop", "cutters"), ("shop", "mortise-depths"), ("bank", 0, "heights")


def test_an_item_moves_with_what_is_said_of_it():
    moved = with_item_moved(TEXT, CUTTERS, 1, is_up=True)
    assert (
        "cutters = [\n  # sharpened in May\n"
        '  { diameter = "1/4", reach = "1" },\n  { diameter = "1/8", reach = "3/8" },   # the rusty one\n' in moved
    )
    assert with_item_moved(moved, CUTTERS, 0, is_up=False) == TEXT
    assert 'heights = ["fill", "3", "5"]' in with_item_moved(TEXT, HEIGHTS, 1, is_up=True)


def test_an_item_goes_with_what_is_said_of_it():
    gone = with_item_removed(TEXT, CUTTERS, 1)
    assert "sharpened" not in gone
    assert "rusty" in gone
    assert len(gone.splitlines()) == len(TEXT.splitlines()) - 2
    assert 'mortise-depths = ["15 mm" ]   # its stops' in with_item_removed(TEXT, DEPTHS, 0)


def test_the_last_item_takes_its_list_with_it():
    once = with_item_removed(TEXT, DEPTHS, 1)
    assert "mortise-depths" not in with_item_removed(once, DEPTHS, 0)


def test_an_item_more_is_like_the_one_before_it():
    more = with_item_added(TEXT, CUTTERS, 1)
    assert more.count('  { diameter = "1/4", reach = "1" },\n') == 2
    assert more.count("sharpened") == 1
    assert tomllib.loads(with_item_added(TEXT, DEPTHS, 1))["shop"]["mortise-depths"] == ["10 mm", "15 mm", "15 mm"]
    assert "# its stops" in with_item_added(TEXT, DEPTHS, 0)
    nested = with_item_added(TEXT, ("shop", "saw", "dado-set"), 0)
    assert tomllib.loads(nested)["shop"]["saw"]["dado-set"] == ["1/4", "1/4", "1/2"]


def test_a_list_begins_where_there_is_none():
    begun = with_list(TEXT, ("shop", "clamps"), [{"length": "24", "count": 2}])
    assert tomllib.loads(begun)["shop"]["clamps"] == [{"length": "24", "count": 2}]
    assert "# of pine" in begun
    assert tomllib.loads(with_list("", ("shop", "first-choice"), ["table saw"])) == {"shop": {"first-choice": ["table saw"]}}


@pytest.mark.parametrize("path", [("shop", "kerf"), ("shop", "nothing"), ("bank", 3, "heights"), ("title", "x")])
def test_where_there_is_no_list_it_is_said(path):
    with pytest.raises(BadInput, match="no such item"):
        with_item_added(TEXT, path, 0)


def test_what_can_not_be_done_is_said_and_nothing_is_spoilt():
    with pytest.raises(BadInput, match="no such item"):
        with_item_removed(TEXT, CUTTERS, 3)
    with pytest.raises(BadInput, match="no such item"):
        with_item_moved(TEXT, CUTTERS, 0, is_up=True)
    with pytest.raises(BadInput, match="no TOML"):
        with_item_added("= 1", CUTTERS, 0)
    with pytest.raises(BadInput, match="in the text"):
        with_list(TEXT, ("title", "x"), ["y"])


def test_rows_written_as_tables_are_items_too():
    text = '[[shop.cutters]]\ndiameter = "1/8"\n\n[[shop.cutters]]\ndiameter = "1/4"\n'
    assert [one["diameter"] for one in tomllib.loads(with_item_moved(text, CUTTERS, 1, is_up=True))["shop"]["cutters"]] == [
        "1/4",
        "1/8",
    ]
    assert len(tomllib.loads(with_item_removed(text, CUTTERS, 0))["shop"]["cutters"]) == 1
