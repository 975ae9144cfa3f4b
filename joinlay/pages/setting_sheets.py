"""Machine settings on paper: the order of the cards to tick off, then the cards, three to six on a sheet (MS-1 to MS-9).

Where cards are few the list of them is printed only when it is asked for. Cards are shared out in rows in their order, the order
of the work, as many to a sheet as fit; those that differ by no more than a bit and its figures are told in one table. What the
cards of a machine all ask for (cautions, which way to feed and why, how to put a test piece right) stands over the first of them.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.findings import Harm
from joinlay.geometry import corners
from joinlay.lengths import Fraction
from joinlay.pages.card_remarks import REMARKS_PLACE, card_remarks
from joinlay.pages.card_rows import card_rows
from joinlay.pages.plain_sheet import PageBlock, PlainPages, title_over
from joinlay.pages.printed_sheet import Laid, Sheet, bind
from joinlay.pages.printer import Printer
from joinlay.pages.setting_card import CardMaker
from joinlay.pen.lettering import Run, figures, fitted, set_line, words, wrapped
from joinlay.pen.marks import Align, Line, Move, Polyline, Role, Text
from joinlay.settings import Adjustment, Value
from joinlay.settings.feeding import feed_words
from joinlay.settings.wording import (
    band_words,
    cut_words,
    machine_words,
    order_words,
    set_up_words,
    told_together,
    touch_words,
)
from joinlay.templates.template import Template

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from joinlay.findings import Finding
    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Graduation
    from joinlay.pages.card_rows import CardRow
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
#: The white between what stands before the first card and that.
_ABOVE: Final = Fraction(1, 2)
#: The most white over a card.
_MOST_WHITE: Final = Fraction(4)
_ORDER: Final = "order of the cards"
#: Kinds of remark that are told on the card itself.
_DONE_AT_A_CARD: Final = frozenset({"depth stop", "fence step", "mortise width", "dot"})
#: How the views are drawn.
_VIEWS: Final = "Views are true to size: at a table from the out-feed side, else along the cut."

#: Where the columns of the order stand: right edge of the card's number, left edge of what is cut.
_NUMBER, _CUT = Fraction(13), Fraction(17)
#: The same from the right: right edges of the fence, the height, what is touched; and the widths of the first and last.
_FENCE, _HEIGHT, _CHANGE = Fraction(71), Fraction(39), Fraction(0)
_FENCE_WIDE, _CHANGE_WIDE = Fraction(14), Fraction(36)
_HARM: Final = {Harm.REFUSE: "Refused", Harm.WARN: "Warning", Harm.NOTE: "Note"}


def is_listed_in_short(plan: Plan) -> bool:
    """Whether the cards of ``plan`` are so few that they need no list of them before them (PR-11)."""
    return 0 < len(plan.settings.settings) <= _FEW


def setting_sheets(
    plan: Plan, paper: Paper, *, printer: Printer | None = None, with_list: bool = True, begun: Fraction = _ZERO
) -> tuple[Sheet, ...]:
    """First the order of the settings of ``plan``, with the set-ups it takes; then a card for each, three to six to a sheet.

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
    maker = CardMaker(
        boards,
        plan.rule,
        wide,
        has_box=not with_list,
        remarks=_remarks(found, plan.rule),
        cautions=REMARKS_PLACE,
    )
    *order, last = _order_pages(found, pages, maker, with_list=with_list)
    sheets = [pages.sheet(_ORDER, pages.stacked(page)) for page in order]
    under = sum((block.height for block in last), _ZERO)
    begun = _ZERO if sheets else begun
    shared = card_rows(found.settings, maker, high, under + begun)
    if begun and not shared[0]:
        # The first cards go under the order, on a sheet of their own where what comes before leaves them no room.
        begun = _ZERO
        shared = card_rows(found.settings, maker, high, under)
    for n, rows in enumerate(shared):
        # Under the last of them more may begin.
        room = _ZERO if n == len(shared) - 1 else high - (under + begun if n == 0 else 0)
        sheets.append(_sheet(rows, pages, last if n == 0 else (), room))
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


def _sheet(rows: Sequence[CardRow], pages: PlainPages, order: Sequence[PageBlock], room: Fraction) -> Sheet:
    """A sheet of ``rows`` of cards, under the end of the ``order`` where that is on it, with a little of what they leave of their
    ``room`` between them.
    """
    left = room - sum((row.block.height for row in rows), _ZERO)
    white = min(max(left / max(len(rows), 1), _ZERO), _MOST_WHITE)
    strokes = pages.stacked([*order, *(block for row in rows for block in (PageBlock((), white), row.block))])
    # Each once where a card goes on.
    settings = {setting.number: setting for row in rows for setting in row.settings}.values()
    if not settings:
        return pages.sheet(_ORDER, strokes)
    sheet = pages.sheet("", strokes, "views 1:1")
    box = sheet.laid[0].template.box
    templates = [(each, Template((f"card {each.number}",), cut_words(each), strokes, box)) for each in settings]
    told = (Laid(Template((pages.document,), _ORDER, strokes, box), Move()),) if order else ()
    cards = tuple(Laid(template, Move(), serves=each.board_names) for each, template in templates)
    return replace(sheet, laid=(*told, *cards))


# -- the order of the cards ------------------------------------------------------------------------


def _order_pages(found: SettingsList, pages: PlainPages, maker: CardMaker, *, with_list: bool) -> list[list[PageBlock]]:
    """Every card of ``found`` in the order to cut, page by page: what, where fence and height stand, what has to be touched.

    On top how many set-ups that takes, and how many taking part after part would; then what has to be banded first, and what
    can't be cut, or not as usual. Last, what else is good to know, and the remarks on all the cards. Rules MS-3, EB-1.
    """
    left, _, right, _ = pages.box
    wide, rule = right - left, pages.plan.rule
    blocks = [title_over(f"{pages.plan.title}: machine settings, in the order to cut", wide, Fraction(9))]
    blocks += (_line(said, wide) for said in (order_words(found), *(f"First, {band_words(each)}." for each in found.bands)))
    blocks.append(_small_line(" ".join(filter(None, (set_up_words(found), _VIEWS))), wide))
    # What can't be cut, is cut by hand or wants care must be known first; what the rule leaves over stands on the cards
    # themselves.
    blocks += (_found(finding, wide, rule) for finding in pages.plan.on_cutting)
    if with_list:
        blocks += _rows(found, wide, rule)
    others = (each for each in found.remarks if each.kind != "rule" and each.kind not in _DONE_AT_A_CARD)
    blocks += (_found(remark, wide, rule) for remark in told_together(others))
    return pages.flowed([*blocks, *card_remarks(found.settings, maker), PageBlock((), _ABOVE)])


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
    return PageBlock(tuple(_under(lines, _ZERO)), len(lines) * _STEP, leads=True)


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
    return PageBlock(tuple(_under(lines, _ZERO, _FINE_STEP)), len(lines) * _FINE_STEP + 1)
