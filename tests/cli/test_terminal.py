"""What goes to a terminal fits it: every table of every command, at any width, with no figure parted from its unit."""

import json
import re
import sys
from collections import Counter
from pathlib import Path

import pytest

from joinlay.cli.terminal import table
from tests.cli.running import run

ROOT = Path(__file__).parents[2]
CHEST = ROOT / "examples" / "print-chest.toml"
#: Every command that shows a table, as its words stand behind ``joinlay``.
TABLES = (
    ("settings", CHEST),
    ("settings", CHEST, "--card", "3"),
    ("settings", CHEST, "--for", "drawer 2 front"),
    ("list", CHEST),
    ("list", CHEST, "--sheets"),
    ("list", CHEST, "--buy"),
    ("why", CHEST),
    ("keys", "drawers"),
    ("assemble", CHEST),
    ("compare", CHEST, ROOT / "examples" / "seed-cabinet.toml"),
    ("check", CHEST),
    ("joint", "dado", "--into", "3/4", "--panel", "23/32"),
)


@pytest.fixture
def terminal(monkeypatch, capsys):
    """Makes standard output a terminal of a width."""

    def made(width):
        monkeypatch.setenv("COLUMNS", str(width))
        monkeypatch.setattr(type(sys.stdout), "isatty", lambda _: True)

    return made


def tables_of(text):
    """The lines of tables: two spaces in."""
    return [line for line in text.splitlines() if line.startswith("  ")]


@pytest.mark.parametrize("given", TABLES, ids=lambda given: " ".join(str(one).rpartition("/")[2] for one in given))
def test_no_table_is_wider_than_the_terminal(terminal, capsys, given):
    terminal(120)
    lines = tables_of(run(capsys, *given).out)
    assert lines or given[0] == "check"
    assert [line for line in lines if len(line) > 120] == []


FLIES = ROOT / "examples" / "fly-tying-chest.toml"
#: Each command on a piece with an open bay, a row of three, a top and a base, and what of its words may be wider.
EVERYTHING = (*(given[0] for given in TABLES if given[1:] == (CHEST,)), "list --sheets", "list --buy", "settings --card 1")


@pytest.mark.parametrize("command", EVERYTHING)
def test_no_line_is_wider_than_a_narrow_terminal(terminal, capsys, command):
    """At 60 letters as at 80; only a command that is to be typed stays on one line."""
    name, *more = command.split()
    for width in (60, 80) if name in ("settings", "list") else (60,):
        terminal(width)
        lines = run(capsys, name, FLIES, *more).out.splitlines()
        assert len(lines) > 5
        assert [line for line in lines if len(line) > width and "joinlay " not in line] == []


def test_json_and_the_lines_of_a_job_are_never_broken(terminal, capsys):
    terminal(40)
    assert len(json.loads(run(capsys, "settings", FLIES, "--json").out)["settings"]) > 10
    assert json.loads(run(capsys, "check", CHEST, "--json").out)["title"] == "Print chest"


def test_a_table_whose_words_do_not_fit_side_by_side_is_told_row_by_row(terminal):
    terminal(40)
    rows = [("number", "straightedge", "hand-held", "router with", "1/2 in"), ("two", "a", "", "c", "12 x 4 in")]
    assert table(rows).splitlines() == [
        "  number; straightedge; hand-held;",
        "    router with; 1/2 in",
        "  two; a; c; 12 x 4 in",
    ]


@pytest.mark.parametrize("width", [80, 100, 150])
def test_settings_keep_figure_and_unit_together_however_narrow(terminal, capsys, width):
    figures = re.compile(r"\d+(?: \d+/\d+|/\d+)?[+-]? in\b")
    wide = run(capsys, "settings", CHEST).out
    terminal(width)
    narrow = run(capsys, "settings", CHEST).out
    assert max(map(len, tables_of(narrow))) <= width
    told = [Counter(word for line in tables_of(text) for word in figures.findall(line)) for text in (wide, narrow)]
    assert told[0] == told[1]
    assert told[0].total() > 30


def test_what_goes_to_a_file_keeps_a_row_a_line(capsys):
    out = run(capsys, "settings", CHEST).out
    assert max(len(line) for line in tables_of(out)) > 200


def test_a_table_breaks_its_widest_column_first(terminal):
    terminal(40)
    rows = [("one", "a row of many words that go on and on", "3 1/2 in"), ("two", "few words", "12 x 4 in")]
    assert table(rows).splitlines() == [
        "  one   a row of many words    3 1/2 in",
        "        that go on and on",
        "  two   few words              12 x 4 in",
    ]


def test_a_table_that_fits_is_as_it_was(terminal):
    rows = [("one", "a row"), ("three", "few")]
    wide = table(rows)
    terminal(40)
    assert table(rows) == wide == "  one     a row\n  three   few"
