"""The cutting list as CSV that opens well in a spreadsheet: one row a part, units stated, fractions and decimals apart.

Fractions carry their unit (``5/16 in``), or a spreadsheet would take them for dates. Words a maker wrote are kept from being
taken for formulas.
"""

from __future__ import annotations

import csv
import re
from io import StringIO
from typing import TYPE_CHECKING, Final

from joinlay.cutlist.cutting_list import taper_words
from joinlay.lengths import Unit, decimal_text

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.cutlist.cutting_list import CuttingList, Group, Row, Size
    from joinlay.lengths import Graduation, Length

__all__ = ["cutting_list_csv"]

#: What a spreadsheet may take for the beginning of a formula, full-width signs included.
_FORMULA: Final = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")

#: What a spreadsheet may take for a date: a stock called ``3/4``.
_DATE: Final = re.compile(r"\d{1,4}[/-]\d{1,2}([/-]\d{1,4})?")

#: Decimals enough for a sixty-fourth of an inch, and for a thousandth of a millimetre.
_PLACES: Final = {Unit.INCH: 6, Unit.MM: 3}


def cutting_list_csv(parts: CuttingList, rule: Graduation, mark: str = "") -> bytes:
    """``parts`` as a CSV file (RFC 4180), lines ended by CR LF, in UTF-8 with its mark so that spreadsheets read every letter.

    Each size has a column as read on ``rule`` and one in decimals of its unit; sizes a part doesn't have are left empty.
    The last column is the plan's ``mark``, where it has one (PR-7).
    """
    page = StringIO()
    writer = csv.writer(page, lineterminator="\r\n")
    marked = (mark,) if mark else ()
    writer.writerow([*_heading(rule.unit), *(f"plan mark {each}" for each in marked)])
    for group in parts.groups:
        for row in group.rows:
            writer.writerow([*(_harmless(cell) for cell in _cells(group, row, rule)), *marked])
    return page.getvalue().encode("utf-8-sig")


def _heading(unit: Unit) -> list[str]:
    word = "in" if unit is Unit.INCH else "mm"
    sizes = [
        f"{kind} {size} ({how})"
        for kind in ("finished", "core", "rough")
        for size in ("length", "width")
        for how in ("as read", word)
    ]
    return [
        "number",
        "part",
        "names",
        "quantity",
        "stock",
        "thickness (as read)",
        f"thickness ({word})",
        *sizes,
        "grain",
        "banding",
        "taper",
    ]


def _cells(group: Group, row: Row, rule: Graduation) -> Iterator[str]:
    yield from (str(row.number), row.part, "; ".join(row.names), str(row.quantity), group.name)
    yield from _both(row.finished.thickness, rule)
    for size in (row.finished, row.core, row.rough):
        yield from _sizes(size, rule)
    yield row.grain.value
    yield ", ".join(f"{row.board.datum.word(band.surface)}: {band.stock}" for band in row.bands)
    yield taper_words(row.board, rule.text).removeprefix("tapered: ")


def _sizes(size: Size | None, rule: Graduation) -> Iterator[str]:
    for length in (None, None) if size is None else (size.length, size.width):
        yield from ("", "") if length is None else _both(length, rule)


def _both(length: Length, rule: Graduation) -> tuple[str, str]:
    size = length.inches if rule.unit is Unit.INCH else length.mm
    return rule.text(length), decimal_text(size, _PLACES[rule.unit])


def _harmless(cell: str) -> str:
    """``cell`` so that no spreadsheet runs it or takes it for a date: an apostrophe goes before whatever could be either."""
    is_run = cell.lstrip().startswith(_FORMULA) or cell.startswith(_FORMULA)
    return f"'{cell}" if is_run or _DATE.fullmatch(cell.strip()) else cell
