"""Which part stops which: for each of the six straight ways, what a part would run into if it were drawn off that way.

Two parts that meet say it themselves: they part against the ways in which they close (PT-1). Two that don't are looked at as
boxes, exactly: each board less its cuts. A board that leans counts as the box around it, a hole for a screw as wood, and a planed
edge as it was before the plane, which errs to the safe side.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.boards import CutUse
from joinlay.boards.extent import SpaceBox
from joinlay.boards.meeting import Way
from joinlay.lengths import Fraction

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from joinlay.boards import Board, Cut, PartRole
    from joinlay.boards.extent import Spans
    from joinlay.boards.meeting import Meeting


__all__ = ["RUBBED", "Blocking", "Box", "box_of"]

#: A tongue that slides farther than this along its dado, in mm, rubs the glue off on the way (common practice).
RUBBED: Final = 25

#: From where on X, Y and Z, and to where, in mm.
Box = tuple[Fraction, Fraction, Fraction, Fraction, Fraction, Fraction]

#: Which of X, Y, Z a way runs on, and whether it runs up the scale.
_RUN: Final = {way: ("XYZ".index(way.value[1]), way.value[0] == "+") for way in Way}

#: The two others of X, Y, Z.
_ACROSS: Final = ((1, 2), (2, 0), (0, 1))

#: Holes that nothing but a fastener or a screw of a knob goes through.
_HOLES: Final = (CutUse.SCREW_HOLE, CutUse.SCREW_SLOT, CutUse.PULL_HOLE, CutUse.PIN_HOLE, CutUse.LEVELLER_HOLE)


class Blocking:
    """What stops what among some parts, each of one or more boards that move as one.

    ``parts`` are the boards of each; ``meetings`` are where they meet. Parts are spoken of by their number in ``parts``, sets of
    them as the bits of a whole number, the first part the lowest bit. Nothing is worked out before it is asked for. Rule PT-2, by
    geometry; Wilson and Latombe 1992.
    """

    def __init__(
        self, parts: Sequence[Sequence[Board]], meetings: Iterable[Meeting], around: dict[PartRole, Box] | None = None
    ) -> None:
        """Take the boards, all of them placed; ``around`` keeps the boxes around boards for the next to ask."""
        self.parts = tuple(tuple(part) for part in parts)
        boards = [board for part in self.parts for board in part]
        own = {board.role: n for n, part in enumerate(self.parts) for board in part}
        self.ways: dict[tuple[PartRole, PartRole], tuple[Way, ...]] = {}
        self.met: list[tuple[int, int, Meeting]] = []
        for meeting in meetings:
            one, other = own.get(meeting.one), own.get(meeting.other)
            if one is None or other is None or one == other:
                continue
            self.met.append((one, other, meeting))
            self.ways[meeting.one, meeting.other] = tuple(way.opposite for way in meeting.closes)
            self.ways[meeting.other, meeting.one] = meeting.closes
        self.around = {} if around is None else around
        for board in boards:
            if board.role not in self.around:
                self.around[board.role] = _box(SpaceBox.around(board))
        self._placed = tuple(tuple((board, self.around[board.role]) for board in part) for part in self.parts)
        self._hull = tuple(part[0][1] if len(part) == 1 else _round(box for _, box in part) for part in self._placed)
        self._wood: dict[PartRole, tuple[Box, ...]] = {}
        self._stops: dict[tuple[int, Way], int] = {}
        self._grids: dict[int, _Grid] = {}

    def stopped_by(self, part: int, way: Way) -> int:
        """The parts that ``part`` would run into on its way off, as bits."""
        found = self._stops.get((part, way))
        if found is None:
            axis, up = _RUN[way]
            hulls = self._hull
            hull, found = hulls[part], 0
            for other in self._near(part, axis):
                if other != part and _is_past(hull, hulls[other], axis, up=up) and self._is_stopped(part, other, way):
                    found |= 1 << other
            self._stops[part, way] = found
        return found

    def _near(self, part: int, axis: int) -> Iterable[int]:
        """The parts that may be in line with ``part`` along an axis: where there are many, those of the same squares across
        it.
        """
        if len(self._hull) <= _FEW:
            return range(len(self._hull))
        if axis not in self._grids:
            self._grids[axis] = _Grid(self._hull, *_ACROSS[axis])
        return self._grids[axis].near(part)

    def wood(self, board: Board) -> tuple[Box, ...]:
        """The wood of ``board`` as boxes that share no space, in the order in which its cuts part it."""
        found = self._wood.get(board.role)
        if found is None:
            boxes = [self.around[board.role]]
            for cut in board.cuts:
                if cut.role.use not in _HOLES:
                    hole = _box(SpaceBox.around(board, _spans(cut)))
                    boxes = [left for box in boxes for left in (_less(box, hole) if _meet(box, hole) else (box,))]
            found = self._wood[board.role] = tuple(boxes)
        return found

    def travel(self, one: PartRole, other: PartRole, way: Way) -> Fraction:
        """How far ``one`` is drawn off ``way`` until it has left the box around ``other``, in mm; 0 or less where it is
        outside.
        """
        axis, up = _RUN[way]
        mine, its = self.around[one], self.around[other]
        return its[axis + 3] - mine[axis] if up else mine[axis + 3] - its[axis]

    def likeness(self) -> object:
        """What is the same for parts in the same places but for their sizes: which of any two planes comes first, which of any
        two ways is longer, and which is long enough to rub off glue. Nothing else of sizes is asked when parts are taken apart.
        """
        boxes = [box for part in self.parts for board in part for box in (self.around[board.role], *self.wood(board))]
        planes = tuple(_ranks([at for box in boxes for at in (box[axis], box[axis + 3])]) for axis in range(3))
        pairs = [pair for _, _, met in self.met for pair in ((met.one, met.other), (met.other, met.one))]
        travels = [self.travel(*pair, way) for pair in pairs for way in Way]
        return planes, _ranks([Fraction(0), Fraction(RUBBED), *travels])

    def _is_stopped(self, part: int, other: int, way: Way) -> bool:
        axis, up = _RUN[way]
        mine, its = self._hull[part], self._hull[other]
        # What never comes abreast is asked no further: of most parts of a piece that is all there is to know.
        facing = [(another, box) for another, box in self._placed[other] if _is_past(mine, box, axis, up=up)]
        return any(
            _is_past(box, around, axis, up=up) and self._meets(one, another, way)
            for one, box in self._placed[part]
            if _is_past(box, its, axis, up=up)
            for another, around in facing
        )

    def _meets(self, one: Board, other: Board, way: Way) -> bool:
        """True where one, whose box comes into the other's, is stopped by its wood."""
        ways = self.ways.get((one.role, other.role))
        if ways is not None:
            return way not in ways
        axis, up = _RUN[way]
        mine, its = self.wood(one), self.wood(other)
        return any(_is_past(box, there, axis, up=up) for box in mine for there in its)


