"""Templates of a maker's own outlines: in their place on the wood, held against the end and the edge they are counted from."""

import pytest

from joinlay.casework.outline_place import place_outline
from joinlay.pages import lay_out
from joinlay.paper import paper_named
from joinlay.pen.marks import Arc, Fill, Polyline, Text, bounds_of
from joinlay.templates import Role
from joinlay.templates.outline_template import outline_templates
from tests.measured.collisions import collisions
from tests.unit.casework.outlines import box, disc, hook, wish
from tests.unit.templates.parts import INCH, METRIC, board, front, side
from tests.unit.templates.reading import exact, lines


def template(part, outline, rule=METRIC, **more):
    (made,) = outline_templates([place_outline(part, wish(outline, **more))], rule)
    return made


def traced(made):
    return [stroke for stroke in made.strokes if stroke.role is Role.SHAPE]


def said(made):
    return [stroke.plain for stroke in made.strokes if isinstance(stroke, Text)]


def test_it_lies_as_far_from_the_end_and_the_edge_as_the_plan_has_it():
    made = template(side(), box(30, 20), end="front end", from_end="40", edge="bottom edge", from_edge="25")
    (shape,) = traced(made)
    assert isinstance(shape, Polyline)
    assert shape.closed
    assert bounds_of([shape]) == exact(40, 25, 70, 45)
    assert shape.says == "drawer 1 left side finger hole"
    end = [line for line in lines(made.strokes) if line.role is Role.OUTLINE and line.start[0] == line.end[0] == 0]
    edge = [line for line in lines(made.strokes) if line.role is Role.OUTLINE and line.start[1] == line.end[1] == 0]
    assert len(end) == len(edge) == 1


def test_a_circle_stays_one():
    (ring,) = traced(template(side(), disc(20), from_end="30", edge="top edge", from_edge="10"))
    assert isinstance(ring, Arc)
    assert (*ring.centre, ring.radius, ring.sweep) == exact(40, 80, 10, 360)


@pytest.mark.parametrize(
    ("part", "face", "hand"),
    [(side(), None, 1), (side(), "outside face", -1), (front(), None, -1), (front(), "outside face", 1)],
)
def test_its_end_is_left_or_right_as_the_part_is_seen(part, face, hand):
    """The square corner of a triangle lies at its left as it is drawn, whichever end it is counted from."""
    end = part.datum.end
    (shape,) = traced(template(part, hook(30), face=face, end=end, from_end="40", edge="bottom edge", from_edge="25"))
    left = 40 if hand > 0 else -70
    assert shape.points == (exact(left, 25), exact(left + 30, 25), exact(left, 55))


def heavy(made):
    """The bars: all that is filled with black, but the sign for a left part, which is a square."""
    boxes = [bounds_of([stroke]) for stroke in made.strokes if isinstance(stroke, Fill) and stroke.ink == 1]
    return [b for b in boxes if b[2] - b[0] != b[3] - b[1]]


def test_the_bars_are_outside_the_wood_by_the_end_and_edge_named():
    made = template(side(), box(30, 20), end="back end", from_end="40", edge="top edge", from_edge="5")
    edge, end = heavy(made)
    assert (edge[1], edge[3]) == exact(100, "101.6")
    assert (end[0], end[2]) == exact(0, "1.6")
    assert {"TOP EDGE  lay on this edge", "BACK END"} <= set(said(made))
    low = template(side(), box(30, 20), end="front end", edge="bottom edge")
    edge, end = heavy(low)
    assert (edge[1], edge[3]) == exact("-1.6", 0)
    assert (end[0], end[2]) == exact("-1.6", 0)


def test_far_from_its_end_a_line_is_squared_across_instead():
    part = board(length=900, cuts=())
    made = template(part, box(30, 20), edge="bottom edge")
    assert len(heavy(made)) == 1
    assert bounds_of(traced(made))[::2] == exact(-15, 15)
    (centre,) = [line for line in lines(made.strokes) if line.role is Role.CENTRE and line.start[0] == line.end[0]]
    assert (centre.start, centre.end) == (exact(0, 0), exact(0, 32))
    assert "450 from the front end to its middle" in said(made)
    assert "square a line there, lay the centre line on it" in said(made)
    near = template(part, box(30, 20), end="front end", from_end="150", edge="bottom edge")
    assert "square a line there, lay the centre line on it" not in said(near)
    assert len(heavy(near)) == 2


