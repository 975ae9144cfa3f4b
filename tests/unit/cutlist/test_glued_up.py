"""Wide solid parts glued up from boards: where their joints lie, and what is sawn, laid out and bought (PN-1)."""

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from joinlay.assembly.edge_joints import glued_panels, joint_lines
from joinlay.assembly.glue_words import panel_words
from joinlay.boards import Cut, CutKind, CutRole, CutUse, Span, Surface
from joinlay.cutlist.chosen_boards import joints_in
from joinlay.cutlist.cutting_list import cutting_list
from joinlay.cutlist.glued_up import strip_widths
from joinlay.cutlist.shopping import shopping_list
from joinlay.cutlist.solid_wood import board_layouts, solid_needs
from joinlay.jobs.on_hand import BoardOnHand, Defect, OnHand
from joinlay.jobs.planning import plan as planned
from joinlay.jobs.reader import read_job
from joinlay.lengths import GRADUATIONS, NOTHING, Unit, inches
from joinlay.pen.marks import Line
from joinlay.pictures.part_picture import part_picture
from joinlay.pictures.picture import scales_of
from joinlay.shop import usual_practice
from tests.unit.cutlist.bench import board, cherry, make_plan, row_of, size

PRACTICE = usual_practice(Unit.INCH)
CHERRY = {"cherry": cherry()}
SIDE = board("case left side", "30", "19", "cherry")


def groove(start, stop):
    into = Span(NOTHING, size("1/4"))
    return Cut(
        CutKind.GROOVE, Surface.FACE, Span(NOTHING, size("30")), Span(size(start), size(stop)), into, CutRole(CutUse.GROOVE)
    )


def lines(part):
    return [line.mm for line in joint_lines(part, PRACTICE)]


def test_a_part_no_wider_than_boards_come_has_no_joint():
    assert lines(board("a", "30", "6", "cherry")) == []
    assert len(lines(board("a", "30", "6 1/64", "cherry"))) == 1


def test_joints_lie_evenly_where_nothing_is_in_their_way():
    # 19 in from boards of 6 at most: four of 4 3/4.
    assert lines(SIDE) == [inches("4 3/4").mm * n for n in (1, 2, 3)]


def test_a_joint_keeps_half_an_inch_from_a_groove():
    moved = lines(SIDE.with_cuts(groove("4 5/8", "4 7/8")))
    assert moved[1:] == lines(SIDE)[1:]
    assert min(abs(moved[0] - inches(edge).mm) for edge in ("4 5/8", "4 7/8")) >= inches("1/2").mm


@settings(max_examples=60)
@given(st.integers(25, 96), st.lists(st.tuples(st.integers(0, 90), st.integers(1, 6)), max_size=3))
def test_no_board_is_too_wide_and_no_joint_in_a_cut_unless_none_can_be_kept_off(width, cuts):
    part = board("case left side", "30", f"{width}/4", "cherry")
    for start, wide in cuts:
        if start + wide <= width:
            part = part.with_cuts(groove(f"{start}/4", f"{start + wide}/4"))
    found = lines(part)
    ends = [Fraction(0), *found, part.width.mm]
    assert all(0 < high - low <= inches(6).mm for low, high in pairwise(ends))
    clear = inches("1/2").mm
    inside = [at for at in found for cut in part.cuts if cut.across.start.mm - clear < at < cut.across.stop.mm + clear]
    # Where they can't all be kept off they lie evenly, all of them.
    assert not inside or found == [part.width.mm * n / (len(found) + 1) for n in range(1, len(found) + 1)]


def test_each_joint_takes_an_eighth_off_both_its_boards():
    row = row_of(cutting_list(make_plan(SIDE, stocks=CHERRY)), "case left side")
    widths = strip_widths(row, PRACTICE, {})
    # A quarter over on the part's two edges together, and three joints with an eighth on each of their two boards.
    assert sum(width.mm for width in widths) == row.sawn.width.mm + 6 * inches("1/8").mm
    assert widths[1] == inches("4 3/4") + inches("1/4")


def laid(*boards, **on_hand):
    plan = make_plan(
        *boards, stocks=CHERRY, on_hand=OnHand(boards=(BoardOnHand("board 1", "cherry", size("96"), size("6"), (), **on_hand),))
    )
    parts = cutting_list(plan)
    return plan, parts, board_layouts(plan, parts)


def test_boards_on_hand_are_used_for_it():
    plan, parts, layouts = laid(SIDE, count=3)
    (layout,) = layouts
    assert layout.left_out == ()
    names = sorted(one.piece.name for sheet in layout.sheets for one in sheet.pieces)
    assert names == [f"case left side, board {n} of 4" for n in (1, 2, 3, 4)]
    (need,) = solid_needs(plan, parts, layouts)
    assert need.buy == 0
    assert need.on_hand == need.net


