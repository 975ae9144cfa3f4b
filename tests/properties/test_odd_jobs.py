"""Whatever a maker asks for, planning answers: a drawer whose every part is wood, or a refusal that says why; never an error."""

import re

from hypothesis import given, settings
from hypothesis import strategies as st

from joinlay.boards import Axis
from joinlay.casework.corners import AT_BACK, AT_FRONT
from joinlay.checks.solids import check_assembly
from joinlay.errors import Troubles
from joinlay.findings import Harm
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from joinlay.lengths import ZERO

#: Sizes in millimetres: most of them such as are made, each list with some far too small or too large.
WIDTHS = st.sampled_from(("230", "300", "450", "800", "1100", "60", "22", "4000"))
HEIGHTS = st.sampled_from(("60", "85", "120", "190", "230", "30", "12", "2", "1500"))
DEPTHS = st.sampled_from(("290", "350", "450", "600", "85", "40", "3000"))
FRONTS = st.sampled_from(("17.6", "18", "19", "22", "25", "12", "45", "3"))
SIDES = st.sampled_from(("11.7", "12", "12.7", "15", "9", "18", "3", "45"))
BOTTOMS = st.sampled_from(("3.9", "5.2", "6", "9", "3", "18", "0.5"))
OFFSETS = st.sampled_from(("0", "0.4", "0.8", "2", "10", "45", "400"))
FIGURES = ("taper", "side-clearance", "groove-offset", "back-gap", "set-back", "side-height", "top-clearance")

JOB = """
title = "Odd job"
units = "mm"

[stock.front]
kind = "{kind}"
{species}
nominal = "{front}"

[stock.side]
kind = "plywood"
nominal = "{side}"

[stock.bottom]
kind = "plywood"
nominal = "{bottom}"

[drawers]
front = "front"
sides = "side"
back = "side"
bottom = "bottom"
front-joint = "{front_joint}"
back-joint = "{back_joint}"
back-height = "{back_height}"
bottom-reach = "{reach}"

[[drawer]]
opening = {{ width = "{width}", height = "{height}", depth = "{depth}" }}
{figures}
"""


@st.composite
def jobs(draw):
    """A job of one drawer, odd or usual."""
    is_solid = draw(st.booleans())
    figures = {name: draw(OFFSETS) for name in sorted(draw(st.sets(st.sampled_from(FIGURES), max_size=2)))}
    return JOB.format(
        kind="solid" if is_solid else "plywood",
        species='species = "black cherry"' if is_solid else "",
        front=draw(FRONTS),
        side=draw(SIDES),
        bottom=draw(BOTTOMS),
        front_joint=draw(st.sampled_from(sorted(AT_FRONT))),
        back_joint=draw(st.sampled_from(sorted(AT_BACK))),
        back_height=draw(st.sampled_from(("full", "on bottom"))),
        reach=draw(st.sampled_from(("back", "back", "back", "ends of the sides"))),
        width=draw(WIDTHS),
        height=draw(HEIGHTS),
        depth=draw(DEPTHS),
        figures="\n".join(f'{name} = "{size}"' for name, size in figures.items()),
    )


def planned(text):
    """The plan of a job, or None where the reader has already answered it in words."""
    try:
        job = read_job(text, "odd.toml")
    except Troubles:
        return None
    return plan(job)


#: A whole piece around its drawers.
PIECE = """
title = "Odd piece"
units = "mm"

[stock.case]
kind = "{case_kind}"
{case_species}
nominal = "{case}"

[stock.frame]
kind = "solid"
species = "white ash"
nominal = "{frame}"

[stock.side]
kind = "plywood"
nominal = "{side}"

[stock.thin]
kind = "plywood"
nominal = "{bottom}"

[case]
width = "{width}"
height = "{height}"
depth = "{depth}"
sides = "case"
back = "thin"

[frame]
stock = "frame"
{figures}

[runners]
stock = "frame"

[stops]
kind = "{stops}"

[drawers]
front = "frame"
sides = "side"
back = "side"
bottom = "thin"
front-joint = "{front_joint}"
{corners}

{banks}
{more}
"""

