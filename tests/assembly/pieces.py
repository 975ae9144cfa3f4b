"""Whole pieces for the assembly tests: a plain chest to vary, planned with all its drawers."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from joinlay.casework.bay import DrawerWish
from joinlay.casework.case_sizes import CaseMake
from joinlay.casework.corners import LOCKED, TENONED
from joinlay.casework.drawer import plan_drawer
from joinlay.casework.face_frame import FrameMake
from joinlay.casework.graduation import Equal
from joinlay.casework.opening import BackHeight, DrawerMake
from joinlay.casework.piece import Bank, Piece, PieceSpec, plan_piece
from joinlay.casework.seating import seat_drawer
from joinlay.casework.stops import StopMake
from joinlay.findings import Harm, Refused
from joinlay.lengths import GRADUATIONS, Length, Unit, mm, read_length, written
from joinlay.shop import CornerCutter, Shop, usual_shop
from joinlay.stock import Sheet, Solid

if TYPE_CHECKING:
    from joinlay.casework.assembly import Drawer


@dataclass(frozen=True)
class Whole:
    """A planned piece with its drawers in it."""

    piece: Piece
    drawers: tuple[Drawer, ...]

    @property
    def boards(self):
        return [*self.piece.boards, *(board for drawer in self.drawers for board in drawer.assembly.boards)]

    @property
    def by_role(self):
        return {board.role: board for board in self.boards}

    @property
    def meetings(self):
        return [*self.piece.meetings, *(met for drawer in self.drawers for met in drawer.assembly.meetings)]


def size(value, name="size"):
    """A length as a maker writes it, in inches where no unit is given."""
    length = value if isinstance(value, Length) else read_length(str(value), Unit.INCH)
    return written(length, name, "test")


def ply(thickness, name=None):
    text = str(thickness)
    return Sheet(name or f"ply {text}", size(text), size(text), size(96), size(48))


def solid(thickness, species="black cherry", name=None):
    return Solid(name or f"{species} {thickness}", size(thickness), size(thickness), species)


#: Makes both halves of a corner in sides of 3/8 to 9/16.
CORNER_CUTTER = CornerCutter(size("3/16"), size("3/16"), size("1/4"), size("5/8"), size("1 1/2"))


def shop(unit=Unit.INCH, rule=None, **figures) -> Shop:
    """The usual shop with some figures of its practice changed, given as ``top_clearance="1/16"``."""
    usual = usual_shop(unit)
    lengths = {name.replace("_", " "): size(text, name.replace("_", " ")) for name, text in figures.items()}
    changed = replace(usual, practice=usual.practice.but(lengths), corner_cutters=(CORNER_CUTTER,))
    return replace(changed, rule=GRADUATIONS[rule]) if rule else changed


def drawer_make(**changed) -> DrawerMake:
    usual = {
        "front": solid("3/4"), "sides": ply("1/2"), "back": ply("1/2"), "bottom": ply("1/4"),
        "front_joint": TENONED, "back_joint": LOCKED, "back_height": BackHeight.FULL,
    }  # fmt: skip
    return DrawerMake(**{**usual, **changed})


def spec(own_shop, *, heights=None, make=None, frame=None, case=None, banks=None, **changed) -> PieceSpec:
    """A chest 24 wide, 36 high and 20 deep with four drawers, changed as asked."""
    divided = heights or Equal(4)
    wish = DrawerWish(make or drawer_make(), own_shop)
    usual = {
        "width": size(24, "piece width"), "height": size(36, "piece height"), "depth": size(20, "piece depth"),
        "frame": frame or FrameMake(solid("3/4")), "case": case or CaseMake(ply("3/4"), ply("3/4"), ply("1/4")),
        "banks": banks or (Bank(divided, (wish,) * divided.count),), "runner": solid("3/4", "red maple", "runner stock"),
        "stops": StopMake(solid("3/4", "red maple", "runner stock")),
    }  # fmt: skip
    return PieceSpec(**{**usual, **changed})


def whole(wanted: PieceSpec, own_shop: Shop) -> Whole:
    """The piece with every drawer planned and seated. Raises Refused as the planners do."""
    piece = plan_piece(wanted, own_shop)
    drawers = []
    for slot in piece.slots:
        drawer = plan_drawer(slot.drawer, slot.opening, slot.wish.make, slot.wish.shop, tenon=slot.wish.tenon)
        drawers.append(seat_drawer(piece, slot, drawer))
    return Whole(piece, tuple(drawers))


def tried(wanted: PieceSpec, own_shop: Shop) -> Whole | Refused:
    """The piece, or the refusal of it."""
    try:
        return whole(wanted, own_shop)
    except Refused as refused:
        return refused


def way_out(refused: Refused, own_shop: Shop) -> str:
    """What a refusal says, shown on the maker's rule; it must give numbers and something that works."""
    finding = refused.finding
    said, remedy = finding.sentence(own_shop.rule.text), finding.way_out(own_shop.rule.text)
    assert finding.harm is Harm.REFUSE
    assert finding.where
    assert finding.numbers
    assert remedy
    return f"{finding.where}: {said} {remedy}"


__all__ = ["CORNER_CUTTER", "Whole", "drawer_make", "mm", "ply", "shop", "size", "solid", "spec", "tried", "way_out", "whole"]
