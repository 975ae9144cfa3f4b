"""Every page of a whole packet: no word on a line, a fill or another word, and a check square on each page that is measured
from.
"""

import re
from itertools import pairwise
from typing import Any

import pytest

from joinlay.documents.wanted_sheets import EVERYTHING, LEAN
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from joinlay.pen.marks import Fill, Line, Polyline, Role, Text, bounds_of, box_around
from joinlay.pen.signs import Sign, signs_on
from tests.measured.collisions import collisions
from tests.measured.packets import examples, packet, packet_of
from tests.odd_jobs import odd_job

#: Chapters whose sheets are laid on wood or held to a cutter.
MEASURED = ("Gauges to set by", "Story sticks", "Templates, strips and drilling", "Sections of the joints")

#: What is printed unless told on one paper, and everything on the other.
WAYS = [(LEAN, "a4"), (EVERYTHING, "letter")]

#: The same, and both on the job's own paper.
OWN_TOO = [*WAYS, (LEAN, None), (EVERYTHING, None)]


@pytest.mark.parametrize(("wanted", "paper"), OWN_TOO)
@pytest.mark.parametrize("name", examples())
def test_no_words_collide_anywhere(name, paper, wanted):
    measured = MEASURED if wanted is EVERYTHING else MEASURED[1:3]
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


def parted_on(sheet):
    """Figures on a sheet that are cut from their fraction or unit, over two lines in one column."""
    lines = [stroke for stroke in sheet.strokes if isinstance(stroke, Text)]
    return [
        (sheet.number, first.plain, then.plain)
        for first, then in pairwise(lines)
        if first.anchor[0] == then.anchor[0] and 0 < first.anchor[1] - then.anchor[1] < 7
        for ends, begins in _PARTED
        if ends.search(first.plain) and begins.match(then.plain)
    ]


def cut_short_on(sheet):
    """What is cut short by dots on a sheet."""
    said = [stroke.plain for stroke in sheet.strokes if isinstance(stroke, Text)]
    return [(sheet.number, one) for one in said if "…" in one or "..." in one]


@pytest.mark.parametrize(("wanted", "paper"), OWN_TOO)
@pytest.mark.parametrize("name", examples())
def test_no_figure_is_cut_from_its_fraction_or_its_unit(name, paper, wanted):
    assert [one for sheet in packet(name, paper, wanted).sheets for one in parted_on(sheet)] == []


@pytest.mark.parametrize("name", examples())
def test_nothing_is_cut_short_by_dots(name):
    assert [one for sheet in packet(name, None, LEAN).sheets for one in cut_short_on(sheet)] == []


#: Seeds of odd jobs that can be made: openings in inches and in mm, and a whole piece.
@pytest.mark.parametrize("seed", range(1, 11))
def test_in_odd_jobs_too_paper_is_saved_nothing_is_parted_or_cut_short_and_every_sign_is_explained(seed):
    made = plan(read_job(odd_job(seed), f"odd-{seed}.toml"))
    bound = packet_of(made, wanted=LEAN)
    # Cover, order, findings, lists, layouts, cards and putting together, whatever the job; then four sheets a drawer.
    assert 10 <= len(bound.sheets) <= (16 if made.is_whole else 12) + 4 * len(made.drawers)
    for sheet in bound.sheets:
        assert parted_on(sheet) == []
        assert cut_short_on(sheet) == []
        said = {stroke.plain for stroke in sheet.foot.strokes(1, 1) if isinstance(stroke, Text)}
        assert {sign for sign in Sign if sign.value in said} == set(signs_on(sheet.body))


