"""The packet: everything a maker prints for one job, bound in the order of the work, with a cover and an index of parts."""

from __future__ import annotations

from dataclasses import field
from functools import partial
from itertools import takewhile
from typing import TYPE_CHECKING, Final

from joinlay.boards.extent import extent
from joinlay.cutlist.lists import all_lists, with_paper
from joinlay.documents.ahead import made_alone
from joinlay.documents.chapters import Chapter, filed, in_order, joined_chapters, numbered, with_last
from joinlay.documents.lean_templates import is_any_left_out
from joinlay.documents.pdf import sheets_pdf
from joinlay.documents.plan_mark import MARKED
from joinlay.documents.true_size import TrueSize
from joinlay.documents.wanted_sheets import CHAPTERS, LEAN, is_small
from joinlay.errors import BadInput
from joinlay.lengths import BadSize, Fraction, said_by
from joinlay.pages import Printer
from joinlay.pages.assembly_sheets import assembly_sheets
from joinlay.pages.cover_sheet import ContentsLine, cover_sheet
from joinlay.pages.finding_sheets import finding_sheets
from joinlay.pages.gauges import gauge_templates
from joinlay.pages.index_sheets import IndexLine, index_sheets
from joinlay.pages.layout_sheets import layout_sheets
from joinlay.pages.list_sheets import cutting_list_sheets, list_rows
from joinlay.pages.part_sheets import parts_sheets
from joinlay.pages.piece_sheets import piece_sheets
from joinlay.pages.printed_sheet import FootWords, made_words
from joinlay.pages.printer import for_words
from joinlay.pages.setting_sheets import is_listed_in_short, setting_sheets
from joinlay.pages.shared_sheets import KnownSheets, begun_under, is_foot_too_full, joined
from joinlay.pages.template_sheets import pack_close
from joinlay.pages.work_sheets import work_lines, work_sheets
from joinlay.paper import paper_named
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence

    from joinlay.cutlist.lists import Lists
    from joinlay.documents.ahead import Ahead
    from joinlay.documents.wanted_sheets import ChapterKind, Wanted
    from joinlay.jobs.plan import Plan
    from joinlay.pages import Sheet
    from joinlay.pages.plain_sheet import PageBlock
    from joinlay.paper import Paper
    from joinlay.templates import Template

__all__ = ["Chapter", "Packet", "closing_chapters", "packet_for"]


@dataclass(frozen=True, slots=True)
class Packet:
    """All the sheets of one job by ``chapters``, numbered through, the cover first; ``templates`` are those laid on them.

    ``mark`` is the plan's, on every sheet (PR-7); ``maker`` is who makes it, '' where the job doesn't say.
    """

    title: str
    paper: Paper
    chapters: tuple[Chapter, ...]
    templates: tuple[Template, ...]
    mark: str = ""
    maker: str = ""

    @property
    def sheets(self) -> tuple[Sheet, ...]:
        """Every sheet in its order, once."""
        return in_order(self.chapters)

    def sheets_for(self, names: Collection[str]) -> tuple[Sheet, ...]:
        """The sheets that have a template of any of the boards called ``names``."""
        return tuple(sheet for sheet in self.sheets if any(name in names for laid in sheet.laid for name in laid.template.marks))

    def pdf(self, sheets: Sequence[Sheet] | None = None) -> bytes:
        """The packet as a PDF, or only ``sheets`` of it, which keep their numbers. BadInput for a letter the typeface lacks."""
        told = f"packet for the bench, {MARKED} {self.mark}"
        return sheets_pdf(self.sheets if sheets is None else sheets, title=self.title, subject=told, author=self.maker)


def packet_for(
    plan: Plan,
    printer: Printer | None = None,
    wanted: Wanted = LEAN,
    *,
    ahead: Ahead | None = None,
) -> Packet:
    """The packet of ``plan`` on its own paper, corrected for ``printer``, which is taken at its word unless given.

    It holds what is used at the bench, and names on its cover what it leaves out, unless ``wanted`` says otherwise: everything,
    or some chapters alone. Its ``templates`` are all there are, whichever are printed. What was begun ``ahead`` is taken
    from there, when there is nothing else left to do.
    Rules PR-1 to PR-7, PR-11, MS-1, CL-1, CL-2. Raises BadInput for paper too small for a check square and a template beside it.
    """
    try:
        return _packet(plan, printer or Printer(), wanted, ahead or made_alone(plan, printer, wanted))
    except BadSize as bad:
        raise BadInput(said_by(bad, plan.rule.text)) from None


