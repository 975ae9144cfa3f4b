"""Settings in the maker's words: how the work lies, what to set, what to move. Used by the cards and the terminal alike."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.lengths import Unit, decimal_text
from joinlay.settings.elements import Change, Guide, Role
from joinlay.settings.reading import Value
from joinlay.settings.test_piece import Adjust, Direction, Measured
from joinlay.shop import MachineKind

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from joinlay.lengths import Graduation, Length
    from joinlay.settings.elements import Stops, Work
    from joinlay.settings.reading import Reading
    from joinlay.settings.setting import Setting
    from joinlay.settings.test_piece import Correction

__all__ = [
    "change_words", "correction_pairs", "correction_words", "cut_words", "lie_words", "lying_together", "machine_words", "measure_words",
    "position_words", "reading_words", "remainder_words", "small_words", "speed_words", "stop_words", "value_words",
]  # fmt: skip

_TABLES: Final = (MachineKind.ROUTER_TABLE, MachineKind.TABLE_SAW)


def cut_words(setting: Setting) -> str:
    """What is cut, each name once: left and right, and the numbers of mortises, are left off."""
    names = (re.sub(r" \d+$", "", re.sub(r"^(?:left|right) ", "", name)) for name in setting.cut_names)
    return ", ".join(dict.fromkeys(names))


def machine_words(setting: Setting, show: Callable[[Length], str]) -> str:
    """Machine, guide and tool: ``router table, 1/4 in straight cutter``."""
    guide = "" if setting.guide in (Guide.FENCE, Guide.CENTRE_LINE, Guide.GAUGED_LINE) else f" with {_a(setting.guide.value)}"
    if setting.machine is MachineKind.BENCH:
        return f"{setting.machine.value}, {setting.tool.kind.value}"
    return f"{setting.machine.value}{guide}, {show(setting.tool.width)} {setting.tool.kind.value}"


def _a(word: str) -> str:
    return f"an {word}" if word[0] in "aeiou" else f"a {word}"


def lie_words(setting: Setting, work: Work) -> str:
    """How the work lies to the machine: ``inside face down, bottom edge to the fence``."""
    if setting.machine in _TABLES:
        return f"{work.entry_word} down, {work.fence_word} to the fence"
    if setting.machine is MachineKind.MORTISER and setting.guide is Guide.FENCE:
        return f"fence on the {work.fence_word}, cutter into the {work.entry_word}"
    if setting.machine is MachineKind.BENCH:
        return f"from the {work.entry_word}, gauged from the {work.fence_word}"
    guided = {
        Guide.EDGE_GUIDE: f"edge guide along the {work.fence_word}",
        Guide.STRAIGHTEDGE: f"straightedge measured from the {work.fence_word}",
        Guide.CENTRE_LINE: f"line gauged from the {work.fence_word}",
    }
    return f"{work.entry_word} up, {guided.get(setting.guide, setting.guide.value)}"


def lying_together(setting: Setting) -> tuple[tuple[str, tuple[Work, ...]], ...]:
    """The works by how they lie. Parts that are only turned end for end are told once: ``left end, then right end to the fence``."""
    turned: dict[tuple[object, ...], list[Work]] = {}
    for work in setting.works:
        turned.setdefault((work.boards, work.positions, work.squared, work.stops), []).append(work)
    lying: dict[str, list[Work]] = {}
    for works in turned.values():
        entries, fences = (
            list(dict.fromkeys(words)) for words in zip(*((one.entry_word, one.fence_word) for one in works), strict=True)
        )
        if len(entries) > 1 and len(fences) > 1:
            for work in works:
                lying.setdefault(lie_words(setting, work), []).append(work)
            continue
        both = replace(works[0], entry_word=", then ".join(entries), fence_word=", then ".join(fences))
        lying.setdefault(lie_words(setting, both), []).append(works[0])
    return tuple((said, tuple(works)) for said, works in lying.items())


def value_words(setting: Setting, value: Value) -> str:
    """What is set: ``fence to the near side of the cutter``, in the words of the machine."""
    if value is Value.HEIGHT:
        return {MachineKind.ROUTER_TABLE: "height of the cutter", MachineKind.TABLE_SAW: "height of the blade"}.get(
            setting.machine, "depth"
        )
    if value is Value.STRAIGHTEDGE:
        return f"straightedge from the {setting.works[0].fence_word}"
    if setting.machine is MachineKind.MORTISER and setting.guide is Guide.FENCE:
        return "fence above the middle of the cutter"
    if setting.guide is Guide.CENTRE_LINE:
        return f"line from the {setting.works[0].fence_word}"
    return str(value.value)


def reading_words(setting: Setting, reading: Reading) -> str:
    """One value to set, as it stands on the maker's rule, with what is left over."""
    return f"{value_words(setting, reading.value)} {reading.on_rule.text}"


def remainder_words(reading: Reading, rule: Graduation) -> str:
    """What the remainder does to the fit, '' where nothing is left over or nothing depends on it (MS-2)."""
    if reading.affects is None or not reading.by:
        return ""
    more = "larger" if reading.by.mm > 0 else "smaller"
    return f"set to the mark, {reading.affects.value} is {small_words(abs(reading.by), rule)} {more}"


