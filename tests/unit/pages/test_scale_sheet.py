"""The sheet a maker measures to learn how true a printer is."""

from fractions import Fraction

import pytest

from joinlay.errors import BadInput
from joinlay.pages import Printer
from joinlay.pages.scale_sheet import bars_on, rectangle_on, scale_sheets
from joinlay.paper import PAPERS, paper_named
from joinlay.pen.marks import Line, Polyline, Text, bounds_of
from tests.measured.collisions import collisions

SIZES = [*PAPERS, "a4 landscape", "letter landscape", "148 x 210 mm", "130 x 250 mm", "24 in roll", "5 1/2 in roll"]
LASER = Printer(Fraction(1004, 1000), Fraction(993, 1000), "shop laser", "2026-11-20")


@pytest.mark.parametrize("printer", [Printer(), LASER], ids=["as it comes", "corrected"])
@pytest.mark.parametrize("size", SIZES)
def test_nothing_lies_on_anything_or_off_the_paper(size, printer):
    (sheet,) = scale_sheets(paper_named(size), printer)
    assert collisions(sheet.strokes) == []
    left, bottom, right, top = printer.room(sheet.paper)
    x0, y0, x1, y1 = bounds_of(sheet.strokes)
    # But for the ends of dimension strokes, which show 2 mm of themselves at most.
    assert (x0 >= left - 2, y0 >= bottom - 2, x1 <= right + 2, y1 <= top + 2) == (True,) * 4


@pytest.mark.parametrize("size", SIZES)
def test_bars_both_ways_a_square_and_a_rectangle_with_its_diagonals(size):
    (sheet,) = scale_sheets(paper_named(size))
    lines = {stroke.says: stroke for stroke in sheet.strokes if isinstance(stroke, Line) and stroke.says}
    bars = [stroke for stroke in sheet.strokes if isinstance(stroke, Line) and stroke.says == "long bar"]
    level, upright = bars_on(paper_named(size))
    assert [abs(bar.end[n] - bar.start[n]) for n, bar in enumerate(bars)] == [level.length, upright.length]
    wide, high = rectangle_on(paper_named(size))
    assert wide * 3 == high * 4
    for which in ("rising diagonal", "falling diagonal"):
        (x0, y0), (x1, y1) = lines[which].start, lines[which].end
        assert (x1 - x0) ** 2 + (y1 - y0) ** 2 == (wide * 5 / 4) ** 2
    assert any(isinstance(stroke, Polyline) and stroke.says == "check square 4 in" for stroke in sheet.strokes)


@pytest.mark.parametrize("size", SIZES)
def test_no_bar_is_taken_for_the_other(size):
    for bar in bars_on(paper_named(size)):
        assert bar.inches * Fraction(127, 5) * Fraction(103, 100) < bar.length * Fraction(97, 100)


def said_on(size, printer=None):
    (sheet,) = scale_sheets(paper_named(size), printer)
    return [stroke.plain for stroke in sheet.strokes if isinstance(stroke, Text)]


def test_it_says_what_to_do():
    said = said_on("letter")
    assert "1 Print at 100 %, no fit to page." in said
    assert "joinlay printer add NAME --paper letter" in said
    assert said.count("200 mm or 7 in") == 2
    assert 'joinlay printer add NAME --paper "24 in roll"' in said_on("24 in roll")


def test_a_corrected_one_says_for_which_printer():
    said = said_on("letter", LASER)
    assert "Corrected for shop laser, and for no other:" in said
    assert "across +0.4 %, down −0.7 %" in said
    assert not any("printer add" in line for line in said)


@pytest.mark.parametrize("size", ["4 x 6 in", "100 x 300 mm", "110 mm roll", "160 x 120 mm"])
def test_paper_too_small_says_what_would_do(size):
    least = r"5 3/64- in \(128\.1 mm\) x 6 15/16- in \(176\.1 mm\)" if " in" in size else r"128\.1 mm x 176\.1 mm"
    with pytest.raises(BadInput, match=rf"too small for a scale sheet; the least is {least}\."):
        scale_sheets(paper_named(size))


def test_the_least_paper_does():
    assert scale_sheets(paper_named("128.1 x 176.1 mm"))
