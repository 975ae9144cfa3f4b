"""Cards that differ by nothing but a bit and a few figures, told in one table: what is drilled alike into parts of several sizes
(MS-1).

Each keeps its number and its box to tick, and its figures to set by are as large as on a card of its own. What all of them have
in common (how the parts lie, what is turned away later, why it is drilled) is said once, and one view is drawn, of the first of
them.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.boards.names import in_few_words
from joinlay.lengths import Fraction
from joinlay.pages.card_head import why_words
from joinlay.pages.plain_sheet import PageBlock, Paragraph, fill_frames, tick_box
from joinlay.pen.lettering import figures, fitted, set_line, words, wrapped
from joinlay.pen.marks import Align, Line, Role, Text, bounds_of
from joinlay.settings import Value
from joinlay.settings.wording import (
    change_words,
    cut_words,
    lying_together,
    measure_words,
    remainder_words,
    value_words,
)
from joinlay.shop import MachineKind

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.pages.setting_card import CardMaker
    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Stroke
    from joinlay.settings import Setting

__all__ = ["alike_cards", "card_table"]

_ZERO: Final = Fraction(0)
#: Letter heights in mm: a figure to set by, the name of the cards, what is read while holding a part, the rest, small print.
_KEY, _NAME, _HELD, _WORD, _SMALL = Fraction(7), Fraction(6), Fraction(5), Fraction(7, 2), Fraction(5, 2)
#: Where the name of the cards stands, the line under it, the machine under that, and how far down all this reaches.
_NAMED, _RULED, _MACHINE, _HEAD = Fraction(-13, 2), Fraction(-17, 2), Fraction(-25, 2), Fraction(15)
#: From the top of a row to the foot of its figures, and from one line of words below them to the next.
_FIGURED, _LINE, _FINE_LINE = Fraction(9), Fraction(5), Fraction(4)
#: Where the columns begin, right of the number: the bit, then the figures; and the words below these.
_BIT, _FIGURES, _WORDS = Fraction(18), Fraction(50), Fraction(6)
#: The white between the view and the table, between two columns, over a paragraph and under a row.
_GUTTER, _APART, _WHITE, _UNDER = Fraction(6), Fraction(2), Fraction(3, 5), Fraction(3, 2)
_CLOSE: Final = Fraction(7, 5)
_ENDLESS: Final = Fraction(10_000)
#: So many rows stand on a sheet with what is said of them; more begin a table anew.
_MOST: Final = 8


def alike_cards(settings: Sequence[Setting], maker: CardMaker) -> tuple[tuple[Setting, ...], ...]:
    """The cards of ``settings`` in their order, those that one table tells together: never more than eight, and one by itself
    mostly.

    Such are holes drilled one to a part, one card after another, that differ by bit, line, place and depth only. Rule MS-1.
    """
    groups: list[list[Setting]] = []
    before: tuple[object, ...] | None = None
    for setting in settings:
        now = _likeness(setting, maker)
        if now is not None and now == before and len(groups[-1]) < _MOST:
            groups[-1].append(setting)
        else:
            groups.append([setting])
        before = now
    return tuple(tuple(group) for group in groups)


def _likeness(setting: Setting, maker: CardMaker) -> tuple[object, ...] | None:
    """What must be equal in cards that are told together; None for a card that has no place in a table."""
    is_of_one = len(setting.works) == 1 and len(setting.works[0].positions) == 1
    if setting.machine is not MachineKind.DRILL or not is_of_one or setting.readings[-1].value is not Value.HEIGHT:
        return None
    (work,) = setting.works
    return (
        setting.tool.kind,
        setting.changes,
        frozenset(work.parts),
        work.plain_cuts,
        work.positions_from,
        lying_together(setting)[0][0],
        tuple(reading.value for reading in setting.readings),
        tuple(maker.remarks.get(f"card {setting.number}", ())),
        why_words(setting, maker.rule),
    )


def card_table(settings: Sequence[Setting], maker: CardMaker) -> PageBlock | None:
    """The block for cards that are alike (``alike_cards``); None where there is no room for it beside the view, or for its
    figures in it.
    """
    view, deep = maker.view(settings[0], _HEAD)
    left = max(bounds_of(view)[2] + _GUTTER, Fraction(50))
    columns = _columns(settings, maker, left)
    if not columns:
        return None
    deep = max(deep, -bounds_of(view)[1]) + _FINE_LINE
    drawn: list[Stroke] = [*_head(settings, maker), *view]
    drawn.append(Text((_ZERO, -deep), words(f"drawn here: card {settings[0].number}", _SMALL)))
    rows, low = _rows(settings, maker, left, columns)
    drawn += rows
    low = max(low, deep + 2)
    frames = ((_ZERO, -low, left - _GUTTER, -deep - 2), (_ZERO, -_ENDLESS, maker.wide, -low))
    said, _ = fill_frames(_said(settings, maker), frames)
    strokes = (*drawn, *said)
    return PageBlock(strokes, max(low, -bounds_of(strokes)[1]) + 1)


def _columns(settings: Sequence[Setting], maker: CardMaker, left: Fraction) -> list[tuple[Fraction, Fraction]]:
    """Where each column of figures begins, and how wide it is, in a table from ``left`` to the right edge; none where they
    have no room.
    """
    bits = [set_line(words(maker.rule.sold(setting.tool.width), _HELD, bold=True)).width for setting in settings]
    names = [set_line(words(name, _SMALL)).width for name in _called(settings[0])]
    large = zip(*([set_line(figure).width for figure in _large(setting, maker)] for setting in settings), strict=True)
    wanted = [max(name, *column) + _APART for name, column in zip(names, large, strict=True)]
    spare = maker.wide - left - _FIGURES - sum(wanted)
    if spare < 0 or max(bits) > _FIGURES - _BIT - 1:
        return []
    found: list[tuple[Fraction, Fraction]] = []
    at = left + _FIGURES
    for each in wanted:
        found.append((at, each + spare / len(wanted)))
        at += found[-1][1]
    return found


def _called(setting: Setting) -> list[str]:
    """The names of the columns of figures: what is set, with the place along the line before the last, the depth."""
    called = [_short(value_words(setting, reading.value)) for reading in setting.readings]
    called.insert(len(called) - 1, _short(f"middle from the {setting.works[0].positions_from}"))
    return called


def _head(settings: Sequence[Setting], maker: CardMaker) -> Iterator[Stroke]:
    """Which cards, what is cut, what has to be touched at each; then the machine and why it is this."""
    first = settings[0]
    change = words(f"{change_words(first)}{' each' if first.changes else ''}", _HELD)
    together = replace(first, works=tuple(work for setting in settings for work in setting.works))
    numbers = f"{first.number} {'to' if len(settings) > 2 else 'and'} {settings[-1].number}"
    room = maker.wide - set_line(change).width - 6
    yield Text((_ZERO, _NAMED), fitted(f"{numbers}  {cut_words(together)}", room, (_NAME, _HELD, _WORD), bold=True))
    yield Text((maker.wide, _NAMED), change, Align.RIGHT)
    yield Line((_ZERO, _RULED), (maker.wide, _RULED), Role.FRAME)
    machine = words(first.machine.value, _WORD)
    yield Text((_ZERO, _MACHINE), machine)
    if any(maker.says_why(setting) for setting in settings):
        yield Text((set_line(machine).width + 5, _MACHINE), words(why_words(first, maker.rule), _SMALL))
    if maker.cautions:
        yield Text((maker.wide, _MACHINE), words(f"cautions: {maker.cautions}", _SMALL), Align.RIGHT)


def _rows(
    settings: Sequence[Setting], maker: CardMaker, left: Fraction, columns: Sequence[tuple[Fraction, Fraction]]
) -> tuple[list[Stroke], Fraction]:
    """A row for each card from ``left`` on, under the names of the columns; and how far down they reach."""
    first = settings[0]
    down = _HEAD + _WORD
    named = [(left + _BIT, _FIGURES - _BIT, first.tool.kind.value)]
    named += [(x, wide, name) for (x, wide), name in zip(columns, _called(first), strict=True)]
    strokes: list[Stroke] = [Text((x, -down), fitted(name, wide - 1, (_WORD, _SMALL))) for x, wide, name in named]
    at = [x for x, _ in columns]
    down += 2
    for setting in settings:
        strokes.append(Line((left, -down), (maker.wide, -down), Role.ROW))
        made, down = _row(setting, maker, left, at, down)
        strokes += made
    return strokes, down


def _row(
    setting: Setting, maker: CardMaker, left: Fraction, at: Sequence[Fraction], top: Fraction
) -> tuple[list[Stroke], Fraction]:
    """One card: its number and box, the bit, the figures large; under them its parts, and small what its remainders do; and
    its foot.
    """
    foot = top + _FIGURED
    strokes: list[Stroke] = [tick_box(left, -foot)] if maker.has_box else []
    number = left + (_WORDS if maker.has_box else _ZERO)
    strokes.append(Text((number, -foot), words(str(setting.number), _HELD, bold=True)))
    strokes.append(Text((left + _BIT, -foot), words(maker.rule.sold(setting.tool.width), _HELD, bold=True)))
    for x, large in zip(at, _large(setting, maker), strict=True):
        strokes.append(Text((x, -foot), large))
    beside = [said for each in setting.readings for said in maker.small(setting, each)]
    names = f"{setting.works[0].count} × {in_few_words(setting.works[0].boards)}"
    down = foot + 1
    for line in wrapped("; ".join([names, *beside]), maker.wide - left - _WORDS, _WORD):
        down += _LINE
        strokes.append(Text((left + _WORDS, -down + 1), words(line, _WORD)))
    left_over = dict.fromkeys(remainder_words(each, maker.rule) for each in setting.readings)
    small = [f"{said[0].upper()}{said[1:]}." for said in left_over if said]
    if not _is_its_own_test(setting, maker):
        small.append(f"Test piece: {measure_words(setting, maker.rule.callipers)}")
    for line in wrapped(" ".join(small), maker.wide - left - _WORDS, _SMALL) if small else ():
        down += _FINE_LINE
        strokes.append(Text((left + _WORDS, -down + 1), words(line, _SMALL)))
    return strokes, down + _UNDER


def _large(setting: Setting, maker: CardMaker) -> list[Content]:
    """The figures of a row: what is set, with the place along the line before the last, the depth."""
    lengths = [reading.aim for reading in setting.readings]
    lengths.insert(len(lengths) - 1, setting.works[0].positions[0].centre)
    return [figures(length, maker.rule, _KEY, bold=True) for length in lengths]


def _is_its_own_test(setting: Setting, maker: CardMaker) -> bool:
    """Whether a test piece shows just what the row says: each of its measures is a figure of the row, as callipers show it."""
    told = {f"{reading.on_rule.figures} {reading.on_rule.unit}" for reading in setting.readings if not reading.on_rule.left_over}
    told.add(maker.rule.sold(setting.tool.width))
    return all(maker.rule.callipers(measure.value) in told for measure in setting.test_piece.measures)


def _said(settings: Sequence[Setting], maker: CardMaker) -> list[Paragraph]:
    """What all of the cards have in common."""
    first = settings[0]
    said = [Paragraph(lying_together(first)[0][0], _HELD, bold=True)]
    said += (
        Paragraph(f"{remark[0].upper()}{remark[1:]}", _WORD, above=_WHITE)
        for remark in maker.remarks.get(f"card {first.number}", ())
    )
    if any(_is_its_own_test(setting, maker) for setting in settings):
        said.append(Paragraph("Test piece: must measure what its row says", _WORD, above=_WHITE))
    return [replace(one, leading=_CLOSE) for one in said]


def _short(said: str) -> str:
    """``from edge`` for ``from the edge``, as on a card of its own."""
    return said.replace(" the ", " ")
