"""What is shown in the terminal: answers on standard output, complaints on standard error, both plain text; and a bar for what
takes long.
"""

from __future__ import annotations

import re
import shutil
import sys
import textwrap
from itertools import zip_longest
from threading import Lock, Timer
from typing import TYPE_CHECKING, Final, Self

from joinlay.cli import words
from joinlay.errors import unseen_spelled

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from typing import TextIO

    from joinlay.findings import Finding
    from joinlay.lengths import Graduation

__all__ = ["Progress", "broken", "complain", "finding_lines", "hung", "say", "say_as_is", "table", "table_rows", "terminal_width"]


def say(text: str) -> None:
    """Print an answer; in a terminal no line is wider than that, but for a command that is to be typed."""
    say_as_is(broken(text))


def say_as_is(text: str) -> None:
    """Print what stays as it is, however wide: JSON for a program, the lines of a job."""
    sys.stdout.write(_printable(f"{text}\n", sys.stdout))
    sys.stdout.flush()


def complain(text: str) -> None:
    """Print what is wrong, on standard error."""
    sys.stderr.write(_printable(f"{text}\n", sys.stderr))
    sys.stderr.flush()


def _printable(text: str, stream: object) -> str:
    """``text`` in what the terminal can show; a sign it lacks becomes a question mark rather than a fault, one that can't be
    seen is spelled.
    """
    encoding = getattr(stream, "encoding", None) or "utf-8"
    return unseen_spelled(text).encode(encoding, "replace").decode(encoding)


def table(rows: Iterable[Sequence[str]]) -> str:
    """Rows of words in columns, two spaces in, three between, no wider than the terminal."""
    return "\n".join(table_rows(rows))


def table_rows(rows: Iterable[Sequence[str]]) -> list[str]:
    """The rows of a ``table``, one by one; each of several lines where a cell has to be broken, which is never within a figure
    and its unit. Where not even the longest words fit side by side, a row's cells follow each other, under the first of them.
    """
    rows = [tuple(map(_kept_together, row)) for row in rows]
    wide = [max(map(len, column)) for column in zip(*rows, strict=True)]
    least = [max(len(word) for cell in column for word in cell.split(" ")) for column in zip(*rows, strict=True)]
    room = terminal_width()
    between = _BETWEEN if room is None or sum(least) + len(_INDENT) + len(_BETWEEN) * (len(least) - 1) <= room else _CLOSER
    if room is not None and sum(least) + len(_INDENT) + len(_CLOSER) * (len(least) - 1) > room:
        return [_filled(row, room) for row in rows]
    while room is not None and sum(wide) + len(_INDENT) + len(between) * (len(wide) - 1) > room:
        # The column that is widest gives way first, down to its longest word.
        narrower = [n for n, width in enumerate(wide) if width > least[n]]
        if not narrower:
            break
        wide[max(narrower, key=lambda n: wide[n])] -= 1
    return ["\n".join(_lines_of(row, wide, between)) for row in rows]


_INDENT: Final = "  "
_BETWEEN: Final = "   "
#: Where the longest words alone fill the terminal.
_CLOSER: Final = "  "
#: What is never broken: a whole number and its fraction, a figure and its unit, how many of what, and one size by another.
_TOGETHER: Final = re.compile(r"(?<=\d) (?=\d+/\d)|(?<=[\d+-]) (?=(?:in|mm|ft|cm|m|lb|kg|rpm)\b|%)|(?<=\d) (?=x )|(?<= x) (?=\d)")
#: Stands for a space that is kept; no word of a plan has it.
_KEPT: Final = "\x1f"


def _kept_together(cell: str) -> str:
    return _TOGETHER.sub(_KEPT, cell)


def _filled(row: Sequence[str], room: int) -> str:
    """A row as running text, cell after cell, what follows its first line two further in."""
    told = "; ".join(cell for cell in row if cell)
    lines = textwrap.fill(
        told, room, initial_indent=_INDENT, subsequent_indent=_INDENT * 2, break_long_words=False, break_on_hyphens=False
    )
    return lines.replace(_KEPT, " ")


def _lines_of(row: Sequence[str], wide: Sequence[int], between: str) -> list[str]:
    cells = [textwrap.wrap(cell, max(width, 1), break_long_words=False, break_on_hyphens=False) if len(cell) > width else [cell]
             for cell, width in zip(row, wide, strict=True)]  # fmt: skip
    lines = (
        between.join(cell.ljust(width) for cell, width in zip(line, wide, strict=True))
        for line in zip_longest(*cells, fillvalue="")
    )
    return [f"{_INDENT}{line}".rstrip().replace(_KEPT, " ") for line in lines]


def terminal_width() -> int | None:
    """How many letters fit a line of the terminal; None where it goes to a file or another program. No rule, the terminal's."""
    if not sys.stdout.isatty():
        return None
    return max(shutil.get_terminal_size().columns, _LEAST_WIDTH)


#: Narrower than this, lines are not made.
_LEAST_WIDTH: Final = 40


def finding_lines(findings: Iterable[Finding], rule: Graduation) -> str:
    """The findings, one under the other: how bad, where, what, the way out, and the rule. Alike ones at several places are
    said once.
    """
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
    return hung(f"{harm.ljust(9)}{where}: {rest}" if where else f"{harm.ljust(9)}{rest}")


def hung(line: str) -> str:
    """``line``, in a terminal broken where it is full, under what follows its first word."""
    width = terminal_width()
    return line if width is None else textwrap.fill(line, min(width, _EASY_TO_READ), subsequent_indent=" " * 9)


def broken(text: str) -> str:
    """``text`` with every line that is wider than the terminal broken, under its own beginning and two in, never within a
    figure and its unit.
    """
    width = terminal_width()
    if width is None:
        return text
    return "\n".join(line if len(line) <= width or _COMMAND.search(line) else _broken(line, width) for line in text.splitlines())


#: A command to be typed as it stands.
_COMMAND: Final = re.compile(r"\bjoinlay [a-z]+ ")


def _broken(line: str, width: int) -> str:
    words = line.lstrip()
    indent = " " * (len(line) - len(words))
    filled = textwrap.fill(
        _kept_together(words),
        width,
        initial_indent=indent,
        subsequent_indent=f"{indent}  ",
        break_long_words=False,
        break_on_hyphens=False,
    )
    return filled.replace(_KEPT, " ")


#: A longer line is hard to read.
_EASY_TO_READ: Final = 110


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
