"""A folder is a job's own, or nothing in it is written over or taken away; and what lies in it is of one plan, or it is said."""

import hashlib
import json
import os
import subprocess
import sys

import pytest

from joinlay.documents import writing
from joinlay.documents.job_file import job_in
from joinlay.documents.job_folder import RECORD, FolderRecord, keep_in, record_in, way_to
from joinlay.documents.plan_mark import mark_in, plan_mark
from joinlay.errors import BadInput
from joinlay.jobs.planning import plan
from tests.cli.running import run, run_alone
from tests.measured.reading import said_on
from tests.unit.jobs.jobs import GOOD

FIRST = {"packet.pdf": b"first", "a.svg": b"a", "b.svg": b"b"}
SECOND = {"packet.pdf": b"second", "a.svg": b"a2", "c.svg": b"c"}


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "out"


def held_in(folder):
    return {path.name: path.read_bytes() for path in folder.iterdir() if path.name != RECORD}


def whole(folder, job, files, **more):
    return keep_in(folder, job, files, is_whole=True, **more)


def test_a_run_of_the_same_job_takes_away_what_is_no_more(tmp_path, folder):
    job = tmp_path / "chest.toml"
    whole(folder, job, FIRST)
    (folder / "mine.txt").write_bytes(b"mine")
    assert whole(folder, job, SECOND) == ("b.svg",)
    assert held_in(folder) == {**SECOND, "mine.txt": b"mine"}


def test_another_jobs_folder_is_left_alone_unless_forced(tmp_path, folder):
    one, other = tmp_path / "p1" / "chest.toml", tmp_path / "p2" / "chest.toml"
    whole(folder, one, FIRST)
    before = held_in(folder)
    with pytest.raises(BadInput, match=r"the folder of another job \(\.\./p1/chest\.toml\).*--out.*--force"):
        whole(folder, other, SECOND)
    with pytest.raises(BadInput, match="another job"):
        keep_in(folder, other, {"again.pdf": b"x"}, is_whole=False)
    assert held_in(folder) == before
    whole(folder, other, SECOND, is_forced=True)
    assert held_in(folder) == SECOND
    with pytest.raises(BadInput, match="another job"):
        whole(folder, one, FIRST)


def test_a_file_the_maker_put_there_is_not_written_over(tmp_path, folder):
    folder.mkdir()
    (folder / "packet.pdf").write_bytes(b"the maker's own")
    with pytest.raises(
        BadInput, match=r"holds what this job did not make; packet\.pdf would be written over\. Nothing was written"
    ):
        whole(folder, tmp_path / "chest.toml", FIRST)
    assert held_in(folder) == {"packet.pdf": b"the maker's own"}


@pytest.mark.parametrize("name", ["packet.pdf", "a.svg", "b.svg"])
def test_a_file_the_maker_changed_since_is_neither_written_over_nor_taken_away(tmp_path, folder, name):
    job = tmp_path / "chest.toml"
    whole(folder, job, FIRST)
    (folder / name).write_bytes(b"with a remark of mine")
    if name in SECOND:
        with pytest.raises(BadInput, match=f"{name} would be written over"):
            whole(folder, job, SECOND)
    else:
        whole(folder, job, SECOND)
    assert (folder / name).read_bytes() == b"with a remark of mine"


def test_what_is_the_same_already_may_be_there(tmp_path, folder):
    folder.mkdir()
    (folder / "a.svg").write_bytes(b"a")
    whole(folder, tmp_path / "chest.toml", FIRST)
    assert held_in(folder) == FIRST


@pytest.mark.parametrize("stop", range(1, 8))
def test_a_run_stopped_anywhere_leaves_nothing_behind_for_the_next(tmp_path, folder, stop, monkeypatch):
    job = tmp_path / "chest.toml"
    whole(folder, job, FIRST)
    code = f"""
import os, sys
from pathlib import Path
from joinlay.documents.job_folder import keep_in
calls = []
as_usual = Path.replace
def replace(self, target):
    calls.append(target)
    if len(calls) == {stop}:
        os._exit(9)  # as a pulled plug would
    return as_usual(self, target)
Path.replace = replace
keep_in(Path(sys.argv[1]), Path(sys.argv[2]), {SECOND!r}, is_whole=True)
"""
    done = subprocess.run([sys.executable, "-c", code, str(folder), str(job)], check=False)
    assert done.returncode in (0, 9)
    third = {"packet.pdf": b"third"}
    whole(folder, job, third)
    assert held_in(folder) == third
    record = record_in(folder)
    assert record is not None
    assert set(record.files) == set(third)


def test_the_passing_file_of_a_run_that_is_going_stays(folder):
    folder.mkdir()
    dead = subprocess.Popen([sys.executable, "-c", ""])
    dead.wait()
    going, gone, mine = f".joinlay-{os.getppid()}-0-0.part", f".joinlay-{dead.pid}-0-0.part", ".joinlay-notes.part"
    for name in (going, gone, mine):
        (folder / name).write_bytes(b"")
    writing.write_whole(folder / "x", b"")
    assert {path.name for path in folder.iterdir()} == {going, mine, "x"}


