"""Numbers in balloons: which part is which in a picture of many, each number once, on its part or beside it with a line to it.

The problem: some twenty numbers in a drawing full of slanting lines, where boxes around lines say nothing of what is free. The
method: the paper is parted into squares of a millimetre, and each line, as it is drawn, takes those it passes. A number may stand
on its part, where a whole balloon has room among its lines; else beside it, at the end of the shortest line, over white paper
rather than over another part, that crosses as little as can be. Numbers with the fewest places go first. Nothing is moved once it
stands; a number that finds no room is given back.

Balloons stand about points in whole millimetres, so that the squares under each are the same. The cost is numbers times places
(some 1000) times these squares: less than a hundredth of a second for each number.
"""

from __future__ import annotations

from math import ceil, floor, isqrt
from typing import TYPE_CHECKING, Final

from joinlay.geometry import quarter_circle
from joinlay.lengths import Fraction
from joinlay.pen.lettering import words
from joinlay.pen.marks import Align, Arc, Fill, Line, Role, Text
from joinlay.pictures.leaders import leader
from joinlay.pictures.picture import SMALL
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

    from joinlay.boards import PartRole
    from joinlay.pen.marks import Box, Point, Stroke

    #: A point in whole micrometres from the corner that squares are counted from.
    _Fine = tuple[int, int]
    #: Squares of a row: its number, and those of the first and the last column.
    _RowRun = tuple[int, int, int]

__all__ = ["RADIUS_OF_BALLOON", "Balloon", "Numbered", "Paper", "set_balloons"]

#: Half a balloon's width, and white around it.
RADIUS_OF_BALLOON: Final = Fraction(31, 10)
_WHITE: Final = Fraction(2, 5)
_HALF: Final = Fraction(1, 2)
#: How far from its part a balloon may stand, in mm, and how much farther it would rather stand than over another part or across a
#: line.
_REACH: Final = (6, 8, 10, 13, 16, 20, 25, 31, 38)
_OVER_PART, _OVER_LINE = 14, 5
#: How far out the corner of what is drawn is taken to be where nobody says it, and how far beyond it balloons may reach, in mm.
_FAR_OUT, _BEYOND = 2**12, 2**6


def _around() -> tuple[Point, ...]:
    quarter = quarter_circle(6)[:-1]
    points: list[Point] = []
    for _ in range(4):
        points += quarter
        quarter = tuple((-y, x) for x, y in quarter)
    return tuple(points)


#: Directions around a point, 1 long.
_AROUND: Final = _around()


@dataclass(frozen=True, slots=True)
class Numbered:
    """A ``number`` to be set, the parts it stands for, and points of these that are seen, in mm on paper, the best first."""

    number: int
    roles: tuple[PartRole, ...]
    spots: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Balloon:
    """A ``number`` in a circle about ``centre``; ``spot`` is the point of its part its line goes to, None where it stands on
    the part.
    """

    number: int
    roles: tuple[PartRole, ...]
    centre: Point
    spot: Point | None = None

    def spelled(self) -> Iterator[Stroke]:
        """The line, the circle and the number."""
        (x, y), radius = self.centre, RADIUS_OF_BALLOON
        if self.spot is not None:
            run, up = self.spot[0] - x, self.spot[1] - y
            long = _root(run * run + up * up)
            yield from leader((x + run * radius / long, y + up * radius / long), self.spot)
        yield Fill(tuple((x + a * radius, y + b * radius) for a, b in _AROUND), Fraction(0), Role.DIMENSION)
        yield Arc(self.centre, radius, Fraction(0), Fraction(360), Role.DIMENSION, of=self.roles)
        yield Text((x, y - SMALL / 2), words(str(self.number), SMALL, bold=True), Align.MIDDLE, of=self.roles)


class _Squares:
    """Squares of a millimetre: those of a row as the bits of one number, and those of a column too, so that a line is asked by
    whichever it passes fewer of.
    """

    def __init__(self) -> None:
        self.rows: dict[int, int] = {}
        self.columns: dict[int, int] = {}

    def add(self, row: int, first: int, last: int) -> None:
        """Those of a row from one column to another."""
        self.rows[row] = self.rows.get(row, 0) | _bits(first, last)
        bit, columns = 1 << row, self.columns
        for column in range(first, last + 1):
            columns[column] = columns.get(column, 0) | bit

    def add_box(self, columns: range, rows: range) -> None:
        """Those of some columns in some rows."""
        for squares, these, others in ((self.rows, rows, columns), (self.columns, columns, rows)):
            bits = _bits(others.start, others.stop - 1)
            for n in these:
                squares[n] = squares.get(n, 0) | bits

    def add_column(self, column: int, first: int, last: int) -> None:
        """Those of a column from one row to another."""
        self.columns[column] = self.columns.get(column, 0) | _bits(first, last)
        bit, rows = 1 << column, self.rows
        for row in range(first, last + 1):
            rows[row] = rows.get(row, 0) | bit


