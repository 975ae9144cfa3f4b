"""E. W. Foster, Carpentry and Woodwork, 1911: the dadoes of a nail cabinet and a filing cabinet, in inches."""

from __future__ import annotations

from itertools import pairwise

from joinlay.boards import Surface
from joinlay.joints.dado import cut_dado, design_dado
from joinlay.joints.locking_rabbet import design_locking_rabbet
from joinlay.lengths import dimension, inches, mm
from tests import by_hand
from tests.unit.joints.wood import board, shop, size


def shelved(length, shelves):
    """A side with a dado for each half-inch shelf, at these offsets, as Foster cuts them: 1/4 deep in 1/2."""
    joint = design_dado(into=size("1/2", "side"), panel=size("1/2", "shelf"), shop=shop(), depth=size("1/4", "dado depth"))
    assert joint.findings == ()
    side = board(length, "12", "1/2")
    for n, offset in enumerate(shelves):
        side = cut_dado(joint, side, dimension(inches(offset)), by_hand.part(f"shelf {n}"), which=by_hand.part(f"shelf {n}"))
    return joint, side


def test_figure_136_the_nail_cabinets_dado():
    """A6: shelves 24 5/8 between sides 24 1/8 apart, so each dado is 1/4 deep; outside 25 1/8."""
    joint, side = shelved("14", ["0", "4 1/2", "9", "13 1/2"])
    assert (inches("24 5/8") - inches("24 1/8")) / 2 == joint.depth
    assert inches("24 5/8") - joint.depth * 2 == inches("24 1/8")
    assert inches("24 1/8") + side.thickness * 2 == inches("25 1/8")


def test_figure_136_the_nail_cabinets_heights():
    """A6: three spaces of 4 and four shelves of 1/2 make the side's 14; four drawers of 6 in 24 1/8 leave 1/8 in all."""
    _, side = shelved("14", ["0", "4 1/2", "9", "13 1/2"])
    spaces = [after.along.start - before.along.stop for before, after in pairwise(side.cuts)]
    assert spaces == [inches(4)] * 3
    assert side.cuts[-1].along.stop == side.length == inches(14)
    assert inches("24 1/8") - inches(6) * 4 == inches("1/8")


def test_figure_195_the_filing_cabinets_compartments():
    """A7 (outside size derived): 4 across of 5 1/2 and 3 high of 3 1/2 between 1/2 in dividers make 24 1/2 by 12 1/2."""
    for outside, space, offsets in (
        ("24 1/2", "5 1/2", ["0", "6", "12", "18", "24"]),
        ("12 1/2", "3 1/2", ["0", "4", "8", "12"]),
    ):
        _, side = shelved(outside, offsets)
        assert [after.along.start - before.along.stop for before, after in pairwise(side.cuts)] == [inches(space)] * (
            len(offsets) - 1
        )
        assert side.cuts[-1].along.stop == inches(outside)


def test_figure_195_dadoes_stop_short_of_the_front():
    """DA-4's source: the dado stops 1/2 before the edge that shows."""
    joint = design_dado(into=size("1/2"), panel=size("1/2"), shop=shop(), is_stopped=True)
    cut = cut_dado(joint, board("24 1/2", "12", "1/2"), size("6"), by_hand.part("divider"), show_edge=Surface.EDGE).cuts[0]
    assert (cut.across.start, cut.across.stop) == (inches("1/2"), inches(12))


def test_the_drawings_dado_a_half_inch_side_to_half_its_thickness():
    """LR-4's source: a quarter in a half."""
    owned = shop()
    joint = design_locking_rabbet(
        side_thickness=size("1/2"), end_thickness=size("5/8"), cutter=size("1/4"), practice=owned.practice, rule=owned.rule
    )
    assert joint.dado_depth == inches("1/4")
    assert joint.dado_depth - joint.tongue_length == joint.tip_gap > mm(0)
