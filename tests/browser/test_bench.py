"""The bench in a browser: what is typed is drawn, kept, undone; a fault is said and mended; two changes of one file are asked
about.
"""

from __future__ import annotations

import re
import time

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Route, expect

from tests.looking import Looking

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
    expect(asks).to_contain_text('title = "Mine"')
    expect(asks).to_contain_text('title = "Theirs"')
    asks.get_by_role("button").nth(1).click()
    expect(page.locator("h1")).to_have_text("Theirs")
    page.locator("#undo").click()
    expect(page.locator("h1")).to_have_text("Mine")


def test_a_mend_is_one_press_and_undo_takes_it_back(as_text):
    page = as_text
    before = text_of(page)
    mend = page.locator("#found .way button").first
    expect(mend).to_be_visible(timeout=15000)
    # What it would change stands over it: the lines that are written, each with its number.
    written = page.locator("#found .way").first.locator("ins").all_inner_texts()
    assert written
    # What the page asked by itself before, and is answered after, takes nothing of it away.
    held: list[Route] = []

    def hold(route):
        if held:
            route.continue_()
        else:
            held.append(route)

    page.route("**/pulse**", hold)
    while not held:
        page.wait_for_timeout(100)
    mend.click()
    expect(page.locator("#notice")).to_contain_text("Undo takes it back")
    with page.expect_response("**/pulse**") as answered:
        held[0].continue_()
    assert answered.value.status == 200
    page.wait_for_timeout(300)
    expect(page.locator("#notice")).to_contain_text("Undo takes it back")
    assert text_of(page) != before
    assert {line.strip() for line in written} <= {line.strip() for line in text_of(page).splitlines()}
    page.locator("#undo").click()
    expect(page.locator("#notice")).not_to_contain_text("Undo takes it back")
    assert text_of(page) == before


def figures(page):
    """The figures of the drawing that can be pressed, as they are read out."""
    return [one.get_attribute("aria-label") for one in page.locator("#drawing [data-why]").all()]


def test_the_dimension_in_the_drawing_is_the_number_that_is_typed(as_text):
    page = as_text
    expect(page.locator('#drawing [data-why="piece width over all"]')).to_have_attribute("aria-label", re.compile("^36: "))
    change(page, 'width = "36"', 'width = "37 1/2"')
    expect(page.locator('#drawing [data-why="piece width over all"]')).to_have_attribute("aria-label", re.compile("^37 1/2: "))
    page.keyboard.press("Control+z")
    expect(page.locator('#drawing [data-why="piece width over all"]')).to_have_attribute("aria-label", re.compile("^36: "))
    page.keyboard.press("Control+Shift+z")
    expect(page.locator('#drawing [data-why="piece width over all"]')).to_have_attribute("aria-label", re.compile("^37 1/2: "))


def test_why_leads_down_to_the_line_in_the_job(as_text):
    page = as_text
    page.locator('#drawing [data-why="piece width over all"]').click()
    card = page.locator("#pressed")
    expect(card).to_contain_text("Why 36 in?")
    line = text_of(page).splitlines().index('width = "36"') + 1
    card.get_by_role("button", name=f"line {line}").click()
    chosen = page.evaluate(
        "(() => { const it = document.getElementById('text'); return it.value.slice(it.selectionStart, it.selectionEnd) })()"
    )
    assert chosen == 'width = "36"'
    # The working moves with the job while it is open.
    change(page, 'width = "36"', 'width = "37"')
    expect(card).to_contain_text("Why 37 in?")


def settled(page):
    """Wait until what was put on the page last can be pressed: for some milliseconds it only looks so, longer where much goes on."""
    expect(page.locator(".htmx-swapping, .htmx-settling, .htmx-added, .htmx-request")).to_have_count(0)


