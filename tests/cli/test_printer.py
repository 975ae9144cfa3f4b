"""``joinlay scale-sheet``, ``joinlay printer`` and ``joinlay make --printer``."""

import errno
import os
import re
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from datetime import date
from pathlib import Path
from threading import Thread

import pdfplumber
import pytest

from joinlay.cli import printer_command
from tests.cli.running import ROOT, run
from tests.measured.reading import said_on
from tests.unit.jobs.jobs import GOOD

ADD = ("printer", "add", "shop laser", "--across", "199.2mm", "--down", "7 31/32 in", "--measured", "2026-11-20")


@pytest.fixture(autouse=True)
def config(tmp_path, monkeypatch):
    """A configuration folder of the test's own, not made yet."""
    folder = tmp_path / "config"
    monkeypatch.setenv("JOINLAY_CONFIG", str(folder))
    return folder


@pytest.fixture
def job(tmp_path):
    path = tmp_path / "work" / "chest.toml"
    path.parent.mkdir()
    path.write_text(GOOD, encoding="utf-8")
    return path


def test_a_scale_sheet_is_written_and_says_what_is_next(tmp_path, capsys):
    out = tmp_path / "scale.pdf"
    ran = run(capsys, "scale-sheet", "--paper", "A4", "--out", out)
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.splitlines()[0] == f"{out} is written."
    assert ran.out.splitlines()[-1] == "  joinlay printer add NAME --paper a4 --across .. --down .."
    (page,) = said_on(out)
    assert "Scale sheet" in page
    assert run(capsys, "scale-sheet", "--paper", "4 x 6 in", "--out", out).err.startswith(
        "4 × 6 in paper is too small for a scale sheet"
    )
    assert run(capsys, "scale-sheet", "--paper", "leter").err.startswith("--paper: there is no paper called 'leter'")


def test_a_scale_sheet_beside_a_job_says_whose_it_is(tmp_path, job, capsys):
    out = tmp_path / "scale.pdf"
    job.write_text(f'maker = "Ada Fir"\ndate = "28 November 2026"\n{job.read_text()}')
    assert run(capsys, "scale-sheet", "--out", out, "--beside", job).code == 0
    assert "made by Ada Fir, 28 November 2026" in " ".join(said_on(out))
    # Paper is measured whether or not the job can be read yet.
    job.write_text("nothing = yet")
    assert run(capsys, "scale-sheet", "--out", out, "--beside", job).code == 0
    assert "made by" not in " ".join(said_on(out))


