"""Putting it together, on paper: the piece taken apart, each thing that is glued up with its picture, clamps and minutes, and its
fitting.

The order is that of the work (PT-2): first dry, then each glue-up with what is done before it shuts, its steps to tick, where its
clamps stand and what it must measure; then what is fitted, finished, levelled and fixed. Words are those of ``assembly`` and
``checks``, which the terminal says too.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import groupby
from typing import TYPE_CHECKING, Final

from joinlay.assembly.before_it_shuts import before_words
from joinlay.assembly.edge_joints import glued_panels
from joinlay.assembly.glue_words import (
    clamps_owned_words,
    clamps_words,
    cure_words,
    dry_words,
    glue_up_name,
    glue_up_words,
    panel_words,
    slot_rows,
    timetable_words,
)
from joinlay.assembly.squaring import squares_of, windings_of
from joinlay.assembly.stage_words import square_words, squares_told, stage_head
from joinlay.assembly.steps import step_words, steps_of
from joinlay.boards import DrawerRole
from joinlay.boards.names import in_few_words, listed
from joinlay.checks.fitting import finish_words, fitting_order, fitting_words, fittings
from joinlay.checks.setting_down import anchor_words, beware_words, level_words, lifting_words
from joinlay.checks.weights import stocks_by_name
from joinlay.cutlist.chosen_boards import joints_in
from joinlay.cutlist.cutting_list import cutting_list
from joinlay.lengths import Fraction
from joinlay.pages.plain_sheet import PageBlock, PlainPages, tick_box, title_over
from joinlay.pages.printed_sheet import Laid, bind
from joinlay.pages.printer import Printer
from joinlay.pen.lettering import fitted, words, wrapped
from joinlay.pen.marks import Line, Move, Role, Text, moved
from joinlay.pictures.apart_views import runners_view, stage_view, whole_view
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from joinlay.assembly.glue_ups import GlueUp
    from joinlay.assembly.steps import Step
    from joinlay.boards import PartRole
    from joinlay.jobs.plan import Plan
    from joinlay.pages.printed_sheet import Sheet
    from joinlay.paper import Paper
    from joinlay.pen.marks import Stroke
    from joinlay.pictures.apart_views import ApartView

__all__ = ["FITTING", "STANDING", "assembly_sheets", "glue_up_mark", "numbers_of"]

#: What stands over the two last things done to the piece.
FITTING, STANDING = "Fitting, in this order", "Finish, and where it stands"

_WORD, _SMALL = Fraction(7, 2), Fraction(5, 2)
#: From one line to the next, how far words are set in behind a box to tick, and the white between two things said.
_STEP, _FINE_STEP, _INDENT, _LEAST = Fraction(5), Fraction(19, 5), Fraction(7), Fraction(6, 5)
#: A heading with the white under it, and the white under a block.
_HEADING, _WHITE = Fraction(8), Fraction(3)
#: A picture takes at most this share of the page beside its steps, and of its height; those of the whole and the runners as much
#: of its height.
_SIZE = (Fraction(3, 5), Fraction(3, 10), Fraction(9, 20), Fraction(1, 4))
#: The same in a small piece, where that saves a sheet; and how many drawers it has at the most.
_SMALLER, _SMALL_PIECE = (Fraction(2, 5), Fraction(1, 5), Fraction(1, 4), Fraction(3, 20)), 2
#: Between a picture and the words beside it.
_BESIDE: Final = Fraction(4)
#: Where the columns of the timetable begin, as shares of the width.
_COLUMNS: Final = (Fraction(0), Fraction(3, 20), Fraction(1, 2), Fraction(31, 50))
_ZERO: Final = Fraction(0)


def numbers_of(plan: Plan) -> dict[PartRole, int]:
    """The number of each part in the cutting list (CL-1)."""
    numbers = {name: row.number for row in cutting_list(plan).rows for name in row.names}
    return {board.role: numbers[board.name] for board in plan.boards}


def assembly_sheets(plan: Plan, paper: Paper, *, printer: Printer | None = None, begun: Fraction = _ZERO) -> tuple[Sheet, ...]:
    """How ``plan`` goes together, on sheets of ``paper``: the whole taken apart, each glue-up with its picture, then fitting and
    standing.

    Drawers that go together alike are told once. ``printer`` is taken at its word unless given. None for a plan without an order.
    ``begun`` mm of the first sheet are left to what comes before it.
    Pictures are isometric (ISO 5456-3), nothing is measured from them. Rules PT-1 to PT-12.
    """
    steps = steps_of(plan.order)
    if not steps:
        return ()
    pages = PlainPages(plan, paper, "putting it together", printer or Printer(), begun)
    left, bottom, right, top = pages.box
    tries = (pages.flowed(list(_Chapter(plan, right - left, top - bottom, size).blocks(steps))) for size in _sizes(plan))
    # The larger pictures, unless smaller ones save a sheet.
    parted = min(tries, key=len)
    made = []
    for n, page in enumerate(parted, start=1):
        shown = tuple(dict.fromkeys(name for block in page for name in block.serves))
        sheet = pages.sheet(f"page {n}", pages.stacked(page), "not to scale", shown)
        told = [one for block in page if isinstance(block, _GlueUps) for one in block.glue_ups]
        own = (_told_on(sheet, one, shown) for one in told)
        made.append(replace(sheet, laid=(*sheet.laid, *own)))
    return bind(made)


def _told_on(sheet: Sheet, glue_up: GlueUp, shown: tuple[str, ...]) -> Laid:
    """That ``sheet`` tells of ``glue_up``, to be found by it."""
    whole = sheet.laid[0].template
    return Laid(replace(whole, names=(glue_up_mark(glue_up.number),), end=glue_up_name(glue_up)), Move(), serves=shown)


def _sizes(plan: Plan) -> tuple[tuple[Fraction, ...], ...]:
    return (_SIZE, _SMALLER) if len(plan.drawers) <= _SMALL_PIECE else (_SIZE,)


def glue_up_mark(number: int) -> str:
    """What a sheet is known by that tells of the glue-up so numbered: ``glue-up 3``."""
    return f"glue-up {number}"


@dataclass(frozen=True, slots=True)
class _GlueUps(PageBlock):
    """A block that tells of ``glue_ups``, from their first step on."""

    glue_ups: tuple[GlueUp, ...] = ()


class _Lines:
    """Words one under the other from zero down, ``wide`` mm across; beside a picture in its place at the left as far as that
    reaches.

    ``taken`` is how wide and how high that picture is.
    """

    def __init__(self, wide: Fraction, taken: tuple[Fraction, Fraction] = (_ZERO, _ZERO)) -> None:
        self._wide, (across, self._deep) = wide, taken
        self.left = across + _BESIDE if across else _ZERO
        self.y = _ZERO
        self.strokes: list[Stroke] = []

    def say(
        self, said: str, height: Fraction = _SMALL, *, ticked: bool = False, bold: bool = False, indent: Fraction = _ZERO
    ) -> None:
        """Set a sentence, behind a box to tick where it is ``ticked``."""
        if not said:
            return
        step = _STEP if height > _SMALL else _FINE_STEP
        indent = _INDENT if ticked else indent
        lines = self._wrapped(said, height, indent, bold=bold)
        if self.left and len(lines) * step - self.y > self._deep:
            # No more room beside the picture: on under it.
            self.y, self.left = min(self.y, -self._deep) - _LEAST, _ZERO
            lines = self._wrapped(said, height, indent, bold=bold)
        if ticked:
            # A box is as high as large words.
            self.y -= max(_ZERO, _STEP - step)
            self.strokes.append(tick_box(self.left, self.y - step))
        for line in lines:
            self.y -= step
            self.strokes.append(Text((self.left + indent, self.y), words(line, height, bold=bold)))
        self.y -= _LEAST

    def _wrapped(self, said: str, height: Fraction, indent: Fraction, *, bold: bool) -> list[str]:
        return list(wrapped(said, self._wide - self.left - indent, height, bold=bold))

    @property
    def high(self) -> Fraction:
        """How high it all is, the picture too."""
        return max(-self.y, self._deep)

    @property
    def is_full(self) -> bool:
        """True where nothing more stands beside the picture."""
        return not self.left

    def block(self, *, leads: bool = False) -> PageBlock:
        """All of it as a block."""
        return PageBlock(tuple(self.strokes), self.high, leads=leads)


class _Chapter:
    """The blocks of the chapter, ``wide`` mm across on pages ``high`` mm high, with pictures of these sizes."""

    def __init__(self, plan: Plan, wide: Fraction, high: Fraction, sizes: tuple[Fraction, ...]) -> None:
        self.plan, self.wide, self.high = plan, wide, high
        across, up, whole, runners = sizes
        self.beside, self.above, self.runners = (wide * across, high * up), (wide, high * whole), (wide * across, high * runners)
        self.numbers: Mapping[PartRole, int] = numbers_of(plan)
        self.squares = squares_of(plan.drawers, plan.others)
        self.windings = windings_of(plan.drawers, plan.others)

    def blocks(self, steps: Sequence[Step]) -> Iterator[PageBlock]:
        """The whole, then each thing that is put together by itself, then what is done to the piece when it stands."""
        yield title_over(f"{self.plan.title}: putting it together", self.wide, Fraction(10))
        lines = _Lines(self.wide)
        lines.say(_DRY_FIT, _WORD, ticked=True)
        lines.say(_SIGNS, indent=_INDENT)
        yield lines.block()
        whole = whole_view(self.plan, self.numbers, self.above)
        if whole is not None:
            yield self._whole(whole)
        yield from self._timetable()
        lines = _Lines(self.wide)
        for work, said in beware_words(self.plan.conditions):
            lines.say(f"Beware, {work}: {said}")
        yield lines.block()
        if panels := glued_panels(self.plan.boards, self.plan.stocks.values(), self.plan.shop.practice, joints_in(self.plan)):
            lines = _Lines(self.wide)
            for panel in panels:
                lines.say(f"Before it is cut to size, unless you have boards so wide: {panel_words(panel, self.plan.rule)}.")
            yield lines.block()
        for of, some in groupby(steps, key=lambda step: step.of):
            if of == ("piece",):
                yield from self._piece(tuple(some))
            else:
                yield from self._stage(of, tuple(some))
        yield from self._fitting()

    # -- the whole -----------------------------------------------------------------------------------

    def _whole(self, view: ApartView) -> PageBlock:
        picture, deep = self._pictured(view, self.wide)
        lines = _Lines(self.wide)
        lines.say(self._legend([role for balloon in view.balloons for role in balloon.roles], with_whole=True))
        under = (moved(stroke, Move(_ZERO, -deep)) for stroke in lines.strokes)
        return PageBlock((*picture, *under), deep - lines.y + _WHITE, serves=self._served(view))

    def _timetable(self) -> Iterator[PageBlock]:
        """When each glue-up is done, and what while it cures; nothing where there is no glue (PT-9)."""
        plan = self.plan
        rows = slot_rows(plan.timetable)
        if not rows:
            return
        yield self._heading(timetable_words(plan.timetable, is_said=plan.shop.clamps is not None))
        lines = _Lines(self.wide)
        if plan.timetable.clamps:
            lines.say(f"Clamps: {clamps_owned_words(plan.timetable.clamps, plan.rule)}.")
        yield lines.block(leads=True)
        for row in rows:
            columns = [self.wide * share for share in (*_COLUMNS, Fraction(1))]
            texts = [
                Text((left, -_FINE_STEP), fitted(said, right - left - 2, (_SMALL, Fraction(9, 5))))
                for said, left, right in zip(row, columns, columns[1:], strict=False)
            ]
            yield PageBlock(tuple(texts), _FINE_STEP)
        yield PageBlock((), _WHITE)

    def _heading(self, said: str) -> PageBlock:
        return PageBlock(tuple(self._head(said)), _HEADING, leads=True)

    def _head(self, said: str) -> Iterator[Stroke]:
        yield Text((_ZERO, -_WORD - 1), fitted(said, self.wide, (_WORD, _SMALL), bold=True))
        yield Line((_ZERO, -_WORD - 3), (self.wide, -_WORD - 3), Role.FRAME)

    # -- glue-ups ------------------------------------------------------------------------------------

    def _stage(self, of: tuple[str, ...], steps: tuple[Step, ...]) -> Iterator[PageBlock]:
        """What one thing is made by: picture at the left, steps beside it and what the numbers stand for; then clamps and
        diagonals.
        """
        stage = next(stage for stage in self.plan.order.stages if stage.name == of[0])
        view = stage_view(self.plan, stage, self.numbers, self.beside)
        assert view is not None
        picture, deep = self._pictured(view, view.picture.size[0])
        glue_ups = [one for one in self.plan.glue_ups if one.of == of]
        lines = _Lines(self.wide, (view.picture.size[0], deep))
        said: set[str] = set()
        begun: list[GlueUp] = []
        strokes: list[Stroke] = [*self._head(stage_head(of)), *(moved(stroke, Move(_ZERO, -_HEADING)) for stroke in picture)]
        above, served = _HEADING, self._served(view)
        for step in steps:
            begun += (one for one in glue_ups if step == one.steps[0])
            self._told(step, glue_ups, lines, said)
            if lines.is_full and step is not steps[-1]:
                # Under the picture a page may end after any step.
                strokes += (moved(stroke, Move(_ZERO, -above)) for stroke in lines.strokes)
                yield _GlueUps(tuple(strokes), above + lines.high, serves=served, glue_ups=tuple(begun))
                lines, strokes, above, begun = _Lines(self.wide), [], _ZERO, []
        for sentence in self._numbered(of, view):
            lines.say(sentence)
        strokes += (moved(stroke, Move(_ZERO, -above)) for stroke in lines.strokes)
        yield _GlueUps(tuple(strokes), above + lines.high, serves=served, glue_ups=tuple(begun))
        for sentence in self._clamped(glue_ups):
            lines = _Lines(self.wide)
            lines.say(sentence)
            yield PageBlock(tuple(lines.strokes), lines.high)
        measured = tuple(self._measured(of))
        if measured:
            crossed, size = self._crossed(of)
            lines = _Lines(self.wide, size)
            for sentence in measured:
                lines.say(sentence)
            yield PageBlock((*crossed, *lines.strokes), lines.high)
        yield PageBlock((), _WHITE)

    def _crossed(self, of: Sequence[str]) -> tuple[tuple[Line, ...], tuple[Fraction, Fraction]]:
        """What is made whole as a rectangle of its own shape with both its diagonals, and how wide and high that is; nothing
        of no rectangle.
        """
        whole = next((one for one in self.squares if one.made_in in of and one.of in of), None)
        if whole is None:
            return (), (_ZERO, _ZERO)
        scale = min(_CROSSED_WIDE / whole.width.mm, _CROSSED_HIGH / whole.height.mm)
        wide, high = whole.width.mm * scale, whole.height.mm * scale
        low, left, right = -high - _LEAST, _ZERO, wide
        corners = ((left, -_LEAST), (right, -_LEAST), (right, low), (left, low))
        sides = (Line(one, other, Role.OUTLINE) for one, other in zip(corners, (*corners[1:], corners[0]), strict=True))
        across = (Line(corners[n], corners[n + 2], Role.DIMENSION) for n in (0, 1))
        return (*sides, *across), (wide, high + 2 * _LEAST)

    def _clamped(self, glue_ups: Sequence[GlueUp]) -> Iterator[str]:
        """Where clamps stand, of glue-ups in which they stand alike together (PT-4)."""
        alike: dict[tuple[str, ...], list[str]] = {}
        for one in glue_ups:
            alike.setdefault(clamps_words(one, self.plan.rule), []).append(str(one.number))
        for said, numbers in alike.items():
            if said:
                yield f"Clamps of glue-up {listed(numbers)}: {'; '.join(said)}."

    def _told(self, step: Step, glue_ups: Sequence[GlueUp], lines: _Lines, said: set[str]) -> None:
        """A step to tick; before the first of a glue-up what that is, how long it takes and what is done before, after its last
        what then.

        What is ``said`` before is not said again.
        """
        own = next((one for one in glue_ups if step in one.steps), None)
        glue = self.plan.shop.glue
        if own is not None and step == own.steps[0]:
            lines.say(f"Glue-up {own.number}: {glue_up_name(own)}", bold=True)
            lines.say(f"{_upper(glue_up_words(own, glue))}.")
            self._before(own, lines, said)
        lines.say(f"{step.number} {step_words(step)}", _WORD, ticked=True)
        if own is not None and step == own.steps[-1]:
            lines.say(f"{_upper('; '.join(said for said in (dry_words(own), cure_words(own, glue)) if said))}.", indent=_INDENT)

    def _before(self, glue_up: GlueUp, lines: _Lines, said: set[str]) -> None:
        for sentence in before_words(glue_up, self.plan.boards):
            if sentence not in said:
                lines.say(sentence)
                said.add(sentence)

    def _measured(self, of: Sequence[str]) -> Iterator[str]:
        """Diagonals and winding of what is made whole; those between which they may differ alike in one sentence (PT-5)."""
        together: dict[tuple[str, str], list[tuple[str, str]]] = {}
        for name, corners, reads, differ in squares_told(of, self.squares, self.plan.rule):
            together.setdefault((corners, differ), []).append((name, reads))
        for (corners, differ), told in together.items():
            if len(told) == 1:
                yield f"{_upper(square_words(told[0][0], corners, told[0][1], differ))}."
            else:
                yield (
                    f"Square, {corners}, both diagonals: "
                    f"{', '.join(f'{name} {reads}' for name, reads in told)}; {_no_more(differ)} apart."
                )
        alike: dict[tuple[str, str], list[str]] = {}
        for one in self.windings:
            if one.made_in in of:
                alike.setdefault((one.sticks, self.plan.rule.text(one.told)), []).append(one.of)
        for (sticks, differ), names in alike.items():
            yield f"Winding: {in_few_words(names)}, two sticks {sticks}: {_no_more(differ)} out over their length."

    def _numbered(self, of: Sequence[str], view: ApartView) -> Iterator[str]:
        """What the numbers stand for, of each of several drawers."""
        shown = [part.role for part in view.parts if part.role in self.numbers]
        if not isinstance(shown[0].whole, DrawerRole):
            yield self._legend(shown)
            return
        alike: dict[str, list[str]] = {}
        for drawer in self.plan.drawers:
            if drawer.name in of:
                own = [board.role for board in drawer.assembly.boards if board.role in self.numbers]
                alike.setdefault(self._legend(own), []).append(drawer.name)
        yield from (f"{_upper(in_few_words(names))}: {said}" for said, names in alike.items())

    def _piece(self, steps: Sequence[Step]) -> Iterator[PageBlock]:
        """The piece from its things: the runners as they go on, and each step with its clamps, the first beside them."""
        yield self._heading(stage_head(("piece",)))
        left = list(steps)
        view = runners_view(self.plan, self.numbers, self.runners)
        said: set[str] = set()
        if view is not None:
            picture, deep = self._pictured(view, view.picture.size[0])
            lines = _Lines(self.wide, (view.picture.size[0], deep))
            lines.say(f"In the picture, {view.title}, likewise on the others: {self._legend([part.role for part in view.parts])}")
            own: list[GlueUp] = []
            while left and not lines.is_full:
                own += self._added(left.pop(0), lines, said)
            yield _GlueUps((*picture, *lines.strokes), lines.high + _LEAST, serves=self._served(view), glue_ups=tuple(own))
        for step in left:
            lines = _Lines(self.wide)
            told = self._added(step, lines, said)
            yield _GlueUps(tuple(lines.strokes), lines.high, glue_ups=tuple(told))
        yield PageBlock((), _WHITE)

    def _added(self, step: Step, lines: _Lines, said: set[str]) -> list[GlueUp]:
        """A step of the piece to tick, with its glue-up, which is given back; what is said before is not said again."""
        own = [one for one in self.plan.glue_ups if one.of == ("piece",) and step in one.steps]
        for one in own:
            self._before(one, lines, said)
        lines.say(f"{step.number} {step_words(step)}", _WORD, ticked=True)
        glue = self.plan.shop.glue
        for one in own:
            told = (glue_up_words(one, glue), *clamps_words(one, self.plan.rule), cure_words(one, glue))
            lines.say(f"Glue-up {one.number}: {'; '.join(told)}.", indent=_INDENT)
        return own

    # -- fitting -------------------------------------------------------------------------------------

    def _fitting(self) -> Iterator[PageBlock]:
        """Fitting in its order, finish, and how it is set down (PT-10 to PT-12)."""
        plan = self.plan
        yield self._heading(FITTING)
        for head, said in fitting_order(plan.others, has_pulls=bool(plan.knobs)):
            lines = _Lines(self.wide)
            lines.say(f"{head}: {said}", ticked=True)
            if head == "Drawers":
                for sentence in self._tight():
                    lines.say(sentence, indent=_INDENT)
            yield lines.block()
        yield PageBlock((), _WHITE)
        yield self._heading(STANDING)
        standing = (
            *(finish_words(plan.conditions, plan.shop.practice, plan.rule) if plan.drawers else ()),
            *lifting_words(plan.drawers, plan.others, stocks_by_name(plan.stocks.values()), plan.rule),
            *level_words(plan.drawers, plan.others, plan.rule),
            *anchor_words(plan.conditions, plan.others),
        )
        for sentence in standing:
            lines = _Lines(self.wide)
            lines.say(sentence)
            yield lines.block()

    def _tight(self) -> Iterator[str]:
        """Where each drawer may be tight; drawers of which the same is said together."""
        alike: dict[tuple[str, ...], list[str]] = {}
        for one in fittings(self.plan.drawers, self.plan.shop.practice, self.plan.conditions):
            alike.setdefault(fitting_words(one, self.plan.rule), []).append(one.drawer)
        for said, names in alike.items():
            yield f"{_upper(in_few_words(names))}: {' '.join(said)}"

    # -- pictures and numbers ------------------------------------------------------------------------

    def _legend(self, roles: Sequence[PartRole], *, with_whole: bool = False) -> str:
        """What the numbers stand for: ``15 left side;  16 right side``. Wood of a case that is there has none."""
        rows: dict[int, list[PartRole]] = {}
        for role in (one for one in roles if one in self.numbers):
            rows.setdefault(self.numbers[role], []).append(role)
        # Where each loose tenon goes is seen.
        loose = [str(number) for number, own in sorted(rows.items()) if own[0].kind.is_loose]
        told = [
            f"{number} {in_few_words(role.name if with_whole else role.short for role in own)}"
            for number, own in sorted(rows.items())
            if not own[0].kind.is_loose
        ]
        return "; ".join([*told, *([f"{listed(loose)} loose tenons"] if loose else [])])

    def _pictured(self, view: ApartView, wide: Fraction) -> tuple[tuple[Stroke, ...], Fraction]:
        """A view in the middle of ``wide`` mm, down from zero: strokes, and how high it is."""
        picture = view.picture
        x0, y0, x1, y1 = picture.box
        move = Move((wide - x0 - x1) / 2, -y1)
        return tuple(moved(stroke, move) for stroke in picture.strokes), y1 - y0

    def _served(self, view: ApartView) -> tuple[str, ...]:
        return tuple(part.role.name for part in view.parts)


def _upper(said: str) -> str:
    return f"{said[0].upper()}{said[1:]}"


def _no_more(differ: str) -> str:
    return differ if differ.startswith("under") else f"no more than {differ}"


#: How large a rectangle with its diagonals is drawn at the most, in mm.
_CROSSED_WIDE, _CROSSED_HIGH = Fraction(24), Fraction(10)

_DRY_FIT: Final = "First dry: put all of it together without glue, with the clamps you will use, and measure its diagonals."
_SIGNS: Final = (
    "In the pictures: numbers in circles are those of the cutting list; dotted is where glue goes; arrows say "
    "which way a part closes; a "
    "short bar is the pad of a clamp. Nothing is measured from them."
)
