"""Cutters that reach, just reach and don't."""

from dataclasses import replace

import pytest

from joinlay.boards import CutKind, Shape, Surface
from joinlay.checks.reach import check_reach
from joinlay.findings import Harm
from joinlay.lengths import mm
from joinlay.shop import Cutter, TenonStock
from tests.unit.checks.making import SHOP, board, cut, drawer, groove, mortise, size

BENCH = replace(SHOP, cutters=(Cutter(size(6), size(12)),), tenons=(TenonStock(size(5), reach=size(20)),))


@pytest.mark.parametrize(("deep", "fires"), [(10, False), (12, False), ("12.1", True)])
def test_a_groove_as_deep_as_the_cutter_reaches(deep, fires):
    found = check_reach(board(groove((10, 16), into=(0, deep))), BENCH)
    assert [finding.harm for finding in found] == [Harm.WARN] * fires


def test_a_groove_narrower_than_every_cutter():
    (found,) = check_reach(board(groove((10, "15.9"))), BENCH)
    assert "no cutter that narrow" in found.sentence(str)


@pytest.mark.parametrize(("deep", "fires"), [(20, False), ("20.1", True)])
def test_a_mortise_is_reached_by_its_own_tenon_stock(deep, fires):
    at_end = cut(CutKind.MORTISE, Surface.END, (0, deep), (30, 50), (6, 12), "mortise", shape=Shape.ROUND_ENDS)
    found = check_reach(board(at_end), BENCH)
    assert len(found) == fires
    if fires:
        assert found[0].numbers["reach"] == mm(20)


def test_tenon_stock_without_a_limit_reaches_anything():
    endless = replace(BENCH, tenons=(TenonStock(size(5)),))
    assert check_reach(board(mortise((100, 106), (20, 40), into=(0, 16))), endless) == ()


def test_a_rabbet_is_cut_its_shorter_way_and_a_hole_is_a_drills():
    step = cut(CutKind.RABBET, Surface.FAR_FACE, (0, 14), (0, 100), (6, 18), "rabbet")
    hole = cut(CutKind.HOLE, Surface.FAR_FACE, (100, 103), (40, 43), (0, 18), "pull hole 1", shape=Shape.ROUND)
    assert check_reach(board(step, hole), BENCH) == ()


def test_every_cut_of_a_planned_drawer_is_within_reach():
    for made in drawer().assembly.boards:
        assert check_reach(made, SHOP) == ()
