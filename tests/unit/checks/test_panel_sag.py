"""Panels under double bearers: both sides of the limit, what holds one up, and the ways out tried (CK-3, RO-1)."""

from functools import cache

import joinlay
from joinlay.findings import Harm
from joinlay.jobs.reader import read_job

JOB = """
units = "inch"
smallest = "1/32 in"
[stock.oak]
kind = "solid"
species = "red oak"
nominal = "3/4"
measured = "3/4"
[stock.ply]
nominal = "1/2"
measured = "0.472"
[stock.thick]
nominal = "1"
measured = "{thick}"
[stock.thin]
nominal = "1/4"
measured = "0.205"
[case]
width = "{width}"
height = "24"
depth = "18"
sides = "thick"
panels = "{panels}"
back = "thin"
[frame]
stock = "oak"
rail = "1 1/4"
[runners]
stock = "oak"
[drawers]
front = "oak"
sides = "ply"
bottom = "thin"
load = "{load}"
[[bank]]
rows = [{rows}]
"""
DOUBLE = '{ drawers = 3, between = "double bearer" }'


@cache
def planned(rows=f"{DOUBLE}, 1", width="40", load="40 lb", panels="ply", thick="0.95"):
    plan = joinlay.plan(read_job(JOB.format(rows=rows, width=width, load=load, panels=panels, thick=thick), "job.toml"))
    assert not plan.is_refused
    return plan


def sags(plan):
    return [found for found in plan.findings if found.kind == "panel sag"]


def test_a_short_light_row_is_a_note_and_a_long_laden_one_is_warned_of():
    (note,) = sags(planned(width="24", load="5 lb"))
    (warned,) = sags(planned())
    assert (note.harm, warned.harm) == (Harm.NOTE, Harm.WARN)
    assert warned.where == "case dust panel under drawers 1 to 3"
    said = warned.sentence(planned().rule.text)
    assert said.startswith("Its double bearers carry")
    assert "with nothing under them: in years it sags about" in said


def test_each_way_out_of_the_warning_helps():
    (warned,) = sags(planned())
    assert 'between = "partition"' in warned.remedy
    assert sags(planned(rows="3, 1")) == []
    thick = planned().rule.text(warned.numbers["thick"]).removesuffix(" in")
    (mended,) = sags(planned(panels="thick", thick=thick))
    assert mended.harm is Harm.NOTE
    # A stock of the job's that is thick enough is offered by its name.
    (offered,) = sags(planned(thick=thick))
    (way,) = offered.remedies
    (change,) = way.changes
    assert (change.table, change.key, offered.numbers["better"]) == ("case", "panels", "thick")
    assert [one for one in sags(planned(thick="0.6")) if one.remedies] == []


def test_a_partition_under_the_panel_holds_it_up():
    alone, held = planned(), planned(rows=f"{DOUBLE}, 2")
    (far,), (near, *_) = sags(alone), sags(held)
    assert near.where == far.where
    assert near.numbers["span"] < far.numbers["span"]
    assert near.numbers["sag"] < far.numbers["sag"]


def test_the_case_bottom_is_judged_as_well_and_a_row_with_partitions_is_not():
    (bottom,) = sags(planned(rows=f"1, {DOUBLE}"))
    assert bottom.where == "case bottom"
    assert sags(planned(rows="1, 3")) == []
