"""Boards seen from one side, and what nearer wood hides of them, worked out by hand."""

from dataclasses import replace

import pytest

from joinlay.boards import CutKind, Place, Shape, Surface, Taper
from joinlay.geometry import box_of, corners
from joinlay.lengths import Fraction, Length, dimension, mm
from joinlay.pictures.projecting import FROM_ABOVE, FROM_FRONT, FROM_RIGHT, project
from joinlay.pictures.scene import scene_of
from joinlay.pictures.sight import look
from tests.measured.packets import example
from tests.unit.templates.parts import board, cut, groove

F = Fraction


def exact(*points):
    """Points given in whole numbers."""
    return tuple((F(x), F(y)) for x, y in points)


def placed(x=0, y=0, z=0, along="+X", across="+Z", into="+Y", **more):
    return board(place=Place.at(mm(x), mm(y), mm(z), along, across, into), **more)


def lines(edges):
    return sorted(tuple(sorted((edge.start, edge.end))) for edge in edges)


def pieces(sight, name, what="seen"):
    return sorted(
        tuple(sorted(pair)) for parted in sight.edges if parted.edge.board.name == name for pair in getattr(parted, what)
    )


def square(x0, y0, x1, y1):
    corners = [(F(x0), F(y0)), (F(x1), F(y0)), (F(x1), F(y1)), (F(x0), F(y1))]
    return sorted(tuple(sorted(pair)) for pair in zip(corners, [*corners[1:], corners[0]], strict=True))


def test_a_plain_board_shows_one_facet_and_four_edges():
    rail = placed(10, 5, 20, length=400, width=30)
    (facet,), edges = project(rail, FROM_FRONT)
    assert facet.corners == exact((10, 20), (410, 20), (410, 50), (10, 50))
    assert facet.depth == 5
    assert not facet.is_cut
    assert lines(edges) == square(10, 20, 410, 50)


def test_a_board_without_a_place_shows_nothing():
    assert project(board(), FROM_FRONT) == ((), ())


def test_a_cut_board_shows_its_cut_face_and_nothing_before_it():
    rail = placed(0, 0, 0, length=400, width=30, thickness=20)
    (facet,), edges = project(rail, FROM_RIGHT.at(F(100)))
    assert facet.is_cut
    assert facet.depth == 0
    assert lines(edges) == square(0, 0, 20, 30)
    assert all(edge.is_cut for edge in edges)
    assert project(rail, FROM_RIGHT.at(F(-1))) == ((), ())
    (beyond,), _ = project(rail, FROM_RIGHT.at(F(401)))
    assert not beyond.is_cut
    assert beyond.depth == 1


def test_a_groove_is_missing_from_the_cut_face():
    side = placed(0, 0, 0, "+Y", "+Z", "-X", cuts=(groove(),))
    facets, edges = project(side, FROM_FRONT.at(F(50)))
    boxes = [box_of(facet.corners) for facet in facets if facet.is_cut]
    area = sum((x1 - x0) * (y1 - y0) for x0, y0, x1, y1 in boxes)
    assert area == 12 * 100 - 6 * 6
    assert ((-6, 10), (-6, 16)) in lines(edges)


def test_a_groove_is_seen_on_the_face_it_is_in_and_not_from_behind():
    side = placed(0, 0, 0, "+Y", "+Z", "-X", cuts=(groove(),))
    _, seen = project(side, FROM_RIGHT)
    assert {((0, 10), (400, 10)), ((0, 16), (400, 16))} <= set(lines(seen))
    behind = replace(side, place=Place.at(mm(0), mm(0), mm(0), "+Y", "+Z", "+X"))
    _, hidden = project(behind, FROM_RIGHT)
    assert lines(hidden) == square(0, 0, 400, 100)


def test_a_leaning_side_is_drawn_aslant_and_exactly():
    place = Place.at(mm(10), mm(0), mm(0), "+Y", "+Z", "-X", lean=("+X", F(1, 100)))
    (facet,), _ = project(board(place=place), FROM_ABOVE.at(F(50)))
    assert tuple(sorted(facet.corners)) == exact((-2, 0), (2, 400), (10, 0), (14, 400))


def test_a_planed_end_is_drawn_where_it_is():
    planed = Taper(Surface.END, dimension(mm(0)), dimension(mm(3)))
    (facet,), _ = project(placed(0, 0, 0, "+X", "+Y", "-Z", tapers=(planed,)), FROM_ABOVE)
    assert set(facet.corners) == set(exact((0, 0), (400, 0), (400, 100), (3, 100)))


