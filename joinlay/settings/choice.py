"""Runs: each cut of each board with the way it is made, before equal ones are brought together on a card."""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum
from typing import TYPE_CHECKING, Final

from joinlay.boards import Axis, CutKind, Shape
from joinlay.findings import Refused, note, refusal
from joinlay.lengths import dimension
from joinlay.settings.elements import Guide, Pass, PlainCut, Position, Role, Stops, Tool, ToolKind
from joinlay.settings.lying import first_surface, from_surface, opens_at, role_of, run_axis, ways_of
from joinlay.settings.plunged import is_plunged, position_of, way_to_plunge
from joinlay.settings.ways import Attempt, Way, at_hand_router, at_router_table, at_saw_blade, at_saw_dado_set
from joinlay.shop import MachineKind

if TYPE_CHECKING:
    from collections.abc import Callable, Hashable, Sequence

    from joinlay.boards import Board, Cut
    from joinlay.findings import Finding
    from joinlay.lengths import Length
    from joinlay.shop import Shop

__all__ = ["Rank", "Run", "has_to_do_with", "rank_of", "runs_of"]


class Rank(IntEnum):
    """When a cut's turn comes on its board; lower first, where two of them have to do with each other."""

    PLUNGED = 0  #: mortises and holes, while every surface a fence bears on is whole
    GROOVE = 1  #: along the grain; what splinters where it runs out, the cuts across take off
    ACROSS = 2  #: dadoes, and slots in ends
    END_RABBET = 3  #: after the slots in the same end, which stand on it
    EDGE_RABBET = 4  #: along the grain, takes off what the dadoes splintered where they ran out
    NOTCH = 5  #: by hand, last


@dataclass(frozen=True, slots=True)
class Run:
    """One board through one way: the cuts it makes there, where it stops, where mortises lie."""

    board: Board
    cuts: tuple[Cut, ...]
    way: Way
    reason: Finding
    rank: Rank
    stops: Stops | None
    positions: tuple[Position, ...]
    squared: bool


def rank_of(board: Board, cut: Cut) -> Rank:
    """The cut's rank on its board. Common practice; see Rank for the reasons."""
    if is_plunged(cut):
        return Rank.PLUNGED
    feed = run_axis(board, cut)
    if feed is Axis.INTO:
        return Rank.NOTCH
    if cut.kind is CutKind.RABBET:
        return Rank.EDGE_RABBET if feed is Axis.ALONG else Rank.END_RABBET
    return Rank.GROOVE if feed is Axis.ALONG else Rank.ACROSS


def runs_of(boards: Sequence[Board], shop: Shop, *, rather_wide: bool = False) -> tuple[tuple[Run, ...], tuple[Finding, ...]]:
    """Every run of every board in the boards' order, and the refusals of cuts the shop cannot make (those have no run).

    Rabbets are settled last, since they may take a cutter the other cuts use anyway; of several that do as well the narrowest, or with
    ``rather_wide`` the widest.
    """
    found: dict[tuple[int, int], tuple[Way, Finding] | Finding] = {}
    cuts = [(b, c) for b, board in enumerate(boards) for c in range(len(board.cuts))]
    used: set[Length] = set()
    for late in (False, True):
        for b, c in cuts:
            board, cut = boards[b], boards[b].cuts[c]
            if (cut.kind is CutKind.RABBET) is not late:
                continue
            found[b, c] = _try(board, cut, shop, frozenset(used), rather_wide=rather_wide)
        used |= {got[0].tool.width for got in found.values() if isinstance(got, tuple)}
    runs: list[Run] = []
    findings: list[Finding] = []
    for b, board in enumerate(boards):
        made: dict[Hashable, tuple[list[Cut], Way, Finding]] = {}
        for c, cut in enumerate(board.cuts):
            match found[b, c]:
                case (way, reason):
                    made.setdefault((way.likeness, way.how), ([], way, reason))[0].append(cut)
                case refused:
                    findings.append(refused)
        runs.extend(run for together, way, reason in made.values() for run in _runs(board, together, way, reason))
    return tuple(runs), tuple(findings)


