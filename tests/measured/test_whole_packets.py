"""Every page of a whole packet: no word on a line, a fill or another word, and a check square on each page that is measured from."""

from dataclasses import replace

import pytest

from joinlay.documents.packet import packet_for
from joinlay.pen.marks import Line, Text
from tests.measured.collisions import collisions
from tests.measured.packets import example, examples

#: Chapters whose sheets are laid on wood or held to a cutter.
MEASURED = ("Gauges to set by", "Story sticks", "Templates", "Strips, sections and drilling")


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("name", examples())
def test_no_words_collide_anywhere(name, paper):
    packet = packet_for(replace(example(name), paper=paper))
    assert [(sheet.number, *found) for sheet in packet.sheets for found in collisions(sheet.strokes)] == []
    assert {chapter.heading for chapter in packet.chapters} >= set(MEASURED)
    for chapter in packet.chapters:
        for sheet in chapter.sheets:
            square = [stroke for stroke in sheet.strokes if isinstance(stroke, Line) and stroke.says.startswith("check square")]
            assert bool(square) is (chapter.heading in MEASURED)
            words = " ".join(stroke.plain for stroke in sheet.strokes if isinstance(stroke, Text))
            assert f"{sheet.number} of {len(packet.sheets)}" in words
