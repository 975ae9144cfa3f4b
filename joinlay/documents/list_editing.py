"""Lists in a job file changed by a program: an item more, one taken out or moved, with comments and all else to the letter as
they were.

A list with a line for each item is changed by its lines, so that what is written beside an item goes with it; one on a single
line by what reads TOML with its spaces. What comes out is read again and held against what was meant, as in ``editing.py``.
"""

from __future__ import annotations

import tomllib
from copy import deepcopy
from typing import TYPE_CHECKING, Any

import tomlkit
from tomlkit.exceptions import TOMLKitError

from joinlay.documents.editing import is_as
from joinlay.errors import BadInput
from joinlay.jobs.source import key_lines

if TYPE_CHECKING:
    from collections.abc import Callable, MutableMapping, Sequence

    from joinlay.jobs.source import KeyPath

    Tree = MutableMapping[str, Any]

__all__ = ["with_item_added", "with_item_moved", "with_item_removed", "with_list"]


def with_list(text: str, path: KeyPath, items: Sequence[object]) -> str:
    """The ``text`` with a new list at ``path``, which has none: the ``items``. Raises BadInput where it can't be done: then by
    hand.
    """

    def add(tree: Tree) -> None:
        here: Any = tree
        for name in path[:-1]:
            here = here.setdefault(name, {}) if isinstance(name, str) else here[name]
        here[path[-1]] = list(items)

    return _by_reader(text, path, add)


def with_item_added(text: str, path: KeyPath, at: int) -> str:
    """The ``text`` with an item more in the list at ``path``: one like that of number ``at``, from 0, which it comes behind.
    BadInput as above.
    """

    def add(tree: Tree) -> None:
        items = _at(tree, path)
        items.insert(at + 1, _plain(items[at]))

    lines, spans = text.splitlines(keepends=True), _spans(text, path, at)
    if spans:
        start, stop = spans[at]
        copied = [line for line in lines[start:stop] if not line.lstrip().startswith("#")]
        made = "".join([*lines[:stop], *copied, *lines[stop:]])
        if _is_meant(made, text, add):
            return made
    return _by_reader(text, path, add)


def with_item_removed(text: str, path: KeyPath, at: int) -> str:
    """The ``text`` without the item of number ``at``, from 0, and what is said of it; without the list where it was the last.
    BadInput as above.
    """

    def remove(tree: Tree) -> None:
        items = _at(tree, path)
        del items[at]
        if not items:
            here: Any = _at(tree, path[:-1])
            del here[path[-1]]

    lines, spans = text.splitlines(keepends=True), _spans(text, path, at)
    if len(spans) > 1:  # the last one takes its list with it
        start, stop = spans[at]
        made = "".join(lines[:start] + lines[stop:])
        if _is_meant(made, text, remove):
            return made
    return _by_reader(text, path, remove)


def with_item_moved(text: str, path: KeyPath, at: int, *, is_up: bool) -> str:
    """The ``text`` with the item of number ``at``, from 0, one place up or down, what is said of it with it. BadInput as
    above.
    """
    one, other = (at - 1, at) if is_up else (at, at + 1)

    def move(tree: Tree) -> None:
        items = _at(tree, path)
        items[one], items[other] = _plain(items[other]), _plain(items[one])

    _spans(text, path, one)
    lines, spans = text.splitlines(keepends=True), _spans(text, path, other)
    if spans:
        (a, b), (c, d) = spans[one], spans[other]
        made = "".join([*lines[:a], *lines[c:d], *lines[b:c], *lines[a:b], *lines[d:]])
        if _is_meant(made, text, move):
            return made
    return _by_reader(text, path, move)


def _plain(item: object) -> object:
    """A copy of an item by itself, without its place."""
    unwrap = getattr(item, "unwrap", None)
    return deepcopy(unwrap() if callable(unwrap) else item)


def _at(tree: Tree, path: KeyPath) -> list[Any]:
    here: Any = tree
    for name in path:
        here = here[name]
    found: list[Any] = here
    return found


def _is_meant(made: str, text: str, change: Callable[[Tree], None]) -> bool:
    try:
        wanted = tomllib.loads(text)
        change(wanted)
    except (tomllib.TOMLDecodeError, KeyError, IndexError, TypeError, ValueError, RecursionError):
        return False
    return is_as(made, wanted)


def _by_reader(text: str, path: KeyPath, change: Callable[[Tree], None]) -> str:
    try:
        tree = tomlkit.parse(text)
        change(tree)
        made = tomlkit.dumps(tree)
    except (TOMLKitError, KeyError, IndexError, TypeError, ValueError, RecursionError, AttributeError):
        made = ""
    if not made or not _is_meant(made, text, change):
        raise BadInput(f"the list is so written that this can't be done to it; do it in the text: {'.'.join(map(str, path))}.")
    return made


def _spans(text: str, path: KeyPath, at: int) -> list[tuple[int, int]]:
    """From which line to which, from 0, each item stands with the comments right above it; none where they have no lines of their
    own.

    Raises BadInput for what isn't TOML, where there is no such list, or no item of number ``at``.
    """
    try:
        items = _at(tomllib.loads(text), path)
    except (tomllib.TOMLDecodeError, RecursionError, ValueError):
        raise BadInput("the text is no TOML as it is; put that right first.") from None
    except (KeyError, IndexError, TypeError):
        items = None
    if not isinstance(items, list) or not 0 <= at < len(items):
        raise BadInput("there is no such item in the list.")
    places, lines = key_lines(text), text.splitlines()
    head = places.get(path, 0) - 1
    starts = [places.get((*path, n), 0) - 1 for n in range(len(items))]
    ends = (n for n in range(starts[-1] + 1, len(lines)) if lines[n].lstrip().startswith("]"))
    stop = next(ends, -1)
    if stop < 0 or not all(one < other for one, other in zip([head, *starts], starts, strict=False)):
        return []
    above = [_above(lines, start, head) for start in starts]
    return list(zip(above, [*above[1:], stop], strict=True))


def _above(lines: Sequence[str], start: int, head: int) -> int:
    while start - 1 > head and lines[start - 1].lstrip().startswith("#"):
        start -= 1
    return start
