"""The job as fields, grouped as the file is: what each key means, what is written there, and what holds where nothing is.

What a key means comes from the schema of a job, as ``joinlay keys`` has it; what is written, out of the text in hand. A field is known by its way
through the file (``["case", "width"]``), which comes back with every change and is looked up in what the text holds or may hold, and nowhere else.
"""

from __future__ import annotations

import json
import re
import tomllib
from functools import cache
from hashlib import blake2s
from typing import TYPE_CHECKING, Any, Final

from starlette.responses import HTMLResponse, Response
from starlette.routing import Route

from joinlay.documents.editing import with_row_added, with_row_moved, with_row_removed, with_values
from joinlay.errors import BadInput
from joinlay.jobs.schema import job_schema
from joinlay.jobs.source import Decimals, key_lines, line_of
from joinlay.lengths import Length, Unit, read_length
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping, Sequence

    from starlette.requests import Request

    from joinlay.bench.application import Desk, Form
    from joinlay.errors import Trouble
    from joinlay.jobs.source import KeyPath
    from joinlay.lengths import Graduation

__all__ = ["Field", "Group", "field_changes", "field_routes", "groups_in"]

#: What the schema says of every length, which the page says once.
_LENGTH: Final = re.compile(r" ?A length (above 0|of at least 0|of either sign), such as [^.]*\.")
_UNTOLD: Final = re.compile(r"(?:^|; )([^;]*?) unless told")


@dataclass(frozen=True, slots=True)
class Field:
    """A key of a job: its ``way`` through the file as JSON, its ``key``, and what it ``means``.

    ``written`` is what stands there, None for nothing; ``usual`` is what holds then, '' where that isn't told. ``choices`` are the words it
    takes, none where it takes any. ``is_length`` where arrow keys may nudge it; ``is_plain`` False for a list or table, which is changed in the text.
    ``line`` is where it stands, 0 where it doesn't; ``faults`` are what is wrong there.
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

    @property
    def name(self) -> str:
        """A word that stands for it on the page."""
        return f"f{blake2s(self.way.encode(), digest_size=6).hexdigest()}"


@dataclass(frozen=True, slots=True)
class Group:
    """A table of the job as it is headed in the file, what it is, its ``fields`` that are written, and those that may be, ``more``.

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
def _schema() -> dict[str, Any]:
    return job_schema()


def _form(told: Mapping[str, Any]) -> dict[str, Any]:
    """What a value is to be, its reference followed, the table chosen where a word may stand for it."""
    if "$ref" in told:
        return {
            **_schema()["$defs"][told["$ref"].rpartition("/")[2]],
            **({"description": told["description"]} if "description" in told else {}),
        }
    for one in told.get("anyOf", ()):
        if "$ref" in one or "properties" in one:
            return {**_form(one), **({"description": told["description"]} if "description" in told else {})}
    return dict(told)


def _properties(table: Mapping[str, Any]) -> dict[str, Any]:
    inner: dict[str, Any] = table.get("anyOf", [table])[0].get("properties", {})
    return inner


def _told_at(path: KeyPath) -> dict[str, Any]:
    """What the schema has at a way through a job. BadInput for a way that a job doesn't have."""
    here: dict[str, Any] = _form(_schema())
    for name in path:
        if isinstance(name, int):
            here = _form(here.get("items", {}))
        elif name in _properties(here):
            here = _form(_properties(here)[name])
        elif isinstance(here.get("additionalProperties"), dict):
            here = _form(here["additionalProperties"])
        else:
            raise BadInput("a job has no such key.")
    return here


