"""The piece taken apart: along the ways it closes, corners measured back from paper, every part numbered once, arrows the way
of the moves.
"""

from math import hypot

import pytest

from joinlay.assembly.order import Move
from joinlay.boards import Hand, PartKind, Whole
from joinlay.boards.extent import SpaceBox, outer_corners
from joinlay.boards.meeting import Meeting, Tie, Way
from joinlay.lengths import Fraction
from joinlay.pages.assembly_sheets import numbers_of
from joinlay.pen.marks import Arc, Line, Role, Text
from joinlay.pictures.apart import closing_way, held_apart, offsets_of
from joinlay.pictures.apart_views import runners_view, stage_view, whole_view
from joinlay.pictures.axonometric import drawn_at
from joinlay.pictures.balloons import RADIUS_OF_BALLOON
from joinlay.pictures.solid_faces import fine
from tests.measured.packets import drawers, example

F = Fraction
ROOM = (F(120), F(100))
EXAMPLES = ("print-chest", "moth-cabinet", "seed-cabinet")

#: Which way on paper each way of the piece runs.
ON_PAPER = {
    Way.RIGHT: (0.866, -0.5),
    Way.LEFT: (-0.866, 0.5),
    Way.BACK: (0.866, 0.5),
    Way.FRONT: (-0.866, -0.5),
    Way.UP: (0, 1),
    Way.DOWN: (0, -1),
}


def stage(name, of):
    planned = example(name)
    return next(one for one in planned.order.stages if one.of == of)


def seen(name, of, room=ROOM):
    """The view of one stage of an example; of None, of the whole of it."""
    planned = example(name)
    numbers = numbers_of(planned)
    view = whole_view(planned, numbers, room) if of is None else stage_view(planned, stage(name, of), numbers, room)
    assert view is not None
    return view


def frame_view():
    return seen("print-chest", Whole.FRAME)


def test_each_part_stands_back_along_the_way_it_closes_until_it_is_free():
    moves = stage("print-chest", Whole.FRAME).moves
    boards = [board for board in example("print-chest").boards if board.role.whole is Whole.FRAME]
    offsets = offsets_of(boards, moves, F(80))
    # From the left stile rails and right stile go off to the right, the stile past the tenons that stick out of the rails.
    by_kind = {
        kind: {offsets[board.role] for board in boards if board.role.kind is kind} for kind in (PartKind.RAIL, PartKind.STILE)
    }
    (rail,) = by_kind[PartKind.RAIL]
    first, far = sorted(by_kind[PartKind.STILE])
    assert not any(first)
    assert far[0] > rail[0] > 80
    assert not any((*rail[1:], *far[1:]))
    apart = held_apart(boards, offsets)
    boxes = [SpaceBox.around(board) for board in apart if not board.role.kind.is_loose]
    for n, one in enumerate(boxes):
        for other in boxes[n + 1 :]:
            assert not all(one.low[k] < other.high[k] and other.low[k] < one.high[k] for k in range(3))


def test_tenons_stay_in_what_they_are_glued_into():
    planned = example("print-chest")
    boards = [board for board in planned.boards if board.role.whole is Whole.FRAME]
    offsets = offsets_of(boards, stage("print-chest", Whole.FRAME).moves, F(80))
    tenons = [board for board in boards if board.role.kind is PartKind.LOOSE_TENON]
    assert tenons
    assert all(offsets[board.role] == offsets[board.role.of] for board in tenons)


