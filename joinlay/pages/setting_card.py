"""One setting card, to stand under others on a sheet: what to set, large; a true view; how the parts lie; the test piece."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.boards.names import in_few_words
from joinlay.lengths import Fraction
from joinlay.pages.plain_sheet import PageBlock, Paragraph, fill_frames, halves
from joinlay.pages.setting_view import SettingView
from joinlay.pen.lettering import figures, fitted, plain, set_line, words
from joinlay.pen.marks import Align, Line, Move, Role, Text, bounds_of, flatten, moved
from joinlay.records import dataclass
from joinlay.settings import Value
from joinlay.settings.feeding import feed_sentence
from joinlay.settings.wording import (
    beside_words,
    change_words,
    cut_words,
    is_turned,
    lying_together,
    machine_words,
    measure_words,
    offset_words,
    position_words,
    remainder_words,
    speed_words,
    stop_words,
    value_words,
)
from joinlay.shop import MachineKind

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from joinlay.boards import Board
    from joinlay.lengths import Graduation, Length
    from joinlay.pen.marks import Stroke
    from joinlay.settings import Reading, Setting, Work

__all__ = ["CardMaker"]

_TABLES: Final = (MachineKind.ROUTER_TABLE, MachineKind.TABLE_SAW)
_ZERO: Final = Fraction(0)
#: Letter heights in mm: a figure to set by, alone in its column and not.
_KEY, _LOWER_KEY = Fraction(10), Fraction(7)
#: What is read while holding a part; the rest; small print.
_HELD, _WORD, _SMALL, _TINY = Fraction(5), Fraction(7, 2), Fraction(5, 2), Fraction(9, 5)
#: The head of a card: name, line, machine, reason.
_HEAD: Final = Fraction(25)
#: Room of one key number with the words above and below it.
_KEY_ROW, _LOWER_ROW = Fraction(25), Fraction(21)
#: How far a fraction reaches up, in heights of the figure beside it.
_FRACTION_HIGH: Final = Fraction(23, 20)
#: The view: how wide it may be, how high wood is drawn in it, and the height past which it is left out.
_VIEW_WIDE, _WOOD_HIGH, _VIEW_HIGHEST = Fraction(104), Fraction(20), Fraction(95)
#: Key numbers told large, in a column of each kind.
_COLUMN: Final = 3
#: How much of the room the fences take, where there are heights beside them.
_FENCE_SHARE: Final = Fraction(11, 20)
_INDENT, _GAP, _BELOW = Fraction(4), Fraction(4), Fraction(7)


@dataclass(frozen=True, slots=True)
class CardMaker:
    """Makes the cards of one job: ``boards`` by their names, ``rule`` the maker's, ``wide`` the room of a sheet in mm."""

    boards: Mapping[str, Board]
    rule: Graduation
    wide: Fraction

    def blocks(self, setting: Setting, high: Fraction) -> tuple[PageBlock, ...]:
        """The card of ``setting``, in one block; in several where it names more parts than a whole sheet, ``high`` mm, holds.

        Rules MS-1, MS-2.
        """
        head = tuple(self._head(setting))
        drawn, low = self._drawn(setting)
        strokes, waiting = self._filled(self._said(setting), -low, high)
        made = [_block((*head, *drawn, *strokes), low)]
        while waiting:
            strokes, still = self._filled(waiting, -_HEAD, high)
            if len(still) == len(waiting):
                # Longer than a whole sheet by itself: a list of names without end. It is told in two halves.
                waiting = (*halves(waiting[0]), *waiting[1:])
                continue
            waiting = still
            made.append(_block((*head, *strokes), _HEAD))
        return tuple(made)

    def _filled(self, said: Sequence[Paragraph], top: Fraction, high: Fraction) -> tuple[tuple[Text, ...], tuple[Paragraph, ...]]:
        return fill_frames(said, ((_ZERO, -high + _BELOW, self.wide, top),))

    def _head(self, setting: Setting) -> Iterator[Stroke]:
        """Which card, what is cut, what has to be touched; then machine, cutter, the reason and the speed."""
        change = words(change_words(setting), _HELD)
        name = f"{setting.number}  {cut_words(setting)}"
        room = self.wide - set_line(change).width - 6
        yield Text((_ZERO, Fraction(-9)), fitted(name, room, (_LOWER_KEY, _HELD, _WORD), bold=True))
        yield Text((self.wide, Fraction(-9)), change, Align.RIGHT)
        yield Line((_ZERO, Fraction(-12)), (self.wide, Fraction(-12)), Role.FRAME)
        yield Text((_ZERO, Fraction(-18)), fitted(machine_words(setting, self.rule.sold), self.wide, (_HELD, _WORD, _SMALL)))
        speed = words(speed_words(setting).partition(";")[0], _SMALL)
        room = self.wide - set_line(speed).width - 6
        yield Text((_ZERO, Fraction(-23)), fitted(f"Why here: {setting.reason.sentence(self.rule.text)}", room, (_SMALL, _TINY)))
        yield Text((self.wide, Fraction(-23)), speed, Align.RIGHT)

    def _drawn(self, setting: Setting) -> tuple[tuple[Stroke, ...], Fraction]:
        """The view with the figures to set by beside it, or under one as wide as the sheet; and how far down they reach."""
        view, deep = self._view(setting)
        is_wide = bounds_of(view)[2] > _VIEW_WIDE
        left, top = (_ZERO, deep + _GAP) if is_wide else (_VIEW_WIDE + 4, _HEAD + 2)
        fences, heights = _told_large(setting)
        kinds = [readings for readings in (fences, heights) if readings]
        room = self.wide - left
        columns = (
            [(left, room)]
            if len(kinds) == 1
            else [(left, room * _FENCE_SHARE), (left + room * _FENCE_SHARE, room * (1 - _FENCE_SHARE))]
        )
        is_alone = all(len(readings) == 1 for readings in kinds)
        strokes: list[Stroke] = list(view)
        for (x, wide), readings in zip(columns, kinds, strict=False):
            strokes += self._column(setting, readings, (x, -top, wide - 3), is_alone=is_alone)
        row = _KEY_ROW if is_alone else _LOWER_ROW
        return tuple(strokes), max(deep, top + row * max(len(fences), len(heights))) + 1

    def _view(self, setting: Setting) -> tuple[tuple[Stroke, ...], Fraction]:
        """The view at true size under the head, and how far down it reaches."""
        board = self.boards[setting.works[0].boards[0]]
        marks = tuple(flatten((SettingView(setting, board, self.rule, _VIEW_WIDE, _WOOD_HIGH),)))
        x0, y0, x1, y1 = bounds_of(marks)
        top = _HEAD + 2
        if x1 - x0 > self.wide or y1 - y0 > _VIEW_HIGHEST:
            return (Text((_ZERO, -top - 3), words("the cut is too large to be drawn true on this paper", _SMALL)),), top + 6
        move = Move(-x0, -top - y1)
        return tuple(moved(mark, move) for mark in marks), top + y1 - y0

    def _column(
        self, setting: Setting, readings: Sequence[Reading], corner: tuple[Fraction, Fraction, Fraction], *, is_alone: bool
    ) -> Iterator[Stroke]:
        """Values to set, one under the other: what it is, the figure large; small, what the rule leaves over, and other sides."""
        left, top, wide = corner
        row, high = (_KEY_ROW, _KEY) if is_alone else (_LOWER_ROW, _LOWER_KEY)
        for n, reading in enumerate(readings):
            y = top - n * row
            yield Text((left, y - 3), fitted(_called(setting, reading), wide, (_WORD, _SMALL, _TINY)))
            y -= 5 + high * _FRACTION_HIGH
            unit = words(reading.on_rule.unit, _WORD)
            sizes = (figures(reading.aim, self.rule, size, bold=True) for size in (high, _LOWER_KEY, _HELD))
            figure = next((line for line in sizes if set_line(line).width + set_line(unit).width + 2 <= wide), ())
            yield Text((left, y), figure)
            over = left + set_line(figure).width + 2
            yield Text((over, y), unit)
            small = [_between(reading), _short(beside_words(setting, reading, self._figures))]
            if said := "; ".join(filter(None, small)):
                yield Text((left, y - high * Fraction(3, 20) - Fraction(9, 2)), fitted(said, wide, (_SMALL, _TINY)))

    def _figures(self, length: Length) -> str:
        """A length as it is set large, in one string: ``1 3/32+``."""
        return plain(figures(length, self.rule, _HELD)).replace(" +", "+")

    def _said(self, setting: Setting) -> list[Paragraph]:
        fences, heights = _told_large(setting)
        return [*_walk(setting), *self._parts(setting), *self._rest(setting, told=[*fences, *heights])]

    def _parts(self, setting: Setting) -> Iterator[Paragraph]:
        """How the parts lie, which they are, where they stop: read while holding them."""
        for lying, works in lying_together(setting):
            height = _HELD if set_line(words(lying, _HELD, bold=True)).width <= self.wide else _WORD
            yield Paragraph(lying, height, bold=True, above=Fraction(2), leads=True)
            for work in works:
                ends = ", both ways round" if is_turned(setting, work) else ""
                held = tuple(self._held(setting, work))
                yield Paragraph(f"{work.count} × {in_few_words(work.boards)}{ends}", _WORD, above=Fraction(1), leads=bool(held))
                yield from held

    def _held(self, setting: Setting, work: Work) -> Iterator[Paragraph]:
        squared = "; chop the round ends square" if work.squared else ""
        if work.stops is not None:
            said = stop_words(work.stops, self._figures, at_table=setting.machine in _TABLES)
            yield Paragraph(f"{_short(said)}{squared}", _HELD, indent=_INDENT)
        if work.positions:
            yield Paragraph(f"{_short(position_words(setting, work, self._figures))}{squared}", _HELD, indent=_INDENT)

    def _rest(self, setting: Setting, *, told: Sequence[Reading]) -> Iterator[Paragraph]:
        """Everything else, small: what the remainders do, the test piece."""
        for reading in setting.readings:
            if reading not in told:
                yield Paragraph(f"{_called(setting, reading)}: {reading.on_rule.text}", _WORD)
        if offset := offset_words(setting, self.rule.text):
            yield Paragraph(f"{offset[0].upper()}{offset[1:]}", _SMALL, above=Fraction(1))
        left_over = dict.fromkeys(said for said in (remainder_words(each, self.rule) for each in setting.readings) if said)
        for said in left_over:
            yield Paragraph(said, _SMALL, above=Fraction(1))
        yield Paragraph(f"Test piece: {measure_words(setting, self.rule.text)}", _WORD, above=Fraction(1))


