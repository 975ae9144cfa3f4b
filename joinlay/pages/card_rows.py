"""Setting cards shared out on sheets in their order, the order of the work: as many to a sheet as fit, none parted (PR-11).

Cards that differ by no more than a bit and its figures are told in one table, and one for which nothing is touched says so under
the one before it. What is said once for all of them goes over the
first.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction
from joinlay.pages.card_table import alike_cards, card_table
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.pages.plain_sheet import PageBlock
    from joinlay.pages.setting_card import CardMaker
    from joinlay.settings import Setting

__all__ = ["CardRow", "card_rows"]

_ZERO: Final = Fraction(0)


@dataclass(frozen=True, slots=True)
class CardRow:
    """A card, or a piece of one, that stands on a sheet in its ``block``; several ``settings`` where one table tells them."""

    settings: tuple[Setting, ...]
    block: PageBlock


def card_rows(settings: Sequence[Setting], maker: CardMaker, room: Fraction, taken: Fraction) -> list[list[CardRow]]:
    """The cards of ``settings`` sheet by sheet, in their order; sheets are ``room`` mm high.

    ``taken`` mm of the first are taken already: where the first card has no room under it that sheet has none.
    """
    sheets: list[list[CardRow]] = [[]]
    for alike in alike_cards(settings, maker):
        before = sheets[-1][-1].settings[-1] if sheets[-1] else None
        again = maker.again(alike[0], before) if len(alike) == 1 and before is not None else None
        if again is not None and taken + again.height <= room:
            sheets[-1].append(CardRow(alike, again))
            taken += again.height
            continue
        for row in _rows(alike, maker, room):
            if taken and taken + row.block.height > room:
                sheets.append([])
                taken = _ZERO
            sheets[-1].append(row)
            taken += row.block.height
    return sheets


def _rows(alike: tuple[Setting, ...], maker: CardMaker, room: Fraction) -> Iterator[CardRow]:
    """Cards that are alike in one table, where it has room; else each by itself, in pieces where it is higher than a sheet."""
    table = card_table(alike, maker) if len(alike) > 1 else None
    if table is not None and table.height <= room:
        yield CardRow(alike, table)
        return
    for each in alike:
        yield from (CardRow((each,), block) for block in maker.blocks(each, room))
