"""The kept output of the examples is what `make` writes today, byte for byte, so that anyone can look without running it."""

import json

import pytest

from joinlay.documents.job_folder import RECORD
from joinlay.documents.wanted_sheets import LEAN
from tests.cli.running import run
from tests.house.source import ROOT
from tests.measured.packets import packet

EXAMPLES = sorted((ROOT / "examples").glob("*.toml"))


@pytest.fixture
def made_in(monkeypatch, capsys):
    """Every file that `joinlay make` writes for a job, by its name in the folder.

    The sheets are those that other tests look at too, drawn once in a run by what `make` draws them with. Were they another
    plan's, or another packet's, their bytes would differ.
    """

    def made(folder, job):
        def drawn(plan, printer=None, wanted=LEAN, ahead=None):
            assert printer is None
            return packet(job.stem, None, wanted)

        monkeypatch.setattr("joinlay.documents.packet.packet_for", drawn)
        monkeypatch.chdir(ROOT)
        done = run(capsys, "make", job.relative_to(ROOT), "--out", folder)
        assert done.code == 0, done.out + done.err
        return files_of(folder)

    return made


def files_of(folder):
    """The bytes of every file in a folder, by its name there; of the folder's record all but the way to the job."""
    found = {path.relative_to(folder).as_posix(): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}
    if RECORD in found:
        found[RECORD] = json.dumps(json.loads(found[RECORD])["files"]).encode()
    return found


def test_there_are_examples_in_inches_and_in_millimetres():
    jobs = [job for job in EXAMPLES if not job.name.endswith(".shop.toml")]
    assert len(jobs) >= 2
    texts = [job.read_text(encoding="utf-8") for job in jobs]
    assert any('"inch"' in text for text in texts)
    assert any('"mm"' in text for text in texts)


@pytest.mark.parametrize("job", [job for job in EXAMPLES if not job.name.endswith(".shop.toml")], ids=lambda job: job.stem)
def test_kept_output_is_fresh(job, tmp_path, made_in):
    kept = files_of(ROOT / "templates_out" / job.stem)
    made = made_in(tmp_path / "out", job)
    assert kept, f"templates_out/{job.stem} is empty: run joinlay make {job.relative_to(ROOT)}"
    assert sorted(made) == sorted(kept)
    stale = [name for name in made if made[name] != kept[name]]
    assert stale == [], f"run joinlay make {job.relative_to(ROOT)} again, and look at the pages"


def test_nothing_is_kept_for_a_job_that_is_gone():
    jobs = {job.stem for job in EXAMPLES}
    assert {path.name for path in (ROOT / "templates_out").glob("*") if path.is_dir()} <= jobs
