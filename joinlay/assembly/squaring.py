"""How square and how flat what is glued must stand: the diagonal of each rectangle, how far its two may differ, and how far it
may wind (PT-5).

Diagonals are laid with a tape from corner to corner; where four sides have the right lengths and the two diagonals are equal, it
is a rectangle. How far they may differ is worked out from the room a drawer has: out of square by an angle t they differ by 2 w h
t / sqrt(w^2 + h^2), and half the clearance is left at a corner while t is no more than the clearance over twice the other side.

Winding, which is twist, is looked for with two straight sticks laid across, one at each end: sighted over one, the other must not
lean. How far it may is worked out in the same way. A drawer in winding rocks on its bearers, its fourth corner up by as much as
it is out; a case in winding sets each pair of bearers so, by the drawer's share of its depth; a frame in winding leaves the
corner of a flat front standing out by the front's share of its height (PT-12).
"""

from __future__ import annotations

from math import isqrt
from typing import TYPE_CHECKING, Final

from joinlay.boards import Hand, PartKind, Whole
from joinlay.boards.extent import extent
from joinlay.boards.meeting import Tie
from joinlay.lengths import Fine, Fraction, Length, chosen, dimension
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.casework.assembly import Assembly, Drawer
    from joinlay.lengths import Dimension

__all__ = ["Square", "Winding", "apart", "diagonal", "may_differ", "squares_of", "windings_of"]

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


@dataclass(frozen=True, slots=True)
class Winding:
    """How far one thing may be in winding: ``sticks`` says where the two lie, ``apart`` how far from each other, ``differ`` how
    far they may lean.

    ``differ`` is read at the ends of the sticks, over the width of the work. ``made_in`` is the stage in which it is glued.
    """

    of: str
    sticks: str
    apart: Dimension
    differ: Dimension
    made_in: str

    @property
    def told(self) -> Fine:
        """``differ`` as it is told: seen over the sticks, never set."""
        return Fine(self.differ)


def diagonal(width: Length, height: Length) -> Dimension:
    """From corner to corner of a rectangle, to a ten-thousandth of a millimetre (PT-5, by geometry)."""
    return chosen(Length(_root(width.mm**2 + height.mm**2)), "root of the sum of the squares of", width, height)


def apart(width: Length, height: Length, out: Length) -> Length:
    """How far the diagonals differ where ``width`` stands over by ``out`` at the far end of ``height`` (PT-5, by geometry)."""
    w, h, by = width.mm, height.mm, out.mm
    return Length(_root((w + by) ** 2 + h**2) - _root((w - by) ** 2 + h**2))


def may_differ(width: Length, height: Length, clearance: Length) -> Dimension:
    """How far the diagonals of a drawer or its opening may differ with half the ``clearance`` beside it left: w c / sqrt(w^2 +
    h^2) (PT-5).
    """
    across = diagonal(width, height)
    value = Length(_near(width.mm * clearance.mm / across.mm))
    return chosen(value, "width x clearance / diagonal, of", width, clearance, across)


def squares_of(drawers: Sequence[Drawer], others: Sequence[Assembly]) -> tuple[Square, ...]:
    """Every rectangle that is glued: the case, the frame with each opening, each drawer; drawers alone where there is nothing
    around them.

    A drawer is measured over its outer corners, seen from above; one that tapers as long as at its middle, which its diagonals
    are alike at. An opening may be out of square as long as the front in it keeps half its clearance at the sides; case and
    frame, out by the same angle, as long as every opening may. Rule PT-5, derived.
    """
    inside = [_opening(drawer) for drawer in drawers] if others else []
    whole = list(_wholes(others, inside)) if inside else []
    return (*whole, *inside, *(_drawer(drawer) for drawer in drawers))


def windings_of(drawers: Sequence[Drawer], others: Sequence[Assembly]) -> tuple[Winding, ...]:
    """How far case, frame and each drawer may be in winding; drawers alone where there is nothing around them (PT-5, PT-12;
    derived).

    A drawer keeps half of the room over its sides; the case lets every drawer do so; the frame lets no front stand out at a
    corner by more than half its clearance at a side.
    """
    found = [_wound(drawer) for drawer in drawers]
    return (*(_around(others, drawers, found) if others and drawers else ()), *found)


