"""``joinlay mend``: the remedies of a job, numbered, and the one that is chosen made in its file."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, Final

from joinlay.cli.terminal import finding_lines, say, say_as_is
from joinlay.documents.job_file import texts_of
from joinlay.documents.mending import changed_lines, mended, planned, tried
from joinlay.documents.writing import write_whole
from joinlay.errors import BadInput
from joinlay.findings import Harm
from joinlay.jobs.known import Known

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from joinlay.findings import Finding, Remedy
    from joinlay.jobs.plan import Plan

__all__ = ["mend_job"]

#: What a file begins with that some editors write before UTF-8.
_MARK: Final = b"\xef\xbb\xbf"


def mend_job(path: Path, number: int | None, *, as_json: bool) -> int:
    """List the remedies of the job at ``path``, or make the one of that ``number``; 1 where the job is refused afterwards, else
    0.

    In a terminal without a ``number`` it is asked for. Raises BadInput for a job that cannot be used, a number that isn't there,
    and where the file cannot be written: it is then as it was.
    """
    texts = texts_of(path)
    known = Known()
    worked_out = tried(texts, planned(texts, known), known)
    ways = [(finding, remedy) for finding in worked_out.findings for remedy in finding.remedies]
    if number is None:
        if as_json:
            say_as_is(_as_json(worked_out))
        else:
            say(_listed(path, worked_out, ways))
        number = None if as_json or not ways else _asked()
        if number is None:
            return int(worked_out.is_refused)
    if not 1 <= number <= len(ways):
        raise BadInput(_no_such(number, len(ways), path))
    _, remedy = ways[number - 1]
    after = mended(texts.text, remedy.changes)
    for line in changed_lines(texts.text, after):
        was = f"  - {line.before}\n" if line.before else ""
        say_as_is(f"{path.name}:{line.number}\n{was}  + {line.after}")
    mark = _MARK if path.read_bytes().startswith(_MARK) else b""
    write_whole(path, mark + after.encode())
    left = planned(texts_of(path))
    say(_done(path, left))
    return int(left.is_refused)


def _asked() -> int | None:
    """The number typed in a terminal; None for nothing, or where nobody is there to ask."""
    if not _is_answered():
        return None
    say("Which of them? A number, or nothing to leave the job as it is:")
    given = sys.stdin.readline().strip()
    if not given:
        return None
    if not given.isdecimal():
        raise BadInput(f"{given!r} is not a number of the list; nothing was changed.")
    return int(given)


def _is_answered() -> bool:
    return sys.stdin.isatty() and sys.stdout.isatty()


def _as_json(worked_out: Plan) -> str:
    from joinlay.documents.json_text import InWords, json_text

    said = InWords(worked_out.rule)
    found = [said.finding(finding) for finding in worked_out.findings if finding.remedies]
    return json_text({"job": worked_out.file, "findings": found}).rstrip()


def _listed(path: Path, worked_out: Plan, ways: Sequence[tuple[Finding, Remedy]]) -> str:
    """Each finding that can be mended, with its remedies under it."""
    if not ways:
        worse = any(finding.harm < Harm.NOTE for finding in worked_out.findings)
        return f"{worked_out.title}: {_BY_HAND if worse else _NOTHING} (joinlay check {path})"
    parts, number = [], 0
    for finding in worked_out.findings:
        if finding.remedies:
            lines = [finding_lines((finding,), worked_out.rule)]
            for remedy in finding.remedies:
                number += 1
                text = finding.in_words(remedy, worked_out.rule.text)
                lines.append(f"  {number}  {text[0].upper()}{text[1:]}.")
            parts.append("\n".join(lines))
    return "\n\n".join((*parts, f"Next: joinlay mend {path} NUMBER changes the file, and shows the line before and after."))


_NOTHING: Final = "nothing needs mending."
_BY_HAND: Final = "what was found takes other wood or tools, or your own judgement; nothing is there that can be changed for you."


def _no_such(number: int, last: int, path: Path) -> str:
    if not last:
        return f"there is no remedy {number}: nothing in {path} can be changed for you. joinlay check says what was found."
    return f"there is no remedy {number}; they are numbered 1 to {last}. joinlay mend {path} lists them."


def _done(path: Path, left: Plan) -> str:
    """What is refused or warned of after the change."""
    tally = [sum(finding.harm is harm for finding in left.findings) for harm in (Harm.REFUSE, Harm.WARN)]
    said = (
        " and ".join(f"{count} {word}" for count, word in zip(tally, ("refused", "warned of"), strict=True) if count) or "nothing"
    )
    return f"{path} is changed: {said} now.\n\nNext: joinlay check {path}"
