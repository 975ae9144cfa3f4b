"""``joinlay make``: everything a job gives, made in memory first and then written whole."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from joinlay.cli import words
from joinlay.cli.terminal import Progress, complain, finding_lines, say, table
from joinlay.documents.ahead import made_ahead
from joinlay.documents.job_file import texts_of
from joinlay.documents.job_files import AGAIN, PACKET, STEPS, job_files
from joinlay.documents.job_folder import keep_in, usual_folder
from joinlay.documents.mending import tried
from joinlay.documents.plan_mark import mark_in
from joinlay.documents.second_core import SecondCore
from joinlay.errors import BadInput
from joinlay.findings import Harm
from joinlay.jobs.known import Known
from joinlay.jobs.planning import plan
from joinlay.paper import BORDER, paper_named, with_border
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from joinlay.documents.packet import Packet
    from joinlay.documents.wanted_sheets import Wanted
    from joinlay.jobs.job import Job
    from joinlay.jobs.plan import Plan
    from joinlay.pages import Printer, Sheet

__all__ = ["Wish", "make_job", "with_printer"]


@dataclass(frozen=True, slots=True)
class Wish:
    """What ``make`` was asked for beside the job: where to, on what paper and printer, and whether templates as DXF and a model
    too.

    And whether only a part of the packet is wanted, or only its number of sheets; with ``is_all`` what is only looked at too, and
    ``chapters`` are those wanted by themselves; ``is_forced`` writes over files
    that aren't the job's own.
    """

    out: Path | None = None
    paper: str | None = None
    only: str | None = None
    pages: str | None = None
    printer: str | None = None
    is_count: bool = False
    is_dxf: bool = False
    is_model: bool = False
    is_all: bool = False
    chapters: tuple[str, ...] = ()
    is_forced: bool = False


def make_job(path: Path, wish: Wish) -> int:
    """Write everything the job at ``path`` gives; 1, and nothing written, where something is refused, else 0.

    Raises BadInput for what cannot be used, and where it cannot be written: then every file that was there is as it was.
    """
    if wish.is_dxf:
        _refuse_dxf(wish)
    if wish.is_model:
        _refuse_model(wish)
    wanted = _wanted(wish)
    texts = texts_of(path)
    job = texts.job()
    if wish.paper is not None:
        job = replace(job, paper=_paper(wish.paper))
    job, printer = with_printer(job, path, wish.printer)
    known = Known()
    worked_out = tried(texts, plan(job, known), known)
    if worked_out.is_refused:
        refused = [finding for finding in worked_out.findings if finding.harm is Harm.REFUSE]
        complain(f"{words.not_made(worked_out.title)}\n\n{finding_lines(refused, worked_out.rule)}")
        return 1
    folder = usual_folder(path) if wish.out is None else wish.out
    if wish.is_count:
        say(_counted(_bound(worked_out, printer, wanted)))
    elif _is_some(wish):
        say(_make_again(worked_out, printer, folder, path, wish, wanted))
    else:
        say(_make_all(worked_out, printer, folder, path, wish, wanted))
    return 0


def _is_some(wish: Wish) -> bool:
    """Whether only some sheets are to be printed, beside the packet that is there."""
    return wish.only is not None or wish.pages is not None or bool(wish.chapters)


def _wanted(wish: Wish) -> Wanted:
    """Which sheets are wished for. BadInput for a chapter that isn't there, and for wishes that don't go together."""
    from joinlay.documents.wanted_sheets import Wanted, chapters_called

    if wish.chapters and (wish.is_all or wish.only is not None or wish.pages is not None):
        raise BadInput(words.CHAPTER_ALONE)
    return Wanted(wish.is_all, chapters_called(wish.chapters))


def _bound(worked_out: Plan, printer: Printer | None, wanted: Wanted) -> Packet:
    from joinlay.documents.packet import packet_for

    with Progress(steps=1) as progress:
        progress.step(STEPS[0])
        return packet_for(worked_out, printer, wanted)


def _counted(packet: Packet) -> str:
    """How much paper the packet takes, chapter by chapter."""
    reach = [(chapter.heading, chapter.sheets[0].number, chapter.sheets[-1].number) for chapter in packet.chapters]
    rows = [(heading, words.sheet_numbers(first, last - first + 1)) for heading, first, last in reach]
    return "\n\n".join((words.sheets_counted(packet.title, _taken(packet.sheets)), table(rows), words.NEXT_COUNTED))


def _taken(sheets: Iterable[Sheet]) -> str:
    """The paper that ``sheets`` take, in words."""
    return words.paper_taken(sheet.paper.title for sheet in sheets)


def _make_again(worked_out: Plan, printer: Printer | None, folder: Path, job: Path, wish: Wish, wanted: Wanted) -> str:
    """Write the sheets that are wanted once more beside what is there, which stays as it is."""
    from joinlay.cli.asked_parts import chosen_sheets

    packet = _bound(worked_out, printer, wanted)
    there = mark_in(folder / PACKET)
    has_changed = there is not None and there != packet.mark
    chosen = packet.sheets if wanted.chapters else chosen_sheets(packet, worked_out, wish.only, wish.pages)
    if not chosen:
        raise BadInput(words.EMPTY_CHAPTER)
    keep_in(folder, job, {AGAIN: packet.pdf(chosen)}, is_whole=False, is_forced=wish.is_forced)
    numbers = [sheet.number for sheet in chosen]
    said = words.made_again(packet.title, numbers, _taken(chosen), folder / AGAIN)
    return "\n\n".join((said, *([words.CHANGED_SINCE] if has_changed else []), words.NEXT_AGAIN))


def _refuse_dxf(wish: Wish) -> None:
    """Refuse DXF, before anything is worked out, where it can't be written or only a part of the packet is wanted."""
    from joinlay.documents.dxf import refuse_without_dxf

    refuse_without_dxf()
    if wish.is_count or _is_some(wish):
        raise BadInput(words.DXF_WITH_ALL)


