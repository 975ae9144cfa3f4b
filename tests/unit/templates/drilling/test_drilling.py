"""Drill and position templates: every hole, block and strip is where the plan's boards have it."""

from __future__ import annotations

from fractions import Fraction

import pytest

from joinlay.boards import CutKind
from joinlay.boards.names import in_few_words
from joinlay.lengths import Length
from joinlay.pages import lay_out
from joinlay.paper import paper_named
from joinlay.pen.lettering import figures, plain
from joinlay.pen.marks import Arc, Fill, Line, Polyline, bounds_of
from joinlay.templates.drilling import pull_templates, runner_templates, stop_templates
from tests.measured.collisions import collisions
from tests.measured.packets import example, examples
from tests.unit.templates.reading import texts
from tests.unit.templates.story.pieces import LOOSE, openings, piece, tiny

ODD = {"openings": openings, "two banks": lambda: piece(900, 500, 3, 2, joint=LOOSE), "tiny": tiny}
NAMES = [*examples(), *ODD]
NOTHING = Length(Fraction(0))


def planned(name):
    """An example's plan, or an odd one."""
    return ODD[name]() if name in ODD else example(name)


def corner(board, *, far=False):
    """The board's corner at its references in the piece, or the one opposite."""
    return board.place.point(board.length, board.width, board.thickness) if far else board.place.point(NOTHING, NOTHING, NOTHING)


def spans(board):
    """From where to where a board lies in the piece, each way."""
    return [sorted(pair) for pair in zip(corner(board), corner(board, far=True), strict=True)]


def box_of(stroke):
    """The box of a closed line."""
    xs, ys = zip(*stroke.points, strict=True)
    return (min(xs), min(ys), max(xs), max(ys))


def marked_holes(template, rule):
    """Where a template has holes pricked, (x, y) each, and the fronts each is for: one circle for all, or a line for each height.

    A line leads to its words, read here as a maker does: the fronts by name, and its figure from the top edge.
    """
    rings = [stroke for stroke in template.strokes if isinstance(stroke, Arc)]
    if rings:
        [ring] = rings
        return {ring.centre: template.names}
    lines = {stroke.says: stroke for stroke in template.strokes if isinstance(stroke, Line) and stroke.says}
    leads = {says.removesuffix(" is told here"): line for says, line in lines.items() if says.endswith(" is told here")}
    [x] = {stroke.start[0] for stroke in lines.values() if stroke.says.endswith("squared across") or " from the " in stroke.says}
    found = {}
    for says, lead in leads.items():
        (x0, y), (x1, _) = lines[says].start, lines[says].end
        assert x0 + x1 == 2 * x
        assert lead.start == (x1, y)
        [told] = [
            text for text in texts(template.strokes) if text.anchor[1] < lead.end[1] < text.anchor[1] + 6 and "  " in text.plain
        ]
        fronts = [name for name in template.names if told.plain == rung_words([name], y, rule)]
        for many in range(len(template.names), 1, -1):
            for first in range(len(template.names)):
                some = template.names[first : first + many]
                fronts = fronts or (list(some) if told.plain == rung_words(some, y, rule) else [])
        assert fronts
        found[(x, y)] = fronts
    assert len(found) == len(leads) > 1
    return found


def rung_words(fronts, y, rule):
    """What stands beside the line of a height: the fronts in few words, and how far it is from the top edge."""
    return f"{in_few_words(fronts).removesuffix(' front')}  {plain(figures(Length(-y), rule, 5))}"


def lies_at(cut, front, at, template, plan, *, turned=False):
    """Whether a cut is as far along the front as the template has it: from an end, or in figures, about a line squared across."""
    left, length = cut.along.centre.mm, front.length.mm
    x = -at if turned else at
    if x:
        return left == (x if x > 0 else length + x)
    squared = [stroke for stroke in template.strokes if isinstance(stroke, Line) and stroke.says == "squared across"]
    assert [line.start[0] for line in squared] == [0]
    end, from_end = ("left end", left) if left <= length - left else ("right end", length - left)
    assert (end == "right end") is turned or not template.turned
    said = [text.plain for text in texts(template.strokes)]
    if turned:
        assert any(text.upper() == end.upper() for text in said)
        end = "right end" if end == "left end" else "left end"
    return any(text.startswith(f"{plain(figures(Length(from_end), plan.rule, 5))} from the {end}") for text in said)


