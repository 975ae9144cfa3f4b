"""Where the boards of a piece stand when it is drawn taken apart: each moved off along the way it closes, far enough to be seen
by itself.

The moves are those of the order of assembly, gone through in that order. The group that moves is set back against its way until
it is clear of all it would meet there, and a gap beyond; what is put onto it later goes farther still. A long slide, as of a
bottom in its grooves, is set back half its length only, as a hand would hold it. Loose tenons stay in what they are glued into
first. Small parts that are glued to a surface (runners and stops) stand off that surface, beside what they go to, since that is
what has to be told of them.

The distances are exact, and every board is only moved: what is drawn of it is measured as if it stood in its place.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.boards import DrawerRole, PartKind, Whole
from joinlay.boards.extent import SpaceBox
from joinlay.boards.meeting import Way
from joinlay.lengths import Fraction, Length

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Mapping, Sequence

    from joinlay.assembly.order import Move
    from joinlay.boards import Board, PartRole, Vector
    from joinlay.boards.meeting import Meeting

__all__ = ["closing_way", "held_apart", "moved_by", "offsets_of"]

_NONE: Final[Vector] = (Fraction(0), Fraction(0), Fraction(0))
#: A slide of more gaps than this is drawn half done.
_LONG: Final = 3
#: Kinds of part that lie on a surface of another, and stand off it.
_SATELLITES: Final = (Whole.RUNNERS, Whole.STOPS)

#: Low and high corner of a box, in mm.
_Box = tuple["Vector", "Vector"]


def offsets_of(
    boards: Iterable[Board], moves: Sequence[Move], gap: Fraction, stay: Collection[PartRole] = ()
) -> dict[PartRole, Vector]:
    """How far each of the placed ``boards`` stands from its place, in mm, when ``moves`` are undone with a ``gap`` in mm (PT-2).

    The moves are in the order in which they are made. A board that none of them moves stays in its place; small parts in ``stay``
    go along with what they are glued to.
    """
    boxes = {board.role: _box(board) for board in boards}
    found: dict[PartRole, Vector] = dict.fromkeys(boxes, _NONE)
    for move in moves:
        moving = [role for role in move.moving if role in boxes]
        onto = [role for role in move.onto if role in boxes]
        if not moving or not onto:
            continue
        lead = moving[0]
        if lead.kind is PartKind.LOOSE_TENON and len(moving) == 1:
            found[lead] = found.get(lead.of or lead, _NONE)
        elif lead.whole in _SATELLITES and len(moving) == 1:
            found[lead] = _beside(lead, move, found, Fraction(0) if lead in stay else gap / 3)
        else:
            out = closing_way(move).opposite
            is_pushed_in = isinstance(lead.whole, DrawerRole) and not isinstance(onto[0].whole, DrawerRole)
            if is_pushed_in:
                # Through the frame, which it doesn't touch: until it is before all of that.
                onto = [role for role in onto if not isinstance(role.whole, DrawerRole)]
            far = _clear(moving, onto, boxes, found, out, is_whole=is_pushed_in)
            # Half of a long slide, so that it is seen where it goes; a gap beyond any other.
            far = far / 2 if far > _LONG * gap and lead.kind is PartKind.DRAWER_BOTTOM else far + gap
            for role in moving:
                found[role] = _plus(found[role], out, far)
    return found


def closing_way(move: Move) -> Way:
    """The way in which ``move`` is drawn to close: straight onto the surface where all its joints lie on one, else as the order
    has it (PT-1).

    What lies on a surface may be slid on from any side; a maker lays it on.
    """
    own = set(move.moving)
    off = {_off(met, met.one if met.one in own else met.other, move.way) for met in move.closing}
    return next(iter(off)).opposite if len(off) == 1 else move.way


def held_apart(boards: Iterable[Board], offsets: Mapping[PartRole, Vector]) -> tuple[Board, ...]:
    """The boards where they stand taken apart."""
    return tuple(moved_by(board, offsets.get(board.role, _NONE)) for board in boards)


def moved_by(board: Board, offset: Vector) -> Board:
    """A board shifted by ``offset``, in mm."""
    x, y, z = offset
    return board.moved(Length(x), Length(y), Length(z)) if any(offset) else board


def _beside(lead: PartRole, move: Move, found: Mapping[PartRole, Vector], gap: Fraction) -> Vector:
    """Off the surface it is glued to with the most glue, beside the part that has it."""
    met = max(move.glued or move.closing, key=lambda met: met.glue, default=None)
    if met is None:
        return _plus(_NONE, move.way.opposite, gap)
    held = met.other if met.one == lead else met.one
    return _plus(found.get(held, _NONE), _off(met, lead, move.way), gap)


def _off(met: Meeting, lead: PartRole, way: Way) -> Way:
    """The way straight off the surface: the one way in which the part that is put on can't close."""
    barred = [one for one in Way if one not in met.closes]
    if len(barred) != 1:
        return way.opposite
    return barred[0] if met.one == lead else barred[0].opposite


def _clear(
    moving: Sequence[PartRole],
    onto: Sequence[PartRole],
    boxes: Mapping[PartRole, _Box],
    found: Mapping[PartRole, Vector],
    out: Way,
    *,
    is_whole: bool,
) -> Fraction:
    """How far the group goes ``out`` until it is past all of ``onto`` that stands in its way, or past all of it, in mm."""
    axis, is_up = "XYZ".index(out.value[1]), out.value[0] == "+"
    others = [n for n in range(3) if n != axis]
    far = Fraction(0)
    for one in moving:
        low, high = _at(boxes[one], found[one])
        for other in onto:
            its_low, its_high = _at(boxes[other], found[other])
            if is_whole or all(low[n] < its_high[n] and its_low[n] < high[n] for n in others):
                far = max(far, its_high[axis] - low[axis] if is_up else high[axis] - its_low[axis])
    return far


def _at(box: _Box, offset: Vector) -> _Box:
    (a, b, c), (d, e, f) = box
    x, y, z = offset
    return (a + x, b + y, c + z), (d + x, e + y, f + z)


def _plus(offset: Vector, way: Way, far: Fraction) -> Vector:
    x, y, z = (at + step * far for at, step in zip(offset, way.vector, strict=True))
    return x, y, z


def _box(board: Board) -> _Box:
    space = SpaceBox.around(board)
    return space.low, space.high
