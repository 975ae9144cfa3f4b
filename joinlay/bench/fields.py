"""The job as fields, grouped as the file is: what each key means, what is written there, and what holds where nothing is.

What a key means comes from the schema of a job, as ``joinlay keys`` has it; what is written, out of the text in hand. A field is
known by its way through the file (``["case", "width"]``), which comes back with every change and is looked up in what the text
holds or may hold, and nowhere else.
"""

from __future__ import annotations

import json
import re
import tomllib
from functools import cache
from hashlib import blake2s
from typing import TYPE_CHECKING, Any, Final

from joinlay.errors import BadInput
from joinlay.jobs.source import Decimals, key_lines, line_of
from joinlay.lengths import Unit
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from joinlay.errors import Trouble
    from joinlay.jobs.source import KeyPath

__all__ = ["LENGTH", "Field", "Group", "form_of", "groups_in", "properties_of", "told_at", "told_of_a_job"]

#: What the schema says of every length, which the page says once.
LENGTH: Final = re.compile(r" ?A length (above 0|of at least 0|of either sign), such as [^.]*\.")
#: What it says of every key that names a stock.
_OF_STOCK: Final = "The name of a stock of the job."
#: Of so few keys at most a table within another has a field each, written or not.
_FEW: Final = 6
_UNTOLD: Final = re.compile(r"(?:^|; )([^;]*?) unless told")


@dataclass(frozen=True, slots=True)
class Field:
    """A key of a job: its ``way`` through the file as JSON, its ``key``, and what it ``means``.

    ``written`` is what stands there, None for nothing; ``usual`` is what holds then, '' where that isn't told. ``choices`` are
    the words it takes, none where it takes any. ``is_length`` where arrow keys may nudge it; ``is_plain`` False for a list, whose
    ``items`` have fields of their own, ``can_grow`` where there may be more of them or fewer. ``line`` is where it stands, 0
    where it doesn't; ``faults`` are what is wrong there.
    """

    way: str
    key: str
    means: str
    written: str | None
    usual: str
    choices: tuple[str, ...] = ()
    is_length: bool = False
    is_plain: bool = True
    line: int = 0
    faults: tuple[str, ...] = ()
    items: tuple[tuple[Field, ...], ...] = ()
    can_grow: bool = False

    @property
    def name(self) -> str:
        """A word that stands for it on the page."""
        return f"f{blake2s(self.way.encode(), digest_size=6).hexdigest()}"

    @property
    def all(self) -> tuple[Field, ...]:
        """It, and the fields of what is in it."""
        return (self, *(inner for item in self.items for one in item for inner in one.all))


@dataclass(frozen=True, slots=True)
class Group:
    """A table of the job as it is headed in the file, what it is, its ``fields`` that are written, and those that may be,
    ``more``.

    ``row`` is its key and number where it is a row among several, which can be moved, taken out and added to.
    """

    head: str
    means: str
    fields: tuple[Field, ...]
    more: tuple[Field, ...]
    row: tuple[str, int] | None = None
    line: int = 0


# -- what there is ---------------------------------------------------------------------------------


@cache
def told_of_a_job() -> dict[str, Any]:
    """What is told of every key of a job, as its JSON Schema has it."""
    # Fetched when fields are first asked for: the page that is shown first has none.
    from joinlay.jobs.schema import job_schema

    return job_schema()


def form_of(told: Mapping[str, Any]) -> dict[str, Any]:
    """What a value is to be, its reference followed, the table chosen where a word may stand for it."""
    if "$ref" in told:
        return {
            **told_of_a_job()["$defs"][told["$ref"].rpartition("/")[2]],
            **({"description": told["description"]} if "description" in told else {}),
        }
    for one in told.get("anyOf", ()):
        if "$ref" in one or "properties" in one or "items" in one:
            return {**form_of(one), **({"description": told["description"]} if "description" in told else {})}
    return dict(told)


def properties_of(table: Mapping[str, Any]) -> dict[str, Any]:
    """What is told of each key of a table; nothing of what is none."""
    inner: dict[str, Any] = table.get("anyOf", [table])[0].get("properties", {})
    return inner


def told_at(path: KeyPath) -> dict[str, Any]:
    """What the schema has at a way through a job. BadInput for a way that a job doesn't have."""
    here: dict[str, Any] = form_of(told_of_a_job())
    for name in path:
        if isinstance(name, int):
            here = form_of(here.get("items", {}))
        elif name in properties_of(here):
            here = form_of(properties_of(here)[name])
        elif isinstance(here.get("additionalProperties"), dict):
            here = form_of(here["additionalProperties"])
        else:
            raise BadInput("a job has no such key.")
    return here


def groups_in(text: str, troubles: Sequence[Trouble], file: str, unit: Unit) -> tuple[Group, ...]:
    """The job's ``text`` as groups of fields, in its own order. Raises BadInput where it isn't TOML: then the text itself is to
    be put right.

    ``troubles`` are what is wrong with it, those of ``file`` told beside their fields; ``unit`` is that of the usual figures.
    """
    try:
        tree, lines = tomllib.loads(text, parse_float=Decimals), key_lines(text)
    except (ValueError, RecursionError):
        raise BadInput("the text is no TOML as it is, so it can't be shown as fields; put it right in the text first.") from None
    faults: dict[int, list[str]] = {}
    for one in troubles:
        if one.file == file and one.line:
            faults.setdefault(one.line, []).append(one.message)
    known = tree.get("stock")
    stocks = tuple(known) if isinstance(known, dict) else ()
    reading = _Reading(lines=lines, faults=faults, unit=unit, stocks=stocks)
    top = {key: value for key, value in tree.items() if not _is_table(value)}
    found = [reading.group((), "The job", top, None)]
    for key, value in tree.items():
        if _is_table(value):
            found += reading.groups((key,), value)
    return (found[0], *sorted(found[1:], key=lambda group: group.line))


