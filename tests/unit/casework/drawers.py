"""Drawers to test with: a maker's usual one, and ways to change it."""

from __future__ import annotations

from dataclasses import replace

from joinlay.boards import DrawerRole
from joinlay.casework.drawer import plan_drawer
from joinlay.casework.opening import DrawerMake, Opening
from joinlay.lengths import Unit, read_length, written
from joinlay.shop import CornerCutter, usual_shop
from joinlay.stock import Sheet, Solid


def size(text: str, name: str = "size", unit: Unit = Unit.INCH):
    return written(read_length(text, unit), name, "a test")


def plywood(name: str, thickness: str, unit: Unit = Unit.INCH) -> Sheet:
    return Sheet(name, size(thickness, f"{name} thickness", unit), None, size("96"), size("48"))


def cherry(thickness: str = "3/4", unit: Unit = Unit.INCH) -> Solid:
    return Solid("cherry", size(thickness, "cherry thickness", unit), None, "black cherry")


def usual_make(**changes) -> DrawerMake:
    half = plywood("half", "1/2")
    return replace(DrawerMake(cherry(), half, half, plywood("quarter", "1/4")), **changes)


def opening(width: str = "18 3/8", height: str = "4 5/16", depth: str = "20", unit: Unit = Unit.INCH) -> Opening:
    return Opening(size(width, "opening width", unit), size(height, "opening height", unit), size(depth, "opening depth", unit))


def shop(unit: Unit = Unit.INCH, **lengths: str):
    """The usual shop with some of its practice changed: ``shop(taper="1/32")``."""
    usual = usual_shop(unit)
    own = {name.replace("_", " "): size(text, name.replace("_", " "), unit) for name, text in lengths.items()}
    return replace(usual, practice=usual.practice.but(own), corner_cutters=(corner_cutter(),))


def corner_cutter() -> CornerCutter:
    """One that makes both halves of a corner in sides of 3/8 to 9/16."""
    return CornerCutter(size("3/16"), size("3/16"), size("1/4"), size("5/8"), size("1 1/2"))


def drawer(**changes):
    """The usual drawer: 18 3/8 x 4 5/16 x 20 in opening, 3/4 front, 1/2 sides."""
    return plan_drawer(
        DrawerRole(1),
        changes.pop("opening", opening()),
        changes.pop("make", usual_make()),
        changes.pop("shop", shop()),
        **changes,
    )
