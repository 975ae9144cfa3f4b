"""The corners of placed boards, and the room they take."""

from dataclasses import replace

from joinlay.boards.extent import extent, outer_corners
from joinlay.lengths import Length, Unit, read_length
from tests.measured.packets import example


def test_a_board_has_eight_corners_as_far_apart_as_its_sizes():
    front = example("print-chest").drawers[0].board("front")
    corners = outer_corners(front)
    assert len(set(corners)) == 8
    reach = tuple(max(point[i] for point in corners) - min(point[i] for point in corners) for i in range(3))
    assert reach == (front.length.mm, front.thickness.mm, front.width.mm)


def test_a_piece_is_as_large_as_its_job_says():
    sizes = tuple(read_length(size, Unit.INCH) for size in ("36", "25 1/2", "22"))
    assert extent(example("print-chest").boards) == sizes


def test_what_has_no_place_takes_no_room():
    loose = replace(example("print-chest").drawers[0].board("front"), place=None)
    assert outer_corners(loose) == ()
    assert extent([loose]) == (Length(0), Length(0), Length(0))
