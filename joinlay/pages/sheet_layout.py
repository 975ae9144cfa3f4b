"""Sheet layouts on paper: each sheet drawn small with its parts and numbered cuts, and under it the cuts in words, in order (CL-2)."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Final

from joinlay.boards.names import in_few_words
from joinlay.cutlist.pattern import Direction, Keeps
from joinlay.drawings.lettering import figures, fitted, plain, set_line, words
from joinlay.drawings.marks import Align, Fill, Line, Polyline, Role, Text, Turn, text_box
from joinlay.drawings.outlines import corners
from joinlay.drawings.placing import Room, whole
from joinlay.pages.paper import Printer
from joinlay.pages.plain_sheet import Block, PlainPages, flow

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.cutlist.lists import Lists
    from joinlay.cutlist.pattern import CutSheet, LaidPiece, Layout, Panel, SawCut
    from joinlay.drawings.marks import Box, Stroke
    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Graduation, Length
    from joinlay.pages.paper import Paper
    from joinlay.pages.sheet import Sheet

__all__ = ["layout_sheets"]

_TITLE, _WORD, _SMALL, _TINY = Fraction(5), Fraction(7, 2), Fraction(5, 2), Fraction(9, 5)
#: How high the drawing of a sheet may be, a row of the list of cuts, and its figures: to be read at the saw, and smaller where all of it
#: would not fit on the page.
_SIZES: Final = (
    (Fraction(105), Fraction(8), Fraction(5)),
    (Fraction(105), Fraction(6), Fraction(7, 2)),
    (Fraction(80), Fraction(11, 2), Fraction(7, 2)),
)
#: How dark parts are, so that they stand out from what is left.
_PART_INK: Final = Fraction(1, 10)
_ZERO: Final = Fraction(0)
#: Left clear round a drawing, for the numbers of cuts along its edges.
_MARGIN: Final = Fraction(4)
#: The height of the line that heads a page gone on to.
_AGAIN: Final = Fraction(9)
_HOW: Final = (
    "Cut in this order, right across the panel named: crosscuts from its left end in the drawing, rips from its lower edge."
)


def layout_sheets(plan: Plan, lists: Lists, paper: Paper, *, printer: Printer | None = None) -> tuple[Sheet, ...]:
    """A page for every sheet, offcut and board of ``lists`` that is cut into; more where its cuts don't fit on one (CL-2)."""
    pages = PlainPages(plan, paper, "sheet layout", printer or Printer())
    drawn: list[tuple[str, tuple[Stroke, ...]]] = []
    for layout in lists.layouts:
        for number, sheet in enumerate(layout.sheets, start=1):
            name = f"{layout.stock}, {number} of {len(layout.sheets)}"
            drawn += ((name, strokes) for strokes in _Page(pages, layout, sheet, name, plan.rule).made())
    return pages.sheets(drawn)