def _refuse_model(wish: Wish) -> None:
    """Refuse a model likewise."""
    from joinlay.documents.model import refuse_without_model

    refuse_without_model()
    if wish.is_count or _is_some(wish):
        raise BadInput(words.MODEL_WITH_ALL)


def _make_all(worked_out: Plan, printer: Printer | None, folder: Path, job: Path, wish: Wish, wanted: Wanted) -> str:
    """Write everything into ``folder``, and take away what an earlier run wrote and this one doesn't."""
    with SecondCore() as second:
        # Before there is a bar, which has a thread of its own in a terminal.
        ahead = made_ahead(worked_out, printer, wanted, second)
        second.begin()
        with Progress(steps=5) as progress:
            files, packet = job_files(
                worked_out, printer, wanted, progress.step, is_dxf=wish.is_dxf, is_model=wish.is_model, ahead=ahead
            )
            second.end()
            progress.step(words.STEP_WRITING)
            keep_in(folder, job, files, is_whole=True, is_forced=wish.is_forced)
    warnings = finding_lines((one for one in worked_out.findings if one.harm is Harm.WARN), worked_out.rule)
    made = words.made(worked_out.title, folder, len(files) + 1)
    return "\n\n".join(part for part in (made, warnings, words.next_print(_taken(packet.sheets))) if part)


def _paper(name: str) -> str:
    from joinlay.paper import paper_named

    try:
        return paper_named(name).name
    except BadInput as bad:
        raise BadInput(f"--paper: {bad}") from None


def with_printer(job: Job, path: Path, asked: str | None) -> tuple[Job, Printer | None]:
    """The job at ``path``, on paper with its printer's border, and the printer to correct for; None where none is named (PR-3,
    PR-5).

    ``asked`` goes before what the job says. Raises BadInput, with where it is written, for a printer that isn't kept or not for
    this paper.
    """
    if asked is not None:
        name, place = asked, "--printer"
    elif job.printer is not None:
        name, place = job.printer.value, f"{job.printer.origin}: paper, printer"
    else:
        return job, None
    # Only where one is named: fetching it takes the scale sheet's drawing with it.
    from joinlay.cli.printer_command import found_printer

    paper = paper_named(job.paper)
    try:
        found = found_printer(name, paper, path)
    except BadInput as bad:
        raise BadInput(f"{place}: {bad}") from None
    if found.border is not None and paper.border == BORDER:
        job = replace(job, paper=with_border(paper, found.border).name)
    return job, found.printer
