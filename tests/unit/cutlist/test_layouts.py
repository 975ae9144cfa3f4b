"""Layouts in exact lengths: kerf, trim, the order of cuts, names and offcuts."""

from itertools import pairwise

import pytest

from joinlay.cutlist.layouts import FrontColumn, OffcutLimits, lay_out
from joinlay.cutlist.pattern import Blank, Direction, Keeps, Panel, PartToSaw
from joinlay.jobs.on_hand import FirstCut
from joinlay.lengths import ZERO, dimension, inches, mm
from tests.unit.cutlist.bench import size
from tests.unit.cutlist.sawyer import check_every_piece_once, check_sheet

LIMITS = OffcutLimits(inches(12), inches(4))
KERF = inches("1/8")


@pytest.mark.parametrize(
    ("length", "width", "is_kept"),
    [("12", "4", True), ("4", "12", True), ("11 63/64", "4", False), ("12", "3 63/64", False), ("11", "11", False)],
)
def test_an_offcut_of_just_the_size_worth_keeping_is_kept(length, width, is_kept):
    assert LIMITS.keep(Panel(ZERO, ZERO, inches(length), inches(width))) is is_kept


def whole(length="96", width="48", trim="0"):
    return Blank("sheet", size(length), size(width), size(trim), is_whole=True)


def piece(name, length, width, row=1, *, any_grain=False):
    return PartToSaw(name, row, size(length), size(width), any_grain)


def cut(laid):
    return [(c.number, c.direction, c.at, c.keeps is not Keeps.BOTH) for c in laid.sheets[0].cuts]


def test_a_piece_as_large_as_the_sheet_needs_no_cut():
    laid = lay_out([piece("a", "96", "48")], [], whole(), KERF, FirstCut.RIP, LIMITS)
    assert cut(laid) == []
    assert laid.sheets[0].used == 1
    assert laid.least_whole == 1


def test_a_piece_less_than_a_kerf_short_of_the_sheet_is_one_cut():
    laid = lay_out([piece("a", "96", "47 15/16")], [], whole(), KERF, FirstCut.RIP, LIMITS)
    assert cut(laid) == [(1, Direction.RIP, inches("47 15/16"), False)]
    check_sheet(laid.sheets[0], KERF, FirstCut.RIP)


def test_two_halves_need_room_for_the_kerf():
    halves = [piece(f"a {n}", "96", "24") for n in (1, 2)]
    assert len(lay_out(halves, [], whole(), KERF, FirstCut.RIP, LIMITS).sheets) == 2
    less = [piece(f"a {n}", "96", "23 15/16") for n in (1, 2)]
    assert len(lay_out(less, [], whole(), KERF, FirstCut.RIP, LIMITS).sheets) == 1


def test_trim_comes_off_every_edge_a_piece_lies_against():
    laid = lay_out([piece("a", "95 1/2", "47 1/2")], [], whole(trim="1/4"), KERF, FirstCut.RIP, LIMITS)
    assert cut(laid) == [
        (1, Direction.RIP, inches("1/8"), True),
        (2, Direction.RIP, inches("47 1/2"), True),
        (3, Direction.CROSSCUT, inches("1/8"), True),
        (4, Direction.CROSSCUT, inches("95 1/2"), True),
    ]
    check_sheet(laid.sheets[0], KERF, FirstCut.RIP)
    assert lay_out([piece("a", "95 5/8", "47")], [], whole(trim="1/4"), KERF, FirstCut.RIP, LIMITS).left_out != ()


def test_a_trim_thinner_than_the_kerf_hangs_over_the_edge():
    laid = lay_out([piece("a", "90", "47 7/8")], [], whole(trim="1/16"), KERF, FirstCut.RIP, LIMITS)
    assert laid.sheets[0].cuts[0].at == inches("-1/16")
    check_sheet(laid.sheets[0], KERF, FirstCut.RIP)


