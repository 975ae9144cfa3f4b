"""One setting card, to stand under others on a sheet: what to set, large; a true view; how the parts lie; the test piece."""

from __future__ import annotations

from dataclasses import field, replace
from typing import TYPE_CHECKING, Final

from joinlay.boards.names import in_few_words
from joinlay.lengths import Fraction
from joinlay.pages.plain_sheet import PageBlock, Paragraph, fill_frames, halves, tick_box
from joinlay.pages.setting_view import SettingView
from joinlay.pen.lettering import figures, fitted, plain, set_line, words, wrapped
from joinlay.pen.marks import Align, Line, Move, Role, Text, bounds_of, flatten, moved
from joinlay.records import dataclass
from joinlay.settings import Value
from joinlay.settings.feeding import feed_in_short
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

__all__ = ["CardMaker", "why_words"]

_TABLES: Final = (MachineKind.ROUTER_TABLE, MachineKind.TABLE_SAW)
_ZERO: Final = Fraction(0)
#: Letter heights in mm: a figure to set by, alone in its column and not.
_KEY, _LOWER_KEY = Fraction(10), Fraction(7)
#: What is read while holding a part; the rest; small print.
_HELD, _WORD, _SMALL, _TINY = Fraction(5), Fraction(7, 2), Fraction(5, 2), Fraction(9, 5)
#: The head of a card: name, line, machine with the speed and the reason.
_HEAD: Final = Fraction(14)
#: Where the name of a card stands, the line under it, and the machine under that.
_NAME, _RULED, _UNDER_RULE = Fraction(-13, 2), Fraction(-17, 2), Fraction(-25, 2)
#: From the words over a key number to its foot, besides the figure; a row of small words under it; the white between two.
_OVER_KEY, _UNDER_KEY, _APART = Fraction(5), Fraction(4), Fraction(1)
#: How far a fraction reaches up, in heights of the figure beside it, and how far down.
_FRACTION_HIGH, _FRACTION_LOW = Fraction(23, 20), Fraction(3, 20)
#: The view: how wide it may be, how high wood is drawn in it, and the height past which it is left out.
_VIEW_WIDE, _WOOD_HIGH, _VIEW_HIGHEST = Fraction(104), Fraction(12), Fraction(95)
#: The least room beside a view for the figures to set by.
_BESIDE_VIEW: Final = Fraction(88)
#: The same in a column of half a card.
_BESIDE_COLUMN: Final = Fraction(40)
#: Where a card's name begins that has a box to tick before it.
_BOX: Final = Fraction(7)
#: Key numbers told large, in a column of each kind.
_COLUMN: Final = 3
#: How much of the room the heights take at least, and at most, beside the fences.
_HEIGHT_SHARE, _MOST_HEIGHT = Fraction(1, 4), Fraction(9, 20)
_INDENT, _GAP, _BELOW = Fraction(4), Fraction(3), Fraction(1)
#: From one line of words to the next, in heights of a capital, and from one of small print beside a figure.
_CLOSE: Final = Fraction(7, 5)
_STEP: Final = Fraction(4)
#: Over a paragraph.
_WHITE: Final = Fraction(3, 5)

#: How far down something on a card reaches: mm below the card's upper edge.
_Down = Fraction
#: A frame that words may go in: its left and right, how far down it begins, and how far down it may reach.
_Frame = tuple[Fraction, Fraction, _Down, _Down]
#: Frames in the order they are filled.
_Frames = tuple[_Frame, ...]
#: Lower than any card reaches.
_ENDLESS: Final = Fraction(10_000)
#: Between two columns of a card, and by how much it is made higher until all is told in them.
_GUTTER, _HIGHER = Fraction(6), Fraction(2)


