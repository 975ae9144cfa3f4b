"""One setting card, to stand among others on a sheet: what to set, large; a true view; how the parts lie; the test piece."""

from __future__ import annotations

from dataclasses import field
from functools import cache, partial
from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction
from joinlay.pages.card_figures import CardFigures
from joinlay.pages.card_head import CardHead
from joinlay.pages.card_words import CardWords
from joinlay.pages.plain_sheet import PageBlock, fill_frames, halves
from joinlay.pages.setting_view import SettingView
from joinlay.pen.lettering import words
from joinlay.pen.marks import Move, Text, bounds_of, flatten, moved
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping, Sequence

    from joinlay.boards import Board
    from joinlay.lengths import Graduation
    from joinlay.pages.card_figures import Drawn
    from joinlay.pages.plain_sheet import Paragraph
    from joinlay.pen.marks import Stroke
    from joinlay.settings import Reading, Setting

    #: What is said on a card, for lines so long.
    Said = Callable[[Fraction], Sequence[Paragraph]]
    #: A way to set a card: what is drawn, how far down that reaches, and the frames that are left for words.
    Layout = tuple[tuple[Stroke, ...], Fraction, tuple[tuple[Fraction, Fraction, Fraction, Fraction], ...]]
    #: The ways there are under a head that reaches so far down, of what is said, none as low as the last of the third.
    Layouts = Callable[[Fraction, Said, Sequence[Fraction]], Iterator[Layout]]

__all__ = ["CardMaker"]

_ZERO: Final = Fraction(0)
_SMALL: Final = Fraction(5, 2)
#: The view: how wide it may be, how high wood is drawn in it, and the height past which it is left out.
_VIEW_WIDE, _WOOD_HIGH, _VIEW_HIGHEST = Fraction(92), Fraction(12), Fraction(95)
#: The least room beside a view for the figures to set by, and beside these for words.
_FOR_FIGURES, _FOR_WORDS = Fraction(26), Fraction(50)
#: White: between a view and what stands beside it, between figures under a view and it, under a card, between columns of words.
_BESIDE, _GAP, _BELOW, _GUTTER = Fraction(4), Fraction(2), Fraction(1), Fraction(5)
#: By how much two columns of words are made higher until all is told in them; how far words beside figures may reach below these.
_HIGHER: Final = Fraction(1)
_MORE: Final = (_ZERO, Fraction(2), Fraction(4), Fraction(7))

#: How far down something on a card reaches: mm below the card's upper edge.
_Down = Fraction
#: A frame that words may go in: its left and right, how far down it begins, and how far down it may reach.
_Frame = tuple[Fraction, Fraction, _Down, _Down]
#: Frames in the order they are filled.
_Frames = tuple[_Frame, ...]
#: Lower than any card reaches.
_ENDLESS: Final = Fraction(10_000)


