"""Story sticks: every tick lies where the board of the plan does, read back from the marks and from SVG."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from functools import cache
from xml.etree import ElementTree

import pytest

from joinlay.boards import CutKind
from joinlay.boards.meeting import Tie
from joinlay.documents.svg import template_svg
from joinlay.lengths import Length
from joinlay.pages import lay_out
from joinlay.paper import paper_named
from joinlay.pen.marks import Line, Role
from joinlay.templates.story.story_sticks import sticks_of, story_sticks
from tests.measured.collisions import collisions
from tests.measured.packets import example, examples
from tests.unit.templates.reading import texts
from tests.unit.templates.story.pieces import LOOSE, left_open, openings, piece, tiny, tower

WAY = {"widths": 0, "depths": 1, "heights": 2}


def ends(board, way, cut=None):
    """Where a board or a cut begins and ends in the piece, from its place alone: two corners are enough where nothing leans."""
    one, two = (
        board.place.point(*corner)
        for corner in (
            ((Length(Fraction(0)),) * 3, (board.length, board.width, board.thickness))
            if cut is None
            else ((cut.along.start, cut.across.start, cut.into.start), (cut.along.stop, cut.across.stop, cut.into.stop))
        )
    )
    return sorted((one[way], two[way]))


def ticks(template):
    """The positions of a stick as (board and cut, mm), read from its marks."""
    found = []
    for stroke in template.strokes:
        if isinstance(stroke, Line) and stroke.role in (Role.CUT, Role.CENTRE) and stroke.start[0] == 0:
            assert stroke.start[1] == stroke.end[1]
            found += [(part, stroke.start[1]) for part in stroke.says.split("; ")]
    return found


def known(plan):
    """Every board and every cut by the words a tick has for it."""
    boards = {board.name: (board, None) for board in plan.boards}
    return boards | {f"{board.name} {cut.name}": (board, cut) for board in plan.boards for cut in board.cuts}


def nails(plan):
    """Where in the piece, front to back, each nail of a runner stands, by the words a tick has for it."""
    boards = {board.role: board for board in plan.boards}
    return {
        f"{met.one.name} nail {n}": boards[met.one].place.point(at, Length(Fraction(0)), Length(Fraction(0)))[1]
        for met in plan.meetings
        if met.tie is Tie.NAILED
        for n, at in enumerate(met.along, start=1)
    }


def zero_of(plan, stick, way):
    """Where the stick's zero lies in the piece: the end of its own board, the floor, the frame, or the opening."""
    boards = {board.name: board for board in plan.boards}
    name = stick.names[0].split(", ")[0]
    if stick.datum == "bottom end":
        return ends(boards[name], way)[0]
    if stick.datum == "floor":
        return min(ends(board, way)[0] for board in plan.boards if board.place is not None)
    stiles = [board for board in plan.boards if board.part == "stile"]
    return min((ends(board, way)[0] for board in stiles), default=Fraction(0))


ODD = {
    "tower": tower,
    "tiny": tiny,
    "two banks": lambda: piece(900, 500, 3, 2, joint=LOOSE),
    "three banks alike": lambda: piece(1200, 500, 3, 3, 3),
    "openings": openings,
    "places left open": left_open,
}
PLANS = [*examples(), *ODD]


@cache
def planned(name):
    """An example's plan, or an odd one."""
    return ODD[name]() if name in ODD else example(name)


@cache
def drawn_sticks(name):
    """The sticks of a plan, each with its template."""
    plan = planned(name)
    return tuple(zip(sticks_of(plan), story_sticks(plan), strict=True))


def places_of(board, way, cut, zero):
    """Where on a stick a board or a cut may have a tick: its ends, and the middle of a mortise, a hole or a slot."""
    if board.part == "drawer side" and way == 0:
        # It may lean: only its front end is on the stick.
        nothing = Length(Fraction(0))
        return [board.place.point(nothing, nothing, into)[0] - zero for into in (nothing, board.thickness)]
    low, high = ends(board, way, cut)
    middle = [] if cut is None or cut.kind is CutKind.DADO else [(low + high) / 2 - zero]
    return [low - zero, *middle, high - zero]


@pytest.mark.parametrize("name", PLANS)
def test_every_tick_lies_where_its_board_or_cut_does(name):
    plan = planned(name)
    parts, nailed = known(plan), nails(plan)
    checked = 0
    for stick, template in drawn_sticks(name):
        way = WAY[stick.measures]
        zero = zero_of(plan, stick, way)
        for part, at in ticks(template):
            if part in nailed:
                assert at == nailed[part] - zero
                continue
            if part not in parts:
                assert part in (stick.datum, stick.far) or part.endswith("opening")
                continue
            board, cut = parts[part]
            assert at in places_of(board, way, cut, zero)
            checked += 1
    assert checked > 12


