"""Moisture of the air, and what it does to a part."""

from fractions import Fraction

import pytest

from joinlay.errors import BadInput
from joinlay.lengths import decimal_text, inches, mm, written
from joinlay.stock import Day, Seasons, Solid, equilibrium_moisture, movement, movement_of, usual_seasons
from joinlay.stock.movement import in_range


def day(celsius, percent):
    return Day(Fraction(celsius), Fraction(percent, 100))


def test_damper_air_makes_damper_wood():
    wet = [equilibrium_moisture(h / 100, 20) for h in range(0, 101, 5)]
    assert wet == sorted(wet)
    assert wet[0] == 0


@pytest.mark.parametrize(("humidity", "celsius"), [(1.01, 20), (-0.1, 20), (0.5, 61), (0.5, -21)])
def test_air_the_equation_does_not_serve_is_refused(humidity, celsius):
    with pytest.raises(BadInput):
        equilibrium_moisture(humidity, celsius)


def test_a_day_keeps_its_moisture_to_two_places():
    assert (day(21, 50).moisture * 100).denominator == 1


def test_seasons_the_wrong_way_round_are_refused():
    with pytest.raises(BadInput, match="wrong way round"):
        Seasons(day(20, 70), day(20, 30), day(20, 45))


def test_the_usual_seasons_lie_around_the_workshop():
    usual = usual_seasons()
    assert usual.driest.moisture < usual.workshop.moisture < usual.dampest.moisture
    assert in_range(usual.driest)
    assert in_range(usual.dampest)


def test_a_desert_is_out_of_range():
    assert not in_range(day(35, 10))
    assert not in_range(day(20, 85))


def test_movement_is_exact_and_keeps_its_working():
    front = written(inches(6), "front height", "test")
    grown = movement(front, Fraction("0.00248"), Fraction(8), Fraction(12))
    assert grown == inches("0.05952")
    assert grown.inputs == (front,)
    assert grown.rule == "CK-6"
    assert grown.expression(lambda length: decimal_text(length.inches, 3)) == "0.00248 x 4 % of front height 6"


def test_drying_gives_back_what_damp_took_of_the_same_width():
    wide = mm(300)
    assert movement(wide, Fraction("0.00274"), Fraction(7), Fraction(11)) == -movement(
        wide, Fraction("0.00274"), Fraction(11), Fraction(7)
    )


def test_a_quarter_sawn_part_moves_less():
    def solid(cut):
        return Solid("fronts", written(mm(19), "thickness", "t"), None, "walnut", cut)

    usual = usual_seasons()
    flat = movement_of(solid("flat"), mm(200), usual.driest, usual.dampest)
    quarter = movement_of(solid("quarter"), mm(200), usual.driest, usual.dampest)
    assert mm(0) < quarter < flat
