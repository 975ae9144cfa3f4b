"""Settings as plain dicts: what JSON holds, and every length exact in it."""

import json

from joinlay.lengths import GRADUATIONS, Fraction, Unit
from joinlay.settings import settings_for
from joinlay.settings.plain import settings_tree
from joinlay.shop import usual_shop
from tests.unit.settings.test_list import quarter_inch_drawer
from tests.unit.settings.wood import RIGHT, board, dado, end_mortises, groove

RULE = GRADUATIONS["1/32 in"]


def exactly(length):
    """A length as exact text and as the maker reads it."""
    return {"exact": str(length.mm), "text": RULE.text(length)}


def tree_of(boards):
    return settings_tree(settings_for(boards, usual_shop(Unit.INCH)), RULE, exactly)


def test_it_goes_through_json_unchanged():
    boards = [*quarter_inch_drawer(), end_mortises(board("18", "5", "1/2", name="m"), "1/4", "4 mm", "12 mm", "5/8", "1")]
    tree = tree_of(boards)
    assert json.loads(json.dumps(tree)) == tree
    assert (tree["set_ups"], tree["naive_set_ups"], len(tree["settings"])) == (2, 2, 3)


def test_every_length_is_exact_and_as_the_maker_reads_it():
    (card,) = tree_of([dado(board("72", "23", "3/4"), "30 1/3", "1/2", "1/4")])["settings"]
    third = card["fence_to_near_side"]
    assert Fraction(third["exact"]) == Fraction(91, 3) * Fraction(254, 10)
    assert third["text"] == "30 11/32- in (30.333)"
    assert card["guide_offset"]["text"] == "2 3/4 in"
    assert card["passes"][0]["straightedge"]["text"] == "27 19/32- in (27.583)"


def test_which_way_to_walk_and_why():
    card, mortised = tree_of(
        [
            dado(board("72", "23", "3/4"), "30", "23/32", "1/4"),
            end_mortises(board("18", "5", "1/2", name="m"), "1/4", "4 mm", "12 mm", "5/8", "1"),
        ]
    )["settings"]
    card, mortised = (card, mortised) if card["guide"] == "straightedge" else (mortised, card)
    feeding = card["feeding"]
    assert (feeding["cutter_turns"], feeding["counted_from_on"], feeding["last_pass_cuts"]) == ("clockwise", "left", "near wall")
    assert feeding["way"] == "away from you, straightedge on your left"
    assert feeding["in_words"].startswith(
        "Push the router away from you with the straightedge on your left, the wall farther from the straightedge first: "
    )
    assert mortised["feeding"] is None


def test_a_card_says_what_a_maker_needs():
    side = groove(board("18", "5", "1/2", place=RIGHT), "3/8", "1/4", "1/4", stop="17")
    (card,) = tree_of([side])["settings"]
    assert (card["machine"], card["guide"], card["role"], card["speed"]) == ("router table", "fence", "channel", 24_000)
    (work,) = card["works"]
    assert (work["entry"], work["fence"], work["boards"]) == ("inside face", "bottom edge", ["left side"])
    assert (work["stops"]["first"], work["stops"]["infeed_stop"]["text"], work["stops"]["outfeed_stop"]) == (
        "back end",
        "17 in",
        None,
    )
    assert work["square_the_ends"] is True
    assert card["on_rule"][0]["value"] == "fence to the near side of the cutter"
    assert card["test_piece"]["corrections"][0].startswith("too narrow")
    assert card["cautions"]
    assert card["change"] == ["cutter", "fence", "height"]
