"""Drawers, tops and a base of Mission Furniture, How to Make It (Popular Mechanics, 1909, 1910): figures seen in a copy,
worked out again.
"""

import pytest

from joinlay.boards import CutUse, PartKind
from joinlay.boards.extent import extent
from joinlay.casework.base import BaseMake
from joinlay.casework.corners import HOUSED, RABBETED
from joinlay.casework.graduation import Equal
from joinlay.casework.opening import BackHeight
from joinlay.casework.top import TopMake
from joinlay.findings import Refused
from joinlay.joints.dado import design_dado
from joinlay.lengths import inches
from tests.assembly.pieces import drawer_make, shop, size, solid, spec, whole
from tests.unit.casework.drawers import drawer, opening


def test_a_back_of_16_1_2_stands_in_dadoes_a_quarter_deep_in_sides_17_apart_over_all():
    """F10, part 2, the same series: 17 - 2 x 1/2 + 2 x 1/4 (the housing inferred)."""
    make = drawer_make(
        sides=solid("1/2"), back=solid("1/2"), bottom=solid("1/2"), back_joint=HOUSED, back_height=BackHeight.ON_BOTTOM
    )
    own = shop(side_clearance="0", tip_gap="0", bottom_panel_clearance="0")
    own = type(own)(
        own.cutters,
        own.tenons,
        own.saw,
        own.rule,
        own.practice.but(ratios={"dado share": own.practice.ratio("largest dado share")}),
    )
    made = drawer(make=make, shop=own, opening=opening("17", "8 1/32", "16"))
    assert (made.back.length, made.bottom.length) == (inches("16 1/2"), inches("16 1/2"))
    # The bottom passes under the back: it is lower by the bottom and the wood below that.
    below = made.side(made.sides[0].role.hand).cuts_of(CutUse.GROOVE)[0].across.start
    assert made.back.width == made.sides[0].width - below - inches("1/2")


def test_page_89_a_back_3_8_thick_is_housed_3_8_from_the_ends_of_sides_3_8_thick():
    """F9, part 2: opening 4 3/4, sides 4 5/8; the bottom, 3/8, is bevelled by 1/16 to a groove of 5/16 and passes under the
    back.
    """
    make = drawer_make(
        sides=solid("3/8"),
        back=solid("3/8"),
        bottom=solid("5/16"),
        front_joint=RABBETED,
        back_joint=HOUSED,
        back_height=BackHeight.ON_BOTTOM,
    )
    made = drawer(make=make, shop=shop(**{"back_set-in": "3/8"}, top_clearance="1/8"), opening=opening("16", "4 3/4", "12"))
    # The front, 3/4, is rabbeted to a lip of 1/4.
    assert {made.front.thickness - cut.depth for cut in made.front.cuts_of(CutUse.RABBET)} == {inches("1/4")}
    side = made.sides[0]
    assert side.width == inches("4 5/8")
    (dado,) = side.cuts_of(CutUse.DADO)
    assert (side.length - dado.along.stop, dado.along.size) == (inches("3/8"), inches("3/8"))
    assert dado.depth == inches("1/8")  # a third of the side
    assert side.cuts_of(CutUse.GROOVE)[0].across.size == inches("5/16")
    assert made.bottom.width > made.sides[0].length - inches("3/8") - inches("3/8")
    # As much wood behind the dado as the side is thick is no less than it should be.
    assert "short grain" not in {finding.kind for finding in made.assembly.findings}


def test_gains_half_an_inch_deep_in_half_inch_sides_are_refused():
    """F12, Foster, Carpentry and Woodwork, ch. 40, allows them; nothing of the side would be left."""
    with pytest.raises(Refused, match="dado"):
        design_dado(into=size("1/2"), panel=size("1/2"), shop=shop(), depth=size("1/2"))


@pytest.mark.parametrize(
    ("case", "front", "ends", "top"),
    [
        # F1, part 1, p. 100: 3/4 over each end and in front, flush behind.
        (("30 1/2", "18 1/4"), "3/4", "3/4", ("32", "19")),
        # F5, part 2, p. 70: 1/2 over each end, 1 in front.
        (("30 1/4", "14"), "1", "1/2", ("31 1/4", "15")),
    ],
)
def test_a_top_is_larger_by_its_overhangs(case, front, ends, top):
    make = TopMake(solid("3/4"), size(front), size(ends))
    own = shop()
    made = whole(spec(own, heights=Equal(2), width=size(case[0]), depth=size(case[1]), top=make), own)
    (board,) = (board for board in made.boards if board.role.kind is PartKind.TOP)
    assert (board.length, board.width) == (inches(top[0]), inches(top[1]))


def test_page_70_a_toe_rail_of_four_inches_makes_it_54_3_4_high():
    """F5: 50 + 3/4 + 4."""
    own = shop()
    asked = {"top": TopMake(solid("3/4")), "base": BaseMake(solid("3/4"), size(4)), "height": size(50)}
    made = whole(spec(own, heights=Equal(4), **asked), own)
    assert extent(made.boards)[2] == inches("54 3/4")
