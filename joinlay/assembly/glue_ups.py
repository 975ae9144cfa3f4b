"""Glue-ups: which moves are glued and clamped together within one open time, with how many surfaces, minutes and clamps (PT-3,
PT-4, PT-7, PT-9).

A ``GlueUp`` is one numbered thing to do at the bench, in the order of the work: ``of`` what (``("case",)``, ``("drawer 1", ...,
"drawer 4")``, ``("piece",)``), which numbered ``steps`` of ``assemble`` it takes in, and how it is held. It is done in one or
more ``goes``: once for each drawer that goes together like that, or once for each guide of eight. A ``Go`` is what must close
before the glue skins: its moves, how many surfaces get glue, its rows of clamps, and the seconds it takes. Loose tenons, glued
into one of their parts beforehand, and strips that nails hold are done one by one, so that only one of them is open at a time.

How it is found: all the steps of a thing that has its own stage (case, frame, drawer) are one glue-up, if that closes in time and
the clamps there are will do; else they are split between two steps into the fewest glue-ups that do, and the parts of the others
stand dry meanwhile to hold it square. Where no split helps it stays in one, and ``checks`` says so. Of the whole piece each step
is a glue-up of its own.
"""

from __future__ import annotations

from dataclasses import replace
from enum import Enum
from itertools import combinations, groupby, pairwise
from math import ceil
from typing import TYPE_CHECKING, Final

from joinlay.assembly.blocking import box_of
from joinlay.assembly.clamping import clamp_rows, clamps_lacking
from joinlay.boards import DrawerRole, PartKind, Whole
from joinlay.boards.meeting import Tie
from joinlay.lengths import Fraction, Length, Unit, chosen, dimension, inches, mm
from joinlay.records import dataclass
from joinlay.shop import Clamps

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from joinlay.assembly.blocking import Box
    from joinlay.assembly.clamping import ClampRow
    from joinlay.assembly.order import Move
    from joinlay.assembly.steps import Step
    from joinlay.boards import Board, PartRole
    from joinlay.boards.meeting import Meeting
    from joinlay.lengths import Dimension
    from joinlay.shop import Shop

__all__ = ["GlueUp", "Go", "Hold", "clamps_to_have", "glue_ups_of"]


class Hold(Enum):
    """What holds it until the glue has set."""

    CLAMPS = "clamps"
    FASTENERS = "nails or screws"
    RUBBED = "rubbed"  #: a small block, rubbed to and fro until it grips
    ITSELF = "its own fit"  #: loose tenons in one of their two parts


@dataclass(frozen=True, slots=True)
class Go:
    """What is spread, closed and clamped within one open time: ``moves`` in their order, of ``of`` (a drawer, the case, a part of
    the piece).

    ``surfaces`` is how many joints get glue, on which ``fasteners`` nails or screws are driven; ``clamps`` are its rows of
    clamps. ``seconds`` is how long it takes from the first stroke of glue to the last clamp (PT-3); ``open_seconds`` how much of
    that the glue has to stay open for.
    """

    of: str
    moves: tuple[Move, ...]
    surfaces: int
    fasteners: int
    clamps: tuple[ClampRow, ...]
    seconds: int
    open_seconds: int

    @property
    def clamp_count(self) -> int:
        """How many clamps in all."""
        return sum(row.count for row in self.clamps)

    @property
    def reach(self) -> Dimension | None:
        """How far the longest of them must open; None where there are none (PT-4)."""
        return max((row.reach for row in self.clamps), default=None)

    @property
    def glued(self) -> tuple[Meeting, ...]:
        """Where glue goes."""
        return tuple(met for move in self.moves for met in move.glued)

    @property
    def dry(self) -> tuple[Meeting, ...]:
        """Where none goes though a part lies in another: a panel loose in its grooves (PT-7)."""
        return tuple(
            met for move in self.moves for met in move.closing if met.tie in (Tie.DRY, Tie.FASTENED) and met.one.kind in _PANELS
        )

    @property
    def parts(self) -> tuple[PartRole, ...]:
        """The boards that are handled: those that are brought, and what they are brought to; no loose tenons."""
        roles = (role for move in self.moves for met in move.closing for role in (met.one, met.other))
        brought = (move.moving[0] for move in self.moves)
        return tuple(dict.fromkeys(role for role in (*roles, *brought) if not role.kind.is_loose))


