"""A drawer in an inset opening: sizes, the two datums, grooves, taper and refusals."""

from __future__ import annotations

import pytest

from joinlay.boards import Axis, CutKind, DrawerRole, Surface
from joinlay.casework.corners import AT_BACK, AT_FRONT, HALF_BLIND
from joinlay.casework.drawer import plan_drawer
from joinlay.casework.opening import BackHeight
from joinlay.checks.conditions import usual_conditions
from joinlay.checks.seasons import check_seasons, year_of
from joinlay.errors import BadInput
from joinlay.findings import Harm, Refused
from joinlay.lengths import GRADUATIONS, Fraction, Length, inches, mm
from joinlay.stock import Seasons, Solid, usual_seasons
from tests.unit.casework.drawers import drawer, opening, plywood, shop, size, usual_make

FIGURES = GRADUATIONS["1/32 in"].text


def test_the_front_is_the_opening_less_its_clearances():
    front = drawer().board("front")
    assert front.length == inches("18 5/16")
    assert front.width == inches("4 1/4")
    assert front.length.expression(FIGURES) == "opening width 18 3/8 in - 2 x side clearance 1/32 in"
    assert (front.length.rule, front.length.source) == ("DR-1", "common practice")


def test_the_sides_are_a_clearance_higher_than_the_front_and_level_with_it_on_top():
    made = drawer()
    front, side = made.board("front"), made.board("left side")
    assert side.width - front.width == inches("1/32")
    top_of_front = front.place.point(mm(0), front.width, mm(0))[2]
    assert top_of_front == side.place.point(mm(0), side.width, mm(0))[2]


def test_front_and_side_mortises_stand_at_one_height_though_measured_from_different_edges():
    made = drawer()
    front, side = made.board("front"), made.board("left side")
    in_front = sorted(cut.across.centre.mm for cut in front.cuts if cut.kind is CutKind.MORTISE and cut.along.stop < inches(1))
    in_side = sorted(cut.across.centre.mm for cut in side.cuts if cut.kind is CutKind.MORTISE)
    assert len(in_front) == len(in_side) == 3
    assert [b - a for a, b in zip(in_front, in_side, strict=True)] == [inches("1/32").mm] * 3


@pytest.mark.parametrize("front_joint", AT_FRONT.values(), ids=list(AT_FRONT))
@pytest.mark.parametrize("back_joint", AT_BACK.values(), ids=list(AT_BACK))
@pytest.mark.parametrize("back_height", BackHeight)
def test_front_and_side_grooves_lie_at_one_height(front_joint, back_joint, back_height):
    made = drawer(make=usual_make(front_joint=front_joint, back_joint=back_joint, back_height=back_height))
    heights = set()
    for board in made.assembly.boards:
        for cut in board.cuts:
            if cut.kind is CutKind.GROOVE:
                corner = board.place.point(cut.along.start, cut.across.start, cut.into.start)
                heights.add((corner[2], cut.across.size.mm))
    assert heights == {(inches("3/8").mm, inches("1/4").mm)}
    with_grooves = 3 if back_height is BackHeight.ON_BOTTOM else 4
    assert sum(cut.kind is CutKind.GROOVE for board in made.assembly.boards for cut in board.cuts) == with_grooves


def test_the_groove_in_the_front_begins_behind_the_sides():
    made = drawer()
    groove = next(cut for cut in made.board("front").cuts if cut.kind is CutKind.GROOVE)
    assert groove.along.start == inches("1/4")
    assert groove.along.stop == inches("18 5/16") - inches("1/4")


def test_the_bottom_fills_its_grooves_less_the_clearance():
    made = drawer()
    bottom = made.board("bottom")
    # 18 5/16 front - 2 x 1/2 sides = 17 5/16 inside, + 2 x 1/4 grooves - 1/16.
    assert bottom.length == inches("17 3/4")
    # 20 - 1/2 gap = 19 1/2 long, - 3/4 front - 1/2 back = 18 1/4 inside, + 2 x 1/4 - 1/16.
    assert bottom.width == inches("18 11/16")


def test_a_back_on_the_bottom_lets_the_bottom_run_to_its_outer_face():
    made = drawer(make=usual_make(back_height=BackHeight.ON_BOTTOM))
    back, bottom = made.board("back"), made.board("bottom")
    back_outside = back.place.point(mm(0), mm(0), back.thickness)[1]
    assert bottom.place.point(mm(0), bottom.width, mm(0))[1] == back_outside
    side_groove = next(cut for cut in made.board("left side").cuts if cut.kind is CutKind.GROOVE)
    assert side_groove.along.stop == made.board("left side").length


def test_a_half_blind_front_shortens_the_sides_by_its_lip_only():
    tenoned, lapped = drawer(), drawer(make=usual_make(front_joint=HALF_BLIND))
    assert tenoned.board("left side").length == inches("18 3/4")
    assert lapped.board("left side").length == inches("19 1/4")
    assert not [board for board in lapped.assembly.boards if board.part == "loose tenon"]


def test_the_taper_narrows_back_and_bottom_and_leans_the_sides():
    straight, tapered = drawer(), drawer(shop=shop(taper="1/16"))
    assert tapered.board("front").length == straight.board("front").length
    assert straight.board("back").length - tapered.board("back").length == inches("1/16")
    left = tapered.board("left side").place
    assert left.along[0] == Fraction(1, 2) * inches("1/16").mm / tapered.board("left side").length.mm
    ends = {taper.surface for taper in tapered.board("bottom").tapers}
    assert ends == {Surface.END, Surface.FAR_END}
    assert not straight.board("bottom").tapers


