"""Which machine, and why: by the shop's tools and the part's size (MS-5, MS-6, MS-7), each refusal with its way out."""

from dataclasses import replace

import pytest

from joinlay.boards import CutKind, Shape, Span, Surface
from joinlay.findings import Harm
from joinlay.lengths import GRADUATIONS, Unit, inches, mm
from joinlay.settings import Caution, Guide, Role, ToolKind, settings_for
from joinlay.settings.feeding import feed_sentence
from joinlay.settings.wording import correction_words
from joinlay.shop import HandRouter, MachineKind, usual_shop
from tests import by_hand
from tests.unit.settings.wood import (
    ACROSS,
    board,
    dado,
    edge_rabbet,
    end_mortises,
    end_rabbet,
    end_slot,
    groove,
    hole,
    inch,
    metric,
    shop,
    span,
    with_dado_set,
)  # fmt: skip

INCH = GRADUATIONS["1/64 in"]


def the_card(of, tools=None):
    found = settings_for([of], tools or usual_shop(Unit.INCH))
    assert len(found.settings) == 1, [finding.sentence(INCH.text) for finding in found.findings]
    return found.settings[0]


def the_refusal(of, tools):
    """Of a shop without hand tools, which would cut it."""
    found = settings_for([of], replace(tools, machines=replace(tools.machines, hand_tools=None)))
    assert found.settings == ()
    (refused,) = (finding for finding in found.findings if finding.harm is Harm.REFUSE)
    return refused


def test_a_drawer_side_goes_over_the_router_table():
    card = the_card(dado(board("18", "5", "1/2"), "1/4", "1/4", "1/4", far=True))
    assert (card.machine, card.guide) == (MachineKind.ROUTER_TABLE, Guide.FENCE)
    assert (card.works[0].entry_word, card.works[0].fence_word) == (
        "inside face",
        "back end",
    )  # from the end the joint counts from
    assert card.near_side == inches("1/4")
    assert card.centre == inches("3/8")
    assert card.far_side == inches("1/2")
    assert "first choice" in card.reason.sentence(INCH.text)


def test_a_groove_keeps_the_reference_edge_to_the_fence_however_high_it_lies():
    card = the_card(groove(board("18", "5", "1/2"), "4", "1/4", "1/4"))
    assert card.works[0].fence_word == "bottom edge"
    assert card.near_side == inches("4")


def test_a_tall_case_side_stays_on_the_bench_and_the_reason_is_said():
    card = the_card(dado(board("72", "23", "3/4"), "30", "3/4", "1/4"))
    assert (card.machine, card.guide) == (MachineKind.HAND_ROUTER, Guide.STRAIGHTEDGE)
    assert card.offset == inches("2 5/8")  # (6 - 3/4)/2
    assert card.passes[0].guide == inches("27 3/8")
    assert (
        card.reason.sentence(INCH.text)
        == "not at the first choice: it reaches 72 in from the fence and a router table takes 36 in"
    )
    # MS-6, common practice: the cutter turns clockwise under a hand and throws the router to the left of its walk, against the
    # straightedge.
    assert "away from you with the straightedge on your left" in feed_sentence(card)
    assert Caution.CLAMPED in card.cautions


def test_a_straightedge_stands_half_the_base_less_half_the_cutter_from_the_near_wall():
    """MS-5, common practice: a 7 in base and a 1/2 in cutter stand 3 1/4 in off."""
    router = HandRouter(inch("7"), inch("6"))
    card = the_card(dado(board("72", "23", "3/4"), "30", "1/2", "1/4"), shop(hand_router=router))
    assert card.offset == inches("3 1/4")


def test_near_an_end_the_edge_guide_serves():
    card = the_card(dado(board("72", "23", "3/4"), "1/2", "3/4", "1/4"))
    assert (card.guide, card.near_side) == (Guide.EDGE_GUIDE, inches("1/2"))


def test_a_groove_on_a_long_part_leaves_the_table():
    card = the_card(groove(board("60", "5", "1/2"), "3/8", "1/4", "1/4"))
    assert card.machine is MachineKind.HAND_ROUTER
    assert "60 in along the fence" in card.reason.sentence(INCH.text)