@dataclass(frozen=True, slots=True)
class _Page:
    """One sheet of one layout, drawn."""

    pages: PlainPages
    layout: Layout
    sheet: CutSheet
    name: str
    rule: Graduation

    def made(self) -> Iterator[tuple[Stroke, ...]]:
        left, bottom, right, top = self.pages.box
        wide, room = right - left, top - bottom
        parted = next((page for size in _SIZES if len(page := flow(self._blocks(wide, *size), room)) == 1), None)
        if parted is None:
            # It won't go on one page, so it need not be small; the later pages say what they belong to.
            again = Block((Text((_ZERO, Fraction(-5)), fitted(f"{self.name}, continued", wide, (_WORD,), bold=True)),), _AGAIN)
            pages = flow(self._blocks(wide, *_SIZES[1]), room - _AGAIN)
            parted = [pages[0], *([again, *page] for page in pages[1:])]
        yield from (self.pages.stacked(page) for page in parted)

    def _blocks(self, wide: Fraction, deep: Fraction, high: Fraction, figure: Fraction) -> list[Block]:
        rows = [self._row(cut, wide, high, figure) for cut in self.sheet.cuts] or [self._uncut()]
        return [self._head(wide), self._picture(wide, deep), *rows, *self._offcuts(wide)]

    # -- words ---------------------------------------------------------------------------------------

    def _head(self, wide: Fraction) -> Block:
        blank, layout = self.sheet.blank, self.layout
        size = f"{self.rule.text(blank.length)} × {self.rule.text(blank.width)}"
        bound = f"; no layout takes fewer than {layout.least_whole}" if layout.whole else ""
        whole_sheets = f"{layout.whole} whole sheet{'' if layout.whole == 1 else 's'}{bound}. " if layout.whole else ""
        kerf = f"Kerf {self.rule.text(layout.kerf)}."
        lines = [
            Text((_ZERO, Fraction(-7)), fitted(f"{self.name}: {blank.name}, {size}", wide, (_TITLE, _WORD, _SMALL), bold=True)),
            Text((_ZERO, Fraction(-12)), fitted(f"{whole_sheets}{kerf}", wide, (_SMALL,))),
            Text((_ZERO, Fraction(-16)), fitted(_HOW, wide, (_SMALL, _TINY))),
        ]
        return Block(tuple(lines), Fraction(20), leads=True)

    def _row(self, cut: SawCut, wide: Fraction, high: Fraction, figure: Fraction) -> Block:
        """Cut number, which way, what to set, through what, and the parts that are then done."""
        y = -(high + figure) / 2
        done = in_few_words(laid.piece.name for laid in self.sheet.pieces if self._last_cut(laid.panel) is cut)
        setting = ("trim", cut.at + self.layout.kerf) if cut.keeps is Keeps.FAR else ("at", cut.at)
        through = f"through {_by(cut.panel, self.rule)}"
        strokes = [
            Text((Fraction(8), y), words(str(cut.number), figure, bold=True), Align.RIGHT),
            Text((Fraction(11), y), words(cut.direction.value, _WORD)),
            Text((Fraction(36), y), words(setting[0], _SMALL)),
            Text((Fraction(64), y), figures(setting[1], self.rule, figure, bold=True), Align.RIGHT),
            Text((Fraction(68), y), fitted(through, Fraction(62), (_SMALL, _TINY))),
            Text((Fraction(132), y), fitted(f"done: {done}" if done else "", wide - 132, (_WORD, _SMALL, _TINY))),
        ]
        return Block((*strokes, Line((_ZERO, -high), (wide, -high), Role.HATCH)), high)

    def _last_cut(self, panel: Panel) -> SawCut | None:
        """The last cut through anything that ``panel`` is part of: after it the part is done."""
        return next((cut for cut in reversed(self.sheet.cuts) if _holds(cut.panel, panel)), None)

    def _uncut(self) -> Block:
        return Block((Text((_ZERO, Fraction(-5)), words("All of it is one part: no cut.", _WORD)),), Fraction(8))

    def _offcuts(self, wide: Fraction) -> Iterator[Block]:
        if self.sheet.offcuts:
            kept = "; ".join(_by(panel, self.rule) for panel in self.sheet.offcuts)
            said = fitted(f"Keep what is left: {kept}", wide, (_WORD, _SMALL, _TINY))
            yield Block((Text((_ZERO, Fraction(-6)), said),), Fraction(8))

    # -- the drawing ---------------------------------------------------------------------------------

    def _picture(self, wide: Fraction, deep: Fraction) -> Block:
        blank = self.sheet.blank
        scale = min((wide - 2 * _MARGIN) / blank.length.mm, deep / blank.width.mm)
        long, high = blank.length.mm * scale, blank.width.mm * scale
        low = -high - _MARGIN
        paper = _OnPaper(scale, low)
        strokes: list[Stroke] = []
        boxes = [paper.box(laid.panel) for laid in self.sheet.pieces]
        strokes += (Fill(corners(box), _PART_INK, Role.CUT) for box in boxes)
        strokes += (Polyline(corners(box), Role.CUT, closed=True) for box in boxes)
        strokes.append(Polyline(corners((_MARGIN, low, _MARGIN + long, -_MARGIN)), Role.OUTLINE, closed=True))
        strokes += (paper.line(cut, self.layout.kerf) for cut in self.sheet.cuts)
        room = Room(within=whole((_ZERO, low - _MARGIN, long + 2 * _MARGIN, _ZERO)))
        for laid, box in zip(self.sheet.pieces, boxes, strict=True):
            strokes += self._label(laid, box, room)
        for cut in self.sheet.cuts:
            strokes += _numbered(cut, paper.line(cut, self.layout.kerf), room)
        for panel in self.sheet.offcuts:
            strokes += self._kept(paper.box(panel), room, _by(panel, self.rule))
        grain = Text((_ZERO, low - _MARGIN - _SMALL), words("grain runs from side to side of this drawing", _SMALL))
        return Block((*strokes, *([grain] if blank.grain_known else [])), high + 2 * _MARGIN + 7)

    def _label(self, laid: LaidPiece, box: Box, room: Room) -> Iterator[Text]:
        """The part's name and size, along whichever way it is longer, as large as there is room for."""
        size = _by(laid.panel, self.rule) if not laid.turned else f"{_by(laid.panel, self.rule)}, turned"
        for text in _in_box((laid.piece.name, size), box):
            room.take(whole(text_box(text)))
            yield text

    def _kept(self, box: Box, room: Room, size: str) -> Iterator[Text]:
        for text in _in_box((f"keep {size}",), box):
            if room.is_free(whole(text_box(text)), 0):
                room.take(whole(text_box(text)))
                yield text


