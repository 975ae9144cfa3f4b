"""A loose tenon corner opened flat about its arris: the end of one board beside the face or edge of the other.

What each board's share of the paper is, where its mortises lie on it, and of a drawer's front where its groove stops beside them.
All of it is found from the places of the boards, exact.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.boards import Axis, CutUse, PartKind, Surface
from joinlay.boards.extent import outer_corners
from joinlay.boards.place import cross, dot
from joinlay.lengths import NOTHING, Fraction, Length
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from joinlay.boards import Board, Cut, Vector
    from joinlay.pen.marks import Box

__all__ = ["Flap", "Mortise", "OpenedCorner", "corners_of"]

#: Two boards whose edges lie this close along the joint are marked from those edges; past it, from the other board's, in mm.
_NEAR: Final = Fraction(5)
#: How far the flap of a face or edge goes past the outermost mortise, and so much of a groove is shown at the least, in mm.
_PAST, _SHOWN = Fraction(7), Fraction(3)


@dataclass(frozen=True, slots=True)
class Mortise:
    """A mortise, or as much of a groove as is on the paper, as it opens on a flap.

    ``box`` is (out, up, out, up), ``out`` from the fold and ``up`` along the joint, in mm.
    """

    cut: Cut
    box: Box

    @property
    def centre(self) -> tuple[Fraction, Fraction]:
        """Its middle, out and up."""
        return (self.box[0] + self.box[2]) / 2, (self.box[1] + self.box[3]) / 2


@dataclass(frozen=True, slots=True)
class Flap:
    """One board's share of the paper: how far it goes ``out`` from the fold, and from where to where ``up`` along the joint.

    ``datum`` is where its own mortises are counted from, up the joint: its edge, or the other board's where its own is far away.
    ``grooves`` are those that stop on the paper of a drawer's front (GR-3), as far as they are on it.
    """

    board: Board
    surface: Surface
    out: Fraction
    low: Fraction
    high: Fraction
    datum: Fraction
    mortises: tuple[Mortise, ...]
    grooves: tuple[Mortise, ...] = ()


@dataclass(frozen=True, slots=True)
class OpenedCorner:
    """A joint opened about the arris where both outsides lie in one plane.

    ``end`` is the board that is mortised in its end, ``into`` the one it runs into. Up the paper goes the end's width, from its
    reference edge (0). ``hand`` is 1 where ``into`` lies to the right of the fold and the end to its left, looking at the
    surfaces that are mortised; -1 the other way round.
    """

    end: Flap
    into: Flap
    hand: int


def corners_of(boards: Iterable[Board]) -> Iterator[OpenedCorner]:
    """Every corner where mortises in an end meet those in a face or edge (LT-1 to LT-12), in the order of ``boards``."""
    mates = {board.role: board for board in boards}
    for board in mates.values():
        for surface in (Surface.END, Surface.FAR_END):
            cuts = [cut for cut in board.cuts_of(CutUse.MORTISE) if cut.surface is surface]
            for mate in dict.fromkeys(cut.role.mate for cut in cuts):
                if mate is None or mate not in mates:
                    continue
                corner = _corner(board, surface, [cut for cut in cuts if cut.role.mate == mate], mates[mate])
                if corner is not None:
                    yield corner


def _corner(board: Board, end: Surface, cuts: list[Cut], other: Board) -> OpenedCorner | None:
    if board.place is None or other.place is None:
        return None
    joint = cuts[0].role.joint
    fitting = [cut for cut in other.cuts_for(board.role) if cut.role.use is CutUse.MORTISE and cut.role.joint == joint]
    surfaces = dict.fromkeys(cut.surface for cut in fitting)
    if len(surfaces) != 1:
        return None
    up, through = board.place.across, board.place.into
    arris, out = _arris(board, other, end, through)
    if arris is None:
        return None
    measure = _Measure(up, out, dot(_at(board, end, NOTHING, NOTHING), up), dot(arris, out))
    surface = next(iter(surfaces))
    low, high = _spread(outer_corners(other), up, measure.up_zero)
    wide = board.width.mm
    is_edged = abs(low) <= _NEAR and abs(high - wide) <= _NEAR
    outward = other.place.outward(surface)
    right = cross(up, outward)
    # What goes out from the arris into the other board is the way its flap lies.
    hand = 1 if dot(out, right) > 0 else -1
    foot = low if is_edged else Fraction(0)
    mortises = tuple(measure.mortise(other, cut) for cut in fitting)
    # All of an edge, and of a face as far as its mortises need.
    reach = min(_spread(outer_corners(other), out, measure.out_zero)[1], max(mortise.box[2] for mortise in mortises) + _PAST)
    return OpenedCorner(
        end=Flap(
            board=board,
            surface=end,
            out=board.thickness.mm,
            low=Fraction(0),
            high=wide,
            datum=Fraction(0),
            mortises=tuple(measure.mortise(board, cut) for cut in cuts),
        ),
        into=Flap(
            board=other,
            surface=surface,
            out=reach,
            low=foot,
            high=high if is_edged else wide,
            datum=foot,
            mortises=mortises,
            grooves=tuple(_stopping(measure, other, surface, reach)),
        ),
        hand=hand,
    )


def _stopping(measure: _Measure, front: Board, surface: Surface, reach: Fraction) -> Iterator[Mortise]:
    """The grooves in ``surface`` of a drawer's ``front`` that stop on paper going ``reach`` mm out."""
    if front.role.kind is not PartKind.DRAWER_FRONT:
        return
    for cut in front.cuts_of(CutUse.GROOVE):
        x0, y0, x1, y1 = measure.mortise(front, cut).box
        if cut.surface is surface and 0 < x0 <= reach - _SHOWN:
            yield Mortise(cut, (x0, y0, min(x1, reach), y1))


