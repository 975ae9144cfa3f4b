"""Machine settings on paper: the order of the cards to tick off, then the cards, two or so on a sheet with what they share (MS-1 to MS-9)."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction
from joinlay.pages.card import CardMaker
from joinlay.pages.card_order import order_sheets
from joinlay.pages.frames import Paragraph, fill_frames
from joinlay.pages.paper import Printer
from joinlay.pages.plain_sheet import PlainPages
from joinlay.pages.sheet import Laid, Sheet, bind
from joinlay.pen.marks import Move, bounds_of
from joinlay.settings import Caution
from joinlay.settings.fit_wording import correction_pairs
from joinlay.settings.wording import cut_words
from joinlay.templates.template import Template

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from joinlay.jobs.plan import Plan
    from joinlay.pages.paper import Paper
    from joinlay.pages.plain_sheet import Block
    from joinlay.pen.marks import Stroke
    from joinlay.settings import Setting, SettingsList

__all__ = ["setting_sheets"]

_SMALL: Final = Fraction(5, 2)
#: The white above what stands at the foot of a sheet.
_ABOVE: Final = Fraction(3)
#: What every card says last.
_ALWAYS: Final = (Caution.UNPLUG, Caution.MANUAL)

#: A card or a piece of one that stands on a sheet.
_Standing = tuple["Setting", "Block"]


def setting_sheets(found: SettingsList, plan: Plan, paper: Paper, *, printer: Printer | None = None) -> tuple[Sheet, ...]:
    """First the order of the settings of ``found``, with the set-ups it takes; then a card for each, two or three to a sheet. Rules MS-1 to MS-9.

    ``plan`` is the one the settings were made for; nothing where nothing is cut. A card is not parted, unless it names more parts than a
    sheet holds. Views are drawn true, to know the cut by; a distance is set by rule, gauge or test piece, and never taken from a card.
    """
    if not found.settings:
        return ()
    pages = PlainPages(plan, paper, "setting cards", printer or Printer())
    left, bottom, right, top = pages.box
    wide, high = right - left, top - bottom
    maker = CardMaker({board.name: board for board in plan.boards}, plan.rule, wide)
    cards = [(each, block) for each in found.settings for block in maker.blocks(each, high - _depth([each], wide))]
    return bind((*order_sheets(found, pages), *(_sheet(standing, pages) for standing in _shared_out(cards, pages))))


def _shared_out(cards: Sequence[_Standing], pages: PlainPages) -> Iterator[list[_Standing]]:
    """The cards sheet by sheet, in their order: as many as fit with the cautions of all of them below."""
    left, bottom, right, top = pages.box
    sheet: list[_Standing] = []
    for card in cards:
        more = [*sheet, card]
        if sheet and sum(block.height for _, block in more) + _depth(_settings(more), right - left) > top - bottom:
            yield sheet
            more = [card]
        sheet = more
    yield sheet


def _sheet(standing: Sequence[_Standing], pages: PlainPages) -> Sheet:
    left, bottom, right, _ = pages.box
    settings = _settings(standing)
    strokes = (*pages.stacked([block for _, block in standing]), *_cautions(settings, (left, bottom, right)))
    sheet = pages.sheet("", strokes, "views 1:1")
    templates = [(each, Template((f"card {each.number}",), cut_words(each), strokes, bounds_of(strokes))) for each in settings]
    return replace(sheet, laid=tuple(Laid(template, Move(), serves=each.board_names) for each, template in templates))


def _settings(standing: Sequence[_Standing]) -> list[Setting]:
    """The settings of these cards, each once where a card goes on."""
    return list({setting.number: setting for setting, _ in standing}.values())


def _cautions(settings: Sequence[Setting], strip: tuple[Fraction, Fraction, Fraction]) -> tuple[Stroke, ...]:
    """How to put a test piece right, and what to beware of, at the foot of a sheet; each said once for all its cards."""
    left, bottom, right = strip
    strokes, _ = fill_frames(_told(settings), ((left, bottom, right, bottom + _depth(settings, right - left)),))
    return strokes


def _depth(settings: Sequence[Setting], wide: Fraction) -> Fraction:
    """How much of the sheet that takes."""
    strokes, _ = fill_frames(_told(settings), ((Fraction(0), Fraction(-1000), wide, Fraction(0)),))
    return -bounds_of(strokes)[1] + _ABOVE if strokes else Fraction(0)


def _told(settings: Sequence[Setting]) -> list[Paragraph]:
    """What only some of the cards ask for, with their numbers; then in one piece what all of them do."""
    corrections = _parted({setting.number: correction_pairs(setting) for setting in settings})
    cautions = _parted({setting.number: [each.value for each in setting.cautions if each not in _ALWAYS] for setting in settings})
    always = [caution.value for caution in _ALWAYS if any(caution in setting.cautions for setting in settings)]
    always.append("Views are true to size: at a table from the out-feed side, else along the cut.")
    if any(setting.speed is not None for setting in settings):
        always.insert(0, "A lower speed marked on a cutter goes before the card's.")
    said = [f"{cards}{'. '.join(f'{line[0].upper()}{line[1:]}' for line in told)}." for cards, told in corrections]
    said[0] = f"If the test piece is out: {said[0]}"
    said += [f"{cards}{' '.join(told)}" for cards, told in cautions if cards]
    said += [" ".join([*(line for cards, told in cautions if not cards for line in told), *always])]
    return [Paragraph(line, _SMALL, above=Fraction(1)) for line in said if line]


def _parted(by_card: Mapping[int, Sequence[str]]) -> list[tuple[str, list[str]]]:
    """Sentences by which of the cards they are for: ``Cards 3 and 4: `` before them, nothing where they are for all."""
    cards: dict[str, list[int]] = {}
    for number, said in by_card.items():
        for line in said:
            cards.setdefault(line, []).append(number)
    together: dict[str, list[str]] = {}
    for line, numbers in cards.items():
        name = f"Card{'s' if len(numbers) > 1 else ''} {' and '.join(map(str, numbers))}: "
        together.setdefault("" if len(numbers) == len(by_card) else name, []).append(line)
    return list(together.items())
