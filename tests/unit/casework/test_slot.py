"""A drawer's slot in the piece (RN-2, RN-3)."""

import pytest

from joinlay.casework.bay import DrawerWish
from joinlay.casework.case_sizes import CaseMake
from joinlay.casework.face_frame import FrameMake
from joinlay.casework.graduation import Equal
from joinlay.casework.piece import Bank, plan_piece
from joinlay.findings import Refused
from joinlay.lengths import inches
from tests.assembly.pieces import drawer_make, ply, shop, size, solid, spec, tried, way_out

SHOP = shop()


def slots(**changed):
    return plan_piece(spec(SHOP, **changed), SHOP).slots


def test_the_opening_runs_from_the_face_of_the_frame_to_the_case_back():
    slot = slots()[0]
    assert slot.opening.depth == inches("20") - inches("9/32")
    assert slot.opening.width == inches(21)
    assert slot.left == inches("1 1/2")


def test_the_guide_is_as_thick_as_the_frame_covers_the_case():
    assert (slots()[0].guide_left, slots()[0].guide_right) == (inches("3/4"), inches("3/4"))
    flush = slots(frame=FrameMake(solid("3/4"), stile=size("3/4")))[0]
    assert not flush.guide_left
    proud = slots(frame=FrameMake(solid("3/4"), overhang=size("1/4")))[0]
    assert proud.guide_left == inches("1/2")


def test_what_lies_below_and_above_is_the_rail_or_the_case():
    first, *_, last = slots()
    assert (first.above, first.below) == (inches("3/4"), inches(1))
    assert (last.above, last.below) == (inches(1), inches("3/4"))
    assert tuple(role.name for role in last.rails) == ("face frame bottom rail", "face frame rail under drawer 3")
    assert tuple(role.name for role in first.rails) == ("face frame rail under drawer 1", "face frame top rail")


def test_banks_have_guides_against_the_partition():
    wish = DrawerWish(drawer_make(), SHOP)
    left, right = slots(banks=(Bank(Equal(1), (wish,)),) * 2, width=size(48))
    assert left.guide_right == right.guide_left == (inches("1 1/2") - inches("3/4")) / 2
    assert tuple(role.name for role in left.uprights) == ("face frame left stile", "face frame mullion 1")
    assert tuple(role.name for role in right.uprights) == ("face frame mullion 1", "face frame right stile")


@pytest.mark.parametrize(
    ("frame", "sides", "said"),
    [
        ({"stile": "5/8"}, "3/4", "Make the stile at least 1/8 in wider"),
        ({"stile": "1", "overhang": "1/2"}, "3/4", "Make the stile at least 1/4 in wider"),
        ({"mullion": "3/4"}, "1", "Make the mullion at least 1/4 in wider"),
    ],
)
def test_a_frame_that_does_not_cover_the_case_is_refused(frame, sides, said):
    wish = DrawerWish(drawer_make(), SHOP)
    make = FrameMake(solid("3/4"), **{name: size(value) for name, value in frame.items()})
    case = CaseMake(ply(sides), ply("3/4"), ply("1/4"))
    made = tried(spec(SHOP, frame=make, case=case, banks=(Bank(Equal(1), (wish,)),) * 2, width=size(48)), SHOP)
    assert isinstance(made, Refused)
    assert made.finding.rule == "RN-2"
    assert said in way_out(made, SHOP)