def test_a_hole_looked_along_is_no_step():
    hole = cut(CutKind.HOLE, Surface.FACE, (50, 60), (20, 30), (0, 12), "hole", Shape.ROUND)
    front = placed(0, 12, 0, "+X", "+Z", "-Y", cuts=(hole,))
    assert lines(project(front, FROM_FRONT)[1]) == square(0, 0, 400, 100)
    across = project(front, FROM_RIGHT.at(F(55)))[0]
    assert sum(facet.is_cut for facet in across) == 2


def test_nearer_wood_hides_what_lies_behind_it():
    near = placed(100, 0, 0, length=100, width=40, name="near")
    far = placed(0, 50, 10, length=400, width=20, name="far")
    sight = look([near, far], FROM_FRONT)
    assert pieces(sight, "near", "hidden") == []
    assert pieces(sight, "far", "hidden") == [((100, 10), (200, 10)), ((100, 30), (200, 30))]
    assert ((0, 10), (100, 10)) in pieces(sight, "far")
    assert ((200, 30), (400, 30)) in pieces(sight, "far")


def test_an_edge_in_line_with_the_border_of_nearer_wood_is_hidden():
    near = placed(0, 0, 0, length=100, width=40, name="near")
    far = placed(0, 50, 0, length=100, width=40, name="far")
    assert pieces(look([near, far], FROM_FRONT), "far") == []


def test_wood_at_one_depth_hides_nothing():
    one, two = (placed(x, 0, 0, length=100, width=40, name=str(x)) for x in (0, 100))
    sight = look([one, two], FROM_FRONT)
    assert pieces(sight, "0", "hidden") == pieces(sight, "100", "hidden") == []


def test_hidden_and_seen_add_up():
    boards = [placed(30 * n, 7 * n, 11 * n, length=100 + n, width=40, name=str(n)) for n in range(6)]
    for parted in look(boards, FROM_FRONT).edges:
        whole = abs(parted.edge.end[0] - parted.edge.start[0]) + abs(parted.edge.end[1] - parted.edge.start[1])
        assert sum(abs(b[0] - a[0]) + abs(b[1] - a[1]) for a, b in (*parted.seen, *parted.hidden)) == whole
        assert Length(whole).mm > 0


@pytest.mark.parametrize(
    "view", [FROM_FRONT, FROM_RIGHT, FROM_ABOVE, FROM_FRONT.at(F(200)), FROM_RIGHT.at(F(300)), FROM_ABOVE.at(F(90))]
)
def test_a_square_board_is_seen_as_if_it_had_been_reckoned_aslant(view):
    # Planed off by nothing, a board is reckoned corner by corner.
    none = Taper(Surface.END, dimension(mm(0)), dimension(mm(0)))
    square_ones = [one for one in scene_of(example("print-chest")).boards if one.place and not (one.tapers or one.place.leans)]
    assert any(one.cuts for one in square_ones)
    for one in square_ones:
        (facets, edges), (its_facets, its_edges) = project(one, view), project(replace(one, tapers=(none,)), view)
        for name in ("corners", "depth", "is_cut", "box"):
            assert [getattr(facet, name) for facet in facets] == [getattr(facet, name) for facet in its_facets]
        assert all(facet.is_box and set(facet.corners) == set(corners(facet.box)) for facet in facets)
        for name in ("start", "end", "depth", "is_cut"):
            assert [getattr(edge, name) for edge in edges] == [getattr(edge, name) for edge in its_edges]


def test_only_edges_that_come_into_a_box_are_kept():
    boards = [placed(30 * n, 7 * n, 11 * n, length=100 + n, width=40, name=str(n)) for n in range(6)]
    kept = [parted for parted in look(boards, FROM_FRONT).edges if overlap_or_touch(parted.edge, (F(60), F(0), F(90), F(50)))]
    assert look(boards, FROM_FRONT, (F(60), F(0), F(90), F(50))).edges == tuple(kept)
    assert 0 < len(kept) < len(look(boards, FROM_FRONT).edges)


def overlap_or_touch(edge, box):
    x0, y0, x1, y1 = box_of((edge.start, edge.end))
    return x0 <= box[2] and box[0] <= x1 and y0 <= box[3] and box[1] <= y1
