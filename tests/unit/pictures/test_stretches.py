"""A figure in a picture knows the length of the plan it is the figure of, and a mark the part it belongs to."""

from __future__ import annotations

import pytest

import joinlay
from joinlay.boards import PartKind, PartRole
from joinlay.lengths import Dimension, Fraction
from joinlay.pen.lettering import figures
from joinlay.pen.marks import Line, Move, Role, Text, moved
from joinlay.pictures.elevation import dimensioned_elevation
from joinlay.pictures.part_picture import surface_picture
from joinlay.pictures.picture import Scale
from joinlay.pictures.sections import level_section, upright_sections
from tests.house.source import ROOT

ROOM = (Fraction(300), Fraction(200))


@pytest.fixture(scope="module", params=["print-chest", "seed-cabinet"])
def plan(request):
    return joinlay.plan(joinlay.read(ROOT / "examples" / f"{request.param}.toml"))


def pictures(plan):
    return [dimensioned_elevation(plan, ROOM), *upright_sections(plan, ROOM), level_section(plan, ROOM)]


def figures_in(picture):
    return [mark for mark in picture.strokes if isinstance(mark, Text) and isinstance(mark.of, Dimension)]


def test_a_figure_is_the_figure_of_its_length(plan):
    for picture in pictures(plan):
        told = figures_in(picture)
        assert told
        for text in told:
            heights = {run.height for run in text.content}
            assert any(text.content == figures(text.of, plan.rule, height) for height in heights), text.of.name


def test_the_front_knows_its_sizes_over_all_its_openings_and_its_frame(plan):
    names = {text.of.name for text in figures_in(dimensioned_elevation(plan, ROOM))}
    assert {"piece width over all", "piece height over all"} <= names
    assert plan.drawers[0].opening.height.name in names
    frame = [board.width.name for board in plan.boards if board.role.kind in (PartKind.STILE, PartKind.RAIL)]
    assert len(names.intersection(frame)) >= 3


def test_a_line_knows_the_part_it_bounds(plan):
    of_wood = [
        mark for picture in pictures(plan) for mark in picture.strokes if isinstance(mark, Line) and mark.role is Role.OUTLINE
    ]
    assert of_wood
    assert all(isinstance(mark.of, PartRole) and mark.of.name == mark.says for mark in of_wood)


def test_the_nearest_part_is_the_last_of_the_areas_over_a_spot(plan):
    front = plan.drawers[0].front
    picture = dimensioned_elevation(plan, ROOM)
    assert picture is not None
    inside = [area for area in picture.areas if area.of == front.role]
    x, y = (sum(point[n] for point in inside[-1].points) / len(inside[-1].points) for n in (0, 1))
    over = [
        area
        for area in picture.areas
        if min(p[0] for p in area.points) < x < max(p[0] for p in area.points)
        and min(p[1] for p in area.points) < y < max(p[1] for p in area.points)
    ]
    assert over[-1].of == front.role


def test_what_a_mark_is_of_goes_with_it_and_makes_it_no_other_mark(plan):
    role = PartRole(PartKind.STILE)
    line = Line((Fraction(0), Fraction(0)), (Fraction(1), Fraction(0)), Role.SEEN, of=role)
    assert moved(line, Move(Fraction(1), Fraction(1), 1)).of is role
    assert line == Line(line.start, line.end, line.role)
    assert hash(line) == hash(Line(line.start, line.end, line.role))


def test_each_surface_is_seen_as_large_as_it_is(plan):
    scale = Scale(1, 1)
    for board in (plan.drawers[0].front, plan.drawers[0].sides[0], plan.drawers[0].sides[1]):
        for surface in {cut.surface for cut in board.cuts}:
            if surface.value == "face":
                continue
            strokes = surface_picture(board, surface, scale)
            points = [point for stroke in strokes if isinstance(stroke, Line) for point in (stroke.start, stroke.end)]
            assert min(x for x, _ in points) == 0
            assert min(y for _, y in points) == 0
            sides = {max(x for x, _ in points), max(y for _, y in points)}
            wanted = {board.size(axis).mm for axis in type(surface.axis) if axis is not surface.axis}
            assert sides == wanted
