"""The cutting list on paper, and under it what to buy: a box to tick, how many, the size to cut, and where each part goes (CL-1)."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Final

from joinlay.cutlist.cutting_list import Grain
from joinlay.drawings.lettering import figures, fitted, words
from joinlay.drawings.marks import Align, Line, Polyline, Role, Text
from joinlay.drawings.outlines import corners
from joinlay.pages.frames import wrapped
from joinlay.pages.paper import Printer
from joinlay.pages.plain_sheet import Block, PlainPages, flow

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.cutlist.cutting_list import Group, Row
    from joinlay.cutlist.lists import Lists
    from joinlay.cutlist.shopping import Line as Wanted
    from joinlay.drawings.marks import Stroke
    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Length
    from joinlay.pages.paper import Paper
    from joinlay.pages.sheet import Sheet

__all__ = ["cutting_list_sheets"]

_TITLE, _FIGURE, _WORD, _SMALL = Fraction(5), Fraction(7, 2), Fraction(7, 2), Fraction(5, 2)
#: From one line of words to the next, and the least height of a row.
_STEP, _ROW = Fraction(5), Fraction(8)
_ZERO: Final = Fraction(0)


@dataclass(frozen=True, slots=True)
class _Columns:
    """Where the columns stand, in mm from the left: the right edges of numbers, the left edges of words."""

    tick: Fraction
    number: Fraction
    count: Fraction
    where: Fraction
    sizes: tuple[Fraction, Fraction, Fraction, Fraction]

    @classmethod
    def of(cls, wide: Fraction) -> _Columns:
        column = Fraction(26)
        sizes = (wide - 3 * column, wide - 2 * column, wide - column, wide)
        return cls(_ZERO, Fraction(12), Fraction(27), Fraction(30), sizes)

    @property
    def words(self) -> Fraction:
        """The room for where a part goes."""
        return self.sizes[0] - 26 - self.where


def cutting_list_sheets(plan: Plan, lists: Lists, paper: Paper, *, printer: Printer | None = None) -> tuple[Sheet, ...]:
    """The cutting list and what to buy on sheets of ``paper`` (CL-1).

    Sizes stand on the maker's rule, + or - after one meaning a hair more or less.
    """
    pages = PlainPages(plan, paper, "cutting list", printer or Printer())
    left, bottom, right, top = pages.box
    columns = _Columns.of(right - left)
    blocks = [_title(f"{plan.title}: cutting list")]
    for group in lists.parts.groups:
        blocks.append(_heading(group, plan, columns))
        blocks += (_row(row, plan, columns) for row in group.rows)
    blocks += _shopping(plan, lists, right - left)
    parted = flow(blocks, top - bottom)
    return pages.sheets([(f"page {n}", pages.stacked(page)) for n, page in enumerate(parted, start=1)])


def _title(said: str) -> Block:
    return Block((Text((_ZERO, -_TITLE - 2), words(said, _TITLE, bold=True)),), Fraction(10), leads=True)


def _heading(group: Group, plan: Plan, columns: _Columns) -> Block:
    """The stock, its thickness, and what the columns are."""
    y = Fraction(-15)
    named = f"{group.name}, {plan.rule.text(group.thickness)} thick"
    strokes: list[Stroke] = [
        Text((_ZERO, Fraction(-9)), fitted(named, columns.sizes[-1], (_TITLE, _WORD, _SMALL), bold=True)),
        Text((columns.number, y), words("no.", _SMALL), Align.RIGHT),
        Text((columns.count, y), words("make", _SMALL), Align.RIGHT),
        Text((columns.where, y), words("part", _SMALL)),
        *(Text((x, y), words(said, _SMALL), Align.RIGHT) for x, said in zip(columns.sizes, _CAPTIONS, strict=True)),
        Line((_ZERO, y - Fraction(3, 2)), (columns.sizes[-1], y - Fraction(3, 2)), Role.FRAME),
    ]
    return Block(tuple(strokes), Fraction(17), leads=True)


_CAPTIONS: Final = ("length", "width", "saw to length", "and width")


def _row(row: Row, plan: Plan, columns: _Columns) -> Block:
    lines = [*wrapped(row.where, columns.words, _WORD), *(f"{said}" for said in _remarks(row))]
    height = max(_ROW, len(lines) * _STEP + 2)
    y = Fraction(-11, 2)
    tick = (columns.tick, y - Fraction(1, 2), columns.tick + 4, y + Fraction(7, 2))
    strokes: list[Stroke] = [
        Polyline(corners(tick), Role.FRAME, closed=True),
        Text((columns.number, y), words(str(row.number), _WORD), Align.RIGHT),
        Text((columns.count, y), words(f"{row.quantity} ×", _WORD, bold=True), Align.RIGHT),
        *_lines(lines, columns, y, len(lines) - len(_remarks(row))),
        *_sizes(row, plan, columns, y),
        Line((_ZERO, -height), (columns.sizes[-1], -height), Role.HATCH),
    ]
    return Block(tuple(strokes), height)


def _lines(lines: Sequence[str], columns: _Columns, y: Fraction, named: int) -> Iterator[Text]:
    """The names, and small under them what else there is to know."""
    for n, line in enumerate(lines):
        heights = (_WORD, _SMALL) if n < named else (_SMALL,)
        yield Text((columns.where, y - n * _STEP), fitted(line, columns.words, heights))


def _remarks(row: Row) -> list[str]:
    said = []
    if row.grain is Grain.ANY:
        said.append("grain does not matter")
    if row.bands:
        edges = ", ".join(f"{row.board.datum.word(band.surface)} {band.stock}" for band in row.bands)
        said.append(f"band, in this order: {edges}")
    if row.board.tapers:
        said.append("tapered: see its template")
    return said


def _sizes(row: Row, plan: Plan, columns: _Columns, y: Fraction) -> Iterator[Text]:
    """Finished sizes and, where they are not the same, those to saw."""
    sawn = row.sawn if row.sawn != row.finished else None
    lengths: tuple[Length | None, ...] = (row.finished.length, row.finished.width)
    lengths += (None, None) if sawn is None else (sawn.length, sawn.width)
    for x, length in zip(columns.sizes, lengths, strict=True):
        if length is not None:
            yield Text((x, y), figures(length, plan.rule, _FIGURE), Align.RIGHT)


# -- what to buy -------------------------------------------------------------------------------------


def _shopping(plan: Plan, lists: Lists, wide: Fraction) -> Iterator[Block]:
    shopping = lists.shopping
    if not shopping.lines:
        return
    yield _title(f"{plan.title}: what to buy and have ready")
    for line in shopping.lines:
        cost = "" if line.cost is None else shopping.money(line.cost)
        yield _wanted(line, cost, wide)
    if shopping.total is not None:
        said = "in all" if shopping.is_whole else "in all, without what has no price"
        yield _sum(said, shopping.money(shopping.total), wide)
    if shopping.slides is not None and shopping.slides.cost is not None:
        yield _sum(f"metal slides would have cost, {shopping.slides.remark}", shopping.money(shopping.slides.cost), wide)


def _wanted(line: Wanted, cost: str, wide: Fraction) -> Block:
    remarks = list(wrapped(line.remark, wide - 112 - (30 if cost else 0), _SMALL))
    height = max(_ROW, Fraction(len(remarks) * 4 + 4))
    y = Fraction(-11, 2)
    strokes: list[Stroke] = [
        Text((Fraction(22), y), words(line.figures, _WORD, bold=True), Align.RIGHT),
        Text((Fraction(24), y), words(line.unit, _WORD)),
        Text((Fraction(64), y), fitted(line.what, Fraction(45), (_WORD, _SMALL))),
        *(Text((Fraction(112), y - n * 4), words(said, _SMALL)) for n, said in enumerate(remarks)),
        Text((wide, y), words(cost, _WORD), Align.RIGHT),
        Line((_ZERO, -height), (wide, -height), Role.HATCH),
    ]
    return Block(tuple(strokes), height)


def _sum(said: str, amount: str, wide: Fraction) -> Block:
    y = Fraction(-6)
    label = Text((wide - 30, y), fitted(said, wide - 32, (_WORD, _SMALL)), Align.RIGHT)
    return Block((label, Text((wide, y), words(amount, _WORD, bold=True), Align.RIGHT)), Fraction(8))
