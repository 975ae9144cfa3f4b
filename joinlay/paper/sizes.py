"""Sheets of paper and rolls: how large they are, what a printer leaves of them, and how a maker names them.

A paper is said by its name (``letter``, ``a3 landscape``), by two sizes (``610 x 914 mm``) or as a roll (``24 in roll``), with
its border behind it where that isn't the usual one.
"""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Final

from joinlay.errors import BadInput, nearest_names, quoted
from joinlay.lengths import GRADUATIONS, MM_PER_INCH, BadSize, Fraction, Length, Unit, decimal_text, fraction_in, mm, read_length
from joinlay.records import dataclass

__all__ = ["BORDER", "LONGEST", "PAPERS", "Paper", "paper_named", "roll_of", "sheet_of", "with_border"]

#: What an ordinary printer leaves blank all round, in mm (PR-5).
BORDER: Final = Fraction(6)

#: The longest side of a page, in mm: a PDF page is at most 14400 points, 200 in, each way (ISO 32000-1, annex C).
LONGEST: Final = 200 * MM_PER_INCH

#: Paper larger than this both ways, in mm, is for drawings; nobody wants a list on it (the short side of A3, our own choice).
_LARGE: Final = Fraction(300)

#: Paper narrower than this, in mm, has no room for the columns of a list (our own choice).
_NARROW: Final = Fraction(200)


@dataclass(frozen=True, slots=True)
class Paper:
    """A sheet of paper as it lies in the printer: ``width`` and ``height`` in mm, and the ``border`` that stays blank all round.

    ``name`` is how a job file writes it, ``title`` how the trade does; ``unit`` is what its size is said in. A roll has a width
    and no length of its own: its ``height`` is the most that one page can have, and each page is cut to what is on it.
    """

    name: str
    title: str
    width: Fraction
    height: Fraction
    border: Fraction = BORDER
    unit: Unit = Unit.MM
    is_roll: bool = False

    @property
    def printable(self) -> tuple[Fraction, Fraction, Fraction, Fraction]:
        """What is left within the border: left, bottom, right, top."""
        return (self.border, self.border, self.width - self.border, self.height - self.border)

    @property
    def plain_name(self) -> str:
        """Its name without its border."""
        return self.name.split(",")[0]

    @property
    def size(self) -> tuple[Fraction, Fraction]:
        """Width and height in mm; a roll's height is the most there can be."""
        return (self.width, self.height)

    @property
    def for_words(self) -> Paper:
        """What lists and cards are printed on: this paper, where they can be read on it; else letter or A4.

        A roll has no page of its own, a sheet past A3 is for drawings, and a slip is too narrow for columns.
        """
        if not self.is_roll and _NARROW <= min(self.size) <= _LARGE:
            return self
        return PAPERS["letter" if self.unit is Unit.INCH else "a4"]

    def cut_to(self, height: Fraction) -> Paper:
        """A page of this roll, ``height`` mm long."""
        return replace(self, height=height, is_roll=False)

    def turned(self) -> Paper:
        """The same paper lying on its side."""
        name = f"{self.name} landscape"
        return replace(self, name=name, title=f"{self.title} landscape", width=self.height, height=self.width)


def _metric(name: str, width: int, height: int) -> Paper:
    return Paper(name, name.upper(), Fraction(width), Fraction(height))


def _inch(name: str, title: str, width: str, height: str) -> Paper:
    return Paper(name, title, fraction_in(width) * MM_PER_INCH, fraction_in(height) * MM_PER_INCH, unit=Unit.INCH)


#: Paper by the name a job file uses: ISO 216, and ASME Y14.1 (A is letter, B is tabloid) with the legal size beside it.
PAPERS: Final = {
    paper.name: paper
    for paper in (
        _metric("a4", 210, 297),
        _metric("a3", 297, 420),
        _metric("a2", 420, 594),
        _metric("a1", 594, 841),
        _metric("a0", 841, 1189),
        _inch("letter", "letter", "17/2", "11"),
        _inch("legal", "legal", "17/2", "14"),
        _inch("tabloid", "tabloid", "11", "17"),
        _inch("ansi c", "ANSI C", "17", "22"),
        _inch("ansi d", "ANSI D", "22", "34"),
        _inch("ansi e", "ANSI E", "34", "44"),
    )
}


# -- reading what a maker writes -------------------------------------------------------------------------

_HOW: Final = 'or give a size such as "610 x 914 mm", or a roll such as "24 in roll"'
_BORDER: Final = re.compile(r"[,;]?\s*\bborder\b\s*", re.I)
_BY: Final = re.compile(r"\s*(?:[x×]|\bby\b)\s*", re.I)
#: The unit at the end of a length.
_UNIT: Final = re.compile(r"[^\d\s./,⁄∕¼½¾⅛⅜⅝⅞-]+\s*$")
_IN_INCHES: Final = re.compile(r"""\d\s*(?:in\b|inch|ft\b|foot|feet|["'”″′’])""", re.IGNORECASE)
_LEAST: Final = mm(50)
#: Longer than any size is written; keeps a hostile one from costing time.
_MOST_LETTERS: Final = 100


