"""``joinlay why``: how a number was worked out, down to what the maker wrote."""

import re

import pytest

from joinlay.cli.rule_words import RULE_WORDS
from tests.cli.running import ROOT, run
from tests.unit.jobs.jobs import GOOD


@pytest.fixture
def job(tmp_path):
    path = tmp_path / "chest.toml"
    path.write_text(GOOD, encoding="utf-8")
    return path


def test_a_width_down_to_the_line_it_was_written_in(job, capsys):
    ran = run(capsys, "why", job, "drawer 1 front width")
    assert (ran.code, ran.err) == (0, "")
    # The working of design rule DR-1: opening less a clearance on each side.
    assert ran.out == (
        "drawer 1 front width = 18 5/16 in\n"
        "  = drawer 1 opening width 18 3/8 - 2 x side clearance 1/32   (DR-1, common practice)\n"
        "    drawer 1 opening width = 18 3/8 in   written in chest.toml:25\n"
        "    side clearance = 1/32 in   the usual figure (DR-1, common practice)\n"
    )


@pytest.mark.parametrize("name", ["Drawer 1 Front Width", "  drawer   1 front width ", "drawer-1-front-width"])
def test_capitals_spaces_and_hyphens_do_not_matter(job, capsys, name):
    assert run(capsys, "why", job, name).out == run(capsys, "why", job, "drawer 1 front width").out


def test_quotes_may_be_left_out(job, capsys):
    assert run(capsys, "why", job, "drawer", "1", "front", "width").out == run(capsys, "why", job, "drawer 1 front width").out


def test_the_sizes_of_a_board_go_by_its_name_too(job, capsys):
    # The grain of a front runs from side to side, so its length is what the drawer calls the front's width.
    length = run(capsys, "why", job, "drawer 1 front length")
    assert length.out == run(capsys, "why", job, "drawer 1 front width").out
    thickness = run(capsys, "why", job, "drawer 1 left side thickness")
    assert thickness.code == 0
    assert thickness.out.endswith("birch measured thickness = 0.483 in   written in chest.toml:13\n")
    assert run(capsys, "why", job, "drawer 1 left side length").code == 0


def test_every_name_that_is_listed_can_be_asked_for(job, capsys):
    listed = run(capsys, "why", job)
    assert (listed.code, listed.err) == (0, "")
    names = [line.split("   ")[0].strip() for line in listed.out.splitlines()]
    assert "drawer 1 front width" in names
    assert len(names) == len(set(names)) > 50
    for name in names[::7]:
        asked = run(capsys, "why", job, name)
        assert asked.code == 0
        assert asked.out.startswith(f"{name} = ")


def test_every_working_ends_in_what_was_written_or_is_usual(job, capsys):
    names = [line.split("   ")[0].strip() for line in run(capsys, "why", job).out.splitlines()]
    for name in names[::5]:
        rows = run(capsys, "why", job, name).out.splitlines()
        for row, after in zip(rows, [*rows[1:], ""], strict=True):
            if not row.lstrip().startswith("= "):
                has_working = after.lstrip().startswith("= ")
                assert has_working or any(word in row for word in ("written in chest.toml:", "the usual figure", "as above")), row


def test_a_working_is_told_once(job, capsys):
    out = run(capsys, "why", job, "drawer 1 bottom length").out
    heads = [line.strip().split(" = ")[0] for line in out.splitlines() if " = " in line and "as above" not in line]
    worked = [head for head in heads if not head.startswith("=")]
    assert len(worked) >= 3


def test_a_name_that_is_not_there_is_answered_with_near_ones(job, capsys):
    ran = run(capsys, "why", job, "front width")
    assert (ran.code, ran.out) == (2, "")
    lines = ran.err.splitlines()
    assert lines[0] == f"there is no number called 'front width' in {job}. Near it:"
    assert lines[1] == "  drawer 1 front width"
    slip = run(capsys, "why", job, "drawer 1 frnt width")
    assert "  drawer 1 front width\n" in slip.err
    nothing = run(capsys, "why", job, "xyzzy")
    assert nothing.err == f"there is no number called 'xyzzy' in {job}; joinlay why {job} lists them all.\n"


def test_what_was_refused_is_said_beside_the_answer(job, capsys):
    thin = '\n[[drawer]]\nsides = "thin"\nopening = { width = 9, height = 4, depth = 9 }\n'
    job.write_text(GOOD + thin, encoding="utf-8")
    ran = run(capsys, "why", job, "drawer 1 front width")
    assert ran.code == 0
    assert ran.err.startswith("refused  drawer 2")
    assert ran.out.startswith("drawer 1 front width = ")


def test_each_name_comes_with_what_it_is(job, capsys):
    rows = {
        row[0]: row[2]
        for row in (re.split(r" {3,}", line.strip()) for line in run(capsys, "why", job).out.splitlines())
        if len(row) == 3
    }
    assert len(rows) > 50
    assert rows["drawer 1 front width"] == "DR-1: size of an inset front"
    assert all(len(said) > 8 for said in rows.values())


def test_the_words_for_a_rule_are_those_of_the_table_of_rules():
    page = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    assert dict(re.findall(r"^\| ([A-Z]{2}-\d+) \| (.*) \|$", page, re.MULTILINE)) == RULE_WORDS
