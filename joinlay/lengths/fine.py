"""A length that is told and not set: shown to the nearest 1/64 in or 0.1 mm, with nothing left over."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from joinlay.lengths.length import MM_PER_INCH, Length
from joinlay.lengths.reading import Unit

__all__ = ["Fine"]

#: The finest that is told in each unit, and how it is called.
_FINEST: Final = {Unit.INCH: (MM_PER_INCH / 64, "1/64 in"), Unit.MM: (Fraction(1, 10), "0.1 mm")}


class Fine(Length):
    """A gap, a sag, a movement: exact or estimated, it is read and never set on a rule.

    Shown on the maker's own rule it would read "1/32 in - 0.007 in", which says more than anyone can know. How it is shown: no rule.
    """

    __slots__ = ()

    def __init__(self, length: Length) -> None:
        """The same length, to be told."""
        super().__init__(length.mm)

    def __reduce__(self) -> tuple[object, ...]:
        """Pickle and copy by value."""
        return (Fine, (Length(self.mm),))

    def nearest(self, unit: Unit) -> Length:
        """To the nearest 1/64 in or 0.1 mm, halfway up."""
        finest, _ = _FINEST[unit]
        return Length(finest * ((self.mm / finest + Fraction(1, 2)) // 1))

    def too_small(self, unit: Unit) -> str:
        """What to say of something too small to tell: ``under 1/64 in``; empty of what can be told, and of nothing at all."""
        return f"under {_FINEST[unit][1]}" if self.mm and not self.nearest(unit).mm else ""
