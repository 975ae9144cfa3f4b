"""``joinlay keys``: every key of a job, with what it means, what is usual in inches and millimetres, and its rule."""

from __future__ import annotations

import re
import textwrap
from typing import TYPE_CHECKING, Any, Final

from joinlay.cli.terminal import say, terminal_width
from joinlay.errors import BadInput, nearest_names, quoted
from joinlay.jobs.schema import job_schema
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

__all__ = ["JobTable", "keys_of_job", "say_keys"]

#: The name of the top of a job, which has keys of its own beside its tables.
_TOP: Final = "job"


def say_keys(table: str) -> None:
    """Print the keys of the table called ``table`` (``drawers``, ``shop.router-table``); of the whole job where it is empty.

    Raises BadInput, with near names, where a job has no such table.
    """
    tables = keys_of_job()
    asked = table.strip().strip("[]").strip()
    if asked and asked not in tables:
        near = ", ".join(nearest_names(asked, tuple(tables))) or ", ".join(tables)
        raise BadInput(f"a job has no table {quoted(asked)}; write one of these: {near}.")
    shown = {asked: tables[asked]} if asked else tables
    say("\n\n".join([*(_page(table) for table in shown.values()), HOW_LENGTHS_ARE_WRITTEN]))


@dataclass(frozen=True, slots=True)
class JobTable:
    """A table of a job: ``head`` as it is written above its keys (``[[drawer]]``, ``[stock.NAME]``), and what each of its
    ``keys`` means.
    """

    head: str
    keys: Mapping[str, str]


def keys_of_job() -> dict[str, JobTable]:
    """Every table by its name (``job`` for the top), in the order of the schema that checks a job."""
    schema = job_schema()
    found: dict[str, JobTable] = {}
    _walk(_TOP, "at the top of a job", schema, schema["$defs"], found)
    return found


def _walk(name: str, head: str, table: dict[str, Any], tables: dict[str, Any], found: dict[str, JobTable]) -> None:
    own = table.get("anyOf", [table])[0].get("properties", {})
    found[name] = JobTable(head, {key: _told(value) for key, value in own.items()})
    for key, value in own.items():
        below = key if name == _TOP else f"{name}.{key}"
        for inner, form in _inside(value, "[{}]"):
            if below not in found:
                _walk(below, form.format(below), tables[inner], tables, found)


def _inside(value: dict[str, Any], form: str) -> Iterator[tuple[str, str]]:
    """The tables that may stand at a key, and how they are headed."""
    if "$ref" in value:
        yield value["$ref"].rpartition("/")[2], form
    for part, shape in (
        *((one, form) for one in value.get("anyOf", ())),
        (value.get("items"), "[[{}]]"),
        (value.get("additionalProperties"), "[{}.NAME]"),
    ):
        if isinstance(part, dict):
            yield from _inside(part, shape)


#: What the schema says of every length, which is said once here.
_LENGTH: Final = re.compile(r" ?A length (above 0|of at least 0|of either sign), such as [^.]*\.")


def _told(value: dict[str, Any]) -> str:
    one_of = f"One of {', '.join(str(one) for one in value['enum'])}." if "enum" in value else ""
    return " ".join(filter(None, (_LENGTH.sub("", value.get("description", "")), one_of)))


#: A longer line is hard to read.
_EASY_TO_READ: Final = 110


def _page(table: JobTable) -> str:
    room = min(terminal_width() or _EASY_TO_READ, _EASY_TO_READ)
    # Where the keys take half of a narrow terminal, what they mean stands under them.
    wide = min(max(map(len, table.keys), default=0) + 5, room // 2)
    lines = [
        textwrap.fill(said, room, initial_indent=f"  {key.ljust(wide - 2)}", subsequent_indent=" " * wide, break_on_hyphens=False)
        for key, said in table.keys.items()
    ]
    return "\n".join([table.head, *lines])


# -- what it says -----------------------------------------------------------------------------------

HOW_LENGTHS_ARE_WRITTEN: Final = 'A length is written "18 3/8", "465 mm" or as a bare number in the units of the job.'
