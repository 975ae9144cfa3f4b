"""A job file changed by a program, as a careful hand would: one value or one row, with comments, order and all else to the letter
as they were.

What comes out is read again and held against what was meant, so that an odd way of writing is refused and never spoilt.
"""

from __future__ import annotations

import tomllib
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any, Final

import tomlkit
from tomlkit.exceptions import TOMLKitError
from tomlkit.items import Array, Null, Table

from joinlay.errors import BadInput
from joinlay.jobs.source import key_lines

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping, MutableMapping, Sequence

    from tomlkit.items import Item, Key

    from joinlay.jobs.source import KeyPath

__all__ = ["Value", "is_as", "with_row_added", "with_row_moved", "with_row_removed", "with_values"]

#: What a key can be set to; None takes it out.
Value = str | int | bool | None

#: What is said where only a hand can change it.
_BY_HAND: Final = "the job is so written that this can't be changed in it; write it by hand: "


def with_values(text: str, changes: Iterable[tuple[KeyPath, Value]]) -> str:
    """The ``text`` of a job with each value set, or taken out where it is None; a key or table that isn't there is added.

    Raises BadInput where the text is so written that this can't be done: then by hand.
    """
    changes = tuple(changes)
    plain = text.replace("\r\n", "\n")
    said = " and ".join(f"{'.'.join(map(str, path))} = {_shown(value)}" for path, value in changes)
    try:
        tree, wanted = tomlkit.parse(plain), tomllib.loads(plain)
        for path, value in changes:
            _set(tree, path, value, tomlkit.table)
            _set(wanted, path, value, dict)
        made = tomlkit.dumps(tree)
    except (TOMLKitError, tomllib.TOMLDecodeError, KeyError, IndexError, TypeError, ValueError, RecursionError):
        raise BadInput(f"{_BY_HAND}{said}.") from None
    if not is_as(made, wanted):
        raise BadInput(f"{_BY_HAND}{said}.")
    return made.replace("\n", "\r\n") if "\r\n" in text else made


def _shown(value: Value) -> str:
    return "nothing" if value is None else f'"{value}"' if isinstance(value, str) else str(value).lower()


def _set(tree: MutableMapping[str, Any], path: KeyPath, value: Value, new: Callable[[], object]) -> None:
    here: Any = tree
    for name in path[:-1]:
        if isinstance(name, str) and name not in here:
            if value is None:
                return
            here[name] = new()
        elif isinstance(name, int) and name == len(here) and value is not None:
            # One row more than there is: written as those before it are.
            here.append(tomlkit.inline_table() if isinstance(here, Array) else new())
        here = here[name]
    if value is None:
        here.pop(path[-1], None)
        return
    with _above_what_follows(here):
        here[path[-1]] = value


@contextmanager
def _above_what_follows(row: object) -> Iterator[None]:
    """A new key comes behind the last one of its table, above the blank lines and comments that lead to the next."""
    if not isinstance(row, Table):
        yield
        return
    body = row.value.body
    behind: list[tuple[Key | None, Item]] = []
    while body and body[-1][0] is None and not isinstance(body[-1][1], Null):
        behind.insert(0, body.pop())
    yield
    body.extend(behind)


def is_as(text: str, wanted: Mapping[str, Any]) -> bool:
    """Whether ``text`` is TOML that says just what is ``wanted``."""
    try:
        return tomllib.loads(text) == wanted
    except (tomllib.TOMLDecodeError, RecursionError, ValueError):
        return False


# -- rows --------------------------------------------------------------------------------------------


def with_row_added(text: str, key: str, at: int) -> str:
    """The ``text`` with a row ``[[key]]`` more, like the one ``at`` that number, from 0, which it comes behind; a bare one where
    there is none.

    What names a row is left out of the new one, since no two may be called alike. Raises BadInput where it can't be done.
    """
    spans = _rows(text, key)
    if not spans:
        return f"{text.rstrip()}\n\n[[{key}]]\n"
    lines = text.splitlines(keepends=True)
    start, stop = _span(spans, at)
    copied = [line for line in lines[start:stop] if line.split("=")[0].strip() != "name"]
    wanted = tomllib.loads(text)
    wanted[key].insert(at + 1, {k: v for k, v in wanted[key][at].items() if k != "name"})
    before = "".join(lines[:stop])
    gap = "" if before.endswith("\n\n") else "\n" if before.endswith("\n") else "\n\n"
    return _checked(
        before + gap + "".join(copied).rstrip("\n") + "\n" + ("\n" if lines[stop:] else "") + "".join(lines[stop:]), wanted
    )


def with_row_removed(text: str, key: str, at: int) -> str:
    """The ``text`` without the row ``[[key]]`` of that number, from 0, and the comments that stand right above it. BadInput as
    above.
    """
    lines = text.splitlines(keepends=True)
    start, stop = _span(_rows(text, key), at)
    wanted = tomllib.loads(text)
    del wanted[key][at]
    if not wanted[key]:
        del wanted[key]
    return _checked("".join(lines[:start] + lines[stop:]), wanted)


def with_row_moved(text: str, key: str, at: int, *, is_up: bool) -> str:
    """The ``text`` with the row ``[[key]]`` of that number, from 0, one place up or down, its comments with it. BadInput as
    above.
    """
    lines, spans = text.splitlines(keepends=True), _rows(text, key)
    one, other = (at - 1, at) if is_up else (at, at + 1)
    (a, b), (c, d) = _span(spans, one), _span(spans, other)
    wanted = tomllib.loads(text)
    wanted[key][one], wanted[key][other] = wanted[key][other], wanted[key][one]
    moved = "".join(lines[c:d])
    if not moved.endswith("\n"):
        moved += "\n"
    if not moved.endswith("\n\n") and "".join(lines[a:b]).endswith("\n\n"):
        moved += "\n"
    return _checked("".join([*lines[:a], moved, *lines[b:c], *lines[a:b], *lines[d:]]), wanted)


def _checked(made: str, wanted: Mapping[str, Any]) -> str:
    if not is_as(made, wanted):
        raise BadInput("the rows are so written that this can't be done to them; do it in the text.")
    return made


def _span(spans: Sequence[tuple[int, int]], at: int) -> tuple[int, int]:
    if not 0 <= at < len(spans):
        raise BadInput("there is no such row.")
    return spans[at]


def _rows(text: str, key: str) -> list[tuple[int, int]]:
    """From which line to which, from 0, each row ``[[key]]`` stands: its header, the comments right above it, and what is under
    it.

    None where they aren't written so. Raises BadInput for what isn't TOML.
    """
    try:
        found = tomllib.loads(text).get(key)
    except (tomllib.TOMLDecodeError, RecursionError, ValueError):
        raise BadInput("the text is no TOML as it is; put that right first.") from None
    if not isinstance(found, list) or not found:
        return []
    places, lines = key_lines(text), text.splitlines()
    starts = [places.get((key, n), 0) - 1 for n in range(len(found))]
    if any(start < 0 or not lines[start].lstrip().startswith("[[") for start in starts):
        raise BadInput("the rows are so written that this can't be done to them; do it in the text.")
    heads = sorted(
        {line - 1 for path, line in places.items() if lines[line - 1].lstrip().startswith("[") and path[0] != key} | set(starts)
    )
    spans = []
    for start in starts:
        later = [head for head in heads if head > start]
        stop = _above(lines, later[0]) if later else len(lines)
        spans.append((_above(lines, start), stop))
    return spans


def _above(lines: Sequence[str], head: int) -> int:
    """Where the comments begin that stand right above a header."""
    while head and lines[head - 1].lstrip().startswith("#"):
        head -= 1
    return head
