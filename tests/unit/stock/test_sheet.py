"""Sheet goods: the measured thickness beats the nominal one."""

import pytest

from joinlay.errors import BadInput
from joinlay.lengths import mm, written
from joinlay.stock import SHEET_KINDS, Sheet


def size(number, name="size"):
    """So many millimetres, as a maker wrote them."""
    return written(mm(number), name, "here")


def a_sheet(**changed):
    """Eighteen-millimetre plywood, measured."""
    sizes = {"nominal": size(18), "measured": size("17.6"), "length": size(2440), "width": size(1220)}
    return Sheet("birch", **{**sizes, **changed})


def test_measured_thickness_beats_nominal():
    assert a_sheet().thickness == mm("17.6")
    assert a_sheet(measured=None).thickness == mm(18)
    assert not a_sheet().is_solid


@pytest.mark.parametrize("which", ["nominal", "measured", "length", "width"])
@pytest.mark.parametrize("wrong", [0, -1])
def test_sizes_are_more_than_nothing(which, wrong):
    with pytest.raises(BadInput, match=f"birch: {which} is {wrong} mm; it must be more than nothing"):
        a_sheet(**{which: size(wrong, which)})


@pytest.mark.parametrize("kind", SHEET_KINDS)
def test_kinds_of_sheet(kind):
    assert a_sheet(kind=kind).kind == kind


@pytest.mark.parametrize(
    ("kind", "answer"),
    [("plywod", "write plywood"), ("board", "write hardboard or particleboard"), ("", "write plywood or mdf or")],
)
def test_an_unknown_kind_is_answered_with_the_nearest(kind, answer):
    with pytest.raises(BadInput, match=answer):
        a_sheet(kind=kind)
