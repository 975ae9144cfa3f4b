"""W. Fairham, Woodwork Joints, c. 1920: how thick a tenon is; W. Noyes, Handwork in Wood, 1910, no. 42, has it alike."""

from __future__ import annotations

from fractions import Fraction

import pytest

from joinlay.findings import Refused
from joinlay.joints.loose_tenon import Use
from joinlay.joints.tenon_size import tenon_sizes
from tests.unit.joints.wood import shop, size, tenon, with_tenons

RULERS = with_tenons(*(tenon(f"{n}/16") for n in range(2, 13)))


@pytest.mark.parametrize("stock", ["3/4", "15/16", "1 1/8", "1 1/2", "1 7/8"])
def test_a_third_of_the_stock(stock):
    """A1: where the shop has a tenon of just that."""
    best = tenon_sizes(size(stock), size("6"), RULERS, Use.CASE, None, "")[0]
    assert best.thickness == size(stock) / 3


@pytest.mark.parametrize("stock", ["1/2", "3/4", "7/8", "1", "1 1/4", "1 1/2", "2"])
def test_never_more_than_two_thirds(stock):
    """A1: whatever is asked for, what is over two thirds is refused, and what is chosen is far under it."""
    wood = size(stock)
    with pytest.raises(Refused):
        tenon_sizes(wood, size("6"), RULERS, Use.CASE, tenon(f"{wood.mm * Fraction(2, 3) + Fraction(1, 100)} mm"), "")
    assert tenon_sizes(wood, size("6"), RULERS, Use.CASE, None, "")[0].thickness <= wood * Fraction(2, 5)


def test_a_third_is_what_the_usual_practice_says():
    """A1."""
    assert shop().practice.ratio("tenon share") == Fraction(1, 3)
