"""Spans counted inwards from any surface."""

from __future__ import annotations

import pytest

from joinlay.boards import Axis, Surface
from joinlay.errors import BadInput
from joinlay.joints.spans import inwards, refuse_not_end, whole
from joinlay.lengths import NOTHING, inches, mm
from tests.unit.joints.wood import board, size


@pytest.mark.parametrize(
    ("surface", "start", "stop"),
    [(Surface.END, 1, 2), (Surface.FAR_END, 28, 29), (Surface.EDGE, 1, 2), (Surface.FAR_EDGE, 10, 11)],
)
def test_from_either_side(surface, start, stop):
    found = inwards(board("30", "12", "3/4"), surface, size("1"), size("2"))
    assert (found.start, found.stop) == (inches(start), inches(stop))


def test_from_the_far_surface_itself_keeps_the_boards_own_size():
    made = board("30", "12", "3/4")
    assert inwards(made, Surface.FAR_END, NOTHING, size("2")).stop is made.length


def test_all_of_it():
    found = whole(board("30", "12", "3/4"), Axis.ACROSS)
    assert (found.start, found.stop) == (mm(0), inches(12))


def test_only_ends_are_ends():
    refuse_not_end(Surface.FAR_END)
    with pytest.raises(BadInput, match="not at its far face"):
        refuse_not_end(Surface.FAR_FACE)
