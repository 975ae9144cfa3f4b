"""The cutting list and sheet layouts on paper: nothing missing, nothing off the page, no word on another."""

from fractions import Fraction
from functools import cache

import pytest

from joinlay.boards import Band, Surface
from joinlay.boards.names import in_few_words
from joinlay.cutlist.cutting_list import cutting_list
from joinlay.cutlist.lists import all_lists, with_paper
from joinlay.cutlist.pattern import cut_steps
from joinlay.jobs.on_hand import BoardOnHand, Defect, OnHand, Prices, Sawing, SheetOnHand
from joinlay.jobs.planning import plan as planned
from joinlay.jobs.reader import read_job
from joinlay.lengths import Unit
from joinlay.pages.layout_sheets import layout_sheets
from joinlay.pages.list_sheets import cutting_list_sheets
from joinlay.pages.plain_sheet import PageBlock, flow
from joinlay.pages.printed_sheet import bind
from joinlay.paper import PAPERS
from joinlay.pen.marks import Fill, Line, Polyline, Role, Text, bounds_of
from tests.measured.collisions import collisions
from tests.measured.packets import example
from tests.unit.cutlist.bench import board, cherry, make_plan, ply, size, tenon
from tests.unit.documents.odd_jobs import BOX

A4, LETTER = PAPERS["a4"], PAPERS["letter"]


def big_plan(**more):
    stocks = {"ply": ply(), "cherry": cherry()}
    boards = [board(f"drawer {n} {hand} side", "19 1/2", f"4 {n}/16") for n in range(1, 31) for hand in ("left", "right")]
    boards += [board(f"rail {n}", "30", "2", "cherry", "13/16", "rail") for n in range(6)] + [tenon(f"t {n}") for n in range(40)]
    return make_plan(*boards, stocks=stocks, **more)


def texts(sheet):
    return [stroke for stroke in sheet.strokes if isinstance(stroke, Text)]


def said(sheets):
    return [text.plain for sheet in sheets for text in texts(sheet)]


@pytest.mark.parametrize("paper", [A4, LETTER])
def test_every_part_is_in_the_list_with_its_sizes(paper):
    plan, lists = listed("many")
    sheets = cutting_list_sheets(plan, lists, paper)
    words = " ".join(said(sheets))
    for row in lists.parts.rows:
        assert row.where.split(",")[0] in words
        assert f"{row.quantity} ×" in words
    # Rough, for the cherry: 30 1/2 by 2 1/4.
    assert "30 1/2" in words
    assert "2 1/4" in words
    assert "what to buy and have ready" in words


def wood():
    return {"ply": ply(), "cherry": cherry(), "thin": ply("thin", "1/4")}


def forty_drawers():
    made = []
    for n in range(1, 41):
        high, name = str(3 + n % 4), f"drawer {n}"
        made += [
            board(f"{name} front", "18", high, part="drawer front"),
            board(f"{name} back", "17 1/2", "2 3/4", part="drawer back"),
        ]
        made += [board(f"{name} {hand} side", "16", high) for hand in ("left", "right")]
        made.append(board(f"{name} bottom", "17", "15 3/8", "thin", "1/4", "drawer bottom"))
    return make_plan(*made, stocks=wood())


def all_on_hand():
    """Offcuts, boards with defects, bands, tenons, prices: something of everything."""
    bands = tuple(
        Band(surface, "cherry tape", size("1/16"), size("22"), n) for n, surface in enumerate((Surface.EDGE, Surface.FAR_EDGE))
    )
    boards = [board(f"rail {n}", "30", "2", "cherry", "13/16", "rail") for n in range(1, 9)]
    boards += [board(f"stops drawer {n} left block", "1 1/2", "1/2", "cherry", "1/4", "stop block") for n in range(1, 17)]
    boards += [board(f"drawer {n} left side", "16", f"{3 + n}") for n in range(1, 9)]
    boards += [board(f"drawer {n} bottom", "9", "9", part="drawer bottom") for n in range(1, 5)]
    boards += [board("panel", "20", "14", bands=bands), board("edge", "20", "1", "cherry", "13/16", bands=bands)]
    long = BoardOnHand(
        "the long board", "cherry", size("8 ft"), size("7"), (Defect(size("20"), size("24")), Defect(size("90"), size("96")))
    )
    offcuts = (SheetOnHand("the piece behind the door", "ply", size("40"), size("20")),
               SheetOnHand("old shelf", "ply", size("30"), size("11"), grain_known=False, count=2))  # fmt: skip
    prices = Prices("GBP", {"ply": Fraction("62.5"), "cherry": Fraction("14.25")}, Fraction(31))
    held = OnHand(offcuts, (long, BoardOnHand("short ones", "cherry", size("35"), size("5"), count=2)), prices,
                  Sawing(any_grain=frozenset({"drawer bottom"})))  # fmt: skip
    return make_plan(*boards, *(tenon(f"drawer 1 front left tenon {n}") for n in range(9)), stocks=wood(), on_hand=held)


