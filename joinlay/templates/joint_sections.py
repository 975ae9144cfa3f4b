"""Sections of the joints at true size, to hold a cut end against: put together, then each part alone; small joints also at 2 : 1.

A joint is cut through by a plane square to its run, and what of both boards lies in that plane near the joint is drawn. A leaning
side of a tapered drawer is stood square there: over the width of a joint its lean is less than can be cut.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from textwrap import wrap
from typing import TYPE_CHECKING, Final

from joinlay.boards import Axis, CutKind, DrawerRole, JointKind, Place
from joinlay.boards.names import in_few_words
from joinlay.geometry import box_without, shared_box
from joinlay.lengths import Fraction, fraction_in
from joinlay.pen.blocks import stacked
from joinlay.pen.hatching import Hatch
from joinlay.pen.lettering import words
from joinlay.pen.marks import Line, Move, Polyline, Role, bounds_of, flatten, moved
from joinlay.records import dataclass
from joinlay.templates.datum_marks import figures_below, figures_beside
from joinlay.templates.piece_axes import PieceAxis, reach
from joinlay.templates.template import FIGURE, SMALL, WORD, Template

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterator, Mapping, Sequence

    from joinlay.boards import Board, Cut, JointRole, PartRole, Vector
    from joinlay.casework.opening import DrawerMake
    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Graduation
    from joinlay.pen.marks import Box, Mark, Point, Stroke

__all__ = ["JointSection", "SectionPart", "joint_sections", "sections_of"]

_RUNNING: Final = (CutKind.DADO, CutKind.GROOVE, CutKind.RABBET, CutKind.SLOT)
#: Where along a joint it may be cut through.
_SHARES: Final = tuple(fraction_in(share) for share in ("1/2", "2/5", "3/5", "1/3", "2/3", "1/4", "3/4", "1/8", "7/8"))
#: How much wood is shown round the cuts of a joint, in mm.
_AROUND: Final = Fraction(15)
#: Between two drawings; from one to the figures under it; and letters in a line of names.
_APART, _BELOW, _LETTERS = Fraction(10), Fraction(5), 26
#: A joint with a cut this small or smaller is drawn at twice its size too.
_SMALL_CUT: Final = Fraction(8)
_ZERO: Final = Fraction(0)
#: How long and how wide a zigzag is.
_ZIGZAG: Final = Fraction(5, 2)
#: From one hatch line to the next.
_STEP: Final = Fraction(2)


def joint_sections(plan: Plan) -> tuple[Template, ...]:
    """A section of each locking rabbet, dado, rabbet and groove of ``plan`` that differs, with its parts (LR, DA, RA, GR).

    The joint put together, then each part's own profile to hold the cut end against, all at true size, with sizes from the part's
    own sides; where a cut is small the joint once more at 2 : 1, to look at. Mirrored joints are one. Source: common practice.
    """
    alike: dict[Hashable, list[JointSection]] = {}
    for section in sections_of(plan):
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
            marks = [*_part_marks(part, Fraction(1), n), *self._sizes(part)]
            below.append(self._cell(names, "hold the cut end here, 1 : 1", marks))
        return tuple(_in_rows((above, below)))

    def _both(self, scale: Fraction) -> list[Mark]:
        return [mark for n, part in enumerate(self.section.parts) for mark in _part_marks(part, scale, n)]

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
        corners = [point for loop in box_without(part.wood, part.cuts) for point in loop]
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


def _part_marks(part: SectionPart, scale: Fraction, turn: int) -> Iterator[Mark]:
    """A part's profile, hatched one way or the other, its sides drawn but where the board goes on."""

    def put(point: Point) -> Point:
        return (point[0] * scale, point[1] * scale)

    open_sides = _open_sides(part)
    step = _STEP * scale
    for loop in box_without(part.wood, part.cuts):
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


