"""How findings are told: the worst first, a long row once, a sound piece saying little; and in few words beside each part on
its template.
"""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.boards.names import in_few_words
from joinlay.findings import Finding, Harm
from joinlay.lengths import Fraction, Length

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from joinlay.lengths import Graduation

__all__ = ["ORDER", "beside_parts", "gathered"]

#: Among findings of one kind the worst is where this number is the largest (or, after a minus, the smallest).
_WORST_BY: Final = {
    "side play": ("play", "droop"),
    "fit": ("-least",),
    "racking": ("-planed",),
    "bottom sag": ("sag",),
    "shelf sag": ("sag",),
    "panel sag": ("sag",),
    "wood movement": ("moves",),
    "droop": ("droop",),
    "case movement": ("moves",),
    "clash": ("-between",),
    "thin wood": ("-left",),
}
#: Of notes of these kinds only the worst is told.
_ONE_NOTE: Final = ("side play", "fit", "racking", "bottom sag", "shelf sag", "panel sag", "wood movement", "droop")
#: What is told first of findings that are as bad as each other; kinds that aren't here come last.
ORDER: Final = (
    "clash", "outline", "thin wood", "cutter reach", "tipping", "side play", "droop", "fit", "racking", "bottom sag", "shelf sag",
    "panel sag", "wood movement", "case movement", "glue time", "clamps", "corner strength", "weight",
)  # fmt: skip
_DRAWER: Final = re.compile(r"drawer (?P<number>\d+)(?P<tail>| .*)")
#: From so many findings of the same words on, one speaks for all of them.
_ROW: Final = 3
#: Places named in one finding before the rest are only counted.
_NAMED: Final = 4


def gathered(found: Iterable[Finding]) -> tuple[Finding, ...]:
    """The findings, worst first: the same words and numbers told once, a long row of the same words too, and one note of each
    kind.

    How they are told: no rule.
    """
    groups: dict[object, list[Finding]] = {}
    for finding in found:
        said = (finding.what, finding.remedy, *(remedy.text for remedy in finding.remedies))
        groups.setdefault((finding.kind, finding.harm, said), []).append(finding)
    merged = [one for same in groups.values() for one in _together(same)]
    return tuple(sorted(_one_note_each(merged), key=_rank))


def _together(same: Sequence[Finding]) -> list[Finding]:
    """Findings of the same words: one for all of a long row, with the worst one's numbers; else one for each set of numbers."""
    alike: dict[object, list[Finding]] = {}
    for finding in same:
        alike.setdefault(_spelled(finding), []).append(finding)
    if len(same) >= _ROW:
        return [_as_one(same)]
    return [_as_one(some) if len(some) > 1 else some[0] for some in alike.values()]


def _spelled(finding: Finding) -> tuple[tuple[str, object], ...]:
    return tuple((name, number.mm if isinstance(number, Length) else str(number)) for name, number in finding.numbers.items())


def _as_one(same: Sequence[Finding]) -> Finding:
    worst = max(same, key=_badness)
    alone = all(finding.numbers == worst.numbers for finding in same)
    about = tuple(dict.fromkeys(part for finding in same for part in finding.about))
    if len(worst.parts) > 1:
        # Each is about several parts already: then one of them speaks for the figures.
        places, figures = in_few_words(about), worst.parts[0]
    else:
        places = _places([finding.where for finding in same])
        figures = _short(worst.where, places)
    return replace(worst, parts=about, where=places if alone else f"{places} (figures: {figures})")


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
        if finding.harm is Harm.NOTE and finding.kind in _ONE_NOTE:
            notes.setdefault(finding.kind, []).append(finding)
        else:
            yield finding
    for same in notes.values():
        worst = max(same, key=_badness)
        yield worst if len(same) == 1 else replace(worst, where=f"{worst.where} (the most of all)", parts=worst.about)


def _badness(finding: Finding) -> tuple[Fraction, ...]:
    """How bad among findings of its kind, by the numbers that tell it, the first of them first; nothing where none does."""
    return tuple(_size(finding, by) for by in _WORST_BY.get(finding.kind, ()))


def _size(finding: Finding, by: str) -> Fraction:
    number = finding.numbers.get(by.removeprefix("-"))
    size = number.mm if isinstance(number, Length) else Fraction(0)
    return -size if by.startswith("-") else size


#: The most that is told beside one part; all the rest is on the finding sheets.
_MOST_BESIDE: Final = 2


def beside_parts(findings: Sequence[Finding], rule: Graduation) -> Mapping[str, tuple[str, ...]]:
    """What to say beside each part, by its name: ``finding 3: swells 1/32 in, 1/16 in free``; at most two findings a part, the
    worst first.

    ``findings`` as they stand in the plan: a finding's number is its place there, from 1. One without few words of its own is
    named by its kind if something may go wrong, and left out if it is only good to know.
    """
    told: dict[str, list[str]] = {}
    for number, finding in enumerate(findings, start=1):
        few = finding.few_words(rule.text)
        if not few and finding.harm is Harm.NOTE:
            continue
        for part in finding.about:
            told.setdefault(part, []).append(f"finding {number}: {few or finding.kind}")
    return {part: tuple(said[:_MOST_BESIDE]) for part, said in told.items()}
