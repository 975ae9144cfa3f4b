"""``joinlay make``: everything a job gives, written whole or not at all."""

import csv
import errno
import io
import json
import os
import re

import pdfplumber
import pytest

from joinlay.cli import make_command
from joinlay.documents.job_files import free_name
from joinlay.documents.job_folder import RECORD
from tests.cli.running import run, run_alone
from tests.making import made_anew
from tests.measured.reading import said_on
from tests.unit.documents.odd_jobs import BOX
from tests.unit.jobs.jobs import GOOD


@pytest.fixture
def job(tmp_path):
    path = tmp_path / "chest.toml"
    path.write_text(GOOD, encoding="utf-8")
    return path


@pytest.fixture
def out(tmp_path):
    return tmp_path / "out"


def held_in(folder):
    return {path.name: path.read_bytes() for path in folder.iterdir()}


def test_it_writes_the_packet_the_templates_the_list_and_the_plan(job, out, capsys):
    ran = run(capsys, "make", job, "--out", out)
    assert (ran.code, ran.err) == (0, "")
    held = held_in(out)
    lists = {"packet.pdf", "cutting-list.csv", "plan.json", RECORD}
    assert lists < set(held)
    others = set(held) - lists
    assert "drawer-1-front-left-and-right-end.svg" in others
    assert all(name.endswith(".svg") for name in others)
    assert ran.out.splitlines()[0] == f"Seed chest: {len(held)} files in {out}"
    assert json.loads(held["plan.json"])["files"] == sorted(held)
    with pdfplumber.open(out / "packet.pdf") as pdf:
        said = f"Next: print packet.pdf ({len(pdf.pages)} sheets of letter) at actual size"
    assert ran.out.splitlines()[-1].startswith(said)
    assert json.loads(held["plan.json"])["files"] == sorted(held)
    with pdfplumber.open(out / "packet.pdf") as pdf:
        assert float(pdf.pages[0].width) == 612
    rows = list(csv.reader(io.StringIO(held["cutting-list.csv"].decode("utf-8-sig"))))
    assert len(rows) > 5


def test_running_it_again_gives_the_same_bytes(job, out, tmp_path, capsys):
    with made_anew(make_command):
        run(capsys, "make", job, "--out", out)
    run(capsys, "make", job, "--out", tmp_path / "again")
    assert held_in(out) == held_in(tmp_path / "again")


#: With a second process, which does all that may be shared, or without one, whatever the machine has.
SHARED = """
import os
from joinlay.documents import second_core
second_core.has_second_core = lambda: {has}
first, taken = os.getpid(), second_core.SecondCore._taken
second_core.SecondCore._taken = lambda self: None if os.getpid() == first else taken(self)
os.register_at_fork(after_in_parent=lambda: os.write(2, b"split"))
from joinlay.cli import main
main()
"""


def test_a_second_core_changes_no_byte(tmp_path):
    job = tmp_path / "box.toml"
    job.write_text(BOX, encoding="utf-8")
    for has, said in ((True, "split"), (False, "")):
        ran = run_alone("make", job, "--out", tmp_path / str(has), code=SHARED.format(has=has))
        assert (ran.code, ran.err) == (0, said)
    assert len(held_in(tmp_path / "True")) > 10
    assert held_in(tmp_path / "True") == held_in(tmp_path / "False")