def groups_in(text: str, troubles: Sequence[Trouble], file: str, unit: Unit) -> tuple[Group, ...]:
    """The job's ``text`` as groups of fields, in its own order. Raises BadInput where it isn't TOML: then the text itself is to be put right.

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
    reading = _Reading(lines=lines, faults=faults, unit=unit)
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

    def groups(self, path: KeyPath, value: dict[str, Any] | list[dict[str, Any]]) -> Iterator[Group]:
        """The groups of a table, of each row of one that stands in rows, and of each by a name of its own."""
        told = _told_or_none(path)
        if isinstance(value, list):
            for n, row in enumerate(value):
                yield self.group((*path, n), f"{path[-1]} {n + 1}", row, (str(path[-1]), n) if len(path) == 1 else None)
        elif isinstance((told or {}).get("additionalProperties"), dict) and not _properties(told or {}):
            for name, inner in value.items():
                if isinstance(inner, dict):
                    yield self.group((*path, name), f"{path[-1]}: {name}", inner, None)
        else:
            yield self.group(path, " ".join(map(str, path)), value, None)

    def group(self, path: KeyPath, head: str, value: Mapping[str, Any], row: tuple[str, int] | None) -> Group:
        told = _told_or_none(path) or {}
        may = {key: inner for key, inner in _properties(told).items() if path or _is_bare(inner)}
        fields = [one for key, inner in value.items() for one in self._fields((*path, key), inner, "")]
        more = [self._field((*path, key), None, key) for key, inner in may.items() if key not in value and _is_bare(inner)]
        return Group(
            head, told.get("description", "") if path else "", tuple(fields), tuple(more), row, line_of(path, self.lines)
        )

    def _fields(self, path: KeyPath, value: object, before: str) -> Iterator[Field]:
        """The field of a value; of a table within a row or table, those of what is in it."""
        key = f"{before}{path[-1]}"
        if isinstance(value, dict):
            told = _told_or_none(path) or {}
            for name, inner in value.items():
                yield from self._fields((*path, name), inner, f"{key}, ")
            for name, inner in _properties(told).items():
                if name not in value and _is_bare(inner) and len(_properties(told)) < 5:
                    yield self._field((*path, name), None, f"{key}, {name}")
        else:
            yield self._field(path, value, key)

    def _field(self, path: KeyPath, value: object, key: str) -> Field:
        told = _told_or_none(path) or {}
        said = told.get("description", "")
        line = self.lines.get(path, 0)
        choices = tuple(map(str, told.get("enum", ()))) or (("true", "false") if told.get("type") == "boolean" else ())
        meaning = _LENGTH.sub("", said).strip()
        return Field(
            way=json.dumps(path),
            key=key,
            means=meaning,
            written=None if value is None else _spelled(value),
            usual=_usual(meaning, self.unit),
            choices=choices,
            is_length=bool(_LENGTH.search(said)),
            is_plain=not isinstance(value, (list, dict)),
            line=line,
            faults=tuple(self.faults.get(line, ())) if line else (),
        )


def _told_or_none(path: KeyPath) -> dict[str, Any] | None:
    try:
        return _told_at(path)
    except BadInput:
        return None


def _is_bare(told: Mapping[str, Any]) -> bool:
    """Whether a value of this kind is one word or number, that a field can hold."""
    form = _form(told)
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


# -- the page ----------------------------------------------------------------------------------------


def field_routes(answered: Callable[[Callable[[Desk, Request], Response]], Any]) -> list[Route]:
    """Where the pane of fields, and that of the text, are to be had."""
    return [Route("/pane/{mode}", answered(_pane))]


def field_changes(changed: Callable[[Callable[[Desk, Form], Mapping[str, Any] | None]], Any]) -> list[Route]:
    """What changes fields: one set, one nudged by a division of the rule, and rows."""
    made = {"/field": _set, "/nudge": _nudge, "/row": _row}
    return [Route(address, changed(change), methods=["POST"]) for address, change in made.items()]


def _pane(desk: Desk, request: Request) -> Response:
    mode = "fields" if request.path_params["mode"] == "fields" else "text"
    return HTMLResponse(desk.html("pane.html", **desk.page("", mode)))


def _way(form: Form) -> KeyPath:
    """The way of the field that a change is for. BadInput for one that a job doesn't have."""
    try:
        way = json.loads(form.text("way")[:1000])
    except (ValueError, RecursionError):
        raise BadInput("a job has no such key.") from None
    if not isinstance(way, list) or not way or not all(isinstance(one, str) or (type(one) is int and one >= 0) for one in way):
        raise BadInput("a job has no such key.")
    _told_at(tuple(way))
    return tuple(way)