def test_what_it_says():
    part = side()
    assert said(template(part, box(30, 20), end="back end", from_end="40", edge="top edge", from_edge="5", depth=4))[2:] == [
        "L",
        "drawer 1 left side",
        "FINGER HOLE",
        "inside face up   make 1",
        "30 x 20",
        "4 deep",
        "40 from the back end to its near side",
        "5 from the top edge to its near side",
        "drawn in box.svg",
    ]
    assert "right through" in said(template(part, box(30, 20)))
    assert "marked only" in said(template(part, box(30, 20), depth=0))
    inches = said(template(part, box("25.4", "12.7"), INCH, from_end="12.7", to_middle=True))
    assert "1 x 1/2" in inches
    assert "1/2 from the front end to its middle" in inches


def test_the_cuts_around_it_are_dashed():
    made = template(side(), box(30, 20), from_end="20")
    dashed = [line for line in lines(made.strokes) if line.role is Role.HIDDEN]
    assert {line.start[1] for line in dashed if line.start[1] == line.end[1]} >= set(exact(10, 16))


def test_parts_that_are_marked_alike_share_one():
    one, two, three = side(), side(name="drawer 2 left side"), side(name="drawer 3 left side", width=130)
    made = outline_templates([place_outline(part, wish(box(30, 20), edge="bottom edge")) for part in (one, two, three)], METRIC)
    assert [(each.names, each.title) for each in made] == [
        (("drawer 1 left side", "drawer 2 left side"), "drawer 1 and 2 left side, finger hole"),
        (("drawer 3 left side",), "drawer 3 left side, finger hole"),
    ]


@pytest.mark.parametrize("outline", [disc(5), box(90, 6), box(6, 90), disc(99), box(400, 100), hook(40)], ids=list("abcdef"))
@pytest.mark.parametrize("name", ["drawer 1 left side", "drawer of the lowest row on the right hand side 12 right side"])
@pytest.mark.parametrize("spot", [{}, {"end": "back end"}, {"edge": "top edge", "end": "front end"}], ids=list("abc"))
def test_nothing_collides(outline, name, spot):
    made = template(side(name=name), outline, on="drawer side", purpose="finger hole with a long name, for two fingers", **spot)
    assert collisions(made.strokes) == []
    assert collisions(template(board(name, length=40, width=100, cuts=()), disc(5), purpose="x").strokes) == []


@pytest.mark.parametrize("face", [None, "outside face"])
@pytest.mark.parametrize("part", [side(), front()], ids=["side", "front"])
def test_the_end_it_counts_from_is_the_one_on_the_paper(part, face):
    """In the middle of its part an outline is held against whichever end lies left."""
    words = said(template(part, box(130, 20), face=face, edge="bottom edge"))
    end = next(word for word in words if word.endswith(" END"))
    assert f"200 from the {end.lower()} to its middle" in words


def test_a_large_one_goes_over_several_sheets_and_none_of_it_is_lost():
    """A circle 280 across on A4, cut into tiles: with what two tiles share counted twice, no part of it is missing."""
    made = template(board(length=600, width=300, cuts=()), disc(280), edge="bottom edge", from_edge="10")
    sheets = lay_out([made], paper_named("a4"), title="x", file="", unit=METRIC.unit)
    laid = [one for sheet in sheets for one in sheet.laid]
    assert len(laid) > 1
    assert {(one.tile, one.tiles) for one in laid} == {(n, len(laid)) for n in range(1, len(laid) + 1)}
    sweeps = [
        stroke.sweep for sheet in sheets for stroke in sheet.strokes if isinstance(stroke, Arc) and stroke.role is Role.SHAPE
    ]
    assert sum(sweeps) >= 360
    assert all(sweep < 360 for sweep in sweeps)
