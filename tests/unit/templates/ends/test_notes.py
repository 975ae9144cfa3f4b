"""What each cut says on its template."""

from joinlay.boards import CutKind, Surface
from joinlay.pen.lettering import plain
from joinlay.templates.ends.captions import notes_of
from tests.unit.templates.parts import METRIC, back, board, cut, front, side
from tests.unit.templates.reading import exact, flat


def said(net):
    """Every note as its lines, in the lowest of its shapes."""
    return [" / ".join(plain(line) for _, _, line in note.shapes[-1].lines) for note in notes_of(net, METRIC)]


def test_the_front_end_of_a_side():
    assert said(flat(side(), Surface.END)) == ["groove 6 deep, 10 up", "2 mortises in front end 15 deep, 6 from face"]


def test_the_back_end_of_a_side():
    assert said(flat(side(), Surface.FAR_END)) == ["groove 6 deep, 10 up", "dado 5 deep, 6 from end"]


def test_the_inside_of_a_front():
    assert said(flat(front(), Surface.END)) == ["groove 6 deep, 10 up, stops 6 from end", "2 mortises 13 deep, 6 from end"]


def test_a_rabbet_on_the_other_face_says_so():
    assert said(flat(back(), Surface.END)) == ["rabbet in outside face 6 deep, 6 wide"]


def test_a_slot_counts_from_the_face():
    slot = cut(CutKind.SLOT, Surface.END, (0, 11), (0, 100), (4, 8), "slot")
    assert said(flat(board(cuts=(slot,)), Surface.END)) == ["slot in front end 11 deep, 4 from face"]


def test_a_hole_in_an_edge_is_told_of_though_it_opens_on_no_surface_shown():
    hole = cut(CutKind.HOLE, Surface.FAR_EDGE, (20, 28), (60, 100), (2, 10), "hole")
    assert said(flat(board(cuts=(hole,)), Surface.END)) == ["hole in top edge 40 deep, 20 from end"]


def test_cuts_that_differ_have_notes_of_their_own():
    two = tuple(
        cut(CutKind.DADO, Surface.FACE, (at, at + 6), (0, 100), (0, deep), f"dado {deep}") for at, deep in ((6, 4), (30, 5))
    )
    assert said(flat(board(cuts=two), Surface.END)) == ["dado 4 deep, 6 from end", "dado 5 deep, 30 from end"]


def test_only_a_cut_that_runs_on_is_a_band():
    groove, mortises = notes_of(flat(side(), Surface.END), METRIC)
    assert groove.band == exact(0, 10, 400, 16)
    assert mortises.band is None
