"""Over whole packets: a part has one number wherever it is pointed at (PR-10), and figures are as high as they are read from
afar (ISO 3098).
"""

import re

import pytest

from joinlay.cutlist.cutting_list import cutting_list
from joinlay.documents.wanted_sheets import EVERYTHING, LEAN
from joinlay.pen.lettering import Vulgar
from joinlay.pen.marks import Arc, Text
from tests.measured.packets import example, packet, pieces


def numbers(name):
    """The cutting list's number of every part, by its role."""
    plan = example(name)
    by_name = {part: row.number for row in cutting_list(plan).rows for part in row.names}
    return {board.role: by_name[board.name] for board in plan.boards}


@pytest.mark.parametrize("name", pieces())
def test_every_number_that_points_at_a_part_is_the_cutting_lists(name):
    known, shown = numbers(name), set()
    for sheet in packet(name, None, EVERYTHING).sheets:
        balloons = [(stroke, stroke.of) for stroke in sheet.body if isinstance(stroke, Arc) and isinstance(stroke.of, tuple)]
        for circle, roles in balloons:
            (number,) = [
                int(text.plain)
                for text in sheet.body
                if isinstance(text, Text) and text.of == roles and text.anchor[0] == circle.centre[0] and text.plain.isdigit()
                if abs(text.anchor[1] - circle.centre[1]) < circle.radius
            ]
            assert {known[role] for role in roles if role in known} == {number}, (sheet.number, number)
            shown |= set(roles)
    # On some view there is a number for every part but those that are alike and lie behind one another.
    assert {known[role] for role in shown if role in known} >= {
        number for role, number in known.items() if role.name.endswith(("front", "side", "back", "bottom", "stile", "rail"))
    }


@pytest.mark.parametrize("name", pieces())
def test_in_details_the_same_numbers_stand_before_the_names(name):
    known = {role.name: number for role, number in numbers(name).items()}
    details = [sheet for sheet in packet(name, None, LEAN).sheets if "the piece, details" in sheet.title]
    said = [text.plain for sheet in details for text in sheet.body if isinstance(text, Text)]
    told = [match.groups() for one in said if (match := re.fullmatch(r"(\d+) (.+)", one)) and match[2] in known]
    assert told
    assert all(int(number) == known[part] for number, part in told)


@pytest.mark.parametrize("name", pieces())
def test_every_drawer_is_named_on_the_piece(name):
    said = {
        text.plain
        for sheet in packet(name, None, LEAN).sheets
        if sheet.section == "The piece"
        for text in sheet.body
        if isinstance(text, Text)
    }
    # A low front has room for its number alone.
    assert all({drawer.name, drawer.name.removeprefix("drawer ")} & said for drawer in example(name).drawers)


#: Words with figures that are used with a part, a cutter or a rule in hand, by chapter, and how high these are at the least, in
#: mm.
HELD = {
    "Templates, strips and drilling": (re.compile(r"\d+\S* (deep|wide|up|from (the )?(end|edge|top|bottom))\b|× \d|\d[+−]$"), 5),
    "Story sticks": (re.compile(r"^\d+( \d+/\d+|/\d+)?[+−]?$|^\d+\.\d+[+−]?$"), 5),
    "Machine settings": (re.compile(r"\b(middles|end first;|stop \d|long, .* wide)"), 5),
}


def heights(text):
    """How high the figures in a line of words are."""
    return [piece.height for piece in text.content if isinstance(piece, Vulgar) or re.search(r"\d", piece.text)]


@pytest.mark.parametrize(
    ("name", "paper", "wanted"),
    [
        ("print-chest", "letter", LEAN),
        ("print-chest", "a4", LEAN),
        ("moth-cabinet", "a4", LEAN),
        # As it is drawn for other tests.
        ("moth-cabinet", "letter", EVERYTHING),
    ],
)
def test_figures_used_with_a_part_in_hand_are_five_millimetres_high(name, paper, wanted):
    counted = dict.fromkeys(HELD, 0)
    for sheet in packet(name, paper, wanted).sheets:
        if sheet.section not in HELD:
            continue
        held, least = HELD[sheet.section]
        for text in sheet.body:
            if isinstance(text, Text) and held.search(text.plain) and (high := heights(text)):
                # A drawer's own number before its figure is a word.
                assert high[-1] >= least, (sheet.number, text.plain)
                counted[sheet.section] += 1
    assert min(counted.values()) >= 4


@pytest.mark.parametrize("name", ["print-chest", "moth-cabinet"])
def test_what_is_set_and_what_is_sawn_is_read_at_arms_length(name):
    plan = example(name)
    for sheet in packet(name, None, LEAN).sheets:
        large = {text.plain for text in sheet.body if isinstance(text, Text) and min(heights(text), default=0) >= 5}
        if sheet.section == "Machine settings":
            cards = {laid.template.marks[0] for laid in sheet.laid}
            for setting in plan.settings.settings:
                if f"card {setting.number}" in cards:
                    figure = setting.readings[0].on_rule.figures
                    assert any(one.rstrip("+− ") == figure for one in large), (sheet.number, setting.number)
