"""Setting cards: what stands on them, and that their views are true to size."""

from dataclasses import replace
from fractions import Fraction

import pytest

from joinlay.boards import Band, CutKind, Span, Surface, Whole
from joinlay.casework.assembly import Assembly
from joinlay.jobs.plan import Plan
from joinlay.jobs.planning import plan as planned
from joinlay.jobs.reader import read_job
from joinlay.lengths import Unit
from joinlay.pages import Printer
from joinlay.pages.card_head import CardHead
from joinlay.pages.plain_sheet import FOOT
from joinlay.pages.printed_sheet import bind
from joinlay.pages.setting_card import CardMaker
from joinlay.pages.setting_sheets import is_listed_in_short, setting_sheets
from joinlay.pages.setting_view import SettingView
from joinlay.paper import paper_named
from joinlay.pen.lettering import Run, Vulgar, plain
from joinlay.pen.marks import Line, Polyline, Role, Text, bounds_of, flatten
from joinlay.settings import Guide, choose, settings_for
from joinlay.settings.feeding import feed_in_short
from joinlay.settings.wording import correction_pairs, cut_words, lying_together, machine_words
from joinlay.shop import MachineKind, usual_shop
from tests import by_hand
from tests.measured.collisions import collisions
from tests.measured.packets import example, examples, packet
from tests.unit.documents.odd_jobs import BOX
from tests.unit.settings.wood import (
    ACROSS,
    LEFT,
    RIGHT,
    board,
    dado,
    edge_rabbet,
    end_mortises,
    end_rabbet,
    end_slot,
    groove,
    hole,
    inch,
    shop,
)

SHOP = usual_shop(Unit.INCH)
RULE = SHOP.rule

KINDS = {
    "dado": dado(board("18", "5", "1/2"), "1/4", "1/4", "1/4", far=True),
    "far dado": dado(board("30", "9", "3/4"), "6 1/3", "23/32", "3/8"),
    "wide dado": dado(board("20", "7", "3/4"), "6", "1 3/4", "3/8"),
    "dado with a straightedge": dado(board("72", "23", "3/4"), "30", "3/4", "1/4"),
    "stopped groove": groove(board("18", "5", "1/2", place=RIGHT), "3/8", "15/64", "1/4", start="2", stop="17"),
    "long groove": groove(board("60", "5", "1/2"), "3/8", "1/4", "1/4", start="1"),
    "tongue": end_rabbet(board("16", "5", "1/2", datum=ACROSS), "1/4", "1/4"),
    "back rabbet": edge_rabbet(board("30", "12", "3/4"), "9/32", "3/8"),
    "slot": end_slot(board("16", "5", "3/4", datum=ACROSS), "1/4", "1/4", "1/2"),
    "mortises": end_mortises(board("18", "5", "1/2"), "1/4", "4 mm", "12 mm", "5/8", "1", "2 5/8"),
    "hole": hole(board("16", "5", "3/4", datum=ACROSS), "8", "2 1/2", "3/16"),
}


def the_card(of, tools=SHOP):
    (card,) = settings_for([of], tools).settings
    return card


def plan_of(boards, tools=SHOP):
    """A plan of nothing but these boards."""
    parts = (Assembly(Whole.CASE, tuple(boards)),)
    choice = choose(boards, tools)
    return Plan("Chest", "chest.toml", tools.rule.unit, tools.rule, tools, {}, (), parts, choice.verdicts, "a4", choice=choice)


def sheets_of(boards, paper="a4", tools=SHOP, **more):
    return setting_sheets(plan_of(boards, tools), paper_named(paper), **more)


def the_cards(sheets):
    """The sheets that hold cards: those after the order, and the order's own where there was room under it."""
    return [sheet for sheet in sheets if any(one.template.marks[0].startswith("card ") for one in sheet.laid)]


def words_on(sheets):
    return " ".join(stroke.plain for sheet in sheets for stroke in sheet.strokes if isinstance(stroke, Text))


