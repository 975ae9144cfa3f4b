"""Mission Furniture, How to Make It, parts 1 and 2 (Popular Mechanics, 1909 and 1910): pieces with rows of drawers (F1, F2;
seen in a copy).
"""

from functools import cache

import joinlay
from joinlay.boards import Hand, PartKind
from joinlay.jobs.reader import read_job
from joinlay.lengths import inches

WOOD = """
units = "inch"
[stock.oak]
kind = "solid"
species = "white oak"
nominal = "3/4"
measured = "3/4"
[stock.ply]
nominal = "3/4"
measured = "0.709"
[stock.half]
nominal = "1/2"
measured = "0.472"
[stock.thin]
nominal = "1/4"
measured = "0.205"
[runners]
stock = "oak"
[drawers]
front = "oak"
sides = "half"
bottom = "thin"
top-clearance = "1/16"
"""
#: Part 1, p. 100: drawers of 5, 6 and 7 in with 3/4 between, a rail of 2 in under them on legs of 5 1/2: 27 in to the top. Posts
#: of 1 3/4, 27 clear between them, 30 1/2 over them; 14 3/4 between posts of 1 3/4 deep, so 18 1/4. The uppermost are two in a
#: row, with 3/4 between them. What the plate has no rail for, over the drawers, is ours.
DRESSER = f"""{WOOD}
[case]
width = "30 1/2"
height = "23"
depth = "18 1/4"
sides = "ply"
back = "thin"
[frame]
stock = "oak"
stile = "1 3/4"
rail = "3/4"
top-rail = "1 1/2"
bottom-rail = "2"
[[bank]]
rows = [2, 1, 1]
heights = ["5", "6", "7"]
mullion = "3/4"
"""


@cache
def dresser():
    return joinlay.plan(read_job(DRESSER, "dresser.toml"))


def test_a_dresser_with_a_row_of_two_is_made_whole():
    plan = dresser()
    assert not plan.is_refused
    assert [[drawer.number for drawer in row] for row in plan.rows[0]] == [[1, 2], [3], [4]]
    assert plan.order.findings == ()


def test_two_in_a_row_have_thirteen_and_an_eighth_each():
    # Half of what the 27 between the posts leave beside 3/4.
    sizes = plan_sizes()
    assert sizes["bank opening width"] == inches(27)
    assert sizes["drawer 1 opening width"] == sizes["drawer 2 opening width"] == inches("13 1/8")


def test_its_heights_come_to_twenty_seven_on_legs_of_five_and_a_half():
    plan = dresser()
    heights = [drawer.opening.height for drawer in (plan.drawers[0], *plan.drawers[2:])]
    rails = [board.width for board in plan.others[1].of_kind(PartKind.RAIL) if board.role.drawer is not None]
    assert rails == [inches("3/4")] * 2
    (under,) = (board.width for board in plan.others[1].of_kind(PartKind.RAIL) if board.role.hand is Hand.BOTTOM)
    assert sum(size.mm for size in (*heights, *rails, under)) + inches("5 1/2").mm == inches(27).mm


def test_a_buffet_has_its_middle_bank_twice_as_wide_and_a_step_of_half_an_inch():
    # Part 2, p. 5: 2 + 11 + 3/4 + 22 1/2 + 3/4 + 11 + 2 = 50 across, as a row; drawers of 7, 7 1/2 and 8 with 3/4 between: 24.
    job = DRESSER.replace('"30 1/2"', '"50"').replace('"23"', '"27 1/2"').replace('"18 1/4"', '"21"').replace('"1 3/4"', '"2"')
    job = job.replace(
        "rows = [2, 1, 1]", 'rows = [{ widths = ["11", "22 1/2", "11"] }, 3, 1]\ngraduation = "arithmetic"\nstep = "1/2"'
    )
    plan = joinlay.plan(read_job(job.replace('heights = ["5", "6", "7"]\n', ""), "buffet.toml"))
    assert not plan.is_refused
    assert [drawer.opening.width for drawer in plan.drawers[:3]] == [inches(11), inches("22 1/2"), inches(11)]
    assert [plan.drawers[n].opening.height for n in (0, 3, 6)] == [inches(7), inches("7 1/2"), inches(8)]


def plan_sizes():
    return dresser().dimensions()


BOOKCASE = """
units = "inch"
[stock.oak]
kind = "solid"
species = "white oak"
nominal = "3/4"
measured = "3/4"
[stock.thin]
nominal = "1/4"
measured = "0.205"
[case]
width = "30 1/4"
height = "50"
depth = "14"
sides = "oak"
back = "thin"
[frame]
stock = "oak"
stile = "3/4"
mullion = "3/4"
[practice]
shelf-clearance = "1/8"
"""


def test_a_bookcase_is_two_bays_of_fourteen():
    # Part 2, p. 70: 3/4 + 14 + 3/4 + 14 + 3/4 = 30 1/4.
    plan = joinlay.plan(
        read_job(BOOKCASE + "[[bank]]\nrows = [{ loose = 3 }]\n[[bank]]\nrows = [{ fixed = 3 }]\n", "bookcase.toml")
    )
    assert not plan.is_refused
    assert plan.drawers == ()
    assert [bay.width for bay in plan.opens] == [inches(14)] * 2
    assert any("shelves are climbed too" in found.what for found in plan.findings if found.kind == "tipping")
    assert plan.order.findings == ()


def test_its_loose_shelves_have_a_quarter_inch_of_play_in_all():
    # Bottom 28 3/4 between the sides, loose shelves 28 1/2.
    plan = joinlay.plan(read_job(BOOKCASE + "[[bank]]\nrows = [{ loose = 3 }]\n", "bookcase.toml"))
    assert plan.dimensions()["case inside width"] == inches("28 3/4")
    loose = [board for board in plan.boards if board.role.kind is PartKind.LOOSE_SHELF]
    assert [board.length for board in loose] == [inches("28 1/2")] * 3
