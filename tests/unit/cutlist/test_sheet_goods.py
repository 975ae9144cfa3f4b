"""Sheet goods of a whole plan: which fronts are kept together, and what is said where something can't be laid."""

from dataclasses import replace
from itertools import pairwise

import pytest

from joinlay.boards import DrawerRole
from joinlay.cutlist.cutting_list import cutting_list, row_remarks
from joinlay.cutlist.layouts import parts_to_saw
from joinlay.cutlist.pattern import Blank, Keeps
from joinlay.cutlist.sheet_goods import run_words, sheet_layouts, stack_fronts
from joinlay.errors import Troubles
from joinlay.findings import Harm
from joinlay.jobs.on_hand import FirstCut, OnHand, Sawing, SheetOnHand
from joinlay.jobs.planning import plan as planned
from joinlay.jobs.reader import read_job
from joinlay.lengths import ZERO, inches
from tests.unit.cutlist.bench import board, cherry, front, make_plan, ply, size, tenon
from tests.unit.cutlist.sawyer import check_sheet


def layouts(*boards, **more):
    plan = make_plan(*boards, **more)
    return sheet_layouts(plan, cutting_list(plan))


def shown(finding):
    return finding.sentence(lambda length: f"{float(length.inches):g} in")


def test_one_layout_for_each_sheet_stock_and_none_for_solid_wood_or_tenons():
    stocks = {"ply": ply(), "thin": ply("thin", "1/4"), "cherry": cherry()}
    boards = [board("a"), board("b", stock="thin", thickness="1/4"), board("c", stock="cherry", thickness="13/16"), tenon("t")]
    made = layouts(*boards, stocks=stocks)
    assert [layout.stock for layout in made] == ["ply", "thin"]
    assert [layout.thickness for layout in made] == [inches("1/2"), inches("1/4")]
    assert [layout.whole for layout in made] == [1, 1]


def test_parts_of_one_sheet_stock_share_it_even_where_they_are_planed_thinner():
    (layout,) = layouts(board("a"), board("b", thickness="3/8"))
    assert layout.whole == 1
    assert {laid.piece.name for laid in layout.sheets[0].pieces} == {"a", "b"}


def test_kerf_trim_and_first_cut_come_from_the_job():
    plan = {
        "on_hand": OnHand(sawing=Sawing(first_cut=FirstCut.CROSSCUT)),
        "kerf": inches("3/32"),
        "practice": {"edge trim": ZERO},
    }
    (layout,) = layouts(board("a"), board("b"), **plan)
    assert (layout.kerf, layout.first_cut) == (inches("3/32"), FirstCut.CROSSCUT)
    assert layout.sheets[0].blank.trim == ZERO
    assert all(cut.keeps is Keeps.BOTH for cut in layout.sheets[0].cuts)
    check_sheet(layout.sheets[0], layout.kerf, layout.first_cut)


def test_banded_parts_are_cut_to_their_core():
    from joinlay.boards import Band, Surface

    bands = (Band(Surface.FAR_EDGE, "tape", size("1/16"), size("22"), 1),)
    (layout,) = layouts(board("a", bands=bands))
    assert layout.sheets[0].pieces[0].panel.width == inches("3 15/16")


def test_fronts_are_kept_together_unless_the_maker_does_not_care():
    boards = [front(n, str(30 - 6 * n)) for n in (1, 2, 3)] + [board(f"s {n}", "18", "5", part="drawer side") for n in range(6)]
    (layout,) = layouts(*boards)
    panels = [laid.panel for laid in layout.sheets[0].pieces if laid.piece.name.endswith("front")]
    assert len({panel.along for panel in panels}) == 1
    assert sorted(panel.across for panel in panels) == [panel.across for panel in panels]
    (free,) = layouts(*boards, on_hand=OnHand(sawing=Sawing(fronts_together=False)))
    assert free.whole == 1


def test_what_a_column_costs_is_said():
    fronts = [front(n, str(40 - 13 * n), length="13", width="12") for n in (1, 2, 3)]
    small = {"stocks": {"ply": ply(sheet=("40", "40"))}, "practice": {"edge trim": ZERO}}
    (layout,) = layouts(*fronts, board("top", "40", "27", part="top"), **small)
    assert (layout.whole, layout.least_whole) == (2, 1)
    (finding,) = layout.findings
    assert shown(finding).startswith("To keep the fronts of a bank in one column takes one sheet more.")
    (loose,) = layouts(
        *fronts, board("top", "40", "27", part="top"), on_hand=OnHand(sawing=Sawing(fronts_together=False)), **small
    )
    assert loose.whole == 1
    assert not loose.findings


def test_a_broken_column_is_said():
    (layout,) = layouts(*[front(n, str(100 - 13 * n), width="12") for n in range(1, 6)])
    (finding,) = layout.findings
    assert finding.where == "drawer 4 front"
    assert "the grain breaks below drawer 3 front" in shown(finding)
    assert not layout.left_out


