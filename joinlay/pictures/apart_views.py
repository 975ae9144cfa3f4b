"""The piece taken apart, to see at a glance what goes where: parts along the ways they close, numbered, their moves as arrows,
glue dotted.

A view is made of the same placed boards as every picture. They are moved apart along the moves of the order (``apart.py``),
looked at from the front, the right and above with what is hidden taken away (``axonometric.py``, ISO 5456-3), dotted where glue
goes (``glue_faces.py``), and numbered (``balloons.py``). Thin chain lines run from each joint to where it closes, and an arrow on
them says which part moves. Everything drawn of a part carries its role, so that a program can show or hide it, or know which part
a hand points at.
"""

from __future__ import annotations

from dataclasses import field
from typing import TYPE_CHECKING, Final

from joinlay.boards import Hand, PartKind, Whole
from joinlay.boards.extent import SpaceBox, extent
from joinlay.lengths import Fraction
from joinlay.pen.hatching import Stipple
from joinlay.pen.marks import Fill, Line, Role, flatten
from joinlay.pictures.apart import closing_way, held_apart, offsets_of
from joinlay.pictures.axonometric import drawing_at, look_from_corner, seen_size
from joinlay.pictures.balloons import RADIUS_OF_BALLOON, Numbered, Paper, set_balloons
from joinlay.pictures.glue_faces import glue_faces
from joinlay.pictures.picture import PLAIN, Picture
from joinlay.pictures.scene import scene_of
from joinlay.pictures.solid_faces import fine
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence

    from joinlay.assembly.clamping import ClampRow
    from joinlay.assembly.order import Move, Stage
    from joinlay.boards import Board, PartRole, Vector
    from joinlay.boards.meeting import Meeting, Way
    from joinlay.jobs.plan import Plan
    from joinlay.pen.marks import Point, Stroke
    from joinlay.pictures.axonometric import ViewFromCorner
    from joinlay.pictures.balloons import Balloon
    from joinlay.pictures.picture import Scale, Size
    from joinlay.pictures.solid_faces import Face, Spot

__all__ = ["ApartView", "ClampSign", "DrawnPart", "MoveArrow", "apart_view", "runners_view", "stage_view", "whole_view"]

#: The gap between parts, as a share of the largest size of what is drawn.
_GAP: Final = Fraction(1, 8)
#: The longest arrow, the shortest stretch it may stand on, and its head, in mm on paper.
_ARROW, _LEAST, _HEAD, _HALF_HEAD = Fraction(13), Fraction(4), Fraction(12, 5), Fraction(4, 5)
#: Room left around the wood for balloons, in mm on paper.
_MARGIN: Final = 2 * RADIUS_OF_BALLOON + 4
#: Where on a face a number or the end of its line may stand, in twelfths of its two sides, the best first.
_TWELFTHS: Final = tuple((a, b) for b in (6, 3, 9) for a in (6, 4, 8, 2, 10, 1, 11))
#: Of the faces of a part, and of the parts of a number, how many are looked at.
_FACES, _PARTS = 3, 6
#: How long a jaw of a clamp is drawn, in mm on paper.
_JAW: Final = Fraction(9, 2)
_NONE: Final = (Fraction(0), Fraction(0), Fraction(0))


@dataclass(frozen=True, slots=True)
class DrawnPart:
    """What is drawn of the part ``role``: where it gets glue, dotted, and what is seen of its edges."""

    role: PartRole
    glue: tuple[Line, ...]
    edges: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class MoveArrow:
    """One move: the parts that go, their ``way``, and on paper the chain ``lines`` to where they close; an arrow from ``start``
    to ``end``.

    Both are None where there is no room for an arrow.
    """

    moving: tuple[PartRole, ...]
    way: Way
    lines: tuple[Line, ...]
    start: Point | None = None
    end: Point | None = None

    def spelled(self) -> Iterator[Stroke]:
        """The chain lines and the arrow."""
        yield from self.lines
        if self.start is None or self.end is None:
            return
        (x0, y0), (x1, y1) = self.start, self.end
        run, up = _direction(self.start, self.end)
        foot = (x1 - run * _HEAD, y1 - up * _HEAD)
        yield Line((x0, y0), foot, Role.OUTLINE)
        aside = (-up * _HALF_HEAD, run * _HALF_HEAD)
        yield Fill(
            ((x1, y1), (foot[0] + aside[0], foot[1] + aside[1]), (foot[0] - aside[0], foot[1] - aside[1])),
            Fraction(1),
            Role.DIMENSION,
        )