def test_past_edge_guide_and_straightedge_nothing_is_left():
    router = HandRouter(inch("6"), inch("1"))
    only = shop(hand_router=router, table_saw=None, first_choice=(MachineKind.HAND_ROUTER,))
    found = the_refusal(dado(board("4 1/2", "23", "3/4"), "2", "3/4", "1/4"), only)
    assert found.kind == "straightedge"
    assert found.way_out(INCH.text) == "An edge guide that reaches 1 3/4 in, or a router base 4 1/4 in wide or less, would do."


def test_the_saw_with_a_dado_set_where_the_maker_likes_it_better():
    card = the_card(dado(board("18", "5", "1/2"), "1/4", "1/4", "1/4"), with_dado_set("1/4", "3/8"))
    assert (card.machine, card.tool.kind) == (MachineKind.TABLE_SAW, ToolKind.DADO_SET)
    assert card.speed is None
    assert Caution.DADO_SET in card.cautions


def test_a_stopped_cut_is_never_sawn():
    card = the_card(groove(board("18", "5", "1/2"), "3/8", "1/4", "1/4", stop="16"), with_dado_set("1/4"))
    assert card.machine is MachineKind.ROUTER_TABLE
    assert "curved end" in card.reason.sentence(INCH.text)


def test_single_kerfs_only_where_no_router_serves_or_the_saw_is_the_first_choice():
    thin = groove(board("480", "110", "12", make=metric), "10", "3.4", "5", make=metric)
    assert the_card(thin, shop(Unit.MM)).machine is MachineKind.ROUTER_TABLE
    card = the_card(thin, shop(Unit.MM, cutters={"4": "14"}))
    assert (card.machine, card.tool.kind) == (MachineKind.TABLE_SAW, ToolKind.BLADE)
    liked = shop(Unit.MM, first_choice=(MachineKind.TABLE_SAW, MachineKind.ROUTER_TABLE))
    assert the_card(thin, liked).tool.kind is ToolKind.BLADE


def test_a_tongue_on_a_short_back_is_cut_upright_so_that_the_fence_sets_it():
    back = end_rabbet(board("16", "5", "1/2", datum=ACROSS), "1/4", "1/4")
    card = the_card(back)
    assert card.role is Role.TONGUE
    assert (card.works[0].entry_word, card.works[0].fence_word) == ("left end", "inside face")
    assert Caution.TONGUE_PASSES in card.cautions


def test_a_tongue_on_a_long_back_is_cut_lying_flat():
    card = the_card(end_rabbet(board("32", "5", "1/2", datum=ACROSS), "1/4", "1/4"))
    assert card.role is Role.STEP
    assert (card.works[0].entry_word, card.works[0].fence_word) == ("outside face", "left end")


def test_where_the_cutter_is_wider_than_the_waste_the_work_is_not_trapped_upright():
    """MS-6: upright, a rabbet narrower than the cutter would be shaved between fence and cutter; it is cut lying flat."""
    card = the_card(end_rabbet(board("16", "5", "15/32", datum=ACROSS), "1/4", "7/32"), shop(cutters={"1/4": "1"}))
    assert card.role is Role.STEP
    assert card.near_side <= inches("0")


def test_both_cheeks_of_a_tenon_are_cut_flat_at_one_setting():
    rail = board("16", "2", "1", datum=ACROSS)
    for outside in (True, False):
        rail = end_rabbet(rail, "1 1/4", "5/16", outside=outside, name=f"cheek {outside}")
    found = settings_for([rail], usual_shop(Unit.INCH))
    assert {card.role for card in found.settings} == {Role.STEP}
    assert {(card.tool, card.passes) for card in found.settings} == {(found.settings[0].tool, found.settings[0].passes)}


def test_a_slot_in_the_end_of_a_front_warns_of_its_height():
    found = settings_for([end_slot(board("16", "5", "3/4", datum=ACROSS), "1/4", "1/4", "1/2")], usual_shop(Unit.INCH))
    (warned,) = (finding for finding in found.findings if finding.harm is Harm.WARN)
    assert (warned.kind, warned.where, warned.rule) == ("tall part", "left side, slot", "MS-6")
    assert (warned.numbers["tall"], warned.numbers["fence"]) == (inches("16"), inches("4"))
    assert "carrier" in warned.remedy
    assert Caution.TALL in found.settings[0].cautions


def test_too_tall_to_stand_it_is_clamped_in_the_bench():
    front = end_slot(board("30", "5", "3/4", datum=ACROSS), "1/4", "1/4", "1/2")
    assert the_card(front).machine is MachineKind.HAND_ROUTER
    found = the_refusal(front, shop(hand_router=None))
    assert found.kind == "tall part"
    assert (found.numbers["tall"], found.numbers["most"]) == (inches("30"), inches("24"))
    assert "Clamp it upright" in found.way_out(INCH.text)


