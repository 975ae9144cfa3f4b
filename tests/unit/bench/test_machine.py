"""The page at the machine: what is on it, ticks that hold and don't, test pieces, and an address that lets nothing else
through.
"""

from __future__ import annotations

import json
import re

import httpx2
import pytest
import segno
from starlette.testclient import TestClient

from joinlay.bench.sharing import Shared, machine_application, qr_lines, qr_svg
from joinlay.bench.ticks import Ticks, ticks_beside
from joinlay.errors import BadInput
from tests.unit.bench.asking import JOB, Page, words_of

HOST = "192.0.2.7:8400"
SECRET = "kX3vQ9pT0aLw7yRz5cNdEg"


@pytest.fixture
def page(tmp_path):
    return Page(tmp_path / "under.toml")


@pytest.fixture
def phone(page):
    return TestClient(machine_application(page.desk, frozenset({HOST}), SECRET), base_url=f"http://{HOST}")


def keys_of(html):
    return re.findall(r'data-key="([0-9a-f]{16})" aria-pressed="(true|false)"', html)


def tick(page, client, base="/machine", **changes):
    return client.post(f"{base}/ticks", content=json.dumps(changes), headers={"X-Bench-Token": page.desk.guard.token})


def test_every_part_card_and_step_has_its_box(page):
    html = page.get("/machine/").text
    tasks = page.desk.machine.work(page.desk.draft.kept).works.tasks
    assert [key for key, _ in keys_of(html)] == [task.key for task in tasks]
    assert len({task.key for task in tasks}) == len(tasks) > 30
    settings = page.desk.machine.work(page.desk.draft.kept).plan.settings.settings
    for setting in settings:
        for reading in setting.readings:
            shown = reading.on_rule
            assert f"<dd>{shown.figures}{shown.hair} <span>{shown.unit}" in html
            assert not shown.hair or f"({shown.exactly})" in html


def test_a_tick_is_kept_beside_the_job_and_taken_back(page):
    first, second = (key for key, _ in keys_of(page.get("/machine/").text)[:2])
    assert tick(page, page.client, **{first: True, second: True}).json()["done"] == sorted([first, second])
    kept = json.loads(ticks_beside(page.path).read_text())
    assert [one["key"] for one in kept["done"]] == [first, second]
    assert kept["plan_mark"] == page.get("/machine/ticks").json()["mark"]
    assert tick(page, page.client, **{first: False}).json()["done"] == [second]
    again = Page(page.path)
    assert dict(keys_of(again.get("/machine/").text))[second] == "true"
    assert dict(keys_of(again.get("/machine/").text))[first] == "false"


def test_a_second_browser_sees_what_the_first_has_ticked(page, phone):
    key = keys_of(phone.get(f"/{SECRET}/").text)[0][0]
    assert tick(page, phone, f"/{SECRET}", **{key: True}).status_code == 200
    assert page.get("/machine/ticks").json()["done"] == [key]


def test_ticks_hold_for_the_work_that_is_the_same_and_for_no_other(page):
    tasks = page.desk.machine.work(page.desk.draft.kept).works.tasks
    tick(page, page.client, **{task.key: True for task in tasks})
    page.path.write_text(JOB.replace("width = 400, height = 160", "width = 500, height = 160"), encoding="utf-8")
    found = page.get("/machine/ticks").json()
    now = {task.key: task.words for task in page.desk.machine.work(page.desk.draft.kept).works.tasks}
    done = {now[key] for key in found["done"]}
    assert "saw drawer 1 front" in done
    assert "saw drawer 2 left side" in done
    assert "saw drawer 2 front" not in done
    assert "saw drawer 2 front" in found["lost"].values()
    assert len(found["done"]) + len(found["lost"]) == len(tasks)
    html = words_of(page.get("/machine/").text)
    assert "Saw drawer 2 front Take out" in html
    tick(page, page.client, **dict.fromkeys(found["lost"], False))
    assert page.get("/machine/ticks").json()["lost"] == {}


def test_what_is_typed_and_not_kept_is_nothing_to_cut_by(page):
    before = page.get("/machine/ticks").json()["mark"]
    page.write(JOB.replace("width = 400", "width = 480"))
    assert page.get("/machine/ticks").json()["mark"] == before
    page.post("/keep")
    assert page.get("/machine/ticks").json()["mark"] != before


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (JOB.replace('"11.8"', '"eleven"'), "is no job to cut by"),
        (JOB.replace("width = 400, height = 120", "width = 400, height = 9"), "nothing is to be cut"),
    ],
)
def test_a_file_that_is_no_job_or_is_refused_shows_no_card(page, text, said):
    page.path.write_text(text, encoding="utf-8")
    html = page.get("/machine/").text
    assert said in words_of(html)
    assert not keys_of(html)