def _set(desk: Desk, form: Form) -> Mapping[str, Any]:
    way, given = _way(form), form.text("value")
    text = _with(desk.draft.text, way, given)
    desk.draft.write(text, form.text("window"))
    return {"is_field": True}


def _with(text: str, way: KeyPath, given: str) -> str:
    """The ``text`` with what is ``given`` at ``way``; taken out where that is nothing."""
    if not given.strip():
        return with_values(text, [(way, None)])
    told, now = _told_at(way), _now(text, way)
    kinds = told.get("type", "string")
    is_whole = re.fullmatch(r"-?\d{1,12}", given.strip()) is not None
    if kinds == "boolean" or (isinstance(now, bool) and given in ("true", "false")):
        return with_values(text, [(way, given == "true" if given in ("true", "false") else given)])
    if is_whole and (kinds == "integer" or ("string" not in kinds) or (isinstance(now, int) and not isinstance(now, bool))):
        return with_values(text, [(way, int(given))])
    return with_values(text, [(way, given)])


def _now(text: str, way: KeyPath) -> object:
    try:
        here: Any = tomllib.loads(text, parse_float=Decimals)
        for name in way:
            here = here[name]
    except (KeyError, IndexError, TypeError, ValueError, RecursionError):
        return None
    return here


def _nudge(desk: Desk, form: Form) -> Mapping[str, Any]:
    """One division of the maker's rule more, or less."""
    way, seen = _way(form), desk.showing.seen()
    now = _now(desk.draft.text, way)
    if seen.plan is None:
        raise BadInput("there is no rule to go by until the job can be read.")
    # What is written there goes before what the page has, so that of keys pressed fast none is lost.
    written = nudged(
        form.text("value") if now is None else str(now), seen.plan.rule, seen.plan.unit, is_up=form.text("by") != "less"
    )
    desk.draft.write(_with(desk.draft.text, way, written), form.text("window"))
    return {"is_field": True, "headers": {"HX-Trigger": json.dumps({"nudged": {"way": form.text("way"), "value": written}})}}


def nudged(written: str, rule: Graduation, unit: Unit, *, is_up: bool) -> str:
    """A length as it is ``written``, at the next mark of ``rule`` up or down; bare where it was bare and the rule is in ``unit``.

    Raises BadInput for what is no length.
    """
    size = read_length(written, unit)
    mark = Length(rule.down(size).mm + rule.division.mm) if is_up else Length(rule.up(size).mm - rule.division.mm)
    shown = rule.read(mark)
    figures = f"{'-' if mark.mm < 0 and not shown.figures.startswith('-') else ''}{shown.figures}"
    is_bare = not re.search(r"[a-z\"'″′]", written)
    return figures if is_bare and rule.unit is unit else f"{figures} {shown.unit}"


def _row(desk: Desk, form: Form) -> None:
    """A row of a table that stands in rows added, taken out or moved."""
    key, at, what = form.text("key"), form.number("at"), form.text("what")
    if key == "stock" and what == "add":
        name = form.text("name").strip()
        if not name or ("stock", name) in key_lines(desk.draft.text):
            raise BadInput("write a name for the new stock that no other has.")
        desk.draft.put(with_values(desk.draft.text, [(("stock", name, "nominal"), "18 mm")]))
        return
    told = _properties(_form(_schema())).get(key, {})
    if "items" not in told:
        raise BadInput("a job has no such rows.")
    text = desk.draft.text
    made = {
        "add": lambda: with_row_added(text, key, at),
        "remove": lambda: with_row_removed(text, key, at),
        "up": lambda: with_row_moved(text, key, at, is_up=True),
        "down": lambda: with_row_moved(text, key, at, is_up=False),
    }
    if what not in made:
        raise BadInput("a row is added, removed, or moved up or down.")
    desk.draft.put(made[what]())
