"""What lists on paper have in common: a box to tick, and figures in a column whose + and − hang beside it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.geometry import corners
from joinlay.lengths import Fraction
from joinlay.pen.lettering import set_line
from joinlay.pen.marks import Align, Polyline, Role, Text

if TYPE_CHECKING:
    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Point

__all__ = ["hung", "tick_box"]

#: The side of a box to tick, and how far it reaches below the words beside it.
_SIDE, _BELOW = Fraction(9, 2), Fraction(1, 2)
_SIGNS: Final = ("+", "−")


def tick_box(x: Fraction, y: Fraction) -> Polyline:
    """A square to tick with its left side at ``x``, for a line of words on the baseline ``y``. No rule; our own choice."""
    return Polyline(corners((x, y - _BELOW, x + _SIDE, y - _BELOW + _SIDE)), Role.FRAME, closed=True)


def hung(at: Point, figures: Content) -> Text:
    """``figures`` that end at the point ``at``, a + or − after them hanging past it, so that the figures of a column stand under each other."""
    whole = set_line(figures).width
    last = figures[-1] if figures else None
    is_signed = last is not None and getattr(last, "text", "") in _SIGNS
    over = whole - set_line(figures[:-1]).width if is_signed else Fraction(0)
    return Text((at[0] + over, at[1]), figures, Align.RIGHT)
