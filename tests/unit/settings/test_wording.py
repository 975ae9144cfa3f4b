"""Settings in the maker's words."""

from dataclasses import replace

import pytest

from joinlay.boards import CutRole, CutUse, DrawerRole, Hand, PartKind, PartRole
from joinlay.lengths import GRADUATIONS, Unit, mm
from joinlay.settings import Measured, settings_for
from joinlay.settings.elements import PlainCut
from joinlay.settings.wording import (
    beside_words,
    change_words,
    correction_words,
    cut_words,
    effect_words,
    lie_words,
    machine_words,
    measure_words,
    offset_words,
    position_words,
    reading_words,
    remainder_words,
    small_words,
    speed_words,
    stop_words,
    touch_words,
)
from joinlay.shop import MachineKind, usual_shop
from tests import by_hand
from tests.unit.settings.wood import (
    ACROSS,
    RIGHT,
    board,
    dado,
    edge_rabbet,
    end_mortises,
    end_rabbet,
    end_slot,
    groove,
    hole,
    shop,
    with_dado_set,
)

INCH = GRADUATIONS["1/64 in"]


def the_card(of, tools=None):
    (card,) = settings_for([of], tools or usual_shop(Unit.INCH)).settings
    return card


CARDS = {
    "dado at a table": (dado(board("18", "5", "1/2"), "1/4", "1/4", "1/4", far=True), None),
    "dado with a straightedge": (dado(board("72", "23", "3/4"), "30", "3/4", "1/4"), None),
    "dado at a saw": (dado(board("18", "5", "1/2"), "1/4", "5/16", "1/4"), with_dado_set("1/4")),
    "tongue": (end_rabbet(board("16", "5", "1/2", datum=ACROSS), "1/4", "1/4"), None),
    "rabbet": (edge_rabbet(board("30", "12", "3/4"), "9/32", "1/4"), None),
    "slot": (end_slot(board("16", "5", "3/4", datum=ACROSS), "1/4", "1/4", "1/2"), None),
    "mortise": (end_mortises(board("18", "5", "1/2"), "1/4", "4 mm", "12 mm", "5/8", "1", "2 5/8"), None),
    "hole": (hole(board("16", "5", "3/4", datum=ACROSS), "8", "2 1/2", "3/16"), None),
    "long groove": (groove(board("60", "5", "1/2"), "3/8", "1/4", "1/4", start="1"), None),
}

LYING = {
    "dado at a table": "inside face down, back end to the fence",
    "dado with a straightedge": "inside face up, straightedge measured from the front end",
    "dado at a saw": "inside face down, front end to the fence",
    "tongue": "left end down, inside face to the fence",
    "rabbet": "inside face down, top edge to the fence",
    "slot": "left end down, inside face to the fence",
    "mortise": "fence on the inside face, cutter into the front end",
    "hole": "inside face up, line gauged from the bottom edge",
    "long groove": "inside face up, edge guide along the bottom edge",
}


@pytest.mark.parametrize("name", CARDS)
def test_how_the_work_lies(name):
    card = the_card(*CARDS[name])
    assert lie_words(card, card.works[0]) == LYING[name]


SET = {
    "dado at a table": ["fence to the near side of the cutter 1/4 in", "height of the cutter 1/4 in"],
    "dado with a straightedge": ["straightedge from the front end 27 3/8 in", "depth 1/4 in"],
    "dado at a saw": [
        "fence to the near side of the cutter 1/4 in",
        "fence to the near side of the cutter 5/16 in",
        "height of the blade 1/4 in",
    ],
    "rabbet": ["fence to the far side of the cutter 9/32 in", "height of the cutter 1/4 in"],
    "mortise": ["fence above the middle of the cutter 1/4 in", "depth 5/8 in"],
    "hole": ["line from the bottom edge 2 1/2 in", "depth 3/4 in"],
}


@pytest.mark.parametrize("name", SET)
def test_what_is_set(name):
    card = the_card(*CARDS[name])
    assert [reading_words(card, reading) for reading in card.readings] == SET[name]


def test_machine_and_speed():
    assert machine_words(the_card(*CARDS["dado at a table"]), INCH.text) == "router table, 1/4 in straight cutter"
    assert (
        machine_words(the_card(*CARDS["dado with a straightedge"]), INCH.text)
        == "hand-held router with a straightedge, 3/4 in straight cutter"
    )
    assert (
        machine_words(the_card(*CARDS["long groove"]), INCH.text) == "hand-held router with an edge guide, 1/4 in straight cutter"
    )
    assert speed_words(the_card(*CARDS["tongue"])) == "24 000 rpm at most; the marking on the cutter governs"
    assert speed_words(the_card(*CARDS["mortise"])) == ""


