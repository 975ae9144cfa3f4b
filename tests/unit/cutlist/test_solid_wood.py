"""Solid wood: lumber to ask for and how much of it, and boards on hand with their defects cut out."""

from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from joinlay.cutlist.clear_wood import clear_lengths
from joinlay.cutlist.cutting_list import cutting_list
from joinlay.cutlist.solid_wood import board_feet, board_layouts, cubic_metres, solid_needs
from joinlay.jobs.on_hand import BoardOnHand, Defect, FirstCut, OnHand
from joinlay.lengths import Length, Unit, dimension, inches, mm
from joinlay.stock import Solid
from tests.unit.cutlist.bench import board, cherry, make_plan, ply, size
from tests.unit.cutlist.sawyer import check_sheet


def test_thin_wood_counts_as_an_inch():
    assert board_feet(inches(12), inches(12), inches("1/2")) == 1
    assert cubic_metres(mm(1000), mm(1000), mm(27)) == Fraction(27, 1000)


def test_need_is_the_rough_sizes_and_the_waste():
    boards = [board(f"rail {n}", "23 1/2", "5 3/4", "cherry", "13/16", "rail") for n in (1, 2)]
    plan = make_plan(*boards, stocks={"cherry": cherry()})
    (need,) = solid_needs(plan, cutting_list(plan))
    assert need.unit == "board feet"
    assert [need.net, need.buy] == [2, Fraction(12, 5)]
    thrifty = make_plan(*boards, stocks={"cherry": cherry()})
    assert need.on_hand == 0
    assert solid_needs(thrifty, cutting_list(thrifty)) == (need,)


def test_need_in_cubic_metres():
    stock = Solid("oak", size("27", Unit.MM), size("20", Unit.MM), "white oak")
    part = board("rail", "988 mm", "94 mm", "oak", "20 mm", "rail")
    plan = make_plan(part, stocks={"oak": stock}, unit=Unit.MM)
    (need,) = solid_needs(plan, cutting_list(plan))
    assert (need.unit, need.net) == ("cubic metres", Fraction(27, 10000))
    assert need.buy == need.net * Fraction(6, 5)


def test_boards_on_hand_are_taken_off():
    boards = [board(f"rail {n}", "23 1/2", "5 3/4", "cherry", "13/16", "rail") for n in (1, 2)]
    have = OnHand(boards=(BoardOnHand("b", "cherry", size("25"), size("6")),))
    plan = make_plan(*boards, stocks={"cherry": cherry()}, on_hand=have)
    parts = cutting_list(plan)
    (need,) = solid_needs(plan, parts, board_layouts(plan, parts))
    assert [need.net, need.on_hand, need.buy] == [2, 1, Fraction(6, 5)]


KERF = inches("1/8")


def plank(length="96", width="7", defects=(), name="board 1", **more):
    return BoardOnHand(name, "cherry", size(length), size(width), tuple(Defect(size(a), size(b)) for a, b in defects), **more)


def clear(*defects, length="96"):
    return [(a.inches, b.inches) for a, b in clear_lengths(plank(length, defects=defects), KERF)[0]]


def layout(*boards, on_hand, **more):
    plan = make_plan(*boards, stocks={"cherry": cherry(), "ply": ply()}, on_hand=OnHand(boards=on_hand), **more)
    return board_layouts(plan, cutting_list(plan))


def test_clear_lengths():
    assert clear() == [(0, 96)]
    assert clear(("12", "14")) == [(0, 12), (14, 96)]
    assert clear(("0", "2"), ("95", "96")) == [(2, 95)]
    assert clear(("20", "30"), ("10", "25")) == [(0, 10), (30, 96)]
    assert clear(("0", "96")) == []


def test_a_defect_thinner_than_the_kerf_costs_the_kerf():
    assert clear(("12", "12 1/16")) == [(0, 12), (inches("12 1/8").inches, 96)]
    assert len(clear_lengths(plank(defects=[("12", "12 1/16")]), KERF)[1]) == 1
    assert len(clear_lengths(plank(defects=[("12", "14")]), KERF)[1]) == 2


def test_parts_are_cut_at_their_rough_size_clear_of_defects():
    parts = [board(f"rail {n}", "19 1/2", "3", "cherry", "13/16", "rail") for n in range(1, 5)]
    (made,) = layout(*parts, on_hand=(plank(defects=[("30", "33")]),))
    (sheet,) = made.sheets
    assert {laid.piece.name for laid in sheet.pieces} == {part.name for part in parts}
    assert {(laid.panel.length.inches, laid.panel.width.inches) for laid in sheet.pieces} == {(20, inches("3 1/4").inches)}
    for laid in sheet.pieces:
        assert laid.panel.along + laid.panel.length <= inches(30) or laid.panel.along >= inches(33)
    check_sheet(sheet, KERF, FirstCut.EITHER)
    assert made.first_cut is FirstCut.CROSSCUT
    assert made.findings == ()


