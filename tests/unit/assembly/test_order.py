"""The order of assembly: what stops what, how parts come apart, what a maker is told, and what has no order."""

import time
from dataclasses import replace
from random import Random

import pytest

from joinlay.assembly import blocking
from joinlay.assembly.blocking import Blocking
from joinlay.assembly.order import order_of
from joinlay.assembly.steps import step_glue, step_loose, step_words, steps_of
from joinlay.assembly.taking_apart import Split, Stuck, taken_apart
from joinlay.boards import Board, Cut, CutKind, CutRole, CutUse, Datum, JointKind, PartKind, PartRole, Place, Span, Surface
from joinlay.boards.meeting import Meeting, Tie, Way
from joinlay.findings import Harm
from joinlay.lengths import Unit, dimension, mm
from tests.measured.packets import example

WORDS = Datum("face", "edge", "end", "far face", "far edge", "far end")


def box(name, at, size, *cuts):
    """A board with its length on X, its width on Y and its thickness on Z."""
    length, width, thickness = (dimension(mm(one)) for one in size)
    x, y, z = (mm(one) for one in at)
    place = Place.at(x, y, z, "+X", "+Y", "+Z")
    return Board(PartRole(PartKind.LONE, called=name), "ash", length, width, thickness, WORDS, cuts=cuts, place=place)


def hole(along, across, into):
    one, two, three = (Span.of(mm(low), mm(high)) for low, high in (along, across, into))
    return Cut(CutKind.MORTISE, Surface.FACE, one, two, three, CutRole(CutUse.MORTISE))


def alone(*boards):
    return [(board,) for board in boards]


def test_a_part_runs_into_what_stands_in_its_way_and_nothing_else():
    low, high = box("low", (0, 0, 0), (100, 50, 10)), box("high", (0, 0, 30), (100, 50, 10))
    beside = box("beside", (100, 0, 0), (10, 50, 10))
    stops = Blocking(alone(low, high, beside), ())
    assert stops.stopped_by(0, Way.UP) == 0b010
    assert stops.stopped_by(0, Way.RIGHT) == 0b100
    assert {way for way in Way if stops.stopped_by(0, way)} == {Way.UP, Way.RIGHT}
    assert stops.stopped_by(2, Way.UP) == 0  # they only touch, seen from above


def test_a_cut_lets_a_part_by():
    """Through a notch as wide as the bar, and no wider."""
    wall = box("wall", (0, 50, 0), (100, 10, 40), hole((40, 60), (0, 10), (10, 30)))
    for width, stopped in ((20, 0), (21, 0b10)):
        bar = box("bar", (40, 0, 10), (width, 40, 20))
        assert Blocking(alone(bar, wall), ()).stopped_by(0, Way.BACK) == stopped


def test_two_that_meet_part_as_their_meeting_says():
    one, other = box("one", (0, 0, 0), (10, 10, 10)), box("other", (5, 5, 5), (10, 10, 10))
    met = Meeting(one.role, other.role, (), (Way.DOWN,))
    stops = Blocking(alone(one, other), (met,))
    assert {way for way in Way if not stops.stopped_by(0, way)} == {Way.UP}
    assert {way for way in Way if not stops.stopped_by(1, way)} == {Way.DOWN}
    assert taken_apart(stops) == (Split(0b10, 0b01, Way.DOWN),)


def locked_bars():
    """A bar through a mortise of the next, waisted there, so that it can't be drawn out; each of three in the one before."""
    plate = box("plate", (0, 0, 0), (100, 100, 20), hole((40, 60), (40, 60), (0, 20)))
    waist = [hole((0, 5), (0, 40), (40, 60)), hole((25, 30), (0, 40), (40, 60)),
             hole((0, 30), (0, 10), (40, 60)), hole((0, 30), (30, 40), (40, 60))]  # fmt: skip
    bar = box("bar", (35, 30, -40), (30, 40, 100), *waist, hole((10, 20), (10, 30), (80, 90)))
    pin = box("pin", (0, 35, 40), (100, 30, 10), hole((35, 65), (0, 5), (0, 10)), hole((35, 65), (25, 30), (0, 10)))
    return plate, bar, pin


def test_bars_that_are_locked_into_each_other_have_no_order():
    plate, bar, pin = locked_bars()
    assert taken_apart(Blocking(alone(plate, bar), ())) == Stuck((0, 1))
    stuck = taken_apart(Blocking(alone(plate, bar, pin), ()))
    assert isinstance(stuck, Stuck)


