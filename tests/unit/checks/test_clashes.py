"""Cuts that meet in one board: what is refused, what is warned of, and what is meant to meet."""

from fractions import Fraction
from itertools import combinations

import pytest

from joinlay.boards import CutKind, DrawerRole, Shape, Surface
from joinlay.casework.corners import AT_BACK, AT_FRONT
from joinlay.casework.drawer import plan_drawer
from joinlay.casework.opening import BackHeight, DrawerMake, Opening
from joinlay.checks.clashes import check_clashes, stands_alone, wood_between
from joinlay.findings import Harm
from joinlay.joints.groove import cut_groove, design_groove
from joinlay.lengths import ZERO, mm
from tests import by_hand
from tests.unit.checks.making import PLY, PRACTICE, SHOP, board, cut, drawer, groove, mortise, size


def harms(made):
    return [finding.harm for finding in check_clashes(made, PRACTICE)]


def test_a_groove_through_a_mortise_is_refused():
    (finding,) = check_clashes(board(mortise((100, 106), (20, 40)), groove((30, 36))), PRACTICE)
    assert finding.harm is Harm.REFUSE
    assert finding.kind == "clash"
    assert finding.rule == "LT-11"
    assert finding.sentence(str) == "The mortise and the groove meet."
    assert finding.numbers["least"] == PRACTICE.length("keep-out clearance")


@pytest.mark.parametrize(
    ("bottom", "expected"),
    [(36, [Harm.REFUSE]), (40, [Harm.REFUSE]), (41, [Harm.WARN]), ("42.999", [Harm.WARN]), (43, []), (50, [])],
)
def test_wood_between_a_mortise_and_a_groove(bottom, expected):
    """The mortise ends at 40 mm, the clearance is 3 mm: at 43 the limit itself is sound."""
    assert harms(board(mortise((100, 106), (20, 40)), groove((bottom, 50 if bottom != 50 else 56)))) == expected


def test_a_shallow_groove_on_the_far_face_is_no_obstacle_behind_enough_wood():
    deep = mortise((100, 106), (20, 40), into=(0, 9))
    for start, expected in ((9, [Harm.REFUSE]), (11, [Harm.WARN]), (12, []), (14, [])):
        behind = groove((25, 31), into=(start, 18), surface=Surface.FAR_FACE)
        assert harms(board(deep, behind)) == expected


def test_askew_the_shortest_way_counts():
    one = mortise((100, 106), (20, 40), into=(0, 10))
    # 3 mm away in two directions at once is more than 3 mm of wood.
    assert harms(board(one, mortise((109, 115), (43, 60), name="other"))) == []
    assert harms(board(one, mortise((107, 115), (42, 60), name="other"))) == [Harm.WARN]


def test_wood_between_is_exact_in_one_direction_and_never_too_much_askew():
    one = mortise((100, 106), (20, 40))
    assert wood_between(one, mortise(("106 1/3", 115), (20, 40))) == mm("1/3")
    assert wood_between(one, mortise((104, 115), (30, 45))) == ZERO
    assert wood_between(one, mortise((109, 115), (44, 60))) == mm(5)
    askew = wood_between(one, mortise((107, 115), (41, 60)))
    assert mm("1.414") == askew
    assert askew.mm**2 <= Fraction(2)


def test_channels_may_run_into_one_another():
    dado = cut(CutKind.DADO, Surface.FACE, (380, 386), (0, 100), (0, 6), "dado")
    rabbet = cut(CutKind.RABBET, Surface.FAR_FACE, (0, 6), (0, 100), (12, 18), "rabbet")
    slot = cut(CutKind.SLOT, Surface.END, (0, 12), (0, 100), (6, 12), "corner slot")
    assert not stands_alone(slot)
    assert harms(board(dado, rabbet, slot, groove((10, 16)))) == []


