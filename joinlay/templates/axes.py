"""Figures along two sides of a drawing: a tick for every position, its distance from one zero, spread so that none lies on another."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction, Length
from joinlay.pen.lettering import figures, set_line
from joinlay.pen.marks import Align, Line, Role, Text
from joinlay.pen.spreading import spread

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from joinlay.lengths import Graduation
    from joinlay.pen.marks import Stroke

__all__ = ["figures_below", "figures_beside"]

#: A tick, the line that leads from it to its figure, and white between two figures and before each.
_TICK, _LEAD, _WHITE = Fraction(2), Fraction(4), Fraction(1)
_ANYWHERE: Final = Fraction(-(10**6))


def figures_below(
    places: Iterable[Fraction], zero: Fraction, y: Fraction, rule: Graduation, high: Fraction, says: str = ""
) -> Iterator[Stroke]:
    """A tick down from ``y`` at each of ``places``, and under it how far it is from ``zero``, ``high`` mm high. No rule (ISO 129-1)."""
    rising = sorted(set(places))
    lines = [figures(Length(abs(x - zero)), rule, high) for x in rising]
    middles = spread(rising, [set_line(line).width + 4 * _WHITE for line in lines], _ANYWHERE)
    for x, middle, line in zip(rising, middles, lines, strict=True):
        yield Line((x, y), (x, y - _TICK), Role.DIMENSION, says)
        foot = y - _TICK - _LEAD
        yield Line((x, y - _TICK), (middle, foot), Role.DIMENSION)
        yield Text((middle, foot - _WHITE - set_line(line).rise), line, Align.MIDDLE)


def figures_beside(
    places: Iterable[Fraction], zero: Fraction, x: Fraction, side: int, rule: Graduation, high: Fraction, says: str = ""
) -> Iterator[Stroke]:
    """The same from ``x`` to the right (``side`` 1) or to the left (-1). No rule (ISO 129-1)."""
    rising = sorted(set(places))
    lines = [figures(Length(abs(y - zero)), rule, high) for y in rising]
    middles = spread(rising, [set_line(line).rise + set_line(line).fall + _WHITE for line in lines], _ANYWHERE)
    for y, middle, line in zip(rising, middles, lines, strict=True):
        yield Line((x, y), (x + side * _TICK, y), Role.DIMENSION, says)
        end = x + side * (_TICK + _LEAD)
        yield Line((x + side * _TICK, y), (end, middle), Role.DIMENSION)
        set_out = set_line(line)
        yield Text(
            (end + side * _WHITE, middle - (set_out.rise - set_out.fall) / 2), line, Align.LEFT if side > 0 else Align.RIGHT
        )
