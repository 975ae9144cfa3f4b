"""Three pieces of Mission Furniture, How to Make It (Popular Mechanics, 1909 and 1910), each as a whole job: F1, F4 with the
drawer F9, and F5.

Figures seen in a copy, sums worked out again. What a plate leaves open (joints of another kind, plies, what a frame must have and
a post construction has not) is ours, and no check looks at it.
"""

from functools import cache

import pytest

import joinlay
from joinlay.boards import CutUse, Hand, PartKind
from joinlay.boards.extent import extent
from joinlay.findings import Harm
from joinlay.jobs.reader import read_job
from joinlay.lengths import inches
from tests.published.test_mission_furniture import BOOKCASE, DRESSER

#: F4, part 2, p. 85, and its drawers, F9, p. 89.
SMALL_DRESSER = """
units = "inch"
[stock.oak]
kind = "solid"
species = "white oak"
nominal = "3/4"
measured = "3/4"
[stock.oak-seven-eighths]
kind = "solid"
species = "white oak"
nominal = "7/8"
measured = "7/8"
[stock.ply]
nominal = "3/4"
measured = "0.709"
[stock.half]
nominal = "1/2"
measured = "0.472"
[stock.three-eighths]
kind = "solid"
species = "yellow-poplar"
nominal = "3/8"
measured = "3/8"
[stock.five-sixteenths]
kind = "solid"
species = "yellow-poplar"
nominal = "5/16"
measured = "5/16"
[stock.thin]
nominal = "1/4"
measured = "0.205"
[case]
width = "19 1/2"
height = "17 3/4"
depth = "13 1/4"
sides = "ply"
panels = "half"
back = "thin"
[frame]
stock = "oak-seven-eighths"
stile = "1 1/2"
top-rail = "7/8"
rail = "7/8"
bottom-rail = "7/8"
[top]
stock = "oak-seven-eighths"
front = "1/4"
ends = "1/4"
[base]
stock = "oak"
height = "1 1/4"
kind = "feet"
foot = "1 1/2"
set-back = "0"
[runners]
stock = "oak"
[[bank]]
heights = ["4 3/4", "4 3/4", "4 3/4"]
[drawers]
front = "oak"
sides = "three-eighths"
bottom = "five-sixteenths"
front-joint = "rabbet"
back-joint = "dado"
back-height = "on bottom"
back-set-in = "3/8"
top-clearance = "1/8"
"""


@cache
def made(name):
    """The whole plan of one of the three."""
    jobs = {
        "dresser": DRESSER
        + '[top]\nstock = "oak"\n[base]\nstock = "oak"\nheight = "5 1/2"\nkind = "feet"\nfoot = "1 3/4"\nset-back = "0"\n',
        "small dresser": SMALL_DRESSER,
        "bookcase": BOOKCASE
        + '[top]\nstock = "oak"\nfront = "1"\nends = "1/2"\n[base]\nstock = "oak"\nheight = "4"\n[[bank]]\nrows '
        "= [{ loose = 3 }]\n",
    }
    return joinlay.plan(read_job(jobs[name], f"{name}.toml"))


def of_kind(name, kind):
    return [board for board in made(name).boards if board.role.kind is kind]


def over_all(name):
    return tuple(size.mm for size in extent([board for board in made(name).boards if board.place is not None]))


@pytest.mark.parametrize("name", ["dresser", "small dresser", "bookcase"])
def test_it_is_planned_whole_and_goes_together(name):
    plan = made(name)
    assert not plan.is_refused
    assert plan.order.findings == ()
    assert {found.kind for found in plan.findings if found.harm is Harm.WARN} <= {
        "tipping",
        "bottom sag",
        "wood movement",
        "droop",
    }


def test_f1_the_dresser_with_a_row_has_a_top_of_32_by_19_on_a_case_of_30_1_2_by_18_1_4():
    # Part 1, p. 100: 27 clear between posts of 1 3/4 each, so 30 1/2; 3/4 over each end makes 32. 14 3/4 + 2 x 1 3/4 = 18 1/4
    # deep, 3/4 over in front and flush behind makes 19. A row of two has 13 1/8 each.
    (top,) = of_kind("dresser", PartKind.TOP)
    assert (top.length, top.width) == (inches(32), inches(19))
    assert over_all("dresser")[:2] == (inches(32).mm, inches(19).mm)
    openings = [drawer.opening for drawer in made("dresser").drawers]
    assert [opening.width for opening in openings] == [inches("13 1/8"), inches("13 1/8"), inches(27), inches(27)]
    assert [opening.height for opening in openings] == [inches(5), inches(5), inches(6), inches(7)]
    assert {foot.width for foot in of_kind("dresser", PartKind.FOOT)} == {inches("1 3/4")}
    # 5 + 3/4 + 6 + 3/4 + 7 + 2 + 5 1/2 = 27; over the drawers our frame has a rail of 1 1/2, and the top is 3/4.
    assert over_all("dresser")[2] == inches(27).mm + inches("1 1/2").mm + inches("3/4").mm


