"""The page itself: what it shows of a job, what follows while it is typed, what is kept, undone, followed and asked."""

from __future__ import annotations

import os
import random
import re

import pytest

from joinlay.bench import Draft
from joinlay.bench.serving import desk_for
from joinlay.errors import BadInput
from tests.unit.bench.asking import JOB, Page, words_of


@pytest.fixture
def page(tmp_path):
    return Page(tmp_path / "under.toml")


def test_the_page_shows_the_job_and_its_front(page):
    found = page.get("/")
    assert found.status_code == 200
    assert "Under the bench" in words_of(found.text)
    assert found.text.count("<svg") == 1
    assert "under.toml as kept" in words_of(found.text)
    assert "measured = &#34;11.8&#34;" in found.text
    assert re.search(r"<title[^>]*>the fronts in their openings</title><desc", found.text)


@pytest.mark.parametrize(
    ("view", "title"),
    [
        ("front", "fronts"),
        ("section", "vertical section"),
        ("plan", "seen from above"),
        ("details", ""),
        ("sticks", "story stick"),
    ],
)
def test_each_drawing_can_be_had(page, view, title):
    found = page.get(f"/drawing/{view}")
    assert found.status_code == 200
    assert "<svg" in found.text
    assert title in found.text
    assert re.search(rf'hx-get="/drawing/{view}" aria-current="true"', found.text)


def test_a_drawing_that_is_not_there_is_said(page):
    assert page.get("/drawing/beside").status_code == 404


def test_the_drawing_follows_what_is_typed(page):
    before = page.get("/drawing/front").text
    after = page.write(JOB.replace("width = 400, height = 120", "width = 500, height = 120"))
    assert ">500<" in after
    assert ">500<" not in before
    assert "not kept yet" in words_of(after)
    assert page.path.read_text(encoding="utf-8") == JOB
    # The one that types has its text already; writing over it would move the caret.
    assert "<textarea" not in after


def test_a_fault_is_said_on_its_line_and_leaves_the_last_good_drawing(page):
    page.write(JOB.replace("width = 400, height = 120", "width = 500, height = 120"))
    line = JOB.splitlines().index('measured = "11.8"') + 1
    found = page.write(JOB.replace('measured = "11.8"', 'measured = "11.8 ells"'))
    assert "The last drawing that was good" in found
    assert ">500<" in found
    assert f'data-line="{line}"' in found
    assert re.search(rf'<li class="fault" title="[^"]+">▸{line}</li>', found)
    assert "11.8 ells" in words_of(found)
    assert "The last drawing that was good" not in page.write(JOB)


def test_a_job_that_is_none_to_begin_with_is_shown_too(tmp_path):
    page = Page(tmp_path / "under.toml", "title = \n")
    found = page.get("/").text
    assert "Nothing can be drawn yet" in found
    assert "There is nothing to draw yet" in found
    assert "<svg" in page.write(JOB)


def test_keeping_writes_the_file_as_it_was_written(page):
    page.write(JOB.replace("nominal = 12", "nominal = 13"))
    found = page.post("/keep")
    assert "Kept in under.toml." in words_of(found.text)
    assert page.path.read_text(encoding="utf-8") == JOB.replace("nominal = 12", "nominal = 13")
    assert list(page.path.parent.iterdir()) == [page.path]


def test_keeping_leaves_line_ends_and_mark_as_they_were(tmp_path):
    path = tmp_path / "under.toml"
    path.write_bytes(b"\xef\xbb\xbf" + JOB.replace("\n", "\r\n").encode())
    page = Page(path)
    page.write(page.text.replace("nominal = 12", "nominal = 13"))
    page.post("/keep")
    assert path.read_bytes() == b"\xef\xbb\xbf" + JOB.replace("nominal = 12", "nominal = 13").replace("\n", "\r\n").encode()


def test_what_is_written_is_undone_and_had_back(page):
    changed = JOB.replace("nominal = 12", "nominal = 13")
    page.write(changed)
    assert JOB.splitlines()[1] in page.post("/undo").text.replace("&#34;", '"')
    assert page.text == JOB
    page.post("/redo")
    assert page.text == changed
    page.post("/redo")
    assert page.text == changed


def test_what_is_typed_in_a_breath_is_undone_together(tmp_path):
    path, clock = tmp_path / "under.toml", [0.0]
    path.write_text(JOB, encoding="utf-8")
    draft = Draft(path, now=lambda: clock[0])
    for text in ("a", "ab", "abc"):
        assert draft.write(text, by="one")
        clock[0] += 0.4
    clock[0] += 5
    draft.write("abcd", by="one")
    draft.undo()
    assert draft.text == "abc"
    draft.undo()
    assert draft.text == JOB


def change_elsewhere(path, text):
    before = path.stat().st_mtime_ns
    path.write_text(text, encoding="utf-8")
    os.utime(path, ns=(before + 1_000_000, before + 1_000_000))


def test_the_page_follows_what_is_written_elsewhere(page):
    asked = {"revision": "0", "news": "0", "window": "one", "view": "front"}
    assert page.get("/pulse", params=asked).status_code == 204
    change_elsewhere(page.path, JOB.replace("width = 400", "width = 450"))
    found = page.get("/pulse", params=asked)
    assert ">450<" in found.text
    assert "<textarea" in found.text
    assert "as kept" in found.text
    page.post("/undo")
    assert page.text == JOB


