"""Plates against other ways of working them out."""

import numpy as np
import pytest
from scipy.sparse import diags, identity, kron
from scipy.sparse.linalg import spsolve

from joinlay.checks.plates import Plate, sag_on_four_edges, sag_with_a_free_edge
from joinlay.errors import BadInput


def second_derivative(steps, size):
    h = size / steps
    inner = steps - 1
    return diags([1.0, -2.0, 1.0], [-1, 0, 1], shape=(inner, inner)) / h**2


def differences(plate, pressure, steps=64):
    """Finite differences: on simple supports the second differences square to the fourth."""
    x, y = second_derivative(steps, plate.length), second_derivative(steps, plate.width)
    one = identity(steps - 1)
    xx, yy = kron(x, one), kron(one, y)
    equations = plate.along * xx @ xx + 2 * plate.twist * xx @ yy + plate.across * yy @ yy
    sag = spsolve(equations.tocsc(), np.full((steps - 1) ** 2, pressure))
    return sag.reshape(steps - 1, steps - 1)[steps // 2 - 1, steps // 2 - 1]


def ritz(plate, pressure, nu=0.3, waves=9, powers=9):
    """Ritz: the bending energy with sines across the supports and powers of y, none forced at the free edge y = width."""
    a, b = plate.length, plate.width
    y, weights = np.polynomial.legendre.leggauss(40)
    y, weights = (y + 1) / 2, weights / 2
    shapes = np.array([y**p for p in range(1, powers + 1)])
    bends = np.array([p * (p - 1) * y ** (p - 2) if p > 1 else 0 * y for p in range(1, powers + 1)]) / b**2
    slopes = np.array([p * y ** (p - 1) for p in range(1, powers + 1)]) / b
    coupled = nu * np.sqrt(plate.along * plate.across)
    twist = (plate.twist - coupled) / 2
    sag = 0.0
    for m in range(1, 2 * waves, 2):
        k = m * np.pi / a

        def over(one, other):
            return (one * weights) @ other.T * b

        cross = coupled * k**2 * (over(shapes, bends) + over(bends, shapes))
        energy = plate.along * k**4 * over(shapes, shapes) - cross + plate.across * over(bends, bends)
        energy = energy + 4 * twist * k**2 * over(slopes, slopes)
        push = pressure * (shapes @ weights) * b * 4 / (m * np.pi)
        sag += np.linalg.solve(energy, push).sum() * np.sin(m * np.pi / 2)
    return sag


@pytest.mark.parametrize(("length", "width", "across"), [(400, 400, 8000), (700, 400, 8000), (400, 500, 3000), (600, 350, 900)])
def test_four_edges_agree_with_finite_differences(length, width, across):
    plate = Plate.of(length, width, 6, 8000, across)
    assert sag_on_four_edges(plate, 7e-4) == pytest.approx(differences(plate, 7e-4), rel=2e-3)


@pytest.mark.parametrize(("length", "width", "across"), [(400, 400, 8000), (700, 400, 8000), (400, 500, 3000), (600, 350, 900)])
def test_a_free_edge_agrees_with_ritz(length, width, across):
    plate = Plate.of(length, width, 6, 8000, across)
    assert sag_with_a_free_edge(plate, 7e-4) == pytest.approx(ritz(plate, 7e-4), rel=2e-3)


def test_turning_the_panel_changes_nothing():
    one = sag_on_four_edges(Plate.of(600, 350, 6, 8000, 2000), 1e-3)
    other = sag_on_four_edges(Plate.of(350, 600, 6, 2000, 8000), 1e-3)
    assert one == pytest.approx(other, rel=1e-12)


def test_a_long_panel_with_a_free_edge_sags_as_a_long_panel_does():
    long = Plate.of(300, 30000, 6, 8000)
    strip = 5 / 384 * 1e-3 * 300**4 / long.along
    # The free edge bends a little more than the middle, by Poisson's share.
    assert strip < sag_with_a_free_edge(long, 1e-3) < 1.2 * strip
    assert sag_on_four_edges(long, 1e-3, terms=400) == pytest.approx(strip, rel=1e-3)


def test_a_free_edge_sags_more_than_a_held_one():
    plate = Plate.of(500, 400, 6, 7000)
    assert sag_with_a_free_edge(plate, 1e-3) > 2 * sag_on_four_edges(plate, 1e-3)


@pytest.mark.parametrize("sizes", [(0, 400, 6, 7000), (500, -1, 6, 7000), (500, 400, 0, 7000), (500, 400, 6, 0)])
def test_a_panel_of_nothing_is_refused(sizes):
    with pytest.raises(BadInput):
        Plate.of(*sizes)
