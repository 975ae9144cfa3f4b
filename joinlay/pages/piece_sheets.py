"""The piece on paper: its front, its sections and its details, each at the largest scale that fits, named and dimensioned."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.cutlist.cutting_list import cutting_list
from joinlay.lengths import Fraction
from joinlay.pages.detail_sheets import detail_sheets
from joinlay.pages.plain_sheet import PlainPages
from joinlay.pages.printed_sheet import bind
from joinlay.pages.printer import Printer
from joinlay.pages.shared_sheets import begun_under, joined
from joinlay.pages.view_sets import NOTES_STEP, Drawings, Drawn, Tries, ViewSet, around, largest_set
from joinlay.pen.lettering import fitted, set_line, words, wrapped
from joinlay.pen.marks import Move, Text, text_box
from joinlay.pictures.elevation import numbered_elevation
from joinlay.pictures.picture import PLAIN
from joinlay.pictures.sections import numbered_across, numbered_level, numbered_uprights

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.jobs.plan import Plan
    from joinlay.pages.printed_sheet import Sheet
    from joinlay.pages.view_sets import DrawView
    from joinlay.paper import Paper
    from joinlay.pen.marks import Box, Point, Stroke
    from joinlay.pictures.numbered import NumberedView
    from joinlay.pictures.picture import Scale, Size

__all__ = ["piece_sheets"]

_TITLE, _WORD, _SMALL = Fraction(5), Fraction(7, 2), Fraction(5, 2)
#: Room at the head of a sheet, and over each picture for its title.
_HEAD, _CAPTION = Fraction(12), Fraction(9)
_TINY: Final = Fraction(9, 5)
#: So many small lines a view's title has at most, and from one to the next.
_TITLE_LINES, _TITLE_STEP = 2, Fraction(7, 2)
#: The least room for a view's title, and how many sections go on one sheet at most.
_LEAST_TITLE, _MOST_SECTIONS = Fraction(72), 2
_ZERO: Final = Fraction(0)


def piece_sheets(plan: Plan, paper: Paper, *, printer: Printer | None = None, begun: Fraction = _ZERO) -> tuple[Sheet, ...]:
    """The piece on sheets of ``paper``: its views in projection on one, sections besides, details; none where there is nothing to
    draw.

    ``printer`` is taken at its word unless given. The front has the level section above it and the upright section at its right
    (third angle, ISO 5456-2), all at the largest scale of one to a whole number at which they fit; then the sections parallel to
    the front and through other banks, as many to a sheet as fit. Numbers in balloons are those of the cutting list (PR-10); what
    finds no room in a drawing stands under it. Dimensions as ISO 129-1 has them. Sheets that are nearly empty are joined.
    ``begun`` mm of the first sheet are left to what comes before it, where the views are hardly smaller for that.
    """
    pages = PlainPages(plan, paper, "the piece", printer or Printer(), begun)
    numbers = {name: row.number for row in cutting_list(plan).rows for name in row.names}
    by_role = {board.role: numbers[board.name] for board in plan.boards if board.name in numbers}
    front = numbered_elevation(plan, by_role)
    if front is None:
        return ()
    uprights, level = numbered_uprights(plan, by_role), numbered_level(plan, by_role)
    across = numbered_across(plan, by_role)
    side = uprights[0] if uprights else None
    drawings = Drawings()
    under = _under_others(pages, front, side, level, across, drawings)
    if under is None:
        pages = replace(pages, begun=_ZERO)
        views, is_whole = _general(pages, front, side, level, across, drawings)
    else:
        views, is_whole = [under], True
    more = [view for view in (None if is_whole else across, *uprights[1:]) if view is not None]
    made = joined([*views, *_more_sheets(pages, more)], begun=pages.begun)
    after = replace(pages, begun=begun_under(made, begun=pages.begun))
    return bind(joined([*made, *detail_sheets(after, by_role)], begun=pages.begun))


#: Between two views in projection, and the white beside those of one row.
_APART: Final = Fraction(6)
#: How much smaller the views may be, that another stands with them.
_HARDLY: Final = Fraction(3, 5)
#: About what figures and the like take beside the wood, across and up, of one view and of three or four in projection.
_BESIDE_ONE, _BESIDE_THREE, _BESIDE_FOUR = ((Fraction(across), Fraction(up)) for across, up in ((33, 32), (71, 56), (90, 68)))
_LEGEND: Final = "Numbers in circles are those of the cutting list; letters at circles are those of the details."


def _general(
    pages: PlainPages,
    front: NumberedView,
    side: NumberedView | None,
    level: NumberedView | None,
    across: NumberedView | None,
    drawings: Drawings,
) -> tuple[list[Sheet], bool]:
    """Front, upright section and level section on one sheet; each on its own where the paper is too small for them together.

    The section parallel to the front stands in the corner that they leave, where they are hardly smaller for it; whether it does.
    """
    room = _room(pages)
    views = [view for view in (front, side, level) if view is not None]
    if across is not None and side is not None and level is not None:
        # Smaller views have room for fewer numbers: with none left over they are as good.
        whole = _all_said(room, front, side, level, across, drawings)
        # Without their numbers the three are seldom larger than with them, never smaller, and much sooner drawn.
        if (
            whole is not None
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


def _under_others(
    pages: PlainPages,
    front: NumberedView,
    side: NumberedView | None,
    level: NumberedView | None,
    across: NumberedView | None,
    drawings: Drawings,
) -> Sheet | None:
    """All four views under what comes before them on their sheet; None where they would be much smaller for that, or where
    something of them finds no room.
    """
    wide, high = _room(pages)
    if not pages.begun or pages.begun > high / 2 or side is None or level is None or across is None:
        return None
    room = (wide, high - pages.begun)
    made = _all_said(room, front, side, level, across, drawings, gives_up=False)
    if made is None or not made.fits(room):
        return None
    alone = _all_said((wide, high), front, side, level, across, drawings)
    if alone is not None and made.scale.factor < alone.scale.factor * _HARDLY:
        return None
    return _on_sheets(pages, f"{pages.plan.title}: views", [front, side, level, across], made)[0]


def _projected(
    room: Size,
    front: NumberedView,
    side: NumberedView | None,
    level: NumberedView | None,
    drawings: Drawings,
    *,
    has_numbers: bool = True,
) -> ViewSet:
    """The views as they stand together in ``room``, at the largest scale; without their numbers where that is asked."""

    def draw(scale: Scale, drawn: DrawView) -> ViewSet:
        return _in_projection(scale, front, side, level, None, room[0], drawn)

    views = [view for view in (side, level, front) if view is not None] if has_numbers else []
    return largest_set(Tries(draw, views, _wood(front, side, level, None), room, drawings), _BESIDE_THREE)


def _all_said(
    room: Size,
    front: NumberedView,
    side: NumberedView,
    level: NumberedView,
    across: NumberedView,
    drawings: Drawings,
    *,
    gives_up: bool = True,
) -> ViewSet | None:
    """All four at the largest scale, with their numbers; None where something of them finds no room in its view.

    It ``gives_up`` where something has none at the first scale that is tried, which is most likely too large.
    """

    def draw(scale: Scale, drawn: DrawView) -> ViewSet:
        return _in_projection(scale, front, side, level, across, room[0], drawn)

    # The sections have the most to say.
    views = (across, side, level, front)
    tries = Tries(draw, views, _wood(front, side, level, across), room, drawings)
    # What has no room at a scale that is most likely still too large has none at a smaller one.
    first = tries.first(0, _BESIDE_FOUR) if gives_up else None
    if first is not None and any(
        drawn(view, PLAIN[first]).picture.unsaid for view in views for drawn in (drawings.bare, drawings.numbered)
    ):
        return None
    made = largest_set(tries, _BESIDE_FOUR)
    return None if made.unsaid else made


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


def _on_sheets(pages: PlainPages, heading: str, views: Sequence[NumberedView], made: ViewSet) -> list[Sheet]:
    """A set of ``views`` on a sheet with its lines under it; lines that find no room there on sheets after it."""
    left, _, _, top = pages.box
    room = _room(pages)
    shown = ", ".join(view.title for view in views)
    under = max(0, int((room[1] - made.size[1] - 2) / NOTES_STEP))
    strokes = [_heading(pages, heading), *made.strokes(left + (room[0] - made.size[0]) / 2, top - _HEAD)]
    strokes += _lines(made.notes[:under], left, top - _HEAD - made.size[1] - 2)
    sheets = [pages.sheet(shown, tuple(strokes), made.scale.text)]
    many = int(room[1] / NOTES_STEP)
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
    drawn: DrawView,
) -> ViewSet:
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


def _put_together(placed: Sequence[tuple[Drawn, Point]], scale: Scale, wide: Fraction) -> ViewSet:
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
    x0, y0, x1, y1 = around(boxes)
    unsaid = [(drawn.picture.title, said) for drawn, _ in placed for said in drawn.picture.unsaid]
    told = [f"{title}: {said}" if len(placed) > 1 else said for title, said in unsaid]
    notes = tuple(line for one in (_LEGEND, *told) for line in wrapped(one, wide, _SMALL))
    placed_so = tuple((strokes, (x - x0, y - y1)) for strokes, (x, y) in made)
    return ViewSet(placed_so, (x1 - x0, y1 - y0), notes, scale, len(told) + cut_short)


def _title(said: str, at: Point, room: Fraction) -> tuple[Text, ...]:
    """What a view is called in ``room`` mm over the point ``at``: in one line, or in two small ones."""
    x, y = at
    lines = list(wrapped(said, room, _SMALL, bold=True))
    if set_line(words(said, _SMALL, bold=True)).width <= room or len(lines) > _TITLE_LINES:
        return (Text(at, fitted(said, room, (_WORD, _SMALL, _TINY), bold=True)),)
    return tuple(Text((x, y + n * _TITLE_STEP), words(line, _SMALL, bold=True)) for n, line in enumerate(reversed(lines)))


def _more_sheets(pages: PlainPages, views: Sequence[NumberedView]) -> Iterator[Sheet]:
    """Other sections under each other at one scale, two to a sheet; each on its own where the paper is too small for two."""
    room, heading = _room(pages), f"{pages.plan.title}: sections"
    for n in range(0, len(views), _MOST_SECTIONS):
        group = views[n : n + _MOST_SECTIONS]
        made = _stack(group, room)
        groups = [(group, made)] if made.fits(room) else [([view], _stack([view], room)) for view in group]
        for some, own in groups:
            yield from _on_sheets(pages, heading, some, own)


def _stack(views: Sequence[NumberedView], room: Size) -> ViewSet:
    """Views one under the other at the largest scale at which they fit ``room``."""
    wide = max(view.box[2] - view.box[0] for view in views)
    high = sum((view.box[3] - view.box[1] for view in views), _ZERO)

    def stacked(scale: Scale, drawn: DrawView) -> ViewSet:
        placed: list[tuple[Drawn, Point]] = []
        y = _ZERO
        for view in views:
            one = drawn(view, scale)
            placed.append((one, (_ZERO, y - _CAPTION - one.box[3])))
            y -= _CAPTION + one.box[3] - one.box[1] + _APART
        return _put_together(placed, scale, room[0])

    beside = (_BESIDE_ONE[0], _BESIDE_ONE[1] * len(views))
    return largest_set(Tries(stacked, views, (wide, high), room, Drawings()), beside)


def _heading(pages: PlainPages, said: str) -> Text:
    left, _, right, top = pages.box
    return Text((left, top - _TITLE - 2), fitted(said, right - left, (_TITLE, _WORD, _SMALL), bold=True))


def _lines(lines: Sequence[str], left: Fraction, y: Fraction) -> tuple[Text, ...]:
    return tuple(Text((left, y - (n + 1) * NOTES_STEP), words(line, _SMALL)) for n, line in enumerate(lines))