@dataclass(frozen=True, slots=True)
class CardMaker:
    """Makes the cards of one job: ``boards`` by their names, ``rule`` the maker's, ``wide`` the room of a sheet in mm.

    ``has_box`` for cards that are ticked off themselves, where no list of them is. ``remarks`` are what is to be done beside
    setting the figures, by ``card 3``.
    """

    boards: Mapping[str, Board]
    rule: Graduation
    wide: Fraction
    has_box: bool = False
    remarks: Mapping[str, Sequence[str]] = field(default_factory=dict)

    def blocks(self, setting: Setting, high: Fraction) -> tuple[PageBlock, ...]:
        """The card of ``setting``, in one block; in several where it names more parts than a whole sheet, ``high`` mm, holds.

        The view stands at the left, the figures to set by beside it, and what is said wherever the card is then lowest: beside
        the figures where they leave room, under them, going on under the view as wide as the sheet. Rules MS-1, MS-2.
        """
        head = tuple(self._head(setting))
        tries: list[tuple[bool, Fraction, int, tuple[Stroke, ...], tuple[Text, ...], tuple[Paragraph, ...]]] = []
        for drawn, frames in self._layouts(setting):
            strokes, waiting = self._filled(self._said(setting, min(x1 - x0 for x0, x1, *_ in frames)), frames, high)
            low = max(-bounds_of(drawn)[1], _HEAD)
            tries.append((bool(waiting), max(low, -bounds_of((*drawn, *strokes))[1]), len(tries), drawn, strokes, waiting))
        _, low, _, drawn, strokes, waiting = min(tries)
        made = [_block((*head, *drawn, *strokes), low)]
        while waiting:
            strokes, still = self._filled(waiting, ((_ZERO, self.wide, _HEAD, high),), high)
            if len(still) == len(waiting):
                # Longer than a whole sheet by itself: a list of names without end. It is told in two halves.
                waiting = (*halves(waiting[0]), *waiting[1:])
                continue
            waiting = still
            made.append(_block((*head, *strokes), _HEAD))
        return tuple(made)

    def _filled(
        self, said: Sequence[Paragraph], frames: _Frames, high: Fraction
    ) -> tuple[tuple[Text, ...], tuple[Paragraph, ...]]:
        """What is ``said`` set into ``frames``."""
        most = high - _BELOW
        return fill_frames(said, [(left, -min(low, most), right, -top) for left, right, top, low in frames])

    def _head(self, setting: Setting) -> Iterator[Stroke]:
        """Which card, what is cut, what has to be touched; then machine and cutter, which way to feed, and the speed (MS-6,
        MS-9).
        """
        change = words(change_words(setting), _HELD)
        name = f"{setting.number}  {cut_words(setting)}"
        after = _BOX if self.has_box else _ZERO
        room = self.wide - set_line(change).width - 6 - after
        if self.has_box:
            yield tick_box(_ZERO, _NAME)
        yield Text((after, _NAME), fitted(name, room, (Fraction(6), _HELD, _WORD), bold=True))
        yield Text((self.wide, _NAME), change, Align.RIGHT)
        yield Line((_ZERO, _RULED), (self.wide, _RULED), Role.FRAME)
        machine, speed, said = self._under_name(setting)
        yield Text((_ZERO, _UNDER_RULE), machine)
        yield Text((self.wide, _UNDER_RULE), speed, Align.RIGHT)
        if said is not None:
            yield Text((set_line(machine).width + 5, _UNDER_RULE), said)

    def _under_name(self, setting: Setting) -> tuple[Content, Content, Content | None]:
        """Machine and cutter, the speed, and between the two which way to feed, or why it is cut there; None where there is no
        room for it.
        """
        speed = words(speed_words(setting).partition(";")[0], _SMALL)
        room = self.wide - set_line(speed).width - 6
        machine = fitted(machine_words(setting, self.rule.sold), room, (_WORD, _SMALL))
        way = feed_in_short(setting)
        said = words(way, _WORD, bold=True) if way else words(why_words(setting, self.rule), _SMALL)
        return machine, speed, said if set_line(machine).width + 5 + set_line(said).width <= room else None

    def says_why(self, setting: Setting) -> bool:
        """Whether the card itself says why it is cut where it is; else the foot of its sheet does."""
        return not feed_in_short(setting) and self._under_name(setting)[2] is not None

    def _layouts(self, setting: Setting) -> Iterator[tuple[tuple[Stroke, ...], _Frames]]:
        """The ways to set the view and the figures, each with the frames that are left for words."""
        view, deep = self.view(setting)
        wide = bounds_of(view)[2]
        kinds = [readings for readings in _told_large(setting) if readings]
        is_under = self.wide - wide - 5 < _BESIDE_VIEW
        left, top = (_ZERO, deep + _GAP) if is_under else (wide + 5, _HEAD + 1)
        keys, under = self._keys(setting, kinds, self._shares(setting, kinds, left), top)
        under_all = ((_ZERO, self.wide, max(deep, under), _ENDLESS),)
        if is_under:
            yield (*view, *keys), under_all
            return
        yield (*view, *keys), ((left, self.wide, under, _ENDLESS),)
        yield (*view, *keys), ((left, self.wide, under, deep), *under_all)
        yield from self._in_columns(setting, kinds, view, deep)

    def _shares(self, setting: Setting, kinds: Sequence[Sequence[Reading]], left: Fraction) -> list[tuple[Fraction, Fraction]]:
        """The columns of fences and heights side by side from ``left``: the left and the width of each."""
        room = self.wide - left
        if len(kinds) == 1:
            return [(left, room)]
        wanted = max(max(set_line(words(_called(setting, each), _WORD)).width, self._least(each)) for each in kinds[-1]) + 3
        own = min(max(wanted, room * _HEIGHT_SHARE), room * _MOST_HEIGHT)
        return [(left, room - own), (left + room - own, own)]

    def _in_columns(
        self, setting: Setting, kinds: Sequence[Sequence[Reading]], view: tuple[Stroke, ...], deep: _Down
    ) -> Iterator[tuple[tuple[Stroke, ...], _Frames]]:
        """The figures one over the other beside the view, and what is said in two columns, the first under them; no higher
        than it must be.
        """
        middle = self.wide / 2
        left, top = bounds_of(view)[2] + 5, _HEAD + 1
        if middle - left < _BESIDE_COLUMN:
            return
        keys: list[Stroke] = []
        low = top
        for readings in kinds:
            made, low = self._keys(setting, [readings], [(left, middle - left)], low)
            keys += made
        low = max(low, deep)
        said = self._said(setting, middle - _GUTTER)
        at = low
        while at < self.wide:
            frames = ((_ZERO, middle - _GUTTER, low, at), (middle, self.wide, _HEAD, at))
            if not self._filled(said, frames, _ENDLESS)[1]:
                yield (*view, *keys), frames
                return
            at += _HIGHER

    def _keys(
        self, setting: Setting, kinds: Sequence[Sequence[Reading]], shares: Sequence[tuple[Fraction, Fraction]], top: _Down
    ) -> tuple[list[Stroke], _Down]:
        """The figures to set by, in a column of each of ``kinds``, each with its left and its width; and how far down they
        reach.
        """
        is_alone = all(len(readings) == 1 for readings in kinds)
        strokes: list[Stroke] = []
        under = top
        for (x, across), readings in zip(shares, kinds, strict=False):
            y = top
            for reading in readings:
                made, reach = self._key(setting, reading, (x, y, across - 3), is_alone=is_alone)
                strokes += made
                y = reach + _APART
            under = max(under, y)
        return strokes, under

    def _least(self, reading: Reading) -> Fraction:
        """How wide a value is with its unit, at the lower of the two heights it is set large in."""
        figure = figures(reading.aim, self.rule, _LOWER_KEY, bold=True)
        return set_line(figure).width + set_line(words(reading.on_rule.unit, _WORD)).width + 2

    def small(self, setting: Setting, reading: Reading) -> list[str]:
        """What stands small beside a value: what callipers show, and where the cutter's other sides are."""
        return [said for said in (_between(reading), _short(beside_words(setting, reading, self._figures))) if said]

    def view(self, setting: Setting) -> tuple[tuple[Stroke, ...], _Down]:
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
        """A value to set: what it is, the figure large, small beside it what callipers show and other sides; and how far down it
        reaches.

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
        small = self.small(setting, reading)
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
        walk = [] if self._under_name(setting)[2] is not None else _walk(setting)
        said = [*walk, *self._parts(setting, wide), *self._rest(setting, told=[*fences, *heights])]
        return [replace(one, leading=_CLOSE) for one in said]

    def _parts(self, setting: Setting, wide: Fraction) -> Iterator[Paragraph]:
        """How the parts lie, which they are, where they stop: read while holding them. What all of them have in common is said
        once.
        """
        for lying, works in lying_together(setting):
            height = _HELD if set_line(words(lying, _HELD, bold=True)).width <= wide else _WORD
            yield Paragraph(lying, height, bold=True, above=_WHITE, leads=True)
            placed = [position_clauses(setting, work, self._figures) for work in works]
            turned = [is_turned(setting, work) for work in works]
            common = _common(placed) if len(works) > 1 else ()
            all_turned = all(turned) and bool(common)
            if common:
                both = "both ways round; " if all_turned else ""
                yield Paragraph(f"All: {both}{_short(said_on(common))}", _HELD, above=_WHITE, leads=True)
            for work, clauses, is_both in zip(works, placed, turned, strict=True):
                ends = ", both ways round" if is_both and not all_turned else ""
                name = f"{work.count} × {in_few_words(work.boards)}{ends}"
                held = [*self._stopped(setting, work)]
                if own := said_on(clause for clause in clauses if clause not in common):
                    held.append(_short(own))
                if len(held) == 1 and _rows(f"{name}: {held[0]}", wide) <= _rows(held[0], wide - _INDENT):
                    yield Paragraph(f"{name}: {held[0]}", _HELD, above=_WHITE)
                    continue
                yield Paragraph(name, _WORD, above=_WHITE, leads=bool(held))
                yield from (Paragraph(said, _HELD, indent=_INDENT) for said in held)
            if squared := [board for work in works if work.squared for board in work.boards]:
                which = "" if all(work.squared for work in works) else f": {in_few_words(squared)}"
                yield Paragraph(f"Then chop the round ends square{which}", _WORD, above=_WHITE)

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
            yield Paragraph(f"{offset[0].upper()}{offset[1:]}", _SMALL, above=_WHITE)
        left_over = dict.fromkeys(said for said in (remainder_words(each, self.rule) for each in setting.readings) if said)
        small = [f"{said}." for said in left_over]
        if small:
            yield Paragraph(" ".join(f"{said[0].upper()}{said[1:]}" for said in small), _SMALL, above=_WHITE)
        for remark in self.remarks.get(f"card {setting.number}", ()):
            yield Paragraph(f"{remark[0].upper()}{remark[1:]}", _WORD, above=_WHITE)
        yield Paragraph(f"Test piece: {measure_words(setting, self.rule.callipers)}", _WORD, above=_WHITE)


def why_words(setting: Setting, rule: Graduation) -> str:
    """Why it is cut with this machine and cutter."""
    return f"Why here: {setting.reason.sentence(rule.text)}"


def _rows(held: str, wide: Fraction) -> int:
    """How many lines it takes to say what is read while holding a part."""
    return sum(1 for _ in wrapped(held, wide, _HELD))


def _common(placed: Sequence[Sequence[str]]) -> tuple[str, ...]:
    """The pieces that are in every one of ``placed``, as they stand in the first."""
    return tuple(piece for piece in placed[0] if all(piece in other for other in placed[1:]))


def _walk(setting: Setting) -> Iterator[Paragraph]:
    """Which way to walk or feed, before anything is held; why stands at the foot of the sheet (MS-6)."""
    if said := feed_in_short(setting):
        yield Paragraph(f"{said}.", _WORD, bold=True, above=_WHITE)


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