def blocks():
    """So many small parts that no two cuts have room for their numbers."""
    made = [
        board(f"stops drawer {n} {hand} block", "40 mm", "15 mm", part="stop block")
        for n in range(1, 31)
        for hand in ("left", "right")
    ]
    return make_plan(*made, unit=Unit.MM)


JOBS = {
    "many": big_plan,
    "forty drawers": forty_drawers,
    "one drawer": lambda: make_plan(board("drawer 1 front", "18", "5")),
    "too large": lambda: make_plan(board("a huge panel for a very long sideboard", "120", "60"), board("shelf", "30", "12")),
    "all on hand": all_on_hand,
    "blocks": blocks,
    "long names": lambda: make_plan(*(board(f"the {'very ' * 9}long name of part {n}", "20", f"{n}") for n in range(3, 9))),
    "print chest": lambda: example("print-chest"),
    "moth cabinet": lambda: example("moth-cabinet"),
    "seed cabinet": lambda: example("seed-cabinet"),
    "a whole sheet": lambda: make_plan(board("a", "96", "48"), practice={"edge trim": size("0")}),
}


@cache
def listed(job):
    """The plan of a job and its lists, which are searched for once."""
    plan = JOBS[job]()
    return plan, all_lists(plan)


@cache
def laid_out(job, paper):
    """The layouts of a job on a paper by its name."""
    plan, lists = listed(job)
    return layout_sheets(plan, lists, PAPERS[paper])


def listing(job):
    """The cutting list of a job on A4."""
    plan, lists = listed(job)
    return cutting_list_sheets(plan, lists, A4)


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("job", JOBS)
def test_nothing_lies_off_the_page_or_on_a_word(job, paper):
    plan, lists = listed(job)
    lists, paper, layouts = with_paper(lists, plan, 9), PAPERS[paper], laid_out(job, paper)
    for sheet in (*cutting_list_sheets(plan, lists, paper), *layouts):
        left, bottom, right, top = bounds_of(sheet.strokes)
        low_x, low_y, high_x, high_y = paper.printable
        assert low_x <= left
        assert low_y <= bottom
        assert right <= high_x
        assert top <= high_y
        assert collisions(sheet.strokes) == []


@pytest.mark.parametrize("job", [job for job in JOBS if job != "blocks"])
def test_every_cut_has_its_number_on_the_drawing(job):
    _, lists = listed(job)
    # Of a page with several sheets, each is laid on it by itself.
    laid = [one.template.strokes for sheet in laid_out(job, "a4") for one in sheet.laid]
    words = [[stroke for stroke in strokes if isinstance(stroke, Text)] for strokes in laid]
    drawn = [own for own in words if any(text.ink == 0 for text in own) or "no cut" in str([text.plain for text in own])]
    numbers = [[n for text in own if text.ink == 0 for n in ends(text.plain)] for own in drawn]
    sawn = [[each.number for each in sheet.cuts] for layout in lists.layouts for sheet in layout.sheets]
    assert sorted(map(sorted, numbers)) == sorted(map(sorted, sawn))


def ends(said_so):
    """The numbers a run of cuts stands for."""
    first, _, last = said_so.partition("–")
    return range(int(first), int(last or first) + 1)


def test_where_parts_are_too_small_a_run_of_cuts_shares_a_number():
    (sheet,) = laid_out("blocks", "a4")
    numbers = [text.plain for text in texts(sheet) if text.ink == 0]
    assert "5–60" in numbers


