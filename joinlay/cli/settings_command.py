"""``joinlay settings``: every fence, height and stop of a job, in the order to cut them."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.boards.names import in_few_words
from joinlay.cli.asked_parts import parts_meant
from joinlay.cli.terminal import complain, finding_lines, say, say_as_is, table
from joinlay.cli.words import counted
from joinlay.documents.job_file import job_in
from joinlay.errors import BadInput
from joinlay.findings import Harm
from joinlay.jobs.planning import plan
from joinlay.settings import Value
from joinlay.settings.feeding import feed_sentence, feed_words
from joinlay.settings.wording import (
    band_words,
    beside_words,
    change_words,
    correction_words,
    cut_words,
    is_turned,
    lying_together,
    machine_words,
    measure_words,
    offset_words,
    order_words,
    position_words,
    remainder_words,
    set_up_words,
    speed_words,
    stop_words,
    told_together,
    value_words,
)
from joinlay.shop import MachineKind

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from pathlib import Path

    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Graduation
    from joinlay.settings import Reading, Setting, SettingsList, Work

__all__ = ["say_settings"]


_TABLES = (MachineKind.ROUTER_TABLE, MachineKind.TABLE_SAW)


def say_settings(path: Path, card: int | None, part: str | None, *, as_json: bool) -> int:
    """Say the settings of the job at ``path``, those ``part`` goes through, or all of one ``card``; 1 where something was
    refused, else 0.

    Raises BadInput for what cannot be used, for a card there is none of, and for a part the job has not.
    """
    worked_out = plan(job_in(path))
    found = worked_out.settings
    if worked_out.is_refused:
        complain(finding_lines([one for one in worked_out.findings if one.harm is Harm.REFUSE], worked_out.rule))
    asked = found.settings if part is None else _for_parts(found, parts_meant(worked_out, part, "--for"))
    if as_json:
        _say_json(worked_out, replace(found, settings=asked))
    elif card is not None:
        say(_card(_numbered(found, card), worked_out.rule))
    elif part is not None:
        say(_page_of_part(path, worked_out, found, part, asked))
    else:
        say(_page(path, worked_out, found))
    return int(worked_out.is_refused)


def _for_parts(found: SettingsList, names: set[str]) -> tuple[Setting, ...]:
    """The settings that a board with one of ``names`` goes through."""
    return tuple(setting for setting in found.settings if names.intersection(setting.board_names))


def _page_of_part(path: Path, worked_out: Plan, found: SettingsList, part: str, asked: Sequence[Setting]) -> str:
    first = settings_for_part(worked_out.title, part, len(asked), len(found.settings))
    following = next_setting(path, asked[0].number) if asked else ""
    return "\n\n".join(said for said in (first, _table(asked, worked_out.rule), following) if said)


def _say_json(worked_out: Plan, found: SettingsList) -> None:
    from joinlay.documents.json_text import InWords, json_text
    from joinlay.settings.plain import settings_tree

    said = InWords(worked_out.rule)
    tree = settings_tree(found, worked_out.rule, said.length)
    findings = [said.finding(finding) for finding in worked_out.on_cutting]
    remarks = [said.finding(remark) for remark in found.remarks]
    tree = {"job": worked_out.file, "title": worked_out.title, **tree, "findings": findings, "remarks": remarks}
    say_as_is(json_text(tree).rstrip())


def _numbered(found: SettingsList, card: int) -> Setting:
    if not 1 <= card <= len(found.settings):
        raise BadInput(no_setting(card, len(found.settings)))
    return found.settings[card - 1]


def _page(path: Path, worked_out: Plan, found: SettingsList) -> str:
    first = settings_verdict(worked_out.title, f"{order_words(found)}\n{set_up_words(found)}".rstrip() if found.settings else "")
    bands = "\n".join(first_of_all(band_words(each)) for each in found.bands)
    verdicts = [finding for finding in worked_out.on_cutting if finding.harm is not Harm.REFUSE]  # those are said already
    said = finding_lines([*verdicts, *told_together(found.remarks)], worked_out.rule)
    following = next_setting(path) if found.settings else ""
    return "\n\n".join(part for part in (first, bands, _table(found.settings, worked_out.rule), said, following) if part)


def _table(settings: Sequence[Setting], rule: Graduation) -> str:
    return table([SETTINGS_HEAD, *(_row(setting, rule) for setting in settings)]) if settings else ""


def _row(setting: Setting, rule: Graduation) -> tuple[str, ...]:
    fences = [
        f"{reading.on_rule.text} {reading.value.short}" for reading in setting.readings if reading.value is not Value.HEIGHT
    ]
    heights = [reading.on_rule.text for reading in setting.readings if reading.value is Value.HEIGHT]
    lying = "; ".join(said for said, _ in lying_together(setting))
    return (
        str(setting.number),
        "none" if setting.set_ups == 0 else str(setting.set_ups),
        f"{setting.count} x {cut_words(setting)}",
        machine_words(setting, rule.sold),
        ", then ".join(fences),
        ", then ".join(heights),
        feed_words(setting),
        lying,
    )


def _card(setting: Setting, rule: Graduation) -> str:
    head = setting_head(setting.number, cut_words(setting), change_words(setting))
    values = table(_value(setting, each, rule) for each in setting.readings)
    parts = "\n".join(line for said, works in lying_together(setting) for line in _parts(setting, said, works, rule))
    piece = "\n".join(f"  {line}" for line in _piece(setting, rule))
    cautions = "\n".join(f"  {caution.value}" for caution in setting.cautions)
    about = "\n".join(
        line
        for line in (
            machine_words(setting, rule.sold),
            feed_sentence(setting),
            offset_words(setting, rule.text),
            speed_words(setting),
            setting.reason.sentence(rule.text),
        )
        if line
    )
    return "\n\n".join(part for part in (head, about, values, parts, piece, cautions) if part)


def _value(setting: Setting, reading: Reading, rule: Graduation) -> tuple[str, str, str, str]:
    """What is set, its figure, the same by another side of the cutter, and what the remainder does."""
    return (
        value_words(setting, reading.value),
        reading.on_rule.text,
        beside_words(setting, reading, rule.text),
        remainder_words(reading, rule),
    )


def _parts(setting: Setting, lying: str, works: Sequence[Work], rule: Graduation) -> Iterator[str]:
    yield f"  {lying}"
    for work in works:
        turned = AT_BOTH_ENDS if is_turned(setting, work) else ""
        yield f"    {work.count} x {in_few_words(work.boards)}{turned}"
        if work.stops is not None:
            yield f"      {stop_words(work.stops, rule.text, at_table=setting.machine in _TABLES)}"
        if work.positions:
            yield f"      {position_words(setting, work, rule.text)}"
        if work.squared:
            yield f"      {SQUARE_THE_ENDS}"


def _piece(setting: Setting, rule: Graduation) -> Iterator[str]:
    yield test_piece(measure_words(setting, rule.text))
    yield from (correction_words(setting, each) for each in setting.test_piece.corrections)


# -- what it says -----------------------------------------------------------------------------------

SETTINGS_HEAD: Final = ("card", "set-ups", "what is cut", "machine and cutter", "fence", "height", "which way", "how they lie")
AT_BOTH_ENDS: Final = ", both ends or edges"
SQUARE_THE_ENDS: Final = "chop the round ends square"


def settings_verdict(title: str, order: str) -> str:
    """The first line of ``settings``: how many cards, and what their ``order`` saves."""
    return f"{title}: {order}" if order else f"{title}: nothing to set."


def settings_for_part(title: str, part: str, cards: int, of: int) -> str:
    """The first line of ``settings --for``: which of the cards, in the order of the whole job."""
    if not cards:
        return f"{title}: nothing is cut in {part}; it is only sawn to size."
    return f"{title}, {part}: {cards} of the {counted(of, 'card')}, in the order of the whole job."


def no_setting(card: int, most: int) -> str:
    """A card that isn't there."""
    return f"there is no card {card}; they are numbered 1 to {most}." if most else f"there is no card {card}: nothing is cut."


def next_setting(path: object, card: int = 1) -> str:
    """After ``settings``: how to see a whole card."""
    return f"Next: joinlay settings {path} --card {card}"


def first_of_all(bands: str) -> str:
    """What has to be banded before a card."""
    return f"First     {bands}."


def setting_head(number: int, cut: str, change: str) -> str:
    """The first line of a card in the terminal."""
    return f"Card {number}: {cut} ({change})"


def test_piece(measures: str) -> str:
    """What the test piece must measure."""
    return f"test piece: {measures}"