@dataclass(frozen=True, slots=True)
class _Measure:
    """Measures in the plane of the joint: ``up`` along it, ``out`` across it, each from its zero."""

    up: Vector
    out: Vector
    up_zero: Fraction
    out_zero: Fraction

    def mortise(self, board: Board, cut: Cut) -> Mortise:
        corners = _cut_corners(board, cut)
        (y0, y1), (x0, x1) = _spread(corners, self.up, self.up_zero), _spread(corners, self.out, self.out_zero)
        return Mortise(cut, (x0, y0, x1, y1))


def _arris(board: Board, other: Board, end: Surface, through: Vector) -> tuple[Vector | None, Vector]:
    """A point of the arris about which the corner opens, and the way out from it into the wood: where both outsides are flush.

    The reference face is tried first: it is the show face of a frame.
    """
    low, high = _spread(outer_corners(other), through, Fraction(0))
    near, far = _at(board, end, NOTHING, NOTHING), _at(board, end, NOTHING, board.thickness)
    back: Vector = (-through[0], -through[1], -through[2])
    if dot(near, through) == low:
        return near, through
    if dot(far, through) == high:
        return far, back
    return None, through


def _at(board: Board, end: Surface, across: Length, into: Length) -> Vector:
    assert board.place is not None
    return board.place.point(board.length if end is Surface.FAR_END else NOTHING, across, into)


def _cut_corners(board: Board, cut: Cut) -> tuple[Vector, ...]:
    """The corners of a cut where it opens: the mortises of a leaning board are met at its end."""
    spans: list[tuple[Length, Length]] = [(span.start, span.stop) for span in cut.spans]
    axis = cut.surface.axis
    place = list(Axis).index(axis)
    mouth = board.size(axis) if cut.surface.is_far else NOTHING
    spans[place] = (mouth, mouth)
    return outer_corners(board, spans)


def _spread(points: Sequence[Vector], way: Vector, zero: Fraction) -> tuple[Fraction, Fraction]:
    found = [dot(point, way) - zero for point in points]
    return min(found), max(found)
