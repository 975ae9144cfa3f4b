"""The order in which a piece goes together, as data: stages, and in each the moves that bring two groups of boards together
(PT-2).

Each drawer, the carcase of the case and the face frame are put together by themselves, since each can be squared by itself; then
the piece is put together from them: frame to case, runners from behind, stops, the back, drawers (PT-10). Loose tenons are glued
into one of their two parts first. What to glue, clamp, draw and say at a step is read from its moves.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.assembly.blocking import Blocking
from joinlay.assembly.taking_apart import Stuck, numbers, taken_apart
from joinlay.boards import DrawerRole, JointKind, PartKind, Whole
from joinlay.boards.meeting import Tie, Way
from joinlay.boards.names import in_few_words, listed
from joinlay.findings import refusal
from joinlay.lengths import Fraction
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from joinlay.assembly.blocking import Box
    from joinlay.assembly.taking_apart import Split
    from joinlay.boards import Board, PartRole
    from joinlay.boards.meeting import Meeting
    from joinlay.casework.assembly import Assembly, Drawer
    from joinlay.findings import Finding

__all__ = ["Move", "Order", "Stage", "order_of", "put_together"]

#: Ties with glue in them.
_WET: Final = (Tie.GLUED, Tie.NAILED, Tie.SCREWED)

#: What comes off the whole first, and so is put on last (PT-10): the rest is in the order of the table.
_LAST: Final = (
    None,  # a drawer
    PartKind.FILLER,  # screwed on from the openings before the drawers are in
    PartKind.TOP,
    PartKind.TOP_STRIP,
    PartKind.FOOT,
    PartKind.CASE_BACK,
    PartKind.STOP_BLOCK,
    PartKind.STOP_STRIP,
    PartKind.GUIDE,
    PartKind.KICKER,
    PartKind.BEARER,
    PartKind.PACKING,
    PartKind.TOE_BOARD,
    PartKind.STILE,  # the frame
)


@dataclass(frozen=True, slots=True)
class Move:
    """Two groups brought together in one straight line: ``moving`` goes a ``way`` until it is where it belongs on ``onto``.

    Both are all the boards of the group, by role. ``closing`` are the meetings that close with the move, those in which one part
    only passes another left out.
    """

    moving: tuple[PartRole, ...]
    onto: tuple[PartRole, ...]
    way: Way
    closing: tuple[Meeting, ...]

    @property
    def parts(self) -> tuple[PartRole, ...]:
        """Every board of the group that the move makes."""
        return (*self.onto, *self.moving)

    @property
    def glued(self) -> tuple[Meeting, ...]:
        """Where glue goes."""
        return tuple(met for met in self.closing if met.tie in _WET)

    @property
    def dry(self) -> tuple[Meeting, ...]:
        """Where a panel stays loose in its groove or rabbet (PT-7)."""
        return tuple(
            met
            for met in self.closing
            if met.joint is not None and met.one.kind in _PANELS and met.tie in (Tie.DRY, Tie.FASTENED)
        )

    @property
    def glue(self) -> Fraction:
        """How much is glued, in square millimetres."""
        return sum((met.glue for met in self.closing), Fraction(0))

    @property
    def fasteners(self) -> int:
        """How many nails or screws go in."""
        return sum(met.fasteners for met in self.closing)


_PANELS: Final = (PartKind.DRAWER_BOTTOM, PartKind.CASE_BACK)


@dataclass(frozen=True, slots=True)
class Stage:
    """The moves that make one thing: a drawer, the case, the frame; ``of`` None is the whole piece, put together from those.

    The moves come in the order in which they are made. The tree of them: a group of several boards in a move was made by an
    earlier one.
    """

    of: DrawerRole | Whole | None
    moves: tuple[Move, ...]

    @property
    def name(self) -> str:
        """``drawer 3``, ``case``, ``piece``."""
        return "piece" if self.of is None else self.of.value if isinstance(self.of, Whole) else self.of.name


@dataclass(frozen=True, slots=True)
class Order:
    """Every stage, in the order of the work: frame, case, drawers, the piece. ``findings``: what has no order (PT-2)."""

    stages: tuple[Stage, ...]
    findings: tuple[Finding, ...] = ()

    @property
    def moves(self) -> tuple[Move, ...]:
        """All moves, in the order of the work."""
        return tuple(move for stage in self.stages for move in stage.moves)


def order_of(drawers: Sequence[Drawer], others: Sequence[Assembly], existing: Sequence[Board] = ()) -> Order:
    """How the piece goes together; ``others`` are case, frame, runners and stops, none where only openings were given (PT-2).

    ``existing`` is a case that is there: what is made goes into it from the front. Runners pass its frame through their opening
    and are then moved out behind it, so that it stands in the way of nothing here.

    Deterministic. What can't be put together is a refusal among the findings, which names the parts that hold each other and what
    would free them.
    """
    found = _Found()
    boards = [board for assembly in others for board in assembly.boards if board.place is not None]
    standing = tuple(met for assembly in others for met in assembly.meetings)
    groups: list[tuple[tuple[Board, ...], int]] = []
    back = [board for board in boards if board.role.kind is PartKind.CASE_BACK]
    plinth = (Whole.BASE,) if any(board.role.kind is PartKind.BASE_FRONT for board in boards) else ()
    for whole in (Whole.CASE, Whole.FRAME, *plinth):
        own = tuple(board for board in boards if board.role.whole is whole and board not in back)
        if own:
            found.add(whole, own, standing)
            rank = {Whole.FRAME: _rank(PartKind.STILE), Whole.BASE: _rank(PartKind.FOOT)}.get(whole, len(_LAST))
            groups.append((own, rank))
    if existing:
        groups.append((tuple(board for board in existing if board.role.whole is not Whole.FRAME), len(_LAST)))
    for drawer in drawers:
        found.add(drawer.role, drawer.assembly.boards, drawer.assembly.meetings)
    if groups:
        single = [board for board in boards if board.role.whole not in (Whole.CASE, Whole.FRAME, *plinth) or board in back]
        groups += [((board,), _rank(board.role.kind)) for board in single]
        groups += [(drawer.assembly.boards, _rank(None)) for drawer in drawers]
        found.join(groups, (*standing, *(met for drawer in drawers for met in drawer.assembly.meetings)))
    return Order(tuple(found.stages), tuple(found.findings))


def _rank(kind: PartKind | None) -> int:
    """How early it comes off; what isn't in the table, as a drawer does."""
    return _LAST.index(kind) if kind in _LAST else 0