@dataclass(frozen=True, slots=True)
class ClampSign:
    """One jaw of a clamp: its pad on the part ``role`` at ``pad``, and the way it comes from, as far as ``back`` (PT-4). On
    paper, in mm.
    """

    role: PartRole
    pad: Point
    back: Point

    def spelled(self) -> Iterator[Stroke]:
        """A bar for the pad, a lighter one behind it, and the screw."""
        (x, y), (run, up) = self.pad, _direction(self.pad, self.back)
        for far, half, role in ((Fraction(0), Fraction(3, 2), Role.OUTLINE), (Fraction(1), Fraction(1, 2), Role.OUTLINE)):
            at = (x + run * far, y + up * far)
            yield Line((at[0] - up * half, at[1] + run * half), (at[0] + up * half, at[1] - run * half), role)
        yield Line(self.pad, self.back, Role.SEEN)


@dataclass(frozen=True, slots=True)
class ApartView:
    """A picture taken apart, in mm on paper, zero anywhere: its ``parts``, their ``moves``, jaws of ``clamps``, and the numbers
    in ``balloons``.

    ``over`` are the numbers that found no room. Of a clamp the jaws are drawn that are seen. ``parts_seen`` gives the faces to
    press a part by, the nearest last by their middles, which is near enough for a hand; they aren't drawn.
    """

    title: str
    scale: Scale
    parts: tuple[DrawnPart, ...]
    moves: tuple[MoveArrow, ...]
    balloons: tuple[Balloon, ...]
    over: tuple[int, ...] = ()
    clamps: tuple[ClampSign, ...] = ()
    parts_seen: Callable[[], Iterable[Fill]] = field(default=tuple, compare=False, repr=False)

    @property
    def picture(self) -> Picture:
        """The view as strokes, in the order they are drawn."""
        strokes: list[Stroke] = [dots for part in self.parts for dots in part.glue]
        strokes += [edge for part in self.parts for edge in part.edges]
        strokes += flatten([*self.moves, *self.clamps, *self.balloons])
        return Picture(self.title, tuple(strokes), self.scale, parts_seen=self.parts_seen)


def whole_view(plan: Plan, numbers: Mapping[PartRole, int], room: Size) -> ApartView | None:
    """The whole piece taken apart, within ``room`` (width and height in mm); None where no case is made, or there is no order.

    The case comes apart; frame and drawers stay whole, each having a view of its own, and runners and stops stay where they are
    glued. ``numbers`` are those of the cutting list, by role.
    """
    stages = {stage.of: stage for stage in plan.order.stages}
    if None not in stages or not plan.is_whole:
        return None
    scene = scene_of(plan)
    # The lowest drawer of each bank, so that what is behind the frame is seen through it.
    drawn = [min(bank, key=lambda opening: opening.floor).drawer.role for bank in scene.banks]
    others = {drawer.role for drawer in plan.drawers}.difference(drawn)
    boards = [board for board in scene.boards if board.role.whole not in others]
    case = stages[Whole.CASE].moves if Whole.CASE in stages else ()
    moves = tuple(move for move in (*case, *stages[None].moves) if move.moving[0].whole not in (Whole.RUNNERS, Whole.STOPS))
    fixed = tuple(move for move in stages[None].moves if move.moving[0].whole in (Whole.RUNNERS, Whole.STOPS))
    outside = {role: number for role, number in numbers.items() if _is_outside(role)}
    return apart_view(f"{plan.title}, taken apart", boards, moves, outside, room, stay=fixed)


def _is_outside(role: PartRole) -> bool:
    """Whether a part is told by its number in the picture of the whole: of a drawer only the front."""
    return (
        role.whole in (Whole.CASE, Whole.FRAME, Whole.SHELVES, Whole.TOP, Whole.BASE, Whole.FILLER)
        or role.kind is PartKind.DRAWER_FRONT
    )


def stage_view(plan: Plan, stage: Stage, numbers: Mapping[PartRole, int], room: Size) -> ApartView | None:
    """What one ``stage`` makes, such as the frame or a drawer, taken apart within ``room`` (width and height in mm); None for one
    without moves.

    ``numbers`` are those of the cutting list, by role. Clamps are drawn where its glue-ups have them (PT-4).
    """
    roles = {role for move in stage.moves for role in move.parts}
    # As they were planned and not as they are seen beside others: the clamps stand where the boards do.
    boards = [board for board in plan.boards if board.role in roles and board.place is not None]
    goes = [go for glue_up in plan.glue_ups if stage.name in glue_up.of for go in glue_up.goes if go.of == stage.name]
    clamps = [row for go in goes for row in go.clamps]
    return apart_view(stage.name, boards, stage.moves, numbers, room, clamps=clamps) if boards else None


