"""What is said once for all the cards: what to beware of, which way to feed and why, how to put a test piece right.

It stands over the first card, and every card says so. Each remark begins with the machines or the cards it is for, unless it is
for all of them.
"""

from __future__ import annotations

from itertools import chain
from typing import TYPE_CHECKING, Final

from joinlay.boards.names import in_few_words, listed
from joinlay.lengths import Fraction
from joinlay.pages.card_head import why_words
from joinlay.pages.plain_sheet import PageBlock
from joinlay.pages.two_columns import column_width, in_columns
from joinlay.pen.lettering import Run, set_line, words, wrapped
from joinlay.pen.marks import Text
from joinlay.settings import Caution
from joinlay.settings.feeding import feed_sentence
from joinlay.settings.wording import correction_pairs

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.pages.setting_card import CardMaker
    from joinlay.settings import Setting

__all__ = ["REMARKS_PLACE", "card_remarks"]

_ZERO: Final = Fraction(0)
#: Letter heights in mm: the heading, and small print.
_WORD, _SMALL = Fraction(7, 2), Fraction(5, 2)
#: From one line to the next, the white under a remark and what a heading takes, in heights of a capital.
_CLOSE, _WHITE, _UNDER = Fraction(7, 5), Fraction(1, 4), Fraction(9, 5)
#: Columns of remarks that are higher than this, in mm, are parted.
_LONG: Final = Fraction(150)
#: What is said first of what to beware of.
_FIRST: Final = (Caution.UNPLUG, Caution.MANUAL)
_HEADING: Final = "Cautions"
_PUT_RIGHT: Final = "If the test piece is out"
#: Where they stand, in words for a card.
REMARKS_PLACE: Final = "over the first card"


def card_remarks(settings: Sequence[Setting], maker: CardMaker) -> list[PageBlock]:
    """The blocks of remarks on all of ``settings``, to stand over the first of their cards: two columns as wide as those, parted
    between remarks where they are very long.

    Cautions first; then which way to feed and why, and why it is cut at this machine where the card itself doesn't say it; last
    how to put a test piece right. Rules MS-6, MS-8, MS-9.
    """
    narrow = column_width(maker.wide)
    kinds = [
        [_head(heading), *(_remark(cards, said, narrow) for cards, said in told)]
        for heading, told in zip((_HEADING, _PUT_RIGHT), _told(settings, maker), strict=True)
        if told
    ]
    pages = in_columns((), list(chain(*kinds)), _LONG, _ZERO)
    if len(pages) > 1:
        # No column goes on in another under a heading that isn't its own.
        pages = [page for blocks in kinds for page in in_columns((), blocks, _LONG, _ZERO)]
    return [PageBlock(page.strokes(_ZERO, _ZERO, maker.wide), page.height) for page in pages]


def _head(said: str) -> PageBlock:
    return PageBlock((Text((_ZERO, -_WORD * _CLOSE), words(said, _WORD, bold=True)),), _WORD * _UNDER, leads=True)


def _remark(cards: str, said: str, wide: Fraction) -> PageBlock:
    """A remark ``wide`` mm across, the ``cards`` it is for before it in heavy letters: they are what is looked for."""
    name = words(cards, _SMALL, bold=True)
    heavier = set_line(name).width - set_line(words(cards, _SMALL)).width if cards else _ZERO
    strokes, y = [], _ZERO
    for n, line in enumerate(wrapped(f"{cards} {said}", wide - heavier, _SMALL)):
        y -= _SMALL * _CLOSE
        begins = n == 0 and cards and line.startswith(cards)
        content = (*name, Run(line.removeprefix(cards), _SMALL)) if begins else words(line, _SMALL)
        strokes.append(Text((_ZERO, y), content))
    return PageBlock(tuple(strokes), -y + _WHITE * _SMALL)


def _told(settings: Sequence[Setting], maker: CardMaker) -> tuple[list[tuple[str, str]], list[tuple[str, str]]]:
    """The remarks in two kinds: cautions, feeding and reasons; putting right. Each as the cards it is for, and what is said."""
    cautions = _parted(settings, [_cautions(each) for each in settings])
    ways = _parted(settings, [[said for said in (feed_sentence(each),) if said] for each in settings])
    corrections = _parted(settings, [correction_pairs(each) for each in settings])
    reasons = _parted(settings, [[] if maker.says_why(each) else [why_words(each, maker.rule)] for each in settings])
    beware = [
        *((cards, " ".join(told)) for cards, told in cautions),
        *((cards, f"{told}.") for cards, sentences in (*ways, *reasons) for told in sentences),
    ]
    right = [(cards, f"{'. '.join(f'{line[0].upper()}{line[1:]}' for line in told)}.") for cards, told in corrections]
    return beware, right


def _cautions(setting: Setting) -> list[str]:
    """What to beware of at one card, what is true of most machines first."""
    said = [caution.value for caution in _FIRST if caution in setting.cautions]
    if setting.speed is not None:
        said.append("A lower speed marked on a cutter goes before the card's.")
    return [*said, *(caution.value for caution in setting.cautions if caution not in _FIRST)]


def _parted(settings: Sequence[Setting], said: Sequence[Sequence[str]]) -> list[tuple[str, list[str]]]:
    """What is ``said`` of each of ``settings``, each sentence once, under the cards it is for: those for most come first."""
    cards: dict[str, list[Setting]] = {}
    for setting, lines in zip(settings, said, strict=True):
        for line in lines:
            cards.setdefault(line, []).append(setting)
    together: dict[str, list[str]] = {}
    for line, these in sorted(cards.items(), key=lambda one: -len(one[1])):
        together.setdefault(_name(these, settings), []).append(line)
    return list(together.items())


def _name(these: Sequence[Setting], settings: Sequence[Setting]) -> str:
    """Which cards ``these`` are of ``settings``: ``Router table and mortiser:``, ``Cards 3 and 4:``; nothing for all."""
    if len(these) == len(settings):
        return ""
    machines = dict.fromkeys(setting.machine for setting in these)
    if len(these) == sum(setting.machine in machines for setting in settings):
        said = listed([machine.value for machine in machines])
        return f"{said[0].upper()}{said[1:]}:"
    return f"Card{'s' if len(these) > 1 else ''} {in_few_words(str(setting.number) for setting in these)}:"
