"""Odd jobs: each either assembles, or is refused with the number, by how much, and what would work."""

from __future__ import annotations

import pytest

from joinlay.casework.bay import DrawerWish
from joinlay.casework.case_sizes import CaseMake
from joinlay.casework.corners import AT_FRONT
from joinlay.casework.face_frame import FrameMake
from joinlay.casework.graduation import ByShares, Equal
from joinlay.casework.opening import ToPlane
from joinlay.casework.piece import Bank
from joinlay.casework.row import RowWish
from joinlay.casework.stops import StopMake
from joinlay.findings import Refused
from joinlay.lengths import Fraction, Unit
from tests.assembly.pieces import drawer_make, ply, shop, size, solid, spec, tried, way_out, whole
from tests.assembly.solids import prove_assembled


def frame(**changed):
    return FrameMake(solid("3/4"), **{name: size(value) for name, value in changed.items()})


def bank(count, own, **changed):
    return Bank(Equal(count), (DrawerWish(drawer_make(**changed), own),) * count)


def refused(wanted, own):
    made = tried(wanted, own)
    assert isinstance(made, Refused)
    return way_out(made, own)


def test_one_drawer():
    own = shop()
    prove_assembled(whole(spec(own, heights=Equal(1), height=size(10)), own))


def test_forty_drawers():
    own = shop()
    made = whole(spec(own, banks=(bank(10, own),) * 4, width=size(90), height=size(70)), own)
    assert [drawer.name for drawer in made.drawers] == [f"drawer {n}" for n in range(1, 41)]
    prove_assembled(made)


def test_rails_of_two_millimetres():
    own = shop()
    said = refused(spec(own, frame=frame(rail="2 mm")), own)
    assert said.startswith("face frame rail under drawer 1: ")
    # 4 mm tenons twice as wide between shoulders of 3/16: 0.69 in, up to the next mark of the rule.
    lowest = "23/32"
    assert f"The lowest rail that holds one is {lowest} in" in said
    prove_assembled(whole(spec(own, frame=frame(rail=lowest)), own))


def test_a_frame_narrower_than_the_case_inside():
    own = shop()
    said = refused(spec(own, frame=frame(stile="5/8")), own)
    assert "leaves 1/8 in of the case left side in the opening" in said
    assert "Make the stile at least 1/8 in wider" in said
    prove_assembled(whole(spec(own, frame=frame(stile="3/4")), own))


def test_a_frame_wider_than_the_case():
    own = shop()
    prove_assembled(whole(spec(own, frame=frame(stile="3", overhang="1/4", overhang_top="1/8", overhang_bottom="1/2")), own))


def test_a_case_three_metres_tall():
    own = shop()
    prove_assembled(whole(spec(own, height=size("3 m"), heights=Equal(9)), own))


def test_clearances_of_half_an_inch():
    wide = shop(side_clearance="1/2", top_clearance="1/2")
    prove_assembled(whole(spec(wide), wide))
    own = shop(side_clearance="1/2", top_clearance="1/2", bottom_clearance_of_the_front="1/2")
    said = refused(spec(own), own)
    assert "A stop block 3/16 in high stays under the front, which stands 1/2 in above the rail" in said
    assert "Make it at least 19/32 in high" in said


def test_a_drawer_wider_at_its_back():
    within = shop(taper="-1/32")
    prove_assembled(whole(spec(within), within))
    own = shop(taper="-1/4")
    said = refused(spec(own), own)
    assert said.startswith("drawer 1: The drawer is 1/4 in wider at its back")
    assert "the opening leaves 1/16 in in all" in said
    assert "widen by 1/16 in at most" in said
    limit = shop(taper="-1/16")
    prove_assembled(whole(spec(limit), limit))


@pytest.mark.parametrize("thickness", ["1 1/4", "1 3/4"])
@pytest.mark.parametrize("joint", AT_FRONT.values(), ids=list(AT_FRONT))
def test_thick_solid_fronts(thickness, joint):
    own = shop()
    make = drawer_make(front=solid(thickness), front_joint=joint)
    prove_assembled(whole(spec(own, make=make), own))


def test_a_strip_too_thin_for_its_blocks_and_too_thick_to_lie_flat():
    own = shop()
    wanted = spec(own, make=drawer_make(front=solid("1 3/4")), stops=StopMake(ply("1 1/8")))
    said = refused(wanted, own)
    assert "would have to be 1 1/2 in deep" in said
    assert "at least 1 1/2 in thick or at most 31/32 in" in said


def test_all_metric():
    own = shop(Unit.MM, "0.5 mm")
    make = drawer_make(front=solid("19 mm"), sides=ply("11.7 mm"), back=ply("11.7 mm"), bottom=ply("5.6 mm"))
    case = CaseMake(ply("17.6 mm"), ply("17.6 mm"), ply("5.6 mm"))
    wanted = spec(
        own, make=make, frame=FrameMake(solid("20 mm")), case=case, runner=solid("18 mm", "red maple"),
        width=size("600 mm"), height=size("900 mm"), depth=size("480 mm"),
    )  # fmt: skip
    prove_assembled(whole(wanted, own))


def test_rows_of_two_and_three_over_and_under_long_drawers():
    own = shop()
    wish = DrawerWish(drawer_make(), own)
    rows = (RowWish(2), RowWish(), RowWish(3, ByShares((Fraction(1), Fraction(2), Fraction(1)))), RowWish(3), RowWish())
    mixed = Bank(Equal(5), (wish,) * 10, rows=rows, mullion=size("1"))
    made = whole(spec(own, banks=(mixed, bank(2, own)), width=size(60)), own)
    prove_assembled(made)


def test_drawers_made_full_to_their_openings():
    full = shop(side_clearance="0", top_clearance="0", bottom_clearance_of_the_front="0")
    planed = ToPlane(size("1/32"), size("1/32"), size("1/32"))
    prove_assembled(whole(spec(full, make=drawer_make(planed=planed), heights=Equal(2), height=size(16)), full))