def runners_view(plan: Plan, numbers: Mapping[PartRole, int], room: Size) -> ApartView | None:
    """What is glued or screwed to the side at the left, and what is put on that, standing off it within ``room``; None where
    nothing is.

    What is on the other uprights is the same or its mirror image. ``numbers`` are those of the cutting list, by role.
    """
    moves = [move for stage in plan.order.stages if stage.of is None for move in stage.moves]
    small = [move for move in moves if len(move.moving) == 1 and move.moving[0].whole is Whole.RUNNERS]
    boards = {role: board for role, board in plan.placed.items() if board.place is not None}
    on: dict[PartRole, PartRole] = {}
    for move in small:
        held = [met.other if met.one in move.moving else met.one for met in move.closing]
        # On another of its kind before the side: a guide stands on its bearer.
        held.sort(key=lambda role: (role.whole is not Whole.RUNNERS, role.kind is not PartKind.CASE_SIDE))
        if held:
            on[move.moving[0]] = on.get(held[0], held[0])
    side = next(
        (role for role in on.values() if role.kind is PartKind.CASE_SIDE and role.hand is Hand.LEFT),
        next(iter(on.values()), None),
    )
    if side is None:
        return None
    shown = [boards[side], *(boards[role] for role, held in on.items() if held == side)]
    own = [move for move in small if on.get(move.moving[0]) == side]
    return apart_view(f"what goes on the {side.short}", shown, own, numbers, room)


def apart_view(
    title: str,
    boards: Sequence[Board],
    moves: Sequence[Move],
    numbers: Mapping[PartRole, int],
    room: Size,
    *,
    stay: Collection[Move] = (),
    clamps: Sequence[ClampRow] = (),
) -> ApartView:
    """Placed ``boards`` with ``moves`` undone, as large as fits ``room`` (width and height in mm), one to a whole number.

    ``stay`` are moves whose parts are drawn where they are glued. ``numbers`` by role are set in balloons, each once; a part
    without one has none. ``clamps`` are drawn by their jaws. PT-2, PT-4, ISO 5456-3. ValueError where there is nothing to draw.
    """
    offsets = offsets_of(boards, [*moves, *stay], _largest(boards) * _GAP, stay=[move.moving[0] for move in stay])
    view = look_from_corner(held_apart(boards, offsets))
    left, bottom, right, top = view.box
    wide, high = (size - 2 * _MARGIN for size in room)
    scale = next((one for one in PLAIN if (right - left) * one.factor <= wide and (top - bottom) * one.factor <= high), PLAIN[-1])
    return _Drawing(boards, offsets, view, scale.factor).drawn(title, scale, moves, numbers, clamps)


