"""``joinlay make``: everything a job gives, made in memory first and then written whole."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Final

from joinlay.cli import words
from joinlay.cli.files import job_in
from joinlay.cli.progress import Progress
from joinlay.cli.saying import complain, finding_lines, say
from joinlay.documents.writing import write_all
from joinlay.errors import BadInput
from joinlay.findings import Harm
from joinlay.jobs.planning import plan

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.jobs.plan import Plan

__all__ = ["make_job"]

#: Where the list of what an earlier run wrote is kept.
_PLAN: Final = "plan.json"


def make_job(path: Path, out: Path | None, paper: str | None) -> int:
    """Write everything the job at ``path`` gives into ``out``; 1, and nothing written, where something is refused, else 0.

    Raises BadInput for what cannot be used, and where it cannot be written: then every file that was there is as it was.
    """
    job = job_in(path)
    if paper is not None:
        job = replace(job, paper=_paper(paper))
    worked_out = plan(job)
    if worked_out.is_refused:
        refused = [finding for finding in worked_out.findings if finding.harm is Harm.REFUSE]
        complain(f"{words.not_made(worked_out.title)}\n\n{finding_lines(refused, worked_out.rule)}")
        return 1
    folder = Path("templates_out") / path.stem if out is None else out
    with Progress(steps=6) as progress:
        files = _files(worked_out, progress)
        progress.step(words.STEP_WRITING)
        write_all(folder, files, _written_before(folder))
    warnings = finding_lines((one for one in worked_out.findings if one.harm is Harm.WARN), worked_out.rule)
    say("\n\n".join(part for part in (words.made(worked_out.title, folder, len(files)), warnings, words.next_print()) if part))
    return 0


def _paper(name: str) -> str:
    from joinlay.pages import paper_named

    try:
        return paper_named(name).name
    except BadInput as bad:
        raise BadInput(f"--paper: {bad}") from None


def _files(worked_out: Plan, progress: Progress) -> dict[str, bytes]:
    """Every file by its name, made in memory."""
    from joinlay.cutlist.cutting_list import cutting_list
    from joinlay.documents.cutting_list_csv import cutting_list_csv
    from joinlay.documents.plan_json import plan_json
    from joinlay.documents.setting_cards import setting_pdfs
    from joinlay.documents.templates import template_svgs, templates_pdf

    files: dict[str, bytes] = {}
    progress.step(words.STEP_PACKET)
    files["packet.pdf"] = templates_pdf(worked_out)
    progress.step(words.STEP_TEMPLATES)
    for name, drawing in template_svgs(worked_out):
        files[_free(name, files)] = drawing
    progress.step(words.STEP_SETTINGS)
    files.update(setting_pdfs(worked_out))
    progress.step(words.STEP_LIST)
    files["cutting-list.csv"] = cutting_list_csv(cutting_list(worked_out), worked_out.rule)
    progress.step(words.STEP_PLAN)
    files[_PLAN] = plan_json(worked_out, (*files, _PLAN))
    return files


def _free(name: str, taken: dict[str, bytes]) -> str:
    """``name``, or with a number behind it where two drawers' names come to the same file."""
    stem, dot, kind = name.rpartition(".")
    names = [name, *(f"{stem}-{n}{dot}{kind}" for n in range(2, len(taken) + 2))]
    return next(one for one in names if one not in taken)


def _written_before(folder: Path) -> Iterator[str]:
    """The names of the files an earlier run says it wrote into ``folder``; nothing where that can't be told."""
    try:
        names = json.loads((folder / _PLAN).read_bytes())["files"]
    except (OSError, ValueError, KeyError, TypeError, RecursionError):
        return
    if isinstance(names, list):
        yield from (name for name in names if isinstance(name, str) and Path(name).name == name and name not in ("", ".", ".."))