class _Blocked(dict[int, int]):
    """Where in each row, as bits, the middle of a balloon can't be; worked out when a row is first asked for."""

    def __init__(self, squares: Sequence[_Squares]) -> None:
        super().__init__()
        self._rows = [one.rows for one in squares]

    def __missing__(self, y: int) -> int:
        blocked = 0
        for rows, wider in _DISC_ROWS:
            for j in rows:
                for one in self._rows:
                    blocked |= one.get(y + j, 0)
            # What is found for these rows reaches so much farther each way than what is found for the next.
            for _ in range(wider):
                blocked |= blocked << 1 | blocked >> 1
        blocked |= blocked << 1
        self[y] = blocked
        return blocked


class Paper:
    """Which squares of a millimetre are taken by lines and balloons, and where in each row the middle of a balloon may be.

    Squares are counted from a corner that lies far enough out for none to be left of it or below it.
    """

    def __init__(self, corner: Point = (Fraction(-_FAR_OUT), Fraction(-_FAR_OUT))) -> None:
        """Begin with nothing on it; nothing is drawn left of ``corner`` or below it. The nearer it is, the quicker all else."""
        self._left, self._low = floor(corner[0]) - _BEYOND, floor(corner[1]) - _BEYOND
        self._lines = _Squares()
        self._balloons = _Squares()
        self._blocked = _Blocked((self._lines, self._balloons))

    def fine(self, point: Point) -> _Fine:
        """A point in whole micrometres from that corner, which is quick: where words stand need not be exact."""
        x, y = point
        return (
            x.numerator * 1000 // x.denominator - self._left * 1000,
            y.numerator * 1000 // y.denominator - self._low * 1000,
        )

    def take(self, lines: Iterable[Line]) -> None:
        """Note that there are lines."""
        rows: set[_RowRun] = set()
        columns: set[_RowRun] = set()
        for line in lines:
            start, end = self.fine(line.start), self.fine(line.end)
            if start[0] // 1000 == end[0] // 1000:
                # Upright, as every other line is; a level one is a single run.
                one, two = start[1] // 1000, end[1] // 1000
                columns.add((start[0] // 1000, min(one, two), max(one, two)))
            else:
                rows.update(_passed(start, end))
        self._fill(self._lines, rows)
        for column, first, last in columns:
            self._lines.add_column(column, first, last)
        self._blocked.clear()

    def take_words(self, boxes: Iterable[Box]) -> None:
        """Note where words stand: neither a balloon nor a line to a part goes there."""
        for left, bottom, right, top in boxes:
            columns = range(floor(left) - self._left, ceil(right) - self._left)
            rows = range(floor(bottom) - self._low, ceil(top) - self._low)
            if columns and rows:
                self._balloons.add_box(columns, rows)
                for row in range(rows.start - max(_DISC_REACH), rows.stop - min(_DISC_REACH)):
                    self._blocked.pop(row, None)

    def take_balloon(self, balloon: Balloon) -> None:
        """Note a balloon, and the line to its part."""
        x, y = floor(balloon.centre[0]) - self._left, floor(balloon.centre[1]) - self._low
        self._fill(self._balloons, ((y + j, x + first, x + last) for j, first, last in _DISC))
        if balloon.spot is not None:
            self._fill(self._balloons, _passed(self.fine(balloon.centre), self.fine(balloon.spot)))

    def is_free(self, x: int, y: int) -> bool:
        """True where a balloon has room about a point in whole mm."""
        return not self._blocked[y - self._low] >> x - self._left & 1

    def is_taken(self, spot: _Fine) -> bool:
        """True where a balloon, its line or words stand, so that no line may come there."""
        x, y = spot
        return bool(self._balloons.rows.get(y // 1000, 0) >> x // 1000 & 1)

    def free_around(self, spot: _Fine, offsets: Iterable[tuple[int, int, int]]) -> list[tuple[int, int, int]]:
        """Those of the points so far off ``spot`` where a balloon has room: which of ``offsets``, and the point in whole mm."""
        (x, y), blocked, left, low = spot, self._blocked, self._left, self._low
        return [
            (n, (x + right) // 1000 + left, (y + up) // 1000 + low)
            for n, right, up in offsets
            if not blocked[(y + up) // 1000] >> (x + right) // 1000 & 1
        ]

    def crossed(self, at: tuple[int, int], spot: _Fine, most: int | None = None) -> int | None:
        """How many squares with lines a leader passes from ``at``, in whole mm, to ``spot``; None where it meets a balloon or its
        line, or where that is more than ``most``.
        """
        # From the part on: there are the lines, and none about the middle of a balloon that has room. The squares are those of
        # ``_runs``; this is asked some ten thousand times, so that they are gone through here.
        x, y = spot
        run, up = (at[0] - self._left) * 1000 - x, (at[1] - self._low) * 1000 - y
        lines, balloons = self._lines.rows, self._balloons.rows
        if abs(up) > abs(run):
            x, y, run, up = y, x, up, run
            lines, balloons = self._lines.columns, self._balloons.columns
        found, first, row, stop = 0, x // 1000, y // 1000, (y + up) // 1000
        steps = abs(run) // 500 + 1
        whole = 1000 * steps
        x, way, rise = x * steps, (1 if up > 0 else -1), abs(up)
        left = (row + 1) * whole - y * steps - 1 if up > 0 else y * steps - row * whole
        while True:
            if row == stop:
                last = (x + run * steps) // whole
            else:
                n = left // rise
                last = (x + run * n) // whole
            low, bits = (first, _ROW[last - first]) if first <= last else (last, _ROW[first - last])
            other = balloons.get(row)
            if other and other >> low & bits:
                return None
            there = lines.get(row)
            if there:
                found += (there >> low & bits).bit_count()
                if most is not None and found > most:
                    return None
            if row == stop:
                return found
            first = (x + run * (n + 1)) // whole
            left += whole
            row += way

    def _fill(self, squares: _Squares, runs: Iterable[_RowRun]) -> None:
        rows: set[int] = set()
        for row, first, last in runs:
            squares.add(row, first, last)
            rows.add(row)
        for row in rows:
            for j in _DISC_REACH:
                self._blocked.pop(row - j, None)


def set_balloons(
    numbered: Iterable[Numbered], paper: Paper, is_white: Callable[[int, int], bool]
) -> tuple[tuple[Balloon, ...], tuple[Numbered, ...]]:
    """A balloon for each number on ``paper``, and those that found no room; ``is_white`` says where no part lies under a
    point in whole mm.
    """
    made: list[Balloon] = []
    left: list[Numbered] = []
    waiting: list[Numbered] = []
    for one in numbered:
        on = next((at for at in map(_whole, one.spots) if paper.is_free(*at)), None)
        if on is None:
            waiting.append(one)
            continue
        made.append(Balloon(one.number, one.roles, (Fraction(on[0]), Fraction(on[1]))))
        paper.take_balloon(made[-1])
    for one in sorted(waiting, key=lambda one: len(one.spots)):
        found = _beside(one, paper, is_white)
        if found is None:
            left.append(one)
            continue
        made.append(found)
        paper.take_balloon(found)
    return tuple(sorted(made, key=lambda balloon: balloon.number)), tuple(left)


def _beside(one: Numbered, paper: Paper, is_white: Callable[[int, int], bool]) -> Balloon | None:
    """The place that costs least; of several the first: by the spots, then by how far, then around."""
    spots = [
        (n, spot, end) for n, spot in enumerate(one.spots[:_MOST_SPOTS]) for end in (paper.fine(spot),) if not paper.is_taken(end)
    ]
    ends = {n: (spot, end) for n, spot, end in spots}
    # Places by what they cost before the lines crossed are counted, which takes longest: the dearer are seldom looked at.
    waiting: dict[int, list[tuple[int, int, int, int]]] = {}
    best: tuple[int, int, int] | None = None
    found: tuple[Point, Point] | None = None
    for least in _COSTS:
        # What costs more can't be better any more.
        if best is not None and least > best[0]:
            break
        if least in _REACH:
            away = _REACH.index(least)
            for n, _, end in spots:
                for around, column, row in paper.free_around(end, _OFFSETS[away]):
                    cost = least if is_white(column, row) else least + _OVER_PART
                    waiting.setdefault(cost, []).append((n, away * len(_AROUND) + around, column, row))
        for n, around, column, row in sorted(waiting.pop(least, ())):
            spot, end = ends[n]
            most = None if best is None else (best[0] - least) // _OVER_LINE
            lines = paper.crossed((column, row), end, most)
            if lines is None:
                continue
            place = (least + lines * _OVER_LINE, n, around)
            if best is None or place < best:
                best, found = place, ((Fraction(column), Fraction(row)), spot)
    return None if found is None else Balloon(one.number, one.roles, *found)


def _disc() -> tuple[_RowRun, ...]:
    """The squares that a balloon about zero lies on, with the white around it, row by row."""
    reach = RADIUS_OF_BALLOON + _WHITE
    most = ceil(reach)
    near = {n: max(n, -n - 1) for n in range(-most, most)}
    rows = {j: [i for i in near if near[i] ** 2 + near[j] ** 2 < reach**2] for j in near}
    return tuple((j, min(columns), max(columns)) for j, columns in rows.items() if columns)


_DISC: Final = _disc()
#: Its rows. Each reaches as far right of zero as left of it, but for one square that it has more at the left.
_DISC_REACH: Final = tuple(j for j, _, _ in _DISC)
_WIDTHS: Final = sorted({last for _, _, last in _DISC}, reverse=True)
#: Those that reach as far, the farthest first, each with how much less far the next ones reach.
_DISC_ROWS: Final = tuple(
    (tuple(j for j, _, last in _DISC if last == wide), wide - less) for wide, less in zip(_WIDTHS, (*_WIDTHS[1:], 0), strict=True)
)

#: So many squares in a row, and one more, as bits: as many as a line to a part passes at most.
_ROW: Final = tuple((2 << n) - 1 for n in range(2 * _REACH[-1]))

#: How many of a part's spots a line may lead to.
_MOST_SPOTS: Final = 6
#: What a place can cost that crosses no line, from the least.
_COSTS: Final = tuple(sorted({far + over for far in _REACH for over in (0, _OVER_PART)}))
#: From a spot to the places around it, for each reach, in micrometres; with the half millimetre that makes rounding down
#: rounding.
_OFFSETS: Final = tuple(
    tuple((n, round(a * far * 1000) + 500, round(b * far * 1000) + 500) for n, (a, b) in enumerate(_AROUND)) for far in _REACH
)


def _whole(point: Point) -> tuple[int, int]:
    """The point in whole mm that is nearest."""
    return floor(point[0] + _HALF), floor(point[1] + _HALF)


def _bits(first: int, last: int) -> int:
    """The squares from one column to another, as bits."""
    return (1 << last + 1) - (1 << first)


def _runs(start: _Fine, end: _Fine) -> Iterator[_RowRun]:
    """The squares that a line passes, row by row; it runs along the rows at least as far as across them. Ends in micrometres.

    They are those of points on it at most half a millimetre apart, the ends among them; from one row it comes to the next.
    """
    (x0, y0), (x1, y1) = start, end
    run, up = x1 - x0, y1 - y0
    steps = max(abs(run), abs(up)) // 500 + 1
    # Point n lies in column (x + run * n) // whole, and likewise in its row.
    whole = 1000 * steps
    x, y = x0 * steps, y0 * steps
    first, n = x0 // 1000, 0
    row, stop, way = y0 // 1000, y1 // 1000, 1 if up > 0 else -1
    while row != stop:
        # The last point that lies in the row.
        n = ((row + 1) * whole - y - 1) // up if up > 0 else (y - row * whole) // -up
        last = (x + run * n) // whole
        yield (row, first, last) if first <= last else (row, last, first)
        first = (x + run * (n + 1)) // whole
        row += way
    last = x1 // 1000
    yield (row, first, last) if first <= last else (row, last, first)


def _passed(start: _Fine, end: _Fine) -> Iterator[_RowRun]:
    """The squares a line passes, row by row or, where it is steep, one by one; its ends in micrometres."""
    if abs(end[1] - start[1]) <= abs(end[0] - start[0]):
        yield from _runs(start, end)
        return
    for column, first, last in _runs(start[::-1], end[::-1]):
        for row in range(first, last + 1):
            yield row, column, column


def _root(square: Fraction) -> Fraction:
    """A square root to a thousandth."""
    return Fraction(max(1, isqrt(int(square * 1_000_000))), 1000)
