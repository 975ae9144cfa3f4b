"""An 1880s mechanics' handbook: a chest of drawers graduated by an inch (check value A13; figures seen in a copy)."""

from joinlay.casework.graduation import Arithmetic, OneByOne
from joinlay.casework.piece import plan_piece
from joinlay.lengths import inches
from tests.assembly.pieces import shop, size, spec

CHEST = ("6 1/2", "7 1/2", "8 1/2", "9 1/2")


def heights(division, height):
    own = shop()
    return [slot.opening.height for slot in plan_piece(spec(own, heights=division, height=height), own).slots]


def test_a_step_of_an_inch_gives_the_chest_its_four_openings():
    # Openings of 32 in all, three rails of 1 and two of 2 in the frame.
    assert heights(Arithmetic(4, size(1)), size(39)) == [inches(text) for text in CHEST]


def test_the_same_openings_one_by_one_fill_the_same_frame():
    assert heights(OneByOne(tuple(size(text) for text in CHEST)), size(39)) == [inches(text) for text in CHEST]
