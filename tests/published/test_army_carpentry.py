"""US Army EN0533, Carpentry III: dowels and loose tenons; an 1880s mechanics' handbook has it alike."""

from __future__ import annotations

import pytest

from joinlay.joints.loose_tenon import Use, design_loose_tenon
from joinlay.lengths import inches
from tests.unit.joints.wood import shop, size, tenon


@pytest.mark.parametrize(
    ("end", "face"), [("1/2", "1/2"), ("1/2", "3/4"), ("3/4", "5/8"), ("3/4", "3/4"), ("1", "3/4"), ("1", "2"), ("1 1/2", "1")]
)
def test_an_eighth_shorter_than_the_two_holes_together(end, face):
    """A9."""
    joint = design_loose_tenon(end_thickness=size(end), face_thickness=size(face), line=size("6"), shop=shop(), use=Use.CASE)
    assert joint.depth_in_end + joint.depth_in_face - joint.tenon_length == inches("1/8")


def test_holes_for_a_ready_made_tenon_are_an_eighth_longer_together():
    """A9: the other way about, on marks of the rule."""
    joint = design_loose_tenon(
        end_thickness=size("3/4"), face_thickness=size("1"), line=size("6"), shop=shop(), use=Use.CASE,
        tenon=tenon("1/4", width="3/4", length="1 1/2"),
    )  # fmt: skip
    assert joint.depth_in_end + joint.depth_in_face == inches("1 5/8")
