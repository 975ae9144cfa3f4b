"""Odd pieces to make sticks for: a tower of forty drawers, one tiny drawer, three banks alike, and openings alone."""

from functools import cache

from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job

_STOCK = """
title = "Odd piece"
units = "mm"
smallest = "0.5 mm"
[stock.ash-18]
kind = "solid"
species = "white ash"
nominal = "18"
measured = "18"
[stock.ply-18]
nominal = "18"
measured = "17.7"
sheet = ["2440", "1220"]
[stock.ply-9]
nominal = "9"
measured = "8.8"
sheet = ["2440", "1220"]
[stock.ply-12]
nominal = "12"
measured = "11.8"
sheet = ["2440", "1220"]
[stock.ply-4]
nominal = "4"
measured = "3.9"
sheet = ["2440", "1220"]
[pulls]
stock = "ash-18"
diameter = "12"
projection = "14"
hole = "5"
[drawers]
front = "ash-18"
sides = "{sides}"
bottom = "ply-4"
front-joint = "{joint}"
back-joint = "locking rabbet"
"""
_CASE = """
[case]
width = "{width}"
height = "{height}"
depth = "{depth}"
sides = "ply-18"
back = "ply-4"
[frame]
stock = "ash-18"
stile = "36"
rail = "18"
[runners]
stock = "ply-9"
"""
HALF_BLIND, LOOSE = "half-blind locking rabbet", "loose tenon"


@cache
def made(more, joint=HALF_BLIND):
    """The plan of a job with ``more`` tables."""
    sides = "ply-9" if joint == HALF_BLIND else "ply-12"
    return plan(read_job(_STOCK.format(joint=joint, sides=sides) + more, "odd.toml"))


def piece(width, height, *banks, depth=320, joint=HALF_BLIND):
    """A whole piece, its ``banks`` as numbers of drawers, or as the rows that are written."""
    case = _CASE.format(width=width, height=height, depth=depth)
    keys = (f"drawers = {bank}" if isinstance(bank, int) else f"rows = {bank}" for bank in banks)
    return made(case + "".join(f"[[bank]]\n{key}\n" for key in keys), joint)


def left_open():
    """A bank with two drawers between two places left open, each with a shelf, over a long one, over two pigeonholes."""
    rows = '[{ shares = [1, 1, 2, 1], left-open = [1, 4], fixed = 1 }, 1, { widths = ["200", "fill"], left-open = [1, 2] }]'
    return piece(900, 600, rows, joint=LOOSE)


def tower():
    """Forty drawers in a case 2.4 m high."""
    return piece(420, 2400, 40)


def tiny():
    """One drawer hardly larger than a hand."""
    return piece(180, 140, 1, depth=140)


def openings(joint=LOOSE):
    """Drawers of which only the openings are known, two of them alike."""
    opening = '[[drawer]]\nopening = {{ width = "{0}", height = "{1}", depth = "300" }}\ncount = {2}\n'
    return made(opening.format(380, 90, 2) + opening.format(380, 140, 1), joint)