def test_a_part_too_small_is_refused_with_a_longer_piece_as_the_way_out():
    found = the_refusal(groove(board("3", "2", "1/2", name="tiny"), "3/8", "1/4", "1/4"), usual_shop(Unit.INCH))
    assert (found.kind, found.where, found.rule) == ("small part", "tiny, groove", "MS-6")
    assert found.way_out(INCH.text).startswith("Cut the joint on a piece 12 in long or more")


@pytest.mark.parametrize(
    ("length", "width", "small"),
    [
        ("13", "4", False),
        ("11", "4", True),
        ("13", "2", True),
        ("12", "3", False),
        ("11 63/64", "3", True),
        ("12", "2 63/64", True),
    ],
)
def test_narrow_and_short_parts_get_a_push_block(length, width, small):
    card = the_card(groove(board(length, width, "1/2"), "3/8", "1/4", "1/4"))
    assert (Caution.PUSH_BLOCK in card.cautions) is small


def test_an_end_on_the_fence_gets_a_square_block_and_cross_grain_a_backing():
    card = the_card(dado(board("18", "5", "1/2"), "1/4", "1/4", "1/4"))
    assert {Caution.SQUARE_CARRIER, Caution.BACKING, Caution.UNPLUG, Caution.MANUAL} <= set(card.cautions)
    assert feed_sentence(card).startswith("Feed from right to left with the fence behind the work: ")
    along = the_card(groove(board("18", "5", "1/2"), "3/8", "1/4", "1/4"))
    assert not {Caution.SQUARE_CARRIER, Caution.BACKING} & set(along.cautions)


@pytest.mark.parametrize(("width", "is_short"), [("12", False), ("11 63/64", True)])
def test_an_end_as_long_as_a_short_part_runs_along_the_fence_without(width, is_short):
    card = the_card(dado(board("18", width, "1/2"), "1/4", "1/4", "1/4"))
    assert (Caution.SQUARE_CARRIER in card.cautions) is is_short


def test_a_rabbet_sinks_the_cutter_in_the_fence():
    card = the_card(edge_rabbet(board("30", "12", "3/4"), "9/32", "1/4"))
    assert card.near_side < inches("0")
    assert Caution.SUNK_CUTTER in card.cautions


def test_widening_says_on_which_side():
    card = the_card(groove(board("18", "5", "1/2"), "3/8", "9/32", "1/4"))
    assert Caution.WIDEN in card.cautions


def test_round_ends_chopped_square_have_the_chisel_s_caution():
    card = the_card(groove(board("18", "5", "1/2"), "3/8", "1/4", "1/4", start="3", stop="15"))
    assert card.works[0].squared
    assert Caution.PARING in card.cautions
    through = the_card(groove(board("18", "5", "1/2"), "3/8", "1/4", "1/4"))
    assert Caution.PARING not in through.cautions


def test_along_a_straightedge_it_is_widened_back_towards_it():
    """MS-6: the wall the second pass cuts lies on the left of the walk, where a cutter that turns clockwise goes against the
    feed.
    """
    card = the_card(dado(board("72", "23", "3/4"), "30", "23/32", "1/4"), shop(cutters={"1/2": "1"}))
    assert card.guide is Guide.STRAIGHTEDGE
    assert [each.near_side for each in card.passes] == [inches("30 7/32"), inches("30")]
    assert (card.near_side, card.far_side) == (inches("30"), inches("30 23/32"))
    assert Caution.WIDEN_BACK in card.cautions
    assert Caution.WIDEN not in card.cautions
    assert feed_sentence(card) == (
        "Push the router away from you with the straightedge on your left, the wall farther from the straightedge first: "
        "each later pass then cuts the wall on your left, "
        "against the cutter's turning"
    )


def test_a_single_channel_too_narrow_is_not_put_right_by_climbing():
    """Another run with the straightedge farther away would cut the wall on the right: the far wall is cut before the near one."""
    card = the_card(dado(board("72", "23", "3/4"), "30", "3/4", "1/4"))
    assert len(card.fences) == 1
    said = [correction_words(card, each) for each in card.test_piece.corrections]
    assert said[0].endswith("make it two passes, the first with the straightedge x away from the front end")