def test_what_is_bought_says_how_wide_boards_must_be():
    plan = make_plan(SIDE, stocks=CHERRY)
    parts = cutting_list(plan)
    (need,) = solid_needs(plan, parts)
    assert need.widest == inches(5)
    line = next(one for one in shopping_list(plan, parts, (), (need,)).lines if one.what == "cherry")
    assert "5 in wide at most, wide parts are glued up" in line.remark


def test_the_picture_shows_its_joints():
    scale = scales_of(Unit.INCH)[0]
    strokes = part_picture(SIDE, scale, joints=joint_lines(SIDE, PRACTICE))
    drawn = [stroke.start[1] for stroke in strokes if isinstance(stroke, Line) and stroke.says == "edge joint"]
    assert drawn == [at * scale.factor for at in lines(SIDE)]


def test_clamps_are_reckoned_for_as_many_boards():
    moved = replace(SIDE, cuts=(groove("4 5/8", "4 7/8"),))
    (panel,) = glued_panels([moved], [cherry()], PRACTICE)
    assert panel.boards == len(lines(moved)) + 1


NARROW = """
units = "inch"
[stock.oak]
kind = "solid"
species = "red oak"
nominal = "3/4"
measured = "3/4"
[stock.thin]
nominal = "1/4"
measured = "0.205"
[case]
width = "20"
height = "24"
depth = "14"
sides = "oak"
back = "thin"
[frame]
stock = "oak"
[[bank]]
rows = ["open"]
[[board]]
stock = "oak"
length = "10 ft"
width = "4"
count = 4
"""


def from_there(*there, part=SIDE, others=()):
    """The lists of a wide part where boards of these (length, width, count) are on hand."""
    on_hand = tuple(
        BoardOnHand(f"board {n}", "cherry", size(long), size(wide), (), count)
        for n, (long, wide, count) in enumerate(there, start=1)
    )
    plan = make_plan(part, *others, stocks=CHERRY, on_hand=OnHand(boards=on_hand))
    parts = cutting_list(plan)
    (layout,) = board_layouts(plan, parts)
    (need,) = solid_needs(plan, parts, (layout,))
    return plan, joints_in(plan, parts), layout, need


def wide(plan, joints, part=SIDE):
    """How wide each board of the part is sawn, in inches."""
    return [width.inches for width in strip_widths(row_of(cutting_list(plan), part.name), PRACTICE, joints)]


def said(layout, kind):
    return [finding.sentence(GRADUATIONS["1/32 in"].text) for finding in layout.findings if finding.kind == kind]


def test_boards_too_narrow_for_an_even_division_are_chosen_as_wide_as_they_are():
    # 19 in from boards of 4: each makes 3 3/4, so six, none of them a sliver.
    plan, joints, layout, need = from_there(("8 ft", "4", 3))
    assert layout.left_out == ()
    assert need.buy == 0
    assert len(joints["case left side"]) == 5
    assert max(wide(plan, joints)) <= 4
    (told,) = said(layout, "boards chosen")
    assert told.startswith("Glued up from boards as wide as those on hand: case left side from 6, from the ")


def test_boards_of_several_widths_are_used_the_widest_first_and_in_their_whole_width():
    plan, joints, layout, need = from_there(("32", "5 1/2", 2), ("32", "4 1/2", 2), ("32", "3", 3))
    assert (layout.left_out, need.buy) == ((), 0)
    # 5 1/4 twice, 4 1/4 once more makes 14 3/4: another of 4 1/4 does.
    assert sorted(wide(plan, joints), reverse=True)[:2] == [Fraction(11, 2)] * 2
    assert len(joints["case left side"]) == 3
    (told,) = said(layout, "boards chosen")
    assert told.endswith("Not needed: board 3, 1 to 3 of 3.")
    assert sum(one.name.startswith("board 3") for one in layout.unused) == 3


def test_what_an_even_division_has_on_hand_already_is_left_as_it_is():
    _, joints, layout, _ = from_there(("96", "6", 3))
    assert joints == {}
    assert said(layout, "boards chosen") == []


def test_boards_too_short_choose_nothing_and_say_so():
    _, joints, layout, need = from_there(("20", "5", 9))
    assert joints == {}
    assert need.on_hand == 0
    (told,) = said(layout, "boards of no use")
    assert told.startswith("Too short for any part that is to be bought: board 1")


