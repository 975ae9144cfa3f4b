"""Cases of ours told as if someone else had built them: measured behind the frame, and written as a job of openings."""

from __future__ import annotations

from decimal import Decimal

from joinlay.boards import DrawerRole, Hand, PartKind, PartRole, Whole
from joinlay.boards.extent import SpaceBox
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job

#: What is made: the wood, and the drawers.
WOOD = """\
units = "mm"
[stock.ply]
nominal = "18"
measured = "17.6"
[stock.ash]
kind = "solid"
species = "white ash"
nominal = "20"
measured = "20"
[stock.thin]
nominal = "6"
measured = "5.8"
[drawers]
front = "ash"
sides = "ply"
back = "ply"
bottom = "thin"
groove-offset = "12"
"""

OURS = """\
[case]
width = "{width}"
height = "{height}"
depth = "{depth}"
sides = "{sides}"
panels = "ply"
back = "thin"
[frame]
stock = "ash"
stile = "{stile}"
rail = "{rail}"
[runners]
stock = "ash"
"""


def ours(*, banks=((2,),), width="600", height="420", depth="500", sides="ply", stile="45", rail="26"):
    """The text of a whole piece, its ``banks`` each of so many drawers."""
    sizes = {"width": width, "height": height, "depth": depth, "sides": sides, "stile": stile, "rail": rail}
    return WOOD + OURS.format(**sizes) + "".join(f"[[bank]]\ndrawers = {count}\n" for (count,) in banks)


def planned(text, name="desk.toml"):
    """The plan of a job's ``text``."""
    return plan(read_job(text, name))


def mm(length):
    """A length in mm that has few decimals, as one would write it."""
    exact = Decimal(length.numerator) / Decimal(length.denominator)
    return f'"{exact} mm"'


def measured(made, *, sides="ply", left_out=()):
    """The keys of ``[runners]`` that tell of the first bank of a piece ``made`` here, and that bank's openings, as a job's
    text.
    """
    by_role = {board.role: SpaceBox.around(board) for board in made.boards}
    drawers = [next(drawer for drawer in made.drawers if drawer.role == role) for (role,) in made.rows[0]]
    left = by_role[PartRole(PartKind.CASE_SIDE, hand=Hand.LEFT)].high[0]
    beside = PartRole(PartKind.CASE_PARTITION, number=1) if len(made.rows) > 1 else PartRole(PartKind.CASE_SIDE, hand=Hand.RIGHT)
    right, back = by_role[beside].low[0], by_role[PartRole(PartKind.CASE_BACK)].low[1]
    front = by_role[PartRole(PartKind.RAIL, hand=Hand.BOTTOM)].high[1]
    floor, ceiling = by_role[PartRole(PartKind.CASE_BOTTOM)].high[2], by_role[PartRole(PartKind.CASE_TOP)].low[2]
    rails = [by_role[PartRole(PartKind.RAIL, drawer.role)] for drawer in drawers[:-1]]
    (at, top), (_, low) = [one.mm for one in drawers[0].corner], [one.mm for one in drawers[-1].corner]
    keys = {
        "inside-width": mm(right - left),
        "inside-depth": mm(back - front),
        "left-edge": mm(at - left),
        "rail": mm(rails[0].high[2] - rails[0].low[2]) if rails else '"26 mm"',
        "below": mm(low - floor),
        "above": mm(ceiling - top - drawers[0].opening.height.mm),
    }
    told = "".join(f"{key} = {value}\n" for key, value in keys.items() if key not in left_out)
    sizes = [(one.opening.width.mm, one.opening.height.mm, one.opening.depth.mm) for one in drawers]
    openings = (f"[[drawer]]\nopening = {{ width = {mm(w)}, height = {mm(h)}, depth = {mm(d)} }}\n" for w, h, d in sizes)
    return f'{WOOD}[runners]\nstock = "ash"\nsides = "{sides}"\n{told}{"".join(openings)}'


def runners_of(made, drawers):
    """What a plan has of runners and stops for the first so many ``drawers``: each part's role, stock, sizes and cuts."""
    kinds = {DrawerRole(n) for n in range(1, drawers + 1)}
    return {
        board.role: (board.stock, board.length.mm, board.width.mm, board.thickness.mm, cuts_of(board))
        for assembly in made.others
        if assembly.of in (Whole.RUNNERS, Whole.STOPS)
        for board in assembly.boards
        if board.role.drawer in kinds
    }


def cuts_of(board):
    """Its cuts, where they stand."""
    return tuple((cut.role.name, cut.surface, cut.along.start.mm, cut.along.stop.mm) for cut in board.cuts)
