"""Paper from the page: the same bytes as ``joinlay make`` writes, one lot at a time, and nothing else to be had."""

from __future__ import annotations

import io
import time
import zipfile
from urllib.parse import quote

import pytest

from tests.cli.running import run
from tests.making import made_once
from tests.unit.bench.asking import JOB, Page, words_of


@pytest.fixture
def page(tmp_path):
    return Page(tmp_path / "under.toml")


@pytest.fixture
def _drawn_once():
    """The packet is drawn once for the page and for ``make``: its files are made by each."""
    with made_once():
        yield


def wait_for(page):
    for _ in range(600):
        if not page.desk.paper.stands.step:
            return page.get("/made").text
        time.sleep(0.05)
    raise AssertionError("it is being made for half a minute")


@pytest.mark.usefixtures("_drawn_once")
def test_the_packet_and_its_files_are_those_of_make(page, tmp_path, capsys):
    assert "is being made" in page.post("/make").text
    found = wait_for(page)
    assert run(capsys, "make", page.path, "--out", tmp_path / "out").code == 0
    made = page.desk.paper.stands.files
    written = {path.name: path.read_bytes() for path in (tmp_path / "out").iterdir() if not path.name.startswith(".")}
    assert {name: made[name] for name in made} == written
    got = page.get("/made/packet.pdf")
    assert got.content == written["packet.pdf"]
    assert got.headers["content-type"] == "application/pdf"
    assert "attachment" in got.headers["content-disposition"]
    assert all(name in found for name in written)


@pytest.mark.usefixtures("_drawn_once")
def test_all_of_it_with_drawings_to_cut_by_and_a_model_is_what_make_writes_when_asked_so(page, tmp_path, capsys):
    page.post("/make", all="yes", dxf="yes", model="yes")
    found = wait_for(page)
    assert run(capsys, "make", page.path, "--out", tmp_path / "out", "--all", "--dxf", "--model").code == 0
    written = {path.name: path.read_bytes() for path in (tmp_path / "out").iterdir() if not path.name.startswith(".")}
    assert dict(page.desk.paper.stands.files) == written
    assert {".dxf", ".glb", ".svg", ".pdf", ".csv", ".json"} == {
        path.suffix for path in (tmp_path / "out").iterdir() if path.suffix
    }
    assert page.get("/made/model.glb").headers["content-type"] == "model/gltf-binary"
    assert "All" in words_of(found)
    whole = page.get("/made/under.zip")
    with zipfile.ZipFile(io.BytesIO(whole.content)) as packed:
        assert {name: packed.read(name) for name in packed.namelist()} == written
    assert page.get("/made/under.zip").content == whole.content


def test_what_can_not_be_written_here_is_said_before_anything_is_made(page, monkeypatch):
    monkeypatch.setattr("importlib.util.find_spec", lambda name: None)
    for kind, extra in (("dxf", "joinlay[dxf]"), ("model", "joinlay[assembly]")):
        assert extra in words_of(page.post("/make", **{kind: "yes"}).text)
        assert not page.desk.paper.stands.step


@pytest.mark.usefixtures("_drawn_once")
def test_one_chapter_and_one_part_are_those_of_make_too(page, tmp_path, capsys):
    page.post("/make", chapter="list")
    wait_for(page)
    assert run(capsys, "make", page.path, "--out", tmp_path / "list", "--chapter", "list").code == 0
    assert page.get("/made/again.pdf").content == (tmp_path / "list" / "again.pdf").read_bytes()
    page.post("/make", part="drawer 1 front")
    wait_for(page)
    assert run(capsys, "make", page.path, "--out", tmp_path / "part", "--only", "drawer 1 front").code == 0
    assert page.get("/made/again.pdf").content == (tmp_path / "part" / "again.pdf").read_bytes()


@pytest.mark.usefixtures("_drawn_once")
def test_what_cannot_be_made_is_said(page):
    page.post("/make", chapter="nowhere")
    assert "nowhere" in wait_for(page)
    page.post("/make", part="drawer 9 front")
    assert "no sheet of that" in words_of(wait_for(page)).casefold()
    page.write(JOB.replace('"11.8"', '"x"'))
    assert "can't be made as it is" in words_of(page.post("/make").text)


def test_what_is_stopped_is_not_there(page):
    page.post("/make")
    assert "is being made" not in page.post("/stop").text
    time.sleep(0.1)
    assert page.desk.paper.stands.files is None
    assert page.get("/made/packet.pdf").status_code == 404


def test_nothing_is_had_that_was_not_made(page):
    for name in ("packet.pdf", "../under.toml", "/etc/passwd", "..%2f..%2fetc%2fpasswd"):
        assert page.get(f"/made/{quote(name, safe='')}").status_code == 404
