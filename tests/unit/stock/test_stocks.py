"""Sheet goods and solid wood: measured over nominal, sizes that are refused, and how far the thickness may stray."""

from dataclasses import replace

import pytest

from joinlay.errors import BadInput
from joinlay.lengths import GRADUATIONS, BadSize, inches, mm, said_by, written
from joinlay.stock import SHEET_KINDS, Sheet, Solid, american_plywood_limits, thickness_spread


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
    with pytest.raises(BadInput, match=f"birch: {which} is {wrong} mm; it must be more than 0"):
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


def test_planed_thickness_beats_nominal():
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


def sheet(nominal, measured=None, kind="plywood"):
    big = written(mm(2440), "length", "t")
    known = None if measured is None else written(measured, "measured", "t")
    return Sheet("sides", written(nominal, "nominal", "t"), known, big, big, kind)


def test_a_measured_sheet_strays_little_about_what_was_measured():
    spread = thickness_spread(sheet(mm(12), mm("11.6")))
    assert (spread.thinnest, spread.thickest) == (mm("11.5"), mm("11.7"))


def test_a_metric_sheet_follows_the_metric_standard():
    assert thickness_spread(sheet(mm(18))).source == "EN 315"


def test_an_inch_sheet_may_be_as_thin_as_its_label_less_a_64th():
    spread = thickness_spread(sheet(inches("3/4")))
    assert (spread.thinnest, spread.thickest) == (inches("0.734") - inches("1/64"), inches("3/4") + inches("1/64"))
    assert spread.source == "PS 1-19"


def test_a_sheet_past_both_standards_still_gets_a_spread():
    spread = thickness_spread(sheet(mm(30)))
    assert spread.thinnest < mm(30) < spread.thickest


def test_pressed_boards_keep_closer_than_plywood():
    pressed, layered = thickness_spread(sheet(mm(18), kind="mdf")), thickness_spread(sheet(mm(18)))
    assert pressed.thickest - pressed.thinnest < layered.thickest - layered.thinnest


def test_planed_wood_gets_a_spread_measured_or_not():
    wood = Solid("fronts", written(mm(19), "nominal", "t"), None, "ash")
    known = replace(wood, measured=written(mm(19), "measured", "t"))
    rough, close = thickness_spread(wood), thickness_spread(known)
    assert rough.thinnest < close.thinnest < mm(19) < close.thickest < rough.thickest


def test_thick_panels_are_not_in_the_sanded_limits():
    with pytest.raises(BadSize, match=r"up to 19\.05 mm") as refused:
        american_plywood_limits(inches("7/8"))
    assert said_by(refused.value, GRADUATIONS["1/64 in"].text) == "PS 1 gives these limits up to 3/4 in; 7/8 in was asked."