class _Drawing:
    """A view on paper, at a scale."""

    def __init__(
        self, boards: Sequence[Board], offsets: Mapping[PartRole, Vector], view: ViewFromCorner, factor: Fraction
    ) -> None:
        self.boards = {board.role: board for board in boards}
        self.offsets, self.view, self.factor = offsets, view, factor
        self._put = drawing_at(factor)

    def drawn(
        self,
        title: str,
        scale: Scale,
        moves: Sequence[Move],
        numbers: Mapping[PartRole, int],
        clamps: Sequence[ClampRow],
    ) -> ApartView:
        edges: dict[PartRole, list[Line]] = {role: [] for role in self.boards}
        for edge in self.view.edges:
            role = Role.OUTLINE if edge.is_rim else Role.SEEN
            edges[edge.role].append(Line(self._put(edge.start), self._put(edge.end), role, edge.role.name, edge.role))
        glue: dict[PartRole, list[Line]] = {role: [] for role in self.boards}
        for face in glue_faces((met for move in moves for met in move.glued), self.boards, self.offsets):
            for area in self.view.seen_area(face):
                points = tuple((x * self.factor, y * self.factor) for x, y in area)
                glue[face.role] += Stipple(points, face.role.name, face.role).spelled()
        arrows, jaws = tuple(self._arrows(moves)), tuple(self._jaws(clamps))
        beside = [stroke for stroke in flatten([*arrows, *jaws]) if isinstance(stroke, Line)]
        # A way is from the middle of a joint, and its boards may lie far from there in a piece of which others are drawn.
        ends = [
            (self.view.box[0] * self.factor, self.view.box[1] * self.factor),
            *(at for one in beside for at in (one.start, one.end)),
        ]
        paper = Paper((min(x for x, _ in ends), min(y for _, y in ends)))
        paper.take(line for lines in edges.values() for line in lines)
        paper.take(beside)
        balloons, over = set_balloons(self._numbered(numbers), paper, self.view.is_bare(self.factor))
        parts = tuple(DrawnPart(role, tuple(glue[role]), tuple(edges[role])) for role in self.boards)
        return ApartView(title, scale, parts, arrows, balloons, tuple(one.number for one in over), jaws, self._areas)

    def _areas(self) -> Iterator[Fill]:
        """Every face, the farthest from the eye first."""
        for face in sorted(self.view.faces, key=lambda face: sum(x - y + z for x, y, z in face.corners)):
            yield Fill(tuple(map(self._put, face.corners)), Fraction(0), Role.SEEN, face.role.name, face.role)

    # -- moves ---------------------------------------------------------------------------------------

    def _arrows(self, moves: Sequence[Move]) -> Iterator[MoveArrow]:
        """Chain lines for every joint that is drawn open; an arrow for moves of one kind of part the same way, where it shows
        best.
        """
        made: list[tuple[Move, tuple[Line, ...]]] = []
        for move in moves:
            lines = tuple(line for ends in self._ways(move) for line in self._chain(*ends))
            if lines:
                made.append((move, lines))
        told: dict[object, tuple[Fraction, Move, Line]] = {}
        for move, lines in made:
            best = max((line for line in lines if _runs(line, closing_way(move))), key=_long, default=None)
            if best is None:
                continue
            key = (closing_way(move), move.moving[0].kind, move.moving[0].hand)
            if key not in told or _long(best) > told[key][0]:
                told[key] = (_long(best), move, best)
        pointing = {id(move): line for _, move, line in told.values()}
        for move, lines in made:
            arrow = pointing.get(id(move))
            ends = _on(arrow) if arrow is not None else None
            yield MoveArrow(move.moving, closing_way(move), lines, *(ends or (None, None)))

    def _ways(self, move: Move) -> Iterator[tuple[Spot, Spot]]:
        """From each joint of the parts that move to where it closes, in space."""
        own = set(move.moving)
        spots = [pair for met in move.closing if (pair := self._joint(met, own)) is not None]
        if not spots and move.moving[0] in self.boards:
            # What is only pushed in has no joint: from the middle of what leads.
            lead = move.moving[0]
            middle = _middle(*_space(self.boards[lead]))
            spots = [(fine(_sum(middle, self.offsets[lead])), fine(middle))]
        axis = "XYZ".index(closing_way(move).value[1])
        for start, end in spots:
            # First the way of the move, then, where both are drawn apart sideways too, across.
            turn = [end[n] if n == axis else at for n, at in enumerate(start)]
            corner = (turn[0], turn[1], turn[2])
            yield from (ends for ends in ((start, corner), (corner, end)) if ends[0] != ends[1])

    def _joint(self, met: Meeting, own: Collection[PartRole]) -> tuple[Spot, Spot] | None:
        goes, stays = (met.one, met.other) if met.one in own else (met.other, met.one)
        if goes not in self.boards or stays not in self.boards:
            return None
        (low, high), (its_low, its_high) = _space(self.boards[goes]), _space(self.boards[stays])
        least, most = tuple(map(max, low, its_low)), tuple(map(min, high, its_high))
        middle = _middle((least[0], least[1], least[2]), (most[0], most[1], most[2]))
        return fine(_sum(middle, self.offsets[goes])), fine(_sum(middle, self.offsets[stays]))

    def _chain(self, start: Spot, end: Spot) -> Iterator[Line]:
        for one, two in self.view.seen_of(start, end):
            line = Line(self._put(one), self._put(two), Role.CENTRE)
            if _long(line) > 1:
                yield line

    # -- clamps --------------------------------------------------------------------------------------

    def _jaws(self, rows: Sequence[ClampRow]) -> Iterator[ClampSign]:
        """The jaws that are seen: each on the outside of the wood between them, as far out as a sign is long."""
        long = _JAW / self.factor
        for row in rows:
            axis = "XYZ".index(row.way.value[1])
            for role, is_up in ((row.parts[0], False), (row.parts[-1], True)):
                board = self.boards.get(role)
                if board is None:
                    continue
                low, high = _space(board)
                for place in row.places:
                    out = [at + moved for at, moved in zip(place, self.offsets[role], strict=True)]
                    out[axis] = (high[axis] if is_up else low[axis]) + self.offsets[role][axis]
                    pad = (out[0], out[1], out[2])
                    out[axis] += long if is_up else -long
                    spot, back = fine(pad), fine((out[0], out[1], out[2]))
                    # All of it, or it says nothing.
                    if self.view.seen_of(spot, back) == ((spot, back),):
                        yield ClampSign(role, self._put(spot), self._put(back))

    # -- numbers -------------------------------------------------------------------------------------

    def _numbered(self, numbers: Mapping[PartRole, int]) -> Iterator[Numbered]:
        """Each number with the parts it stands for, and where on them it may be told."""
        faces: dict[PartRole, list[tuple[int, Face]]] = {}
        for face in self.view.faces:
            faces.setdefault(face.role, []).append((seen_size(face), face))
        rows: dict[int, list[PartRole]] = {}
        for role in self.boards:
            if role in numbers:
                rows.setdefault(numbers[role], []).append(role)
        for number, roles in sorted(rows.items()):
            best: list[tuple[int, list[Point]]] = []
            for role in roles[:_PARTS]:
                own = sorted(faces.get(role, ()), key=lambda one: -one[0])[:_FACES]
                for size, face in own:
                    spots = [self._put(spot) for spot in _spots(face) if self.view.is_seen(spot)]
                    best.append((size * len(spots), spots))
            best.sort(key=lambda one: -one[0])
            places = tuple(spot for _, some in best for spot in some)
            if places:
                yield Numbered(number, tuple(roles), places)


