"""Lettering: fractions set as fractions, and how much room a line takes."""

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from joinlay.lengths import inches, mm
from joinlay.pen.lettering import Run, Vulgar, figures, fitted, plain, set_line, unparted, words, wrapped
from tests.drawn import fractions
from tests.unit.templates.parts import INCH, METRIC


@pytest.mark.parametrize(
    ("length", "rule", "said"),
    [
        (inches("1 5/16"), INCH, "1 5/16"),
        (inches("5/16"), INCH, "5/16"),
        (inches(2), INCH, "2"),
        (mm(25), INCH, "31/32+"),
        (mm(24), INCH, "15/16+"),
        (mm("24.6"), INCH, "31/32−"),
        (mm("24.5"), METRIC, "24.5"),
        (mm("24.4"), METRIC, "24.5−"),
        (mm("24.6"), METRIC, "24.5+"),
        (mm(0), INCH, "0"),
    ],
)
def test_figures_on_the_makers_rule(length, rule, said):
    assert plain(figures(length, rule, 5)) == said


def test_a_fraction_is_one_piece_above_and_one_below_the_bar():
    over, bar, under = set_line((Vulgar(5, 16, Fraction(5)),)).pieces
    assert (over.text, bar.text, under.text) == ("5", "⁄", "16")
    assert over.up > bar.up == 0 > under.up
    assert over.right + over.width <= under.right


def test_height_is_that_of_a_capital():
    (piece,) = set_line(words("H", 5)).pieces
    assert piece.em * 1493 / 2048 == 5


def test_blanks_are_room_and_no_type():
    bare, padded = set_line((Run("deep", Fraction(5)),)), set_line((Run("  deep ", Fraction(5)),))
    assert [piece.text for piece in padded.pieces] == ["deep"]
    assert padded.width > bare.width
    assert padded.pieces[0].right > 0
    assert set_line((Run("  ", Fraction(5)),)).pieces == ()


def test_words_run_together_only_where_they_did():
    assert plain(words("drawer \t 1\nfront", 5)) == "drawer 1 front"


def test_fitted_takes_the_largest_height_that_fits_and_cuts_short_what_never_does():
    text = "drawer 1 front"
    wide = set_line(words(text, 5)).width
    assert fitted(text, wide, (5, 3)) == words(text, 5)
    assert fitted(text, wide - 1, (5, 3)) == words(text, 3)
    short = fitted(text, Fraction(12), (5, 3))
    assert plain(short).endswith("…")
    assert set_line(short).width <= 12


def test_an_accent_needs_more_room_above():
    assert set_line(words("Änder", 5)).rise > set_line(words("Ander", 5)).rise


@given(
    st.lists(st.text("abmWiÄ½ ,.-漢\u00a0", min_size=1, max_size=12)).map(" ".join),
    fractions(0, 60, of=Fraction),
    st.sampled_from([Fraction(5, 2), Fraction(7, 2), 5]),
    st.booleans(),
)
def test_wrapped_lines_fill_their_room_and_keep_to_it_as_they_are_set(text, room, height, bold):
    lines = [line.split(" ") for line in wrapped(text, room, height, bold=bold)]
    assert [word for line in lines for word in line] == text.split()

    def fits(some):
        return set_line(words(" ".join(some), height, bold=bold)).width <= room

    assert all(len(list(unparted(" ".join(line)))) == 1 or fits(line) for line in lines)
    # What stays together goes on to the next line together.
    assert not any(fits([*line, next(unparted(" ".join(after)))]) for line, after in pairwise(lines))


@pytest.mark.parametrize(
    ("text", "pieces"),
    [
        ("edge swells 1/32 in, free", ["edge", "swells", "1/32 in,", "free"]),
        ("by 3 3/16 in (81 mm).", ["by", "3 3/16 in", "(81 mm)."]),
        ("droops 0.6 mm.", ["droops", "0.6 mm."]),
        ("4 % of 110 lb", ["4 %", "of", "110 lb"]),
        ("wants 175 to 250 lb/in2.", ["wants", "175", "to", "250 lb/in2."]),
        ("drawer 1 in place", ["drawer", "1 in", "place"]),
        ("card 10 and 11, in oak", ["card", "10", "and", "11,", "in", "oak"]),
        ("drawer 2 minds 12 1/2-", ["drawer", "2", "minds", "12 1/2-"]),
        ("", []),
    ],
)
def test_a_figure_keeps_its_fraction_and_its_unit(text, pieces):
    assert list(unparted(text)) == pieces
    # Wherever the line is broken: not even the narrowest room parts them.
    assert list(wrapped(text, Fraction(1), Fraction(5))) == pieces
