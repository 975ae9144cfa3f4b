"""Printers: what each makes of a true length, and what must be drawn so that it comes out true all the same."""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.lengths import Fraction, decimal_text
from joinlay.records import dataclass

if TYPE_CHECKING:
    from joinlay.paper import Paper
    from joinlay.pen.marks import Box

__all__ = ["Printer", "for_words", "percent"]


def percent(factor: Fraction) -> str:
    """How much longer or shorter ``factor`` makes a thing, to a hundredth: ``+0.4 %``, ``−0.55 %``, ``0 %``."""
    size = decimal_text(abs(factor - 1) * 100, 2)
    sign = "" if size == "0" else "+" if factor > 1 else "−"
    return f"{sign}{size} %"


@dataclass(frozen=True, slots=True)
class Printer:
    """What must be drawn for a printer to print true: lengths times ``across`` from side to side, times ``down`` along the sheet.

    1 and 1 for a printer taken at its word (PR-3). ``name`` is the maker's own for a printer that was measured, ``measured``
    the day, as 2026-11-20. Drawings don't know of it; only the writers of files use it, last of all.
    """

    across: Fraction = Fraction(1)
    down: Fraction = Fraction(1)
    name: str = ""
    measured: str = ""

    @property
    def is_measured(self) -> bool:
        """True where it was measured: then every sheet made for it says so, and is true on that printer only."""
        return bool(self.name)

    @property
    def correction(self) -> str:
        """``across +0.4 %, down −0.5 %``: how much longer or shorter everything is drawn for it."""
        return f"across {percent(self.across)}, down {percent(self.down)}"

    @property
    def words(self) -> str:
        """What every sheet made for a measured printer says, in a line; '' for one taken at its word (PR-3)."""
        if not self.is_measured:
            return ""
        return f"Corrected for {self.name} as measured on {self.measured}: {self.correction}. Measure on that printer only."

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


def for_words(paper: Paper, printer: Printer) -> tuple[Paper, Printer]:
    """What is only read is printed on, and the printer for that: never a roll or a large sheet; corrected where it was measured
    with that paper, and taken at its word where it wasn't (PR-3).
    """
    reading = paper.for_words
    return reading, printer if reading == paper else Printer()
