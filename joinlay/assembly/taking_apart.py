"""Taking some parts apart in the mind, one straight move after the other: read backwards it is the order to put them together (PT-2).

The problem: find a way to split the parts in two so that one half can be drawn off the other in a straight line, then split each half again,
until every part lies by itself; or show that it can't be done.

How it works: for each of six ways there is a graph of which part runs into which. What is drawn off must take along everything it runs
into, so only sets that no arrow leaves can be drawn off; the smallest such sets are each part with all that it reaches (Wilson and Latombe,
1992). Of those the one is taken that is best by PT-2: read backwards it comes last.

What it can't do: it looks at one straight move at a time along the three axes of the piece. A part that has to be tilted in has no order here.
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

    ``ranks``, one a part: the lowest comes off first, by itself, wherever it can. Without, a split is judged by the glue between: none rubbed
    off along a dado, the fewest glued surfaces, then the shortest way, then the fewest parts in the hand, and of parts that are alike the last.
    """
    count = len(blocking.parts)
    splits: list[Split] = []
    waiting = [(1 << count) - 1]
    first = sorted(range(len(ranks)), key=lambda n: (ranks[n], -n))
    while waiting:
        have = waiting.pop()
        if have & (have - 1) == 0:
            continue
        split = _first_free(blocking, have, first) or _best(blocking, have)
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


def _best(blocking: Blocking, have: int) -> Split | None:
    """The best split of ``have``; None where there is none."""
    seams = [(1 << one, 1 << other, met) for one, other, met in blocking.met if have >> one & 1 and have >> other & 1]

    joined = [(mine, its) for mine, its, met in seams if met.tie.is_fixed]
    # By each part, what it is joined to: a split is judged by the seams of the parts that move, which are the fewer.
    joins: dict[int, list[tuple[int, PartRole, PartRole, Meeting]]] = {}
    for mine, its, met in seams:
        if met.tie.is_fixed:
            joins.setdefault(mine, []).append((its, met.one, met.other, met))
            joins.setdefault(its, []).append((mine, met.other, met.one, met))

    def worth(split: Split) -> tuple[int, int, Fraction | int, int, int, int]:
        surfaces = rubbed = 0
        far: list[Fraction] = []
        for other, goes, stays, met in (join for part in numbers(split.moving) for join in joins.get(1 << part, ())):
            if split.onto & other:
                far.append(blocking.travel(goes, stays, split.way))
                if met.tie in _WET:
                    surfaces += 1
                    rubbed += met.joint is not None and not met.one.kind.is_loose and far[-1] > RUBBED
        return rubbed, surfaces, max(far, default=0), split.moving.bit_count(), -split.moving, _TURN[split.way]

    found = sorted(_splits(blocking, have), key=worth)
    whole = (one for one in found if _hangs_together(one.moving, joined) and _hangs_together(one.onto, joined))
    # Where every split leaves something loose, the best of them is taken all the same.
    return next(whole, found[0] if found else None)


def _hangs_together(parts: int, joined: Sequence[tuple[int, int]]) -> bool:
    """True where ``parts`` are one thing by the seams between them."""
    reached, before = parts & -parts, 0
    while reached != before:
        before = reached
        for mine, its in joined:
            if (mine | its) & parts == mine | its and (mine | its) & reached:
                reached |= mine | its
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
