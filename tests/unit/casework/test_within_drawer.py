"""Where the parts of one drawer meet."""

import pytest

from joinlay.casework.meeting import unmet
from joinlay.casework.opening import BackJoint, FrontJoint
from joinlay.casework.within_drawer import drawer_meetings
from joinlay.lengths import NOTHING, dimension, mm
from tests.assembly.pieces import drawer_make, shop, spec, whole

NOWHERE = dimension(mm(0))


def made(front=FrontJoint.HALF_BLIND, back=BackJoint.LOCKING_RABBET, **figures):
    own = shop(**figures)
    return whole(spec(own, make=drawer_make(front_joint=front, back_joint=back)), own).drawers[0]


def boards_of(drawer):
    return {board.name: board for board in drawer.assembly.boards}


def gaps(drawer, part):
    return {found.what.removeprefix("drawer 1 "): found.gap for found in drawer_meetings(drawer) if part in found.what}


@pytest.mark.parametrize("taper", ["0", "1/32", "-1/32"])
@pytest.mark.parametrize("back", BackJoint)
@pytest.mark.parametrize("front", FrontJoint)
def test_every_part_meets_the_others_as_stated(front, back, taper):
    drawer = made(front, back, taper=taper)
    assert unmet(drawer_meetings(drawer), boards_of(drawer)) == ()


@pytest.mark.parametrize(
    ("part", "way", "said"),
    [
        (
            "front",
            (0, 1, 0),
            {"drawer 1 left side against the lip of the front", "drawer 1 right side against the lip of the front"},
        ),
        (
            "left side",
            (1, 0, 0),
            {"drawer 1 left side on the floor of the slot", "drawer 1 front tongue in the drawer 1 left side"},
        ),
        ("back", (0, 1, 0), {"drawer 1 back against the drawer 1 left side", "drawer 1 back from the drawer 1 left side"}),
        (
            "back",
            (1, 0, 0),
            {"drawer 1 back in the drawer 1 left side, inside", "drawer 1 back in the drawer 1 left side, outside"},
        ),
        ("bottom", (1, 0, 0), {"drawer 1 bottom in the drawer 1 right side, at its front"}),
    ],
)
def test_a_part_a_hair_out_of_place_is_found(part, way, said):
    drawer = made(taper="1/32")
    moved = drawer.board(part).moved(*(dimension(mm("0.01") * step) for step in way))
    wrong = unmet(drawer_meetings(drawer), {**boards_of(drawer), moved.name: moved})
    assert said <= {found.what for found, _ in wrong}


def test_the_gaps_are_those_of_the_rules():
    straight = made(tip_gap="1/64", tongue_fit="1/128", bottom_panel_clearance="1/16")
    half_blind = gaps(straight, "tongue")
    assert half_blind["front tongue in the drawer 1 left side"] in (NOTHING, dimension(mm("0.396875")))
    assert gaps(straight, "bottom in")["bottom in the drawer 1 left side"] == dimension(mm("0.79375"))
    tapered = gaps(made(taper="1/32", bottom_panel_clearance="1/16"), "bottom in")
    assert set(tapered.values()) == {dimension(mm("0.79375"))}


def test_the_tongue_of_a_tapered_back_has_least_room_outside():
    found = gaps(made(taper="1/16"), "back in")
    for hand in ("left", "right"):
        inside, outside = (found[f"back in the drawer 1 {hand} side, {where}"] for where in ("inside", "outside"))
        assert inside > outside >= NOWHERE
