"""The cutting list on paper, and after it what to buy: a box to tick, how many, what sizes, and where each goes (CL-1, CL-2)."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.boards import PartKind
from joinlay.cutlist.cutting_list import row_remarks
from joinlay.findings import Harm
from joinlay.lengths import Fraction
from joinlay.pages.plain_sheet import PageBlock, PlainPages, hung, tick_box
from joinlay.pages.printed_sheet import bind
from joinlay.pages.printer import Printer
from joinlay.pages.shopping_rows import FEW_ROWS, MANY_ROWS, shopping_blocks
from joinlay.pen.lettering import figures, fitted, plain, set_line, words, wrapped
from joinlay.pen.marks import Align, Line, Move, Role, Text, bounds_of, moved
from joinlay.pictures.part_picture import thumbnail
from joinlay.records import dataclass
from joinlay.stock import Sheet as SheetStock
from joinlay.stock import Solid

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.cutlist.cutting_list import CuttingList, Group, Row
    from joinlay.cutlist.lists import Lists
    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Graduation, Length
    from joinlay.pages.printed_sheet import Sheet
    from joinlay.paper import Paper
    from joinlay.pen.marks import Stroke

__all__ = ["ListRows", "cutting_list_sheets", "list_rows"]

#: The blocks of a cutting list, laid out in one way after the other, the best first.
ListRows = tuple[list[PageBlock], ...]

_TITLE: Final = Fraction(5)
#: Figures to be read at arm's length, words, and what is only now and then looked for.
_FIGURE, _WORD, _SMALL, _TINY = Fraction(5), Fraction(7, 2), Fraction(5, 2), Fraction(9, 5)
#: From one line of words to the next, from one of small words to the next, and the least height of a row.
_STEP, _SMALL_STEP, _ROW = Fraction(5), Fraction(18, 5), Fraction(8)
#: Down to the first of several lines of a row, where words are as large as any and where they are small; white under the last.
_FIRST, _FIRST_SMALL, _LAST = Fraction(5), Fraction(4), Fraction(1)
#: White between words and small ones under them.
_UNDER: Final = Fraction(6, 5)
#: From the head of the list down to the first line under its title.
_UNDER_TITLE: Final = Fraction(53, 5)
#: From one line of a caution to the next.
_CAUTION_STEP: Final = Fraction(5)
_ZERO: Final = Fraction(0)
#: How wide and high a picture of a part may be in its row.
_PICTURE: Final = (Fraction(14), Fraction(6))
_HARMS: Final = {Harm.REFUSE: "refused", Harm.WARN: "warning", Harm.NOTE: "good to know"}
#: What the columns mean, at the head of the first page.
_LEGEND: Final = (
    "Length runs with the grain. Finished: the size in the piece, bands included; saw to: what to cut first where that differs, "
    "before planing or banding. + or − after a figure: a hair more, or less. Tick off what is sawn. Pictures are not to scale."
)


@dataclass(frozen=True, slots=True)
class _Columns:
    """Where the columns of the cutting list stand, in mm from the left: figures by their right edges, words by their left.

    A sign after a figure hangs past the edge.
    """

    wide: Fraction
    number: Fraction
    count: Fraction
    where: Fraction
    finished: tuple[Fraction, Fraction]
    sawn: tuple[Fraction, Fraction]
    picture: Fraction | None = None

    @classmethod
    def of(cls, wide: Fraction, *, has_pictures: bool = False) -> _Columns:
        """For pages ``wide`` mm across, with room for a picture of each part or without."""
        beside = ((wide - 79, wide - 46), (wide - 24, wide - 4))
        if has_pictures:
            return cls(wide, Fraction(12), Fraction(26), Fraction(29) + _PICTURE[0], *beside, Fraction(27))
        return cls(wide, Fraction(12), Fraction(26), Fraction(28), *beside)

    @property
    def words(self) -> Fraction:
        """The room for where a part goes."""
        return self.finished[0] - 23 - self.where


def cutting_list_sheets(
    plan: Plan, lists: Lists, paper: Paper, *, printer: Printer | None = None, begun: Fraction = _ZERO, rows: ListRows = ()
) -> tuple[Sheet, ...]:
    """The cutting list and what to buy on sheets of ``paper`` (CL-1).

    ``lists`` are those of ``plan``, ``rows`` the ``list_rows`` of these, where they have been made. Sizes stand on the maker's
    rule, + or - after one meaning a hair more or less. What to buy goes on under the list. ``begun`` mm of the first sheet are
    left to what comes before. Each row has a small picture of its part; where a column for them would take a sheet more, the rows
    that have room for one (PR-11).
    """
    pages = PlainPages(plan, paper, "cutting list", printer or Printer(), begun)
    # Pictures have a column of their own where that takes no more paper.
    tries = (_parted(blocks, lists, pages) for blocks in rows or list_rows(plan, lists, paper, printer=printer))
    parted = min(tries, key=len)
    return bind(
        [
            pages.sheet(f"page {n}", pages.stacked(page), serves=tuple(name for block in page for name in block.serves))
            for n, page in enumerate(parted, start=1)
        ]
    )


def list_rows(plan: Plan, lists: Lists, paper: Paper, *, printer: Printer | None = None) -> ListRows:
    """What of the cutting list stays the same whatever there is to buy: with pictures in a column of their own, and without."""
    left, _, right, _ = PlainPages(plan, paper, "cutting list", printer or Printer()).box
    pictures = {id(row): thumbnail(row.board, _PICTURE) for row in lists.parts.rows}
    return tuple(_blocks(plan, lists, _Columns.of(right - left, has_pictures=has), pictures) for has in (True, False))


#: The strokes of each row's picture, by the row's ``id``.
_Pictures = dict[int, "tuple[Stroke, ...]"]


def _blocks(plan: Plan, lists: Lists, columns: _Columns, pictures: _Pictures) -> list[PageBlock]:
    """The blocks of the list, without what was found and what to buy."""
    blocks = [_title(plan, lists.parts, columns.wide)]
    before: Group | None = None
    groups = lists.parts.groups
    for n, group in enumerate(groups):
        # The columns that are told of are those of all that follows.
        is_sawn = any(row.sawn != row.finished for own in groups[n:] for row in own.rows)
        full = _heading(group, plan.rule, columns, is_sawn=is_sawn)
        # Knobs that grow down the bank are each of a thickness of their own; one heading does for all of one wood.
        if before is None:
            blocks.append(full)
        elif not (group.name == before.name and _is_knobs(group) and _is_knobs(before)):
            # What the columns are is said at the head of a page.
            blocks.append(replace(_short_heading(group, plan.rule, columns), at_head=full))
        again = _heading(group, plan.rule, columns, ", continued", is_sawn=is_sawn)
        before = group
        blocks += (replace(_row(row, plan.rule, columns, pictures[id(row)]), again=again) for row in group.rows)
    blocks += (_caution(caution.sentence(lambda length: _read(length, plan.rule)), columns.wide) for caution in lists.cautions)
    return blocks


def _parted(made: Sequence[PageBlock], lists: Lists, pages: PlainPages) -> list[list[PageBlock]]:
    """The blocks ``made`` of the list, those of what was found under its title, and those of what to buy, page by page.

    What to buy is parted where that leaves more of the last page.
    """
    left, _, right, _ = pages.box
    found = _found(lists, pages.plan.rule, right - left)
    listed = [made[0], *found, *made[1:]]
    tries = (
        pages.flowed([*listed, *shopping_blocks(pages.plan, lists.shopping, right - left, most)])
        for most in (MANY_ROWS, FEW_ROWS)
    )
    return min(tries, key=lambda parted: (len(parted), sum(block.height for block in parted[-1])))


def _is_knobs(group: Group) -> bool:
    return all(row.kind is PartKind.KNOB_BLANK for row in group.rows)


def _title(plan: Plan, parts: CuttingList, wide: Fraction) -> PageBlock:
    count = sum(group.quantity for group in parts.groups)
    tally = words(f"{count} parts, {len(parts.rows)} different" if count != 1 else "1 part", _WORD)
    legend = list(wrapped(_LEGEND, wide, _SMALL))
    strokes: list[Stroke] = [
        Text((_ZERO, -_TITLE - 1), fitted(f"{plan.title}: cutting list", wide - 60, (_TITLE, _WORD, _SMALL), bold=True)),
        Text((wide, -_TITLE - 1), tally, Align.RIGHT),
        *(Text((_ZERO, -_UNDER_TITLE - n * _SMALL_STEP), words(line, _SMALL)) for n, line in enumerate(legend)),
    ]
    return PageBlock(tuple(strokes), _UNDER_TITLE + len(legend) * _SMALL_STEP - 1, leads=True)


def _found(lists: Lists, rule: Graduation, wide: Fraction) -> Iterator[PageBlock]:
    """What was found while parts were listed and laid out: where in bold, what, and what would help."""
    for n, finding in enumerate(lists.findings):
        said = f"{finding.sentence(rule.text)} {finding.way_out(rule.text)}"
        lines = list(wrapped(said, wide, _SMALL))
        above = Fraction(4) if n == 0 else Fraction(0)
        where = finding.where or "the list"
        strokes = [Text((_ZERO, -above - 4), fitted(f"{_HARMS[finding.harm]}: {where}", wide, (_WORD, _SMALL), bold=True))]
        strokes += (
            Text((_ZERO, -above - 5 - (k + 1) * _SMALL_STEP), fitted(line, wide, (_SMALL,))) for k, line in enumerate(lines)
        )
        yield PageBlock(tuple(strokes), above + 8 + len(lines) * _SMALL_STEP)


def _caution(said: str, wide: Fraction) -> PageBlock:
    """What to beware of in sawing out, as large as any other words of the list (section 14 of the trade rules)."""
    lines = list(wrapped(said, wide, _WORD))
    strokes = (Text((_ZERO, -_WORD - 2 - n * _CAUTION_STEP), words(line, _WORD)) for n, line in enumerate(lines))
    return PageBlock(tuple(strokes), len(lines) * _CAUTION_STEP + 2)


def _short_heading(group: Group, rule: Graduation, columns: _Columns) -> PageBlock:
    """The stock, and how thick it is."""
    y = Fraction(-6)
    name = fitted(group.name, columns.finished[0] - 22, (_TITLE, _WORD, _SMALL), bold=True)
    after = set_line(name).width + 3
    strokes = (
        Text((_ZERO, y), name),
        Text((after, y), fitted(_about(group, rule), columns.wide - after, (_SMALL, _TINY))),
        Line((_ZERO, y - 2), (columns.wide, y - 2), Role.OUTLINE),
    )
    return PageBlock(strokes, Fraction(8), leads=True)


def _heading(group: Group, rule: Graduation, columns: _Columns, more: str = "", *, is_sawn: bool) -> PageBlock:
    """The stock, how thick it is, and what the columns are; ``is_sawn``: some part is sawn to another size first."""
    y = Fraction(-10)
    over = y + Fraction(9, 2)
    room = columns.finished[0] - 22
    strokes: list[Stroke] = [
        Text((_ZERO, over), fitted(group.name + more, room, (_TITLE, _WORD, _SMALL), bold=True)),
        Text((columns.number, y), words("no.", _SMALL), Align.RIGHT),
        Text((columns.count, y), words("make", _SMALL), Align.RIGHT),
        Text((columns.count + 2, y), fitted(_about(group, rule), room - columns.count - 2, (_SMALL, _TINY))),
        *_captions("finished", columns.finished, y, over),
        Line((_ZERO, y - Fraction(3, 2)), (columns.wide, y - Fraction(3, 2)), Role.OUTLINE),
    ]
    if is_sawn:
        strokes += _captions("saw to", columns.sawn, y, over)
    return PageBlock(tuple(strokes), Fraction(57, 5), leads=True)


def _captions(said: str, at: tuple[Fraction, Fraction], y: Fraction, over: Fraction) -> Iterator[Text]:
    """What the pair of columns is, over the two, and length and width under it."""
    yield Text(((at[0] + at[1]) / 2 - 5, over), words(said, _SMALL, bold=True), Align.MIDDLE)
    yield Text((at[0], y), words("length", _SMALL), Align.RIGHT)
    yield Text((at[1], y), words("width", _SMALL), Align.RIGHT)


def _about(group: Group, rule: Graduation) -> str:
    """``0.483 in thick, plywood sold as 1/2 in``; of knob blanks, which are as thick as wide, ``square``."""
    stock = group.stock
    thick = "square" if _is_knobs(group) else f"{rule.text(group.thickness)} thick"
    if stock is None:
        return thick
    kind = stock.kind if isinstance(stock, SheetStock) else stock.species if isinstance(stock, Solid) else ""
    if stock.nominal == group.thickness:
        return f"{thick}, {kind}"
    return f"{thick}, {kind} sold as {rule.text(stock.nominal)}"


def _row(row: Row, rule: Graduation, columns: _Columns, picture: tuple[Stroke, ...]) -> PageBlock:
    # A name that would run over goes in one line of small letters, or in as many as it takes.
    long = bounds_of([hung((columns.finished[0], _ZERO), figures(row.finished.length, rule, _FIGURE, bold=True))])
    room = min(columns.words, long[0] - 2 - columns.where)
    high = _WORD if set_line(words(row.where, _WORD)).width <= room else _SMALL
    named = list(wrapped(row.where, room, high))
    step = _STEP if high is _WORD else _SMALL_STEP
    also = [line for remark in row_remarks(row, lambda length: _read(length, rule)) for line in wrapped(remark, room, _SMALL)]
    y = Fraction(-6)
    is_one_line = len(named) + len(also) == 1
    first = y if is_one_line else -(_FIRST if high is _WORD else _FIRST_SMALL)
    under = _UNDER if also and high is _WORD else _ZERO
    height = max(_ROW, (len(named) - 1) * step + under + len(also) * _SMALL_STEP + _LAST - first)
    strokes: list[Stroke] = [
        tick_box(_ZERO, y),
        Text((columns.number, y), words(str(row.number), _WORD), Align.RIGHT),
        Text((columns.count, y), words(f"{row.quantity} ×", _WORD, bold=True), Align.RIGHT),
        *(Text((columns.where, first - n * step), fitted(said, room, (high, _SMALL))) for n, said in enumerate(named)),
        *_small(also, columns.where, room, first - (len(named) - 1) * step - under),
        *_sizes(row, rule, columns, y),
        *_pictured(row, columns, picture),
        Line((_ZERO, -height), (columns.wide, -height), Role.ROW),
    ]
    return PageBlock(tuple(strokes), height, serves=tuple(row.names))


def _pictured(row: Row, columns: _Columns, picture: tuple[Stroke, ...]) -> Iterator[Stroke]:
    """The part drawn small at the head of the row: in a column of its own, or where the row has room for it."""
    left = columns.picture
    if left is None:
        taken = set_line(words(row.where, _WORD)).width
        if row.sawn == row.finished:
            left = columns.sawn[0] - _PICTURE[0]
        elif taken + _PICTURE[0] + 2 <= columns.words:
            left = columns.where + columns.words - _PICTURE[0]
        else:
            return
    x0, y0, x1, y1 = bounds_of(picture)
    move = Move(left + (_PICTURE[0] - x0 - x1) / 2, -1 - (_PICTURE[1] + y0 + y1) / 2)
    yield from (moved(stroke, move) for stroke in picture)


def _small(lines: Sequence[str], x: Fraction, room: Fraction, y: Fraction) -> Iterator[Text]:
    for n, line in enumerate(lines, start=1):
        yield Text((x, y - n * _SMALL_STEP), fitted(line, room, (_SMALL,)))


def _read(length: Length, rule: Graduation) -> str:
    """On the rule, + and - for a hair more or less; what is less than half its first mark, as callipers show it."""
    if length and not rule.round(length):
        return rule.text(length)
    return plain(figures(length, rule, 1))


def _sizes(row: Row, rule: Graduation, columns: _Columns, y: Fraction) -> Iterator[Text]:
    """Finished sizes, and beside them those to saw where they are not the same."""
    pairs = [(row.finished, columns.finished, _FIGURE)]
    if row.sawn != row.finished:
        pairs.append((row.sawn, columns.sawn, _WORD))
    for size, at, high in pairs:
        for x, length in zip(at, (size.length, size.width), strict=True):
            yield hung((x, y), figures(length, rule, high, bold=high is _FIGURE))
