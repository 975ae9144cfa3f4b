"""What is said once for all the cards: what to beware of, which way to feed and why, how to put a test piece right.

It stands over the first card, and every card says so. Each sentence names the machines or the cards it is for, unless it is for
all of them.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.boards.names import in_few_words, listed
from joinlay.lengths import Fraction
from joinlay.pages.card_head import why_words
from joinlay.pages.plain_sheet import PageBlock, Paragraph, fill_frames
from joinlay.settings import Caution
from joinlay.settings.feeding import feed_sentence
from joinlay.settings.wording import correction_pairs

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.pages.setting_card import CardMaker
    from joinlay.settings import Setting

__all__ = ["REMARKS_PLACE", "card_remarks"]

_ZERO: Final = Fraction(0)
#: Letter heights in mm: the heading, and small print.
_WORD, _SMALL = Fraction(7, 2), Fraction(5, 2)
#: From one line to the next, in heights of a capital; the white under a paragraph.
_CLOSE, _WHITE = Fraction(7, 5), Fraction(1, 2)
#: A kind of remark that is higher than this, in mm, is parted between its pieces.
_LONG: Final = Fraction(90)
_ENDLESS: Final = Fraction(10_000)
#: What is said first of what to beware of.
_FIRST: Final = (Caution.UNPLUG, Caution.MANUAL)
_HEADING: Final = "Cautions, and what to do if a test piece is out"
#: Where they stand, in words for a card.
REMARKS_PLACE: Final = "over the first card"


def card_remarks(settings: Sequence[Setting], maker: CardMaker) -> list[PageBlock]:
    """The blocks of remarks on all of ``settings``, to stand over the first of their cards, as wide as those: a heading, and a
    block for each kind of remark, which is parted between sentences where it is very long.

    Cautions first; then which way to feed and why, and why it is cut at this machine where the card itself doesn't say it; last
    how to put a test piece right. Rules MS-6, MS-8, MS-9.
    """
    blocks = [_block(Paragraph(_HEADING, _WORD, bold=True), maker.wide, leads=True)]
    for said in _told(settings, maker):
        whole = _block(Paragraph(" ".join(said), _SMALL), maker.wide)
        blocks += [whole] if whole.height <= _LONG else [_block(Paragraph(one, _SMALL), maker.wide) for one in said]
    return blocks


def _block(said: Paragraph, wide: Fraction, *, leads: bool = False) -> PageBlock:
    strokes, _ = fill_frames([replace(said, leading=_CLOSE)], ((_ZERO, -_ENDLESS, wide, _ZERO),))
    return PageBlock(strokes, len(strokes) * said.height * _CLOSE + _WHITE, leads=leads)


def _told(settings: Sequence[Setting], maker: CardMaker) -> Iterator[list[str]]:
    """The remarks in two kinds, neither empty: cautions, feeding and reasons; putting right. Each in pieces, with the cards they
    are for before them.
    """
    cautions = _parted(settings, [_cautions(each) for each in settings])
    ways = _parted(settings, [[said for said in (feed_sentence(each),) if said] for each in settings])
    corrections = _parted(settings, [correction_pairs(each) for each in settings])
    reasons = _parted(settings, [[] if maker.says_why(each) else [why_words(each, maker.rule)] for each in settings])
    kinds = [
        [
            *(f"{cards}{' '.join(told)}" for cards, told in cautions),
            *(f"{cards}{told}." for cards, sentences in (*ways, *reasons) for told in sentences),
        ],
        [f"{cards}{'. '.join(f'{line[0].upper()}{line[1:]}' for line in told)}." for cards, told in corrections],
    ]
    if kinds[1]:
        kinds[1][0] = f"If the test piece is out: {kinds[1][0]}"
    yield from filter(None, kinds)


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
    """Which cards ``these`` are among all of ``settings``: ``Router table and mortiser: ``, ``Cards 3 and 4: ``; nothing for
    all.
    """
    if len(these) == len(settings):
        return ""
    machines = dict.fromkeys(setting.machine for setting in these)
    if len(these) == sum(setting.machine in machines for setting in settings):
        said = listed([machine.value for machine in machines])
        return f"{said[0].upper()}{said[1:]}: "
    return f"Card{'s' if len(these) > 1 else ''} {in_few_words(str(setting.number) for setting in these)}: "
