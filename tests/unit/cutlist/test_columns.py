"""Which fronts are kept together, in which order, and where a column must break."""

from dataclasses import replace

from joinlay.cutlist.columns import stack_fronts
from joinlay.cutlist.cutting_list import cutting_list
from joinlay.cutlist.pattern import Blank
from joinlay.cutlist.sheet_layout import pieces_of
from joinlay.jobs.on_hand import OnHand, Sawing
from joinlay.lengths import inches
from tests.unit.cutlist.bench import board, front, make_plan, size

KERF = inches("1/8")


def stacks(*boards, sheet=("96", "48"), on_hand=None):
    plan = make_plan(*boards, **({"on_hand": on_hand} if on_hand else {}))
    blank = Blank("sheet", size(sheet[0]), size(sheet[1]), size("1/4"), is_whole=True)
    return stack_fronts(pieces_of(cutting_list(plan).groups), {each.name: each for each in boards}, blank, KERF)


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
    assert [names(stack) for stack in stacks(*boards)] == [
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
