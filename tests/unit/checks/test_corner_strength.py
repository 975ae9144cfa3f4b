"""The estimate of what loose-tenon corners hold."""

from dataclasses import replace
from fractions import Fraction

import pytest

from joinlay.boards import CutUse, Hand
from joinlay.casework.corners import HALF_BLIND
from joinlay.checks.conditions import Load
from joinlay.checks.corner_strength import GLUE_SHEAR, check_corners, corner_strength, jerk
from joinlay.checks.sag import bottom_span
from joinlay.findings import Harm
from tests.unit.checks.making import CONDITIONS, SHOP, drawer


def cheeks(board, mate):
    """Both cheeks of every mortise of ``board`` for ``mate``, in square mm."""
    cuts = [cut for cut in board.cuts_of(CutUse.MORTISE) if cut.role.mate == mate.role]
    return sum(2 * float(cut.across.size.mm * cut.depth.mm) for cut in cuts)


def test_the_weaker_half_of_the_joint_counts():
    """The cheeks of its mortises in the front, which are less deep than those in the side."""
    made = drawer()
    front, side = made.front, made.side(Hand.LEFT)
    weaker = min(cheeks(front, side), cheeks(side, front))
    assert weaker == cheeks(front, side) > 0
    assert corner_strength(made, Hand.LEFT) == pytest.approx((weaker * GLUE_SHEAR[0], weaker * GLUE_SHEAR[1]))


def test_a_usual_drawer_gets_a_note_and_says_it_is_an_estimate():
    (finding,) = check_corners(drawer(), SHOP, CONDITIONS)
    assert finding.harm is Harm.NOTE
    assert "estimate" in finding.source
    assert "estimate" in finding.what
    made = drawer()
    glue = min(cheeks(made.front, made.side(Hand.LEFT)), cheeks(made.side(Hand.LEFT), made.front))
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


def test_a_jerk_is_three_times_the_friction_of_a_load_on_rough_wood():
    """By hand, of 1000 Pa on the bottom alone: 3 x 0.5 x its force in newtons (our own choice; friction as in racking)."""
    made = drawer()
    span = bottom_span(made)
    bare, loaded = (jerk(made, replace(CONDITIONS, load=Load(Fraction(pascals)))) for pascals in (0, 1000))
    assert loaded - bare == pytest.approx(3 * 0.5 * 1000 * float(span.area) / 10**6)


def test_a_locking_rabbet_is_passed_over():
    assert check_corners(drawer(front_joint=HALF_BLIND), SHOP, CONDITIONS) == ()
