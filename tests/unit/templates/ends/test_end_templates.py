"""Templates: one for each end with cuts, alike ones in one, every word where nothing else is."""

from dataclasses import replace
from fractions import Fraction

import pytest

from joinlay.boards import Place
from joinlay.lengths import mm
from joinlay.pen.marks import Fill, Line, Text
from joinlay.templates import Role, templates_for
from tests import by_hand
from tests.measured.collisions import collisions
from tests.unit.templates.parts import METRIC, back, board, face_mortise, front, groove, side


def words_on(template):
    return [stroke.plain for stroke in template.strokes if isinstance(stroke, Text)]


def lines_saying(template, said):
    return [stroke for stroke in template.strokes if isinstance(stroke, Line) and stroke.says == said]


def test_one_for_each_end_that_has_cuts():
    assert [template.title for template in templates_for([side(), back(), board("drawer 1 bottom")], METRIC)] == [
        "drawer 1 left side, front end",
        "drawer 1 left side, back end",
        "drawer 1 back, left end",
    ]


def test_alike_parts_share_one_and_are_counted():
    boards = [by_hand.called(side(), f"drawer {n} left side") for n in (1, 2, 3)]
    first, _ = templates_for(boards, METRIC)
    assert first.names == ("drawer 1 left side", "drawer 2 left side", "drawer 3 left side")
    assert first.title == "drawer 1 to 3 left side, front end"
    assert first.quantity == 3
    assert "make 3" in words_on(first)


def test_a_mirror_image_never_shares_but_by_being_turned_over():
    here, there = (Place.at(mm(0), mm(0), mm(0), "+Y", "+Z", into) for into in ("-X", "+X"))
    boards = [side(place=here), by_hand.called(side(place=there), "drawer 1 right side")]
    for template in templates_for(boards, METRIC):
        assert (template.names, template.turned) == (("drawer 1 left side",), ("drawer 1 right side",))
        said = words_on(template)
        assert "turned over, print down: drawer 1 right side make 1" in " ".join(said)
        assert {"L", "R"} <= set(said)
        assert template.title.startswith("drawer 1 left and right side, ")


def test_of_several_mirror_images_the_same_end_of_the_other_hand_is_taken():
    here, there = (Place.at(mm(0), mm(0), mm(0), "+Y", "+Z", into) for into in ("-X", "+X"))
    alike_at_both_ends = board(cuts=(groove(),))
    boards = [
        replace(alike_at_both_ends, place=here),
        by_hand.called(replace(alike_at_both_ends, place=there), "drawer 1 right side"),
    ]
    assert [one.title for one in templates_for(boards, METRIC)] == [
        "drawer 1 left and right side, front end",
        "drawer 1 left and right side, back end",
    ]
    [alone] = templates_for(boards[:1], METRIC)
    assert alone.title == "drawer 1 left side, front end, back end"
    assert [said for said in words_on(alone) if said.startswith("BACK END")] == ["BACK END make 1"]


def test_a_glance_tells_part_end_face_edge_and_count():
    first, _ = templates_for([side()], METRIC)
    said = " ".join(words_on(first))
    for words in ("L", "drawer 1", "left side", "FRONT END", "inside face up", "make 1", "BOTTOM EDGE"):
        assert words in said


def test_what_is_read_with_the_part_in_hand_is_large_enough():
    """Figures 5 mm or more, words 3.5 mm or more (ISO 3098 heights)."""
    for template in templates_for([side(), front(), back()], METRIC):
        for stroke in template.strokes:
            if isinstance(stroke, Text) and stroke.turn.value == 0:
                figures = [run for run in stroke.content if not hasattr(run, "text") or run.text.replace(".", "").isdigit()]
                assert all(run.height >= 5 for run in figures)
                assert all(run.height >= Fraction(7, 2) for run in stroke.content)


def test_mortise_heights_stand_in_figures():
    first, _ = templates_for([side()], METRIC)
    assert {"30", "80"} <= set(words_on(first))


def test_the_datum_bar_lies_under_the_edge():
    first, _ = templates_for([side()], METRIC)
    bars = [s for s in first.strokes if isinstance(s, Fill) and s.ink == 1 and s.role is Role.DATUM and len(s.points) == 4]
    assert any(max(y for _, y in bar.points) == 0 and min(y for _, y in bar.points) < -1 for bar in bars)


@pytest.mark.parametrize("made", [side, front, back])
@pytest.mark.parametrize("width", [100, 130, 180, 260, 360])
def test_no_word_lies_on_anything(made, width):
    for template in templates_for([replace(made(), width=board(width=width).width)], METRIC):
        assert collisions(template.strokes) == []


@pytest.mark.parametrize("width", [17, 20, 25, 30])
def test_words_that_find_no_room_on_a_narrow_part_stand_past_it(width):
    [first] = templates_for([board(width=width, cuts=(groove(across=(8, 12)),))], METRIC)
    assert collisions(first.strokes) == []
    said = " ".join(words_on(first))
    for words in ("left side", "FRONT END", "inside face up", "make 1", "groove", "deep"):
        assert words in said


def test_a_short_part_is_drawn_whole():
    [first] = templates_for([board(length=55, cuts=(groove(length=55),))], METRIC)
    assert max(x for s in first.strokes if isinstance(s, Line) and s.role is Role.OUTLINE for x, _ in (s.start, s.end)) == 55
    assert collisions(first.strokes) == []


@pytest.mark.parametrize("middle", [20, 60, 75, 90, 99])
def test_a_mortise_within_100_mm_of_the_end_is_on_the_paper_whole(middle):
    first, *_ = templates_for([board(cuts=(face_mortise(1, 50, along=middle, depth=8),))], METRIC)
    reach = max(x for s in first.strokes if isinstance(s, Line) and s.role is Role.OUTLINE for x, _ in (s.start, s.end))
    assert reach >= middle + 2
    assert collisions(first.strokes) == []


def test_places_of_the_plan_can_be_found_by_name():
    first, _ = templates_for([side()], METRIC)
    assert {s.start[1] for s in lines_saying(first, "drawer 1 left side mortise 1 centre")} >= {30}
    assert lines_saying(first, "drawer 1 left side bottom edge")
    assert lines_saying(first, "drawer 1 left side front end")


# -- words that belong beside a part --------------------------------------------------------------------

SAID = ("finding 3: top edge swells 1.3 mm, 0.8 mm free", "finding 4: only 2.5 mm between the groove and the mortise 2")


@pytest.mark.parametrize("made", [side, front, back])
def test_what_was_found_stands_beside_the_part_and_on_nothing_else(made):
    named = made().name
    for template in templates_for([made()], METRIC, {named: SAID}):
        said = " ".join(words_on(template))
        assert all(word in said.split() for words in SAID for word in words.split())
        assert collisions(template.strokes) == []
    plain = " ".join(word for template in templates_for([made()], METRIC) for word in words_on(template))
    assert "finding" not in plain


def test_parts_of_which_other_things_are_said_do_not_share():
    boards = [by_hand.called(side(), f"drawer {n} left side") for n in (1, 2, 3)]
    told = {"drawer 2 left side": SAID[:1]}
    assert [template.quantity for template in templates_for(boards, METRIC, told)] == [2, 2, 1, 1]
    everyone = {one.name: SAID[:1] for one in boards}
    assert [template.quantity for template in templates_for(boards, METRIC, everyone)] == [3, 3]
