"""Bottoms under load."""

from dataclasses import replace
from fractions import Fraction
from math import inf, nextafter

import pytest

from joinlay.casework.opening import BackHeight
from joinlay.checks.conditions import Load
from joinlay.checks.plates import Plate, sag_on_four_edges
from joinlay.checks.sag import bottom_span, check_sag, room_under, sag_of
from joinlay.findings import Harm
from joinlay.lengths import Length, mm
from tests.unit.checks.making import CONDITIONS, SHOP, drawer, sheet, shop_with, solid


def test_the_bottom_spans_the_inside_of_the_drawer():
    made = drawer(width=500, depth=450)
    span = bottom_span(made)
    assert span.across == made.inside_width
    # Opening 450, less the back gap 12, front 18, back 12.
    assert span.deep == mm(450 - 12 - 18 - 12)


def test_the_room_under_it_is_the_groove_offset_less_a_stop():
    assert room_under(drawer()) == mm(10)
    assert room_under(drawer(), mm(6)) == mm(4)
    assert room_under(drawer(shop=shop_with(groove_offset=14))) == mm(14)


def test_sag_is_the_plates_doubled_for_years():
    made = drawer()
    span = bottom_span(made)
    plate = Plate.of(float(span.across.mm), float(span.deep.mm), 6, 6960)
    assert sag_of(made.make.bottom, span, 718) == pytest.approx(2 * sag_on_four_edges(plate, 718e-6))


def harms(made, load=718, stop=0, others=()):
    conditions = replace(CONDITIONS, load=Load(Fraction(load)))
    return [finding.harm for finding in check_sag(made, SHOP, conditions, others, mm(stop))]


def test_the_limit_itself_stays_clear():
    made = drawer(width=900)
    at = Fraction(room_under(made).mm) * 1000 / Fraction(sag_of(made.make.bottom, bottom_span(made), 1000))
    # A billionth less keeps the float that is checked from falling on the wrong side of the limit.
    assert harms(made, at * (1 - Fraction(1, 10**9))) == [Harm.NOTE]
    assert harms(made, at * (1 + Fraction(1, 10**6))) == [Harm.WARN]


def test_sag_that_just_uses_up_the_room_is_no_warning(monkeypatch):
    made = drawer()
    room = float(room_under(made).mm)
    for sag, harm in ((room, Harm.NOTE), (nextafter(room, inf), Harm.WARN)):
        monkeypatch.setattr("joinlay.checks.sag.sag_of", lambda *_, sag=sag, **__: sag)
        assert harms(made) == [harm]


def test_stop_blocks_take_some_of_the_room():
    made = drawer(width=700)
    assert harms(made) == [Harm.NOTE]
    assert harms(made, stop=9) == [Harm.WARN]


def test_no_load_is_no_sag():
    assert harms(drawer(), load=0) == [Harm.NOTE]


def test_the_thinnest_sheet_that_would_do_is_named():
    made = drawer(width=1100, depth=700)
    others = (sheet("thick", 18), sheet("middling", 12), sheet("hardly thicker", "6.5"), solid("oak", 20))
    (finding,) = check_sag(made, SHOP, CONDITIONS, others)
    assert finding.harm is Harm.WARN
    assert finding.numbers["better"] == "middling"
    (finding,) = check_sag(made, SHOP, CONDITIONS, (sheet("hardly thicker", "6.5"),))
    assert "A bottom of its kind" in finding.way_out(str)


def test_how_thick_a_bottom_would_do_is_said_and_does():
    made = drawer(width=1100, depth=700)
    (finding,) = check_sag(made, SHOP, CONDITIONS)
    needed = finding.numbers["needed"]
    assert isinstance(needed, Length)
    span, room = bottom_span(made), float(room_under(made).mm)
    assert sag_of(sheet("thick", needed.mm), span, 718) <= room < sag_of(sheet("thin", needed.mm - Fraction(1, 2)), span, 718)


def test_nothing_as_thin_as_the_sides_would_do():
    made = drawer(width=1100, depth=700)
    heavy = replace(CONDITIONS, load=Load(Fraction(9000)))
    (finding,) = check_sag(made, SHOP, heavy, (sheet("thick", 18),))
    assert finding.way_out(str).startswith("Only a much stiffer bottom would do")


def test_no_room_at_all_asks_for_the_groove_higher_up():
    (finding,) = check_sag(drawer(), SHOP, CONDITIONS, stop=mm(11))
    assert "Put the groove higher up" in finding.way_out(str)


def test_a_thinner_sheet_that_would_do_saves_wood():
    made = drawer(width=300, depth=300)
    others = (sheet("thin", 4), sheet("paper", 2), sheet("bottoms", 6))
    (finding,) = check_sag(made, SHOP, CONDITIONS, others)
    assert (finding.harm, finding.numbers["thinner"]) == (Harm.NOTE, "thin")
    assert "The thinner thin of your stock" in finding.sentence(str)
    (finding,) = check_sag(drawer(width=1000, depth=600), SHOP, CONDITIONS, others, mm(0))
    assert "thinner" not in finding.numbers


def test_known_stiffnesses_count_each_way():
    span = bottom_span(drawer())
    stiff = replace(sheet("birch", 6), modulus_along=Fraction(10))
    weak_across = replace(stiff, modulus_across=Fraction(3))
    assert sag_of(stiff, span, 718) < sag_of(weak_across, span, 718)


def test_a_bottom_under_a_standing_back_is_told_to_be_screwed():
    (finding,) = check_sag(drawer(back_height=BackHeight.ON_BOTTOM), SHOP, CONDITIONS)
    assert "Screw its back edge" in finding.sentence(str)
    loose, held = finding.numbers["loose"], finding.numbers["sag"]
    assert isinstance(loose, Length)
    assert isinstance(held, Length)
    assert loose > held
    (finding,) = check_sag(drawer(), SHOP, CONDITIONS)
    assert "Screw" not in finding.sentence(str)


def test_a_load_is_given_as_a_weight():
    made = drawer()
    (finding,) = check_sag(made, SHOP, replace(CONDITIONS, load=Load(Fraction(1000))))
    span = bottom_span(made)
    assert float(str(finding.numbers["load"]).split()[0]) == pytest.approx(
        float(span.across.mm * span.deep.mm) * 1e-3 / 9.80665, abs=0.5
    )