def _try(board: Board, cut: Cut, shop: Shop, used: frozenset[Length], *, rather_wide: bool) -> tuple[Way, Finding] | Finding:
    try:
        return _choose(board, cut, shop, used, rather_wide=rather_wide)
    except Refused as refused:
        return refused.at(cut.name).at(board.name).finding


def _runs(board: Board, cuts: list[Cut], way: Way, reason: Finding) -> list[Run]:
    """Mortises and holes of one line are one run; every other cut is its own."""
    if way.role in (Role.MORTISE, Role.HOLE):
        ordered = sorted(cuts, key=lambda cut: cut.span(way.how.feed).start)
        positions = tuple(position_of(board, cut, way) for cut in ordered)
        squared = way.role is Role.MORTISE and any(cut.shape is Shape.SQUARE for cut in cuts)
        return [Run(board, tuple(ordered), way, reason, Rank.PLUNGED, None, positions, squared)]
    return [_run(board, cut, way, reason) for cut in cuts]


def _run(board: Board, cut: Cut, way: Way, reason: Finding) -> Run:
    stops = _stops(board, cut, way)
    by_router = way.tool.kind is ToolKind.CUTTER
    squared = by_router and stops is not None and cut.shape is Shape.SQUARE
    return Run(board, (cut,), way, reason, rank_of(board, cut), stops, (), squared)


def _stops(board: Board, cut: Cut, way: Way) -> Stops | None:
    leading = first_surface(board, way.how, way.guide)
    size = board.size(way.how.feed)
    span = from_surface(board, cut.span(way.how.feed), leading)
    begin = span.start if span.start else None
    finish = span.stop if span.stop != size else None
    if begin is None and finish is None:
        return None
    infeed = outfeed = None
    if way.guide is Guide.FENCE:
        infeed = (
            (size - begin).named("in-feed stop to the far side of the cutter", "MS-1", "by geometry")
            if begin is not None
            else None
        )
        outfeed = (
            finish.named("out-feed stop to the far side of the cutter", "MS-1", "by geometry") if finish is not None else None
        )
    return Stops(leading, board.datum.word(leading), begin, finish, infeed, outfeed)


def _choose(board: Board, cut: Cut, shop: Shop, others: frozenset[Length], *, rather_wide: bool) -> tuple[Way, Finding]:
    if is_plunged(cut):
        way = way_to_plunge(board, cut, shop)
        return way, note("machine", _PLUNGED_REASON[way.machine], "MS-7", "common practice")
    if run_axis(board, cut) is Axis.INTO:
        return _at_bench(board, cut), note(
            "machine", "it goes through the thickness, so it is sawn and pared by hand", "MS-5", "common practice"
        )
    _refuse_small(board, cut, shop)
    why_not: list[Finding] = []
    ways = ways_of(board, cut)
    for method in _methods(shop):
        tried: list[tuple[tuple[object, ...], Way]] = []
        refusals: list[tuple[bool, Finding]] = []
        for n, how in enumerate(ways):
            try:
                way = method(Attempt(board, cut, how, shop, others, rather_wide))
            except Refused as refused:
                refusals.append((how.stands, refused.finding))
            else:
                # Lying flat is the safer way; only a tongue gains by standing, since the fence then sets its thickness.
                stands = how.stands and (way.machine is MachineKind.HAND_ROUTER or way.role is Role.STEP)
                tried.append(((stands, len(way.passes), n), way))
        if tried:
            return min(tried, key=lambda each: each[0])[1], _reason(why_not[0] if why_not else None)
        why_not.append(min(refusals, key=lambda each: each[0])[1])
    # What a machine that is there cannot do helps more than the want of another.
    for finding in why_not:
        if finding.kind not in _WANTING:
            raise Refused(finding)
    raise refusal("machine", "the shop has no machine for the {cut}", "A router table, a table saw or a hand-held router would do.",
                  "MS-5", cut=PlainCut.of(cut.role).words)  # fmt: skip


