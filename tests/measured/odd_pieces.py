"""Pieces that no maker would call ordinary, as jobs: one drawer, forty, a wall of them, and one no bigger than a fist."""

from functools import cache

from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from tests.measured.kept import kept

_HEAD = """title = "{title}"
units = "mm"
smallest = "0.5 mm"

[stock.oak-{frame}]
kind = "solid"
species = "white oak"
nominal = "{frame}"
measured = "{frame}"

[stock.ply-{side}]
kind = "plywood"
nominal = "{side}"
measured = "{side}"
sheet = ["2440", "1220"]

[stock.ply-{bottom}]
kind = "plywood"
nominal = "{bottom}"
measured = "{bottom}"
sheet = ["2440", "1220"]

[case]
width = "{width}"
height = "{height}"
depth = "{depth}"
sides = "ply-{side}"
back = "ply-{bottom}"

[frame]
stock = "oak-{frame}"
stile = "{stile}"
rail = "{rail}"
top-rail = "{outer}"
bottom-rail = "{outer}"

[runners]
stock = "oak-{frame}"

[drawers]
front = "oak-{frame}"
sides = "ply-{side}"
bottom = "ply-{bottom}"
front-joint = "half-blind locking rabbet"
back-joint = "dado"
back-height = "on bottom"
{banks}"""

_BANK = """
[[bank]]
drawers = {drawers}
graduation = "equal"
"""

_USUAL = {"frame": 20, "side": 12, "bottom": 6, "stile": 40, "rail": 20, "outer": 50, "width": 600, "height": 800, "depth": 450}

#: What is odd about each: how many drawers its banks have, or how many each row of them (0: an open bay; or as
#: it is written), and which sizes aren't
#: the usual ones.
ODD = {
    "one drawer": ((1,), {"height": 300}),
    "forty drawers": ((40,), {"height": 2400}),
    "two banks": ((3, 5), {"width": 1100}),
    "four banks of ten": ((10, 10, 10, 10), {"width": 1400, "height": 1000}),
    "a case 3 m tall": ((6,), {"height": 3000}),
    "a wall of drawers": ((7, 7, 7, 7, 7, 7), {"width": 4200, "height": 1400}),
    "a cabinet of 100 mm": (
        (1,),
        {"frame": 12, "side": 6, "bottom": 3, "stile": 18, "rail": 18, "outer": 18, "width": 100, "height": 100, "depth": 100},
    ),
    "open bays": (((2, 0, 1), (0,)), {"width": 1100}),
    "rows side by side": (((2, 1, 3, 1), (1, "{ drawers = 1, left-open = [2], loose = 1 }")), {"width": 1100}),
    "a small cabinet": ((2,), {"width": 210, "height": 190, "depth": 160, "stile": 22, "rail": 18}),
}


#: Too small for any tenon, and so refused.
REFUSED = {"a cabinet of 60 mm": ((1,), {"width": 60, "height": 60, "depth": 60})}


def _bank(drawers):
    text = _BANK.format(drawers=drawers)
    return (
        text
        if isinstance(drawers, int)
        else text.replace(f"drawers = {drawers}", f"rows = [{', '.join(str(row or '{ loose = 2 }') for row in drawers)}]")
    )


@cache
def odd(name):
    """The piece called ``name``, planned."""
    return kept(f"odd {name}", lambda: _planned(name))


def _planned(name):
    banks, sizes = (ODD | REFUSED)[name]
    figures = {**_USUAL, **sizes}
    text = _HEAD.format(title=name, banks="".join(map(_bank, banks)), **figures)
    return plan(read_job(text, "odd.toml"))
