"""The piece on paper: its front and its sections, each at the largest scale that fits, named and dimensioned."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Final

from joinlay.drawings.elevation import dimensioned_elevation
from joinlay.drawings.lettering import fitted, words, wrapped
from joinlay.drawings.marks import Move, Text, moved
from joinlay.pages.paper import Printer
from joinlay.pages.plain_sheet import PlainPages
from joinlay.pages.sheet import bind

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from joinlay.drawings.marks import Box, Stroke
    from joinlay.drawings.picture import Picture
    from joinlay.jobs.plan import Plan
    from joinlay.pages.paper import Paper
    from joinlay.pages.sheet import Sheet

__all__ = ["piece_sheets"]

_TITLE, _SMALL = Fraction(5), Fraction(5, 2)
#: Room at the head for the title, and from one line of notes to the next.
_HEAD, _STEP = Fraction(14), Fraction(4)
#: The most of a sheet that notes may take under a picture, as a share of its height.
_MOST_NOTES: Final = Fraction(1, 3)


def piece_sheets(plan: Plan, paper: Paper, *, printer: Printer | None = None) -> tuple[Sheet, ...]:
    """The front of the piece and its sections on sheets of ``paper``, a view to a sheet; none for a plan with nothing to draw.

    Each is drawn at the largest scale of ISO 5455 at which it fits, which its foot says. What finds no room in a drawing stands in a list
    under it. No rule; ISO 129-1.
    """
    pages = PlainPages(plan, paper, "the piece", printer or Printer())
    made: list[Sheet] = []
    for draw in (dimensioned_elevation,):
        made += _view_sheets(pages, draw)
    return bind(made)


def _view_sheets(pages: PlainPages, draw: Callable[[Plan, tuple[Fraction, Fraction]], Picture | None]) -> list[Sheet]:
    """One view, and its notes under it or, where they are many, on a sheet of their own."""
    left, bottom, right, top = pages.box
    room = (right - left, top - bottom - _HEAD)
    picture = draw(pages.plan, room)
    if picture is None:
        return []
    notes = _lines(picture, right - left)
    deep = len(notes) * _STEP + 4 if notes else Fraction(0)
    is_under = deep <= (top - bottom) * _MOST_NOTES
    if is_under and picture.size[1] + deep > room[1]:
        picture = draw(pages.plan, (room[0], room[1] - deep)) or picture
        notes = _lines(picture, right - left)
        deep = len(notes) * _STEP + 4 if notes else Fraction(0)
    place = (left, bottom + (deep if is_under else 0), right, top - _HEAD)
    strokes = (*_heading(pages, picture.title), *_placed(picture, place))
    if is_under:
        strokes += _noted(notes, left, bottom + deep - 4)
    sheets = [pages.sheet(picture.title, strokes, picture.scale.text)]
    if not is_under:
        many = int((top - bottom - _HEAD) / _STEP)
        for n in range(0, len(notes), many):
            said = f"{picture.title}: notes"
            sheets.append(pages.sheet(said, (*_heading(pages, said), *_noted(notes[n : n + many], left, top - _HEAD))))
    return sheets


def _heading(pages: PlainPages, said: str) -> tuple[Text, ...]:
    left, _, right, top = pages.box
    return (Text((left, top - _TITLE - 2), fitted(f"{pages.plan.title}: {said}", right - left, (_TITLE, _SMALL), bold=True)),)


def _placed(picture: Picture, room: Box) -> tuple[Stroke, ...]:
    """A picture in the middle of its room."""
    (x0, y0, x1, y1), (left, bottom, right, top) = picture.box, room
    move = Move((left + right - x0 - x1) / 2, (bottom + top - y0 - y1) / 2)
    return tuple(moved(stroke, move) for stroke in picture.strokes)


def _lines(picture: Picture, wide: Fraction) -> list[str]:
    """What the numbers in a picture stand for, in running lines, and under it what else it had no room to say."""
    numbered = ";  ".join(f"{n} {name}" for n, name in enumerate(picture.names, start=1))
    return [line for one in (numbered, *picture.unsaid) for line in wrapped(one, wide, _SMALL)]


def _noted(lines: Sequence[str], left: Fraction, y: Fraction) -> tuple[Text, ...]:
    return tuple(Text((left, y - (n + 1) * _STEP), words(line, _SMALL)) for n, line in enumerate(lines))
