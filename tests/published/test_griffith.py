"""I. S. Griffith, Correlated Courses in Woodwork and Mechanical Drawing, 1912: plates of joints, in inches."""

from __future__ import annotations

from joinlay.joints.dado import design_dado
from joinlay.joints.loose_tenon import Use, design_loose_tenon
from joinlay.joints.mortise_depth import mortise_depths
from joinlay.joints.spacing import KeepOut, spread
from joinlay.joints.tenon_size import TenonSize, tenon_sizes, wall_needed
from joinlay.lengths import NOTHING, inches
from tests.unit.joints.wood import shop, size, tenon


def test_group_ix_plate_1_the_blind_mortise_is_an_eighth_deeper_than_its_tenon():
    """A3: tenon 3/8 thick and 1 1/8 long, mortise 1 1/4 deep in stock 1 3/4 wide: our glue room at both ends comes to the same
    1/8.
    """
    owned = shop()
    assert inches("1 1/4") - inches("1 1/8") == owned.practice.length("glue room") * 2
    # A loose tenon that goes 1 1/8 into each of two such mortises, less the room in the other: 2 x 1 1/4 less 1/8.
    stock = tenon("3/8", length="2 3/8")
    found = mortise_depths(TenonSize(stock, stock.thickness, stock.thickness * 3), size("1 3/4"), owned, "")
    assert (found.in_end, found.in_face) == (inches("1 1/4"), inches("1 1/4"))
    assert found.finding is None


def test_group_ix_plate_1_three_eighths_in_one_inch_stock_holds_its_walls():
    """A3 and A4: over a third of the stock, which is said, but 5/16 stays on each side."""
    (found,) = tenon_sizes(size("1"), size("1 3/4"), shop(), Use.FRAME, tenon("3/8", width="1"), "")
    assert found.finding is not None
    assert found.finding.rule == "LT-1"
    assert wall_needed(size("1"), shop().practice) <= inches("5/16")


def test_group_x_plate_39_walls_and_tenon_make_up_the_stock():
    """A4: 5/16 + 3/8 + 5/16 = 1."""
    joint = design_loose_tenon(
        end_thickness=size("1"), face_thickness=size("2"), line=size("2"), shop=shop(), use=Use.FRAME, tenon=tenon("3/8")
    )
    below = joint.from_reference_face - joint.tenon_thickness / 2
    above = inches(1) - joint.from_reference_face - joint.tenon_thickness / 2
    assert (below, joint.tenon_thickness, above) == (inches("5/16"), inches("3/8"), inches("5/16"))


def test_group_x_plate_39_the_mortise_fills_the_rail_between_haunch_and_groove():
    """A4: rail 2, haunch 5/8, groove 5/16: the mortise is 1 1/16 long and begins 5/8 from the end; it has one place and no
    other.
    """
    rail, haunch, groove = size("2"), size("5/8"), size("5/16")
    long = rail - groove - haunch
    assert long == inches("1 1/16")
    keep_outs = [KeepOut(NOTHING, haunch, "haunch"), KeepOut(rail - groove, rail, "groove")]
    (centre,) = spread(rail, long, NOTHING, NOTHING, rail, keep_outs).centres
    assert (centre - long / 2, centre + long / 2) == (inches("5/8"), inches("1 11/16"))
    assert spread(rail, long + inches("1/64"), NOTHING, NOTHING, rail, keep_outs).centres == ()


def test_group_x_plate_39_the_depth_is_within_the_rule():
    """A4: mortise 1 3/8 deep for a tenon 3/8 thick, tenon 1 1/4 long."""
    owned = shop(glue_room="1/8")  # all of the room lies at the end that is mortised
    stock = tenon("3/8", length="2 1/2")
    found = mortise_depths(TenonSize(stock, stock.thickness, stock.thickness * 3), size("2"), owned, "")
    assert (found.in_end, found.in_face) == (inches("1 3/8"), inches("1 3/8"))
    assert found.finding is None


def test_group_vii_plate_27_a_dado_in_three_quarter_stock_is_a_quarter_deep():
    """A5: its width is that of the mating part."""
    for panel in ("3/4", "5/8", "23/32"):
        joint = design_dado(into=size("3/4"), panel=size(panel), shop=shop())
        assert (joint.depth, joint.width) == (inches("1/4"), inches(panel))
        assert joint.findings == ()
