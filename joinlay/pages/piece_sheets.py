"""The piece on paper: its front, its sections and its details, each at the largest scale that fits, named and dimensioned."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction
from joinlay.pages.plain_sheet import PlainPages
from joinlay.pages.printed_sheet import bind
from joinlay.pages.printer import Printer
from joinlay.pen.lettering import fitted, words, wrapped
from joinlay.pen.marks import Move, Text, moved
from joinlay.pictures.details import details
from joinlay.pictures.elevation import dimensioned_elevation
from joinlay.pictures.sections import level_section, upright_sections
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.jobs.plan import Plan
    from joinlay.pages.printed_sheet import Sheet
    from joinlay.paper import Paper
    from joinlay.pen.marks import Stroke
    from joinlay.pictures.picture import Picture, Size

__all__ = ["piece_sheets"]

_TITLE, _WORD, _SMALL = Fraction(5), Fraction(7, 2), Fraction(5, 2)
#: Room at the head of a sheet, over each picture for its title, between pictures, and from one line of notes to the next.
_HEAD, _CAPTION, _BETWEEN, _STEP = Fraction(12), Fraction(9), Fraction(6), Fraction(4)
#: The most of a sheet that notes may take under a picture, as a share of its height.
_MOST_NOTES: Final = Fraction(1, 3)


def piece_sheets(plan: Plan, paper: Paper, *, printer: Printer | None = None) -> tuple[Sheet, ...]:
    """The front of the piece, its sections and its details on sheets of ``paper``; none where there is nothing to draw.

    ``printer`` is taken at its word unless given. Each is drawn at the largest scale of ISO 5455 at which it fits a sheet (on
    an inch rule, the largest of full, half, quarter size and so on); those of one scale share a sheet where there is room. What
    finds no room in a drawing stands under it. Dimensions as ISO 129-1 has them.
    """
    pages = PlainPages(plan, paper, "the piece", printer or Printer())
    left, bottom, right, top = pages.box
    views = _views(plan, (right - left, top - bottom - _HEAD - _CAPTION))
    shared = [_sheet(pages, group) for group in _shared(views, top - bottom - _HEAD)]
    return bind([*shared, *_detail_sheets(pages), *_long_notes(pages, views)])


@dataclass(frozen=True, slots=True)
class _View:
    """A picture and the lines under it; ``notes`` too many to stand under it have sheets of their own."""

    picture: Picture
    notes: tuple[str, ...]
    is_noted_under: bool

    @property
    def under(self) -> tuple[str, ...]:
        """The lines under it."""
        return self.notes if self.is_noted_under else ()

    @property
    def high(self) -> Fraction:
        """The room it takes with its title and its lines."""
        return _CAPTION + self.picture.size[1] + _deep(self.under)


def _views(plan: Plan, room: Size) -> list[_View]:
    views = []
    for draw in (_front, upright_sections, _level):
        views += [_view(picture, room[0]) for picture in draw(plan, room)]
        # With their lines some are too high: those are drawn again, smaller.
        if any(view.high > room[1] + _CAPTION for view in views):
            most = max(_deep(view.under) for view in views)
            views = [view for view in views if view.high <= room[1] + _CAPTION]
            done = {view.picture.title for view in views}
            again = [_view(picture, room[0]) for picture in draw(plan, (room[0], room[1] - most - _STEP))]
            views += [view for view in again if view.picture.title not in done]
    return views


def _front(plan: Plan, room: Size) -> tuple[Picture, ...]:
    picture = dimensioned_elevation(plan, room)
    return (picture,) if picture else ()


def _level(plan: Plan, room: Size) -> tuple[Picture, ...]:
    picture = level_section(plan, room)
    return (picture,) if picture else ()


def _view(picture: Picture, wide: Fraction) -> _View:
    """What the numbers in a picture stand for, in running lines, and under it what else it had no room to say."""
    numbered = ";  ".join(f"{n} {name}" for n, name in enumerate(picture.names, start=1))
    notes = tuple(line for one in (numbered, *picture.unsaid) for line in wrapped(one, wide, _SMALL))
    return _View(picture, notes, _deep(notes) <= wide * _MOST_NOTES)


def _deep(notes: Sequence[str]) -> Fraction:
    return len(notes) * _STEP + 4 if notes else Fraction(0)


def _shared(views: Sequence[_View], room: Fraction) -> list[list[_View]]:
    """Views that go on one sheet: of one scale, in their order, as many as fit."""
    groups: list[list[_View]] = []
    for view in views:
        last = groups[-1] if groups else []
        if (
            last
            and last[-1].picture.scale == view.picture.scale
            and sum(v.high + _BETWEEN for v in (*last, view)) - _BETWEEN <= room
        ):
            last.append(view)
        else:
            groups.append([view])
    return groups


def _sheet(pages: PlainPages, group: Sequence[_View]) -> Sheet:
    """Views one under the other, the white that is left shared out between them."""
    left, bottom, right, top = pages.box
    strokes: list[Stroke] = [_heading(pages, pages.plan.title)]
    white = (top - _HEAD - bottom - sum(view.high for view in group)) / (len(group) + 1)
    y = top - _HEAD
    for view in group:
        strokes.append(Text((left, y - _WORD - 1), fitted(view.picture.title, right - left, (_WORD, _SMALL), bold=True)))
        x0, y0, x1, y1 = view.picture.box
        y -= _CAPTION + white
        strokes += (moved(stroke, Move((left + right - x0 - x1) / 2, y - y1)) for stroke in view.picture.strokes)
        y -= y1 - y0
        strokes += _lines(view.under, left, y - 2)
        y -= _deep(view.under)
    return pages.sheet(", ".join(view.picture.title for view in group), tuple(strokes), group[0].picture.scale.text)


def _detail_sheets(pages: PlainPages) -> list[Sheet]:
    """The details, as many beside each other as fit (two on letter and A4), row under row."""
    left, bottom, right, top = pages.box
    pictures = details(pages.plan)
    across = max(1, int((right - left) / max((picture.size[0] for picture in pictures), default=right - left)))
    wide = (right - left) / across
    high = max((picture.size[1] for picture in pictures), default=_CAPTION) + _CAPTION + _BETWEEN
    rows = max(1, int((top - bottom - _HEAD) / high))
    sheets = []
    for n in range(0, len(pictures), across * rows):
        strokes: list[Stroke] = [_heading(pages, f"{pages.plan.title}: details")]
        for k, picture in enumerate(pictures[n : n + across * rows]):
            x, y = left + (k % across) * wide, top - _HEAD - (k // across) * high
            strokes.append(Text((x, y - _WORD - 1), fitted(picture.title, wide - 3, (_WORD, _SMALL), bold=True)))
            x0, _, _, y1 = picture.box
            strokes += (moved(stroke, Move(x - x0, y - _CAPTION - y1)) for stroke in picture.strokes)
        sheets.append(pages.sheet("details", tuple(strokes), pictures[n].scale.text))
    return sheets


def _long_notes(pages: PlainPages, views: Sequence[_View]) -> list[Sheet]:
    left, bottom, right, top = pages.box
    many = int((top - bottom - _HEAD - _CAPTION) / _STEP)
    sheets = []
    for view in views:
        for n in range(0, 0 if view.is_noted_under else len(view.notes), many):
            said = f"{view.picture.title}: notes"
            title = Text((left, top - _HEAD - _WORD - 1), fitted(said, right - left, (_WORD, _SMALL), bold=True))
            lines = _lines(view.notes[n : n + many], left, top - _HEAD - _CAPTION)
            sheets.append(pages.sheet(said, (_heading(pages, pages.plan.title), title, *lines)))
    return sheets


def _heading(pages: PlainPages, said: str) -> Text:
    left, _, right, top = pages.box
    return Text((left, top - _TITLE - 2), fitted(said, right - left, (_TITLE, _WORD, _SMALL), bold=True))


def _lines(lines: Sequence[str], left: Fraction, y: Fraction) -> tuple[Text, ...]:
    return tuple(Text((left, y - (n + 1) * _STEP), words(line, _SMALL)) for n, line in enumerate(lines))
