"""The details of the piece on paper, row under row: two beside each other with names, or three with the numbers of the cutting
list.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.boards.names import in_few_words
from joinlay.lengths import Fraction
from joinlay.pages.plain_sheet import PageBlock, flow, title_over
from joinlay.pen.lettering import fitted, set_line, words, wrapped
from joinlay.pen.marks import Arc, Move, Text, moved
from joinlay.pictures.details import DETAIL, details

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from joinlay.boards import PartRole
    from joinlay.jobs.plan import Plan
    from joinlay.pages.plain_sheet import PlainPages
    from joinlay.pages.printed_sheet import Sheet
    from joinlay.pen.marks import Stroke
    from joinlay.pictures.picture import Picture, Size

__all__ = ["detail_sheets"]

_WORD, _SMALL = Fraction(7, 2), Fraction(5, 2)
#: Room at the head of a sheet, over each detail for its title, under a row, and from one line to the next.
_HEAD, _BETWEEN, _STEP = Fraction(19, 2), Fraction(7, 2), Fraction(4)
#: How much taller than its letters the room for a title is: over them, and down to the circle.
_OVER, _DOWN = Fraction(1), Fraction(5, 2)
#: How wide the list of what the numbers mean is, and what stands over it.
_KEY: Final = Fraction(62)
_KEY_TITLE: Final = "numbers of the parts"
_ZERO: Final = Fraction(0)

#: A detail: its title, how wide and high it is, and its strokes, hanging from their upper left corner.
_Cell = tuple[str, "Size", "tuple[Stroke, ...]"]


def detail_sheets(pages: PlainPages, numbers: Mapping[PartRole, int]) -> list[Sheet]:
    """The details on sheets, the first of which may be begun by views, under which they have no heading.

    With names beside them where a row takes them so; else with ``numbers``, three in a row on letter and A4, and what these mean.
    """
    left, _, right, _ = pages.box
    across_all = right - left
    cells = _cells(pages.plan, numbers, across_all)
    across = max(1, int(across_all / max((wide for _, (wide, _), _ in cells), default=across_all)))
    heading = title_over(f"{pages.plan.title}: details", across_all, _HEAD)
    shared = (cells[n : n + across] for n in range(0, len(cells), across))
    rows = [replace(_row(own, across_all / across), again=heading) for own in shared]
    # Nothing stands under the last row, so that the white under it may be missing.
    room = pages.room + _BETWEEN
    is_under = bool(rows and pages.begun and rows[0].height <= room - pages.begun)
    parted = flow(rows if is_under else [heading, *rows], room, pages.begun if is_under else _ZERO)
    return [pages.sheet("details", pages.stacked(page), DETAIL.text) for page in parted] if rows else []


def _cells(plan: Plan, numbers: Mapping[PartRole, int], wide: Fraction) -> list[_Cell]:
    """The details with their names; where they would take more than a row so, with numbers, and after them what these mean."""
    named = details(plan, numbers)
    if named and len(named) * max(picture.size[0] for picture in named) > wide:
        close = details(plan, numbers, are_close=True)
        if not any(picture.unsaid for picture in close):
            return [*map(_cell, close), _key(close, numbers)]
    return list(map(_cell, named))


def _cell(picture: Picture) -> _Cell:
    x0, y0, x1, y1 = picture.box
    return picture.title, (x1 - x0, y1 - y0), tuple(moved(stroke, Move(-x0, -y1)) for stroke in picture.strokes)


def _key(pictures: Sequence[Picture], numbers: Mapping[PartRole, int]) -> _Cell:
    """What the numbers in the details stand for, a line each."""
    known: dict[int, dict[str, None]] = {}
    balloons = (stroke.of for picture in pictures for stroke in picture.strokes if isinstance(stroke, Arc))
    for role in (role for roles in balloons if isinstance(roles, tuple) for role in roles):
        known.setdefault(numbers[role], {})[role.name] = None
    told = [line for number, names in sorted(known.items()) for line in wrapped(f"{number} {in_few_words(names)}", _KEY, _SMALL)]
    strokes = tuple(Text((_ZERO, -(n + 1) * _STEP), words(line, _SMALL)) for n, line in enumerate(told))
    return _KEY_TITLE, (_KEY, len(told) * _STEP), strokes


def _row(row: Sequence[_Cell], wide: Fraction) -> PageBlock:
    """Details beside each other, each in its share of the width, under its title."""
    strokes: list[Stroke] = []
    # As large as goes for all of them.
    high = _WORD if all(set_line(words(title, _WORD, bold=True)).width <= wide - 3 for title, *_ in row) else _SMALL
    for n, (title, _, drawn) in enumerate(row):
        strokes.append(Text((n * wide, -high - _OVER), fitted(title, wide - 3, (high, _SMALL), bold=True)))
        strokes += (moved(stroke, Move(n * wide, -high - _OVER - _DOWN)) for stroke in drawn)
    return PageBlock(tuple(strokes), max(tall for _, (_, tall), _ in row) + high + _OVER + _DOWN + _BETWEEN)