def _walk(setting: Setting) -> Iterator[Paragraph]:
    """Which way to walk or feed, and why, before anything is held (MS-6)."""
    if said := feed_sentence(setting):
        yield Paragraph(f"{said}.", _WORD, bold=True, above=Fraction(1))


def _block(strokes: tuple[Stroke, ...], low: Fraction) -> PageBlock:
    """The strokes of a card that reaches ``low`` mm down at least, with white under it."""
    return PageBlock(strokes, max(low, -bounds_of(strokes)[1]) + _BELOW)


def _between(reading: Reading) -> str:
    """What callipers show of a figure that lies between two marks: ``17.722 in``; '' for one on a mark (FR-1)."""
    on_rule = reading.on_rule
    return (on_rule.elsewhere or f"{on_rule.exactly} {on_rule.unit}") if on_rule.left_over else ""


def _told_large(setting: Setting) -> tuple[list[Reading], list[Reading]]:
    """The readings that are told large: the first fences, and the last heights, which leave the floor."""
    fences, heights = ([each for each in setting.readings if (each.value is Value.HEIGHT) is which] for which in (False, True))
    return fences[:_COLUMN], heights[-_COLUMN:]


def _called(setting: Setting, reading: Reading) -> str:
    """What is set, with its turn where it is set more than once."""
    alike = [each for each in setting.readings if each.value is reading.value]
    turn = f", {alike.index(reading) + 1} of {len(alike)}" if len(alike) > 1 else ""
    return f"{_short(value_words(setting, reading.value).replace(' of the cutter', '').replace('edge guide', 'guide'))}{turn}"


def _short(said: str) -> str:
    """``from bottom edge`` for ``from the bottom edge``: what is read at arm's length is set large, and room is short."""
    return said.replace(" the ", " ").replace(", on a line ", ", line ")
