"""Taking some parts apart in the mind, one straight move after the other: read backwards it is the order to put them together
(PT-2).

The problem: find a way to split the parts in two so that one half can be drawn off the other in a straight line, then split each
half again, until every part lies by itself; or show that it can't be done.

How it works: for each of six ways there is a graph of which part runs into which. What is drawn off must take along everything it
runs into, so only sets that no arrow leaves can be drawn off; the smallest such sets are each part with all that it reaches
(Wilson and Latombe, 1992). Of those the one is taken that is best by PT-2: read backwards it comes last.

What it can't do: it looks at one straight move at a time along the three axes of the piece. A part that has to be tilted in has
no order here.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.assembly.blocking import RUBBED
from joinlay.boards.meeting import Tie, Way
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from joinlay.assembly.blocking import Blocking
    from joinlay.boards import PartRole
    from joinlay.boards.meeting import Meeting
    from joinlay.lengths import Fraction

__all__ = ["Split", "Stuck", "numbers", "taken_apart"]

#: Glued, so a clamp and a minute each.
_WET: Final = (Tie.GLUED, Tie.NAILED, Tie.SCREWED)

#: Which way a part is first tried to come out of a piece: as a drawer does, then to where the back is off.
_OUT: Final = (Way.FRONT, Way.BACK, Way.UP, Way.LEFT, Way.RIGHT, Way.DOWN)

#: Which way goes before which, other things being alike.
_TURN: Final = {way: n for n, way in enumerate(Way)}


@dataclass(frozen=True, slots=True)
class Split:
    """``moving`` drawn off ``onto`` in a ``way``: both are sets of parts, as bits."""

    moving: int
    onto: int
    way: Way


@dataclass(frozen=True, slots=True)
class Stuck:
    """Parts that can't be parted in any straight move, by number."""

    parts: tuple[int, ...]


def taken_apart(blocking: Blocking, ranks: Sequence[int] = ()) -> tuple[Split, ...] | Stuck:
    """The splits in the order of taking apart, each part alone at the end; Stuck where some can't be parted (PT-2).

    ``ranks``, one a part: the lowest comes off first, by itself, wherever it can. Without, a split is judged by the glue between:
    none rubbed off along a dado, the fewest glued surfaces, then the shortest way, then the fewest parts in the hand, and of
    parts that are alike the last.
    """
    count = len(blocking.parts)
    splits: list[Split] = []
    waiting = [(1 << count) - 1]
    seams = _Seams(blocking)
    first = sorted(range(len(ranks)), key=lambda n: (ranks[n], -n))
    while waiting:
        have = waiting.pop()
        if have & (have - 1) == 0:
            continue
        split = _first_free(blocking, have, first) or _best(blocking, have, seams)
        if split is None:
            return Stuck(tuple(numbers(_knot(blocking, have))))
        splits.append(split)
        waiting += [split.moving, split.onto]
    return tuple(splits)


def _first_free(blocking: Blocking, have: int, first: Sequence[int]) -> Split | None:
    """The first of the parts, in the order they are given, that comes off by itself; None where none does, or none is given."""
    for part in first:
        if not have >> part & 1:
            continue
        for way in _OUT:
            if not blocking.stopped_by(part, way) & have:
                return Split(1 << part, have ^ (1 << part), way)
    return None


def _best(blocking: Blocking, have: int, seams: _Seams) -> Split | None:
    """The best split of ``have``; None where there is none."""
    # How far parts are drawn takes longest to find, and is asked only of those that are best by their glue.
    by_glue: dict[tuple[int, int], list[Split]] = {}
    for split in _splits(blocking, have):
        by_glue.setdefault(seams.glue(split), []).append(split)
    first: Split | None = None
    for glue in sorted(by_glue):
        for split in sorted(by_glue[glue], key=seams.way_off):
            if seams.hang_together(split.moving) and seams.hang_together(split.onto):
                return split
            first = first or split
    # Where every split leaves something loose, the best of them is taken all the same.
    return first


