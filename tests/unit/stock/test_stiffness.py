"""Stiffness and weight of stocks."""

from dataclasses import replace
from fractions import Fraction

import pytest

from joinlay.errors import BadInput
from joinlay.lengths import mm, written
from joinlay.stock import SHEET_KINDS, SHEET_MODULUS, Sheet, Solid, density_of, stiffness_of, taken_as_three_ply

PLY = Sheet("bottoms", written(mm(6), "nominal", "t"), None, written(mm(2440), "length", "t"), written(mm(1220), "width", "t"))


def test_every_kind_of_sheet_has_figures():
    for kind in SHEET_KINDS:
        sheet = replace(PLY, kind=kind)
        assert stiffness_of(sheet).along == SHEET_MODULUS[kind][0]
        assert 500 < density_of(sheet) < 1100


def test_own_figures_go_before_the_table():
    one = stiffness_of(replace(PLY, modulus_along=Fraction(10)))
    both = stiffness_of(replace(PLY, modulus_along=Fraction(10), modulus_across=Fraction(3)))
    assert (one.along, one.across, one.source) == (Fraction(10), Fraction(10), "as given")
    assert (both.along, both.across) == (Fraction(10), Fraction(3))


# By hand, plies of one thickness, a twentieth as stiff across their own grain: of 3, (1 + 26/20) to (26 + 1/20).
@pytest.mark.parametrize(("plies", "share"), [(3, Fraction(46, 521)), (5, Fraction(619, 2006)), (7, Fraction(2224, 4979))])
def test_counted_plies_make_it_weaker_across(plies, share):
    counted = stiffness_of(replace(PLY, plies=plies))
    assert counted.along == SHEET_MODULUS["plywood"][0]
    assert counted.across == counted.along * share


def test_thin_plywood_is_taken_as_three_ply_unless_something_is_known():
    thin, thick = replace(PLY, nominal=written(mm(7), "nominal", "t")), replace(PLY, nominal=written(mm("7.1"), "nominal", "t"))
    assert stiffness_of(thin) == stiffness_of(replace(thin, plies=3))
    assert taken_as_three_ply(thin)
    for known in (thick, replace(thin, plies=3), replace(thin, modulus_along=Fraction(8)), replace(thin, kind="hardboard")):
        assert not taken_as_three_ply(known)
    assert stiffness_of(thick).across == stiffness_of(thick).along


@pytest.mark.parametrize("plies", [1, 2, 4, -3])
def test_plywood_has_an_odd_number_of_plies(plies):
    with pytest.raises(BadInput, match="odd number"):
        replace(PLY, plies=plies)


def test_a_kind_without_figures_is_answered_with_the_nearest():
    with pytest.raises(BadInput, match="plywood"):
        stiffness_of(replace(PLY, kind="plywod"))


def test_solid_wood_is_much_softer_across_its_grain():
    wood = Solid("bottoms", written(mm(8), "nominal", "t"), None, "cherry")
    flat, quarter = stiffness_of(wood), stiffness_of(replace(wood, cut="quarter"))
    assert flat.along == quarter.along == Fraction("10.3")
    assert flat.across < quarter.across < flat.along / 5


def test_solid_wood_weighs_by_its_species():
    light = Solid("a", written(mm(8), "nominal", "t"), None, "white pine")
    heavy = Solid("b", written(mm(8), "nominal", "t"), None, "beech")
    assert density_of(light) < density_of(heavy)
