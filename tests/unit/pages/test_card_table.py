"""Cards that differ only by a bit and its figures: one table, with each card's number, box, parts and figures in it."""

from dataclasses import replace

import pytest

from joinlay.lengths import Fraction
from joinlay.pages.card_table import alike_cards, card_table
from joinlay.pages.setting_card import CardMaker
from joinlay.pages.setting_sheets import setting_sheets
from joinlay.paper import paper_named
from joinlay.pen.lettering import plain
from joinlay.pen.marks import Polyline, Text, bounds_of
from tests.measured.collisions import collisions
from tests.measured.packets import example


def maker_of(plan, wide="184"):
    return CardMaker({board.name: board for board in plan.boards}, plan.rule, Fraction(wide), has_box=True)


def dots(plan):
    return tuple(
        each for each in plan.settings.settings if {cut.words for work in each.works for cut in work.plain_cuts} == {"dot hole"}
    )


@pytest.fixture(scope="module")
def plan():
    return example("seed-cabinet")


def test_only_holes_that_are_drilled_alike_stand_in_one_table(plan):
    groups = alike_cards(plan.settings.settings, maker_of(plan))
    assert tuple(setting for group in groups for setting in group) == plan.settings.settings
    assert [group for group in groups if len(group) > 1] == [dots(plan)]
    first, second, *_ = dots(plan)
    said_otherwise = replace(maker_of(plan), remarks={f"card {second.number}": ["mind the grain"]})
    assert len(alike_cards((first, second), said_otherwise)) == 2


def test_each_row_has_its_number_box_parts_and_figures_as_large_as_a_card_of_its_own(plan):
    cards = dots(plan)
    block = card_table(cards, maker_of(plan))
    assert block is not None
    texts = [stroke for stroke in block.strokes if isinstance(stroke, Text)]
    boxes = [bounds_of((one,)) for one in block.strokes if isinstance(one, Polyline) and one.says != "cutter" and one.closed]
    for card in cards:
        # The number stands left of the bit; in other rows the same figure may be a distance.
        (number,) = [one for one in texts if one.plain == str(card.number) and 50 < one.anchor[0] < 70]
        y = number.anchor[1]
        row = sorted((one for one in texts if one.anchor[1] == y), key=lambda one: one.anchor[0])
        told = [plain(one.content) for one in row]
        figures = [reading.on_rule.figures for reading in card.readings]
        middle = plan.rule.read(card.works[0].positions[0].centre).figures
        assert told == [str(card.number), plan.rule.sold(card.tool.width), figures[0], middle, figures[-1]]
        assert all(one.content[0].height >= 7 for one in row[2:])
        assert any(box[2] < number.anchor[0] and box[1] < y < box[3] for box in boxes)
    said = " ".join(one.plain for one in texts)
    assert all(f"{card.works[0].count} × drawer" in said for card in cards)
    assert said.count("must measure what its row says") == 1


def test_a_table_leads_to_the_cautions_as_a_card_of_its_own_does(plan):
    block = card_table(dots(plan), replace(maker_of(plan), cautions="over the first card"))
    assert block is not None
    assert "cautions: over the first card" in [stroke.plain for stroke in block.strokes if isinstance(stroke, Text)]


def test_the_sheet_of_the_table_is_sound_and_serves_every_part_in_it(plan):
    for paper in ("a4", "letter"):
        sheets = setting_sheets(plan, paper_named(paper), with_list=False)
        (sheet,) = [one for one in sheets if f"card {dots(plan)[0].number}," in one.title]
        assert collisions(sheet.strokes) == []
        for card in dots(plan):
            assert f"card {card.number}," in sheet.title
            assert set(card.board_names) <= set(sheet.parts)


def test_a_table_that_has_no_room_for_its_figures_is_not_made(plan):
    assert card_table(dots(plan), maker_of(plan, "120")) is None
