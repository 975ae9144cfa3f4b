"""Where in a job a remedy is written: what a check asks for by the trade's names becomes the tables, rows and keys of the file.

A check knows boards and no job. It asks for a figure of the practice, or for another stock or way of making the drawers that it is about.
Here that finds its place: the row that says it already; else the row of those drawers, where others have rows of their own; else what
every drawer has.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.findings import Change, Finding, Remedy
from joinlay.jobs.tables.drawers import RULES_BY_KEY
from joinlay.jobs.tables.shop import key_of
from joinlay.lengths import Length, decimal_text

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from joinlay.jobs.job import Job

__all__ = ["settled", "value_text"]

#: The key of a drawer that sets each figure of the practice that a drawer may have of its own.
_KEYS: Final = {rule: key for key, rule in RULES_BY_KEY.items()}
_DRAWERS: Final = "drawers"
_PRACTICE: Final = "practice"


def settled(findings: Iterable[Finding], job: Job, owners: Mapping[str, str]) -> tuple[Finding, ...]:
    """``findings`` with the changes of their remedies as they are written in the file of ``job``.

    ``owners`` says by the name of a part, or of a place, which drawer it is of. A remedy that finds no place in this job is left out. How a
    job is written: no rule.
    """
    return tuple(_settled(finding, job, owners) for finding in findings)


def _settled(finding: Finding, job: Job, owners: Mapping[str, str]) -> Finding:
    if not finding.remedies:
        return finding
    drawers = tuple(dict.fromkeys(owners[part] for part in (finding.where, *finding.about) if part in owners))
    placed = []
    for remedy in finding.remedies:
        changes = [tuple(_placed(change, job, drawers)) for change in remedy.changes]
        if all(changes):
            flat = tuple(dict.fromkeys(one for some in changes for one in some))
            told = all(f"{one.key} = " in remedy.text for one in flat)
            placed.append(Remedy(remedy.text if told else f"{remedy.text} ({_escaped(_written(flat))})", flat))
    return replace(finding, remedies=tuple(placed))


def _placed(change: Change, job: Job, drawers: tuple[str, ...]) -> Iterator[Change]:
    """The one change, or one in each row that has it of its own; none where it has no place in this job."""
    value = value_text(change.value, job) if isinstance(change.value, Length) else change.value
    if change.table == _PRACTICE and change.key not in _KEYS:
        yield Change(_PRACTICE, key_of(change.key), value)
        return
    if change.table not in (_DRAWERS, _PRACTICE):
        if _has_place(change, job):
            yield replace(change, value=value)
        return
    key = _KEYS[change.key] if change.table == _PRACTICE else change.key
    yield from (Change(table, key, value, index) for table, index in _rows(key, job, drawers))


def _has_place(change: Change, job: Job) -> bool:
    """False for what a shop file says: its list of clamps, and anything at all where the job only names the file."""
    table, _, key = change.table.partition(".")
    if table != "shop":
        return True
    keys = {key for of, _, key in job.written.keys if of == table}
    return keys != {"file"} and (change.index is None or key in keys)


def _rows(key: str, job: Job, drawers: tuple[str, ...]) -> Iterable[tuple[str, int | None]]:
    """The tables in which ``key`` is to be set for those ``drawers``."""
    # What is refused of the whole piece is mended for all of its drawers.
    if not drawers:
        return ((_DRAWERS, None),)
    rows = tuple(dict.fromkeys(job.written.rows[name] for name in drawers if name in job.written.rows))
    own = tuple(row for row in rows if (*row, key) in job.written.keys)
    if own and len(own) == len(rows):
        return own
    if own or set(rows) != set(job.written.rows.values()):
        return rows
    return ((_DRAWERS, None),)


def value_text(length: Length, job: Job) -> str:
    """``length`` as it is written in the job: on its rule, ``3/32``; with its unit where that isn't the job's; else exactly."""
    read = job.rule.read(length)
    if not read.left_over:
        return read.figures if job.rule.unit is job.unit else f"{read.figures} {read.unit}"
    return f"{decimal_text(length.mm, 6)} mm"


def _written(changes: tuple[Change, ...]) -> str:
    """``top-clearance = "3/32" under [drawers]``, and the rest after it."""
    return " and ".join(f"{one.key} = {_quoted(one.value)} under {_table(one)}" for one in changes)


def _quoted(value: object) -> str:
    return f'"{value}"' if isinstance(value, str) else str(value)


def _table(change: Change) -> str:
    return f"[{change.table}]" if change.index is None else f"[[{change.table}]] {change.index + 1}"


def _escaped(text: str) -> str:
    """A stock may be called by braces, which stand for numbers in a finding."""
    return text.replace("{", "{{").replace("}", "}}")
