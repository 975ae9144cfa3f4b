"""Solid wood: one species, flat-sawn or quarter-sawn."""

import pytest

from joinlay.errors import BadInput
from joinlay.lengths import mm, written
from joinlay.stock import Solid


def size(number, name="size"):
    """So many millimetres, as a maker wrote them."""
    return written(mm(number), name, "here")


def test_measured_thickness_beats_nominal():
    assert Solid("cherry", size(25), size(20), "black cherry").thickness == mm(20)
    assert Solid("cherry", size(25), None, "black cherry").thickness == mm(25)
    assert Solid("cherry", size(25), None, "black cherry").is_solid


@pytest.mark.parametrize("wrong", [0, -1])
def test_thicknesses_are_more_than_nothing(wrong):
    with pytest.raises(BadInput, match=f"cherry: nominal is {wrong} mm"):
        Solid("cherry", size(wrong, "nominal"), None, "black cherry")
    with pytest.raises(BadInput, match=f"cherry: measured is {wrong} mm"):
        Solid("cherry", size(25, "nominal"), size(wrong, "measured"), "black cherry")


@pytest.mark.parametrize("cut", ["flat", "quarter"])
def test_cuts_of_the_log(cut):
    assert Solid("cherry", size(25), None, "black cherry", cut).cut == cut


def test_a_cut_the_trade_has_no_name_for_is_answered():
    with pytest.raises(BadInput, match="write 'flat' or 'quarter'"):
        Solid("cherry", size(25), None, "black cherry", "plain")
