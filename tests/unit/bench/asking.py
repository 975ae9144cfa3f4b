"""A page to ask: its desk over a job in a folder of the test's own, and a browser that says what browsers say."""

from __future__ import annotations

import re
from html import unescape
from typing import TYPE_CHECKING

from starlette.testclient import TestClient

from joinlay.bench import application
from joinlay.bench.serving import desk_for

if TYPE_CHECKING:
    from pathlib import Path

#: Two drawers for openings that are there: quick to plan.
JOB = """\
# Two drawers under a workbench.
title = "Under the bench"
units = "mm"

[stock.maple]
kind = "solid"
species = "sugar maple"
nominal = 19
measured = 19

[stock.birch]      # the sheet that was left
nominal = 12
measured = "11.8"

[stock.thin]
nominal = 6
measured = "5.6"

[drawers]
front = "maple"
sides = "birch"
bottom = "thin"

[[drawer]]
opening = { width = 400, height = 120, depth = 420 }

[[drawer]]
opening = { width = 400, height = 160, depth = 420 }
"""

PORT = 8300


class Page:
    """A page in a browser: it knows its token and what it has seen, and sends both."""

    def __init__(self, path: Path, text: str = JOB) -> None:
        if not path.exists():
            path.write_text(text, encoding="utf-8")
        self.path = path
        self.desk = desk_for(path, PORT)
        self.client = TestClient(application(self.desk), base_url=f"http://127.0.0.1:{PORT}")

    def get(self, address, **more):
        return self.client.get(address, **more)

    def post(self, address, headers=None, **fields):
        form = {
            "window": "one",
            "revision": str(self.desk.draft.revision),
            "view": "front",
            **{k: str(v) for k, v in fields.items()},
        }
        return self.client.post(address, data=form, headers={"X-Bench-Token": self.desk.guard.token, **(headers or {})})

    def write(self, text, **fields):
        found = self.post("/text", text=text, **fields)
        assert found.status_code == 200
        return found.text

    @property
    def text(self):
        return self.desk.draft.text


def words_of(html):
    """What is read on a page, on one line."""
    return " ".join(unescape(re.sub(r"<[^>]*>", " ", html)).split())