def test_where_only_a_corner_is_used_it_is_drawn_larger_and_the_rest_broken_off():
    plan = make_plan(board("a", "10", "5"), board("b", "10", "6"))
    (sheet,) = layout_sheets(plan, all_lists(plan), A4)
    assert [stroke.role for stroke in sheet.strokes if isinstance(stroke, Polyline)].count(Role.BREAK) == 2
    assert any("1:5" in word for word in said([sheet]))
    full = make_plan(board("a", "95", "40"))
    (sheet,) = layout_sheets(full, all_lists(full), A4)
    assert Role.BREAK not in [stroke.role for stroke in sheet.strokes if isinstance(stroke, Polyline)]
    assert any("1:13" in word for word in said([sheet]))


def test_a_defect_is_crossed_out():
    board_page = next(sheet for sheet in laid_out("all on hand", "a4") if "the long board" in " ".join(said([sheet])))
    assert any(isinstance(stroke, Line) and stroke.role is Role.WASTE for stroke in board_page.strokes)


def test_core_sizes_of_banded_solid_wood_are_not_lost():
    words = said(listing("all on hand"))
    assert "core 20 × 7/8" in words


def test_sheets_are_numbered_within_the_packet():
    sheets = listing("many")
    assert len(sheets) > 1
    assert [sheet.number for sheet in sheets] == list(range(1, len(sheets) + 1))
    bound = bind([*sheets, *sheets])
    assert [sheet.number for sheet in bound] == list(range(1, 2 * len(sheets) + 1))
    assert f"{len(sheets) + 1} of {2 * len(sheets)}" in said(bound[len(sheets) :][:1])
    assert [sheet.title for sheet in sheets[:2]] == ["cutting list, page 1", "cutting list, page 2"]
    assert "not to scale" in said(sheets[:1])


def test_costs_and_slides_are_shown():
    prices = Prices("GBP", {"ply": Fraction(40)})
    plan = big_plan(on_hand=OnHand(prices=prices))
    words = said(cutting_list_sheets(plan, all_lists(plan), A4))
    assert "80.00 GBP" in words
    assert "in all, without what has no price" in words


def test_a_layout_page_for_each_sheet_with_parts_cuts_and_offcuts():
    _, lists = listed("many")
    sheets = laid_out("many", "a4")
    (layout,) = lists.sheets
    words = said(sheets)
    for step in (step for cut_sheet in layout.sheets for step in cut_steps(cut_sheet)):
        assert in_few_words(laid.piece.name for laid in step.done) in " ".join(words)
        assert step.numbers in words
    assert any(word.startswith("Keep what is left: ") for word in words)
    assert any("All the parts of ply take 2 whole sheets, and no layout takes fewer." in word for word in words)


def test_a_layout_is_drawn_in_proportion():
    plan = make_plan(board("a", "48", "24"), practice={"edge trim": size("0")}, on_hand=OnHand(sawing=Sawing()))
    (sheet,) = layout_sheets(plan, all_lists(plan), A4)
    part = bounds_of([next(stroke for stroke in sheet.strokes if isinstance(stroke, Fill) and 0 < stroke.ink < 1)])
    assert (part[2] - part[0]) == 2 * (part[3] - part[1])
    lines = [stroke for stroke in sheet.strokes if isinstance(stroke, Line)]
    assert any(line.start[1] == line.end[1] and line.start[1] > part[3] for line in lines)


def test_a_part_as_large_as_its_sheet():
    plan = make_plan(board("a", "96", "48"), practice={"edge trim": size("0")})
    words = said(layout_sheets(plan, all_lists(plan), A4))
    assert "All of it is one part: no cut." in words


def test_an_empty_plan():
    plan = make_plan()
    assert len(cutting_list_sheets(plan, all_lists(plan), A4)) == 1
    assert layout_sheets(plan, all_lists(plan), A4) == ()


#: Something to see, so that a block is no white.
INK = (Line((Fraction(0), Fraction(0)), (Fraction(1), Fraction(0)), Role.OUTLINE),)


def block(height, leads=False):
    return PageBlock(INK, Fraction(height), leads)


def test_flow_keeps_headings_with_what_they_head():
    pages = flow([block(5, True), block(40), block(5, True), block(3, True), block(40)], Fraction(60))
    assert [[each.height for each in page] for page in pages] == [[5, 40], [5, 3, 40]]


def test_flow_of_a_block_higher_than_the_page():
    pages = flow([block(5), block(90), block(5)], Fraction(60))
    assert [[each.height for each in page] for page in pages] == [[5], [90], [5]]
    assert flow([], Fraction(60)) == []