@pytest.mark.parametrize(
    "left",
    [b"", b"[]", b"\xff", b'{"job": 3, "files": {}}', b'{"job": "x", "files": {"a": [3]}}', b'{"job": "x"}', b"[" * 9999],
)
def test_a_record_that_cannot_be_understood_is_none(tmp_path, folder, left):
    folder.mkdir()
    (folder / RECORD).write_bytes(left)
    assert record_in(folder) is None
    with pytest.raises(BadInput, match="Nothing was written"):
        whole(folder, tmp_path / "chest.toml", {RECORD: b"x", **FIRST})
    whole(folder, tmp_path / "chest.toml", FIRST)
    assert held_in(folder) == FIRST


def test_a_record_leads_to_no_file_elsewhere(tmp_path, folder):
    (tmp_path / "mine.txt").write_bytes(b"mine")
    folder.mkdir()
    job = tmp_path / "chest.toml"
    digest = hashlib.sha256(b"mine").hexdigest()
    names = {name: [digest] for name in ("../mine.txt", str(tmp_path / "mine.txt"), "..", "")}
    (folder / RECORD).write_text(json.dumps({"job": way_to(job, folder), "files": names}))
    whole(folder, job, FIRST)
    assert (tmp_path / "mine.txt").read_bytes() == b"mine"


def test_a_record_is_the_same_bytes_each_time():
    files = {"b": frozenset({"2", "1"}), "a": frozenset({"3"})}
    assert FolderRecord("j", files).content() == FolderRecord("j", dict(reversed(files.items()))).content()


# -- the plan's mark -----------------------------------------------------------------------------------


def marked(tmp_path, text, name="chest.toml"):
    path = tmp_path / name
    path.write_text(text, encoding="utf-8")
    return plan_mark(plan(job_in(path)))


def test_the_mark_is_that_of_what_is_made(tmp_path):
    mark = marked(tmp_path, GOOD)
    assert len(mark) == 8
    assert set(mark) <= set("0123456789ABCDEFGHJKMNPQRSTVWXYZ")
    assert marked(tmp_path, f"# a remark\n\n{GOOD}") == mark, "a line more is no other plan"
    assert marked(tmp_path, GOOD, "copy.toml") == mark
    others = {
        marked(tmp_path, GOOD.replace("18 3/8", "18 13/32")),
        marked(tmp_path, GOOD.replace("0.483", "0.484")),
        marked(tmp_path, f"{GOOD}\n[shop]\nkerf = '3/32'\n"),
        marked(tmp_path, f"{GOOD}\n[[offcut]]\nstock = 'birch'\nlength = 40\nwidth = 20\n"),
        marked(tmp_path, f"{GOOD}\n[sawing]\nfirst-cut = 'crosscut'\n"),
        marked(tmp_path, f"{GOOD}\n[paper]\nsize = 'a4'\n"),
    }
    assert len(others | {mark}) == 7


def test_every_file_of_a_packet_carries_the_mark_and_every_sheet(tmp_path, capsys):
    mark = marked(tmp_path, GOOD)
    out = tmp_path / "out"
    assert run(capsys, "make", tmp_path / "chest.toml", "--out", out, "--dxf", "--model").code == 0
    files = [path for path in out.iterdir() if path.name != RECORD]
    assert {path.suffix for path in files} == {".pdf", ".svg", ".dxf", ".csv", ".json", ".glb"}
    assert {path.name: mark_in(path) for path in files} == {path.name: mark for path in files}
    assert [n for n, words in enumerate(said_on(out / "packet.pdf"), 1) if mark not in words] == []
    ran = run(capsys, "check", tmp_path / "chest.toml", "--packet", out)
    assert (ran.code, "they go together" in ran.out) == (0, True)
    marked(tmp_path, GOOD.replace("18 3/8", "18 13/32"))
    ran = run(capsys, "check", tmp_path / "chest.toml", "--packet", out)
    assert ran.code == 1
    assert f"{len(files)} files of {len(files)}" in ran.out
    assert f"  packet.pdf: {mark}" in ran.out
    told = json.loads(run(capsys, "check", tmp_path / "chest.toml", "--packet", out, "--json").out)
    assert (told["is_of_one_plan"], told["files"]["packet.pdf"]) == (False, mark)
    assert run(capsys, "check", tmp_path / "chest.toml", "--packet", tmp_path / "nowhere").code == 2


def test_no_date_from_outside_changes_a_byte(tmp_path, monkeypatch):
    """In processes of their own: libraries ask for the date when they are first fetched."""
    (tmp_path / "chest.toml").write_text(GOOD, encoding="utf-8")
    made = []
    for date in (None, "1234567890", "no date"):
        if date is None:
            monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
        else:
            monkeypatch.setenv("SOURCE_DATE_EPOCH", date)
        out = tmp_path / str(date)
        ran = run_alone("make", tmp_path / "chest.toml", "--out", out, "--dxf", "--model")
        assert (ran.code, ran.err) == (0, "")
        made.append({path.name: path.read_bytes() for path in out.iterdir()})
    assert made[0] == made[1] == made[2]
