"""Settings in the maker's words: how the work lies, what to set, what to move. Used by the cards and the terminal alike."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.boards.names import in_few_words
from joinlay.settings.cut_names import kind_of_cut
from joinlay.settings.elements import Change, Guide
from joinlay.settings.reading import Value
from joinlay.shop import MachineKind

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

    from joinlay.findings import Finding
    from joinlay.lengths import Length
    from joinlay.settings.bands import BandsFirst
    from joinlay.settings.elements import Pass, Stops, Work
    from joinlay.settings.reading import Reading
    from joinlay.settings.setting import Setting, SettingsList

__all__ = [
    "band_words", "beside_words", "change_words", "cut_words", "is_turned", "lie_words", "lying_together", "machine_words", "offset_words",
    "order_words", "position_words", "reading_words", "set_up_words", "speed_words", "stop_words", "told_together", "touch_words", "value_words",
]  # fmt: skip

_TABLES: Final = (MachineKind.ROUTER_TABLE, MachineKind.TABLE_SAW)


def cut_words(setting: Setting) -> str:
    """What is cut and in which kind of part: ``front and back dado in drawer sides``."""
    names = dict.fromkeys(kind_of_cut(name) for names in setting.cut_names for name in names.split(", "))
    boards = {part: set[str]() for work in setting.works for part in work.parts}
    for work in setting.works:
        for part, board in zip(work.parts, work.boards, strict=True):
            boards[part].add(board)
    return f"{_cuts_words(list(names))} in {_parts_words([(part, len(found)) for part, found in boards.items()])}"


def _cuts_words(names: Sequence[str]) -> str:
    """Cuts, a word they all begin or end with said once: ``front and back dado``, ``screw hole and slot``."""
    split = [name.split() for name in names]
    if len(names) > 1 and all(len(name) == 2 for name in split):
        if len({last for _, last in split}) == 1:
            return f"{_listed([first for first, _ in split])} {split[0][1]}"
        if len({first for first, _ in split}) == 1:
            return f"{split[0][0]} {_listed([last for _, last in split])}"
    return ", ".join(names)


def _listed(said: Sequence[str]) -> str:
    return " and ".join(filter(None, (", ".join(said[:-1]), said[-1])))


def _parts_words(kinds: Sequence[tuple[str, int]]) -> str:
    """Kinds of parts, more than one in the plural; a first word they share is said once: ``drawer sides and backs``."""
    first = {kind.split()[0] for kind, _ in kinds}
    shared = f"{first.pop()} " if len(first) == 1 and all(" " in kind for kind, _ in kinds) else ""
    said = [f"{kind.removeprefix(shared)}{'s' if count > 1 else ''}" for kind, count in kinds]
    return shared + _listed(said)


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
    """The same fence by another side of the cutter: ``its middle 3/8 in``, ``its near side 1/4 in``; '' for a height and for a line. MS-1."""
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


def position_words(work: Work, show: Callable[[Length], str]) -> str:
    """Where mortises or holes stand: their middles along from the reference, and the pencil line they lie on where they lie on one."""
    lines = list(dict.fromkeys(position.line for position in work.positions))
    said = []
    for line in lines:
        centres = ", ".join(show(position.centre) for position in work.positions if position.line == line)
        on = "" if line is None else f", on a line {show(line)} from the {work.fence_word}"
        said.append(f"middles {centres} from the {work.positions_from}{on}")
    return "; ".join(said)


def change_words(setting: Setting) -> str:
    """What has to be touched before this card: ``new fence and height``."""
    if not setting.changes:
        return touch_words(setting) if setting.machine is MachineKind.BENCH else "touch nothing"
    return f"new {touch_words(setting)}"


def offset_words(setting: Setting, show: Callable[[Length], str]) -> str:
    """How far the straightedge stands from the near wall, and what to do where the router isn't known; '' without a straightedge. MS-5."""
    if setting.offset is None:
        return ""
    return f"straightedge to the near wall {show(setting.offset)}, by base and cutter: try yours on scrap, and write its offset under [shop]"


def touch_words(setting: Setting) -> str:
    """The same in a word or two, for a column: ``cutter``, ``fence and height``, ``nothing``; work at the bench is ``by hand``."""
    if setting.machine is MachineKind.BENCH:
        return "by hand"
    if Change.CUTTER in setting.changes:
        return "cutter"
    return " and ".join(change.value for change in setting.changes) or "nothing"


def order_words(found: SettingsList) -> str:
    """How many cards, cutter changes and set-ups there are, and what taking part after part would take. Rule MS-3."""
    cards, cutters, set_ups = len(found.settings), found.cutter_changes, found.set_ups
    best = "" if found.is_proved else " A job this large is ordered step by step; a better order may exist."
    return (
        f"{_counted(cards, 'card')}, {_counted(cutters, 'cutter change')}, {_counted(set_ups, 'set-up')} where taking part after part "
        f"would need {found.naive_set_ups}.{best}"
    )


def set_up_words() -> str:
    """What is counted as a set-up, since it is not the number of cards. Rule MS-3."""
    return "A set-up is each time that cutter, fence or height is set: a card with two heights takes two, one that touches nothing none."


def _counted(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"


def told_together(findings: Iterable[Finding]) -> Iterator[Finding]:
    """Findings that differ in nothing but their place as one, its places in few words. No rule."""
    places: dict[tuple[object, ...], list[Finding]] = {}
    for finding in findings:
        key = (finding.harm, finding.what, finding.remedy, *((name, str(number)) for name, number in finding.numbers.items()))
        places.setdefault(key, []).append(finding)
    for same in places.values():
        yield replace(same[0], where=in_few_words(dict.fromkeys(finding.where for finding in same)))


def band_words(bands: BandsFirst) -> str:
    """What has to be banded before a card: ``drawer 1 to 3 front: band the left end and right end, and trim it, before card 2``. EB-1."""
    return f"{in_few_words(bands.boards)}: band the {_listed(bands.edges)} and trim, before card {bands.number}, which counts from the finished edges"


def speed_words(setting: Setting) -> str:
    """The speed, and that the marking on the cutter governs (MS-9); '' where the machine has its own."""
    if setting.speed is None:
        return ""
    return f"{setting.speed // 1000} 000 rpm at most; the marking on the cutter governs"
