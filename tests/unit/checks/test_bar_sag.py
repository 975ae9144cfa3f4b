"""The bar of a parted bottom under load, and the bar as what mends a bottom that sags (BO-1, CK-3)."""

from dataclasses import replace
from fractions import Fraction
from functools import partial

import pytest

from joinlay.checks.bar_sag import BarBeam, bar_of, bars_that_fit, check_bar
from joinlay.checks.conditions import Load
from joinlay.checks.plates import CREEP, Plate, sag_on_four_edges
from joinlay.checks.sag import BottomSpan, bottom_span, check_sag, loaded_sag
from joinlay.checks.weights import drawer_load
from joinlay.documents.job_file import JobTexts
from joinlay.documents.mending import helps, mended, planned
from joinlay.findings import Change, Harm
from joinlay.lengths import Length, mm
from joinlay.pages.sag_charts import bottoms, sag_block
from joinlay.pen.marks import Text
from tests.unit.checks.making import CONDITIONS, SHOP, drawer, sheet, shop_with, solid

OAK = solid("oak", 20, "white oak")


def beam_of(made):
    """The bar of a drawer that has one."""
    beam = bar_of(made)
    assert beam is not None
    return beam


BEAM = BarBeam(20, 23, 7, 6, 6, 10_000)


def test_its_stiffness_is_that_of_what_its_grooves_leave():
    """By hand: 20 x 23 less 12 x 6 about the middle of what is left, 11.5 + 1.5 x 72 / 388 up."""
    middle = (20 * 23 * 11.5 - 72 * 10) / 388
    inertia = 20 * 23**3 / 12 + 460 * (11.5 - middle) ** 2 - 12 * 6**3 / 12 - 72 * (10 - middle) ** 2
    assert BEAM.stiffness == pytest.approx(10_000 * inertia)


def bent(length, load, stiffness):
    """How far the middle of a beam on two supports goes under ``load`` (at each place), a slice at a time by the handbook's
    sag under one load, P b (3 L^2 - 4 b^2) / (48 E I), b from the nearer end.
    """
    slices = 20_000
    wide = length / slices
    middles = (wide * (n + 0.5) for n in range(slices))
    near = ((x, min(x, length - x)) for x in middles)
    return sum(load(x) * wide * b * (3 * length**2 - 4 * b**2) / (48 * stiffness) for x, b in near)


@pytest.mark.parametrize(("across", "deep"), [(300, 500), (500, 500), (700, 500)])
def test_it_bears_what_lies_nearer_to_it_than_to_the_other_edges(across, deep):
    """Against loads summed slice by slice (a beam with one load: any handbook, from memory)."""

    def load(x, *, pressure=718e-6):
        return 2 * pressure * min(x, deep - x, across / 2)

    span = BottomSpan(mm(across), mm(deep), 2)
    assert BEAM.sag(span, 718) == pytest.approx(CREEP * bent(deep, load, BEAM.stiffness), rel=1e-6)


def test_both_halves_are_judged_by_hand():
    """CK-3: the half as a plate on four edges, doubled for years, and half of what its bar goes down."""
    made = drawer(width=1000, depth=550, bar=OAK)
    span, bar = bottom_span(made), beam_of(made)
    assert (span.across, span.deep, span.halves) == (mm("477.2"), mm(508), 2)
    plate = Plate.of(477.2, 508, 6, 6960)
    by_hand = 2 * sag_on_four_edges(plate, 718e-6) + bar.sag(span, 718) / 2
    assert loaded_sag(made.make.bottom, span, 718, bar) == pytest.approx(by_hand)
    (found,) = check_sag(made, SHOP, CONDITIONS)
    assert found.harm is Harm.NOTE
    assert "each half sags" in found.sentence(str)
    # What lies in the drawer lies on both.
    assert drawer_load(made, CONDITIONS) == pytest.approx(718 * 2 * 0.4772 * 0.508 / 9.80665, rel=1e-3)


