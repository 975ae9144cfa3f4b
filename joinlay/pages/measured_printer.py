"""A printer as its owner measured it: what was drawn on the scale sheet, what the rule said, and the correction (PR-3).

The problem: a printer stretches paper a little, and not alike across and down the sheet. The method: on the scale sheet a bar
each way is measured with the shop's own rule, and what is drawn from then on is drawn larger by as much as the bar came out
short: drawn over measured, exactly, one factor for each way. Both bars have strokes for millimetres and for inches, so far
apart that a measure tells by itself which strokes it was taken between. How finely it was read is known from how it is written
(199.2 mm: to half a tenth), and no difference smaller than that counts as one. The diagonals of a rectangle tell two things
more: by their difference, whether the print is skew, and by their sum, whether bars and diagonals agree.

What it can't do: a correction is one factor over the whole sheet, so neither skew nor a stretch that changes along the sheet is
put right; skew is reported, and past 3 % no correction is taken at all, since the print was then fitted to the page. It holds
for one printer with one paper, on the day it was measured.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from joinlay.errors import BadInput
from joinlay.lengths import MM_PER_INCH, Fraction, Length, Unit, decimal_text, mm, plain_mm, read_length
from joinlay.pages.printer import Printer
from joinlay.pages.scale_sheet import bars_on, rectangle_on
from joinlay.paper import with_border
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from joinlay.pages.check_square import LongBar
    from joinlay.paper import Paper

__all__ = ["MOST", "MeasuredPrinter", "Measurement", "measured_printer", "read_bar"]

#: The largest correction there is: past it the print was fitted to the page, and no two prints come out alike (PR-3).
MOST: Final = Fraction(3, 100)

#: No eye reads a rule finer than this.
_FINEST: Final = mm(Fraction(1, 10))
#: Past this a measure is more likely a slip than a print that was fitted to the page.
_SLIP: Final = Fraction(15, 100)


@dataclass(frozen=True, slots=True)
class Measurement:
    """One length measured on a scale sheet: as ``drawn``, as ``measured``, and how far off the measure may be, ``within``."""

    drawn: Length
    measured: Length
    within: Length

    @classmethod
    def checked(cls, what: str, drawn: Length, measured: Length, within: Length) -> Measurement:
        """Such a measurement. ``what`` names it in errors: ``across``.

        Raises BadInput where a length isn't above zero, or the measure is more than 3 % off (PR-3).
        """
        if min(drawn.mm, measured.mm) <= 0 or within.mm < 0:
            raise BadInput(f"{what}: {plain_mm(measured)} of {plain_mm(drawn)} cannot be; both must be above zero.")
        if abs(measured.mm / drawn.mm - 1) > MOST:
            raise BadInput(_too_far(what, plain_mm(measured), drawn, (drawn,), measured.mm / drawn.mm - 1))
        return cls(drawn, measured, within)

    @property
    def factor(self) -> Fraction:
        """What to draw in place of 1, so that 1 comes out."""
        return self.drawn.mm / self.measured.mm

    @property
    def is_noise(self) -> bool:
        """True where it differs from what was drawn by no more than it can be read to."""
        return abs(self.measured.mm - self.drawn.mm) <= self.within.mm


def read_bar(what: str, text: str, drawn: Sequence[Length], unit: Unit) -> Measurement:
    """What was read off one bar or diagonal, in the maker's words ``text``; a bare number is in ``unit`` (PR-3).

    ``drawn`` are the lengths it may be of (between the strokes in mm, between those in inches); the nearest is taken. ``what``
    names it in errors: ``--across``. The measure may be off by half of the smallest part it is written in, at least a tenth of
    a millimetre. Raises BadInput for what is no length, and for one more than 3 % off, with the likely cause.
    """
    measured = read_length(text, unit)
    if measured.mm <= 0:
        raise BadInput(f"{what}: {text} is not a size; it must be above zero.")
    nearest = min(drawn, key=lambda one: abs(one.mm - measured.mm) / one.mm)
    off = measured.mm / nearest.mm - 1
    if abs(off) > MOST:
        raise BadInput(_too_far(what, text, nearest, drawn, off))
    return Measurement(nearest, measured, _within(text, unit))


def _within(text: str, unit: Unit) -> Length:
    """Half the smallest part the measure is written in, a sixteenth of an inch at most; never less than the eye can tell."""
    over = re.search(r"/\s*(\d+)", text)
    places = re.search(r"\d*[.,](\d+)", text)
    one = Fraction(1, int(over[1])) if over and int(over[1]) else Fraction(1, 10 ** len(places[1])) if places else Fraction(1)
    bare = re.sub(r"[\d\s./,⁄-]", "", text)
    inch = read_length(f"1 {bare}", unit).mm if bare else (MM_PER_INCH if unit is Unit.INCH else Fraction(1))
    return max(_FINEST, Length(min(one * inch, MM_PER_INCH / 16) / 2))


def _too_far(what: str, text: str, nearest: Length, drawn: Sequence[Length], off: Fraction) -> str:
    amount = f"{decimal_text(abs(off) * 100, 1)} % {'longer' if off > 0 else 'shorter'}"
    there = " or ".join(_said(one) for one in drawn)
    begin = f"{what}: {text} is {amount} than the {_said(nearest)} that was drawn"
    if abs(off) > _SLIP:
        return f"{begin}; that looks like a slip. It was drawn {there} long: measure between the long strokes again."
    return (
        f"{begin}; the most is {MOST * 100} %. A printer alone is off by 2 % at most, so this looks like “fit to page”: print "
        f"the scale sheet again at actual size (100 %), with no fitting, and measure again ({there})."
    )


def _said(length: Length) -> str:
    return f"{length.inches} in" if length.inches.denominator == 1 else plain_mm(length)


@dataclass(frozen=True, slots=True)
class MeasuredPrinter:
    """One printer with one paper. ``measured`` is the day, as 2026-11-20.

    ``across`` and ``down`` are the bars of the scale sheet; ``rising`` and ``falling`` the diagonals of its rectangle (rising
    from the lower left corner to the upper right), None where they weren't measured. ``border`` is what the printer leaves
    blank, None where that wasn't said.
    """

    name: str
    paper: Paper
    across: Measurement
    down: Measurement
    measured: str
    rising: Measurement | None = None
    falling: Measurement | None = None
    border: Length | None = None

    @property
    def printer(self) -> Printer:
        """Its correction, to draw with."""
        return Printer(self.across.factor, self.down.factor, self.name, self.measured)

    @property
    def is_true(self) -> bool:
        """True where both bars measure what was drawn as nearly as that can be read: then no correction is needed."""
        return self.across.is_noise and self.down.is_noise

    def is_for(self, paper: Paper) -> bool:
        """True where it was measured on that paper, whatever its border."""
        return (self.paper.size, self.paper.is_roll) == (paper.size, paper.is_roll)

    @property
    def skew(self) -> Length:
        """How far the top of a sheet prints to the right of where it should be, by the diagonals; zero where there are none.

        A rectangle w wide and h high whose top slides by s has diagonals with squares (w + s)² + h² and (w - s)² + h², so that
        their difference is 4 w s (Euclid). No correction is made for it (PR-3).
        """
        if self.rising is None or self.falling is None:
            return mm(0)
        wide, high = self.rising.drawn.mm * 4 / 5, self.rising.drawn.mm * 3 / 5
        slide = (self.rising.measured.mm**2 - self.falling.measured.mm**2) / (4 * wide)
        return Length(slide / high * _length_of(self.paper))

    @property
    def is_skew(self) -> bool:
        """True where the diagonals differ by more than both can be read to."""
        if self.rising is None or self.falling is None:
            return False
        return abs(self.rising.measured.mm - self.falling.measured.mm) > self.rising.within.mm + self.falling.within.mm

    @property
    def disagreement(self) -> Length:
        """How much longer the diagonals are, on average, than the two bars let expect; where it is much, a measure was a slip."""
        if self.rising is None or self.falling is None:
            return mm(0)
        wide, high = self.rising.drawn.mm * 4 / 5, self.rising.drawn.mm * 3 / 5
        expected = (wide / self.across.factor) ** 2 + (high / self.down.factor) ** 2
        found = (self.rising.measured.mm**2 + self.falling.measured.mm**2) / 2
        # The difference of the squares over twice the length is the difference of the lengths, but for a hundredth of it.
        return Length((found - expected) / (2 * self.rising.drawn.mm))

    @property
    def disagrees(self) -> bool:
        """True where bars and diagonals cannot all have been read right."""
        read = [one for one in (self.across, self.down, self.rising, self.falling) if one is not None]
        return abs(self.disagreement.mm) > sum(one.within.mm for one in read)


def _length_of(paper: Paper) -> Fraction:
    """The length that skew is told over: the sheet's own, a metre of a roll."""
    return Fraction(1000) if paper.is_roll else paper.height