def test_f4_the_small_dresser_is_19_high_under_a_top_of_20_by_13_1_2():
    # Part 2, p. 85: 1 1/4 + 4 x 7/8 + 3 x 4 3/4 = 19; 16 1/2 + 2 x 1 1/2 + 2 x 1/4 = 20; 10 1/4 + 3 + 1/4 = 13 1/2; screwed from
    # below.
    (top,) = of_kind("small dresser", PartKind.TOP)
    assert (top.length, top.width) == (inches(20), inches("13 1/2"))
    wide, deep, high = over_all("small dresser")
    assert (wide, deep, high - top.thickness.mm) == (inches(20).mm, inches("13 1/2").mm, inches(19).mm)
    assert {drawer.opening.width for drawer in made("small dresser").drawers} == {inches("16 1/2")}
    rails = of_kind("small dresser", PartKind.RAIL)
    assert [rail.width for rail in rails] == [inches("7/8")] * 4
    screws = [
        meeting for meeting in made("small dresser").meetings if top.role in (meeting.one, meeting.other) and meeting.fastener
    ]
    assert screws


def test_f9_its_drawer_has_sides_of_4_5_8_in_an_opening_of_4_3_4():
    # Part 2, p. 89: 1/8 play; front 3/4, rabbeted to a lip of 1/4; the back, 3/8, housed 3/8 from the sides' ends; bottom under
    # the back in a groove of 5/16 (the plate bevels one of 3/8 to that).
    for drawer in made("small dresser").drawers:
        assert drawer.opening.height == inches("4 3/4")
        for side in drawer.sides:
            assert (side.width, side.thickness) == (inches("4 5/8"), inches("3/8"))
            (dado,) = side.cuts_of(CutUse.DADO)
            assert (side.length - dado.along.stop, dado.along.size) == (inches("3/8"), inches("3/8"))
            assert side.cuts_of(CutUse.GROOVE)[0].across.size == inches("5/16")
        assert {drawer.front.thickness - cut.depth for cut in drawer.front.cuts_of(CutUse.RABBET)} == {inches("1/4")}
        groove = drawer.side(Hand.LEFT).cuts_of(CutUse.GROOVE)[0]
        assert drawer.back.width == drawer.side(Hand.LEFT).width - groove.across.stop
        # Under the back and out behind it.
        assert drawer.bottom.thickness == inches("5/16")


def test_f5_the_bookcase_is_54_3_4_high_under_a_top_of_31_1_4_by_15():
    # Part 2, p. 70: 3/4 + 14 + 3/4 + 14 + 3/4 = 30 1/4, 1/2 over each end; 15 on 14, 1 over in front; 50 + 3/4 + 4 = 54 3/4. The
    # bottom is 28 3/4 and the loose shelves 28 1/2, 1/4 less in all.
    (top,) = of_kind("bookcase", PartKind.TOP)
    assert (top.length, top.width) == (inches("31 1/4"), inches(15))
    assert over_all("bookcase") == (inches("31 1/4").mm, inches(15).mm, inches("54 3/4").mm)
    assert made("bookcase").dimensions()["case inside width"] == inches("28 3/4")
    assert [shelf.length for shelf in of_kind("bookcase", PartKind.LOOSE_SHELF)] == [inches("28 1/2")] * 3
    # A toe rail of 4.
    assert {board.width for board in of_kind("bookcase", PartKind.BASE_FRONT)} == {inches(4)}


def test_the_screws_of_a_top_stay_clear_of_the_partition_under_it():
    # Ours: LT-11, an eighth between two cuts. The middle of the case's width is where the partition of a row of two stands.
    (panel,) = of_kind("dresser", PartKind.CASE_TOP)
    (dado,) = panel.cuts_of(CutUse.DADO)
    screws = [cut.along for cut in panel.cuts if cut.role.use.is_for_a_screw]
    assert len(screws) == 9
    gaps = [max(dado.along.start.mm - screw.stop.mm, screw.start.mm - dado.along.stop.mm) for screw in screws]
    assert min(gaps) == inches("1/8").mm
