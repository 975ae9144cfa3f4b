"""``[top]`` and ``[base]`` in a job: read, planned, judged, drawn on the stick of heights; and what can't be read."""

from fractions import Fraction

import pytest

from joinlay.assembly.steps import step_words, steps_of
from joinlay.boards import CutUse, PartKind, Whole
from joinlay.boards.fastener import FastenerKind
from joinlay.checks.setting_down import anchor_words
from joinlay.checks.tipping import standing
from joinlay.cutlist.cutting_list import cutting_list
from joinlay.cutlist.fastenings import fasteners_of
from joinlay.cutlist.shopping import shopping_list
from joinlay.findings import Harm
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from joinlay.lengths import inches
from joinlay.pen.marks import Text
from joinlay.pictures.elevation import dimensioned_elevation
from joinlay.pictures.sections import upright_sections
from joinlay.settings.wording import cut_words, measure_words
from joinlay.templates.story.story_sticks import sticks_of
from tests.assembly.test_settings_cut_the_board import assert_cut_as_planned
from tests.measured.collisions import collisions
from tests.measured.packets import template_sheets
from tests.unit.jobs.jobs import GOOD, only_trouble

PIECE = (
    GOOD.replace('[[drawer]]\nopening = { width = "18 3/8", height = "4 1/4", depth = "20" }\n', "")
    + """
[case]
width = "24"
height = "20"
depth = "18"
sides = "cherry"
back = "thin"

[frame]
stock = "cherry"

[runners]
stock = "cherry"

[[bank]]
drawers = 2
"""
)
TOP, BASE = '\n[top]\nstock = "cherry"\n', '\n[base]\nstock = "cherry"\nheight = "3"\n'

#: A recess as high and as deep as usual.
CUT = '\n[base]\nstock = "cherry"\nkind = "cut recess"\n'

#: Feet of 3/4 stock, 1/8 set back, on levellers in their middle.
FEET = '\n[base]\nstock = "cherry"\nheight = "3"\nkind = "feet"\nfoot = "2"\nleveller = { hole = "3/8", depth = "1" }\n'


def planned(text):
    return plan(read_job(text, "chest.toml"))


def reach(made, kind, axis):
    """From where to where the boards of a kind reach."""
    points = [
        board.place.point(along, across, into)[axis]
        for board in made.boards
        if board.role.kind is kind
        for along in (board.length * 0, board.length)
        for across in (board.width * 0, board.width)
        for into in (board.thickness * 0, board.thickness)
    ]
    return min(points), max(points)


def test_a_job_with_a_top_and_a_plinth_is_made_and_every_cut_has_its_card():
    made = planned(PIECE + TOP + BASE)
    assert not made.is_refused
    assert {assembly.of for assembly in made.others} >= {Whole.TOP, Whole.BASE}
    assert_cut_as_planned(made.boards, made.shop)
    assert not made.order.findings


def test_in_a_room_top_and_base_are_taken_off_first():
    room = PIECE.replace(
        'width = "24"\nheight = "20"\ndepth = "18"', 'room = { width = "26", height = "24", depth = "19", above = "1/4" }'
    )
    made = planned(room + TOP + BASE)
    assert reach(made, PartKind.TOP, 0)[1] - reach(made, PartKind.TOP, 0)[0] == inches("26").mm
    assert reach(made, PartKind.TOP, 2)[1] - reach(made, PartKind.BASE_FRONT, 2)[0] == inches("23 3/4").mm
    assert reach(made, PartKind.TOP, 1)[1] - reach(made, PartKind.TOP, 1)[0] == inches("19").mm


def test_it_tips_about_the_front_of_its_base():
    kinds = [("", "0"), (BASE, "1/8"), (f'{BASE}set-back = "-1/4"\n', "-1/4"), (f'{BASE}kind = "recess"\n', "3")]
    for base, behind in [*kinds, (CUT, "3"), (f'{CUT}toe = "4"\n', "4"), (FEET, "1/2")]:
        made = planned(PIECE + TOP + base)
        weighed = standing(made.others, made.drawers, {stock.name: stock for stock in made.stocks.values()}, made.conditions)
        front = made.drawers[0].front.place.origin[1] - made.drawers[0].front.thickness.mm
        (drawer, *_) = weighed.drawers
        assert drawer.reach == pytest.approx(drawer.out + float(inches(behind).mm) - float(front))