def corrections(name, measured):
    card = the_card(*CARDS[name])
    return [correction_words(card, each) for each in card.test_piece.corrections if each.measured is measured]


def test_a_tight_tongue_says_what_to_move_which_way_and_by_how_much():
    assert corrections("tongue", Measured.TONGUE_THICKNESS) == [
        "tongue too thick or too tight by x: move the fence x towards the cutter",
        "tongue too thin or too loose by x: move the fence x away from the cutter",
    ]
    assert corrections("tongue", Measured.TONGUE_LENGTH)[0] == "tongue too long by x: lower the cutter by x"


def test_a_tight_dado_is_run_again_or_its_last_pass_moved():
    assert corrections("dado at a table", Measured.WIDTH) == [
        "too narrow or its mate too tight by x: run it again with the fence x away from the cutter"
    ]
    assert (
        corrections("dado at a saw", Measured.WIDTH)[0] == "too wide by x: move the fence x towards the cutter for the last pass"
    )
    assert corrections("dado with a straightedge", Measured.FROM_FENCE)[0] == (
        "too far from the fence side by x: move the straightedge x towards the front end"
    )
    assert corrections("dado at a saw", Measured.DEPTH)[1] == "too shallow by x: raise the blade by x"
    assert corrections("mortise", Measured.DEPTH)[0] == "too deep by x: set it x shallower"


def test_test_piece_and_positions():
    assert measure_words(the_card(*CARDS["rabbet"]), INCH.text) == "wood left 1/2 in, rabbet width 9/32 in, depth 1/4 in"
    card = the_card(*CARDS["mortise"])
    assert position_words(card, card.works[0], INCH.text).startswith("middles 1 in, 2 5/8 in from the bottom edge; each ")
    two = hole(hole(board("16", "5", "3/4", datum=ACROSS), "4", "2 1/2", "3/16"), "12", "2 1/2", "3/16")
    drilled = the_card(two)
    assert (
        position_words(drilled, drilled.works[0], INCH.text)
        == "middles 4 in, 12 in from the left end, on a line 2 1/2 in from the bottom edge"
    )


def test_stops_on_a_table_and_marks_on_the_bench():
    card = the_card(groove(board("18", "5", "1/2", place=RIGHT), "3/8", "1/4", "1/4", stop="17"))
    stops = card.works[0].stops
    assert stops is not None
    assert stop_words(stops, INCH.text, at_table=True) == "back end first; in-feed stop 17 in from the far side of the cutter"
    stops = the_card(*CARDS["long groove"]).works[0].stops
    assert stops is not None
    assert stop_words(stops, INCH.text, at_table=False) == "front end first; begin 1 in from it"


def test_what_is_touched_between_cards():
    sides = [groove(dado(board("18", "5", "1/2"), "1/4", "1/4", "1/8", far=True), "1/4", "1/4", "1/4")]
    found = settings_for(sides, usual_shop(Unit.INCH))
    assert [change_words(setting) for setting in found.settings] == ["new cutter", "new height"]
    assert [touch_words(setting) for setting in found.settings] == ["cutter", "height"]
    untouched = replace(found.settings[1], changes=())
    assert (change_words(untouched), touch_words(untouched)) == ("touch nothing", "nothing")
    by_hand = replace(untouched, machine=MachineKind.BENCH)
    assert (change_words(by_hand), touch_words(by_hand)) == ("by hand", "by hand")


def test_cuts_are_named_once_without_hand_or_number():
    back = end_rabbet(board("16", "5", "1/2", datum=ACROSS), "1/4", "1/4", name="left rabbet")
    back = end_rabbet(back, "1/4", "1/4", far=True, name="right rabbet")
    assert cut_words(the_card(back)) == "rabbet in drawer side"
    assert cut_words(the_card(*CARDS["mortise"])) == "mortise in drawer side"


def test_a_card_is_named_by_all_it_serves():
    side, back = board("18", "5", "1/2", name="left side"), board("16", "5", "1/2", name="back", part="drawer back", datum=ACROSS)
    grooves = [groove(each, "3/8", "1/4", "1/4") for each in (side, by_hand.called(side, "right side"), back)]
    (card,) = settings_for(grooves, usual_shop(Unit.INCH)).settings
    assert cut_words(card) == "groove in drawer sides and back"
    dadoes = dado(dado(side, "1", "1/4", "1/4", name="front dado"), "1", "1/4", "1/4", far=True, name="back dado")
    assert cut_words(the_card(dadoes)) == "front and back dado in drawer side"
    holes = hole(hole(side, "4", "1", "3/16", name="screw hole 1"), "9", "1", "3/16", name="screw slot 1")
    assert cut_words(the_card(holes)) == "screw hole and slot in drawer side"


