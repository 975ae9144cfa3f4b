"""Gathering findings so that the worst stands first, a long row is told once, and a sound piece says little."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING, Final

from joinlay.boards.names import in_few_words
from joinlay.findings import Finding, Harm
from joinlay.lengths import Length

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

__all__ = ["ORDER", "gathered"]

#: Among findings of one kind the worst is where this number is the largest (or, after a minus, the smallest). Of notes of these kinds only
#: that one is told.
_WORST_BY: Final = {
    "side play": "play",
    "fit": "-least",
    "racking": "-planed",
    "bottom sag": "sag",
    "wood movement": "moves",
    "droop": "droop",
}
#: What is told first of findings that are as bad as each other; kinds that aren't here come last.
ORDER: Final = (
    "clash", "outline", "thin wood", "cutter reach", "tipping", "side play", "droop", "fit", "racking", "bottom sag", "wood movement",
    "case movement", "corner strength", "weight",
)  # fmt: skip
_DRAWER: Final = re.compile(r"drawer (?P<number>\d+)(?P<tail>| .*)")
#: From so many findings of the same words on, one speaks for all of them.
_ROW: Final = 3
#: Places named in one finding before the rest are only counted.
_NAMED: Final = 4


def gathered(found: Iterable[Finding]) -> tuple[Finding, ...]:
    """The findings, worst first: the same words and numbers told once, a long row of the same words too, and one note of each kind.

    How they are told: no rule.
    """
    merged = _together(
        found, lambda finding: (finding.kind, finding.harm, finding.what, finding.remedy, _spelled(finding)), least=2
    )
    merged = _together(merged, lambda finding: (finding.kind, finding.harm, finding.what, finding.remedy), least=_ROW)
    return tuple(sorted(_one_note_each(merged), key=_rank))


def _spelled(finding: Finding) -> tuple[tuple[str, object], ...]:
    return tuple((name, number.mm if isinstance(number, Length) else str(number)) for name, number in finding.numbers.items())


def _together(found: Iterable[Finding], alike: Callable[[Finding], object], least: int) -> list[Finding]:
    """Findings that are ``alike`` as one, where there are at least ``least`` of them: all their places, the worst one's numbers."""
    groups: dict[object, list[Finding]] = {}
    for finding in found:
        groups.setdefault(alike(finding), []).append(finding)
    return [one for same in groups.values() for one in (same if len(same) < least else [_as_one(same)])]


def _as_one(same: list[Finding]) -> Finding:
    worst = max(same, key=_badness)
    places = _places([finding.where for finding in same])
    alone = all(finding.numbers == worst.numbers for finding in same)
    about = tuple(dict.fromkeys(part for finding in same for part in finding.about))
    return replace(worst, parts=about, where=places if alone else f"{places} (figures: {_short(worst.where, places)})")


def _short(worst: str, places: str) -> str:
    """The worst place, without the part's name where all of them are that part: ``drawer 8`` of ``drawers 1 to 8 front``."""
    drawer = _DRAWER.fullmatch(worst)
    if drawer and drawer["tail"] and places.startswith("drawers ") and places.endswith(drawer["tail"]):
        return worst.removesuffix(drawer["tail"])
    return worst


def _rank(finding: Finding) -> tuple[int, int]:
    return finding.harm, ORDER.index(finding.kind) if finding.kind in ORDER else len(ORDER)


def _places(places: Sequence[str]) -> str:
    """``drawers 1 to 3 bottom`` for the same part of several drawers, else the places one after the other; at most a few."""
    named = list(dict.fromkeys(places))
    parts = [_DRAWER.fullmatch(place) for place in named]
    tails = {part["tail"] for part in parts if part}
    if len(named) > 1 and all(parts) and len(tails) == 1:
        return f"drawers {in_few_words(part['number'] for part in parts if part)}{tails.pop()}"
    more = len(named) - _NAMED
    listed = ", ".join(named[:_NAMED])
    return f"{listed} and {more} more" if more > 0 else listed


def _one_note_each(found: Iterable[Finding]) -> Iterator[Finding]:
    notes: dict[str, list[Finding]] = {}
    for finding in found:
        if finding.harm is Harm.NOTE and finding.kind in _WORST_BY:
            notes.setdefault(finding.kind, []).append(finding)
        else:
            yield finding
    for same in notes.values():
        worst = max(same, key=_badness)
        yield worst if len(same) == 1 else replace(worst, where=f"{worst.where} (the most of all)", parts=worst.about)


def _badness(finding: Finding) -> Fraction:
    """How bad among findings of its kind, by the number that tells it; nothing where none does."""
    by = _WORST_BY.get(finding.kind, "")
    number = finding.numbers.get(by.removeprefix("-"))
    size = number.mm if isinstance(number, Length) else Fraction(0)
    return -size if by.startswith("-") else size