@dataclass(frozen=True, slots=True)
class SectionPart:
    """One board in the section: its ``wood`` and its ``cuts`` as boxes within the window, in mm.

    ``goes_on`` are the sides of the window (left, bottom, right, top) where the board goes on past it.
    """

    board: Board
    wood: Box
    cuts: tuple[Box, ...]
    goes_on: tuple[bool, bool, bool, bool]


@dataclass(frozen=True, slots=True)
class JointSection:
    """A joint cut through, counted from the lower left of its window, in mm.

    ``kind`` is the trade's word for it. ``parts`` are the board that is cut into first, then the one that goes in or meets it.
    ``seen`` says how the section is looked at: from above, from the front, from the left.
    """

    kind: str
    seen: str
    parts: tuple[SectionPart, SectionPart]

    @property
    def likeness(self) -> tuple[object, ...]:
        """The same for joints that are cut alike, mirrored or not."""
        right = max(part.wood[2] for part in self.parts)
        top = max(part.wood[3] for part in self.parts)

        def turned(box: Box, *, x: bool, y: bool) -> Box:
            a, b, c, d = box
            a, c = (right - c, right - a) if x else (a, c)
            b, d = (top - d, top - b) if y else (b, d)
            return (a, b, c, d)

        flips = (
            tuple(
                (part.board.stock, turned(part.wood, x=x, y=y), tuple(sorted(turned(cut, x=x, y=y) for cut in part.cuts)))
                for part in self.parts
            )
            for x in (False, True)
            for y in (False, True)
        )
        return (self.kind, self.seen, min(flips))


def sections_of(plan: Plan) -> Iterator[JointSection]:
    """A section for each two boards of ``plan``, joined by a dado, groove, rabbet or locking rabbet (LR, DA, RA, GR)."""
    boards = {board.role: board for board in plan.boards if board.place is not None}
    makes = {drawer.role: drawer.make for drawer in plan.drawers}
    done: set[frozenset[PartRole]] = set()
    for board in boards.values():
        for cut in board.cuts:
            mate, joint = cut.role.mate, cut.role.joint
            if mate is None or joint is None or mate not in boards or cut.kind not in _RUNNING:
                continue
            pair = frozenset((board.role, mate))
            if pair not in done:
                done.add(pair)
                section = _section(board, boards[mate], joint, _called(joint, makes))
                if section is not None:
                    yield section


def _called(joint: JointRole, makes: Mapping[DrawerRole, DrawerMake]) -> str:
    """What the corner of a drawer is called in the trade; '' for every other joint, which is called after its cut."""
    if not isinstance(joint.of, DrawerRole):
        return ""
    make = makes[joint.of]
    return {JointKind.FRONT_CORNER: make.front_joint.word, JointKind.BACK_CORNER: make.back_joint.word}.get(joint.kind, "")


def _section(one: Board, two: Board, of: JointRole, called: str) -> JointSection | None:
    cuts = {board.role: _running(board, other) for board, other in ((one, two), (two, one))}
    # The board that is cut into stands first: one with a dado or groove before one with a rabbet only.
    first, second = sorted((one, two), key=lambda board: min((_rank(cut) for cut in cuts[board.role]), default=9))
    run = _run_of(first, cuts[first.role][0])
    joint = [(board, cut) for board in (first, second) for cut in cuts[board.role] if _run_of(board, cut) is run]
    at = _plane(run, joint)
    placed = [_squared(board, joint, run, of) for board in (first, second)]
    ways = tuple(way for way in PieceAxis if way is not run)
    spans = [[reach(_squared(board, joint, run, of), way, cut) for board, cut in joint] for way in ways]
    (lefts, rights), (lows, highs) = (tuple(zip(*span, strict=True)) for span in spans)
    window = (min(lefts) - _AROUND, min(lows) - _AROUND, max(rights) + _AROUND, max(highs) + _AROUND)
    parts = [_part(board, run, at, ways, window) for board in placed]
    if None in parts:
        return None
    left, bottom = min(part.wood[0] for part in parts if part), min(part.wood[1] for part in parts if part)
    moved = [_moved(part, left, bottom) for part in parts if part]
    seen = {PieceAxis.HEIGHT: "from above", PieceAxis.DEPTH: "from the front", PieceAxis.WIDTH: "from the left"}[run]
    kind = called or min(cuts[first.role], key=_rank).kind.value
    return JointSection(kind, seen, (moved[0], moved[1]))


