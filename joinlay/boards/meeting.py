"""Where two boards meet: which planes face each other, with what gap, how the two are held, and in which ways they close.

A meeting is made once, where the joint is designed, and kept in the plan. Checks, fastenings, glue, drawings and the order of
assembly read it there; nothing looks for it again. Its planes can be proved on the boards as they are placed, exactly (CK-8).
"""

from __future__ import annotations

from enum import Enum
from typing import TYPE_CHECKING, Final

from joinlay.boards.role import PartRole
from joinlay.boards.surface import Axis, Surface
from joinlay.errors import BadInput
from joinlay.lengths import NOTHING, Fraction, Length, plain_mm
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from joinlay.boards.board import Board, Taper
    from joinlay.boards.cut import Cut
    from joinlay.boards.fastener import Fastener
    from joinlay.boards.place import Place, Vector
    from joinlay.boards.role import JointRole

__all__ = ["Facing", "Meeting", "Plane", "Tie", "Way", "butted", "measured", "unmet", "way_into"]


class Way(Enum):
    """One of the six straight ways in the piece, as seen from the front."""

    RIGHT = "+X"
    LEFT = "-X"
    BACK = "+Y"
    FRONT = "-Y"
    UP = "+Z"
    DOWN = "-Z"

    # There is one of each, so it is looked up by which it is; by its name takes a call each of ten thousand times.
    __hash__ = object.__hash__

    @property
    def opposite(self) -> Way:
        """The way back."""
        return _OPPOSITE[self]

    @property
    def vector(self) -> Vector:
        """A millimetre that way: right, back, up."""
        step = Fraction(1 if self.value[0] == "+" else -1)
        none = Fraction(0)
        axis = "XYZ".index(self.value[1])
        return (step if axis == 0 else none, step if axis == 1 else none, step if axis == 2 else none)


_OPPOSITE: Final = {
    Way.RIGHT: Way.LEFT, Way.LEFT: Way.RIGHT, Way.BACK: Way.FRONT, Way.FRONT: Way.BACK, Way.UP: Way.DOWN, Way.DOWN: Way.UP,
}  # fmt: skip
_ALL_BUT: Final = {way: tuple(other for other in Way if other is not way) for way in Way}
_WAYS: Final = ((Way.LEFT, Way.RIGHT), (Way.FRONT, Way.BACK), (Way.DOWN, Way.UP))


class Tie(Enum):
    """How the two are held, or that they are not: a drawer moves against what is around it."""

    GLUED = "glued"
    NAILED = "glued and nailed"
    SCREWED = "screwed, glued at the front only"  #: through slots, so that solid wood may move (RN-4)
    FASTENED = "fastened without glue"  #: by screws or nails that can be drawn again
    DRY = "dry"  #: held by its shape or by other parts, without glue
    RIDES = "rides on"
    GUIDED = "guided by"
    KICKS = "kicks against"
    STOPPED = "stopped by"
    CLEARS = "clears"

    @property
    def is_fixed(self) -> bool:
        """True where the two stay together once they are put so."""
        return self in (Tie.GLUED, Tie.NAILED, Tie.SCREWED, Tie.FASTENED, Tie.DRY)


@dataclass(frozen=True, slots=True)
class Plane:
    """A plane of a board: ``surface``, or a wall or floor that looks the same way, ``depth`` below it.

    The floor of a dado 6 mm deep in the inside face is (FACE, 6 mm). ``at`` is where along the board the gap is taken, for a part
    that leans; None in the middle, where it doesn't matter.
    """

    surface: Surface
    depth: Length = NOTHING
    at: Length | None = None

    @classmethod
    def floor(cls, cut: Cut, at: Length | None = None) -> Plane:
        """The floor of ``cut``."""
        return cls(cut.surface, cut.depth, at)

    @classmethod
    def wall(cls, board: Board, cut: Cut, looks: Surface) -> Plane:
        """The wall of ``cut`` in ``board`` that looks the way the surface ``looks`` does."""
        span = cut.span(looks.axis)
        return cls(looks, board.size(looks.axis) - span.start if looks.is_far else span.stop)