def test_a_part_too_large_for_any_sheet_is_said_and_the_rest_is_laid():
    (layout,) = layouts(board("long", length="100"), board("a"))
    assert [piece.name for piece in layout.left_out] == ["long"]
    assert [laid.piece.name for sheet in layout.sheets for laid in sheet.pieces] == ["a"]
    (finding,) = layout.findings
    assert finding.where == "long"
    assert shown(finding) == "It is 100 in by 4 in, and the most a sheet of ply gives, edges trimmed, is 95.5 in by 47.5 in."
    assert finding.way_out(str) == "Use a larger sheet, make the part smaller, or join it from narrower pieces."
    assert layout.least_whole == 1


def test_a_part_that_would_fit_turned_is_told_so():
    (layout,) = layouts(board("wide", length="40", width="60"))
    assert "would fit with its grain the other way" in layout.findings[0].way_out(str)
    (turned,) = layouts(
        board("wide", length="40", width="60"), on_hand=OnHand(sawing=Sawing(any_grain=frozenset({"drawer side"})))
    )
    assert turned.sheets[0].pieces[0].turned
    assert not turned.findings


def test_offcuts_are_used_first_and_a_grainless_one_only_for_what_may_be_turned():
    on_hand = OnHand(sheets=(
        SheetOnHand("known", "ply", size("24"), size("12"), count=2),
        SheetOnHand("unknown", "ply", size("40"), size("40"), grain_known=False),
        SheetOnHand("other", "oak", size("90"), size("40")),
    ))  # fmt: skip
    (layout,) = layouts(board("a"), board("b", width="10"), on_hand=on_hand)
    assert [sheet.blank.name for sheet in layout.sheets] == ["known, 1 of 2", "known, 2 of 2"]
    assert layout.whole == layout.least_whole == 0
    assert [blank.name for blank in layout.unused] == ["unknown"]
    assert "Which way its grain runs is not said" in shown(layout.findings[0])
    assert layout.findings[0].where == "unknown"


def test_an_offcut_of_a_sheet_without_grain_needs_none():
    mdf = {"ply": ply(kind="mdf")}
    on_hand = OnHand(sheets=(SheetOnHand("unknown", "ply", size("40"), size("40"), grain_known=False),))
    (layout,) = layouts(board("a"), stocks=mdf, on_hand=on_hand)
    assert [sheet.blank.name for sheet in layout.sheets] == ["unknown"]
    assert layout.findings == ()


def test_the_bound_is_never_above_what_was_found():
    (layout,) = layouts(*[board(f"p {n}", "30", "13") for n in range(20)])
    assert layout.least_whole <= layout.whole == 3
    assert 0 < layout.used < 1


KERF = inches("1/8")


def stacks(*boards, sheet=("96", "48"), **more):
    plan = make_plan(*boards, **more)
    blank = Blank("sheet", size(sheet[0]), size(sheet[1]), size("1/4"), is_whole=True)
    return stack_fronts(parts_to_saw(cutting_list(plan).groups), {each.name: each for each in boards}, plan.rows, blank, KERF)


def names(stack):
    return [piece.name for piece in stack.pieces]


def test_a_bank_is_stacked_from_the_top_down():
    (stack,) = stacks(front(3, "4", width="7"), front(1, "20", width="5"), front(2, "12", width="6"), board("side"))
    assert names(stack) == ["drawer 1 front", "drawer 2 front", "drawer 3 front"]
    assert stack.across
    assert stack.length(KERF) == inches(18)
    assert stack.width(KERF) == inches("18 1/4")


def test_each_bank_has_its_own_column():
    boards = [front(n, str(20 - 6 * n), x="0") for n in (1, 2)] + [front(n, str(40 - 6 * n), x="20") for n in (3, 4)]
    banks = (((DrawerRole(1),), (DrawerRole(2),)), ((DrawerRole(3),), (DrawerRole(4),)))
    assert [names(stack) for stack in stacks(*boards, banks=banks)] == [
        ["drawer 1 front", "drawer 2 front"],
        ["drawer 3 front", "drawer 4 front"],
    ]


def test_upright_grain_is_stacked_end_to_end():
    boards = [front(n, str(30 - 8 * n), length="7", width="18", along="+Z") for n in (1, 2, 3)]
    (stack,) = stacks(*boards)
    assert not stack.across
    assert names(stack) == ["drawer 1 front", "drawer 2 front", "drawer 3 front"]
    assert (stack.length(KERF), stack.width(KERF)) == (inches("21 1/4"), inches(18))


def test_a_bank_too_tall_for_the_sheet_is_broken_where_it_must_be():
    boards = [front(n, str(100 - 10 * n), width="12") for n in range(1, 6)]
    first, second = stacks(*boards)
    assert [len(first.pieces), len(second.pieces)] == [3, 2]
    assert second.parted_from == "drawer 3 front"
    assert first.parted_from == ""