def test_left_and_right_sides_mirror_each_other():
    made = drawer()
    left, right = made.board("left side"), made.board("right side")
    assert left.end_on_left
    assert not right.end_on_left
    assert [(cut.along, cut.across, cut.into) for cut in left.cuts] == [(cut.along, cut.across, cut.into) for cut in right.cuts]


def test_each_tenon_sits_in_the_middle_of_its_two_mortises():
    made = drawer()
    front = made.board("front")
    slips = [board for board in made.assembly.boards if board.part == "loose tenon"]
    mortises = [cut for cut in front.cuts if cut.kind is CutKind.MORTISE]
    assert len(slips) == len(mortises) == 6
    centres = {front.place.point(cut.along.centre, cut.across.centre, mm(0))[::2] for cut in mortises}
    assert {slip.place.point(mm(0), slip.width / 2, slip.thickness / 2)[::2] for slip in slips} == centres


@pytest.mark.parametrize(
    ("changes", "kind"),
    [
        ({"opening": opening(width="1")}, "drawer size"),
        ({"opening": opening(depth="1 1/8")}, "drawer size"),
        ({"make": usual_make(side_height=size("5", "side height"))}, "side height"),
    ],
)
def test_a_drawer_that_cannot_be_is_refused_with_numbers(changes, kind):
    with pytest.raises(Refused) as refused:
        drawer(**changes)
    assert refused.value.finding.kind == kind
    assert refused.value.finding.numbers
    assert refused.value.finding.remedy


def test_a_lower_side_stops_the_half_blind_slot_at_its_top():
    make = usual_make(front_joint=HALF_BLIND, side_height=size("3", "side height"))
    front = drawer(make=make).board("front")
    slots = [cut for cut in front.cuts if cut.kind is CutKind.SLOT]
    assert {cut.across.stop.mm for cut in slots} == {inches("2 31/32").mm}


def test_an_opening_of_nothing_is_bad_input():
    with pytest.raises(BadInput, match="more than 0"):
        opening(height="0")


def test_the_same_drawer_in_millimetres_is_the_same_drawer():
    def in_mm(text: str) -> str:
        return f"{inches(text).mm.numerator}/{inches(text).mm.denominator} mm"

    metric = opening(in_mm("18 3/8"), in_mm("4 5/16"), in_mm("20"))
    one, other = drawer(), drawer(opening=metric)
    for a, b in zip(one.assembly.boards, other.assembly.boards, strict=True):
        assert [a.size(axis) for axis in Axis] == [b.size(axis) for axis in Axis]
        assert a.place == b.place


def test_a_thin_bottom_makes_a_thin_groove():
    made = drawer(make=usual_make(bottom=plywood("thin", "0.205")))
    groove = next(cut for cut in made.board("back").cuts if cut.kind is CutKind.GROOVE)
    assert groove.across.size == inches("0.205")


def test_plan_drawer_names_every_board_after_the_drawer():
    made = plan_drawer(DrawerRole(7), opening(), usual_make(), shop())
    assert all(board.name.startswith("drawer 7 ") for board in made.assembly.boards)
    assert len({board.name for board in made.assembly.boards}) == len(made.assembly.boards)


def test_a_thick_bottom_raises_its_groove_so_that_enough_wood_stays_below_it():
    groove = next(
        cut for cut in drawer(make=usual_make(bottom=plywood("thick", "3/8"))).board("front").cuts if cut.kind is CutKind.GROOVE
    )
    assert groove.across.start == groove.across.size == inches("3/8")
    asked = drawer(make=usual_make(bottom=plywood("thick", "3/8")), shop=shop(groove_offset="3/8"))
    assert [finding.kind for finding in asked.assembly.findings]


# -- solid bottoms ---------------------------------------------------------------------------------------


def solid_bottom(depth, year=None):
    wood = Solid("thin cherry", size("1/4", "thickness"), size("1/4", "thickness"), "black cherry", "quarter")
    return drawer(make=usual_make(bottom=wood, front=plywood("ply", "3/4")), opening=opening(depth=depth), seasons=year)


def behind(made):
    """What the bottom leaves free in the groove of the back."""
    bottom, back = made.board("bottom"), made.board("back")
    assert bottom.place is not None
    assert back.place is not None
    groove = next(cut for cut in back.cuts if cut.mate == bottom.name)
    return Length(back.place.origin[1] + groove.into.stop.mm - bottom.place.origin[1] - bottom.width.mm)


def test_a_solid_bottom_has_room_to_swell_where_it_stays_in_its_groove():
    """GR-2, CK-6: as much as it grows by the dampest day at least, on a mark of the rule, and no finding then."""
    made = solid_bottom("14")
    wood = made.make.bottom
    assert isinstance(wood, Solid)
    shrinks, grows = year_of(wood, made.board("bottom").width, usual_conditions())
    assert grows <= behind(made) < grows + inches("1/32")
    assert behind(made) > inches("1/32")
    assert shrinks < inches("1/4") - behind(made)
    harms = {finding.harm for finding in check_seasons(made, shop(), usual_conditions()) if "bottom" in finding.where}
    assert harms == {Harm.NOTE}


def test_a_bottom_that_would_fall_out_or_hardly_moves_is_as_for_a_sheet():
    assert behind(solid_bottom("40")) == inches("1/32")
    still = usual_seasons().workshop
    assert behind(solid_bottom("14", Seasons(still, still, still))) == inches("1/32")
    assert behind(drawer()) == inches("1/32")
