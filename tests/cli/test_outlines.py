"""A maker's own outline from its file to the packet, and what is said where the file is no good."""

import json

import pytest

from tests.cli.running import run, run_alone
from tests.unit.jobs.jobs import GOOD

SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="2in" height="1in" viewBox="0 0 20 10"><path d="M0 0C0 14 20 14 20 0z"/></svg>'
)
TABLE = '\n[[outline]]\nfile = "finger.svg"\non = "drawer front"\npurpose = "finger hole"\nat = { edge = "top edge" }\n'


@pytest.fixture
def job(tmp_path):
    path = tmp_path / "chest.toml"
    path.write_text(GOOD + TABLE, encoding="utf-8")
    (tmp_path / "finger.svg").write_text(SVG, encoding="utf-8")
    return path


def test_its_template_is_among_the_others(job, tmp_path, capsys):
    out = tmp_path / "out"
    assert run(capsys, "make", job, "--out", out, "--dxf").code == 0
    assert "drawer-1-front-finger-hole.svg" in json.loads((out / "plan.json").read_bytes())["files"]
    assert b'<polygon class="shape"' in (out / "drawer-1-front-finger-hole.svg").read_bytes()
    assert b"\nSHAPE\n" in (out / "drawer-1-front-finger-hole.dxf").read_bytes()


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (None, "there is no file 'finger.svg' beside the job"),
        (b"", "finger.svg is empty"),
        (b"\x1f\x8b123", "finger.svg is compressed"),
        (SVG.replace("2in", "200").encode(), "pixels have no size on wood"),
        (b"<!DOCTYPE svg>" + SVG.encode(), "a document type"),
        (SVG.encode() + b" " * 1_000_001, "finger.svg is larger than 1 MB"),
    ],
)
def test_a_file_that_is_no_good_is_said_with_the_job_s_line(job, capsys, content, said):
    drawing = job.with_name("finger.svg")
    drawing.unlink()
    if content is not None:
        drawing.write_bytes(content)
    line = (GOOD + TABLE).splitlines().index('file = "finger.svg"') + 1
    ran = run(capsys, "check", job)
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.startswith(f"chest.toml:{line}: outline 1: ")
    assert said in ran.err


def test_a_folder_in_its_place(job, capsys):
    job.with_name("finger.svg").unlink()
    job.with_name("finger.svg").mkdir()
    assert "is a folder" in run(capsys, "check", job).err


def test_the_reader_of_drawings_is_fetched_only_for_a_job_that_has_one(job):
    code = "import sys\nfrom joinlay.cli import main\ntry:\n    main()\nexcept SystemExit:\n    print('svglib' in sys.modules)"
    assert run_alone("check", job, code=code).out.splitlines()[-1] == "True"
    job.write_text(GOOD, encoding="utf-8")
    assert run_alone("check", job, code=code).out.splitlines()[-1] == "False"
