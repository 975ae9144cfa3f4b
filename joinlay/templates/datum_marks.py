"""What position templates are read by: bars along the edges they are laid against, figures counted from them, words in boxes."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction, Length
from joinlay.pen.lettering import figures, fitted, set_line, words
from joinlay.pen.marks import Align, Fill, Line, Role, Text, Turn, box_around
from joinlay.pen.placing import spread
from joinlay.pen.signs import BAR
from joinlay.templates.template import SMALL, WORD

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from joinlay.lengths import Graduation
    from joinlay.pen.blocks import Block
    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Box, Mark, Stroke

__all__ = ["figures_below", "figures_beside", "level_datum", "name_in_box", "upright_datum", "words_beside"]

#: The least height of lettering, where there is no room for more.
_LEAST: Final = Fraction(9, 5)
#: Between a bar and its name, a figure and the next, a word and the sides of its box (both sides together).
_WHITE: Final = Fraction(1)
#: White between a drawing with its figures and the words beside it.
_APART: Final = Fraction(4)
_BLACK: Final = Fraction(1)
#: A tick, and the line that leads from it to its figure.
_TICK, _LEAD = Fraction(2), Fraction(4)
_ANYWHERE: Final = Fraction(-(10**6))


def level_datum(left: Fraction, right: Fraction, y: Fraction, said: str, *, is_top: bool) -> Iterator[Stroke]:
    """A bar over (``is_top``) or under the edge at ``y``, from ``left`` to ``right``, in mm, and its name ``said`` beyond it.

    The edge itself is the bar's side.
    """
    out = 1 if is_top else -1
    yield Line((left, y), (right, y), Role.OUTLINE, said)
    yield Fill(((left, y), (right, y), (right, y + out * BAR), (left, y + out * BAR)), _BLACK)
    line = _named(said, right - left)
    set_out = set_line(line)
    foot = y + BAR + _WHITE + set_out.fall if is_top else y - BAR - _WHITE - set_out.rise
    yield Text((left + (right - left) / 2, foot), line, Align.MIDDLE, role=Role.DATUM)


def upright_datum(bottom: Fraction, top: Fraction, x: Fraction, said: str, side: int) -> Iterator[Stroke]:
    """The same along an upright edge at ``x`` from ``bottom`` to ``top``, in mm, its name ``said`` reading upwards.

    The bar lies to its right (``side`` 1) or left (-1).
    """
    yield Line((x, bottom), (x, top), Role.OUTLINE, said)
    yield Fill(((x, bottom), (x + side * BAR, bottom), (x + side * BAR, top), (x, top)), _BLACK)
    line = _named(said, top - bottom)
    set_out = set_line(line)
    past = BAR + _WHITE
    base = x + past + set_out.rise if side > 0 else x - past - set_out.fall
    yield Text((base, bottom + (top - bottom) / 2), line, Align.MIDDLE, Turn.UP, role=Role.DATUM)


def _named(said: str, room: Fraction) -> Content:
    """The name in bold capitals, and what to do with it where there is room for that."""
    whole = words(f"{said.upper()}: lay on this edge", WORD, bold=True)
    return whole if set_line(whole).width <= room else fitted(said.upper(), room, (WORD, SMALL, _LEAST), bold=True)


def figures_below(
    places: Iterable[Fraction], zero: Fraction, y: Fraction, rule: Graduation, height: Fraction, says: str = ""
) -> Iterator[Stroke]:
    """A tick down from ``y`` at each of the ``places`` (x), and under it how far it is from ``zero``, all in mm (ISO 129-1).

    Figures are on ``rule`` and ``height`` mm high, spread so that none lies on another. ``says`` is what the ticks stand for.
    """
    rising = sorted(set(places))
    lines = [figures(Length(abs(x - zero)), rule, height) for x in rising]
    middles = spread(rising, [set_line(line).width + 4 * _WHITE for line in lines], _ANYWHERE)
    for x, middle, line in zip(rising, middles, lines, strict=True):
        yield Line((x, y), (x, y - _TICK), Role.DIMENSION, says)
        foot = y - _TICK - _LEAD
        yield Line((x, y - _TICK), (middle, foot), Role.DIMENSION)
        yield Text((middle, foot - _WHITE - set_line(line).rise), line, Align.MIDDLE)


def figures_beside(
    places: Iterable[Fraction], zero: Fraction, x: Fraction, side: int, rule: Graduation, height: Fraction, says: str = ""
) -> Iterator[Stroke]:
    """The same upwards for the ``places`` (y): ticks and figures from ``x`` to the right (``side`` 1) or to the left (-1).

    Figures are distances from ``zero`` on ``rule``, ``height`` mm high; ``says`` is what the ticks stand for (ISO 129-1).
    """
    rising = sorted(set(places))
    lines = [figures(Length(abs(y - zero)), rule, height) for y in rising]
    middles = spread(rising, [set_line(line).rise + set_line(line).fall + _WHITE for line in lines], _ANYWHERE)
    for y, middle, line in zip(rising, middles, lines, strict=True):
        yield Line((x, y), (x + side * _TICK, y), Role.DIMENSION, says)
        end = x + side * (_TICK + _LEAD)
        yield Line((x + side * _TICK, y), (end, middle), Role.DIMENSION)
        set_out = set_line(line)
        yield Text(
            (end + side * _WHITE, middle - (set_out.rise - set_out.fall) / 2), line, Align.LEFT if side > 0 else Align.RIGHT
        )


def words_beside(block: Block, drawn: Sequence[Stroke], side: int, top: Fraction) -> Iterator[Mark]:
    """``block`` to the right (``side`` 1) or left (-1) of what is ``drawn`` at its height, its upper side at ``top``, in mm."""
    low, high = top - block.height - _WHITE, top + _WHITE
    boxes = [box_around(stroke) for stroke in drawn]
    near = [box for box in boxes if box[1] < high and low < box[3]]
    left = max(box[2] for box in near) + _APART if side > 0 else min(box[0] for box in near) - _APART - block.width
    yield from block.marks(left, top - block.height)


def name_in_box(word: str, box: Box) -> Iterator[Text]:
    """``word`` in the middle of ``box`` (left, bottom, right, top, in mm), as large as there is room for, level or upright.

    Nothing where it has room at no size.
    """
    left, bottom, right, top = box
    x, y = (left + right) / 2, (bottom + top) / 2
    for size in (WORD, SMALL, _LEAST):
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