def assert_sound(sheets):
    """Nothing runs off the paper, and no word lies on anything."""
    for sheet in sheets:
        left, bottom, right, top = sheet.printer.room(sheet.paper)
        box = bounds_of(sheet.strokes)
        hair = Fraction(2)  # the oblique strokes of the check square reach past it
        assert left <= box[0] + hair
        assert bottom <= box[1] + hair
        assert box[2] <= right + hair
        assert box[3] <= top + hair
        assert collisions(sheet.strokes) == []


@pytest.mark.parametrize("name", KINDS)
@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_every_kind_of_card_is_sound(name, paper):
    sheets = sheets_of([KINDS[name]], paper)
    assert_sound(sheets)


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("name", examples())
def test_the_cards_of_the_examples_are_sound_and_say_all_there_is(name, paper):
    plan = example(name)
    found = plan.settings
    sheets = setting_sheets(plan, paper_named(paper))
    assert_sound(sheets)
    # What is said once for all cards stands over the first, and every card leads there.
    over = words_on(sheets[: 1 + next(n for n, sheet in enumerate(sheets) if f"card {found.settings[0].number}," in sheet.title)])
    first = found.settings[0]
    over = over.partition(" Cautions ")[2]
    over = over.partition(f"{first.number} {cut_words(first)}")[0]
    for setting in found.settings:
        on = [sheet for sheet in sheets if f"card {setting.number}," in sheet.title]
        said = words_on(on)
        assert len(on) == 1  # a card is never parted, and nothing is left over for a sheet of its own
        for caution in setting.cautions:
            assert caution.value in over
        for correction in correction_pairs(setting):
            assert correction[1:] in over
        assert "autions: over the first card" in said
        assert all(lying in said for lying, _ in lying_together(setting))
        assert setting.machine.value in said
        assert set(on[0].parts) >= set(setting.board_names)
    assert [sheet.number for sheet in sheets] == list(range(1, len(sheets) + 1))


@pytest.mark.parametrize("name", examples())
def test_the_order_is_told_before_the_cards(name):
    plan = example(name)
    found = plan.settings
    order = [sheet for sheet in setting_sheets(plan, paper_named("a4")) if "order of the cards" in sheet.title]
    said = words_on(order)
    assert f"{found.set_ups} set-ups where taking part after part would need {found.naive_set_ups}" in said
    assert "A set-up is each time" in said
    for setting in found.settings:
        assert f"{setting.count} × {cut_words(setting)}" in said
        assert machine_words(setting, plan.rule.sold) in said
    closed = [stroke for sheet in order for stroke in sheet.body if isinstance(stroke, Polyline) and stroke.closed]
    # Under the order may stand cards, in whose views cutters are drawn.
    boxes = [stroke for stroke in closed if (box := bounds_of((stroke,)))[2] - box[0] == box[3] - box[1] == 4]
    assert len(boxes) == len(found.settings)  # one to tick for each


@pytest.mark.parametrize(
    ("name", "most"), [("print-chest", 5), ("moth-cabinet", 5), ("seed-cabinet", 7), ("fly-tying-chest", 7), ("box", 4)]
)
def test_the_cards_take_no_more_paper_than_they_did(name, most):
    plan = planned(read_job(BOX, "box.toml")) if name == "box" else example(name)
    sheets = setting_sheets(plan, paper_named("letter"), with_list=False)
    assert len(sheets) <= most
    # Three cards a sheet and more, with what is said once for all of them.
    assert len(plan.settings.settings) >= 2.5 * len(sheets)
    # Where more cards follow no third of a sheet is left white, but under what is said for all of them.
    for sheet in sheets[1:-1]:
        _, bottom, _, top = sheet.printer.room(sheet.paper)
        assert (top - bounds_of(sheet.body)[1]) / (top - bottom - FOOT) >= Fraction(2, 3), sheet.title