def _spots(face: Face) -> Iterator[Spot]:
    one, two, _, four = face.corners
    sides = tuple((12 * a, b - a, c - a) for a, b, c in zip(one, two, four, strict=True))
    for along, across in _TWELFTHS:
        x, y, z = (at + b * along + c * across for at, b, c in sides)
        yield _twelfth(x), _twelfth(y), _twelfth(z)


def _twelfth(number: int) -> int:
    """A twelfth of a number, what is over left off."""
    return number // 12 if number >= 0 else -(-number // 12)


def _largest(boards: Sequence[Board]) -> Fraction:
    """The greatest size of what they make together, in mm."""
    return max(size.mm for size in extent(boards))


def _space(board: Board) -> tuple[Vector, Vector]:
    space = SpaceBox.around(board)
    return space.low, space.high


def _middle(low: Vector, high: Vector) -> Vector:
    x, y, z = ((a + b) / 2 for a, b in zip(low, high, strict=True))
    return x, y, z


def _sum(one: Vector, two: Vector) -> Vector:
    x, y, z = (a + b for a, b in zip(one, two, strict=True))
    return x, y, z


def _long(line: Line) -> Fraction:
    """How long a line is, near enough to compare: the greater of its two sides and half the other."""
    wide, high = abs(line.end[0] - line.start[0]), abs(line.end[1] - line.start[1])
    return max(wide, high) + min(wide, high) / 4


def _runs(line: Line, way: Way) -> bool:
    """Whether a line on paper runs this way or back: upright is up or down, what rises to the right is front to back, what
    falls is across.
    """
    run, up = line.end[0] - line.start[0], line.end[1] - line.start[1]
    return way.value[1] == ("Z" if abs(run) * 2 < abs(up) else "Y" if (run > 0) is (up > 0) else "X")


def _on(line: Line) -> tuple[Point, Point] | None:
    """The arrow in the middle of a line; None where that is too short."""
    long = _long(line)
    if long < _LEAST:
        return None
    share = min(Fraction(4, 5), _ARROW / long) / 2
    (x0, y0), (x1, y1) = line.start, line.end
    x, y, run, up = (x0 + x1) / 2, (y0 + y1) / 2, x1 - x0, y1 - y0
    return (x - run * share, y - up * share), (x + run * share, y + up * share)


def _direction(start: Point, end: Point) -> Point:
    """From one to the other, 1 long: X, Y and Z run at 30 degrees and upright, so that the longer side tells it."""
    run, up = end[0] - start[0], end[1] - start[1]
    long = abs(up) if abs(up) > abs(run) else abs(up) * 2
    return run / long, up / long
