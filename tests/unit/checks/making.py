"""Drawers and boards for the checks to look at."""

from dataclasses import replace
from fractions import Fraction

from joinlay.boards import CutKind, Datum, Shape, Span, Surface
from joinlay.boards.meeting import Facing, Meeting, Plane, Tie
from joinlay.casework.corners import TENONED
from joinlay.casework.drawer import plan_drawer
from joinlay.casework.opening import BackHeight, DrawerMake, Opening
from joinlay.checks import usual_conditions
from joinlay.lengths import Unit, dimension, mm, written
from joinlay.shop import CornerCutter, usual_shop
from joinlay.stock import Sheet, Solid
from tests import by_hand

#: It has a cutter that makes both halves of a corner in sides of 9 to 12 mm.
CORNER_CUTTER = CornerCutter(*(dimension(mm(number)) for number in (4, 4, 6, 16, 38)))
SHOP = replace(usual_shop(Unit.MM), corner_cutters=(CORNER_CUTTER,))
CONDITIONS = usual_conditions()
PRACTICE = SHOP.practice
DATUM = Datum("face", "edge", "end", "far face", "far edge", "far end")


def size(number, name="size"):
    return written(mm(number), name, "test")


#: The softest that plywood is, as the table has it, and both ways alike.
ALIKE = Fraction("6.96")


def sheet(name, thickness, *, measured=True, kind="plywood", stiff=ALIKE):
    known = size(thickness, "measured") if measured else None
    return Sheet(name, size(thickness, "nominal"), known, size(2440), size(1220), kind, modulus_along=stiff)


def solid(name, thickness, species="ash", cut="flat"):
    return Solid(name, size(thickness, "nominal"), size(thickness, "measured"), species, cut)


PLY = {"front": sheet("fronts", 18), "sides": sheet("sides", 12), "back": sheet("sides", 12), "bottom": sheet("bottoms", 6)}


def practice_with(**lengths):
    named = {name.replace("_", " "): size(number, name) for name, number in lengths.items()}
    return SHOP.practice.but(named)


def shop_with(**lengths):
    return replace(SHOP, practice=practice_with(**lengths))


def drawer(
    width=500, height=150, depth=450, *, shop=SHOP, name="drawer 1", front_joint=TENONED,
    back_height=BackHeight.FULL, side_height=None, **stocks,
):  # fmt: skip
    make = DrawerMake(
        **{**PLY, **stocks},
        front_joint=front_joint,
        back_height=back_height,
        side_height=None if side_height is None else size(side_height),
    )
    return plan_drawer(by_hand.drawer(name), Opening(size(width), size(height), size(depth)), make, shop)


def among(made, *met):
    """The drawer ``made`` with more meetings."""
    return replace(made, assembly=replace(made.assembly, meetings=(*made.assembly.meetings, *met)))


def met(one, surface, other, tie, gap):
    """``one`` by its ``surface`` beside a part called ``other``, with ``gap`` mm between."""
    facing = Facing("by the", Plane(surface), Plane(Surface.FACE), size(gap))
    return Meeting(one.role, by_hand.part(other), (facing,), (), tie)


def under_kicker(made, gap):
    """The drawer under kickers, ``gap`` mm over its sides."""
    return among(made, *(met(side, Surface.FAR_EDGE, "kicker", Tie.KICKS, gap) for side in made.sides))


def between_guides(made, gap):
    """The drawer between guides, ``gap`` mm from each side."""
    return among(made, *(met(side, Surface.FAR_FACE, "guide", Tie.GUIDED, gap) for side in made.sides))


def over_block(made, gap):
    """The drawer over a stop block, ``gap`` mm under its bottom."""
    return among(made, met(made.bottom, Surface.FAR_FACE, "block", Tie.CLEARS, gap))


def board(*cuts, length=400, width=100, thickness=18, name="board"):
    return by_hand.board(name, "part", "stock", size(length), size(width), size(thickness), DATUM, cuts)


def cut(kind, surface, along, across, into, name="cut", joint="", shape=Shape.SQUARE):
    run, over, deep = (Span.of(mm(start), mm(stop)) for start, stop in (along, across, into))
    return by_hand.cut(kind, surface, run, over, deep, name, joint=joint, shape=shape)


def mortise(along, across, into=(0, 10), surface=Surface.FACE, name="mortise", joint=""):
    return cut(CutKind.MORTISE, surface, along, across, into, name, joint, Shape.ROUND_ENDS)


def groove(across, along=(0, 400), into=(0, 6), surface=Surface.FACE, name="groove", joint=""):
    return cut(CutKind.GROOVE, surface, along, across, into, name, joint)
