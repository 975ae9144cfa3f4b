"""Machine settings on paper: the order of the cards to tick off, then the cards, two or three on a sheet (MS-1 to MS-9).

Where cards are few the list of them is printed only when it is asked for. Cards are shared out in their order, as many to a sheet
as fit with what stands at its foot; those that differ by no more than a bit and its figures are told in one table. That foot is
not of a fixed height: it says which way to feed and why, how to put a test piece right and what to beware of, each sentence once
for all the cards it is for, so one card more may lengthen or change it. It is set anew for each card that is tried. No card waits
for a better place: the order is the order of the work.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.findings import Harm
from joinlay.geometry import corners
from joinlay.lengths import Fraction
from joinlay.pages.card_table import alike_cards, card_table
from joinlay.pages.plain_sheet import PageBlock, Paragraph, PlainPages, fill_frames, title_over
from joinlay.pages.printed_sheet import Laid, Sheet, bind
from joinlay.pages.printer import Printer
from joinlay.pages.setting_card import CardMaker, why_words
from joinlay.pen.lettering import Run, figures, fitted, set_line, words, wrapped
from joinlay.pen.marks import Align, Line, Move, Polyline, Role, Text, bounds_of
from joinlay.settings import Adjustment, Caution, Value
from joinlay.settings.feeding import feed_sentence, feed_words
from joinlay.settings.wording import (
    band_words,
    correction_pairs,
    cut_words,
    machine_words,
    order_words,
    set_up_words,
    told_together,
    touch_words,
)
from joinlay.templates.template import Template

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from joinlay.findings import Finding
    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Graduation
    from joinlay.pages.printed_sheet import Sheet
    from joinlay.paper import Paper
    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Stroke
    from joinlay.settings import Reading, Setting, SettingsList

__all__ = ["is_listed_in_short", "setting_sheets"]


_TITLE, _WORD, _SMALL = Fraction(5), Fraction(7, 2), Fraction(5, 2)
_STEP, _FINE_STEP, _ROW = Fraction(11, 2), Fraction(4), Fraction(13, 2)
_ZERO: Final = Fraction(0)
#: So many cards need no list before them.
_FEW: Final = 24
#: The white above what stands at the foot of a sheet.
_ABOVE: Final = Fraction(1)
#: From one line of the foot to the next, in heights of a capital.
_CLOSE: Final = Fraction(7, 5)
_ORDER: Final = "order of the cards"
#: Kinds of remark that are told on the card itself.
_DONE_AT_A_CARD: Final = frozenset({"depth stop", "fence step", "mortise width", "dot"})
#: What every card says last.
_ALWAYS: Final = (Caution.UNPLUG, Caution.MANUAL)

#: Where the columns of the order stand: right edge of the card's number, left edge of what is cut.
_NUMBER, _CUT = Fraction(13), Fraction(17)
#: The same from the right: right edges of the fence, the height, what is touched; and the widths of the first and last.
_FENCE, _HEIGHT, _CHANGE = Fraction(71), Fraction(39), Fraction(0)
_FENCE_WIDE, _CHANGE_WIDE = Fraction(14), Fraction(36)
_HARM: Final = {Harm.REFUSE: "Refused", Harm.WARN: "Warning", Harm.NOTE: "Note"}

#: A card or a piece of one that stands on a sheet; several cards where one table tells them together.
_Standing = tuple[tuple["Setting", ...], "PageBlock"]


def is_listed_in_short(plan: Plan) -> bool:
    """Whether the cards of ``plan`` are so few that they need no list of them before them (PR-11)."""
    return 0 < len(plan.settings.settings) <= _FEW


def setting_sheets(
    plan: Plan, paper: Paper, *, printer: Printer | None = None, with_list: bool = True, begun: Fraction = _ZERO
) -> tuple[Sheet, ...]:
    """First the order of the settings of ``plan``, with the set-ups it takes; then a card for each, two to four to a sheet.

    Without the list (``with_list``) only what must be known before the first card stands before it, and each card has its box to
    tick. No sheet where nothing is cut. A card is not parted, unless it names more parts than a sheet holds. Views are drawn
    true, to know the cut by; a distance is set by rule, gauge or test piece, and never taken from a card. ``begun`` mm of the
    first sheet are left to what comes before it.
    Rules MS-1 to MS-9.
    """
    found = plan.settings
    if not found.settings:
        return ()
    pages = PlainPages(plan, paper, "setting cards", printer or Printer(), begun)
    left, bottom, right, top = pages.box
    wide, high = right - left, top - bottom
    boards = {board.name: board for board in plan.boards}
    maker = CardMaker(boards, plan.rule, wide, has_box=not with_list, remarks=_remarks(found, plan.rule))
    cards = [standing for alike in alike_cards(found.settings, maker) for standing in _standing(alike, maker, high)]
    *order, last = _order_pages(found, pages, with_list=with_list)
    sheets = [pages.sheet(_ORDER, pages.stacked(page)) for page in order]
    # The first cards go under the order where there is room for them.
    under = sum((block.height for block in last), _ZERO)
    if sheets or under + (cards[0][1].height + _depth(cards[0][0], maker) if cards else _ZERO) > pages.room - begun:
        pages = replace(pages, begun=_ZERO)
    shared = list(_shared_out(cards, pages, maker, under + pages.begun))
    for n, standing in enumerate(shared, start=1):
        own = pages if n == 1 else replace(pages, begun=_ZERO)
        sheets.append(_sheet(standing, own, maker, last if n == 1 else (), is_last=n == len(shared)))
    return bind(sheets)


def _remarks(found: SettingsList, rule: Graduation) -> dict[str, list[str]]:
    """What is to be done at a card beside its figures, by ``card 3``: the machine's step to set, what is turned away (MS-10,
    PU-2).
    """
    told: dict[str, list[str]] = {}
    for remark in found.remarks:
        if remark.kind in _DONE_AT_A_CARD:
            told.setdefault(remark.where, []).append(remark.sentence(rule.text))
    return told


def _standing(alike: tuple[Setting, ...], maker: CardMaker, high: Fraction) -> Iterator[_Standing]:
    """Cards that are alike in one table, where it has room; else each by itself, in pieces where it is higher than a sheet."""
    table = card_table(alike, maker) if len(alike) > 1 else None
    if table is not None and table.height <= high - _depth(alike, maker):
        yield alike, table
        return
    for each in alike:
        for block in maker.blocks(each, high - _depth([each], maker)):
            yield (each,), block


def _shared_out(cards: Sequence[_Standing], pages: PlainPages, maker: CardMaker, taken: Fraction) -> Iterator[list[_Standing]]:
    """The cards sheet by sheet, in their order: as many as fit with the cautions of all of them below.

    The first sheet has ``taken`` mm less room than the others, and maybe no card.
    """
    _, bottom, _, top = pages.box
    sheet: list[_Standing] = []
    for card in cards:
        more = [*sheet, card]
        room = top - bottom - taken
        if (sheet or taken) and sum(block.height for _, block in more) + _depth(_settings(more), maker) > room:
            yield sheet
            more, taken = [card], _ZERO
        sheet = more
    yield sheet


def _sheet(
    standing: Sequence[_Standing], pages: PlainPages, maker: CardMaker, order: Sequence[PageBlock], *, is_last: bool
) -> Sheet:
    """A sheet of cards, under the end of the ``order`` where that is on it; under the last of them more may begin."""
    settings = _settings(standing)
    strokes = pages.stacked([*order, *(block for _, block in standing)])
    if not settings:
        return pages.sheet(_ORDER, strokes)
    high = sum((block.height for block in (*order, *(block for _, block in standing))), _ZERO) + _depth(settings, maker)
    strokes = (*strokes, *_cautions(settings, pages, maker, pages.room - high if is_last else pages.begun))
    sheet = pages.sheet("", strokes, "views 1:1")
    templates = [(each, Template((f"card {each.number}",), cut_words(each), strokes, bounds_of(strokes))) for each in settings]
    told = (Laid(Template((pages.document,), _ORDER, strokes, bounds_of(strokes)), Move()),) if order else ()
    cards = tuple(Laid(template, Move(), serves=each.board_names) for each, template in templates)
    return replace(sheet, laid=(*told, *cards))


def _settings(standing: Sequence[_Standing]) -> list[Setting]:
    """The settings of these cards, each once where a card goes on."""
    return list({setting.number: setting for settings, _ in standing for setting in settings}.values())


def _cautions(settings: Sequence[Setting], pages: PlainPages, maker: CardMaker, up: Fraction) -> tuple[Stroke, ...]:
    """How to put a test piece right, and what to beware of, ``up`` mm over the foot of a sheet; each said once for all its
    cards.
    """
    left, bottom, right, _ = pages.box
    low = bottom + up
    strokes, _ = fill_frames(_told(settings, maker), ((left, low, right, low + _depth(settings, maker)),))
    return strokes


def _depth(settings: Sequence[Setting], maker: CardMaker) -> Fraction:
    """How much of the sheet that takes."""
    strokes, _ = fill_frames(_told(settings, maker), ((Fraction(0), Fraction(-1000), maker.wide, Fraction(0)),))
    return -bounds_of(strokes)[1] + _ABOVE if strokes else Fraction(0)


def _told(settings: Sequence[Setting], maker: CardMaker) -> list[Paragraph]:
    """What only some of the cards ask for, with their numbers; then in one piece what all of them do.

    Which way to feed and why comes first, then how to put a test piece right, the cautions, and last why each is cut where it is.
    """
    ways = _parted({setting.number: [said for said in (feed_sentence(setting),) if said] for setting in settings})
    reasons = _parted(
        {setting.number: [] if maker.says_why(setting) else [why_words(setting, maker.rule)] for setting in settings}
    )
    corrections = _parted({setting.number: correction_pairs(setting) for setting in settings})
    cautions = _parted({setting.number: [each.value for each in setting.cautions if each not in _ALWAYS] for setting in settings})
    always = [caution.value for caution in _ALWAYS if any(caution in setting.cautions for setting in settings)]
    always.append("Views are true to size: at a table from the out-feed side, else along the cut.")
    if any(setting.speed is not None for setting in settings):
        always.insert(0, "A lower speed marked on a cutter goes before the card's.")
    put_right = (f"{cards}{'. '.join(f'{line[0].upper()}{line[1:]}' for line in told)}." for cards, told in corrections)
    why = [f"{cards}{told}." for cards, sentences in reasons for told in sentences]
    said = [
        " ".join(f"{cards}{told}." for cards, sentences in ways for told in sentences),
        f"If the test piece is out: {' '.join(put_right)}",
        " ".join(f"{cards}{' '.join(told)}" for cards, told in cautions if cards),
        " ".join([*(line for cards, told in cautions if not cards for line in told), *always, *why]),
    ]
    return [Paragraph(line, _SMALL, above=Fraction(1), leading=_CLOSE) for line in said if line]


def _parted(by_card: Mapping[int, Sequence[str]]) -> list[tuple[str, list[str]]]:
    """Sentences by which of the cards they are for: ``Cards 3 and 4: `` before them, nothing where they are for all."""
    cards: dict[str, list[int]] = {}
    for number, said in by_card.items():
        for line in said:
            cards.setdefault(line, []).append(number)
    together: dict[str, list[str]] = {}
    for line, numbers in cards.items():
        name = f"Card{'s' if len(numbers) > 1 else ''} {_numbers(numbers)}: "
        together.setdefault("" if len(numbers) == len(by_card) else name, []).append(line)
    return list(together.items())


def _numbers(numbers: Sequence[int]) -> str:
    """``3 and 5``; ``7 to 11`` for several in a row."""
    if len(numbers) > 2 and numbers[-1] - numbers[0] == len(numbers) - 1:
        return f"{numbers[0]} to {numbers[-1]}"
    return " and ".join(map(str, numbers))


# -- the order of the cards ------------------------------------------------------------------------


def _order_pages(found: SettingsList, pages: PlainPages, *, with_list: bool) -> list[list[PageBlock]]:
    """Every card of ``found`` in the order to cut, page by page: what, where fence and height stand, what has to be touched.

    On top how many set-ups that takes, and how many taking part after part would; then what has to be banded first, and what
    can't be cut, or not as usual. Last, what else is good to know. Rules MS-3, EB-1.
    """
    left, _, right, _ = pages.box
    wide, rule = right - left, pages.plan.rule
    blocks = [title_over(f"{pages.plan.title}: machine settings, in the order to cut", wide, Fraction(11))]
    blocks += (_line(said, wide) for said in (order_words(found), *(f"First, {band_words(each)}." for each in found.bands)))
    blocks += (_small_line(said, wide) for said in (set_up_words(found),) if said)
    # What can't be cut, is cut by hand or wants care must be known first; what the rule leaves over stands on the cards
    # themselves.
    blocks += (_found(finding, wide, rule) for finding in pages.plan.on_cutting)
    if with_list:
        blocks += _rows(found, wide, rule)
    others = (each for each in found.remarks if each.kind != "rule" and each.kind not in _DONE_AT_A_CARD)
    blocks += (_found(remark, wide, rule) for remark in told_together(others))
    return pages.flowed([*blocks, PageBlock((), _ABOVE if with_list else _ABOVE / 2)])


def _rows(found: SettingsList, wide: Fraction, rule: Graduation) -> Iterator[PageBlock]:
    """A line for each card, with a box to tick, under its machine and cutter."""
    yield _captions(wide)
    before: Setting | None = None
    for setting in found.settings:
        is_other = before is None or before.machine is not setting.machine or before.tool.kind is not setting.tool.kind
        if is_other or Adjustment.CUTTER in setting.changes:
            yield _heading(machine_words(setting, rule.sold), feed_words(setting), wide)
        yield _row(setting, wide, rule)
        before = setting


def _line(said: str, wide: Fraction) -> PageBlock:
    lines = [words(line, _WORD) for line in wrapped(said, wide, _WORD)]
    return PageBlock(tuple(_under(lines, _ZERO)), len(lines) * _STEP + 2, leads=True)


def _under(lines: Iterable[Content], y: Fraction, step: Fraction = _STEP) -> Iterator[Stroke]:
    for n, line in enumerate(lines):
        yield Text((_ZERO, y - _WORD - n * step), line)


def _captions(wide: Fraction) -> PageBlock:
    """What the columns are."""
    columns = (("fence", _FENCE), ("height or depth", _HEIGHT), ("to touch", _CHANGE))
    return PageBlock(
        tuple(Text((wide - right, Fraction(-4)), words(said, _SMALL), Align.RIGHT) for said, right in columns),
        Fraction(3),
        leads=True,
    )


def _heading(said: str, feed: str, wide: Fraction) -> PageBlock:
    """The machine and its cutter, and beside or under them which way to feed, where there is one (MS-6)."""
    way = words(feed, _SMALL)
    room = wide - (set_line(way).width + 5 if feed else 0)
    name = fitted(said, wide, (_WORD, _SMALL), bold=True)
    is_beside = set_line(name).width <= room
    low = Fraction(17, 2) + (_FINE_STEP if feed and not is_beside else 0)
    at = (wide, Fraction(-13, 2)) if is_beside else (wide, -low + 2)
    strokes = (Text((_ZERO, Fraction(-13, 2)), name), Line((_ZERO, -low), (wide, -low), Role.FRAME))
    return PageBlock((*strokes, *((Text(at, way, Align.RIGHT),) if feed else ())), low, leads=True)


def _row(setting: Setting, wide: Fraction, rule: Graduation) -> PageBlock:
    """A box to tick, the card's number, what is cut, and the figures; names that are long go on below."""
    fences, heights = ([each for each in setting.readings if (each.value is Value.HEIGHT) is which] for which in (False, True))
    taken = set_line(_first_and_more(fences, rule)).width if fences else _ZERO
    lines = list(wrapped(f"{setting.count} × {cut_words(setting)}", wide - _FENCE - max(taken + 3, _FENCE_WIDE) - _CUT, _WORD))
    high = max(_ROW, len(lines) * _STEP + 2)
    y = Fraction(-19, 4)
    strokes: list[Stroke] = [
        Polyline(corners((_ZERO, y - Fraction(1, 2), Fraction(4), y + Fraction(7, 2))), Role.FRAME, closed=True),
        Text((_NUMBER, y), words(str(setting.number), _WORD, bold=True), Align.RIGHT),
        *(Text((_CUT, y - n * _STEP), words(line, _WORD)) for n, line in enumerate(lines)),
        Text((wide - _CHANGE, y), fitted(touch_words(setting), _CHANGE_WIDE, (_WORD, _SMALL)), Align.RIGHT),
        Line((_ZERO, -high), (wide, -high), Role.ROW),
    ]
    for readings, from_right in ((fences, _FENCE), (heights, _HEIGHT)):
        if readings:
            strokes.append(Text((wide - from_right, y), _first_and_more(readings, rule), Align.RIGHT))
    return PageBlock(tuple(strokes), high)


