"""Whether an outline runs over a cut: by its lines and what they go round, not by its box."""

import pytest

from joinlay.casework.outline_place import place_outline
from joinlay.checks.outline_check import check_outline
from joinlay.lengths import GRADUATIONS
from tests.unit.casework.outlines import box, disc, hook, wish
from tests.unit.templates.parts import board, front, groove, side

METRIC = GRADUATIONS["0.5 mm"]


def met(part, outline, **more):
    """The cuts an outline meets, by the words of the findings."""
    found = check_outline(place_outline(part, wish(outline, **more)))
    return [finding.sentence(METRIC.text).split(" runs over the ")[1].split(",")[0] for finding in found]


@pytest.mark.parametrize(
    ("up", "cuts"), [("16", []), ("15.999", ["bottom groove"]), ("11", ["bottom groove"]), ("5", ["bottom groove"]), ("0", [])]
)
def test_it_may_touch_the_groove_but_not_run_into_it(up, cuts):
    """The groove runs from 10 to 16 above the bottom edge; a box 10 high stands at this height."""
    assert met(side(), box(30, 10), edge="bottom edge", from_edge=up) == cuts


def test_a_cut_within_it_is_met_too_and_one_that_holds_it():
    assert met(side(), box(60, 90)) == ["bottom groove"]
    assert met(side(), box(4, 4), edge="bottom edge", from_edge="11") == ["bottom groove"]
    assert met(side(), disc(4), edge="bottom edge", from_edge="11") == ["bottom groove"]
    assert "dado" in met(side(), disc(90), end="back end", from_end="5")


#: A short groove in the middle of the part; its lower left corner is at (201, 52).
SHORT = groove(length=215, start=201, across=(52, 58))


def test_lines_count_not_boxes():
    """A triangle with its square corner at (185, 40) slants past the groove's corner where its sides are 28 long: 16 + 12."""
    part = board(cuts=(SHORT,))
    at = {"end": "front end", "from_end": "185", "edge": "bottom edge", "from_edge": "40"}
    assert met(part, hook(28), **at) == []
    assert met(part, hook("28.01"), **at) == ["bottom groove"]


def test_a_circle_s_box_does_not_count():
    """A circle of radius 10 about (195, 44): the groove's corner is 6 and 8 away, on the line itself."""
    part = board(cuts=(SHORT,))
    at = {"from_end": "195", "edge": "bottom edge", "from_edge": "44", "to_middle": True}
    assert met(part, disc(20), **at) == []
    assert met(part, disc("20.01"), **at) == ["bottom groove"]


def test_only_cuts_at_the_same_depth_are_met():
    """The groove is 6 deep from the inside face of a side 12 thick."""
    low = {"edge": "bottom edge", "from_edge": "5"}
    assert met(side(), box(30, 10), face="outside face", depth=6, **low) == []
    assert met(side(), box(30, 10), face="outside face", depth=7, **low) == ["bottom groove"]
    assert met(side(), box(30, 10), face="outside face", depth=0, **low) == []
    assert met(side(), box(30, 10), depth=0, **low) == ["bottom groove"]


def test_it_is_seen_from_the_face_that_is_up():
    """A triangle's square corner lies left as seen; on the other face that is the far end."""
    at = {"end": "front end", "from_end": "185", "edge": "bottom edge", "from_edge": "40"}
    assert met(board(cuts=(SHORT,)), hook(28), **at) == []
    assert met(board(cuts=(SHORT,)), hook(28), face="outside face", **at) == ["bottom groove"]


def test_the_finding_says_what_where_and_how_deep():
    (found,) = check_outline(place_outline(front(), wish(box(30, 10), on="drawer front", edge="bottom edge", from_edge="9")))
    assert found.where == "drawer 1 front"
    assert found.sentence(METRIC.text) == "The finger hole (box.svg) runs over the bottom groove, which is 6 mm deep"
    assert found.way_out(METRIC.text).startswith("Move it")
