"""The findings as they stand in the page's margin: what was found, where, what helps, and what each mend would change."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from joinlay.checks.help_on import help_on
from joinlay.documents.mending import Line, changed_lines, mended
from joinlay.errors import BadInput
from joinlay.findings import Harm
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.findings import Finding
    from joinlay.jobs.plan import Plan

__all__ = ["Found", "Mend", "found_in"]

_HARMS = {Harm.REFUSE: "refused", Harm.WARN: "warning", Harm.NOTE: "note"}


@dataclass(frozen=True, slots=True)
class Mend:
    """A mend: its ``number`` among those of its finding, its ``words``, and the ``lines`` of the job that it changes."""

    number: int
    words: str
    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class Found:
    """A finding as it is told: its ``number`` in the plan, how bad it is, where, what, what only the maker can do, and its
    ``ways``.

    ``page`` is its page of help, '' where it has none; ``parts`` are those it is about.
    """

    number: int
    harm: str
    kind: str
    where: str
    what: str
    remedy: str
    rule: str
    page: str
    parts: tuple[str, ...]
    ways: tuple[Mend, ...]


def found_in(plan: Plan, text: str | None = None) -> tuple[Found, ...]:
    """The findings of ``plan``, the worst first; with their mends where the job's ``text`` is given to make them in."""
    return tuple(_told(n, finding, plan, text) for n, finding in enumerate(plan.findings))


def _told(number: int, finding: Finding, plan: Plan, text: str | None) -> Found:
    show = plan.rule.text
    return Found(
        number=number,
        harm=_HARMS[finding.harm],
        kind=finding.kind,
        where=finding.where,
        what=_sentence(finding.sentence(show)),
        remedy=_sentence(replace(finding, remedies=()).way_out(show)),
        rule=finding.rule,
        page=_page(finding.kind),
        parts=finding.about,
        ways=tuple(_ways(finding, plan, text)) if text is not None else (),
    )


def _ways(finding: Finding, plan: Plan, text: str) -> Iterator[Mend]:
    for n, remedy in enumerate(finding.remedies):
        try:
            after = mended(text, remedy.changes)
        except BadInput:
            continue
        yield Mend(n, _sentence(finding.in_words(remedy, plan.rule.text)), changed_lines(text, after))


def _page(kind: str) -> str:
    try:
        return help_on(kind).text
    except BadInput:
        return ""


def _sentence(said: str) -> str:
    return f"{said[:1].upper()}{said[1:].rstrip('.')}." if said else ""
