"""The front of the piece, read back from its strokes: where every front lies, what is seen, what is said."""

from functools import cache
from itertools import pairwise

import pytest

from joinlay.boards.extent import SpaceBox
from joinlay.lengths import Fraction, Length
from joinlay.pen.marks import Arc, Line, Polyline, Role, Text
from joinlay.pictures.elevation import dimensioned_elevation, elevation
from tests.measured.odd_pieces import ODD, odd
from tests.measured.packets import drawers, example, examples, pieces

F = Fraction
ROOM, COVER = (F(190), F(250)), (F(120), F(150))
PLANS = {**dict.fromkeys(examples(), example), **dict.fromkeys(ODD, odd)}
WHOLE = [*pieces(), *ODD]


@cache
def front_of(name):
    """A plan, and its front at the room of a sheet."""
    return PLANS[name](name), full(PLANS[name](name))


def full(plan, room=ROOM):
    picture = dimensioned_elevation(plan, room)
    assert picture is not None
    return picture


def small(plan):
    picture = elevation(plan, COVER)
    assert picture is not None
    return picture


def outline_of(picture, name):
    """The box of every line that says it bounds the part ``name``."""
    points = [
        p
        for s in picture.strokes
        if isinstance(s, Line) and s.says == name and s.role is not Role.HIDDEN
        for p in (s.start, s.end)
    ]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return (min(xs), min(ys), max(xs), max(ys)) if points else None


def place_of(plan, board):
    """Where a front, stile or rail is in the piece: worked out from its own corner and directions, not by projecting."""
    (x, _, z), sizes = board.place.origin, (board.length.mm, board.width.mm)
    ends = [
        (x + a * board.place.along[0] * sizes[0] + b * board.place.across[0] * sizes[1],
         z + a * board.place.along[2] * sizes[0] + b * board.place.across[2] * sizes[1])
        for a in (0, 1) for b in (0, 1)
    ]  # fmt: skip
    return (min(e[0] for e in ends), min(e[1] for e in ends), max(e[0] for e in ends), max(e[1] for e in ends))


@pytest.mark.parametrize("name", WHOLE)
def test_every_front_and_frame_member_lies_where_its_board_does(name):
    plan, picture = front_of(name)
    shown = [board for board in plan.boards if board.part in ("drawer front", "stile")]
    assert len(shown) == len(plan.drawers) + 2
    # Drawn from the lower left of all that is seen: under the frame where there is a base, beside it where a top overhangs.
    lows = [SpaceBox.around(board).low for board in plan.boards if board.place is not None]
    left, floor = min(low[0] for low in lows), min(low[2] for low in lows)
    for board in shown:
        x0, z0, x1, z1 = place_of(plan, board)
        box = (x0 - left, z0 - floor, x1 - left, z1 - floor)
        assert outline_of(picture, board.name) == tuple(size * picture.scale.factor for size in box), board.name


@pytest.mark.parametrize("name", PLANS)
def test_nothing_that_is_shut_in_is_drawn(name):
    plan, picture = front_of(name)
    drawn = {stroke.says for stroke in picture.strokes if isinstance(stroke, Line)}
    within = [
        b.name for b in plan.boards if b.part in ("drawer side", "drawer back", "drawer bottom", "bearer", "kicker", "stop strip")
    ]
    assert within
    assert not drawn & set(within)
    # The case is there, but only dashed: it stands behind the frame, and does not reach past it in any of these.
    seen = {s.says for s in picture.strokes if isinstance(s, Line) and s.role is not Role.HIDDEN}
    assert not {"case left side", "case top", "case back"} & seen


@pytest.mark.parametrize("name", PLANS)
def test_it_shows_every_front_and_fits_its_room(name):
    plan, large = front_of(name)
    for picture, room in ((large, ROOM), (small(plan), COVER)):
        assert all(size <= free for size, free in zip(picture.size, room, strict=True))
        for drawer in plan.drawers:
            front = drawer.board("front")
            left, bottom, right, top = outline_of(picture, front.name)
            assert (right - left, top - bottom) == (front.length.mm * picture.scale.factor, front.width.mm * picture.scale.factor)


def test_a_cover_has_the_sizes_over_all_and_no_others():
    picture = small(example("moth-cabinet"))
    assert [stroke.plain for stroke in picture.strokes if isinstance(stroke, Text)] == ["560", "860"]
    assert picture.scale.text == "1:7"


def test_knobs_are_where_the_plan_has_them():
    plan, picture = front_of("moth-cabinet")
    circles = {stroke.says: stroke for stroke in picture.strokes if isinstance(stroke, Arc)}
    for pull in plan.knobs:
        circle = circles[f"{pull.front} knob {pull.number}"]
        front = next(board for board in plan.boards if board.name == pull.front)
        centre = (front.place.origin[0] + pull.from_left.mm, front.place.origin[2] + pull.from_bottom.mm)
        assert circle.centre == tuple(size * picture.scale.factor for size in centre)
        assert circle.radius == pull.diameter.mm / 2 * picture.scale.factor


def test_every_opening_has_its_height_in_figures():
    plan, picture = front_of("moth-cabinet")
    said = [stroke.plain for stroke in picture.strokes if isinstance(stroke, Text)]
    for drawer in plan.drawers:
        assert plan.rule.read(drawer.opening.height).figures in said
    assert said.count("20") == len(plan.drawers) - 1


def test_forty_drawers_are_said_in_words_where_there_is_no_room():
    plan = odd("forty drawers")
    picture = full(plan, (F(190), F(150)))
    assert any("from the top down" in one and "40 times" in one for one in picture.unsaid)
    assert any(one.startswith("drawer 1 to 40 front:") for one in picture.unsaid)


def test_openings_alone_stand_one_over_the_other():
    plan = drawers("3", "4", "5")
    picture = full(plan)
    boxes = [stroke.points for stroke in picture.strokes if isinstance(stroke, Polyline) and stroke.says.endswith("opening")]
    assert any("openings only" in one for one in picture.unsaid)
    heights = [(points[2][1] - points[0][1]) / picture.scale.factor for points in boxes]
    assert heights == [drawer.opening.height.mm for drawer in plan.drawers]
    bottoms = [points[0][1] for points in boxes]
    assert bottoms == sorted(bottoms, reverse=True)
    assert all(above[0][1] > below[2][1] for above, below in pairwise(boxes))
    assert plan.rule.read(Length(plan.drawers[0].opening.width.mm)).figures in [
        s.plain for s in picture.strokes if isinstance(s, Text)
    ]