def is_right(cut, front):
    """Whether a hole is nearer to the right end."""
    return 2 * cut.along.centre.mm > front.length.mm


def both_sides(template):
    """Each board that a template marks, and whether it is turned over for it."""
    return [*((name, False) for name in template.names), *((name, True) for name in template.turned)]


def turned_box(box):
    """A box of a paper that is turned over."""
    x0, y0, x1, y1 = box
    return (-x1, y0, -x0, y1)


@pytest.mark.parametrize("name", NAMES)
def test_every_pulls_hole_is_on_a_template_at_its_distance_from_the_end_and_the_top(name):
    plan = planned(name)
    served = []
    for template in pull_templates(plan):
        marked = marked_holes(template, plan.rule)
        for front_name, turned in both_sides(template):
            front = next(board for board in plan.boards if board.name == front_name)
            # Turned over, a paper with one hole is for the fronts it names there, one with several for the same fronts again.
            [(x, y)] = [at for at, fronts in marked.items() if front_name in fronts or len(marked) == 1]
            holes = [cut for cut in front.cuts if cut.kind is CutKind.HOLE]
            holes = [cut for cut in holes if turned is is_right(cut, front) or not template.turned]
            holes = [cut for cut in holes if lies_at(cut, front, x, template, plan, turned=turned)]
            drilled = [cut for cut in holes if front.width.mm - cut.across.centre.mm == -y]
            size = figures(drilled[0].along.size, plan.rule, 5)
            assert len(drilled) == 1
            assert any(f"hole {plain(size)}, " in text.plain for text in texts(template.strokes))
            assert {2 * one.radius for one in template.strokes if isinstance(one, Arc)} <= {drilled[0].along.size.mm}
            served += [(front_name, cut.name) for cut in drilled]
    wanted = [
        (board.name, cut.name)
        for board in plan.boards
        for cut in board.cuts
        if board.part == "drawer front" and cut.kind is CutKind.HOLE
    ]
    assert sorted(served) == sorted(wanted)


def test_a_pulls_template_says_how_large_and_how_deep_and_has_both_datums():
    [far, *_] = pull_templates(example("seed-cabinet"))
    said = {text.plain for text in texts(far.strokes)}
    assert {
        "drawer 1 to 8 front",
        "drawer 1 to 5  31+",
        "outside face up",
        "hole 6, right through",
        "square a line across there,",
    } <= said
    # The paper of a hole near an end reaches to that end, and is laid against it.
    [first] = pull_templates(tiny())
    said = {text.plain for text in texts(first.strokes)}
    assert {"drawer 1 front", "outside face up", "LEFT END"} <= {line.split(":")[0] for line in said}
    assert any(line.startswith("TOP EDGE") for line in said)
    edges = {stroke.says for stroke in first.strokes if isinstance(stroke, Line)}
    assert {"top edge", "left end"} <= edges
    bars = [stroke for stroke in first.strokes if isinstance(stroke, Fill) and stroke.ink == 1]
    assert len(bars) == 2


def test_two_pulls_share_a_template_that_is_turned_over_for_the_right_one():
    plan = example("print-chest")
    assert len(plan.drawers) == 4
    assert len(pull_templates(plan)) == 1
    for template in pull_templates(plan):
        assert (template.end, template.turned_end) == ("drill template, left pull", "drill template, right pull")
        assert template.turned == template.names
        said = [text.plain for text in texts(template.strokes)]
        assert any(line.endswith("from the left end") for line in said)
        assert said.index("turned over, print down:") < said.index("RIGHT END")


def test_one_template_serves_fronts_that_differ_only_in_their_height_and_takes_little_paper():
    [template] = pull_templates(example("moth-cabinet"))
    assert template.title == "drawer 1 to 8 front, drill template, pull"
    assert min(template.size) < 75
    assert max(template.size) < 190
    assert len(marked_holes(template, example("moth-cabinet").rule)) == 8


@pytest.mark.parametrize("name", ["seed-cabinet", "fly-tying-chest"])
def test_words_that_would_make_the_paper_too_long_stand_under_it(name):
    ladder = max(pull_templates(example(name)), key=lambda one: one.size[0] * one.size[1])
    assert min(ladder.size) < 100
    lines = [text for text in texts(ladder.strokes) if text.plain.startswith(("hole", "outside", "prick"))]
    drawn = [stroke for stroke in ladder.strokes if isinstance(stroke, Line)]
    assert len(lines) == 3
    assert max(line.anchor[1] for line in lines) < bounds_of(drawn)[1]
    assert bounds_of(lines)[0] > ladder.box[0]


