"""The tools a shop owns, and the modest shop to fall back on."""

import pytest

from joinlay.errors import BadInput
from joinlay.lengths import GRADUATIONS, Unit, inches, mm, read_length, written
from joinlay.shop import Cutter, Saw, Shop, TenonStock, is_sold, usual_practice, usual_shop


def size(number, name="size"):
    """So many millimetres, as a maker wrote them."""
    return written(mm(number), name, "here")


@pytest.mark.parametrize("wrong", [0, -3])
def test_tools_are_more_than_nothing(wrong):
    for make in (
        lambda: Cutter(size(wrong, "diameter"), size(10)),
        lambda: Cutter(size(6), size(wrong, "reach")),
        lambda: TenonStock(size(wrong, "thickness")),
        lambda: TenonStock(size(6), width=size(wrong, "width")),
        lambda: TenonStock(size(6), length=size(wrong, "length")),
        lambda: TenonStock(size(6), reach=size(wrong, "reach")),
        lambda: Saw(size(wrong, "kerf")),
    ):
        with pytest.raises(BadInput, match="must be more than 0"):
            make()


def test_the_error_names_the_size():
    with pytest.raises(BadInput, match="cutter: reach is 0 mm"):
        Cutter(size(6), size(0, "reach"))


def shop_with(*diameters):
    """A shop that owns straight cutters of these diameters in millimetres."""
    cutters = tuple(Cutter(size(wide), size(20)) for wide in diameters)
    return Shop(cutters, (), Saw(size(3)), GRADUATIONS["0.5 mm"], usual_practice(Unit.MM))


def test_only_cutters_that_fit_are_offered_widest_first():
    shop = shop_with(3, 12, 6, 8)
    assert [cutter.diameter for cutter in shop.cutters_up_to(mm(8))] == [mm(8), mm(6), mm(3)]
    assert shop.cutters_up_to(mm("2.9")) == ()
    assert [cutter.diameter for cutter in shop.cutters_up_to(mm(3))] == [mm(3)]


@pytest.mark.parametrize("unit", list(Unit))
def test_the_usual_shop_stands_thin_to_thick_and_says_it_is_a_default(unit):
    shop = usual_shop(unit)
    widths, thicknesses = [c.diameter for c in shop.cutters], [t.thickness for t in shop.tenons]
    assert widths == sorted(widths)
    assert thicknesses == sorted(thicknesses)
    assert len(set(widths)) == len(widths)
    assert all(d.origin == "default" and d.name and d.source for d in (*widths, *thicknesses, shop.saw.kerf))
    assert shop.rule.unit is unit
    assert shop.practice == usual_practice(unit)


def test_the_usual_shops_cutters_reach_their_own_width_at_least():
    for unit in Unit:
        assert all(cutter.reach >= cutter.diameter for cutter in usual_shop(unit).cutters)


def test_a_quarter_inch_and_a_six_millimetre_cutter_are_there():
    # common practice: the locking rabbet in half-inch stock is cut with a quarter-inch cutter (A17).
    assert inches("1/4") in [cutter.diameter for cutter in usual_shop(Unit.INCH).cutters]
    assert mm(6) in [cutter.diameter for cutter in usual_shop(Unit.MM).cutters]


def test_tenon_strip_for_a_frame_and_a_drawer_side_is_there():
    # common practice (A18): 6 mm in a 3/4 in frame, 4 mm in a 1/2 in side.
    for unit in Unit:
        assert {mm(4), mm(6)} <= {tenon.thickness for tenon in usual_shop(unit).tenons}


@pytest.mark.parametrize(
    ("diameter", "sold"), [("1/4", True), ("9/32", True), ("6 mm", True), ("4.5 mm", True), ("0.236", False), ("17/64", False)]
)
def test_which_cutters_are_sold(diameter, sold):
    assert is_sold(read_length(diameter, Unit.INCH)) is sold
