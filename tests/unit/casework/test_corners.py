"""The corners of a drawer, and where its parts meet."""

import pytest

from joinlay.boards import Axis
from joinlay.boards.meeting import unmet
from joinlay.casework.corners import AT_BACK, AT_FRONT, CORNERS, HALF_BLIND, LOCKED, TENONED
from joinlay.errors import BadInput
from joinlay.lengths import dimension, mm
from tests.assembly.pieces import drawer_make, shop, spec, whole

NOWHERE = dimension(mm(0))


def made(front=HALF_BLIND, back=LOCKED, **figures):
    shop_of = shop(**figures)
    return whole(spec(shop_of, make=drawer_make(front_joint=front, back_joint=back)), shop_of).drawers[0]


def boards_of(drawer):
    return {board.role: board for board in drawer.assembly.boards}


def own(drawer):
    """Where its parts meet each other, not what is around it."""
    return [met for met in drawer.assembly.meetings if met.one.drawer == met.other.drawer and met.other.whole == drawer.role]


def said(drawer):
    return {met.says(facing).replace("drawer 1 ", ""): facing.gap for met in own(drawer) for facing in met.facings}


def gaps(drawer, words):
    return {what: gap for what, gap in said(drawer).items() if words in what}


@pytest.mark.parametrize("taper", ["0", "1/32", "-1/32"])
@pytest.mark.parametrize("back", AT_BACK.values(), ids=list(AT_BACK))
@pytest.mark.parametrize("front", AT_FRONT.values(), ids=list(AT_FRONT))
def test_every_part_meets_the_others_as_stated(front, back, taper):
    drawer = made(front, back, taper=taper)
    assert own(drawer)
    assert unmet(own(drawer), boards_of(drawer)) == ()


@pytest.mark.parametrize(
    ("part", "way", "untrue"),
    [
        ("front", (0, 1, 0), {"left side against the lip of the front", "right side against the lip of the front"}),
        (
            "left side",
            (1, 0, 0),
            {
                "left side on the floor of the slot in the front",
                "left side with its dado over the tip of the tongue of the front",
            },
        ),
        ("back", (0, 1, 0), {"back against the left side", "back from the left side"}),
        ("back", (1, 0, 0), {"back in, at its wall inside, the left side", "back in, at its wall outside, the left side"}),
        ("bottom", (1, 0, 0), {"bottom in, at its front, the right side"}),
        ("bottom", (0, 1, 0), {"bottom in the front", "bottom in the back"}),
        ("bottom", (0, 0, 1), {"bottom on the groove of the front", "bottom on the groove of the back"}),
    ],
)
def test_a_part_a_hair_out_of_place_is_found(part, way, untrue):
    drawer = made(taper="1/32")
    moved = drawer.board(part).moved(*(dimension(mm("0.01") * step) for step in way))
    wrong = unmet(own(drawer), {**boards_of(drawer), moved.role: moved})
    assert untrue <= {told.split(":")[0].replace("drawer 1 ", "") for told in wrong}


def test_the_gaps_are_those_of_the_rules():
    straight = made(tip_gap="1/64", tongue_fit="1/128", bottom_panel_clearance="1/16")
    half_blind = gaps(straight, "tongue")
    assert half_blind["left side with its dado over the tip of the tongue of the front"] == mm("0.396875")
    assert half_blind["left side with its dado past the tongue of the front"] == mm("0.1984375")
    assert gaps(straight, "bottom in")["bottom in the left side"] == mm("0.79375")
    tapered = gaps(made(taper="1/32", bottom_panel_clearance="1/16"), "bottom in")
    assert set(tapered.values()) == {mm("0.79375")}


def test_the_tongue_of_a_tapered_back_has_least_room_outside():
    found = gaps(made(taper="1/16"), "back in")
    for hand in ("left", "right"):
        inside, outside = (found[f"back in, at its wall {where}, the {hand} side"] for where in ("inside", "outside"))
        assert inside > outside >= NOWHERE


# -- the table of corners ------------------------------------------------------------------------------


def test_each_kind_stands_where_it_can():
    assert list(AT_FRONT) == ["loose tenon", "half-blind locking rabbet"]
    assert list(AT_BACK) == ["locking rabbet", "dado"]
    assert {kind.word for kind in CORNERS} == {*AT_FRONT, *AT_BACK}


@pytest.mark.parametrize("changed", [{"front_joint": LOCKED}, {"back_joint": TENONED}])
def test_a_corner_where_it_cannot_stand_is_refused(changed):
    usual = shop()
    with pytest.raises(BadInput, match=r"can't stand at the (front|back) of a drawer"):
        whole(spec(usual, make=drawer_make(**changed)), usual)


def test_a_section_shows_the_corners_that_are_cut_through_their_run():
    assert {kind.word: kind.section for kind in CORNERS if kind.section is None} == {"loose tenon": None}
    assert {kind.section for kind in CORNERS} == {None, Axis.ACROSS}