@dataclass(frozen=True, slots=True)
class GlueUp:
    """One numbered glue-up; see the head of this module. ``goes`` come in the order of ``of``, or of the moves of the piece.

    ``most`` is the go with the most glue and clamps, which is the one to tell of. ``at_once`` is how many goes the clamps there
    are hold at one time, at least 1; all of them where nobody said what clamps there are. ``split`` is (2, 3) for the second of
    the three that one thing is split into, None where it is whole; ``whole_seconds`` is what it would take unsplit.
    """

    number: int
    of: tuple[str, ...]
    steps: tuple[Step, ...]
    hold: Hold
    goes: tuple[Go, ...]
    most: Go
    at_once: int
    split: tuple[int, int] | None = None
    whole_seconds: int = 0

    @property
    def is_of_drawers(self) -> bool:
        """True where each go is a drawer."""
        return not self.steps[0].is_whole and isinstance(self.steps[0].moves[0].moving[0].whole, DrawerRole)

    @property
    def ends(self) -> bool:
        """True where it makes its thing whole: then its diagonals and its winding are measured."""
        return self.steps[-1].ends and not self.steps[0].is_whole

    @property
    def seconds(self) -> int:
        """How long all its goes take, one after the other."""
        return sum(go.seconds for go in self.goes)


_PANELS: Final = (PartKind.DRAWER_BOTTOM, PartKind.CASE_BACK)

#: A glue-up is split into so many at most. Source: our own choice.
_MOST_RUNS: Final = 2

#: Clamps that open no farther are small ones, of which a bench has many. Source: our own choice.
_SMALL: Final = mm(150)
_MOST_SMALL: Final = 16

#: So small that glue alone pulls them on (common practice).
_RUBBED: Final = (PartKind.STOP_BLOCK,)


def glue_ups_of(steps: Sequence[Step], boards: Iterable[Board], shop: Shop) -> tuple[GlueUp, ...]:
    """Every glue-up of the ``steps`` of an order, numbered in their order; none for steps without glue (PT-3, PT-4).

    ``boards`` are all boards of the piece, placed. Deterministic.
    """
    boxes = {board.role: box_of(board) for board in boards if board.place is not None}
    found = [one for _, some in groupby(steps, key=lambda step: step.of) for one in _Gluing(tuple(some), boxes, shop).glue_ups()]
    return tuple(_numbered(found, clamps_to_have(found, shop.rule.unit) if shop.clamps is None else shop.clamps))


def clamps_to_have(glue_ups: Sequence[GlueUp], unit: Unit) -> tuple[Clamps, ...]:
    """The fewest clamps that do for each glue-up by itself, the shortest first: as many of each length as one go takes (PT-4).

    Their lengths are whole inches, or 25 mm. A longer one does for a shorter, so they are counted from the longest down. Of small
    ones there are as many again as the goes of one glue-up take together, sixteen at most (our own choice).
    """
    goes = [go for one in glue_ups for go in one.goes]
    found: list[Clamps] = []
    for reach in sorted({_sold(row.reach, unit) for go in goes for row in go.clamps if row.reach > _SMALL}, reverse=True):
        most = max(sum(row.count for row in go.clamps if _sold(row.reach, unit) >= reach) for go in goes)
        have = sum(clamps.count for clamps in found)
        if most > have:
            found.append(Clamps(reach, most - have))
    small = [[row for go in one.goes for row in go.clamps if row.reach <= _SMALL] for one in glue_ups]
    most_small = max((sum(row.count for row in rows) for rows in small), default=0)
    if most_small:
        found.append(Clamps(max(_sold(row.reach, unit) for rows in small for row in rows), min(most_small, _MOST_SMALL)))
    return tuple(reversed(found))


def _sold(reach: Dimension, unit: Unit) -> Dimension:
    """``reach`` up to a length that one would look for."""
    step = inches(1) if unit is Unit.INCH else mm(25)
    return chosen(Length(ceil(reach.mm / step.mm) * step.mm), "up to the next", dimension(step), reach)


def _numbered(found: Iterable[GlueUp], clamps: Sequence[Clamps]) -> Iterator[GlueUp]:
    for number, one in enumerate(found, start=1):
        yield replace(one, number=number, at_once=_at_once(one.goes, clamps))


def _at_once(goes: Sequence[Go], clamps: Sequence[Clamps]) -> int:
    """How many of the goes there are ``clamps`` for at one time, if they were those that take the most."""
    rows = [go.clamps for go in sorted(goes, key=lambda go: -go.clamp_count)]
    for count in range(2, len(goes) + 1):
        if clamps_lacking([row for some in rows[:count] for row in some], clamps)[0]:
            return count - 1
    return len(goes)


