"""What the page lets through, what it sends along, and that nothing a job says becomes markup."""

from __future__ import annotations

import json
from dataclasses import replace
from html.parser import HTMLParser

import pytest
from starlette.testclient import TestClient

from joinlay.bench import Guard, application
from tests.unit.bench.asking import JOB, PORT, Page


@pytest.fixture
def page(tmp_path):
    return Page(tmp_path / "under.toml")


@pytest.mark.parametrize("host", ["evil.example", "127.0.0.1", f"127.0.0.1.evil.example:{PORT}", "127.0.0.1:9999", "", "0.0.0.0"])
def test_only_this_computer_s_address_is_answered(page, host):
    assert page.get("/", headers={"host": host}).status_code == 400


def test_localhost_is_this_computer_too(page):
    assert page.get("/", headers={"host": f"localhost:{PORT}"}).status_code == 200


@pytest.mark.parametrize("origin", ["http://evil.example", "null", "https://127.0.0.1:8300", "http://127.0.0.1:9999"])
def test_another_page_is_not_answered(page, origin):
    assert page.get("/", headers={"origin": origin}).status_code == 403
    assert page.post("/text", text="x", headers={"origin": origin}).status_code == 403
    assert page.text == JOB


def test_its_own_page_is(page):
    assert page.post("/undo", headers={"origin": f"http://127.0.0.1:{PORT}"}).status_code == 200


@pytest.mark.parametrize("site", ["cross-site", "same-site"])
def test_another_site_is_only_let_open_the_page(page, site):
    assert page.get("/pulse", headers={"sec-fetch-site": site}).status_code == 403
    assert page.post("/undo", headers={"sec-fetch-site": site, "sec-fetch-mode": "navigate"}).status_code == 403
    assert page.get("/", headers={"sec-fetch-site": site, "sec-fetch-mode": "navigate"}).status_code == 200


@pytest.mark.parametrize("address", ["/text", "/keep", "/undo", "/redo", "/settle", "/mend"])
@pytest.mark.parametrize("token", ["", "guessed", "é"])
def test_a_change_needs_the_token(page, address, token):
    found = page.client.post(address, data={"text": "x"}, headers={"X-Bench-Token": token.encode()})
    assert found.status_code == 403
    assert page.text == JOB


def test_every_change_is_a_post(page):
    for address in ("/text", "/keep", "/undo", "/redo", "/settle", "/mend"):
        assert page.get(address).status_code == 405
    assert page.client.put("/text", content=b"x").status_code == 405


def test_a_body_has_a_limit(page):
    assert page.post("/text", text="x" * 3_300_000).status_code == 413

    def pieces():
        for _ in range(40):
            yield b"text=" + b"x" * 100_000

    sent = page.client.post("/text", content=pieces(), headers={"X-Bench-Token": page.desk.guard.token})
    assert sent.status_code == 413
    assert page.text == JOB


def test_a_text_longer_than_a_job_may_be_is_a_fault_like_any_other(page):
    assert "1000000" in page.post("/text", text="#" * 1_000_001).text


def test_what_comes_faster_than_a_hand_is_turned_away_and_let_in_again(page):
    clock = [0.0]
    page.desk = replace(page.desk, guard=Guard({f"127.0.0.1:{PORT}"}, now=lambda: clock[0]))
    client = TestClient(application(page.desk), base_url=f"http://127.0.0.1:{PORT}")
    codes = [client.get("/pulse?revision=0&news=0").status_code for _ in range(300)]
    assert set(codes[:200]) == {204}
    assert codes[-1] == 429
    clock[0] = 1.0
    assert client.get("/pulse?revision=0&news=0").status_code == 204


def test_nothing_runs_is_framed_or_kept(page):
    found = page.get("/")
    policy = found.headers["content-security-policy"]
    assert "default-src 'none'" in policy
    assert "script-src 'self';" in policy
    assert "unsafe" not in policy
    assert "frame-ancestors 'none'" in policy
    assert found.headers["x-content-type-options"] == "nosniff"
    assert found.headers["cache-control"] == "no-store"
    assert "set-cookie" not in found.headers
    refused = page.get("/", headers={"host": "evil.example"})
    assert refused.headers["content-security-policy"] == policy


class Markup(HTMLParser):
    """What of a page could run, restyle it or come from elsewhere, as a reader of HTML sees it."""

    def __init__(self):
        super().__init__()
        self.found = []

    def handle_starttag(self, tag, attrs):
        told = dict(attrs)
        away = [
            value
            for key, value in attrs
            if key in ("src", "href", "action", "hx-get", "hx-post") and not value.startswith(("/", "#"))
        ]
        if tag in ("style", "img", "iframe", "object", "embed", "base", "form") or (tag == "script" and "src" not in told):
            self.found.append(tag)
        self.found += [key for key in told if key.startswith(("on", "hx-on", "style"))] + away


