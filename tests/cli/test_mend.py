"""``joinlay mend``: remedies listed by number, the chosen one made in the file and nothing else touched."""

import json
import os
import pty

import pytest

from joinlay.cli import mend_command
from tests.cli.running import ROOT, run
from tests.unit.jobs.jobs import GOOD

TIGHT = GOOD.replace("[drawers]", '[drawers]             # all of them\ntop-clearance = "1/64"    # a tight fit')


def lines_of(text):
    return [line for line in text.splitlines() if line[:3].strip().isdigit()]


def test_the_remedies_are_numbered_and_nothing_is_written(job, capsys):
    path = job(TIGHT)
    ran = run(capsys, "mend", path)
    assert (ran.code, ran.err) == (0, "")
    assert "warning  drawer 1: The room over the sides" in ran.out
    assert lines_of(ran.out)[0] == '  1  Give it 1/32 in of clearance at the top (top-clearance = "1/32" under [drawers]).'
    assert ran.out.splitlines()[-1].startswith(f"Next: joinlay mend {path} NUMBER")
    assert path.read_text() == TIGHT


def test_the_chosen_one_is_made_and_the_line_shown_before_and_after(job, capsys):
    path = job(TIGHT)
    ran = run(capsys, "mend", path, 1)
    assert (ran.code, ran.err) == (0, "")
    before, after = 'top-clearance = "1/64"    # a tight fit', 'top-clearance = "1/32"    # a tight fit'
    assert f"  - {before}\n  + {after}" in ran.out
    assert path.read_text() == TIGHT.replace(before, after)
    assert sorted(one.name for one in path.parent.iterdir()) == [path.name]
    assert "may bind" not in run(capsys, "check", path).out


def test_a_mark_before_the_text_stays(job, capsys):
    path = job(TIGHT)
    path.write_bytes(b"\xef\xbb\xbf" + TIGHT.encode())
    assert run(capsys, "mend", path, 1).code == 0
    assert path.read_bytes().startswith(b"\xef\xbb\xbf")


@pytest.mark.parametrize("number", [0, 99, -1])
def test_a_number_that_is_not_there(job, capsys, number):
    path = job(TIGHT)
    ran = run(capsys, "mend", path, "--", number)
    assert ran.code == 2
    assert f"there is no remedy {number}" in ran.err
    assert path.read_text() == TIGHT


def test_a_sound_job_needs_nothing(job, capsys):
    ran = run(capsys, "mend", job(GOOD.replace('front = "cherry"', 'front = "birch"')))
    assert ran.code == 0
    assert "Seed chest: nothing needs mending" in ran.out


def test_json_has_each_change(job, capsys):
    told = json.loads(run(capsys, "mend", job(TIGHT), "--json").out)
    first = told["findings"][0]["remedies"][0]
    assert {**first, "text": ""} == {
        "table": "drawers", "index": None, "key": "top-clearance", "value": "1/32", "text": "", "and": [],
    }  # fmt: skip
    assert first["text"] in told["findings"][0]["remedy"].replace("Give", "give")
    checked = json.loads(run(capsys, "check", job(TIGHT), "--json").out)
    assert checked["findings"][0]["remedies"] == told["findings"][0]["remedies"]


@pytest.mark.parametrize(("typed", "is_changed"), [("1\n", True), ("\n", False)])
def test_in_a_terminal_it_asks(job, capsys, monkeypatch, typed, is_changed):
    path = job(TIGHT)
    monkeypatch.setattr(mend_command, "_is_answered", lambda: True)
    ours, theirs = pty.openpty()
    os.write(ours, typed.encode())
    with os.fdopen(theirs, "r") as stdin:
        monkeypatch.setattr("sys.stdin", stdin)
        ran = run(capsys, "mend", path)
    os.close(ours)
    assert ran.code == 0
    assert (path.read_text() != TIGHT) is is_changed


def test_check_leads_there(job, capsys):
    path = job(TIGHT)
    assert f"joinlay mend {path}" in run(capsys, "check", path).out


def test_a_tall_chest_is_mended_by_anchoring_it(tmp_path, capsys):
    path = tmp_path / "print-chest.toml"
    text = (ROOT / "examples/print-chest.toml").read_text()
    path.write_text(text)
    assert run(capsys, "mend", path, 1).code == 0
    assert path.read_text() == text.rstrip("\n") + '\n\n[use]\nstands = "anchored"\n'
    assert "must not be used before it is" in run(capsys, "check", path).out