def test_a_cut_that_begins_in_the_wood_is_dropped_on():
    card = the_card(groove(board("18", "5", "1/2"), "3/8", "1/4", "1/4", start="3", stop="15"))
    assert Caution.DROP_ON in card.cautions


def test_mortises_keep_the_reference_face_to_the_fence_at_half_the_thickness():
    """MS-7: the fence stands half the thickness of the part mortised in its end from the cutter's centre."""
    card = the_card(end_mortises(board("18", "5", "1/2"), "1/4", "4 mm", "12 mm", "5/8", "1", "2 5/8"))
    assert (card.machine, card.guide, card.role) == (MachineKind.MORTISER, Guide.FENCE, Role.MORTISE)
    assert card.centre == inches("1/4")
    assert [position.centre for position in card.works[0].positions] == [inches("1"), inches("2 5/8")]
    assert card.works[0].positions_from == "bottom edge"
    assert card.works[0].fence_word == "inside face"


def test_without_the_mortise_cutter_a_router_and_else_a_refusal():
    side = end_mortises(board("18", "5", "1/2"), "1/4", "3/16", "1/2", "1/2", "1")
    assert the_card(side).machine is MachineKind.HAND_ROUTER  # no tenon stock 3/16 thick
    found = the_refusal(side, shop(cutters={"1/8": "3/8"}))
    assert found.kind == "mortise cutter"
    assert "would do" in found.remedy
    deep = end_mortises(board("18", "5", "1/2"), "1/4", "4 mm", "12 mm", "1", "1")
    assert "goes" in the_refusal(deep, shop(hand_router=None)).what
    assert the_refusal(side, shop(hand_router=None, has_mortiser=False)).kind == "mortiser"


def test_a_face_mortise_far_from_its_end_is_cut_to_a_line():
    def mortised(near):
        along = Span(inch(near), inch(near) + metric(6))
        cut = by_hand.cut(
            CutKind.MORTISE, Surface.FACE, along, span("1", "2"), span("0", "1/2"), "mortise", shape=Shape.ROUND_ENDS
        )
        return board("18", "5", "3/4").with_cuts(cut)

    assert the_card(mortised("1/2")).guide is Guide.FENCE
    assert the_card(mortised("6")).guide is Guide.CENTRE_LINE


def test_holes_are_drilled_from_edge_and_end():
    card = the_card(hole(board("16", "5", "3/4", datum=ACROSS), "8", "2 1/2", "3/16"))
    assert (card.machine, card.role, card.tool.kind) == (MachineKind.DRILL, Role.HOLE, ToolKind.BIT)
    assert card.centre == inches("2 1/2")
    assert card.works[0].positions[0].centre == inches("8")
    assert card.lines == (inches("2 1/2"),)
    assert Caution.THROUGH_HOLE in card.cautions
    assert the_refusal(hole(board("16", "5", "3/4"), "8", "2", "3/16"), shop(has_drill=False)).kind == "drill"


def test_a_notch_is_sawn_by_hand():
    shelf = board("20", "10", "1/2", datum=ACROSS)
    notch = by_hand.cut(CutKind.SLOT, Surface.FAR_EDGE, span("0", "1/4"), span("9 1/2", "10"), span("0", "1/2"), "left notch")
    card = the_card(shelf.with_cuts(notch))
    assert (card.machine, card.guide, card.cautions) == (MachineKind.BENCH, Guide.GAUGED_LINE, (Caution.PARING,))
    assert [(reading.value.value, reading.exact) for reading in card.readings] == [
        ("far line", inches("1/4")),
        ("height", inches("1/2")),
    ]


def test_a_hidden_cut_is_refused():
    side = board("18", "5", "1/2")
    buried = by_hand.cut(CutKind.GROOVE, Surface.FACE, span("0", "18"), span("1", "2"), span("1/8", "1/4"), "groove")
    assert the_refusal(side.with_cuts(buried), usual_shop(Unit.INCH)).kind == "hidden cut"


def test_a_shop_with_no_machine_for_channels():
    found = the_refusal(groove(board("18", "5", "1/2"), "3/8", "1/4", "1/4"), shop(first_choice=()))
    assert found.kind == "machine"


def test_the_cutter_found_wanting_is_named_with_part_and_cut():
    found = the_refusal(groove(board("480", "110", "12", make=metric), "10", "2", "5", make=metric), shop(Unit.MM))
    assert (found.where, found.numbers["width"], found.numbers["thinnest"]) == ("left side, groove", mm(2), mm(3))
