"""One setting card, to stand under others on a sheet: what to set, large; a true view; how the parts lie; the test piece."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.boards.names import in_few_words
from joinlay.lengths import Fraction
from joinlay.pages.plain_sheet import PageBlock, Paragraph, fill_frames, halves
from joinlay.pages.setting_view import SettingView
from joinlay.pen.lettering import figures, fitted, plain, set_line, words, wrapped
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
    position_clauses,
    remainder_words,
    said_on,
    speed_words,
    stop_words,
    value_words,
)
from joinlay.shop import MachineKind

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from joinlay.boards import Board
    from joinlay.lengths import Graduation, Length
    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Stroke
    from joinlay.settings import Reading, Setting, Work

__all__ = ["CardMaker"]

_TABLES: Final = (MachineKind.ROUTER_TABLE, MachineKind.TABLE_SAW)
_ZERO: Final = Fraction(0)
#: Letter heights in mm: a figure to set by, alone in its column and not.
_KEY, _LOWER_KEY = Fraction(10), Fraction(7)
#: What is read while holding a part; the rest; small print.
_HELD, _WORD, _SMALL, _TINY = Fraction(5), Fraction(7, 2), Fraction(5, 2), Fraction(9, 5)
#: The head of a card: name, line, machine with the speed and the reason.
_HEAD: Final = Fraction(16)
#: From the words over a key number to its foot, besides the figure; a row of small words under it; the white between two.
_OVER_KEY, _UNDER_KEY, _APART = Fraction(5), Fraction(4), Fraction(3, 2)
#: How far a fraction reaches up, in heights of the figure beside it, and how far down.
_FRACTION_HIGH, _FRACTION_LOW = Fraction(23, 20), Fraction(3, 20)
#: The view: how wide it may be, how high wood is drawn in it, and the height past which it is left out.
_VIEW_WIDE, _WOOD_HIGH, _VIEW_HIGHEST = Fraction(104), Fraction(15), Fraction(95)
#: The least room beside a view for the figures to set by.
_BESIDE_VIEW: Final = Fraction(88)
#: Key numbers told large, in a column of each kind.
_COLUMN: Final = 3
#: How much of the room the heights take at least, and at most, beside the fences.
_HEIGHT_SHARE, _MOST_HEIGHT = Fraction(1, 4), Fraction(9, 20)
_INDENT, _GAP, _BELOW = Fraction(4), Fraction(4), Fraction(4)
#: From one line of words to the next, in heights of a capital, and from one of small print beside a figure.
_CLOSE: Final = Fraction(29, 20)
_STEP: Final = Fraction(4)

#: How far down something on a card reaches: mm below the card's upper edge.
_Down = Fraction


@dataclass(frozen=True, slots=True)
class CardMaker:
    """Makes the cards of one job: ``boards`` by their names, ``rule`` the maker's, ``wide`` the room of a sheet in mm."""

    boards: Mapping[str, Board]
    rule: Graduation
    wide: Fraction

    def blocks(self, setting: Setting, high: Fraction) -> tuple[PageBlock, ...]:
        """The card of ``setting``, in one block; in several where it names more parts than a whole sheet, ``high`` mm, holds.

        The view stands at the left, the figures to set by beside it, and under them what is said, wherever the card is then
        lowest: all of it beside the view, or going on under the view as wide as the sheet. Rules MS-1, MS-2.
        """
        head = tuple(self._head(setting))
        drawn, frames = self._drawn(setting)
        low = max(-bounds_of(drawn)[1], _HEAD)
        tries = [self._filled(self._said(setting, self.wide - ways[-1][0]), ways, high) for ways in frames]
        done = [(-bounds_of((*drawn, *strokes))[1], n) for n, (strokes, waiting) in enumerate(tries) if not waiting]
        strokes, waiting = tries[min(done)[1] if done else -1]
        made = [_block((*head, *drawn, *strokes), low)]
        while waiting:
            strokes, still = self._filled(waiting, ((_ZERO, _HEAD, high),), high)
            if len(still) == len(waiting):
                # Longer than a whole sheet by itself: a list of names without end. It is told in two halves.
                waiting = (*halves(waiting[0]), *waiting[1:])
                continue
            waiting = still
            made.append(_block((*head, *strokes), _HEAD))
        return tuple(made)

    def _filled(
        self, said: Sequence[Paragraph], frames: Sequence[tuple[Fraction, _Down, _Down]], high: Fraction
    ) -> tuple[tuple[Text, ...], tuple[Paragraph, ...]]:
        """What is ``said`` set into ``frames``, each from its left to the right edge of the card, from so far down to so far down."""
        most = high - _BELOW
        return fill_frames(said, [(left, -min(low, most), self.wide, -top) for left, top, low in frames])

    def _head(self, setting: Setting) -> Iterator[Stroke]:
        """Which card, what is cut, what has to be touched; then machine and cutter, the speed, and the reason where it has room."""
        change = words(change_words(setting), _HELD)
        name = f"{setting.number}  {cut_words(setting)}"
        room = self.wide - set_line(change).width - 6
        yield Text((_ZERO, Fraction(-15, 2)), fitted(name, room, (Fraction(6), _HELD, _WORD), bold=True))
        yield Text((self.wide, Fraction(-15, 2)), change, Align.RIGHT)
        yield Line((_ZERO, Fraction(-19, 2)), (self.wide, Fraction(-19, 2)), Role.FRAME)
        machine, speed, after = self._under_name(setting)
        yield Text((_ZERO, Fraction(-14)), machine)
        yield Text((self.wide, Fraction(-14)), speed, Align.RIGHT)
        if after is not None:
            yield Text((after, Fraction(-14)), words(_why(setting, self.rule), _SMALL))

    def _under_name(self, setting: Setting) -> tuple[Content, Content, Fraction | None]:
        """Machine and cutter, the speed, and where the reason begins between the two; None where it has no room there."""
        speed = words(speed_words(setting).partition(";")[0], _SMALL)
        room = self.wide - set_line(speed).width - 6
        machine = fitted(machine_words(setting, self.rule.sold), room, (_WORD, _SMALL))
        after = set_line(machine).width + 5
        is_room = after + set_line(words(_why(setting, self.rule), _SMALL)).width <= room
        return machine, speed, after if is_room else None

    def _drawn(self, setting: Setting) -> tuple[tuple[Stroke, ...], list[tuple[tuple[Fraction, _Down, _Down], ...]]]:
        """The view with the figures to set by beside it, or under one as wide as the sheet; and the frames that words may go in.

        Of each way to set them, the frames in their order: the left of each, how far down it begins, and how far down it may reach.
        """
        view, deep = self._view(setting)
        wide = bounds_of(view)[2]
        is_wide = self.wide - wide - 5 < _BESIDE_VIEW
        left, top = (_ZERO, deep + _GAP) if is_wide else (wide + 5, _HEAD + 1)
        fences, heights = _told_large(setting)
        kinds = [readings for readings in (fences, heights) if readings]
        room = self.wide - left
        shares = [(left, room)]
        if len(kinds) > 1:
            wanted = max(set_line(words(_called(setting, reading), _WORD)).width for reading in heights) + 3
            own = min(max(wanted, room * _HEIGHT_SHARE), room * _MOST_HEIGHT)
            shares = [(left, room - own), (left + room - own, own)]
        is_alone = all(len(readings) == 1 for readings in kinds)
        strokes: list[Stroke] = list(view)
        under = top
        for (x, across), readings in zip(shares, kinds, strict=False):
            y = top
            for reading in readings:
                made, reach = self._key(setting, reading, (x, y, across - 3), is_alone=is_alone)
                strokes += made
                y = reach + _APART
            under = max(under, y)
        endless = Fraction(10_000)
        under_all = ((_ZERO, max(deep, under), endless),)
        if is_wide:
            return tuple(strokes), [under_all]
        return tuple(strokes), [((left, under, endless),), ((left, under, deep), *under_all)]

    def _view(self, setting: Setting) -> tuple[tuple[Stroke, ...], _Down]:
        """The view at true size under the head, and how far down it reaches."""
        board = self.boards[setting.works[0].boards[0]]
        marks = tuple(flatten((SettingView(setting, board, self.rule, _VIEW_WIDE, _WOOD_HIGH),)))
        x0, y0, x1, y1 = bounds_of(marks)
        top = _HEAD + 1
        if x1 - x0 > self.wide or y1 - y0 > _VIEW_HIGHEST:
            return (Text((_ZERO, -top - 3), words("the cut is too large to be drawn true on this paper", _SMALL)),), top + 6
        move = Move(-x0, -top - y1)
        return tuple(moved(mark, move) for mark in marks), top + y1 - y0

    def _key(
        self, setting: Setting, reading: Reading, place: tuple[Fraction, _Down, Fraction], *, is_alone: bool
    ) -> tuple[list[Stroke], _Down]:
        """A value to set: what it is, the figure large, small beside it what callipers show and other sides; and how far down it reaches.

        ``place`` is its left, how far down it begins, and its width. What has no room beside the figure goes under it.
        """
        left, top, wide = place
        called = fitted(_called(setting, reading), wide, (_WORD, _SMALL, _TINY))
        unit = words(reading.on_rule.unit, _WORD)
        heights = (_KEY, _LOWER_KEY, _HELD) if is_alone else (_LOWER_KEY, _HELD)
        sizes = [(high, figures(reading.aim, self.rule, high, bold=True)) for high in heights]
        high, figure = next((one for one in sizes if set_line(one[1]).width + set_line(unit).width + 2 <= wide), sizes[-1])
        down = top + _OVER_KEY + high * _FRACTION_HIGH
        over = left + set_line(figure).width + 2
        strokes: list[Stroke] = [
            Text((left, -top - _WORD), called),
            Text((left, -down), figure),
            Text((over, -down), unit),
        ]
        down += high * _FRACTION_LOW
        small = [said for said in (_between(reading), _short(beside_words(setting, reading, self._figures))) if said]
        beside = over + set_line(unit).width + 3
        if all(set_line(words(line, _SMALL)).width <= left + wide - beside for line in small):
            # One over the other, level with the figure.
            for n, line in enumerate(reversed(small)):
                strokes.append(Text((beside, -down + high * _FRACTION_LOW + n * _STEP), words(line, _SMALL)))
            return strokes, down
        for line in wrapped("; ".join(small), wide, _SMALL):
            strokes.append(Text((left, -down - _UNDER_KEY + Fraction(1, 2)), words(line, _SMALL)))
            down += _UNDER_KEY
        return strokes, down

    def _figures(self, length: Length) -> str:
        """A length as it is set large, in one string: ``1 3/32+``."""
        return plain(figures(length, self.rule, _HELD)).replace(" +", "+")

    def _said(self, setting: Setting, wide: Fraction) -> list[Paragraph]:
        """All that is said under the figures, for lines ``wide`` mm long."""
        fences, heights = _told_large(setting)
        said = [*_walk(setting), *self._parts(setting, wide), *self._rest(setting, told=[*fences, *heights])]
        return [replace(one, leading=_CLOSE) for one in said]

    def _parts(self, setting: Setting, wide: Fraction) -> Iterator[Paragraph]:
        """How the parts lie, which they are, where they stop: read while holding them. What all of them have in common is said once."""
        for lying, works in lying_together(setting):
            height = _HELD if set_line(words(lying, _HELD, bold=True)).width <= wide else _WORD
            yield Paragraph(lying, height, bold=True, above=Fraction(1), leads=True)
            placed = [position_clauses(setting, work, self._figures) for work in works]
            turned = [is_turned(setting, work) for work in works]
            common = _common(placed) if len(works) > 1 else ()
            all_turned = all(turned) and bool(common)
            if common:
                both = "both ways round; " if all_turned else ""
                yield Paragraph(f"All: {both}{_short(said_on(common))}", _HELD, above=Fraction(1), leads=True)
            for work, clauses, is_both in zip(works, placed, turned, strict=True):
                ends = ", both ways round" if is_both and not all_turned else ""
                name = f"{work.count} × {in_few_words(work.boards)}{ends}"
                held = [*self._stopped(setting, work)]
                if own := said_on(clause for clause in clauses if clause not in common):
                    held.append(_short(own))
                if len(held) == 1 and set_line(words(f"{name}: {held[0]}", _HELD)).width <= wide:
                    yield Paragraph(f"{name}: {held[0]}", _HELD, above=Fraction(1))
                    continue
                yield Paragraph(name, _WORD, above=Fraction(1), leads=bool(held))
                yield from (Paragraph(said, _HELD, indent=_INDENT) for said in held)
            if squared := [board for work in works if work.squared for board in work.boards]:
                which = "" if all(work.squared for work in works) else f": {in_few_words(squared)}"
                yield Paragraph(f"Then chop the round ends square{which}", _WORD, above=Fraction(1))

    def _stopped(self, setting: Setting, work: Work) -> Iterator[str]:
        """Where the work stops, if it does."""
        if work.stops is not None:
            yield _short(stop_words(work.stops, self._figures, at_table=setting.machine in _TABLES))

    def _rest(self, setting: Setting, *, told: Sequence[Reading]) -> Iterator[Paragraph]:
        """Everything else, small: what the remainders do, the test piece."""
        for reading in setting.readings:
            if reading not in told:
                yield Paragraph(f"{_called(setting, reading)}: {reading.on_rule.text}", _WORD)
        if offset := offset_words(setting, self.rule.text):
            yield Paragraph(f"{offset[0].upper()}{offset[1:]}", _SMALL, above=Fraction(1))
        left_over = dict.fromkeys(said for said in (remainder_words(each, self.rule) for each in setting.readings) if said)
        small = [f"{said}." for said in left_over]
        if self._under_name(setting)[2] is None:
            small.append(f"{_why(setting, self.rule)}.")
        if small:
            yield Paragraph(" ".join(f"{said[0].upper()}{said[1:]}" for said in small), _SMALL, above=Fraction(1))
        yield Paragraph(f"Test piece: {measure_words(setting, self.rule.callipers)}", _WORD, above=Fraction(1))


def _why(setting: Setting, rule: Graduation) -> str:
    """Why it is cut with this machine and cutter."""
    return f"Why here: {setting.reason.sentence(rule.text)}"


def _common(placed: Sequence[Sequence[str]]) -> tuple[str, ...]:
    """The pieces that are in every one of ``placed``, as they stand in the first."""
    return tuple(piece for piece in placed[0] if all(piece in other for other in placed[1:]))


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
