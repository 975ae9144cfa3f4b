"""What is sent to the page is shown as text, in short and with signs that can be seen, or not at all: drafts and addresses."""

import re
from pathlib import Path
from urllib.parse import quote

import pytest

from joinlay.bench import application
from tests.unit.bench.asking import JOB, Page
from tests.unit.jobs.test_every_field import LEAVES, TABLES
from tests.unit.jobs.test_every_field import job as job_with

HOSTILE = f"\x1b[2J\u202e<b>bold</b>\" on='1' {'y' * 3000}"
#: None of these may come back: signs that move or turn, a tag of theirs, a value without end.
BARE = ("\x1b", "\u202e", "<b>bold", "y" * 700)
BENCH = Path(application.__code__.co_filename).parent
#: Every address written in the files of the page, but for what starts and stops work; those of the machine begin with its own.
ROUTES = sorted(
    {
        found.replace("{base}", "/machine")
        for path in BENCH.glob("*.py")
        for found in re.findall(r'f?"((?:\{base\})?/[a-z/{}-]*)"', path.read_text(encoding="utf-8"))
    }
    - {"/stop", "/make"}
)


@pytest.fixture(scope="module")
def page(tmp_path_factory):
    return Page(tmp_path_factory.mktemp("echo") / "job.toml")


def bare_in(text):
    return [ascii(sign)[:12] for sign in BARE if sign in text]


@pytest.mark.parametrize(
    "table", [(), ("stock", "*"), ("drawers",), ("bank", 0, "rows", 0), ("shop", "corner-cutters", 0)], ids=str
)
def test_a_draft_with_anything_in_its_fields(page, table):
    assert table in TABLES
    keys = [path for path in LEAVES if path[:-1] == table][:40]
    assert bare_in(page.write(job_with(*((path, HOSTILE) for path in keys)))) == []


@pytest.mark.parametrize("route", ROUTES)
def test_an_address_with_anything_in_it(page, route):
    page.write(JOB)
    address = re.sub(r"\{[^}]*\}", quote(HOSTILE, safe=""), route)
    names = ("name", "number", "title", "part", "field", "key", "value")
    for found in (
        page.get(f"{address}?{'&'.join(f'{name}={quote(HOSTILE)}' for name in names)}"),
        page.post(address, view=HOSTILE, **dict.fromkeys(names, HOSTILE)),
    ):
        assert found.status_code < 500
        assert bare_in(found.text) == []


def test_there_are_addresses_to_ask():
    assert len(ROUTES) > 20
