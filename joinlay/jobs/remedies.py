"""Where in a job a remedy is written: what a check asks for by the trade's names becomes the tables, rows and keys of the file.

A check knows boards and no job. It asks for a figure of the practice, or for another stock or way of making the drawers that it
is about. Here that finds its place: the row that says it already; else the row of those drawers, where others have rows of their
own; else what every drawer has. A length that is to be larger is added to what the job has now, and a stock asked for by its
thickness is sought among the job's.
"""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.boards import PartKind
from joinlay.boards.names import in_few_words
from joinlay.findings import Change, Finding, Remedy, SomeStock
from joinlay.jobs.tables.drawers import RULES_BY_KEY
from joinlay.jobs.tables.shop import key_of
from joinlay.lengths import Length, decimal_text

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from joinlay.casework.opening import DrawerMake, Opening
    from joinlay.jobs.job import Job
    from joinlay.stock import Stock

__all__ = ["settled", "value_text"]

#: The key of a drawer that sets each figure of the practice that a drawer may have of its own.
_KEYS: Final = {rule: key for key, rule in RULES_BY_KEY.items()}
#: What a drawer's make calls the stock that a key names otherwise.
_MAKES: Final = {"bottom-bar": "bar"}
_DRAWERS: Final = "drawers"
_PRACTICE: Final = "practice"
_OPENING: Final = "opening"
_FRAME: Final = "frame"
_BANK: Final = "bank"


def settled(findings: Iterable[Finding], job: Job, owners: Mapping[str, str]) -> tuple[Finding, ...]:
    """``findings`` with the changes of their remedies as they are written in the file of ``job``.

    ``owners`` says by the name of a part, or of a place, which drawer it is of. A remedy that finds no place in this job is left
    out. What is usual where the job gives no size: FF-1, BA-1.
    """
    return tuple(_settled(finding, job, owners) for finding in findings)


def _settled(finding: Finding, job: Job, owners: Mapping[str, str]) -> Finding:
    if not finding.remedies:
        return finding
    drawers = tuple(dict.fromkeys(owners[part] for part in (finding.where, *finding.about) if part in owners))
    placed = []
    for remedy in finding.remedies:
        changes = [tuple(_placed(change, job, drawers)) for change in remedy.changes]
        if all(changes):
            flat = tuple(dict.fromkeys(one for some in changes for one in some))
            placed.append(Remedy(_told(remedy.text, flat), flat))
    return replace(finding, remedies=tuple(placed))


def _told(text: str, changes: tuple[Change, ...]) -> str:
    """The words with what is to be written, unless they name every key themselves."""
    if text and all(f"{one.key} = " in text for one in changes):
        return text
    written = _escaped(_written(changes))
    return f"{text} ({written})" if text else f"set {written}"


def _placed(change: Change, job: Job, drawers: tuple[str, ...]) -> Iterator[Change]:
    """The one change, or one in each row that has it of its own; none where it has no place in this job."""
    if change.table == _OPENING:
        yield from _wider_openings(change, job, drawers)
        return
    value = _value(change, job, drawers)
    if value is None:
        return
    if change.table == _BANK:
        rows = _bank_rows(change.key, job)
        yield from (Change(_BANK, change.key, value, row) for row in rows if len(rows) == 1)
        return
    if change.table == _FRAME and (own := _bank_rows(change.key, job)):
        yield from (Change(_BANK, change.key, value, row) for row in own)
        return
    if change.table == _PRACTICE and change.key not in _KEYS:
        yield Change(_PRACTICE, key_of(change.key), value)
        return
    if change.table not in (_DRAWERS, _PRACTICE):
        if _has_place(change, job):
            yield replace(change, value=value)
        return
    key = _KEYS[change.key] if change.table == _PRACTICE else change.key
    yield from (Change(table, key, value, index) for table, index in _rows(key, job, drawers))


