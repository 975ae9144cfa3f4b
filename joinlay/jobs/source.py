"""A TOML file as it was written: its values, each with the file and line it stands in."""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from joinlay.errors import Trouble, Troubles
from joinlay.jobs.lines import key_lines, line_of
from joinlay.jobs.parts.given import Decimals, Spelled

if TYPE_CHECKING:
    from collections.abc import Mapping

    from joinlay.jobs.lines import KeyPath

__all__ = ["LARGEST_FILE", "Source", "read_source"]

#: A job is a page or two; a file past this many bytes is not one.
LARGEST_FILE: Final = 1_000_000

#: A key of a dozen parts. A job needs four, and TOML's reader takes the square of their number in time.
_LONG_KEY: Final = re.compile(r"""(?<![\w"'-])(?:[\w"'-]+[ \t]*\.[ \t]*){12}""")

_TOO_DEEP: Final = "tables and lists are nested too deep; a job needs four levels at most."

_PLACE: Final = re.compile(r"\s*\(at (?:line (\d+), column (\d+)|end of document)\)$")
_BARE_LENGTH: Final = re.compile(r"""=\s*-?\d+(?:\.\d+)?(?:[\s-]+\d+)?\s*(?:/\s*\d|mm|cm|m\b|in|ft|["'″′])""")


@dataclass(frozen=True, slots=True)
class Source:
    """A file that is good TOML. ``tree`` holds its tables and lists, every bare value a Spelled; ``lines`` where each key stands."""

    file: str
    tree: Mapping[str, Any]
    lines: Mapping[KeyPath, int]

    def line(self, path: KeyPath) -> int:
        """The line of ``path`` or of what is nearest around it; 0 where the file has none of it."""
        return line_of(path, self.lines)

    def trouble(self, path: KeyPath, where: str, message: str) -> Trouble:
        """Something wrong at ``path``, which is ``where`` in the maker's words."""
        return Trouble(self.file, self.line(path), where, message)


def read_source(text: str, file: str) -> Source:
    """``text`` of the file called ``file``, with the line of every key. Raises Troubles where it isn't TOML, or too long to be a job."""
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
        raise Troubles([_not_toml(str(bad), text, file)]) from None
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


def _not_toml(message: str, text: str, file: str) -> Trouble:
    """The reader's own complaint with its line in front, and what is likely meant."""
    place = _PLACE.search(message)
    said = _PLACE.sub("", message)
    rows = text.splitlines() or [""]
    line = int(place[1]) if place and place[1] else len(rows)
    row = rows[line - 1] if line <= len(rows) else ""
    column = f" at column {place[2]}" if place and place[2] else ""
    hint = 'a length with a fraction or a unit stands in quotes: width = "18 3/8".' if _BARE_LENGTH.search(row) else _nearby(row)
    return Trouble(file, line, "", f"this is not TOML: {said[:200]}{column}; {hint}")


def _nearby(row: str) -> str:
    return f"the line reads: {row.strip()[:60]}" if row.strip() else 'write tables as [drawers] and values as key = "text".'