class _Grid:
    """Boxes by squares of the two axes across one along which they are moved."""

    def __init__(self, boxes: Sequence[Box], first: int, second: int) -> None:
        self._spans = list(zip(_strips(boxes, first), _strips(boxes, second), strict=True))
        self._squares: dict[tuple[int, int], list[int]] = {}
        for n in range(len(boxes)):
            for square in self._of(n):
                self._squares.setdefault(square, []).append(n)

    def _of(self, n: int) -> Iterator[tuple[int, int]]:
        (x0, x1), (y0, y1) = self._spans[n]
        return ((x, y) for x in range(x0, x1 + 1) for y in range(y0, y1 + 1))

    def near(self, n: int) -> list[int]:
        """The boxes that share a square with box ``n``, in their order."""
        return sorted({other for square in self._of(n) for other in self._squares[square]})


def _strips(boxes: Sequence[Box], axis: int) -> Iterator[tuple[int, int]]:
    """From which strip to which each box reaches on an axis, of so many between the first and the last."""
    low, high = min(box[axis] for box in boxes), max(box[axis + 3] for box in boxes)
    step = (high - low) / _SQUARES
    return ((int((box[axis] - low) // step), int((box[axis + 3] - low) // step)) for box in boxes)


#: Up to how many parts are looked at one by one, and into how many squares each way the rest are sorted.
_FEW, _SQUARES = 40, 8


def box_of(board: Board) -> Box:
    """The box around a placed ``board``; one that leans takes less (CK-8)."""
    return _box(SpaceBox.around(board))


def _box(space: SpaceBox) -> Box:
    return (*space.low, *space.high)


def _spans(cut: Cut) -> Spans:
    return tuple((span.start, span.stop) for span in cut.spans)


def _ranks(numbers: Sequence[Fraction]) -> tuple[int, ...]:
    """The place of each number among them all, equal ones alike."""
    places = {number: n for n, number in enumerate(sorted(set(numbers)))}
    return tuple(places[number] for number in numbers)


def _round(boxes: Iterable[Box]) -> Box:
    """The box around them all."""
    a, b, c, d, e, f = zip(*boxes, strict=True)
    return (min(a), min(b), min(c), max(d), max(e), max(f))


def _is_past(one: Box, other: Box, axis: int, *, up: bool) -> bool:
    """True where ``one``, drawn off along ``axis`` up or down the scale, comes into ``other``."""
    if up:
        if other[axis + 3] <= one[axis]:
            return False
    elif one[axis + 3] <= other[axis]:
        return False
    first, second = _ACROSS[axis]
    return (
        one[first] < other[first + 3]
        and other[first] < one[first + 3]
        and one[second] < other[second + 3]
        and other[second] < one[second + 3]
    )


def _meet(box: Box, hole: Box) -> bool:
    """True where both share some space."""
    a, b, c, d, e, f = box
    u, v, w, x, y, z = hole
    return u < d and a < x and v < e and b < y and w < f and c < z


def _less(box: Box, hole: Box) -> Iterator[Box]:
    """``box`` without a ``hole`` that takes some of it, as up to six boxes."""
    rest = list(box)
    for n in range(3):
        if rest[n] < hole[n]:
            yield _with(rest, n + 3, hole[n])
            rest[n] = hole[n]
        if hole[n + 3] < rest[n + 3]:
            yield _with(rest, n, hole[n + 3])
            rest[n + 3] = hole[n + 3]


def _with(box: Sequence[Fraction], place: int, at: Fraction) -> Box:
    made = list(box)
    made[place] = at
    a, b, c, d, e, f = made
    return (a, b, c, d, e, f)
