"""The packet of runners for openings that are there: its sticks, templates and pictures, by one packet with everything in it."""

import json
from functools import cache

import pytest

from joinlay.boards import PartKind
from joinlay.documents.model import part_nodes
from joinlay.documents.plan_json import plan_json
from joinlay.documents.wanted_sheets import EVERYTHING
from joinlay.lengths import Fraction
from joinlay.pen.marks import Role, Text
from joinlay.templates.drilling.runner_templates import runner_templates
from joinlay.templates.drilling.stop_templates import stop_templates
from joinlay.templates.story.story_sticks import sticks_of
from tests.assembly.existing_cases import measured, ours, planned
from tests.measured.collisions import collisions
from tests.measured.packets import packet_of


@cache
def there():
    """A case of oak, and so of screws in slots."""
    return planned(measured(planned(ours(sides="ash")), sides="ash"))


@cache
def sheets():
    return packet_of(there(), wanted=EVERYTHING).sheets


def said(sheet):
    return " ".join(stroke.plain for stroke in sheet.strokes if isinstance(stroke, Text))


def test_no_words_collide_on_any_of_its_sheets():
    assert [(sheet.number, *found) for sheet in sheets() for found in collisions(sheet.strokes)] == []


def test_it_is_told_as_openings_with_runners_and_nothing_is_said_of_standing():
    cover, order = said(sheets()[0]), said(sheets()[1])
    assert "2 drawers, from their openings, and their runners" in cover
    assert "fix it to the wall" not in order
    assert not any("means nothing" in said(sheet) for sheet in sheets())


def test_its_case_has_no_place_in_the_cutting_list_nor_in_the_model():
    roles = {board.role for board in there().existing}
    assert roles
    assert not roles & set(part_nodes(there()))
    listed = [said(sheet) for sheet in sheets() if sheet.section == "Cutting list, and what to buy"]
    assert any("bearer" in words for words in listed)
    assert not any("case left side" in words or "stile" in words for words in listed)


def test_the_section_shows_the_runners_hatched_and_the_case_that_is_there_thin():
    (section,) = (sheet for sheet in sheets() if "the case that is there thin" in said(sheet))
    by_role = {
        stroke.of: stroke.role
        for stroke in section.strokes
        if getattr(stroke, "of", None) and stroke.role in (Role.OUTLINE, Role.SEEN)
    }
    roles = {role: [s.role for s in section.strokes if getattr(s, "of", None) == role] for role in by_role}
    sides = [role for role in roles if role.kind is PartKind.CASE_SIDE]
    assert sides
    assert all(Role.OUTLINE not in roles[side] for side in sides)
    assert all(Role.OUTLINE in roles[role] for role in roles if role.kind is PartKind.BEARER)


@pytest.mark.parametrize("hand", ["left", "right"])
def test_the_stick_of_a_side_counts_the_runners_from_the_bottom_that_was_measured(hand):
    (stick,) = (one for one in sticks_of(there()) if f"case {hand} side" in one.names)
    assert (stick.measures, stick.datum, stick.far) == ("heights", "case bottom", "case top")
    told = {(one.word, one.part): (one.low, one.high) for one in stick.stretches}
    for board in there().boards:
        role = board.role
        if role.kind is PartKind.BEARER and role.hand.value == "left":
            top = board.place.origin[2]
            assert told["bearer", board.name] == (top - board.thickness.mm, top)


def test_the_stick_across_counts_from_the_inside_of_the_case_and_that_of_depths_has_the_screws():
    across = next(one for one in sticks_of(there()) if one.measures == "widths")
    assert (across.datum, across.length) == ("inside of the left side", there().dimensions()["case inside width"].mm)
    guides = [one for one in across.stretches if one.word == "guide"]
    assert min(one.low for one in guides) == Fraction(0)
    deep = next(one for one in sticks_of(there()) if one.measures == "depths")
    assert {one.word for one in deep.centres} == {"screw", "screw slot"}
    assert deep.far == "case back"


def test_runners_and_stops_have_their_templates():
    names = {
        name
        for template in (*runner_templates(there()), *stop_templates(there()))
        for name in (*template.names, *template.turned)
    }
    assert "drawer 1 left runner" in names
    assert "stops drawer 1 left block" in names


def test_the_plan_s_file_says_where_its_zero_is_and_that_no_piece_is_weighed():
    told = plan_json(there(), ()).decode()
    assert "the case's left side, inside" in told
    assert '"piece": null' in told
    tree = json.loads(told)
    wholes = (*tree["others"], *tree["drawers"])
    boards = {board["name"] for whole in wholes for board in whole["boards"]} | {board["name"] for board in tree["existing"]}
    met = {met[end] for whole in wholes for met in whole["meetings"] for end in ("one", "other")}
    assert "face frame rail under drawer 1" in met
    assert met <= boards
