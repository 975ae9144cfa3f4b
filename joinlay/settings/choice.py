"""Which machine makes each cut, or which hand tools, and what is to be told of it: the one place where that is judged (MS-5 to
MS-8).

Each cut is offered to the shop's machines in its order of choice, lying each way it can; the first machine that can takes it, and
why those before it can't is kept as the reason. Where none can it is made by hand, with a note, or a warning where only a cutter
is wanting; where that can't be either it is refused. The plan has these as findings, every other output only repeats them. Runs
come after: each board through each way, before equal ones are brought together on a card. Boards that are cut alike are asked
about once; a plan takes about a millisecond a drawer.
"""

from __future__ import annotations

from dataclasses import replace
from enum import IntEnum
from typing import TYPE_CHECKING, Final

from joinlay.boards import Axis, CutKind, Shape
from joinlay.boards.names import in_few_words, listed
from joinlay.findings import Finding, Harm, Refused, note, refusal, warning
from joinlay.lengths import Length
from joinlay.records import dataclass
from joinlay.settings.elements import Guide, PlainCut, Position, Role, Stops, ToolKind
from joinlay.settings.feeding import router_speed
from joinlay.settings.handwork import way_by_hand
from joinlay.settings.lying import first_surface, from_surface, opens_at, run_axis, ways_of
from joinlay.settings.plunged import is_plunged, position_of, way_to_plunge
from joinlay.settings.shaped import way_to_shape
from joinlay.settings.ways import Attempt, WayToCut, at_hand_router, at_router_table, at_saw_blade, at_saw_dado_set
from joinlay.shop import MachineKind

if TYPE_CHECKING:
    from collections.abc import Callable, Hashable, Iterable, Iterator, Sequence

    from joinlay.boards import Board, Cut
    from joinlay.lengths import Dimension
    from joinlay.shop import Shop

__all__ = ["Choice", "Rank", "Run", "choose", "has_to_do_with", "rank_of"]


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
    way: WayToCut
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


@dataclass(frozen=True, slots=True)
class Made:
    """How a cut is made: the way, why this one, and what the maker must be told of it; nothing where it is made as usual."""

    way: WayToCut
    reason: Finding
    told: tuple[Finding, ...] = ()


@dataclass(frozen=True, slots=True)
class Choice:
    """How every cut of some boards is made, before any is brought together with others.

    ``made`` has for each board, in their order, how each of its cuts is made; a cut that is refused isn't there. ``findings`` are
    one for each cut that the shop can't make, that is cut by hand, or that can only be run with care, at its board and cut.
    """

    boards: tuple[Board, ...]
    shop: Shop
    made: tuple[tuple[tuple[Cut, Made], ...], ...]
    findings: tuple[Finding, ...]

    @property
    def runs(self) -> tuple[Run, ...]:
        """Every run of every board, in the boards' order; worked out anew each time, since a plan asks for them only if cards
        are wanted.
        """
        return tuple(run for board, made in zip(self.boards, self.made, strict=True) for run in _runs_of(board, made))

    @property
    def verdicts(self) -> tuple[Finding, ...]:
        """The findings, those that say the same of several cuts and boards told once with all their names. Rule MS-8."""
        alike: dict[tuple[object, ...], list[Finding]] = {}
        for finding in self.findings:
            # Of several cuts one sentence speaks only where it speaks of none of them: "no machine for the dado and groove".
            apart = ("tall", "cut") if finding.kind == "machine" else ("tall",)
            numbers = ((name, number) for name, number in finding.numbers.items() if name not in apart)
            alike.setdefault((finding.kind, finding.harm, finding.what, finding.remedy, *numbers), []).append(finding)
        return tuple(_as_one(same) for same in alike.values())


def _as_one(same: Sequence[Finding]) -> Finding:
    boards = tuple(dict.fromkeys(part for finding in same for part in finding.parts))
    cuts = list(dict.fromkeys(str(finding.numbers["cut"]) for finding in same if "cut" in finding.numbers))
    tall = [size for finding in same if isinstance(size := finding.numbers.get("tall"), Length)]
    most: dict[str, Length | int | str] = {**({"cut": listed(cuts)} if cuts else {}), **({"tall": max(tall)} if tall else {})}
    return replace(same[0], where=in_few_words(boards), parts=boards, numbers={**same[0].numbers, **most})