class _Seams:
    """What is joined to what among the parts of ``blocking``, by their numbers; what comes off and stays is told in bits."""

    def __init__(self, blocking: Blocking) -> None:
        self._blocking = blocking
        count = len(blocking.parts)
        self._joins: list[list[tuple[int, PartRole, PartRole]]] = [[] for _ in range(count)]
        self._dadoes: list[list[tuple[int, PartRole, PartRole]]] = [[] for _ in range(count)]
        #: What each part is joined to; and what it is glued to, a part that is glued to it twice in two sets.
        self._next = [0] * count
        self._glued: list[list[int]] = [[] for _ in range(count)]
        for one, other, met in blocking.met:
            if met.tie.is_fixed:
                self._join(one, other, (1 << other, met.one, met.other), met)
                self._join(other, one, (1 << one, met.other, met.one), met)

    def _join(self, part: int, other: int, join: tuple[int, PartRole, PartRole], met: Meeting) -> None:
        self._joins[part].append(join)
        self._next[part] |= 1 << other
        if met.tie in _WET:
            glued = self._glued[part]
            n = next((n for n, some in enumerate(glued) if not some >> other & 1), len(glued))
            glued[n:] = [(glued[n] if n < len(glued) else 0) | 1 << other, *glued[n + 1 :]]
            if met.joint is not None and not met.one.kind.is_loose:
                self._dadoes[part].append(join)

    def glue(self, split: Split) -> tuple[int, int]:
        """How many joints rub their glue off along a dado, and how many surfaces are glued."""
        rubbed = surfaces = 0
        # The parts that move are the fewer.
        for part in numbers(split.moving):
            surfaces += sum((some & split.onto).bit_count() for some in self._glued[part])
            for other, goes, stays in self._dadoes[part]:
                rubbed += bool(split.onto & other) and self._blocking.travel(goes, stays, split.way) > RUBBED
        return rubbed, surfaces

    def way_off(self, split: Split) -> tuple[Fraction | int, int, int, int]:
        """How far the parts are drawn, how many they are, and what else tells two splits apart: the last part and the way."""
        joins = (join for part in numbers(split.moving) for join in self._joins[part])
        far = (self._blocking.travel(goes, stays, split.way) for other, goes, stays in joins if split.onto & other)
        return max(far, default=0), split.moving.bit_count(), -split.moving, _TURN[split.way]

    def hang_together(self, parts: int) -> bool:
        """True where ``parts`` are one thing by the seams between them."""
        reached = new = parts & -parts
        while new:
            found = 0
            for part in numbers(new):
                found |= self._next[part]
            new = found & parts & ~reached
            reached |= new
        return reached == parts


def _splits(blocking: Blocking, have: int) -> Iterator[Split]:
    """Each part with all that it must take along, and what is left of ``have``, once."""
    seen: set[tuple[int, Way]] = set()
    for way in Way:
        known: dict[int, int] = {}
        for part in numbers(have):
            moving = known[part] = _reach(blocking, have, part, way, known)
            # Seen from the other half it is the same split the other way round.
            rest = have ^ moving
            if rest and (moving, way) not in seen and (rest, way.opposite) not in seen:
                seen.add((moving, way))
                fewer = (moving.bit_count(), -moving) <= (rest.bit_count(), -rest)
                yield Split(moving, rest, way) if fewer else Split(rest, moving, way.opposite)


def _reach(blocking: Blocking, have: int, part: int, way: Way, known: Mapping[int, int]) -> int:
    """``part`` with all of ``have`` that it takes along when it is drawn off; ``known`` is that of others, by their numbers."""
    reached = new = 1 << part
    while new and reached != have:
        found = 0
        for one in numbers(new):
            if one in known:
                reached |= known[one]
            else:
                found |= blocking.stopped_by(one, way)
        new = found & have & ~reached
        reached |= new
    return reached


def _knot(blocking: Blocking, have: int) -> int:
    """The least of ``have`` that still can't be parted: each part that isn't needed for that is left out."""
    for part in tuple(numbers(have)):
        less = have ^ (1 << part)
        if less & (less - 1) and next(_splits(blocking, less), None) is None:
            have = less
    return have


def numbers(bits: int) -> Iterator[int]:
    """The numbers of the parts in a set, the lowest first. How a set is kept: no rule."""
    while bits:
        low = bits & -bits
        yield low.bit_length() - 1
        bits ^= low
