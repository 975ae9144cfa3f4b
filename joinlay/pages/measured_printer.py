"""A printer as its maker measured it: what was drawn on the scale sheet, what the rule said, and the correction that follows (PR-3)."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from joinlay.errors import BadInput
from joinlay.lengths import MM_PER_INCH, Fraction, Length, Unit, decimal_text, mm, plain_mm, read_length
from joinlay.pages.printer import Printer
from joinlay.pages.scale_sheet import bars_on, rectangle_on
from joinlay.paper import with_border

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from joinlay.pages.check_square import LongBar
    from joinlay.paper import Paper

__all__ = ["MOST", "MeasuredPrinter", "Reading", "measured_printer", "read_bar"]

#: The largest correction there is: past it the print was fitted to the page, and no two prints come out alike (PR-3).
MOST: Final = Fraction(3, 100)

#: No eye reads a rule finer than this.
_FINEST: Final = mm(Fraction(1, 10))
#: Past this a measure is more likely a slip than a print that was fitted to the page.
_SLIP: Final = Fraction(15, 100)


@dataclass(frozen=True, slots=True)
class Reading:
    """One thing measured on a scale sheet: its length as ``drawn``, as ``measured``, and what the measure may be off by, ``within``."""

    drawn: Length
    measured: Length
    within: Length

    @classmethod
    def checked(cls, what: str, drawn: Length, measured: Length, within: Length) -> Reading:
        """Such a reading; BadInput, saying ``what`` it is of, where a length is none or the measure is more than 3 % off (PR-3)."""
        if min(drawn.mm, measured.mm) <= 0 or within.mm < 0:
            raise BadInput(f"{what}: {plain_mm(measured)} of {plain_mm(drawn)} cannot be; both are more than nothing.")
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


def read_bar(what: str, text: str, drawn: Sequence[Length], unit: Unit) -> Reading:
    """What a maker read off one bar, whose length is the nearest of ``drawn`` (its strokes in mm, those in inches) (PR-3).

    The measure may be off by half of the smallest part it is written in, a tenth of a millimetre at least. Raises BadInput for what is no
    length, and for one more than 3 % off, with the likely cause.
    """
    measured = read_length(text, unit)
    if measured.mm <= 0:
        raise BadInput(f"{what}: {text} is not a size; it must be more than nothing.")
    nearest = min(drawn, key=lambda one: abs(one.mm - measured.mm) / one.mm)
    off = measured.mm / nearest.mm - 1
    if abs(off) > MOST:
        raise BadInput(_too_far(what, text, nearest, drawn, off))
    return Reading(nearest, measured, _within(text, unit))


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
        f"{begin}; the most is {MOST * 100} %. A printer alone is off by 2 % at most, so this looks like “fit to page”: print the scale "
        f"sheet again at actual size (100 %), with no fitting, and measure again ({there})."
    )


def _said(length: Length) -> str:
    return f"{length.inches} in" if length.inches.denominator == 1 else plain_mm(length)


@dataclass(frozen=True, slots=True)
class MeasuredPrinter:
    """One printer with one paper. ``measured`` is the day, as 2026-11-20; the diagonals are those of the scale sheet's rectangle.

    The rising one runs from the lower left corner to the upper right. ``border`` is what it leaves blank, None where it wasn't said.
    """

    name: str
    paper: Paper
    across: Reading
    down: Reading
    measured: str
    rising: Reading | None = None
    falling: Reading | None = None
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
        """How far the top of a sheet prints to the right of where it should be, by the diagonals; nothing where they weren't measured.

        A rectangle w wide and h high whose top slides by s has diagonals with squares (w + s)² + h² and (w - s)² + h², so that their
        difference is 4 w s (Euclid). No correction is made for it (PR-3).
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
        """How much longer the diagonals are, on average, than the two bars let expect; a slip in one of the measures where it is much."""
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
    """A printer from what its maker measured on the scale sheet for ``paper``, in the maker's words; bare numbers are in ``unit`` (PR-3).

    Raises BadInput, naming the measure, for one that is no length or more than 3 % off, and for one diagonal without the other.
    """
    if (rising is None) != (falling is None):
        raise BadInput(
            f"--{'rising' if rising is None else 'falling'}-diagonal is missing; one diagonal says nothing without the other."
        )
    # The scale sheet may have been printed with the usual border or with the printer's own.
    sheets = (paper,) if border is None else (paper, with_border(paper, border))
    bars, diagonals = [bars_on(sheet) for sheet in sheets], [mm(rectangle_on(sheet)[0] * 5 / 4) for sheet in sheets]
    both = [
        None if text is None else read_bar(f"--{which}-diagonal", text, diagonals, unit)
        for which, text in (("rising", rising), ("falling", falling))
    ]
    return MeasuredPrinter(
        name,
        paper,
        read_bar("--across", across, _strokes(level for level, _ in bars), unit),
        read_bar("--down", down, _strokes(upright for _, upright in bars), unit),
        measured,
        both[0],
        both[1],
        border,
    )


def _strokes(bars: Iterable[LongBar]) -> tuple[Length, ...]:
    """What may be measured on the bars: between the long strokes in millimetres, and in inches."""
    return tuple(dict.fromkeys(size for bar in bars for size in (mm(bar.length), mm(bar.inches * MM_PER_INCH))))
