"""Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, and plate figures worked out from it (check values C1 to C3)."""

import pytest

from joinlay.checks.plates import Plate, sag_on_four_edges, sag_with_a_free_edge

A = 400.0
Q = 1e-3


@pytest.mark.parametrize(
    ("ratio", "alpha"), [(1.0, 0.004062), (1.2, 0.005651), (1.5, 0.007724), (2.0, 0.010129), (3.0, 0.012233)]
)
def test_sag_of_a_simply_supported_plate(ratio, alpha):
    """Table 8 within 0.6 %; the figures here are the series summed to its end, nu = 0.3."""
    plate = Plate.of(ratio * A, A, 6, 10000)
    assert sag_on_four_edges(plate, Q) * plate.along / (Q * A**4) == pytest.approx(alpha, abs=6e-7)


def test_a_long_plate_is_a_row_of_beams():
    """b/a without end: 5/384."""
    plate = Plate.of(40 * A, A, 6, 10000)
    assert sag_on_four_edges(plate, Q, terms=200) * plate.along / (Q * A**4) == pytest.approx(5 / 384, rel=1e-4)


def test_first_four_terms_of_a_square_plate():
    """.0443 q a^4 / (E t^3), from a structures textbook; .04436 summed to its end."""
    plate = Plate.of(A, A, 6, 10000)
    unit = Q * A**4 / (10000 * 6**3)
    assert sag_on_four_edges(plate, Q, terms=2) / unit == pytest.approx(0.0443, abs=5e-5)
    assert sag_on_four_edges(plate, Q) / unit == pytest.approx(0.04436, abs=5e-6)


def test_a_square_metric_plate():
    """a = b = 400 mm, t 6, E 10 000 MPa, 1 kPa: .52576 mm."""
    assert sag_on_four_edges(Plate.of(400, 400, 6, 10000), 1e-3) == pytest.approx(0.52576, abs=5e-6)


@pytest.mark.parametrize(("modulus", "sag"), [(4300, 1.779), (3590, 2.131), (7750, 0.987)])
def test_a_drawer_bottom_500_by_400_with_20_kg(modulus, sag):
    """Hardboard, MDF and plywood 6 mm thick."""
    pressure = 20 * 9.80665 / (500 * 400)
    assert sag_on_four_edges(Plate.of(500, 400, 6, modulus), pressure) == pytest.approx(sag, abs=6e-4)


@pytest.mark.parametrize(("ratio", "alpha"), [(0.5, 0.00710), (2 / 3, 0.00968), (1.0, 0.01286), (1.5, 0.01462), (2.0, 0.01507)])
def test_sag_with_one_edge_free(ratio, alpha):
    """Three edges simply supported, the fourth free: sag at its middle, a along it, nu = 0.3. Table figures from memory."""
    plate = Plate.of(A, ratio * A, 6, 10000)
    assert sag_with_a_free_edge(plate, Q) * plate.along / (Q * A**4) == pytest.approx(alpha, rel=2e-3)


def test_a_bar_down_the_middle_of_a_wide_shallow_bottom_leaves_a_sixteenth():
    """b/a without end: the sag goes with the fourth power of the short way (BO-1, CK-3)."""
    whole, half = (Plate.of(40 * A, short, 6, 10000) for short in (A, A / 2))
    assert sag_on_four_edges(whole, Q, terms=200) == pytest.approx(16 * sag_on_four_edges(half, Q, terms=200), rel=1e-3)
