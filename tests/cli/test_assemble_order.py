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
    assert square in lines[: lines.index("Face frame")]
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


def test_each_glue_up_stands_under_the_last_of_its_steps(capsys):
    lines = [line.strip() for line in run(capsys, "assemble", CHEST).out.splitlines()]
    case = next(
        n for n, line in enumerate(lines) if line.startswith("glue-up 1: case: 4 surfaces and 8 clamps: 6 min of the 8 min")
    )
    assert lines[case - 2].startswith("2  Glue the right side")
    assert lines[case + 1].startswith("8 clamps from side to side, 4 along each of the bottom and top")
    assert lines[case + 2].startswith("before: Sand now, while you can reach: the inside faces")
    split = (
        "glue is open; all at once it would take 8 1/2 min; put the rest on without glue meanwhile, to hold "
        "it square; leave it in its clamps"
    )
    assert sum(split in line for line in lines) == 1
    assert "winding: case, two sticks across it, at its front and at its back: no more than 1/32 in out" in lines
    assert any(line.startswith("In time: 5 h 28 min of work in 7 spells on 2 days") for line in lines)
    assert any(line.startswith("day 1, 0:16   2. face frame: loose tenons") for line in lines)
    assert any("can catch fire" in line for line in lines)
    assert any(line.startswith("drawer 1 to 4: Its play between its guides is 1/16 in") for line in lines)


def test_a_step_names_its_glue_up(capsys):
    said = run(capsys, "assemble", CHEST, "--step", "9").out
    assert "glue-up 6: drawers 1 to 4, each by itself" in said
    (parts,) = (line for line in said.splitlines() if line.startswith("  parts: "))
    assert set(parts.removeprefix("  parts: ").split(", ")) == {"back", "left and right side", "bottom", "front"}


def test_glue_ups_for_programs(capsys):
    tree = json.loads(run(capsys, "assemble", CHEST, "--json").out)
    assert [one["number"] for one in tree["glue_ups"]] == list(range(1, 13))
    case = tree["glue_ups"][0]
    assert (case["name"], case["steps"], case["hold"], case["goes"][0]["seconds"]) == ("case", [1, 2], "clamps", 360)
    row = case["goes"][0]["clamps"][0]
    assert (row["along"], row["count"], len(row["places"]), row["reach"]["text"]) == ("case bottom", 4, 4, "37 1/2 in")
    assert {"part": "case bottom", "face": "upper face"} in case["shut_in"]
    assert tree["timetable"]["days"] == 2
    assert tree["timetable"]["slots"][0]["meanwhile"] == [2, 5]
    assert {one["of"] for one in tree["windings"]} >= {"case", "face frame", "drawer 1"}
    assert tree["fitting"][0]["drawers"] == ["drawer 1"]
    assert [one["kind"] for one in tree["findings"]] == ["glue time"]
    one = json.loads(run(capsys, "assemble", CHEST, "--step", "2", "--json").out)
    assert [some["number"] for some in one["glue_ups"]] == [1]


def test_why_answers_for_clamps_minutes_and_winding(capsys):
    said = run(capsys, "why", CHEST, "case clamps").out
    assert said.startswith("case clamps = 8\n  = bottom 4 + top 4   (PT-4, common practice)\n")
    assert "joint line 24 1/2 in / clamp spacing 8 in" in said
    said = run(capsys, "why", CHEST, "drawer 3 minutes").out
    assert said.startswith("drawer 3 minutes = 5 1/2 min\n  = 8 surfaces x 30 s + 3 clamps x 30 s   (PT-3, our own choice)\n")
    assert "the glue is open = 8 min   the usual figure" in said
    said = run(capsys, "why", CHEST, "face frame, first half, minutes").out
    assert "; split, for all at once it would take 8 1/2 min" in said
    said = run(capsys, "why", CHEST, "face frame on the case clamps open at least").out
    assert said.splitlines()[1].startswith("  = face frame on the case wood between the jaws 25 1/2 + 2 x caul thickness 3/4")
    assert run(capsys, "why", CHEST, "drawer 1 may be in winding").out.startswith("drawer 1 may be in winding = 1/32 in\n")
    said = run(capsys, "why", CHEST, "hours of gluing").out
    assert said.startswith("hours of gluing = 5 h 28 min")
    listed = run(capsys, "why", CHEST).out
    assert "case clamps" in listed
    near = run(capsys, "why", CHEST, "case clamp")
    assert near.code == 2
    assert "case clamps" in near.err


def test_why_knows_what_the_bottle_says(capsys, tmp_path):
    job = tmp_path / "chest.toml"
    job.write_text(f'{GOOD}\n[shop]\nglue = {{ open-time = "7 min" }}\n', encoding="utf-8")
    assert "the glue is open = 7 min   written in chest.toml:" in run(capsys, "why", job, "drawer 1 minutes").out


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


def test_wide_parts_are_glued_up_from_boards_first(capsys):
    moth = ROOT / "examples" / "moth-cabinet.toml"
    lines = run(capsys, "assemble", moth).out.splitlines()
    head = lines.index("Before they are cut to size, unless you have boards so wide")
    assert lines[head + 1].startswith(
        "  case left and right side: 3 boards of 147 mm or wider, edge to edge: 5 clamps by turns above and below, 172 mm apart"
    )
    assert lines[head + 1].endswith("the glue wants 1.2 to 1.7 N/mm2")
    said = run(capsys, "why", moth, "case left side edge clamps").out
    assert said.startswith("case left side edge clamps = 5\n  = largest of 2, 5 by the pressure, 3 by 45 degrees")
    (sides, _) = json.loads(run(capsys, "assemble", moth, "--json").out)["glued_panels"]
    assert (sides["boards"], sides["clamps"], sides["pressure_psi"]) == (3, 5, [175, 250])