@pytest.mark.parametrize("name", PLANS)
def test_both_ends_of_every_stretch_on_the_stick_have_a_tick(name):
    for stick, template in drawn_sticks(name):
        drawn = {at for _, at in ticks(template)}
        wanted = {at for one in stick.stretches for at in (one.low, one.high) if 0 <= at <= stick.length}
        assert wanted | {one.at for one in stick.centres} | {Fraction(0), stick.length} == drawn


def test_the_moth_cabinets_sticks_name_everything_that_has_to_be_marked():
    found = {template.title: Counter(part for part, _ in ticks(template)) for template in story_sticks(example("moth-cabinet"))}
    side = found["case left and right side, story stick of heights"]
    for n in range(1, 9):
        for part in ("bearer", "guide"):
            assert side[f"runners drawer {n} left {part}"] == 2
    assert side["case left side bottom dado"] == side["case left side top dado"] == 2
    assert side["runners drawer 1 left kicker"] == side["face frame top rail"] == side["stops drawer 3 left block"] == 2
    # The stiles and the fronts between them are on one stick.
    stile = fronts = found["face frame left and right stile, drawer 1 to 8 front, story stick of heights"]
    # Its two ends and its middle.
    assert stile["face frame left stile rail under drawer 3 mortise 1"] == 3
    assert fronts["drawer 5 front"] == fronts["drawer 5 opening"] == 2
    assert fronts["drawer 5 front pull hole 1"] == 1
    widths, depths = (found[f"drawer 1 to 8, story stick of {measures}"] for measures in ("widths", "depths"))
    for part in (
        "face frame left stile",
        "runners drawer 1 right guide",
        "drawer 1 front",
        "drawer 1 left side",
        "case right side",
    ):
        assert widths[part] == 2
    for part in ("drawer 1 front", "stops drawer 1 left block", "drawer 1 back", "case back"):
        assert depths[part] == 2
    assert depths["runners drawer 1 left bearer screw slot 1"] == 1


def test_what_parts_a_place_left_open_is_on_the_sticks():
    found = {template.title: Counter(part for part, _ in ticks(template)) for template in story_sticks(left_open())}
    row, (bare,) = (
        found["drawer 1 and 2, story stick of widths"],
        [ticks for name, ticks in found.items() if "bay 3" in name and "widths" in name],
    )
    for part in ("mullion right of open bay 1", "mullion right of drawer 1", "mullion right of drawer 2"):
        assert row[f"face frame {part}"] == row[f"case {part.replace('mullion', 'partition')}"] == 2
    assert bare["face frame mullion right of open bay 3"] == bare["case partition right of open bay 3"] == 2
    # The shelf beside the first drawer lies in the left face of the partition, and its runners are on the other.
    left, right = (
        found[f"case partition right of open bay 1, {face} face, story stick of heights"] for face in ("left", "right")
    )
    assert left["case partition right of open bay 1 open bay 1 shelf 1 dado"] == 2
    assert "runners drawer 1 left guide" in right
    assert "runners drawer 1 left guide" not in left
    # The sides of the case have the shelves of the places beside them, and no drawer of the row.
    assert not any("drawer 1 left" in part for part in found["case left side, story stick of heights"])


def test_figures_stand_on_the_makers_rule_in_the_order_of_the_ticks():
    plan = example("print-chest")
    for stick, template in zip(sticks_of(plan), story_sticks(plan), strict=True):
        wanted = [plan.rule.text(plan.rule.round(Length(at))) for at in stick.places]
        column = [text for text in texts(template.strokes) if text.turn.value == 0 and text.plain[:1] in "0123456789"]
        read = [text.plain for text in sorted(column, key=lambda text: text.anchor[1])]
        assert [figure.rstrip("+−") for figure in read] == [said.split(" in")[0] for said in wanted]


