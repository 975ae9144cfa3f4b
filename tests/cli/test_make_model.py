"""``joinlay make --model``: the piece as a glTF file beside the rest, or a word on how to get the libraries."""

import importlib.util
from io import BytesIO

import pytest
import trimesh

from tests.cli.running import run
from tests.unit.jobs.jobs import GOOD


@pytest.fixture
def job(tmp_path):
    path = tmp_path / "chest.toml"
    path.write_text(GOOD, encoding="utf-8")
    return path


def test_the_model_lies_beside_the_packet_while_it_is_asked_for(job, tmp_path, capsys):
    out = tmp_path / "out"
    assert run(capsys, "make", job, "--out", out, "--model").code == 0
    read = trimesh.load_scene(BytesIO((out / "model.glb").read_bytes()), file_type="glb")
    assert any("left side" in name for name in read.graph.nodes_geometry)
    # Without the wish the next run takes it away again.
    assert run(capsys, "make", job, "--out", out).code == 0
    assert not (out / "model.glb").exists()


def test_without_the_libraries_nothing_is_written(job, tmp_path, capsys, monkeypatch):
    monkeypatch.setattr(importlib.util, "find_spec", lambda _: None)
    ran = run(capsys, "make", job, "--out", tmp_path / "out", "--model")
    assert (ran.code, ran.out) == (2, "")
    assert ran.err == (
        "making a model needs the geometry kernel; install it with: pip install 'joinlay[assembly]'. Nothing was written.\n"
    )
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize("more", [["--count"], ["--only", "front"], ["--chapter", "list"]])
def test_it_goes_with_the_whole_packet_only(job, tmp_path, capsys, more):
    ran = run(capsys, "make", job, "--out", tmp_path / "out", "--model", *more)
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.startswith("--model goes with the whole of make")
    assert not (tmp_path / "out").exists()
