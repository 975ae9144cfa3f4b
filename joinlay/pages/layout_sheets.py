"""Sheet layouts on paper: each sheet drawn to a scale with its parts and numbered cuts, and under it the cuts in words (CL-2)."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.boards.names import in_few_words
from joinlay.cutlist.pattern import Keeps, cut_steps
from joinlay.cutlist.saw_cautions import cautions_at_sheet
from joinlay.lengths import Fraction, decimal_text
from joinlay.pages.layout_drawing import by, layout_drawing, read
from joinlay.pages.plain_sheet import PageBlock, PlainPages, flow, hung, tick_box
from joinlay.pages.printed_sheet import bind
from joinlay.pages.printer import Printer
from joinlay.pen.lettering import figures, fitted, set_line, words, wrapped
from joinlay.pen.marks import Align, Line, Role, Text
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.cutlist.lists import Lists
    from joinlay.cutlist.pattern import CutSheet, CutStep, Layout
    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Graduation
    from joinlay.pages.printed_sheet import Sheet
    from joinlay.paper import Paper
    from joinlay.pen.marks import Stroke
    from joinlay.shop import RunLimits

__all__ = ["layout_sheets"]

_TITLE, _WORD, _SMALL, _TINY = Fraction(5), Fraction(7, 2), Fraction(5, 2), Fraction(9, 5)
#: How high the drawing of a sheet may be, a row of the list of cuts, and its figures: to be read at the saw, and smaller where
#: all of it would not fit on the page.
_SIZES: Final = (
    (Fraction(105), Fraction(9), Fraction(5)),
    (Fraction(105), Fraction(7), Fraction(7, 2)),
    (Fraction(85), Fraction(13, 2), Fraction(7, 2)),
)
_ZERO: Final = Fraction(0)
#: From one small line to the next.
_STEP: Final = Fraction(4)
#: Where the columns of the list of cuts stand: right edges of the numbers, the figures and how often; left edges of the words.
_NUMBER, _WAY, _HOW, _AT = Fraction(27), Fraction(30), Fraction(54), Fraction(84)
_TIMES, _THROUGH, _DONE = Fraction(89), Fraction(104), Fraction(143)
_LEGEND: Final = (
    "White figures on black are the cuts, in order: each right across its panel, crosscuts measured from its left end in the "
    "drawing, rips from its lower edge. A bold figure in a part is its number on the cutting list."
)


def layout_sheets(plan: Plan, lists: Lists, paper: Paper, *, printer: Printer | None = None) -> tuple[Sheet, ...]:
    """A page for every sheet, offcut and board of ``lists`` that is cut into; more where its cuts don't fit on one (CL-2).

    The first page of each has it drawn, at the largest scale of one to a whole number that has room; its foot says which.
    """
    pages = PlainPages(plan, paper, "sheet layout", printer or Printer())
    made: list[Sheet] = []
    for layout in lists.layouts:
        for number, sheet in enumerate(layout.sheets, start=1):
            made += _Page(
                pages, layout, sheet, f"{layout.stock}, {number} of {len(layout.sheets)}", plan.rule, lists.limits
            ).made()
    return bind(made)


@dataclass(frozen=True, slots=True)
class _Page:
    """One sheet of one layout, drawn."""

    pages: PlainPages
    layout: Layout
    sheet: CutSheet
    name: str
    rule: Graduation
    limits: RunLimits

    def made(self) -> Iterator[Sheet]:
        left, bottom, right, top = self.pages.box
        wide, room = right - left, top - bottom
        drawn = {
            deep: layout_drawing(self.sheet, self.layout.kerf, self.rule, wide, deep) for deep in {deep for deep, *_ in _SIZES}
        }
        tries = [(flow(self._blocks(wide, drawn[deep][0], high, figure), room), drawn[deep][1]) for deep, high, figure in _SIZES]
        # Where it won't go on one page, it need not be small.
        pages, scale = next((each for each in tries if len(each[0]) == 1), tries[0])
        serves = tuple(laid.piece.name for laid in self.sheet.pieces)
        first, *rest = (self.pages.stacked(page) for page in pages)
        yield self.pages.sheet(self.name, first, f"1:{scale}", serves)
        yield from (self.pages.sheet(self.name, strokes) for strokes in rest)

    def _blocks(self, wide: Fraction, drawn: PageBlock, high: Fraction, figure: Fraction) -> list[PageBlock]:
        """Everything about the sheet, ``drawn`` and in words."""
        again = _captions(wide, f"{self.name}, continued")
        rows = [replace(self._row(step, wide, high, figure), again=again) for step in cut_steps(self.sheet)]
        listed = [_captions(wide), *rows] if rows else [self._uncut()]
        return [self._head(wide), *self._cautions(wide), drawn, *listed, *self._offcuts(wide)]

    def _head(self, wide: Fraction) -> PageBlock:
        blank, layout = self.sheet.blank, self.layout
        name = self.name if blank.is_whole else f"{self.name}: {blank.name}"
        size = f"{read(blank.length, self.rule)} × {read(blank.width, self.rule)}, {read(layout.thickness, self.rule)} thick"
        # What it uses, then what the drawing means, a line under the other.
        told = [*wrapped(self._tally(), wide, _SMALL), *wrapped(_LEGEND, wide, _SMALL)]
        lines: list[Stroke] = [
            Text((_ZERO, Fraction(-7)), fitted(name, wide - 72, (_TITLE, _WORD, _SMALL), bold=True)),
            Text((wide, Fraction(-7)), fitted(size, Fraction(70), (_WORD, _SMALL)), Align.RIGHT),
            *(Text((_ZERO, Fraction(-13) - n * _STEP), words(said, _SMALL)) for n, said in enumerate(told)),
        ]
        return PageBlock(tuple(lines), 12 + len(told) * _STEP, leads=True)

    def _cautions(self, wide: Fraction) -> Iterator[PageBlock]:
        """What to beware of at the saw, before the first cut (section 14 of the trade rules)."""
        for caution in cautions_at_sheet(self.sheet, self.limits):
            lines = list(wrapped(caution.sentence(lambda length: read(length, self.rule)), wide, _SMALL))
            strokes = (Text((_ZERO, Fraction(-3) - n * _STEP), words(line, _SMALL)) for n, line in enumerate(lines))
            yield PageBlock(tuple(strokes), len(lines) * _STEP + 1, leads=True)

    def _tally(self) -> str:
        layout = self.layout
        used = decimal_text(self.sheet.used * 100, 0)
        said = [f"{used} % of it goes into parts, kerf {read(layout.kerf, self.rule)}."]
        if layout.whole:
            takes = "1 whole sheet" if layout.whole == 1 else f"{layout.whole} whole sheets"
            is_least = layout.whole == layout.least_whole
            bound = ", and no layout takes fewer" if is_least else f"; no layout could take fewer than {layout.least_whole}"
            said.append(f"All the parts of {layout.stock} take {takes}{bound}.")
        return " ".join(said)

    def _row(self, step: CutStep, wide: Fraction, high: Fraction, figure: Fraction) -> PageBlock:
        """Cut number, which way, what to set, how often, through what, and the parts that are then done."""
        done, small = _done(in_few_words(laid.piece.name for laid in step.done), wide - _DONE)
        high = max(high, _STEP * len(done) + 1)
        y, cut = -(high + figure) / 2 + Fraction(1, 4), step.first
        how, setting = ("trim", cut.at + self.layout.kerf) if cut.keeps is Keeps.FAR else ("at", cut.at)
        times = f"{len(step.cuts)} times" if len(step.cuts) > 1 else ""
        first = -(high + small) / 2 + _STEP * Fraction(len(done) - 1, 2)
        strokes: list[Stroke] = [
            tick_box(_ZERO, y + (figure - _WORD) / 2),
            Text((_NUMBER, y), fitted(step.numbers, _NUMBER - 6, (figure, _WORD, _SMALL), bold=True), Align.RIGHT),
            Text((_WAY, y), words(cut.direction.value, _WORD)),
            Text((_HOW, y), words(how, _SMALL)),
            hung((_AT, y), figures(setting, self.rule, figure, bold=True)),
            *([Text((_TIMES, y), words(times, _SMALL))] if times else []),
            Text((_THROUGH, y), fitted(by(cut.panel, self.rule), _DONE - _THROUGH - 1, (_SMALL, _TINY))),
            *(Text((_DONE, first - n * _STEP), fitted(line, wide - _DONE, (small,))) for n, line in enumerate(done)),
        ]
        return PageBlock((*strokes, Line((_ZERO, -high), (wide, -high), Role.HATCH)), high)

    def _uncut(self) -> PageBlock:
        return PageBlock((Text((_ZERO, Fraction(-5)), words("All of it is one part: no cut.", _WORD)),), Fraction(8))

    def _offcuts(self, wide: Fraction) -> Iterator[PageBlock]:
        if self.sheet.offcuts:
            kept = "; ".join(by(panel, self.rule) for panel in self.sheet.offcuts)
            said = fitted(f"Keep what is left: {kept}", wide, (_WORD, _SMALL))
            yield PageBlock((Text((_ZERO, Fraction(-6)), said),), Fraction(8))


def _captions(wide: Fraction, name: str = "") -> PageBlock:
    """What the columns of the list of cuts are; with a ``name``, the head of a page gone on to."""
    y = Fraction(-12) if name else Fraction(-3)
    named = (
        (_NUMBER, "cut", Align.RIGHT),
        (_AT, "set to", Align.RIGHT),
        (_THROUGH, "across the panel", Align.LEFT),
        (_DONE, "then done", Align.LEFT),
    )
    strokes: list[Stroke] = [Text((x, y), words(said, _SMALL), align) for x, said, align in named]
    if name:
        strokes.append(Text((_ZERO, Fraction(-5)), fitted(name, wide, (_WORD, _SMALL), bold=True)))
    strokes.append(Line((_ZERO, y - Fraction(3, 2)), (wide, y - Fraction(3, 2)), Role.OUTLINE))
    return PageBlock(tuple(strokes), 2 - y, leads=True)


def _done(said: str, room: Fraction) -> tuple[list[str], Fraction]:
    """The parts that are done, in one line or in several small ones, and how high their letters are."""
    if set_line(words(said, _WORD)).width <= room:
        return [said] if said else [], _WORD
    return list(wrapped(said, room, _SMALL)), _SMALL
