"""A page that is really served, and a browser that really shows it."""

from __future__ import annotations

import os
import shutil
import socket
from dataclasses import replace
from threading import Thread

import pytest
import uvicorn
from playwright.sync_api import sync_playwright

from joinlay.bench import application
from joinlay.bench.serving import LOOPBACK, desk_for
from joinlay.bench.sharing import Shared
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
    """A job that is open as ``joinlay look`` opens it, but within this process, which starts at once; its path and addresses."""

    def __init__(self, path):
        self.path = path
        listening = socket.socket()
        listening.bind((LOOPBACK, 0))
        listening.listen()
        port = listening.getsockname()[1]
        desk = desk_for(path, port)
        self.shared = Shared(desk, LOOPBACK)
        desk = replace(desk, shared=self.shared.address)
        self.bench, self.machine = f"http://{LOOPBACK}:{port}/", self.shared.address
        config = uvicorn.Config(
            application(desk), log_level="critical", access_log=False, lifespan="off", ws="none", timeout_graceful_shutdown=1
        )
        self.server = uvicorn.Server(config)
        self.thread = Thread(target=self.server.run, kwargs={"sockets": [listening]}, daemon=True)
        self.thread.start()

    def stop(self):
        self.server.should_exit = True
        self.shared.stop()
        self.thread.join(timeout=5)


@pytest.fixture
def job(tmp_path):
    path = tmp_path / "print-chest.toml"
    shutil.copy(ROOT / "examples" / "print-chest.toml", path)
    return path


@pytest.fixture
def served(job):
    look = Served(job)
    yield look
    look.stop()


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