def paper_named(text: str, unit: Unit | None = None) -> Paper:
    """The paper that ``text`` says: ``letter``, ``a3 landscape``, ``610 x 914 mm``, ``24 in roll``, ``a4, border 5 mm``.

    Capitals don't matter; figures without a unit are in ``unit``, where that is given. The name of a paper read is itself a
    text that gives that paper. Raises BadInput, with the nearest names there are, for one that isn't known, and for a size or
    border that can't be (PR-5).
    """
    if len(text) > _MOST_LETTERS:
        raise BadInput(f"{quoted(text)} is too long for the name of a paper; write {', '.join(PAPERS)}, {_HOW}.")
    size, *rest = _BORDER.split(text, maxsplit=1)
    try:
        paper = _sized(size.strip(), unit)
        return with_border(paper, _length(rest[0], unit, "the border")) if rest else paper
    except BadSize as bad:
        if unit is not None or not _IN_INCHES.search(text):
            raise
        raise BadInput(bad.sentence(GRADUATIONS["1/64 in"].text)) from None


def sheet_of(width: Length, height: Length, unit: Unit) -> Paper:
    """A sheet ``width`` by ``height``, said in ``unit``. Raises BadInput for a side under 50 mm or over 200 in (PR-1)."""
    sizes = (_checked(width, "width"), _checked(height, "height"))
    figures = [_figures(size, unit) for size in sizes]
    name = f"{figures[0]} x {figures[1]} {_WORD[unit]}"
    return Paper(name, name.replace("x", "×"), *sizes, unit=unit)


def roll_of(width: Length, unit: Unit) -> Paper:
    """A roll of this width, said in ``unit``. Raises BadInput for one under 50 mm or over 200 in wide (PR-1)."""
    wide = _checked(width, "width of the roll")
    name = f"{_figures(wide, unit)} {_WORD[unit]} roll"
    return Paper(name, name, wide, LONGEST, unit=unit, is_roll=True)


def with_border(paper: Paper, border: Length) -> Paper:
    """``paper`` with ``border`` blank all round (PR-5). Raises BadInput for one that is negative or leaves no room."""
    if border.mm < 0:
        raise BadSize("a border of {border} is negative; it must be at least 0.", border=border)
    if border.mm * 4 > min(paper.size):
        most = Length(min(paper.size) / 4)
        raise BadSize(
            "a border of {border} leaves too little of {paper} paper; the most is {most}.",
            border=border,
            paper=paper.title,
            most=most,
        )
    unit = Unit.INCH if (border.inches * 64).denominator == 1 and border.mm.denominator > 1 else Unit.MM
    return replace(paper, name=f"{paper.plain_name}, border {_figures(border.mm, unit)} {_WORD[unit]}", border=border.mm)


_WORD: Final = {Unit.INCH: "in", Unit.MM: "mm"}


def _sized(text: str, unit: Unit | None) -> Paper:
    word = " ".join(text.casefold().split())
    if (found := PAPERS.get(word.removesuffix(" landscape"))) is not None:
        return found.turned() if word.endswith(" landscape") else found
    if re.search(r"\broll\b", word):
        width = re.sub(r"\broll\b|\b(?:of|wide)\b", " ", word).strip()
        return roll_of(_length(width, unit, "the width of the roll"), _unit_of(width, unit))
    sides = _BY.split(word)
    if len(sides) == 2 and all(re.search(r"\d", side) for side in sides):
        shared = _UNIT.search(sides[1])
        if shared and not _UNIT.search(sides[0]):
            sides[0] += f" {shared[0]}"
        across, up = (_length(side, unit, "a side of the paper") for side in sides)
        return sheet_of(across, up, _unit_of(sides[1], unit))
    near = nearest_names(word, tuple(PAPERS))
    known = f"nearest: {', '.join(near)}" if near else f"write {', '.join(PAPERS)}"
    raise BadInput(f"there is no paper called {quoted(text)}; {known}, {_HOW}.")


def _length(text: str, unit: Unit | None, what: str) -> Length:
    if unit is None and not _UNIT.search(text):
        raise BadInput(f"{what}, {quoted(text)}, has no unit; write it with in or mm, such as 5 mm or 24 in.")
    try:
        return read_length(text, unit or Unit.MM)
    except BadInput as bad:
        raise BadInput(f"{what}: {bad}") from None


def _unit_of(text: str, unit: Unit | None) -> Unit:
    """The unit to say a size in: inches where it was given in inches or feet."""
    said = _UNIT.search(text)
    if not said:
        return unit or Unit.MM
    return Unit.INCH if read_length(f"1 {said[0]}").mm.denominator > 1 else Unit.MM


def _checked(size: Length, what: str) -> Fraction:
    if size < _LEAST:
        raise BadSize("a {what} of {size} is too small for paper; the least is {least}.", what=what, size=size, least=_LEAST)
    if size.mm > LONGEST:
        raise BadSize(
            "a {what} of {size} is more than a page can have; the most is {most}.", what=what, size=size, most=Length(LONGEST)
        )
    return size.mm


def _figures(size: Fraction, unit: Unit) -> str:
    """``size``, exactly: ``8 1/2``, ``610``, ``215.9``."""
    number = size / MM_PER_INCH if unit is Unit.INCH else size
    if unit is Unit.MM and (number * 10**6).denominator == 1:
        return decimal_text(number, 6)
    whole, part = divmod(number, 1)
    return " ".join(word for word in (str(whole) if whole or not part else "", str(part) if part else "") if word)
