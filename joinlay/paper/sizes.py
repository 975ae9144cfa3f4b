"""Sheets of paper and rolls: how large they are, and what a printer leaves of them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final

from joinlay.lengths import MM_PER_INCH, Unit

__all__ = ["BORDER", "LONGEST", "PAPERS", "Paper"]

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

    ``name`` is how a job file writes it, ``title`` how the trade does; ``unit`` is what its size is said in. A roll has a width and no
    length of its own: its ``height`` is the most that one page can have, and each page is cut to what is on it.
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
        """What lists and cards are printed on: this paper, but letter or A4 in place of a roll, a sheet as large as a drawing board or a slip."""
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
    return Paper(name, title, Fraction(width) * MM_PER_INCH, Fraction(height) * MM_PER_INCH, unit=Unit.INCH)


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
