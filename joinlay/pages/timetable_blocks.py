"""The timetable of the glue-ups, for the chapter on putting a piece together: when each is done, and what while it cures (PT-9).

A row says its hour, what is glued and what is done meanwhile, in as many lines as that takes, and the minutes at the right.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.assembly.glue_words import clamps_owned_words, slot_rows, timetable_words
from joinlay.lengths import Fraction
from joinlay.pages.plain_sheet import PageBlock
from joinlay.pages.told_beside import SMALL, WHITE, Saying, heading, told_in_blocks
from joinlay.pen.lettering import set_line, words, wrapped
from joinlay.pen.marks import Align, Text

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.jobs.plan import Plan

__all__ = ["timetable_blocks"]

#: From one line to the next, the white under a row of several lines, and between two columns of figures or words, in mm.
_STEP, _LEAST, _APART = Fraction(19, 5), Fraction(2, 5), Fraction(2)
_ZERO: Final = Fraction(0)


def timetable_blocks(plan: Plan, wide: Fraction) -> Iterator[PageBlock]:
    """When each glue-up is done, and what while it cures, ``wide`` mm across; nothing where there is no glue (PT-9)."""
    rows = slot_rows(plan.timetable)
    if not rows:
        return
    yield heading("When each is glued", wide)
    said = f"{timetable_words(plan.timetable, is_said=plan.shop.clamps is not None)}."
    if plan.timetable.clamps:
        said += f" Clamps: {clamps_owned_words(plan.timetable.clamps, plan.rule)}."
    yield from told_in_blocks([Saying(said, leads=True)], wide)
    yield from _rows(rows, wide)
    yield PageBlock((), WHITE)


def _rows(rows: Sequence[tuple[str, str, str, str]], wide: Fraction) -> Iterator[PageBlock]:
    hour, _, long, _ = (max(map(_wide, column)) for column in zip(*rows, strict=True))
    left = hour + _APART
    for begins, named, takes, then in rows:
        lines = list(wrapped(f"{named}; {then}", wide - long - _APART - left, SMALL))
        texts = [Text((_ZERO, -_STEP), words(begins, SMALL))]
        texts += (Text((left, -n * _STEP), words(line, SMALL)) for n, line in enumerate(lines, start=1))
        texts.append(Text((wide, -_STEP), words(takes, SMALL), Align.RIGHT))
        yield PageBlock(tuple(texts), len(lines) * _STEP + _LEAST)


def _wide(said: str) -> Fraction:
    return set_line(words(said, SMALL)).width
