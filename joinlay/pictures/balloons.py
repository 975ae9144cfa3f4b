"""Numbers in balloons: which part is which in a picture of many, each number once, on its part or beside it with a line to it.

The problem: some twenty numbers in a drawing full of slanting lines, where boxes around lines say nothing of what is free. The method: the paper is
parted into squares of a millimetre, and each line, as it is drawn, takes those it passes. A number may stand on its part, where a whole balloon has
room among its lines; else beside it, at the end of the shortest line, over white paper rather than over another part, that crosses as
little as can be. Numbers with the fewest places go first. Nothing is moved once it stands; a number that finds no room is given back.

Balloons stand about points in whole millimetres, so that the squares under each are the same. The cost is numbers times places (some 1000)
times these squares: less than a hundredth of a second for each number.
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
    from collections.abc import Callable, Iterable, Iterator

    from joinlay.boards import PartRole
    from joinlay.pen.marks import Box, Point, Stroke

__all__ = ["RADIUS_OF_BALLOON", "Balloon", "Numbered", "Paper", "set_balloons"]

#: Half a balloon's width, and white around it.
RADIUS_OF_BALLOON: Final = Fraction(31, 10)
_WHITE: Final = Fraction(2, 5)
_HALF: Final = Fraction(1, 2)
#: How far from its part a balloon may stand, in mm, and how much farther it would rather stand than over another part or across a line.
_REACH: Final = (6, 8, 10, 13, 16, 20, 25, 31, 38)
_OVER_PART, _OVER_LINE = 14, 5


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
    """A ``number`` in a circle about ``centre``; ``spot`` is the point of its part its line goes to, None where it stands on the part."""

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


class Paper:
    """Which squares of a millimetre are taken by lines and balloons."""

    def __init__(self) -> None:
        """Begin with nothing on it."""
        self._lines: set[tuple[int, int]] = set()
        self._balloons: set[tuple[int, int]] = set()

    def take(self, lines: Iterable[Line]) -> None:
        """Note that there are lines."""
        for line in lines:
            self._lines.update(_passed(line.start, line.end))

    def take_words(self, boxes: Iterable[Box]) -> None:
        """Note where words stand: neither a balloon nor a line to a part goes there."""
        for left, bottom, right, top in boxes:
            columns, rows = range(floor(left), ceil(right)), range(floor(bottom), ceil(top))
            self._balloons.update((i, j) for i in columns for j in rows)

    def take_balloon(self, balloon: Balloon) -> None:
        """Note a balloon, and the line to its part."""
        self._balloons.update(_under(balloon.centre))
        if balloon.spot is not None:
            self._balloons.update(_passed(balloon.centre, balloon.spot))

    def is_free(self, centre: Point) -> bool:
        """True where a balloon has room."""
        return not any(square in self._lines or square in self._balloons for square in _under(centre))

    def crossed(self, centre: Point, spot: Point) -> int | None:
        """How many squares with lines a leader passes; None where it meets a balloon or its line."""
        passed = set(_passed(centre, spot))
        return None if passed & self._balloons else len(passed & self._lines)


def set_balloons(
    numbered: Iterable[Numbered], paper: Paper, is_white: Callable[[Point], bool]
) -> tuple[tuple[Balloon, ...], tuple[Numbered, ...]]:
    """A balloon for each number on ``paper``, and those that found no room; ``is_white`` says where no part lies under a point."""
    made: list[Balloon] = []
    left: list[Numbered] = []
    waiting: list[Numbered] = []
    for one in numbered:
        on = next((centre for centre in map(_whole, one.spots) if paper.is_free(centre)), None)
        if on is None:
            waiting.append(one)
            continue
        made.append(Balloon(one.number, one.roles, on))
        paper.take_balloon(made[-1])
    for one in sorted(waiting, key=lambda one: len(one.spots)):
        found = _beside(one, paper, is_white)
        if found is None:
            left.append(one)
            continue
        made.append(found)
        paper.take_balloon(found)
    return tuple(sorted(made, key=lambda balloon: balloon.number)), tuple(left)


def _beside(one: Numbered, paper: Paper, is_white: Callable[[Point], bool]) -> Balloon | None:
    best: tuple[int, Point, Point] | None = None
    for x, y in one.spots[:6]:
        for far in _REACH:
            # What is farther can't be better any more.
            if best is not None and far >= best[0]:
                break
            for a, b in _AROUND:
                centre = _whole((x + a * far, y + b * far))
                if not paper.is_free(centre):
                    continue
                cost = far + (0 if is_white(centre) else _OVER_PART)
                # What lines it would cross takes longest to find, and makes no place better.
                if best is not None and cost >= best[0]:
                    continue
                lines = paper.crossed(centre, (x, y))
                if lines is None:
                    continue
                cost += lines * _OVER_LINE
                if best is None or cost < best[0]:
                    best = (cost, centre, (x, y))
    return None if best is None else Balloon(one.number, one.roles, best[1], best[2])


def _disc() -> tuple[tuple[int, int], ...]:
    """The squares that a balloon about zero lies on, with the white around it."""
    reach = RADIUS_OF_BALLOON + _WHITE
    most = ceil(reach)
    near = {n: max(n, -n - 1) for n in range(-most, most)}
    return tuple((i, j) for i in near for j in near if near[i] ** 2 + near[j] ** 2 < reach**2)


_DISC: Final = _disc()


def _under(centre: Point) -> Iterator[tuple[int, int]]:
    """The squares that a balloon about a point in whole mm lies on."""
    x, y = floor(centre[0]), floor(centre[1])
    return ((x + i, y + j) for i, j in _DISC)


def _whole(point: Point) -> Point:
    """The point in whole mm that is nearest."""
    return Fraction(floor(point[0] + _HALF)), Fraction(floor(point[1] + _HALF))


def _passed(start: Point, end: Point) -> Iterator[tuple[int, int]]:
    """The squares a line passes, taken every half millimetre."""
    # In whole micrometres, which is quick: where words stand need not be exact.
    x0, y0, x1, y1 = (floor(at * 1000) for at in (*start, *end))
    steps = max(abs(x1 - x0), abs(y1 - y0)) // 500 + 1
    for n in range(steps + 1):
        yield (x0 + (x1 - x0) * n // steps) // 1000, (y0 + (y1 - y0) * n // steps) // 1000


def _root(square: Fraction) -> Fraction:
    """A square root to a thousandth."""
    return Fraction(max(1, isqrt(int(square * 1_000_000))), 1000)