def test_a_test_piece_tells_what_to_move(page):
    work = page.desk.machine.work(page.desk.draft.kept)
    setting = next(one for one in work.plan.settings.settings if one.machine.value == "router table")
    depth = next(one for one in setting.test_piece.measures if one.measured.name in ("DEPTH", "TONGUE_LENGTH"))
    asked = {"card": setting.number, "measured": depth.measured.name, "mark": work.mark}
    too_deep = page.get("/machine/right", params={**asked, "found": str(float(depth.value.mm) + 0.1)}).text
    assert too_deep.endswith("lower the cutter by 0.1 mm.")
    right = page.get("/machine/right", params={**asked, "found": str(float(depth.value.mm)).replace(".", ",")}).text
    assert right.endswith("is right: leave it as it stands.")
    assert "slip" in page.get("/machine/right", params={**asked, "found": "90"}).text
    for wrong in ({"found": "wide"}, {"card": "999"}, {"card": "²"}, {"measured": "HEIGHT"}, {"mark": "OLD"}, {"found": ""}):
        assert page.get("/machine/right", params={"found": "6", **asked, **wrong}).status_code == 400


@pytest.mark.parametrize(
    "body", [b"", b"[]", b'{"a": 1}', b"\xff", b"[" * 100_000, b'{"' + b"a" * 50 + b'": true}', b'"' + b"a" * 500_000 + b'"']
)
def test_what_is_no_list_of_ticks_writes_nothing(page, body):
    found = page.client.post("/machine/ticks", content=body, headers={"X-Bench-Token": page.desk.guard.token})
    assert found.status_code in (400, 413)
    assert not ticks_beside(page.path).exists()


def test_ticks_of_unknown_work_are_not_taken(page):
    assert tick(page, page.client, **{"0123456789abcdef": True}).json()["strange"] == 1
    assert not ticks_beside(page.path).exists()


def test_without_the_secret_there_is_nothing(page, phone):
    for way in ("/", "/machine/", "/ticks", f"/{SECRET}", f"/{SECRET[:-1]}A/", "/static/machine.js", f"//{SECRET}x/"):
        assert phone.get(way).status_code == 404
    assert phone.get(f"/{SECRET}/static/machine.js").status_code == 200
    assert phone.get(f"/{SECRET}/../under.toml").status_code == 404


def test_from_there_nothing_but_ticks_can_be_written(page, phone):
    token = {"X-Bench-Token": page.desk.guard.token}
    for way in ("text", "keep", "undo", "redo", "settle", "mend", "right", "", "static/machine.js"):
        assert phone.post(f"/{SECRET}/{way}", data={"text": "mine"}, headers=token).status_code in (404, 405)
    assert page.desk.draft.text == JOB
    for headers in ({}, {"X-Bench-Token": "guessed"}, {**token, "Origin": "http://elsewhere.example"}):
        assert phone.post(f"/{SECRET}/ticks", content="{}", headers=headers).status_code == 403
    assert phone.get(f"/{SECRET}/", headers={"Host": "elsewhere.example"}).status_code == 400


def test_a_file_that_holds_something_else_is_left_alone(page):
    path = ticks_beside(page.path)
    for content in ("mine", "[]", '{"done": [1]}', '{"done": [{"key": 1, "what": "x"}]}', "[" * 100_000):
        path.write_text(content, encoding="utf-8")
        with pytest.raises(BadInput, match="isn't a file of ticks"):
            Ticks(path)
        assert path.read_text(encoding="utf-8") == content


def test_hostile_names_in_a_file_of_ticks_are_shown_as_text(page):
    words = "<script>alert(1)</script>\n\u202e"
    ticks_beside(page.path).write_text(json.dumps({"done": [{"key": "f" * 16, "what": words}]}), encoding="utf-8")
    html = Page(page.path).get("/machine/").text
    assert "<script>alert" not in html
    assert "\u202e" not in html
    assert "&lt;script&gt;" in html


def test_it_is_shared_at_an_address_that_is_gone_when_it_stops(page):
    shared = Shared(page.desk, "127.0.0.1")
    assert re.fullmatch(r"http://127\.0\.0\.1:\d+/[\w-]{22}/", shared.address)
    assert httpx2.get(shared.address, trust_env=False).status_code == 200
    shared.stop()
    with pytest.raises(httpx2.ConnectError):
        httpx2.get(shared.address, trust_env=False)
    for wrong in ("192.0.2.200", "cellar", ""):
        with pytest.raises(BadInput, match="--at"):
            Shared(page.desk, wrong)


def test_the_code_holds_the_address():
    address = f"http://{HOST}/{SECRET}/"
    lines = qr_lines(address).splitlines()
    # Light is drawn: two rows of the code in each line, the last one with a light row below it.
    light = [[sign in "█▀" for sign in line] for line in lines], [[sign in "█▄" for sign in line] for line in lines]
    rows = [row for pair in zip(*light, strict=True) for row in pair]
    signs = [[not dark for dark in row] for row in segno.make(address, error="m", micro=False).matrix_iter(border=3)]
    assert rows[: len(signs)] == signs
    assert all(map(all, rows[len(signs) :]))
    assert qr_svg(address).startswith("<svg")
