"""Where clamps stand: for each joint line that is glued, how many, how long, and what each presses on (PT-4).

A clamp presses along the way in which a joint closes, right through all the wood that stands in line there. So two joints at the
two ends of one part share their clamps. Joints that press one way and lie in line are one ``ClampRow``; its clamps stand evenly
along the joint, none farther from the next than the shop's clamp spacing, half of that at most from the ends. Boards count as the
boxes around them.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from math import ceil
from typing import TYPE_CHECKING, Final

from joinlay.boards import PartKind
from joinlay.boards.meeting import Tie, Way
from joinlay.lengths import Fraction, Length, chosen, dimension
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from joinlay.assembly.blocking import Box
    from joinlay.boards import PartRole
    from joinlay.boards.meeting import Meeting
    from joinlay.boards.place import Vector
    from joinlay.lengths import Dimension
    from joinlay.shop import Clamps, Practice

__all__ = ["ClampRow", "clamp_rows", "clamps_lacking", "presses"]


@dataclass(frozen=True, slots=True)
class ClampRow:
    """Clamps in a row along one joint line.

    ``way`` is the way they press: that in which the joint closes. ``parts`` is the wood in line between their jaws, by role, from
    left to right, front to back or bottom to top; ``along`` is that of them to call the row by. ``places`` is the point in the
    middle of that wood for each clamp, in mm of the piece (X, Y, Z). ``joint`` is how long the joint line is, ``outside`` how
    much wood is between the jaws (``why`` knows both by name), ``reach`` that and two cauls: the shortest clamp that does.
    """

    way: Way
    parts: tuple[PartRole, ...]
    along: PartRole
    places: tuple[Vector, ...]
    joint: Dimension
    outside: Dimension
    reach: Dimension

    @property
    def count(self) -> int:
        """How many clamps."""
        return len(self.places)

    @property
    def apart(self) -> Length:
        """From clamp to clamp; the first is half of that from the end of the joint."""
        return Length(self.joint.mm / self.count)


@dataclass(frozen=True, slots=True)
class _Seam:
    """Where two boards are pressed together: the axis they are pressed on, and the rectangle of their joint across it, in mm."""

    way: Way
    axis: int
    parts: tuple[PartRole, ...]
    low: tuple[Fraction, Fraction]
    high: tuple[Fraction, Fraction]

    @property
    def line(self) -> int:
        """On which of its two axes the joint is the longer."""
        return int(self.high[1] - self.low[1] > self.high[0] - self.low[0])

    @property
    def long(self) -> Fraction:
        """How long the joint line is."""
        return self.high[self.line] - self.low[self.line]


#: The two others of X, Y, Z.
_ACROSS: Final = ((1, 2), (2, 0), (0, 1))


def presses(met: Meeting) -> Way:
    """The way in which a clamp presses the one part of a glued meeting to the other (PT-1, PT-4).

    What butts may come from anywhere but through the other, so it is pressed there; what goes into a cut is pressed the way it
    says first.
    """
    missing = [way for way in Way if way not in met.closes]
    return missing[0].opposite if len(missing) == 1 else met.closes[0]


def clamp_rows(
    glued: Iterable[Meeting], group: Sequence[PartRole], boxes: Mapping[PartRole, Box], practice: Practice, of: str
) -> tuple[ClampRow, ...]:
    """The rows of clamps for the meetings that are ``glued`` at once, the longest joint first; ``group`` are all boards that are
    there by then (PT-4).

    Meetings with nails or screws need none, nor does a bottom, which its grooves hold. ``boxes`` are the boxes around the boards,
    ``of`` what is glued, for the names of its numbers.
    """
    clamped = (met for met in glued if met.tie is Tie.GLUED and met.one.kind is not PartKind.DRAWER_BOTTOM)
    seams = _in_line([seam for met in clamped for seam in _seams(met, boxes)])
    spacing, caul = practice.length("clamp spacing"), practice.length("caul thickness")
    rows: list[ClampRow] = []
    placed = [(role, boxes[role]) for role in group] if seams else []
    for seam in seams:
        count = max(1, ceil(seam.long / spacing.mm))
        if count == 1 and _is_pressed(seam, rows, spacing.mm / 2):
            continue
        near = _abreast(placed, seam)
        spots = [_spot(seam, n, count) for n in range(count)]
        chains = [list(_chain(seam, spot, near, boxes)) for spot in spots]
        spans = [(boxes[chain[0]][seam.axis], max(boxes[role][seam.axis + 3] for role in chain)) for chain in chains]
        outside, between = max(
            ((Length(high - low), chain) for (low, high), chain in zip(spans, chains, strict=True)), key=lambda one: one[0]
        )
        over = f"over the outsides of {' and '.join(role.name for role in between)}, where they stand"
        widest = chosen(outside, over).named(f"{of} wood between the jaws", "PT-4", "by geometry")
        rows.append(
            ClampRow(
                seam.way,
                tuple(dict.fromkeys(role for chain in chains for role in chain)),
                seam.parts[0],
                tuple(_point(seam.axis, (low + high) / 2, spot) for spot, (low, high) in zip(spots, spans, strict=True)),
                dimension(Length(seam.long)).named(f"{of} joint line", "PT-4", "by geometry"),
                widest,
                (widest + 2 * caul).named(f"{of} clamps open at least", "PT-4", "common practice"),
            )
        )
    often = Counter(role for row in rows for role in row.parts)
    return tuple(replace(row, along=_called_by(row, often, boxes)) for row in rows)


def _called_by(row: ClampRow, often: Mapping[PartRole, int], boxes: Mapping[PartRole, Box]) -> PartRole:
    """The part between two others that no other row, or the fewest, have in it; of two such the one that is longer between the
    jaws.

    ``often`` is in how many rows each part is.
    """
    axis = "XYZ".index(row.way.value[1])
    inner = row.parts[1:-1] or row.parts
    return min(inner, key=lambda role: (often[role], boxes[role][axis] - boxes[role][axis + 3]))


def _seams(met: Meeting, boxes: Mapping[PartRole, Box]) -> Iterator[_Seam]:
    """Where the two boards of a joint lie on each other; a tenon speaks for the board that it stands in."""
    one = met.one.of if met.one.kind.is_loose and met.one.of is not None else met.one
    if one == met.other:
        return
    way = presses(met)
    axis = "XYZ".index(way.value[1])
    first, second = _ACROSS[axis]
    mine, its = boxes[one], boxes[met.other]
    low = (max(mine[first], its[first]), max(mine[second], its[second]))
    high = (min(mine[first + 3], its[first + 3]), min(mine[second + 3], its[second + 3]))
    if low[0] < high[0] and low[1] < high[1]:
        yield _Seam(way, axis, (one, met.other), low, high)


def _in_line(seams: Sequence[_Seam]) -> list[_Seam]:
    """Seams that the same clamps press are one, with the parts of all; the longest first."""
    found: list[_Seam] = []
    for seam in sorted(seams, key=lambda one: -one.long):
        for n, other in enumerate(found):
            if other.axis == seam.axis and _share(seam, other):
                found[n] = _Seam(other.way, other.axis, tuple(dict.fromkeys((*other.parts, *seam.parts))), other.low, other.high)
                break
        else:
            found.append(seam)
    return found


def _share(less: _Seam, more: _Seam) -> bool:
    """True where more than half of the one's rectangle lies in the other's, seen along the clamps."""
    wide, high = (min(less.high[n], more.high[n]) - max(less.low[n], more.low[n]) for n in (0, 1))
    if wide <= 0 or high <= 0:
        return False
    return 2 * wide * high > (less.high[0] - less.low[0]) * (less.high[1] - less.low[1])


def _is_pressed(seam: _Seam, rows: Iterable[ClampRow], near: Fraction) -> bool:
    """True where clamps that stand already press both of its parts, one of them no farther than ``near`` from its middle."""
    first, second = _ACROSS[seam.axis]
    along = [row for row in rows if "XYZ".index(row.way.value[1]) == seam.axis]
    if not set(seam.parts) <= {role for row in along for role in row.parts}:
        return False
    middle = ((seam.low[0] + seam.high[0]) / 2, (seam.low[1] + seam.high[1]) / 2)
    return any(
        (at[first] - middle[0]) ** 2 + (at[second] - middle[1]) ** 2 <= near**2
        for row in along
        for at in row.places
        if set(seam.parts) & set(row.parts)
    )


def _spot(seam: _Seam, n: int, count: int) -> tuple[Fraction, Fraction]:
    """Where clamp ``n`` of ``count`` stands, on the seam's two axes."""
    at = [(seam.low[0] + seam.high[0]) / 2, (seam.low[1] + seam.high[1]) / 2]
    at[seam.line] = seam.low[seam.line] + seam.long * Fraction(2 * n + 1, 2 * count)
    return at[0], at[1]


