"""The bench in a browser: what is typed is drawn, kept, undone; a fault is said and mended; two changes of one file are asked about."""

from __future__ import annotations

import re

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

HEIGHT = 'units = "inch"'


def text_of(page):
    return page.locator("#text").input_value()


def change(page, old, new):
    text = text_of(page)
    assert text.count(old) >= 1
    page.locator("#text").fill(text.replace(old, new, 1))


@pytest.fixture
def as_text(page):
    """The job as text, whichever way it is shown first."""
    if not page.locator("#text").count():
        page.get_by_role("button", name="text", exact=False).first.click()
    expect(page.locator("#text")).to_be_visible()
    return page


def test_a_number_typed_is_the_dimension_drawn_and_is_kept_and_undone(as_text, served):
    page = as_text
    expect(page.locator("#drawing svg").first).to_be_visible()
    before = text_of(page)
    change(page, 'title = "Print chest"', 'title = "Chest for prints"')
    expect(page.locator("h1")).to_have_text("Chest for prints")
    expect(page.locator("#keep")).to_be_enabled()
    page.keyboard.press("Control+s")
    expect(page.locator("#keep")).to_be_disabled()
    assert 'title = "Chest for prints"' in served.path.read_text()
    page.locator("#undo").click()
    expect(page.locator("h1")).to_have_text("Print chest")
    assert text_of(page) == before
    page.reload()
    expect(page.locator("h1")).to_have_text("Print chest")


def test_a_fault_is_said_on_its_line_and_the_last_good_drawing_stays(as_text):
    page = as_text
    change(page, HEIGHT, 'units = "hand"')
    expect(page.locator("#paper.was .old")).to_be_visible()
    expect(page.locator("#drawing svg").first).to_be_attached()
    expect(page.locator("#gutter .fault")).to_have_text(re.compile("^\\W?5$"))
    page.locator("#undo").click()
    expect(page.locator("#paper.was")).to_have_count(0)


def test_a_file_changed_elsewhere_too_is_asked_about_and_neither_is_lost(as_text, served):
    page = as_text
    change(page, 'title = "Print chest"', 'title = "Mine"')
    expect(page.locator("h1")).to_have_text("Mine")
    served.path.write_text(served.path.read_text().replace('"Print chest"', '"Theirs"'))
    asks = page.locator(".asks")
    expect(asks).to_be_visible(timeout=8000)
    asks.get_by_role("button").nth(1).click()
    expect(page.locator("h1")).to_have_text("Theirs")
    page.locator("#undo").click()
    expect(page.locator("h1")).to_have_text("Mine")


def test_a_mend_is_one_press_and_undo_takes_it_back(as_text):
    page = as_text
    before = text_of(page)
    mend = page.locator("#found .way button").first
    expect(mend).to_be_visible(timeout=15000)
    mend.click()
    expect(page.locator("#notice")).to_contain_text("Undo takes it back")
    assert text_of(page) != before
    page.locator("#undo").click()
    expect(page.locator("#notice")).not_to_contain_text("Undo takes it back")
    assert text_of(page) == before


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_nothing_stands_in_the_way_of_anybody_at_the_bench(page, scheme):
    page.emulate_media(color_scheme=scheme, reduced_motion="reduce")
    expect(page.locator("#drawing svg").first).to_be_visible()
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()


def test_the_bench_is_used_by_keyboard_alone(as_text):
    page = as_text
    page.keyboard.press("Tab")
    reached = []
    for _ in range(40):
        reached.append(page.evaluate("document.activeElement.id"))
        page.keyboard.press("Tab")
    assert {"paper", "text"} <= set(reached)
    page.locator("#to-section").focus()
    page.keyboard.press("Enter")
    expect(page.locator('#to-section[aria-current="true"]')).to_be_attached()


@pytest.mark.parametrize("width", [390, 2560])
def test_nothing_runs_off_the_side(page, width):
    page.set_viewport_size({"width": width, "height": 900})
    assert page.evaluate("document.documentElement.scrollWidth") <= width