@pytest.mark.parametrize(("deep", "expected"), [(5, []), (6, []), (7, [Harm.WARN]), (12, [Harm.REFUSE]), (13, [Harm.REFUSE])])
def test_channels_from_both_faces_leave_a_third(deep, expected):
    """18 mm thick, one 6 deep from behind: 6 mm left is the limit itself."""
    near = cut(CutKind.DADO, Surface.FACE, (100, 112), (0, 100), (0, deep), "dado")
    far = cut(CutKind.DADO, Surface.FAR_FACE, (100, 112), (0, 100), (12, 18), "dado behind")
    found = check_clashes(board(near, far), PRACTICE)
    assert [finding.harm for finding in found] == expected
    assert all(finding.rule == "DA-3" for finding in found)


def test_a_joint_may_cross_its_own_cuts_but_its_mortises_may_not():
    assert harms(board(groove((10, 16), joint="corner"), groove((12, 20), joint="corner", name="step"))) == []
    row = [mortise((100, 106), (20, 40), joint="row"), mortise((100, 106), (39, 60), joint="row", name="second")]
    assert harms(board(*row)) == [Harm.REFUSE]
    spaced = [mortise((100, 106), (20, 40), joint="row"), mortise((100, 106), (41, 60), joint="row", name="second")]
    assert harms(board(*spaced)) == []


def test_a_hole_and_a_round_ended_slot_stand_alone():
    hole = cut(CutKind.HOLE, Surface.FAR_FACE, (100, 106), (40, 46), (0, 18), "pull hole 1", shape=Shape.ROUND)
    slot = cut(CutKind.SLOT, Surface.FACE, (100, 120), (40, 46), (0, 18), "screw slot", shape=Shape.ROUND_ENDS)
    assert stands_alone(hole)
    assert stands_alone(slot)
    assert harms(board(hole, groove((44, 50)))) == [Harm.REFUSE]
    assert harms(board(slot, groove((44, 50)))) == [Harm.REFUSE]


def test_the_worst_place_speaks_for_the_rest():
    row = [mortise((n, n + 6), (20, 40), name=f"mortise {n}") for n in (100, 150, 200)]
    (finding,) = check_clashes(board(*row, groove((30, 36))), PRACTICE)
    assert finding.sentence(str).endswith("(2 more such places in this board.)")
    (near,) = check_clashes(board(*row, groove((41, 47)), groove(("12.5", "18.5"), name="low groove")), PRACTICE)
    assert near.numbers["between"] == mm(1)
    assert near.numbers["more"] == 5


@pytest.mark.parametrize("front", AT_FRONT.values(), ids=list(AT_FRONT))
@pytest.mark.parametrize("back", AT_BACK.values(), ids=list(AT_BACK))
@pytest.mark.parametrize("height", list(BackHeight))
def test_a_planned_drawer_has_no_clash(front, back, height):
    make = DrawerMake(**PLY, front_joint=front, back_joint=back, back_height=height)
    for made in plan_drawer(DrawerRole(1), Opening(size(500), size(110), size(450)), make, SHOP).assembly.boards:
        assert check_clashes(made, PRACTICE) == ()


def test_a_second_groove_through_the_front_corner_of_a_planned_drawer_is_refused():
    front = drawer(height=110).board("front")
    hit = front.cut_named("left mortise 1").across.centre
    through = design_groove(
        into=front.thickness, panel=size(6), shop=SHOP, offset=hit, role=by_hand.joint_called("drawer 1 divider groove")
    )
    (finding,) = check_clashes(cut_groove(through, front, mate=by_hand.part("divider")), PRACTICE)
    assert finding.harm is Harm.REFUSE
    assert finding.where == "drawer 1 front"


@pytest.mark.parametrize("step", [4, 8, 9, 12])
def test_of_a_long_row_no_two_are_missed(step):
    """Every two cuts of a board with many are judged as those two alone are."""
    cuts = [mortise((10 + step * n, 16 + step * n), (20, 40)) for n in range(20)] + [groove((30 + step, 30 + 2 * step))]
    whole = check_clashes(board(*cuts), PRACTICE)
    pairs = [found for two in combinations(cuts, 2) for found in check_clashes(board(*two), PRACTICE)]
    counted = {harm: sum(found.harm is harm for found in pairs) for harm in (Harm.REFUSE, Harm.WARN)}
    told = {found.harm: 1 + int(str(found.numbers.get("more", 0))) for found in whole}
    assert told == {harm: count for harm, count in counted.items() if count}
    assert sum(counted.values()) >= 20
