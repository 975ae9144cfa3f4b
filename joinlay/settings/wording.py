"""Settings in the maker's words: how the work lies, what to set, which way to feed, what a test piece shows. Used by cards and
terminal alike.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.boards import CutUse
from joinlay.boards.names import in_few_words, listed
from joinlay.errors import BadInput
from joinlay.lengths import Fraction, Length, Unit, decimal_text
from joinlay.settings.elements import Adjustment, Guide, Role
from joinlay.settings.feeding import Wall
from joinlay.settings.figures import Adjust, Direction, Measured, Value
from joinlay.shop import MachineKind

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

    from joinlay.boards import PartKind
    from joinlay.findings import Finding
    from joinlay.lengths import Graduation
    from joinlay.settings.elements import Pass, PlainCut, Stops, Work
    from joinlay.settings.figures import Correction, Reading
    from joinlay.settings.setting import BandsFirst, Setting, SettingsList

__all__ = [
    "band_words", "beside_words", "change_words", "correction_pairs", "correction_words", "cut_words", "effect_words",
    "is_turned", "lie_words", "lying_together", "machine_words", "measure_words", "offset_words", "order_words",
    "position_clauses", "position_words", "put_right_words", "reading_words", "remainder_words", "said_on", "set_up_words",
    "small_words", "speed_words", "stop_words", "told_together", "touch_words", "value_words",
]  # fmt: skip

_TABLES: Final = (MachineKind.ROUTER_TABLE, MachineKind.TABLE_SAW)


def cut_words(setting: Setting) -> str:
    """What is cut and in which kind of part: ``front and back dado in drawer sides``."""
    boards = {part: set[str]() for work in setting.works for part in work.parts}
    for work in setting.works:
        for part, board in zip(work.parts, work.boards, strict=True):
            boards[part].add(board)
    cuts = tuple(dict.fromkeys(cut for work in setting.works for cut in work.plain_cuts))
    return f"{_cuts_words(cuts)} in {_parts_words([(part, len(found)) for part, found in boards.items()])}"


def _cuts_words(cuts: Sequence[PlainCut]) -> str:
    """Cuts, a word they all begin or end with said once: ``front and back dado``, ``screw hole and slot``."""
    if len(cuts) > 1 and all(cut.at for cut in cuts) and len({cut.use for cut in cuts}) == 1:
        return f"{listed([cut.at for cut in cuts])} {cuts[0].use.value}"
    if {cut.use for cut in cuts} == {CutUse.SCREW_HOLE, CutUse.SCREW_SLOT}:
        return "screw hole and slot"
    if {cut.use for cut in cuts} == {CutUse.SHAPED_SLOT, CutUse.SHAPED_END}:
        return "shaped slot and tongue"
    return ", ".join(cut.words for cut in cuts)


def _parts_words(kinds: Sequence[tuple[PartKind, int]]) -> str:
    """Kinds of parts, more than one in the plural; what they are all part of is said once: ``drawer sides and backs``."""
    are_of_one = len({kind.whole for kind, _ in kinds}) == 1 and all(kind.noun != kind.value for kind, _ in kinds)
    said = [f"{kind.noun if n and are_of_one else kind.value}{'s' if count > 1 else ''}" for n, (kind, count) in enumerate(kinds)]
    return listed(said)


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
    """The works by how they lie. Parts that are only turned end for end are told once: ``left end, then right end to the
    fence``.
    """
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


def is_turned(setting: Setting, work: Work) -> bool:
    """True where the parts of ``work`` go through again, turned end for end or edge for edge."""
    return sum((one.boards, one.positions, one.stops) == (work.boards, work.positions, work.stops) for one in setting.works) > 1


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
    return str(value.value).replace("fence", "edge guide") if setting.guide is Guide.EDGE_GUIDE else str(value.value)


def reading_words(setting: Setting, reading: Reading) -> str:
    """One value to set, as it stands on the maker's rule, with what is left over."""
    return f"{value_words(setting, reading.value)} {reading.on_rule.text}"


