"""Wood Handbook, USDA Forest Products Laboratory, FPL-GTR-190, 2010 (check values B1 to B9)."""

from fractions import Fraction

import pytest

from joinlay.checks.plates import CREEP, Plate, sag_on_four_edges
from joinlay.checks.sag import bottom_span, sag_of
from joinlay.lengths import inches, mm
from joinlay.stock import SHEET_MODULUS, SPECIES, equilibrium_moisture, movement, species_named
from tests.unit.checks.making import drawer


def test_the_white_fir_example_swells_to_233_7_mm():
    """Chapter 13: 232 mm flat-grained, 8 to 11 %. The end size was read, the inputs are from memory."""
    grown = movement(mm(232), species_named("white fir").coefficient("flat").value, Fraction(8), Fraction(11))
    assert grown == mm("1.7052")
    assert round(float((mm(232) + grown).mm), 1) == 233.7
    assert round(float((mm(232) + grown).inches), 2) == 9.2


def test_black_cherry_12_in_from_8_to_12_per_cent():
    """Equation 13-2 with table 13-5, worked out by hand."""
    assert movement(inches(12), species_named("black cherry").coefficient("flat").value, Fraction(8), Fraction(12)) == inches(
        "0.11904"
    )


#: The two tables part company for mixed species and for sycamore.
AGREE = sorted(set(SPECIES) - {"red oak", "white oak", "sycamore"})


def change_coefficient(shrinkage):
    """Of a wood that shrinks so many per cent from green to ovendry; fibre saturation at 30 %, 10 % as the middle of the range."""
    return (shrinkage / 3000) / (1 - shrinkage / 150)


@pytest.mark.parametrize("name", AGREE)
def test_shrinkage_and_change_coefficient_agree(name):
    """Tables 4-3 and 13-5: C = (S/3000)/(1 - S/150), to five places."""
    wood = species_named(name)
    assert abs(change_coefficient(wood.radial_shrinkage.value) - wood.radial.value) <= Fraction(1, 10**5)
    assert abs(change_coefficient(wood.tangential_shrinkage.value) - wood.tangential.value) <= Fraction(1, 10**5)


@pytest.mark.parametrize(
    ("fahrenheit", "percent", "moisture"),
    [
        (70, 20, 4.5), (70, 30, 6.2), (70, 40, 7.7), (70, 50, 9.2), (70, 60, 11.0), (70, 65, 12.0), (70, 70, 13.1),
        (70, 80, 16.0), (70, 90, 20.5), (50, 30, 6.3), (50, 50, 9.5), (50, 80, 16.4), (90, 30, 5.9), (90, 50, 8.9), (90, 80, 15.4),
    ],
)  # fmt: skip
def test_equilibrium_moisture(fahrenheit, percent, moisture):
    """Equation 4-5 against table 4-2."""
    assert equilibrium_moisture(percent / 100, (fahrenheit - 32) / 1.8) == pytest.approx(moisture, abs=0.06)


def test_stiffness_of_sheet_goods():
    """Table 12-1, GPa."""
    assert {kind: tuple(map(float, pair)) for kind, pair in SHEET_MODULUS.items()} == {
        "hardboard": (3.10, 5.52), "mdf": (3.59, 3.59), "particleboard": (2.76, 4.14), "plywood": (6.96, 8.55),
    }  # fmt: skip


@pytest.mark.parametrize(
    ("name", "modulus", "gravity"),
    [
        ("white ash", "12.0", "0.60"), ("American basswood", "10.1", "0.37"), ("American beech", "11.9", "0.64"),
        ("yellow birch", "13.9", "0.62"), ("black cherry", "10.3", "0.50"), ("red maple", "11.3", "0.54"), ("sugar maple", "12.6", "0.63"),
    ],
)  # fmt: skip
def test_stiffness_and_gravity_at_12_per_cent(name, modulus, gravity):
    """Table 5-3."""
    wood = species_named(name)
    assert (wood.modulus.value, wood.gravity.value) == (Fraction(modulus), Fraction(gravity))


def test_creep_doubles_the_sag_of_years():
    """Chapter 5: creep over years about doubles the elastic deflection (check value B9)."""
    made = drawer()
    span = bottom_span(made)
    first = sag_on_four_edges(Plate.of(float(span.across.mm), float(span.deep.mm), 6, 6960), 718e-6)
    assert CREEP == 2
    assert sag_of(made.make.bottom, span, 718) == pytest.approx(2 * first)


def test_density_of_cherry():
    """Chapter 4, density = 1000 G (1 + M/100); from memory."""
    assert species_named("black cherry").density(Fraction(12)) == 560
