"""The chart of a bottom's sag: its figures are those of the check, and it moves with what it is drawn of."""

from __future__ import annotations

import pytest

from joinlay.bench.drawings import drawing_of, views_of
from joinlay.checks.sag import sag_of
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from joinlay.lengths import Fraction, Length
from joinlay.pages.sag_charts import bottoms, sag_block, shelf_block, shelves
from joinlay.pen.marks import Arc, Line, Polyline, Role, Text
from tests.measured.collisions import collisions
from tests.unit.bench.asking import JOB


def planned(text=JOB):
    return plan(read_job(text, "job.toml"))


@pytest.fixture(scope="module")
def made():
    return planned()


def test_bottoms_alike_have_one_chart_and_others_their_own(made):
    assert [len(one.drawers) for one in bottoms(made)] == [2]
    other = planned(JOB.replace("width = 400, height = 160", "width = 500, height = 160"))
    assert [len(one.drawers) for one in bottoms(other)] == [1, 1]


def test_the_curve_goes_through_what_the_check_says_and_rises_with_the_span(made):
    (bottom,) = bottoms(made)
    found = next(one for one in made.findings if one.kind == "bottom sag")
    assert found.numbers["room"].mm == bottom.room.mm
    now = bottom.sag(bottom.span.across)
    assert float(now.mm) == pytest.approx(sag_of(bottom.stock, bottom.span, bottom.pressure), abs=0.001)
    assert float(now.mm) == pytest.approx(float(found.numbers["sag"].mm), abs=float(made.rule.division.mm))
    wider = [bottom.sag(Length(bottom.span.across.mm * Fraction(n, 4))) for n in range(2, 7)]
    assert wider == sorted(wider)


def test_the_chart_shows_the_sag_the_room_and_the_drawer_as_it_is(made):
    (bottom,) = bottoms(made)
    strokes = sag_block(bottom, made.rule, Fraction(300)).strokes
    curves = [one for one in strokes if isinstance(one, Polyline) and one.role is Role.OUTLINE]
    dots = [one for one in strokes if isinstance(one, Arc)]
    assert (len(curves), len(dots)) == (1, 1)
    # The dot is where the curve crosses the line of the drawer's own span.
    upright = next(one for one in strokes if isinstance(one, Line) and one.role is Role.CENTRE)
    assert dots[0].centre[0] == upright.start[0]
    before = max((point for point in curves[0].points if point[0] <= dots[0].centre[0]), key=lambda point: point[0])
    after = min((point for point in curves[0].points if point[0] >= dots[0].centre[0]), key=lambda point: point[0])
    assert before[1] <= dots[0].centre[1] <= after[1]
    said = " ".join(one.plain for one in strokes if isinstance(one, Text))
    assert "thin" in said
    assert "room under it" in said
    assert sag_block(bottoms(planned(JOB.replace('"5.6"', '"4.5"')))[0], made.rule, Fraction(300)).strokes != strokes


SHELVES = """
units = "inch"
[stock.oak]
kind = "solid"
species = "red oak"
nominal = "3/4"
measured = "3/4"
[stock.ply]
nominal = "3/4"
measured = "3/4"
[stock.thin]
nominal = "1/4"
measured = "1/4"
[case]
width = "40"
height = "30"
depth = "14"
sides = "ply"
back = "thin"
[frame]
stock = "oak"
[[bank]]
rows = [{ fixed = 2, load = "40 lb" }, { loose = 1 }]
"""


def test_a_shelf_has_a_chart_with_what_the_eye_takes_for_straight():
    made = planned(SHELVES)
    fixed, loose = shelves(made)
    found = {one.where: one for one in made.findings if one.kind == "shelf sag"}
    told = next(one for where, one in found.items() if where.startswith("case open bay 1"))
    span = fixed.beam.span
    assert fixed.sag(span) == pytest.approx(float(told.numbers["sag"].mm), abs=float(made.rule.division.mm))
    # A weight lies on a longer shelf as well, so it sags with the third power of its span; what is given by the area, the fourth.
    assert fixed.sag(2 * span) == pytest.approx(8 * fixed.sag(span))
    assert loose.sag(2 * loose.beam.span) == pytest.approx(16 * loose.sag(loose.beam.span))
    strokes = shelf_block(fixed, made.rule, Fraction(300)).strokes
    (dot,) = (one for one in strokes if isinstance(one, Arc))
    upright = next(one for one in strokes if isinstance(one, Line) and one.role is Role.CENTRE)
    assert dot.centre[0] == upright.start[0]
    (straight, _) = (one for one in strokes if isinstance(one, Line) and one.role is Role.FOLD)
    assert straight.end[1] > straight.start[1]
    assert collisions(strokes) == []


def test_the_bench_shows_the_shelves_where_no_drawer_is():
    made = planned(SHELVES)
    assert "charts" in dict(views_of(made))
    assert "case open bay 1 shelf 1, sag of the shelf" in drawing_of(made, "charts")