def test_a_lone_front_and_one_that_may_be_turned_lie_anywhere():
    assert stacks(front(1, "20"), board("side")) == ()
    free = OnHand(sawing=Sawing(any_grain=frozenset({"drawer front"})))
    assert stacks(front(1, "20"), front(2, "10"), on_hand=free) == ()


def test_fronts_without_a_place_are_one_bank_in_the_order_given():
    boards = [replace(front(n, "0"), place=None) for n in (1, 2)]
    assert [names(stack) for stack in stacks(*boards)] == [["drawer 1 front", "drawer 2 front"]]


FRONTS = """
units = "inch"
[stock.face]
nominal = "3/4"
measured = "0.709"
[stock.half]
nominal = "1/2"
measured = "0.472"
[stock.thin]
nominal = "1/4"
measured = "0.205"
[stock.ash]
kind = "solid"
species = "white ash"
nominal = "3/4"
measured = "3/4"
[drawers]
front = "face"
front-grain = "upright"
sides = "half"
bottom = "thin"
[[drawer]]
opening = { width = "20", height = "5", depth = "16" }
[[drawer]]
opening = { width = "20", height = "6", depth = "16" }
[[drawer]]
opening = { width = "20", height = "7", depth = "16" }
"""


def test_fronts_with_upright_grain_are_sawn_so_in_one_run_as_they_hang():
    made = planned(read_job(FRONTS, "fronts.toml"))
    assert not made.is_refused
    rows = [row for row in cutting_list(made).rows if row.part == "drawer front"]
    heights = [drawer.front.width for drawer in made.drawers]
    # Its length, which runs with the grain, is its height.
    assert [(row.finished.length, row.finished.width) for row in rows] == [(high, inches("19 15/16")) for high in heights]
    assert all("grain upright: its length here is its height in the piece" in list(row_remarks(row, str)) for row in rows)
    layout = next(each for each in sheet_layouts(made, cutting_list(made)) if each.stock == "face")
    assert layout.runs == (("drawer 1 front", "drawer 2 front", "drawer 3 front"),)
    laid = {each.piece.name: each.panel for each in layout.sheets[0].pieces}
    panels = [laid[name] for name in layout.runs[0]]
    # End to end along the sheet's grain, a kerf between two.
    assert {panel.across.mm for panel in panels} == {panels[0].across.mm}
    ends = sorted((panel.along.mm, panel.along.mm + panel.length.mm) for panel in panels)
    assert [then[0] - before[1] for before, then in pairwise(ends)] == [layout.kerf.mm] * 2
    (said,) = run_words(layout, layout.sheets[0])
    assert said.startswith(
        "One run, so that the figure goes on from front to front: drawer 1 front, drawer 2 front, drawer 3 front, from"
    )


def test_a_solid_front_with_upright_grain_is_refused_and_its_remedy_helps():
    text = FRONTS.replace('front = "face"', 'front = "ash"')
    made = planned(read_job(text, "fronts.toml"))
    refused = [finding for finding in made.findings if finding.harm is Harm.REFUSE]
    assert [finding.kind for finding in refused] == ["wood movement"]
    (change,) = refused[0].remedies[0].changes
    helped = planned(read_job(text.replace('front-grain = "upright"', f'{change.key} = "{change.value}"'), "fronts.toml"))
    assert not helped.is_refused


def test_a_front_s_grain_is_one_of_two_ways():
    with pytest.raises(Troubles, match="from side to side"):
        read_job(FRONTS.replace('"upright"', '"slanting"'), "fronts.toml")


WIDE = """units = "mm"
[stock.oak]
kind = "solid"
species = "white oak"
nominal = 20
measured = 20
[stock.thin]
nominal = 6
measured = 6
sheet = [1220, 610]
[drawers]
front = "oak"
sides = "oak"
bottom = "thin"
[[drawer]]
opening = { width = 1300, height = 150, depth = 500 }
"""


def test_a_bottom_wider_than_its_sheet_is_told_of_the_bar_and_its_halves_fit():
    """BO-1, CL-2."""
    with_a_bar = WIDE.replace("[drawers]", '[drawers]\nbottom-bar = "oak"')
    whole, parted = (planned(read_job(text, "wide.toml")) for text in (WIDE, with_a_bar))
    (layout,) = sheet_layouts(whole, cutting_list(whole))
    (found,) = layout.findings
    assert (found.kind, found.where) == ("part too large", "drawer 1 bottom")
    assert found.way_out(str).startswith("Part it by a grooved bar down its middle (bottom-bar")
    (layout,) = sheet_layouts(parted, cutting_list(parted))
    assert (layout.findings, layout.left_out) == ((), ())
    deep = planned(read_job(WIDE.replace("depth = 500", "depth = 700"), "deep.toml"))
    (layout,) = sheet_layouts(deep, cutting_list(deep))
    assert "bottom-bar" not in layout.findings[0].way_out(str)
