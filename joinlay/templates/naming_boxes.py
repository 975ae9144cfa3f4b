"""A word in the middle of a box: level or reading upwards, as large as there is room for, or none."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction
from joinlay.pen.lettering import set_line, words
from joinlay.pen.marks import Align, Text, Turn

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.pen.marks import Box

__all__ = ["named"]

_SIZES: Final = (Fraction(7, 2), Fraction(5, 2), Fraction(9, 5))
#: White at both ends of the word and over and under it, together.
_WHITE: Final = Fraction(1)


def named(word: str, box: Box) -> Iterator[Text]:
    """``word`` in ``box`` (left, bottom, right, top, in mm); nothing where it has room at no size. No rule."""
    left, bottom, right, top = box
    x, y = (left + right) / 2, (bottom + top) / 2
    for size in _SIZES:
        content = words(word, size)
        line = set_line(content)
        long, tall = line.width + _WHITE, line.rise + line.fall + _WHITE
        lift = (line.rise - line.fall) / 2
        if long <= right - left and tall <= top - bottom:
            yield Text((x, y - lift), content, Align.MIDDLE)
            return
        if long <= top - bottom and tall <= right - left:
            yield Text((x + lift, y), content, Align.MIDDLE, Turn.UP)
            return
