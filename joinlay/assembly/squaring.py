"""How square what is glued must stand: the diagonal of each rectangle, and how far its two diagonals may differ (PT-5).

Diagonals are laid with a tape from corner to corner; where four sides have the right lengths and the two diagonals are equal, it is a
rectangle. How far they may differ is worked out from the room a drawer has: out of square by an angle t they differ by 2 w h t / sqrt(w^2 +
h^2), and half the clearance is left at a corner while t is no more than the clearance over twice the other side.
"""

from __future__ import annotations

from math import isqrt
from typing import TYPE_CHECKING, Final

from joinlay.boards import Hand, PartKind, Whole
from joinlay.boards.extent import extent
from joinlay.lengths import Fine, Fraction, Length, chosen, dimension
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.casework.assembly import Assembly, Drawer
    from joinlay.lengths import Dimension

__all__ = ["Square", "apart", "diagonal", "may_differ", "squares_of"]

#: A diagonal is a root, so it is told to a ten-thousandth of a millimetre.
_PARTS: Final = 10_000


@dataclass(frozen=True, slots=True)
class Square:
    """A rectangle to be glued square: what is measured, over its outer corners or between its inner ones.

    ``diagonal`` is what both must read, ``differ`` how far the one may be from the other.
    """

    of: str
    corners: str
    width: Dimension
    height: Dimension
    diagonal: Dimension
    differ: Dimension
    made_in: str
    """The stage in which it is glued: ``face frame`` for an opening of it."""

    @property
    def told(self) -> Fine:
        """``differ`` as it is told: read off a tape, never set."""
        return Fine(self.differ)


def diagonal(width: Length, height: Length) -> Dimension:
    """From corner to corner of a rectangle, to a ten-thousandth of a millimetre (PT-5, by geometry)."""
    return chosen(Length(_root(width.mm**2 + height.mm**2)), "root of the sum of the squares of", width, height)


def apart(width: Length, height: Length, out: Length) -> Length:
    """How far the diagonals differ where ``width`` stands over by ``out`` at the far end of ``height`` (PT-5, by geometry)."""
    w, h, by = width.mm, height.mm, out.mm
    return Length(_root((w + by) ** 2 + h**2) - _root((w - by) ** 2 + h**2))


def may_differ(width: Length, height: Length, clearance: Length) -> Dimension:
    """How far the diagonals of a drawer or its opening may differ with half the ``clearance`` beside it left: w c / sqrt(w^2 + h^2) (PT-5)."""
    across = diagonal(width, height)
    value = Length(_near(width.mm * clearance.mm / across.mm))
    return chosen(value, "width x clearance / diagonal, of", width, clearance, across)


def squares_of(drawers: Sequence[Drawer], others: Sequence[Assembly]) -> tuple[Square, ...]:
    """Every rectangle that is glued: the case, the frame with each opening, each drawer; drawers alone where there is nothing around them.

    A drawer is measured over its outer corners, seen from above; one that tapers as long as at its middle, which its diagonals are alike
    at. An opening may be out of square as long as the front in it keeps half its clearance at the sides; case and frame, out by the same angle, as
    long as every opening may. Rule PT-5, derived.
    """
    inside = [_opening(drawer) for drawer in drawers] if others else []
    whole = list(_wholes(others, inside)) if inside else []
    return (*whole, *inside, *(_drawer(drawer) for drawer in drawers))


def _drawer(drawer: Drawer) -> Square:
    name = drawer.name
    width = drawer.front.length
    if drawer.taper.mm:
        width = (width - drawer.taper / 2).named(f"{name} width at its middle", "PT-5", "by geometry")
    differ = may_differ(width, drawer.length, drawer.side_clearance)
    return _square(name, "over its corners, from above", width, drawer.length, differ)


def _opening(drawer: Drawer) -> Square:
    width, height = drawer.opening.width, drawer.opening.height
    # The drawer rides on the rail and turns with it, so it is at its sides that the room gets less.
    return _square(
        f"{drawer.name} opening",
        "between its corners",
        width,
        height,
        may_differ(width, height, drawer.side_clearance),
        Whole.FRAME.value,
    )


def _wholes(others: Sequence[Assembly], openings: Sequence[Square]) -> Iterator[Square]:
    # 2 w h t / d of an opening is how far it may differ, so t is that times d / (2 w h).
    least = min(openings, key=lambda one: (one.differ.mm * one.diagonal.mm / (one.width.mm * one.height.mm), one.of))
    for assembly in others:
        if assembly.of is Whole.CASE:
            (side,) = (board for board in assembly.of_kind(PartKind.CASE_SIDE) if board.role.hand is Hand.LEFT)
            across, _, _ = extent(assembly.of_kind(PartKind.CASE_SIDE))
            width, height = dimension(across).named("case width over its sides", "CA-1", "by geometry"), side.length
        elif assembly.of is Whole.FRAME:
            stiles = assembly.of_kind(PartKind.STILE)
            across, _, _ = extent(stiles)
            width, height = dimension(across).named("face frame width over its stiles", "FF-1", "by geometry"), stiles[0].length
        else:
            continue
        over = diagonal(width, height)
        share = Fraction(width.mm * height.mm * least.diagonal.mm, least.width.mm * least.height.mm * over.mm)
        value = Length(_near(least.differ.mm * share))
        words = f"as far out of square as the {least.of} may be, of"
        yield _square(assembly.name, "over its corners", width, height, chosen(value, words, width, height, least.differ))


def _square(name: str, corners: str, width: Dimension, height: Dimension, differ: Dimension, made_in: str = "") -> Square:
    return Square(
        name,
        corners,
        width,
        height,
        diagonal(width, height).named(f"{name} diagonal", "PT-5", "by geometry"),
        differ.named(f"{name} diagonals may differ", "PT-5", "derived"),
        made_in or name,
    )


def _near(number: Fraction) -> Fraction:
    return Fraction((2 * number.numerator * _PARTS + number.denominator) // (2 * number.denominator), _PARTS)


def _root(number: Fraction) -> Fraction:
    """The root to the nearest ten-thousandth, in whole numbers."""
    scaled = 4 * number * _PARTS**2
    return Fraction((isqrt(scaled.numerator // scaled.denominator) + 1) // 2, _PARTS)
