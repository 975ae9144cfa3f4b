"""Dimensions after ISO 129-1."""

from fractions import Fraction

import pytest

from joinlay.pen.dimensioning import DimensionLine, RisingDimensions
from joinlay.pen.lettering import words
from joinlay.pen.marks import Turn, text_box
from tests.unit.templates.reading import arcs, fills, lines, spelled, texts

F = Fraction
SAID = words("100 mm", 3)


def test_a_level_dimension_has_its_figure_above_the_line():
    strokes = spelled(DimensionLine((F(0), F(0)), (F(100), F(0)), F(8), SAID, "width"))
    (line,) = (s for s in lines(strokes) if s.says == "width")
    assert (*line.start, *line.end) == (0, 8, 100, 8)
    (text,) = texts(strokes)
    assert text_box(text)[1] == 9
    extensions = [s for s in lines(strokes) if s.start[0] == s.end[0]]
    assert [(s.start[1], s.end[1]) for s in extensions] == [(1, F(19, 2)), (1, F(19, 2))]


def test_an_upright_dimension_reads_upwards_to_the_left_of_its_line():
    strokes = spelled(DimensionLine((F(0), F(0)), (F(0), F(50)), F(-8), SAID))
    (text,) = texts(strokes)
    assert text.turn is Turn.UP
    assert text_box(text)[2] == -9


def test_a_slanting_dimension_is_refused():
    with pytest.raises(ValueError, match="level or upright"):
        DimensionLine((F(0), F(0)), (F(5), F(5)), F(3), SAID)


def test_rising_dimensions_all_start_from_one_ring():
    strokes = spelled(RisingDimensions((F(20), F(0)), (F(30), F(80))))
    (ring,), (line,), heads = arcs(strokes), lines(strokes), fills(strokes)
    assert ring.centre == (20, 0)
    assert line.end == (20, 80)
    assert [head.points[0] for head in heads] == [(20, 30), (20, 80)]
