"""Shelves under load: both sides of the limit, and the ways out tried (SH-1, SH-2)."""

from fractions import Fraction

import pytest

import joinlay
from joinlay.checks.shelf_sag import ShelfBeam
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
nominal = "3/4"
measured = "3/4"
[stock.thin]
nominal = "1/4"
measured = "1/4"
[stock.shelf]
nominal = "3/4"
measured = "{thick}"
[case]
width = "{width}"
height = "30"
depth = "14"
sides = "ply"
back = "thin"
[frame]
stock = "oak"
[[bank]]
rows = [{{ {row}, stock = "shelf", load = "{load}" }}]
"""


def shelves(row="fixed = 1", width="44", thick="3/4", load="40 lb"):
    """The findings about the shelves of a bay."""
    plan = joinlay.plan(read_job(JOB.format(row=row, width=width, thick=thick, load=load), "job.toml"))
    assert not plan.is_refused
    return {found.kind: found for found in plan.findings if found.kind in ("shelf sag", "loose shelf")}, plan


def told(found, plan, number):
    return plan.rule.text(found.numbers[number]).removesuffix(" in")


def test_a_short_shelf_is_a_note_and_a_long_one_is_warned_of():
    assert shelves(width="20")[0]["shelf sag"].harm is Harm.NOTE
    assert shelves(width="44")[0]["shelf sag"].harm is Harm.WARN


def test_two_hundredths_of_an_inch_a_foot_are_taken_for_straight_and_no_more(monkeypatch):
    """SH-1, common practice: 0.02 in a foot, that itself included."""
    for share, harm in ((1, Harm.NOTE), (1.0001, Harm.WARN), (0.99, Harm.NOTE)):
        # What it sags at first; for years it sags twice as far.
        monkeypatch.setattr(ShelfBeam, "sag", lambda self, _, share=share: share * float(Fraction(2, 100) / 12) * self.span / 2)
        found, plan = shelves(width="25 1/2")
        assert found["shelf sag"].harm is harm
    # 24 in between the sides: 2 ft at 0.02 in are 0.04 in, which is told to the nearest 1/64: 3/64.
    assert plan.rule.text(found["shelf sag"].numbers["seen"]) == "3/64 in"


def test_a_loose_shelf_as_long_as_its_opening_is_wide_goes_straight_in():
    """It is a sixteenth clear of each side, so stiles that cover the case's sides by that leave an opening as wide (SH-2)."""
    for stile, kinds in (("13/16", {"shelf sag"}), ("27/32", {"shelf sag", "loose shelf"})):
        text = JOB.format(row="loose = 1", width="24", thick="3/4", load="1 lb")
        plan = joinlay.plan(read_job(text.replace("[[bank]]", f'stile = "{stile}"\n[[bank]]'), "job.toml"))
        assert {found.kind for found in plan.findings if found.kind in ("shelf sag", "loose shelf")} == kinds


def test_each_way_out_of_the_warning_helps():
    found, plan = shelves()
    sag = found["shelf sag"]
    assert "A span of {span} would do, or a shelf of its kind {thick} thick, or a lipping of {wood} {high} high." in sag.remedy
    span, thick, high = (told(sag, plan, number) for number in ("span", "thick", "high"))
    # The case is wider than the span by its two sides.
    for mended in (
        {"thick": thick},
        {"row": f'fixed = 1, lipping = {{ stock = "{sag.numbers["wood"]}", height = "{high}" }}'},
    ):
        assert shelves(**mended)[0]["shelf sag"].harm is Harm.NOTE
    assert shelves(width=inch_sum(span, "1 1/2"))[0]["shelf sag"].harm is Harm.NOTE


def inch_sum(*texts):
    return str(sum((Fraction(one) for text in texts for one in text.split()), Fraction(0)))


def test_a_load_by_the_area_is_less_on_a_shorter_shelf():
    found, plan = shelves(load="60 lb/ft2")
    span = told(found["shelf sag"], plan, "span")
    assert shelves(load="60 lb/ft2", width=inch_sum(span, "1 1/2"))[0]["shelf sag"].harm is Harm.NOTE


def test_a_loose_shelf_is_told_how_it_goes_in_or_that_it_does_not():
    tilted = shelves(row="loose = 1", width="30")[0]["loose shelf"]
    assert tilted.harm is Harm.NOTE
    assert "tilt it in" in tilted.what
    text = JOB.format(row="loose = 1", width="44", thick="3/4", load="40 lb").replace('height = "30"', 'height = "11"')
    stuck = next(found for found in joinlay.plan(read_job(text, "job.toml")).findings if found.kind == "loose shelf")
    assert (stuck.harm, "does not go in tilted either" in stuck.what) == (Harm.WARN, True)


@pytest.mark.parametrize("times", [2, 3])
def test_depth_and_span_go_with_the_cube_and_the_fourth_power(times):
    beam = ShelfBeam(900, 250, 19, 8500)
    assert ShelfBeam(900, 250, 19 * times, 8500).sag(1) * times**3 == pytest.approx(beam.sag(1))
    assert ShelfBeam(900 * times, 250, 19, 8500).sag(1) == pytest.approx(beam.sag(1) * times**4)
