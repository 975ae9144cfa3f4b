"""A length is a value: a Fraction of a millimetre, never a float."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Final, Union, overload

from joinlay.errors import BadInput, NotExact, quoted
from joinlay.lengths.fraction import EVERY_FRACTION, Fraction, fraction_in

__all__ = ["MM_PER_INCH", "ZERO", "Exact", "Length", "as_length", "as_number", "exact_fraction", "inches", "mm"]

#: One inch, exactly (international yard and pound agreement, 1959).
MM_PER_INCH = Fraction(127, 5)

#: What a number may be given as. Never a float: 0.1 as a float is not a tenth.
Exact = Union[int, str, Fraction, Decimal]

#: The most figures a number may have, so that a hostile one costs no time; a maker writes a dozen.
_MOST_FIGURES: Final = 1000

_TEXT: Final = re.compile(r"([+-]?)(?:(?:(\d+)\s+)?(\d+)\s*/\s*(\d+)|(\d+(?:\.\d*)?|\.\d+))", re.ASCII)


def exact_fraction(number: Exact, unit: str = "mm") -> Fraction:
    """``number`` as a Fraction. Text may be ``7``, ``7.25``, ``5/8`` or ``7 5/8``, with a sign in front.

    Raises NotExact for a float (and for True or False), with what to write instead; BadInput for text
    that is no number and for numbers of more than a thousand figures. ``unit`` only serves the advice.
    """
    if isinstance(number, bool):
        raise NotExact(f"{number} is not a length; write a number, such as {unit}(7).")
    if isinstance(number, (int, *EVERY_FRACTION)):
        return Fraction(number)
    if isinstance(number, float):
        raise NotExact(f"{number!r} is a float, and floats are not exact; write {unit}('{number!r}') or {unit}(Fraction(...)).")
    exact = None
    if isinstance(number, str):
        exact = _of_text(number.strip())
    elif isinstance(number, Decimal):
        exact = _of_decimal(number)
    if exact is None:
        raise BadInput(f"{quoted(number)} is not an exact number; write a whole number, '7.25' or '5/8'.")
    return exact


def _of_text(text: str) -> Fraction | None:
    found = _TEXT.fullmatch(text) if len(text) <= _MOST_FIGURES else None
    if found is None:
        return None
    sign, whole, over, under, plain = found.groups()
    if plain:
        size = fraction_in(plain.removesuffix("."))
    elif int(under):
        size = int(whole or 0) + Fraction(int(over), int(under))
    else:
        return None
    return -size if sign == "-" else size


def _of_decimal(number: Decimal) -> Fraction | None:
    _, figures, exponent = number.as_tuple()
    if not isinstance(exponent, int) or len(figures) + abs(exponent) > _MOST_FIGURES:
        return None
    return Fraction(number)


class Length:
    """An exact length. ``mm`` is its value in millimetres, a Fraction; may be negative or zero.

    Lengths add and subtract; a length times or over a whole number or Fraction is a length; a length over
    a length is a Fraction. Floats are refused with NotExact. Lengths compare, sort and hash by value.
    Make one with ``mm('18.2')``, ``inches('26 5/8')`` or ``read_length('2 ft 2 5/8 in')``.
    """

    __slots__ = ("mm",)

    mm: Fraction

    def __init__(self, mm: Exact) -> None:
        """Take the value in millimetres; a float raises NotExact."""
        object.__setattr__(self, "mm", mm if type(mm) is Fraction else exact_fraction(mm))

    def __setattr__(self, name: str, value: object) -> None:
        """Refuse: a length never changes."""
        raise AttributeError(f"a length cannot be changed; {name} was to be set")

    def __delattr__(self, name: str) -> None:
        """Refuse: a length never changes."""
        raise AttributeError(f"a length cannot be changed; {name} was to be deleted")

    def __reduce__(self) -> tuple[object, ...]:
        """Pickle and copy by value, since the fields cannot be set."""
        return (Length, (self.mm,))

    @property
    def inches(self) -> Fraction:
        """The value in inches, exactly."""
        return self.mm / MM_PER_INCH

    def __repr__(self) -> str:
        """``mm('91/5')``: what to write to get this length again."""
        return f"mm('{self.mm}')"

    def __hash__(self) -> int:
        """By value, so equal lengths are one key."""
        return hash((Length, self.mm))

    def __bool__(self) -> bool:
        """False for zero."""
        return bool(self.mm)

    def __eq__(self, other: object) -> bool:
        """Exactly as long."""
        return self.mm == other.mm if isinstance(other, Length) else NotImplemented

    def __lt__(self, other: Length) -> bool:
        """Shorter."""
        return self.mm < as_length(other).mm

    def __le__(self, other: Length) -> bool:
        """Shorter or as long."""
        return self.mm <= as_length(other).mm

    def __gt__(self, other: Length) -> bool:
        """Longer."""
        return self.mm > as_length(other).mm

    def __ge__(self, other: Length) -> bool:
        """Longer or as long."""
        return self.mm >= as_length(other).mm

    def __add__(self, other: Length) -> Length:
        """Both, end to end."""
        return Length(self.mm + as_length(other).mm)

    def __radd__(self, other: Length) -> Length:
        """Only met where a number stands in front, which is refused with NotExact."""
        return Length(as_length(other).mm + self.mm)

    def __sub__(self, other: Length) -> Length:
        """What is left; may be negative."""
        return Length(self.mm - as_length(other).mm)

    def __rsub__(self, other: Length) -> Length:
        """Only met where a number stands in front, which is refused with NotExact."""
        return Length(as_length(other).mm - self.mm)

    def __mul__(self, times: int | Fraction) -> Length:
        """So many times as long."""
        return Length(self.mm * as_number(times))

    __rmul__ = __mul__

    @overload
    def __truediv__(self, by: int | Fraction) -> Length: ...
    @overload
    def __truediv__(self, by: Length) -> Fraction: ...
    def __truediv__(self, by: int | Fraction | Length) -> Length | Fraction:
        """A length over a number is a length; over a length, how many times it goes in."""
        if isinstance(by, Length):
            return self.mm / by.mm
        return Length(self.mm / as_number(by))

    def __neg__(self) -> Length:
        """The same length the other way."""
        return Length(-self.mm)

    def __abs__(self) -> Length:
        """The length without its sign."""
        return Length(abs(self.mm))


def as_length(other: object) -> Length:
    """``other``, which is to be a length; NotExact, with what to write instead, where it is none. No rule: what arithmetic
    asks first.
    """
    if isinstance(other, Length):
        return other
    text = f"'{quoted(other)}'" if isinstance(other, (int, float)) else "'5/8'"
    raise NotExact(
        f"{quoted(other)} is not a length, so it cannot be added to or compared with one; write mm({text}) or inches({text})."
    )


def as_number(times: object) -> Fraction:
    """``times``, which is to be a whole number or a fraction; NotExact where it is another thing, a float above all. No rule:
    as above.
    """
    if isinstance(times, (int, *EVERY_FRACTION)) and not isinstance(times, bool):
        return Fraction(times)
    text = f"'{times}'" if isinstance(times, float) else "'1/3'"
    raise NotExact(
        f"a length is multiplied or divided by a whole number or a Fraction, not by {quoted(times)}; write Fraction({text})."
    )


def mm(number: Exact) -> Length:
    """A length of so many millimetres: ``mm(18)``, ``mm('18.2')``, ``mm(Fraction(1, 3))``. A float raises NotExact."""
    return Length(exact_fraction(number, "mm"))


def inches(number: Exact) -> Length:
    """A length of so many inches: ``inches('26 5/8')``, ``inches(3)``. A float raises NotExact."""
    return Length(exact_fraction(number, "inches") * MM_PER_INCH)


#: No length at all.
ZERO = Length(0)
