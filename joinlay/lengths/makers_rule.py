"""The maker's rule: rounding a length to its smallest division, and setting it out as figures.

Trade rules MS-2, FR-1: a value shows what to set on the rule and, where that isn't all, what callipers show; never a sum. A
length that is told and never set (a gap, a sag, a movement) is `Fine`: shown to the nearest 1/64 in or 0.1 mm, with nothing left
over.
"""

from __future__ import annotations

from functools import lru_cache
from math import ceil, floor
from typing import TYPE_CHECKING, Final

from joinlay.errors import BadInput
from joinlay.lengths.fraction import Fraction, fraction_in
from joinlay.lengths.length import MM_PER_INCH, Length
from joinlay.lengths.notation import Unit
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Callable

__all__ = ["GRADUATIONS", "BadSize", "Fine", "Graduation", "OnRule", "decimal_text", "plain_mm", "said_by"]


#: The finest that is told in each unit, and how it is called.
_FINEST: Final = {Unit.INCH: (MM_PER_INCH / 64, "1/64 in"), Unit.MM: (Fraction(1, 10), "0.1 mm")}


class Fine(Length):
    """A gap, a sag, a movement: exact or estimated, it is read and never set on a rule.

    Shown as a size to cut it would read "1/32- in (0.024)", which says more than anyone can know. How it is shown: no rule.
    """

    __slots__ = ()

    def __init__(self, length: Length) -> None:
        """The same length, to be told."""
        super().__init__(length.mm)

    def __reduce__(self) -> tuple[object, ...]:
        """Pickle and copy by value."""
        return (Fine, (Length(self.mm),))

    def nearest(self, unit: Unit) -> Length:
        """To the nearest 1/64 in or 0.1 mm, by ``unit``, halfway up."""
        finest, _ = _FINEST[unit]
        return Length(finest * ((self.mm / finest + Fraction(1, 2)) // 1))

    def too_small(self, unit: Unit) -> str:
        """What to say in ``unit`` of a length too small to tell: ``under 1/64 in``, with its sign; empty for what can be told,
        and for 0.
        """
        return f"{'minus ' if self.mm < 0 else ''}under {_FINEST[unit][1]}" if self.mm and not self.nearest(unit).mm else ""


@dataclass(frozen=True, slots=True)
class OnRule:
    """A length as it stands on the maker's rule.

    ``nearest`` is the nearest mark, ``left_over`` the exact length less that mark (signed). For typesetting:
    ``sign`` is '' or '-', ``whole`` the whole units or the decimal number, ``over`` and ``under`` the fraction (0 over 1
    where there is none), ``unit`` 'in' or 'mm'.
    """

    nearest: Length
    left_over: Length
    sign: str
    whole: str
    over: int
    under: int
    unit: str

    @property
    def elsewhere(self) -> str:
        """The length in the other system where it is a round size there and not here: ``4 mm``, ``1/4 in``; else empty.

        A cutter or a sheet bought in millimetres keeps its own name in a shop that works in inches, and the other way round.
        """
        if not self.left_over:
            return ""
        exact = self.nearest.mm + self.left_over.mm
        if self.unit == "in":
            return f"{decimal_text(exact, 1)} mm" if (exact * 10).denominator == 1 else ""
        sixty_fourths = exact / MM_PER_INCH * 64
        return _IN_64.read(Length(exact)).text if sixty_fourths.denominator == 1 else ""

    @property
    def figures(self) -> str:
        """The mark without unit: ``18 5/16``, ``5/16``, ``18.2``."""
        fraction = f"{self.over}/{self.under}" if self.over else ""
        whole = "" if self.whole == "0" and fraction else self.whole
        return self.sign + " ".join(part for part in (whole, fraction) if part)

    @property
    def hair(self) -> str:
        """``+`` where the exact length is a hair more than the mark, ``-`` where it is less; empty where it is the mark
        itself.
        """
        if not self.left_over:
            return ""
        return "-" if self.left_over.mm < 0 else "+"

    @property
    def exactly(self) -> str:
        """What a rule twice or four times as fine, or callipers, would show of it, without unit: ``23/64``, ``17.722``.

        A sixty-fourth is said as one; everything else to a thousandth of an inch or a hundredth of a millimetre.
        """
        exact = Length(self.nearest.mm + self.left_over.mm)
        if self.unit == "mm":
            return _calliper_text(exact.mm, 2)
        if (exact.inches * 64).denominator == 1:
            return _IN_64.read(exact).figures
        return _calliper_text(exact.inches, 3)

    @property
    def text(self) -> str:
        """What to set on the rule, with its unit; ``+`` or ``-`` for a hair more or less, and then what it is: ``17 23/32+ in
        (17.722)``.

        A length that is round in the other system says that instead: ``5/32+ in (4 mm)``.
        """
        if not self.left_over:
            return f"{self.figures} {self.unit}"
        return f"{self.figures}{self.hair} {self.unit} ({self.elsewhere or self.exactly})"


@dataclass(frozen=True, slots=True)
class Graduation:
    """The unit and the smallest division of the maker's rule: 1/16, 1/32 or 1/64 in; 1, 0.5 or 0.1 mm."""

    unit: Unit
    division: Length

    def __post_init__(self) -> None:
        """Refuse a division of zero or less."""
        if self.division.mm <= 0:
            raise BadInput("the smallest division of a rule must be more than 0; write 1/32 in or 0.5 mm.")

    def round(self, length: Length) -> Length:
        """The mark nearest to ``length``; halfway goes up, so that the answer does not depend on the neighbour."""
        # In whole numbers, since a packet asks for some ten thousand.
        return self._at(length, lambda marks: (2 * marks.numerator + marks.denominator) // (2 * marks.denominator))

    def down(self, length: Length) -> Length:
        """The last mark that is not past ``length``."""
        return self._at(length, floor)

    def up(self, length: Length) -> Length:
        """The first mark that is not short of ``length``."""
        return self._at(length, ceil)

    def _at(self, length: Length, how: Callable[[Fraction], int]) -> Length:
        return Length(self.division.mm * how(length.mm / self.division.mm))

    def read(self, length: Length) -> OnRule:
        """``length`` as it is set out on this rule, with what is left over."""
        nearest = self.round(length)
        size, sign = abs(nearest), "-" if nearest.mm < 0 else ""
        rest = Length(length.mm - nearest.mm)
        if self.unit is Unit.INCH:
            whole, part = divmod(size.inches, 1)
            return OnRule(nearest, rest, sign, str(whole), part.numerator, part.denominator, "in")
        places = next((n for n in range(6) if (self.division.mm * 10**n).denominator == 1), 6)
        return OnRule(nearest, rest, sign, decimal_text(size.mm, places), 0, 1, "mm")

    def sold(self, length: Length) -> str:
        """``length`` as a tool or strip of that size is sold: ``1/4 in``, and ``4 mm`` in a shop that works in inches.

        What is round in neither system reads as ``text`` has it.
        """
        return self.read(length).elsewhere or self.text(length)

    def text(self, length: Length) -> str:
        """``length`` as the maker reads it: ``18 5/16 in``, never as a sum (FR-1).

        What lies between two marks is told as it is where few figures do that, a sixty-fourth or a decimal as callipers show it:
        ``23/64 in``, ``0.709 in``; else by the mark and what callipers show, ``17 23/32+ in (17.722)``. A Fine length is told to
        the nearest 1/64 in or 0.1 mm instead.
        """
        if isinstance(length, Fine):
            rule = _IN_64 if self.unit is Unit.INCH else _MM_10
            return length.too_small(self.unit) or rule.text(length.nearest(self.unit))
        read = self.read(length)
        return read.text if (few := self._few(length, read)) is None else few

    def callipers(self, length: Length) -> str:
        """``length`` as callipers in the maker's unit show it: ``0.219 in``, ``17.65 mm``; past their reach, 150 mm, as ``text``
        has it (FR-1).

        Callipers show thousandths of an inch, or hundredths of a millimetre; they know no fractions. Common practice.
        """
        if abs(length).mm > _CALLIPERS_REACH:
            return self.text(length)
        if self.unit is Unit.INCH:
            return f"{_calliper_text(length.inches, 3)} in"
        return f"{_calliper_text(length.mm, 2)} mm"

    def few(self, length: Length) -> str | None:
        """``length`` between two marks where few figures tell it exactly: ``23/64 in``, ``18.25 mm``, ``44.45 mm (1 3/4 in)``;
        else None (FR-1).
        """
        return self._few(length, self.read(length))

    def _few(self, length: Length, read: OnRule) -> str | None:
        if not read.left_over:
            return None
        size, places = (length.inches, 3) if self.unit is Unit.INCH else (length.mm, 2)
        if (size * 10**places).denominator > 1 and (self.unit is Unit.MM or (size * 64).denominator > 1):
            # Under the first mark there is nothing to set: a decimal alone, unless it is round elsewhere.
            return f"{read.exactly} {read.unit}" if not read.nearest and not read.elsewhere else None
        other = f" ({read.elsewhere})" if read.elsewhere else ""
        return f"{read.exactly} {read.unit}{other}"


#: How far common callipers open, in mm.
_CALLIPERS_REACH: Final = 150


def _calliper_text(size: Fraction, places: int) -> str:
    """``size`` to so many places, or to as many more as show a first figure, so that something never reads as 0."""
    return decimal_text(size, next((n for n in range(places, 12) if round(size, n)), 12))


@lru_cache(maxsize=4096)
def decimal_text(number: Fraction, places: int) -> str:
    """``number`` rounded to ``places`` decimals, trailing zeros dropped; exact arithmetic, halfway goes up."""
    # Rounded in whole numbers, and kept: a packet writes some forty thousand of these, the same ones again and again.
    under = number.denominator
    scaled = (2 * abs(number.numerator) * 10**places + under) // (2 * under)
    whole, part = divmod(scaled, 10**places)
    tail = f"{part:0{places}d}".rstrip("0") if places else ""
    return ("-" if number < 0 and scaled else "") + (f"{whole}.{tail}" if tail else str(whole))


_IN_64 = Graduation(Unit.INCH, Length(MM_PER_INCH / 64))
_MM_10 = Graduation(Unit.MM, Length(Fraction(1, 10)))


def plain_mm(length: Length) -> str:
    """``length`` in millimetres to three places, ``18.256 mm``: for an error that knows no maker's rule."""
    return f"{decimal_text(length.mm, 3)} mm"


class BadSize(BadInput):
    """Sizes that can't be used; said in millimetres, and in the maker's own unit where that is known.

    ``said`` has ``{name}`` where a length or a word of ``told`` stands, as a finding has.
    """

    def __init__(self, said: str, **told: Length | str) -> None:
        """Keep what is said and the lengths in it."""
        self._said, self._told = said, told
        super().__init__(self.sentence(plain_mm))

    def sentence(self, show: Callable[[Length], str]) -> str:
        """What is wrong, its lengths set by ``show`` (a Graduation's ``text``)."""
        return self._said.format(**{name: show(one) if isinstance(one, Length) else one for name, one in self._told.items()})


def said_by(bad: BadInput, show: Callable[[Length], str]) -> str:
    """What ``bad`` says, its lengths set by ``show`` where it has any."""
    return bad.sentence(show) if isinstance(bad, BadSize) else str(bad)


#: The rules a maker may have, by the name written in a job.
GRADUATIONS: dict[str, Graduation] = {
    **{f"1/{n} in": Graduation(Unit.INCH, Length(MM_PER_INCH / n)) for n in (16, 32, 64)},
    **{f"{text} mm": Graduation(Unit.MM, Length(fraction_in(text))) for text in ("1", "0.5", "0.1")},
}