def _first_and_more(readings: Sequence[Reading], rule: Graduation) -> Content:
    """The first value in figures, and the last where there are several, and to which side of the cutter a fence is (MS-1)."""
    first = figures(readings[0].aim, rule, _WORD)
    side = readings[0].value.short
    to = (Run(f" {side}", _SMALL),) if side else ()
    if len(readings) == 1:
        return (*first, *to)
    last = readings[-1].value
    at_last = (Run(f" {last.short}", _SMALL),) if last.short else ()
    return (
        *first,
        *(to if readings[0].value is not last else ()),
        Run(" to ", _WORD),
        *figures(readings[-1].aim, rule, _WORD),
        *at_last,
    )


def _found(finding: Finding, wide: Fraction, rule: Graduation) -> PageBlock:
    told = " ".join(
        f"{said[0].upper()}{said[1:].rstrip('.')}." for said in (finding.sentence(rule.text), finding.way_out(rule.text)) if said
    )
    return _small_line(f"{_HARM[finding.harm]}, {finding.where}: {told}", wide)


def _small_line(said: str, wide: Fraction) -> PageBlock:
    lines = [words(line, _SMALL) for line in wrapped(said, wide, _SMALL)]
    return PageBlock(tuple(_under(lines, Fraction(-2), _FINE_STEP)), len(lines) * _FINE_STEP + 2)