def test_what_is_wanting_is_bought_to_the_width_that_is():
    plan, joints, layout, need = from_there(("32", "4", 2))
    assert 0 < need.on_hand < need.net
    assert said(layout, "boards of no use") == []
    assert layout.unused == ()
    # Two of 4 make 7 1/2, and 11 1/2 is wanting: two more of what they are usually glued from, at most.
    assert len(wide(plan, joints)) == 4
    assert len(layout.left_out) == 2


def test_parts_alike_are_alike_in_their_joints_where_wood_for_one_is_there():
    other = replace(SIDE, role=replace(SIDE.role, called="case right side"))
    plan, joints, layout, _ = from_there(("32", "4", 6), others=(other,))
    assert joints["case left side"] == joints["case right side"]
    assert layout.unused == ()
    assert len(layout.left_out) == len(wide(plan, joints)) * 2 - 6


def test_a_board_wider_than_it_is_glued_is_ripped():
    plan, joints, layout, need = from_there(("32", "10 1/4", 2))
    assert (layout.left_out, need.buy) == ((), 0)
    assert max(wide(plan, joints)) <= Fraction(25, 4)


def test_chosen_boards_keep_their_joints_off_cuts():
    cut = SIDE.with_cuts(groove("3 5/8", "3 7/8"))
    _, joints, layout, need = from_there(("8 ft", "4", 3), part=cut)
    assert (layout.left_out, need.buy) == ((), 0)
    clear = inches("1/2").mm
    for line in joints["case left side"]:
        assert not inches("3 5/8").mm - clear < line.mm < inches("3 7/8").mm + clear


def test_a_board_more_makes_room_for_joints_to_keep_off_cuts():
    # Five of 4 make 18 3/4 to a hair, and then no joint can be moved.
    part = board("case left side", "30", "18 3/4", "cherry")
    plan, joints, layout, _ = from_there(("8 ft", "4", 3), part=part)
    assert (len(wide(plan, joints, part)), layout.left_out) == (5, ())
    cut = part.with_cuts(groove("3 5/8", "3 7/8"))
    plan, joints, layout, _ = from_there(("8 ft", "4", 3), part=cut)
    assert (len(wide(plan, joints, cut)), layout.left_out) == (6, ())
    (told,) = said(layout, "boards chosen")
    assert "case left side from 6, from the " in told


def test_what_lies_in_a_knot_is_no_board():
    knot = Defect(inches(30), inches(32))
    held = BoardOnHand("board 1", "cherry", size("62"), size("4"), (knot,), 3)
    plan = make_plan(SIDE, stocks=CHERRY, on_hand=OnHand(boards=(held,)))
    assert joints_in(plan) == {}


@settings(max_examples=40)
@given(
    st.lists(st.tuples(st.integers(20, 100), st.integers(6, 40), st.integers(1, 4)), min_size=1, max_size=4),
    st.integers(26, 90),
)
def test_no_board_lies_there_that_one_of_those_to_buy_could_be_cut_from(there, across):
    part = board("case left side", "30", f"{across}/4", "cherry")
    plan, joints, layout, need = from_there(*((str(long), f"{wide}/4", count) for long, wide, count in there), part=part)
    # A board long enough, that makes an inch and a half or more, doesn't lie there while another is bought.
    if layout.left_out:
        assert not [blank for blank in layout.unused if blank.length >= inches(31) and blank.width >= inches("1 3/4")]
    widths = wide(plan, joints, part)
    joint = 2 * (len(widths) - 1) * Fraction(1, 8)
    assert sum(widths) == Fraction(across, 4) + Fraction(1, 4) + joint
    assert need.net >= need.on_hand


def test_a_case_of_wide_boards_is_glued_up_from_the_narrow_ones_there():
    made = planned(read_job(NARROW, "case.toml"))
    assert not made.is_refused
    (layout,) = board_layouts(made, cutting_list(made))
    held = [laid.piece.name for sheet in layout.sheets for laid in sheet.pieces]
    assert "case left side, board 1 of 4" in held
    assert layout.unused == ()
    (told,) = [finding.sentence(made.rule.text) for finding in layout.findings if finding.kind == "boards chosen"]
    assert "case left and right side from 4, from the front edge " in told
    # Clamps, the order of work and plan.json know of as many.
    panels = glued_panels(made.boards, made.stocks.values(), made.shop.practice, joints_in(made))
    (side,) = [panel for panel in panels if panel.parts[0].name == "case left side"]
    assert (side.boards, len(side.widths), sum(width.mm for width in side.widths)) == (4, 4, side.width.mm)
    assert "case left and right side: 4 boards" in panel_words(side, made.rule)
