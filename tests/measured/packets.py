"""Plans to print in the tests: the examples, two jobs that give only openings, and single drawers from the smallest to the
largest; and their templates by themselves, without the rest of the packet.
"""

from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

from joinlay.boards import DrawerRole
from joinlay.casework.corners import HALF_BLIND, HOUSED
from joinlay.casework.drawer import plan_drawer
from joinlay.casework.opening import BackHeight, DrawerMake, Opening
from joinlay.documents.job_file import job_in
from joinlay.documents.packet import packet_for
from joinlay.documents.pdf import sheets_pdf
from joinlay.documents.true_size import plan_templates
from joinlay.documents.wanted_sheets import EVERYTHING
from joinlay.jobs.plan import Plan
from joinlay.jobs.planning import plan
from joinlay.lengths import Unit, read_length, written
from joinlay.pages import lay_out
from joinlay.pages.piece_sheets import piece_sheets
from joinlay.paper import paper_named
from joinlay.shop import usual_shop
from joinlay.stock import Sheet
from tests.measured.kept import kept

TESTS = Path(__file__).resolve().parents[1]
EXAMPLES = TESTS.parent / "examples"

#: Jobs of nothing but openings, which the examples have grown out of.
OPENINGS = TESTS / "openings"


@cache
def example(name):
    """An example job, or one of the jobs that give only openings, planned."""
    path = next(folder / f"{name}.toml" for folder in (EXAMPLES, OPENINGS) if (folder / f"{name}.toml").exists())
    return plan(job_in(path))


def packet(name, paper=None, wanted=EVERYTHING):
    """The packet of an example job with everything in it unless told, on its own paper or another."""
    return _packet(name, paper or example(name).paper, wanted)


@cache
def _packet(name, paper, wanted):
    return kept(f"packet {name} {paper} {wanted}", lambda: packet_for(replace(example(name), paper=paper), wanted=wanted))


@cache
def piece(name, paper):
    """The sheets of the piece of an example job on a paper by its name."""
    return kept(f"piece {name} {paper}", lambda: piece_sheets(example(name), paper_named(paper)))


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
    sheet = paper_named(paper or plan.paper)
    return lay_out(plan_templates(plan), sheet, title=plan.title, file=plan.file, unit=plan.rule.unit, printer=printer)


def templates_pdf(plan, paper=None, printer=None):
    """The same as a PDF."""
    return sheets_pdf(template_sheets(plan, paper, printer), title=plan.title, subject="templates at true size")
