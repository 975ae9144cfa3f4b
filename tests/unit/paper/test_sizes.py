"""Paper in a maker's words."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from joinlay.errors import BadInput
from joinlay.lengths import Length, Unit, mm
from joinlay.paper import BORDER, LONGEST, PAPERS, paper_named, roll_of, sheet_of, with_border
from tests.drawn import fractions


@pytest.mark.parametrize(
    ("name", "width", "height"),
    [
        # ISO 216; ASME Y14.1 sizes A to E and the legal size from memory.
        ("a4", "210", "297"),
        ("a3", "297", "420"),
        ("a2", "420", "594"),
        ("a1", "594", "841"),
        ("a0", "841", "1189"),
        ("letter", "215.9", "279.4"),
        ("legal", "215.9", "355.6"),
        ("tabloid", "279.4", "431.8"),
        ("ansi c", "431.8", "558.8"),
        ("ansi d", "558.8", "863.6"),
        ("ansi e", "863.6", "1117.6"),
    ],
)
def test_sizes_by_name(name, width, height):
    assert paper_named(name).size == (Fraction(width), Fraction(height))
    assert paper_named(f"{name.upper()}  Landscape").size == (Fraction(height), Fraction(width))


@pytest.mark.parametrize(
    ("text", "name", "width", "height"),
    [
        ("610 x 914 mm", "610 x 914 mm", 610, 914),
        ("610mm×914mm", "610 x 914 mm", 610, 914),
        ('24" x 36"', "24 x 36 in", "609.6", "914.4"),
        ("8 1/2 by 11 in", "8 1/2 x 11 in", "215.9", "279.4"),
        ("60 x 90 cm", "600 x 900 mm", 600, 900),
        ("21,5 x 30 cm", "215 x 300 mm", 215, 300),
        ("2 ft x 3 ft", "24 x 36 in", "609.6", "914.4"),
        ("24 in roll", "24 in roll", "609.6", 5080),
        ("roll of 610 mm", "610 mm roll", 610, 5080),
    ],
)
def test_any_size_and_rolls(text, name, width, height):
    paper = paper_named(text)
    assert (paper.name, *paper.size) == (name, Fraction(width), Fraction(height))
    assert paper_named(paper.name) == paper
    assert paper.border == BORDER


SIDE = fractions(Fraction(50), LONGEST, max_denominator=640, of=Fraction)


@settings(max_examples=60)
@given(width=SIDE, height=SIDE, unit=st.sampled_from(Unit), border=fractions(0, 12, max_denominator=64, of=Fraction))
def test_a_paper_s_name_gives_the_paper_again(width, height, unit, border):
    for paper in (sheet_of(Length(width), Length(height), unit), roll_of(Length(width), unit), PAPERS["a3"].turned()):
        assert paper_named(paper.name) == paper
        edged = with_border(paper, Length(border))
        assert paper_named(edged.name) == edged
        assert edged.printable == (border, border, paper.width - border, paper.height - border)
        assert with_border(edged, mm(6)).border == 6


def test_figures_without_a_unit_are_in_the_job_s():
    assert paper_named("24 x 36", Unit.INCH).name == "24 x 36 in"
    assert paper_named("610 x 914", Unit.MM).name == "610 x 914 mm"
    assert paper_named("a4, border 5", Unit.MM).border == 5


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("leter", "nearest: letter"),
        ("vellum", "write a4, a3, a2, a1, a0, letter"),
        ("610 x 914", "has no unit; write it with in or mm"),
        ("x x y", "there is no paper called"),
        ("", "there is no paper called ''"),
        ("10 x 20 mm", "the least is 50 mm"),
        ("300 x 6000 mm", "the most is 5080 mm"),
        ("1 x 20 in", "a width of 1 in is too small for paper; the least is 1 31/32- in (50 mm)"),
        ("201 in roll", "a width of the roll of 201 in is more than a page can have; the most is 200 in"),
        ("roll", "the width of the roll"),
        ("a4, border 53 mm", "leaves too little of A4 paper; the most is 52.5 mm"),
        ("a4, border -1 mm", "is negative; it must be at least 0"),
        ("letter, border five mm", "the border"),
        ("1/0 x 3 in", "cannot be over 0"),
        ("x" * 5000, "too long"),
    ],
)
def test_what_is_no_paper(text, said):
    with pytest.raises(BadInput) as caught:
        paper_named(text)
    assert said in str(caught.value)
    assert len(str(caught.value)) < 400


@pytest.mark.parametrize(
    ("text", "words"),
    [("letter", "letter"), ("a3", "a3"), ("tabloid", "tabloid"), ("a2", "a4"), ("ansi d", "letter"), ("24 in roll", "letter"),
     ("250 mm roll", "a4"), ("300 x 2000 mm", "300 x 2000 mm"), ("148 x 210 mm", "a4"),
     ("5 1/2 x 8 1/2 in", "letter"), ("200 x 280 mm", "200 x 280 mm")],
)  # fmt: skip
def test_lists_are_not_printed_on_a_drawing_board_or_a_slip(text, words):
    assert paper_named(text).for_words.name == words


def test_a_page_of_a_roll_is_as_long_as_it_is_cut():
    roll = paper_named("24 in roll")
    assert roll.cut_to(Fraction(900)).size == (Fraction("609.6"), Fraction(900))
    assert roll.cut_to(Fraction(900)).title == "24 in roll"
