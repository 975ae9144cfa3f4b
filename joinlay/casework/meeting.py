"""Where two parts meet, and the gap that is stated there: proved on the boards' own planes, exactly (CK-8)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from joinlay.boards import Axis, Surface
from joinlay.boards.place import cross, dot
from joinlay.errors import BadInput
from joinlay.lengths import NOTHING, Length

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from joinlay.boards import Board, PartRole, Place, Taper, Vector
    from joinlay.lengths import Dimension

__all__ = ["Meeting", "Side", "measured", "meeting", "unmet"]


@dataclass(frozen=True, slots=True)
class Side:
    """A plane of a board: ``surface``, or a wall or floor that looks the same way, ``depth`` below it.

    The floor of a dado 6 mm deep in the inside face is (FACE, 6 mm). ``at`` is where along the board the gap is taken,
    for a part that leans; None in the middle, where it doesn't matter.
    """

    board: str
    surface: Surface
    depth: Dimension = NOTHING
    at: Dimension | None = None


@dataclass(frozen=True, slots=True)
class Meeting:
    """``one`` faces ``other`` with ``gap`` between (nothing: they touch). ``what`` says it in the maker's words."""

    what: str
    one: Side
    other: Side
    gap: Dimension
    rule: str = ""


def meeting(
    what: str,
    one: tuple[Board | PartRole, Surface],
    other: tuple[Board | PartRole, Surface],
    gap: Dimension = NOTHING,
    rule: str = "",
) -> Meeting:
    """A meeting of two outer surfaces, as most are; the boards or their roles (CK-8)."""
    first, second = (Side(board.name, surface) for board, surface in (one, other))
    return Meeting(what, first, second, gap, rule)


def measured(found: Meeting, boards: Mapping[str, Board]) -> Length:
    """The gap between the two planes as the boards are placed, square to the second; exact, less than nothing where they overlap (CK-8).

    ``boards`` is keyed by name. Raises BadInput where a board has no place or the two sides don't face each other. Derived.
    """
    one, other = boards[found.one.board], boards[found.other.board]
    out_of_one, out_of_other = _place(one).outward(found.one.surface), _place(other).outward(found.other.surface)
    if dot(out_of_one, out_of_other) >= 0:
        raise BadInput(
            f"{found.what}: the {found.one.surface.value} of {one.name} does not face the {found.other.surface.value} of {other.name}."
        )
    normal = _normal(other, found.other.surface)
    (a, b, c), (d, e, f) = _point(one, found.one), _point(other, found.other)
    way = (a - d, b - e, c - f)
    return Length(dot(way, normal) / dot(out_of_other, normal))


def unmet(meetings: Iterable[Meeting], boards: Mapping[str, Board]) -> tuple[tuple[Meeting, Length], ...]:
    """The meetings whose gap is not the stated one, each with the gap as it is (CK-8)."""
    gaps = ((one, measured(one, boards)) for one in meetings)
    return tuple((one, gap) for one, gap in gaps if gap != one.gap)


def _point(board: Board, side: Side) -> Vector:
    """A point of the plane: at its depth under the surface as it is planed, else in the middle of the board."""
    where: dict[Axis, Length] = {axis: board.size(axis) / 2 for axis in Axis}
    if side.at is not None:
        where[Axis.ALONG] = side.at
    axis = side.surface.axis
    depth = side.depth
    planed = _planed(board, side.surface)
    if planed is not None:
        # In the middle of the edge or end, half of what comes off at its two sides is gone.
        depth = depth + (planed.near + planed.far) / 2
    where[axis] = board.size(axis) - depth if side.surface.is_far else depth
    return _place(board).point(where[Axis.ALONG], where[Axis.ACROSS], where[Axis.INTO])


def _normal(board: Board, surface: Surface) -> Vector:
    """Square to ``surface``: a leaning board's face is not square to the direction it was measured in."""
    place = _place(board)
    along, across, into = place.along, place.across, place.into
    planed = _planed(board, surface)
    if planed is not None and surface.axis is Axis.ALONG:
        across = _slanted(across, along, planed, board.width)
    elif planed is not None:
        along = _slanted(along, across, planed, board.length)
    return cross(*{Axis.ALONG: (across, into), Axis.ACROSS: (into, along), Axis.INTO: (along, across)}[surface.axis])


def _planed(board: Board, surface: Surface) -> Taper | None:
    """What is planed off ``surface``; None where it is as square as it was cut."""
    return next((taper for taper in board.tapers if taper.surface is surface), None)


def _slanted(run: Vector, off: Vector, planed: Taper, size: Dimension) -> Vector:
    """The direction ``run`` of an edge or end once it is ``planed``, ``size`` long."""
    slope = (planed.far - planed.near).mm / size.mm * (-1 if planed.surface.is_far else 1)
    x, y, z = (a + slope * b for a, b in zip(run, off, strict=True))
    return (x, y, z)


def _place(board: Board) -> Place:
    if board.place is None:
        raise BadInput(f"{board.name} has no place in the piece, so nothing can be said of what it meets.")
    return board.place
