"""The two edges a position template is laid against: a heavy bar along each, and its name."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction
from joinlay.pen.lettering import fitted, set_line, words
from joinlay.pen.marks import Align, Fill, Line, Role, Text, Turn
from joinlay.pen.signs import BAR

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Stroke

__all__ = ["level_datum", "upright_datum"]

_WORD, _SMALL = Fraction(7, 2), Fraction(5, 2)
_WHITE: Final = Fraction(1)
_BLACK: Final = Fraction(1)


def level_datum(left: Fraction, right: Fraction, y: Fraction, said: str, *, is_top: bool) -> Iterator[Stroke]:
    """A bar over (``is_top``) or under the edge at ``y``, from ``left`` to ``right``, its name beyond it. The edge itself is the bar's side."""
    out = 1 if is_top else -1
    yield Line((left, y), (right, y), Role.OUTLINE, said)
    yield Fill(((left, y), (right, y), (right, y + out * BAR), (left, y + out * BAR)), _BLACK)
    line = _named(said, right - left)
    set_out = set_line(line)
    foot = y + BAR + _WHITE + set_out.fall if is_top else y - BAR - _WHITE - set_out.rise
    yield Text((left + (right - left) / 2, foot), line, Align.MIDDLE, role=Role.DATUM)


def upright_datum(bottom: Fraction, top: Fraction, x: Fraction, said: str, side: int) -> Iterator[Stroke]:
    """The same along an upright edge at ``x``; the bar lies to its right (``side`` 1) or left (-1), its name reads upwards."""
    yield Line((x, bottom), (x, top), Role.OUTLINE, said)
    yield Fill(((x, bottom), (x + side * BAR, bottom), (x + side * BAR, top), (x, top)), _BLACK)
    line = _named(said, top - bottom)
    set_out = set_line(line)
    past = BAR + _WHITE
    base = x + past + set_out.rise if side > 0 else x - past - set_out.fall
    yield Text((base, bottom + (top - bottom) / 2), line, Align.MIDDLE, Turn.UP, role=Role.DATUM)


def _named(said: str, room: Fraction) -> Content:
    """The name in bold capitals, and what to do with it where there is room for that."""
    whole = words(f"{said.upper()}: lay on this edge", _WORD, bold=True)
    return whole if set_line(whole).width <= room else fitted(said.upper(), room, (_WORD, _SMALL, Fraction(9, 5)), bold=True)