def choose(boards: Sequence[Board], shop: Shop, *, rather_wide: bool = False) -> Choice:
    """How each cut of ``boards`` is made with what ``shop`` has: machine, cutter and passes, or by hand; or why it can't be.

    Rabbets are settled last, since they may take a cutter the other cuts use anyway; of several that do as well the narrowest, or
    with ``rather_wide`` the widest. Boards that are cut alike are asked about once, so that the time goes by kinds of part. Rules
    MS-5 to MS-8.
    """
    first: dict[Hashable, int] = {}
    like = [first.setdefault(_likeness(board), b) for b, board in enumerate(boards)]
    found: dict[tuple[int, int], Made | Finding] = {}
    used: set[Length] = set()
    for late in (False, True):
        for b in first.values():
            for c, cut in enumerate(boards[b].cuts):
                if (cut.kind is CutKind.RABBET) is late:
                    found[b, c] = _try(boards[b], cut, shop, frozenset(used), rather_wide=rather_wide)
        used |= {got.way.tool.width for got in found.values() if isinstance(got, Made)}
    made: list[tuple[tuple[Cut, Made], ...]] = []
    findings: list[Finding] = []
    for board, b in zip(boards, like, strict=True):
        own = [(cut, found[b, c]) for c, cut in enumerate(board.cuts)]
        made.append(tuple((cut, got) for cut, got in own if isinstance(got, Made)))
        for cut, got in own:
            told = [*got.told, *_to_run_with_care(board, got.way, shop)] if isinstance(got, Made) else [got]
            findings += [replace(finding.at(cut.name).at(board.name), parts=(board.name,)) for finding in told]
    return Choice(tuple(boards), shop, tuple(made), tuple(findings))


def _runs_of(board: Board, made: Iterable[tuple[Cut, Made]]) -> list[Run]:
    """The runs of one board; cuts that are made in one go share one."""
    together: dict[Hashable, tuple[list[Cut], Made]] = {}
    for cut, how in made:
        together.setdefault((how.way.likeness, how.way.how), ([], how))[0].append(cut)
    return [run for cuts, how in together.values() for run in _runs(board, cuts, how.way, how.reason)]


def _likeness(board: Board) -> Hashable:
    """Equal for boards of which every cut is made alike, and told of in the same words."""
    cuts = tuple(
        (
            PlainCut.of(cut.role),
            cut.kind,
            cut.surface,
            cut.shape,
            *((span.start.mm, span.stop.mm) for span in cut.spans),
        )
        for cut in board.cuts
    )
    return (board.datum, board.length.mm, board.width.mm, board.thickness.mm, cuts)


def _try(board: Board, cut: Cut, shop: Shop, used: frozenset[Length], *, rather_wide: bool) -> Made | Finding:
    """At the first machine that can, else by hand; the refusal where neither does."""
    try:
        if run_axis(board, cut) is Axis.INTO and not is_plunged(cut):
            reason = note("machine", "it goes through the thickness, so it is sawn and pared by hand", "MS-5", "common practice")
            return Made(way_by_hand(board, cut, shop), reason)
        return _at_a_machine(board, cut, shop, used, rather_wide=rather_wide)
    except Refused as refused:
        return _else_by_hand(board, cut, shop, refused.finding)


#: A machine of the shop could, but for its cutter: worth buying one before a day is spent with the chisel.
_FOR_WANT_OF_A_CUTTER: Final = frozenset({"cutter", "cutter reach", "mortise cutter", "dado set", "saw kerf"})


def _else_by_hand(board: Board, cut: Cut, shop: Shop, why: Finding) -> Made | Finding:
    """By hand, with what that is told: a warning where only a cutter is wanting, else a note. The refusal where it can't be."""
    try:
        way = way_by_hand(board, cut, shop)
    except Refused as refused:
        # Why no machine does it helps more than that the shop has no hand tools; what no chisel goes into has to be said.
        is_more = refused.finding.kind == "chisel" and why.kind in _WANTING
        return replace(refused.finding if is_more else why, mark="no tool for the {cut}" if "cut" in why.numbers else "")
    numbers = {**why.numbers, "cut": PlainCut.of(cut.role).words}
    what = f"{why.what}, {_HAND_WORK}"
    if why.kind in _FOR_WANT_OF_A_CUTTER:
        told = Finding(why.kind, Harm.WARN, "", what, numbers, why.rule, why.source, why.remedy, "the {cut} by hand")
    else:
        told = Finding(why.kind, Harm.NOTE, "", what, numbers, why.rule, why.source, why.remedy)
    return Made(way, note("machine", f"by hand: {why.what}", why.rule, why.source, **dict(why.numbers)), (told,))


#: What is said after why no machine does it.
_HAND_WORK: Final = "so this is hand work"


def _to_run_with_care(board: Board, way: WayToCut, shop: Shop) -> Iterator[Finding]:
    """Warnings of what a machine can do, but not as it stands (MS-6, MS-9)."""
    fence, tall = shop.machines.fence_height(way.machine), board.size(way.how.entry.axis)
    if fence is not None and way.how.stands and tall > fence:
        yield warning(
            "tall part",
            "the work stands up to {tall} high and the fence only {fence}",
            "Screw a tall board to the fence and hold the work in a carrier that straddles it." + _if_usual(fence, way.machine),
            "MS-6",
            "common practice",
            tall=tall,
            fence=fence,
        )
    if way.tool.kind in (ToolKind.CUTTER, ToolKind.SHAPED) and router_speed(way.tool.width) is None:
        yield warning(
            "cutter speed",
            "a cutter {width} wide is past the table of speeds",
            "Run it no faster than the marking on the cutter allows.",
            "MS-9",
            "a common speed table",
            width=way.tool.width,
        )