@dataclass(frozen=True, slots=True)
class CardMaker:
    """Makes the cards of one job: ``boards`` by their names, ``rule`` the maker's, ``wide`` the room of a card in mm.

    ``has_box`` for cards that are ticked off themselves, where no list of them is. ``remarks`` are what is to be done beside
    setting the figures, by ``card 3``; ``cautions`` says where those of all the cards stand, '' where nowhere.
    """

    boards: Mapping[str, Board]
    rule: Graduation
    wide: Fraction
    has_box: bool = False
    remarks: Mapping[str, Sequence[str]] = field(default_factory=dict)
    cautions: str = ""

    def blocks(self, setting: Setting, high: Fraction) -> tuple[PageBlock, ...]:
        """The card of ``setting``, in one block; in several where it names more parts than a whole sheet, ``high`` mm, holds.

        The view stands at the left, the figures to set by beside it or under it, and what is said wherever the card is then
        lowest: beside the figures where they leave room, and under them, in one column or in two. Rules MS-1, MS-2.
        """
        return self._made(setting, high, partial(self._layouts, setting))

    def again(self, setting: Setting, before: Setting) -> PageBlock | None:
        """The card of ``setting`` to stand right under that ``before`` it, for which all is set as for this: it says so, with the
        figures, and draws no view. None where something is set otherwise. Rule MS-3.
        """
        if setting.changes or _set_up(setting) != _set_up(before):
            return None
        told = CardFigures(setting, self.rule).as_before(before.number)
        (block,) = self._made(setting, _ENDLESS, self._layouts_of_words, told)
        return block

    def _made(self, setting: Setting, high: Fraction, layouts: Layouts, again: str = "") -> tuple[PageBlock, ...]:
        """The card in the one of its ``layouts`` in which it is lowest, as ``blocks`` has it; it begins with ``again``."""
        head = self.head(setting)
        over = tuple(head.strokes())
        said = cache(self._words(setting, head, again).paragraphs)
        lowest = [_ENDLESS]
        tries: list[tuple[bool, Fraction, int, tuple[Stroke, ...], tuple[Text, ...], tuple[Paragraph, ...]]] = []
        for drawn, low, frames in layouts(head.deep, said, lowest):
            strokes, waiting = _filled(said(min(x1 - x0 for x0, x1, *_ in frames)), frames, high)
            reach = max(low, -bounds_of(strokes)[1]) if strokes else low
            tries.append((bool(waiting), reach, len(tries), drawn, strokes, waiting))
            if not waiting:
                lowest.append(min(lowest[-1], reach))
        _, low, _, drawn, strokes, waiting = min(tries)
        made = [_block((*over, *drawn, *strokes), low)]
        while waiting:
            strokes, still = _filled(waiting, ((_ZERO, self.wide, head.deep, high),), high)
            if len(still) == len(waiting):
                # Longer than a whole sheet by itself: a list of names without end. It is told in two halves.
                waiting = (*halves(waiting[0]), *waiting[1:])
                continue
            waiting = still
            made.append(_block((*over, *strokes), head.deep))
        return tuple(made)

    def head(self, setting: Setting) -> CardHead:
        """The head of the card of ``setting``."""
        return CardHead(setting, self.rule, self.wide, self.has_box, self.cautions)

    def says_why(self, setting: Setting) -> bool:
        """Whether the card itself says why it is cut where it is; else the remarks of its machine do."""
        return self.head(setting).says_why

    def small(self, setting: Setting, reading: Reading) -> list[str]:
        """What stands small beside a value: what callipers show, and where the cutter's other sides are."""
        return CardFigures(setting, self.rule).small(reading)

    def view(self, setting: Setting, top: Fraction) -> tuple[tuple[Stroke, ...], _Down]:
        """The view at true size, ``top`` mm down, and how far down it reaches."""
        board = self.boards[setting.works[0].boards[0]]
        marks = tuple(flatten((SettingView(setting, board, self.rule, _VIEW_WIDE, _WOOD_HIGH),)))
        x0, y0, x1, y1 = bounds_of(marks)
        if x1 - x0 > self.wide or y1 - y0 > _VIEW_HIGHEST:
            return (Text((_ZERO, -top - 3), words("the cut is too large to be drawn true on this paper", _SMALL)),), top + 6
        move = Move(-x0, -top - y1)
        return tuple(moved(mark, move) for mark in marks), top + y1 - y0

    def _words(self, setting: Setting, head: CardHead, again: str) -> CardWords:
        """What is said on the card under this head, ``again`` first."""
        told = [each for readings in CardFigures(setting, self.rule).kinds for each in readings]
        remarks = self.remarks.get(f"card {setting.number}", ())
        return CardWords(setting, self.rule, told, remarks, "" if head.says_cautions else self.cautions, again)

    def _layouts_of_words(self, headed: _Down, said: Said, lowest: Sequence[_Down]) -> Iterator[Layout]:
        """The ways to set what is ``said`` alone: across the card, and in two columns."""
        yield (), headed, ((_ZERO, self.wide, headed, _ENDLESS),)
        middle = self.wide / 2
        columns = ((_ZERO, middle - _GUTTER / 2, headed), (middle + _GUTTER / 2, self.wide, headed))
        if frames := _level(said, (), columns, lowest[-1]):
            yield (), headed, frames

    def _layouts(self, setting: Setting, headed: _Down, said: Said, lowest: Sequence[_Down]) -> Iterator[Layout]:
        """The ways to set the view and the figures under a head that reaches ``headed`` mm down, each with how far down it
        reaches, and the frames that are left for what is ``said``; none that can't be lower than the last of ``lowest``.
        """
        view, deep = self.view(setting, headed + 1)
        middle = self.wide / 2
        for (figures, under), right in self._figures(setting, bounds_of(view)[2] + _BESIDE, headed + 1, deep):
            drawn, low = (*view, *figures), max(deep, under)
            if low >= lowest[-1]:
                continue
            is_beside = right + _FOR_WORDS <= self.wide
            beside = ((right, self.wide, headed, low),) if is_beside else ()
            for more in _MORE if is_beside else (_ZERO,):
                at = low + more
                if at < lowest[-1]:
                    yield drawn, low, (*((right, self.wide, headed, at) for _ in beside), (_ZERO, self.wide, at, _ENDLESS))
            halves_under = ((_ZERO, middle - _GUTTER / 2, low), (middle + _GUTTER / 2, self.wide, low))
            if frames := _level(said, beside, halves_under, lowest[-1]):
                yield drawn, low, frames
            # Down the right side, and what is left of it under the view and the figures.
            sides = ((right, self.wide, headed), (_ZERO, right - _GUTTER, low))
            if is_beside and (frames := _level(said, (), sides, lowest[-1])):
                yield drawn, low, frames

    def _figures(self, setting: Setting, left: Fraction, top: _Down, deep: _Down) -> Iterator[tuple[Drawn, Fraction]]:
        """The ways to set the figures, each with its right edge, the larger figures first: beside a view that takes all to the
        ``left`` and reaches so ``deep``, all one over the other, or a column or a row for each kind; or under it.
        """
        figures = CardFigures(setting, self.rule)
        kinds = figures.kinds
        every = [each for readings in kinds for each in readings]
        named: list[tuple[Fraction, Sequence[Reading]]] = [(figures.named(readings), readings) for readings in kinds]
        whole = sum((wide for wide, _ in named), _ZERO)
        room = self.wide - left
        ways: list[tuple[list[tuple[Fraction, Sequence[Reading]]], Fraction, _Down]] = []
        if room >= _FOR_FIGURES:
            widths = dict.fromkeys(min(max(each, _FOR_FIGURES), room) for each in (figures.named(every), figures.least(every)))
            ways += [([(wide, every)], left, top) for wide in widths]
        if len(kinds) > 1 and whole <= room:
            ways.append((named, left, top))
        if room < _FOR_FIGURES:
            share = min(self.wide / whole, Fraction(1))
            ways.append(([(wide * share, readings) for wide, readings in named], _ZERO, deep + _GAP))
        for widths_of, begins, head in ways:
            columns = []
            at = begins
            for wide, readings in widths_of:
                columns.append(((at, wide), readings))
                at += wide
            for is_large in (True, False):
                yield figures.in_columns(columns, head, is_large=is_large), at if begins else self.wide
        for rows in ((every,), kinds) if len(every) > len(kinds) else ():
            drawn, right = figures.in_rows(rows, left, top, room)
            if right <= self.wide:
                yield drawn, right


