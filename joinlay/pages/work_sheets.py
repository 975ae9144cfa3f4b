"""The whole job in order, from measuring the stock to hanging the pulls: a line for each thing to do, a box to tick, and its
sheets.

Nothing is worked out here: the lines follow the chapters of the packet, and within one what the plan has of it, card by card,
glue-up by glue-up. Where the sheets stand is known when the packet is bound.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import groupby
from typing import TYPE_CHECKING, Final

from joinlay.assembly.glue_words import glue_up_name
from joinlay.boards import PartKind
from joinlay.boards.names import in_few_words
from joinlay.lengths import Fraction
from joinlay.pages.assembly_sheets import FITTING, STANDING, glue_up_mark
from joinlay.pages.finding_sheets import harm_count
from joinlay.pages.plain_sheet import PageBlock, PlainPages, flow, tick_box, title_over
from joinlay.pages.printed_sheet import Link, bind
from joinlay.pages.printer import Printer
from joinlay.pen.lettering import set_line, words, wrapped
from joinlay.pen.marks import Align, Line, Role, Text
from joinlay.records import dataclass
from joinlay.settings.wording import band_words, machine_words
from joinlay.stock import Solid

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

    from joinlay.cutlist.lists import Lists
    from joinlay.jobs.plan import Plan
    from joinlay.pages.printed_sheet import Sheet
    from joinlay.paper import Paper
    from joinlay.pen.marks import Stroke

__all__ = ["WorkLine", "work_lines", "work_sheets"]

_WORD, _SMALL = Fraction(7, 2), Fraction(5, 2)
#: From one line of words to the next and the white of a row, for the largest letters that have room for all on one page, then
#: smaller.
_SIZES: Final = (
    (_WORD, Fraction(5), Fraction(2)),
    (_WORD, Fraction(49, 10), Fraction(9, 10)),
    (_SMALL, Fraction(18, 5), Fraction(6, 5)),
)
#: Where the boxes to tick and the words begin, and what the numbers of the sheets take at the right at least.
_BOX, _SAID, _SHEETS = Fraction(29), Fraction(36), Fraction(32)
#: What they take where they are one run.
_FEW_SHEETS: Final = Fraction(22)
#: A box's line of words is never higher, so that the box keeps clear of the line over its row.
_BOX_HIGH: Final = Fraction(-43, 10)
#: White between two of those numbers.
_BETWEEN: Final = Fraction(3)
_ZERO: Final = Fraction(0)


@dataclass(frozen=True, slots=True)
class WorkLine:
    """Something to do: the ``stage`` it belongs to, as a chapter is asked for, what, and the numbers of its ``sheets``, in
    order.
    """

    stage: str
    said: str
    sheets: tuple[int, ...] = ()


def work_lines(
    plan: Plan, lists: Lists, at: Mapping[str, Sequence[tuple[int, Sheet]]], *, in_short: bool = False
) -> tuple[WorkLine, ...]:
    """Everything to be done for ``plan`` in its order, with its sheets; ``at`` has those of each chapter there is, with their
    numbers, none of a chapter whose sheets have none yet.

    The order of the trade: what was found, measure, buy, saw out, band, mark, cut, put together, finish, fit, hang the pulls.
    ``in_short`` draws together in one line the layouts, the cards and the glue-ups, each of which has a box of its own to tick
    on its sheet.
    """
    return tuple(_Work(plan, lists, at, in_short=in_short).lines())


class _Work:
    """The lines of one job."""

    def __init__(self, plan: Plan, lists: Lists, at: Mapping[str, Sequence[tuple[int, Sheet]]], *, in_short: bool) -> None:
        self.plan, self.lists, self.at, self.in_short = plan, lists, at, in_short

    def sheets(self, word: str, has: Callable[[Sheet], bool] = lambda _sheet: True) -> tuple[int, ...]:
        """The numbers of those sheets of a chapter that have what is looked for."""
        return tuple(number for number, sheet in self.at.get(word, ()) if has(sheet))

    def _from(self, word: str, heading: str, until: str = "") -> tuple[int, ...]:
        """The numbers of the sheets of a chapter from the one with a ``heading`` to the one with that of what comes after, or
        its end.
        """
        begins, ends = (
            self.sheets(word, lambda sheet: _says(sheet, heading)),
            self.sheets(word, lambda sheet: _says(sheet, until)),
        )
        return tuple(n for n in self.sheets(word) if begins and begins[0] <= n <= (ends[0] if until and ends else n))

    def lines(self) -> Iterator[WorkLine]:
        yield WorkLine("findings", f"Read what was found: {harm_count(self.plan)}", self.sheets("findings"))
        if "piece" in self.at:
            yield WorkLine("piece", "Look at the piece from all sides, and at its details", self.sheets("piece"))
        if self.plan.boards:
            yield from self._wood()
            yield from self._marked()
            yield from self._cut()
            yield from self._together()

    def _wood(self) -> Iterator[WorkLine]:
        listed = self.sheets("list")
        yield WorkLine(
            "list", "Measure the stock in three places with callipers; where it differs, change the job and print again", listed
        )
        bought = self.sheets("list", lambda sheet: _says(sheet, "what to buy and have ready"))
        if bought or (self.lists.shopping.lines and self.at.get("list") == ()):
            yield WorkLine("list", "Buy what is wanting, and have the rest ready", bought)
        solid = [group.name for group in self.lists.parts.groups if isinstance(group.stock, Solid)]
        if solid:
            names = in_few_words(dict.fromkeys(solid))
            yield WorkLine("list", f"Saw {names} to rough size, let it lie, then plane it to its finished size", listed)
        if self.in_short and self.lists.layouts:
            stocks = in_few_words(dict.fromkeys(layout.stock for layout in self.lists.layouts))
            yield WorkLine("sawing", f"Saw out {stocks}, cut by cut", self.sheets("sawing"))
            return
        for layout in self.lists.layouts:
            sheets = self.sheets("sawing", _has_stock(layout.stock))
            many = f", {len(layout.sheets)} of them" if len(layout.sheets) > 1 else ""
            yield WorkLine("sawing", f"Saw out {layout.stock}{many}", sheets)

    def _marked(self) -> Iterator[WorkLine]:
        for bands in self.plan.settings.bands:
            said = band_words(bands)
            yield WorkLine("settings", f"{said[0].upper()}{said[1:]}", self.sheets("settings", _has_order))
        if "sticks" in self.at:
            said = "Cut out the story sticks, join their strips, and measure them over all"
            yield WorkLine("sticks", said, self.sheets("sticks"))
        if "templates" in self.at:
            said = "Mark reference face and edge of every part, then ends, mortises and holes from their paper"
            yield WorkLine("templates", said, self.sheets("templates"))

    def _cut(self) -> Iterator[WorkLine]:
        settings = self.plan.settings.settings
        if settings and self.in_short:
            runs = groupby(settings, key=lambda setting: setting.machine)
            told = (f"{machine.value} {in_few_words(str(setting.number) for setting in run)}" for machine, run in runs)
            said = f"Take the cards in their order, a test piece for each: {', '.join(told)}"
            yield WorkLine("settings", said, self.sheets("settings"))
            return
        if settings:
            yield WorkLine(
                "settings", "Take the cards in their order, a test piece for each", self.sheets("settings", _has_order)
            )
        for machine, run in groupby(settings, key=lambda setting: machine_words(setting, self.plan.rule.sold)):
            cards = [setting.number for setting in run]
            sheets = self.sheets("settings", _has_one_of(cards))
            which = f"Card{'s' if len(cards) > 1 else ''} {in_few_words(map(str, cards))}"
            yield WorkLine("settings", f"{which}: {machine}", sheets)

    def _together(self) -> Iterator[WorkLine]:
        sheets = self.sheets("assembly")
        if self.plan.order.stages:
            yield WorkLine("assembly", "Put all of it together dry, clamps and all, and measure its diagonals", sheets[:1])
        glue_ups = self.plan.glue_ups
        if self.in_short and len(glue_ups) > 1:
            told = self.sheets("assembly", lambda sheet: any(_tells(glue_up.number)(sheet) for glue_up in glue_ups))
            first, last = glue_ups[0].number, glue_ups[-1].number
            yield WorkLine("assembly", f"Glue-ups {first} to {last}, in their order", told)
            glue_ups = ()
        for glue_up in glue_ups:
            told = self.sheets("assembly", _tells(glue_up.number))
            yield WorkLine("assembly", f"Glue-up {glue_up.number}: {glue_up_name(glue_up)}", told)
        if self.plan.order.stages:
            fitted = self._from("assembly", FITTING, STANDING)
            yield WorkLine("assembly", "Lay in what goes without glue, and try each drawer in its own opening", fitted)
        standing = self._from("assembly", STANDING)
        yield WorkLine("assembly", "Finish what shows, and wax what slides", standing)
        if any(board.role.kind is PartKind.LOOSE_SHELF for board in self.plan.boards):
            yield WorkLine("assembly", "Set the loose shelves on their pins", standing)
        if self.plan.is_whole:
            yield WorkLine("assembly", "Set it where it will stand, out of winding, and fix it to the wall", standing)
        if self.plan.knobs:
            yield WorkLine("assembly", "Hang the pulls")


def _says(sheet: Sheet, said: str) -> bool:
    return any(isinstance(stroke, Text) and said in stroke.plain for stroke in sheet.body)


def _has_order(sheet: Sheet) -> bool:
    return "order of the cards" in sheet.title


def _tells(glue_up: int) -> Callable[[Sheet], bool]:
    """Whether a sheet tells of a glue-up: it is on it by its number."""
    wanted = (glue_up_mark(glue_up),)
    return lambda sheet: any(laid.template.marks == wanted for laid in sheet.laid)


def _has_stock(stock: str) -> Callable[[Sheet], bool]:
    return lambda sheet: f"{stock}, " in sheet.title


def _has_one_of(cards: Sequence[int]) -> Callable[[Sheet], bool]:
    wanted = {(f"card {number}",) for number in cards}
    return lambda sheet: any(laid.template.marks in wanted for laid in sheet.laid)


# -- on paper ------------------------------------------------------------------------------------------


def work_sheets(
    plan: Plan, lines: Sequence[WorkLine], paper: Paper, *, printer: Printer | None = None, in_short: bool = False
) -> tuple[Sheet, ...]:
    """The lines on one sheet of ``paper``, each with a box to tick; more sheets where there are very many.

    The numbers lead to their sheets. ``printer`` is taken at its word unless given. ``in_short`` they stand close, for what
    follows to begin under them.
    """
    pages = PlainPages(plan, paper, "order of work", printer or Printer())
    left, bottom, right, top = pages.box
    wide, high = right - left, top - bottom
    title = title_over(f"{plan.title}: the whole job, in order", wide, Fraction(10))
    said = "A stage is printed by itself with --chapter and its name. Tick what is done."
    under = PageBlock(
        (Text((_ZERO, Fraction(-4)), words(said, _SMALL)), Text((wide, Fraction(-4)), words("sheets", _SMALL), Align.RIGHT)),
        Fraction(6),
        leads=True,
    )
    aside = _FEW_SHEETS if in_short else _SHEETS
    if in_short:
        lines = [replace(line, sheets=_in_one_run(line.sheets)) for line in lines]
    tries = [flow([title, under, *_rows(lines, wide, aside, *sizes)], high) for sizes in (_SIZES[-1:] if in_short else _SIZES)]
    # Where it won't go on one page, it need not be small.
    parted = next((made for made in tries if len(made) == 1), tries[0])
    sheets = []
    for n, page in enumerate(parted, start=1):
        links: list[Link] = []
        y = top
        for block in page:
            if isinstance(block, _Row):
                links += (replace(link, box=_down(link, left, y)) for link in block.links)
            y -= block.height
        sheets.append(replace(pages.sheet(f"page {n}", pages.stacked(page)), links=tuple(links)))
    return bind(sheets)


@dataclass(frozen=True, slots=True)
class _Row(PageBlock):
    """A line of the work, with where its numbers lead."""

    links: tuple[Link, ...] = ()


def _down(link: Link, left: Fraction, y: Fraction) -> tuple[Fraction, Fraction, Fraction, Fraction]:
    x0, y0, x1, y1 = link.box
    return (x0 + left, y0 + y, x1 + left, y1 + y)


def _rows(
    lines: Iterable[WorkLine], wide: Fraction, aside: Fraction, high: Fraction, step: Fraction, white: Fraction
) -> Iterator[_Row]:
    """The lines, the name of a stage beside the first of it, and ``aside`` mm at the right for its sheets."""
    before = ""
    for line in lines:
        runs = [(first, words(f"{first}" if first == last else f"{first} to {last}", high)) for first, last in _runs(line.sheets)]
        taken = sum((set_line(content).width + _BETWEEN for _, content in runs), _ZERO)
        told = list(wrapped(line.said, wide - _SAID - max(aside, taken), high))
        tall = max(len(told) * step + white, Fraction(5))
        is_first = line.stage != before
        base = -(step + white + high) / 2 + Fraction(1, 4)
        strokes: list[Stroke] = [
            tick_box(_BOX, min(base, _BOX_HIGH)),
            *(Text((_SAID, base - n * step), words(one, high)) for n, one in enumerate(told)),
            Line((_ZERO if is_first else _BOX, _ZERO), (wide, _ZERO), Role.ROW),
        ]
        if is_first:
            strokes.append(Text((_ZERO, base), words(line.stage, high, bold=True)))
        before = line.stage
        links = []
        x = wide
        for first, content in reversed(runs):
            long = set_line(content).width
            strokes.append(Text((x, base), content, Align.RIGHT))
            links.append(Link((x - long, base - 1, x, base + high + 1), first))
            x -= long + _BETWEEN
        yield _Row(tuple(strokes), tall, links=tuple(links))


def _in_one_run(numbers: Sequence[int]) -> tuple[int, ...]:
    """Numbers from the first to the last, so that a line takes as much room wherever its sheets are."""
    return tuple(range(numbers[0], numbers[-1] + 1)) if numbers else ()


def _runs(numbers: Sequence[int]) -> list[tuple[int, int]]:
    """Numbers as runs of one after the other: the first and the last of each."""
    runs: list[tuple[int, int]] = []
    for number in numbers:
        if runs and number == runs[-1][1] + 1:
            runs[-1] = (runs[-1][0], number)
        else:
            runs.append((number, number))
    return runs