#: What stands over and under a piece, and how its drawers may else be made (TO-1, BA-1 to BA-3, DJ-1 to DJ-4, HF-1, CL-2).
TOPS = st.sampled_from(
    (
        "",
        '[top]\nstock = "frame"\n',
        '[top]\nstock = "case"\nfront = "{0}"\nends = "{0}"\n',
        '[top]\nstock = "thin"\nback = "{0}"\n',
    )
)
BASES = st.sampled_from(
    (
        "",
        '[base]\nstock = "case"\nheight = "{0}"\n',
        '[base]\nstock = "frame"\nheight = "{0}"\nkind = "feet"\nfoot = "45"\n',
        '[base]\nstock = "frame"\nheight = "90"\nkind = "recess"\ntoe = "{0}"\n',
        '[base]\nstock = "frame"\nheight = "75"\nset-back = "-{0}"\n',
    )
)
CORNERS = st.sampled_from(
    (
        "",
        'back-joint = "dado"\nback-height = "on bottom"',
        'back-joint = "nailed butt"\nback-height = "on bottom"\nbottom-reach = "ends of the sides"',
        'back-joint = "dado"\nback-set-in = "30"',
        'fit = "plane"',
        'bottom-bar = "frame"',
        'front-grain = "upright"',
    )
)
#: What a row of a bank may be: drawers alike, by widths and shares, an open bay, shelves (RO-1, SH-1, SH-2).
ROWS = st.sampled_from(
    (
        "1",
        "1",
        "2",
        "3",
        "9",
        '"open"',
        "{ fixed = 1 }",
        "{ fixed = 5 }",
        "{ loose = 2 }",
        '{ widths = ["fill", "180"] }',
        "{ shares = [1, 2] }",
        '{ widths = ["30", "fill"] }',
        "{ drawers = 2, left-open = [2] }",
        '{ widths = ["fill", "150"], left-open = [2], fixed = 1 }',
        "{ shares = [1, 2, 1], left-open = [1, 2], loose = 1 }",
        '{ fixed = 1, lipping = { stock = "frame", height = "40" } }',
        '{ loose = 1, load = "20 kg" }',
    )
)

FRAME_FIGURES = ("stile", "top-rail", "bottom-rail", "rail", "overhang")
FRAME_SIZES = st.sampled_from(("2", "19", "25", "38", "50", "80", "400"))


@st.composite
def banks(draw):
    """One bank of a piece, divided in one of the ways there are."""
    drawers = draw(st.sampled_from((1, 2, 3, 4, 6, 12)))
    if draw(st.booleans()):
        return f"[[bank]]\nrows = [{', '.join(draw(st.lists(ROWS, min_size=1, max_size=4)))}]"
    kind = draw(st.sampled_from(("equal", "arithmetic", "geometric", "heights")))
    if kind == "heights":
        heights = [draw(HEIGHTS) for _ in range(drawers)]
        heights[draw(st.integers(0, drawers - 1))] = "fill"
        return "[[bank]]\nheights = [" + ", ".join(f'"{height}"' for height in heights) + "]"
    return f'[[bank]]\ndrawers = {drawers}\ngraduation = "{kind}"'


@st.composite
def pieces(draw):
    """A job of a whole piece, odd or usual."""
    is_solid = draw(st.booleans())
    figures = {name: draw(FRAME_SIZES) for name in sorted(draw(st.sets(st.sampled_from(FRAME_FIGURES), max_size=2)))}
    return PIECE.format(
        case_kind="solid" if is_solid else "plywood",
        case_species='species = "black walnut"' if is_solid else "",
        case=draw(FRONTS),
        frame=draw(FRONTS),
        side=draw(SIDES),
        bottom=draw(BOTTOMS),
        width=draw(st.sampled_from(("600", "900", "1200", "300", "80", "3000"))),
        height=draw(st.sampled_from(("700", "900", "1200", "400", "90", "3000"))),
        depth=draw(DEPTHS),
        stops=draw(st.sampled_from(("blocks", "none"))),
        front_joint=draw(st.sampled_from(sorted(AT_FRONT))),
        figures="\n".join(f'{name} = "{size}"' for name, size in figures.items()),
        corners=draw(CORNERS),
        banks="\n".join(draw(st.lists(banks(), min_size=1, max_size=2))),
        more=draw(TOPS).format(draw(OFFSETS)) + draw(BASES).format(draw(OFFSETS)),
    )


def assert_answered(made):
    """Every board is wood, every finding says its words, and a refusal says what would do."""
    assert made.drawers or made.opens or made.is_refused
    for board in made.boards:
        assert all(board.size(axis) > ZERO for axis in Axis)
    for finding in made.findings:
        said = finding.sentence(made.rule.text)
        assert said
        # A name in braces is a number that was not put in; a table of a job may stand in a sentence as it is written.
        assert not re.search(r"\{\w*\}", said)
        assert finding.rule
        if finding.harm is Harm.REFUSE:
            assert finding.way_out(made.rule.text)
            assert finding.where


@settings(max_examples=150)
@given(jobs())
def test_any_job_is_planned_or_answered(text):
    made = planned(text)
    if made is not None:
        assert_answered(made)


@settings(max_examples=60)
@given(pieces())
def test_any_piece_is_planned_or_answered(text):
    made = planned(text)
    if made is not None:
        assert_answered(made)
        assert len({board.name for board in made.boards}) == len(made.boards)


@settings(max_examples=25)
@given(jobs() | pieces())
def test_the_same_job_gives_the_same_plan(text):
    assert planned(text) == planned(text)


@settings(max_examples=20)
@given(pieces())
def test_any_piece_that_is_not_refused_goes_together_with_every_drawer_drawn_out(text):
    made = planned(text)
    if made is not None and not made.is_refused:
        standing = [board for assembly in made.others for board in assembly.boards]
        assert check_assembly(standing, made.drawers) == ()