def test_a_part_that_is_pressed_lights_up_everywhere_and_its_card_leads_on(page):
    page.locator("#parts summary").click()
    part = page.locator("#parts").get_by_role("button", name="drawer 2 front", exact=True)
    part.click()
    expect(page.locator("#drawing polygon.part.lit").first).to_be_attached()
    card = page.locator("#card")
    expect(card.get_by_role("heading", level=2)).to_have_text("Drawer 2 front")
    settled(page)
    card.get_by_role("button", name=re.compile("^drawer 1 to 4 front, drill template")).click()
    expect(card.locator("svg")).to_have_count(1)
    page.locator("#back").click()
    settled(page)
    card.get_by_role("button", name=re.compile("^line ")).click()
    expect(card.locator("tr[aria-current]")).to_contain_text("drawer 2 front")
    page.locator("#back").click()
    settled(page)
    card.get_by_role("button", name="drawer 2 left side").click()
    expect(card.get_by_role("heading", level=2)).to_have_text("Drawer 2 left side")
    page.locator("#to-section").click()
    expect(page.locator("#drawing polygon.part.lit").first).to_be_attached()
    page.keyboard.press("Escape")
    expect(page.locator("#pressed")).to_be_hidden()
    expect(page.locator(".lit")).to_have_count(0)


@pytest.fixture
def as_fields(page):
    page.locator("#as-fields").click()
    expect(page.locator("#fields")).to_be_visible()
    return page


def test_a_field_is_written_nudged_and_faulted_beside_itself(as_fields, served):
    page = as_fields
    width = page.get_by_role("group", name="case").get_by_label("width", exact=True)
    wide = page.locator('#drawing [data-why="piece width over all"]')
    width.fill("36,5")  # as a German or French keyboard has it
    expect(wide).to_have_attribute("aria-label", re.compile("^36 1/2: "))
    width.press("ArrowUp")
    expect(width).to_have_value("36 17/32")
    width.press("ArrowDown")
    width.press("ArrowDown")
    expect(width).to_have_value("36 15/32")
    expect(wide).to_have_attribute("aria-label", re.compile("^36 15/32: "))
    for _ in range(9):  # as by a key held down
        page.keyboard.press("ArrowUp")
    expect(wide).to_have_attribute("aria-label", re.compile("^36 3/4: "))
    width.fill("36 and a bit")
    said = page.locator(f"#{width.get_attribute('id')}-said")
    expect(said).to_contain_text("36 and a bit")
    expect(page.locator("#paper.was")).to_be_visible()
    width.fill("36 1/4")
    expect(said).to_be_empty()
    expect(page.locator("#paper.was")).to_have_count(0)
    page.keyboard.press("Control+s")
    expect(page.locator("#keep")).to_be_disabled()
    assert 'width = "36 1/4"' in served.path.read_text()


def test_a_list_grows_and_its_items_move_with_the_focus(as_fields):
    page = as_fields
    cutters = page.get_by_role("group", name="cutters")
    cutters.get_by_role("button", name="cutters: one more").click()
    expect(page.get_by_label("cutters 5, diameter")).to_be_focused()
    page.keyboard.press("Control+a")
    page.keyboard.type("3/4")
    expect(page.locator("#keep")).to_be_enabled()
    page.get_by_role("button", name="cutters 5: up").click()
    expect(page.get_by_role("button", name="cutters 4: up")).to_be_focused()
    expect(page.get_by_label("cutters 4, diameter")).to_have_value("3/4")
    page.get_by_role("button", name="cutters 4: take it out").click()
    expect(page.get_by_label("cutters 4, diameter")).to_have_value("1/2")


def test_closing_with_changes_asks(as_text):
    page = as_text
    change(page, '"Print chest"', '"Mine"')
    expect(page.locator("#keep")).to_be_enabled()
    with page.expect_event("dialog") as asked:
        page.close(run_before_unload=True)
    assert asked.value.type == "beforeunload"
    asked.value.dismiss()
    assert '"Mine"' in text_of(page)


def test_a_chapter_is_made_told_of_and_had(page):
    page.get_by_label("One chapter").select_option(label="Cutting list, and what to buy")
    page.get_by_role("button", name="Make the chapter").click()
    expect(page.get_by_role("progressbar")).to_be_visible()
    with page.expect_download(timeout=20000) as got:
        page.locator("#made a").first.click(timeout=20000)
    assert got.value.suggested_filename == "again.pdf"
    page.get_by_role("button", name="The packet and its files").click()
    page.get_by_role("button", name="Stop").click()
    expect(page.locator("#made")).to_have_text(re.compile(r"^\s*$"))


