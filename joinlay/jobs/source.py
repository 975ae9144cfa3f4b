"""A TOML file as it was written: its values, each with the file and line it stands in.

The problem: Python's reader of TOML says what a file holds but not where, and a message without a line sends the maker searching.
A whole reader of our own would be a second judge of what TOML is.

How it works: Python's reader goes first and judges; decimals stay text, so that none of their figures is lost. A small scanner
then runs over the same text, which is known to be good, and notes the line of every table, key and list element by its path.
The two are joined: each bare value becomes a Spelled, with ``file:line``. A fault anywhere later asks for the line of its path,
or of the nearest thing around it.

What it costs: one pass over the text by each, in line with its length. Files past a megabyte and keys of a dozen parts are
refused first, since Python's reader takes the square of the number of a key's parts.

What it can't do: it keeps lines, not columns, and no comments. Of a file that isn't TOML it tells only the first fault
(``toml_faults``).
"""

from __future__ import annotations

import re
import tomllib
from bisect import bisect_right
from typing import TYPE_CHECKING, Any, Final, Union

from joinlay.errors import Trouble, Troubles
from joinlay.jobs.toml_faults import fault_in_words
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

__all__ = ["LARGEST_FILE", "Decimals", "KeyPath", "Source", "Spelled", "key_lines", "line_of", "read_source", "table_or_empty"]

#: The way to a value: keys by name, elements of arrays by number from 0.
KeyPath = tuple[Union[str, int], ...]

#: A job is a page or two; a file past this many bytes is not one.
LARGEST_FILE: Final = 1_000_000

#: A key of a dozen parts. A job needs four, and TOML's reader takes the square of their number in time.
_LONG_KEY: Final = re.compile(r"""(?<![\w"'-])(?:[\w"'-]+[ \t]*\.[ \t]*){12}""")

_TOO_DEEP: Final = "tables and lists are nested too deep; a job needs four levels at most."


@dataclass(frozen=True, slots=True)
class Spelled:
    """A bare value from a TOML file: ``value`` as it was read (decimals still as text), ``origin`` its ``file:line``."""

    value: object
    origin: str


class Decimals(str):
    """A decimal number of a TOML file as it stands there, so that none of it is lost."""

    __slots__ = ()


@dataclass(frozen=True, slots=True)
class Source:
    """A file that is good TOML.

    ``file`` is its name. ``tree`` holds its tables and lists, every bare value a Spelled; ``lines`` says where each key stands.
    ``slips`` are the keys of values whose key is written otherwise: what else is wrong with those waits until that is put right.
    """

    file: str
    tree: Mapping[str, Any]
    lines: Mapping[KeyPath, int]
    slips: frozenset[KeyPath] = frozenset()

    def line(self, path: KeyPath) -> int:
        """The line of ``path`` or of what is nearest around it; 0 where the file has none of it."""
        return line_of(path, self.lines)

    def table(self, key: str) -> Mapping[str, Any]:
        """The table ``[key]``; empty where there is none."""
        return table_or_empty(self.tree.get(key))

    def tables(self, key: str) -> list[Mapping[str, Any]]:
        """The tables ``[[key]]`` in their order; one that is no table counts as an empty one."""
        found = self.tree.get(key)
        return [table_or_empty(each) for each in found] if isinstance(found, list) else []

    def trouble(self, path: KeyPath, where: str, message: str) -> Trouble:
        """A trouble at ``path``, which is ``where`` in the maker's words; ``message`` says what is wrong and what would do."""
        return Trouble(self.file, self.line(path), where, message)


def table_or_empty(given: object) -> Mapping[str, Any]:
    """``given`` if it is a table, else an empty one: what is wrong with it is told elsewhere."""
    return given if isinstance(given, dict) else {}


def read_source(text: str, file: str, *, is_shown: bool = True) -> Source:
    """``text`` of the file called ``file`` (its name, no folder), with the line of every key.

    ``is_shown`` False: nothing of it may be shown, since it may not be the maker's.
    Raises Troubles where it isn't TOML, or is too long or too deep to be a job.
    """
    if len(text) > LARGEST_FILE:
        raise Troubles([Trouble(file, 0, "", f"the file has {len(text)} characters; a job has at most {LARGEST_FILE}.")])
    text = text.removeprefix("\ufeff").replace("\r\n", "\n")
    if long := _LONG_KEY.search(text):
        line = text.count("\n", 0, long.start()) + 1
        raise Troubles([Trouble(file, line, "", _TOO_DEEP)])
    try:
        raw = tomllib.loads(text, parse_float=Decimals)
        lines = key_lines(text)
        tree = {key: _spelled(value, (key,), lines, file) for key, value in raw.items()}
    except tomllib.TOMLDecodeError as bad:
        raise Troubles([_not_toml(str(bad), text, file, is_shown=is_shown)]) from None
    except RecursionError:
        raise Troubles([Trouble(file, 0, "", _TOO_DEEP)]) from None
    except ValueError:
        # Python reads no whole number of more than 4300 figures.
        raise Troubles([Trouble(file, 0, "", "a number has thousands of figures; write a length of a dozen at most.")]) from None
    return Source(file, tree, lines)


def _spelled(value: object, path: KeyPath, lines: Mapping[KeyPath, int], file: str) -> object:
    if isinstance(value, dict):
        return {key: _spelled(inner, (*path, key), lines, file) for key, inner in value.items()}
    if isinstance(value, list):
        return [_spelled(inner, (*path, n), lines, file) for n, inner in enumerate(value)]
    return Spelled(value, f"{file}:{line_of(path, lines)}")


def _not_toml(message: str, text: str, file: str, *, is_shown: bool) -> Trouble:
    """The first fault that keeps the text from being TOML."""
    line, said = fault_in_words(message, text, is_shown=is_shown)
    return Trouble(file, line, "", f"this is not TOML: {said}")


# -- where each key stands -----------------------------------------------------------------------------

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

    A table named only in passing (``a`` in ``[a.b]``) has the line that first names it; an element ``[[drawer]]`` the line of
    its header.
    """
    return _Scanner(text).lines()


def line_of(path: KeyPath, lines: Mapping[KeyPath, int]) -> int:
    """The line of ``path`` among ``lines``, or of the nearest thing around it that has one; 0 where the file has none of it."""
    return next((lines[path[:n]] for n in range(len(path), 0, -1) if path[:n] in lines), 0)


class _Scanner:
    """Finds its way through good TOML, one statement after the other; ``_at`` is where it has come to."""

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
