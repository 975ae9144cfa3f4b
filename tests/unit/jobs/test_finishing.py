"""The knobs on the fronts and the bands on the edges of a planned job."""

from __future__ import annotations

from joinlay.boards import CutKind
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from joinlay.lengths import inches
from tests.unit.jobs.jobs import GOOD
from tests.unit.jobs.test_whole_piece import JOB, RUNNERS

PULLS = """
[pulls]
stock = "cherry"
diameter = "3/4"
projection = "1"
hole = "3/8"
growth = "step"
"""
BANDING = """
[[banding]]
part = "drawer front"
stock = "cherry edging"
thickness = "1/16"
edges = ["top edge"]
"""


def whole(more):
    return plan(read_job(JOB.format(runners=RUNNERS, more="") + more, "chest.toml"))


def test_every_front_gets_its_hole_in_the_middle_and_every_drawer_its_blank():
    chest = whole(PULLS)
    assert not chest.is_refused
    for drawer in chest.drawers:
        front = drawer.board("front")
        holes = [cut for cut in front.cuts if cut.kind is CutKind.HOLE]
        # A14, Foster: one knob where the diagonals cross.
        assert [(hole.along.centre, hole.across.centre) for hole in holes] == [(front.length / 2, front.width / 2)]
    blanks = next(assembly for assembly in chest.others if assembly.name == "pulls").boards
    assert len(blanks) == len(chest.drawers)


def test_without_pulls_no_front_is_drilled():
    fronts = [drawer.board("front") for drawer in whole("").drawers]
    assert not [cut for front in fronts for cut in front.cuts if cut.kind is CutKind.HOLE]


def test_a_drawer_given_by_its_opening_is_drilled_too():
    job = plan(read_job(GOOD + PULLS, "chest.toml"))
    assert all(any(cut.kind is CutKind.HOLE for cut in drawer.board("front").cuts) for drawer in job.drawers)


def test_a_knob_that_meets_a_cut_is_refused_and_the_front_left_whole():
    chest = whole(PULLS.replace('hole = "3/8"', 'hole = "1/2"\ndepth = "2"'))
    assert chest.is_refused
    assert not [cut for drawer in chest.drawers for cut in drawer.board("front").cuts if cut.kind is CutKind.HOLE]


def test_every_front_is_banded_on_the_edge_named():
    chest = whole(BANDING)
    assert [len(drawer.board("front").bands) for drawer in chest.drawers] == [1] * 4
    assert {band.thickness.mm for drawer in chest.drawers for band in drawer.board("front").bands} == {inches("1/16").mm}


def test_a_part_that_is_not_in_the_piece_is_refused_with_the_nearest():
    chest = whole(BANDING.replace("drawer front", "drawer frnt"))
    refused = [finding for finding in chest.findings if finding.kind == "banding"]
    assert chest.is_refused
    assert "drawer front" in str(refused[0].numbers["why"])


def test_the_plan_keeps_what_was_asked_of_the_knobs_and_each_knob_where_its_hole_is():
    chest = whole(PULLS + "dot = { diameter = '1/8', step = '1/16' }\n")
    assert chest.pulls is not None
    assert chest.pulls.stock == "cherry"
    assert [knob.front for knob in chest.knobs] == [drawer.board("front").name for drawer in chest.drawers]
    for knob, drawer in zip(chest.knobs, chest.drawers, strict=True):
        hole = drawer.board("front").cut_named("pull hole 1")
        assert (knob.from_left, knob.from_bottom) == (hole.along.centre, hole.across.centre)
        assert knob.from_top + knob.from_bottom == drawer.board("front").width
    assert [knob.dot.mm for knob in chest.knobs if knob.dot] == [inches(size).mm for size in ("1/8", "3/16", "1/4", "5/16")]


def test_knobs_that_are_refused_are_not_in_the_plan():
    assert whole(PULLS.replace('hole = "3/8"', 'hole = "1/2"\ndepth = "2"')).knobs == ()
    assert whole("").pulls is None
