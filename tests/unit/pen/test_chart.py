"""Axes and curves: points stand where the lengths say, ticks are the maker's."""

from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from joinlay.lengths import GRADUATIONS, ZERO, Length, Unit, inches, mm
from joinlay.pen.chart import Axes, tick_step
from joinlay.pen.marks import Line, Role, Text

INCH, METRIC = GRADUATIONS["1/32 in"], GRADUATIONS["0.5 mm"]


def axes(rule=METRIC):
    return Axes((Fraction(30), Fraction(10)), (Fraction(100), Fraction(50)), (mm(400), mm(5)), (mm(50), mm(1)), rule)


@pytest.mark.parametrize(
    ("most", "unit", "ticks", "step"),
    [(mm(441), Unit.MM, 10, mm(50)), (mm(6), Unit.MM, 6, mm(1)), (inches("3/16"), Unit.INCH, 6, inches("1/32")),
     (inches(25), Unit.INCH, 10, inches(4))],
)  # fmt: skip
def test_steps_are_those_a_maker_counts_in(most, unit, ticks, step):
    assert tick_step(most, unit, ticks) == step


def test_points_stand_where_the_lengths_say():
    assert axes().at(ZERO, ZERO) == (30, 10)
    assert axes().at(mm(400), mm(5)) == (130, 60)
    assert axes().at(mm(100), mm("2.5")) == (55, 35)


def test_every_tick_has_its_figure_and_line():
    marks = list(axes().spelled())
    said = [mark.plain for mark in marks if isinstance(mark, Text)]
    assert said == ["0", "1", "2", "3", "4", "5", "0", "50", "100", "150", "200", "250", "300", "350", "400"]
    across = [mark for mark in marks if isinstance(mark, Line) and mark.role is Role.ROW]
    assert [line.start[1] for line in across] == [20, 30, 40, 50, 60]


@given(st.lists(st.tuples(st.integers(0, 400), st.integers(0, 100)), min_size=2, max_size=12, unique_by=lambda point: point[0]))
def test_a_curve_never_leaves_the_chart_and_begins_where_it_should(numbers):
    points = [(Length(x), Length(Fraction(y, 10))) for x, y in sorted(numbers)]
    assume(points[0][1] <= mm(5))
    drawn = axes().curve(points, Role.OUTLINE).points
    assert drawn[0] == axes().at(*points[0])
    assert all(y <= 60 for _, y in drawn)
    assert [x for x, _ in drawn] == sorted(x for x, _ in drawn)


def test_a_curve_that_begins_above_the_chart_is_a_slip():
    with pytest.raises(ValueError, match="above a chart"):
        axes().curve([(ZERO, mm(6)), (mm(10), mm(3))], Role.OUTLINE)
