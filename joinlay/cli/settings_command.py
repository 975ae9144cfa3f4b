"""``joinlay settings``: every fence, height and stop of a job, in the order to cut them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.boards.names import in_few_words
from joinlay.cli import words
from joinlay.cli.files import job_in
from joinlay.cli.saying import complain, finding_lines, say, table
from joinlay.errors import BadInput
from joinlay.findings import Harm
from joinlay.jobs.planning import plan
from joinlay.settings import Value, settings_for
from joinlay.settings.wording import (
    change_words,
    correction_words,
    cut_words,
    lie_words,
    machine_words,
    measure_words,
    position_words,
    reading_words,
    remainder_words,
    speed_words,
    stop_words,
)  # fmt: skip
from joinlay.shop import MachineKind

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Graduation
    from joinlay.settings import Setting, SettingsList, Work

__all__ = ["say_settings"]

_TABLES = (MachineKind.ROUTER_TABLE, MachineKind.TABLE_SAW)


def say_settings(path: Path, card: int | None, *, as_json: bool) -> int:
    """Say the settings of the job at ``path``, or all of one ``card``; 1 where something was refused, else 0.

    Raises BadInput for what cannot be used, and for a card there is none of.
    """
    worked_out = plan(job_in(path))
    found = settings_for(worked_out.boards, worked_out.shop)
    refused = worked_out.is_refused or any(finding.harm is Harm.REFUSE for finding in found.findings)
    if worked_out.is_refused:
        complain(finding_lines([one for one in worked_out.findings if one.harm is Harm.REFUSE], worked_out.rule))
    if as_json:
        _say_json(worked_out, found)
    elif card is None:
        say(_page(path, worked_out, found))
    else:
        say(_card(_numbered(found, card), worked_out.rule))
    return int(refused)


def _say_json(worked_out: Plan, found: SettingsList) -> None:
    from joinlay.documents.plan_json import InWords, json_text
    from joinlay.settings.plain import settings_tree

    said = InWords(worked_out.rule)
    tree = settings_tree(found, worked_out.rule, said.length)
    findings = [said.finding(finding) for finding in found.findings]
    say(json_text({"job": worked_out.file, "title": worked_out.title, **tree, "findings": findings}).rstrip())


def _numbered(found: SettingsList, card: int) -> Setting:
    if not 1 <= card <= len(found.settings):
        raise BadInput(words.no_setting(card, len(found.settings)))
    return found.settings[card - 1]


def _page(path: Path, worked_out: Plan, found: SettingsList) -> str:
    first = words.settings_verdict(
        worked_out.title, len(found.settings), found.cutter_changes, found.set_ups, found.naive_set_ups, is_proved=found.is_proved
    )
    rows = table([words.SETTINGS_HEAD, *(_row(setting, worked_out.rule) for setting in found.settings)]) if found.settings else ""
    following = words.next_setting(path) if found.settings else ""
    return "\n\n".join(part for part in (first, rows, finding_lines(found.findings, worked_out.rule), following) if part)


def _row(setting: Setting, rule: Graduation) -> tuple[str, ...]:
    fences = [reading.on_rule.text for reading in setting.readings if reading.value is not Value.HEIGHT]
    heights = [reading.on_rule.text for reading in setting.readings if reading.value is Value.HEIGHT]
    return (
        str(setting.number),
        cut_words(setting),
        machine_words(setting, rule.text),
        ", then ".join(fences),
        ", then ".join(heights),
        f"{setting.count} x {lie_words(setting, setting.works[0])}",
    )


def _card(setting: Setting, rule: Graduation) -> str:
    head = words.setting_head(setting.number, cut_words(setting), change_words(setting.changes))
    values = table((*_value(reading_words(setting, each)), remainder_words(each, rule)) for each in setting.readings)
    parts = "\n".join(line for work in setting.works for line in _parts(setting, work, rule))
    piece = "\n".join(f"  {line}" for line in _piece(setting, rule))
    cautions = "\n".join(f"  {caution.value}" for caution in setting.cautions)
    about = "\n".join(
        line for line in (machine_words(setting, rule.text), speed_words(setting), setting.reason.sentence(rule.text)) if line
    )
    return "\n\n".join(part for part in (head, about, values, parts, piece, cautions) if part)


def _value(said: str) -> tuple[str, str]:
    """The words of a value and its figures: they part before the first figure or sign."""
    at = next(n for n, letter in enumerate(said) if letter.isdigit() or (letter == "-" and said[n + 1 : n + 2].isdigit()))
    return said[:at].rstrip(), said[at:]


def _parts(setting: Setting, work: Work, rule: Graduation) -> Iterator[str]:
    yield f"  {work.count} x {in_few_words(work.boards)}: {lie_words(setting, work)}"
    if work.stops is not None:
        yield f"      {stop_words(work.stops, rule.text, at_table=setting.machine in _TABLES)}"
    if work.positions:
        yield f"      {position_words(work, rule.text)}"
    if work.squared:
        yield f"      {words.SQUARE_THE_ENDS}"


def _piece(setting: Setting, rule: Graduation) -> Iterator[str]:
    yield words.test_piece(measure_words(setting, rule.text))
    yield from (correction_words(setting, each) for each in setting.test_piece.corrections)