def put_together(of: DrawerRole | Whole | None, blocking: Blocking, ranks: Sequence[int] = ()) -> Stage | Stuck:
    """The stage that makes one thing of the parts of ``blocking``; Stuck where it can't be made (PT-2)."""
    splits = taken_apart(blocking, ranks)
    return splits if isinstance(splits, Stuck) else Stage(of, tuple(_moves(blocking, splits)))


def _moves(blocking: Blocking, splits: Sequence[Split]) -> Iterator[Move]:
    """The splits backwards: what came off last goes on first, and goes back the way it came."""
    roles = [tuple(board.role for board in part) for part in blocking.parts]
    met: dict[int, list[tuple[int, Meeting]]] = {}
    for one, other, meeting in blocking.met:
        if meeting.tie.is_fixed:
            met.setdefault(one, []).append((other, meeting))
            met.setdefault(other, []).append((one, meeting))
    for split in reversed(splits):
        moving, onto = (tuple(role for n in numbers(half) for role in roles[n]) for half in (split.moving, split.onto))
        closing = tuple(meeting for n in numbers(split.moving) for other, meeting in met.get(n, ()) if split.onto >> other & 1)
        yield Move(moving, onto, split.way.opposite, closing)


class _Found:
    """Stages and findings as they are found; drawers that are alike are looked at once."""

    def __init__(self) -> None:
        self.stages: list[Stage] = []
        self.findings: list[Finding] = []
        self._known: dict[object, tuple[Split, ...] | Stuck] = {}
        self._around: dict[PartRole, Box] = {}

    def add(self, of: DrawerRole | Whole, boards: Sequence[Board], meetings: Sequence[Meeting]) -> None:
        """One thing out of its boards, loose tenons first."""
        own = {board.role for board in boards}
        inside = [met for met in meetings if met.one in own and met.other in own]
        parts, first = _with_tenons(boards, inside)
        blocking = Blocking(parts, inside, self._around)
        # Of a case there is one, so it is not asked what others are like it.
        key = _key(blocking) if isinstance(of, DrawerRole) else of
        splits = self._known.get(key)
        if splits is None:
            splits = self._known[key] = taken_apart(blocking)
        if isinstance(splits, Stuck):
            self.findings.append(_refused(of, splits, parts, inside))
        else:
            self.stages.append(Stage(of, (*first, *_moves(blocking, splits))))

    def join(self, groups: Sequence[tuple[Sequence[Board], int]], meetings: Sequence[Meeting]) -> None:
        """The piece out of its groups, each with its rank."""
        parts, ranks = [boards for boards, _ in groups], [rank for _, rank in groups]
        stage = put_together(None, Blocking(parts, meetings, self._around), ranks)
        if isinstance(stage, Stuck):
            self.findings.append(_refused(None, stage, parts, meetings))
        else:
            self.stages.append(stage)


