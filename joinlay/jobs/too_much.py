"""What is more than one job may ask for, told before any work is done with it.

No piece of furniture has as much, and paper for it would be a ream: a slip of the pen, or a joke. The limits are our own choice.
They stand where a piece at all of them is still planned in two seconds and its paper made in a minute; larger work is parted into
several jobs, as it is built.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any, Final

from joinlay.errors import BadInput
from joinlay.findings import refusal
from joinlay.jobs.source import Spelled, table_or_empty
from joinlay.lengths import Fraction, Length, Unit, decimal_text, mm, read_length

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from joinlay.boards import Board
    from joinlay.errors import Trouble
    from joinlay.findings import Finding
    from joinlay.jobs.source import Source

__all__ = ["drawers_in_row", "too_many_parts", "too_much", "written_length"]

#: The most drawers by their openings alone; and the most in one piece, its open bays and their shelves counted with them.
_MOST_DRAWERS, _MOST_IN_A_PIECE = 100, 60

#: The most offcuts, or boards, on hand.
_MOST_ON_HAND: Final = 200

#: The most parts, loose tenons and all: where tenons stand as near as they go, they outnumber boards by far.
_MOST_PARTS: Final = 2_500

_PARTED: Final = "build it as several, each a job of its own"


def too_much(source: Source, unit: Unit, names: Sequence[tuple[str, ...]]) -> Iterator[Trouble]:
    """What ``source`` asks for too much of; bare numbers are in ``unit``, ``names`` are the drawers' by ``[[drawer]]`` table."""
    yield from _too_many(source, names)
    yield from _too_high(source, unit, names)


def _too_many(source: Source, names: Sequence[tuple[str, ...]]) -> Iterator[Trouble]:
    if (alone := sum(map(len, names))) > _MOST_DRAWERS:
        yield source.trouble(("drawer",), "drawers", f"there are {alone} drawers; a job has at most {_MOST_DRAWERS}.")
    drawers, shelves = (sum(map(count, source.tables("bank"))) for count in (_drawers_in_bank, _shelves_in_bank))
    if drawers + shelves > _MOST_IN_A_PIECE:
        counted = f"{drawers} drawers" if not shelves else f"{drawers} drawers and {shelves} open bays and shelves"
        message = f"there are {counted}; a piece has at most {_MOST_IN_A_PIECE}. Where it is larger, {_PARTED}."
        yield source.trouble(("bank",), "banks", message)
    for heading in ("offcut", "board"):
        held = sum(_at_least_one(table.get("count")) for table in source.tables(heading))
        if held > _MOST_ON_HAND:
            message = f"there are {held} on hand; write at most {_MOST_ON_HAND}, those you would use first."
            yield source.trouble((heading,), f"{heading}s", message)


def _drawers_in_bank(bank: Mapping[str, Any]) -> int:
    rows, heights = bank.get("rows"), bank.get("heights")
    if isinstance(rows, list):
        return sum(map(drawers_in_row, rows))
    return len(heights) if isinstance(heights, list) else _at_least_one(bank.get("drawers"))


def _shelves_in_bank(bank: Mapping[str, Any]) -> int:
    """Its open bays and what stands in them: a bay without a shelf counts as one."""
    rows = bank.get("rows")
    bays = [row for row in rows if drawers_in_row(row) == 0] if isinstance(rows, list) else []
    return sum(max(_at_least_one(table_or_empty(bay).get(word)) for word in ("fixed", "loose")) for bay in bays)


#: How high all drawers of a job are at most, one on the other: a hundred a foot high. Joints are laid out along every inch of it,
#: so that more would keep a maker waiting; no piece has as much.
_HIGHEST_IN_ALL: Final = mm(30_480)


def _too_high(source: Source, unit: Unit, names: Sequence[tuple[str, ...]]) -> Iterator[Trouble]:
    """Drawers that are together higher than any piece's: refused before any work is done."""
    usual = table_or_empty(source.table("drawers").get("opening"))
    heights = [(written_length(table_or_empty(table.get("opening")).get("height", usual.get("height")), unit), len(called))
               for table, called in zip(source.tables("drawer"), names, strict=False)]  # fmt: skip
    case = source.table("case")
    over_all = written_length(case.get("height", table_or_empty(case.get("room")).get("height")), unit)
    heights.append((over_all, len(source.tables("bank"))))
    total = sum((height.mm * count for height, count in heights if height is not None and height.mm > 0), Fraction(0))
    if total > _HIGHEST_IN_ALL.mm:
        most = _HIGHEST_IN_ALL.inches / 12
        message = (
            f"one on the other they would be {decimal_text(total / 1000, 1)} m high; a job has at most "
            f"{decimal_text(_HIGHEST_IN_ALL.mm / 1000, 1)} m ({decimal_text(most, 0)} ft) of drawers. "
            "Look at the heights and their units, or part it into several jobs."
        )
        heading = "bank" if "bank" in source.tree else "drawer"
        yield source.trouble((heading,), f"{heading}s", message)


def drawers_in_row(given: object) -> int:
    """How many drawers a row of a bank is written to have; none for an open bay (SH-1)."""
    if not isinstance(given, Mapping):
        return 0 if isinstance(given, Spelled) and given.value == "open" else _at_least_one(given)
    if {"open", "fixed", "loose"} & set(given):
        return 0
    parted = next((given[key] for key in ("widths", "shares") if isinstance(given.get(key), list)), ())
    return max(len(parted), _at_least_one(given.get("drawers")))


def _at_least_one(given: object) -> int:
    value = given.value if isinstance(given, Spelled) else 1
    return value if isinstance(value, int) and not isinstance(value, bool) and value > 1 else 1


def written_length(given: object, unit: Unit) -> Length | None:
    """The length written at a key, bare numbers in ``unit``; None where there is none that can be read."""
    value = given.value if isinstance(given, Spelled) else None
    if isinstance(value, bool) or not isinstance(value, (str, int)):
        return None
    try:
        return read_length(str(value), unit)
    except BadInput:
        return None


def too_many_parts(boards: Iterable[Board]) -> Finding | None:
    """The refusal of more parts than a job may have, before they are looked at one by one; None for fewer (LT-9)."""
    every = list(boards)
    if len(every) <= _MOST_PARTS:
        return None
    return (
        refusal(
            "too many parts",
            "The job has {parts} parts, {loose} of them loose tenons; it has {most} at most.",
            "Space the tenons wider (tenon-spacing-in-a-drawer and tenon-spacing-in-a-case under [practice]), or part it into "
            "several jobs.",
            "LT-9",
            "our own choice",
            parts=len(every),
            loose=sum(board.role.kind.is_loose for board in every),
            most=_MOST_PARTS,
        )
        .at("piece")
        .finding
    )