def beside_words(setting: Setting, reading: Reading, show: Callable[[Length], str]) -> str:
    """The same fence by another side of the cutter: ``its middle 3/8 in``, ``its near side 1/4 in``; '' for a height and for a
    line. MS-1.
    """
    at = next((each for each in setting.passes if _set_by(setting, each, reading.value) == reading.exact), None)
    if at is None:
        return ""
    if reading.value in (Value.CENTRE, Value.FAR_SIDE, Value.STRAIGHTEDGE):
        said, other = "near side", at.near_side
    else:
        said, other = "middle", at.near_side + setting.tool.width / 2
    if other.mm < 0:
        return f"cutter sunk {show(abs(other))} in the fence"
    begins = f" from the {setting.works[0].fence_word}" if reading.value is Value.STRAIGHTEDGE else ""
    return f"{said}{begins} {show(other)}"


def _set_by(setting: Setting, each: Pass, value: Value) -> Length | None:
    """What ``value`` is at this pass."""
    return {
        Value.NEAR_SIDE: each.near_side,
        Value.CENTRE: each.near_side + setting.tool.width / 2,
        Value.FAR_SIDE: each.near_side + setting.tool.width,
        Value.STRAIGHTEDGE: each.guide,
    }.get(value)


def stop_words(stops: Stops, show: Callable[[Length], str], *, at_table: bool) -> str:
    """Where the cut begins and ends: by stops on a table, by marks under a hand-held router."""
    if at_table:
        named = (("in-feed stop", stops.infeed_stop), ("out-feed stop", stops.outfeed_stop))
        said = ", ".join(f"{name} {show(size)}" for name, size in named if size is not None)
        return f"{stops.leading_word} first; {said} from the far side of the cutter"
    named = (("begin", stops.begin), ("end", stops.finish))
    said = ", ".join(f"{name} {show(size)} from it" for name, size in named if size is not None)
    return f"{stops.leading_word} first; {said}"


def position_words(setting: Setting, work: Work, show: Callable[[Length], str]) -> str:
    """Where mortises or holes stand: their middles along from the reference, and the pencil line they lie on where they lie on
    one.

    A mortise's length, width and depth go with it; where lengths differ, each stands with its middle (MS-1). '' where there are
    none.
    """
    return said_on(position_clauses(setting, work, show))


def position_clauses(setting: Setting, work: Work, show: Callable[[Length], str]) -> tuple[str, ...]:
    """The same in pieces, each with what goes before it where it follows another: what parts of a card have in common is said
    once (PR-11).
    """
    lines = list(dict.fromkeys(position.line for position in work.positions))
    is_mortise = setting.role is Role.MORTISE
    lengths = {position.width for position in work.positions}
    each_long = is_mortise and len(lengths) > 1
    said: list[str] = []
    for line in lines:
        centres = ", ".join(
            show(position.centre) + (f" ({show(position.width)} long)" if each_long else "")
            for position in work.positions
            if position.line == line
        )
        said += [f"; middles {centres}", f" from the {work.positions_from}"]
        if line is not None:
            said.append(f", on a line {show(line)} from the {work.fence_word}")
    if is_mortise and said:
        sides = [side for each in setting.passes for side in (each.near_side.mm, each.near_side.mm + setting.tool.width.mm)]
        wide = f"{show(Length(max(sides) - min(sides)))} wide, {show(setting.height)} deep"
        said += [f"; each {wide}"] if each_long else [f"; each {show(lengths.pop())} long", f", {wide}"]
    return tuple(said)


def said_on(clauses: Iterable[str]) -> str:
    """Pieces of a sentence as one, without what would go before the first."""
    return "".join(clauses).lstrip(";, ")


def change_words(setting: Setting) -> str:
    """What has to be touched before this card: ``new fence and height``."""
    if not setting.changes:
        return touch_words(setting) if setting.machine is MachineKind.BENCH else "touch nothing"
    return f"new {touch_words(setting)}"


def offset_words(setting: Setting, show: Callable[[Length], str]) -> str:
    """How far the straightedge stands from the near wall, and what to do where the router isn't known; '' without a
    straightedge. MS-5.
    """
    if setting.offset is None:
        return ""
    return (
        f"straightedge to the near wall {show(setting.offset)}, by base and cutter: try yours on scrap, and "
        f"write its offset under [shop]"
    )


def touch_words(setting: Setting) -> str:
    """The same in a word or two, for a column: ``cutter``, ``fence and height``, ``nothing``; work at the bench is ``by
    hand``.
    """
    if setting.machine is MachineKind.BENCH:
        return "by hand"
    if Adjustment.CUTTER in setting.changes:
        return "cutter"
    return " and ".join(change.value for change in setting.changes) or "nothing"