@dataclass(frozen=True, slots=True)
class Facing:
    """A plane of the one board that faces a plane of the other, with ``gap`` between (0: they touch); by a ``rule``.

    ``where`` are the words between the two names: ``on the wall of its dado in the``.
    """

    where: str
    one: Plane
    other: Plane
    gap: Length = NOTHING
    rule: str = ""


@dataclass(frozen=True, slots=True)
class Meeting:
    """Two boards that meet: ``one`` is the part that goes in or is laid on, ``other`` the part that holds it.

    ``closes`` are the ways in which ``one`` may move, ``other`` standing still, as they come together (PT-1); drawn back the same
    way it comes free of it. ``glue`` is how much is glued, in square millimetres, ``cheeks`` how much of that are the cheeks of a
    tenon, which hold against a pull. ``fasteners`` is how many nails or screws there are, ``fastener`` what size they are,
    ``along`` where they stand from the reference end of ``one``, where that was worked out. ``joint`` None: they meet by no
    joint.
    """

    one: PartRole
    other: PartRole
    facings: tuple[Facing, ...]
    closes: tuple[Way, ...]
    tie: Tie = Tie.DRY
    joint: JointRole | None = None
    glue: Fraction = Fraction(0)
    cheeks: Fraction = Fraction(0)
    fasteners: int = 0
    fastener: Fastener | None = None
    along: tuple[Length, ...] = ()

    def says(self, facing: Facing) -> str:
        """One of its facings in words: ``drawer 1 bottom on the groove of the drawer 1 left side``."""
        return f"{self.one.name} {facing.where} {self.other.name}"

    @property
    def is_housed(self) -> bool:
        """True where one stands in a channel of the other, or takes its tongue in: two planes that look opposite ways face it."""
        looks = {facing.one.surface for facing in self.facings}
        return any(surface.opposite in looks for surface in looks)

    def is_of(self, one: PartRole, other: PartRole) -> bool:
        """True where these two meet here, whichever goes in."""
        return (self.one, self.other) in ((one, other), (other, one))


def butted(
    one: tuple[Board, Surface],
    other: tuple[Board | PartRole, Surface],
    where: str,
    *,
    gap: Length = NOTHING,
    rule: str = "",
    tie: Tie = Tie.DRY,
    joint: JointRole | None = None,
    glue: Fraction = Fraction(0),
    fasteners: int = 0,
    fastener: Fastener | None = None,
    along: tuple[Length, ...] = (),
) -> Meeting:
    """A surface of ``one`` against a surface of ``other``: it may come from anywhere but through that board (PT-1).

    ``one`` is placed and stands square there; of ``other`` its role is enough. ``where``, ``gap`` and ``rule`` are the facing's,
    the rest the meeting's.
    """
    facing = Facing(where, Plane(one[1]), Plane(other[1]), gap, rule)
    held = other[0] if isinstance(other[0], PartRole) else other[0].role
    return Meeting(
        one=one[0].role,
        other=held,
        facings=(facing,),
        closes=_ALL_BUT[way_into(*one)],
        tie=tie,
        joint=joint,
        glue=glue,
        fasteners=fasteners,
        fastener=fastener,
        along=along,
    )


def way_into(board: Board, surface: Surface) -> Way:
    """The way that leads into a placed ``board`` through ``surface``; a side that leans is taken as it stands nearly."""
    run = _run(_place(board), surface.axis)
    there = [n for n in range(3) if run[n]]
    axis = there[0] if len(there) == 1 else max(there, key=lambda n: abs(run[n]))
    return _WAYS[axis][(run[axis] > 0) is not surface.is_far]


