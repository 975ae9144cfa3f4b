"""The species table: names, figures and their sources."""

from fractions import Fraction

import pytest

from joinlay.errors import BadInput
from joinlay.stock import SPECIES, species_named
from joinlay.stock.species import ALSO_CALLED


@pytest.mark.parametrize(
    ("called", "name"),
    [
        ("black cherry", "black cherry"),
        ("Cherry", "black cherry"),
        ("soft maple", "red maple"),
        ("yellow poplar", "yellow-poplar"),
        ("  DOUGLAS fir ", "Douglas-fir"),
        ("tulipwood", "yellow-poplar"),
    ],
)
def test_a_wood_is_found_by_its_table_name_and_its_bench_name(called, name):
    assert species_named(called).name == name


@pytest.mark.parametrize(("wrong", "near"), [("blak cherry", "black cherry"), ("oak", "white oak"), ("maple", "sugar maple")])
def test_an_unknown_wood_is_answered_with_the_nearest(wrong, near):
    with pytest.raises(BadInput, match=near):
        species_named(wrong)


def test_a_wood_like_no_other_is_answered_with_the_table():
    with pytest.raises(BadInput, match="it has white ash, American basswood"):
        species_named("zzzz")


def test_every_figure_has_a_source_and_a_value_more_than_nothing():
    for wood in SPECIES.values():
        figures = (
            wood.radial, wood.tangential, wood.radial_shrinkage, wood.tangential_shrinkage, wood.modulus, wood.gravity,
        )  # fmt: skip
        for figure in figures:
            assert figure.value > 0
            assert figure.source.startswith("Wood Handbook 2010, table ")


def test_figures_that_were_recalled_say_so():
    assert species_named("white fir").tangential.source.endswith("from memory")
    assert "memory" not in species_named("white fir").radial.source


def test_flat_sawn_moves_tangentially_and_more_than_quarter_sawn():
    for wood in SPECIES.values():
        assert wood.coefficient("flat") is wood.tangential
        assert wood.coefficient("quarter") is wood.radial
        assert wood.tangential.value > wood.radial.value


def test_a_cut_with_no_trade_name_is_refused():
    with pytest.raises(BadInput, match="'flat' or 'quarter'"):
        species_named("cherry").coefficient("rift")


def test_damper_wood_is_heavier():
    ash = species_named("white ash")
    assert ash.density(Fraction(14)) > ash.density() > ash.density(Fraction(6))


def test_every_bench_name_means_the_wood_it_should():
    """What woods are called at the bench; common practice."""
    assert ALSO_CALLED == {
        "ash": "white ash",
        "basswood": "American basswood",
        "beech": "American beech",
        "birch": "yellow birch",
        "cherry": "black cherry",
        "hard maple": "sugar maple",
        "rock maple": "sugar maple",
        "soft maple": "red maple",
        "walnut": "black walnut",
        "alder": "red alder",
        "pecan": "pecan hickory",
        "poplar": "yellow-poplar",
        "tulip poplar": "yellow-poplar",
        "tulipwood": "yellow-poplar",
        "fir": "white fir",
        "white pine": "eastern white pine",
    }
    assert {name for name, wood in SPECIES.items() if wood.is_softwood} == {"white fir", "Douglas-fir", "eastern white pine"}
