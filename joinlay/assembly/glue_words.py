"""What is said of a glue-up at the bench: what it is, how long it takes, where its clamps stand, what stays dry, and when it is
done.

Sentences only, for the terminal and for paper alike; what they say is in ``glue_ups`` and ``timetable``.
"""

from __future__ import annotations

from itertools import groupby
from math import ceil
from typing import TYPE_CHECKING, Final

from joinlay.assembly.edge_joints import PSI
from joinlay.assembly.glue_ups import Hold
from joinlay.assembly.steps import fasteners_word, no_glue_on, parts_named
from joinlay.boards.meeting import Way
from joinlay.boards.names import in_few_words, listed
from joinlay.lengths import Fraction, Length, Unit, decimal_text, inches, mm

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.assembly.clamping import ClampRow
    from joinlay.assembly.edge_joints import GluedPanel
    from joinlay.assembly.glue_ups import GlueUp
    from joinlay.assembly.timetable import Slot, Timetable
    from joinlay.lengths import Graduation
    from joinlay.shop import Clamps, Glue

__all__ = [
    "clamps_owned_words",
    "clamps_words",
    "cure_words",
    "dry_words",
    "glue_up_name",
    "glue_up_words",
    "hours_words",
    "minutes_words",
    "opening_of",
    "row_words",
    "runs_of",
    "slot_rows",
    "split_words",
    "timetable_words",
]

#: How clamps lie that press a way.
_LIE: Final = {
    Way.RIGHT: "from side to side",
    Way.LEFT: "from side to side",
    Way.FRONT: "from front to back",
    Way.BACK: "from front to back",
    Way.UP: "upright",
    Way.DOWN: "upright",
}


def minutes_words(seconds: int) -> str:
    """A time at the bench, up to the next half minute: ``6 min``, ``5 1/2 min`` (PT-3)."""
    halves = ceil(Fraction(seconds, 30))
    whole, half = divmod(halves, 2)
    return f"{whole} 1/2 min" if half and whole else "1/2 min" if half else f"{whole} min"


def hours_words(minutes: int) -> str:
    """A longer time: ``50 min``, ``1 h``, ``2 h 20 min`` (PT-9)."""
    hours, left = divmod(minutes, 60)
    return " ".join(part for part in (f"{hours} h" if hours else "", f"{left} min" if left or not hours else "") if part)


def glue_up_name(glue_up: GlueUp) -> str:
    """What is glued up: ``face frame, first of two``, ``drawers 1 to 4, each by itself``, ``8 guides, 4 at a time``."""
    if glue_up.steps[0].is_whole:
        roles = [move.moving[0] for go in glue_up.goes for move in go.moves]
        if len(roles) == 1:
            return glue_up.goes[0].of if len(glue_up.goes[0].moves[0].moving) > 1 else roles[0].short
        name = parts_named(roles).removeprefix("the ")
        few = f", {glue_up.at_once} at a time" if glue_up.hold is Hold.CLAMPS and glue_up.at_once < len(glue_up.goes) else ""
        return f"{name}{few}"
    name = in_few_words(glue_up.of)
    if len(glue_up.of) > 1:
        name = f"{name.replace('drawer', 'drawers', 1)}, each by itself"
    if glue_up.hold is Hold.ITSELF:
        return f"{name}: loose tenons"
    return name if glue_up.split is None else f"{name}, {'first' if glue_up.split[0] == 1 else 'second'} of two"


def glue_up_words(glue_up: GlueUp, glue: Glue) -> str:
    """How much it is and how long it takes, and why it is split: ``4 surfaces and 8 clamps: 6 min of the 8 min the glue is
    open`` (PT-3).
    """
    most = glue_up.most
    what = [f"{most.surfaces} surface{'' if most.surfaces == 1 else 's'}"]
    if most.clamp_count:
        what.append(f"{most.clamp_count} clamp{'' if most.clamp_count == 1 else 's'}")
    if most.fasteners:
        what.append(f"{most.fasteners} {fasteners_word(most.glued)}")
    many = len(glue_up.goes) > 1
    said = (
        f"{'up to ' if glue_up.is_of_drawers and many else ''}{listed(what)}{' each' if many else ''}: "
        f"{minutes_words(most.seconds)}"
    )
    if glue_up.hold in (Hold.ITSELF, Hold.FASTENERS):
        return f"{said}, one after the other"
    whose = "your" if glue.is_written else "the usual"
    split = f"; {why}" if (why := split_words(glue_up)) else ""
    if most.open_seconds > glue.open_time:
        return f"{said}, longer than the {minutes_words(glue.open_time)} that {whose} glue is open{split}"
    return f"{said} of the {minutes_words(glue.open_time)} that {whose} glue is open{split}"


