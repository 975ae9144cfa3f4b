"""Where each key of a TOML text stands: the path of every table, key and array element to its line.

The reader of TOML says what a file holds but not where, and a message without a line sends the maker searching. This scanner runs
over text that the reader has already accepted, so it need only find its way, not judge.
"""

from __future__ import annotations

import re
import tomllib
from bisect import bisect_right
from typing import TYPE_CHECKING, Final, Union

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

__all__ = ["KeyPath", "key_lines", "line_of"]

#: The way to a value: keys by name, elements of arrays by number from 0.
KeyPath = tuple[Union[str, int], ...]

_BLANK: Final = re.compile(r"(?:[ \t\r\n]|#[^\n]*)*")
_SPACE: Final = re.compile(r"[ \t]*")
_BARE_KEY: Final = re.compile(r"[A-Za-z0-9_-]+")
_TEXT: Final = (
    re.compile(r'"""(?:[^\\]|\\.)*?"""{1,3}(?!")', re.S),
    re.compile(r"'''.*?'''{1,3}(?!')", re.S),
    re.compile(r'"(?:[^"\\]|\\.)*"'),
    re.compile(r"'[^']*'"),
)
_PLAIN: Final = re.compile(r"[^,\]}#\r\n]*")


def key_lines(text: str) -> dict[KeyPath, int]:
    """The line, from 1, of every key, table and array element of ``text``, which must be good TOML.

    A table named only in passing (``a`` in ``[a.b]``) has the line that first names it; an element ``[[drawer]]`` the line of its header.
    """
    return _Scanner(text).lines()


def line_of(path: KeyPath, lines: Mapping[KeyPath, int]) -> int:
    """The line of ``path``, or of the nearest thing around it that has one; 0 where the file has none of it."""
    return next((lines[path[:n]] for n in range(len(path), 0, -1) if path[:n] in lines), 0)


class _Scanner:
    def __init__(self, text: str) -> None:
        self._text, self._at = text, 0
        self._starts = [0, *(found.end() for found in re.finditer("\n", text))]
        self._found: dict[KeyPath, int] = {}
        self._tables: dict[KeyPath, int] = {}

    def lines(self) -> dict[KeyPath, int]:
        base: KeyPath = ()
        self._skip(_BLANK)
        while self._at < len(self._text):
            base = self._header() if self._peek("[") else self._pair(base)
            self._skip(_BLANK)
        return self._found

    # -- statements ----------------------------------------------------------------------------------

    def _header(self) -> KeyPath:
        line, many = self._line(), self._peek("[[")
        self._at += 2 if many else 1
        path: KeyPath = ()
        keys = list(self._keys())
        for n, key in enumerate(keys):
            path = (*path, key)
            self._found.setdefault(path, line)
            if many and n == len(keys) - 1:
                self._tables[path] = self._tables.get(path, -1) + 1
            if path in self._tables:
                # A header that goes through [[drawer]] means the last one so far.
                path = (*path, self._tables[path])
                self._found.setdefault(path, line)
        self._at += 2 if many else 1
        return path

    def _pair(self, base: KeyPath) -> KeyPath:
        line, path = self._line(), base
        for key in self._keys():
            path = (*path, key)
            self._found.setdefault(path, line)
        self._at += 1
        self._skip(_SPACE)
        self._value(path)
        return base

    def _keys(self) -> Iterator[str]:
        while True:
            self._skip(_SPACE)
            yield self._key()
            self._skip(_SPACE)
            if not self._peek("."):
                return
            self._at += 1

    def _key(self) -> str:
        if self._peek('"') or self._peek("'"):
            quoted = self._take_text()
            return next(iter(tomllib.loads(f"{quoted} = 0")))
        return self._skip(_BARE_KEY)

    # -- values --------------------------------------------------------------------------------------

    def _value(self, path: KeyPath) -> None:
        if self._peek("["):
            self._array(path)
        elif self._peek("{"):
            self._inline_table(path)
        elif self._peek('"') or self._peek("'"):
            self._take_text()
        else:
            self._skip(_PLAIN)

    def _array(self, path: KeyPath) -> None:
        self._at += 1
        n = 0
        while not self._closes("]"):
            element = (*path, n)
            self._found[element] = self._line()
            self._value(element)
            n += 1
        self._at += 1

    def _inline_table(self, path: KeyPath) -> None:
        self._at += 1
        while not self._closes("}"):
            self._pair(path)
        self._at += 1

    def _closes(self, bracket: str) -> bool:
        """Past blanks and a comma, True at ``bracket`` (or where the text ends, so that nothing can run on for ever)."""
        self._skip(_BLANK)
        if self._peek(","):
            self._at += 1
            self._skip(_BLANK)
        return self._peek(bracket) or self._at >= len(self._text)

    # -- the text ------------------------------------------------------------------------------------

    def _take_text(self) -> str:
        for pattern in _TEXT:
            if found := pattern.match(self._text, self._at):
                self._at = found.end()
                return found[0]
        raise ValueError(f"no text at {self._at}")

    def _skip(self, pattern: re.Pattern[str]) -> str:
        found = pattern.match(self._text, self._at)
        if found is None:
            raise ValueError(f"nothing known at {self._at}")
        self._at = found.end()
        return found[0]

    def _peek(self, mark: str) -> bool:
        return self._text.startswith(mark, self._at)

    def _line(self) -> int:
        return bisect_right(self._starts, self._at)