@pytest.mark.parametrize("which", ["mine", "theirs"])
def test_where_both_have_changed_it_asks_and_loses_neither(page, which):
    mine, theirs = JOB.replace("nominal = 12", "nominal = 13"), JOB.replace("nominal = 6", "nominal = 7")
    page.write(mine)
    change_elsewhere(page.path, theirs)
    found = page.post("/keep")
    assert "changed elsewhere, and here too" in found.text
    assert "nominal = 13" in found.text
    assert "nominal = 7" in found.text
    assert page.path.read_text(encoding="utf-8") == theirs
    page.post("/settle", which=which)
    chosen, other = (mine, theirs) if which == "mine" else (theirs, mine)
    assert page.text == chosen
    page.post("/undo")
    assert page.text == other
    page.post("/redo")
    page.post("/keep")
    assert page.path.read_text(encoding="utf-8") == chosen


def test_a_file_that_has_gone_is_said_and_written_again(page):
    page.path.unlink()
    asked = {"revision": "0", "news": "0", "window": "one"}
    assert "can't be read just now" in page.get("/pulse", params=asked).text.replace("&#39;", "'")
    page.write(JOB + "# more\n")
    page.post("/keep")
    assert page.path.read_text(encoding="utf-8") == JOB + "# more\n"


def test_a_window_that_has_not_seen_another_is_told(page):
    first = JOB.replace("nominal = 12", "nominal = 13")
    page.write(first, window="one", revision=0)
    found = page.write(JOB + "# from the other\n", window="two", revision=0)
    assert "Another window has changed the job" in found
    assert "<textarea" in found
    assert page.text == first


RACKING = JOB.replace('bottom = "thin"', 'bottom = "thin"\nload = "40 kg"')


def test_a_finding_is_mended_by_one_press_and_undone(page):
    page.write(RACKING)
    found = page.get("/findings").text
    offered = re.search(r"hx-vals='\{\"finding\": (\d+), \"remedy\": (\d+), \"revision\": (\d+)\}'>([^<]+)<", found)
    assert offered, words_of(found)
    finding = page.desk.showing.mended().findings[int(offered[1])]
    answer = page.post("/mend", finding=offered[1], remedy=offered[2], revision=offered[3])
    assert "Undo takes it back" in answer.text
    assert "<textarea" in answer.text
    after = page.desk.showing.seen().plan.findings
    assert not any((one.kind, one.what, one.where) == (finding.kind, finding.what, finding.where) for one in after)
    again = page.post("/mend", finding=offered[1], remedy=offered[2], revision=offered[3])
    assert "has changed since this was offered" in again.text
    page.post("/undo")
    assert page.text == RACKING


def test_each_finding_has_its_page_of_help(page):
    found = words_of(page.get("/").text)
    assert "What helps:" in found


def test_a_number_that_is_none_is_said(page):
    assert "is to be a number" in page.post("/mend", finding="all", remedy=0).text
    assert "not offered" in page.post("/mend", finding=999, remedy=0).text


def test_a_job_that_is_not_there_is_said_before_anything_is_opened(tmp_path):
    (tmp_path / "other.toml").write_text(JOB, encoding="utf-8")
    with pytest.raises(BadInput, match=r"there is no file .*the nearest is .*other\.toml"):
        desk_for(tmp_path / "under.toml", 8300)


def test_many_odd_edits_are_answered_by_a_page_and_by_no_fault(page):
    """Signs put in, taken out and moved at random, as by a cat on the keyboard: each is answered, and none by a fault of the
    program.
    """
    of = random.Random(16)
    signs = [
        '"',
        "[",
        "]",
        "=",
        "\n",
        "#",
        "0",
        "9",
        "-",
        ".",
        " mm",
        "1/2",
        "{",
        "}",
        "\x00",
        "é",
        "\u202e",
        "<b>",
        "'",
        "\\",
        "drawers",
    ]
    text = JOB
    for _ in range(400):
        at = of.randrange(len(text) + 1)
        what = of.randrange(4)
        if what == 0:
            text = text[:at] + of.choice(signs) + text[at:]
        elif what == 1:
            text = text[:at] + text[at + of.randrange(6) :]
        elif what == 2:
            text = text[:at] + text[at:][::-1][:4] + text[at:]
        else:
            text = JOB
        found = page.write(text)
        assert "fault of its own" not in found
        assert page.text == text.replace("\r", "\n")


def test_what_has_changed_since_it_was_kept_is_told(page):
    assert "Nothing that is built or set differs" in words_of(page.get("/changes").text)
    page.write(JOB.replace("width = 400, height = 120", "width = 500, height = 120"))
    said = words_of(page.get("/changes").text)
    assert "width 400 mm 500 mm drawer 1 opening" in said
    assert "too small, or of other wood; make it again" in said
    page.post("/keep")
    assert "Nothing that is built or set differs" in words_of(page.get("/changes").text)
    page.write("= 1")
    assert "can't be made as it is" in words_of(page.get("/changes").text)


def test_the_sheets_and_charts_can_be_looked_at(page):
    page.path.write_text(JOB.replace("nominal = 12", 'nominal = 12\nsheet = ["2440", "1220"]'), encoding="utf-8")
    sheets = page.get("/drawing/layouts").text
    assert "birch, sheet 1 of 1" in words_of(sheets).casefold()
    assert sheets.count("<svg") == page.get("/drawing/layouts").text.count("<figcaption") >= 1
    charts = page.get("/drawing/charts").text
    assert "on the way out" in words_of(charts)
    assert charts != page.get("/drawing/front").text