#: Kinds of refusal that say no more than that the shop has no such machine.
_WANTING: Final = frozenset({"router table", "table saw", "hand-held router"})

_PLUNGED_REASON: Final = {
    MachineKind.MORTISER: "the shop has a mortise cutter of this width",
    MachineKind.HAND_ROUTER: "no mortise cutter of the shop serves, so it is cut with a router and its edge guide",
    MachineKind.DRILL: "it is drilled",
}


def _reason(why_not: Finding | None) -> Finding:
    if why_not is None:
        return note("machine", "the part is of a size for it, and it is the shop's first choice", "MS-5")
    return note("machine", f"not at the first choice: {why_not.what}", why_not.rule, why_not.source, **dict(why_not.numbers))


def _methods(shop: Shop) -> list[Callable[[Attempt], Way]]:
    """The shop's machines in its order of choice; single kerfs come last, unless the maker's first choice is the saw."""
    machines = shop.machines
    has_dado_set = machines.table_saw is not None and bool(machines.table_saw.dado_widths)
    methods: list[Callable[[Attempt], Way]] = []
    for n, kind in enumerate(machines.first_choice):
        if kind is MachineKind.TABLE_SAW:
            methods += [at_saw_dado_set] if has_dado_set else ([at_saw_blade] if n == 0 else [])
        else:
            methods.append({MachineKind.ROUTER_TABLE: at_router_table, MachineKind.HAND_ROUTER: at_hand_router}[kind])
    if MachineKind.TABLE_SAW in machines.first_choice and at_saw_blade not in methods:
        methods.append(at_saw_blade)
    return methods


def _refuse_small(board: Board, cut: Cut, shop: Shop) -> None:
    longest, smallest = max(board.length, board.width), shop.machines.limits.smallest
    if longest < smallest:
        raise refusal("small part", "it is {longest} at its longest, too small to be run past a cutter ({cut})",
                      "Cut the joint on a piece {short} long or more and cut the part off it afterwards; {smallest} is the least.",
                      "MS-6", longest=longest, cut=PlainCut.of(cut.role).words, short=shop.machines.limits.short, smallest=smallest)  # fmt: skip


def _at_bench(board: Board, cut: Cut) -> Way:
    how = next(way for way in ways_of(board, cut))
    span = from_surface(board, cut.span(how.fence.axis), how.fence)
    depth = from_surface(board, cut.span(how.entry.axis), how.entry).stop
    tool = Tool(ToolKind.HAND_SAW, dimension(span.size))
    return Way(MachineKind.BENCH, Guide.GAUGED_LINE, how, role_of(board, cut, how), tool, (Pass(span.start, depth),))


def has_to_do_with(first: Run, then: Run) -> bool:
    """True where ``first``, of lower rank, must be made before ``then`` on the same board; see Rank for why."""
    if first.board.name != then.board.name or first.rank >= then.rank:
        return False
    return any(_touch(first, a, b) for a in first.cuts for b in then.cuts)


def _touch(first: Run, a: Cut, b: Cut) -> bool:
    board, how = first.board, first.way.how
    if first.rank is Rank.PLUNGED:
        # A mortiser's fence needs the surface whole; a hole is drilled to lines, and may come when it likes.
        return (
            a.kind is CutKind.MORTISE
            and b.kind is CutKind.RABBET
            and (opens_at(board, b, how.fence) or opens_at(board, b, how.entry))
        )
    if a.kind is CutKind.SLOT and b.kind is CutKind.RABBET:
        return opens_at(board, b, a.surface)
    # One crosses or runs out at the other: seen from the side, they share width and thickness.
    return a.across.overlaps(b.across) and a.into.overlaps(b.into)
