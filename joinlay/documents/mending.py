"""Remedies made in a job file, with its comments and order as they were; and each tried before it is offered.

A remedy may cure one thing and break another, and no check can know that by itself. So each is made in the text, the job read and
planned again, and it is offered only where its finding is gone and nothing as bad is new.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final, cast

from joinlay.errors import BadInput
from joinlay.findings import Harm
from joinlay.jobs.known import Known
from joinlay.jobs.planning import plan
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from joinlay.documents.job_file import JobTexts
    from joinlay.findings import Change, Finding, Remedy
    from joinlay.jobs.plan import Plan

__all__ = ["Line", "changed_lines", "helps", "mended", "planned", "tried"]

#: Drawers planned again, in all, to try the remedies of a job: past this many what is left untried is not offered.
_MOST_DRAWERS: Final = 120


# -- in the file ---------------------------------------------------------------------------------------


def mended(text: str, changes: Iterable[Change]) -> str:
    """The ``text`` of a job file with every one of ``changes`` made; all else in it stays as it is, to the letter.

    A key or table that isn't there is added. Raises BadInput where the text is so written that this can't be done: then by hand.
    """
    # Only where there is something to change: fetching it takes the library that edits TOML with it.
    from joinlay.documents.editing import with_values

    return with_values(text, [(_path(change), cast("str | int", change.value)) for change in changes])


def _path(change: Change) -> tuple[str | int, ...]:
    """Where a change is made. A stock may have a dot in its name, so only the first one parts; the last part may be a size of
    an opening.
    """
    rows = () if change.index is None else (change.index,)
    return (*change.table.split(".", 1), *rows, *change.key.split("."))


@dataclass(frozen=True, slots=True)
class Line:
    """A line that differs: its ``number`` from 1 in the mended text, and how it was ``before`` ('' for a new one) and is
    ``after``.
    """

    number: int
    before: str
    after: str


def changed_lines(before: str, after: str) -> tuple[Line, ...]:
    """The lines of the job that differ, from the top."""
    from difflib import SequenceMatcher

    old, new = before.splitlines(), after.splitlines()
    found = []
    for what, i, j, k, n in SequenceMatcher(None, old, new, autojunk=False).get_opcodes():
        if what != "equal":
            was = old[i:j]
            found += [Line(m + 1, was[m - k] if m - k < len(was) else "", new[m]) for m in range(k, n)]
    return tuple(line for line in found if line.before or line.after)


# -- tried -----------------------------------------------------------------------------------------------


def tried(texts: JobTexts, worked_out: Plan, known: Known | None = None) -> Plan:
    """``worked_out``, the plan of ``texts``, with only those remedies that help.

    The file is left alone. ``known`` is what it was planned with, which spares the trials what they change nothing of.
    """
    known = known or Known()
    left = _MOST_DRAWERS
    findings = []
    for finding in worked_out.findings:
        good: list[Remedy] = []
        for remedy in finding.remedies:
            if any(_keys(other) <= _keys(remedy) for other in good):
                # Part of it is enough.
                continue
            left -= max(len(worked_out.drawers), 1)
            if left >= 0 and _helps(texts, worked_out, finding, remedy, known):
                good.append(remedy)
        findings.append(replace(finding, remedies=tuple(good)) if finding.remedies else finding)
    return replace(worked_out, findings=tuple(findings))


def _keys(remedy: Remedy) -> frozenset[tuple[str, int | None, str]]:
    return frozenset((change.table, change.index, change.key) for change in remedy.changes)


def _helps(texts: JobTexts, worked_out: Plan, finding: Finding, remedy: Remedy, known: Known) -> bool:
    try:
        after = planned(replace(texts, text=mended(texts.text, remedy.changes)), known)
    except BadInput:
        return False
    return helps(finding, worked_out.findings, after.findings)


def planned(texts: JobTexts, known: Known | None = None) -> Plan:
    """The plan of a job as its files have it; what its remedies are is not tried. Raises Troubles or BadInput for what is no
    job. ``known`` as in ``plan``.
    """
    return plan(texts.job(), known)


def helps(finding: Finding, before: Sequence[Finding], after: Sequence[Finding]) -> bool:
    """Whether ``finding``, one of those ``before``, is gone ``after``, and nothing of equal or worse harm is new."""
    was, now = _harms(before), _harms(after)
    mine = _harms((finding,))
    if any(now.get(place, Harm.NOTE) <= finding.harm for place in mine if finding.harm < Harm.NOTE):
        return False
    return all(harm > finding.harm or was.get(place, Harm.NOTE) <= harm for place, harm in now.items() if harm < Harm.NOTE)


def _harms(findings: Iterable[Finding]) -> dict[tuple[str, str, str], Harm]:
    """The worst harm of each kind and sentence at each part."""
    found: dict[tuple[str, str, str], Harm] = {}
    for finding in findings:
        for part in finding.about:
            place = finding.kind, finding.what, part
            found[place] = min(finding.harm, found.get(place, Harm.NOTE))
    return found
