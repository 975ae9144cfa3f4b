"""True-size sections: each joint once, its parts as the boards are cut, nothing overlapping when put together."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise, product

import pytest

from joinlay.geometry import box_without
from joinlay.pages import lay_out
from joinlay.paper import paper_named
from joinlay.pen.marks import Line
from joinlay.templates.joint_sections import JointSection, joint_sections, sections_of
from tests.measured.collisions import collisions
from tests.measured.packets import example, examples
from tests.unit.templates.reading import texts
from tests.unit.templates.story.pieces import LOOSE, openings, piece, tiny
from tests.unit.test_geometry import enclosed

ODD = {"openings": openings, "two banks": lambda: piece(900, 500, 3, 2, joint=LOOSE), "tiny": tiny}
NAMES = [*examples(), *ODD]


def planned(name):
    """An example's plan, or an odd one."""
    return ODD[name]() if name in ODD else example(name)


def shared(one, two):
    """The area that two parts of a section both claim, found on the grid of all their walls."""
    xs = sorted({x for part in (one, two) for box in (part.wood, *part.cuts) for x in (box[0], box[2])})
    ys = sorted({y for part in (one, two) for box in (part.wood, *part.cuts) for y in (box[1], box[3])})

    def is_wood(part, x, y):
        def holds(box):
            return box[0] < x < box[2] and box[1] < y < box[3]

        return holds(part.wood) and not any(map(holds, part.cuts))

    cells = product(pairwise(xs), pairwise(ys))
    return sum(
        (x1 - x0) * (y1 - y0)
        for (x0, x1), (y0, y1) in cells
        if is_wood(one, (x0 + x1) / 2, (y0 + y1) / 2) and is_wood(two, (x0 + x1) / 2, (y0 + y1) / 2)
    )


@pytest.mark.parametrize("name", NAMES)
def test_put_together_no_two_parts_claim_the_same_wood(name):
    sections = list(sections_of(planned(name)))
    assert sections
    for section in sections:
        one, two = section.parts
        # The sides of a tapered drawer lean; stood square over the width of a groove, the lean is a hair.
        assert shared(one, two) < 0.5, (one.board.name, two.board.name)


def test_the_joints_of_the_moth_cabinet_each_once_with_the_parts_they_serve():
    assert [(template.title, template.quantity) for template in joint_sections(example("moth-cabinet"))] == [
        ("case left and right side, section of the dado with the case bottom, case top", 2),
        ("case left and right side, section of the rabbet with the case back", 2),
        ("drawer 1 to 8 left and right side, section of the half-blind locking rabbet with the drawer front", 16),
        ("drawer 1 to 8 front, section of the groove with the drawer bottom", 8),
        ("drawer 1 to 8 left and right side, section of the locking rabbet with the drawer back", 16),
        ("drawer 1 to 8 left and right side, section of the groove with the drawer bottom", 16),
    ]


def test_the_half_blind_corner_is_cut_as_its_boards_are():
    plan = example("moth-cabinet")
    section = next(one for one in sections_of(plan) if one.kind == "half-blind locking rabbet")
    side, front = section.parts
    assert (side.board.part, front.board.part) == ("drawer side", "drawer front")
    dado = side.board.cut_named("front dado")
    [box] = side.cuts
    # Seen from above: across is the width of the piece, up is its depth.
    assert (box[2] - box[0], box[3] - box[1]) == (dado.into.size.mm, dado.along.size.mm)
    assert side.wood[2] - side.wood[0] == side.board.thickness.mm
    assert front.wood[3] - front.wood[1] == front.board.thickness.mm
    [outline] = box_without(front.wood, front.cuts)
    taken = sum((cut[2] - cut[0]) * (cut[3] - cut[1]) for cut in front.cuts)
    wood = (front.wood[2] - front.wood[0]) * (front.wood[3] - front.wood[1])
    # The slot and what is taken off the tongue share no wood.
    assert enclosed(outline) == wood - taken


def sides_of(points):
    """How long each side of a loop is: all run level or upright."""
    return [abs(one[0] - two[0]) + abs(one[1] - two[1]) for one, two in pairwise((*points, points[0]))]


@pytest.mark.parametrize("name", NAMES)
def test_each_part_is_drawn_true_twice_put_together_and_alone(name):
    plan = planned(name)
    # One of each, the first: two joints may share a name and not their sizes.
    firsts: dict[object, JointSection] = {}
    for section in sections_of(plan):
        firsts.setdefault(section.likeness, section)
    for template, section in zip(joint_sections(plan), firsts.values(), strict=True):
        kind, _, met = template.end.removeprefix("section of the ").partition(" with the ")
        into, goes_in = (part.board for part in section.parts)
        assert (section.kind, into.name) == (kind, template.names[0])
        assert goes_in.part in met
        for part in section.parts:
            says = f"{part.board.name} profile"
            drawn = Counter(
                sides_of((line.start, line.end))[0] for line in template.strokes if isinstance(line, Line) and line.says == says
            )
            open_at = [(n % 2, part.wood[n]) for n in range(4) if part.goes_on[n]]
            sides = [pair for loop in box_without(part.wood, part.cuts) for pair in pairwise((*loop, loop[0]))]
            # Where the board goes on past the drawing there is a break line, not an outline.
            closed = [(a, b) for a, b in sides if not any(a[axis] == b[axis] == at for axis, at in open_at)]
            assert closed
            wanted = Counter(sides_of(pair)[0] for pair in closed)
            assert drawn == Counter({side: 2 * many for side, many in wanted.items()})
        assert "hold the cut end here, 1 : 1" in {text.plain for text in texts(template.strokes)}


def test_the_pull_hole_in_the_middle_is_not_in_the_section_of_the_groove():
    for section in sections_of(example("moth-cabinet")):
        if section.kind == "groove" and section.parts[0].board.part == "drawer front":
            assert len(section.parts[0].cuts) == 1


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("name", NAMES)
def test_no_words_collide(name, paper):
    plan = planned(name)
    templates = joint_sections(plan)
    assert [(template.title, *found) for template in templates for found in collisions(template.strokes)] == []
    sheets = lay_out(templates, paper_named(paper), title=plan.title, file=plan.file, unit=plan.rule.unit)
    assert [(sheet.number, *found) for sheet in sheets for found in collisions(sheet.strokes)] == []