def test_white_alone_is_no_page():
    white = PageBlock((), Fraction(30))
    assert flow([block(50), white], Fraction(60)) == [[block(50)]]


def test_a_page_that_goes_on_with_a_list_says_so():
    again = block(7, leads=True)
    row = PageBlock(INK, Fraction(20), again=again)
    pages = flow([block(7, leads=True), row, row, row], Fraction(60))
    assert [[each.height for each in page] for page in pages] == [[7, 20, 20], [7, 20]]
    # With its own heading at the top it needs no other.
    heading = block(7, leads=True)
    pages = flow([block(50), heading, row], Fraction(60))
    assert pages == [[block(50)], [heading, row]]
    assert "ply, continued" in said(listing("many")[1:2])
    second = next(sheet for sheet in laid_out("forty drawers", "a4")[1:2])
    assert {"ply, 1 of 3, continued", "then done"} <= set(said([second]))


def test_what_was_found_stands_on_the_list():
    plan, lists = listed("too large")
    words = " ".join(said(cutting_list_sheets(plan, lists, A4)))
    (finding,) = lists.findings
    assert "warning: a huge panel for a very long sideboard" in words
    assert finding.sentence(plan.rule.text) in words
    assert finding.way_out(plan.rule.text) in words
    assert "good to know" not in words
    assert "good to know: old shelf, 1 and 2 of 2" in " ".join(said(listing("all on hand")))


@pytest.mark.parametrize("paper", [A4, LETTER], ids=["a4", "letter"])
def test_cautions_stand_where_it_is_sawn_out(paper):
    """On the cutting list as large as its other words, and on every layout that has a cut."""
    plan = make_plan(board("tall", "30", "20"), board("slip", "3 1/2", "3/4"))
    lists = all_lists(plan)
    sheets = cutting_list_sheets(plan, lists, paper)
    for made in (sheets, layout_sheets(plan, lists, paper)):
        words = " ".join(said(made))
        assert "Sawing out: guard and riving knife on" in words
        assert "down to 3/4): rip them off the side away from the fence" in words
        assert "down to 3 1/2): crosscut them from a long strip" in words
    told = next(text for text in texts(sheets[-1]) if text.plain.startswith("Sawing out: "))
    assert told.content[0].height == Fraction(7, 2)


def test_a_taper_under_a_mark_is_told_by_callipers_and_never_as_nothing():
    plan = example("print-chest")
    words = " ".join(said(cutting_list_sheets(plan, all_lists(plan), A4)))
    assert "tapered: " in words
    assert "(0+ off" not in words
    assert "0.016 in off" in words


def test_each_row_has_a_picture_of_its_part_where_that_takes_no_more_paper():
    drawn = {}
    box = planned(read_job(BOX, "box.toml"))
    seeds = example("seed-cabinet")
    for name, plan, begun in (("box", box, 0), ("print chest", example("print-chest"), 0), ("seed cabinet", seeds, 48)):
        lists = cutting_list_sheets(plan, with_paper(all_lists(plan), plan, 40), LETTER, begun=Fraction(begun))
        assert len(lists) <= 3
        strokes = [stroke for sheet in lists for stroke in sheet.body if not isinstance(stroke, Text)]
        rows = cutting_list(plan).rows
        own = {row.number: [stroke for stroke in strokes if stroke.says == row.board.name] for row in rows}
        for row in rows:
            if own[row.number]:
                left, bottom, right, top = bounds_of(own[row.number])
                if top - bottom > 1:
                    assert (right - left) * row.board.width.mm == (top - bottom) * row.board.length.mm
        drawn[name] = sum(1 for some in own.values() if some) / len(rows)
    # A column of its own, or only the rows that have room.
    assert drawn["box"] == drawn["print chest"] == 1
    assert 0.5 < drawn["seed cabinet"] < 1


@pytest.mark.parametrize(
    ("begun", "titles"), [(0, [["oak-three-quarter", "oak-quarter"]]), (90, [["oak-quarter"], ["oak-three-quarter"]])]
)
def test_under_what_comes_before_a_layout_stands_first_that_has_room_there(begun, titles):
    plan = example("fly-tying-chest")
    made = layout_sheets(plan, all_lists(plan), PAPERS["letter"], begun=Fraction(begun))
    assert [[laid.template.title.split(", ")[1] for laid in sheet.laid] for sheet in made] == titles