def test_few_cards_need_no_list_before_them_and_are_ticked_themselves():
    plan = example("print-chest")
    assert is_listed_in_short(plan)
    short, whole = (setting_sheets(plan, paper_named("letter"), with_list=listed) for listed in (False, True))
    # It takes less paper: fewer sheets, or as many of which the last has more room.
    assert [(len(of), -bounds_of(of[-1].body)[1]) for of in (short, whole)] == sorted(
        (len(of), -bounds_of(of[-1].body)[1]) for of in (short, whole)
    )
    assert sum(len(sheet.body) for sheet in short) < sum(len(sheet.body) for sheet in whole)
    assert_sound(short)
    said = words_on(short[:1])
    assert "set-ups where taking part after part would need" in said
    assert "to touch" not in said
    for setting in plan.settings.settings:
        (sheet,) = [sheet for sheet in short if f"card {setting.number}," in sheet.title]
        (name,) = [
            one
            for one in sheet.strokes
            if isinstance(one, Text) and one.plain.startswith(f"{setting.number} {cut_words(setting)}")
        ]
        x, y = name.anchor
        boxes = [bounds_of((one,)) for one in sheet.strokes if isinstance(one, Polyline) and one.closed]
        assert any(box[0] < box[2] < x and box[2] - box[0] == box[3] - box[1] and box[1] < y < box[3] for box in boxes)


def banded(of):
    bands = [(Surface.END, 1), (Surface.FAR_END, 2), (Surface.EDGE, 3)]
    thick = inch("1/32")
    return replace(of, bands=tuple(Band(surface, "cherry", thick, of.width, order) for surface, order in bands))


def test_bands_go_on_before_the_first_card_that_counts_from_them():
    said = words_on(sheets_of([banded(KINDS["dado"])]))
    assert "First, left side: band the front end, back end and bottom edge and trim, before card 1" in said
    assert "band the" not in words_on(sheets_of([KINDS["dado"]]))


def view_of(of, tools=SHOP):
    card = the_card(of, tools)
    return card, tuple(flatten((SettingView(card, of, RULE, Fraction(500), Fraction(500)),)))


def named(marks, says):
    return [mark for mark in marks if not isinstance(mark, Text) and mark.says == says]


@pytest.mark.parametrize("name", ["dado", "tongue", "back rabbet", "slot", "stopped groove", "mortises", "long groove"])
def test_the_view_is_true_to_size(name):
    card, marks = view_of(KINDS[name])
    cutter = named(marks, "cutter")[0]
    assert isinstance(cutter, Polyline)
    xs = [x for x, _ in cutter.points]
    assert max(xs) - min(xs) == card.tool.width.mm
    assert min(xs) == card.near_side.mm  # zero is the fence
    ys = [y for _, y in cutter.points]
    assert (max(ys) if card.guide is Guide.FENCE and card.machine is MachineKind.ROUTER_TABLE else -min(ys)) == card.height.mm
    (floor,) = named(marks, "floor")
    assert isinstance(floor, Line)
    assert floor.end[0] == card.far_side.mm
    assert abs(floor.start[1]) == card.height.mm


def test_two_fence_positions_show_two_cutters_the_last_dashed():
    card, marks = view_of(dado(board("18", "5", "1/2"), "1", "21/64", "1/4"))
    first, last = named(marks, "cutter")
    assert (first.role, last.role) == (Role.OUTLINE, Role.LAST)
    assert last.points[0][0] - first.points[0][0] == card.fences[1].mm - card.fences[0].mm


def test_the_fence_is_hollow_where_the_cutter_is_sunk_in_it():
    card, marks = view_of(edge_rabbet(board("30", "12", "3/4"), "9/32", "1/4"))
    fence = named(marks, "fence")
    assert [one.role for one in fence] == [Role.MACHINE, Role.MACHINE]  # a double line
    assert card.near_side.mm < 0
    assert min(y for one in fence for _, y in one.points) > card.height.mm


def test_a_long_way_to_the_fence_is_broken_and_what_is_drawn_stays_true():
    card = the_card(KINDS["far dado"])
    marks = tuple(flatten((SettingView(card, KINDS["far dado"], RULE, Fraction(108), Fraction(45)),)))
    assert len([mark for mark in marks if isinstance(mark, Polyline) and mark.role is Role.BREAK]) >= 3
    near, far = named(marks, "near wall")[0], named(marks, "far wall")[0]
    assert far.start[0] - near.start[0] == card.far_side.mm - card.near_side.mm
    assert near.start[0] < card.near_side.mm
    box = bounds_of(marks)
    assert box[2] - box[0] <= 108