RAIL = PartRole(PartKind.RAIL, DrawerRole(7))
BACK = PartRole(PartKind.DRAWER_BACK, DrawerRole(7))
PARTITION = PartRole(PartKind.CASE_PARTITION, number=1)


@pytest.mark.parametrize(
    ("role", "name", "plain"),
    [
        (CutRole(CutUse.MORTISE, which=RAIL, number=1), "rail under drawer 7 mortise 1", "mortise"),
        (CutRole(CutUse.MORTISE, which=Hand.LEFT, number=2), "left mortise 2", "mortise"),
        (CutRole(CutUse.RABBET, which=Hand.RIGHT), "right rabbet", "rabbet"),
        (CutRole(CutUse.DADO, which=BACK), "back dado", "back dado"),
        (CutRole(CutUse.DADO, which=PARTITION), "partition 1 dado", "dado"),
        (CutRole(CutUse.SCREW_HOLE, number=3), "screw hole 3", "screw hole"),
        (CutRole(CutUse.GROOVE), "groove", "groove"),
    ],
)  # fmt: skip
def test_what_a_cut_is_at_a_machine(role, name, plain):
    assert (role.name, PlainCut.of(role).words) == (name, plain)


def test_mortises_of_one_line_are_called_in_few_words():
    posts = end_mortises(board("30", "12", "3/4"), "3/8", "1/4", "3/4", "1/2", *map(str, range(1, 7)))
    roles = [CutRole(CutUse.MORTISE, which=PartRole(PartKind.RAIL, DrawerRole(n)), number=m) for n in (1, 2, 3) for m in (1, 2)]
    cuts = tuple(replace(cut, role=role) for cut, role in zip(posts.cuts, roles, strict=True))
    (work,) = the_card(replace(posts, cuts=cuts), shop(cutters={"1/4": "1"})).works
    assert work.cuts == ("rail under drawer 1 to 3 mortise",)


#: A cut that a rule of sixteenths does not show, and what setting it to the mark does.
FITS = {
    "a dado comes out wider": (dado(board("18", "5", "1/2"), "1/4", "19/64", "1/4", far=True), "the joint is that much looser"),
    "a dado comes out narrower": (
        dado(board("18", "5", "1/2"), "1/4", "21/64", "1/4", far=True),
        "the joint is that much tighter",
    ),
    "a tongue comes out thicker": (
        end_rabbet(board("16", "5", "17/32", datum=ACROSS), "1/4", "1/4"),
        "the joint is that much tighter",
    ),
    "a mortise is off the middle": (
        end_mortises(board("18", "5", "1/2"), "17/64", "4 mm", "12 mm", "5/8", "1"),
        "the parts meet that much off flush",
    ),
    "a rabbet comes out wider": (edge_rabbet(board("30", "12", "3/4"), "11/64", "1/4"), "what goes in has that much more room"),
}


@pytest.mark.parametrize("case", FITS)
def test_what_a_remainder_does_to_the_fit_is_said(case):
    of, effect = FITS[case]
    card = the_card(of, shop(rule="1/16 in"))
    said = [remainder_words(reading, GRADUATIONS["1/16 in"]) for reading in card.readings]
    assert any(effect in each for each in said), said
    assert all(effect_words(reading) for reading in card.readings if reading.affects is not None and reading.by)


def test_near_side_and_middle_are_both_told():
    show = INCH.text
    at_table, mortise = the_card(*CARDS["dado at a table"]), the_card(*CARDS["mortise"])
    assert beside_words(at_table, at_table.readings[0], show) == "middle 3/8 in"
    assert beside_words(mortise, mortise.readings[0], show).startswith("near side ")
    assert mortise.centre - mortise.near_side == mortise.tool.width / 2
    rabbet = the_card(*CARDS["rabbet"])
    assert beside_words(rabbet, rabbet.readings[0], show).startswith("cutter sunk ")
    assert beside_words(at_table, at_table.readings[-1], show) == ""
    guided = the_card(*CARDS["dado with a straightedge"])
    assert beside_words(guided, guided.readings[0], show) == "near side from the front end 30 in"
    assert offset_words(guided, show).startswith("straightedge to the near wall 2 5/8 in")
    assert offset_words(at_table, show) == ""


def test_what_the_remainder_does():
    card = the_card(end_rabbet(board("16", "5", "17/32", datum=ACROSS), "1/4", "1/4"), shop(rule="1/16 in"))
    assert (
        remainder_words(card.readings[0], INCH)
        == "set to the mark, tongue thickness is 0.031 in larger: the joint is that much tighter"
    )
    assert remainder_words(card.readings[1], INCH) == ""
    assert small_words(mm("0.1"), INCH) == "0.004 in"
    assert small_words(mm("0.2"), GRADUATIONS["0.1 mm"]) == "0.2 mm"
