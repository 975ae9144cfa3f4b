"""The cover: its caution is told whole, on every paper, and no smaller than what stands with it."""

from __future__ import annotations

import pytest

from joinlay.pages.cover_sheet import ContentsLine, cover_sheet
from joinlay.paper import PAPERS
from joinlay.pen.marks import Text
from tests.measured.collisions import collisions
from tests.measured.packets import example, examples

CONTENTS = tuple(ContentsLine(f"Chapter {n}", n, 1) for n in range(2, 13))


def height_of(stroke):
    return max(run.height for run in stroke.content)


@pytest.mark.parametrize("paper", sorted(PAPERS))
@pytest.mark.parametrize("name", examples())
def test_the_caution_is_told_whole_and_no_smaller_than_the_rest(name, paper):
    sheet = cover_sheet(example(name), "drawers", CONTENTS, PAPERS[paper])
    lines = [stroke for stroke in sheet.strokes if isinstance(stroke, Text)]
    start = next(n for n, line in enumerate(lines) if line.plain == "Before you start")
    caution = next(n for n, line in enumerate(lines) if line.plain.startswith("Routers and saws maim"))
    said = " ".join(line.plain for line in lines[caution:])
    assert "local rules and qualified people come first." in said
    assert "it can tip onto a child" in said
    around = lines[start + 1 : caution]
    foot = next(n for n, line in enumerate(lines) if n > caution and line.plain == "title")
    assert min(map(height_of, lines[caution:foot])) >= max(map(height_of, around))
    assert collisions(sheet.strokes) == []
