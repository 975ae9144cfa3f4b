"""The settings list: cards shared by all parts, numbered, counted, and what was found (MS-2, MS-3, LR-5)."""

from dataclasses import replace
from itertools import product

import pytest

from joinlay.boards import Band, Surface
from joinlay.findings import Harm
from joinlay.lengths import GRADUATIONS, ZERO, Unit, inches
from joinlay.settings import Adjustment, Measured, Role, Value, settings_for
from joinlay.settings.plain import settings_tree
from joinlay.settings.wording import position_words
from joinlay.shop import usual_shop
from tests import by_hand
from tests.unit.settings.wood import (
    ACROSS,
    LEFT,
    RIGHT,
    board,
    dado,
    edge_rabbet,
    end_mortises,
    end_rabbet,
    end_slot,
    groove,
    hole,
    inch,
    shop,
)

INCH = GRADUATIONS["1/64 in"]


def quarter_inch_drawer(depth="1/4", thick="1/2", tongue="1/4"):
    """Check value A17: a locking rabbet in half-inch stock with a quarter-inch cutter."""
    sides = [
        dado(board("18", "5", "1/2", name=name, place=place), "1/4", "1/4", depth, far=True)
        for name, place in (("left side", LEFT), ("right side", RIGHT))
    ]
    back = board("16", "5", thick, name="back", part="drawer back", datum=ACROSS)
    waste = str(inch(thick).inches - inch("1/4").inches)
    return [*sides, end_rabbet(end_rabbet(back, tongue, waste), tongue, waste, far=True, name="right rabbet")]


def notes(found, kind):
    return [remark for remark in found.remarks if remark.kind == kind]


def test_parts_that_share_fence_height_and_lie_are_one_card():
    found = settings_for(quarter_inch_drawer(), usual_shop(Unit.INCH))
    assert [setting.count for setting in found.settings] == [2, 2]
    sides, back = found.settings
    assert sides.board_names == ("left side", "right side")
    assert [work.boards for work in sides.works] == [("left side", "right side")]
    assert [(work.entry_word, work.count) for work in back.works] == [("left end", 1), ("right end", 1)]
    assert back.cut_names == ("rabbet", "right rabbet")


def test_mirrored_sides_share_a_card_and_differ_only_in_their_stops():
    sides = [
        groove(board("18", "5", "1/2", name=str(place), place=place), "3/8", "1/4", "1/4", stop="17") for place in (LEFT, RIGHT)
    ]
    (card,) = settings_for(sides, usual_shop(Unit.INCH)).settings
    first, second = (work.stops for work in card.works)
    assert first is not None
    assert second is not None
    # The left side's front end goes first and its cut runs in there; the right side begins in the wood, back end first.
    assert (first.leading_word, first.infeed_stop, first.outfeed_stop) == ("front end", None, inches("17"))
    assert (second.leading_word, second.infeed_stop, second.outfeed_stop) == ("back end", inches("17"), None)


def test_one_set_up_is_found_and_nothing_has_to_be_touched_for_it():
    found = settings_for(quarter_inch_drawer(), usual_shop(Unit.INCH))
    assert (found.set_ups, found.naive_set_ups, found.cutter_changes) == (1, 1, 1)
    assert [setting.set_up for setting in found.settings] == [1, 1]
    assert found.settings[0].changes == (Adjustment.CUTTER, Adjustment.FENCE, Adjustment.HEIGHT)
    assert found.settings[1].changes == ()
    (note,) = notes(found, "one set-up")
    assert (note.where, note.rule) == ("corner", "LR-5")
    assert note.numbers == {"fence": inches("1/4"), "cutter": inches("1/4"), "height": inches("1/4")}


def test_what_would_make_it_one_set_up_is_said():
    found = settings_for(quarter_inch_drawer(depth="15/64", thick="17/32", tongue="7/32"), usual_shop(Unit.INCH))
    (note,) = notes(found, "nearly one set-up")
    # A cutter of 17/64 in isn't sold, so it isn't named.
    assert note.sentence(INCH.text) == (
        "one set-up would cut it whole if the part with the tongue were 1/2 in thick (it is 17/32 in)"
    )
    only_gap = settings_for(quarter_inch_drawer(tongue="15/64"), usual_shop(Unit.INCH))
    (note,) = notes(only_gap, "nearly one set-up")
    assert note.sentence(INCH.text) == (
        "one set-up would cut it whole if the dado were 1/4 in deep (it is 1/4 in) and the tongue 1/4 in long "
        "(it is 15/64 in): ask for no "
        "tip gap and no fit"
    )
    far_off = settings_for(quarter_inch_drawer(thick="3/4"), usual_shop(Unit.INCH))
    assert notes(far_off, "nearly one set-up") == notes(far_off, "one set-up") == []