def test_it_goes_to_templates_out_unless_told(job, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    assert run(capsys, "make", "chest.toml").code == 0
    assert (tmp_path / "templates_out" / "chest" / "packet.pdf").is_file()


def test_paper(job, out, capsys):
    assert run(capsys, "make", job, "--out", out, "--paper", "A4").code == 0
    with pdfplumber.open(out / "packet.pdf") as pdf:
        assert float(pdf.pages[0].width) == pytest.approx(595.28, abs=0.01)
    assert json.loads((out / "plan.json").read_bytes())["paper"] == "a4"
    ran = run(capsys, "make", job, "--out", out, "--paper", "a9")
    assert ran.code == 2
    assert ran.err.startswith("--paper: there is no paper called 'a9'")


def test_the_number_of_sheets_is_said_and_nothing_written(job, out, capsys):
    ran = run(capsys, "make", job, "--out", out, "--count")
    assert ran.code == 0
    assert not out.exists()
    run(capsys, "make", job, "--out", out)
    pages = said_on(out / "packet.pdf")
    assert ran.out.startswith(f"Seed chest: {len(pages)} sheets of letter\n")
    assert "Machine settings" in ran.out


def test_everything_takes_more_paper_and_a_chapter_less(job, out, capsys):
    lean, everything, gauges = (
        run(capsys, "make", job, "--count", *more).out for more in ((), ("--all",), ("--chapter", "gauges"))
    )
    many = [int(re.findall(r": (\d+) sheets? of letter", said)[0]) for said in (lean, everything, gauges)]
    assert many[2] < many[0] < many[1]
    assert "Gauges" not in lean
    assert "Gauges to set by" in everything
    assert not out.exists()


def test_chapters_are_printed_beside_the_packet(job, out, capsys):
    run(capsys, "make", job, "--out", out)
    before = held_in(out)
    before.pop(RECORD)
    ran = run(capsys, "make", job, "--out", out, "--chapter", "gauges", "--chapter", "sticks")
    assert ran.code == 0
    pages = said_on(out / "again.pdf")
    assert ran.out.startswith(f"Seed chest: sheets {', '.join(str(n + 1) for n in range(len(pages)))} (")
    assert f"1 of {len(pages)}" in pages[0]
    assert {name: held for name, held in held_in(out).items() if name not in ("again.pdf", RECORD)} == before


def test_all_of_it_is_bound_where_that_is_wished(job, out, capsys):
    run(capsys, "make", job, "--out", out, "--all")
    assert any("gauge for the" in page for page in said_on(out / "packet.pdf"))
    run(capsys, "make", job, "--out", out)
    assert not any("gauge for the" in page for page in said_on(out / "packet.pdf"))


def test_some_sheets_once_more(job, out, capsys):
    run(capsys, "make", job, "--out", out)
    before, whole = held_in(out), said_on(out / "packet.pdf")
    before.pop(RECORD)
    ran = run(capsys, "make", job, "--out", out, "--pages", "2-3, 5")
    assert ran.out.startswith(f"Seed chest: sheets 2, 3, 5 (3 sheets of letter) in {out / 'again.pdf'}\n")
    assert "has changed" not in ran.out
    assert said_on(out / "again.pdf") == [whole[1], whole[2], whole[4]]
    assert {name: held for name, held in held_in(out).items() if name not in ("again.pdf", RECORD)} == before


def test_the_templates_of_one_part_once_more(job, out, capsys):
    run(capsys, "make", job, "--out", out)
    whole = said_on(out / "packet.pdf")
    ran = run(capsys, "make", job, "--out", out, "--only", "drawer 1 Left Side")
    assert ran.code == 0
    pages = said_on(out / "again.pdf")
    assert 0 < len(pages) < len(whole)
    # A section of its joints serves the right side too, and says so.
    assert all(("left side" in page or "left and right" in page) and page in whole for page in pages)
    assert run(capsys, "make", job, "--out", out, "--only", "drawer 1").code == 0
    assert len(said_on(out / "again.pdf")) > len(pages)


def test_sheets_of_a_job_that_has_changed_are_not_mixed_unseen(job, out, capsys):
    run(capsys, "make", job, "--out", out)
    job.write_text(GOOD.replace("18 3/8", "19 3/8"), encoding="utf-8")
    assert "has changed since the packet" in run(capsys, "make", job, "--out", out, "--pages", "1").out


@pytest.mark.parametrize(
    ("given", "says"),
    [
        (("--pages", "two"), "--pages: 'two' is not the number of a sheet"),
        (("--pages", ""), "--pages: '' is not the number of a sheet"),
        (("--pages", "1-999"), "--pages: 1-999: the packet's sheets are numbered 1 to "),
        (("--pages", "3-2"), "--pages: 3-2: the packet's sheets are numbered 1 to "),
        (("--only", "drawer 1 frnt"), "--only: there is no part called 'drawer 1 frnt' in chest.toml; near it: drawer 1 front"),
        (("--chapter", "gages"), "--chapter: there is no chapter called 'gages'; near it: gauges"),
        (("--chapter", "gauges", "--all"), "--chapter prints the whole of a chapter: leave out --all"),
        (("--chapter", "gauges", "--pages", "1"), "--chapter prints the whole of a chapter: leave out --all"),
        (("--only", " "), "--only: there is no part called ' ' in chest.toml"),
        (("--only", "drawer 1 bottom"), "--only: 'drawer 1 bottom' has no template"),
    ],
)
def test_sheets_that_cannot_be_chosen(job, out, capsys, given, says):
    ran = run(capsys, "make", job, "--out", out, *given)
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.startswith(says)
    assert not out.exists()


def test_what_an_earlier_run_made_and_this_one_does_not_goes(job, out, capsys):
    more = "\n[[drawer]]\nopening = { width = 16, height = 5, depth = 20 }\n"
    job.write_text(GOOD + more, encoding="utf-8")
    run(capsys, "make", job, "--out", out)
    assert (out / "drawer-2-front-left-and-right-end.svg").exists()
    (out / "mine.svg").write_text("mine")
    job.write_text(GOOD, encoding="utf-8")
    run(capsys, "make", job, "--out", out)
    assert not (out / "drawer-2-front-left-and-right-end.svg").exists()
    assert (out / "mine.svg").read_text() == "mine"


@pytest.mark.parametrize(
    "left", [b"", b"[]", b"\xff", b'{"files": 3}', b'{"files": ["../mine.txt", "/etc/x", "..", 3, ""]}', b"[" * 9999]
)
def test_a_plan_that_is_not_ours_takes_nothing_away(job, out, tmp_path, capsys, left):
    (tmp_path / "mine.txt").write_text("mine")
    out.mkdir()
    (out / "plan.json").write_bytes(left)
    ran = run(capsys, "make", job, "--out", out)
    assert ran.code == 2
    assert "plan.json would be written over. Nothing was written. Name another folder with --out" in ran.err
    assert held_in(out) == {"plan.json": left}
    assert run(capsys, "make", job, "--out", out, "--force").code == 0
    assert (tmp_path / "mine.txt").read_text() == "mine"


def test_what_is_refused_writes_nothing(job, out, capsys):
    job.write_text(GOOD.replace('nominal = "1/2"\nmeasured = 0.483', 'nominal = "1/8"'), encoding="utf-8")
    ran = run(capsys, "make", job, "--out", out)
    assert (ran.code, ran.out) == (1, "")
    assert ran.err.startswith("Seed chest: nothing was written, since this was refused:\n\nrefused  drawer 1")
    assert not out.exists()


def test_what_cannot_be_used_writes_nothing(job, out, capsys):
    job.write_text(GOOD + "x = 1\n", encoding="utf-8")
    assert run(capsys, "make", job, "--out", out).code == 2
    assert not out.exists()


def test_a_full_disk_leaves_the_old_files_whole(job, out, capsys, monkeypatch):
    run(capsys, "make", job, "--out", out)
    before = held_in(out)
    job.write_text(GOOD.replace("18 3/8", "19 3/8"), encoding="utf-8")
    calls, as_usual = [], os.fsync

    def fsync(file):
        calls.append(file)
        if len(calls) == 3:
            raise OSError(errno.ENOSPC, "No space left on device")
        as_usual(file)

    monkeypatch.setattr(os, "fsync", fsync)
    ran = run(capsys, "make", job, "--out", out)
    assert (ran.code, ran.out) == (2, "")
    assert ran.err == f"{out} cannot be written: the disk is full. What was there before is untouched.\n"
    assert held_in(out) == before
    monkeypatch.undo()
    assert run(capsys, "make", job, "--out", out).code == 0
    assert held_in(out) != before


def test_an_out_folder_that_is_none(job, capsys):
    ran = run(capsys, "make", job, "--out", job)
    assert (ran.code, ran.out) == (2, "")
    assert "a file" in ran.err
    assert job.read_text(encoding="utf-8") == GOOD


def test_two_templates_never_share_a_file():
    assert free_name("a.svg", {}) == "a.svg"
    assert free_name("a.svg", {"a.svg": b"", "a-2.svg": b""}) == "a-3.svg"


def test_names_that_come_to_the_same_file_each_get_one(job, out, capsys):
    twins = GOOD + 'name = "a b"\n\n[[drawer]]\nname = "a-b"\nopening = { width = 15, height = 5, depth = 20 }\n'
    job.write_text(twins, encoding="utf-8")
    run(capsys, "make", job, "--out", out)
    names = json.loads((out / "plan.json").read_bytes())["files"]
    assert len([name for name in names if name.startswith("drawer-a-b-front-left-and-right-end")]) == 2


def test_a_roll_and_the_sheets_beside_it_are_counted_apart(job, out, capsys):
    ran = run(capsys, "make", job, "--paper", "24 in roll", "--out", out)
    said = ran.out.splitlines()[-1]
    with pdfplumber.open(out / "packet.pdf") as pdf:
        on_the_roll = sum(float(page.width) > 1700 for page in pdf.pages)
        sheets = len(pdf.pages) - on_the_roll
    assert on_the_roll > 0
    assert said.startswith(f"Next: print packet.pdf ({sheets} sheets of letter and {on_the_roll} of 24 in roll) at actual size")