def test_the_sticks_of_banks_that_differ_are_two_and_of_banks_alike_one():
    two = [stick for stick in sticks_of(piece(900, 500, 3, 2, joint=LOOSE)) if stick.measures == "heights"]
    assert [stick.names[0] for stick in two if stick.names[0].startswith("case")] == [
        "case left side", "case partition 1, left face", "case partition 1, right face", "case right side",
    ]  # fmt: skip
    alike = [stick for stick in sticks_of(piece(1200, 500, 3, 3, 3)) if stick.measures == "heights"]
    side, partition, *_ = alike
    assert side.names == ("case left side", "case right side")
    assert partition.names == tuple(
        f"case partition {n}, {face} face" for n, face in ((1, "left"), (1, "right"), (2, "left"), (2, "right"))
    )
    # Three banks share the partitions' stick, so a bearer is named by its row.
    assert {stretch.label for stretch in partition.stretches if stretch.word == "bearer"} == {
        "bearer row 1",
        "bearer row 2",
        "bearer row 3",
    }
    assert {stretch.label for stretch in side.stretches if stretch.word == "guide"} == {
        "guide row 1",
        "guide row 2",
        "guide row 3",
    }


def test_of_openings_alone_what_can_be_known_is_on_three_sticks_for_each_kind_of_drawer():
    plan = openings()
    assert [(stick.names, stick.measures) for stick in sticks_of(plan)] == [
        (("drawer 1", "drawer 2"), "heights"),
        (("drawer 3",), "heights"),
        (("drawer 1", "drawer 2", "drawer 3"), "widths"),
        (("drawer 1", "drawer 2", "drawer 3"), "depths"),
    ]
    heights, _, widths, _ = story_sticks(plan)
    front = plan.drawers[0].board("front")
    assert ("drawer 1 front", plan.drawers[0].bottom_clearance.mm + front.width.mm) in ticks(heights)
    assert ("drawer 1 front pull hole 1", plan.drawers[0].side_clearance.mm + front.length.mm / 2) in ticks(widths)


def test_a_stick_read_back_from_svg_is_true():
    stick, template = drawn_sticks("tower")[0]
    tree = ElementTree.fromstring(template_svg(template))
    height = Fraction(tree.attrib["height"].removesuffix("mm"))
    box = [Fraction(number) for number in tree.attrib["viewBox"].split()]
    # One unit is one millimetre.
    assert box[3] == height
    svg = "{http://www.w3.org/2000/svg}"
    drawn = [line.attrib for line in tree.iter(f"{svg}line") if "data-says" in line.attrib and line.attrib["x1"] == "0"]
    heights = {-Fraction(line["y1"]) for line in drawn if line["y1"] == line["y2"]}
    assert heights == {Fraction(round(at * 100000), 100000) for at in stick.places}
    assert max(heights) == 2400


@pytest.mark.parametrize("name", PLANS)
def test_no_words_collide_on_any_stick(name):
    assert [(template.title, *found) for _, template in drawn_sticks(name) for found in collisions(template.strokes)] == []


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("name", examples())
def test_no_words_collide_on_their_sheets(name, paper):
    plan = example(name)
    sheets = lay_out(story_sticks(plan), paper_named(paper), title=plan.title, file=plan.file, unit=plan.rule.unit)
    for sheet in sheets:
        words = [stroke for stroke in sheet.strokes if stroke.role is not Role.REGISTER]
        assert collisions(words) == []


def test_the_title_stands_on_every_sheet_of_a_long_stick_again_and_again():
    plan, (_, stick) = tower(), drawn_sticks("tower")[0]
    sheets = lay_out([stick], paper_named("letter"), title=plan.title, file=plan.file, unit=plan.rule.unit)
    titles = [sum(text.plain == "case left and right side: heights" for text in texts(sheet.strokes)) for sheet in sheets]
    assert sum(titles) == 10
    assert min(titles) >= 1


def unmoved(point, move):
    """Where a point of a sheet lies on the template that was moved there."""
    x, y = point[0] - move.right, point[1] - move.up
    for _ in range(-move.quarters % 4):
        x, y = -y, x
    return x, y


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_a_stick_of_two_metres_forty_on_letter_paper_is_true_from_end_to_end(paper):
    plan, (_, stick) = tower(), drawn_sticks("tower")[0]
    sheets = lay_out([stick], paper_named(paper), title=plan.title, file=plan.file, unit=plan.rule.unit)
    found = set()
    for sheet in sheets:
        for laid in sheet.laid:
            for stroke in sheet.strokes:
                if isinstance(stroke, Line) and stroke.says:
                    (x0, y0), (x1, y1) = (unmoved(point, laid.move) for point in (stroke.start, stroke.end))
                    if min(x0, x1) == 0 and y0 == y1:
                        found |= {(part, y0) for part in stroke.says.split("; ")}
    # Every tick stands on a tile, at the very place it has on the whole stick: not a hair is lost from one tile to the next.
    assert set(ticks(stick)) <= found
    heights = [at for _, at in ticks(stick)]
    assert (min(heights), max(heights)) == (0, 2400)
