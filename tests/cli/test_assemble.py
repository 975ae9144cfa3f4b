"""``joinlay check --assemble``: the piece put together in the model."""

import re

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
    assert assembled.code == plain.code == 0
    # The same findings, and beside them what was put together and that nothing clashed.
    (more,) = set(assembled.out.splitlines()) - set(plain.out.splitlines())
    assert more.startswith("Put together in the model: ")
    assert re.search(r": [1-9]\d* parts, .*[1-9] drawer", more)
    assert more.endswith("; nothing is in anything else's place or way.")
    assert re.search(r" in [1-9]\d* moves?, ", more)


def test_what_would_be_in_another_part_s_place_is_refused(tmp_path, capsys, monkeypatch):
    job = tmp_path / "chest.toml"
    job.write_text(GOOD, encoding="utf-8")
    monkeypatch.setattr(solids, "overlaps", lambda bodies: (Overlap(bodies[0].name, bodies[1].name, 12.0),))
    ran = run(capsys, "check", job, "--assemble")
    assert ran.code == 1
    assert "CK-8" in ran.out
    assert "; 1 place where parts are in each other's place or way, as said above." in ran.out