def test_a_scale_sheet_in_the_folder_one_is_in(tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert run(capsys, "scale-sheet").code == 0
    assert (tmp_path / "scale-sheet.pdf").is_file()


def test_a_printer_is_added_listed_shown_and_forgotten(config, capsys):
    ran = run(capsys, *ADD, "--border", "5 mm")
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.splitlines()[0] == "shop laser on letter: the correction is across +0.4 %, down −1.19 %."
    assert "joinlay scale-sheet --paper letter --printer 'shop laser' proves it" in ran.out
    listed = run(capsys, "printer", "list").out.splitlines()
    assert listed[1].split("   ")[0].strip() == "shop laser"
    assert listed[1].endswith(str(config / "printers.toml"))
    shown = run(capsys, "printer", "show", "Shop  LASER").out
    for said in ("measured 2026-11-20", "199.2 mm of 200 mm", "7 31/32 in of 200 mm", "border", "5 mm"):
        assert said in shown
    ran = run(capsys, "printer", "forget", "shop laser")
    assert ran.out == f"shop laser on letter is forgotten ({config / 'printers.toml'}).\n"
    assert run(capsys, "printer", "list").out.startswith("No printer has been measured yet.")


@pytest.mark.parametrize(
    ("given", "said"),
    [
        (("--across", "199.2mm", "--down", "7 31/32 in"), "Read as across 199.2 mm of 200 mm, down 7 31/32 in of 200 mm."),
        (
            ("--across", "199.2", "--down", "200"),
            "Read as across 199.2 mm of 200 mm, down 200 mm of 200 mm. "
            "A number without a unit was taken in millimetres (--inch for inches).",
        ),
        (
            ("--across", "7 7/8", "--down", "7 7/8", "--inch"),
            "Read as across 7 7/8 in of 200 mm, down 7 7/8 in of 200 mm. "
            "A number without a unit was taken in inches (--metric for millimetres).",
        ),
        (
            ("--across", "200 mm", "--down", "200 mm", "--border", "5"),
            "A number without a unit was taken in millimetres (--inch for inches).",
        ),
    ],
)
def test_it_says_in_which_unit_each_measure_was_taken(capsys, given, said):
    ran = run(capsys, "printer", "add", "laser", *given)
    assert (ran.code, ran.err) == (0, "")
    assert said in ran.out.splitlines()[1]


def test_six_at_once_are_all_kept(config):
    """Each a process of its own: the file is read and written by one of them at once."""
    code, environment = "from joinlay.cli import main; main()", {**os.environ, "PYTHONPATH": str(ROOT)}

    def added(number):
        given = ("printer", "add", f"laser {number}", "--across", "200", "--down", "200")
        return subprocess.run([sys.executable, "-c", code, *given], capture_output=True, check=False, env=environment).returncode

    with ThreadPoolExecutor(6) as pool:
        assert set(pool.map(added, range(6))) == {0}
    text = (config / "printers.toml").read_text()
    assert sorted(re.findall(r'name = "laser (\d+)"', text)) == [str(n) for n in range(6)]
    assert [path.name for path in config.iterdir()] == ["printers.toml"]


def test_one_waits_for_another_that_is_changing_the_file(config):
    """The lock is what holds it: while it is held, a second change waits, and then reads what the first one wrote."""
    seen, path = [], printer_command.printer_file(None)

    def second():
        with printer_command.changing(path):
            seen.append("second")

    with printer_command.changing(path):
        other = Thread(target=second)
        other.start()
        other.join(0.2)
        seen.append("first")
    other.join(10)
    assert seen == ["first", "second"]


def test_measured_again_it_takes_the_place_of_the_old(config, capsys):
    run(capsys, *ADD)
    run(capsys, "printer", "add", "shop laser", "--paper", "a4", "--across", "190", "--down", "200")
    ran = run(capsys, "printer", "add", "SHOP laser", "--across", "200.8", "--down", "200", "--measured", "2027-01-02")
    assert "It was across +0.4 %, down −1.19 %." in ran.out
    text = (config / "printers.toml").read_text()
    assert text.count("[[printer]]") == 2
    assert "2027-01-02" in text
    assert "2026-11-20" not in text
    assert run(capsys, "printer", "forget", "shop laser", "--paper", "a4").out.startswith("shop laser on A4 is forgotten")
    assert (config / "printers.toml").read_text().count("[[printer]]") == 1


def test_the_day_is_today_s_unless_given(config, capsys, monkeypatch):
    run(capsys, "printer", "add", "laser", "--across", "200", "--down", "200")
    assert f"measured = {date.today().isoformat()}" in (config / "printers.toml").read_text()


def test_what_the_measures_tell_is_said(capsys):
    both = ("printer", "add", "laser", "--measured", "2026-11-20")
    assert "Both bars measure true" in run(capsys, *both, "--across", "200.1", "--down", "199.9").out
    assert "The bar down is true" in run(capsys, *both, "--across", "199.2", "--down", "199.9").out
    skew = run(capsys, *both, "--across", "200.0", "--down", "200.0", "--rising-diagonal", "200.8", "--falling-diagonal", "199.2")
    assert "prints 2.3 mm to the right over a letter sheet (skew)" in skew.out
    slip = run(capsys, *both, "--across", "200.0", "--down", "200.0", "--rising-diagonal", "202.0", "--falling-diagonal", "202.0")
    assert "The diagonals are 2 mm longer than the two bars let expect" in slip.out


@pytest.mark.parametrize(
    ("given", "said"),
    [
        (("--across", "192", "--down", "200"), "--across: 192 is 4 % shorter than the 200 mm that was drawn; the most is 3 %"),
        (("--across", "200", "--down", "x"), "'x' cannot be read as a length"),
        (
            ("--across", "200", "--down", "200", "--measured", "20/11/2026"),
            "--measured '20/11/2026' is no day; write it as 2026-11-20.",
        ),
        (("--across", "200", "--down", "200", "--paper", "a9"), "--paper: there is no paper called 'a9'"),
        (("--across", "200", "--down", "200", "--border", "90"), "--border: a border of 90 mm leaves too little"),
        (("--across", "200", "--down", "200", "--rising-diagonal", "200"), "--falling-diagonal is missing"),
        (("--across", "200"), "Missing option"),
    ],
)
def test_what_cannot_be_keeps_nothing(config, capsys, given, said):
    ran = run(capsys, "printer", "add", "laser", *given)
    assert (ran.code, ran.out) == (2, "")
    assert said in ran.err
    assert not config.exists()


def test_a_name_that_is_none(config, capsys):
    assert "is no name for a printer" in run(capsys, "printer", "add", "  ", "--across", "200", "--down", "200").err
    assert "is no name for a printer" in run(capsys, "printer", "add", "x" * 200, "--across", "200", "--down", "200").err
    unseen = run(capsys, "printer", "add", "x\ty" * 20, "--across", "200", "--down", "200")
    assert unseen.code == 2
    assert "none that cannot be seen. Write it without them" in unseen.err


def test_an_unknown_printer_says_the_nearest_and_how_to_add_it(job, capsys):
    run(capsys, *ADD)
    for command in (("printer", "show"), ("printer", "forget"), ("make", job, "--printer"), ("scale-sheet", "--printer")):
        ran = run(capsys, *command, "shop lazer")
        assert ran.code == 2
        assert "there is no printer called 'shop lazer'. The nearest is shop laser. To add it" in ran.err
        assert "joinlay printer add 'shop lazer' --paper letter --across .. --down .." in ran.err


def test_make_corrects_every_sheet_and_says_so(job, tmp_path, capsys):
    run(capsys, *ADD)
    assert run(capsys, "make", job, "--out", tmp_path / "plain").code == 0
    ran = run(capsys, "make", job, "--out", tmp_path / "out", "--printer", "shop laser")
    assert (ran.code, ran.err) == (0, "")
    with (
        pdfplumber.open(tmp_path / "plain" / "packet.pdf") as plain,
        pdfplumber.open(tmp_path / "out" / "packet.pdf") as corrected,
    ):
        for before, after in zip(plain.pages, corrected.pages, strict=True):
            assert (before.width, before.height) == (after.width, after.height)
    for text in said_on(tmp_path / "out" / "packet.pdf"):
        assert "shop laser" in text
        assert "2026-11-20" in text
        assert "across +0.4 %" in text
    assert not any("shop laser" in page for page in said_on(tmp_path / "plain" / "packet.pdf"))


def test_the_job_names_its_printer(job, tmp_path, capsys):
    job.write_text(f'{GOOD}\n[paper]\nprinter = "shop laser"\n', encoding="utf-8")
    ran = run(capsys, "make", job, "--out", tmp_path / "out")
    assert ran.code == 2
    assert ran.err.startswith(f"chest.toml:{GOOD.count(chr(10)) + 3}: paper, printer: there is no printer called 'shop laser'.")
    run(capsys, *ADD)
    assert run(capsys, "make", job, "--out", tmp_path / "out").code == 0
    assert all("shop laser" in page for page in said_on(tmp_path / "out" / "packet.pdf"))


def test_a_paper_it_was_not_measured_with(job, tmp_path, capsys):
    run(capsys, *ADD)
    ran = run(capsys, "make", job, "--out", tmp_path / "out", "--printer", "shop laser", "--paper", "a4")
    assert ran.code == 2
    assert "--printer: 'shop laser' was measured with letter, not with a4" in ran.err
    assert "joinlay scale-sheet --paper a4" in ran.err


def test_the_printer_s_border_is_the_paper_s_unless_the_job_has_one(job, tmp_path, capsys):
    run(capsys, *ADD, "--border", "12 mm")
    run(capsys, "make", job, "--out", tmp_path / "out", "--printer", "shop laser")
    assert '"letter, border 12 mm"' in (tmp_path / "out" / "plan.json").read_text()
    job.write_text(f'{GOOD}\n[paper]\nborder = "5 mm"\n', encoding="utf-8")
    run(capsys, "make", job, "--out", tmp_path / "out", "--printer", "shop laser")
    assert '"letter, border 5 mm"' in (tmp_path / "out" / "plan.json").read_text()


@pytest.mark.parametrize("words", [ADD, ("printer", "list"), ("printer", "forget", "shop laser"), ("scale-sheet",)])
def test_nothing_is_kept_beside_a_job_that_is_not_there(job, tmp_path, capsys, config, words):
    ran = run(capsys, *words, "--beside", job.parent / "crest.toml")
    assert ran.code == 2
    assert f"there is no file {job.parent / 'crest.toml'}; the nearest is {job}." in " ".join(ran.err.split())
    assert list(job.parent.iterdir()) == [job]


def test_one_kept_beside_the_job_goes_first(job, tmp_path, capsys, config):
    run(capsys, *ADD)
    beside = (*ADD[:3], "--across", "201mm", "--down", "200mm", "--measured", "2026-12-01", "--beside", job)
    assert run(capsys, *beside).code == 0
    assert (job.parent / "printers.toml").is_file()
    run(capsys, "make", job, "--out", tmp_path / "out", "--printer", "shop laser")
    assert all("2026-12-01" in page for page in said_on(tmp_path / "out" / "packet.pdf"))
    assert run(capsys, "printer", "list", "--beside", job).out.count("shop laser") == 2
    assert run(capsys, "printer", "list").out.count("shop laser") == 1
    run(capsys, "printer", "forget", "shop laser")
    ran = run(capsys, "printer", "forget", "shop laser", "--beside", job)
    assert ran.code == 0
    assert run(capsys, "printer", "list", "--beside", job).out.startswith("No printer")


@pytest.mark.parametrize(
    ("environment", "folder"),
    [
        ({"XDG_CONFIG_HOME": "/etc/xdg-mine"}, "/etc/xdg-mine/joinlay"),
        ({"XDG_CONFIG_HOME": "not/absolute", "HOME": "/home/ann"}, "/home/ann/.config/joinlay"),
        ({"HOME": "/home/ann"}, "/home/ann/.config/joinlay"),
        ({"JOINLAY_CONFIG": "/tmp/own", "XDG_CONFIG_HOME": "/etc/xdg"}, "/tmp/own"),
    ],
)
def test_where_the_user_s_printers_are_kept(monkeypatch, environment, folder):
    for name in ("JOINLAY_CONFIG", "XDG_CONFIG_HOME", "HOME"):
        monkeypatch.delenv(name, raising=False)
    for name, value in environment.items():
        monkeypatch.setenv(name, value)
    monkeypatch.setattr("sys.platform", "linux")
    assert printer_command.config_folder() == Path(folder)


@pytest.mark.parametrize(
    ("platform", "environment", "folder"),
    [
        ("darwin", {}, "/home/ann/Library/Application Support/joinlay"),
        ("win32", {}, "/home/ann/AppData/Roaming/joinlay"),
        ("win32", {"APPDATA": "/data/roaming"}, "/data/roaming/joinlay"),
    ],
)
def test_where_they_are_kept_on_other_systems(monkeypatch, platform, environment, folder):
    for name in ("JOINLAY_CONFIG", "XDG_CONFIG_HOME", "APPDATA"):
        monkeypatch.delenv(name, raising=False)
    for name, value in {"HOME": "/home/ann", **environment}.items():
        monkeypatch.setenv(name, value)
    monkeypatch.setattr("sys.platform", platform)
    assert printer_command.config_folder() == Path(folder)


def test_a_file_that_cannot_be_understood_is_left_alone(config, capsys):
    config.mkdir()
    (config / "printers.toml").write_text("mine, not yours")
    ran = run(capsys, *ADD)
    assert (ran.code, ran.out) == (2, "")
    assert "this is not TOML" in ran.err
    assert (config / "printers.toml").read_text() == "mine, not yours"


@pytest.mark.parametrize("fault", ["fsync", "replace"])
def test_nothing_is_lost_where_writing_fails(config, capsys, monkeypatch, fault):
    run(capsys, *ADD)
    before = (config / "printers.toml").read_bytes()

    def full(*given):
        raise OSError(errno.ENOSPC, "No space left on device")

    if fault == "fsync":
        monkeypatch.setattr(os, "fsync", full)
    else:
        monkeypatch.setattr(Path, "replace", full)
    ran = run(capsys, "printer", "add", "other", "--across", "200", "--down", "200")
    monkeypatch.undo()
    assert ran.code == 2
    assert "the disk is full" in ran.err
    assert (config / "printers.toml").read_bytes() == before
    assert [path.name for path in config.iterdir()] == ["printers.toml"]


def test_a_folder_where_the_file_should_be(config, capsys):
    (config / "printers.toml").mkdir(parents=True)
    ran = run(capsys, "printer", "list")
    assert ran.code == 2
    assert "is a folder" in ran.err
