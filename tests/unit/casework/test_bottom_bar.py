"""A grooved bar down the middle of a wide bottom: where it stands, what it holds, and what is refused (BO-1)."""

from fractions import Fraction

import pytest

from joinlay.boards import CutUse, Hand, PartKind, Surface
from joinlay.boards.meeting import Tie, unmet
from joinlay.casework.opening import BackHeight
from joinlay.cutlist.cutting_list import taper_words
from joinlay.findings import Refused
from joinlay.lengths import Length, mm, plain_mm
from tests.unit.checks.making import drawer, sheet, shop_with, solid

OAK = solid("oak", 20, "white oak")


def barred(bar=OAK, **changed):
    return drawer(width=1000, depth=550, bar=bar, **changed)


def across(board):
    left = board.place.origin[0]
    return left, left + (board.thickness if board.role.kind is PartKind.BOTTOM_BAR else board.length).mm


@pytest.mark.parametrize("height", BackHeight)
def test_bar_and_halves_stand_as_a_maker_works_them_out(height):
    """Opening 1000: inside 1000 - 2 x 0.8 - 2 x 12 = 974.4. Grooves 6 deep, under a back 5 in the bar: 20 less a 3.5 screw
    and 3 at each side of it, halved, on half a millimetre. 1.6 clearance. Common practice.
    """
    made = barred(back_height=height)
    deep = Fraction(6) if height is BackHeight.FULL else Fraction(5)
    left, right = made.bottoms
    assert made.inside_width == mm("974.4")
    assert left.length == right.length == Length((Fraction("974.4") - 20) / 2 + 6 + deep - Fraction("1.6"))
    # Each lies half its clearance off the floor of its groove at either end, the bar in the very middle.
    assert across(made.bar) == (490, 510)
    assert across(left)[1] == 490 + deep - Fraction("0.8")
    assert across(right)[0] == 510 - deep + Fraction("0.8")
    assert [groove.depth.mm for groove in made.bar.cuts_of(CutUse.GROOVE)] == [deep, deep]
    # 10 to the sides' groove, 3 of it under the bar; 6 of bottom; 10 over it.
    assert made.bar.width == mm(23)
    assert made.bar.place.origin[2] == made.side(Hand.LEFT).place.origin[2] + 3


@pytest.mark.parametrize("height", BackHeight)
def test_its_grooves_are_as_high_as_the_sides_and_all_meets_as_stated(height):
    made = barred(back_height=height)
    boards = {board.role: board for board in made.assembly.boards}
    assert unmet(made.assembly.meetings, boards) == ()

    def groove_at(board):
        (groove, *_) = board.cuts_of(CutUse.GROOVE)
        return board.place.origin[2] + groove.across.start.mm

    assert groove_at(made.bar) == groove_at(made.side(Hand.LEFT)) == groove_at(made.front)
    assert {met.one for met in made.assembly.meetings if met.other == made.bar.role} == {half.role for half in made.bottoms}


@pytest.mark.parametrize("taper", [1, -1])
def test_in_a_tapered_drawer_the_outer_ends_are_planed_and_the_inner_ones_square(taper):
    """DR-4: 1 in all over the sides' 518 (550 less 12 and the front's 20 in front of them); half of it at each half, from its
    front edge, 6 - 0.8 before the sides, to its back edge.
    """
    made = barred(shop=shop_with(taper=taper), front=OAK)
    boards = {board.role: board for board in made.assembly.boards}
    assert unmet(made.assembly.meetings, boards) == ()
    for half in made.bottoms:
        ((outer, front, back),) = ((each.surface, each.near, each.far) for each in half.tapers)
        assert outer is (Surface.END if half.role.hand is Hand.LEFT else Surface.FAR_END)
        slope = half.width.mm / 518 / 2
        assert (front.mm, back.mm) == ((0, slope) if taper > 0 else (slope, 0))
        wide = half.length.mm - front.mm
        assert "off the outer end" in taper_words(half, plain_mm)
        assert wide == Fraction("487.6") + taper * Fraction("5.2") / 518 / 2


def test_it_hangs_no_lower_than_the_sides_and_passes_under_a_standing_back():
    made = barred(back_height=BackHeight.ON_BOTTOM)
    bar, back = made.bar, made.back
    assert bar.place.origin[2] > made.side(Hand.LEFT).place.origin[2]
    assert bar.place.origin[1] + bar.length.mm == back.place.origin[1] + back.thickness.mm
    (under,) = [met for met in made.assembly.meetings if {met.one, met.other} == {bar.role, back.role}]
    assert (under.tie, under.fasteners) == (Tie.FASTENED, 1)
    # The screw stands in what the two grooves leave, with its 3 at each side.
    (hole,) = bar.cuts_of(CutUse.SCREW_HOLE)
    left, right = (groove.into for groove in bar.cuts_of(CutUse.GROOVE))
    assert hole.into.start - left.stop >= mm(3)
    assert right.start - hole.into.stop >= mm(3)


def test_each_half_is_screwed_up_to_the_back_between_its_side_and_the_bar():
    made = barred(back_height=BackHeight.ON_BOTTOM)
    for half in made.bottoms:
        low, high = across(half)
        places = [low + hole.along.centre.mm for hole in half.cuts_of(CutUse.SCREW_HOLE)]
        # 481 mm of it are under the back, a screw every 150 at most.
        assert len(places) == 4
        assert all(low + 6 < place < high - 5 for place in places)


def test_a_solid_half_is_glued_at_its_front_alone_and_moves_behind_it():
    made = barred(bottom=solid("ash", 6), back_height=BackHeight.ON_BOTTOM)
    for half in made.bottoms:
        held = {met.other.kind: met.tie for met in made.assembly.meetings if met.one == half.role}
        assert held == {
            PartKind.DRAWER_SIDE: Tie.DRY,
            PartKind.BOTTOM_BAR: Tie.DRY,
            PartKind.DRAWER_FRONT: Tie.GLUED,
            PartKind.DRAWER_BACK: Tie.FASTENED,
        }
        assert half.cuts_of(CutUse.SCREW_SLOT)


def test_a_thin_bar_is_grooved_less_deep_so_that_a_third_is_left():
    """DA-3."""
    made = barred(bar=sheet("half", 12))
    grooves = made.bar.cuts_of(CutUse.GROOVE)
    assert [groove.depth for groove in grooves] == [mm(4), mm(4)]
    assert {groove.surface for groove in grooves} == {Surface.FACE, Surface.FAR_FACE}


def test_the_limit_itself_is_thick_enough():
    """Grooves of 3 and a third between: 9; under a back 3 + 3 for the grooves, 3.5 for the screw and 3 at each side: 15.5."""
    for thick, height in (("9", BackHeight.FULL), ("15.5", BackHeight.ON_BOTTOM)):
        assert barred(bar=solid("oak", thick), back_height=height).bar.thickness == mm(thick)
        with pytest.raises(Refused, match="too thin"):
            barred(bar=solid("oak", Fraction(thick) - Fraction(1, 10)), back_height=height)


@pytest.mark.parametrize(
    ("changed", "says"),
    [
        ({"bar": solid("beam", 250)}, "no halves"),
        ({"shop": shop_with(bottom_bar_rise=140)}, "upper edge"),
        ({"shop": shop_with(bottom_bar_lift=8)}, "too little wood"),
    ],
)
def test_what_cannot_be_is_refused_at_the_bar(changed, says):
    with pytest.raises(Refused, match=says) as refused:
        barred(**changed)
    assert refused.value.finding.where == "drawer 1 bottom bar"
    assert refused.value.finding.remedies
