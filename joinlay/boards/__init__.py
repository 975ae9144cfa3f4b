"""Wood as solid: boards, their surfaces, the cuts in them, and their place in the piece."""

from joinlay.boards.board import Band, Board, Datum, Taper
from joinlay.boards.cut import Cut, CutKind, Shape, Span
from joinlay.boards.place import Place, Vector
from joinlay.boards.role import (
    CutRole,
    CutUse,
    DrawerRole,
    Hand,
    JointKind,
    JointRole,
    PartKind,
    PartRole,
    Whole,
    bay_name,
    row_name,
)
from joinlay.boards.surface import Axis, Surface

__all__ = [
    "Axis", "Band", "Board", "Cut", "CutKind", "CutRole", "CutUse", "Datum", "DrawerRole", "Hand", "JointKind", "JointRole",
    "PartKind",
    "PartRole", "Place", "Shape", "Span", "Surface", "Taper", "Vector", "Whole", "bay_name", "row_name",
]  # fmt: skip