def in_a_ring():
    """Three bars, each of which leaves the next one only way: no two of them agree."""
    a, b, c = (box(name, (0, 0, 0), (10, 10, 10)) for name in "abc")
    ways = ((a, b, Way.UP), (b, c, Way.LEFT), (c, a, Way.BACK))
    return (a, b, c), tuple(Meeting(one.role, other.role, (), (way,)) for one, other, way in ways)


def test_a_ring_of_three_is_stuck_and_any_two_of_it_are_not():
    bars, meetings = in_a_ring()
    assert taken_apart(Blocking(alone(*bars), meetings)) == Stuck((0, 1, 2))
    for left_out in bars:
        two = [bar for bar in bars if bar is not left_out]
        assert not isinstance(taken_apart(Blocking(alone(*two), meetings)), Stuck)


def closed_all_round(drawer):
    """The drawer with corners that close from above alone, and a groove in its back that shuts the bottom in."""
    corners = (JointKind.FRONT_CORNER, JointKind.BACK_CORNER)
    changed = []
    for met in drawer.assembly.meetings:
        if met.joint is not None and met.joint.kind in corners:
            # The sides go down onto the front's tenons, so the tenons go up into them.
            changed.append(replace(met, closes=(Way.DOWN if met.one.kind.is_loose else Way.UP,)))
        elif met.other.kind is PartKind.DRAWER_SIDE:
            changed.append(replace(met, closes=(Way.FRONT, Way.BACK)))
        else:
            changed.append(met)
    return replace(drawer, assembly=replace(drawer.assembly, meetings=tuple(changed)))


def test_what_has_no_order_is_refused_with_what_would_free_it():
    drawer = closed_all_round(example("paper-drawers").drawers[0])
    order = order_of((drawer,), ())
    (finding,) = order.findings
    assert (finding.kind, finding.harm, finding.where, finding.rule) == ("no order", Harm.REFUSE, "drawer 1", "PT-2")
    assert "hold each other" in finding.sentence(str)
    assert "drawer 1 bottom" in finding.sentence(str)
    assert finding.remedy == "Let the back stand on the bottom, so that the bottom goes in from behind."
    assert order.stages == ()


def test_the_remedy_helps():
    """What is told to free them does: with the bottom free of the back, the same drawer goes together."""
    drawer = closed_all_round(example("paper-drawers").drawers[0])
    kinds = {PartKind.DRAWER_BOTTOM, PartKind.DRAWER_BACK}
    freed = tuple(
        replace(met, closes=tuple(Way)) if {met.one.kind, met.other.kind} == kinds else met for met in drawer.assembly.meetings
    )
    assert order_of((replace(drawer, assembly=replace(drawer.assembly, meetings=freed)),), ()).findings == ()


def told(name):
    plan = example(name)
    return [(step.of[0], step_words(step)) for step in steps_of(plan.order)]


def test_the_print_chest_is_told_as_a_maker_would():
    said = [words for _, words in told("print-chest")]
    assert said == [
        "Glue the bottom and top to the left side, from the right.",
        "Glue the right side to the bottom and top, from the right.",
        "Glue the loose tenons into 5 rails, as deep as they go.",
        "Glue 5 rails to the left stile, from the right.",
        "Glue the right stile to 5 rails, from the right.",
        "Glue the loose tenons into the front, as deep as they go.",
        "Glue the back to the left side, from the right.",
        "Glue the right side to the back, from the right.",
        "Slide the bottom into the grooves of the left and right side and back, from the front, without glue.",
        "Glue the front to the left and right side, from the front.",
        "Glue the face frame to the front edges of the case, from the front.",
        "Glue and nail 8 bearers to the left and right side, from behind, up to the frame.",
        "Glue and nail 6 kickers to 6 bearers, from behind.",
        "Glue 8 guides to 8 bearers, from behind.",
        "Glue 4 strips to 4 rails, from behind.",
        "Glue 8 blocks to 4 strips, from the front, each where its drawer, tried in, comes to rest.",
        "Lay the back into its rabbets, from behind, without glue, and nail it there, 20 nails in all.",
        "Push drawers 1 to 4 in, from the front.",
    ]


