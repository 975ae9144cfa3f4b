"""What a piece stands on: a plinth, with room for toes or without, or feet (BA-1 to BA-3).

Case and frame stand as they would without: the base lies under them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.boards import (
    Board,
    Datum,
    Hand,
    PartKind,
    PartRole,
    Place,
    Surface,
    Whole,
)
from joinlay.boards.extent import SpaceBox
from joinlay.boards.fastener import FastenerKind
from joinlay.boards.meeting import Meeting, Tie, butted
from joinlay.casework.assembly import Assembly
from joinlay.casework.levellers import bored_for, levellers_told
from joinlay.casework.over_and_under import laid, refuse_step
from joinlay.findings import Change, refusal
from joinlay.joints.fasteners import fastener_for, spread
from joinlay.lengths import ZERO
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.casework.face_frame import FrameSizes
    from joinlay.casework.levellers import Leveller
    from joinlay.lengths import Dimension
    from joinlay.shop import Practice, Shop
    from joinlay.stock import Stock

__all__ = ["BaseMake", "make_base"]


@dataclass(frozen=True, slots=True)
class BaseMake:
    """A base of ``stock``, ``height`` high.

    A plinth stands ``set_back`` behind the frame's face and within the piece's sides (None: as the practice has it; negative:
    proud). ``foot`` is how wide each of four feet is; None: a plinth. ``has_recess`` sets its front ``toe`` behind the frame's
    face, with room for toes (None: as the practice has it). Where it ``is_cut`` the case's sides stand on the floor, and the
    recess is cut in them (BA-2). ``leveller`` is what each foot is bored for (BA-3).
    """

    stock: Stock
    height: Dimension
    set_back: Dimension | None = None
    foot: Dimension | None = None
    has_recess: bool = False
    toe: Dimension | None = None
    is_cut: bool = False
    leveller: Leveller | None = None

    def stands(self, practice: Practice) -> Dimension:
        """How high the underside of the frame stands over the floor (BA-1 to BA-3)."""
        return self.height if self.leveller is None else self.height + self.leveller.stands_out(practice)


_PLINTH: Final = Datum("outside face", "lower edge", "left end", "inside face", "upper edge", "right end")
_PLINTH_SIDE: Final = Datum("outside face", "lower edge", "front end", "inside face", "upper edge", "back end")
_FOOT: Final = Datum("front face", "left edge", "lower end", "back face", "right edge", "upper end")


def make_base(
    make: BaseMake,
    size: tuple[Dimension, Dimension, Dimension],
    frame: FrameSizes,
    sides: Stock,
    around: Sequence[Board],
    shop: Shop,
) -> Assembly:
    """The plinth or the four feet under a piece of ``size`` = width, height, depth, whose zero is the underside of its frame
    (BA-1, BA-3).

    ``sides`` is what the case's sides are of: a base is glued to solid ones at the front only. ``around`` are the boards of case
    and frame. Raises Refused where the frame reaches lower than the case, or the base stands inside it.
    """
    refuse_step("base", "overhang-bottom", frame.overhang_bottom)
    usual = shop.practice.length("plinth set-back")
    set_back = usual if make.set_back is None else make.set_back
    thick = make.stock.thickness
    beyond = frame.overhang + sides.thickness - set_back
    wide = make.foot or thick
    if beyond.mm <= 0 or wide + set_back <= frame.overhang:
        raise (
            refusal(
                "base",
                "The base stands {set_back} within the piece's sides, and the case's sides from {from} to {to}, so "
                "they do not stand on it.",
                "Set it back less than {to}, and so far that it reaches past {from}.",
                "BA-1",
                "by geometry",
                set_back=set_back,
                **{"from": frame.overhang, "to": frame.overhang + sides.thickness},
            )
            .at("base")
            .by(Change("base", "set-back", frame.overhang))
        )
    front = set_back
    if make.has_recess:
        front = shop.practice.length("toe depth") if make.toe is None else make.toe
    made = _feet(make, make.foot, size, set_back) if make.foot is not None else _plinth(make, size, set_back, front)
    if make.leveller is not None:
        made = tuple(bored_for(make.leveller, foot, shop) for foot in made)
    meetings = [] if make.foot is not None else _cornered(made, shop)
    for part in made:
        up = Surface.FAR_END if part.role.kind is PartKind.FOOT else Surface.FAR_EDGE
        is_front = part.role.kind is PartKind.BASE_FRONT or (part.role.kind is PartKind.FOOT and part.role.number <= _IN_FRONT)
        tie = Tie.GLUED if is_front or not sides.is_solid else Tie.DRY
        meetings += laid(part, up, around, SpaceBox.around(part).high[2], "under the", "BA-1", tie)
    told = () if make.leveller is None else (levellers_told(make.leveller, shop),)
    return Assembly(Whole.BASE, made, tuple(meetings), (make.height, set_back, front), told)


#: How many of the four feet are in front: the first ones.
_IN_FRONT: Final = 2


def _plinth(
    make: BaseMake, size: tuple[Dimension, Dimension, Dimension], set_back: Dimension, behind: Dimension
) -> tuple[Board, ...]:
    """Front over the ends of two sides, ``behind`` the frame's face, and back between them, flush with the rear of the piece
    (BA-1, BA-2).
    """
    (width, _, depth), thick = size, make.stock.thickness
    front = (width - 2 * set_back).named("base front length", "BA-1", "common practice")
    side = (depth - behind - thick).named("base side length", "BA-1", "common practice")
    back = (front - 2 * thick).named("base back length", "BA-1", "by geometry")
    for left in (side, back):
        if left.mm <= 0:
            raise refusal(
                "base",
                f"The {left.name} would be {{left}}.",
                "Make the piece at least {short} larger that way, or set the base back less.",
                "BA-1",
                "by geometry",
                left=left,
                short=-left,
            ).at("base")
    low = -make.height
    right = width - set_back
    return (
        _part(
            make, PartRole(PartKind.BASE_FRONT), front, make.height, _PLINTH, Place.at(set_back, behind, low, "+X", "+Z", "+Y")
        ),
        _part(
            make,
            PartRole(PartKind.BASE_SIDE, hand=Hand.LEFT),
            side,
            make.height,
            _PLINTH_SIDE,
            Place.at(set_back, behind + thick, low, "+Y", "+Z", "+X"),
        ),
        _part(
            make,
            PartRole(PartKind.BASE_SIDE, hand=Hand.RIGHT),
            side,
            make.height,
            _PLINTH_SIDE,
            Place.at(right, behind + thick, low, "+Y", "+Z", "-X"),
        ),
        _part(
            make,
            PartRole(PartKind.BASE_BACK),
            back,
            make.height,
            _PLINTH,
            Place.at(set_back + thick, depth, low, "+X", "+Z", "-Y"),
        ),
    )


def _feet(
    make: BaseMake, wide: Dimension, size: tuple[Dimension, Dimension, Dimension], set_back: Dimension
) -> tuple[Board, ...]:
    """Four blocks, their grain upright: left and right in front, left and right behind, those never behind the piece, which may
    stand at a wall.
    """
    width, _, depth = size
    low, thick = -make.height, make.stock.thickness
    back = depth - set_back - thick if set_back > ZERO else depth - thick
    places = ((x, y) for y in (set_back, back) for x in (set_back, width - set_back - wide))
    return tuple(
        _part(make, PartRole(PartKind.FOOT, number=n), make.height, wide, _FOOT, Place.at(x, y, low, "+Z", "+X", "+Y"))
        for n, (x, y) in enumerate(places, start=1)
    )


def _part(make: BaseMake, role: PartRole, length: Dimension, width: Dimension, datum: Datum, place: Place) -> Board:
    rule = "BA-3" if role.kind is PartKind.FOOT else "BA-1"
    return Board(
        role,
        make.stock.name,
        length.named(f"{role.name} length", rule),
        width.named(f"{role.name} width", rule),
        make.stock.thickness.named(f"{role.name} thickness", "", "the stock's own"),
        datum,
        place=place,
    )


def _cornered(plinth: tuple[Board, ...], shop: Shop) -> list[Meeting]:
    """A plinth's corners: glued and nailed through the front into its sides, and through them into the back."""
    front, left, right, back = plinth
    nail = fastener_for(FastenerKind.NAIL, front.thickness, None, shop.rule, spacing=shop.practice.length("corner nail spacing"))
    nails = len(spread(front.width, shop.practice.length("corner nail spacing"), least=2))
    glue = front.width.mm * front.thickness.mm
    # What is nailed through stands first.
    pairs = [((front, Surface.FAR_FACE), (side, Surface.END)) for side in (left, right)]
    pairs += [((left, Surface.FAR_FACE), (back, Surface.END)), ((right, Surface.FAR_FACE), (back, Surface.FAR_END))]
    return [
        butted(one, other, "against the", rule="BA-1", tie=Tie.NAILED, glue=glue, fasteners=nails, fastener=nail)
        for one, other in pairs
    ]
