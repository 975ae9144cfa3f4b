"""The piece on paper: its front, its sections and its details, each at the largest scale that fits, named and dimensioned."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.cutlist.cutting_list import cutting_list
from joinlay.geometry import box_of
from joinlay.lengths import Fraction
from joinlay.pages.plain_sheet import PlainPages
from joinlay.pages.printed_sheet import bind
from joinlay.pages.printer import Printer
from joinlay.pages.shared_sheets import begun_under, joined
from joinlay.pen.lettering import fitted, set_line, words, wrapped
from joinlay.pen.marks import Move, Text, bounds_of, moved, text_box
from joinlay.pictures.details import details
from joinlay.pictures.elevation import numbered_elevation
from joinlay.pictures.picture import PLAIN
from joinlay.pictures.sections import numbered_across, numbered_level, numbered_uprights
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping, Sequence

    from joinlay.boards import PartRole
    from joinlay.jobs.plan import Plan
    from joinlay.pages.printed_sheet import Sheet
    from joinlay.paper import Paper
    from joinlay.pen.marks import Box, Point, Stroke
    from joinlay.pictures.numbered import NumberedView
    from joinlay.pictures.picture import Picture, Scale, Size

    #: How a view is drawn at a scale: with its numbers or bare.
    _Draw = Callable[[NumberedView, Scale], "_Drawn"]

__all__ = ["piece_sheets"]

_TITLE, _WORD, _SMALL = Fraction(5), Fraction(7, 2), Fraction(5, 2)
#: Room at the head of a sheet, over each picture for its title, between pictures, and from one line of notes to the next.
_HEAD, _CAPTION, _BETWEEN, _STEP = Fraction(12), Fraction(9), Fraction(6), Fraction(4)
_TINY: Final = Fraction(9, 5)
#: So many small lines a view's title has at most, and from one to the next.
_TITLE_LINES, _TITLE_STEP = 2, Fraction(7, 2)
#: The least room for a view's title, and how many sections go on one sheet at most.
_LEAST_TITLE, _MOST_SECTIONS = Fraction(72), 2
_ZERO: Final = Fraction(0)


def piece_sheets(plan: Plan, paper: Paper, *, printer: Printer | None = None) -> tuple[Sheet, ...]:
    """The piece on sheets of ``paper``: its views in projection on one, sections besides, details; none where there is nothing to
    draw.

    ``printer`` is taken at its word unless given. The front has the level section above it and the upright section at its right
    (third angle, ISO 5456-2), all at the largest scale of one to a whole number at which they fit; then the sections parallel to
    the front and through other banks, as many to a sheet as fit. Numbers in balloons are those of the cutting list (PR-10); what
    finds no room in a drawing stands under it. Dimensions as ISO 129-1 has them. Sheets that are nearly empty are joined.
    """
    pages = PlainPages(plan, paper, "the piece", printer or Printer())
    numbers = {name: row.number for row in cutting_list(plan).rows for name in row.names}
    by_role = {board.role: numbers[board.name] for board in plan.boards if board.name in numbers}
    front = numbered_elevation(plan, by_role)
    if front is None:
        return ()
    uprights, level = numbered_uprights(plan, by_role), numbered_level(plan, by_role)
    across = numbered_across(plan, by_role)
    views, is_whole = _general(pages, front, uprights[0] if uprights else None, level, across)
    more = [view for view in (None if is_whole else across, *uprights[1:]) if view is not None]
    made = joined([*views, *_more_sheets(pages, more)])
    return bind(joined([*made, *_detail_sheets(replace(pages, begun=begun_under(made)), by_role)]))


#: Between two views in projection, and the white beside those of one row.
_APART: Final = Fraction(6)
#: How much smaller the views may be, that another stands with them.
_HARDLY: Final = Fraction(3, 5)
_LEGEND: Final = "Numbers in circles are those of the cutting list; letters at circles are those of the details."


@dataclass(frozen=True, slots=True)
class _Drawn:
    """A picture and the room it takes, which takes long to find."""

    picture: Picture
    box: Box


@dataclass(frozen=True, slots=True)
class _Set:
    """Pictures in their places: the strokes of each and how far they are moved for the upper left corner of all to come to zero;
    how wide and high they are, the lines under them, and how much of what is said has no room in the views or over them.
    """

    placed: tuple[tuple[tuple[Stroke, ...], Point], ...]
    size: Size
    notes: tuple[str, ...]
    scale: Scale
    unsaid: int

    def fits(self, room: Size) -> bool:
        """Whether all of it goes into ``room``."""
        return self.size[0] <= room[0] and self.size[1] + _deep(self.notes) <= room[1]

    def strokes(self, right: Fraction, up: Fraction) -> Iterator[Stroke]:
        """Everything drawn, its upper left corner so far ``right`` and ``up``."""
        for strokes, at in self.placed:
            move = Move(at[0] + right, at[1] + up)
            yield from (moved(stroke, move) for stroke in strokes)


def _general(
    pages: PlainPages,
    front: NumberedView,
    side: NumberedView | None,
    level: NumberedView | None,
    across: NumberedView | None,
) -> tuple[list[Sheet], bool]:
    """Front, upright section and level section on one sheet; each on its own where the paper is too small for them together.

    The section parallel to the front stands in the corner that they leave, where they are hardly smaller for it; whether it does.
    """
    room, drawings = _room(pages), _Drawings()
    views = [view for view in (front, side, level) if view is not None]
    if across is not None and side is not None and level is not None:
        # Smaller views have room for fewer numbers: with none left over they are as good.
        whole = _all_said(room, front, side, level, across, drawings)
        # Without their numbers the three are seldom larger than with them, never smaller, and much sooner drawn.
        if (
            whole is not None
            and whole.unsaid == 0
            and whole.fits(room)
            and any(
                whole.scale.factor >= three.scale.factor * _HARDLY
                for has_numbers in (False, True)
                if (three := _projected(room, front, side, level, drawings, has_numbers=has_numbers)).fits(room) or has_numbers
            )
        ):
            return _on_sheets(pages, pages.plan.title, [*views, across], whole), True
    made = _projected(room, front, side, level, drawings)
    if len(views) == 1 or made.fits(room):
        return _on_sheets(pages, pages.plan.title, views, made), False
    own = [sheet for view in views for sheet in _on_sheets(pages, pages.plan.title, [view], _stack([view], room))]
    return own, False


def _projected(
    room: Size,
    front: NumberedView,
    side: NumberedView | None,
    level: NumberedView | None,
    drawings: _Drawings,
    *,
    has_numbers: bool = True,
) -> _Set:
    """The views as they stand together in ``room``, at the largest scale; without their numbers where that is asked."""

    def draw(scale: Scale, drawn: _Draw) -> _Set:
        return _in_projection(scale, front, side, level, None, room[0], drawn)

    return _largest(draw, _wood(front, side, level, None), room, drawings, has_numbers=has_numbers)


def _all_said(
    room: Size, front: NumberedView, side: NumberedView, level: NumberedView, across: NumberedView, drawings: _Drawings
) -> _Set | None:
    """All four at the largest scale, with their numbers; None as soon as something of them finds no room in its view.

    What has none at the first scale they would fit at has none at a smaller one.
    """

    def draw(scale: Scale, drawn: _Draw) -> _Set:
        return _in_projection(scale, front, side, level, across, room[0], drawn)

    def is_hopeless(scale: Scale) -> bool:
        # The sections have the most to say.
        views = (across, side, level, front)
        return any(drawn(view, scale).picture.unsaid for drawn in (drawings.bare, drawings.numbered) for view in views)

    return _first_to_fit(draw, _wood(front, side, level, across), room, drawings, is_hopeless=is_hopeless)


def _wood(front: NumberedView, side: NumberedView | None, level: NumberedView | None, across: NumberedView | None) -> Size:
    """What of views in projection grows with their scale: the width and height of the wood seen in them, in mm."""
    return (
        front.box[2] - front.box[0] + max((view.box[2] - view.box[0] for view in (side, across) if view), default=_ZERO),
        front.box[3] - front.box[1] + max((view.box[3] - view.box[1] for view in (level, across) if view), default=_ZERO),
    )


def _room(pages: PlainPages) -> Size:
    """What a sheet has under its heading."""
    left, bottom, right, top = pages.box
    return right - left, top - bottom - _HEAD


def _on_sheets(pages: PlainPages, heading: str, views: Sequence[NumberedView], made: _Set) -> list[Sheet]:
    """A set of ``views`` on a sheet with its lines under it; lines that find no room there on sheets after it."""
    left, _, _, top = pages.box
    room = _room(pages)
    shown = ", ".join(view.title for view in views)
    under = max(0, int((room[1] - made.size[1] - 2) / _STEP))
    strokes = [_heading(pages, heading), *made.strokes(left + (room[0] - made.size[0]) / 2, top - _HEAD)]
    strokes += _lines(made.notes[:under], left, top - _HEAD - made.size[1] - 2)
    sheets = [pages.sheet(shown, tuple(strokes), made.scale.text)]
    many = int(room[1] / _STEP)
    for n in range(under, len(made.notes), many):
        lines = _lines(made.notes[n : n + many], left, top - _HEAD)
        sheets.append(pages.sheet(f"{shown}: notes", (_heading(pages, f"{heading}: notes"), *lines)))
    return sheets


def _in_projection(
    scale: Scale,
    front: NumberedView,
    side: NumberedView | None,
    level: NumberedView | None,
    across: NumberedView | None,
    wide: Fraction,
    drawn: _Draw,
) -> _Set:
    """The front, the section from the right beside it on the same level, the one from above over it in line.

    In the corner over the first and beside the second stands the section ``across``, parallel to the front.
    """
    placed = [(drawn(front, scale), (_ZERO, _ZERO))]
    x0, _, x1, y1 = placed[0][0].box
    if level is not None:
        above = drawn(level, scale)
        aside = (level.box[0] - front.box[0]) * scale.factor
        placed.append((above, (aside, y1 + _CAPTION + _APART - above.box[1])))
        x1 = max(x1, aside + above.box[2])
    if across is not None:
        # The titles of both rows have room before what stands at the right.
        x1 = max(x1, x0 + _LEAST_TITLE)
    if side is not None:
        beside = drawn(side, scale)
        placed.append((beside, (x1 + _APART - beside.box[0], (side.box[1] - front.box[1]) * scale.factor)))
        y1 = max(y1, placed[-1][1][1] + beside.box[3])
    if across is not None:
        corner = drawn(across, scale)
        placed.append((corner, (x1 + _APART - corner.box[0], y1 + _CAPTION + _APART - corner.box[1])))
    return _put_together(placed, scale, wide)


def _put_together(placed: Sequence[tuple[_Drawn, Point]], scale: Scale, wide: Fraction) -> _Set:
    """Pictures at their places on one ground, each with its title over it."""
    made: list[tuple[tuple[Stroke, ...], Point]] = []
    boxes: list[Box] = []
    cut_short = 0
    for drawn, at in placed:
        x0, _, x1, y1 = drawn.box
        titles = _title(drawn.picture.title, (x0, y1 + 3), max(x1 - x0, _LEAST_TITLE))
        cut_short += " ".join(text.plain for text in reversed(titles)) != drawn.picture.title
        made.append(((*drawn.picture.strokes, *titles), at))
        boxes += (Move(*at).box(box) for box in (drawn.box, *map(text_box, titles)))
    x0, y0, x1, y1 = _around(boxes)
    unsaid = [(drawn.picture.title, said) for drawn, _ in placed for said in drawn.picture.unsaid]
    told = [f"{title}: {said}" if len(placed) > 1 else said for title, said in unsaid]
    notes = tuple(line for one in (_LEGEND, *told) for line in wrapped(one, wide, _SMALL))
    placed_so = tuple((strokes, (x - x0, y - y1)) for strokes, (x, y) in made)
    return _Set(placed_so, (x1 - x0, y1 - y0), notes, scale, len(told) + cut_short)


def _title(said: str, at: Point, room: Fraction) -> tuple[Text, ...]:
    """What a view is called in ``room`` mm over the point ``at``: in one line, or in two small ones."""
    x, y = at
    lines = list(wrapped(said, room, _SMALL, bold=True))
    if set_line(words(said, _SMALL, bold=True)).width <= room or len(lines) > _TITLE_LINES:
        return (Text(at, fitted(said, room, (_WORD, _SMALL, _TINY), bold=True)),)
    return tuple(Text((x, y + n * _TITLE_STEP), words(line, _SMALL, bold=True)) for n, line in enumerate(reversed(lines)))


def _around(boxes: Sequence[Box]) -> Box:
    """The smallest box that holds all of ``boxes``."""
    return box_of([corner for box in boxes for corner in (box[:2], box[2:])])


def _more_sheets(pages: PlainPages, views: Sequence[NumberedView]) -> Iterator[Sheet]:
    """Other sections under each other at one scale, two to a sheet; each on its own where the paper is too small for two."""
    room, heading = _room(pages), f"{pages.plan.title}: sections"
    for n in range(0, len(views), _MOST_SECTIONS):
        group = views[n : n + _MOST_SECTIONS]
        made = _stack(group, room)
        groups = [(group, made)] if made.fits(room) else [([view], _stack([view], room)) for view in group]
        for some, own in groups:
            yield from _on_sheets(pages, heading, some, own)


def _stack(views: Sequence[NumberedView], room: Size) -> _Set:
    """Views one under the other at the largest scale at which they fit ``room``."""
    wide = max(view.box[2] - view.box[0] for view in views)
    high = sum((view.box[3] - view.box[1] for view in views), _ZERO)

    def stacked(scale: Scale, drawn: _Draw) -> _Set:
        placed: list[tuple[_Drawn, Point]] = []
        y = _ZERO
        for view in views:
            one = drawn(view, scale)
            placed.append((one, (_ZERO, y - _CAPTION - one.box[3])))
            y -= _CAPTION + one.box[3] - one.box[1] + _APART
        return _put_together(placed, scale, room[0])

    return _largest(stacked, (wide, high), room, _Drawings())


class _Drawings:
    """Views as they are drawn at a scale, bare and numbered, each once."""

    def __init__(self) -> None:
        self._bare: dict[tuple[NumberedView, Scale], _Drawn] = {}
        self._numbered: dict[tuple[NumberedView, Scale], _Drawn] = {}

    def bare(self, view: NumberedView, scale: Scale) -> _Drawn:
        """A view without its numbers."""
        found = self._bare.get((view, scale))
        if found is None:
            picture = view.bare(scale)
            found = self._bare[view, scale] = _Drawn(picture, picture.box)
        return found

    def numbered(self, view: NumberedView, scale: Scale) -> _Drawn:
        """A view with its numbers."""
        found = self._numbered.get((view, scale))
        if found is None:
            plain = self.bare(view, scale)
            picture = view.numbered(plain.picture, plain.box)
            added = picture.strokes[len(plain.picture.strokes) :]
            box = _around([plain.box, bounds_of(added)]) if added else plain.box
            found = self._numbered[view, scale] = _Drawn(picture, box)
        return found


def _largest(
    draw: Callable[[Scale, _Draw], _Set], wood: Size, room: Size, drawings: _Drawings, *, has_numbers: bool = True
) -> _Set:
    """What ``draw`` makes at the largest scale at which it fits ``room``, or the smallest; without numbers unless
    ``has_numbers``.
    """
    made = _first_to_fit(draw, wood, room, drawings, has_numbers=has_numbers)
    assert made is not None
    return made


def _first_to_fit(
    draw: Callable[[Scale, _Draw], _Set],
    wood: Size,
    room: Size,
    drawings: _Drawings,
    *,
    has_numbers: bool = True,
    is_hopeless: Callable[[Scale], bool] = lambda _: False,
) -> _Set | None:
    """The same; ``wood`` is what of it grows with the scale, in mm of wood. None where at a scale it fits at, it ``is_hopeless``.

    The rest, figures and balloons, takes about as much at every scale: a scale at which that can't fit is passed over. Numbers
    are set only where the drawing fits without them, since to find their places takes most of the time.
    """
    beside = under = _ZERO
    bare, numbered = drawings.bare, drawings.numbered if has_numbers else drawings.bare
    made = None
    for scale in PLAIN:
        if wood[0] * scale.factor + beside > room[0] or wood[1] * scale.factor + under > room[1]:
            continue
        made = draw(scale, bare)
        if made.fits(room):
            if is_hopeless(scale):
                return None
            made = draw(scale, numbered)
            if made.fits(room):
                return made
        high = made.size[1] + _deep(made.notes)
        # A tenth is left to chance: where a balloon goes hangs on the scale.
        beside = (made.size[0] - wood[0] * scale.factor) * Fraction(9, 10)
        under = (high - wood[1] * scale.factor) * Fraction(9, 10)
    return draw(PLAIN[-1] if made is None else made.scale, numbered)


def _deep(notes: Sequence[str]) -> Fraction:
    return len(notes) * _STEP + 4 if notes else Fraction(0)


def _detail_sheets(pages: PlainPages, numbers: Mapping[PartRole, int]) -> list[Sheet]:
    """The details, as many beside each other as fit (two on letter and A4), row under row.

    Under other views they have no heading.
    """
    left, _, right, top = pages.box
    pictures = details(pages.plan, numbers)
    across = max(1, int((right - left) / max((picture.size[0] for picture in pictures), default=right - left)))
    wide = (right - left) / across
    high = max((picture.size[1] for picture in pictures), default=_CAPTION) + _CAPTION + _BETWEEN
    rows = [int((room + _BETWEEN) / high) for room in (pages.room - pages.begun, pages.room - _HEAD)]
    sheets: list[Sheet] = []
    n = 0
    while n < len(pictures):
        # The first sheet may be begun by other views.
        is_under = bool(not sheets and pages.begun and rows[0])
        down = rows[0] if is_under else max(1, rows[1])
        strokes: list[Stroke] = [] if is_under else [_heading(pages, f"{pages.plan.title}: details")]
        under = top if is_under else top - _HEAD
        for k, picture in enumerate(pictures[n : n + across * down]):
            x, y = left + (k % across) * wide, under - (k // across) * high
            strokes.append(Text((x, y - _WORD - 1), fitted(picture.title, wide - 3, (_WORD, _SMALL), bold=True)))
            x0, _, _, y1 = picture.box
            strokes += (moved(stroke, Move(x - x0, y - _CAPTION - y1)) for stroke in picture.strokes)
        sheets.append(pages.sheet("details", tuple(strokes), pictures[n].scale.text))
        n += across * down
    return sheets


def _heading(pages: PlainPages, said: str) -> Text:
    left, _, right, top = pages.box
    return Text((left, top - _TITLE - 2), fitted(said, right - left, (_TITLE, _WORD, _SMALL), bold=True))


def _lines(lines: Sequence[str], left: Fraction, y: Fraction) -> tuple[Text, ...]:
    return tuple(Text((left, y - (n + 1) * _STEP), words(line, _SMALL)) for n, line in enumerate(lines))
