"""C. G. Wheeler, Woodworking for Beginners, 1899: how long a mortise may be."""

from __future__ import annotations

import pytest

from joinlay.findings import Refused
from joinlay.joints.loose_tenon import Use, design_loose_tenon
from joinlay.lengths import inches
from tests.unit.joints.wood import shop, size, tenon


@pytest.mark.parametrize("line", ["2", "4 1/4", "8", "15", "24"])
@pytest.mark.parametrize("use", list(Use))
def test_a_mortise_is_no_longer_than_six_times_its_width(line, use):
    """A2: here its width is the tenon's thickness and its length the tenon's width."""
    joint = design_loose_tenon(end_thickness=size("3/4"), face_thickness=size("3/4"), line=size(line), shop=shop(), use=use)
    assert all(joint.mortise_span(i).size <= joint.tenon_thickness * 6 for i in range(len(joint.centres)))


def test_one_longer_is_refused():
    """A2."""
    six = {"end_thickness": size("3/4"), "face_thickness": size("3/4"), "line": size("6"), "shop": shop(), "use": Use.CASE}
    assert design_loose_tenon(**six, tenon=tenon("1/4", width="1 1/2")).tenon_width == inches("1 1/2")
    with pytest.raises(Refused) as refused:
        design_loose_tenon(**six, tenon=tenon("1/4", width="1 17/32"))
    assert refused.value.finding.source == "Wheeler 1899"


def test_wider_joints_take_two_or_more():
    """A2: a joint as wide as a mortise of six and its shoulders need be is given several."""
    joint = design_loose_tenon(end_thickness=size("3/4"), face_thickness=size("3/4"), line=size("4"), shop=shop(), use=Use.DRAWER)
    assert len(joint.centres) >= 2