def test_a_hole_far_from_the_ends_takes_little_paper():
    [one, *_] = pull_templates(example("fly-tying-chest"))
    assert one.names == ("drawer 1 front", "drawer 2 front", "drawer 3 front")
    assert max(one.size) < 160


@pytest.mark.parametrize("name", NAMES)
def test_every_stop_block_is_where_it_stands_behind_the_face_of_the_frame(name):
    plan = planned(name)
    boards = {board.name: board for board in plan.boards}
    face = min((spans(board)[1][0] for board in plan.boards if board.part == "stile"), default=None)
    served: list[str] = []
    for template in stop_templates(plan):
        for block_name, turned in both_sides(template):
            block = boards[block_name]
            [drawn] = [box_of(one) for one in template.strokes if isinstance(one, Polyline) and one.says in template.names]
            (x0, x1), (y0, y1), _ = spans(block)
            assert drawn[1::2] == (y0 - face, y1 - face)
            strip = boards.get(block_name.rsplit(" ", 2)[0] + " strip")
            hand, inner = ("left", 0) if " left " in block_name else ("right", 1)
            # The strip's end; where there is none, the wood that the lowest drawers run against.
            woods = [spans(board)[0] for board in plan.boards if board.part in ("case side", "case partition")]
            faces = [wood[1 - inner] for wood in woods if (wood[1] <= x0 if inner == 0 else wood[0] >= x1)]
            bearer = boards.get(f"runners {' '.join(block_name.split()[1:3])} {hand} bearer")
            against = max(faces) if inner == 0 else min(faces)
            at = spans(strip)[0][inner] if strip else spans(bearer)[0][1 - inner] if bearer else against
            assert (turned_box(drawn) if turned else drawn)[::2] == (x0 - at, x1 - at)
            served.append(block_name)
    assert sorted(served) == sorted(name for name in boards if name.startswith("stops ") and name.endswith("block"))


@pytest.mark.parametrize("name", NAMES)
def test_the_runners_seen_from_the_front_are_the_boards_own_boxes(name):
    plan = planned(name)
    boards = {board.name: board for board in plan.boards}
    for template in runner_templates(plan):
        strips = [one for one in template.strokes if isinstance(one, Polyline) and " runner " in one.says]
        drawn = {one.says.split(" runner ")[1]: box_of(one) for one in strips}
        for name, turned in both_sides(template):
            one = name.removesuffix(" runner")
            *_, number, hand = one.split()
            floor = spans(boards[f"drawer {number} {hand} side"])[2][0]
            for part in ("bearer", "guide"):
                board = boards.get(f"runners {one} {part}")
                if board is None:
                    continue
                # Both lie against the wood at that hand.
                against = spans(board)[0][0 if hand == "left" else 1]
                x0, x1 = spans(board)[0]
                z0, z1 = spans(board)[2]
                lies = (x0 - against, z0 - floor, x1 - against, z1 - floor)
                assert (turned_box(drawn[part]) if turned else drawn[part]) == lies


def test_openings_alone_have_no_runners_and_no_stops():
    assert stop_templates(openings()) == runner_templates(openings()) == ()


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("name", NAMES)
def test_no_words_collide(name, paper):
    plan = planned(name)
    templates = (*pull_templates(plan), *stop_templates(plan), *runner_templates(plan))
    assert [(template.title, *found) for template in templates for found in collisions(template.strokes)] == []
    sheets = lay_out(templates, paper_named(paper), title=plan.title, file=plan.file, unit=plan.rule.unit)
    assert [(sheet.number, *found) for sheet in sheets for found in collisions(sheet.strokes)] == []


def test_a_pulls_template_tells_of_the_dots_in_the_knobs_without_being_one_for_each():
    [far, *_] = pull_templates(example("seed-cabinet"))
    said = [text.plain for text in texts(far.strokes)]
    # 4 mm in the uppermost drawer of each bank, then 1/2 mm larger in each below it; 6 mm deep.
    at = said.index("dot 4 across, 6 deep")
    assert said[at : at + 4] == [
        "dot 4 across, 6 deep",
        "in the knob of drawer 1 and 6",
        "dot 4.5 across, 6 deep",
        "in the knob of drawer 2 and 7",
    ]
    assert not any("dot" in text.plain for template in pull_templates(example("print-chest")) for text in texts(template.strokes))