def heights_of(content):
    return [piece.height for piece in content if isinstance(piece, (Run, Vulgar))]


@pytest.mark.parametrize("name", KINDS)
def test_what_is_set_is_readable_at_arms_length(name):
    sheets = the_cards(sheets_of([KINDS[name]]))
    card = the_card(KINDS[name])
    large = [
        plain(stroke.content) for stroke in sheets[0].strokes if isinstance(stroke, Text) and heights_of(stroke.content)[0] >= 7
    ]
    for reading in card.readings:
        figures = reading.on_rule.figures + (
            "" if not reading.on_rule.left_over else "+" if reading.on_rule.left_over.mm > 0 else "−"
        )
        assert figures in large


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("dado", "middle 3/8"),
        ("mortises", "near side 5/32+"),
        ("back rabbet", "cutter sunk"),
        ("dado with a straightedge", "near side from front end 30"),
    ],
)
def test_a_card_says_where_the_other_side_of_the_cutter_stands(name, says):
    assert says in words_on(sheets_of([KINDS[name]]))


def test_a_card_says_parts_stops_test_piece_and_cautions():
    sheets = sheets_of([KINDS["stopped groove"]])
    said = words_on(sheets)
    for words in (
        "1 groove in drawer side",
        "new cutter",
        "router table, 3/16 in straight cutter",
        "24 000 rpm at most",
        "A lower speed marked on a cutter",
        "inside face down, bottom edge to the fence",
        "1 × left side",
        "chop the round ends square",
        "Test piece: width",
        "Too wide by x: move the fence x towards the cutter for the last pass",
        "The machine's manual goes before this card.",
    ):
        assert words in said, words


def test_mirrored_parts_stand_apart_with_their_own_stops():
    hands = {"left": LEFT, "right": RIGHT}
    sides = [groove(board("18", "5", "1/2", name=name, place=hands[name]), "3/8", "1/4", "1/4", stop="17") for name in hands]
    said = words_on(sheets_of(sides))
    assert "front end first; out-feed stop 17 from far side of cutter" in said
    assert "back end first; in-feed stop 17 from far side of cutter" in said


def test_both_ends_are_told_once():
    back = end_rabbet(KINDS["tongue"], "1/4", "1/4", far=True, name="right rabbet")
    said = words_on(sheets_of([back]))
    assert "left end, then right end down, inside face to the" in said
    assert "1 × left side, both ways round" in said


def test_sheets_are_numbered_again_within_a_packet():
    named = {"dado": "left side", "tongue": "back", "mortises": "side", "stopped groove": "rail"}
    sheets = sheets_of([board_named(KINDS[kind], name) for kind, name in named.items()])
    assert [sheet.number for sheet in sheets] == [1, 2]
    # The first card goes under the order, where there is room for it.
    assert [sheet.title for sheet in sheets] == [
        "setting cards, order of the cards; card 1, dado in drawer side",
        "card 2, rabbet in drawer side; card 3, groove in drawer side; card 4, mortise in drawer side",
    ]
    packet = bind([*sheets, *sheets, *sheets])
    assert "5 of 6" in words_on(packet[4:5])
    assert "1 of 2" not in words_on(packet)
    assert sheets_of([]) == ()


def test_what_cards_share_is_said_once_over_the_first_of_them():
    boards = [KINDS["mortises"], board_named(KINDS["dado"], "side"), board_named(KINDS["tongue"], "back")]
    sheets = sheets_of(boards, "letter")
    assert [one.template.marks[0] for sheet in sheets for one in sheet.laid[sheet is sheets[0] :]] == [
        "card 1",
        "card 2",
        "card 3",
    ]
    said = words_on(sheets)
    assert said.count("The machine's manual goes before this card.") == 1
    assert said.count("Unplug before touching cutter or blade.") == 1
    assert said.index("Unplug before touching") < said.index("1 mortise in drawer side")
    # Each card says its own way; why stands once for all of them.
    assert said.count("Feed right to left, fence behind") == 2
    assert said.count("Feed from right to left with the fence behind the work: the cutter, turning") == 1
    assert "The tongue runs between fence and cutter" in said
    assert "Card 3: " in said
    assert said.count("autions: over the first card") == 3
    assert "touch nothing" in said


