"""Fractions as hypothesis draws them, of the kind joinlay reckons with.

Hypothesis gives Python's own, and takes a millisecond for each: it makes a way to draw the numerators of every denominator anew
each time, and looks for the nearest fraction that is simple enough. A case may have dozens. Here the ways to draw are kept, and a
fraction is two whole numbers.
"""

from functools import cache, lru_cache
from math import ceil, floor

from hypothesis import strategies as st

from joinlay.lengths import Fraction

__all__ = ["fractions"]


@cache
def fractions(low, high, *, max_denominator=None, of=Fraction):
    """Fractions from ``low`` to ``high``, both of them too where their denominators are no greater than ``max_denominator``; each
    is one ``of`` ours, or of Python's own.

    They become simpler as a case that fails is made smaller: a smaller denominator first, then nearer to zero.
    """
    least, most = Fraction(low), Fraction(high)
    denominators = st.integers(1, max_denominator)

    @lru_cache(4096)
    def numerators(denominator):
        return st.integers(ceil(least * denominator), floor(most * denominator))

    @st.composite
    def drawn(draw):
        denominator = draw(denominators)
        return of(draw(numerators(denominator)), denominator)

    return drawn()
