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


#: Change coefficients a per cent of moisture, radial and tangential, as table 13-5 prints them for 6 to 14 %; those with a * are
#: from memory.
CHANGES = {
    "white ash": (".00169", ".00274"), "American basswood": (".00230", ".00330"), "American beech": (".00190", ".00431"),
    "yellow birch": (".00256", ".00338"), "paper birch": (".00219", ".00304"), "black cherry": (".00126", ".00248"),
    "sugar maple": (".00165", ".00353"), "red maple": (".00137", ".00289"), "silver maple": (".00102", ".00252"),
    "bigleaf maple": (".00126", ".00248"), "red oak": (".00158", ".00369"), "white oak": (".00180", ".00365"),
    "black walnut": (".00190", ".00274"), "red alder": (".00151", ".00256"), "pecan hickory": (".00169", ".00315"),
    "sycamore": (".00172", ".00296"), "yellow-poplar": (".00158", ".00289*"), "white fir": (".00112", ".00245*"),
    "Douglas-fir": (".00165*", ".00267"), "eastern white pine": (".00071", ".00212*"),
}  # fmt: skip

#: Shrinkage green to ovendry in per cent, radial and tangential, table 4-3; those with a * are from memory.
SHRINKAGES = {
    "white ash": ("4.9", "7.8"),
    "American basswood": ("6.6", "9.3"),
    "American beech": ("5.5", "11.9"),
    "yellow birch": ("7.3", "9.5"),
    "paper birch": ("6.3", "8.6"),
    "black cherry": ("3.7", "7.1"),
    "sugar maple": ("4.8", "9.9"),
    "red maple": ("4.0*", "8.2*"),
    "silver maple": ("3.0*", "7.2*"),
    "bigleaf maple": ("3.7*", "7.1*"),
    "red oak": ("4.0*", "8.6*"),
    "white oak": ("5.6*", "10.5*"),
    "black walnut": ("5.5", "7.8"),
    "red alder": ("4.4", "7.3"),
    "pecan hickory": ("4.9*", "8.9*"),
    "sycamore": ("5.0*", "8.4*"),
    "yellow-poplar": ("4.6", "8.2"),
    "white fir": ("3.3", "7.0"),
    "Douglas-fir": ("4.8", "7.6"),
    "eastern white pine": ("2.1*", "6.1*"),
}

#: Stiffness in GPa and specific gravity at 12 % moisture, table 5-3; those with a * are from memory.
STRENGTHS = {
    "white ash": ("12.0", "0.60"),
    "American basswood": ("10.1", "0.37"),
    "American beech": ("11.9", "0.64"),
    "yellow birch": ("13.9", "0.62"),
    "paper birch": ("11.0*", "0.55*"),
    "black cherry": ("10.3", "0.50"),
    "sugar maple": ("12.6", "0.63"),
    "red maple": ("11.3", "0.54"),
    "silver maple": ("7.9*", "0.47*"),
    "bigleaf maple": ("10.0*", "0.48*"),
    "red oak": ("12.5*", "0.63*"),
    "white oak": ("12.3*", "0.68*"),
    "black walnut": ("11.6*", "0.55*"),
    "red alder": ("9.5*", "0.41*"),
    "pecan hickory": ("11.9*", "0.66*"),
    "sycamore": ("9.8*", "0.49*"),
    "yellow-poplar": ("10.9*", "0.42*"),
    "white fir": ("10.3*", "0.39*"),
    "Douglas-fir": ("13.4*", "0.48*"),
    "eastern white pine": ("8.5*", "0.35*"),
}


@pytest.mark.parametrize("name", SPECIES)
def test_every_wood_has_the_books_figures_and_says_which_are_from_memory(name):
    """Tables 13-5, 4-3 and 5-3, row by row."""
    wood = SPECIES[name]
    held = (wood.radial, wood.tangential, wood.radial_shrinkage, wood.tangential_shrinkage, wood.modulus, wood.gravity)
    for figure, printed in zip(held, (*CHANGES[name], *SHRINKAGES[name], *STRENGTHS[name]), strict=True):
        assert figure.value == Fraction(printed.rstrip("*"))
        assert figure.source.endswith("from memory") == printed.endswith("*")


def test_no_wood_is_without_a_row():
    assert set(SPECIES) == set(CHANGES) == set(SHRINKAGES) == set(STRENGTHS)


#: The two tables part company for mixed species and for sycamore.
AGREE = sorted(set(SPECIES) - {"red oak", "white oak", "sycamore"})


def change_coefficient(shrinkage):
    """Of a wood that shrinks so many per cent from green to ovendry; fibre saturation at 30 %, 10 % as the middle of the
    range.
    """
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
        (70, 20, 4.5),
        (70, 30, 6.2),
        (70, 40, 7.7),
        (70, 50, 9.2),
        (70, 60, 11.0),
        (70, 65, 12.0),
        (70, 70, 13.1),
        (70, 80, 16.0),
        (70, 90, 20.5),
        (50, 30, 6.3),
        (50, 50, 9.5),
        (50, 80, 16.4),
        (90, 30, 5.9),
        (90, 50, 8.9),
        (90, 80, 15.4),
    ],
)
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
        ("white ash", "12.0", "0.60"),
        ("American basswood", "10.1", "0.37"),
        ("American beech", "11.9", "0.64"),
        ("yellow birch", "13.9", "0.62"),
        ("black cherry", "10.3", "0.50"),
        ("red maple", "11.3", "0.54"),
        ("sugar maple", "12.6", "0.63"),
    ],
)
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
