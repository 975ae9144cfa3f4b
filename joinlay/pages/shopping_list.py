"""What to buy and have ready, on paper: a box to tick, how much, of what, a word on it, and what it costs (CL-2)."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction
from joinlay.pages.frames import wrapped
from joinlay.pages.plain_sheet import Block
from joinlay.pages.ticking import tick_box
from joinlay.pen.lettering import fitted, words
from joinlay.pen.marks import Align, Line, Role, Text

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.cutlist.shopping import Shopping, ShoppingLine
    from joinlay.jobs.plan import Plan
    from joinlay.pen.marks import Stroke

__all__ = ["shopping_blocks"]

_TITLE, _FIGURE, _WORD, _SMALL = Fraction(5), Fraction(5), Fraction(7, 2), Fraction(5, 2)
_STEP, _ROW = Fraction(4), Fraction(9)
_ZERO: Final = Fraction(0)
#: Where the columns stand: the right edge of amounts, the left edges of units, things and remarks; and what costs take at the right.
_AMOUNT, _UNIT, _WHAT, _REMARK, _COST = Fraction(30), Fraction(32), Fraction(64), Fraction(109), Fraction(32)


def shopping_blocks(plan: Plan, shopping: Shopping, wide: Fraction) -> Iterator[Block]:
    """The list as blocks ``wide`` mm across; nothing where there is nothing to have. What is bought comes before what is made (CL-2)."""
    if not shopping.lines:
        return
    yield Block((), Fraction(6), leads=True)
    title = fitted(f"{plan.title}: what to buy and have ready", wide, (_TITLE, _WORD, _SMALL), bold=True)
    yield Block((Text((_ZERO, -_TITLE - 2), title),), Fraction(9), leads=True)
    bought = [line for line in shopping.lines if line.is_bought]
    made = [line for line in shopping.lines if not line.is_bought]
    for said, lines in (("to buy", bought), ("to make and have ready", made)):
        if lines:
            yield _heading(said, wide, costs=any(line.cost is not None for line in lines))
            yield from (_wanted(line, shopping, wide) for line in lines)
    yield from _sums(shopping, wide)


def _heading(said: str, wide: Fraction, *, costs: bool) -> Block:
    y = Fraction(-8)
    strokes: list[Stroke] = [Text((_ZERO, y), words(said, _WORD, bold=True))]
    if costs:
        strokes.append(Text((wide, y), words("cost", _SMALL), Align.RIGHT))
    strokes.append(Line((_ZERO, y - Fraction(3, 2)), (wide, y - Fraction(3, 2)), Role.OUTLINE))
    return Block(tuple(strokes), Fraction(10), leads=True)


def _wanted(line: ShoppingLine, shopping: Shopping, wide: Fraction) -> Block:
    cost = "" if line.cost is None else shopping.money(line.cost)
    remarks = list(wrapped(line.remark, wide - _REMARK - (_COST if cost else 0), _SMALL))
    height = max(_ROW, Fraction(len(remarks) * _STEP + 4))
    y = Fraction(-13, 2)
    strokes: list[Stroke] = [
        tick_box(_ZERO, y),
        Text((_AMOUNT, y), fitted(line.figures, _AMOUNT - 6, (_FIGURE, _WORD, _SMALL), bold=True), Align.RIGHT),
        Text((_UNIT, y), fitted(line.unit, _WHAT - _UNIT - 2, (_WORD, _SMALL))),
        Text((_WHAT, y), fitted(line.what, _REMARK - _WHAT - 2, (_WORD, _SMALL))),
        *_remarks(remarks, y, wide - _REMARK - (_COST if cost else 0)),
        *([Text((wide, y), fitted(cost, _COST - 2, (_WORD, _SMALL)), Align.RIGHT)] if cost else []),
        Line((_ZERO, -height), (wide, -height), Role.HATCH),
    ]
    return Block(tuple(strokes), height)


def _remarks(lines: Sequence[str], y: Fraction, room: Fraction) -> Iterator[Text]:
    for n, line in enumerate(lines):
        yield Text((_REMARK, y - n * _STEP), fitted(line, room, (_SMALL,)))


def _sums(shopping: Shopping, wide: Fraction) -> Iterator[Block]:
    """What it comes to, and what metal slides would have cost instead."""
    if shopping.total is not None:
        said = "in all" if shopping.is_whole else "in all, without what has no price"
        yield _sum(said, shopping.money(shopping.total), wide, bold=True)
    if shopping.slides is not None and shopping.slides.cost is not None:
        yield _sum(f"metal slides: {shopping.slides.remark}", shopping.money(shopping.slides.cost), wide, bold=False)


def _sum(said: str, amount: str, wide: Fraction, *, bold: bool) -> Block:
    y = Fraction(-13, 2)
    label = Text((wide - _COST - 2, y), fitted(said, wide - _COST - 4, (_WORD, _SMALL)), Align.RIGHT)
    return Block((label, Text((wide, y), fitted(amount, _COST, (_WORD, _SMALL), bold=bold), Align.RIGHT)), Fraction(9))
