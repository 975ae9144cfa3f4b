"""Putting it together, on paper: the piece taken apart, then each thing that is glued up on about half a page, its steps to tick (PT-2, PT-5)."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING, Final

from joinlay.assembly.squaring import squares_of
from joinlay.assembly.stage_words import square_words, squares_told, stage_head
from joinlay.assembly.steps import step_glue, step_loose, step_words, steps_of
from joinlay.boards import DrawerRole
from joinlay.boards.names import in_few_words
from joinlay.cutlist.cutting_list import cutting_list
from joinlay.lengths import Fraction
from joinlay.pages.plain_sheet import PageBlock, PlainPages, flow, tick_box, title_over
from joinlay.pages.printed_sheet import bind
from joinlay.pages.printer import Printer
from joinlay.pen.lettering import fitted, words, wrapped
from joinlay.pen.marks import Line, Move, Role, Text, moved
from joinlay.pictures.apart_views import stage_view, whole_view

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from joinlay.assembly.steps import Step
    from joinlay.boards import PartRole
    from joinlay.jobs.plan import Plan
    from joinlay.pages.printed_sheet import Sheet
    from joinlay.paper import Paper
    from joinlay.pen.marks import Stroke
    from joinlay.pictures.apart_views import ApartView

__all__ = ["assembly_sheets", "numbers_of"]

_WORD, _SMALL = Fraction(7, 2), Fraction(5, 2)
#: From one line to the next, and how far words are set in behind a box to tick.
_STEP, _FINE_STEP, _INDENT = Fraction(21, 4), Fraction(4), Fraction(7)
#: A heading with the white under it, and the white under a block.
_HEADING, _WHITE = Fraction(9), Fraction(5)
#: A picture takes at most this share of the page beside its steps, and of its height; that of the whole as much of its height.
_WIDE, _HIGH, _WHOLE_HIGH = Fraction(3, 5), Fraction(2, 5), Fraction(11, 20)
#: Between a picture and the words beside it.
_BESIDE: Final = Fraction(4)
_ZERO: Final = Fraction(0)


def numbers_of(plan: Plan) -> dict[PartRole, int]:
    """The number of each part in the cutting list (CL-1)."""
    numbers = {name: row.number for row in cutting_list(plan).rows for name in row.names}
    return {board.role: numbers[board.name] for board in plan.boards}


def assembly_sheets(plan: Plan, paper: Paper, *, printer: Printer | None = None) -> tuple[Sheet, ...]:
    """How ``plan`` goes together, on sheets of ``paper``: the whole taken apart, then each thing with its picture, its steps and its diagonals.

    Drawers that go together alike are told once. ``printer`` is taken at its word unless given. None for a plan without an order. Pictures are
    isometric (ISO 5456-3), nothing is measured from them. Rules PT-1 to PT-8.
    """
    steps = steps_of(plan.order)
    if not steps:
        return ()
    pages = PlainPages(plan, paper, "putting it together", printer or Printer())
    left, bottom, right, top = pages.box
    numbers = numbers_of(plan)
    chapter = _Chapter(plan, numbers, right - left, top - bottom)
    blocks = list(chapter.blocks(steps))
    parted = flow(blocks, top - bottom)
    made = []
    for n, page in enumerate(parted, start=1):
        shown = tuple(dict.fromkeys(name for block in page for name in block.serves))
        made.append(pages.sheet(f"page {n}", pages.stacked(page), "not to scale", shown))
    return bind(made)


class _Chapter:
    """The blocks of the chapter, ``wide`` mm across on pages ``high`` mm high."""

    def __init__(self, plan: Plan, numbers: Mapping[PartRole, int], wide: Fraction, high: Fraction) -> None:
        self.plan, self.numbers, self.wide, self.high = plan, numbers, wide, high
        self.squares = squares_of(plan.drawers, plan.others)

    def blocks(self, steps: Sequence[Step]) -> Iterator[PageBlock]:
        """A block for the whole, and one for each thing that is put together by itself."""
        yield title_over(f"{self.plan.title}: putting it together", self.wide, Fraction(11))
        yield self._ticked(_DRY_FIT)
        whole = whole_view(self.plan, self.numbers, (self.wide, self.high * _WHOLE_HIGH))
        if whole is not None:
            yield self._whole(whole)
        for of, some in groupby(steps, key=lambda step: step.of):
            yield from self._stage(of, tuple(some))

    def _ticked(self, said: str) -> PageBlock:
        strokes: list[Stroke] = [tick_box(_ZERO, -_STEP)]
        y = _ZERO
        for line in wrapped(said, self.wide - _INDENT, _WORD):
            y -= _STEP
            strokes.append(Text((_INDENT, y), words(line, _WORD)))
        return PageBlock(tuple(strokes), -y + _WHITE)

    def _whole(self, view: ApartView) -> PageBlock:
        picture, deep = self._pictured(view, self.wide)
        names = self._legend([role for balloon in view.balloons for role in balloon.roles], with_whole=True)
        strokes, y = list(picture), -deep
        for line in wrapped(names, self.wide, _SMALL):
            y -= _FINE_STEP
            strokes.append(Text((_ZERO, y), words(line, _SMALL)))
        return PageBlock(tuple(strokes), -y + _WHITE, serves=self._served(view))

    def _stage(self, of: tuple[str, ...], steps: tuple[Step, ...]) -> Iterator[PageBlock]:
        """What one thing is made by: picture at the left, steps beside it, then diagonals and what the numbers stand for."""
        stage = next(stage for stage in self.plan.order.stages if stage.name == of[0])
        view = None if stage.of is None else stage_view(self.plan, stage, self.numbers, (self.wide * _WIDE, self.high * _HIGH))
        strokes: list[Stroke] = [
            Text((_ZERO, -_WORD - 2), fitted(stage_head(of), self.wide, (_WORD, _SMALL), bold=True)),
            Line((_ZERO, -_WORD - 4), (self.wide, -_WORD - 4), Role.FRAME),
        ]
        left = deep = _ZERO
        if view is not None:
            picture, deep = self._pictured(view, view.picture.size[0])
            strokes += (moved(stroke, Move(_ZERO, -_HEADING)) for stroke in picture)
            left = view.picture.size[0] + _BESIDE
        if view is None:
            # Nothing beside them: the steps go on from page to page.
            yield PageBlock(tuple(strokes), _HEADING, leads=True)
            for step in steps:
                lines, y = self._steps((step,), _ZERO)
                yield PageBlock(tuple(lines), -y + 1)
            return
        lines, y = self._steps(steps, left)
        strokes += (moved(line, Move(_ZERO, -_HEADING)) for line in lines)
        y = min(y, -deep) - _HEADING - 2
        for said in self._under(of, view):
            for line in wrapped(said, self.wide, _SMALL):
                y -= _FINE_STEP
                strokes.append(Text((_ZERO, y), words(line, _SMALL)))
        yield PageBlock(tuple(strokes), -y + _WHITE, serves=self._served(view))

    def _steps(self, steps: Sequence[Step], left: Fraction) -> tuple[list[Stroke], Fraction]:
        """Steps to tick from ``left`` on, down from zero: strokes, and where they end."""
        strokes: list[Stroke] = []
        y, room = _ZERO, self.wide - left - _INDENT
        for step in steps:
            strokes.append(tick_box(left, y - _STEP))
            for line in wrapped(f"{step.number} {step_words(step)}", room, _WORD):
                y -= _STEP
                strokes.append(Text((left + _INDENT, y), words(line, _WORD)))
            glue, loose = step_glue(step, self.plan.unit), step_loose(step)
            for line in wrapped("; ".join(said for said in (glue and f"glue: {glue}", loose) if said), room, _SMALL):
                y -= _FINE_STEP
                strokes.append(Text((left + _INDENT, y), words(line, _SMALL)))
            y -= Fraction(3, 2)
        return strokes, y

    def _under(self, of: Sequence[str], view: ApartView) -> Iterator[str]:
        """Diagonals, then what the numbers stand for, of each of several drawers."""
        yield from (square_words(*told) for told in squares_told(of, self.squares, self.plan.rule))
        shown = [part.role for part in view.parts if part.role in self.numbers]
        yield self._legend(shown)
        for drawer in self.plan.drawers:
            if drawer.name in of[1:] and isinstance(shown[0].whole, DrawerRole):
                yield f"{drawer.name}: {self._legend([board.role for board in drawer.assembly.boards])}"

    def _legend(self, roles: Sequence[PartRole], *, with_whole: bool = False) -> str:
        """What the numbers stand for: ``15 left side;  16 right side``."""
        rows: dict[int, list[PartRole]] = {}
        for role in roles:
            rows.setdefault(self.numbers[role], []).append(role)
        named = (
            (number, in_few_words(role.name if with_whole else role.short for role in own))
            for number, own in sorted(rows.items())
        )
        return ";  ".join(f"{number} {said}" for number, said in named)

    def _pictured(self, view: ApartView, wide: Fraction) -> tuple[tuple[Stroke, ...], Fraction]:
        """A view in the middle of ``wide`` mm, down from zero: strokes, and how high it is."""
        picture = view.picture
        x0, y0, x1, y1 = picture.box
        move = Move((wide - x0 - x1) / 2, -y1)
        return tuple(moved(stroke, move) for stroke in picture.strokes), y1 - y0

    def _served(self, view: ApartView) -> tuple[str, ...]:
        return tuple(part.role.name for part in view.parts)


_DRY_FIT: Final = (
    "First dry: put all of it together without glue, with the clamps you will use, and measure its diagonals. Nothing is measured from the pictures; "
    "numbers in circles are those of the cutting list, grey is where glue goes."
)
