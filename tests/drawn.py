"""Fractions as hypothesis draws them, of the kind joinlay reckons with.

Hypothesis gives Python's own. Those are slower, and whatever is added to one becomes one: a plan drawn from them would be
reckoned another way than a maker's.
"""

from hypothesis import strategies as st

from joinlay.lengths import Fraction

__all__ = ["fractions"]


def fractions(low, high, *, max_denominator=None):
    """Fractions from ``low`` to ``high``, both of them too."""
    return st.fractions(low, high, max_denominator=max_denominator).map(Fraction)
