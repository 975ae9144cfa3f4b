"""Shelves as beams: the Wood Handbook's formula, S. J. Record's beams, and what Foster says of books (E3, E8, F15, F16, F17)."""

import pytest

from joinlay.checks.panel_sag import LoadedBeam
from joinlay.checks.plates import CREEP
from joinlay.checks.shelf_sag import ShelfBeam
from joinlay.lengths import Unit, mm
from joinlay.shop import usual_shop

INCH, POUND = 25.4, 4.448222


def test_a_pine_shelf_of_900_sags_two_and_a_third_at_once_and_twice_that_in_years():
    # E3: E 8.5 GPa, 900 x 250 x 19 mm, 30 kg even: .3269 N/mm, 2.30 mm, 4.60 in years (Wood Handbook eq. 9-1, from memory;
    # calculated).
    sag = ShelfBeam(900, 250, 19, 8500).sag(30 * 9.80665 / 900)
    assert sag == pytest.approx(2.30, abs=0.005)
    assert CREEP * sag == pytest.approx(4.60, abs=0.01)


def test_a_load_spread_evenly_bends_five_eighths_as_far_as_in_the_middle():
    # F16 (Record): in the middle P l^3 / (4 E b h^3); even .625 of that.
    beam = ShelfBeam(1000, 300, 20, 10_000)
    middle = 100 * 1000**3 / (4 * 10_000 * 300 * 20**3)
    assert beam.sag(100 / 1000) == pytest.approx(0.625 * middle)


def test_three_times_the_depth_bends_a_twenty_seventh_and_three_times_the_span_twenty_seven_times():
    # F16 (Record): for one load, which a beam three times as long has on three times the length.
    beam, load = ShelfBeam(1000, 300, 20, 10_000), 100
    assert ShelfBeam(1000, 300, 60, 10_000).sag(load / 1000) * 27 == pytest.approx(beam.sag(load / 1000))
    assert ShelfBeam(3000, 300, 20, 10_000).sag(load / 3000) == pytest.approx(27 * beam.sag(load / 1000))


def test_a_beam_tested_in_the_middle_gives_its_modulus():
    # F17 (Record, fig. 32): 2.01 x 2.01 in, span 28, 1 600 lb in the middle, .307 in: 1.752 million psi. An even load of 1.6
    # times as much bends it as far.
    modulus = 1.752e6 * POUND / INCH**2
    beam = ShelfBeam(28 * INCH, 2.01 * INCH, 2.01 * INCH, modulus)
    assert beam.sag(1600 * POUND * 1.6 / (28 * INCH)) / INCH == pytest.approx(0.307, abs=0.001)


def test_a_long_load_counts_as_half_the_stiffness():
    # F16 (Record).
    assert CREEP == 2


def test_a_shelf_for_books_is_straight_to_the_eye_to_about_a_yard():
    # F15 (Foster, fig. 192): no longer than 36 in before it gets a support. Of 7/8 in oak, 10 in deep, books 20 lb a foot, at
    # once.
    def sag(span):
        return ShelfBeam(span * INCH, 10 * INCH, 7 / 8 * INCH, 12_500).sag(20 * POUND / (12 * INCH)) / INCH

    assert sag(36) < 0.02 * 36 / 12 < 0.02 * 48 / 12 < sag(48)


def test_pins_are_32_apart_in_holes_of_5_the_line_37_from_the_front():
    # E8, common practice.
    practice = usual_shop(Unit.MM).practice
    assert [practice.length(name) for name in ("pin spacing", "pin hole", "pin line")] == [mm(32), mm(5), mm(37)]


def test_a_load_in_the_middle_and_two_at_the_thirds_sag_a_beam_by_the_tables():
    # F16 (Record): in the middle P l^3 / (48 E I); at both thirds 23 P l^3 / (648 E I) (Wood Handbook ch. 9, from memory).
    span, stiffness, load = 1000.0, 4e9, 200.0
    assert LoadedBeam(span, stiffness, ((500.0, load),)).sag() == pytest.approx(load * span**3 / (48 * stiffness))
    thirds = tuple((span * n / 3, load) for n in (1, 2))
    assert LoadedBeam(span, stiffness, thirds).sag() == pytest.approx(23 * load * span**3 / (648 * stiffness))