def _key(blocking: Blocking) -> object:
    """What the search looks at: things with the same key come apart alike, as drawers of several heights do."""
    kinds = tuple(tuple((board.role.kind, board.role.hand) for board in part) for part in blocking.parts)
    met = tuple((one, other, meeting.tie, meeting.closes, meeting.joint is None) for one, other, meeting in blocking.met)
    return kinds, met, blocking.likeness()


def _with_tenons(boards: Sequence[Board], meetings: Sequence[Meeting]) -> tuple[list[tuple[Board, ...]], list[Move]]:
    """The boards as parts, each with the loose tenons that go into it first, and those moves."""
    into: dict[PartRole, list[Board]] = {}
    moves: list[Move] = []
    held: Mapping[tuple[PartRole, PartRole], Meeting] = {(met.one, met.other): met for met in meetings if met.one.kind.is_loose}
    loose: set[PartRole] = set()
    for board in boards:
        met = held.get((board.role, board.role.of)) if board.role.of is not None else None
        if met is not None:
            into.setdefault(met.other, []).append(board)
            loose.add(board.role)
            moves.append(Move((board.role,), (met.other,), met.closes[0], (met,)))
    return [(board, *into.get(board.role, ())) for board in boards if board.role not in loose], moves


# -- what has no order ---------------------------------------------------------------------------------------


def _refused(
    of: DrawerRole | Whole | None, stuck: Stuck, parts: Sequence[Sequence[Board]], meetings: Sequence[Meeting]
) -> Finding:
    names = [parts[n][0].role for n in stuck.parts]
    where = "piece" if of is None else of.value if isinstance(of, Whole) else of.name
    remedy = next(_ways_out(stuck, parts, meetings), "Leave one of them out of the others, or join it in another way.")
    return refusal(
        "no order",
        "{parts} hold each other: none of them can be put on last in a straight move, so they can't be put together.",
        remedy,
        "PT-2",
        "Wilson and Latombe",
        parts=in_few_words(role.name for role in names),
    ).at(where).finding  # fmt: skip


def _ways_out(stuck: Stuck, parts: Sequence[Sequence[Board]], meetings: Sequence[Meeting]) -> Iterator[str]:
    """What would free them: each meeting or joint in turn is done without, and those that help are told."""
    some = [parts[n] for n in stuck.parts]
    own = {board.role for part in some for board in part}
    inside = [met for met in meetings if met.one in own and met.other in own]
    for without, remedy in _freeing(inside):
        left = [met for met in inside if met not in without]
        opened = [*left, *(_opened(met) for met in without)]
        if not isinstance(taken_apart(Blocking(some, opened)), Stuck):
            yield remedy


def _opened(met: Meeting) -> Meeting:
    """The same two, free of each other every way: as if their joint were another."""
    return replace(met, closes=tuple(Way))


def _freeing(inside: Sequence[Meeting]) -> Iterator[tuple[list[Meeting], str]]:
    backs = [met for met in inside if {met.one.kind, met.other.kind} == {PartKind.DRAWER_BOTTOM, PartKind.DRAWER_BACK}]
    if backs:
        yield backs, "Let the back stand on the bottom, so that the bottom goes in from behind."
    grooves = [met for met in inside if met.joint is not None and met.joint.kind is JointKind.BOTTOM_GROOVE]
    if grooves:
        yield grooves, "Leave the groove for the bottom open at one end."
    for joint in dict.fromkeys(met.joint for met in inside if met.joint is not None and met not in grooves):
        yield [met for met in inside if met.joint == joint], f"Give the {joint.name} another joint."
    for met in inside:
        yield [met], f"Join {listed([met.one.name, met.other.name])} in another way."