@dataclass(frozen=True, slots=True)
class _OnPaper:
    """The sheet drawn small: ``scale`` mm for each mm of wood, its near corner in by the margin and ``low``."""

    scale: Fraction
    low: Fraction

    def box(self, panel: Panel) -> Box:
        x, y = _MARGIN + panel.along.mm * self.scale, self.low + panel.across.mm * self.scale
        return (x, y, x + panel.length.mm * self.scale, y + panel.width.mm * self.scale)

    def line(self, cut: SawCut, kerf: Length) -> Line:
        """The middle of the kerf, from edge to edge of the panel."""
        x0, y0, x1, y1 = self.box(cut.panel)
        at = (cut.at.mm + kerf.mm / 2) * self.scale
        if cut.direction is Direction.RIP:
            return Line((x0, min(y0 + at, y1)), (x1, min(y0 + at, y1)), Role.CUT)
        return Line((min(x0 + at, x1), y0), (min(x0 + at, x1), y1), Role.CUT)


def _by(panel: Panel, rule: Graduation) -> str:
    """Length by width, on the rule, + and - for a hair more or less."""
    return " × ".join(plain(figures(size, rule, 1)) for size in (panel.length, panel.width))


def _holds(outer: Panel, inner: Panel) -> bool:
    return (
        outer.along <= inner.along
        and outer.across <= inner.across
        and inner.along + inner.length <= outer.along + outer.length
        and inner.across + inner.width <= outer.across + outer.width
    )


def _in_box(lines: Sequence[str], box: Box) -> Iterator[Text]:
    """``lines`` in the middle of a box, reading along its longer side, at the largest height at which they fit; none where none does."""
    x0, y0, x1, y1 = box
    upright = y1 - y0 > x1 - x0
    long, deep = (y1 - y0, x1 - x0) if upright else (x1 - x0, y1 - y0)
    for height in (_WORD, _SMALL, _TINY):
        step = height * Fraction(3, 2)
        widest = max(set_line(words(line, height)).width for line in lines)
        if widest <= long - 2 and step * len(lines) <= deep - Fraction(1, 2):
            for n, line in enumerate(lines):
                off = ((len(lines) - 1) / Fraction(2) - n) * step - height / 2
                at = ((x0 + x1) / 2 - off, (y0 + y1) / 2) if upright else ((x0 + x1) / 2, (y0 + y1) / 2 + off)
                yield Text(at, words(line, height), Align.MIDDLE, Turn.UP if upright else Turn.RIGHT)
            return
    if len(lines) > 1:
        yield from _in_box(lines[:1], box)


def _numbered(cut: SawCut, line: Line, room: Room) -> Iterator[Stroke]:
    """The cut's number in a white spot on its line, where nothing else is written; in the middle where all is full."""
    content = words(str(cut.number), _SMALL, bold=True)
    wide, high = set_line(content).width + 1, _SMALL + 1
    (x0, y0), (x1, y1) = line.start, line.end
    spots = [(x0 + (x1 - x0) * Fraction(n, 40), y0 + (y1 - y0) * Fraction(n, 40)) for n in range(1, 40)]
    boxes = [(x - wide / 2, y - high / 2, x + wide / 2, y + high / 2) for x, y in spots]
    free = next((box for box in boxes if room.is_free(whole(box), 0)), boxes[len(boxes) // 2])
    room.take(whole(free))
    yield Fill(corners(free), Fraction(0), Role.CUT)
    yield Text(((free[0] + free[2]) / 2, free[1] + Fraction(1, 2)), content, Align.MIDDLE)