def _value(change: Change, job: Job, drawers: tuple[str, ...]) -> str | int | None:
    """What is to be written; None where nothing in this job would do."""
    if isinstance(change.value, SomeStock):
        return _stock(change.table, change.key, change.value, job, drawers)
    if not isinstance(change.value, Length):
        return change.value
    if not change.is_more:
        return value_text(_rounded(change.value, change.toward, job), job)
    now = _now(change.table, change.key, job)
    return None if now is None else _sum_text(now, change, job)


def _sum_text(now: Length, change: Change, job: Job) -> str | None:
    assert isinstance(change.value, Length)
    then = _rounded(Length(now.mm + change.value.mm), change.toward, job)
    return value_text(then, job) if then.mm > 0 else None


def _rounded(length: Length, toward: int, job: Job) -> Length:
    if not toward or not job.rule.read(length).left_over:
        return length
    on_rule = job.rule.up(length) if toward > 0 else job.rule.down(length)
    return on_rule if on_rule.mm else length


def _now(table: str, key: str, job: Job) -> Length | None:
    """A size of the piece as it is now, given or usual."""
    spec = job.piece
    if spec is None:
        return None
    usual, frame = job.shop.practice.length, spec.frame
    sizes: dict[tuple[str, str], Length | None] = {
        ("case", "width"): spec.width,
        ("case", "height"): spec.height,
        ("case", "depth"): spec.depth,
        ("case", "bottom-offset"): spec.case.bottom_offset,
        ("case", "top-offset"): spec.case.top_offset,
        ("frame", "stile"): frame.stile or usual("stile width"),
        ("frame", "mullion"): frame.mullion or usual("mullion width"),
        ("frame", "top-rail"): frame.top_rail or usual("top rail height"),
        ("frame", "bottom-rail"): frame.bottom_rail or usual("bottom rail height"),
        ("base", "set-back"): None if spec.base is None else spec.base.set_back or usual("plinth set-back"),
    }
    return sizes.get((table, key))


def _wider_openings(change: Change, job: Job, drawers: tuple[str, ...]) -> Iterator[Change]:
    """An opening is made larger where it is written; in a piece, whatever is round it, as many times as there are openings
    that way.
    """
    assert isinstance(change.value, Length)
    spec = job.piece
    if spec is None:
        openings: dict[tuple[str, int], Opening] = {
            job.written.rows[one.name]: one.opening for one in job.drawers if one.name in drawers
        }
        for (table, row), opening in openings.items():
            text = _sum_text(getattr(opening, change.key), change, job)
            own = (table, row, "opening") in job.written.keys
            if text is not None:
                yield Change(table if own else _DRAWERS, f"opening.{change.key}", text, row if own else None)
        return
    times = {
        "width": len(spec.banks) * max(bank.most_side_by_side for bank in spec.banks),
        "height": max(len(bank.by_row) for bank in spec.banks),
    }
    by = Length(change.value.mm * max(1, times.get(change.key, 1)))
    yield from _placed(replace(change, table="case", value=by), job, drawers)


def _bank_rows(key: str, job: Job) -> tuple[int, ...]:
    """The banks that say a size of the frame for themselves."""
    return tuple(sorted(row for table, row, name in job.written.keys if table == _BANK and name == key and row is not None))


def _stock(table: str, key: str, wanted: SomeStock, job: Job, drawers: tuple[str, ...]) -> str | None:
    """The name of a stock of the job that is as thick as ``wanted`` and of the sort used there now; the nearest in thickness."""
    used = _used(table, key, job, drawers)
    if used is None:
        return None
    fitting = [
        name
        for name, stock in job.stocks.items()
        if stock.is_solid is used.is_solid
        and (wanted.thinnest is None or stock.thickness >= wanted.thinnest)
        and (wanted.thickest is None or stock.thickness <= wanted.thickest)
        and stock.name != used.name
    ]
    return min(fitting, key=lambda name: abs(job.stocks[name].thickness.mm - used.thickness.mm), default=None)


