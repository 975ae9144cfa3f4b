"""README's two pictures of the page at the bench, taken from it: ``python -m tests.browser.pictures``.

They are screens of the print chest, 1120 by 720, kept in sixty-four colours.
"""

from __future__ import annotations

import io
import shutil
import tempfile
from pathlib import Path

from PIL import Image
from playwright.sync_api import sync_playwright

from tests.browser.conftest import BROWSER, Served
from tests.house.source import ROOT


def why(page):
    """The job as text, the front, and the working of an opening's height."""
    page.locator('#drawing [data-why="drawer 2 opening height"]').click()
    page.locator("#card .working").wait_for()


def fields(page):
    """The job as fields, its width being changed, and the piece cut upright."""
    page.locator("#to-section").click()
    page.locator('#to-section[aria-current="true"]').wait_for()
    page.locator("#as-fields").click()
    width = page.get_by_role("group", name="case").get_by_label("width", exact=True)
    width.fill("36 1/2")
    width.evaluate(
        "(it) => { const all = document.getElementById('fields'), top = (one) => one.getBoundingClientRect().top;"
        " all.scrollTop += top(it) - top(all) - 60 }"
    )
    page.locator("#keep:enabled").wait_for()


def main():
    """Take both, and write them beside what is kept of the examples."""
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as play:
        browser = play.chromium.launch(executable_path=BROWSER, args=["--no-sandbox"])
        for name, show in (("look", why), ("fields", fields)):
            path = Path(folder) / "print-chest.toml"
            shutil.copy(ROOT / "examples" / path.name, path)
            served = Served(path)
            page = browser.new_page(viewport={"width": 1120, "height": 720})
            page.goto(served.bench)
            page.locator("#drawing svg").first.wait_for()
            show(page)
            page.wait_for_timeout(1500)
            shot = Image.open(io.BytesIO(page.screenshot()))
            shot.convert("RGB").quantize(64).save(ROOT / "templates_out" / f"print-chest-{name}.png", optimize=True)
            page.close()
            served.stop()
        browser.close()


if __name__ == "__main__":
    main()