def _set_up(setting: Setting) -> tuple[object, ...]:
    """What is cut, and all that is set for it as it is read from the maker's rule: what is alike in it has one view."""
    readings = tuple((reading.value, reading.aim.mm) for reading in setting.readings)
    return setting.machine, setting.guide, setting.role, setting.tool, readings


def _level(
    said: Said,
    beside: _Frames,
    columns: Sequence[tuple[Fraction, Fraction, _Down]],
    lowest: _Down,
) -> _Frames:
    """The frames ``beside`` the figures, and two ``columns`` under them, each with its left, its right and its head, no lower
    than they must be; none where they would reach as low as ``lowest``.
    """
    told = said(min(frame[1] - frame[0] for frame in (*beside, *columns)))
    least = max(top for *_, top in columns)

    def frames(more: int) -> _Frames:
        return (*beside, *((left, right, top, least + more * _HIGHER) for left, right, top in columns))

    # What fits in some height fits in any that is more: halved between one that is too little and one that is enough.
    short, enough = -1, int((lowest - least) / _HIGHER)
    if enough < 0 or _filled(told, frames(enough), _ENDLESS)[1]:
        return ()
    while enough - short > 1:
        half = (short + enough) // 2
        if _filled(told, frames(half), _ENDLESS)[1]:
            short = half
        else:
            enough = half
    return frames(enough)


def _filled(said: Sequence[Paragraph], frames: _Frames, high: Fraction) -> tuple[tuple[Text, ...], tuple[Paragraph, ...]]:
    """What is ``said`` set into ``frames``."""
    most = high - _BELOW
    return fill_frames(said, [(left, -min(low, most), right, -top) for left, right, top, low in frames])


def _block(strokes: tuple[Stroke, ...], low: Fraction) -> PageBlock:
    """The strokes of a card that reaches ``low`` mm down at least, with white under it."""
    return PageBlock(strokes, max(low, -bounds_of(strokes)[1]) + _BELOW)
