"""``joinlay look``: the page is there when the address is shown, and gone at once after Ctrl+C."""

from __future__ import annotations

import io
import signal
import socket
import subprocess
import sys
import time
import urllib.request

import pytest

from tests.cli.running import ROOT, run


def test_the_page_is_there_when_its_address_is_shown_and_ends_at_once(tmp_path):
    job = tmp_path / "chest.toml"
    job.write_bytes((ROOT / "examples" / "print-chest.toml").read_bytes())
    command = [sys.executable, "-m", "joinlay", "look", str(job)]
    with subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as running:
        try:
            assert running.stdout is not None
            said = [running.stdout.readline() for _ in range(5)]
            address = said[2].strip()
            assert address.startswith("http://127.0.0.1:")
            with urllib.request.urlopen(address, timeout=30) as page:
                assert b"Print chest" in page.read()
            running.send_signal(signal.SIGINT)
            before = time.monotonic()
            assert running.wait(10) == 0
            assert time.monotonic() - before < 5
            assert running.stderr is not None
            assert running.stderr.read() == ""
        finally:
            running.kill()
    assert job.read_bytes() == (ROOT / "examples" / "print-chest.toml").read_bytes()


def test_a_port_that_is_taken_is_said(capsys, tmp_path):
    job = tmp_path / "chest.toml"
    job.write_bytes((ROOT / "examples" / "print-chest.toml").read_bytes())
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        ran = run(capsys, "look", job, "--port", other.getsockname()[1])
    assert ran.code == 2
    assert "is taken" in ran.err
    assert ran.out == ""


def test_a_job_that_is_not_there_is_said(capsys, tmp_path):
    ran = run(capsys, "look", tmp_path / "chest.toml")
    assert ran.code == 2
    assert "there is no file" in ran.err


def test_with_no_job_and_nobody_to_ask_it_says_what_to_name(capsys, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "chest.toml").write_text("", encoding="utf-8")
    ran = run(capsys, "look")
    assert ran.code == 2
    assert "chest.toml" in ran.err
    assert "joinlay start" in ran.err


@pytest.mark.parametrize(("typed", "units"), [("new-chest\nmm\n", 'units = "mm"'), ("new-chest.toml\nin\n", 'units = "inch"')])
def test_with_no_job_it_offers_to_start_one_and_shows_it(capsys, tmp_path, monkeypatch, typed, units):
    monkeypatch.chdir(tmp_path)
    shown = []
    monkeypatch.setattr("joinlay.cli.look_command._is_answered", lambda: True)
    monkeypatch.setattr("joinlay.bench.serve", lambda path, *_: shown.append(path))
    monkeypatch.setattr("sys.stdin", io.StringIO(typed))
    assert run(capsys, "look").code == 0
    assert [str(path) for path in shown] == ["new-chest.toml"]
    assert units in (tmp_path / "new-chest.toml").read_text(encoding="utf-8")


def test_no_name_starts_nothing(capsys, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr("joinlay.cli.look_command._is_answered", lambda: True)
    monkeypatch.setattr("sys.stdin", io.StringIO("\n"))
    assert run(capsys, "look").code == 0
    assert list(tmp_path.iterdir()) == []
