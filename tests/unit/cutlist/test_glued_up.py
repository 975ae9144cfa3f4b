"""Wide solid parts glued up from boards: where their joints lie, and what is sawn, laid out and bought (PN-1)."""

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from joinlay.assembly.edge_joints import glued_panels, joint_lines
from joinlay.boards import Cut, CutKind, CutRole, CutUse, Span, Surface
from joinlay.cutlist.cutting_list import cutting_list
from joinlay.cutlist.glued_up import strip_widths
from joinlay.cutlist.shopping import shopping_list
from joinlay.cutlist.solid_wood import board_layouts, solid_needs
from joinlay.jobs.on_hand import BoardOnHand, OnHand
from joinlay.jobs.planning import plan as planned
from joinlay.jobs.reader import read_job
from joinlay.lengths import NOTHING, Unit, inches
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
    widths = strip_widths(row, PRACTICE)
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


def test_boards_too_narrow_for_a_wide_part_are_told_of_with_what_would_use_them():
    made = planned(read_job(NARROW, "case.toml"))
    assert not made.is_refused
    (layout,) = board_layouts(made, cutting_list(made))
    (said,) = [finding for finding in layout.findings if finding.kind == "narrow boards"]
    # A board of 4 less 1/8 for the joint and as much again for its other joint or its outer edge.
    assert said.numbers["give"] == inches("3 3/4")
    assert 'widest-board = "3 3/4 in" under [practice]' in said.sentence(made.rule.text)
    assert said.numbers["parts"] == "case bottom, case left and right side, case top"
    helped = planned(read_job(f'{NARROW}\n[practice]\nwidest-board = "3 3/4 in"\n', "case.toml"))
    (better,) = board_layouts(helped, cutting_list(helped))
    assert [finding for finding in better.findings if finding.kind == "narrow boards"] == []
    held = [laid.piece.name for sheet in better.sheets for laid in sheet.pieces]
    assert "case left side, board 1 of 4" in held
    assert len(better.left_out) < len(layout.left_out)
