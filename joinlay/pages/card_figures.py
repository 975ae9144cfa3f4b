"""The figures a setting card is set by: what each is, itself large, and small what callipers show and other sides."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction
from joinlay.pen.lettering import figures, plain, set_line, words, wrapped
from joinlay.pen.marks import Text
from joinlay.records import dataclass
from joinlay.settings import Value
from joinlay.settings.wording import beside_words, value_words

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.lengths import Graduation, Length
    from joinlay.pen.marks import Stroke
    from joinlay.settings import Reading, Setting

__all__ = ["CardFigures", "Column", "Drawn", "called", "figures_said", "shortly"]

#: Letter heights in mm: a figure alone in its column, and others; units and words; small print.
_KEY, _LOWER_KEY, _LEAST_KEY = Fraction(10), Fraction(7), Fraction(5)
_WORD, _SMALL = Fraction(7, 2), Fraction(5, 2)
#: From one line of small words to the next, over a figure and under it; white between a figure and the next value.
_STEP, _APART = Fraction(4), Fraction(1)
#: How far a fraction reaches up, in heights of the figure beside it, and how far down.
_FRACTION_HIGH, _FRACTION_LOW = Fraction(23, 20), Fraction(3, 20)
#: White between a figure and its unit, between that and what stands small beside it, and between two columns.
_TO_UNIT, _BESIDE, _GUTTER = Fraction(2), Fraction(3), Fraction(3)
#: So many of a kind are told large.
_MOST: Final = 3

#: A column of values: where it begins and how wide it is, in mm.
Column = tuple[Fraction, Fraction]
#: What is drawn, and how far down it reaches.
Drawn = tuple[tuple["Stroke", ...], Fraction]


@dataclass(frozen=True, slots=True)
class CardFigures:
    """The figures of ``setting`` as they stand on the maker's ``rule``."""

    setting: Setting
    rule: Graduation

    @property
    def kinds(self) -> tuple[list[Reading], ...]:
        """The readings that are told large: the first fences, and the last heights, which leave the floor; no kind empty."""
        fences, heights = (
            [each for each in self.setting.readings if (each.value is Value.HEIGHT) is which] for which in (False, True)
        )
        return tuple(readings for readings in (fences[:_MOST], heights[-_MOST:]) if readings)

    def least(self, readings: Sequence[Reading]) -> Fraction:
        """How wide a column of ``readings`` must be for its figures, with the white to the next; in mm."""
        return max(self._wide(each, _LOWER_KEY) for each in readings) + _GUTTER

    def named(self, readings: Sequence[Reading]) -> Fraction:
        """How wide it must be to say on one line each what they are, and on one each what stands small under them."""
        small = (line for each in readings for line in (self._called(each), *self.small(each)))
        return max(self.least(readings), max(set_line(words(line, _SMALL)).width for line in small) + _GUTTER)

    def in_columns(self, columns: Sequence[tuple[Column, Sequence[Reading]]], top: Fraction, *, is_large: bool) -> Drawn:
        """The readings one over the other in their ``columns`` from ``top`` mm down; and how far down they reach. ``is_large``
        for the larger figures, where they have room.
        """
        strokes: list[Stroke] = []
        low = top
        for column, readings in columns:
            down = top
            for reading in readings:
                made, reach = self._value(reading, column, down, is_large=is_large)
                strokes += made
                down = reach + _APART
                low = max(low, reach)
        return tuple(strokes), low

    def in_rows(self, rows: Sequence[Sequence[Reading]], left: Fraction, top: Fraction, room: Fraction) -> tuple[Drawn, Fraction]:
        """The readings in ``rows`` from ``left`` and ``top`` mm down, those of a row side by side in the order to set them; and
        the right edge of the longest. What stands small under them is wrapped where they would be wider than ``room``.
        """
        strokes: list[Stroke] = []
        right = left
        for readings in rows:
            at, low = left, top
            for reading, wide in zip(readings, self._side_by_side(readings, room), strict=True):
                made, reach = self._value(reading, (at, wide), top, is_large=False)
                strokes += made
                at, low = at + wide, max(low, reach)
            right, top = max(right, at), low + _APART
        return (tuple(strokes), top - _APART), right

    def _side_by_side(self, readings: Sequence[Reading], room: Fraction) -> list[Fraction]:
        """How wide each of the ``readings`` in a row is: narrower than ``named`` where they would be wider than ``room``, but not
        so narrow that a figure has no room.
        """
        named, least = ([wide([each]) for each in readings] for wide in (self.named, self.least))
        over, spare = sum(named) - room, sum(named) - sum(least)
        share = min(max(over / spare, Fraction(0)), Fraction(1)) if spare else Fraction(0)
        return [wide - (wide - low) * share for wide, low in zip(named, least, strict=True)]

    def as_before(self, number: int) -> str:
        """That all is set as for card ``number``, with the figures: ``Set as for card 7: fence above middle 3/8, depth 5/8``."""
        said = (f"{_named(self.setting, each)} {figures_said(each.aim, self.rule)}" for each in self.setting.readings)
        return f"Set as for card {number}: {', '.join(said)}"

    def small(self, reading: Reading) -> list[str]:
        """What stands small beside a value: what callipers show, and where the cutter's other sides are."""
        beside = beside_words(self.setting, reading, lambda length: figures_said(length, self.rule))
        return [said for said in (_between(reading), shortly(beside)) if said]

    def _wide(self, reading: Reading, high: Fraction) -> Fraction:
        """How wide a value is with its unit."""
        figure = figures(reading.aim, self.rule, high, bold=True)
        return set_line(figure).width + _TO_UNIT + set_line(words(reading.on_rule.unit, _WORD)).width

    def _called(self, reading: Reading) -> str:
        """What is set; of several the first says so, and the others that they come after it, unless some aren't told large."""
        alike = [each for each in self.setting.readings if each.value is reading.value]
        if len(alike) > _MOST:
            return called(self.setting, reading)
        return _named(self.setting, reading) if reading is alike[0] else "then"

    def _value(self, reading: Reading, column: Column, top: Fraction, *, is_large: bool) -> tuple[list[Stroke], Fraction]:
        """A value to set: what it is, the figure large, small what stands beside it, or under it where it has no room there; and
        how far down it reaches.
        """
        left, wide = column[0], column[1] - _GUTTER
        strokes: list[Stroke] = []
        down = top
        for line in wrapped(self._called(reading), wide, _SMALL):
            down += _STEP
            strokes.append(Text((left, -down + 1), words(line, _SMALL)))
        sizes = ((_KEY,) if is_large else ()) + (_LOWER_KEY, _LEAST_KEY)
        high = next((size for size in sizes if self._wide(reading, size) <= wide), _LEAST_KEY)
        figure, unit = figures(reading.aim, self.rule, high, bold=True), words(reading.on_rule.unit, _WORD)
        foot = down + high * _FRACTION_HIGH
        over = left + set_line(figure).width + _TO_UNIT
        strokes += [Text((left, -foot), figure), Text((over, -foot), unit)]
        down = foot + high * _FRACTION_LOW
        small = self.small(reading)
        beside = over + set_line(unit).width + _BESIDE
        if all(set_line(words(line, _SMALL)).width <= left + wide - beside for line in small):
            # One over the other, level with the figure.
            for n, line in enumerate(reversed(small)):
                strokes.append(Text((beside, -foot + n * _STEP), words(line, _SMALL)))
            return strokes, down
        joined = "; ".join(small)
        for said in [joined] if set_line(words(joined, _SMALL)).width <= wide else small:
            for line in wrapped(said, wide, _SMALL):
                down += _STEP
                strokes.append(Text((left, -down + Fraction(1, 2)), words(line, _SMALL)))
        return strokes, down


def called(setting: Setting, reading: Reading) -> str:
    """What is set, with its turn where it is set more than once."""
    alike = [each for each in setting.readings if each.value is reading.value]
    turn = f", {alike.index(reading) + 1} of {len(alike)}" if len(alike) > 1 else ""
    return f"{_named(setting, reading)}{turn}"


def _named(setting: Setting, reading: Reading) -> str:
    return shortly(value_words(setting, reading.value).replace(" of the cutter", "").replace("edge guide", "guide"))


def figures_said(length: Length, rule: Graduation) -> str:
    """A length as it is set large, in one string: ``1 3/32+``."""
    return plain(figures(length, rule, _WORD)).replace(" +", "+")


def shortly(said: str) -> str:
    """``from bottom edge`` for ``from the bottom edge``: what is read at arm's length is set large, and room is short."""
    return said.replace(" the ", " ").replace(", on a line ", ", line ")


def _between(reading: Reading) -> str:
    """What callipers show of a figure that lies between two marks: ``17.722 in``; '' for one on a mark (FR-1)."""
    on_rule = reading.on_rule
    return (on_rule.elsewhere or f"{on_rule.exactly} {on_rule.unit}") if on_rule.left_over else ""
