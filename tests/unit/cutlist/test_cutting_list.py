"""The cutting list: every part once, merged only where one can stand in for the other, with every size it has."""

from dataclasses import replace

from joinlay.boards import Band, CutKind, Surface, Taper
from joinlay.cutlist.cutting_list import Grain, cutting_list, row_remarks, shape_key, stock_called
from joinlay.jobs.on_hand import OnHand, Sawing
from joinlay.lengths import GRADUATIONS, NOTHING, inches
from tests import by_hand
from tests.unit.cutlist.bench import board, cherry, groove, left, make_plan, mortise, ply, right, row_of, size, tenon


def test_every_part_is_in_the_list_once():
    boards = [board(f"drawer {n} back") for n in (1, 2)] + [board("drawer 3 back", length="21")]
    parts = cutting_list(make_plan(*boards))
    assert [row.names for row in parts.rows] == [("drawer 1 back", "drawer 2 back"), ("drawer 3 back",)]
    assert [row.quantity for row in parts.rows] == [2, 1]
    assert [row.number for row in parts.rows] == [1, 2]
    assert parts.rows[0].where == "drawer 1 and 2 back"
    assert row_of(parts, "drawer 3 back").finished.length == inches(21)


def test_left_and_right_are_told_apart():
    cuts = [groove(), mortise("2")]
    sides = [
        hand(board(f"drawer {n} {word} side", cuts=cuts)) for n in (1, 2) for hand, word in ((left, "left"), (right, "right"))
    ]
    assert [row.where for row in cutting_list(make_plan(*sides)).rows] == [
        "drawer 1 and 2 left side",
        "drawer 1 and 2 right side",
    ]


def test_groups_follow_the_stocks_and_thickness_and_tenons_come_last():
    stocks = {"thick": ply("thick", "3/4"), "ply": ply(), "cherry": cherry()}
    boards = [tenon("t 1"), board("c", stock="cherry", thickness="13/16"), board("b"), board("thin", thickness="3/8")]
    boards += [board("a", stock="thick", thickness="3/4")]
    groups = cutting_list(make_plan(*boards, stocks=stocks)).groups
    assert [(group.name, group.thickness) for group in groups] == [
        ("thick", inches("3/4")), ("ply", inches("1/2")), ("ply", inches("3/8")), ("cherry", inches("13/16")),
        ("loose tenon strip", inches("5/32")),
    ]  # fmt: skip
    assert [group.is_tenons for group in groups] == [False, False, False, False, True]
    assert [row.number for group in groups for row in group.rows] == [1, 2, 3, 4, 5]


def test_parts_of_a_kind_stand_together():
    boards = [board(f"drawer {n} {part}", part=f"drawer {part}", length=f"2{n}") for n in (1, 2) for part in ("side", "back")]
    assert [row.part for row in cutting_list(make_plan(*boards)).rows] == [
        "drawer side",
        "drawer side",
        "drawer back",
        "drawer back",
    ]


def test_sheet_parts_are_sawn_to_their_finished_size():
    (row,) = cutting_list(make_plan(board("a"))).rows
    assert row.rough is None
    assert row.core is None
    assert row.sawn == row.finished


def test_banded_parts_have_a_core():
    bands = (Band(Surface.END, "tape", size("1/16"), size("6"), 2), Band(Surface.EDGE, "tape", size("1/8"), size("22"), 1))
    (row,) = cutting_list(make_plan(board("a", bands=bands))).rows
    assert row.core is not None
    assert (row.core.length, row.core.width) == (inches("19 15/16"), inches("3 7/8"))
    assert (row.finished.length, row.finished.width) == (inches(20), inches(4))
    assert row.sawn == row.core
    assert [band.order for band in row.bands] == [1, 2]


def test_rough_sizes_follow_the_makers_own_figures():
    plan = make_plan(
        board("a", stock="cherry", thickness="13/16"), stocks={"cherry": cherry()}, practice={"rough width allowance": inches(1)}
    )
    (row,) = cutting_list(plan).rows
    assert row.rough is not None
    assert (row.rough.length, row.rough.width) == (inches("20 1/2"), inches(5))
    assert row.rough.length.name == "a rough length"
    assert [d.name for d in row.rough.length.inputs] == ["size", "rough length allowance"]


def test_knob_blanks_are_rough_already():
    blank = board("drawer 1 front knob blank", "3", "1 1/4", "cherry", "1 1/4", "knob blank")
    (row,) = cutting_list(make_plan(blank, stocks={"cherry": cherry()})).rows
    assert row.rough is None


def test_grain():
    stocks = {"ply": ply(), "mdf": ply("mdf", kind="mdf"), "hard": ply("hard", kind="hardboard")}
    boards = [board("a"), board("b", part="drawer bottom"), board("c", stock="mdf"), board("d", stock="hard")]
    plan = make_plan(*boards, stocks=stocks, on_hand=OnHand(sawing=Sawing(any_grain=frozenset({"drawer bottom"}))))
    assert [(row.names[0], row.grain) for row in cutting_list(plan).rows] == [
        ("a", Grain.LENGTH), ("b", Grain.ANY), ("c", Grain.ANY), ("d", Grain.ANY),
    ]  # fmt: skip


def test_a_kind_of_part_that_is_not_there_is_named():
    plan = make_plan(board("a"), on_hand=OnHand(sawing=Sawing(any_grain=frozenset({"drawer sid"}))))
    (finding,) = cutting_list(plan).findings
    assert finding.sentence(str) == "The grain of drawer sid was said not to matter, but no part is called that."
    assert finding.way_out(str) == "Write one of these: drawer side."