@pytest.mark.parametrize("name", ["print-chest", "moth-cabinet"])
def test_a_sheet_explains_the_signs_on_it_and_no_others(name):
    told = {
        Role.ROUND: "cut out along this",
        Role.WASTE: "taken away",
        Role.HATCH: "wood cut through",
        Role.FOLD: "fold over the edge",
        Role.HIDDEN: "behind the surface",
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
    assert len(seen) == 6


def cut_lines(sheet):
    """The boxes that things on a sheet are cut out along, each with what is cut out, in the order they were laid."""
    rounds = [stroke for stroke in sheet.body if isinstance(stroke, Polyline) and stroke.role is Role.ROUND]
    assert [stroke.says for stroke in rounds] == [f"round {laid.title}" for laid in sheet.laid]
    return [(bounds_of((stroke,)), laid) for stroke, laid in zip(rounds, sheet.laid, strict=True)]


def inside(inner, outer):
    return outer[0] <= inner[0] and outer[1] <= inner[1] and inner[2] <= outer[2] and inner[3] <= outer[3]


@pytest.mark.parametrize(("wanted", "paper"), WAYS)
@pytest.mark.parametrize("name", examples())
def test_each_template_has_all_its_words_and_marks_inside_one_line_to_cut_along_and_no_other_has_any_there(name, wanted, paper):
    """PR-10, from the strokes on the sheets: what each template draws, where its move puts it, against every cut line on its
    sheet.
    """
    for sheet in packet(name, paper, wanted).sheets:
        if sheet.section not in MEASURED:
            continue
        rounds = cut_lines(sheet)
        for n, (one, _) in enumerate(rounds):
            assert all(one[2] < two[0] or two[2] < one[0] or one[3] < two[1] or two[3] < one[1] for two, _ in rounds[:n])
        drawn = [stroke for stroke in sheet.body if stroke.role not in (Role.ROUND, Role.CHECK)]
        held = [[n for n, (line, _) in enumerate(rounds) if inside(box_around(stroke), line)] for stroke in drawn]
        # Words of the long bars are the only ones outside: they are no template's.
        assert {stroke.plain for stroke, at in zip(drawn, held, strict=True) if isinstance(stroke, Text) and not at} <= {
            said for said in (words.plain for words in drawn if isinstance(words, Text)) if "between the" in said
        }
        assert all(len(at) <= 1 for at in held)
        for n, (line, laid) in enumerate(rounds):
            own = {stroke.plain for stroke, at in zip(drawn, held, strict=True) if at == [n] and isinstance(stroke, Text)}
            said = {stroke.plain for stroke in laid.template.strokes if isinstance(stroke, Text)}
            assert own
            own -= {laid.template.title, f"tile {laid.tile} of {laid.tiles}"} if laid.tile else set()
            assert {text for text in own if not (laid.tile and re.fullmatch("[A-Z]+", text))} <= said
            if not laid.tile:
                corner, far = laid.move.point(laid.template.box[:2]), laid.move.point(laid.template.box[2:])
                box = (min(corner[0], far[0]), min(corner[1], far[1]), max(corner[0], far[0]), max(corner[1], far[1]))
                assert inside(box, line)
                assert said <= own


@pytest.mark.parametrize(("wanted", "paper"), WAYS)
@pytest.mark.parametrize("name", examples())
def test_each_thing_in_tiles_has_its_map_on_every_sheet_it_is_on_with_all_its_tiles(name, wanted, paper):
    tiled = set()
    for sheet in packet(name, paper, wanted).sheets:
        if sheet.section not in MEASURED:
            continue
        here: dict[int, list[Any]] = {}
        for laid in sheet.laid:
            if laid.tile:
                here.setdefault(id(laid.template), []).append(laid)
        black = [stroke for stroke in sheet.foot.strokes(1, 1) if isinstance(stroke, Fill) and stroke.ink == 1]
        assert len(black) == sum(len(some) for some in here.values())
        cells = [stroke for stroke in sheet.foot.strokes(1, 1) if isinstance(stroke, Polyline) and stroke.role is Role.FRAME]
        assert len(cells) == sum(some[0].tiles for some in here.values())
        letters = {stroke.plain for stroke in sheet.body if isinstance(stroke, Text) and stroke.role is Role.REGISTER}
        named = [stroke.plain for stroke in sheet.foot.strokes(1, 1) if isinstance(stroke, Text) and stroke.ink == 1]
        names = [said for said in named if re.fullmatch("[A-Z]+(–[A-Z]+)?", said)]
        assert len(names) == len(here)
        assert bool(letters) is bool(here)
        tiled |= {laid.title for some in here.values() for laid in some}
    assert tiled


@pytest.mark.parametrize("name", examples())
def test_a_fold_over_strip_says_which_end_of_which_part_on_both_its_halves(name):
    strips = [
        laid.template
        for sheet in packet(name, "a4", LEAN).sheets
        for laid in sheet.laid
        if "fold-over strip" in laid.template.title
    ]
    for strip in strips:
        fold = next(stroke for stroke in strip.strokes if isinstance(stroke, Line) and stroke.says == "fold")
        (x, _), said = fold.start, [stroke for stroke in strip.strokes if isinstance(stroke, Text)]
        for half in ([one for one in said if one.anchor[0] < x], [one for one in said if one.anchor[0] >= x]):
            told = " ".join(one.plain for one in half).lower()
            assert re.search(r"\b(end|edge)\b", told)
            assert any(word in told for word in ("drawer", "stile", "rail", "mullion", "side"))
