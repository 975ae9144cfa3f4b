from __future__ import annotations

from itertools import product
from math import ceil, floor
from random import Random

import pytest

from joinlay.boards import PartKind, PartRole
from joinlay.lengths import Fraction
from joinlay.pen.marks import Line, Role
from joinlay.pictures.balloons import RADIUS_OF_BALLOON, Balloon, Numbered, Paper, set_balloons

ROLE = PartRole(PartKind.STILE)
#: As the module has them: white around a balloon, how far it goes, what a part under it and a line across cost.
WHITE, REACH, OVER_PART, OVER_LINE = Fraction(2, 5), (6, 8, 10, 13, 16, 20, 25, 31, 38), 14, 5


def squares_of(one, two):
    """The squares a line passes, step by step of half a millimetre."""
    x0, y0, x1, y1 = (floor(at * 1000) for at in (*one, *two))
    steps = max(abs(x1 - x0), abs(y1 - y0)) // 500 + 1
    return {((x0 + (x1 - x0) * n // steps) // 1000, (y0 + (y1 - y0) * n // steps) // 1000) for n in range(steps + 1)}


def squares_under(x, y):
    """Every square of which a part lies nearer to a balloon's middle than its radius and the white around it."""
    reach = RADIUS_OF_BALLOON + WHITE
    columns = range(floor(-reach), ceil(reach))
    near = {n: max(n, -n - 1) for n in columns}
    return {(x + i, y + j) for i, j in product(columns, columns) if near[i] ** 2 + near[j] ** 2 < reach**2}


class PlainPaper:
    """The same, square by square."""

    def __init__(self, lines, boxes):
        self.lines = {square for line in lines for square in squares_of(line.start, line.end)}
        self.balloons = {
            (x, y)
            for left, low, right, top in boxes
            for x in range(floor(left), ceil(right))
            for y in range(floor(low), ceil(top))
        }

    def is_free(self, x, y):
        return not squares_under(x, y) & (self.lines | self.balloons)

    def take(self, balloon):
        self.balloons |= squares_under(*balloon.centre)
        if balloon.spot is not None:
            self.balloons |= squares_of(balloon.centre, balloon.spot)

    def cost(self, at, far, spot, is_white):
        passed = squares_of(at, spot)
        if not self.is_free(*at) or passed & self.balloons:
            return None
        return far + (0 if is_white(*at) else OVER_PART) + OVER_LINE * len(passed & self.lines)


def around():
    quarter = [((1 - t * t) / (1 + t * t), 2 * t / (1 + t * t)) for t in (Fraction(n, 6) for n in range(6))]
    for _ in range(4):
        yield from quarter
        quarter = [(-y, x) for x, y in quarter]


def rounded(point):
    return tuple(floor(at + Fraction(1, 2)) for at in point)


def plainly(numbered, paper, is_white):
    """Every number where it costs least, looking at every place."""
    made, waiting, left = [], [], []
    for one in numbered:
        at = next((at for at in map(rounded, one.spots) if paper.is_free(*at)), None)
        if at is None:
            waiting.append(one)
        else:
            made.append(Balloon(one.number, one.roles, at))
            paper.take(made[-1])
    for one in sorted(waiting, key=lambda one: len(one.spots)):
        places = [
            (cost, at, spot)
            for spot in one.spots[:6]
            for far in REACH
            for a, b in around()
            for at in (rounded((spot[0] + a * far, spot[1] + b * far)),)
            if (cost := paper.cost(at, far, spot, is_white)) is not None
        ]
        if not places:
            left.append(one)
            continue
        _, at, spot = min(places, key=lambda place: place[0])
        made.append(Balloon(one.number, one.roles, at, spot))
        paper.take(made[-1])
    return tuple(sorted(made, key=lambda balloon: balloon.number)), tuple(left)


def drawing(seed):
    """Lines level, upright and slanting in a square of so many mm, words in it, and numbers to set."""
    random = Random(seed)

    def point():
        return (Fraction(random.randrange(-2000, 9000), 97), Fraction(random.randrange(-2000, 9000), 89))

    lines = []
    for _ in range(random.choice((40, 60, 90))):
        one, two = point(), point()
        kind = random.randrange(4)
        two = (two[0], one[1]) if kind == 0 else (one[0], two[1]) if kind == 1 else two
        lines.append(Line(one, two, Role.OUTLINE))
    boxes = [(x, y, x + 12, y + 3) for x, y in (point() for _ in range(4))]
    numbered = [Numbered(n, (ROLE,), tuple(point() for _ in range(random.randrange(1, 9)))) for n in range(1, 7)]
    return lines, boxes, numbered


@pytest.mark.parametrize("seed", range(4))
def test_balloons_stand_where_looking_at_every_place_puts_them(seed):
    def is_white(x, y):
        return not (0 <= x <= 60 and 0 <= y <= 60)

    lines, boxes, numbered = drawing(seed)
    # All is the same however far out squares are counted from.
    paper = Paper((Fraction(-45, 2), Fraction(-30))) if seed % 2 else Paper()
    paper.take(lines)
    paper.take_words(boxes)
    set_down = set_balloons(numbered, paper, is_white)
    assert set_down == plainly(numbered, PlainPaper(lines, boxes), is_white)
    assert any(balloon.spot is not None for balloon in set_down[0])


def test_a_balloon_has_room_up_to_the_white_around_it():
    line = Line((Fraction(0), Fraction(7, 2)), (Fraction(50), Fraction(7, 2)), Role.OUTLINE)
    paper = Paper()
    paper.take([line])
    # The line lies in the square from 3 to 4 mm: a balloon's edge and its white end below the one, or begin above the other.
    assert [y for y in range(-10, 20) if paper.is_free(20, y)] == [*range(-10, 0), *range(8, 20)]
