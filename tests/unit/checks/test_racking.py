"""When a drawer jams."""

from dataclasses import replace
from fractions import Fraction

import pytest

from joinlay.boards import CutKind, Shape, Surface
from joinlay.checks.racking import FRICTION, check_racking, jamming_length, jams_at, pull_offset, pull_over_friction
from joinlay.errors import BadInput
from joinlay.findings import Harm
from joinlay.lengths import ZERO, Length, mm
from tests.unit.checks.making import SHOP, cut, drawer


def test_a_pull_in_the_middle_never_jams():
    made = drawer(width=500)
    assert pull_offset(made, SHOP) == ZERO
    assert check_racking(made, SHOP) == ()
    assert jams_at(made, ZERO, Fraction(1, 2)) == made.length


def test_wide_drawers_take_two_pulls():
    made = drawer(width=900)
    front = made.board("front").length
    assert pull_offset(made, SHOP) == front / 4


@pytest.mark.parametrize(("width", "offset"), [("601.6", "150"), ("601.59", "0")])
def test_two_pulls_from_just_600(width, offset):
    """The front is 1.6 mm narrower than its opening."""
    assert pull_offset(drawer(width=width), SHOP) == mm(offset)


def test_pull_holes_go_before_the_rule():
    made = drawer(width=500)
    front = made.board("front")
    hole = cut(CutKind.HOLE, Surface.FAR_FACE, (60, 66), (40, 46), (0, 18), "pull hole 1", shape=Shape.ROUND)
    boards = tuple(b.with_cuts(hole) if b is front else b for b in made.assembly.boards)
    bored = replace(made, assembly=replace(made.assembly, boards=boards))
    assert pull_offset(bored, SHOP) == front.length / 2 - mm(63)


def test_rougher_runners_jam_sooner():
    made = drawer(width=900)
    out = [jams_at(made, mm(225), friction) for friction in FRICTION.values()]
    assert out == sorted(out, reverse=True)


def test_half_its_length_on_planed_runners_is_the_limit():
    made = drawer(width=900)
    limit = made.length / (2 * 2 * FRICTION["planed"])
    assert jams_at(made, limit, FRICTION["planed"]) == made.length / 2
    assert [f.harm for f in check_racking(made, SHOP, limit)] == [Harm.NOTE]
    (finding,) = check_racking(made, SHOP, limit + mm("0.01"))
    assert finding.harm is Harm.WARN
    needed = finding.numbers["needed"]
    assert isinstance(needed, Length)
    assert needed > made.length
    assert jamming_length(limit + mm("0.01"), FRICTION["planed"]) <= needed / 2


def test_so_far_off_that_it_never_starts():
    made = drawer(width=900)
    assert jams_at(made, made.length * 2, Fraction(1, 2)) == ZERO
    assert pull_over_friction(made.length, made.length, Fraction(1, 2)) is None


def test_a_pull_in_the_middle_is_just_friction():
    assert pull_over_friction(ZERO, mm(300), Fraction(1, 2)) == 1


@pytest.mark.parametrize(("offset", "friction"), [(mm(-1), Fraction(1, 2)), (mm(1), Fraction(-1, 2))])
def test_numbers_under_nothing_are_refused(offset, friction):
    with pytest.raises(BadInput):
        jamming_length(offset, friction)