def _wound(drawer: Drawer) -> Winding:
    name, side = drawer.name, drawer.side(Hand.LEFT)
    over = (drawer.opening.height - side.width).named(f"{name} room over its sides", "DR-3", "by geometry")
    kicks: Length | None = min((Length(facing.gap.mm) for met in drawer.tied(Tie.KICKS) for facing in met.facings), default=None)
    if drawer.make.planed is not None:
        # What is planed off the top of one made full is room it hasn't yet.
        over = (over + drawer.make.planed.top).named(f"{name} room over its sides once planed", "HF-1", "common practice")
        kicks = None if kicks is None else Length(kicks.mm + drawer.make.planed.top.mm)
    if kicks is not None and kicks < over:
        over = dimension(kicks).named(f"{name} room under its kickers", "RN-3", "by geometry")
    return _winding(name, "across its sides, behind the front and before the back", side.length, over / 2, name)


def _around(others: Sequence[Assembly], drawers: Sequence[Drawer], found: Sequence[Winding]) -> Iterator[Winding]:
    for assembly in others:
        if assembly.of is Whole.CASE:
            deep = assembly.of_kind(PartKind.CASE_SIDE)[0].width
            differ, one = min(
                ((own.differ * (deep / drawer.length), drawer) for own, drawer in zip(found, drawers, strict=True)),
                key=lambda some: some[0],
            )
            words = f"as far in winding as {one.name} may be, over the case's depth, of"
            value = chosen(
                Length(_near(differ.mm)), words, next(own.differ for own in found if own.of == one.name), deep, one.length
            )
            yield _winding(assembly.name, "across it, at its front and at its back", deep, value, assembly.name)
        elif assembly.of is Whole.FRAME:
            high = assembly.of_kind(PartKind.STILE)[0].length
            one = min(drawers, key=lambda drawer: drawer.side_room.mm / drawer.front.width.mm)
            words = f"half the clearance, over the share of the {one.name} front in the frame's height, of"
            most = Length(one.side_room.mm / 2 * (high / one.front.width))
            value = chosen(Length(_near(most.mm)), words, one.side_room, one.front.width, high)
            yield _winding(assembly.name, "across it, on the top and on the bottom rail", high, value, assembly.name)


def _winding(name: str, sticks: str, apart_by: Dimension, differ: Dimension, made_in: str) -> Winding:
    rule = "PT-5" if made_in == name and name not in (Whole.CASE.value, Whole.FRAME.value) else "PT-12"
    return Winding(name, sticks, apart_by, differ.named(f"{name} may be in winding", rule, "derived"), made_in)


def _drawer(drawer: Drawer) -> Square:
    name = drawer.name
    width = drawer.front.length
    if drawer.taper.mm:
        width = (width - drawer.taper / 2).named(f"{name} width at its middle", "PT-5", "by geometry")
    differ = may_differ(width, drawer.length, drawer.side_room)
    return _square(name, "over its corners, from above", width, drawer.length, differ)


def _opening(drawer: Drawer) -> Square:
    width, height = drawer.opening.width, drawer.opening.height
    # The drawer rides on the rail and turns with it, so it is at its sides that the room gets less.
    return _square(
        f"{drawer.name} opening",
        "between its corners",
        width,
        height,
        may_differ(width, height, drawer.side_room),
        Whole.FRAME.value,
    )


def _over(across: Length, what: str, each: Dimension) -> Dimension:
    """``across`` as the placed boards have it; ``each`` is what one of them takes of it."""
    return chosen(across, f"over the outsides of its {what}, where they stand, each as", each)


def _wholes(others: Sequence[Assembly], openings: Sequence[Square]) -> Iterator[Square]:
    # 2 w h t / d of an opening is how far it may differ, so t is that times d / (2 w h).
    least = min(openings, key=lambda one: (one.differ.mm * one.diagonal.mm / (one.width.mm * one.height.mm), one.of))
    for assembly in others:
        if assembly.of is Whole.CASE:
            (side,) = (board for board in assembly.of_kind(PartKind.CASE_SIDE) if board.role.hand is Hand.LEFT)
            across, _, _ = extent(assembly.of_kind(PartKind.CASE_SIDE))
            over = _over(across, "sides", side.thickness)
            width, height = over.named("case width over its sides", "CA-1", "by geometry"), side.length
        elif assembly.of is Whole.FRAME:
            stiles = assembly.of_kind(PartKind.STILE)
            across, _, _ = extent(stiles)
            over = _over(across, "stiles", stiles[0].width)
            width, height = over.named("face frame width over its stiles", "FF-1", "by geometry"), stiles[0].length
        else:
            continue
        corner_to_corner = diagonal(width, height)
        share = Fraction(width.mm * height.mm * least.diagonal.mm, least.width.mm * least.height.mm * corner_to_corner.mm)
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
