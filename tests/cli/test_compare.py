"""``joinlay compare``: what differs between two versions of a job."""

import json
import re
from pathlib import Path

import pytest

from tests.cli.running import run
from tests.unit.jobs.jobs import GOOD

ROOT = Path(__file__).parents[2]
WIDER = GOOD.replace('width = "18 3/8"', 'width = "18 1/2"')


@pytest.fixture
def jobs(tmp_path):
    def written(old=GOOD, new=WIDER):
        paths = (tmp_path / "old.toml", tmp_path / "new.toml")
        for path, text in zip(paths, (old, new), strict=True):
            path.write_text(text, encoding="utf-8")
        return paths

    return written


def test_the_same_job_twice(jobs, capsys):
    old, new = jobs(GOOD, GOOD)
    ran = run(capsys, "compare", old, new)
    assert (ran.code, ran.err) == (0, "")
    assert ran.out == f"From {old} to {new}: nothing differs.\n"


def test_a_wider_opening(jobs, capsys):
    old, new = jobs()
    ran = run(capsys, "compare", old, new)
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.splitlines()[0] == f"From {old} to {new}, of the parts: 8 as before, 3 to make again."
    assert "make it again   drawer 1 front, drawer 1 back, drawer 1 bottom" in ran.out
    rows = [" ".join(line.split()) for line in ran.out.splitlines()]
    assert "width 18 3/8 in 18 1/2 in drawer 1 opening" in rows
    assert "length 18 5/16 in 18 7/16 in drawer 1 front" in rows
    assert "left side" not in ran.out


def test_a_narrower_opening_says_what_can_be_cut_down(jobs, capsys):
    ran = run(capsys, "compare", *jobs(WIDER, GOOD))
    assert "too large; cut it down if its joints are not cut yet   drawer 1 front, drawer 1 back, drawer 1 bottom" in ran.out


def test_another_title_changes_nothing_that_is_cut(jobs, capsys):
    old, new = jobs(GOOD, GOOD.replace("Seed chest", "Spice chest"))
    ran = run(capsys, "compare", old, new)
    assert ran.out.splitlines()[0] == f"From {old} to {new}: nothing that is cut or set differs."
    assert "title   Seed chest   Spice chest" in ran.out


def test_old_parts_give_wood_for_new_ones(jobs, capsys):
    high = '[[drawer]]\nname = "tall"\nopening = { width = "18 3/8", height = "6", depth = "20" }\n'
    ran = run(capsys, "compare", *jobs(GOOD + high, GOOD + high.replace("tall", "low").replace('"6"', '"5"')))
    wood = ran.out.partition("Old parts to cut new ones from")[2]
    rows = [" ".join(line.split()) for line in wood.splitlines()]
    assert "drawer low front from drawer tall front" in rows
    assert not any("tenon" in row for row in rows if " from drawer" in row)


def test_settings_are_compared(jobs, capsys):
    thicker = GOOD.replace("measured = 0.483", "measured = 0.5")
    ran = run(capsys, "compare", *jobs(GOOD, thicker))
    settings = ran.out.partition("Settings:")[2]
    assert "fence" in settings or "height" in settings
    assert "Written otherwise:" in ran.out


def test_drawers_come_and_go(jobs, capsys):
    second = '[[drawer]]\nopening = { width = "18 3/8", height = "6", depth = "20" }\n'
    ran = run(capsys, "compare", *jobs(GOOD, GOOD + second))
    assert ran.out.splitlines()[0].endswith(" 11 as before, 13 new.")
    assert "new   drawer 2 front" in ran.out
    assert "not needed any more" in run(capsys, "compare", *jobs(GOOD + second, GOOD)).out


def test_json(jobs, capsys):
    tree = json.loads(run(capsys, "compare", *jobs(), "--json").out)
    assert (tree["old"], tree["new"]) == ("old.toml", "new.toml")
    assert tree["written"] == [{"names": ["drawer 1 opening"], "what": "width", "old": "18 3/8 in", "new": "18 1/2 in"}]
    assert tree["fates"] == [
        {"fate": "too small, or of other wood; make it again", "parts": ["drawer 1 front", "drawer 1 back", "drawer 1 bottom"]}
    ]


def test_what_cannot_be_read_names_its_file(jobs, capsys):
    old, new = jobs(GOOD, GOOD.replace("[drawers]", "[drawrs]"))
    ran = run(capsys, "compare", old, new)
    assert ran.code == 2
    assert "new.toml:" in ran.err
    assert run(capsys, "compare", old.with_name("none.toml"), new).code == 2


def test_a_new_job_that_is_refused_ends_with_one(jobs, capsys):
    ran = run(capsys, "compare", *jobs(GOOD, GOOD.replace('height = "4 1/4"', 'height = "3/4"')))
    assert ran.code == 1
    assert ran.err.startswith("refused")
    assert "not needed any more" in ran.out


def test_jobs_in_inches_and_millimetres_that_come_to_the_same(jobs, capsys):
    metric = GOOD.replace('width = "18 3/8"', 'width = "466.725 mm"')
    assert "nothing differs" in run(capsys, "compare", *jobs(GOOD, metric)).out


CHEST = (ROOT / "examples" / "print-chest.toml").read_text(encoding="utf-8")


def test_what_a_maker_wrote_of_the_piece_is_said_and_what_follows_from_it_is_not(jobs, capsys):
    old, new = jobs(CHEST, CHEST.replace('width = "36"', 'width = "37"'))
    written = run(capsys, "compare", old, new).out.partition("Written otherwise:\n")[2].partition("\n\n")[0]
    rows = [" ".join(line.split()) for line in written.splitlines()]
    assert rows == ["what was is where", "piece width over all 36 in 37 in the piece"]


def test_no_row_is_of_remainders(jobs, capsys):
    """A sheet measured again, a thousandth thinner, moves hundreds of figures by a hair: they are counted, and JSON has them."""
    old, new = jobs(CHEST, CHEST.replace('"0.709"', '"0.708"'))
    out = run(capsys, "compare", old, new).out
    tables = [line for line in out.splitlines() if line.startswith("  ")]
    assert not [line for line in tables if re.search(r"\(\d+\.?\d*\)", line)]
    told = json.loads(run(capsys, "compare", old, new, "--json").out)
    for word in ("parts", "joints", "settings"):
        rows = [re.split(r" {3,}", line.strip()) for line in section(out, word).splitlines()[1:]]
        shown, hair = [row for row in rows if len(row) == 4], [row for row in rows if len(row) == 1]
        assert all(was != now for _, was, now, _ in shown)
        unseen = int(hair[0][0].split()[0]) if hair else 0
        assert len(shown) + unseen == len(told[word])


def section(out, word):
    return out.partition(f"{word.capitalize()}:\n")[2].partition("\n\n")[0]
