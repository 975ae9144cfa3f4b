"""Drill and position templates: every hole, block and strip is where the plan's boards have it."""

from __future__ import annotations

from fractions import Fraction

import pytest

from joinlay.boards import CutKind
from joinlay.lengths import Length
from joinlay.pages import lay_out
from joinlay.paper import paper_named
from joinlay.pen.lettering import figures, plain
from joinlay.pen.marks import Arc, Fill, Line, Polyline
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


def lies_at(cut, front, hole, template, plan, *, turned=False):
    """Whether a cut is as far along the front as the template has it: from an end, or in figures, about a line squared across."""
    left, length = cut.along.centre.mm, front.length.mm
    x = -hole.centre[0] if turned else hole.centre[0]
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
        [hole] = [stroke for stroke in template.strokes if isinstance(stroke, Arc)]
        for front_name, turned in both_sides(template):
            front = next(board for board in plan.boards if board.name == front_name)
            holes = [cut for cut in front.cuts if cut.kind is CutKind.HOLE]
            holes = [cut for cut in holes if turned is is_right(cut, front) or not template.turned]
            holes = [cut for cut in holes if lies_at(cut, front, hole, template, plan, turned=turned)]
            drilled = [cut for cut in holes if front.width.mm - cut.across.centre.mm == -hole.centre[1]]
            assert [cut.along.size.mm for cut in drilled] == [2 * hole.radius]
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
    assert {"drawer 1 to 5 front", "outside face up", "hole 6, right through", "square a line across there,"} <= said
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
    assert len(pull_templates(plan)) == len(plan.drawers)
    for template in pull_templates(plan):
        assert (template.end, template.turned_end) == ("drill template, left pull", "drill template, right pull")
        assert template.turned == template.names
        said = [text.plain for text in texts(template.strokes)]
        assert any(line.endswith("from the left end") for line in said)
        assert said.index("turned over, print down:") < said.index("RIGHT END")


def test_a_hole_far_from_the_ends_takes_little_paper():
    for template in pull_templates(example("moth-cabinet")):
        assert max(template.size) < 160


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
