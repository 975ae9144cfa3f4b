"""The page at the machine on a phone: ticks that another browser sees, that wait while the network is gone, and what a test
piece says.
"""

from __future__ import annotations

import json
import re

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect


def go(phone, name):
    phone.locator("nav summary").click()
    phone.locator("nav a", has_text=name).first.click()


def test_a_tick_is_kept_and_seen_by_a_second_browser(phone, browser, served):
    other = browser.new_page()
    other.goto(served.machine)
    box = phone.locator("#saw .box").first
    left = phone.locator("#saw .left")
    many = int(left.inner_text().split()[0])
    box.click()
    expect(box).to_have_attribute("aria-pressed", "true")
    expect(left).to_have_text(re.compile(rf"^{many - 1} of {many} left$"))
    expect(other.locator("#saw .box").first).to_have_attribute("aria-pressed", "true", timeout=8000)
    kept = json.loads((served.path.parent / "print-chest.ticks.json").read_text())
    assert [one["key"] for one in kept["done"]] == [box.get_attribute("data-key")]
    other.close()


def test_it_goes_on_without_a_network_and_catches_up(phone, served):
    go(phone, "groove in drawer fronts")
    boxes = phone.locator(".stage.here .box")
    phone.context.set_offline(True)
    boxes.nth(0).click()
    boxes.nth(1).click()
    expect(phone.locator("#line")).to_be_visible(timeout=8000)
    expect(boxes.nth(1)).to_have_class(re.compile("waits"))
    assert not (served.path.parent / "print-chest.ticks.json").exists()
    phone.context.set_offline(False)
    expect(phone.locator("#line")).to_be_hidden(timeout=8000)
    expect(boxes.nth(1)).not_to_have_class(re.compile("waits"))
    kept = json.loads((served.path.parent / "print-chest.ticks.json").read_text())
    assert {one["key"] for one in kept["done"]} == {boxes.nth(n).get_attribute("data-key") for n in (0, 1)}


def test_a_test_piece_says_what_to_move(phone):
    go(phone, "groove in drawer fronts")
    here = phone.locator(".stage.here")
    here.locator("input[name=DEPTH]").fill("7/32")
    here.locator("input[name=WIDTH]").fill("0,36")
    here.get_by_role("button", name="What to move").click()
    expect(here.locator(".right")).to_contain_text("is right: leave it as it stands.")
    expect(here.locator(".right")).to_contain_text("towards the cutter")


def test_a_job_that_changed_is_said(phone, served):
    served.path.write_text(served.path.read_text().replace('title = "Print chest"', 'title = "Print chest"\n# seen again', 1))
    phone.wait_for_timeout(3000)
    expect(phone.locator("#changed")).to_be_hidden()
    served.path.write_text(served.path.read_text().replace('measured = "0.472"', 'measured = "0.470"', 1))
    expect(phone.locator("#changed")).to_be_visible(timeout=8000)


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_nothing_stands_in_the_way_of_anybody_at_the_machine(phone, scheme):
    phone.emulate_media(color_scheme=scheme)
    go(phone, "groove in drawer fronts")
    found = Axe().run(phone)
    assert found.violations_count == 0, found.generate_report()


def test_what_is_pressed_and_read_is_large(phone):
    go(phone, "groove in drawer fronts")
    for box in phone.locator(".stage.here button, .stage.here .next a").all():
        size = box.bounding_box()
        assert size["height"] >= 48
        assert size["width"] >= 48
    figure = phone.locator(".stage.here .large dd").first
    assert float(figure.evaluate("(it) => parseFloat(getComputedStyle(it).fontSize)")) >= 48
    assert phone.evaluate("document.documentElement.scrollWidth") <= 390
