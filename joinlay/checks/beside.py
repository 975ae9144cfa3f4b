"""Findings told beside the part they touch, in the few words there is room for on its template."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.findings import Harm

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from joinlay.findings import Finding
    from joinlay.lengths import Graduation

__all__ = ["beside_parts"]

#: The most that is told beside one part; all the rest is on the finding sheets.
_MOST: Final = 2


def beside_parts(findings: Sequence[Finding], rule: Graduation) -> Mapping[str, tuple[str, ...]]:
    """What to say beside each part, by its name: ``finding 3: swells 1/32 in, 1/16 in free``; at most two findings a part, the
    worst first.

    ``findings`` as they stand in the plan: a finding's number is its place there, from 1. One without few words of its own is
    named by its kind if something may go wrong, and left out if it is only good to know. No rule.
    """
    told: dict[str, list[str]] = {}
    for number, finding in enumerate(findings, start=1):
        few = finding.few_words(rule.text)
        if not few and finding.harm is Harm.NOTE:
            continue
        for part in finding.about:
            told.setdefault(part, []).append(f"finding {number}: {few or finding.kind}")
    return {part: tuple(said[:_MOST]) for part, said in told.items()}
