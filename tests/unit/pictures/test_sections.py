"""The sections of the piece, read back: wood is cut where its boards are, every kind of part is named, nothing is said twice."""

from functools import cache

import pytest

from joinlay.boards.extent import SpaceBox
from joinlay.lengths import Fraction
from joinlay.pen.marks import Fill, Line, Polyline, Role, Text
from joinlay.pictures.sections import level_section, upright_sections
from tests.measured.odd_pieces import odd
from tests.measured.packets import drawers, example, examples, pieces

ROOM = (Fraction(190), Fraction(240))


@cache
def sections(name):
    return upright_sections(example(name), ROOM)


@cache
def level(name):
    return level_section(example(name), ROOM)


def cut_box(picture, name):
    """The box of the wide lines that bound a cut board, in mm of wood."""
    lines = [s for s in picture.strokes if isinstance(s, Line) and s.says == name and s.role is Role.OUTLINE]
    xs, ys = [x for s in lines for x, _ in (s.start, s.end)], [y for s in lines for _, y in (s.start, s.end)]
    return tuple(size / picture.scale.factor for size in (min(xs), min(ys), max(xs), max(ys)))


WHOLE = pieces()


@pytest.mark.parametrize("name", WHOLE)
def test_rails_fronts_and_case_are_cut_where_they_stand(name):
    plan, picture = example(name), sections(name)[0]
    bank = [
        drawer
        for drawer in plan.drawers
        if drawer.board("front").place.origin[0] == plan.drawers[0].board("front").place.origin[0]
    ]
    lows = [SpaceBox.around(board).low for board in plan.boards if board.place is not None]
    floor, foremost = min(low[2] for low in lows), min(low[1] for low in lows)
    rails = [board for board in plan.boards if board.part == "rail" and "under" not in board.name]
    for board in (*rails, *(drawer.board("front") for drawer in bank)):
        x0, _, x1, _ = cut_box(picture, board.name)
        assert x1 - x0 == board.thickness.mm, board.name
    for drawer in bank:
        front = drawer.board("front")
        _, y0, _, y1 = cut_box(picture, front.name)
        # Drawn from the floor, which is under the frame where there is a base.
        assert (y0, y1) == (front.place.origin[2] - floor, front.place.origin[2] - floor + front.width.mm)
    back = next(board for board in plan.boards if board.part == "case back")
    assert cut_box(picture, back.name)[0] == back.place.origin[1] - foremost


@pytest.mark.parametrize("name", WHOLE)
def test_sides_are_cut_where_they_stand_lean_and_all(name):
    plan, picture = example(name), level(name)
    for hand in ("left", "right"):
        side = plan.drawers[0].board(f"{hand} side")
        far = side.place.point(side.length, side.width, side.thickness)
        near = side.place.point(side.length * 0, side.width, side.thickness)
        box = cut_box(picture, side.name)
        outer = min(near[0], far[0]) if hand == "left" else max(near[0], far[0])
        assert box[0 if hand == "left" else 2] == outer


@pytest.mark.parametrize("name", examples())
def test_every_kind_of_part_that_is_cut_has_its_name(name):
    for picture in (*sections(name), level(name)):
        said = " ".join((*picture.names, *picture.unsaid, *(s.plain for s in picture.strokes if isinstance(s, Text))))
        kinds = {"front", "back"} if "above" in picture.title else {"front", "back", "bottom"}
        assert all(kind in said for kind in kinds)


def test_banks_that_are_alike_share_a_section():
    assert [picture.title for picture in upright_sections(odd("four banks of ten"), ROOM)] == [
        "vertical section through the middle of bank 1"
    ]
    assert len(upright_sections(odd("two banks"), ROOM)) == 2


def test_adjoining_parts_are_hatched_each_their_own_way():
    picture = sections("moth-cabinet")[0]
    lines = [s for s in picture.strokes if isinstance(s, Line) and s.role is Role.HATCH]
    rising = [s for s in lines if (s.end[1] > s.start[1]) == (s.end[0] > s.start[0])]
    assert rising
    assert len(rising) < len(lines)
    assert all(abs(s.end[1] - s.start[1]) == abs(s.end[0] - s.start[0]) for s in lines)


def test_wood_too_thin_to_hatch_is_filled():
    picture = level_section(odd("a wall of drawers"), ROOM)
    assert picture is not None
    assert any(isinstance(stroke, Fill) and stroke.role is Role.HATCH for stroke in picture.strokes)


def test_openings_alone_have_a_drawers_section_too():
    plan = drawers("3", "4")
    assert [picture.title for picture in upright_sections(plan, ROOM)] == ["vertical section through the middle"]
    picture = level_section(plan, ROOM)
    assert picture is not None
    assert plan.rule.read(plan.drawers[0].length).figures in [s.plain for s in picture.strokes if isinstance(s, Text)]


def test_an_opening_that_nothing_given_bounds_is_drawn_to_its_depth():
    plan = drawers("3")
    for picture, axis in ((upright_sections(plan, ROOM)[0], 0), (level_section(plan, ROOM), 1)):
        assert picture is not None
        (outline,) = [stroke for stroke in picture.strokes if isinstance(stroke, Polyline) and stroke.says == "drawer 1 opening"]
        ends = [point[axis] / picture.scale.factor for point in outline.points]
        assert max(ends) - min(ends) == plan.drawers[0].opening.depth.mm
