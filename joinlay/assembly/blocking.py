"""Which part stops which: for each of the six straight ways, what a part would run into if it were drawn off that way.

Two parts that meet say it themselves: they part against the ways in which they close (PT-1). Two that don't are looked at as
boxes, exactly: each board less its cuts. A board that leans counts as the box around it, a hole for a screw as wood, and a planed
edge as it was before the plane, which errs to the safe side.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.boards import Axis, CutUse
from joinlay.boards.extent import SpaceBox
from joinlay.boards.meeting import Way
from joinlay.lengths import Fraction

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from joinlay.boards import Board, Cut, PartRole
    from joinlay.boards.extent import Spans
    from joinlay.boards.meeting import Meeting


__all__ = ["Blocking", "Box", "box_of"]

#: From where on X, Y and Z, and to where, in mm.
Box = tuple[Fraction, Fraction, Fraction, Fraction, Fraction, Fraction]

#: Which of X, Y, Z a way runs on, and whether it runs up the scale.
_RUN: Final = {way: ("XYZ".index(way.value[1]), way.value[0] == "+") for way in Way}

#: The two others of X, Y, Z.
_ACROSS: Final = ((1, 2), (2, 0), (0, 1))

#: Holes that nothing but a fastener or a screw of a knob goes through.
_HOLES: Final = (CutUse.SCREW_HOLE, CutUse.SCREW_SLOT, CutUse.PULL_HOLE, CutUse.PIN_HOLE)


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

    def stopped_by(self, part: int, way: Way) -> int:
        """The parts that ``part`` would run into on its way off, as bits."""
        found = self._stops.get((part, way))
        if found is None:
            axis, up = _RUN[way]
            hull = self._hull[part]
            found = 0
            for other, around in enumerate(self._hull):
                if other != part and _is_past(hull, around, axis, up=up) and self._is_stopped(part, other, way):
                    found |= 1 << other
            self._stops[part, way] = found
        return found

    def travel(self, one: PartRole, other: PartRole, way: Way) -> Fraction:
        """How far ``one`` is drawn off ``way`` until it has left the box around ``other``, in mm; 0 or less where it is outside."""
        axis, up = _RUN[way]
        mine, its = self.around[one], self.around[other]
        return its[axis + 3] - mine[axis] if up else mine[axis + 3] - its[axis]

    def _is_stopped(self, part: int, other: int, way: Way) -> bool:
        axis, up = _RUN[way]
        for one, mine in self._placed[part]:
            for another, its in self._placed[other]:
                # What never comes abreast is asked no further: of most parts of a piece that is all there is to know.
                if _is_past(mine, its, axis, up=up) and self._meets(one, another, way):
                    return True
        return False

    def _meets(self, one: Board, other: Board, way: Way) -> bool:
        """True where one, whose box comes into the other's, is stopped by its wood."""
        ways = self.ways.get((one.role, other.role))
        if ways is not None:
            return way not in ways
        axis, up = _RUN[way]
        mine, its = self._boxes(one), self._boxes(other)
        return any(_is_past(box, there, axis, up=up) for box in mine for there in its)

    def _boxes(self, board: Board) -> tuple[Box, ...]:
        """The wood of ``board`` as boxes that share no space."""
        found = self._wood.get(board.role)
        if found is None:
            boxes = [self.around[board.role]]
            for cut in board.cuts:
                if cut.role.use not in _HOLES:
                    hole = _box(SpaceBox.around(board, _spans(cut)))
                    boxes = [left for box in boxes for left in _less(box, hole)]
            found = self._wood[board.role] = tuple(boxes)
        return found


def box_of(board: Board) -> Box:
    """The box around a placed ``board``; one that leans takes less (CK-8)."""
    return _box(SpaceBox.around(board))


def _box(space: SpaceBox) -> Box:
    return (*space.low, *space.high)


def _spans(cut: Cut) -> Spans:
    return tuple((cut.span(axis).start, cut.span(axis).stop) for axis in Axis)


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


def _less(box: Box, hole: Box) -> Iterator[Box]:
    """``box`` without ``hole``, as up to six boxes."""
    if any(hole[n] >= box[n + 3] or box[n] >= hole[n + 3] for n in range(3)):
        yield box
        return
    rest = list(box)
    for n in range(3):
        if rest[n] < hole[n]:
            yield _with(rest, n + 3, hole[n])
            rest[n] = hole[n]
        if hole[n + 3] < rest[n + 3]:
            yield _with(rest, n, hole[n + 3])
            rest[n + 3] = hole[n + 3]


def _with(box: Sequence[Fraction], place: int, at: Fraction) -> Box:
    a, b, c, d, e, f = (at if n == place else old for n, old in enumerate(box))
    return (a, b, c, d, e, f)