def test_several_joints_of_one_set_up_are_told_together():
    two = [*quarter_inch_drawer(), *(by_hand.called(each, f"other {each.name}") for each in quarter_inch_drawer())]
    two = [replace(each, cuts=tuple(by_hand.of_joint(cut, f"{each.name[:5]} corner") for cut in each.cuts)) for each in two]
    found = settings_for(two, usual_shop(Unit.INCH))
    assert len(found.settings) == 2
    assert found.naive_set_ups == 1


def test_grooves_come_before_the_cuts_across_and_mortises_before_rabbets():
    side = groove(dado(board("18", "5", "1/2"), "1/4", "1/4", "1/4", far=True), "3/8", "3/16", "1/4")
    found = settings_for([side], usual_shop(Unit.INCH))
    assert [setting.cut_names for setting in found.settings] == [("groove",), ("dado",)]
    assert found.first_then == ((1, 2),)
    rail = end_mortises(end_rabbet(board("18", "5", "3/4"), "1/2", "1/4", outside=False), "3/8", "6 mm", "16 mm", "1/2", "2")
    assert [setting.role for setting in settings_for([rail], usual_shop(Unit.INCH)).settings] == [Role.MORTISE, Role.STEP]


def test_dadoes_come_before_the_rabbet_they_run_out_at_and_slots_before_tongue_ends():
    case = dado(edge_rabbet(board("30", "12", "3/4"), "9/32", "3/8"), "2", "3/4", "1/4")
    assert [setting.cut_names for setting in settings_for([case], usual_shop(Unit.INCH)).settings] == [
        ("dado",),
        ("back rabbet",),
    ]
    front = end_slot(end_rabbet(board("16", "5", "3/4", datum=ACROSS), "17/64", "1/4", outside=False), "1/4", "1/4", "1/2")
    assert [setting.cut_names for setting in settings_for([front], usual_shop(Unit.INCH)).settings] == [("slot",), ("rabbet",)]


def test_a_groove_that_is_not_crossed_may_come_when_it_suits():
    side = groove(dado(board("18", "5", "1/2"), "1/4", "1/4", "1/4", stop="3"), "3 1/2", "1/4", "1/4")
    assert settings_for([side], usual_shop(Unit.INCH)).first_then == ()


def test_set_ups_count_every_fence_and_height():
    found = settings_for([groove(board("18", "5", "1/2"), "3/8", "9/32", "5/16")], usual_shop(Unit.INCH))
    assert found.set_ups == 4  # two fences, two heights at each
    three = [by_hand.called(board("18", "5", "1/2"), f"side {n}") for n in range(3)]
    three = [groove(each, "3/8", "9/32", "1/4") for each in three]
    found = settings_for(three, usual_shop(Unit.INCH))
    assert (found.set_ups, found.naive_set_ups) == (2, 6)


def test_holes_on_any_line_are_one_card_that_says_each_line():
    high = {"5": "2 1/2", "7": "3 1/2"}
    fronts = [hole(board("16", wide, "3/4", name=f"front {wide}", datum=ACROSS), "8", high[wide], "3/16") for wide in high]
    (card,) = settings_for(fronts, usual_shop(Unit.INCH)).settings
    assert card.lines == (inches("2 1/2"), inches("3 1/2"))
    assert [reading.value for reading in card.readings] == [Value.HEIGHT]
    assert Measured.CENTRE not in {measure.measured for measure in card.test_piece.measures}
    assert [work.positions[0].line for work in card.works] == [inches("2 1/2"), inches("3 1/2")]


def test_no_boards_no_cards():
    found = settings_for([board("18", "5", "1/2")], usual_shop(Unit.INCH))
    assert (found.settings, found.findings, found.set_ups, found.naive_set_ups, found.is_proved) == ((), (), 0, 0, True)


def test_the_rule_shows_what_to_set_and_what_the_rest_does():
    """MS-2: on a rule of 1/16 in a tongue 9/32 thick is set at 5/16, and comes out 1/32 too thick."""
    back = end_rabbet(board("16", "5", "17/32", datum=ACROSS), "1/4", "1/4")
    found = settings_for([back], shop(rule="1/16 in"))
    (card,) = found.settings
    assert card.role is Role.TONGUE
    fence = card.readings[0]
    assert (fence.value, fence.exact, fence.on_rule.figures, fence.on_rule.left_over) == (
        Value.NEAR_SIDE,
        inches("9/32"),
        "5/16",
        -inches("1/32"),
    )
    assert (fence.affects, fence.by) == (Measured.TONGUE_THICKNESS, inches("1/32"))
    (note,) = notes(found, "rule")
    assert note.where == "card 1"
    assert note.sentence(INCH.text).startswith(
        "set to the mark alone, the tongue thickness comes out 0.031 in larger than planned"
    )
    finer = settings_for([back], shop(rule="1/32 in"))
    assert notes(finer, "rule") == []
    assert finer.settings[0].readings[0].by == ZERO


