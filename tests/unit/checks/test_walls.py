"""Wood left behind and beside cuts: on each side of the limit, and at it."""

import pytest

from joinlay.boards import CutKind, Shape, Surface
from joinlay.checks.walls import check_walls
from joinlay.findings import Harm
from joinlay.lengths import mm
from tests.unit.checks.making import PRACTICE, board, cut, drawer, groove, mortise


def only(made):
    found = check_walls(made, PRACTICE)
    assert len(found) <= 1
    return found[0] if found else None


@pytest.mark.parametrize(("deep", "harm"), [(10, None), ("13.5", None), ("13.6", Harm.WARN), (16, Harm.WARN), (18, Harm.REFUSE)])
def test_floor_of_a_mortise_in_a_face(deep, harm):
    """18 mm: a quarter, 4.5 mm, is left at 13.5 deep, and that is enough."""
    found = only(board(mortise((100, 106), (20, 40), into=(0, deep))))
    assert (found and found.harm) is harm
    if found:
        assert found.rule == "LT-3"
        assert found.numbers["least"] == mm("4.5")


@pytest.mark.parametrize(("start", "harm"), [(6, None), ("4.5", None), ("4.4", Harm.WARN), (1, Harm.WARN), (0, Harm.REFUSE)])
def test_wall_beside_a_mortise_in_an_end(start, harm):
    at_end = cut(CutKind.MORTISE, Surface.END, (0, 20), (30, 50), (start, 10), "mortise", shape=Shape.ROUND_ENDS)
    found = only(board(at_end))
    assert (found and found.harm) is harm
    if found:
        assert found.numbers["left"] == mm(start)


@pytest.mark.parametrize(("start", "harm"), [(5, None), ("4.9", Harm.WARN), (0, Harm.REFUSE)])
def test_wall_beside_a_hole_is_half_as_wide_as_the_hole(start, harm):
    """A hole 10 mm wide: 5 mm are left beside it, and that is enough (our own choice)."""
    end = f"{float(start) + 10:g}"
    found = only(board(cut(CutKind.HOLE, Surface.FACE, (100, 110), (start, end), (0, 18), "hole", shape=Shape.ROUND)))
    assert (found and found.harm) is harm
    if found:
        assert found.numbers["least"] == mm(5)


@pytest.mark.parametrize(("across", "harm"), [((3, 20), None), (("2.9", 20), Harm.WARN), ((80, 97), None), ((80, 98), Harm.WARN)])
def test_wall_to_either_edge(across, harm):
    found = only(board(mortise((100, 106), across)))
    assert (found and found.harm) is harm


@pytest.mark.parametrize(("deep", "harm"), [("13.5", None), ("13.6", Harm.WARN), (18, Harm.REFUSE)])
def test_floor_of_a_groove(deep, harm):
    found = only(board(groove((10, 16), into=(0, deep))))
    assert (found and found.harm) is harm


@pytest.mark.parametrize(("low", "harm"), [(10, None), (3, None), (2, Harm.WARN), (0, None)])
def test_a_groove_keeps_off_the_edge_or_reaches_it(low, harm):
    found = only(board(groove((low, 16))))
    assert (found and found.harm) is harm


@pytest.mark.parametrize(("deep", "harm"), [(9, None), (12, None), (13, Harm.WARN)])
def test_a_rabbet_leaves_a_third(deep, harm):
    step = cut(CutKind.RABBET, Surface.FAR_FACE, (0, 10), (0, 100), (18 - deep, 18), "rabbet")
    found = only(board(step))
    assert (found and found.harm) is harm


def test_holes_may_go_through_but_mortises_may_not():
    hole = cut(CutKind.HOLE, Surface.FAR_FACE, (100, 106), (40, 46), (0, 18), "pull hole 1", shape=Shape.ROUND)
    assert only(board(hole)) is None
    through = only(board(mortise((100, 106), (20, 40), into=(0, 18))))
    assert through.sentence(str) == "The mortise goes right through."


def test_the_worst_of_several_is_told():
    found = only(board(mortise((100, 106), (20, 40), into=(0, 14)), mortise((200, 206), (20, 40), into=(0, 17), name="deep one")))
    assert found.numbers["cut"] == "deep one"


def test_every_board_of_a_planned_drawer_keeps_its_walls():
    for made in drawer().assembly.boards:
        assert check_walls(made, PRACTICE) == ()