def test_the_stick_of_heights_begins_at_the_floor_and_ends_over_the_top():
    stick = next(stick for stick in sticks_of(planned(PIECE + TOP + BASE)) if stick.datum == "floor")
    assert (stick.far, stick.length) == ("top of the piece", inches("23 3/4").mm)
    found = {stretch.word: (stretch.low, stretch.high) for stretch in stick.stretches}
    assert found["base"] == (inches(0).mm, inches(3).mm)
    assert found["top"] == (inches(23).mm, inches("23 3/4").mm)


@pytest.fixture(scope="module")
def recessed():
    return planned(PIECE + TOP + CUT)


def test_a_recess_cut_in_the_sides_is_sawn_to_a_line_and_has_its_card(recessed):
    assert not recessed.is_refused
    assert_cut_as_planned(recessed.boards, recessed.shop)
    assert not recessed.order.findings
    (card,) = [card for card in recessed.settings.settings if "toe notch" in cut_words(card)]
    said = measure_words(card, recessed.rule.text)
    assert "notch width 3 1/2 in" in said
    assert "rabbet" not in said


def test_the_toe_board_goes_in_before_the_back_and_the_drawers(recessed):
    moving = [move.moving[0].kind for stage in recessed.order.stages if stage.of is None for move in stage.moves]
    assert moving.index(PartKind.TOE_BOARD) < moving.index(PartKind.CASE_BACK) < moving.index(PartKind.DRAWER_FRONT)


def test_the_sticks_count_from_the_floor_with_the_recess_on_them(recessed):
    sticks = sticks_of(recessed)
    fronts = next(stick for stick in sticks if stick.datum == "floor")
    assert fronts.length == inches("20").mm + inches("3 1/2").mm + inches("3/4").mm
    told = {stretch.word: (stretch.low, stretch.high) for stretch in fronts.stretches}
    assert told["recess"] == (inches("0").mm, inches("3 1/2").mm)
    side = next(stick for stick in sticks if stick.kind is PartKind.CASE_SIDE)
    told = {stretch.word: (stretch.low, stretch.high) for stretch in side.stretches}
    assert told["toe notch"] == (inches("0").mm, inches("3 1/2").mm)


def test_the_recess_is_told_in_the_section(recessed):
    (picture,) = upright_sections(recessed, (Fraction(190), Fraction(240)))
    assert "3" in [stroke.plain for stroke in picture.strokes if isinstance(stroke, Text)]


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ('\n[top]\nstock = "oak"\n', "oak"),
        ('\n[top]\nstock = "cherry"\nsides = "1"\n', "sides"),
        ('\n[base]\nstock = "cherry"\n', "height"),
        ('\n[base]\nstock = "cherry"\nheight = "3"\nkind = "wheels"\n', '"plinth", "recess", "cut recess" or "feet"'),
        ('\n[base]\nstock = "cherry"\nheight = "3"\ntoe = "2"\n', 'write it with kind = "recess"'),
        ('\n[base]\nstock = "cherry"\nheight = "3"\nleveller = { hole = "3/8", depth = "1" }\n', 'write it with kind = "feet"'),
        ('\n[base]\nstock = "cherry"\nheight = "3"\nkind = "feet"\nfoot = "2"\nleveller = { hole = "3/8" }\n', "depth"),
        ("\n[filler]\n", "left"),
        ('\n[filler]\nleft = "0"\n', "left"),
        ('\n[filler]\nleft = "1"\nstock = "oak"\n', "oak"),
        ('\n[filler]\nleft = "1"\nback = "1"\n', "back"),
        ('\n[base]\nstock = "cherry"\nkind = "cut recess"\nset-back = "1"\n', "leave it out"),
        ('\n[base]\nstock = "cherry"\nkind = "cut recess"\ntoe = "0"\n', "toe"),
        ('\n[base]\nstock = "cherry"\nheight = "3"\nkind = "feet"\n', 'write it with kind = "feet"'),
        ('\n[base]\nstock = "cherry"\nheight = "3"\nfoot = "2"\n', 'write it with kind = "feet"'),
        ('\n[base]\nstock = "cherry"\nheight = "-3"\n', "-3"),
    ],
)
def test_what_can_not_be_read_is_said_with_its_line(line, said):
    trouble = only_trouble(PIECE + line)
    assert trouble.startswith("chest.toml:")
    assert said in trouble


