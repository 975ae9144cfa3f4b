"""Where each key of a TOML text stands, and keys that are refused for their length."""

import tomllib
from time import process_time

import pytest

from joinlay.errors import Troubles
from joinlay.jobs.source import key_lines, line_of, read_source


def test_keys_tables_and_elements_have_their_lines():
    text = """# a note
title = "x"

[stock.birch]
nominal = "1/2"
sheet = [
  "96",  # long
  "48",
]

[[drawer]]
opening = { width = 3, height = 4 }
opening.depth = 5
[[drawer]]
[drawer.opening]
width = 1
"""
    assert key_lines(text) == {
        ("title",): 2,
        ("stock",): 4,
        ("stock", "birch"): 4,
        ("stock", "birch", "nominal"): 5,
        ("stock", "birch", "sheet"): 6,
        ("stock", "birch", "sheet", 0): 7,
        ("stock", "birch", "sheet", 1): 8,
        ("drawer",): 11,
        ("drawer", 0): 11,
        ("drawer", 0, "opening"): 12,
        ("drawer", 0, "opening", "width"): 12,
        ("drawer", 0, "opening", "height"): 12,
        ("drawer", 0, "opening", "depth"): 13,
        ("drawer", 1): 14,
        ("drawer", 1, "opening"): 15,
        ("drawer", 1, "opening", "width"): 16,
    }


@pytest.mark.parametrize(
    "value",
    [
        '"a # no note"',
        r'"a \" \\"',
        "'a \\'",
        '"""\nlong = 1\n[no.table]\n"""',
        '"""ends with quotes"""""',
        r'"""an \""" inside"""',
        "'''\nit's = 1\n'''",
        "'''two''more'''''",
        '""',
        "''",
        '""""""',
        "1979-05-27 07:32:00",
        "[[1, 2], [3, {a = 4}], ]",
        "{ a = '}', b = [ 1, ] }",
        "{}",
        "[ # none\n]",
        "-inf",
    ],
)
def test_a_value_of_any_kind_is_passed_over(value):
    text = f"before = {value} # a note\nafter = 1\n"
    assert tomllib.loads(text)["after"] == 1
    lines = key_lines(text)
    assert lines["before",] == 1
    assert lines["after",] == text.count("\n")


def test_quoted_keys_are_read_as_they_are_meant():
    text = '"a.b"."c\\u0041" = 1\n[ "x y" . \'z\' ]\nq = 2\n'
    assert tomllib.loads(text) == {"a.b": {"cA": 1}, "x y": {"z": {"q": 2}}}
    assert key_lines(text)["a.b", "cA"] == 1
    assert key_lines(text)["x y", "z", "q"] == 3


def test_a_header_through_a_list_of_tables_means_the_last_one():
    lines = key_lines("[[a]]\n[[a.b]]\n[[a.b]]\nx = 1\n[[a]]\n[[a.b]]\nx = 2\n")
    assert lines["a", 0, "b", 1, "x"] == 4
    assert lines["a", 1, "b", 0, "x"] == 7


def test_a_thing_without_a_line_has_that_of_what_is_around_it():
    lines = key_lines("[drawers]\ntaper = 1\n")
    assert line_of(("drawers", "taper"), lines) == 2
    assert line_of(("drawers", "front"), lines) == 1
    assert line_of(("drawer",), lines) == 0


@pytest.mark.parametrize(
    "text",
    [
        ".".join("a" * 100_000) + " = 1",
        "[" + " . ".join("a" * 100_000) + "]",
        "x = { " + ".".join("a" * 100_000) + " = 1 }",
        "a" * 900_000,
    ],
    ids=["key", "table", "in a line", "one word"],
)
def test_hostile_keys_take_no_time(text):
    start = process_time()
    with pytest.raises(Troubles, match=r"a\.toml:2: "):
        read_source(f"# a job\n{text}\n", "a.toml")
    assert process_time() - start < 2


def test_words_with_full_stops_are_no_key():
    source = read_source('title = "No. 1. A chest of drawers, ca. 1.5 m. wide, e.g. for a shop. Etc. Etc."\n', "a.toml")
    assert source.line(("title",)) == 1
