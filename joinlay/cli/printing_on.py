"""The printer a job is printed on: looked up by its name, its border taken for the paper where the job says none."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from joinlay.errors import BadInput
from joinlay.paper import BORDER, paper_named, with_border

if TYPE_CHECKING:
    from pathlib import Path

    from joinlay.jobs.job import Job
    from joinlay.pages import Printer

__all__ = ["with_printer"]


def with_printer(job: Job, path: Path, asked: str | None) -> tuple[Job, Printer | None]:
    """The job at ``path``, on paper with its printer's border, and the printer to correct for; None where none is named (PR-3, PR-5).

    ``asked`` goes before what the job says. Raises BadInput, with where it is written, for a printer that isn't kept or not for this paper.
    """
    from joinlay.cli.printer_store import found_printer

    if asked is not None:
        name, place = asked, "--printer"
    elif job.printer is not None:
        name, place = job.printer.value, f"{job.printer.origin}: paper, printer"
    else:
        return job, None
    paper = paper_named(job.paper)
    try:
        found = found_printer(name, paper, path)
    except BadInput as bad:
        raise BadInput(f"{place}: {bad}") from None
    if found.border is not None and paper.border == BORDER:
        job = replace(job, paper=with_border(paper, found.border).name)
    return job, found.printer
