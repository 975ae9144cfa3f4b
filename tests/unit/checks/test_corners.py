"""The estimate of what loose-tenon corners hold."""

from dataclasses import replace
from fractions import Fraction

import pytest

from joinlay.boards import CutKind, Hand
from joinlay.casework.opening import FrontJoint
from joinlay.checks.conditions import Load
from joinlay.checks.corners import GLUE_SHEAR, check_corners, corner_strength, glue_area, jerk
from joinlay.findings import Harm
from tests import by_hand
from tests.unit.checks.making import CONDITIONS, SHOP, drawer


def test_glue_area_is_both_cheeks_of_every_mortise():
    made = drawer()
    front, side = made.board("front"), made.board("left side")
    cuts = [cut for cut in front.cuts if cut.kind is CutKind.MORTISE and cut.mate == side.name]
    assert glue_area(front, side.role) == pytest.approx(sum(2 * float(cut.across.size.mm * cut.into.size.mm) for cut in cuts))
    assert glue_area(front, by_hand.part("nothing")) == 0


def test_the_weaker_half_of_the_joint_counts():
    made = drawer()
    front, side = made.board("front"), made.board("left side")
    weaker = min(glue_area(front, side.role), glue_area(side, front.role))
    assert corner_strength(made, Hand.LEFT) == (weaker * GLUE_SHEAR[0], weaker * GLUE_SHEAR[1])


def test_a_usual_drawer_gets_a_note_and_says_it_is_an_estimate():
    (finding,) = check_corners(drawer(), SHOP, CONDITIONS)
    assert finding.harm is Harm.NOTE
    assert "estimate" in finding.source
    assert "estimate" in finding.what
    made = drawer()
    glue = min(glue_area(made.board("front"), made.side(Hand.LEFT).role), glue_area(made.board("left side"), made.front.role))
    assert finding.numbers["glue"] == f"{glue / 100:.0f} cm2"


def test_corners_are_judged_against_a_jerk():
    """The load at which both are equal is the limit, and sound."""
    made = drawer()
    low = corner_strength(made, Hand.LEFT)[0]
    bare = jerk(made, replace(CONDITIONS, load=Load(Fraction(0))))
    each_pascal = jerk(made, replace(CONDITIONS, load=Load(Fraction(1)))) - bare
    limit = (low - bare) / each_pascal
    assert [f.harm for f in check_corners(made, SHOP, replace(CONDITIONS, load=Load(Fraction(limit * (1 - 1e-9)))))] == [
        Harm.NOTE
    ]
    assert [f.harm for f in check_corners(made, SHOP, replace(CONDITIONS, load=Load(Fraction(limit * (1 + 1e-6)))))] == [
        Harm.WARN
    ]


def test_a_locking_rabbet_is_passed_over():
    assert check_corners(drawer(front_joint=FrontJoint.HALF_BLIND), SHOP, CONDITIONS) == ()