def measured_printer(
    name: str,
    paper: Paper,
    across: str,
    down: str,
    measured: str,
    *,
    unit: Unit,
    rising: str | None = None,
    falling: str | None = None,
    border: Length | None = None,
) -> MeasuredPrinter:
    """The printer called ``name`` from what was measured on the scale sheet for ``paper`` (PR-3).

    ``measured`` is the day, as 2026-11-20. ``across``, ``down``, ``rising`` and ``falling`` are in the maker's words, bare
    numbers in ``unit``; ``border`` is what the printer leaves blank, None where that isn't said. Raises BadInput, naming the
    measure, for one that is no length or more than 3 % off, and for one diagonal without the other.
    """
    if (rising is None) != (falling is None):
        missing = "rising" if rising is None else "falling"
        raise BadInput(f"--{missing}-diagonal is missing; one diagonal says nothing without the other.")
    # The scale sheet may have been printed with the usual border or with the printer's own.
    sheets = (paper,) if border is None else (paper, with_border(paper, border))
    bars, diagonals = [bars_on(sheet) for sheet in sheets], [mm(rectangle_on(sheet)[0] * 5 / 4) for sheet in sheets]
    both = [
        None if text is None else read_bar(f"--{which}-diagonal", text, diagonals, unit)
        for which, text in (("rising", rising), ("falling", falling))
    ]
    return MeasuredPrinter(
        name=name,
        paper=paper,
        across=read_bar("--across", across, _strokes(level for level, _ in bars), unit),
        down=read_bar("--down", down, _strokes(upright for _, upright in bars), unit),
        measured=measured,
        rising=both[0],
        falling=both[1],
        border=border,
    )


def _strokes(bars: Iterable[LongBar]) -> tuple[Length, ...]:
    """What may be measured on the bars: between the long strokes in millimetres, and in inches."""
    return tuple(dict.fromkeys(size for bar in bars for size in (mm(bar.length), mm(bar.inches * MM_PER_INCH))))