def test_the_paper_is_looked_at_closely(page):
    drawing = page.locator("#drawing")
    page.locator("#paper").hover(position={"x": 300, "y": 200})
    page.mouse.wheel(0, -600)
    expect(drawing).to_have_attribute("style", re.compile(r"scale\(2\."))
    before = drawing.get_attribute("style")
    page.mouse.down()
    page.mouse.move(500, 420, steps=4)
    page.mouse.up()
    assert drawing.get_attribute("style") != before
    expect(page.locator("#pressed")).to_be_hidden()
    page.locator("#paper").focus()
    page.keyboard.press("0")
    expect(drawing).not_to_have_attribute("style", re.compile("scale"))
    # Two fingers that part.
    for kind, finger, x in (("down", 1, 300), ("down", 2, 400), ("move", 2, 500), ("up", 1, 300), ("up", 2, 500)):
        page.locator("#paper").dispatch_event(
            f"pointer{kind}", {"pointerId": finger, "clientX": x + 450, "clientY": 400, "pointerType": "touch", "bubbles": True}
        )
    expect(drawing).to_have_attribute("style", re.compile(r"scale\(2\)"))


def test_nothing_stands_in_the_way_of_anybody_at_the_bench(page):
    page.emulate_media(color_scheme="light", reduced_motion="reduce")
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()
    # In the dark, with fields and a card that is open.
    page.emulate_media(color_scheme="dark", reduced_motion="reduce")
    page.locator("#as-fields").click()
    expect(page.locator("#fields")).to_be_visible()
    page.locator("#parts summary").click()
    page.locator("#parts").get_by_role("button", name="drawer 2 front", exact=True).click()
    expect(page.locator("#card .leads").last).to_be_visible()
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()


def test_nothing_stands_in_the_way_of_who_goes_to_the_machine(page, served):
    for address in ("share", "machine/"):
        page.goto(f"{served.bench}{address}")
        found = Axe().run(page)
        assert found.violations_count == 0, found.generate_report()


def test_nothing_stands_in_the_way_of_anybody_at_a_drawing(page):
    for view in page.locator("#sheet nav button").all():
        view.click()
        expect(view).to_have_attribute("aria-current", "true", timeout=15000)
        found = Axe().run(page, context="#sheet")
        assert found.violations_count == 0, found.generate_report()


def test_what_is_said_aloud_tells_the_whole_page(as_text):
    """The tree that a screen reader goes by: landmarks, names, what a drawing shows, and what is announced."""
    page = as_text
    said = page.locator("body").aria_snapshot()
    for line in (
        "banner", 'heading "Print chest" [level=1]', "main", 'region "The piece"', 'navigation "Drawings"', 'button "Front"',
        'region "The job file"', 'textbox "The job as text"', 'complementary "What was found"', 'region "Paper"', 'combobox "One chapter"',
        'group "Sheet of paper', 'button "Keep"', "status",
    ):  # fmt: skip
        assert re.search(rf"- '?{re.escape(line)}", said), line
    drawing = page.locator("#drawing svg").first
    told = drawing.evaluate(
        "(it) => it.getAttribute('aria-labelledby').split(' ').map((id) => document.getElementById(id).textContent)"
    )
    assert told[0] == "front elevation"
    assert "drawer 1 front" in told[1] or "drawer 1 to 4 front" in told[1]
    assert re.search(r'group "front elevation[^"]*"', said)
    assert re.search(r'button "36: piece width over all\. Why\?"', said)
    live = {one.get_attribute("id") for one in page.locator("[aria-live], [role=status]").all()}
    assert {"faults", "notice", "card", "made"} <= live


