"""Drawing the sections of joints: put together, then each part alone with its sizes, at true size; small joints also at 2 : 1."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise, product
from textwrap import wrap
from typing import TYPE_CHECKING, Final

from joinlay.boards.names import in_few_words
from joinlay.lengths import Fraction
from joinlay.pen.blocks import stacked
from joinlay.pen.hatching import Hatch
from joinlay.pen.lettering import words
from joinlay.pen.marks import Line, Move, Polyline, Role, bounds_of, flatten, moved
from joinlay.templates.datum_marks import figures_below, figures_beside
from joinlay.templates.sections.cutting_plane import sections_of
from joinlay.templates.template import FIGURE, SMALL, WORD, Template

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterable, Iterator, Sequence

    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Graduation
    from joinlay.pen.marks import Box, Mark, Point, Stroke
    from joinlay.templates.sections.cutting_plane import JointSection, SectionPart

__all__ = ["joint_sections", "profile"]

#: Between two drawings; from one to the figures under it; and letters in a line of names.
_APART, _BELOW, _LETTERS = Fraction(10), Fraction(5), 26
#: A joint with a cut this small or smaller is drawn at twice its size too.
_SMALL_CUT: Final = Fraction(8)
_ZERO: Final = Fraction(0)
#: How long and how wide a zigzag is.
_ZIGZAG: Final = Fraction(5, 2)
#: From one hatch line to the next.
_STEP: Final = Fraction(2)
#: The sides of a profile: from each corner, the corners a side goes on to.
_Edges = dict["Point", list["Point"]]


def joint_sections(plan: Plan) -> tuple[Template, ...]:
    """A section of each locking rabbet, dado, rabbet and groove that differs, with the parts it serves (LR, DA, RA, GR).

    The joint put together, then each part's own profile to hold the cut end against, all at true size, with sizes from the part's
    own sides; where a cut is small the joint once more at 2 : 1, to look at. Mirrored joints are one. Source: common practice.
    """
    alike: dict[Hashable, list[JointSection]] = {}
    for section in sections_of(plan.boards):
        alike.setdefault(section.likeness, []).append(section)
    return tuple(_template(sections, plan.rule) for sections in alike.values())


def _template(sections: list[JointSection], rule: Graduation) -> Template:
    strokes = _DrawnSection(sections[0], sections, rule).strokes()
    names = tuple(dict.fromkeys(section.parts[0].board.name for section in sections))
    met = in_few_words(dict.fromkeys(section.parts[1].board.part for section in sections))
    return Template(names, f"section of the {sections[0].kind} with the {met}", strokes, bounds_of(strokes))


@dataclass(frozen=True, slots=True)
class _DrawnSection:
    section: JointSection
    all: list[JointSection]
    rule: Graduation

    def strokes(self) -> tuple[Stroke, ...]:
        """Two rows: put together and at 2 : 1 above, each part by itself below; every drawing under its own words."""
        above = [
            self._cell(
                f"{self.section.kind}, put together", f"seen {self.section.seen}, 1 : 1; hatched is wood", self._both(Fraction(1))
            )
        ]
        if self._is_small():
            above.append(self._cell(f"{self.section.kind}, 2 : 1", "to look at only", self._both(Fraction(2))))
        below = []
        for n, part in enumerate(self.section.parts):
            names = in_few_words(dict.fromkeys(section.parts[n].board.name for section in self.all))
            marks = [*_part(part, Fraction(1), n), *self._sizes(part)]
            below.append(self._cell(names, "hold the cut end here, 1 : 1", marks))
        return tuple(_in_rows((above, below)))

    def _both(self, scale: Fraction) -> list[Mark]:
        return [mark for n, part in enumerate(self.section.parts) for mark in _part(part, scale, n)]

    def _is_small(self) -> bool:
        cuts = [cut for part in self.section.parts for cut in part.cuts]
        return min(min(cut[2] - cut[0], cut[3] - cut[1]) for cut in cuts) <= _SMALL_CUT

    def _cell(self, head: str, small: str, marks: list[Mark]) -> list[Stroke]:
        """Drawings with their words over them, from their lower left corner on."""
        drawn = list(flatten(marks))
        left, _, _, top = bounds_of(drawn)
        lines = [words(line, WORD, bold=True) for line in wrap(head, _LETTERS)]
        drawn += flatten(stacked([*lines, words(small, SMALL)]).marks(left, top + 3))
        left, bottom, _, _ = bounds_of(drawn)
        return [moved(stroke, Move(-left, -bottom)) for stroke in drawn]

    def _sizes(self, part: SectionPart) -> Iterator[Mark]:
        """Where each wall and floor of the profile lies, from the side of the board that is within the window."""
        left, bottom, right, top = part.wood
        corners = [point for loop in profile(part.wood, part.cuts) for point in loop]
        xs, ys = {x for x, _ in corners}, {y for _, y in corners}
        gone_left, gone_low, gone_right, gone_top = part.goes_on
        xs -= ({left} if gone_left else set()) | ({right} if gone_right else set())
        ys -= ({bottom} if gone_low else set()) | ({top} if gone_top else set())
        zero_x = (right if gone_left and not gone_right else left) if not (gone_left and gone_right) else min(xs)
        zero_y = (top if gone_low and not gone_top else bottom) if not (gone_low and gone_top) else min(ys)
        name = part.board.name
        yield from figures_below(xs, zero_x, bottom - _BELOW, self.rule, FIGURE, f"{name} across")
        yield from figures_beside(ys, zero_y, left - 1, -1, self.rule, FIGURE, f"{name} up")


def _in_rows(rows: tuple[list[list[Stroke]], ...]) -> Iterator[Stroke]:
    """Cells in rows, the first row at the top, their lower sides and their columns in line."""
    boxes = [[bounds_of(cell) for cell in row] for row in rows]
    column = max(row[0][2] for row in boxes) + _APART
    y = _ZERO
    for row, sizes in zip(reversed(rows), reversed(boxes), strict=True):
        for n, cell in enumerate(row):
            yield from (moved(stroke, Move(n * column, y)) for stroke in cell)
        y += max(size[3] for size in sizes) + _APART


def _part(part: SectionPart, scale: Fraction, turn: int) -> Iterator[Mark]:
    """A part's profile, hatched one way or the other, its sides drawn but where the board goes on."""

    def put(point: Point) -> Point:
        return (point[0] * scale, point[1] * scale)

    open_sides = _open_sides(part)
    step = _STEP * scale
    for loop in profile(part.wood, part.cuts):
        if turn:
            # The other way: hatched in a mirror and mirrored back.
            mirrored = tuple((-x, y) for x, y in map(put, reversed(loop)))
            yield from (
                Line((-a[0], a[1]), (-b[0], b[1]), Role.HATCH)
                for a, b in ((h.start, h.end) for h in Hatch(mirrored, step).spelled())
            )
        else:
            yield Hatch(tuple(map(put, loop)), step)
        for one, two in pairwise((*loop, loop[0])):
            if _lies_on(one, two, open_sides):
                yield Polyline(_broken(put(one), put(two)), Role.BREAK)
            else:
                yield Line(put(one), put(two), Role.OUTLINE, f"{part.board.name} profile" if scale == 1 else "")