def _running(board: Board, other: Board) -> list[Cut]:
    return [cut for cut in board.cuts_for(other.role) if cut.kind in _RUNNING]


def _rank(cut: Cut) -> int:
    return {CutKind.DADO: 0, CutKind.GROOVE: 0, CutKind.SLOT: 1, CutKind.RABBET: 2}[cut.kind]


def _run_of(board: Board, cut: Cut) -> PieceAxis:
    """The way of the piece in which a cut runs: its longest side."""
    longest = max(Axis, key=lambda axis: cut.span(axis).size.mm)
    assert board.place is not None
    return _way(board.place.direction(longest))


def _way(direction: Vector) -> PieceAxis:
    return max(PieceAxis, key=lambda way: abs(direction[way.value]))


def _plane(run: PieceAxis, joint: Sequence[tuple[Board, Cut]]) -> Fraction:
    """Where to cut through: half-way along what all the cuts of the joint share, or near it, clear of all else that is cut."""
    spans = [reach(board, run, cut) for board, cut in joint]
    low, high = max(low for low, _ in spans), min(high for _, high in spans)
    own = {(board.role, cut) for board, cut in joint}
    boards = {board.role: board for board, _ in joint}.values()
    others = [reach(board, run, cut) for board in boards for cut in board.cuts if (board.role, cut) not in own]
    # What runs on past both ends of the joint can't be kept clear of, and belongs to the profile.
    crossing = [(a, b) for a, b in others if not (a <= low and high <= b)]
    tries = [low + (high - low) * share for share in _SHARES]
    return next((at for at in tries if not any(a <= at <= b for a, b in crossing)), tries[0])


def _squared(board: Board, joint: Sequence[tuple[Board, Cut]], run: PieceAxis, of: JointRole) -> Board:
    """A leaning board stood square where the joint is: over the width of a joint the lean of a tapered drawer is nothing.

    At its front corner it is held square from the end on, whether or not it is cut there.
    """
    place = board.place
    assert place is not None
    if not place.leans:
        return board
    own = [cut for other, cut in joint if other.role == board.role]
    along = own[0].along.centre.mm if own and _run_of(board, own[0]) is run else board.length.mm / 2
    if of.kind is JointKind.FRONT_CORNER:
        along = Fraction(0)
    way = _way(place.along)
    straight = [Fraction(0)] * 3
    straight[way.value] = place.along[way.value]
    x, y, z = (place.origin[n] + along * (place.along[n] - straight[n]) for n in range(3))
    return replace(board, place=Place((x, y, z), (straight[0], straight[1], straight[2]), place.across, place.into))


def _part(board: Board, run: PieceAxis, at: Fraction, ways: tuple[PieceAxis, ...], window: Box) -> SectionPart | None:
    (x0, x1), (y0, y1) = (reach(board, way) for way in ways)
    wood = shared_box((x0, y0, x1, y1), window)
    if wood is None:
        return None
    cuts = []
    for cut in board.cuts:
        low, high = reach(board, run, cut)
        if low < at < high:
            (a0, a1), (b0, b1) = (reach(board, way, cut) for way in ways)
            box = shared_box((a0, b0, a1, b1), wood)
            if box is not None:
                cuts.append(box)
    goes_on = (x0 < wood[0], y0 < wood[1], wood[2] < x1, wood[3] < y1)
    return SectionPart(board, wood, tuple(cuts), goes_on)


def _moved(part: SectionPart, left: Fraction, bottom: Fraction) -> SectionPart:
    def shifted(box: Box) -> Box:
        return (box[0] - left, box[1] - bottom, box[2] - left, box[3] - bottom)

    return replace(part, wood=shifted(part.wood), cuts=tuple(map(shifted, part.cuts)))
