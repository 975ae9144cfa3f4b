"""NAVEDTRA 14045 Builder 3 and 2, figure 5-14: an inset drawer clears its opening by 1/16 in on each of four edges (A10)."""

from __future__ import annotations

from joinlay.lengths import inches
from tests.unit.casework.drawers import drawer, opening, shop


def test_figure_5_14_inset_front_clears_four_edges_by_a_sixteenth():
    navy = shop(side_clearance="1/16", top_clearance="1/16", bottom_clearance_of_the_front="1/16")
    front = drawer(opening=opening("12", "6", "18"), shop=navy).board("front")
    assert (front.length, front.width) == (inches("11 7/8"), inches("5 7/8"))
