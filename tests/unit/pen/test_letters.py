"""The width table against the fonts themselves."""

import string
from importlib.resources import files

import pytest
from PIL import ImageFont
from reportlab.pdfbase.pdfmetrics import getFont

from joinlay.documents.pdf import FONT_FILES, FONT_NAMES, load_fonts
from joinlay.pen.lettering import EM, advance, fall, rise

LATIN = "".join(chr(c) for c in (*range(0x20, 0x7F), *range(0xA1, 0x180)) if c != 0xAD)


def width_in_font(letter, bold):
    load_fonts()
    return getFont(FONT_NAMES[bold]).stringWidth(letter, EM)


@pytest.mark.parametrize("bold", [False, True])
def test_plain_letters_are_exactly_as_wide_as_in_the_font(bold):
    for letter in string.ascii_letters + string.digits + string.punctuation + " ⁄−×…—°½⅛″′":
        assert advance(letter, bold=bold) == pytest.approx(width_in_font(letter, bold), abs=0.51), letter


@pytest.mark.parametrize("bold", [False, True])
def test_no_latin_letter_is_wider_than_it_is_taken_for(bold):
    assert [c for c in LATIN if width_in_font(c, bold) > advance(c, bold=bold) + 1] == []


def test_a_letter_the_table_does_not_know_counts_as_wider_than_any():
    assert advance("漢") > 2 * advance("o")


@pytest.mark.parametrize("bold", [False, True])
def test_no_latin_letter_reaches_past_the_room_it_is_given(bold):
    """The outlines of the font, drawn by another library, against how far a letter is said to rise and fall."""
    font = ImageFont.truetype(str(files("joinlay.documents") / "fonts" / FONT_FILES[bold]), EM)
    for letter in LATIN + "⁄−×—…½⅝″′":
        # Drawn at one pixel to the unit; a pixel may be lost to rounding at either side.
        _, top, _, bottom = font.getbbox(letter, anchor="ls")
        assert -top <= rise(letter) + 1, letter
        assert bottom <= fall(letter) + 1, letter


def test_what_hangs_and_what_stands_tall():
    assert fall("g") > fall("a")
    assert rise("Ä") > rise("A") > rise("5")
