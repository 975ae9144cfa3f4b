"""What is shown in the terminal: answers on standard output, complaints on standard error, both plain text; and a bar for what takes long."""

from __future__ import annotations

import shutil
import sys
import textwrap
from threading import Lock, Timer
from typing import TYPE_CHECKING, Final, Self

from joinlay.cli import words
from joinlay.errors import unseen_spelled

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from typing import TextIO

    from joinlay.findings import Finding
    from joinlay.lengths import Graduation

__all__ = ["Progress", "complain", "finding_lines", "say", "table"]


def say(text: str) -> None:
    """Print an answer."""
    sys.stdout.write(_printable(f"{text}\n", sys.stdout))
    sys.stdout.flush()


def complain(text: str) -> None:
    """Print what is wrong, on standard error."""
    sys.stderr.write(_printable(f"{text}\n", sys.stderr))
    sys.stderr.flush()


def _printable(text: str, stream: object) -> str:
    """``text`` in what the terminal can show; a sign it lacks becomes a question mark rather than a fault, one that can't be seen is spelled."""
    encoding = getattr(stream, "encoding", None) or "utf-8"
    return unseen_spelled(text).encode(encoding, "replace").decode(encoding)


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


_WIDE: Final = 24


class Progress:
    """A bar of so many ``steps``. It appears ``after`` a second, even in the midst of a step, and leaves no trace."""

    def __init__(self, steps: int, stream: TextIO | None = None, after: float = 1.0) -> None:
        """Make ready; nothing is shown yet."""
        self._steps, self._done, self._word = steps, 0, ""
        self._stream = sys.stderr if stream is None else stream
        self._lock, self._is_shown = Lock(), False
        self._timer = Timer(after, self._appear)
        self._timer.daemon = True

    def __enter__(self) -> Self:
        """Start the clock, where somebody is there to see."""
        if self._stream.isatty():
            self._timer.start()
        return self

    def __exit__(self, *_: object) -> None:
        """Wipe the bar away."""
        self._timer.cancel()
        with self._lock:
            if self._is_shown:
                self._stream.write("\r\x1b[K")
                self._stream.flush()
            self._is_shown = False

    def step(self, word: str) -> None:
        """The next step begins, called ``word``."""
        with self._lock:
            self._done, self._word = (self._done + 1 if self._word else 0), word
            self._draw()

    def _appear(self) -> None:
        with self._lock:
            self._is_shown = True
            self._draw()

    def _draw(self) -> None:
        if self._is_shown:
            full = _WIDE * self._done // self._steps
            self._stream.write(f"\r\x1b[K[{'#' * full}{'.' * (_WIDE - full)}] {self._word}")
            self._stream.flush()
