"""Sheet layouts on paper: each sheet drawn to a scale with its parts and numbered cuts, and under it the cuts in words (CL-2)."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.boards.names import in_few_words
from joinlay.cutlist.pattern import Keeps, cut_steps
from joinlay.cutlist.saw_cautions import cautions_at_sheets
from joinlay.cutlist.sheet_goods import run_words
from joinlay.lengths import Fraction, decimal_text
from joinlay.pages.layout_drawing import by, layout_drawing, read
from joinlay.pages.plain_sheet import PageBlock, PlainPages, hung, tick_box, title_over
from joinlay.pages.printed_sheet import Laid, bind
from joinlay.pages.printer import Printer
from joinlay.pages.shared_sheets import begun_under, joined
from joinlay.pen.lettering import figures, fitted, set_line, words, wrapped
from joinlay.pen.marks import Align, Line, Move, Role, Text, bounds_of, moved
from joinlay.records import dataclass
from joinlay.templates.template import Template

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

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
    (Fraction(50), Fraction(6), Fraction(7, 2)),
)
_ZERO: Final = Fraction(0)
#: From one small line to the next.
_STEP: Final = Fraction(4)
#: Where the columns of the list of cuts stand: right edges of the numbers, the figures and how often; left edges of the words.
_NUMBER, _WAY, _HOW, _AT = Fraction(27), Fraction(30), Fraction(54), Fraction(84)
_TIMES, _THROUGH, _DONE = Fraction(89), Fraction(104), Fraction(143)
#: A sheet of so few cuts at most shares a page with others; of fewer still, it has them beside its drawing, which takes this
#: share of the width. It may be so high: the first that fits.
_FEW, _FEWER = 16, 9
_DRAWN: Final = Fraction(21, 50)
_DEPTHS: Final = (Fraction(75), Fraction(60), Fraction(48), Fraction(37))
#: From one small line of it to the next.
_CLOSE: Final = Fraction(18, 5)
#: A title with the white under it; and the least room beside a drawing for what is said of it.
_UNDER_TITLE, _LEAST_BESIDE = Fraction(8), Fraction(60)
#: The columns of that list: right edges of numbers and figures, left edges of words; and the least height of a row.
_B_NUMBER, _B_WAY, _B_HOW, _B_AT, _B_SAID, _B_ROW = (Fraction(n) for n in (17, 18, 33, 64, 70, 8))
_LEGEND: Final = (
    "White figures on black are the cuts, in order: each right across its panel, crosscuts measured from its left end in the "
    "drawing, rips from its lower edge. A bold figure in a part is its number on the cutting list."
)


def layout_sheets(
    plan: Plan, lists: Lists, paper: Paper, *, printer: Printer | None = None, begun: Fraction = _ZERO
) -> tuple[Sheet, ...]:
    """Every sheet, offcut and board of ``lists`` that is cut into, drawn, with its cuts in order (CL-2).

    Those of few cuts stand several to a page, each with its cuts beside it; one of many cuts has a page, or more where its cuts
    don't fit on one. Each is drawn at the largest scale of one to a whole number that has room, which stands over it. What to
    beware of is said once on each page, before the first cut. ``begun`` mm of the first sheet are left to what comes before it.
    """
    pages = PlainPages(plan, paper, "sheet layout", printer or Printer(), begun)
    left, _, right, _ = pages.box
    every = [
        _Page(pages, layout, sheet, f"{layout.stock}, {number} of {len(layout.sheets)}", plan.rule, lists.limits)
        for layout in lists.layouts
        for number, sheet in enumerate(layout.sheets, start=1)
    ]
    made: list[Sheet] = []
    # Under other things it has a title of its own, which its names are elsewhere.
    heading, taken = f"{plan.title}: sawing out" if begun else "", begun
    for page in every:
        if not page.has_few_cuts:
            made += replace(page, pages=replace(pages, begun=taken), heading=heading).made()
            heading, taken = "", begun_under(made, begun=begun)
    few = [page for page in every if page.has_few_cuts]
    return bind(joined([*made, *_several(few, right - left, taken, heading)], begun=begun))


def _several(few: Sequence[_Page], wide: Fraction, begun: Fraction, heading: str) -> Iterator[Sheet]:
    """Pages of several sheets each, drawn as large as they all fit; the first has ``begun`` mm less room, and a ``heading``
    if any.

    One whose cuts don't fit beside it has a page of its own. They stand in their order, but for the first that has room on a page
    that is begun.
    """
    together: list[_Page] = []
    known: _Known = {}
    if begun:
        # What has no room there leaves it to the first that has.
        fit = (page for page in few if _fitted([page], wide, page.pages.room - begun, known, heading) is not None)
        first = next(fit, None)
        few = sorted(few, key=lambda page: page is not first)
    for page in few:
        room = page.pages.room
        if together and _fitted([*together, page], wide, room - begun, known, heading) is None:
            yield from _flushed(together, wide, begun, known, heading)
            together, begun, heading = [], _ZERO, ""
        if not together and _fitted([page], wide, room - begun, known, heading) is None:
            begun, heading = _ZERO, ""
        together.append(page)
    if together:
        yield from _flushed(together, wide, begun, known, heading)


def _flushed(together: Sequence[_Page], wide: Fraction, begun: Fraction, known: _Known, heading: str) -> Iterator[Sheet]:
    """A page of several sheets, drawn as large as they all fit under ``begun`` mm; of one alone, a page of its own unless it
    shares one.
    """
    room = together[0].pages.room - begun
    blocks = _fitted(together, wide, room, known, heading) if len(together) > 1 or begun else None
    if blocks is not None:
        yield _shared(together, blocks, wide, heading)
        return
    for page in together:
        yield from replace(page, pages=replace(page.pages, begun=begun), heading=heading).made()
        begun, heading = _ZERO, ""


#: Sheets drawn small, by the ``id`` of each and how deep it is.
_Known = dict[tuple[int, "Fraction"], PageBlock]


def _fitted(
    together: Sequence[_Page], wide: Fraction, room: Fraction, known: _Known, heading: str
) -> tuple[PageBlock, ...] | None:
    """The sheets ``together`` under their ``heading``, at the largest depth at which all of them fit one page and every cut its
    number; None where that is none. ``known`` are those drawn so far, so that none is drawn anew for another to stand with it.
    """
    over = _over(together, wide, heading).height
    for deep in _DEPTHS:
        for page in together:
            if (id(page), deep) not in known:
                known[id(page), deep] = page.small(wide, deep)
        blocks = tuple(known[id(page), deep] for page in together)
        are_numbered = all(page.has_its_numbers(block) for page, block in zip(together, blocks, strict=True))
        if are_numbered and over + sum(block.height for block in blocks) <= room:
            return blocks
    return None


def _over(together: Sequence[_Page], wide: Fraction, heading: str) -> PageBlock:
    """The ``heading``, if any, what the drawings of a page mean, and what to beware of at the saw with any of its sheets (section
    14 of the trade rules).
    """
    first = together[0]
    cautions = cautions_at_sheets([page.sheet for page in together], first.limits)
    said = [_LEGEND, *(caution.sentence(lambda length: read(length, first.rule)) for caution in cautions)]
    lines = [line for one in said for line in wrapped(one, wide, _SMALL)]
    title = title_over(heading, wide, _UNDER_TITLE) if heading else PageBlock((), _ZERO)
    top = -title.height - _CLOSE
    strokes = (Text((_ZERO, top - n * _CLOSE), words(line, _SMALL)) for n, line in enumerate(lines))
    return PageBlock((*title.strokes, *strokes), title.height + len(lines) * _CLOSE + 3)


def _shared(together: Sequence[_Page], blocks: Sequence[PageBlock], wide: Fraction, heading: str) -> Sheet:
    """A page of several sheets, each known by its own name."""
    pages = together[0].pages
    over = _over(together, wide, heading)
    sheet = pages.sheet("", pages.stacked([over, *blocks]), "over each")
    laid = []
    down = over.height
    for page, block in zip(together, blocks, strict=True):
        own = pages.stacked([PageBlock((), down), block])
        down += block.height
        laid.append(Laid(Template((pages.document,), page.name, own, bounds_of(own)), Move(), serves=page.serves))
    return replace(sheet, laid=tuple(laid))


@dataclass(frozen=True, slots=True)
class _Page:
    """One sheet of one layout, drawn; under a ``heading`` where it is the first and other things stand above it."""

    pages: PlainPages
    layout: Layout
    sheet: CutSheet
    name: str
    rule: Graduation
    limits: RunLimits
    heading: str = ""

    @property
    def serves(self) -> tuple[str, ...]:
        """The parts that come out of it."""
        return tuple(laid.piece.name for laid in self.sheet.pieces)

    @property
    def has_few_cuts(self) -> bool:
        """Whether its cuts have room beside its drawing."""
        return len(cut_steps(self.sheet)) <= _FEW

    @property
    def _runs(self) -> tuple[str, ...]:
        """What is to be said of the runs of fronts that come out of it."""
        return run_words(self.layout, self.sheet)

    def has_its_numbers(self, drawn: PageBlock) -> bool:
        """Whether every cut has its number in the drawing, or the number of its run."""
        on_black = {stroke.plain for stroke in drawn.strokes if isinstance(stroke, Text) and stroke.ink == 0}
        steps = cut_steps(self.sheet)
        return all(step.numbers in on_black or {str(cut.number) for cut in step.cuts} <= on_black for step in steps)

    def small(self, wide: Fraction, deep: Fraction) -> PageBlock:
        """The sheet drawn at most ``deep`` mm high, its cuts beside it, to stand with others on a page ``wide`` mm across."""
        steps = cut_steps(self.sheet)
        if len(steps) > _FEWER:
            return self._over_its_cuts(steps, wide, deep)
        half = wide * _DRAWN
        drawn, scale = layout_drawing(self.sheet, self.layout.kerf, self.rule, half, deep)
        top, room = Fraction(9), wide - half - 5
        strokes: list[Stroke] = [*self._named(wide, f", drawn 1:{scale}")]
        strokes += (moved(stroke, Move(_ZERO, -top)) for stroke in drawn.strokes)
        low, y = top + drawn.height, top
        for block in [_beside_captions(room), *(self._beside(step, room) for step in steps)] if steps else [self._uncut()]:
            strokes += (moved(stroke, Move(half + 5, -y)) for stroke in block.strokes)
            y += block.height
        told = [line for one in (self._tally(), *self._runs) for line in wrapped(one, half, _SMALL)]
        strokes += (Text((_ZERO, -low - 2 - n * _CLOSE), words(line, _SMALL)) for n, line in enumerate(told))
        low += len(told) * _CLOSE
        # What is left and worth keeping stands on the side that is less high.
        x, at, across = (_ZERO, low, half) if low <= y else (half + 5, y + 2, room)
        kept = [line for one in self._left() for line in wrapped(one, across, _SMALL)]
        strokes += (Text((x, -at - 2 - n * _CLOSE), words(line, _SMALL)) for n, line in enumerate(kept))
        return PageBlock(tuple(strokes), max(low, y, at + len(kept) * _CLOSE) + 3, serves=self.serves)

    def _over_its_cuts(self, steps: Sequence[CutStep], wide: Fraction, deep: Fraction) -> PageBlock:
        """The sheet drawn all across the page, its cuts in two columns under it."""
        drawn, scale = layout_drawing(self.sheet, self.layout.kerf, self.rule, wide, deep)
        strokes: list[Stroke] = [*self._named(wide, f", drawn 1:{scale}")]
        strokes += (moved(stroke, Move(_ZERO, Fraction(-8))) for stroke in drawn.strokes)
        low = 8 + drawn.height
        told = (self._tally(), *self._runs, *self._left())
        # Beside the drawing, where that leaves room for it.
        right = bounds_of(drawn.strokes)[2] + 5
        beside = [line for one in told for line in wrapped(one, max(wide - right, _LEAST_BESIDE), _SMALL)]
        if wide - right >= _LEAST_BESIDE and len(beside) * _CLOSE <= drawn.height - 3:
            strokes += (Text((right, Fraction(-15) - n * _CLOSE), words(line, _SMALL)) for n, line in enumerate(beside))
        else:
            under = [line for one in told for line in wrapped(one, wide, _SMALL)]
            strokes += (Text((_ZERO, -low - 2 - n * _CLOSE), words(line, _SMALL)) for n, line in enumerate(under))
            low += len(under) * _CLOSE + 1
        room = (wide - 5) / 2
        captions, rows = _beside_captions(room), [self._beside(step, room) for step in steps]
        heights = [row.height for row in rows]
        # Parted where the higher of the two is lowest.
        first = min(range(1, len(rows) + 1), key=lambda n: max(sum(heights[:n]), sum(heights[n:])))
        deepest = low
        for x, own in ((_ZERO, rows[:first]), (room + 5, rows[first:])):
            y = low
            for block in (captions, *own):
                strokes += (moved(stroke, Move(x, -y)) for stroke in block.strokes)
                y += block.height
            deepest = max(deepest, y)
        return PageBlock(tuple(strokes), deepest + 2, serves=self.serves)

    def _beside(self, step: CutStep, wide: Fraction) -> PageBlock:
        """A cut in a narrow list: number, which way, what to set, how often; small, the panel and the parts that are then
        done.
        """
        cut = step.first
        times = f"{len(step.cuts)} times, " if len(step.cuts) > 1 else ""
        room = wide - _B_SAID
        said = list(wrapped(f"{times}{by(cut.panel, self.rule)}", room, _SMALL))
        done = f"done: {in_few_words(laid.piece.name for laid in step.done)}" if step.done else ""
        # The parts that are done stand behind the figure, or under all of it where that takes fewer lines.
        behind = [*said, *wrapped(done, room, _SMALL)] if done else said
        under = list(wrapped(done, wide - _B_WAY, _SMALL)) if done else []
        lower = max(_B_ROW, len(said) * _CLOSE + 1)
        if max(_B_ROW, len(behind) * _CLOSE + 1) <= lower + len(under) * _CLOSE:
            said, under, lower = behind, [], max(_B_ROW, len(behind) * _CLOSE + 1)
        high = lower + len(under) * _CLOSE
        how, setting = ("trim", cut.at + self.layout.kerf) if cut.keeps is Keeps.FAR else ("at", cut.at)
        y = -(lower + 5) / 2 + Fraction(1, 4)
        first = -(lower + _SMALL) / 2 + _CLOSE / 2 * (len(said) - 1)
        strokes: list[Stroke] = [
            tick_box(_ZERO, y + Fraction(3, 4)),
            Text((_B_NUMBER, y), fitted(step.numbers, _B_NUMBER - 5, (Fraction(5), _WORD, _SMALL), bold=True), Align.RIGHT),
            Text((_B_WAY, y), words(cut.direction.value, _SMALL)),
            Text((_B_HOW, y), words(how, _SMALL)),
            hung((_B_AT, y), figures(setting, self.rule, Fraction(5), bold=True)),
            *(Text((_B_SAID, first - n * _CLOSE), fitted(line, room, (_SMALL, _TINY))) for n, line in enumerate(said)),
            *(Text((_B_WAY, -lower - (n + 1) * _CLOSE + Fraction(6, 5)), words(line, _SMALL)) for n, line in enumerate(under)),
        ]
        return PageBlock((*strokes, Line((_ZERO, -high), (wide, -high), Role.ROW)), high)

    def _left(self) -> Iterator[str]:
        """What is left and worth keeping; nothing where nothing is."""
        if self.sheet.offcuts:
            yield f"Keep what is left: {'; '.join(by(panel, self.rule) for panel in self.sheet.offcuts)}"

    def made(self) -> Iterator[Sheet]:
        """A page of its own for one of many cuts, or more where they don't fit on one."""
        left, _, right, _ = self.pages.box
        wide = right - left
        drawn = {
            deep: layout_drawing(self.sheet, self.layout.kerf, self.rule, wide, deep) for deep in {deep for deep, *_ in _SIZES}
        }
        tries = [
            (self.pages.flowed(self._blocks(wide, drawn[deep][0], high, figure)), drawn[deep][1]) for deep, high, figure in _SIZES
        ]
        # Where it won't go on one page, it need not be small.
        pages, scale = next((each for each in tries if len(each[0]) == 1), tries[0])
        first, *rest = (self.pages.stacked(page) for page in pages)
        yield self.pages.sheet(self.name, first, f"1:{scale}", self.serves)
        yield from (self.pages.sheet(self.name, strokes) for strokes in rest)

    def _blocks(self, wide: Fraction, drawn: PageBlock, high: Fraction, figure: Fraction) -> list[PageBlock]:
        """Everything about the sheet, ``drawn`` and in words."""
        again = _captions(wide, f"{self.name}, continued")
        rows = [replace(self._row(step, wide, high, figure), again=again) for step in cut_steps(self.sheet)]
        listed = [_captions(wide), *rows] if rows else [self._uncut()]
        title = [title_over(self.heading, wide, _UNDER_TITLE)] if self.heading else []
        return [*title, self._head(wide), *self._cautions(wide), drawn, *listed, *self._offcuts(wide)]

    def _head(self, wide: Fraction) -> PageBlock:
        # What it uses, then what the drawing means, a line under the other.
        told = [line for one in (self._tally(), *self._runs, _LEGEND) for line in wrapped(one, wide, _SMALL)]
        lines: list[Stroke] = [
            *self._named(wide),
            *(Text((_ZERO, Fraction(-13) - n * _STEP), words(said, _SMALL)) for n, said in enumerate(told)),
        ]
        return PageBlock(tuple(lines), 12 + len(told) * _STEP, leads=True)

    def _named(self, wide: Fraction, more: str = "") -> Iterator[Text]:
        """What it is called, and its size."""
        blank, layout = self.sheet.blank, self.layout
        name = self.name if blank.is_whole else f"{self.name}: {blank.name}"
        size = (
            f"{read(blank.length, self.rule)} × {read(blank.width, self.rule)}, {read(layout.thickness, self.rule)} thick{more}"
        )
        yield Text((_ZERO, Fraction(-7)), fitted(name, wide - 72, (_TITLE, _WORD, _SMALL), bold=True))
        yield Text((wide, Fraction(-7)), fitted(size, Fraction(70), (_WORD, _SMALL)), Align.RIGHT)

    def _cautions(self, wide: Fraction) -> Iterator[PageBlock]:
        """What to beware of at the saw, before the first cut (section 14 of the trade rules)."""
        for caution in cautions_at_sheets([self.sheet], self.limits):
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
        return PageBlock((*strokes, Line((_ZERO, -high), (wide, -high), Role.ROW)), high)

    def _uncut(self) -> PageBlock:
        return PageBlock((Text((_ZERO, Fraction(-5)), words("All of it is one part: no cut.", _WORD)),), Fraction(8))

    def _offcuts(self, wide: Fraction) -> Iterator[PageBlock]:
        for said in self._left():
            yield PageBlock((Text((_ZERO, Fraction(-6)), fitted(said, wide, (_WORD, _SMALL))),), Fraction(8))


def _beside_captions(wide: Fraction) -> PageBlock:
    """What the columns of a narrow list of cuts are."""
    across = "across the panel" if wide > 3 * _B_SAID / 2 else "the panel"
    named = ((_B_NUMBER, "cut", Align.RIGHT), (_B_AT, "set to", Align.RIGHT), (_B_SAID, across, Align.LEFT))
    strokes: list[Stroke] = [Text((x, Fraction(-3)), words(said, _SMALL), align) for x, said, align in named]
    return PageBlock((*strokes, Line((_ZERO, Fraction(-9, 2)), (wide, Fraction(-9, 2)), Role.OUTLINE)), Fraction(5), leads=True)


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
