"""The file of printers that were measured: TOML, short enough to read and mend by hand."""

from __future__ import annotations

import re
import tomllib
from datetime import date
from typing import TYPE_CHECKING, Any, Final

from joinlay.errors import BadInput, quoted
from joinlay.jobs.source import key_lines
from joinlay.lengths import Length, decimal_text, read_length
from joinlay.pages.measured_printer import MeasuredPrinter, Measurement
from joinlay.paper import name_fault, paper_named

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

__all__ = ["printers_text", "read_printers"]

_HEAD: Final = """\
# Printers measured for joinlay: what was drawn on the scale sheet, and what the rule said.
# 'joinlay printer' writes this file; lines of your own with a # in front are not kept.
"""
_MOST_LETTERS: Final = 200_000


def printers_text(printers: Iterable[MeasuredPrinter]) -> str:
    """The file that holds ``printers``, in their order; ``read_printers`` gives them back exactly."""
    return _HEAD + "".join(f"\n{_table(printer)}" for printer in printers)


def _table(printer: MeasuredPrinter) -> str:
    lines = [
        "[[printer]]",
        f"name = {_text(printer.name)}",
        f"paper = {_text(printer.paper.name)}",
        f"measured = {printer.measured}",
        f"across = {_reading(printer.across)}",
        f"down = {_reading(printer.down)}",
    ]
    if printer.rising is not None and printer.falling is not None:
        lines += [f"rising-diagonal = {_reading(printer.rising)}", f"falling-diagonal = {_reading(printer.falling)}"]
    if printer.border is not None:
        lines.append(f"border = {_text(_exact(printer.border))}")
    return "\n".join(lines) + "\n"


def _reading(reading: Measurement) -> str:
    pairs = (("drawn", reading.drawn), ("measured", reading.measured), ("within", reading.within))
    return "{ " + ", ".join(f"{key} = {_text(_exact(length))}" for key, length in pairs) + " }"


def _exact(length: Length) -> str:
    """All of a length, in inches where it is on a rule in inches and in millimetres everywhere else."""
    if (length.mm * 1000).denominator == 1:
        return f"{decimal_text(length.mm, 3)} mm"
    number, unit = (length.inches, "in") if length.inches.denominator <= 1024 else (length.mm, "mm")
    whole, part = divmod(number, 1)
    return f"{f'{whole} ' if whole else ''}{part} {unit}" if part else f"{whole} {unit}"


def _text(text: str) -> str:
    return '"' + re.sub(r'(["\\])', r"\\\1", text) + '"'


def read_printers(text: str, file: str) -> tuple[MeasuredPrinter, ...]:
    """The printers in ``text``, which is that of the file called ``file``.

    Raises BadInput, with file and line, for what is no TOML and for a printer that lacks something or holds what can't be.
    """
    if len(text) > _MOST_LETTERS:
        raise BadInput(f"{file} has {len(text)} characters; no shop has so many printers.")
    try:
        tree = tomllib.loads(text)
        lines = key_lines(text)
    except (tomllib.TOMLDecodeError, RecursionError, ValueError) as bad:
        raise BadInput(f"{file}: this is not TOML: {str(bad)[:200]}. Mend it, or move it away and measure again.") from None
    tables = tree.get("printer", [])
    if not isinstance(tables, list) or set(tree) - {"printer"}:
        raise BadInput(f"{file}: a table for each printer is wanted, each under [[printer]], and nothing else.")
    return tuple(_printer(table, f"{file}:{lines.get(('printer', n), 0)}") for n, table in enumerate(tables))


def _printer(table: object, place: str) -> MeasuredPrinter:
    if not isinstance(table, dict):
        raise BadInput(f"{place}: a table is wanted, under [[printer]].")
    try:
        rising, falling = (_found(table, key) if key in table else None for key in ("rising-diagonal", "falling-diagonal"))
        return MeasuredPrinter(
            name=_name(table),
            paper=paper_named(_word(table, "paper")),
            across=_found(table, "across"),
            down=_found(table, "down"),
            measured=_day(table.get("measured")),
            rising=rising,
            falling=falling,
            border=_length(table, "border") if "border" in table else None,
        )
    except BadInput as bad:
        raise BadInput(f"{place}: {bad}") from None


def _day(given: object) -> str:
    """A day, and no time of day."""
    if type(given) is not date:
        raise BadInput("measured is the day it was measured; write it as measured = 2026-11-20.")
    return given.isoformat()


def _name(table: Mapping[str, Any]) -> str:
    name = _word(table, "name")
    if fault := name_fault(name):
        raise BadInput(f"the printer's name, {quoted(name)}, {fault}.")
    return name


def _word(table: Mapping[str, Any], key: str) -> str:
    value = table.get(key)
    if not isinstance(value, str) or not value.strip():
        raise BadInput(f'{key} is missing, or is no text; write {key} = "...".')
    return value


def _length(table: Mapping[str, Any], key: str) -> Length:
    return read_length(_word(table, key))


def _found(table: Mapping[str, Any], key: str) -> Measurement:
    inner = table.get(key)
    if not isinstance(inner, dict):
        raise BadInput(f'{key} is missing; write {key} = {{ drawn = "200 mm", measured = "199.2 mm", within = "0.1 mm" }}.')
    drawn, measured, within = (_length(inner, part) for part in ("drawn", "measured", "within"))
    return Measurement.checked(key, drawn, measured, within)