def closing_chapters(plan: Plan, printer: Printer | None = None, wanted: Wanted = LEAN) -> dict[str, tuple[Sheet, ...]]:
    """The chapters behind those that are measured from, by their headings, as a packet has them that has any of these."""
    return _Binder(plan, paper_named(plan.paper), printer or Printer(), TrueSize(plan), wanted).closing()


def _packet(plan: Plan, printer: Printer, wanted: Wanted, ahead: Ahead) -> Packet:
    said = FootWords(_series(wanted), made_words(plan.maker, plan.date))
    measured = ahead.measured or TrueSize(plan)
    templates = measured.every
    binder = _Binder(plan, paper_named(plan.paper), printer, measured, wanted)
    lists = all_lists(plan)
    made = binder.made(lists, ahead)
    inner = joined_chapters(made, binder.known)
    if wanted.chapters:
        if _LISTS in made:
            # Among what to have ready is the paper of the packet they belong to.
            inner = joined_chapters(binder.relisted(lists, made, len(packet_for(plan, printer).sheets)), binder.known)
        mark = ahead.mark()
        return Packet(plan.title, binder.paper, tuple(numbered(inner, mark, said)), templates, mark, plan.maker)
    # How much paper it takes stands on one of its own sheets; a line more may take one more sheet, but never two.
    told = 0
    for _ in range(2):
        sheets = 1 + len(in_order(binder.with_index(lists, inner)))
        if sheets == told:
            break
        made = binder.relisted(lists, made, sheets)
        inner, told = joined_chapters(made, binder.known), sheets
    # Now that the sheets have their numbers, its lines lead to them.
    for _ in range(2):
        made = {**made, _WORK: binder.work(lists, inner)}
        before, inner = len(in_order(inner)), joined_chapters(made, binder.known)
        if len(in_order(inner)) == before:
            break
    inner = binder.with_index(lists, inner)
    cover = Chapter(_COVER, filed([binder.cover(inner)], _COVER))
    mark = ahead.mark()
    return Packet(plan.title, binder.paper, tuple(numbered([cover, *inner], mark, said)), templates, mark, plan.maker)


#: So many sheets of paper stand in the list until they are counted: a figure more or less moves nothing.
_SOME: Final = 10
_COVER: Final = "Cover"
_LISTS: Final = next(kind.heading for kind in CHAPTERS if kind.word == "list")
_INDEX: Final = "Where each part is"
#: A packet of so few sheets has no index on a sheet of its own (our own choice).
_FEW_SHEETS: Final = 24
_WORK: Final = "The whole job, in order"
#: In a small job this is the first that is read: words go on under the order of the work, where views would be too small.
_READ_FIRST: Final = "findings"
#: The chapters that are packed as one: what is left beside the strips of sticks takes templates.
_PACKED_TOGETHER: Final = ("sticks", "templates")
#: Those that are measured from; they stand together.
_TRUE_SIZE: Final = ("gauges", *_PACKED_TOGETHER, "sections")