def test_boards_that_run_out_say_so_and_lose_nothing():
    parts = [board(f"rail {n}", "40", "6", "cherry", "13/16", "rail") for n in range(1, 4)]
    (made,) = layout(*parts, on_hand=(plank(),))
    assert len(made.sheets[0].pieces) == 2
    assert [piece.name for piece in made.left_out] == ["rail 3"]
    (finding,) = made.findings
    assert finding.sentence(str) == (
        "The boards on hand hold 2 of 3 parts; wood for the rest is on the list of what to buy: rail 3."
    )


def test_a_part_thicker_than_the_boards_is_cut_from_none_of_them():
    thick = board("knob", "4", "1 1/2", "cherry", "1 1/2", "knob blank")
    assert layout(thick, on_hand=(plank(),)) == ()
    (made,) = layout(thick, board("rail", "20", "3", "cherry", "13/16"), on_hand=(plank(),))
    assert [laid.piece.name for sheet in made.sheets for laid in sheet.pieces] == ["rail"]
    assert made.findings == ()


def test_boards_not_needed_are_named_and_alike_ones_counted():
    (made,) = layout(board("rail", "20", "3", "cherry", "13/16"), on_hand=(plank(count=2), plank("30", name="short")))
    assert [sheet.blank.name for sheet in made.sheets] == ["short"]
    assert [blank.name for blank in made.unused] == ["board 1, 1 of 2", "board 1, 2 of 2"]


def test_no_boards_no_layout():
    assert layout(board("rail", "20", "3", "cherry", "13/16"), on_hand=()) == ()
    assert layout(board("side"), on_hand=(plank(),)) == ()


@st.composite
def _planks(draw):
    length = draw(st.integers(400, 2500))
    spots = [sorted(draw(st.tuples(st.integers(0, length), st.integers(0, length)))) for _ in range(draw(st.integers(0, 4)))]
    defects = tuple(Defect(mm(a), mm(b)) for a, b in spots if a < b)
    return BoardOnHand(
        "plank", "cherry", dimension(mm(length)), dimension(mm(draw(st.integers(80, 250)))), defects, draw(st.integers(1, 2))
    )


def sawn_as(part, named):
    """The part by its name, or the boards it is glued up from where it is wide (PN-1): no board wider than 6 in, and more of them
    where those on hand are narrower, as one of ``named`` says.
    """
    least = int(-(-part.width.inches // 6))
    if least == 1:
        return [part.name]
    many = next(int(name.rpartition(" ")[2]) for name in named if name.startswith(f"{part.name}, board "))
    assert many >= least
    return [f"{part.name}, board {n} of {many}" for n in range(1, many + 1)]


@given(st.lists(_planks(), min_size=1, max_size=2), st.lists(st.tuples(st.integers(50, 900), st.integers(30, 200)), max_size=6))
@settings(max_examples=25, deadline=None)
def test_whatever_the_boards_every_part_is_clear_and_can_be_sawn(planks, sizes):
    have = tuple(BoardOnHand(f"plank {n}", p.stock, p.length, p.width, p.defects, p.count) for n, p in enumerate(planks))
    parts = [board(f"part {n}", f"{a} mm", f"{b} mm", "cherry", "13/16", f"kind {n}") for n, (a, b) in enumerate(sizes)]
    for made in layout(*parts, on_hand=have, kerf=mm(3)):
        laid = [piece.piece.name for sheet in made.sheets for piece in sheet.pieces]
        named = sorted(laid + [piece.name for piece in made.left_out])
        assert named == sorted(name for part in parts for name in sawn_as(part, named))
        by_name = {f"plank {n}": p for n, p in enumerate(have)}
        for sheet in made.sheets:
            check_sheet(sheet, mm(3), FirstCut.EITHER)
            own = by_name[sheet.blank.name.partition(",")[0]]
            for piece in sheet.pieces:
                start, stop = piece.panel.along, piece.panel.along + piece.panel.length
                assert all(stop <= defect.start or start >= defect.stop for defect in own.defects)


def test_clear_lengths_are_plain_lengths():
    (span,), _ = clear_lengths(plank(), KERF)
    assert all(type(end) is Length for end in span)