def test_a_room_too_low_for_top_and_base_is_said():
    room = PIECE.replace('width = "24"\nheight = "20"\ndepth = "18"', 'room = { width = "26", height = "3", depth = "19" }')
    assert "once its top and base are taken off" in only_trouble(room + TOP + BASE)


FILLER = '\n[filler]\nleft = "1 1/2"\nright = "2"\n'


@pytest.fixture(scope="module")
def filled():
    return planned(PIECE + TOP + CUT + FILLER)


def test_a_job_with_fillers_is_made_and_every_cut_has_its_card(filled):
    assert not filled.is_refused
    assert_cut_as_planned(filled.boards, filled.shop)
    assert not filled.order.findings
    (card,) = [
        card
        for card in filled.settings.settings
        if PartKind.STILE in {kind for work in card.works for kind in work.parts} and "screw hole" in cut_words(card)
    ]
    assert card.count >= 4


def test_the_fillers_are_put_on_last_of_all_but_the_drawers(filled):
    moving = [move.moving[0] for stage in filled.order.stages if stage.of is None for move in stage.moves]
    places = [n for n, role in enumerate(moving) if role.kind is PartKind.FILLER]
    assert places
    assert max(n for n, role in enumerate(moving) if role.drawer is None) == max(places)
    assert min(n for n, role in enumerate(moving) if role.kind is PartKind.DRAWER_FRONT) > max(places)


def test_their_screws_are_on_the_list_with_count_and_length(filled):
    """Through a stile of 1 1/2 and 1 1/4 into the filler, less 1/8: 2 1/2, as stiles are usually screwed to what stands beside
    them (common practice)."""
    screws = {one.fastener.length: one.count for one in fasteners_of(filled) if one.into is PartKind.FILLER}
    assert screws == {inches("2 1/2"): 2 * 2}


def test_the_screws_of_a_filler_are_on_the_stick_of_the_stile(filled):
    stick = next(stick for stick in sticks_of(filled) if stick.kind is PartKind.STILE)
    stile = next(board for board in filled.boards if board.role.kind is PartKind.STILE)
    holes = [cut.along.centre.mm for cut in stile.cuts_of(CutUse.SCREW_HOLE)]
    assert [centre.at for centre in stick.centres if centre.word == "screw"] == holes


def test_in_a_room_the_gaps_are_taken_off_and_the_fillers_reach_past_the_walls():
    room = PIECE.replace('width = "24"\nheight = "20"\ndepth = "18"', 'room = { width = "30", height = "24", depth = "19" }')
    made = planned(room + TOP + BASE + FILLER)
    low, high = reach(made, PartKind.STILE, 0)
    assert high - low == inches("30").mm - inches("1 1/2").mm - inches("2").mm
    left, right = reach(made, PartKind.FILLER, 0)
    assert (low - left, right - high) == (inches("2 1/4").mm, inches("2 3/4").mm)
    one = planned(room + TOP + BASE + '\n[filler]\nleft = "1 1/2"\n')
    low, high = reach(one, PartKind.STILE, 0)
    assert high - low == inches("30").mm - inches("1 1/2").mm - inches("3/4").mm


@pytest.mark.parametrize(
    ("written", "put", "said"),
    [
        ('stock = "cherry"\n\n[runners]', 'stock = "cherry"\nscribe = "3/4"\n\n[runners]', "leave one out"),
        (
            'width = "24"\nheight = "20"\ndepth = "18"',
            'room = { width = "30", height = "24", depth = "19", beside = "1/8" }',
            "leave one of them out",
        ),
    ],
)
def test_two_ways_to_the_wall_are_one_too_many(written, put, said):
    trouble = only_trouble(PIECE.replace(written, put) + FILLER)
    assert trouble.startswith("chest.toml:")
    assert said in trouble


def test_a_built_in_piece_with_fillers_is_fixed_first_and_they_come_last(filled):
    built = planned(PIECE + FILLER + '\n[use]\nstands = "built in"\n')
    (said, _) = anchor_words(built.conditions, built.others)
    assert "fillers are scribed and screwed on last" in said
    assert "wall and floor first" not in said


