"""Where each part is: every part of the piece by its name, and the sheets of the packet it stands on."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction
from joinlay.pages.plain_sheet import PlainPages
from joinlay.pages.printed_sheet import Link, bind
from joinlay.pages.printer import Printer
from joinlay.pen.lettering import set_line, words, wrapped
from joinlay.pen.marks import Align, Line, Move, Role, Text, moved
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.jobs.plan import Plan
    from joinlay.pages.printed_sheet import Sheet
    from joinlay.paper import Paper
    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Stroke

__all__ = ["IndexLine", "index_sheets"]

_HEAD, _WORD, _SMALL = Fraction(5), Fraction(7, 2), Fraction(5, 2)
#: How high letters and a row of one line are: to be found at a glance, and smaller where that saves a sheet.
_SIZES: Final = ((_WORD, Fraction(6)), (_SMALL, Fraction(24, 5)))
#: From one line of a long name to the next.
_FINE_STEP: Final = Fraction(4)
_TOP: Final = Fraction(16)
#: From a baseline down to the line under the row.
_UNDER: Final = Fraction(3, 2)
#: The least width of a column, and the white between two.
_COLUMN, _ASIDE = Fraction(90), Fraction(8)
#: Where the sheets' numbers begin, as a share of the width of a column, and the white between two of them.
_PARTED: Final = Fraction(3, 5)
_BETWEEN: Final = Fraction(3)


@dataclass(frozen=True, slots=True)
class IndexLine:
    """Parts that are truly alike: ``number`` in the cutting list, ``name`` in few words, and the ``sheets`` they are on."""

    number: int
    name: str
    sheets: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class _Row:
    """A row drawn, hanging from y = 0: its height, and where its numbers lead."""

    strokes: tuple[Text, ...]
    links: tuple[Link, ...]
    high: Fraction


def index_sheets(
    plan: Plan, found: Sequence[IndexLine], paper: Paper, *, printer: Printer | None = None, begun: Fraction = Fraction(0)
) -> tuple[Sheet, ...]:
    """The parts in the order of ``found``, each with the numbers of its sheets, which lead there; in columns where they fit,
    those of the last page of about one height. They are smaller where that saves a sheet.

    On ``paper``, corrected for ``printer``, which is taken at its word unless given; ``begun`` mm of the first sheet are left to
    what comes before it.
    """
    pages = PlainPages(plan, paper, "where each part is", printer or Printer())
    left, _, right, top = pages.box
    across = max(1, int((right - left + _ASIDE) / (_COLUMN + _ASIDE)))
    wide = (right - left + _ASIDE) / across - _ASIDE
    parted: list[list[list[_Row]]] = []
    for high, row in _SIZES:
        rows = [_row(one, wide, high, row) for one in found]
        smaller = list(_in_pages(rows, across, pages.room - _TOP, begun))
        parted = smaller if not parted or len(smaller) < len(parted) else parted
    sheets = []
    for n, page in enumerate(parted, start=1):
        strokes: list[Stroke] = [Text((left, top - 7), words("Where each part is", _HEAD, bold=True))]
        links: list[Link] = []
        for k, column in enumerate(page):
            x, y = left + k * (wide + _ASIDE), top - _TOP
            strokes += _heading(x, x + wide, top)
            for one in column:
                strokes += (moved(text, Move(x, y)) for text in one.strokes)
                links += (replace(link, box=_down(link, x, y)) for link in one.links)
                y -= one.high
                strokes.append(Line((x, y), (x + wide, y), Role.ROW))
        sheets.append(replace(pages.sheet(f"page {n}", tuple(strokes)), links=tuple(links)))
    return bind(sheets)


def _in_pages(rows: Sequence[_Row], across: int, room: Fraction, begun: Fraction) -> Iterator[list[list[_Row]]]:
    """``rows`` in columns of at most ``room`` mm, ``across`` of them to a page, the first ``begun`` mm lower; those of the last
    page as low as they can be.
    """
    first = room - begun
    if any(row.high > first for row in rows):
        first = room
    waiting = list(rows)
    while waiting:
        page = _in_columns(waiting, first)[:across]
        waiting = waiting[sum(map(len, page)) :]
        if not waiting:
            own = [row for column in page for row in column]
            low = max(*(row.high for row in own), sum((row.high for row in own), Fraction(0)) / across)
            while len(_in_columns(own, low)) > across:
                low += 1
            page = _in_columns(own, min(low, first))
        yield page
        first = room


def _in_columns(rows: Sequence[_Row], most: Fraction) -> list[list[_Row]]:
    """``rows`` in columns of at most ``most`` mm."""
    columns: list[list[_Row]] = []
    left = Fraction(0)
    for row in rows:
        if not columns or row.high > left:
            columns.append([])
            left = most
        columns[-1].append(row)
        left -= row.high
    return columns


def _down(link: Link, left: Fraction, y: Fraction) -> tuple[Fraction, Fraction, Fraction, Fraction]:
    x0, y0, x1, y1 = link.box
    return (x0 + left, y0 + y, x1 + left, y1 + y)


def _heading(left: Fraction, right: Fraction, top: Fraction) -> Iterator[Stroke]:
    parted = left + (right - left) * _PARTED
    yield Text((left + 8, top - 14), words("no.", _SMALL), Align.RIGHT)
    yield Text((left + 11, top - 14), words("part", _SMALL))
    yield Text((parted, top - 14), words("sheets", _SMALL))
    yield Line((left, top - _TOP), (right, top - _TOP), Role.FRAME)


def _row(found: IndexLine, wide: Fraction, height: Fraction, row: Fraction) -> _Row:
    """One part in letters of a ``height``, a ``row`` high; its numbers go on in as many lines as they need."""
    parted = wide * _PARTED
    y = -row + _UNDER
    named = _named(found.name, parted - 14, height)
    texts = [
        Text((Fraction(8), y), words(str(found.number), _SMALL), Align.RIGHT),
        *(Text((Fraction(11), y - n * _FINE_STEP), line) for n, line in enumerate(named)),
    ]
    lowest = y - (len(named) - 1) * _FINE_STEP
    links = []
    x = parted
    # Many numbers are set small, in lines close to each other.
    whole = sum((set_line(words(str(number), height)).width + _BETWEEN for number in found.sheets), -_BETWEEN)
    high, step = (height, row) if whole <= wide - parted else (_SMALL, _FINE_STEP)
    for number in found.sheets:
        said = words(str(number), high)
        long = set_line(said).width
        if x + long > wide:
            x, y = parted, y - step
        texts.append(Text((x, y), said))
        links.append(Link((x - 1, y - 1, x + long + 1, y + step - _UNDER), number))
        x += long + _BETWEEN
    return _Row(tuple(texts), tuple(links), _UNDER - min(y, lowest))


def _named(name: str, room: Fraction, height: Fraction) -> list[Content]:
    """A part's name in one line of this ``height``, or in as many small ones as it takes."""
    if set_line(words(name, height)).width <= room:
        return [words(name, height)]
    return [words(line, _SMALL) for line in wrapped(name, room, _SMALL)]
