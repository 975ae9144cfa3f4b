"""Which fractions are reckoned with: those of quicktions, which is written in C, or Python's own where it cannot be had.

Both are exact, alike in what they take, say and refuse, equal and of one hash, and add up with each other; a job makes the same
bytes with either. Everything in joinlay takes ``Fraction`` from here, so one plan holds one kind. Types are checked against
Python's own.
"""

from __future__ import annotations

import fractions
from typing import TYPE_CHECKING, Final

__all__ = ["EVERY_FRACTION", "Fraction"]

if TYPE_CHECKING:
    from fractions import Fraction
else:
    try:
        from quicktions import Fraction
    except ImportError:
        from fractions import Fraction

#: What counts as a fraction when a caller gives one: ours, and Python's own, which a program that calls joinlay may well have.
EVERY_FRACTION: Final = (Fraction, fractions.Fraction)