@pytest.mark.parametrize(
    ("more", "said"), [("", "Lay the back into its rabbets"), ('back-inset = "1/2"\n', "Slide the back along its grooves")]
)
def test_a_back_may_be_screwed_and_the_list_and_the_steps_say_so(more, said):
    made = planned(PIECE.replace('back = "thin"\n', f'back = "thin"\nback-held = "screws"\n{more}'))
    (told,) = [step_words(step) for step in steps_of(made.order) if said in step_words(step)]
    (screws,) = [one for one in fasteners_of(made) if one.through is PartKind.CASE_BACK and one.into is PartKind.CASE_BOTTOM]
    assert (screws.fastener.kind, screws.fastener.length) == (FastenerKind.SCREW, inches("3/4"))
    total = sum(one.count for one in fasteners_of(made) if one.through is PartKind.CASE_BACK)
    assert f"screw it there, {total} screws in all" in told


def test_a_back_is_held_by_nails_or_screws_and_nothing_else():
    trouble = only_trouble(PIECE.replace('back = "thin"\n', 'back = "thin"\nback-held = "glue"\n'))
    assert trouble.startswith("chest.toml:")
    assert '"nails" or "screws"' in trouble


def test_feet_are_bored_for_levellers_that_are_on_the_list_and_told_of():
    made = planned(PIECE + FEET)
    assert_cut_as_planned(made.boards, made.shop)
    feet = [board for board in made.boards if board.role.kind is PartKind.FOOT]
    holes = [cut for foot in feet for cut in foot.cuts_of(CutUse.LEVELLER_HOLE)]
    assert {(cut.across.centre.mm, cut.into.centre.mm, cut.depth.mm) for cut in holes} == {
        (inches("1").mm, inches("3/8").mm, inches("1").mm)
    }
    parts = cutting_list(made)
    (line,) = [line for line in shopping_list(made, parts, (), ()).lines if line.what == "levellers"]
    assert line.amount == len(feet) == 4
    (told,) = [found for found in made.findings if found.kind == "levellers"]
    assert "1/2 in off the floor" in told.sentence(made.rule.text)
    assert next(stick for stick in sticks_of(made) if stick.kind is PartKind.DRAWER_FRONT).datum == "underside of the feet"


def test_in_a_room_the_levellers_take_their_height():
    room = PIECE.replace('width = "24"\nheight = "20"\ndepth = "18"', 'room = { width = "30", height = "24", depth = "19" }')
    low, high = reach(planned(room + FEET), PartKind.STILE, 2)
    assert high - low == inches("24").mm - inches("3").mm - inches("1/2").mm


def test_a_leveller_too_large_for_its_foot_is_refused_with_one_that_is_not():
    for wrong, key in (('hole = "5/8"', "leveller.hole"), ('depth = "3"', "leveller.depth")):
        written = wrong.split(" = ")[0]
        kept = {"hole": 'hole = "3/8"', "depth": 'depth = "1"'}[written]
        made = planned(PIECE + FEET.replace(kept, wrong))
        (refused,) = [found for found in made.findings if found.harm is Harm.REFUSE]
        (change,) = refused.remedies[0].changes
        assert (change.table, change.key) == ("base", key)
        mended = FEET.replace(kept, f'{written} = "{change.value}"')
        assert not planned(PIECE + mended).is_refused


def test_fillers_stand_in_the_elevation_with_their_widths_and_no_word_on_a_template_is_covered(filled):
    picture = dimensioned_elevation(filled, (Fraction(190), Fraction(240)))
    assert picture is not None
    said = [stroke.plain for stroke in picture.strokes if isinstance(stroke, Text)]
    assert {"2 1/4", "2 3/4"} <= {text.replace("\u2044", "/") for text in said}
    assert [found for sheet in template_sheets(filled, "letter") for found in collisions(sheet.strokes)] == []


@pytest.mark.parametrize("more", [TOP, BASE, FILLER])
def test_openings_alone_have_no_top_base_or_filler(more):
    trouble = only_trouble(GOOD + more)
    line = 1 + (GOOD + more).splitlines().index(more.splitlines()[1])
    assert trouble.startswith(f"chest.toml:{line}:")
    assert "leave it out" in trouble
