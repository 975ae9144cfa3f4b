"""``joinlay make --dxf``: each template as DXF beside its SVG, or a word on how to get the library."""

import importlib.util

import ezdxf
import pytest

from tests.cli.running import run
from tests.unit.jobs.jobs import GOOD


@pytest.fixture
def job(tmp_path):
    path = tmp_path / "chest.toml"
    path.write_text(GOOD, encoding="utf-8")
    return path


def test_every_template_is_there_in_both(job, tmp_path, capsys):
    out = tmp_path / "out"
    assert run(capsys, "make", job, "--out", out, "--dxf").code == 0
    drawings = sorted(out.glob("*.dxf"))
    assert len(drawings) > 3
    assert [path.stem for path in drawings] == [path.stem for path in sorted(out.glob("*.svg"))]
    assert ezdxf.readfile(drawings[0]).units == 4
    # Without the wish the next run takes them away again.
    assert run(capsys, "make", job, "--out", out).code == 0
    assert list(out.glob("*.dxf")) == []


def test_without_the_library_nothing_is_written(job, tmp_path, capsys, monkeypatch):
    monkeypatch.setattr(importlib.util, "find_spec", lambda _: None)
    ran = run(capsys, "make", job, "--out", tmp_path / "out", "--dxf")
    assert (ran.code, ran.out) == (2, "")
    assert ran.err == "writing DXF needs one more library; install it with: pip install 'joinlay[dxf]'. Nothing was written.\n"
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize("more", [["--count"], ["--only", "front"], ["--pages", "1"]])
def test_it_goes_with_the_whole_packet_only(job, tmp_path, capsys, more):
    ran = run(capsys, "make", job, "--out", tmp_path / "out", "--dxf", *more)
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.startswith("--dxf goes with the whole of make")
    assert not (tmp_path / "out").exists()