@dataclass(frozen=True, slots=True)
class _Binder:
    """Makes the chapters of one packet, each numbered by itself."""

    plan: Plan
    paper: Paper
    printer: Printer
    measured: TrueSize
    wanted: Wanted
    #: The rows of the cutting list, once they are made: how much paper there must be is known last, and they stay as they are.
    rows: list[list[PageBlock]] = field(default_factory=list)
    known: KnownSheets = field(default_factory=KnownSheets)

    @property
    def reading(self) -> Paper:
        """The paper for what is only read: never a roll or a large sheet."""
        return for_words(self.paper, self.printer)[0]

    @property
    def reader(self) -> Printer:
        """The printer for that paper."""
        return for_words(self.paper, self.printer)[1]

    def made(self, lists: Lists, ahead: Ahead) -> dict[str, tuple[Sheet, ...]]:
        """Everything wanted between the cover and the index, in the order of the work, by the headings of the chapters; none
        empty. The whole job in order comes first, unless some chapters are wanted alone.
        """
        wanted = [kind for kind in CHAPTERS if self.wanted.has(kind)]
        if is_small(self.plan):
            wanted.sort(key=lambda kind: kind.word != _READ_FIRST)
        first = {} if self.wanted.chapters else {_WORK: self.work(lists)}
        at = [n for n, kind in enumerate(wanted) if kind.word in _TRUE_SIZE]
        before, between = (wanted[: at[0]], wanted[at[0] : at[-1] + 1]) if at else (wanted, [])
        reading = partial(self._read, lists, ahead)
        # What may be in the making elsewhere comes last, and what hangs on it.
        measured = self._measured(between)
        if any(measured.values()):
            found = {**self._in_turn(before, reading, first), **measured, **ahead.closing()}
        else:
            found = self._in_turn((kind for kind in wanted if kind not in between), reading, first)
        return {heading: sheets for heading, sheets in found.items() if sheets}

    def closing(self) -> dict[str, tuple[Sheet, ...]]:
        """The chapters behind those that are measured from, by their headings: nothing begins on a sheet that is, so they hang
        on nothing that is before them.
        """
        at = max(n for n, kind in enumerate(CHAPTERS) if kind.word in _TRUE_SIZE)
        return self._in_turn((kind for kind in CHAPTERS[at + 1 :] if self.wanted.has(kind)), self._closing)

    def _measured(self, kinds: Iterable[ChapterKind]) -> dict[str, tuple[Sheet, ...]]:
        """The chapters that are measured from, by their headings."""
        packed = {kind.word: kind for kind in kinds if kind.word in _PACKED_TOGETHER}
        sheets = self._together(packed) if packed else ()
        return {
            kind.heading: tuple(each for each in sheets if kind.heading in each.chapters)
            if kind.word in packed
            else filed(self._true(self._alone(kind)), kind.heading)
            for kind in kinds
        }

    def _alone(self, kind: ChapterKind) -> Sequence[Template]:
        """What is measured from of a chapter that shares no sheet with another."""
        if kind.word == "gauges":
            return gauge_templates(self.plan.settings.settings, self.plan.rule)
        return self.measured.chapters.get(kind.word, ())

    def _in_turn(
        self,
        kinds: Iterable[ChapterKind],
        made: Callable[[ChapterKind, Fraction], tuple[Sheet, ...]],
        first: Mapping[str, tuple[Sheet, ...]] | None = None,
    ) -> dict[str, tuple[Sheet, ...]]:
        """The chapters of ``kinds`` by their headings after the ``first``, each begun under what is before it, where that has
        room: ``made`` of its kind, so many mm of its first sheet left to what comes before.
        """
        found = dict(first or {})
        last = [sheet for sheets in found.values() for sheet in sheets][-1:]
        for kind in kinds:
            sheets = made(kind, begun_under(last, self.known))
            if sheets and is_foot_too_full(last, sheets):
                sheets = made(kind, Fraction(0))
            found[kind.heading] = filed(sheets, kind.heading)
            last = joined([*last, *found[kind.heading]], self.known)[-1:]
        return found

    def _together(self, kinds: Mapping[str, ChapterKind]) -> tuple[Sheet, ...]:
        """Chapters that are measured from, packed as one: the strips of a stick in their order, and the rest where there is
        room.
        """
        every = self.measured.chapters
        sticks = every.get("sticks", ()) if "sticks" in kinds else ()
        rest: tuple[Template, ...] = ()
        if "templates" in kinds:
            # Not what is marked twice: what a fold-over strip, a stick or a drill template marks.
            rest = every.get("templates", ()) if self.wanted.is_whole(kinds["templates"]) else self.measured.lean()
        laid = self._true(rest, partial(pack_close, before=sticks))
        heading = {id(one): kinds["sticks"].heading for one in sticks} | {id(one): kinds["templates"].heading for one in rest}
        return filed(laid, heading)

    def _read(self, lists: Lists, ahead: Ahead, kind: ChapterKind, begun: Fraction) -> tuple[Sheet, ...]:
        """The sheets of one chapter that is read: all of it, or of what is asked for besides only what is used at the bench.

        It leaves ``begun`` mm of its first sheet to what comes before it.
        """
        plan, paper, reader, is_whole = self.plan, self.reading, self.reader, self.wanted.is_whole(kind)
        made: dict[str, Callable[[], tuple[Sheet, ...]]] = {
            "piece": lambda: piece_sheets(plan, paper, printer=reader, begun=begun) if is_small(plan) else ahead.piece(),
            "parts": lambda: parts_sheets(plan, paper, printer=self.printer),
            "findings": lambda: finding_sheets(plan, paper, printer=reader, with_charts=is_whole, begun=begun),
            "list": lambda: self.listed(lists, _SOME, begun).sheets,
            "sawing": lambda: layout_sheets(plan, lists, paper, printer=reader, begun=begun),
        }
        return made[kind.word]() if kind.word in made else self._closing(kind, begun)

    def _closing(self, kind: ChapterKind, begun: Fraction) -> tuple[Sheet, ...]:
        """Likewise of the chapters behind those that are measured from."""
        plan, paper, reader = self.plan, self.reading, self.reader
        if kind.word == "settings":
            with_list = self.wanted.is_whole(kind) or not is_listed_in_short(plan)
            return setting_sheets(plan, paper, printer=reader, with_list=with_list, begun=begun)
        return assembly_sheets(plan, paper, printer=reader, begun=begun)

    def left_out(self, chapters: Sequence[Chapter]) -> Iterator[tuple[str, str]]:
        """What isn't printed among ``chapters`` unless asked for, in words, and the word it is asked for by: '' where
        only everything has it. Nothing that there is none of.
        """
        plan = self.plan
        there = {
            "parts": bool(plan.boards),
            "findings": bool(plan.drawers),
            "settings": is_listed_in_short(plan),
            "gauges": bool(gauge_templates(plan.settings.settings, plan.rule)),
            "templates": is_any_left_out(self.measured.elsewhere, self.measured.chapters.get("templates", ())),
            "sections": bool(self.measured.chapters.get("sections")),
        }
        for kind in CHAPTERS:
            if kind.left_out and not self.wanted.is_whole(kind) and there[kind.word]:
                yield kind.left_out, kind.word
        if all(chapter.heading != _INDEX for chapter in chapters):
            yield "a list of the sheets each part is on", ""

    def listed(self, lists: Lists, paper: int, begun: Fraction) -> Chapter:
        """The lists, ``paper`` sheets of paper among what to have ready; ``begun`` mm of the first are left to what comes
        before.
        """
        plan, reading, reader = self.plan, self.reading, self.reader
        if not self.rows:
            self.rows.extend(list_rows(plan, lists, reading, printer=reader))
        told, rows = with_paper(lists, plan, paper), tuple(self.rows)
        return Chapter(_LISTS, cutting_list_sheets(plan, told, reading, printer=reader, begun=begun, rows=rows))

    def relisted(self, lists: Lists, made: Mapping[str, tuple[Sheet, ...]], paper: int) -> dict[str, tuple[Sheet, ...]]:
        """``made`` with ``paper`` sheets among what to have ready."""
        if _LISTS not in made:
            return dict(made)
        last: list[Sheet] = []
        for sheets in takewhile(lambda one: one is not made[_LISTS], made.values()):
            last = joined([*last, *sheets], self.known)[-1:]
        return {**made, _LISTS: filed(self.listed(lists, paper, begun_under(last, self.known)).sheets, _LISTS)}

    def work(self, lists: Lists, chapters: Sequence[Chapter] = ()) -> tuple[Sheet, ...]:
        """The whole job in order, with the sheets of ``chapters``, the first of which is the second of the packet.

        In short for a small job, and where it would take more sheets line by line. Without the ``chapters`` its lines lead
        nowhere yet, and take as much room.
        """
        number = {id(sheet): n for n, sheet in enumerate(in_order(chapters), start=2)}
        there = {one.heading: one.sheets for one in chapters}
        known = [kind for kind in CHAPTERS if self.wanted.has(kind) and (not chapters or kind.heading in there)]
        at = {kind.word: tuple((number[id(sheet)], sheet) for sheet in there.get(kind.heading, ())) for kind in known}
        for word in _PACKED_TOGETHER:
            if not self.measured.chapters.get(word):
                at.pop(word, None)
        made: tuple[Sheet, ...] = ()
        for in_short in (True,) if is_small(self.plan) else (False, True):
            lines = work_lines(self.plan, lists, at, in_short=in_short)
            tried = work_sheets(self.plan, lines, self.reading, printer=self.reader, in_short=in_short)
            made = tried if not made or len(tried) < len(made) else made
            if len(made) == 1:
                break
        return filed(made, _WORK)

    def with_index(self, lists: Lists, chapters: Sequence[Chapter]) -> list[Chapter]:
        """``chapters``, the first of which begins on the packet's second sheet, and the index, begun on the last sheet before it
        where that has room.

        There is none where it would be a sheet more in a packet of few, which is looked through as soon (PR-11).
        """
        begun = begun_under(in_order(chapters))
        index = filed(self.index(lists, chapters, begun), _INDEX)
        whole = with_last(chapters, Chapter(_INDEX, index), self.known)
        few = len(in_order(chapters))
        if not self.wanted.is_all and 1 + few <= _FEW_SHEETS and len(in_order(whole)) > few:
            return list(chapters)
        return whole

    def index(self, lists: Lists, chapters: Sequence[Chapter], begun: Fraction) -> tuple[Sheet, ...]:
        """The parts, and on which sheets of ``chapters`` each is found; the first of these is the packet's second.

        ``begun`` mm of its own first are left to what comes before it.
        """
        at: dict[str, list[int]] = {}
        for number, sheet in enumerate(in_order(chapters), start=2):
            for name in sheet.parts:
                at.setdefault(name, []).append(number)
        rows = [
            IndexLine(row.number, row.where, tuple(sorted({n for name in row.names for n in at.get(name, ())})))
            for row in lists.parts.rows
        ]
        return index_sheets(self.plan, rows, self.reading, printer=self.reader, begun=begun)

    def cover(self, chapters: Sequence[Chapter]) -> Sheet:
        """The cover, its contents leading to ``chapters``, which begin on the second sheet."""
        number = {id(sheet): n for n, sheet in enumerate(in_order(chapters), start=2)}
        reach = [(chapter.heading, number[id(chapter.sheets[0])], number[id(chapter.sheets[-1])]) for chapter in chapters]
        contents = [ContentsLine(heading, first, last - first + 1) for heading, first, last in reach]
        left_out = tuple(self.left_out(chapters))
        return cover_sheet(self.plan, _says(self.plan), contents, self.reading, left_out=left_out, printer=self.reader)

    def _true(self, templates: Iterable[Template], lay: Callable[..., tuple[Sheet, ...]] = pack_close) -> tuple[Sheet, ...]:
        """Templates at true size on sheets with a check square each."""
        plan = self.plan
        return lay(tuple(templates), self.paper, title=plan.title, file=plan.file, unit=plan.rule.unit, printer=self.printer)


def _series(wanted: Wanted) -> str:
    """What goes before the numbers of sheets that are numbered otherwise than those of the packet as it is printed unless
    asked (PR-7).
    """
    return "part" if wanted.chapters else "all" if wanted.is_all else ""


def _says(plan: Plan) -> str:
    """What the piece is in a line: how many drawers, and how large it is."""
    drawers = f"{len(plan.drawers)} drawer{'s' if len(plan.drawers) != 1 else ''}"
    if not plan.is_whole:
        return f"{drawers}, from their openings{', and their runners' if plan.existing else ''}"
    across, deep, high = (plan.rule.text(size) for size in extent(plan.boards))
    return f"{drawers}; {across} wide, {deep} deep, {high} high"
