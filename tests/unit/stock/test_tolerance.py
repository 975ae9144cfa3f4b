"""Between which thicknesses a stock may lie."""

from dataclasses import replace

import pytest

from joinlay.errors import BadInput
from joinlay.lengths import inches, mm, written
from joinlay.stock import Sheet, Solid, american_plywood_limits, thickness_spread


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
    with pytest.raises(BadInput, match="3/4 in"):
        american_plywood_limits(inches("7/8"))