def is_plain(html):
    """No script, style or handler stands in the page itself, and nothing in it comes from elsewhere."""
    reading = Markup()
    reading.feed(html)
    return reading.found == []


def test_what_could_run_is_found():
    for html in (
        "<img src=x>",
        "<p onclick='a()'>",
        "<script>a()</script>",
        "<a href='http://x'>",
        "<p style='a'>",
        "<script src='//x'></script>",
    ):
        assert not is_plain(html.replace("'//", "'http://"))


def test_no_script_or_style_stands_in_a_page(page):
    assert is_plain(page.get("/").text)
    for view in ("section", "plan", "details"):
        assert is_plain(page.get(f"/drawing/{view}").text)


HOSTILE = """<img src=x onerror=alert(1)>'"&lt;</title></textarea><script>alert(1)</script>"""


@pytest.mark.parametrize(
    ("was", "written"),
    [
        ('title = "Under the bench"', f"title = '''{HOSTILE}'''"),
        ("[[drawer]]\n", f"[[drawer]]\nname = '''{HOSTILE}'''\n"),
        ('species = "sugar maple"', f"species = '''{HOSTILE}'''"),
        ("[stock.birch]", f"[stock.'''{HOSTILE}''']"),
        ("measured = 19", f"measured = '''{HOSTILE}'''"),
        ("units =", f'"{HOSTILE.replace(chr(34), "")}" = 1\nunits ='),
    ],
)
def test_what_a_job_says_is_never_markup(page, was, written):
    assert was in JOB
    page.write(JOB.replace(was, written, 1))
    shown = [page.get("/").text, *(page.get(f"/drawing/{view}").text for view in ("front", "section", "plan", "details"))]
    for html in (*shown, page.get("/findings").text):
        assert is_plain(html)
        assert "<img" not in html
        assert "<script>alert" not in html
        assert html.count("</textarea>") <= 1


def test_what_a_job_says_is_no_markup_in_fields_cards_and_files_either(tmp_path):
    told = json.dumps(HOSTILE)
    text = JOB.replace("[[drawer]]\n", f"[[drawer]]\nname = {told}\n", 1).replace("[stock.birch]", f"[stock.{told}]")
    text = text.replace('sides = "birch"', f"sides = {told}") + f"\n[sawing]\nany-grain = [{told}]\n"
    page = Page(tmp_path / "under.toml", text)
    plan = page.desk.showing.seen().plan
    assert plan is not None, page.desk.showing.seen().troubles
    side = next(board for board in plan.boards if HOSTILE in board.name and board.cuts)
    asked = [("/pane/fields", {}), *((address, {"name": side.name}) for address in ("/part", "/templates", "/list"))]
    asked += [("/setting", {"number": str(card.number)}) for card in plan.settings.settings if side.name in card.board_names]
    asked += [("/template", {"title": one.title}) for one in page.desk.showing.templates() if side.name in one.marks]
    assert len(asked) > 6
    for address, words in asked:
        found = page.get(address, params=words)
        assert found.status_code == 200, address
        assert is_plain(found.text), address
        assert "<img" not in found.text
        assert "<script>alert" not in found.text


def test_a_text_from_the_page_leads_to_no_file_outside_the_job_s_folder(tmp_path):
    outside = tmp_path / "outside.shop.toml"
    outside.write_text('secret = "plover"\n', encoding="utf-8")
    folder = tmp_path / "jobs"
    folder.mkdir()
    page = Page(folder / "under.toml")
    for name in ("../outside.shop.toml", str(outside), "./../jobs/../outside.shop.toml"):
        found = page.write(f'shop = "{name}"\n{JOB}')
        assert "there is no shop file" in found
        assert "secret" not in found
    (folder / "inside.shop.toml").write_text("kerf = 3\n", encoding="utf-8")
    assert "there is no shop file" not in page.write(f'shop = "inside.shop.toml"\n{JOB}')
    (folder / "away").symlink_to(tmp_path)
    assert "there is no shop file" in page.write(f'shop = "away/outside.shop.toml"\n{JOB}')


def test_a_file_the_job_itself_names_is_read_wherever_it_is(tmp_path):
    (tmp_path / "mine.shop.toml").write_text("kerf = 3\n", encoding="utf-8")
    folder = tmp_path / "jobs"
    folder.mkdir()
    page = Page(folder / "under.toml", f'shop = "../mine.shop.toml"\n{JOB}')
    assert "there is no shop file" not in page.get("/").text
