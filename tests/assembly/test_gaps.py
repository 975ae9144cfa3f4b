"""Every tongue, tenon, panel, bearer and stop sits with its stated gap, on the planes and on the solids."""

import pytest

from joinlay.casework.bay import DrawerWish
from joinlay.casework.case_sizes import CaseMake
from joinlay.casework.corners import AT_BACK, AT_FRONT, HALF_BLIND, HOUSED, SHAPED_LOCK
from joinlay.casework.face_frame import FrameMake
from joinlay.casework.graduation import Arithmetic, Geometric
from joinlay.casework.opening import BackHeight
from joinlay.casework.piece import Bank
from joinlay.lengths import Fraction
from tests.assembly.pieces import drawer_make, ply, shop, size, solid, spec, whole
from tests.assembly.solids import prove_assembled, prove_gaps


@pytest.mark.parametrize("taper", ["0", "1/32", "-1/32"])
@pytest.mark.parametrize("back", AT_BACK.values(), ids=list(AT_BACK))
@pytest.mark.parametrize("front", AT_FRONT.values(), ids=list(AT_FRONT))
def test_a_plain_chest(front, back, taper):
    # A shaped lock at the back wants its sides square, which a taper doesn't give (MS-11).
    own = shop(taper="0" if back is SHAPED_LOCK else taper)
    make = drawer_make(front_joint=front, back_joint=back)
    made = whole(spec(own, make=make, heights=Arithmetic(2, size("3/4")), height=size(20)), own)
    prove_assembled(made)
    prove_gaps(made)


def test_a_solid_chest_with_half_blind_fronts():
    own = shop()
    make = drawer_make(front_joint=HALF_BLIND, back_height=BackHeight.ON_BOTTOM, back_joint=HOUSED, sides=solid("1/2"))
    case = CaseMake(solid("3/4"), solid("3/4"), ply("1/4"), has_stopped_dadoes=True)
    frame = FrameMake(solid("3/4"), overhang=size("1/8"), overhang_top=size("1/4"))
    made = whole(spec(own, make=make, case=case, frame=frame, heights=Geometric(3, Fraction(6, 5))), own)
    prove_assembled(made)
    prove_gaps(made)


def test_two_banks_with_a_partition():
    own = shop()
    wish = DrawerWish(drawer_make(), own)
    banks = (Bank(Arithmetic(3, size("1")), (wish,) * 3), Bank(Geometric(2, Fraction(5, 4)), (wish,) * 2))
    made = whole(spec(own, banks=banks, width=size(48)), own)
    prove_assembled(made)
    prove_gaps(made)
