"""What to buy and have ready, as rows under the cutting list: a box to tick, how much, and of what (CL-2).

A row of few words takes half the width, so that two columns stand beside each other where that takes less paper.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction
from joinlay.pages.plain_sheet import PageBlock, tick_box, title_over
from joinlay.pen.lettering import fitted, set_line, words, wrapped
from joinlay.pen.marks import Align, Line, Move, Role, Text, moved

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.cutlist.shopping import Shopping, ShoppingLine
    from joinlay.jobs.plan import Plan
    from joinlay.pen.marks import Stroke

__all__ = ["FEW_ROWS", "MANY_ROWS", "shopping_blocks"]

_FIGURE, _WORD, _SMALL = Fraction(5), Fraction(7, 2), Fraction(5, 2)
#: From one small line to the next, and the least height of a row.
_STEP, _ROW = Fraction(18, 5), Fraction(8)
_ZERO: Final = Fraction(0)
#: The right edge of amounts, the left edges of units, things and remarks; and what costs take at the right.
_AMOUNT, _UNIT, _WHAT, _REMARK, _COST = Fraction(28), Fraction(30), Fraction(56), Fraction(96), Fraction(32)
#: In a column of half the width: the right edge of amounts, what costs take there, and the white between the two columns.
_HALF_AMOUNT, _HALF_COST, _BETWEEN = Fraction(24), Fraction(22), Fraction(6)
#: So many rows at most stand in two columns as one block, which goes on a page whole: many, or few where that takes less paper.
MANY_ROWS, FEW_ROWS = 12, 4


def shopping_blocks(plan: Plan, shopping: Shopping, wide: Fraction, most: int = MANY_ROWS) -> Iterator[PageBlock]:
    """What to buy, then what to make and have ready, as blocks ``wide`` mm across; none where there is nothing to have (CL-2).

    Rows that stand in two columns go on a page together, ``most`` of them at most.
    """
    if not shopping.lines:
        return
    yield PageBlock((), Fraction(2), leads=True)
    yield title_over(f"{plan.title}: what to buy and have ready", wide, Fraction(15, 2))
    bought = [line for line in shopping.lines if line.is_bought]
    made = [line for line in shopping.lines if not line.is_bought]
    for said, lines in (("to buy", bought), ("to make and have ready", made)):
        if lines:
            costs = any(line.cost is not None for line in lines)
            single = [_wanted(line, shopping, wide) for line in lines]
            double = [_in_two(lines[n : n + most], shopping, wide) for n in range(0, len(lines), most)]
            yield _wanted_heading(said, wide, costs=costs)
            yield from min((single, double), key=_height)
    yield from _sums(shopping, wide)


def _wanted_heading(said: str, wide: Fraction, *, costs: bool) -> PageBlock:
    y = Fraction(-11, 2)
    strokes: list[Stroke] = [Text((_ZERO, y), words(said, _WORD, bold=True))]
    if costs:
        strokes.append(Text((wide, y), words("cost", _SMALL), Align.RIGHT))
    strokes.append(Line((_ZERO, y - Fraction(3, 2)), (wide, y - Fraction(3, 2)), Role.OUTLINE))
    return PageBlock(tuple(strokes), Fraction(15, 2), leads=True)


def _wanted(line: ShoppingLine, shopping: Shopping, wide: Fraction) -> PageBlock:
    cost = "" if line.cost is None else shopping.money(line.cost)
    remarks = list(wrapped(line.remark, wide - _REMARK - (_COST if cost else 0), _SMALL))
    height = max(_ROW, Fraction(len(remarks) * _STEP + 4))
    y = Fraction(-6)
    strokes: list[Stroke] = [
        tick_box(_ZERO, y),
        Text((_AMOUNT, y), fitted(line.figures, _AMOUNT - 6, (_FIGURE, _WORD, _SMALL), bold=True), Align.RIGHT),
        Text((_UNIT, y), fitted(line.unit, _WHAT - _UNIT - 2, (_WORD, _SMALL))),
        Text((_WHAT, y), fitted(line.what, _REMARK - _WHAT - 2, (_WORD, _SMALL))),
        *_remarks(remarks, y, wide - _REMARK - (_COST if cost else 0)),
        *([Text((wide, y), fitted(cost, _COST - 2, (_WORD, _SMALL)), Align.RIGHT)] if cost else []),
        Line((_ZERO, -height), (wide, -height), Role.ROW),
    ]
    return PageBlock(tuple(strokes), height)


def _height(blocks: Sequence[PageBlock]) -> Fraction:
    return sum((block.height for block in blocks), _ZERO)


def _in_two(lines: Sequence[ShoppingLine], shopping: Shopping, wide: Fraction) -> PageBlock:
    """Rows in two columns, down the first and then the second, parted where the higher of the two is lowest."""
    half = (wide - _BETWEEN) / 2
    rows = [_narrow(line, shopping, half) for line in lines]
    columns = min(([rows[:n], rows[n:]] for n in range(1, len(rows) + 1)), key=lambda two: max(map(_height, two)))
    strokes: list[Stroke] = []
    for x, column in zip((_ZERO, half + _BETWEEN), columns, strict=True):
        y = _ZERO
        for row in column:
            strokes += (moved(stroke, Move(x, y)) for stroke in row.strokes)
            y -= row.height
    return PageBlock(tuple(strokes), max(map(_height, columns)))


def _narrow(line: ShoppingLine, shopping: Shopping, wide: Fraction) -> PageBlock:
    """A row ``wide`` mm across: what there is to say of it small behind it, or under it where that has no room."""
    cost = "" if line.cost is None else shopping.money(line.cost)
    left, under_at = _HALF_AMOUNT + 2, Fraction(6)
    on_line = wide - left - (_HALF_COST if cost else 0)
    high = _WORD if set_line(words(f"{line.unit} {line.what}", _WORD)).width <= on_line else _SMALL
    unit = words(line.unit, high)
    behind = set_line(unit).width + high / 3
    what = fitted(line.what, on_line - behind, (high,))
    after = behind + set_line(what).width + 2
    is_behind = set_line(words(line.remark, _SMALL)).width <= on_line - after
    under = [] if is_behind else list(wrapped(line.remark, wide - under_at, _SMALL))
    height = max(_ROW, Fraction(15, 2) + len(under) * _STEP)
    y = Fraction(-6) if not under else Fraction(-11, 2)
    strokes: list[Stroke] = [
        tick_box(_ZERO, y),
        Text((_HALF_AMOUNT, y), fitted(line.figures, _HALF_AMOUNT - 6, (_FIGURE, _WORD, _SMALL), bold=True), Align.RIGHT),
        Text((left, y), unit),
        Text((left + behind, y), what),
        *([Text((left + after, y), words(line.remark, _SMALL))] if is_behind and line.remark else []),
        *(Text((under_at, y - (n + 1) * _STEP - Fraction(1, 2)), words(said, _SMALL)) for n, said in enumerate(under)),
        *([Text((wide, y), fitted(cost, _HALF_COST - 2, (_WORD, _SMALL)), Align.RIGHT)] if cost else []),
        Line((_ZERO, -height), (wide, -height), Role.ROW),
    ]
    return PageBlock(tuple(strokes), height)


def _remarks(lines: Sequence[str], y: Fraction, room: Fraction) -> Iterator[Text]:
    for n, line in enumerate(lines):
        yield Text((_REMARK, y - n * _STEP), fitted(line, room, (_SMALL,)))


def _sums(shopping: Shopping, wide: Fraction) -> Iterator[PageBlock]:
    """What it comes to, and what metal slides would have cost instead."""
    if shopping.total is not None:
        said = "in all" if shopping.is_whole else "in all, without what has no price"
        yield _sum(said, shopping.money(shopping.total), wide, bold=True)
    if shopping.slides is not None and shopping.slides.cost is not None:
        yield _sum(f"metal slides: {shopping.slides.remark}", shopping.money(shopping.slides.cost), wide, bold=False)


def _sum(said: str, amount: str, wide: Fraction, *, bold: bool) -> PageBlock:
    y = Fraction(-13, 2)
    label = Text((wide - _COST - 2, y), fitted(said, wide - _COST - 4, (_WORD, _SMALL)), Align.RIGHT)
    return PageBlock((label, Text((wide, y), fitted(amount, _COST, (_WORD, _SMALL), bold=bold), Align.RIGHT)), Fraction(9))
