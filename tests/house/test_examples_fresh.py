"""The kept output of the examples is what `make` writes today, byte for byte, so that anyone can look without running it."""

import json
import subprocess
import sys

import pytest

from joinlay.documents.job_folder import RECORD
from tests.house.source import ROOT

EXAMPLES = sorted((ROOT / "examples").glob("*.toml"))


def made_in(folder, job):
    """Every file that `joinlay make` writes for a job, by its name in the folder."""
    run = [sys.executable, "-c", "from joinlay.cli import main; main()", "make", str(job.relative_to(ROOT)), "--out", str(folder)]
    done = subprocess.run(run, cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    return files_of(folder)


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
def test_kept_output_is_fresh(job, tmp_path):
    kept = files_of(ROOT / "templates_out" / job.stem)
    made = made_in(tmp_path / "out", job)
    assert kept, f"templates_out/{job.stem} is empty: run joinlay make {job.relative_to(ROOT)}"
    assert sorted(made) == sorted(kept)
    stale = [name for name in made if made[name] != kept[name]]
    assert stale == [], f"run joinlay make {job.relative_to(ROOT)} again, and look at the pages"


def test_nothing_is_kept_for_a_job_that_is_gone():
    jobs = {job.stem for job in EXAMPLES}
    assert {path.name for path in (ROOT / "templates_out").glob("*") if path.is_dir()} <= jobs