class _Gluing:
    """The glue-ups of one thing, or of several that go together alike."""

    def __init__(self, steps: tuple[Step, ...], boxes: Mapping[PartRole, Box], shop: Shop) -> None:
        self._steps, self._boxes, self._shop = steps, boxes, shop
        practice = shop.practice
        self._known: dict[tuple[object, ...], Go] = {}
        self._surface, self._clamp = (practice.ratio(name) for name in ("seconds to glue a surface", "seconds to set a clamp"))

    def glue_ups(self) -> Iterator[GlueUp]:
        if self._steps[0].is_whole:
            for step in self._steps:
                if step.surfaces:
                    yield self._of_piece(step)
            return
        first = tuple(step for step in self._steps if _is_loose(step))
        if first:
            yield self._made(first, Hold.ITSELF)
        rest = tuple(step for step in self._steps if step not in first)
        runs = self._runs(rest)
        if not runs:
            return
        whole = max(self._go(rest, n).seconds for n in range(len(rest[0].of)))
        for n, run in enumerate(runs, start=1):
            yield self._made(run, Hold.CLAMPS, (n, len(runs)) if len(runs) > 1 else None, whole)

    def _made(self, steps: tuple[Step, ...], hold: Hold, split: tuple[int, int] | None = None, whole_seconds: int = 0) -> GlueUp:
        goes = tuple(self._go(steps, n, hold) for n in range(len(steps[0].of)))
        if hold is Hold.CLAMPS and not any(go.clamps for go in goes):
            hold = Hold.FASTENERS
        return self._told(steps, hold, goes, split, whole_seconds)

    def _of_piece(self, step: Step) -> GlueUp:
        kind = step.moves[0].moving[0].kind
        held = {met.tie for move in step.moves for met in move.glued}
        hold = Hold.RUBBED if kind in _RUBBED else Hold.CLAMPS if Tie.GLUED in held else Hold.FASTENERS
        goes = tuple(self._counted((move,), move.parts, hold, _called(move)) for move in step.moves)
        return self._told((step,), hold, goes)

    def _told(
        self,
        steps: tuple[Step, ...],
        hold: Hold,
        goes: tuple[Go, ...],
        split: tuple[int, int] | None = None,
        whole_seconds: int = 0,
    ) -> GlueUp:
        most = max(goes, key=lambda go: (go.seconds, go.surfaces))
        return GlueUp(0, steps[0].of, steps, hold, goes, most, len(goes), split, whole_seconds or most.seconds)

    def _go(self, steps: Sequence[Step], n: int, hold: Hold = Hold.CLAMPS) -> Go:
        """What the ``steps`` are for the thing ``n`` of those they are done in; the same are asked for again and again."""
        # The steps are kept as long as what is known of them.
        key = (*map(id, steps), n, hold)
        if key not in self._known:
            self._known[key] = self._worked_out(steps, n, hold)
        return self._known[key]

    def _worked_out(self, steps: Sequence[Step], n: int, hold: Hold) -> Go:
        moves = tuple(move for step in steps for move in step.each[n])
        # What stands dry meanwhile is between the jaws too.
        group = self._steps[-1].each[n][-1].parts
        return self._counted(moves, group, hold, steps[0].of[n])

    def _counted(self, moves: tuple[Move, ...], group: Sequence[PartRole], hold: Hold, of: str) -> Go:
        glued = [met for move in moves for met in move.glued]
        rows = clamp_rows(glued, group, self._boxes, self._shop.practice, of) if hold is Hold.CLAMPS else ()
        fasteners = sum(met.fasteners for met in glued)
        held = sum(row.count for row in rows) + fasteners
        seconds = self._surface * len(glued) + self._clamp * held
        is_one_by_one = hold in (Hold.ITSELF, Hold.FASTENERS)
        most = max((self._surface + self._clamp * met.fasteners for met in glued), default=Fraction(0))
        return Go(of, moves, len(glued), fasteners, rows, round(seconds), round(most if is_one_by_one else seconds))

    def _runs(self, steps: tuple[Step, ...]) -> tuple[tuple[Step, ...], ...]:
        """``steps`` in one, or split into the fewest runs that close in time and for which there are clamps; in one where no
        split helps.
        """
        wet = [n for n, step in enumerate(steps) if step.surfaces]
        if not wet:
            return ()
        # Past two a slower glue is less trouble.
        for count in range(min(len(wet), _MOST_RUNS)):
            found = []
            for cuts in combinations(wet[:-1], count):
                # A step without glue is done with the one that follows it.
                bounds = [0, *(cut + 1 for cut in cuts), len(steps)]
                runs = tuple(steps[start:stop] for start, stop in pairwise(bounds))
                each = [(run, n) for run in runs for n in range(len(run[0].of))]
                if all(self._can_do(self._go(run, n)) for run, n in each):
                    found.append((max(self._go(run, n).seconds for run, n in each), runs))
            if found:
                return min(found, key=lambda one: one[0])[1]
        return (steps,)

    def _can_do(self, go: Go) -> bool:
        return go.open_seconds <= self._shop.glue.open_time and not clamps_lacking(go.clamps, self._shop.clamps)[0]


def _called(move: Move) -> str:
    """What is put on: a part, or the frame or the base as a whole."""
    first = move.moving[0]
    if len(move.moving) == 1 or not isinstance(first.whole, Whole):
        return first.name
    return _WHOLES.get(first.whole, first.whole.value)


#: What it is called to glue on a thing that is whole already.
_WHOLES: Final = {Whole.FRAME: "face frame on the case", Whole.BASE: "base under the piece"}


def _is_loose(step: Step) -> bool:
    return step.moves[0].moving[0].kind.is_loose
