"""The details at twice true size: the gaps drawn are the clearances the plan has, and words say so."""

from random import Random

import pytest

from joinlay.boards import Hand, PartKind
from joinlay.geometry import corners, point_at, polygon_in, stretch_in
from joinlay.lengths import Fraction, mm
from joinlay.pen.marks import Line, Role, Text
from joinlay.pictures.details import CIRCLE, RADIUS, details, in_circle, stretch_in_circle
from tests.measured.odd_pieces import odd
from tests.measured.packets import drawers, example, pieces

WHOLE = pieces()


def levels(picture, name, axis):
    """Where the lines that bound a part stand on one axis of a detail, in mm of wood."""
    lines = [s for s in picture.strokes if isinstance(s, Line) and s.says == name and s.start[axis] == s.end[axis]]
    return sorted({line.start[axis] / picture.scale.factor for line in lines})


def rail_under(plan, drawer):
    """The rail of the frame next under a drawer's front, which may be under a whole row: found by where it stands."""
    x, _, z = drawer.board("front").place.origin
    tops = {
        board: board.place.origin[2] + board.width.mm
        for board in plan.boards
        if board.part == "rail" and board.place.origin[0] <= x < board.place.origin[0] + board.length.mm
    }
    return max((board for board, top in tops.items() if top <= z), key=tops.__getitem__)


def said(picture):
    return " ".join(stroke.plain for stroke in picture.strokes if isinstance(stroke, Text))


@pytest.mark.parametrize("name", WHOLE)
def test_the_side_clearance_is_as_wide_as_it_is(name):
    plan = example(name)
    at_frame = details(plan)[0]
    stile, front = levels(at_frame, "face frame left stile", 0), levels(at_frame, "drawer 1 front", 0)
    assert front[0] - stile[-1] == plan.drawers[0].side_clearance.mm
    assert "side clearance" in said(at_frame)


@pytest.mark.parametrize("name", WHOLE)
def test_the_front_stands_its_clearance_over_the_rail(name):
    plan = example(name)
    over_rail = details(plan)[2]
    front = levels(over_rail, "drawer 1 front", 1)
    rail = levels(over_rail, rail_under(plan, plan.drawers[0]).name, 1)
    assert front[0] - rail[-1] == plan.drawers[0].bottom_clearance.mm


def test_clearances_in_millimetres_are_said_to_a_hundredth():
    plan = example("moth-cabinet")
    assert plan.drawers[0].side_clearance == mm("0.8")
    assert "side clearance 0.8" in said(details(plan)[0])


def test_the_side_rides_on_its_bearer():
    picture = details(example("moth-cabinet"))[3]
    assert levels(picture, "drawer 1 left side", 1)[0] == levels(picture, "runners drawer 1 left bearer", 1)[-1]


@pytest.mark.parametrize("name", WHOLE)
def test_the_side_is_said_to_ride_on_what_meets_it_from_below(name):
    plan = example(name)
    side = plan.drawers[0].side(Hand.LEFT).role
    met = {role.kind for one in plan.meetings if side in (one.one, one.other) for role in (one.one, one.other)}
    (carrier,) = met & {PartKind.BEARER, PartKind.DUST_PANEL, PartKind.CASE_BOTTOM}
    said = {
        PartKind.BEARER: "on its bearer",
        PartKind.DUST_PANEL: "on the dust panel",
        PartKind.CASE_BOTTOM: "on the case bottom",
    }
    assert details(plan)[3].title == f"D: side {said[carrier]}"


def test_nothing_but_names_leaves_the_circle():
    for name in ("moth-cabinet", "print-chest"):
        for picture in details(example(name)):
            wood = [s for s in picture.strokes if isinstance(s, Line) and s.role in (Role.OUTLINE, Role.HATCH)]
            assert wood
            assert all(x * x + y * y <= RADIUS * RADIUS for s in wood for x, y in (s.start, s.end))


def test_openings_alone_have_the_drawers_own_corners_only():
    assert [picture.title[0] for picture in details(drawers("4"))] == ["A", "B"]
    assert [picture.title[0] for picture in details(odd("one drawer"))] == ["A", "B", "C", "D", "E"]


def test_the_window_is_a_circle_but_for_a_hair():
    assert all(x * x + y * y == RADIUS * RADIUS for x, y in CIRCLE)
    square = tuple((Fraction(x), Fraction(y)) for x, y in ((-5, -5), (5, -5), (5, 5), (-5, 5)))
    assert in_circle(square) == square
    far = tuple((x + 100, y) for x, y in square)
    assert in_circle(far) == ()
    half = in_circle(tuple((Fraction(x), Fraction(y)) for x, y in ((0, -90), (90, -90), (90, 90), (0, 90))))
    assert min(x for x, _ in half) == 0
    assert (Fraction(0), RADIUS) in half


@pytest.mark.parametrize("seed", range(3))
def test_a_polygon_is_cut_to_the_circle_as_by_each_of_its_sides(seed):
    random = Random(seed)
    for _ in range(12):
        x, y, wide, high = (Fraction(random.randrange(-4000, 4000), 97) for _ in range(4))
        box = (x, y, x + abs(wide), y + abs(high))
        # A third of them end on the circle, where rounding could tell.
        if random.random() < 0.3:
            box = (*CIRCLE[random.randrange(33, 47)], *CIRCLE[random.randrange(1, 15)])
        assert in_circle(corners(box)) == polygon_in(
            polygon_in(corners(box), corners((-RADIUS, -RADIUS, RADIUS, RADIUS))), CIRCLE
        )


@pytest.mark.parametrize("seed", range(3))
def test_a_line_is_cut_to_the_circle_as_by_each_of_its_sides(seed):
    random = Random(seed)
    found = 0
    for n in range(60):
        far = random.choice((2000, 4000, 200_000))
        one, two = ((Fraction(random.randrange(-far, far), 97), Fraction(random.randrange(-far, far), 89)) for _ in range(2))
        if n % 3 == 0:
            # Through a corner of the circle, or along one of its sides and far beyond, where rounding could tell.
            one = CIRCLE[random.randrange(64)]
        elif n % 3 == 1:
            k = random.randrange(64)
            one, two = (point_at(CIRCLE[k], CIRCLE[(k + 1) % 64], Fraction(share)) for share in (-random.randrange(400), 400))
        assert stretch_in_circle(one, two) == stretch_in(one, two, CIRCLE)
        found += stretch_in_circle(one, two) is not None
    assert found > 20
