"""Which fractions are reckoned with: those of quicktions, which is written in C, or Python's own where it cannot be had.

Both are exact, alike in what they take, say and refuse, equal and of one hash, and add up with each other; a job makes the same
bytes with either. Everything in joinlay takes ``Fraction`` from here, so one plan holds one kind. Types are checked against
Python's own.

Text is read by ``fraction_in``, never by ``Fraction`` itself: quicktions (1.24 and before) reads a text of one letter into a
buffer that is Python's own constant for a byte of zero, and from then on every such byte in the program is a figure. A longer
text gets a buffer of its own.
"""

from __future__ import annotations

import fractions
from typing import TYPE_CHECKING, Final

__all__ = ["EVERY_FRACTION", "Fraction", "fraction_in"]

if TYPE_CHECKING:
    from fractions import Fraction
else:
    try:
        from quicktions import Fraction
    except ImportError:
        from fractions import Fraction

#: What counts as a fraction when a caller gives one: ours, and Python's own, which a program that calls joinlay may well have.
EVERY_FRACTION: Final = (Fraction, fractions.Fraction)


def fraction_in(text: str) -> Fraction:
    """The fraction that ``text`` spells: ``7``, ``7.25`` or ``5/8``. ValueError where it spells none, ZeroDivisionError over
    0.
    """
    return Fraction(text if len(text) > 1 else f" {text}")