def test_corners_are_measured_back_from_paper():
    planned, view = example("print-chest"), frame_view()
    boards = [board for board in planned.boards if board.role.whole is Whole.FRAME]
    gap = max(one.high[0] for one in map(SpaceBox.around, boards)) - min(one.low[0] for one in map(SpaceBox.around, boards))
    offsets = offsets_of(boards, stage("print-chest", Whole.FRAME).moves, gap / 8)
    ends = {part.role: {point for line in part.edges for point in (line.start, line.end)} for part in view.parts}
    right = next(board for board in boards if board.role.kind is PartKind.STILE and any(offsets[board.role]))
    (moved,) = held_apart([right], offsets)
    wanted = [tuple(at * view.scale.factor for at in drawn_at(fine(point))) for point in outer_corners(moved)]
    found = [any(hypot(a - x, b - y) < 0.0001 for a, b in ends[right.role]) for x, y in wanted]
    # Seven of a box's eight corners are seen.
    assert sum(found) == 7


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_part_of_a_thing_is_numbered_once(name):
    planned = example(name)
    numbers = numbers_of(planned)
    for of in (Whole.CASE, Whole.FRAME, planned.drawers[0].role):
        view = seen(name, of)
        told = [balloon.number for balloon in view.balloons]
        assert len(told) == len(set(told))
        assert set(told) | set(view.over) <= {numbers[part.role] for part in view.parts}
        # Loose tenons may be out of sight; nothing else is.
        wanted = {numbers[part.role] for part in view.parts if not part.role.kind.is_loose}
        assert wanted <= set(told), of
        assert view.over == ()


def test_balloons_lie_on_no_line_and_on_no_other():
    for view in (frame_view(), seen("seed-cabinet", None, (F(190), F(130)))):
        lines = [line for part in view.parts for line in part.edges]
        for balloon in view.balloons:
            x, y = map(float, balloon.centre)
            for line in lines:
                (a, b), (c, d) = ((float(u), float(v)) for u, v in (line.start, line.end))
                run = hypot(c - a, d - b)
                share = min(1, max(0, ((x - a) * (c - a) + (y - b) * (d - b)) / run**2)) if run else 0
                assert hypot(a + share * (c - a) - x, b + share * (d - b) - y) > float(RADIUS_OF_BALLOON) - 0.5
            for other in view.balloons:
                assert other is balloon or hypot(float(other.centre[0]) - x, float(other.centre[1]) - y) > 2 * RADIUS_OF_BALLOON


@pytest.mark.parametrize("name", EXAMPLES)
def test_arrows_run_the_way_of_their_moves(name):
    planned = example(name)
    shown = 0
    for of in (Whole.CASE, Whole.FRAME, planned.drawers[0].role):
        for arrow in seen(name, of, (F(190), F(150))).moves:
            if arrow.start is None or arrow.end is None:
                continue
            run, up = (float(b - a) for a, b in zip(arrow.start, arrow.end, strict=True))
            assert (run / hypot(run, up), up / hypot(run, up)) == pytest.approx(ON_PAPER[arrow.way], abs=0.001)
            shown += 1
    assert shown >= 6


def test_glue_is_toned_where_it_goes_and_nowhere_in_a_dry_step():
    view = seen("print-chest", Whole.CASE)
    toned = {part.role.kind for part in view.parts if part.glue}
    # The dadoes of the left side and the ends of bottom and top; what looks away from the eye isn't seen.
    assert toned == {PartKind.CASE_SIDE, PartKind.CASE_BOTTOM, PartKind.CASE_TOP}
    drawer = seen("print-chest", example("print-chest").drawers[0].role)
    assert all(not part.glue for part in drawer.parts if part.role.kind is PartKind.DRAWER_BOTTOM)


@pytest.mark.parametrize("name", EXAMPLES)
def test_jaws_of_clamps_press_from_outside_on_the_wood_between_them(name):
    planned = example(name)
    rows = [row for one in planned.glue_ups if one.of == ("case",) for go in one.goes for row in go.clamps]
    view = seen(name, Whole.CASE)
    ends = {role for row in rows for role in (row.parts[0], row.parts[-1])}
    assert view.clamps
    # Of two jaws that press against each other one is on a side that looks to the eye, at most.
    assert len(view.clamps) <= sum(row.count for row in rows)
    for jaw in view.clamps:
        assert jaw.role in ends
        run, up = (float(b - a) for a, b in zip(jaw.pad, jaw.back, strict=True))
        towards = [(run * a + up * b) / hypot(run, up) for a, b in (ON_PAPER[way] for way in (Way.RIGHT, Way.FRONT, Way.UP))]
        assert max(towards) == pytest.approx(1, abs=0.001)