def test_the_bench_is_used_by_keyboard_alone(as_text, served):
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
    page.locator("#to-front").press("Enter")
    # A figure's working, and back to the figure.
    figure = page.locator('#drawing [data-why="piece width over all"]')
    figure.focus()
    page.keyboard.press("Enter")
    expect(page.locator("#pressed")).to_be_focused()
    page.keyboard.press("Escape")
    expect(figure).to_be_focused()
    # Closer to the paper.
    page.locator("#paper").focus()
    page.keyboard.press("+")
    page.keyboard.press("ArrowLeft")
    expect(page.locator("#drawing")).to_have_attribute("style", re.compile(r"translate.*scale\(1\.25"))
    # Write, keep, undo, redo.
    text = page.locator("#text")
    text.focus()
    page.keyboard.press("Control+Home")
    page.keyboard.type("# seen again ")
    expect(page.locator("#keep")).to_be_enabled()
    page.keyboard.press("Control+s")
    expect(page.locator("#notice")).to_contain_text("Kept in print-chest.toml.")
    assert served.path.read_text().startswith("# seen again # A printmaker")
    expect(text).to_be_focused()
    page.keyboard.press("Control+z")
    expect(text).to_have_value(re.compile("^# A printmaker"))
    page.keyboard.press("Control+y")
    expect(text).to_have_value(re.compile("^# seen again"))


def cut_off(page):
    """What of the page is cut off, or lies over something else that is read: its words."""
    return page.evaluate(
        """() => {
          const seen = (it) => it.getClientRects().length && getComputedStyle(it).visibility !== "hidden"
            && !it.closest("svg, #text, #gutter, .unseen, .to");
          const words = (it) => it.textContent.trim().slice(0, 30);
          const boxes = [...document.querySelectorAll(
            "button, h1, h2, h3, legend, label, summary, .where, select, input:not([type=hidden])"
          )].filter(seen);
          const bad = boxes.filter((it) => it.scrollWidth > it.clientWidth + 2 && it.matches("button, h1, h2, h3, legend, summary"))
            .map((it) => "cut off: " + words(it));
          const tops = boxes.filter((it) => !it.closest("#fields, #found, details"));
          tops.forEach((one, n) => tops.slice(n + 1).forEach((other) => {
            if (one.contains(other) || other.contains(one)) return;
            const a = one.getBoundingClientRect(), b = other.getBoundingClientRect();
            const wide = Math.min(a.right, b.right) - Math.max(a.left, b.left), high = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
            if (wide > 2 && high > 2) bad.push("over another: " + words(one) + " / " + words(other));
          }));
          return bad;
        }"""
    )


@pytest.mark.parametrize("width", [390, 1280, 2560])
def test_nothing_runs_off_the_side(page, width):
    page.set_viewport_size({"width": width, "height": 900})
    for mode in ("#as-fields", "#as-text"):
        page.locator(mode).click()
        expect(page.locator(f"{mode}[aria-current]")).to_be_attached()
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        assert cut_off(page) == []


def test_letters_twice_as_large_leave_everything_in_its_place(page):
    """WCAG 2.2, 1.4.4: text may be made twice as large without loss; here by the page's own letters, all else as it is."""
    page.evaluate("document.documentElement.style.fontSize = '200%'")
    for mode in ("#as-fields", "#as-text"):
        page.locator(mode).click()
        expect(page.locator(f"{mode}[aria-current]")).to_be_attached()
        assert page.evaluate("document.documentElement.scrollWidth") <= 1280
        assert cut_off(page) == []
    page.locator('#drawing [data-why="piece width over all"]').click()
    expect(page.locator("#card")).to_contain_text("Why 36 in?")
    box = page.locator("#pressed").bounding_box()
    assert box["x"] >= 0
    assert box["x"] + box["width"] <= 1280


def test_nothing_moves_by_itself_for_who_asks_so(page):
    page.emulate_media(reduced_motion="reduce")
    moving = page.evaluate(
        """[...document.querySelectorAll('*')].map((it) => getComputedStyle(it))
          .filter((style) => parseFloat(style.transitionDuration) > 0 || style.animationName !== 'none').length"""
    )
    assert moving == 0
    page.emulate_media(reduced_motion="no-preference")
    assert page.locator("#drawing").evaluate("(it) => parseFloat(getComputedStyle(it).transitionDuration)") > 0


def test_the_command_opens_the_page_and_stops_at_once(browser, job):
    look = Looking(job, "--share", "--at", "127.0.0.1")
    page = browser.new_page()
    page.goto(look.addresses[0])
    expect(page.locator("h1")).to_have_text("Print chest")
    page.goto(look.addresses[1])
    expect(page.locator("h1")).to_have_text("Print chest")
    page.close()
    began = time.monotonic()
    assert look.stop() == 0
    assert time.monotonic() - began < 5
