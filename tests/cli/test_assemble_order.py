"""``joinlay assemble``: the steps, one step in full, and the same for programs; ``why`` of a diagonal."""

import json

from joinlay.checks import closing
from joinlay.checks.solids import Body
from tests.cli.running import ROOT, run
from tests.unit.jobs.jobs import GOOD

CHEST = ROOT / "examples" / "print-chest.toml"


def test_the_steps_are_told_with_glue_and_diagonals(capsys):
    ran = run(capsys, "assemble", CHEST)
    assert (ran.code, ran.err) == (0, "")
    lines = ran.out.splitlines()
    assert lines[0] == "Print chest: 18 steps to put it together."
    assert lines[1].startswith("Put all of it together dry first")
    assert "  10  Glue the front to the left and right side, from the front." in lines
    assert "Drawers 1 to 4, each" in lines
    square = "      square: case, over its corners: both diagonals 42 3/16 in, no more than 1/8 in apart"
    assert lines[lines.index("Face frame") - 2] == square
    assert "joinlay check" in lines[-1]


def test_one_step_is_told_in_full(capsys):
    ran = run(capsys, "assemble", CHEST, "--step", "2")
    assert ran.code == 0
    assert ran.out.startswith("Step 2, Case\n  2  Glue the right side to the bottom and top, from the right.\n")
    assert "case bottom, case right side" in ran.out
    assert "28 square inches" in ran.out
    assert "both diagonals 42 3/16 in" in ran.out


def test_a_step_that_is_not_there(capsys):
    ran = run(capsys, "assemble", CHEST, "--step", "19")
    assert ran.code == 2
    assert "there is no step 19; they are numbered 1 to 18." in ran.err


def test_the_order_for_programs(capsys):
    tree = json.loads(run(capsys, "assemble", CHEST, "--json").out)
    assert [step["number"] for step in tree["steps"]] == list(range(1, 19))
    last = tree["steps"][-1]["moves"][-1]
    assert "drawer 4 front" in last["moving"]
    assert last["way"] == "+Y"
    (case,) = (one for one in tree["squares"] if one["of"] == "case")
    assert case["diagonal"]["text"].startswith("42 3/16")
    assert case["may_differ"]["rule"] == "PT-5"


def test_drawers_alone(capsys, tmp_path):
    job = tmp_path / "chest.toml"
    job.write_text(GOOD, encoding="utf-8")
    ran = run(capsys, "assemble", job)
    assert ran.code == 0
    assert "The whole piece" not in ran.out
    assert "square: drawer" in ran.out


def test_why_answers_for_a_diagonal_and_for_how_far_they_may_differ(capsys):
    said = run(capsys, "why", CHEST, "case diagonal").out
    assert said.startswith("case diagonal = 42 3/16")
    assert "  = root of the sum of the squares of case width over its sides 36, case left side length 22 " in said
    said = run(capsys, "why", CHEST, "drawer 1 diagonals may differ").out
    assert "side clearance = 1/32 in" in said


def test_a_move_that_would_run_into_something_is_refused_by_check(capsys, tmp_path, monkeypatch):
    job = tmp_path / "chest.toml"
    job.write_text(GOOD, encoding="utf-8")

    def bumps(moving: list[Body], onto: list[Body], way: object) -> list[tuple[Body, Body, float]]:
        return [(moving[0], onto[0], 8.0)]

    monkeypatch.setattr(closing, "in_the_way", bumps)
    ran = run(capsys, "check", job, "--assemble")
    assert ran.code == 1
    assert "PT-2" in ran.out
