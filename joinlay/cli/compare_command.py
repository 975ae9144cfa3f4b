"""``joinlay compare``: what differs between two versions of a job, for a maker who has begun to cut."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from joinlay.boards.names import in_few_words
from joinlay.cli.terminal import complain, finding_lines, say, say_as_is, table
from joinlay.cutlist.changes import Fate, compare_plans
from joinlay.documents.job_file import job_in
from joinlay.findings import Harm
from joinlay.jobs.planning import plan
from joinlay.settings import Value
from joinlay.settings.wording import cut_words, machine_words

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from joinlay.cutlist.changes import Changes, Difference, Facts
    from joinlay.jobs.plan import Plan
    from joinlay.settings import Setting

__all__ = ["say_changes"]


def say_changes(old: Path, new: Path, *, as_json: bool) -> int:
    """Say what differs from the job at ``old`` to the one at ``new``; 1 where something in the new one was refused, else 0.

    Raises BadInput for what cannot be used.
    """
    before, after = plan(job_in(old)), plan(job_in(new))
    # Both in the new job's figures, or every number would differ where only the rule does.
    changes = compare_plans(before, after, _settings(before, after), _settings(after, after))
    refused = [one for one in after.findings if one.harm is Harm.REFUSE]
    if refused:
        complain(finding_lines(refused, after.rule))
    if as_json:
        _say_json(old, new, changes)
    else:
        say(_page(old, new, changes))
    return int(after.is_refused)


def _say_json(old: Path, new: Path, changes: Changes) -> None:
    from joinlay.cutlist.changes import changes_tree
    from joinlay.documents.json_text import json_text

    say_as_is(json_text({"old": old.name, "new": new.name, **changes_tree(changes)}).rstrip())


def _page(old: Path, new: Path, changes: Changes) -> str:
    found = dict(zip(COMPARE_SECTIONS, (changes.givens, changes.parts, changes.joints, changes.settings), strict=True))
    first = compare_verdict(str(old), str(new), changes)
    fates = table((fate.value, in_few_words(names)) for fate, names in changes.fates)
    ends = f"{COMPARE_FATES}:\n{fates}" if fates else ""
    pairs = table((part, cut_from(whole)) for part, whole in changes.wood)
    wood = f"{COMPARE_WOOD}:\n{pairs}" if pairs else ""
    return "\n\n".join(part for part in (first, ends, wood, *(_section(word, some) for word, some in found.items())) if part)


def _section(word: str, changes: Sequence[Difference]) -> str:
    if not changes:
        return ""
    rows = [(change.what, _plain(change.old) or NONE, _plain(change.new) or NONE, change.where) for change in changes]
    told = [row for row in rows if row[1] != row[2]]
    hairs = hairs_only(len(rows) - len(told)) if len(told) < len(rows) else ""
    return f"{word}:\n" + "\n".join(part for part in (table([COMPARE_HEAD, *told]) if told else "", hairs) if part)


def _plain(said: str) -> str:
    """Figures as they are found on the rule, a + or - for what is over or short, without the decimals of it."""
    return _DECIMALS.sub("", said)


_DECIMALS: Final = re.compile(r" \(\d+(?:\.\d+)?\)")


def _settings(worked_out: Plan, on: Plan) -> Facts:
    """Every setting of ``worked_out`` by its cut and parts, in the figures of ``on``."""
    facts: Facts = {}
    for setting in worked_out.settings.settings:
        parts = in_few_words(dict.fromkeys(name for work in setting.works for name in work.boards))
        facts[f"{cut_words(setting)}: {parts}"] = _setting(setting, on)
    return facts


def _setting(setting: Setting, on: Plan) -> dict[str, str]:
    fences = [on.rule.text(reading.exact) for reading in setting.readings if reading.value is not Value.HEIGHT]
    heights = [on.rule.text(reading.exact) for reading in setting.readings if reading.value is Value.HEIGHT]
    said = {"machine": machine_words(setting, on.rule.sold), "fence": ", then ".join(fences), "height": ", then ".join(heights)}
    return {word: value for word, value in said.items() if value}


# -- what it says -----------------------------------------------------------------------------------

COMPARE_HEAD: Final = ("what", "was", "is", "where")
COMPARE_SECTIONS: Final = ("Written otherwise", "Parts", "Joints", "Settings")
COMPARE_FATES: Final = "Parts that are cut already"
COMPARE_WOOD: Final = "Old parts to cut new ones from, if their joints are not cut yet"


NONE: Final = "none"


def compare_verdict(old: str, new: str, changes: Changes) -> str:
    """The first line of ``compare``: how many parts stay, are to be looked at, and are to be made."""
    if changes.is_none:
        return f"From {old} to {new}: nothing differs."
    if changes.is_nothing_cut:
        return f"From {old} to {new}: nothing that is cut or set differs."
    look = changes.count(Fate.SERVES, Fate.SERVES_UNJOINTED, Fate.HAIR, Fate.CUT_DOWN)
    tally = (
        (changes.untouched, "as before"),
        (look, "to look at before you go on"),
        (changes.count(Fate.AGAIN), "to make again"),
        (changes.count(Fate.NEW), "new"),
        (changes.count(Fate.NOT_NEEDED), "not needed any more"),
    )
    return f"From {old} to {new}, of the parts: {', '.join(f'{number} {said}' for number, said in tally if number)}."


def hairs_only(count: int) -> str:
    """Below a table: what differs by less than can be seen on the rule."""
    return f"  {count} more {'differs' if count == 1 else 'differ'} by less than a mark of your rule; --json tells them."


def cut_from(part: str) -> str:
    """Which old part a new one is cut from."""
    return f"from {part}"