def _abreast(placed: Sequence[tuple[PartRole, Box]], seam: _Seam) -> list[PartRole]:
    """Those whose boxes lie in line with the seam."""
    first, second = _ACROSS[seam.axis]
    (low, lowest), (high, highest) = seam.low, seam.high
    return [
        role
        for role, box in placed
        if box[first] <= high and low <= box[first + 3] and box[second] <= highest and lowest <= box[second + 3]
    ]


def _chain(
    seam: _Seam, spot: tuple[Fraction, Fraction], near: Sequence[PartRole], boxes: Mapping[PartRole, Box]
) -> Iterator[PartRole]:
    """The wood in line with the seam at that spot, from low to high, each part touching the one before; loose tenons lie
    within.
    """
    first, second = _ACROSS[seam.axis]
    axis = seam.axis
    here = [
        role
        for role in near
        if not role.kind.is_loose
        and boxes[role][first] <= spot[0] <= boxes[role][first + 3]
        and boxes[role][second] <= spot[1] <= boxes[role][second + 3]
    ]
    # The two of the seam are there whatever the boxes say: a side that leans has its joint beside the middle of its box.
    here += [role for role in seam.parts if role not in here]
    here.sort(key=lambda role: (boxes[role][axis], boxes[role][axis + 3]))
    run: list[PartRole] = []
    end: Fraction | None = None
    for role in here:
        if end is not None and boxes[role][axis] > end:
            if set(run) & set(seam.parts):
                break
            run, end = [], None
        run.append(role)
        end = boxes[role][axis + 3] if end is None else max(end, boxes[role][axis + 3])
    yield from run


def _point(axis: int, along: Fraction, spot: tuple[Fraction, Fraction]) -> Vector:
    at = {axis: along, _ACROSS[axis][0]: spot[0], _ACROSS[axis][1]: spot[1]}
    return at[0], at[1], at[2]


# -- from what there is --------------------------------------------------------------------------------------


def clamps_lacking(rows: Iterable[ClampRow], owned: Sequence[Clamps] | None) -> tuple[int, Dimension | None]:
    """How many clamps ``rows`` lack of those that are ``owned``, and how far those must open; 0 and None where they do, or nobody
    knows (PT-4).

    Each row takes the shortest clamps that do, the widest row first.
    """
    if owned is None:
        return 0, None
    sorted_by_length = sorted(owned, key=lambda one: one.length)
    left = [clamps.count for clamps in sorted_by_length]
    short, reach = 0, None
    for row in sorted(rows, key=lambda one: one.reach, reverse=True):
        wanted = row.count
        for n, clamps in enumerate(sorted_by_length):
            if clamps.length >= row.reach:
                taken = min(wanted, left[n])
                left[n] -= taken
                wanted -= taken
        if wanted:
            short, reach = short + wanted, reach or row.reach
    return short, reach