def _if_usual(height: Dimension, machine: MachineKind) -> str:
    """Where to write the height of the maker's own fence, if nobody has."""
    key = machine.value.replace(" ", "-")
    return f" If yours is higher, write its fence-height under {key} in [shop]." if height.origin == "default" else ""


def _runs(board: Board, cuts: list[Cut], way: WayToCut, reason: Finding) -> list[Run]:
    """Mortises and holes of one line are one run; every other cut is its own."""
    if way.role in (Role.MORTISE, Role.HOLE):
        ordered = sorted(cuts, key=lambda cut: cut.span(way.how.feed).start)
        positions = tuple(position_of(board, cut, way) for cut in ordered)
        squared = way.role is Role.MORTISE and any(cut.shape is Shape.SQUARE for cut in cuts)
        return [Run(board, tuple(ordered), way, reason, Rank.PLUNGED, None, positions, squared)]
    if way.role is Role.SHAPED:
        return [replace(_run(board, cuts[0], way, reason), cuts=tuple(cuts))]
    return [_run(board, cut, way, reason) for cut in cuts]


def _run(board: Board, cut: Cut, way: WayToCut, reason: Finding) -> Run:
    stops = _stops(board, cut, way)
    by_router = way.tool.kind is ToolKind.CUTTER
    squared = by_router and stops is not None and cut.shape is Shape.SQUARE
    return Run(board, (cut,), way, reason, rank_of(board, cut), stops, (), squared)


def _stops(board: Board, cut: Cut, way: WayToCut) -> Stops | None:
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


def _at_a_machine(board: Board, cut: Cut, shop: Shop, others: frozenset[Length], *, rather_wide: bool) -> Made:
    if is_plunged(cut):
        way = way_to_plunge(board, cut, shop)
        return Made(way, note("machine", _PLUNGED_REASON[way.machine], "MS-7", "common practice"))
    _refuse_small(board, cut, shop)
    if cut.role.use.is_shaped:
        return Made(
            way_to_shape(board, cut, shop), note("machine", "its cutter has the shape of both halves", "MS-11", "common practice")
        )
    why_not: list[Finding] = []
    attempts = [Attempt(board, cut, how, shop, others, rather_wide) for how in ways_of(board, cut)]
    for method in _methods(shop):
        tried: list[tuple[tuple[object, ...], WayToCut]] = []
        refusals: list[tuple[bool, Finding]] = []
        for n, asked in enumerate(attempts):
            how = asked.how
            try:
                way = method(asked)
            except Refused as refused:
                refusals.append((how.stands, refused.finding))
            else:
                # Lying flat is the safer way; only a tongue gains by standing, since the fence then sets its thickness.
                stands = how.stands and (way.machine is MachineKind.HAND_ROUTER or way.role is Role.STEP)
                tried.append(((stands, len(way.passes), n), way))
        if tried:
            return Made(min(tried, key=lambda each: each[0])[1], _reason(why_not[0] if why_not else None))
        why_not.append(min(refusals, key=lambda each: each[0])[1])
    # What a machine that is there cannot do helps more than the want of another.
    for finding in why_not:
        if finding.kind not in _WANTING:
            raise Refused(finding)
    raise refusal(
        "machine",
        "the shop has no machine for the {cut}",
        "A router table, a table saw or a hand-held router would do.",
        "MS-5",
        cut=PlainCut.of(cut.role).words,
    )


#: Kinds of refusal that say no more than that the shop has no such machine.
_WANTING: Final = frozenset({"machine", "router table", "table saw", "hand-held router", "mortiser", "drill"})

_PLUNGED_REASON: Final = {
    MachineKind.MORTISER: "the shop has a mortise cutter of this width",
    MachineKind.HAND_ROUTER: "no mortise cutter of the shop serves, so it is cut with a router and its edge guide",
    MachineKind.DRILL: "it is drilled",
}


def _reason(why_not: Finding | None) -> Finding:
    if why_not is None:
        return note("machine", "the part is of a size for it, and it is the shop's first choice", "MS-5")
    return note("machine", f"not at the first choice: {why_not.what}", why_not.rule, why_not.source, **dict(why_not.numbers))


def _methods(shop: Shop) -> list[Callable[[Attempt], WayToCut]]:
    """The shop's machines in its order of choice; single kerfs come last, unless the maker's first choice is the saw."""
    machines = shop.machines
    has_dado_set = machines.table_saw is not None and bool(machines.table_saw.dado_widths)
    methods: list[Callable[[Attempt], WayToCut]] = []
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
        raise refusal(
            "small part",
            "it is {longest} at its longest, too small to be run past a cutter ({cut})",
            "Cut the joint on a piece {short} long or more and cut the part off it afterwards; {smallest} is the least.",
            "MS-6",
            longest=longest,
            cut=PlainCut.of(cut.role).words,
            short=shop.machines.limits.short,
            smallest=smallest,
        )


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
