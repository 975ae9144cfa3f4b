"""From runs to cards: equal ones on one card, the cards in their order, and what is remarked on each (MS-1 to MS-3)."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.boards import Axis, CutUse
from joinlay.boards.names import in_few_words
from joinlay.findings import note
from joinlay.lengths import mm
from joinlay.records import dataclass
from joinlay.settings.caution import Caution, cautions_for
from joinlay.settings.choice import Rank, choose, has_to_do_with
from joinlay.settings.elements import Adjustment, Guide, PlainCut, ToolKind, Work
from joinlay.settings.feeding import router_speed
from joinlay.settings.figures import FIT, Measured, Value, piece_to_test, readings_of
from joinlay.settings.one_set_up import one_set_up_findings
from joinlay.settings.ordering import MachineStand, best_order
from joinlay.settings.setting import BandsFirst, Setting, SettingsList
from joinlay.settings.wording import small_words
from joinlay.shop import MachineKind

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterator, Sequence

    from joinlay.boards import Board, Surface
    from joinlay.findings import Finding
    from joinlay.settings.choice import Choice, Run
    from joinlay.settings.ways import WayToCut
    from joinlay.shop import Shop

__all__ = ["cards_of", "settings_for"]

#: More than this on a tongue or a dado is felt when it is put together (Elek 2020: 0 to 0.1 mm).
_FELT: Final = mm("0.1")

_State = tuple["Hashable", "Hashable", "Hashable"]


def settings_for(boards: Sequence[Board], shop: Shop) -> SettingsList:
    """Every setting that cuts ``boards`` with what ``shop`` has, in the order to cut them, and what was found. Rules MS-1 to
    MS-9, DA-5, LR-5.
    """
    return cards_of(choose(boards, shop))


def cards_of(choice: Choice) -> SettingsList:
    """The runs of ``choice`` as cards, in the order to cut them.

    Parts that share machine, cutter, fence, height and orientation are on one card. A cut the shop can't make has none, but a
    finding that refuses it. Rules MS-1 to MS-3, LR-5.
    """
    other = choose(choice.boards, choice.shop, rather_wide=True)
    found = _listed(choice)
    if choice.made == other.made:
        return found
    # Which of two cutters a rabbet takes matters only to what is cut before and after it.
    return min(found, _listed(other), key=lambda each: (each.cutter_changes, each.set_ups))


def _listed(choice: Choice) -> SettingsList:
    runs = choice.runs
    drafts = drafts_of(runs)
    before = must_precede(drafts)
    order, is_proved = best_order([_step(draft) for draft in drafts], before)
    settings = tuple(_numbered([drafts[n] for n in order], choice.shop))
    place = {draft: n for n, draft in enumerate(order, start=1)}
    remarks = [*one_set_up_findings([drafts[n] for n in order])]
    for setting, n in zip(settings, order, strict=True):
        remarks.extend(remark.at(f"card {setting.number}") for remark in _remarks(setting, drafts[n], choice.shop))
    return SettingsList(
        settings=settings,
        findings=tuple(sorted(choice.findings, key=lambda finding: finding.harm)),
        remarks=tuple(remarks),
        set_ups=_set_ups([drafts[n].way for n in order]),
        naive_set_ups=_set_ups([run.way for run in runs]),
        cutter_changes=sum(Adjustment.CUTTER in setting.changes for setting in settings),
        first_then=tuple(sorted((place[i], place[j]) for i, j in before)),
        bands=bands_first([[run.board for run in drafts[n].runs] for n in order]),
        is_proved=is_proved,
    )


def _step(draft: Draft) -> MachineStand:
    states = _states(draft.way)
    return MachineStand(draft.way.machine, states[0], states[-1], frozenset(draft.joints))


def _states(way: WayToCut) -> list[_State]:
    """How the machine stands at each pass: cutter, fence, height. What is cut to a line on the work has no fence to set."""
    if way.guide in (Guide.CENTRE_LINE, Guide.GAUGED_LINE):
        return [(way.tool, way.guide, each.height) for each in way.passes]
    return [(way.tool, (way.guide, each.guide or each.near_side), each.height) for each in way.passes]


def _set_ups(ways: Sequence[WayToCut]) -> int:
    """How often something has to be set, running ``ways`` one after another; each machine stays as it was left."""
    standing: dict[MachineKind, _State] = {}
    count = 0
    for way in ways:
        for state in _states(way):
            count += way.machine is not MachineKind.BENCH and standing.get(way.machine) != state
            standing[way.machine] = state
    return count


def _changes(was: _State | None, now: _State) -> tuple[Adjustment, ...]:
    if was is None or was[0] != now[0]:
        return (Adjustment.CUTTER, Adjustment.FENCE, Adjustment.HEIGHT)
    return tuple(
        change for change, old, new in ((Adjustment.FENCE, was[1], now[1]), (Adjustment.HEIGHT, was[2], now[2])) if old != new
    )


def _numbered(drafts: Sequence[Draft], shop: Shop) -> Iterator[Setting]:
    standing: dict[MachineKind, _State] = {}
    done: list[WayToCut] = []
    for number, draft in enumerate(drafts, start=1):
        states = _states(draft.way)
        by_hand = draft.way.machine is MachineKind.BENCH
        changes = () if by_hand else _changes(standing.get(draft.way.machine), states[0])
        standing[draft.way.machine] = states[-1]
        set_up = _set_ups(done) + bool(changes)
        done.append(draft.way)
        yield _setting(number, set_up, _set_ups(done) - _set_ups(done[:-1]), changes, draft, shop)


def _setting(number: int, set_up: int, set_ups: int, changes: tuple[Adjustment, ...], draft: Draft, shop: Shop) -> Setting:
    way, works = draft.way, works_of(draft)
    boards = [run.board for run in draft.runs]
    made = Setting(
        number=number,
        set_up=set_up,
        set_ups=set_ups,
        machine=way.machine,
        guide=way.guide,
        tool=way.tool,
        role=way.role,
        passes=way.passes,
        works=works,
        joints=draft.joints,
        changes=changes,
        offset=way.offset,
        speed=router_speed(way.tool.width) if way.tool.kind in (ToolKind.CUTTER, ToolKind.SHAPED) else None,
        test_piece=piece_to_test(way, boards),
        readings=readings_of(way, shop.rule),
        cautions=cautions_for(
            way,
            [work.stops for work in works if work.stops is not None],
            is_small=any(_is_small(board, shop) for board in boards),
            is_short=any(_is_short(run, shop) for run in draft.runs),
            is_pared=any(run.squared for run in draft.runs),
            is_tall=any(_is_tall(run, shop) for run in draft.runs),
            is_through=any(
                board.size(run.way.how.entry.axis) <= way.passes[-1].height for board, run in zip(boards, draft.runs, strict=True)
            ),
        ),
        reason=draft.runs[0].reason,
    )
    return _without_line(made) if len(made.lines) > 1 else made


def _without_line(setting: Setting) -> Setting:
    """The same setting without the distance to its pencil line, where the parts have several: each says its own."""
    readings = tuple(reading for reading in setting.readings if reading.value is Value.HEIGHT)
    measures = tuple(each for each in setting.test_piece.measures if each.measured is not Measured.CENTRE)
    return replace(setting, readings=readings, test_piece=replace(setting.test_piece, measures=measures))


def _is_small(board: Board, shop: Shop) -> bool:
    """MS-6: a narrow or short part gets a push block."""
    limits = shop.machines.limits
    return board.width < limits.narrow or board.length < limits.short


def _is_short(run: Run, shop: Shop) -> bool:
    """True where a short side runs along the fence and a longer one sticks out from it, so that the work would twist."""
    how, board = run.way.how, run.board
    contact = board.size(how.feed)
    out = board.size(how.entry.axis if how.stands else how.fence.axis)
    return contact < shop.machines.limits.short and contact < out


def _is_tall(run: Run, shop: Shop) -> bool:
    """True where a part stands over the fence."""
    fence = shop.machines.fence_height(run.way.machine)
    return run.way.how.stands and fence is not None and run.board.size(run.way.how.entry.axis) > fence


def _remarks(setting: Setting, draft: Draft, shop: Shop) -> Iterator[Finding]:
    """What is good to know at this card; whether its cuts can be made at all, and safely, the choice has said."""
    for reading in setting.readings:
        if reading.affects is not None and reading.affects in FIT and abs(reading.by) > _FELT:
            more, by = "larger" if reading.by.mm > 0 else "smaller", small_words(abs(reading.by), shop.rule)
            yield note("rule", f"set to the mark alone, the {reading.affects.value} comes out {{by}} {more} than planned; "
                       "set it with the paper gauge or a test piece", "MS-2", "Elek 2020: 0 to 0.1 mm", by=by)  # fmt: skip
    if setting.machine is MachineKind.MORTISER:
        yield from _steps(setting, shop)
    if any(cut.use is CutUse.DOT_HOLE for work in setting.works for cut in work.plain_cuts):
        parting = shop.practice.length("parting allowance")
        yield note(
            "dot",
            "{away} of it is turned away with the face of the knob, so {left} are left for the dot; bore it before turning",
            "PU-2",
            "common practice",
            away=parting,
            left=setting.passes[-1].height - parting,
        )
    if any(board.tapers for board in (run.board for run in draft.runs)) and Caution.MANUAL in setting.cautions:
        yield note(
            "taper", "plane the taper after this cut, not before: it counts from the straight edge", "DR-4", "common practice"
        )


def _steps(setting: Setting, shop: Shop) -> Iterator[Finding]:
    """Which steps of the mortiser its depth, its fence and its widths are, by figure and by count (MS-10)."""
    machines = shop.machines
    stops, fences, widths = machines.depth_stops, machines.fence_steps, machines.width_steps
    depth = setting.passes[-1].height
    if depth in stops:
        yield note(
            "depth stop",
            "set its depth to the stop at {depth}, the {nth} of {count} from the shallowest",
            "MS-10",
            "common practice",
            depth=depth,
            nth=_ordinal(stops.index(depth) + 1),
            count=len(stops),
        )
    if setting.guide is Guide.FENCE and setting.centre in fences:
        yield note(
            "fence step",
            "set its fence to the step at {centre}, to the mortise's middle: the {nth} of {count} from the lowest",
            "MS-10",
            "common practice",
            centre=setting.centre,
            nth=_ordinal(fences.index(setting.centre) + 1),
            count=len(fences),
        )
    wanted = {
        position.width.mm: position.width for work in setting.works for position in work.positions if position.width in widths
    }
    for _, width in sorted(wanted.items()):
        yield note(
            "mortise width",
            "where a mortise is {width} wide, set its width to that step, the {nth} of {count} from the narrowest",
            "MS-10",
            "common practice",
            width=width,
            nth=_ordinal(widths.index(width) + 1),
            count=len(widths),
        )


def _ordinal(number: int) -> str:
    """``1st``, ``2nd``, ``11th``."""
    ending = "th" if number // 10 % 10 == 1 else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{ending}"


def bands_first(cards: Sequence[Sequence[Board]]) -> tuple[BandsFirst, ...]:
    """For each banded part, the first of ``cards`` (the boards of each, in the order to cut them) that it goes through.

    Fences, stops and positions count from the finished edges, and a board's sizes are the finished ones, so a part is banded and
    trimmed before it meets a machine at all. Parts banded alike before the same card are told together. Rules EB-1, EB-2, MS-1;
    common practice.
    """
    told: dict[tuple[int, tuple[str, ...], bool], list[str]] = {}
    seen: set[str] = set()
    for number, boards in enumerate(cards, start=1):
        for board in boards:
            if board.bands and board.name not in seen:
                edges = tuple(board.datum.word(band.surface) for band in sorted(board.bands, key=lambda band: band.order))
                is_lipping = any(band.width is not None for band in board.bands)
                told.setdefault((number, edges, is_lipping), []).append(board.name)
            seen.add(board.name)
    return tuple(BandsFirst(number, tuple(names), edges, is_lipping) for (number, edges, is_lipping), names in told.items())


# -- bringing runs together: same machine, cutter, fence, height and orientation, whichever parts they are on ----


@dataclass(frozen=True, slots=True)
class Draft:
    """A card that has no place in the order yet. All ``runs`` have an equal ``way``, but for which end of a part is turned to
    it.
    """

    runs: tuple[Run, ...]

    @property
    def way(self) -> WayToCut:
        """The way of the first run."""
        return self.runs[0].way

    @property
    def joints(self) -> tuple[str, ...]:
        """The names of the joints it is cut for, each once."""
        names = (cut.joint for run in self.runs for cut in run.cuts if cut.joint)
        return tuple(dict.fromkeys(names))


def _side(surface: Surface, rank: Rank) -> tuple[Axis, bool]:
    """A surface, both ends counting as one: a part is turned end for end without touching the machine.

    For mortises and holes that goes for both edges too: there is no feed whose direction would change.
    """
    turned = (Axis.ALONG, Axis.ACROSS) if rank is Rank.PLUNGED else (Axis.ALONG,)
    return surface.axis, surface.is_far and surface.axis not in turned


def drafts_of(runs: Sequence[Run]) -> tuple[Draft, ...]:
    """Cards from ``runs``, in the order their first runs stand.

    Mirrored parts share a card: the same faces lie to table and fence; only the leading end differs, and that matters to a
    stopped cut alone, whose stops are kept apart on the card. Rule MS-3.
    """
    together: dict[tuple[object, ...], list[Run]] = {}
    for run in runs:
        way = run.way
        key = (way.likeness, _side(way.how.entry, run.rank), _side(way.how.fence, run.rank), run.rank)
        together.setdefault(key, []).append(run)
    return tuple(Draft(tuple(found)) for found in together.values())


def must_precede(drafts: Sequence[Draft]) -> frozenset[tuple[int, int]]:
    """Pairs (i, j): draft i has to be cut before draft j, on account of a board that is in both. Never a circle, since rank
    rises.
    """
    return frozenset(
        (i, j)
        for i, first in enumerate(drafts)
        for j, then in enumerate(drafts)
        if _rank(first) < _rank(then) and any(has_to_do_with(a, b) for a in first.runs for b in then.runs)
    )


def _rank(draft: Draft) -> Rank:
    return draft.runs[0].rank


def works_of(draft: Draft) -> tuple[Work, ...]:
    """The parts of a card, those that lie, stop and are marked alike together."""
    alike: dict[tuple[object, ...], list[Run]] = {}
    for run in draft.runs:
        how, word = run.way.how, run.board.datum.word
        key = (how, word(how.entry), word(how.fence), run.stops, run.positions, run.squared)
        alike.setdefault(key, []).append(run)
    return tuple(_work(runs) for runs in alike.values())


def _work(runs: list[Run]) -> Work:
    first = runs[0]
    how, datum = first.way.how, first.board.datum
    return Work(
        boards=tuple(run.board.name for run in runs),
        parts=tuple(run.board.role.kind for run in runs),
        cuts=tuple(_called(run) for run in runs),
        plain_cuts=tuple(dict.fromkeys(PlainCut.of(cut.role) for run in runs for cut in run.cuts)),
        entry=how.entry,
        fence=how.fence,
        entry_word=datum.word(how.entry),
        fence_word=datum.word(how.fence),
        stops=first.stops,
        positions=first.positions,
        positions_from=_reference_word(first) if first.positions else "",
        squared=first.squared,
    )


def _called(run: Run) -> str:
    """The cut of a run; mortises and holes of one line in few words, each without its own number."""
    if len(run.cuts) == 1 and run.rank is not Rank.PLUNGED:
        return run.cuts[0].name
    return in_few_words(dict.fromkeys(replace(cut.role, number=0).name for cut in run.cuts))


def _reference_word(run: Run) -> str:
    datum = run.board.datum
    return {Axis.ALONG: datum.end, Axis.ACROSS: datum.edge, Axis.INTO: datum.face}[run.way.how.feed]
