"""``[runners]`` for openings that are there: what may be written, and what is said where the measures don't do (RN-1, RN-2)."""

import pytest

from joinlay.errors import Troubles
from joinlay.jobs.reader import read_job
from joinlay.lengths import mm

JOB = """\
units = "mm"
[stock.ash]
kind = "solid"
species = "white ash"
nominal = "20"
measured = "20"
[stock.old]
kind = "solid"
species = "white oak"
nominal = "22"
measured = "22"
[drawers]
front = "ash"
sides = "ash"
back = "ash"
bottom = "ash"
[runners]
stock = "ash"
sides = "old"
inside-width = "600"
inside-depth = "440"
rail = "26"
below = "20"
above = "24"
[[drawer]]
opening = { width = "540", height = "110", depth = "460" }
count = 2
"""

RUNNERS = JOB.splitlines().index("[runners]") + 1


def read(*changes):
    text = JOB
    for old, new in changes:
        assert text.count(old) == 1
        text = text.replace(old, new)
    return read_job(text, "bureau.toml")


def trouble(*changes):
    """The one thing that is wrong, in its place."""
    with pytest.raises(Troubles) as caught:
        read(*changes)
    (said,) = str(caught.value).splitlines()
    assert said.startswith("bureau.toml:")
    return said.removeprefix("bureau.toml:")


def test_what_was_measured_is_kept_with_its_line():
    case = read().existing
    assert (case.inside_width.mm, case.inside_depth.mm, case.rail.mm, case.below.mm, case.above.mm) == (600, 440, 26, 20, 24)
    assert case.inside_depth.origin == f"bureau.toml:{RUNNERS + 4}"
    assert (case.left_edge, case.right_edge) == (None, None)
    assert case.sides.name == "old"
    assert case.stops is not None


def test_openings_without_runners_are_openings_alone():
    text = JOB[: JOB.index("[runners]")] + JOB[JOB.index("[[drawer]]") :]
    assert read_job(text, "bureau.toml").existing is None


def test_stops_may_be_left_out():
    assert read(("[[drawer]]", '[stops]\nkind = "none"\n[[drawer]]')).existing.stops is None


EDGES = ('inside-width = "600"', 'left-edge = "20"\nright-edge = "40"')

BAD = {
    "no depth": ([('inside-depth = "440"\n', "")], "inside-depth = and what it measures from the back of its frame"),
    "no wood": ([('sides = "old"\n', "")], "sides = and the stock that tells what the case is made of"),
    "no width": ([('inside-width = "600"\n', "")], "write inside-width = and what it measures behind the frame"),
    "one edge": ([('inside-width = "600"', 'left-edge = "20"')], "or left-edge and right-edge"),
    "no rail": ([('rail = "26"\n', "")], "the height of the rail between the openings"),
    "no rail, no bottom": (
        [('rail = "26"\nbelow = "20"\n', ""), ("count = 2\n", "")],
        "the height of the rail under the opening, or below = and how far down the case's bottom is",
    ),
    "no frame": ([('inside-depth = "440"', 'inside-depth = "460"')], "so that it is less than 460 mm"),
    "too narrow": ([('inside-width = "600"', 'inside-width = "530"')], "530 mm is as wide as an opening can be there"),
    "past the right": (
        [('inside-width = "600"', 'inside-width = "600"\nleft-edge = "80"')],
        "520 mm is as wide as an opening can be there",
    ),
    "sums": (
        [('inside-width = "600"', 'inside-width = "600"\nleft-edge = "20"\nright-edge = "30"')],
        "come to 590 mm, but inside-width is 600 mm",
    ),
    "two widths": (
        [("count = 2\n", '[[drawer]]\nopening = { width = "500", height = "110", depth = "460" }\n')],
        "the opening of drawer 2 is 500 mm wide, that of drawer 1 540 mm",
    ),
    "two depths": (
        [("count = 2\n", '[[drawer]]\nopening = { width = "540", height = "110", depth = "450" }\n')],
        "the opening of drawer 2 is 450 mm deep, that of drawer 1 460 mm",
    ),
}


@pytest.mark.parametrize("name", BAD)
def test_measures_that_do_not_do_are_said_with_their_line_and_what_would(name):
    changes, way_out = BAD[name]
    said = trouble(*changes)
    assert said.startswith(f"{RUNNERS}: runners: ")
    assert way_out in said


@pytest.mark.parametrize(
    ("changes", "width"),
    [
        # What each says would do, done.
        ([('inside-width = "600"', 'inside-width = "540"')], 540),
        ([EDGES], 600),
        ([('inside-width = "600"', 'inside-width = "620"\nleft-edge = "80"')], 620),
    ],
)
def test_what_is_said_to_do_does(changes, width):
    case = read(*changes).existing
    assert case.inside_width is None or case.inside_width == mm(width)


def test_a_key_that_is_not_known_names_the_nearest():
    assert "the nearest is 'inside-depth'" in trouble(('inside-depth = "440"', 'inside-deep = "440"'))


@pytest.mark.parametrize(
    ("key", "value", "said"), [("inside-width", "0", "more than 0"), ("below", "-1", "at least 0"), ("rail", "wide", "rail")]
)
def test_a_measure_that_is_none_is_said_with_its_own_line(key, value, said):
    line = next(n for n, line in enumerate(JOB.splitlines(), start=1) if line.startswith(f"{key} = "))
    old = JOB.splitlines()[line - 1]
    found = trouble((old, f'{key} = "{value}"'))
    assert found.startswith(f"{line}: runners, {key}: ")
    assert said in found


def test_what_is_measured_of_a_case_that_is_there_stands_in_no_job_of_a_whole_piece():
    whole = JOB[: JOB.index("[[drawer]]")].replace(
        "[runners]",
        '[case]\nwidth = 600\nheight = 400\ndepth = 480\nsides = "ash"\nback = "ash"\n[frame]\nstock = "ash"\n[runners]',
    )
    with pytest.raises(
        Troubles, match=r"sides under \[runners\] is measured of a case that is there, and this job makes its own; leave it out"
    ):
        read_job(whole + "[[bank]]\ndrawers = 2\n", "bureau.toml")
