"""``joinlay check``: read a job, work it out, say what was found."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from typing import TYPE_CHECKING

from joinlay.checks.assumed import assumed
from joinlay.checks.everything import gathered
from joinlay.cli import words
from joinlay.cli.terminal import finding_lines, say, say_as_is
from joinlay.documents.job_file import texts_of
from joinlay.documents.mending import tried
from joinlay.errors import BadInput, Troubles
from joinlay.findings import Harm
from joinlay.jobs.known import Known
from joinlay.jobs.planning import plan

if TYPE_CHECKING:
    from pathlib import Path
    from typing import Any

    from joinlay.jobs.job import Job
    from joinlay.jobs.plan import Plan

__all__ = ["check_job"]


def check_job(path: Path, *, as_json: bool, is_assembled: bool = False, packet: Path | None = None) -> int:
    """Say what was found in the job at ``path``; 1 where something was refused, else 0. Raises BadInput for what cannot be used.

    ``is_assembled`` puts the solids together as well (CK-8), each move of the order from outside to its end (PT-2), which needs
    the geometry kernel. ``packet`` is a folder that was made of the job: what in it is of another plan is said instead, and ends
    with 1 (PR-7).
    """
    if packet is not None:
        return _check_packet(texts_of(path).job(), packet, as_json=as_json)
    if not as_json:
        texts = texts_of(path)
        job = _printable(texts.job(), path)
        known = Known()
        worked_out = tried(texts, _worked_out(job, known, is_assembled=is_assembled), known)
        say(_page(path, job, worked_out, is_assembled=is_assembled))
        return int(worked_out.is_refused)
    try:
        texts = texts_of(path)
        job = _printable(texts.job(), path)
        known = Known()
        worked_out = tried(texts, _worked_out(job, known, is_assembled=is_assembled), known)
    except BadInput as bad:
        _say_json({"job": path.name, "verdict": "cannot be used", "troubles": _troubles(bad, path)})
        raise
    _say_json(_tree(job, worked_out))
    return int(worked_out.is_refused)


def _printable(job: Job, path: Path) -> Job:
    """``job`` itself, which has a printer that is kept, or none. Raises BadInput, with the line, for one that isn't."""
    if job.printer is not None:
        # Fetched only where one is named.
        from joinlay.cli.make_command import with_printer

        with_printer(job, path, None)
    return job


def _check_packet(job: Job, folder: Path, *, as_json: bool) -> int:
    """Say whether the files in ``folder`` carry the mark of the plan as it is now; 1 where one doesn't, else 0 (PR-7)."""
    from joinlay.documents.plan_mark import marks_in, plan_mark

    mark, found = plan_mark(plan(job)), marks_in(folder)
    strange = {name: its for name, its in found.items() if its != mark}
    if as_json:
        _say_json({"job": job.file, "plan_mark": mark, "files": found, "is_of_one_plan": not strange})
    else:
        say(words.packet_checked(job.title, mark, folder, len(found), strange))
    return int(bool(strange))


def _worked_out(job: Job, known: Known, *, is_assembled: bool) -> Plan:
    worked_out = plan(job, known)
    if not is_assembled:
        return worked_out
    from joinlay.checks.closing import check_moves
    from joinlay.checks.solids import check_assembly

    if worked_out.is_placed:
        standing = [*worked_out.existing, *(board for assembly in worked_out.others for board in assembly.boards)]
        moves = check_moves(worked_out.order.moves, tuple(worked_out.placed.values()))
        found = (*check_assembly(standing, worked_out.drawers), *moves)
    else:
        # Drawers given by their openings each have a zero of their own, so each is put together by itself.
        alone = (finding for drawer in worked_out.drawers for finding in check_assembly((), (drawer,)))
        found = (*alone, *check_moves(worked_out.order.moves, worked_out.boards))
    return replace(worked_out, findings=gathered((*worked_out.findings, *found)))


def _page(path: Path, job: Job, worked_out: Plan, *, is_assembled: bool) -> str:
    tally = Counter(finding.harm for finding in worked_out.findings)
    first = words.verdict(job.title, job.drawer_count, [(tally[harm], words.HARM[harm.name]) for harm in Harm])
    following = words.next_mend(path) if worked_out.is_refused else words.next_make(path)
    if worked_out.findings:
        can_mend = any(finding.remedies for finding in worked_out.findings)
        mend = f"; {words.can_be_mended(path)}" if can_mend else ""
        following = f"{words.more_on(worked_out.findings[0].kind)}{mend}\n{following}"
    put_together = _put_together(worked_out) if is_assembled else ""
    parts = (first, finding_lines(worked_out.findings, job.rule), put_together, _reckoned(worked_out), following)
    return "\n\n".join(part for part in parts if part)


def _put_together(worked_out: Plan) -> str:
    """What was put together in the model, how each drawer was tried, and how many pairs were in each other's place or way
    (CK-8, PT-2).
    """
    clashes = sum(finding.kind == "assembly" for finding in worked_out.findings)
    drawers, moves = len(worked_out.drawers), len(worked_out.order.moves)
    return words.put_together(len(worked_out.boards), moves, drawers, clashes, is_placed=worked_out.is_placed)


def _reckoned(worked_out: Plan) -> str:
    """The figures the findings hang on; nothing where there was nothing to judge."""
    if not worked_out.drawers:
        return ""
    found = assumed(worked_out.conditions, worked_out.shop.practice, worked_out.rule, is_whole=worked_out.is_whole)
    own = [f"{one.said} ({one.written})" for one in found if one.written]
    return words.reckoned_with([one.said for one in found if not one.written], own)


def _tree(job: Job, worked_out: Plan) -> dict[str, Any]:
    from joinlay.documents.json_text import InWords
    from joinlay.documents.plan_json import conditions_of, weights_of

    said = InWords(job.rule)
    worst = min((finding.harm for finding in worked_out.findings), default=None)
    return {
        "job": job.file,
        "title": job.title,
        "verdict": "clean" if worst is None else words.HARM[worst.name],
        "drawers": job.drawer_count,
        "conditions": conditions_of(worked_out),
        "weights": weights_of(worked_out),
        "findings": [said.finding(finding) for finding in worked_out.findings],
    }


def _troubles(bad: BadInput, path: Path) -> list[dict[str, Any]]:
    if isinstance(bad, Troubles):
        return [{"file": one.file, "line": one.line, "where": one.where, "message": one.message} for one in bad.troubles]
    return [{"file": path.name, "line": 0, "where": "", "message": str(bad)}]


def _say_json(tree: dict[str, Any]) -> None:
    from joinlay.documents.json_text import json_text

    say_as_is(json_text(tree).rstrip())