def _used(table: str, key: str, job: Job, drawers: tuple[str, ...]) -> Stock | None:
    """The stock that is there now."""
    spec = job.piece
    if table == _DRAWERS:
        makes: list[DrawerMake] = [one.make for one in job.drawers if not drawers or one.name in drawers]
        makes += [wish.make for bank in (spec.banks if spec else ()) for wish in bank.drawers]
        return getattr(makes[0], _MAKES.get(key, key)) if makes else None
    runners, stops = (
        (spec.runners, spec.stops) if spec else (job.existing.runners, job.existing.stops) if job.existing else (None, None)
    )
    stocks: dict[tuple[str, str], Stock | None] = {
        ("case", "panels"): spec.case.panels if spec else None,
        (_FRAME, "stock"): spec.frame.stock if spec else None,
        ("runners", "stock"): runners.stock if runners else None,
        ("runners", "guides"): runners.of(PartKind.GUIDE) if runners else None,
        ("stops", "stock"): stops.stock if stops else None,
    }
    return stocks.get((table, key))


def _has_place(change: Change, job: Job) -> bool:
    """False for what a shop file says: its list of clamps, and anything at all where the job only names the file."""
    table, _, key = change.table.partition(".")
    if table != "shop":
        return True
    keys = {key for of, _, key in job.written.keys if of == table}
    return keys != {"file"} and (change.index is None or key in keys)


def _rows(key: str, job: Job, drawers: tuple[str, ...]) -> Iterable[tuple[str, int | None]]:
    """The tables in which ``key`` is to be set for those ``drawers``."""
    # What is refused of the whole piece is mended for all of its drawers.
    if not drawers:
        return ((_DRAWERS, None),)
    rows = tuple(dict.fromkeys(job.written.rows[name] for name in drawers if name in job.written.rows))
    own = tuple(row for row in rows if (*row, key) in job.written.keys)
    if own and len(own) == len(rows):
        return own
    if own or set(rows) != set(job.written.rows.values()):
        return rows
    return ((_DRAWERS, None),)


def value_text(length: Length, job: Job) -> str:
    """``length`` as it is written in the job: on its rule, ``3/32``; with its unit where that isn't the job's; else exactly."""
    read = job.rule.read(length)
    if not read.left_over:
        return read.figures if job.rule.unit is job.unit else f"{read.figures} {read.unit}"
    return f"{decimal_text(length.mm, 6)} mm"


def _written(changes: tuple[Change, ...]) -> str:
    """``top-clearance = "3/32" under [drawers]``, and the rest after it; what is alike of several drawers or banks once:
    ``bottom = "birch-9" under [[drawer]] 2 to 5``.
    """
    under: dict[tuple[str, str, str], list[str]] = {}
    for one in changes:
        # Only where they are numbered: a number in a name is a part of it.
        alike = one.table if one.index is not None else _table(one)
        under.setdefault((one.key, _quoted(one.value), alike), []).append(_table(one))
    return " and ".join(
        f"{key} = {value} under {in_few_words(tables) if len(tables) > 1 else tables[0]}"
        for (key, value, _), tables in under.items()
    )


def _quoted(value: object) -> str:
    """A value as a job has it; a text with signs that would end it stands between the other quotes, or has them spelled."""
    if not isinstance(value, str):
        return str(value)
    if not {'"', "\\"} & set(value):
        return f'"{value}"'
    return f"'{value}'" if "'" not in value else '"' + re.sub(r'(["\\])', r"\\\1", value) + '"'


def _table(change: Change) -> str:
    if change.index is not None:
        return f"[[{change.table}]] {change.index + 1}"
    table, dot, name = change.table.partition(".")
    return f"[{table}{dot}{name if not name or _BARE.fullmatch(name) else _quoted(name)}]"


#: A name that needs no quotes as a key.
_BARE: Final = re.compile(r"[A-Za-z0-9_-]+")


def _escaped(text: str) -> str:
    """A stock may be called by braces, which stand for numbers in a finding."""
    return text.replace("{", "{{").replace("}", "}}")