def test_a_bottom_under_the_back_goes_in_last():
    assert [words for of, words in told("seed-cabinet") if of == "drawer 1"][-1] == (
        "Slide the bottom into the grooves of the left and right side and front, from behind, without glue, and "
        "screw it up to the back."
    )


def test_a_step_says_its_glue_and_what_stays_dry():
    plan = example("print-chest")
    closing = next(step for step in steps_of(plan.order) if step.of[0] == "drawer 1" and step.ends)
    # The deepest drawers have three tenons in each side.
    assert step_glue(closing, Unit.INCH).startswith("up to 6 surfaces and 3.8 square inches in each")
    assert step_loose(closing) == "no glue on the bottom, which stays loose in its grooves"
    assert closing.glue == max(stage.moves[-1].glue for stage in plan.order.stages if stage.name.startswith("drawer"))


@pytest.mark.parametrize("name", ["print-chest", "moth-cabinet", "seed-cabinet", "paper-drawers", "seed-drawers"])
def test_every_fixed_meeting_closes_once_and_every_board_is_put_on(name):
    plan = example(name)
    closed = [met for move in plan.order.moves for met in move.closing]
    placed = {board.role for board in plan.boards if board.place is not None}
    assert sorted(f"{met.one.name}, {met.other.name}" for met in closed) == sorted(
        f"{met.one.name}, {met.other.name}" for met in plan.meetings if met.tie.is_fixed
    )
    whole = [stage for stage in plan.order.stages if stage.of is None] or plan.order.stages
    assert {role for stage in whole for role in stage.moves[-1].parts} == placed
    for stage in plan.order.stages:
        for move in stage.moves:
            assert not set(move.moving) & set(move.onto)


def test_an_order_is_the_same_every_time_and_soon_found():
    plan = example("seed-cabinet")
    assert order_of(plan.drawers, plan.others) == plan.order
    forty = [drawer for _ in range(5) for drawer in plan.drawers]
    began = time.process_time()
    order = order_of(forty, ())
    assert len(order.stages) == 40
    assert time.process_time() - began < 1


def test_glue_is_put_where_it_says():
    for move in example("moth-cabinet").order.moves:
        assert all(met.tie in (Tie.GLUED, Tie.NAILED, Tie.SCREWED) for met in move.glued)
        assert move.glue == sum(met.glue for met in move.glued)


def test_among_many_parts_each_runs_into_what_it_would_among_few(monkeypatch):
    random = Random(7)
    bars = [
        box(f"bar {n}", [random.randrange(400) for _ in range(3)], [random.choice((3, 12, 40, 300)) for _ in range(3)])
        for n in range(60)
    ]
    by_squares = Blocking(alone(*bars), ())
    # Only a few of all pairs are looked at.
    near = sum(len(list(by_squares._near(n, axis))) for n in range(len(bars)) for axis in range(3))
    assert near < 3 * len(bars) ** 2 / 2
    monkeypatch.setattr(blocking, "_FEW", len(bars))
    one_by_one = Blocking(alone(*bars), ())
    stops = [[each.stopped_by(n, way) for n in range(len(bars)) for way in Way] for each in (by_squares, one_by_one)]
    assert stops[0] == stops[1]
    assert any(stops[0])


def test_drawers_of_several_heights_come_apart_alike_and_as_each_would_by_itself():
    drawers = example("print-chest").drawers
    heights = {drawer.front.width for drawer in drawers}
    assert len(heights) == len(drawers)
    together = order_of(drawers, ()).stages
    assert together == tuple(stage for drawer in drawers for stage in order_of([drawer], ()).stages)
    looked_at = [Blocking(alone(*drawer.assembly.boards), drawer.assembly.meetings).likeness() for drawer in drawers]
    assert len(set(looked_at)) < len(drawers)


def test_what_lies_otherwise_is_not_alike():
    def likeness(*places):
        return Blocking(alone(*(box(str(n), at, (10, 10, 10)) for n, at in enumerate(places))), ()).likeness()

    assert likeness((0, 0, 0), (0, 0, 30)) == likeness((5, 0, 1), (5, 0, 99))
    # Touching is another thing than standing apart, and so is standing a hair aside.
    assert likeness((0, 0, 0), (0, 0, 30)) != likeness((0, 0, 0), (0, 0, 10))
    assert likeness((0, 0, 0), (0, 0, 30)) != likeness((0, 0, 0), (1, 0, 30))