def test_a_bar_that_sags_too_far_is_told_with_what_would_do():
    made = drawer(width=1000, depth=550, bar=solid("oak", 12, "white oak"))
    heavy = partial(check_bar, made, bottom_span(made), 2500.0)
    (found,) = heavy(SHOP, (OAK, solid("thick", 40, "white oak")))
    assert (found.kind, found.harm, found.where) == ("bottom sag", Harm.WARN, "drawer 1 bottom bar")
    rise, thick = found.remedies
    assert thick.changes == (Change("drawers", "bottom-bar", found.numbers["stock"]),)
    rise_to = rise.changes[0].value
    assert isinstance(rise_to, Length)
    higher = drawer(width=1000, depth=550, bar=made.make.bar, shop=shop_with(bottom_bar_rise=rise_to.mm))
    thicker = drawer(width=1000, depth=550, bar=OAK if found.numbers["stock"] == "oak" else solid("thick", 40, "white oak"))
    for mended_by in (higher, thicker):
        assert check_bar(mended_by, bottom_span(mended_by), 2500.0, SHOP, ()) == ()
    # The sag itself is the limit.
    at = 2500 * 3 / beam_of(made).sag(bottom_span(made), 2500)
    assert check_bar(made, bottom_span(made), at * (1 - 1e-9), SHOP, ()) == ()
    assert check_bar(made, bottom_span(made), at * (1 + 1e-6), SHOP, ())


def test_solid_stock_comes_before_sheet_and_thin_before_thick():
    made = drawer(width=1000, depth=550)
    stocks = (sheet("ply", 12), solid("wide", 30), OAK, sheet("leaf", 4), solid("beam", 300))
    assert [stock.name for stock, _, _ in bars_that_fit(made, stocks, SHOP)] == ["oak", "wide", "ply"]
    assert list(bars_that_fit(drawer(width=1000, depth=550, bar=OAK), stocks, SHOP)) == []


def test_a_bar_is_no_remedy_where_it_would_not_do():
    made = drawer(width=1000, depth=550)
    for load, offered in ((1200, "oak"), (9000, None)):
        (found,) = check_sag(made, SHOP, replace(CONDITIONS, load=Load(Fraction(load))), (OAK,))
        assert (found.harm, found.numbers.get("muntin")) == (Harm.WARN, offered)


WIDE = """units = "mm"
[stock.oak]
kind = "solid"
species = "white oak"
nominal = 20
measured = 20
[stock.birch]
nominal = 12
measured = 12
[stock.thin]
nominal = 6
measured = 6
plies = 5
[drawers]
front = "birch"
sides = "birch"
bottom = "thin"
[[drawer]]
opening = { width = 1000, height = 150, depth = 550 }
"""


def test_the_bar_is_offered_in_a_job_and_helps():
    texts = JobTexts(WIDE, "wide.toml")
    before = planned(texts)
    (found,) = (one for one in before.findings if one.kind == "bottom sag")
    assert found.harm is Harm.WARN
    (bar,) = (one for one in found.remedies if one.changes[0].key == "bottom-bar")
    assert bar.changes == (Change("drawers", "bottom-bar", "oak"),)
    after = planned(replace(texts, text=mended(WIDE, bar.changes)))
    assert helps(found, before.findings, after.findings)
    assert after.drawers[0].bar is not None


def test_the_chart_of_a_half_has_the_figures_of_the_check():
    made = planned(JobTexts(WIDE.replace("[drawers]", '[drawers]\nbottom-bar = "oak"'), "wide.toml"))
    (bottom,) = bottoms(made)
    (found,) = (one for one in made.findings if one.kind == "bottom sag")
    told = found.numbers["sag"]
    assert isinstance(told, Length)
    assert bottom.bar is not None
    now = float(bottom.sag(bottom.span.across).mm)
    assert now == pytest.approx(float(told.mm), abs=0.5)
    assert now > bottom.bar.sag(bottom.span, bottom.pressure) / 2
    said = " ".join(one.plain for one in sag_block(bottom, made.rule, Fraction(300)).strokes if isinstance(one, Text))
    assert "sag of each half of the bottom" in said
    assert "span from side to bar" in said