def test_a_remark_names_the_machines_or_the_cards_it_is_for():
    boards = [KINDS["mortises"], board_named(KINDS["dado"], "side"), board_named(KINDS["tongue"], "back")]
    said = words_on(sheets_of(boards)).partition(" Cautions ")[2]
    assert "Mortiser: Hold the fence down hard" in said
    assert "Router table: A lower speed marked on a cutter" in said
    assert "Card 3: Stands taller than the fence" in said
    # What is for all has nothing before it, and comes first.
    assert said.startswith("Unplug before touching cutter or blade.")


def test_remarks_too_many_for_two_columns_stand_under_their_own_headings():
    heading = "If the test piece is out"
    sheets = setting_sheets(example("seed-cabinet"), paper_named("a4"), with_list=False)
    (sheet,) = (sheet for sheet in sheets if heading in words_on([sheet]))
    lines = [(stroke.anchor[1], stroke.plain) for stroke in sheet.strokes if isinstance(stroke, Text)]
    (under,) = (y for y, said in lines if said == heading)
    told = ("Unplug before touching", "cannot twist", "own instructions go")
    cautions = [y for y, said in lines if any(each in said for each in told)]
    corrections = [y for y, said in lines if said.endswith(("other way.", "too shallow: the other"))]
    assert len(cautions) == len(told)
    assert len(corrections) > 3
    assert min(cautions) > under > max(corrections)


def test_a_card_for_which_nothing_is_touched_says_so_under_the_one_before_it_and_draws_no_view():
    span = Span.about(inch("8"), inch("1"))
    cut = by_hand.cut(
        CutKind.MORTISE, Surface.EDGE, span, Span(inch("0"), inch("5/8")), Span.about(inch("1/4"), inch("4 mm")), "mortise"
    )
    boards = [KINDS["mortises"], board("16", "5", "3/4", datum=ACROSS, name="back").with_cuts(cut)]
    plan = plan_of(boards)
    first, again = plan.settings.settings
    assert not again.changes
    (sheet,) = setting_sheets(plan, paper_named("letter"))
    said = words_on([sheet])
    assert f"Set as for card 1: fence above middle {first.readings[0].on_rule.figures}" in said
    assert said.index("1 mortise in") < said.index("2 mortise in") < said.index("Set as for card 1")
    assert len([one for one in sheet.body if isinstance(one, Polyline) and one.says == "cutter"]) == 1
    # What is set otherwise is never told so.
    maker = CardMaker({one.name: one for one in boards}, RULE, Fraction(190))
    assert maker.again(first, again) is None
    block = maker.again(again, first)
    assert block is not None
    assert block.height < maker.blocks(again, Fraction(250))[0].height


def test_cautions_are_never_smaller_than_small_print():
    sheets = sheets_of([KINDS["dado"], board_named(KINDS["tongue"], "back")])
    told = [stroke for sheet in sheets for stroke in sheet.strokes if isinstance(stroke, Text)]
    for word in ("Unplug before", "autions: over the first card"):
        found = [stroke for stroke in told if word in stroke.plain]
        assert found
        assert all(min(heights_of(stroke.content)) >= Fraction(5, 2) for stroke in found)


