"""Bottoms and sides of solid wood, from the job file on (GR-2, CK-6)."""

from __future__ import annotations

import pytest

from joinlay.checks.solids import check_assembly
from joinlay.findings import Harm
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from joinlay.lengths import Length, mm

JOB = """
title = "Tool till"
units = "mm"
smallest = "0.5 mm"
[stock.cherry-19]
kind = "solid"
species = "black cherry"
nominal = 19
[stock.maple-12]
kind = "solid"
species = "sugar maple"
nominal = 12
[stock.poplar-8]
kind = "solid"
species = "yellow poplar"
nominal = 8
cut = "{cut}"
[stock.birch-ply-8]
nominal = 8
[drawers]
front = "cherry-19"
sides = "maple-12"
bottom = "{bottom}"
top-clearance = 2
back-height = "{back}"
[[drawer]]
opening = {{ width = 400, height = 110, depth = {depth} }}
"""


def till(bottom="poplar-8", back="full", depth=450, cut="flat"):
    """The one drawer, and what was found of its bottom's movement."""
    made = plan(read_job(JOB.format(bottom=bottom, back=back, depth=depth, cut=cut), "till.toml"))
    assert not made.is_refused
    (drawer,) = made.drawers
    assert check_assembly((), (drawer,)) == ()
    return drawer, [f for f in made.findings if f.kind == "wood movement" and "bottom" in f.where]


def room_behind(drawer):
    """From the bottom's back edge to the floor of the groove in the back."""
    bottom, back = drawer.board("bottom"), drawer.board("back")
    groove = next(cut for cut in back.cuts if cut.mate == bottom.name)
    return Length(back.place.origin[1] + groove.depth.mm - bottom.place.origin[1] - bottom.width.mm)


def test_the_grain_runs_from_side_to_side_and_the_width_from_front_to_back():
    drawer, _ = till()
    bottom = drawer.board("bottom")
    assert bottom.place
    assert bottom.place.along[0] == bottom.place.across[1] == 1


def test_under_a_back_that_stands_on_it_a_bottom_moves_freely_and_is_glued_at_the_front_only():
    _, (found,) = till(back="on bottom")
    assert found.harm is Harm.NOTE
    assert "Glue it at the front only" in found.sentence(str)


def test_a_deep_bottom_in_a_grooved_back_is_warned_of_with_the_way_out():
    drawer, (found,) = till(back="full")
    # No room in a 6 mm groove would let it swell so far and not fall out again.
    assert found.harm is Harm.WARN
    assert "stand on the bottom" in found.way_out(str)
    assert room_behind(drawer) == mm("0.8")


@pytest.mark.parametrize(("cut", "depth"), [("flat", 200), ("quarter", 260)])
def test_a_bottom_that_moves_little_gets_room_to_swell_in_the_groove_of_the_back(cut, depth):
    drawer, found = till(depth=depth, cut=cut)
    assert room_behind(drawer) > mm("0.8")
    assert [f.harm for f in found] == [Harm.NOTE] * len(found)


def test_a_plywood_bottom_needs_none_of_it():
    drawer, found = till(bottom="birch-ply-8", depth=260)
    assert found == []
    assert room_behind(drawer) == mm("0.8")
