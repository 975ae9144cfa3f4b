"""Laying rectangles in whole numbers."""

from joinlay.cutlist.fewest import least_sheets
from joinlay.cutlist.guillotine import FITS, SPLITS, Bin, Item, Manner, pack
from joinlay.cutlist.search import search

RIP, CROSS, EITHER = Manner(FITS[0], SPLITS[0], True), Manner(FITS[0], SPLITS[0], False), Manner(FITS[0], SPLITS[0], None)


def items(*sizes, turnable=False):
    return [Item(n, length, width, turnable) for n, (length, width) in enumerate(sizes)]


def test_an_exact_fit_leaves_nothing():
    packing = pack(items((10, 5)), [], Bin(10, 5), EITHER)
    assert packing.opened == 1
    assert packing.left == ()


def test_rip_first_leaves_a_full_length_panel():
    packing = pack(items((4, 2)), [], Bin(10, 5), RIP)
    assert {(s.along, s.across, s.length, s.width) for s in packing.left} == {(0, 2, 10, 3), (4, 0, 6, 2)}


def test_crosscut_first_leaves_a_full_width_panel():
    packing = pack(items((4, 2)), [], Bin(10, 5), CROSS)
    assert {(s.along, s.across, s.length, s.width) for s in packing.left} == {(4, 0, 6, 5), (0, 2, 4, 3)}


def test_the_rule_of_first_cuts_holds_only_until_a_strip_is_made():
    packing = pack(items((4, 4), (3, 2)), [], Bin(10, 4), Manner(FITS[0], SPLITS[4], False))
    assert [step.rip_first for step in packing.steps] == [False, False]
    inside = pack(items((4, 4), (4, 2), (2, 1)), [], Bin(8, 4), Manner(FITS[0], SPLITS[4], False))
    assert [step.rip_first for step in inside.steps] == [False, False, True]


def test_pieces_are_turned_only_where_they_may_be():
    assert pack(items((5, 10)), [], Bin(10, 5), EITHER).left_out != ()
    packing = pack(items((5, 10), turnable=True), [], Bin(10, 5), EITHER)
    assert [step.turned for step in packing.steps] == [True]


def test_what_is_on_hand_is_used_before_a_whole_sheet():
    packing = pack(items((4, 4), (4, 4)), [Bin(5, 5)], Bin(10, 10), EITHER)
    assert [step.space.bin for step in packing.steps] == [0, 1]
    assert packing.opened == 1


def test_an_offcut_without_grain_takes_only_what_may_be_turned():
    bins = [Bin(5, 5, only_turnable=True)]
    assert pack(items((4, 4)), bins, None, EITHER).left_out != ()
    assert pack(items((4, 4), turnable=True), bins, None, EITHER).left_out == ()


def test_search_finds_what_a_single_order_misses():
    # 6 x 4 and 4 x 4 side by side, 5 x 3 and 5 x 3 above them: exactly the sheet.
    found = search(items((6, 4), (4, 4), (5, 3), (5, 3)), [], Bin(10, 7), first_rip=None)
    assert found.opened == 1
    assert found.left == ()


def test_search_is_the_same_each_time():
    parts = items(*((n * 7 % 13 + 3, n * 5 % 11 + 2) for n in range(30)))
    assert search(parts, [], Bin(30, 20), first_rip=True) == search(parts, [], Bin(30, 20), first_rip=True)


def test_search_of_nothing():
    found = search([], [Bin(5, 5)], Bin(9, 9), first_rip=None)
    assert not found.steps
    assert not found.left_out
    assert found.opened == 0


def test_least_sheets_by_area():
    assert least_sheets(items(*[(5, 5)] * 9), [], Bin(10, 10)) == 3
    assert least_sheets(items(*[(5, 5)] * 8), [], Bin(10, 10)) == 2
    assert least_sheets([], [], Bin(10, 10)) == 0


def test_least_sheets_counts_pieces_that_cannot_share():
    assert least_sheets(items(*[(6, 6)] * 4), [], Bin(10, 10)) == 4
    assert least_sheets(items(*[(6, 5)] * 4), [], Bin(10, 10)) == 2
    # A piece that may be turned goes beside one that may not.
    assert least_sheets(items((6, 6), (4, 9)), [], Bin(10, 10)) == 1


def test_least_sheets_allows_for_what_is_on_hand():
    assert least_sheets(items(*[(6, 6)] * 4), [Bin(6, 6), Bin(5, 5)], Bin(10, 10)) == 3
    assert least_sheets(items(*[(5, 5)] * 9), [Bin(10, 10), Bin(4, 50)], Bin(10, 10)) == 2
    assert least_sheets(items(*[(5, 5)] * 9), [Bin(10, 10, only_turnable=True)], Bin(10, 10)) == 3


def test_least_sheets_of_a_sheet_all_trim():
    assert least_sheets(items((2, 2)), [Bin(9, 9)], Bin(0, 4)) == 0
