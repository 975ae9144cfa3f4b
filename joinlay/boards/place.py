"""Where a board stands in the piece: an exact turn, move and, for tapered drawers, a lean."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.boards.surface import Axis
from joinlay.errors import BadInput, quoted
from joinlay.lengths import Fraction
from joinlay.records import dataclass

if TYPE_CHECKING:
    from joinlay.boards.surface import Surface
    from joinlay.lengths import Length

__all__ = ["Place", "Vector", "cross", "dot"]

#: A direction or point in the piece: X to the right seen from the front, Y to the back, Z up.
Vector = tuple[Fraction, Fraction, Fraction]

_DIRECTIONS: Final = {
    sign + name: tuple(Fraction(size if n == i else 0) for i in range(3))
    for n, name in enumerate("XYZ")
    for sign, size in (("+", 1), ("-", -1))
}


@dataclass(frozen=True, slots=True)
class Place:
    """The place of a board. ``origin`` is the corner where its reference face, edge and end meet, in mm.

    ``along``, ``across`` and ``into`` are what a millimetre of the board's length, width and thickness is in the piece. A board
    that leans is held square by the joint at its reference end for ``square_for`` mm; every size is reckoned as if it leaned from
    the end on.
    """

    origin: Vector
    along: Vector
    across: Vector
    into: Vector
    square_for: Fraction = Fraction(0)

    @classmethod
    def at(
        cls, x: Length, y: Length, z: Length, along: str, across: str, into: str, lean: tuple[str, Fraction] | None = None
    ) -> Place:
        """A board with its corner at (x, y, z), its own directions given as ``+X`` .. ``-Z``.

        ``lean`` is (direction, share): going a length along the board carries it ``share`` times as far in that direction as
        well. The ends stay square to the piece, so this is how the side of a tapered drawer stands; the length along the slope
        differs from the board's by less than share squared over 2 (0.0005 mm on a 500 mm side that tapers 0.8 mm). Raises
        BadInput for a direction that isn't one.
        """
        run, over, through = (_direction(name) for name in (along, across, into))
        if lean is not None:
            sideways = _direction(lean[0])
            run = (run[0] + lean[1] * sideways[0], run[1] + lean[1] * sideways[1], run[2] + lean[1] * sideways[2])
        return cls((x.mm, y.mm, z.mm), run, over, through)

    def point(self, along: Length, across: Length, into: Length) -> Vector:
        """The point of the piece, in mm, at these distances from the board's reference end, edge and face."""
        return self.spot(along.mm, across.mm, into.mm)

    def spot(self, along: Fraction, across: Fraction, into: Fraction) -> Vector:
        """The same as ``point``, the distances given in mm."""
        x, y, z = self.origin
        for (run, over, up), length in ((self.along, along), (self.across, across), (self.into, into)):
            # Most boards lie square in the piece, so two of the three are nothing; this is asked for every corner that is drawn.
            if run:
                x += run * length
            if over:
                y += over * length
            if up:
                z += up * length
        return (x, y, z)

    def moved(self, x: Length, y: Length, z: Length) -> Place:
        """The same place shifted."""
        ox, oy, oz = self.origin
        return Place((ox + x.mm, oy + y.mm, oz + z.mm), self.along, self.across, self.into, self.square_for)

    @property
    def leans(self) -> bool:
        """True for a board whose length runs aslant in the piece, as a side of a tapered drawer's does."""
        return sum(1 for size in self.along if size) > 1

    def direction(self, axis: Axis) -> Vector:
        """What a millimetre along, across or into the board is in the piece."""
        if axis is Axis.ALONG:
            return self.along
        return self.across if axis is Axis.ACROSS else self.into

    def outward(self, surface: Surface) -> Vector:
        """The board's own direction out of ``surface``."""
        x, y, z = self.direction(surface.axis)
        return (x, y, z) if surface.is_far else (-x, -y, -z)

    @property
    def end_on_left(self) -> bool:
        """True where the reference end is at the left, looking at the reference face with the reference edge down."""
        return dot(self.along, cross(self.across, self.into)) < 0


def dot(one: Vector, other: Vector) -> Fraction:
    """How far ``one`` goes in the direction of ``other``, times the length of that; 0 where they are square to each other."""
    return one[0] * other[0] + one[1] * other[1] + one[2] * other[2]


def cross(one: Vector, other: Vector) -> Vector:
    """A direction square to both, which makes a right-handed three with them."""
    (a, b, c), (d, e, f) = one, other
    return (b * f - c * e, c * d - a * f, a * e - b * d)


def _direction(name: str) -> Vector:
    if name not in _DIRECTIONS:
        raise BadInput(f"{quoted(name)} is no direction; write one of {', '.join(_DIRECTIONS)}.")
    x, y, z = _DIRECTIONS[name]
    return (x, y, z)
