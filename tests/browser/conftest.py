"""A page that is really served, and a browser that really shows it."""

from __future__ import annotations

import os
import re
import shutil
import signal
import subprocess
import sys

import pytest
from playwright.sync_api import sync_playwright

from tests.house.source import ROOT

#: Debian's browser, or one that the environment names.
BROWSER = os.environ.get("JOINLAY_BROWSER") or shutil.which("chromium") or "/usr/bin/chromium"


@pytest.fixture(scope="package")
def browser():
    with sync_playwright() as play:
        shown = play.chromium.launch(executable_path=BROWSER, args=["--no-sandbox"])
        yield shown
        shown.close()


class Served:
    """A job that ``joinlay look`` has open: its ``path``, its address, and the one for the machine."""

    def __init__(self, path):
        self.path = path
        words = ["look", path.name, "--share", "--at", "127.0.0.1"]
        code = "from joinlay.cli import main\nmain()"
        self.process = subprocess.Popen(
            [sys.executable, "-c", code, *words],
            cwd=path.parent,
            stdout=subprocess.PIPE,
            text=True,
            env={**os.environ, "PYTHONPATH": str(ROOT)},
        )
        found: list[str] = []
        assert self.process.stdout is not None
        while len(found) < 2:
            line = self.process.stdout.readline()
            assert line, "it stopped before it showed its address"
            found += re.findall(r"http://\S+", line)
        self.bench, self.machine = found

    def stop(self):
        self.process.send_signal(signal.SIGINT)
        self.process.communicate(timeout=20)


@pytest.fixture
def served(tmp_path):
    path = tmp_path / "print-chest.toml"
    shutil.copy(ROOT / "examples" / "print-chest.toml", path)
    look = Served(path)
    yield look
    look.stop()
    assert look.process.returncode == 0


@pytest.fixture
def faults():
    """What a page complains of, in its scripts or against its policy; there is to be nothing."""
    found: list[str] = []
    yield found
    assert found == []


@pytest.fixture
def page(browser, served, faults):
    context = browser.new_context(viewport={"width": 1280, "height": 900})
    page = context.new_page()
    watch(page, faults)
    page.goto(served.bench)
    yield page
    context.close()


@pytest.fixture
def phone(browser, served, faults):
    context = browser.new_context(viewport={"width": 390, "height": 844})
    page = context.new_page()
    watch(page, faults)
    page.goto(served.machine)
    yield page
    context.close()


def watch(page, faults):
    page.on("pageerror", lambda error: faults.append(str(error)))
    page.on(
        "console", lambda said: faults.append(said.text) if said.type == "error" and "ERR_INTERNET" not in said.text else None
    )
