"""The meetings a plan keeps: every two boards that touch have one, and they close in the ways it says, on the solids."""

from itertools import combinations
from typing import Any

import pytest

from joinlay.boards import PartKind
from joinlay.boards.meeting import Tie, Way
from joinlay.casework.bay import DrawerWish
from joinlay.casework.case_sizes import CaseMake
from joinlay.casework.corners import AT_BACK, AT_FRONT
from joinlay.casework.graduation import Equal
from joinlay.casework.opening import BackHeight
from joinlay.casework.piece import Bank
from joinlay.checks.solids import CONTACT
from tests.assembly.pieces import drawer_make, ply, shop, size, solid, spec, whole
from tests.assembly.solids import HAIR, solids

#: So far, in mm, a part is drawn back on its way out; between them the next board would be met.
FAR = (HAIR, 1, 3, 7, 20, 60, 200, 265, 600)

#: A shift of a hundredth of a millimetre into another board shares more than this, in cubic millimetres, where both touch at all.
TOUCHES = 1e-4


def chest(front="loose tenon", back="locking rabbet", height=BackHeight.FULL, taper="0", bar=None, **changed):
    own = shop(taper=taper, **changed.pop("figures", {}))
    make = drawer_make(front_joint=AT_FRONT[front], back_joint=AT_BACK[back], back_height=height, bar=bar)
    wish = DrawerWish(make, own)
    banks = {"banks": (Bank(Equal(2), (wish,) * 2), Bank(Equal(3), (wish,) * 3)), "width": size(48)}
    usual = {"height": size(20), **(banks if changed.pop("two", False) else {"banks": (Bank(Equal(2), (wish,) * 2),)})}
    return whole(spec(own, **{**usual, **changed}), own)


CHESTS: dict[str, dict[str, Any]] = {
    **{f"{word} at the front": {"front": word} for word in AT_FRONT},
    **{f"{word} at the back": {"back": word} for word in AT_BACK},
    "half-blind and housed": {"front": "half-blind locking rabbet", "back": "dado", "height": BackHeight.ON_BOTTOM},
    "tapered": {"taper": "1/32", "height": BackHeight.ON_BOTTOM},
    "wider at its back": {"taper": "-1/32", "front": "half-blind locking rabbet", "height": BackHeight.ON_BOTTOM},
    "two banks": {"two": True},
    "barred": {"bar": solid("3/4")},
    "barred under the back": {"bar": solid("3/4"), "front": "half-blind locking rabbet", "height": BackHeight.ON_BOTTOM},
    "solid": {"case": CaseMake(solid("3/4"), solid("3/4"), ply("1/4"), has_stopped_dadoes=True)},
}
ANY_CHEST = pytest.mark.parametrize("changed", CHESTS.values(), ids=list(CHESTS))


def shifted(body, way, far):
    return body.moved(*(float(part) * far for part in way.vector))


def touch(one, other):
    """True where both share a surface: a hair towards it, one is in the other."""
    return any((moved := shifted(one, way, 0.01)).meets(other) and moved.shared(other) > TOUCHES for way in Way)


@ANY_CHEST
def test_every_two_boards_that_touch_have_one_meeting(changed):
    piece = chest(**changed)
    pairs = [frozenset((met.one, met.other)) for met in piece.meetings]
    assert len(set(pairs)) == len(pairs)
    bodies = solids(piece.boards)
    assert {role.name for pair in pairs for role in pair} <= {role.name for role in bodies}
    untold = [
        (one.name, other.name)
        for one, other in combinations(bodies, 2)
        if frozenset((one, other)) not in pairs and touch(bodies[one], bodies[other])
    ]
    assert untold == []


def is_free_backwards(one, other, way):
    """True where ``one``, drawn back from ``other`` against ``way``, never comes into it."""
    return all(shifted(one, way.opposite, far).shared(other) <= CONTACT for far in FAR)


@ANY_CHEST
def test_boards_close_in_the_ways_it_says_and_in_no_other(changed):
    """A part that leans or is planed to a slant parts from its place by little, so its ways are looked at in the straight
    chests.
    """
    piece = chest(**changed)
    bodies = solids(piece.boards)
    for met in piece.meetings:
        if met.tie.is_fixed and "taper" not in changed:
            free = {way for way in Way if is_free_backwards(bodies[met.one], bodies[met.other], way)}
            assert set(met.closes) == free, (met.one.name, met.other.name)


def bottom_in_sides(**changed):
    piece = chest(height=BackHeight.ON_BOTTOM, **changed)
    bodies = solids(piece.boards)
    for met in piece.meetings:
        if met.one.kind is PartKind.DRAWER_BOTTOM and met.other.kind is PartKind.DRAWER_SIDE:
            yield met, bodies[met.one], bodies[met.other]


@pytest.mark.parametrize(("taper", "wide"), [("1/32", Way.BACK), ("-1/32", Way.FRONT)])
@pytest.mark.parametrize(("clearance", "is_enough"), [("1/16", True), ("1/64", False)])
def test_a_bottom_goes_into_a_tapered_drawer_from_its_wide_end_and_by_its_clearance_from_the_other(
    taper, wide, clearance, is_enough
):
    for met, bottom, side in bottom_in_sides(taper=taper, figures={"bottom_panel_clearance": clearance}):
        assert wide in met.closes
        assert (wide.opposite in met.closes) is is_enough
        # Drawn through the groove from end to end it comes into the side only where it is said not to go.
        assert all(shifted(bottom, wide.opposite, far).shared(side) <= CONTACT for far in range(0, 460, 40))
        assert all(shifted(bottom, wide, far).shared(side) <= CONTACT for far in range(0, 460, 40)) is is_enough


def test_glue_and_fasteners_are_where_they_are_said():
    piece = chest()
    for met in piece.meetings:
        assert bool(met.glue) is (met.tie in (Tie.GLUED, Tie.NAILED, Tie.SCREWED)), (met.one.name, met.other.name)
        assert bool(met.fasteners) is (met.tie in (Tie.NAILED, Tie.SCREWED, Tie.FASTENED))
        assert met.cheeks <= met.glue or met.one.kind is PartKind.LOOSE_TENON
        assert met.closes
