"""Common practice at the bench, with no single source: A18 and A19 through the drawer planner."""

from __future__ import annotations

from joinlay.boards import CutKind
from joinlay.lengths import inches, mm
from tests.unit.casework.drawers import drawer, opening


def test_a_drawer_4_1_4_high_takes_three_small_tenons_in_each_corner():
    """A18: 1/2 in sides, groove low down, 4 mm tenons."""
    made = drawer()
    assert made.board("front").width == inches("4 1/4")
    slips = [board for board in made.assembly.boards if board.part == "loose tenon"]
    assert len(slips) == 2 * 3
    assert {board.thickness.mm for board in slips} == {4}
    mortises = [cut for cut in made.board("front").cuts if cut.kind is CutKind.MORTISE]
    groove = next(cut for cut in made.board("front").cuts if cut.kind is CutKind.GROOVE)
    assert all(cut.across.start - groove.across.stop >= inches("1/8") for cut in mortises)


def test_a_thirty_second_each_side_is_a_sixteenth_of_play():
    """A19: 1/16 in all when closed."""
    made = drawer(opening=opening("24", "4", "20"))
    left, right = made.board("left side"), made.board("right side")
    outside = [board.place.point(mm(0), mm(0), board.thickness)[0] for board in (left, right)]
    assert inches(24).mm - (outside[1] - outside[0]) == inches("1/16").mm