def test_crosscut_first_cuts_the_width_of_the_sheet_first():
    laid = lay_out([piece(f"a {n}", "20", "10") for n in range(4)], [], whole(), KERF, FirstCut.CROSSCUT, LIMITS)
    first, *others = laid.sheets[0].cuts
    assert first.direction is Direction.CROSSCUT
    assert first.at == inches(20)
    assert {c.direction for c in others} == {Direction.RIP}


def test_parallel_cuts_come_together():
    laid = lay_out([piece(f"a {n}", "40", "9") for n in range(10)], [], whole(), KERF, FirstCut.RIP, LIMITS)
    turns = [c.direction for c in laid.sheets[0].cuts]
    assert turns == sorted(turns, key=lambda d: d is Direction.CROSSCUT)


def test_parts_that_are_the_same_are_named_in_the_order_they_come_off():
    laid = lay_out([piece(f"drawer {n} side", "40", "9") for n in range(1, 12)], [], whole(), KERF, FirstCut.RIP, LIMITS)
    assert [each.piece.name for sheet in laid.sheets for each in sheet.pieces] == [f"drawer {n} side" for n in range(1, 12)]


def test_offcuts_worth_keeping_are_listed_largest_first():
    laid = lay_out([piece("a", "20", "10")], [], whole(), KERF, FirstCut.RIP, LIMITS)
    big, small = laid.sheets[0].offcuts
    assert (big.length, big.width) == (inches(96), inches("37 7/8"))
    assert (small.length, small.width) == (inches("75 7/8"), inches(10))
    few = lay_out([piece("a", "20", "3")], [], whole(), KERF, FirstCut.RIP, LIMITS)
    assert len(few.sheets[0].offcuts) == 1


def test_offcuts_come_before_whole_sheets_and_unused_ones_are_named():
    on_hand = [Blank(f"offcut {n}", size("24"), size("12"), ZERO) for n in (1, 2)]
    laid = lay_out([piece("a", "20", "10"), piece("b", "60", "30")], on_hand, whole(), KERF, FirstCut.RIP, LIMITS)
    assert [(sheet.blank.name, [p.piece.name for p in sheet.pieces]) for sheet in laid.sheets] == [
        ("offcut 1", ["a"]), ("sheet", ["b"]),
    ]  # fmt: skip
    assert [blank.name for blank in laid.unused] == ["offcut 2"]


def test_an_offcut_can_save_a_sheet():
    pieces = [piece(f"a {n}", "60", "30") for n in range(2)]
    saved = lay_out(pieces, [Blank("offcut", size("61"), size("31"), ZERO)], whole(), KERF, FirstCut.RIP, LIMITS)
    assert sum(sheet.blank.is_whole for sheet in saved.sheets) == 1
    assert saved.least_whole == 1


def test_the_fullest_whole_sheet_comes_first():
    laid = lay_out([piece(f"a {n}", "96", "15") for n in range(4)], [], whole(), KERF, FirstCut.RIP, LIMITS)
    assert [len(sheet.pieces) for sheet in laid.sheets] == [3, 1]


def test_without_whole_sheets_what_has_no_room_is_left_out():
    laid = lay_out([piece("a", "20", "10"), piece("b", "20", "10")], [Blank("x", size("21"), size("11"), ZERO)], None, KERF,
                   FirstCut.EITHER, LIMITS)  # fmt: skip
    check_every_piece_once([piece("a", "20", "10"), piece("b", "20", "10")], laid.sheets, laid.left_out)
    assert len(laid.left_out) == 1
    assert laid.least_whole == 0


def test_metric_kerf_and_inch_parts_stay_exact():
    kerf = mm("2.4")
    laid = lay_out([piece(f"a {n}", "31 2/3", "9 1/3") for n in range(6)], [], whole(), kerf, FirstCut.EITHER, LIMITS)
    assert len(laid.sheets) == 1
    check_sheet(laid.sheets[0], kerf, FirstCut.EITHER)


