"""Plans to print in the tests: the examples, two jobs that give only openings, and single drawers from the smallest to the
largest; and their templates by themselves, without the rest of the packet.
"""

from contextlib import ExitStack
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any
from unittest import mock

from joinlay.boards import DrawerRole
from joinlay.casework.corners import HALF_BLIND, HOUSED
from joinlay.casework.drawer import plan_drawer
from joinlay.casework.opening import BackHeight, DrawerMake, Opening
from joinlay.documents import packet as packet_binding
from joinlay.documents import true_size
from joinlay.documents.job_file import job_in
from joinlay.documents.pdf import sheets_pdf
from joinlay.documents.wanted_sheets import EVERYTHING, LEAN
from joinlay.jobs.plan import Plan
from joinlay.jobs.planning import plan
from joinlay.lengths import Unit, read_length, written
from joinlay.pages import Printer, lay_out
from joinlay.pages.assembly_sheets import assembly_sheets
from joinlay.pages.piece_sheets import piece_sheets
from joinlay.paper import paper_named
from joinlay.settings import cards_of
from joinlay.shop import usual_shop
from joinlay.stock import Sheet
from tests.measured.kept import kept, once

TESTS = Path(__file__).resolve().parents[1]
EXAMPLES = TESTS.parent / "examples"

#: Jobs of nothing but openings, which the examples have grown out of.
OPENINGS = TESTS / "openings"


@cache
def example(name):
    """An example job, or one of the jobs that give only openings, planned."""
    return kept(f"example {name}", lambda: _planned(name))


def _planned(name):
    path = next(folder / f"{name}.toml" for folder in (EXAMPLES, OPENINGS) if (folder / f"{name}.toml").exists())
    made = plan(job_in(path))
    # The best order of its cards takes a search.
    assert made.settings
    return made


def packet(name, paper=None, wanted=EVERYTHING):
    """The packet of an example job with everything in it unless told, on its own paper or another."""
    return _packet(name, paper or example(name).paper, wanted)


@cache
def _packet(name, paper, wanted):
    return packet_of(_on(paper, name), wanted=wanted)


def _on(paper, name):
    """An example job on a paper by its name."""
    plan = example(name)
    return plan if paper == plan.paper else replace(plan, paper=paper)


def packet_of(plan, printer=None, wanted=LEAN, *, ahead=None):
    """What ``packet_for`` gives, drawn once in a run of the tests for a plan, a printer and what is wanted.

    What was begun ``ahead`` would be the same, and isn't asked for. Sheets that packets of one plan have in common are drawn
    once too.
    """
    return _bound(plan, printer or Printer(), wanted)


@once
def _bound(plan, printer, wanted):
    with ExitStack() as swaps:
        for name, drawn in _IN_COMMON.items():
            swaps.enter_context(mock.patch(name, drawn))
        return _packet_for(plan, printer, wanted)


_packet_for = packet_binding.packet_for

#: What these give, worked out and drawn once in a run.
cards, sheets_of_piece = once(cards_of), once(piece_sheets)
lean_ends, plan_templates, steps_of_work = map(once, (true_size.lean_ends, true_size.plan_templates, true_size.steps_of_work))

#: What packets of one plan have in common.
_IN_COMMON = {
    "joinlay.settings.cards_of": cards,
    "joinlay.documents.packet.packet_for": packet_of,
    "joinlay.pages.piece_sheets.piece_sheets": sheets_of_piece,
    "joinlay.documents.packet.assembly_sheets": once(assembly_sheets),
}


@cache
def piece(name, paper):
    """The sheets of the piece of an example job on a paper by its name."""
    return sheets_of_piece(_on(paper, name), paper_named(paper), printer=Printer())


def examples():
    """The names of the example jobs, then of those that give only openings."""
    jobs = [*sorted(EXAMPLES.glob("*.toml")), *openings()]
    return [path.stem for path in jobs if not path.stem.endswith(".shop")]


def pieces():
    """The names of the example jobs that give a whole piece: said by where they lie, so that nothing is planned to find them."""
    return [name for name in examples() if not (OPENINGS / f"{name}.toml").exists()]


def openings():
    """The jobs that give only openings, where they lie."""
    return sorted(OPENINGS.glob("*.toml"))


#: Ways to join a drawer, by a short name.
MAKES: dict[str, dict[str, Any]] = {
    "loose tenons": {},
    "half-blind and dado": {"front_joint": HALF_BLIND, "back_joint": HOUSED},
    "back on the bottom": {"back_height": BackHeight.ON_BOTTOM},
}


@cache
def drawers(*heights, make="loose tenons", unit=Unit.INCH, paper="letter", width=None):
    """A plan of drawers in openings of these heights, with ply of the unit's own usual thicknesses."""
    shop = usual_shop(unit)
    front, side, bottom, wide, deep = (
        ("3/4", "1/2", "1/4", "18 3/8", "20") if unit is Unit.INCH else ("18.2", "11.8", "6.1", "420", "500")
    )

    def size(text, name):
        return written(read_length(text, unit), name, "a test")

    def ply(text, name):
        return Sheet(name, size(text, name), size(text, name), size("2440 mm", "length"), size("1220 mm", "width"))

    made = DrawerMake(
        ply(front, "front ply"), ply(side, "side ply"), ply(side, "side ply"), ply(bottom, "bottom ply"), **MAKES[make]
    )
    planned = tuple(
        plan_drawer(
            DrawerRole(n),
            Opening(size(width or wide, "opening width"), size(high, "opening height"), size(deep, "opening depth")),
            made,
            shop,
        )
        for n, high in enumerate(heights, start=1)
    )
    return Plan("Chest for drawn maps", "map-chest.toml", unit, shop.rule, shop, {}, planned, (), (), paper)


def template_sheets(plan, paper=None, printer=None):
    """The templates of ``plan`` on sheets of ``paper``, the plan's own unless another is named."""
    return _laid(plan, paper_named(paper or plan.paper), printer)


@once
def _laid(plan, sheet, printer):
    return lay_out(plan_templates(plan), sheet, title=plan.title, file=plan.file, unit=plan.rule.unit, printer=printer)


def templates_pdf(plan, paper=None, printer=None):
    """The same as a PDF."""
    return sheets_pdf(template_sheets(plan, paper, printer), title=plan.title, subject="templates at true size")
