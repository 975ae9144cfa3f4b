"""Every page of a whole packet: no word on a line, a fill or another word, and a check square on each page that is measured from."""

import re
from itertools import pairwise

import pytest

from joinlay.documents.wanted_sheets import EVERYTHING, LEAN
from joinlay.pen.marks import Fill, Line, Role, Text
from tests.measured.collisions import collisions
from tests.measured.packets import examples, packet

#: Chapters whose sheets are laid on wood or held to a cutter.
MEASURED = ("Gauges to set by", "Story sticks", "Templates, strips and drilling", "Sections of the joints")

#: Every example on both papers; the last to come only on its own, since its sheets are of the kinds that the others have on both.
ON_PAPER = [(name, paper) for name in examples() for paper in ("letter", "a4") if (name, paper) != ("fly-tying-chest", "a4")]


@pytest.mark.parametrize(("name", "paper"), ON_PAPER)
@pytest.mark.parametrize(("wanted", "measured"), [(EVERYTHING, MEASURED), (LEAN, MEASURED[1:3])])
def test_no_words_collide_anywhere(name, paper, wanted, measured):
    bound = packet(name, paper, wanted)
    assert [(sheet.number, *found) for sheet in bound.sheets for found in collisions(sheet.strokes)] == []
    assert {chapter.heading for chapter in bound.chapters} >= set(measured)
    for chapter in bound.chapters:
        for sheet in chapter.sheets:
            square = [stroke for stroke in sheet.strokes if isinstance(stroke, Line) and stroke.says.startswith("check square")]
            assert bool(square) is (chapter.heading in MEASURED)
            words = " ".join(stroke.plain for stroke in sheet.strokes if isinstance(stroke, Text))
            assert f"{sheet.number} of {len(bound.sheets)}" in words


#: What ends and what begins a line where a figure is cut from its fraction, or from its unit.
_PARTED = (
    (re.compile(r"(^|[ (±×])\d+$"), re.compile(r"\d+/\d+")),
    (re.compile(r"(^|[ (±×])\d+(\.\d+|/\d+[+−]?|[+−])?$"), re.compile(r"(in|mm|cm|m|ft|lb|kg|N|%|°|rpm)\b")),
)


@pytest.mark.parametrize(("name", "paper"), ON_PAPER)
def test_no_figure_is_cut_from_its_fraction_or_its_unit(name, paper):
    parted = []
    for sheet in packet(name, paper).sheets:
        lines = [stroke for stroke in sheet.strokes if isinstance(stroke, Text)]
        for first, then in pairwise(lines):
            # One under the other, in the same column.
            if first.anchor[0] == then.anchor[0] and 0 < first.anchor[1] - then.anchor[1] < 7:
                parted += [
                    (sheet.number, first.plain, then.plain)
                    for ends, begins in _PARTED
                    if ends.search(first.plain) and begins.match(then.plain)
                ]
    assert parted == []


@pytest.mark.parametrize("name", examples())
def test_nothing_but_on_cards_is_cut_short_by_dots(name):
    # On a setting card a second small figure may still find too little room beside the large one.
    sheets = [sheet for sheet in packet(name, None, LEAN).sheets if sheet.section != "Machine settings"]
    cut = [(sheet.number, stroke.plain) for sheet in sheets for stroke in sheet.strokes if isinstance(stroke, Text)]
    assert [(number, said) for number, said in cut if "…" in said or "..." in said] == []


@pytest.mark.parametrize("name", ["print-chest", "moth-cabinet"])
def test_a_sheet_explains_the_signs_on_it_and_no_others(name):
    told = {
        Role.WASTE: "taken away",
        Role.HATCH: "wood cut through",
        Role.FOLD: "fold over the edge",
        Role.HIDDEN: "under the surface",
    }
    seen = set()
    for chapter in packet(name).chapters:
        if chapter.heading not in MEASURED:
            continue
        for sheet in chapter.sheets:
            roles = {stroke.role for laid in sheet.laid for stroke in laid.template.strokes if not laid.tile}
            roles |= {stroke.role for stroke in sheet.body}
            grey = any(isinstance(stroke, Fill) and 0 < stroke.ink < 1 for stroke in sheet.body)
            foot = {stroke.plain for stroke in sheet.foot.strokes(1, 1) if isinstance(stroke, Text)}
            assert {said for role, said in told.items() if role in roles} == foot & set(told.values())
            assert ("wood in its place" in foot) is grey
            seen |= foot & {*told.values(), "wood in its place"}
    assert len(seen) == 5
