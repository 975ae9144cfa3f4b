"""Hatching: exact lines at 45 degrees, clipped to what they fill."""

from fractions import Fraction

import pytest
from hypothesis import given

from joinlay.boards import Shape
from joinlay.geometry import corners
from joinlay.pen.hatching import Hatch, Waste
from joinlay.pen.marks import Role
from joinlay.pen.mouths import mouth_polygon
from tests.drawn import fractions
from tests.unit.templates.reading import lines

F = Fraction
LENGTHS = fractions(F(1, 4), F(80), max_denominator=64, of=Fraction)


def test_a_square_of_six_has_its_diagonal_and_a_line_each_side():
    found = lines(Hatch(corners((F(0), F(0), F(6), F(6)))).spelled())
    assert [(line.start, line.end) for line in found] == [((3, 0), (6, 3)), ((0, 0), (6, 6)), ((0, 3), (3, 6))]
    assert {line.role for line in found} == {Role.HATCH}


@given(x=LENGTHS, y=LENGTHS, wide=LENGTHS, high=LENGTHS)
def test_every_line_runs_from_edge_to_edge_at_45_degrees(x, y, wide, high):
    box = (x, y, x + wide, y + high)
    for line in Hatch(corners(box)).spelled():
        (x0, y0), (x1, y1) = line.start, line.end
        assert y1 - y0 == x1 - x0 > 0
        assert (y0 - x0) % 3 == 0
        assert x0 == box[0] or y0 == box[1]
        assert x1 == box[2] or y1 == box[3]


def test_areas_that_meet_are_hatched_as_one():
    whole = {(line.start, line.end) for line in Hatch(corners((F(0), F(0), F(20), F(9)))).spelled()}
    left = list(Hatch(corners((F(0), F(0), F(11), F(9)))).spelled())
    right = list(Hatch(corners((F(11), F(0), F(20), F(9)))).spelled())
    joined = {(one.start, two.end) for one in left for two in right if one.end == two.start}
    single = {(line.start, line.end) for line in (*left, *right)}
    assert whole <= joined | single


def test_a_round_ended_mouth_is_hatched_within_its_outline():
    box = (F(0), F(0), F(30), F(8))
    found = lines(Hatch(mouth_polygon(box, Shape.ROUND_ENDS)).spelled())
    assert len(found) > 8
    for line in found:
        for x, y in (line.start, line.end):
            near = min(max(x, 4), 26)
            assert (x - near) ** 2 + (y - 4) ** 2 <= 16


def test_points_of_a_round_mouth_lie_on_the_circle_exactly():
    for x, y in mouth_polygon((F(0), F(0), F(8), F(8)), Shape.ROUND):
        assert (x - 4) ** 2 + (y - 4) ** 2 == 16


@pytest.mark.parametrize("box", [(0, 0, 60, 6), (0, 0, 6, 60), (0, 0, 4, 4), (0, 0, 90, 90)])
def test_waste_is_crossed_out_within_its_own_sides(box):
    found = lines(Waste(corners((F(box[0]), F(box[1]), F(box[2]), F(box[3])))).spelled())
    assert len(found) >= 2
    assert {line.role for line in found} == {Role.WASTE}
    for one, two in zip(found[::2], found[1::2], strict=True):
        # Both strokes of a cross have one middle.
        assert [a + b for a, b in zip(one.start, one.end, strict=True)] == [
            a + b for a, b in zip(two.start, two.end, strict=True)
        ]
        for x, y in (one.start, one.end, two.start, two.end):
            assert box[0] < x < box[2]
            assert box[1] < y < box[3]
