"""Paper sizes, the border no printer reaches, and what a printer makes of a true length."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Final

from joinlay.errors import BadInput, nearest_names
from joinlay.lengths import MM_PER_INCH

if TYPE_CHECKING:
    from joinlay.drawings.marks import Box

__all__ = ["BORDER", "PAPERS", "Paper", "Printer", "paper_named"]

#: What an ordinary printer leaves blank all round, in mm (PR-5).
BORDER: Final = Fraction(6)


@dataclass(frozen=True, slots=True)
class Paper:
    """A sheet of paper, upright: ``width`` and ``height`` in mm, ``name`` as a job file writes it, ``title`` as the trade does."""

    name: str
    title: str
    width: Fraction
    height: Fraction

    @property
    def printable(self) -> Box:
        """What is left within the border."""
        return (BORDER, BORDER, self.width - BORDER, self.height - BORDER)


def _metric(name: str, width: int, height: int) -> Paper:
    return Paper(name, name.upper(), Fraction(width), Fraction(height))


def _inch(name: str, title: str, width: str, height: str) -> Paper:
    return Paper(name, title, Fraction(width) * MM_PER_INCH, Fraction(height) * MM_PER_INCH)


#: Paper by the name a job file uses: ISO 216, and ASME Y14.1 (A is letter, B is tabloid) with the legal size beside it.
PAPERS: Final = {
    paper.name: paper
    for paper in (
        _metric("a4", 210, 297),
        _metric("a3", 297, 420),
        _inch("letter", "letter", "17/2", "11"),
        _inch("legal", "legal", "17/2", "14"),
        _inch("tabloid", "tabloid", "11", "17"),
    )
}


def paper_named(name: str) -> Paper:
    """The paper called ``name``, whatever its case; BadInput, with the names there are, for one that isn't known."""
    found = PAPERS.get(name.strip().lower())
    if found is None:
        near = nearest_names(name, tuple(PAPERS))
        raise BadInput(
            f"there is no paper called {name!r}" + (f"; nearest: {', '.join(near)}." if near else f"; write {', '.join(PAPERS)}.")
        )
    return found


@dataclass(frozen=True, slots=True)
class Printer:
    """What must be drawn for a printer to print true: each length times ``across`` from side to side, times ``down`` along the sheet.

    1 and 1 for a printer taken at its word (PR-3). Drawings don't know of it; only the writers of files use it, last of all.
    """

    across: Fraction = Fraction(1)
    down: Fraction = Fraction(1)

    def room(self, paper: Paper) -> Box:
        """The part of ``paper`` that may be drawn on, so that nothing corrected runs off the printable area.

        Lengths grow from the lower left corner of the printable area.
        """
        left, bottom, right, top = paper.printable
        return (
            left,
            bottom,
            left + (right - left) / max(self.across, Fraction(1)),
            bottom + (top - bottom) / max(self.down, Fraction(1)),
        )