def test_no_stock_is_said_and_the_part_kept():
    parts = cutting_list(make_plan(board("drawer 1 back", stock="beech"), board("drawer 2 back", stock="beech"), tenon("t")))
    assert [row.names for row in parts.rows] == [("drawer 1 back", "drawer 2 back"), ("t",)]
    (finding,) = parts.findings
    assert finding.sentence(str) == (
        "2 parts are of beech, which the job does not describe, so they are in the list but on no layout: drawer 1 and 2 back."
    )
    assert finding.way_out(str) == "Describe beech among the stocks, or give the parts one that is there: ply."


def test_a_stock_goes_by_its_key_or_its_own_name():
    stock = ply("baltic birch")
    assert stock_called("ply", {"ply": stock}) == stock_called("baltic birch", {"ply": stock}) == stock
    assert stock_called("oak", {"ply": stock}) is None


def test_an_empty_plan_gives_an_empty_list():
    parts = cutting_list(make_plan())
    assert not parts.groups
    assert not parts.rows
    assert not parts.findings


def test_same_wood_has_same_key_whatever_it_is_called():
    alike = replace(groove(), role=by_hand.cut_role(CutKind.GROOVE, "other", "x"))
    one, other = board("drawer 1 back", cuts=[groove()]), board("drawer 2 back", cuts=[alike])
    assert shape_key(one) == shape_key(other)


def test_order_of_cuts_does_not_matter():
    cuts = [groove(), mortise("2")]
    assert shape_key(board("a", cuts=cuts)) == shape_key(board("a", cuts=cuts[::-1]))


def test_a_left_side_is_not_a_right_side():
    side = board("side", cuts=[groove(), mortise("2")])
    assert shape_key(left(side)) != shape_key(right(side))


def test_plain_boards_have_no_hand():
    assert shape_key(left(board("side"))) == shape_key(right(board("side")))


def test_cuts_alike_end_for_end_have_no_hand():
    side = board("side", cuts=[groove(), mortise("2"), mortise("18")])
    assert shape_key(left(side)) == shape_key(right(side))


def test_a_through_groove_alone_has_no_hand():
    side = board("side", cuts=[groove()])
    assert shape_key(left(side)) == shape_key(right(side))


def test_a_stopped_groove_has_a_hand():
    side = board("side", cuts=[groove(start="1")])
    assert shape_key(left(side)) != shape_key(right(side))


def test_a_board_turned_end_for_end_and_over_its_edge_is_the_same():
    # Two turns at once (end for end, edge for edge) leave the face up.
    one = board("a", cuts=[mortise("2", "1")])
    turned = board("a", cuts=[mortise("18", "3")])
    assert shape_key(one) == shape_key(turned)
    assert shape_key(one) != shape_key(board("a", cuts=[mortise("18", "1")]))


def test_rounded_mouths_count():
    square = replace(mortise("2"), shape=groove().shape)
    assert shape_key(board("a", cuts=[square])) != shape_key(board("a", cuts=[mortise("2")]))


def test_sizes_stock_part_and_edges_count():
    plain = board("a")
    others = [board("a", length="20 1/32"), board("a", width="5"), board("a", stock="other"), board("a", part="drawer back")]
    others += [board("a", thickness="5/8"), replace(plain, has_round_edges=True)]
    assert shape_key(plain) not in {shape_key(other) for other in others}


def test_tapers_count_and_have_a_hand():
    taper = Taper(Surface.FAR_EDGE, NOTHING, size("1/32"))
    tapered = board("a", tapers=(taper,))
    assert shape_key(tapered) != shape_key(board("a"))
    # Thinner at the far end seen from one side, at the near end seen from the other: a turn over makes them the same.
    assert shape_key(tapered) == shape_key(board("a", tapers=(Taper(Surface.FAR_EDGE, size("1/32"), NOTHING),)))
    grooved = replace(tapered, cuts=(groove(start="1"),))
    assert shape_key(left(grooved)) != shape_key(right(grooved))


def told(made):
    (row,) = cutting_list(make_plan(made)).rows
    return tuple(row_remarks(row, GRADUATIONS["1/64 in"].text))


def test_a_tapered_part_is_told_by_its_size_at_both_ends_and_what_is_planed_off():
    # A bottom 20 in long from side to side, 1/64 in off each of its ends at the back: 20 - 2/64 = 19 31/32 in there.
    off = [Taper(surface, NOTHING, size("1/64")) for surface in (Surface.END, Surface.FAR_END)]
    assert told(board("a", tapers=tuple(off))) == (
        "tapered: 20 in long at the bottom edge, 19 31/32 in long at the top edge (1/64 in off the left end and "
        "the right end there)",
    )
    # One edge planed off at the left end, and none at the right.
    assert told(board("a", tapers=(Taper(Surface.FAR_EDGE, size("1/16"), NOTHING),))) == (
        "tapered: 3 15/16 in wide at the left end (1/16 in off the top edge there), 4 in wide at the right end",
    )
    assert not told(board("a"))


def test_bands_count():
    band = Band(Surface.END, "tape", size("1/32"), size("6"), 1)
    assert shape_key(board("a", bands=(band,))) != shape_key(board("a"))
    far = replace(band, surface=Surface.FAR_END)
    assert shape_key(board("a", bands=(band,))) == shape_key(board("a", bands=(far,)))
    assert shape_key(board("a", bands=(band,), cuts=[mortise("2")])) != shape_key(board("a", bands=(far,), cuts=[mortise("2")]))