def _broken(one: Point, two: Point) -> tuple[Point, ...]:
    """A line where the wood goes on, with a zigzag in its middle where it is long enough (ISO 128)."""
    (x0, y0), (x1, y1) = one, two
    long = abs(x1 - x0) + abs(y1 - y0)
    if long < 3 * _ZIGZAG:
        return (one, two)
    along = ((x1 - x0) / long, (y1 - y0) / long)
    middle = ((x0 + x1) / 2, (y0 + y1) / 2)

    def at(on: Fraction, off: Fraction) -> Point:
        return (middle[0] + along[0] * on - along[1] * off, middle[1] + along[1] * on + along[0] * off)

    half = _ZIGZAG / 2
    return (one, at(-half, _ZERO), at(-half / 2, _ZIGZAG / 2), at(half / 2, -_ZIGZAG / 2), at(half, _ZERO), two)


def _open_sides(part: SectionPart) -> list[tuple[int, Fraction]]:
    """The sides of the window where the board goes on: which number of a point, and its value there."""
    return [(n % 2, part.wood[n]) for n in range(4) if part.goes_on[n]]


def _lies_on(one: Point, two: Point, sides: list[tuple[int, Fraction]]) -> bool:
    return any(one[axis] == two[axis] == value for axis, value in sides)


def profile(wood: Box, cuts: Iterable[Box]) -> tuple[tuple[Point, ...], ...]:
    """What is left of ``wood`` (left, bottom, right, top) when ``cuts`` are taken away: its outlines in mm.

    Outsides go anticlockwise, holes clockwise. Only corners are given, no points along a straight side. Where nothing is left, an
    empty tuple. All walls make a grid, and the sides of its filled cells that no filled cell shares make the outlines: time and
    room grow with the square of the number of cuts, which are few.
    """
    gone = tuple(cuts)
    xs = sorted({x for x0, _, x1, _ in (wood, *gone) for x in (x0, x1) if wood[0] <= x <= wood[2]})
    ys = sorted({y for _, y0, _, y1 in (wood, *gone) for y in (y0, y1) if wood[1] <= y <= wood[3]})
    edges: _Edges = {}
    cells = product(enumerate(pairwise(xs)), enumerate(pairwise(ys)))
    filled = {
        (i, j)
        for (i, (x0, x1)), (j, (y0, y1)) in cells
        if not any(a <= x0 and x1 <= c and b <= y0 and y1 <= d for a, b, c, d in gone)
    }
    for i, j in sorted(filled):
        corners = ((xs[i], ys[j]), (xs[i + 1], ys[j]), (xs[i + 1], ys[j + 1]), (xs[i], ys[j + 1]))
        # A side that the next cell shares is no outline.
        beyond = ((i, j - 1), (i + 1, j), (i, j + 1), (i - 1, j))
        for side, other in enumerate(beyond):
            if other not in filled:
                edges.setdefault(corners[side], []).append(corners[(side + 1) % 4])
    return tuple(_loops(edges))


def _loops(edges: _Edges) -> Iterable[tuple[Point, ...]]:
    while edges:
        start = min(edges)
        loop = [start]
        at = _take(edges, start, None)
        while at != start:
            before = loop[-1]
            loop.append(at)
            at = _take(edges, at, before)
        yield _straightened(loop)


def _take(edges: _Edges, at: Point, before: Point | None) -> Point:
    """The next corner from ``at``; where two outlines touch in it, the one that turns left, so that they stay two."""
    following = edges[at]
    choice = following[0]
    if before is not None and len(following) > 1:
        choice = next((point for point in following if _turns_left(before, at, point)), choice)
    following.remove(choice)
    if not following:
        del edges[at]
    return choice


def _turns_left(one: Point, two: Point, three: Point) -> bool:
    return _turn(one, two, three) > 0


def _turn(one: Point, two: Point, three: Point) -> Fraction:
    return (two[0] - one[0]) * (three[1] - two[1]) - (two[1] - one[1]) * (three[0] - two[0])


def _straightened(loop: Sequence[Point]) -> tuple[Point, ...]:
    around = (loop[-1], *loop, loop[0])
    return tuple(two for one, two, three in zip(around, around[1:], around[2:], strict=False) if _turn(one, two, three) != 0)
