"""Whatever a maker asks for, planning answers: a drawer whose every part is wood, or a refusal that says why; never an error."""

from hypothesis import given, settings
from hypothesis import strategies as st

from joinlay.boards import Axis
from joinlay.errors import Troubles
from joinlay.findings import Harm
from joinlay.jobs.planning import plan
from joinlay.jobs.reading import read_job
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
        front_joint=draw(st.sampled_from(("loose tenon", "half-blind locking rabbet"))),
        back_joint=draw(st.sampled_from(("locking rabbet", "dado"))),
        back_height=draw(st.sampled_from(("full", "on bottom"))),
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


@settings(max_examples=150)
@given(jobs())
def test_any_job_is_planned_or_answered(text):
    made = planned(text)
    if made is None:
        return
    assert made.drawers or made.is_refused
    for board in made.boards:
        assert all(board.size(axis) > ZERO for axis in Axis)
    for finding in made.findings:
        said = finding.sentence(made.rule.text)
        assert said
        assert "{" not in said
        assert finding.rule
        if finding.harm is Harm.REFUSE:
            assert finding.way_out(made.rule.text)
            assert finding.where.startswith("drawer 1")


@settings(max_examples=25)
@given(jobs())
def test_the_same_job_gives_the_same_plan(text):
    assert planned(text) == planned(text)