def test_the_runners_stand_off_the_left_side_in_their_order():
    planned = example("print-chest")
    view = runners_view(planned, numbers_of(planned), ROOM)
    assert view is not None
    kinds = {part.role.kind for part in view.parts}
    assert kinds == {PartKind.CASE_SIDE, PartKind.BEARER, PartKind.GUIDE, PartKind.KICKER}
    assert {part.role.hand for part in view.parts} == {Hand.LEFT}
    assert len([part for part in view.parts if part.role.kind is PartKind.BEARER]) == len(planned.drawers)
    assert runners_view(drawers("4", "6"), {}, ROOM) is None


def test_what_lies_on_a_surface_is_drawn_to_close_straight_onto_it():
    """A board that may be slid on from any side is laid on; one that goes in one way only closes that way."""
    (side, bottom, *_), moves = example("print-chest").others[0].boards, stage("print-chest", Whole.CASE).moves
    butt = Meeting(bottom.role, side.role, (), tuple(way for way in Way if way is not Way.UP), Tie.GLUED)
    assert closing_way(Move((bottom.role,), (side.role,), Way.BACK, (butt,))) is Way.DOWN
    # Said of the other of the two it is the same.
    turned = Meeting(side.role, bottom.role, (), tuple(way for way in Way if way is not Way.DOWN), Tie.GLUED)
    assert closing_way(Move((bottom.role,), (side.role,), Way.BACK, (turned,))) is Way.DOWN
    assert [closing_way(move) for move in moves] == [move.way for move in moves]


def test_strokes_and_areas_know_their_parts():
    view = frame_view()
    picture = view.picture
    roles = {part.role for part in view.parts}
    assert {
        stroke.of for stroke in picture.strokes if isinstance(stroke, Line) and stroke.role is Role.OUTLINE and stroke.says
    } <= roles
    assert {area.of for area in picture.areas} == roles
    told = [stroke.of for stroke in picture.strokes if isinstance(stroke, Text)]
    assert told
    assert all(isinstance(of, tuple) and set(of) <= roles for of in told)


def test_the_drawers_are_drawn_out_before_the_frame():
    planned = example("seed-cabinet")
    moves = [move for stage in planned.order.stages if stage.of in (Whole.CASE, None) for move in stage.moves]
    boards = [board for board in planned.boards if board.place is not None]
    apart = {board.role: SpaceBox.around(board) for board in held_apart(boards, offsets_of(boards, moves, F(80)))}
    frame = min(box.low[1] for role, box in apart.items() if role.whole is Whole.FRAME)
    assert all(box.high[1] < frame for role, box in apart.items() if role.kind is PartKind.DRAWER_BACK)


@pytest.mark.parametrize("name", EXAMPLES)
def test_a_view_keeps_to_its_room(name):
    for wide, high in ((190, 130), (120, 60)):
        picture = seen(name, None, (F(wide), F(high))).picture
        assert picture.size[0] <= wide
        assert picture.size[1] <= high
        assert any(isinstance(stroke, Arc) for stroke in picture.strokes)
        assert any(isinstance(stroke, Line) for stroke in picture.strokes)


def test_there_is_no_whole_of_drawers_alone():
    assert whole_view(drawers("4", "6"), {}, ROOM) is None


@pytest.mark.parametrize("name", ["paper-drawers", "seed-drawers"])
def test_of_drawers_alone_the_jaws_stand_at_the_parts_they_press(name):
    """Seen one over the other, drawers alone are not where they were planned; their clamps are drawn with them all the same."""
    planned = example(name)
    met = 0
    for one in (one for one in planned.order.stages if one.moves):
        view = stage_view(planned, one, numbers_of(planned), ROOM)
        assert view is not None
        edges = {part.role: [at for line in part.edges for at in (line.start, line.end)] for part in view.parts}
        for jaw in view.clamps:
            for way in (0, 1):
                places = [at[way] for at in edges[jaw.role]]
                assert min(places) <= jaw.pad[way] <= max(places)
            met += 1
    assert met > 2