@pytest.mark.parametrize("name", ["dado", "wide dado", "dado with a straightedge", "long groove"])
def test_which_way_to_feed_is_never_set_smaller_and_stands_in_the_head(name):
    card = the_card(KINDS[name])
    for wide in (140, 186, 204):
        head = CardHead(card, RULE, Fraction(wide), has_box=True, cautions="over the first card")
        bold = [
            one for one in head.strokes() if isinstance(one, Text) and any(getattr(run, "bold", False) for run in one.content)
        ]
        lines = [one for one in bold if not one.plain.startswith("1 ")]
        assert " ".join(line.plain for line in lines) == feed_in_short(card)
        assert all(heights_of(line.content) == [Fraction(7, 2)] for line in lines)
        assert -bounds_of(tuple(lines))[1] <= head.deep
        assert all(bounds_of((line,))[2] <= wide for line in lines)


def test_no_card_tells_of_a_remainder_too_small_to_show():
    said = words_on(packet("fly-tying-chest").sheets)
    assert "Set to the mark" in said
    assert " 0 in larger" not in said
    assert " 0 in smaller" not in said


def test_the_order_of_the_cards_says_which_way_under_each_machine():
    said = words_on(sheets_of([KINDS["dado"]])[:1])
    assert "right to left, fence behind" in said


def board_named(of, name):
    return by_hand.called(of, name)


def test_every_sheet_has_its_printer_and_no_figure_to_measure_by():
    printer = Printer(Fraction(101, 100), Fraction(99, 100))
    for sheet in sheets_of([KINDS["dado"]], printer=printer):
        assert sheet.printer == printer
    assert "views 1:1" in words_on(sheets_of([KINDS["dado"]]))


def test_a_card_with_endless_parts_goes_on_and_on_and_loses_none():
    names = [f"{'abcdefghijklmnopqrstuvwxyz'[n % 26]}{'uvwxyzabcdef'[n // 26]}" for n in range(300)]
    side = dado(board("18", "5", "1/2"), "1/4", "1/4", "1/4")
    boards = [board_named(side, f"{name} panel of the long row") for name in names]
    sheets = sheets_of(boards)
    assert len(sheets) > 2
    said = words_on(sheets)
    assert all(each.name.split()[0] in said for each in boards)
    assert_sound(sheets)


def test_a_cut_too_large_to_be_drawn_true_says_so():
    wide = dado(board("30", "9", "3/4"), "2", "9", "1/4")
    said = words_on(sheets_of([wide], tools=shop(cutters={"3/4": "1"})))
    assert "too large to be drawn true on this paper" in said


def test_what_all_parts_of_a_card_have_in_common_is_said_once():
    fronts = [
        board_named(hole(board("16", "5", "3/4", datum=ACROSS), "8", line, "3/16"), f"front {n}")
        for n, line in enumerate(("2", "2 1/2", "3"))
    ]
    said = words_on(the_cards(sheets_of(fronts)))
    assert said.count("middles 8") == 1
    assert "All: middles 8 from left end" in said
    for n, line in enumerate(("2", "2 1/2", "3")):
        assert f"1 × front {n} on a line {line} from bottom edge" in said.replace(":", "")


def test_figures_that_are_set_or_held_are_five_millimetres_high():
    stopped = sheets_of([KINDS["stopped groove"], KINDS["mortises"]])
    held = [stroke for sheet in the_cards(stopped) for stroke in sheet.strokes if isinstance(stroke, Text)]
    for word, figure in (("stop", "17,"), ("middles", "1,"), ("deep", "5/8")):
        (line,) = [stroke for stroke in held if word in stroke.plain and figure in stroke.plain]
        large = [plain((piece,)) for piece in line.content if piece.height == 5]
        assert any(figure in one for one in large), line.plain
        # No figure that is set or held is among the words, which are lower.
        named = line.plain.partition(": ")[0] if ": " in line.plain else ""
        low = plain(tuple(piece for piece in line.content if piece.height < 5)).removeprefix(named)
        assert not any(sign.isdigit() for sign in low), line.plain


def test_the_test_piece_is_told_as_callipers_show_it():
    said = words_on(sheets_of([KINDS["back rabbet"]]))
    assert "Test piece: wood left" in said
    measured = said.partition("Test piece: ")[2].partition("If the test piece")[0]
    assert "rabbet width 0.281 in" in measured  # 9/32 in
    assert "depth 0.375 in" in measured  # 3/8 in
    assert "/" not in measured
