"""The whole job in order: every sheet that is worked from is led to, from measuring the stock to hanging the pulls, in one
page.
"""

import pytest

from joinlay.documents.wanted_sheets import CHAPTERS, LEAN
from joinlay.pen.marks import Polyline, Text
from tests.measured.packets import example, packet, pieces

PIECES = pieces()


def said_on(sheet):
    return [stroke.plain for stroke in sheet.body if isinstance(stroke, Text)]


@pytest.mark.parametrize("name", PIECES)
def test_the_sheet_after_the_cover_is_the_whole_job(name):
    bound = packet(name, None, LEAN)
    work = bound.chapters[1]
    assert work.heading == "The whole job, in order"
    (sheet,) = work.sheets
    assert sheet.number == 2
    # It stands on one page, each line with a box to tick.
    said = " ".join(said_on(sheet))
    boxes = [stroke for stroke in sheet.body if isinstance(stroke, Polyline) and stroke.closed]
    plan = example(name)
    assert len(boxes) >= 12 + len(plan.glue_ups)
    in_order = [
        "Read what was found",
        "Measure the stock",
        "Saw out",
        "Mark reference face",
        "Take the cards",
        "dry",
        "Glue-up 1",
        "Hang the pulls",
    ]
    places = [said.index(word) for word in in_order]
    assert places == sorted(places)
    # Stages are called as they are asked for.
    assert {kind.word for kind in CHAPTERS if kind.is_lean} <= set(said_on(sheet))


@pytest.mark.parametrize("name", PIECES)
def test_its_numbers_lead_to_every_sheet_that_is_worked_from(name):
    bound = packet(name, None, LEAN)
    (sheet,) = bound.chapters[1].sheets
    numbers = {word for word in " ".join(said_on(sheet)).split() if word.isdigit()}
    by_chapter = {chapter.heading: [each.number for each in chapter.sheets] for chapter in bound.chapters}
    for heading, own in by_chapter.items():
        if heading not in ("Cover", "The whole job, in order", "Where each part is"):
            assert str(own[0]) in numbers, heading
            assert str(own[-1]) in numbers, heading
    for link in sheet.links:
        assert 2 < link.to <= len(bound.sheets)
    # A card's line leads to the sheet it stands on.
    plan = example(name)
    last = plan.settings.settings[-1].number
    on = next(each.number for each in bound.sheets if any(one.template.marks == (f"card {last}",) for one in each.laid))
    assert str(on) in numbers


@pytest.mark.parametrize("name", PIECES)
def test_the_line_of_each_glue_up_leads_to_the_sheet_that_tells_of_it(name):
    bound = packet(name, None, LEAN)
    (work,) = bound.chapters[1].sheets
    together = [sheet for sheet in bound.sheets if "Putting it together" in sheet.chapters]
    begun = {text.plain.partition(":")[0]: text.anchor[1] for text in work.body if isinstance(text, Text) and ":" in text.plain}
    for glue_up in example(name).glue_ups:
        mark = f"Glue-up {glue_up.number}"
        # Its sheet is found here by its words.
        (there,) = [sheet for sheet in together if any(said.startswith(f"{mark}:") for said in said_on(sheet))]
        led = [link.to for link in work.links if link.box[1] <= begun[mark] <= link.box[3]]
        assert led == [there.number], mark
    assert len({sheet.number for sheet in together}) > 1
    for last, heading in (("Lay in what goes", "Fitting, in this order"), ("Finish what shows", "Finish, and where it stands")):
        (at,) = [text.anchor[1] for text in work.body if isinstance(text, Text) and text.plain.startswith(last)]
        led = [link.to for link in work.links if link.box[1] <= at <= link.box[3]]
        assert led[0] == next(sheet.number for sheet in together if heading in said_on(sheet))