def small_words(length: Length, rule: Graduation) -> str:
    """A length under a mark of the rule, as a decimal: ``0.014 in`` rather than ``1/32 in - 0.017 in``. Rule MS-2."""
    if rule.unit is Unit.INCH:
        return f"{decimal_text(length.inches, 3)} in"
    return f"{decimal_text(length.mm, 2)} mm"


def stop_words(stops: Stops, show: Callable[[Length], str], *, at_table: bool) -> str:
    """Where the cut begins and ends: by stops on a table, by marks under a hand-held router."""
    if at_table:
        named = (("in-feed stop", stops.infeed_stop), ("out-feed stop", stops.outfeed_stop))
        said = ", ".join(f"{name} {show(size)}" for name, size in named if size is not None)
        return f"{stops.leading_word} first; {said} from the far side of the cutter"
    named = (("begin", stops.begin), ("end", stops.finish))
    said = ", ".join(f"{name} {show(size)} from it" for name, size in named if size is not None)
    return f"{stops.leading_word} first; {said}"


def position_words(work: Work, show: Callable[[Length], str]) -> str:
    """Where mortises or holes stand: their middles along from the reference, and the pencil line they lie on where they lie on one."""
    lines = list(dict.fromkeys(position.line for position in work.positions))
    said = []
    for line in lines:
        centres = ", ".join(show(position.centre) for position in work.positions if position.line == line)
        on = "" if line is None else f", on a line {show(line)} from the {work.fence_word}"
        said.append(f"middles {centres} from the {work.positions_from}{on}")
    return "; ".join(said)


def change_words(changes: Sequence[Change]) -> str:
    """What has to be touched before this card."""
    if not changes:
        return "touch nothing"
    if Change.CUTTER in changes:
        return "new cutter"
    return "new " + " and ".join(change.value for change in changes)


def speed_words(setting: Setting) -> str:
    """The speed, and that the marking on the cutter governs (MS-9); '' where the machine has its own."""
    if setting.speed is None:
        return ""
    return f"{setting.speed // 1000} 000 rpm at most; the marking on the cutter governs"


#: What a measure is called on the test piece, and the words for too much and too little of it.
_MEASURED: Final = {
    Measured.FROM_FENCE: ("distance from the fence side", "too far from the fence side", "too near the fence side"),
    Measured.CENTRE: ("middle from the fence side", "too far from the fence side", "too near the fence side"),
    Measured.WIDTH: ("width", "too wide", "too narrow or its mate too tight"),
    Measured.DEPTH: ("depth", "too deep", "too shallow"),
    Measured.TONGUE_THICKNESS: ("tongue thickness", "tongue too thick or too tight", "tongue too thin or too loose"),
    Measured.TONGUE_LENGTH: ("tongue length", "tongue too long", "tongue too short"),
    Measured.STEP_WIDTH: ("rabbet width", "rabbet too wide", "rabbet too narrow"),
    Measured.WOOD_LEFT: ("wood left", "wood left too thick or too tight", "wood left too thin or too loose"),
}


def measure_words(setting: Setting, show: Callable[[Length], str]) -> str:
    """What the test piece must measure."""
    return ", ".join(f"{_MEASURED[measure.measured][0]} {show(measure.value)}" for measure in setting.test_piece.measures)


def correction_words(setting: Setting, correction: Correction) -> str:
    """What to move, which way and by how much: ``tongue too thick by x: move the fence x towards the cutter``."""
    fault = _MEASURED[correction.measured][1 if correction.is_over else 2]
    return f"{fault} by x: {_moving(setting, correction)}"


def correction_pairs(setting: Setting) -> tuple[str, ...]:
    """The corrections two and two, too much and too little of one measure on a line; where there is one only, that."""
    said: dict[Measured, str] = {}
    for each in setting.test_piece.corrections:
        if each.measured in said:
            said[each.measured] += f"; {_MEASURED[each.measured][2]}: the other way"
        else:
            said[each.measured] = correction_words(setting, each)
    return tuple(said.values())


def _moving(setting: Setting, correction: Correction) -> str:
    farther = correction.direction in (Direction.FARTHER, Direction.DEEPER)
    if correction.adjust is Adjust.HEIGHT:
        if setting.machine in _TABLES:
            return (
                f"{'raise' if farther else 'lower'} the {'blade' if setting.machine is MachineKind.TABLE_SAW else 'cutter'} by x"
            )
        return f"set it x {'deeper' if farther else 'shallower'}"
    extra = correction.adjust is Adjust.LAST_FENCE and len(setting.fences) == 1 and setting.role is Role.CHANNEL
    where = f"x {_way(setting, farther=farther)}"
    if extra:
        return f"run it again with the {_guide(setting)} {where}"
    last = " for the last pass" if correction.adjust is Adjust.LAST_FENCE and len(setting.fences) > 1 else ""
    return f"move the {_guide(setting)} {where}{last}"


def _guide(setting: Setting) -> str:
    return {Guide.CENTRE_LINE: "line", Guide.GAUGED_LINE: "line"}.get(setting.guide, setting.guide.value)


def _way(setting: Setting, *, farther: bool) -> str:
    if setting.guide in (Guide.FENCE, Guide.EDGE_GUIDE):
        return "away from the cutter" if farther else "towards the cutter"
    word = setting.works[0].fence_word
    return f"away from the {word}" if farther else f"towards the {word}"
