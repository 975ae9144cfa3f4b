"""Putting it together, on paper: the piece taken apart, each thing that is glued up with its picture, clamps and minutes, and its
fitting.

It runs in two columns, each picture with its words beside it where it leaves them room, and under it where it doesn't. The order
is that of the work (PT-2): first dry, then each glue-up with what is done before it shuts, where its clamps stand, its steps to
tick and what it must measure; then what is fitted, finished, levelled and fixed. Words are those of ``assembly`` and ``checks``,
which the terminal says too.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import chain, groupby
from typing import TYPE_CHECKING, Final

from joinlay.assembly.before_it_shuts import MASKED, before_words
from joinlay.assembly.edge_joints import glued_panels
from joinlay.assembly.glue_words import clamps_words, cure_words, dry_words, glue_up_name, glue_up_words, panel_words
from joinlay.assembly.squaring import squares_of, windings_of
from joinlay.assembly.stage_words import square_words, squares_told, stage_head
from joinlay.assembly.steps import step_words, steps_of
from joinlay.boards import DrawerRole
from joinlay.boards.names import in_few_words, listed
from joinlay.checks.setting_down import beware_words
from joinlay.cutlist.chosen_boards import joints_in
from joinlay.cutlist.cutting_list import cutting_list
from joinlay.lengths import Fraction
from joinlay.pages.finishing_blocks import FITTING, STANDING, finishing_blocks
from joinlay.pages.plain_sheet import PageBlock, PlainPages, title_over
from joinlay.pages.printed_sheet import Laid, bind
from joinlay.pages.printer import Printer
from joinlay.pages.timetable_blocks import timetable_blocks
from joinlay.pages.told_beside import WHITE, WORD, Saying, ToldBlock, heading, told_in_blocks, upper
from joinlay.pages.two_columns import column_width, in_columns
from joinlay.pen.marks import Line, Move, Role
from joinlay.pictures.apart_views import runners_view, stage_view, whole_view
from joinlay.pictures.picture import PLAIN, Picture

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from joinlay.assembly.glue_ups import GlueUp
    from joinlay.assembly.steps import Step
    from joinlay.boards import PartRole
    from joinlay.jobs.plan import Plan
    from joinlay.pages.printed_sheet import Sheet
    from joinlay.pages.two_columns import ColumnPage
    from joinlay.paper import Paper
    from joinlay.pictures.apart_views import ApartView

__all__ = ["FITTING", "STANDING", "assembly_sheets", "glue_up_mark", "numbers_of"]

#: Pictures take at most these shares of the width of a column and the height of a page: the whole, a thing that is put together,
#: the runners. In a small piece, of so many drawers at the most, they are as clear when they are smaller; so is a thing of few
#: parts.
_LARGE = ((Fraction(1), Fraction(2, 5)), (Fraction(1), Fraction(6, 25)), (Fraction(11, 20), Fraction(6, 25)))
_SMALL = ((Fraction(11, 20), Fraction(1, 4)), (Fraction(1, 2), Fraction(9, 50)), (Fraction(1, 2), Fraction(1, 6)))
_SMALL_PIECE, _FEW_PARTS = 2, 4
#: How large a rectangle with its diagonals is drawn at the most, in mm.
_CROSSED_WIDE, _CROSSED_HIGH = Fraction(12), Fraction(8)
#: How high the title over the chapter is, with the white under it.
_TITLE: Final = Fraction(9)
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
    wide = right - left
    title = title_over(f"{plan.title}: putting it together", wide, _TITLE)
    chapter = _Chapter(plan, column_width(wide), top - bottom)
    parted = min((in_columns([title], blocks, pages.room, begun) for blocks in chapter.in_orders(steps)), key=_far)
    made = []
    for n, page in enumerate(parted, start=1):
        shown = tuple(dict.fromkeys(name for block in page.blocks for name in block.serves))
        sheet = pages.sheet(f"page {n}", page.strokes(left, top, wide), "not to scale", shown)
        told = [one for block in page.blocks if isinstance(block, ToldBlock) for one in block.glue_ups]
        own = (_told_on(sheet, one, shown) for one in told)
        made.append(replace(sheet, laid=(*sheet.laid, *own)))
    return bind(made)


def _far(pages: Sequence[ColumnPage]) -> tuple[int, Fraction]:
    """How far ``pages`` go: how many there are, and how far down the last is taken."""
    return len(pages), pages[-1].height


def _told_on(sheet: Sheet, glue_up: GlueUp, shown: tuple[str, ...]) -> Laid:
    """That ``sheet`` tells of ``glue_up``, to be found by it."""
    whole = sheet.laid[0].template
    return Laid(replace(whole, names=(glue_up_mark(glue_up.number),), end=glue_up_name(glue_up)), Move(), serves=shown)


def glue_up_mark(number: int) -> str:
    """What a sheet is known by that tells of the glue-up so numbered: ``glue-up 3``."""
    return f"glue-up {number}"


class _Chapter:
    """The blocks of the chapter in columns ``wide`` mm across on pages ``high`` mm high."""

    def __init__(self, plan: Plan, wide: Fraction, high: Fraction) -> None:
        self.plan, self.wide = plan, wide
        sizes = _SMALL if len(plan.drawers) <= _SMALL_PIECE else _LARGE
        shares = (*sizes, _SMALL[1])
        self.of_whole, self.of_stage, self.of_runners, self.of_few_parts = ((wide * across, high * up) for across, up in shares)
        self.numbers: Mapping[PartRole, int] = numbers_of(plan)
        self.squares = squares_of(plan.drawers, plan.others)
        self.windings = windings_of(plan.drawers, plan.others)
        #: What holds throughout, once it is said.
        self.said: set[str] = set()

    def in_orders(self, steps: Sequence[Step]) -> tuple[list[PageBlock], ...]:
        """The whole, then each thing that is put together by itself, then what is done to the piece when it stands; once more
        with the timetable before the whole, since that may begin where a picture has no room.
        """
        dry = [*self._told([Saying(_DRY_FIT, WORD, ticked=True)])]
        whole, before, rest = [*self._whole()], [*self._before_all()], [*self._rest(steps)]
        return [*dry, *whole, *before, *rest], [*dry, *before, *whole, *rest]

    def _whole(self) -> Iterator[PageBlock]:
        """The piece taken apart, where it is a whole piece, and how pictures are read."""
        view = whole_view(self.plan, self.numbers, self.of_whole)
        shown = [role for balloon in view.balloons for role in balloon.roles] if view is not None else []
        yield from self._told(map(Saying, filter(None, (self._legend(shown, with_whole=True), _SIGNS))), view)
        yield PageBlock((), WHITE)

    def _before_all(self) -> Iterator[PageBlock]:
        """When each is glued, what to beware of, and what is glued up before it is cut to size."""
        yield from timetable_blocks(self.plan, self.wide)
        yield from self._told(Saying(f"Beware, {work}: {said}") for work, said in beware_words(self.plan.conditions))
        panels = glued_panels(self.plan.boards, self.plan.stocks.values(), self.plan.shop.practice, joints_in(self.plan))
        yield from self._told(
            Saying(f"Before it is cut to size, unless you have boards so wide: {panel_words(panel, self.plan.rule)}.")
            for panel in panels
        )
        yield PageBlock((), WHITE)

    def _rest(self, steps: Sequence[Step]) -> Iterator[PageBlock]:
        """Each thing that is put together by itself, the piece, and what is done to it when it stands."""
        for of, some in groupby(steps, key=lambda step: step.of):
            own = tuple(some)
            yield heading(stage_head(of), self.wide)
            yield from self._piece(own) if of == ("piece",) else self._stage(of, own)
            yield PageBlock((), WHITE)
        yield from finishing_blocks(self.plan, self.wide)

    def _told(self, sayings: Iterable[Saying], view: ApartView | None = None) -> Iterator[PageBlock]:
        """Sentences, the first of them beside a ``view`` where there is one."""
        if view is None:
            return told_in_blocks(sayings, self.wide)
        return told_in_blocks(sayings, self.wide, view.picture, tuple(part.role.name for part in view.parts))

    # -- glue-ups ------------------------------------------------------------------------------------

    def _stage(self, of: tuple[str, ...], steps: tuple[Step, ...]) -> Iterator[PageBlock]:
        """What one thing is made by: its picture, what the numbers stand for and the steps beside it; then its diagonals."""
        stage = next(stage for stage in self.plan.order.stages if stage.name == of[0])
        parts = {role for move in stage.moves for role in move.parts if not role.kind.is_loose}
        size = self.of_few_parts if len(parts) <= _FEW_PARTS else self.of_stage
        view = stage_view(self.plan, stage, self.numbers, size)
        assert view is not None
        yield from self._told(chain(map(Saying, self._numbered(of, view)), self._steps(of, steps)), view)
        measured = map(Saying, self._measured(of))
        crossed = self._crossed(of)
        yield from told_in_blocks(measured, self.wide, crossed)

    def _crossed(self, of: Sequence[str]) -> Picture | None:
        """What is made whole as a rectangle of its own shape with both its diagonals; None of what is no rectangle."""
        whole = next((one for one in self.squares if one.made_in in of and one.of in of), None)
        if whole is None:
            return None
        scale = min(_CROSSED_WIDE / whole.width.mm, _CROSSED_HIGH / whole.height.mm)
        wide, high = whole.width.mm * scale, whole.height.mm * scale
        corners = ((_ZERO, high), (wide, high), (wide, _ZERO), (_ZERO, _ZERO))
        sides = (Line(one, other, Role.OUTLINE) for one, other in zip(corners, (*corners[1:], corners[0]), strict=True))
        across = (Line(corners[n], corners[n + 2], Role.DIMENSION) for n in (0, 1))
        return Picture(f"diagonals of {whole.of}", (*sides, *across), PLAIN[0])

    def _steps(self, of: tuple[str, ...], steps: Sequence[Step]) -> Iterator[Saying]:
        """The ``steps`` of one thing, each glue-up before the first of its own."""
        glue_ups = [one for one in self.plan.glue_ups if one.of == of]
        said: set[str] = set()
        for step in steps:
            yield from self._stepped(step, glue_ups, said)

    def _stepped(self, step: Step, glue_ups: Sequence[GlueUp], said: set[str]) -> Iterator[Saying]:
        """A step to tick; before the first of a glue-up what that is, how long it takes and is left, where its clamps stand and
        what is done before.

        What is ``said`` before is not said again.
        """
        glue = self.plan.shop.glue
        for own in (one for one in glue_ups if step == one.steps[0]):
            words = [f"{glue_up_words(own, glue)}; {cure_words(own, glue)}", dry_words(own)]
            told = [f"{upper(one)}." for one in words if one]
            clamped = self._clamped(own, glue_ups)
            if step.is_whole:
                # What is put into the piece is named by its step, and goes with it.
                yield Saying(" ".join((*told, *clamped)), head=f"Glue-up {own.number}:", leads=True, begins=own)
            else:
                yield Saying(" ".join(told), head=f"Glue-up {own.number}: {glue_up_name(own)}.", begins=own)
                yield from map(Saying, clamped)
            yield from (Saying(sentence, leads=step.is_whole) for sentence in self._before(own, said))
        yield Saying(f"{step.number} {step_words(step)}", WORD, ticked=True)

    def _clamped(self, glue_up: GlueUp, glue_ups: Sequence[GlueUp]) -> Iterator[str]:
        """Where its clamps stand, or which of the ``glue_ups`` before it has them alike; nothing where it takes none (PT-4)."""
        words = clamps_words(glue_up, self.plan.rule)
        first = next(one for one in glue_ups if clamps_words(one, self.plan.rule) == words)
        if words:
            yield f"{upper('; '.join(words))}." if first is glue_up else f"Clamps as in glue-up {first.number}."

    def _before(self, glue_up: GlueUp, said: set[str]) -> Iterator[str]:
        """What is done before it shuts, but for what is ``said``."""
        for sentence in before_words(glue_up, self.plan.boards):
            if sentence not in (*said, *self.said):
                (self.said if sentence == MASKED else said).add(sentence)
                yield sentence

    def _measured(self, of: Sequence[str]) -> Iterator[str]:
        """Diagonals and winding of what is made whole; those between which they may differ alike in one sentence (PT-5)."""
        together: dict[tuple[str, str], list[tuple[str, str]]] = {}
        for name, corners, reads, differ in squares_told(of, self.squares, self.plan.rule):
            together.setdefault((corners, differ), []).append((name, reads))
        for (corners, differ), told in together.items():
            if len(told) == 1:
                yield f"{upper(square_words(told[0][0], corners, told[0][1], differ))}."
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
        """What the numbers stand for; of several drawers of each, and of all of them what they have alike."""
        shown = [part.role for part in view.parts if part.role in self.numbers]
        if not isinstance(shown[0].whole, DrawerRole):
            yield self._legend(shown)
            return
        each: dict[tuple[str, ...], list[str]] = {}
        for drawer in self.plan.drawers:
            if drawer.name in of:
                own = tuple(self._numbers(board.role for board in drawer.assembly.boards))
                each.setdefault(own, []).append(drawer.name)
        if len(of) == 1:
            yield from map("; ".join, each)
            return
        alike = [one for one in next(iter(each)) if len(each) > 1 and all(one in own for own in each)]
        for rows, names in each.items():
            yield f"{upper(in_few_words(names))}: {'; '.join(row for row in rows if row not in alike)}"
        if alike:
            yield f"Each: {'; '.join(alike)}"

    def _piece(self, steps: Sequence[Step]) -> Iterator[PageBlock]:
        """The piece from its things: the runners as they go on, and the steps beside them."""
        told = self._steps(("piece",), steps)
        view = runners_view(self.plan, self.numbers, self.of_runners)
        if view is not None:
            legend = self._legend([part.role for part in view.parts])
            told = chain([Saying(f"In the picture, {view.title}, likewise on the others: {legend}")], told)
        yield from self._told(told, view)

    # -- pictures and numbers ------------------------------------------------------------------------

    def _legend(self, roles: Iterable[PartRole], *, with_whole: bool = False) -> str:
        """What the numbers stand for: ``15 left side; 16 right side``."""
        return "; ".join(self._numbers(roles, with_whole=with_whole))

    def _numbers(self, roles: Iterable[PartRole], *, with_whole: bool = False) -> Iterator[str]:
        """What each number stands for: ``15 left side``. Wood of a case that is there has none."""
        rows: dict[int, list[PartRole]] = {}
        for role in (one for one in roles if one in self.numbers):
            rows.setdefault(self.numbers[role], []).append(role)
        for number, own in sorted(rows.items()):
            if not own[0].kind.is_loose:
                yield f"{number} {in_few_words(role.name if with_whole else role.short for role in own)}"
        # Where each loose tenon goes is seen.
        loose = [str(number) for number, own in sorted(rows.items()) if own[0].kind.is_loose]
        if loose:
            yield f"{listed(loose)} loose tenons"


def _no_more(differ: str) -> str:
    return differ if differ.startswith("under") else f"no more than {differ}"


_DRY_FIT: Final = "First dry: put all of it together without glue, with the clamps you will use, and measure its diagonals."
_SIGNS: Final = (
    "In the pictures: numbers in circles are those of the cutting list; arrows say which way a part closes; a short bar is the "
    "pad of a clamp. Nothing is measured from them."
)
