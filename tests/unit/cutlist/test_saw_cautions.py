"""What to beware of at the saw: said for everything that is sawn, and by number for thin strips and short blocks. Common
practice.
"""

import pytest

from joinlay.cutlist.lists import all_lists
from joinlay.cutlist.saw_cautions import Sawing, cautions_at_sheets
from joinlay.lengths import GRADUATIONS, inches
from tests.measured.packets import example
from tests.unit.cutlist.bench import board, cherry, make_plan, ply

TEXT = GRADUATIONS["1/64 in"].text


def cautions(length="30", width="2", stock="cherry", thickness="13/16"):
    plan = make_plan(board("rail", length, width, stock, thickness, "rail"), stocks={"cherry": cherry(), "ply": ply()})
    return {one.about: one for one in all_lists(plan).cautions}


@pytest.mark.parametrize(
    ("length", "width", "is_thin", "is_short"),
    [
        ("30", "2", False, False),
        ("30", "1", False, False),
        ("30", "63/64", True, False),
        ("4", "2", False, False),
        ("3 63/64", "2", False, True),
        ("1 1/2", "3/16", True, True),
    ],
)
def test_thin_is_under_an_inch_and_short_under_four(length, width, is_thin, is_short):
    found = cautions(length, width)
    assert (Sawing.ALL in found, Sawing.STRIPS in found, Sawing.BLOCKS in found) == (True, is_thin, is_short)


def test_a_caution_names_its_parts_and_the_least_of_them():
    found = cautions("1 1/2", "3/16")
    assert found[Sawing.STRIPS].rows == found[Sawing.BLOCKS].rows == (1,)
    assert found[Sawing.STRIPS].least == inches("3/16")
    assert found[Sawing.STRIPS].sentence(TEXT).startswith("Thin strips (no. 1, down to 3/16 in): rip them off ")
    assert found[Sawing.BLOCKS].sentence(TEXT).startswith("Short blocks (no. 1, down to 1 1/2 in): crosscut them ")
    assert "The saw's manual" in found[Sawing.ALL].sentence(TEXT)


def test_the_stop_blocks_of_the_print_chest_are_told_of():
    """Blocks 1 1/2 by 3/16 in, eight of them."""
    lists = all_lists(example("print-chest"))
    block = next(row.number for row in lists.parts.rows if "block" in row.where)
    found = {one.about: one for one in lists.cautions}
    assert block in found[Sawing.STRIPS].rows
    assert block in found[Sawing.BLOCKS].rows
    assert found[Sawing.STRIPS].least == inches("3/16")


def test_a_sheet_has_the_cautions_of_what_is_sawn_from_it():
    plan = make_plan(board("tall", "30", "20"), board("slip", "30", "3/4"), stocks={"ply": ply()})
    lists = all_lists(plan)
    (sheet,) = lists.sheets[0].sheets
    assert [one.about for one in cautions_at_sheets([sheet], lists.limits)] == [Sawing.ALL, Sawing.STRIPS]


def test_nothing_to_saw_has_no_cautions():
    assert all_lists(make_plan(stocks={"ply": ply()})).cautions == ()
