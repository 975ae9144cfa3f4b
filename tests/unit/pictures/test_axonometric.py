"""Boards seen from a corner: the axes of the standard, corners measured back, and what is hidden, against solids of an
independent kernel.
"""

from itertools import pairwise

import numpy as np
import pytest

from joinlay.boards import CutKind, Datum, Place, Span, Surface
from joinlay.boards.extent import outer_corners
from joinlay.checks.solids import solid_of
from joinlay.lengths import Fraction, dimension, mm
from joinlay.pictures.axonometric import drawn_at, look_from_corner
from joinlay.pictures.solid_faces import PARTS_OF_MM, faces_and_edges, fine
from tests import by_hand
from tests.measured.packets import example

F = Fraction
DATUM = Datum("inside face", "bottom edge", "front end", "outside face", "top edge", "back end")


def board(*cuts, at=(0, 0, 0), size=(200, 60, 20), name="board", tapers=()):
    x, y, z = (mm(each) for each in at)
    length, width, thickness = (dimension(mm(each)) for each in size)
    place = Place.at(x, y, z, "+X", "+Y", "+Z")
    return by_hand.board(name, "part", "ply", length, width, thickness, DATUM, cuts, tapers=tapers, place=place)


def cut(kind, surface, along, across, into):
    a, b, c = (Span.of(mm(start), mm(stop)) for start, stop in (along, across, into))
    return by_hand.cut(kind, surface, a, b, c, "cut")


def seen(view):
    """What is seen, in mm of the piece."""
    return {frozenset(tuple(at / PARTS_OF_MM for at in end) for end in (edge.start, edge.end)) for edge in view.edges}


def test_the_axes_are_those_of_the_isometric_view():
    """Check value: three axes 120 degrees apart, at one scale (ISO 5456-3, from memory)."""
    ways = ((F(100), F(0), F(0)), (F(0), F(-100), F(0)), (F(0), F(0), F(100)))
    at = [np.array([float(x) for x in drawn_at(fine(point))]) for point in ways]
    assert [np.linalg.norm(one) for one in at] == pytest.approx([100, 100, 100], abs=1e-6)
    for one, two in pairwise((*at, at[0])):
        assert np.degrees(np.arccos(one @ two / 10_000)) == pytest.approx(120, abs=1e-6)


def test_a_plain_board_shows_three_faces_and_nine_edges():
    view = look_from_corner([board()])
    assert len(view.faces) == 3
    # Right, front and top are towards the eye: all edges but the three that meet in the corner farthest from it.
    far = (0, 60, 0)
    assert len(view.edges) == 9
    assert not any(far in ends for ends in seen(view))
    assert sum(edge.is_rim for edge in view.edges) == 6


def test_a_groove_is_seen_where_its_own_wall_does_not_hide_it():
    grooved = board(cut(CutKind.GROOVE, Surface.FAR_FACE, (0, 200), (20, 30), (14, 20)))
    lines = seen(look_from_corner([grooved]))
    # The far wall looks towards the eye; its foot is hidden but for a stretch at the right end: the near wall, as high as it is,
    # hides the rest.
    assert frozenset({(0, 30, 20), (200, 30, 20)}) in lines
    assert frozenset({(0, 20, 20), (200, 20, 20)}) in lines
    feet = [ends for ends in lines if all(point[1:] == (30, 14) for point in ends)]
    # Seen from the front right, a line goes down 1 as it comes forward 1: at the foot, 10 behind the near edge and 6 below it, it
    # is seen whole.
    assert feet == [frozenset({(0, 30, 14), (200, 30, 14)})]
    deep = board(cut(CutKind.GROOVE, Surface.FAR_FACE, (0, 200), (20, 30), (4, 20)))
    # 16 deep and 10 wide it is hidden, but for what the open right end lets be seen: 10 to the left of it.
    feet = [ends for ends in seen(look_from_corner([deep])) if all(point[1:] == (30, 4) for point in ends)]
    assert feet == [frozenset({(190, 30, 4), (200, 30, 4)})]


def test_what_is_behind_is_hidden_as_far_as_the_nearer_covers_it():
    behind, before = board(at=(0, 300, 0), name="behind"), board(at=(250, 100, 0), size=(100, 20, 400), name="before")
    lines = seen(look_from_corner([behind, before]))
    # What is 200 behind the front of the nearer one is seen 200 left of where it stands before it, and 180 behind its back edge.
    assert frozenset({(0, 300, 0), (50, 300, 0)}) in lines
    assert frozenset({(170, 300, 0), (200, 300, 0)}) in lines
    assert sum(all(point[1:] == (300, 0) for point in ends) for ends in lines) == 2


def test_corners_of_a_leaning_side_are_measured_back_from_paper():
    side = next(one for one in example("print-chest").boards if one.place is not None and sum(map(bool, one.place.along)) > 1)
    faces, _ = faces_and_edges(side)
    corners = {corner for face in faces for corner in face.corners}
    wanted = [fine(point) for point in outer_corners(side)]
    # All its outer corners but the hidden one and those that are cut away are corners of its faces, to a ten-thousandth of a
    # millimetre.
    assert sum(any(max(abs(a - b) for a, b in zip(one, two, strict=True)) <= 1 for two in corners) for one in wanted) >= 4


def hits(spots, boards):
    """Whether a line from each spot to the eye meets the boards as solids (Moeller and Trumbore's way)."""
    triangles = []
    for one in boards:
        mesh = solid_of(one).wood.to_mesh64()
        triangles.append(np.asarray(mesh.vert_properties)[:, :3][np.asarray(mesh.tri_verts)])
    a, b, c = np.concatenate(triangles).transpose(1, 0, 2)
    eye = np.array([1.0, -1.0, 1.0])
    one, two = b - a, c - a
    across = np.cross(eye, two)
    det = (one * across).sum(1)
    flat = abs(det) < 1e-12
    det[flat] = 1
    found = []
    for spot in spots:
        # A fifth of a millimetre before the wood, so that the edge's own faces aren't met.
        away = spot + 0.2 * eye - a
        u = (away * across).sum(1) / det
        over = np.cross(away, one)
        v = over @ eye / det
        far = (two * over).sum(1) / det
        found.append(bool(((u > 1e-6) & (v > 1e-6) & (u + v < 1 - 1e-6) & (far > 0) & ~flat).any()))
    return np.array(found)


def test_what_is_seen_is_what_nothing_stands_before_in_a_kernel_that_is_not_ours():
    boards = [one for one in example("moth-cabinet").drawers[0].assembly.boards if one.place is not None]
    view = look_from_corner(boards)
    spots = [np.array([a + b for a, b in zip(edge.start, edge.end, strict=True)]) / 2 / PARTS_OF_MM for edge in view.edges]
    assert len(spots) > 40
    assert not hits(spots, boards).any()
    drawn = {(edge.role, frozenset((edge.start, edge.end))) for edge in view.edges}
    whole = [wire for one in boards for wire in faces_and_edges(one)[1]]
    gone = [wire for wire in whole if not any(role == wire.role and _on(wire, ends) for role, ends in drawn)]
    spots = [np.array([a + b for a, b in zip(wire.start, wire.end, strict=True)]) / 2 / PARTS_OF_MM for wire in gone]
    assert len(spots) > 5
    assert hits(spots, boards).mean() > 0.9


def _on(wire, ends):
    start, end = np.array(wire.start), np.array(wire.end)
    run = (end - start) / np.linalg.norm(end - start)
    return all(np.linalg.norm(np.cross(np.array(spot) - start, run)) < 5 for spot in ends)