def split_words(glue_up: GlueUp) -> str:
    """Why it is split, and what stands dry meanwhile; empty for what is whole, and for its second half (PT-3)."""
    if glue_up.split is None or glue_up.split[0] > 1:
        return ""
    at_once = f"all at once it would take {minutes_words(glue_up.whole_seconds)}"
    return f"{at_once}; put the rest on without glue meanwhile, to hold it square"


def cure_words(glue_up: GlueUp, glue: Glue) -> str:
    """What then, until the next step: ``leave it in its clamps for 1 h`` (PT-9)."""
    time = hours_words(ceil(Fraction(glue.clamp_time, 60)))
    return {
        Hold.CLAMPS: f"leave it in its clamps for {time}",
        Hold.FASTENERS: f"the {fasteners_word(glue_up.most.glued)} hold it: go on at once",
        Hold.RUBBED: f"rub each to and fro until it grips, and leave it alone for {time}",
        Hold.ITSELF: f"no clamps; let them set for {time}",
    }[glue_up.hold]


def clamps_words(glue_up: GlueUp, rule: Graduation) -> tuple[str, ...]:
    """Where its clamps stand, in a sentence for those that stand alike; none where there are none (PT-4)."""
    if len(glue_up.goes) > 1 and not glue_up.is_of_drawers:
        return tuple(_rows_words([row], rule, "each") for row in glue_up.most.clamps)
    return tuple(_rows_words(rows, rule) for rows in _alike(glue_up.most.clamps, rule))


def row_words(row: ClampRow, rule: Graduation) -> str:
    """Where the clamps of one row stand: ``4 clamps from side to side, along the bottom, 6 1/8 in apart ...`` (PT-4)."""
    return _rows_words([row], rule)


def opening_of(reach: Length, rule: Graduation) -> Length:
    """How far clamps must open, as it is told: up to the next 1/4 in or 5 mm (PT-4)."""
    step = inches("1/4") if rule.unit is Unit.INCH else mm(5)
    return Length(ceil(reach.mm / step.mm) * step.mm)


def _alike(rows: Sequence[ClampRow], rule: Graduation) -> Iterator[list[ClampRow]]:
    """Rows that are told in the same words but for what they stand on."""
    found: dict[tuple[str, int, str, str], list[ClampRow]] = {}
    for row in rows:
        apart = rule.text(rule.round(row.apart)) if row.count > 1 else ""
        found.setdefault((_LIE[row.way], row.count, apart, rule.text(opening_of(row.reach, rule))), []).append(row)
    yield from found.values()


def _rows_words(rows: Sequence[ClampRow], rule: Graduation, on: str = "") -> str:
    row = rows[0]
    count = sum(one.count for one in rows)
    on = on or parts_named([one.along for one in rows])
    if row.count == 1:
        where = f"over {on}" if len(rows) == 1 else f"one over each of {on}"
    else:
        where = f"along {on}" if len(rows) == 1 else f"{row.count} along each of {on}"
        where += f", {rule.text(rule.round(row.apart))} apart, the first half of that from the end"
    lies = f"{count} clamp{'' if count == 1 else 's'} {_LIE[row.way]}"
    return f"{lies}, {where}; to open {rule.text(opening_of(row.reach, rule))}, cauls included"


def runs_of(sizes: Sequence[str]) -> str:
    """Sizes in their order, those alike that follow each other counted: ``5 of 3 1/2 in and 1 of 3 in``."""
    return listed([f"{len(list(same))} of {size}" for size, same in groupby(sizes)])