def order_words(found: SettingsList) -> str:
    """How many cards, cutter changes and set-ups there are, and what taking part after part would take. Rule MS-3."""
    cards, cutters, set_ups = len(found.settings), found.cutter_changes, found.set_ups
    if _is_all_hand_work(found):
        return f"{_counted(cards, 'card')}, all hand work."
    best = "" if found.is_proved else " A job this large is ordered step by step; a better order may exist."
    return (
        f"{_counted(cards, 'card')}, {_counted(cutters, 'cutter change')}, {_counted(set_ups, 'set-up')} where "
        f"taking part after part "
        f"would need {found.naive_set_ups}.{best}"
    )


def set_up_words(found: SettingsList) -> str:
    """What is counted as a set-up, since it is not the number of cards; '' where nothing is set up at all. Rule MS-3."""
    if _is_all_hand_work(found):
        return ""
    return (
        "A set-up is each time that cutter, fence or height is set: a card with two heights takes two, one "
        "that touches nothing none."
    )


def _is_all_hand_work(found: SettingsList) -> bool:
    return all(setting.machine is MachineKind.BENCH for setting in found.settings)


def _counted(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"


def told_together(findings: Iterable[Finding]) -> Iterator[Finding]:
    """Findings that differ in nothing but their place as one, its places in few words."""
    places: dict[tuple[object, ...], list[Finding]] = {}
    for finding in findings:
        key = (finding.harm, finding.what, finding.remedy, *((name, str(number)) for name, number in finding.numbers.items()))
        places.setdefault(key, []).append(finding)
    for same in places.values():
        yield replace(same[0], where=in_few_words(dict.fromkeys(finding.where for finding in same)))


def band_words(bands: BandsFirst) -> str:
    """What has to be banded before a card: ``drawer 1 to 3 front: band the left end and right end, and trim it, before card
    2``. EB-1.
    """
    how, then = ("lip", "plane it flush") if bands.is_lipping else ("band", "trim")
    said = f"{how} the {listed(bands.edges)} and {then}, before card {bands.number}"
    return f"{in_few_words(bands.boards)}: {said}, which counts from the finished edges"


def speed_words(setting: Setting) -> str:
    """The speed, and that the marking on the cutter governs (MS-9); '' where the machine has its own."""
    if setting.speed is None:
        return ""
    return f"{setting.speed // 1000} 000 rpm at most; the marking on the cutter governs"


# -- what decides a fit -------------------------------------------------------------------------------------


#: What becomes of the fit where a measure comes out larger, and where it comes out smaller.
_EFFECT: Final = {
    Measured.WIDTH: ("the joint is that much looser", "the joint is that much tighter"),
    Measured.TONGUE_THICKNESS: ("the joint is that much tighter", "the joint is that much looser"),
    Measured.WOOD_LEFT: ("what is left fits that much tighter", "what is left fits that much looser"),
    Measured.DEPTH: ("there is that much more room at the bottom", "that much less room at the bottom"),
    Measured.TONGUE_LENGTH: ("that much less room past its tip", "that much more room past its tip"),
    Measured.STEP_WIDTH: ("what goes in has that much more room", "what goes in has that much less room"),
    Measured.FROM_FENCE: ("its mate sits that much off its place", "its mate sits that much off its place"),
    Measured.CENTRE: ("the parts meet that much off flush", "the parts meet that much off flush"),
    Measured.BELOW_SLOT: ("the joint is that much tighter", "the joint is that much looser"),
    Measured.SLOT_DEPTH: ("what goes in has that much more room", "what goes in stands that much out"),
}


def effect_words(reading: Reading) -> str:
    """What the remainder does to the fit of the joint: ``the joint is that much tighter``; '' where nothing is left over or
    depends on it. MS-2.
    """
    if reading.affects is None or not reading.by:
        return ""
    return _EFFECT[reading.affects][0 if reading.by.mm > 0 else 1]


def remainder_words(reading: Reading, rule: Graduation) -> str:
    """What the remainder does: to the measure and to the fit, '' where nothing is left over or nothing depends on it (MS-2).

    Less than callipers show, half a thousandth of an inch or a two-hundredth of a millimetre, is nothing left over.
    """
    is_inch = rule.unit is Unit.INCH
    if reading.affects is None or not round(abs(reading.by.inches if is_inch else reading.by.mm), 3 if is_inch else 2):
        return ""
    more = "larger" if reading.by.mm > 0 else "smaller"
    is_gauged = reading.value in (Value.NEAR_LINE, Value.FAR_LINE)
    measured = _sided(reading.affects.value, is_gauged=is_gauged)
    return f"set to the mark, {measured} is {small_words(abs(reading.by), rule)} {more}: {effect_words(reading)}"


def small_words(length: Length, rule: Graduation) -> str:
    """A length under a mark of the rule, as a decimal: ``0.014 in`` rather than ``1/32 in - 0.017 in``. Rule MS-2."""
    if rule.unit is Unit.INCH:
        return f"{decimal_text(length.inches, 3)} in"
    return f"{decimal_text(length.mm, 2)} mm"


#: What a measure is called on the test piece, and the words for too much and too little of it.
_MEASURED: Final = {
    Measured.FROM_FENCE: ("fence side to near wall", "too far from the fence side", "too near the fence side"),
    Measured.CENTRE: ("fence side to middle", "too far from the fence side", "too near the fence side"),
    Measured.WIDTH: ("width", "too wide", "too narrow or its mate too tight"),
    Measured.DEPTH: ("depth", "too deep", "too shallow"),
    Measured.TONGUE_THICKNESS: ("tongue thickness", "tongue too thick or too tight", "tongue too thin or too loose"),
    Measured.TONGUE_LENGTH: ("tongue length", "tongue too long", "tongue too short"),
    Measured.STEP_WIDTH: ("rabbet width", "rabbet too wide", "rabbet too narrow"),
    Measured.WOOD_LEFT: ("wood left", "wood left too thick or too tight", "wood left too thin or too loose"),
    Measured.BELOW_SLOT: (
        "wood below the slot",
        "wood below the slot too thick or too tight",
        "wood below the slot too thin or too loose",
    ),
    Measured.SLOT_DEPTH: ("slot depth", "slot too deep", "slot too shallow"),
}


def measure_words(setting: Setting, show: Callable[[Length], str]) -> str:
    """What the test piece must measure."""
    said = ", ".join(f"{_MEASURED[measure.measured][0]} {show(measure.value)}" for measure in setting.test_piece.measures)
    return _notched(_sided(said, is_gauged=setting.guide is Guide.GAUGED_LINE), setting)


def _sided(said: str, *, is_gauged: bool) -> str:
    """Work that is marked has no fence: its side is the one its lines are gauged from."""
    return said.replace("fence side", "gauged side") if is_gauged else said


#: Cuts that are no rabbet where they take a corner of a part.
_NOTCHES: Final = (CutUse.NOTCH, CutUse.TOE_NOTCH)


def _notched(said: str, setting: Setting) -> str:
    """A step through the whole thickness is no rabbet to whoever saws it."""
    is_notch = all(cut.use in _NOTCHES for work in setting.works for cut in work.plain_cuts)
    return said.replace("rabbet", "notch") if is_notch else said


def correction_words(setting: Setting, correction: Correction) -> str:
    """What to move, which way and by how much: ``tongue too thick by x: move the fence x towards the cutter``."""
    fault = _sided(_MEASURED[correction.measured][1 if correction.is_over else 2], is_gauged=setting.guide is Guide.GAUGED_LINE)
    fault = _notched(fault, setting)
    return f"{fault} by x: {_moving(setting, correction)}"


def correction_pairs(setting: Setting) -> tuple[str, ...]:
    """The corrections two and two, too much and too little of one measure on a line; where there is one only, that."""
    said: dict[Measured, str] = {}
    for each in setting.test_piece.corrections:
        if each.measured in said:
            other = _sided(_MEASURED[each.measured][2], is_gauged=setting.guide is Guide.GAUGED_LINE)
            said[each.measured] += f"; {other}: the other way"
        else:
            said[each.measured] = correction_words(setting, each)
    return tuple(said.values())


#: Too much and too little of a measure, behind a figure.
_OFF: Final = {
    Measured.FROM_FENCE: ("too far from the fence side", "too near the fence side"),
    Measured.CENTRE: ("too far from the fence side", "too near the fence side"),
    Measured.WIDTH: ("too wide", "too narrow"),
    Measured.STEP_WIDTH: ("too wide", "too narrow"),
    Measured.DEPTH: ("too deep", "too shallow"),
    Measured.TONGUE_THICKNESS: ("too thick", "too thin"),
    Measured.WOOD_LEFT: ("too thick", "too thin"),
    Measured.TONGUE_LENGTH: ("too long", "too short"),
    Measured.BELOW_SLOT: ("too thick", "too thin"),
    Measured.SLOT_DEPTH: ("too deep", "too shallow"),
}

#: A test piece that is further off than this was measured wrong, or cut on another card.
_SLIP: Final = Length(Fraction(3))


def put_right_words(setting: Setting, measured: Measured, found: Length, rule: Graduation) -> str:
    """What to move where the test piece's ``measured`` came out as ``found``: ``5.9 mm is 0.1 mm too deep: set it 0.1 mm
    shallower``.

    It is as it should be where callipers can show no difference. Raises BadInput for a measure the card's test piece hasn't, and
    for one more than 3 mm off, which is a slip. Rule MS-1.
    """
    wanted = next((each.value for each in setting.test_piece.measures if each.measured is measured), None)
    if wanted is None:
        raise BadInput(f"the test piece of card {setting.number} has no {measured.value} to measure.")
    off = Length(found.mm - wanted.mm)
    shown, by = rule.callipers(found), small_words(abs(off), rule)
    if by == small_words(Length(Fraction(0)), rule):
        return f"{shown} is right: leave it as it stands."
    if abs(off.mm) > _SLIP.mm:
        return f"{shown} is {by} off; that looks like a slip: measure again, and see that this is the card it was cut by."
    correction = setting.test_piece.correction(measured, is_over=off.mm > 0)
    fault = _sided(_OFF[measured][0 if off.mm > 0 else 1], is_gauged=setting.guide is Guide.GAUGED_LINE)
    if correction is None:
        return (
            f"{shown} is {by} {fault}. No setting changes that: the cut is as wide as the cutter makes it. "
            f"Measure again; if it stays so, "
            f"write the width it cuts under [shop] and plan anew."
        )
    return f"{shown} is {by} {fault}: {_moving(setting, correction, by)}."


def _moving(setting: Setting, correction: Correction, by: str = "x") -> str:
    farther = correction.direction in (Direction.FARTHER, Direction.DEEPER)
    if correction.adjust is Adjust.HEIGHT:
        if setting.machine in _TABLES:
            return (
                f"{'raise' if farther else 'lower'} the "
                f"{'blade' if setting.machine is MachineKind.TABLE_SAW else 'cutter'} by {by}"
            )
        return f"set it {by} {'deeper' if farther else 'shallower'}"
    where = f"{by} {_way(setting, farther=farther)}"
    return _widening(setting, where) if correction.adjust is Adjust.FAR_FENCE else f"move the {_guide(setting)} {where}"


def _widening(setting: Setting, where: str) -> str:
    """Moving the pass that cuts the far wall: which one that is belongs to the way of guiding (MS-6)."""
    far_goes_first = setting.feeding is not None and setting.feeding.fresh is Wall.NEAR
    if len(setting.fences) > 1:
        return f"move the {_guide(setting)} {where} for the {'first' if far_goes_first else 'last'} pass"
    if setting.role is not Role.CHANNEL:
        return f"move the {_guide(setting)} {where}"
    if setting.machine is MachineKind.BENCH:
        return f"pare the far wall {where}"
    if far_goes_first:
        # A run more with the far wall fresh would climb, so the far wall is cut before the near one (MS-6).
        return f"make it two passes, the first with the {_guide(setting)} {where}"
    return f"run it again with the {_guide(setting)} {where}"


def _guide(setting: Setting) -> str:
    return {Guide.CENTRE_LINE: "line", Guide.GAUGED_LINE: "line"}.get(setting.guide, setting.guide.value)


def _way(setting: Setting, *, farther: bool) -> str:
    if setting.guide in (Guide.FENCE, Guide.EDGE_GUIDE):
        return "away from the cutter" if farther else "towards the cutter"
    word = setting.works[0].fence_word
    return f"away from the {word}" if farther else f"towards the {word}"
