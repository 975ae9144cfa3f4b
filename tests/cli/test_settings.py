"""``joinlay settings``: the cards in their order, one whole card, and JSON."""

import json
from fractions import Fraction

import pytest

from tests.cli.running import run
from tests.unit.jobs.jobs import GOOD


@pytest.fixture
def job(tmp_path):
    def written(text=GOOD, name="chest.toml"):
        path = tmp_path / name
        path.write_text(text, encoding="utf-8")
        return path

    return written


def test_the_answer_first_one_table_and_the_next_step_last(job, capsys):
    path = job()
    ran = run(capsys, "settings", path)
    assert (ran.code, ran.err) == (0, "")
    lines = ran.out.splitlines()
    assert lines[0].startswith("Seed chest: ")
    assert "set-ups where taking part after part would need" in lines[0]
    assert lines[2].split() == ["cut", "machine", "and", "cutter", "fence", "height", "parts,", "and", "how", "they", "lie"]
    assert lines[3].split()[0] == "1"
    assert lines[-1] == f"Next: joinlay settings {path} --card 1"


def test_a_whole_card(job, capsys):
    ran = run(capsys, "settings", job(), "--card", "1")
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.startswith("Setting 1: ")
    assert "test piece: " in ran.out
    assert "The machine's manual goes before this card." in ran.out


def test_a_card_there_is_none_of_names_those_there_are(job, capsys):
    ran = run(capsys, "settings", job(), "--card", "99")
    assert (ran.code, ran.out) == (2, "")
    assert "there is no setting 99; they are numbered 1 to " in ran.err


def test_json_holds_what_the_table_shows(job, capsys):
    ran = run(capsys, "settings", job(), "--json")
    tree = json.loads(ran.out)
    assert (ran.code, ran.err, tree["job"], tree["title"]) == (0, "", "chest.toml", "Seed chest")
    assert [setting["number"] for setting in tree["settings"]] == list(range(1, len(tree["settings"]) + 1))
    assert tree["set_ups"] <= tree["naive_set_ups"]
    first = tree["settings"][0]["fence_to_near_side"]
    assert first["mm"] == pytest.approx(float(Fraction(first["exact"])))
    assert all({"harm", "kind", "where", "what", "remedy"} <= set(finding) for finding in tree["findings"])


def test_a_refused_job_ends_with_one_and_says_why(job, capsys):
    ran = run(capsys, "settings", job(GOOD.replace('nominal = "1/2"\nmeasured = 0.483', 'nominal = "1/8"')))
    assert ran.code == 1
    assert ran.err.startswith("refused  drawer 1")
    assert ran.out == "Seed chest: nothing to set.\n"