def measured(found: Meeting, facing: Facing, boards: Mapping[PartRole, Board]) -> Length:
    """The gap of one ``facing`` of a meeting as the ``boards`` are placed, by their roles: exact, negative where they overlap
    (CK-8).

    It is taken at the plane that says where, along the other board's own direction. Raises BadInput where a board has no place or
    the two planes don't face each other. Source: derived.
    """
    near, far = (found.one, facing.one), (found.other, facing.other)
    if facing.other.at is not None:
        near, far = far, near
    one, other = boards[near[0]], boards[far[0]]
    out_of_one, out_of_other = _outward(one, near[1].surface), _outward(other, far[1].surface)
    if _dot(out_of_one, out_of_other) >= 0:
        raise BadInput(
            f"{found.says(facing)}: the {near[1].surface.value} of {one.name} does not face the {far[1].surface.value} of "
            f"{other.name}."
        )
    normal = _normal(other, far[1].surface)
    way = [a - b for a, b in zip(_point(one, near[1]), _point(other, far[1]), strict=True)]
    return Length(_dot(way, normal) / _dot(out_of_other, normal))


def unmet(meetings: Iterable[Meeting], boards: Mapping[PartRole, Board]) -> tuple[str, ...]:
    """What is not as it is stated: each facing whose gap is another, in words with the gap as it is (CK-8)."""
    return tuple(_untrue(meetings, boards))


def _untrue(meetings: Iterable[Meeting], boards: Mapping[PartRole, Board]) -> Iterator[str]:
    for one in meetings:
        for facing in one.facings:
            gap = measured(one, facing, boards)
            if gap != facing.gap:
                yield f"{one.says(facing)}: {plain_mm(gap)}, stated {plain_mm(facing.gap)}"


def _point(board: Board, plane: Plane) -> Vector:
    """A point of the plane: at its depth under the surface as it is planed, else in the middle of the board."""
    where: dict[Axis, Length] = {axis: board.size(axis) / 2 for axis in Axis}
    if plane.at is not None:
        where[Axis.ALONG] = plane.at
    axis = plane.surface.axis
    depth = plane.depth.mm
    planed = _planed(board, plane.surface)
    if planed is not None:
        # In the middle of the edge or end, half of what comes off at its two sides is gone.
        depth = depth + (planed.near + planed.far).mm / 2
    where[axis] = Length(board.size(axis).mm - depth if plane.surface.is_far else depth)
    return _place(board).point(where[Axis.ALONG], where[Axis.ACROSS], where[Axis.INTO])


def _outward(board: Board, surface: Surface) -> Vector:
    """The board's own direction out of ``surface``."""
    x, y, z = _run(_place(board), surface.axis)
    return (x, y, z) if surface.is_far else (-x, -y, -z)


def _run(place: Place, axis: Axis) -> Vector:
    """A millimetre of the board on that axis, in the piece."""
    if axis is Axis.ALONG:
        return place.along
    return place.across if axis is Axis.ACROSS else place.into


def _normal(board: Board, surface: Surface) -> Vector:
    """Square to ``surface``: a leaning board's face is not square to the direction it was measured in."""
    place = _place(board)
    along, across, into = place.along, place.across, place.into
    planed = _planed(board, surface)
    if planed is not None and surface.axis is Axis.ALONG:
        across = _slanted(across, along, planed, board.width)
    elif planed is not None:
        along = _slanted(along, across, planed, board.length)
    (a, b, c), (d, e, f) = {Axis.ALONG: (across, into), Axis.ACROSS: (into, along), Axis.INTO: (along, across)}[surface.axis]
    return (b * f - c * e, c * d - a * f, a * e - b * d)


def _planed(board: Board, surface: Surface) -> Taper | None:
    """What is planed off ``surface``; None where it is as square as it was cut."""
    return next((taper for taper in board.tapers if taper.surface is surface), None)


def _slanted(run: Vector, off: Vector, planed: Taper, size: Length) -> Vector:
    """The direction ``run`` of an edge or end once it is ``planed``, ``size`` long."""
    slope = (planed.far - planed.near).mm / size.mm * (-1 if planed.surface.is_far else 1)
    x, y, z = (a + slope * b for a, b in zip(run, off, strict=True))
    return (x, y, z)


def _dot(one: Sequence[Fraction], other: Sequence[Fraction]) -> Fraction:
    return one[0] * other[0] + one[1] * other[1] + one[2] * other[2]


def _place(board: Board) -> Place:
    if board.place is None:
        raise BadInput(f"{board.name} has no place in the piece, so nothing can be said of what it meets.")
    return board.place
