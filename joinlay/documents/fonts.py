"""The packet's typeface: DejaVu Sans, shipped with the package (licence beside the files), every letter checked before it is printed."""

from __future__ import annotations

from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING, Final

from joinlay.errors import BadInput

if TYPE_CHECKING:
    from collections.abc import Container

    from joinlay.pen.lettering import SetRun

__all__ = ["FONT_FILES", "FONT_NAMES", "check_letters", "load_fonts"]

#: The names the two fonts go by in a PDF, regular and bold.
FONT_NAMES: Final = ("DejaVuSans", "DejaVuSans-Bold")
#: Their files in this package.
FONT_FILES: Final = ("DejaVuSans.ttf", "DejaVuSans-Bold.ttf")


@cache
def load_fonts() -> tuple[Container[int], Container[int]]:
    """Make both fonts known to the PDF library, once; gives the letters each has, as code points."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    held = []
    for name, file in zip(FONT_NAMES, FONT_FILES, strict=True):
        font = TTFont(name, str(files("joinlay.documents") / "fonts" / file))
        pdfmetrics.registerFont(font)
        held.append(frozenset(font.face.charToGlyph))
    return held[0], held[1]


def check_letters(piece: SetRun) -> None:
    """Raise BadInput for a letter the font lacks: a PDF would print a black box for it, without a word."""
    letters = load_fonts()[piece.bold]
    missing = next((letter for letter in piece.text if ord(letter) not in letters), None)
    if missing is not None:
        raise BadInput(
            f"{piece.text!r} has the letter {missing!r}, which the printed letters lack; write it in Latin, Greek or Cyrillic letters."
        )
