"""The parts on paper: each one small, at one scale, with its number in the cutting list, how many, its name and its sizes."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.boards import PartKind, Whole
from joinlay.cutlist.chosen_boards import joints_in
from joinlay.cutlist.cutting_list import Grain, cutting_list, taper_words
from joinlay.cutlist.glued_up import joints_of
from joinlay.lengths import Fraction
from joinlay.pages.plain_sheet import PageBlock, PlainPages, flow, title_over
from joinlay.pages.printed_sheet import bind
from joinlay.pages.printer import Printer
from joinlay.pen.lettering import Run, figures, fitted, set_line, words, wrapped
from joinlay.pen.marks import Line, Move, Role, Text, bounds_of, moved
from joinlay.pictures.part_picture import part_picture
from joinlay.pictures.picture import scales_of
from joinlay.records import dataclass
from joinlay.stock import Solid

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.cutlist.chosen_boards import Joints
    from joinlay.cutlist.cutting_list import Row
    from joinlay.jobs.plan import Plan
    from joinlay.pages.printed_sheet import Sheet
    from joinlay.paper import Paper
    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Stroke
    from joinlay.pictures.picture import Scale

__all__ = ["parts_sheets"]

_TITLE, _WORD, _SMALL = Fraction(5), Fraction(7, 2), Fraction(5, 2)
#: From one line of words to the next, from a picture to its words, between parts beside and above each other.
_STEP, _TO_WORDS, _ASIDE, _BETWEEN = Fraction(4), Fraction(4), Fraction(7), Fraction(6)
#: The least width of a part with its words; the longest part is drawn at most this share of the paper's width.
_CELL: Final = Fraction(58)
_LONGEST: Final = Fraction(1, 2)
_ZERO: Final = Fraction(0)


def _of(whole: Whole) -> tuple[PartKind, ...]:
    """The kinds of part that ``whole`` is put together from."""
    return tuple(kind for kind in PartKind if kind.whole is whole)


#: What goes under which heading, in the order of the pages. What is in none comes last, under the last heading.
_GROUPS: Final = (
    ("drawer fronts", (PartKind.DRAWER_FRONT,)),
    ("drawer sides", (PartKind.DRAWER_SIDE,)),
    ("drawer backs", (PartKind.DRAWER_BACK,)),
    ("drawer bottoms", (PartKind.DRAWER_BOTTOM, PartKind.BOTTOM_BAR)),
    ("face frame", _of(Whole.FRAME)),
    ("case", _of(Whole.CASE)),
    ("runners and stops", (*_of(Whole.RUNNERS), *_of(Whole.STOPS))),
    ("top and base", (*_of(Whole.TOP), *_of(Whole.BASE))),
    ("fillers", _of(Whole.FILLER)),
    ("loose tenons", (PartKind.LOOSE_TENON,)),
    ("knob blanks", (PartKind.KNOB_BLANK,)),
    ("other parts", tuple(PartKind)),
)


def parts_sheets(plan: Plan, paper: Paper, *, printer: Printer | None = None) -> tuple[Sheet, ...]:
    """Every part of ``plan`` drawn small on sheets of ``paper``, fronts first; none for a plan without parts.

    ``printer`` is taken at its word unless given. Parts that are truly the same share a picture; the numbers are those of the
    cutting list (CL-1). The reference face is towards the eye and the reference edge down, as on the templates (PR-6). All have
    one scale, which the foot says (ISO 5455).
    """
    pages = PlainPages(plan, paper, "parts", printer or Printer())
    left, bottom, right, top = pages.box
    rows = cutting_list(plan).rows
    if not rows:
        return ()
    longest = max(row.board.length.mm for row in rows)
    scales = scales_of(plan.unit)
    scale = next((one for one in scales if longest * one.factor <= (right - left) * _LONGEST), scales[-1])
    blocks = [title_over(f"{plan.title}: the parts", right - left, Fraction(10)), *_blocks(rows, plan, scale, right - left)]
    parted = flow(blocks, top - bottom)
    made = []
    for n, page in enumerate(parted, start=1):
        shown = tuple(name for block in page for name in block.serves)
        made.append(pages.sheet(f"page {n}", pages.stacked(page), scale.text, shown))
    return bind(made)


def _blocks(rows: Sequence[Row], plan: Plan, scale: Scale, wide: Fraction) -> Iterator[PageBlock]:
    """A heading for each group, and its parts in rows as wide as the paper."""
    left, joints = list(rows), joints_in(plan)
    for title, kinds in _GROUPS:
        own = [row for row in left if row.kind in kinds]
        left = [row for row in left if row not in own]
        if own:
            yield _heading(title, wide)
            yield from _in_rows([_cell(row, plan, scale, wide, joints) for row in own], wide)


def _heading(said: str, wide: Fraction) -> PageBlock:
    line = Line((_ZERO, Fraction(-7)), (wide, Fraction(-7)), Role.FRAME)
    return PageBlock((Text((_ZERO, Fraction(-11, 2)), words(said, _WORD, bold=True)), line), Fraction(11), leads=True)


@dataclass(frozen=True, slots=True)
class _Cell:
    """A part with its words: its picture stands on y = 0, its words hang under that."""

    names: tuple[str, ...]
    picture: tuple[Stroke, ...]
    words: tuple[Text, ...]
    wide: Fraction
    high: Fraction
    deep: Fraction


def _cell(row: Row, plan: Plan, scale: Scale, most: Fraction, chosen: Joints) -> _Cell:
    is_solid = any(stock.name == row.board.stock and isinstance(stock, Solid) for stock in plan.stocks.values())
    joints = joints_of(row, chosen, plan.shop.practice) if is_solid else ()
    picture = part_picture(row.board, scale, has_grain=row.grain is Grain.LENGTH, joints=joints)
    _, low, right, high = bounds_of(picture)
    wide = min(max(right, _CELL), most)
    y = low - _TO_WORDS - _SMALL
    number: Content = (Run(f"{row.number}", _WORD, bold=True), Run(f"   {row.quantity} ×", _WORD))
    texts = [Text((_ZERO, y), number)]
    room = wide - set_line(number).width - 3
    names = list(wrapped(row.where, room, _SMALL))
    for n, line in enumerate(names):
        texts.append(Text((wide - room, y - n * _STEP), fitted(line, room, (_SMALL,))))
    y -= len(names) * _STEP
    sizes = (row.finished.length, row.finished.width, row.finished.thickness)
    size: Content = ()
    for length in sizes:
        size += (*((Run(" × ", _SMALL),) if size else ()), *figures(length, plan.rule, _SMALL))
    texts.append(Text((wide - room, y), size))
    y -= _STEP
    texts.append(Text((wide - room, y), fitted(row.board.stock, room, (_SMALL,))))
    glued = f"{len(joints) + 1} boards, glued up at the dash-dot lines" if joints else ""
    for line in (line for said in (taper_words(row.board, plan.rule.text), glued) for line in wrapped(said, room, _SMALL)):
        y -= _STEP
        texts.append(Text((wide - room, y), words(line, _SMALL)))
    return _Cell(row.names, picture, tuple(texts), wide, high, -y + 1)


def _in_rows(cells: Sequence[_Cell], wide: Fraction) -> Iterator[PageBlock]:
    row: list[_Cell] = []
    for cell in cells:
        if row and sum(one.wide + _ASIDE for one in (*row, cell)) - _ASIDE > wide:
            yield _row(row)
            row = []
        row.append(cell)
    if row:
        yield _row(row)


def _row(cells: Sequence[_Cell]) -> PageBlock:
    """Parts beside each other, standing on one line."""
    high, deep = max(cell.high for cell in cells), max(cell.deep for cell in cells)
    strokes: list[Stroke] = []
    x = _ZERO
    for cell in cells:
        strokes += (moved(stroke, Move(x, -high)) for stroke in (*cell.picture, *cell.words))
        x += cell.wide + _ASIDE
    return PageBlock(tuple(strokes), high + deep + _BETWEEN, serves=tuple(name for cell in cells for name in cell.names))