@pytest.mark.parametrize("far", [False, True], ids=["against the near end", "from the far end"])
def test_the_second_pass_of_a_wide_dado_is_set_from_the_first_as_it_was_set(far):
    """DA-5: each fence rounded by itself would leave the dado up to a whole 1/16 in out; from the first it is half of that at
    most.
    """
    for near, width in product(("1 1/64", "1 1/32", "1 3/64"), ("17/32", "9/16", "37/64")):
        (card,) = settings_for([dado(board("18", "5", "1/2"), near, width, "1/4", far=far)], shop(rule="1/16 in")).settings
        first, second = card.readings[:2]
        apart = abs(second.on_rule.nearest - first.on_rule.nearest)
        assert second.affects is Measured.WIDTH
        assert apart + card.tool.width - inches(width) == second.by
        assert abs(second.by) <= inches("1/32")
        assert second.aim - first.on_rule.nearest == second.exact - first.exact


def test_every_fence_says_in_words_which_side_of_the_cutter_it_is_to():
    # MS-1: in the table, on the order of the cards and in JSON.
    assert {value.short for value in Value if value is not Value.HEIGHT} == {
        "near side", "far side", "middle", "straightedge", "near line", "far line",
    }  # fmt: skip
    assert not Value.HEIGHT.short


def test_a_mortise_card_says_length_width_and_depth():
    rail = end_mortises(board("16", "5", "3/4", datum=ACROSS), "3/8", "1/4", "3/4", "1", "1 1/2", "3")
    (card,) = settings_for([rail], usual_shop(Unit.INCH)).settings
    assert position_words(card, card.works[0], INCH.text).endswith("; each 3/4 in long, 1/4 in wide, 1 in deep")
    tree = settings_tree(settings_for([rail], usual_shop(Unit.INCH)), INCH, INCH.text)
    (told,) = tree["settings"]
    assert told["works"][0]["positions_in_words"] == position_words(card, card.works[0], INCH.text)
    assert told["on_rule"][0]["to"] == "middle"


def test_a_fence_in_the_middle_of_a_wide_dado_decides_nothing():
    (card,) = settings_for([dado(board("18", "5", "1/2"), "1", "47/64", "1/4")], shop(cutters={"1/4": "1"})).settings
    assert [reading.affects for reading in card.readings] == [Measured.FROM_FENCE, None, Measured.WIDTH, Measured.DEPTH]


def test_what_was_refused_stands_first_and_the_rest_is_cut():
    boards = [
        groove(board("18", "5", "1/2", name="good"), "3/8", "1/4", "1/4"),
        groove(board("18", "5", "1/2", name="bad"), "3/8", "1/16", "1/4"),
    ]
    boards.append(end_slot(board("16", "5", "3/4", name="front"), "1/4", "1/4", "1/2"))
    found = settings_for(boards, usual_shop(Unit.INCH))
    assert [finding.harm for finding in found.findings] == [Harm.REFUSE, Harm.WARN]
    assert found.findings[0].where == "bad, groove"
    assert {name for setting in found.settings for name in setting.board_names} == {"good", "front"}


def test_a_wide_cutter_past_the_table_of_speeds_goes_by_its_marking():
    found = settings_for([groove(board("18", "9", "1/2"), "1", "4", "1/4")], shop(cutters={"4": "1"}))
    assert found.settings[0].speed is None
    assert [finding.kind for finding in found.findings] == ["cutter speed"]


def test_a_rabbet_takes_the_cutter_that_spares_a_change():
    """Two cutters would do the rabbet in as many passes; the one the dado before it is cut with stays in."""
    case = edge_rabbet(dado(groove(board("30", "12", "3/4"), "4", "1/4", "1/4"), "2", "1/2", "1/4"), "3/16", "3/8")
    found = settings_for([case], shop(cutters={"1/4": "1", "1/2": "1"}))
    by_name = {setting.cut_names[0]: setting for setting in found.settings}
    assert by_name["dado"].tool.width == by_name["back rabbet"].tool.width == inches("1/2")
    assert found.cutter_changes == 2


def test_bands_come_before_the_first_card_of_each_part_and_alike_ones_together():
    thick = inch("1/32")
    edges = ((Surface.FAR_EDGE, 2), (Surface.END, 1))

    def banded(of):
        return replace(of, bands=tuple(Band(surface, "cherry", thick, of.width, order) for surface, order in edges))

    sides = [groove(board("18", "5", "1/2", name=name), "3/8", "1/4", "1/4") for name in ("left side", "right side")]
    plain = dado(board("18", "5", "1/2", name="plain"), "1/4", "1/4", "1/4")
    found = settings_for([*map(banded, sides), plain], usual_shop(Unit.INCH))
    (told,) = found.bands
    number = next(setting.number for setting in found.settings if "left side" in setting.board_names)
    assert (told.number, told.boards, told.edges) == (number, ("left side", "right side"), ("front end", "top edge"))
    assert settings_for([*sides, plain], usual_shop(Unit.INCH)).bands == ()
