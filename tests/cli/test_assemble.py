"""``joinlay check --assemble``: the piece put together in the model."""

import pytest

from joinlay.checks import solids
from joinlay.checks.solids import Overlap
from tests.cli.running import run
from tests.unit.jobs.jobs import GOOD
from tests.unit.jobs.test_whole_piece import JOB, RUNNERS


@pytest.mark.parametrize("text", [GOOD, JOB.format(runners=RUNNERS, more="")], ids=["openings", "whole piece"])
def test_a_sound_job_goes_together(text, tmp_path, capsys):
    job = tmp_path / "chest.toml"
    job.write_text(text, encoding="utf-8")
    plain, assembled = run(capsys, "check", job), run(capsys, "check", job, "--assemble")
    assert (assembled.code, assembled.out) == (plain.code, plain.out)
    assert assembled.code == 0


def test_what_would_be_in_another_part_s_place_is_refused(tmp_path, capsys, monkeypatch):
    job = tmp_path / "chest.toml"
    job.write_text(GOOD, encoding="utf-8")
    monkeypatch.setattr(solids, "overlaps", lambda bodies: (Overlap(bodies[0].name, bodies[1].name, 12.0),))
    ran = run(capsys, "check", job, "--assemble")
    assert ran.code == 1
    assert "CK-8" in ran.out