def _is_table(value: object) -> bool:
    return isinstance(value, dict) or (isinstance(value, list) and bool(value) and all(isinstance(one, dict) for one in value))


@dataclass(frozen=True, slots=True)
class _Reading:
    lines: Mapping[KeyPath, int]
    faults: Mapping[int, Sequence[str]]
    unit: Unit
    stocks: tuple[str, ...] = ()

    def groups(self, path: KeyPath, value: dict[str, Any] | list[dict[str, Any]]) -> Iterator[Group]:
        """The groups of a table, of each row of one that stands in rows, and of each by a name of its own."""
        told = _told_or_none(path)
        if isinstance(value, list):
            for n, row in enumerate(value):
                yield self.group((*path, n), f"{path[-1]} {n + 1}", row, (str(path[-1]), n) if len(path) == 1 else None)
        elif isinstance((told or {}).get("additionalProperties"), dict) and not properties_of(told or {}):
            for name, inner in value.items():
                if isinstance(inner, dict):
                    yield self.group((*path, name), f"{path[-1]}: {name}", inner, None)
        else:
            yield self.group(path, " ".join(map(str, path)), value, None)

    def group(self, path: KeyPath, head: str, value: Mapping[str, Any], row: tuple[str, int] | None) -> Group:
        told = _told_or_none(path) or {}
        may = {key: inner for key, inner in properties_of(told).items() if path or _is_bare(inner)}
        fields = [one for key, inner in value.items() for one in self._fields((*path, key), inner, "")]
        more = [
            self._field((*path, key), None, key)
            for key, inner in may.items()
            if key not in value and (_is_bare(inner) or "items" in form_of(inner))
        ]
        return Group(
            head, told.get("description", "") if path else "", tuple(fields), tuple(more), row, line_of(path, self.lines)
        )

    def _fields(self, path: KeyPath, value: object, before: str) -> Iterator[Field]:
        """The field of a value; of a table within a row or table, those of what is in it."""
        key = f"{before}{path[-1]}"
        if isinstance(value, dict):
            yield from self._inner(path, value, f"{key}, ")
        else:
            yield self._field(path, value, key)

    def _inner(self, path: KeyPath, table: Mapping[str, Any], before: str) -> Iterator[Field]:
        """The fields of what is in a table, and of what may be, where that is little."""
        for name, inner in table.items():
            yield from self._fields((*path, name), inner, before)
        may = properties_of(_told_or_none(path) or {})
        for name, inner in may.items():
            if name not in table and _is_bare(inner) and len(may) <= _FEW:
                yield self._field((*path, name), None, f"{before}{name}")

    def _item(self, path: KeyPath, item: object) -> Iterator[Field]:
        """The fields of an item of a list: of what is in it, or one that is called by its number."""
        if isinstance(item, dict):
            yield from self._inner(path, item, "")
        else:
            yield self._field(path, item, str(int(path[-1]) + 1))

    def _field(self, path: KeyPath, value: object, key: str) -> Field:
        told = _told_or_none(path) or {}
        said = told.get("description", "")
        line = self.lines.get(path, 0)
        choices = tuple(map(str, told.get("enum", ()))) or (("true", "false") if told.get("type") == "boolean" else ())
        if _OF_STOCK in said:
            choices = self.stocks
        meaning = LENGTH.sub("", said).replace(_OF_STOCK, "").strip()
        is_list = isinstance(value, list) or (value is None and not _is_bare(told))
        items = tuple(tuple(self._item((*path, n), item)) for n, item in enumerate(value)) if isinstance(value, list) else ()
        return Field(
            way=json.dumps(path),
            key=key,
            means=meaning,
            written=None if value is None else _spelled(value),
            usual=_usual(meaning, self.unit),
            choices=choices,
            is_length=bool(LENGTH.search(said)),
            is_plain=not is_list,
            line=line,
            # Of what stands on one line with its list, the list tells.
            faults=tuple(self.faults.get(line, ())) if line and not self._is_beside(path, line) else (),
            items=items,
            can_grow=is_list and told.get("minItems") != (told.get("maxItems") or -1),
        )

    def _is_beside(self, path: KeyPath, line: int) -> bool:
        """Whether what is at ``path`` stands on one line with the list it is in."""
        return any(isinstance(path[n], int) and self.lines.get(path[:n]) == line for n in range(1, len(path)))


def _told_or_none(path: KeyPath) -> dict[str, Any] | None:
    try:
        return told_at(path)
    except BadInput:
        return None


def _is_bare(told: Mapping[str, Any]) -> bool:
    """Whether a value of this kind is one word or number, that a field can hold."""
    form = form_of(told)
    kinds = form.get("type", "string" if "enum" in form else "")
    kinds = kinds if isinstance(kinds, list) else [kinds]
    return any(kind in ("string", "number", "integer", "boolean") for kind in kinds)


def _usual(meaning: str, unit: Unit) -> str:
    """What holds where nothing is written, in the words of the key's meaning: of two figures that in ``unit``."""
    found = _UNTOLD.search(meaning)
    if not found:
        return ""
    one, both, other = found[1].strip().partition(" or ")
    return (
        other if both and unit is Unit.MM and other.endswith("mm") else one if both and other.endswith("mm") else found[1].strip()
    )


def _spelled(value: object) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    return json.dumps(value, ensure_ascii=False, default=str) if isinstance(value, (list, dict)) else str(value)