def panel_words(panel: GluedPanel, rule: Graduation) -> str:
    """How parts are glued up from boards edge to edge, and their clamps (PN-1, PT-4)."""
    low, high = panel.pressure
    pressure = f"{low} to {high} lb/in2" if rule.unit is Unit.INCH else f"{_newtons(low)} to {_newtons(high)} N/mm2"
    wide = f"of {rule.text(rule.up(panel.board))} or wider"
    if panel.widths:
        wide = f"({runs_of([rule.text(rule.round(width)) for width in panel.widths])} wide once they are joined)"
    return (
        f"{in_few_words(role.name for role in panel.parts)}: {panel.boards} boards {wide}, edge to edge: "
        f"{panel.clamps} clamps by turns above and below, {rule.text(rule.round(panel.apart))} apart, the first "
        f"half of that from the end; "
        f"to open {rule.text(opening_of(panel.reach, rule))}, cauls included; the glue wants {pressure}"
    )


def _newtons(psi: int) -> str:
    return decimal_text(psi * PSI, 1)


def dry_words(glue_up: GlueUp) -> str:
    """What stays without glue: ``no glue on the bottom, which stays loose in its grooves``; empty where nothing does (PT-7).

    A solid bottom is glued into one of its grooves, and may move in the others.
    """
    loose = list(dict.fromkeys(met.one for met in glue_up.most.dry))
    held = {met.one: met.other for met in glue_up.most.glued if met.one in loose}
    if not loose:
        return ""
    if held:
        name, into = next((one.short, other.short) for one, other in held.items())
        return f"glue on the {name} in the groove of the {into} only; in the others it stays loose"
    return no_glue_on(loose)


def timetable_words(timetable: Timetable, *, is_said: bool) -> str:
    """How long it all takes: ``5 h 28 min of work in 7 spells on 2 days``, and with which clamps (PT-9).

    ``is_said`` is True where the maker said what clamps there are.
    """
    spells = f"{timetable.spells} spell{'' if timetable.spells == 1 else 's'}"
    days = f"{timetable.days} day{'' if timetable.days == 1 else 's'}"
    text = f"{hours_words(timetable.minutes)} of work in {spells} on {days}"
    return text if is_said or not timetable.clamps else f"{text}, with as many clamps as the largest glue-up takes"


def clamps_owned_words(clamps: Sequence[Clamps], rule: Graduation) -> str:
    """Clamps by their length: ``16 that open 4 in, 8 that open 38 in`` (PT-4)."""
    return ", ".join(f"{some.count} that open {rule.text(opening_of(some.length, rule))}" for some in clamps)


def slot_rows(timetable: Timetable) -> tuple[tuple[str, str, str, str], ...]:
    """A line for each slot: when, what, how long, and what is done while it cures (PT-9).

    Times count from when the day's work begins.
    """
    return tuple(
        (
            f"day {slot.day}, {_clock(slot.start)}",
            f"{slot.glue_up.number}. {_what(slot)}",
            hours_words(slot.stop - slot.start),
            _then(timetable, slot),
        )
        for slot in timetable.slots
    )


def _clock(minutes: int) -> str:
    hours, left = divmod(minutes, 60)
    return f"{hours}:{left:02}"


def _what(slot: Slot) -> str:
    if len(slot.goes) == len(slot.glue_up.goes):
        return glue_up_name(slot.glue_up).partition(", each")[0]
    if slot.glue_up.is_of_drawers:
        tenons = ": loose tenons" if slot.glue_up.hold is Hold.ITSELF else ""
        name = in_few_words(go.of for go in slot.goes)
        return f"{name.replace('drawer', 'drawers', 1) if len(slot.goes) > 1 else name}{tenons}"
    return parts_named([go.moves[0].moving[0] for go in slot.goes]).removeprefix("the ")


def _then(timetable: Timetable, slot: Slot) -> str:
    if slot.free == slot.stop:
        return "go on at once"
    later = any((other.day, other.start) > (slot.day, slot.start) for other in timetable.slots)
    numbers = list(dict.fromkeys(str(other.glue_up.number) for other in timetable.meanwhile(slot)))
    cures = f"cures until {_clock(slot.free)}" if later else "cures"
    return f"{cures}; meanwhile {listed(numbers)}" if numbers else cures
