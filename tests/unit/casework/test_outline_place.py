"""Where a maker's own outline goes on a part, and that it lies on the wood."""

import pytest

from joinlay.boards import Span, Surface
from joinlay.casework.outline_place import is_for, place_outline
from joinlay.errors import BadInput
from joinlay.findings import Refused
from joinlay.lengths import GRADUATIONS, mm
from tests.unit.casework.outlines import box, disc, wish
from tests.unit.templates.parts import front, side


def spans(placed):
    return [(float(span.start.mm), float(span.stop.mm)) for span in (placed.along, placed.across)]


@pytest.mark.parametrize(
    ("spot", "lies"),
    [
        ({}, [(185, 215), (40, 60)]),
        ({"end": "front end", "from_end": "30"}, [(30, 60), (40, 60)]),
        ({"from_end": "30"}, [(30, 60), (40, 60)]),
        ({"end": "front end"}, [(0, 30), (40, 60)]),
        ({"end": "back end", "from_end": "30"}, [(340, 370), (40, 60)]),
        ({"end": "back end", "from_end": "30", "to_middle": True}, [(355, 385), (40, 60)]),
        ({"edge": "top edge", "from_edge": "5"}, [(185, 215), (75, 95)]),
        ({"edge": "bottom edge", "from_edge": "50", "to_middle": True}, [(185, 215), (40, 60)]),
        ({"end": "back end", "edge": "top edge"}, [(370, 400), (80, 100)]),
    ],
)
def test_it_is_counted_from_the_end_and_the_edge_named(spot, lies):
    """30 x 20 on a side of 400 x 100."""
    assert spans(place_outline(side(), wish(box(30, 20), **spot))) == lies


def test_a_part_is_named_by_its_kind_its_name_or_how_that_ends():
    board = side()
    assert all(
        is_for(wish(box(1, 1), on=on), board) for on in ("drawer side", "drawer 1 left side", "left side", "Left  Side", "side")
    )
    assert not any(is_for(wish(box(1, 1), on=on), board) for on in ("right side", "drawer 1", "drawer front", "eft side", ""))


def test_the_wood_inside_it_is_cut_from_the_face_named():
    through = place_outline(side(), wish(box(30, 20)))
    assert (through.face, through.into) == (Surface.FACE, Span.of(mm(0), mm(12)))
    assert place_outline(side(), wish(box(30, 20), depth=4)).into == Span.of(mm(0), mm(4))
    outside = place_outline(side(), wish(box(30, 20), depth=4, face="outside face"))
    assert (outside.face, outside.into) == (Surface.FAR_FACE, Span.of(mm(8), mm(12)))
    assert place_outline(side(), wish(box(30, 20), depth=0)).into is None


def test_which_end_is_at_the_left_hangs_on_the_face_that_is_up():
    assert place_outline(side(), wish(box(9, 9))).end_on_left
    assert not place_outline(side(), wish(box(9, 9), face="outside face")).end_on_left
    assert not place_outline(front(), wish(box(9, 9))).end_on_left
    assert place_outline(front(), wish(box(9, 9), face="outside face")).end_on_left


@pytest.mark.parametrize(
    ("outline", "spot", "said"),
    [
        (box(30, 20), {"edge": "top edge", "from_edge": "85"}, "(box.svg, 30 x 20 mm) hangs 5 mm over the bottom edge"),
        (box(30, 20), {"end": "back end", "from_end": "380"}, "hangs 10 mm over the front end"),
        (box(30, 20), {"from_end": "371"}, "hangs 1 mm over the back end"),
        (disc(20), {"edge": "top edge", "to_middle": True}, "hangs 10 mm over the top edge"),
        (disc(101), {}, "hangs 0.5 mm over the bottom edge"),
        (box(400, 100), {"from_end": "0.5", "edge": "top edge"}, "hangs 0.5 mm over the back end"),
    ],
)
def test_one_that_hangs_over_is_refused_with_how_far(outline, spot, said):
    with pytest.raises(Refused) as refused:
        place_outline(side(), wish(outline, **spot))
    finding = refused.value.finding
    assert finding.where == "drawer 1 left side"
    assert said.replace(" mm)", ")") in finding.sentence(GRADUATIONS["0.5 mm"].text).replace(" mm)", ")").replace(
        "30 mm x", "30 x"
    )


def test_one_that_fills_the_part_to_its_edges_lies_on_it():
    assert spans(place_outline(side(), wish(box(400, 100)))) == [(0, 400), (0, 100)]


def test_one_too_large_is_to_be_drawn_smaller():
    with pytest.raises(Refused, match=r"Draw it smaller, or turn it by 90\."):
        place_outline(side(), wish(box(20, 120)))
    with pytest.raises(Refused, match="Move it in"):
        place_outline(side(), wish(box(20, 20), from_end="390"))


def test_one_deeper_than_the_wood_is_refused():
    with pytest.raises(Refused, match="is to be cut 13 mm deep in wood 12 mm thick"):
        place_outline(side(), wish(box(20, 20), depth=13))


def test_words_the_part_has_not():
    with pytest.raises(
        BadInput, match=r"a drawer side has no 'frnt end'; write front end or back end \(the nearest is front end\)\."
    ):
        place_outline(side(), wish(box(20, 20), end="frnt end"))
    with pytest.raises(BadInput, match="has no 'left edge'"):
        place_outline(side(), wish(box(20, 20), edge="left edge"))
    with pytest.raises(BadInput, match="has no 'show face'"):
        place_outline(side(), wish(box(20, 20), face="show face"))


def test_a_straight_line_takes_up_no_room():
    with pytest.raises(BadInput, match="draws only a straight line"):
        place_outline(side(), wish(box(20, 0)))