def test_a_column_lies_in_one_piece_and_in_order():
    fronts = [piece(f"front {n}", "18", str(4 + n)) for n in range(4)]
    others = [piece(f"b {n}", "30", "11", row=2) for n in range(9)]
    laid = lay_out([*others, *fronts], [], whole(), KERF, FirstCut.RIP, LIMITS, [FrontColumn(tuple(fronts), across=True)])
    panels = {p.piece.name: p.panel for sheet in laid.sheets for p in sheet.pieces}
    for upper, lower in pairwise(fronts):
        above, below = panels[upper.name], panels[lower.name]
        assert below.across == above.across + above.width + KERF
        assert below.along == above.along


def test_a_column_of_one():
    only = piece("front 1", "18", "4")
    laid = lay_out([only], [], whole(), KERF, FirstCut.RIP, LIMITS, [FrontColumn((only,), across=True)])
    check_sheet(laid.sheets[0], KERF, FirstCut.RIP)
    assert laid.sheets[0].pieces[0].piece == only


def test_a_column_that_fits_nowhere_loses_none_of_its_parts():
    fronts = [piece(f"front {n}", "18", "40") for n in range(2)]
    laid = lay_out(fronts, [], whole(), KERF, FirstCut.RIP, LIMITS, [FrontColumn(tuple(fronts), across=True)])
    assert laid.left_out == tuple(fronts)


def test_nothing_to_lay():
    laid = lay_out([], [], whole(), KERF, FirstCut.RIP, LIMITS)
    assert laid.sheets == ()
    assert laid.left_out == ()
    assert laid.least_whole == 0


def test_many_small_pieces_on_one_sheet():
    pieces = [piece(f"p {n}", "2", "1") for n in range(600)]
    laid = lay_out(pieces, [], whole(), KERF, FirstCut.RIP, LIMITS)
    assert len(laid.sheets) == 1
    check_every_piece_once(pieces, laid.sheets, laid.left_out)


#: Parts in mm that fill a square of 1000 by 1000 to the last, and how it is cut first: a third cut inside a strip is at the sum
#: of two parts.
FULL = [
    (FirstCut.EITHER, [(394, 302), (414, 439), (406, 141), (394, 353), (192, 439), (200, 561), (394, 345), (406, 420)]),
    (FirstCut.EITHER, [(346, 325), (399, 341), (245, 375), (346, 330), (255, 625), (346, 345), (399, 284), (409, 375)]),
    (FirstCut.RIP, [(561, 351), (439, 351), (561, 185), (439, 237), (561, 120), (439, 412), (561, 344)]),
    (FirstCut.RIP, [(621, 273), (621, 250), (428, 477), (193, 477), (379, 162), (379, 361), (379, 477)]),
    (FirstCut.CROSSCUT, [(420, 348), (258, 449), (322, 348), (258, 551), (431, 284), (311, 652), (431, 368)]),
    (FirstCut.CROSSCUT, [(203, 440), (421, 242), (427, 511), (421, 318), (370, 440), (427, 489), (152, 560)]),
]


@pytest.mark.parametrize(("first_cut", "sizes"), FULL)
@pytest.mark.parametrize("any_grain", [False, True])
def test_a_sheet_that_goes_together_only_with_a_third_stage_of_cuts(first_cut, sizes, any_grain):
    kerf, square = mm(3), dimension(mm(997))
    if any_grain:
        # A part that may lie either way is found turned as well.
        sizes = [(wide, long) if n % 2 else (long, wide) for n, (long, wide) in enumerate(sizes)]
    pieces = [
        PartToSaw(f"part {n}", n, dimension(mm(long - 3)), dimension(mm(wide - 3)), any_grain)
        for n, (long, wide) in enumerate(sizes)
    ]
    sheet = Blank("square", square, square, ZERO, is_whole=True)
    laid = lay_out(pieces, [], sheet, kerf, first_cut, LIMITS)
    check_every_piece_once(pieces, laid.sheets, laid.left_out)
    for one in laid.sheets:
        check_sheet(one, kerf, first_cut)
    assert laid.least_whole == 1
    assert any_grain or laid.whole == 1
