"""Saying things: answers on standard output, complaints on standard error, both plain text."""

from __future__ import annotations

import shutil
import sys
import textwrap
from typing import TYPE_CHECKING

from joinlay.cli import words

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from joinlay.findings import Finding
    from joinlay.lengths import Graduation

__all__ = ["complain", "finding_lines", "say", "table"]


def say(text: str) -> None:
    """Print an answer."""
    sys.stdout.write(_printable(f"{text}\n", sys.stdout))
    sys.stdout.flush()


def complain(text: str) -> None:
    """Print what is wrong, on standard error."""
    sys.stderr.write(_printable(f"{text}\n", sys.stderr))
    sys.stderr.flush()


def _printable(text: str, stream: object) -> str:
    """``text`` in what the terminal can show; a sign it lacks becomes a question mark rather than a fault."""
    encoding = getattr(stream, "encoding", None) or "utf-8"
    return text.encode(encoding, "replace").decode(encoding)


def table(rows: Iterable[Sequence[str]]) -> str:
    """Rows of words in columns, two spaces in, three between; the last column runs free."""
    rows = [tuple(row) for row in rows]
    wide = [max(len(row[n]) for row in rows) for n in range(len(rows[0]) - 1)] if rows else []
    lines = ("   ".join([*(cell.ljust(width) for cell, width in zip(row, wide, strict=False)), row[-1]]) for row in rows)
    return "\n".join(f"  {line.rstrip()}" for line in lines)


def finding_lines(findings: Iterable[Finding], rule: Graduation) -> str:
    """The findings, one under the other: how bad, where, what, the way out, and the rule. Alike ones at several places are said once."""
    places: dict[tuple[str, ...], list[str]] = {}
    for finding in findings:
        said = (
            words.HARM[finding.harm.name],
            _sentence(finding.sentence(rule.text)),
            _sentence(finding.way_out(rule.text)),
            finding.rule,
        )
        places.setdefault(said, []).append(finding.where)
    return "\n".join(_wrapped(*said, places=where) for said, where in places.items())


def _sentence(text: str) -> str:
    """``text`` with a capital in front and a stop behind."""
    return f"{text[0].upper()}{text[1:].rstrip('.')}." if text else ""


def _wrapped(harm: str, what: str, remedy: str, rule: str, *, places: Sequence[str]) -> str:
    where = "; ".join(dict.fromkeys(place for place in places if place))
    rest = " ".join(part for part in (what, remedy, f"({rule})" if rule else "") if part)
    line = f"{harm.ljust(9)}{where}: {rest}" if where else f"{harm.ljust(9)}{rest}"
    if not sys.stdout.isatty():
        return line
    width = min(shutil.get_terminal_size().columns, 110)
    return textwrap.fill(line, max(width, 40), subsequent_indent=" " * 9)
