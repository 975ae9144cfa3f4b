"""The law of the settings: a blank cut as the cards say, and as nothing else says, is the board of the plan."""

from dataclasses import replace
from itertools import permutations
from math import pi
from pathlib import Path

import pytest

from joinlay.boards import Axis, Shape, Surface
from joinlay.casework.corners import AT_FRONT, HOUSED, LOCKED
from joinlay.casework.opening import BackHeight
from joinlay.findings import Harm
from joinlay.lengths import ZERO, Unit, dimension
from joinlay.settings import Adjust, Direction, Guide, Role, Value, settings_for
from joinlay.shop import HandRouter, MachineKind, usual_shop
from tests.assembly.cutting import (
    WALKS,
    assert_no_pass_climbs,
    climbs,
    cut_boxes,
    measured_on,
    same_wood,
    solid_of,
    swept,
    taken_by_settings,
    volume_left,
)
from tests.measured.packets import example
from tests.unit.casework import drawers
from tests.unit.settings.wood import (
    ACROSS,
    LEFT,
    RIGHT,
    board,
    dado,
    edge_rabbet,
    end_mortises,
    end_rabbet,
    end_slot,
    groove,
    hole,
    inch,
    metric,
    shop,
    with_dado_set,
)

EXAMPLES = sorted((Path(__file__).resolve().parents[2] / "examples").glob("*.toml"))


def assert_cut_as_planned(boards, tools, made=None):
    """Every board, cut by the settings alone, has the plan's wood: cell for cell, and by volume on solids."""
    found = settings_for(boards, tools) if made is None else made
    assert [finding for finding in found.findings if finding.harm is Harm.REFUSE] == []
    taken = taken_by_settings(found.settings, boards)
    for each in boards:
        assert same_wood(each, taken[each.name], cut_boxes(each)), each.name
        planned, cut = volume_left(each, cut_boxes(each)), volume_left(each, taken[each.name])
        assert cut == pytest.approx(planned, abs=1e-4), each.name
    assert_no_pass_climbs(found.settings, boards)
    return found


def a_box():
    """The boards of a plain drawer with everything a quarter inch: grooves, dadoes at the back, tongues on the back."""
    sides = [
        dado(groove(board("18", "5", "1/2", name=name, place=place), "3/8", "1/4", "1/4"), "1/4", "1/4", "1/4", far=True)
        for name, place in (("left side", LEFT), ("right side", RIGHT))
    ]
    back = board("16", "5", "1/2", name="back", part="drawer back", datum=ACROSS)
    back = end_rabbet(end_rabbet(groove(back, "3/8", "1/4", "1/4"), "1/4", "1/4"), "1/4", "1/4", far=True, name="right rabbet")
    return [*sides, back]


def test_a_plain_drawer_is_cut_as_planned():
    found = assert_cut_as_planned(a_box(), usual_shop(Unit.INCH))
    assert {setting.machine for setting in found.settings} == {MachineKind.ROUTER_TABLE}


def test_the_law_can_fail():
    boards = a_box()
    taken = taken_by_settings(settings_for(boards, usual_shop(Unit.INCH)).settings, boards)
    other = dado(board("18", "5", "1/2", name="left side"), "1/4", "1/4", "17/64", far=True)
    assert not same_wood(other, taken["left side"], cut_boxes(other))
    assert not same_wood(boards[0], taken["left side"][:-1], cut_boxes(boards[0]))


@pytest.mark.parametrize("place", [LEFT, RIGHT, None])
@pytest.mark.parametrize(("start", "stop"), [("0", "15"), ("3", "18"), ("2 1/2", "14 1/3")])
def test_stopped_grooves_by_stops_alone(place, start, stop):
    side = groove(board("18", "5", "1/2", place=place), "3/8", "15/64", "1/4", start=start, stop=stop)
    found = assert_cut_as_planned([side], usual_shop(Unit.INCH))
    (work,) = found.settings[0].works
    assert work.squared
    assert work.stops is not None
    assert (work.stops.infeed_stop is None) == (work.stops.begin is None)


def test_a_cut_wider_than_every_cutter_takes_passes_that_meet():
    side = dado(board("20", "11", "3/4"), "2", "2 1/32", "3/8")
    found = assert_cut_as_planned([side], shop(cutters={"1/4": "1", "1/2": "1"}))
    (setting,) = found.settings
    assert len(setting.fences) == 5
    assert list(setting.fences) == sorted(setting.fences)


def test_slots_tongues_and_rabbets():
    front = board("16", "5", "3/4", name="front", datum=ACROSS)
    for far in (False, True):
        front = end_slot(front, "1/4", "1/4", "1/2", far=far, name=f"{far} slot")
        front = end_rabbet(front, "17/64", "1/4", far=far, outside=False, name=f"{far} tongue end")
    case = edge_rabbet(board("30", "12", "3/4", name="case side"), "9/32", "3/8")
    stopped = edge_rabbet(board("30", "12", "3/4", name="other side"), "9/32", "3/8", start="1", stop="29")
    found = assert_cut_as_planned([front, case, stopped], usual_shop(Unit.INCH))
    assert {setting.role for setting in found.settings} == {Role.CHANNEL, Role.STEP}


@pytest.mark.parametrize("has_mortiser", [True, False])
def test_mortises_and_holes(has_mortiser):
    side = end_mortises(board("480", "110", "12", make=metric), "6", "4", "12", "16", "25", "60", "88.5", make=metric)
    front = hole(
        hole(board("400", "110", "19", name="front", datum=ACROSS, make=metric), "100", "55", "4.5", make=metric),
        "300",
        "55",
        "4.5",
        make=metric,
    )
    found = assert_cut_as_planned([side, front], shop(Unit.MM, cutters={"3": "20", "4": "25"}, has_mortiser=has_mortiser))
    machines = {setting.role: setting.machine for setting in found.settings}
    assert machines[Role.MORTISE] is (MachineKind.MORTISER if has_mortiser else MachineKind.HAND_ROUTER)
    assert machines[Role.HOLE] is MachineKind.DRILL


def test_a_mortise_routed_with_a_narrower_cutter():
    side = end_mortises(
        board("480", "110", "20", make=metric), "10", "7", "21", "28", "30", "80", make=metric, shape=Shape.SQUARE
    )
    found = assert_cut_as_planned([side], shop(Unit.MM, cutters={"6": "30"}))
    assert len(found.settings[0].fences) == 2
    assert found.settings[0].works[0].squared


def test_large_panels_by_straightedge_and_edge_guide():
    panel = dado(
        dado(board("72", "23", "3/4", name="case side"), "30", "23/32", "1/4", name="shelf dado"),
        "1/2",
        "23/32",
        "1/4",
        name="low dado",
    )
    found = assert_cut_as_planned([panel], usual_shop(Unit.INCH))
    assert {setting.guide for setting in found.settings} == {Guide.STRAIGHTEDGE, Guide.EDGE_GUIDE}


@pytest.mark.parametrize("widths", [("1/4", "3/8", "1/2", "3/4"), ("1/8",), ("5/16",)])
def test_at_the_saw_with_a_dado_set(widths):
    boards = [
        dado(board("18", "5", "1/2"), "1/2", "23/64", "1/4", far=True),
        edge_rabbet(board("30", "12", "3/4", name="case side"), "9/32", "3/8"),
    ]
    found = assert_cut_as_planned(boards, with_dado_set(*widths))
    assert {setting.machine for setting in found.settings} == {MachineKind.TABLE_SAW}


def test_a_groove_too_narrow_for_every_cutter_is_sawn_in_single_kerfs():
    side = groove(board("480", "110", "12", make=metric), "10", "3.4", "5", make=metric)
    found = assert_cut_as_planned([side], shop(Unit.MM, cutters={"4": "14"}))
    assert found.settings[0].machine is MachineKind.TABLE_SAW
    assert len(found.settings[0].fences) == 2


def wide_panel():
    """Wider dadoes than its cutter, one within reach of the edge guide and one beyond."""
    panel = board("72", "23", "3/4", name="case side")
    return dado(dado(panel, "30", "23/32", "1/4", name="shelf dado"), "1/2", "23/32", "1/4", name="low dado")


def routed_mortise():
    """A mortise wider than its cutter: by the edge guide where that reaches, else to a line."""
    side = board("480", "110", "20", make=metric)
    return end_mortises(side, "10", "7", "21", "28", "30", "80", make=metric, shape=Shape.SQUARE)


def short_guided():
    """A shop whose edge guide reaches nothing, so that a mortise is routed to a line."""
    return shop(Unit.MM, cutters={"6": "30"}, hand_router=HandRouter(metric("150"), metric("5")))


#: For each way of guiding: the board, the shop, the guide, and the same walk with the guide on the other hand.
GUIDED = {
    "table": (
        lambda: dado(board("18", "5", "1/2"), "1", "21/64", "7/32"),
        lambda: usual_shop(Unit.INCH),
        Guide.FENCE,
        "left to right, fence behind",
    ),
    "edge guide": (wide_panel, lambda: shop(cutters={"1/2": "1"}), Guide.EDGE_GUIDE, "away from you, guide on your left"),
    "straightedge": (
        wide_panel,
        lambda: shop(cutters={"1/2": "1"}),
        Guide.STRAIGHTEDGE,
        "away from you, straightedge on your right",
    ),
    "mortise by edge guide": (
        routed_mortise,
        lambda: shop(Unit.MM, cutters={"6": "30"}),
        Guide.EDGE_GUIDE,
        "away from you, guide on your left",
    ),
    "mortise to a line": (routed_mortise, short_guided, Guide.CENTRE_LINE, "away from you, side counted from on your left"),
}


@pytest.mark.parametrize("way", GUIDED)
@pytest.mark.parametrize("turned", ["nothing", "the passes", "the walk"])
def test_a_way_of_guiding_turned_round_climbs(way, turned):
    """Each of several passes side by side has its own direction; turned round, by order or by walk, the law refuses it."""
    make, tools, guide, other_walk = GUIDED[way]
    cut = make()
    setting = next(each for each in settings_for([cut], tools()).settings if each.guide is guide)
    assert len(setting.fences) > 1
    (work,) = setting.works
    if turned == "nothing":
        assert not climbs(setting, work, cut, [])
    elif turned == "the passes":
        assert climbs(replace(setting, passes=tuple(reversed(setting.passes))), work, cut, [])
    else:
        assert climbs(setting, work, cut, [], walk=other_walk)


@pytest.mark.parametrize("aside", ["-1", "1"])
def test_a_mortiser_never_shaves_one_wall(aside):
    """It has no guide that would hold against it: the cutter's whole width is in the wood, and a second pass beside the first
    is refused.
    """
    cut = end_mortises(board("18", "5", "1/2", name="mortised"), "1/4", "4 mm", "12 mm", "5/8", "1", "3")
    (setting,) = settings_for([cut], usual_shop(Unit.INCH)).settings
    assert setting.machine is MachineKind.MORTISER
    (work,) = setting.works
    assert not climbs(setting, work, cut, [])
    (first,) = setting.passes
    beside = replace(first, near_side=first.near_side + metric(aside))
    for passes in ((first, beside), (beside, first)):
        assert climbs(replace(setting, passes=passes), work, cut, [])


def test_a_saw_never_pinches_what_lies_at_its_fence():
    cut = groove(board("480", "110", "12", make=metric), "10", "3.4", "5", make=metric)
    (setting,) = settings_for([cut], shop(Unit.MM, cutters={"4": "14"})).settings
    assert setting.machine is MachineKind.TABLE_SAW
    assert not climbs(setting, setting.works[0], cut, [])
    assert climbs(replace(setting, passes=tuple(reversed(setting.passes))), setting.works[0], cut, [])


def test_the_walk_that_is_said_is_the_one_stopped_cuts_begin_by():
    """The words of each guide and the leading surface of its stopped cuts hold the same stance."""
    for guide, walk in (
        (Guide.FENCE, "right to left, fence behind"),
        (Guide.EDGE_GUIDE, "away from you, guide on your right"),
        (Guide.STRAIGHTEDGE, "away from you, straightedge on your left"),
    ):
        (travel, bearing), (_, stance, first) = WALKS[walk], STANCE[guide]
        assert bearing == stance[:2]
        assert travel == tuple(-n for n in first[:2])


@pytest.mark.parametrize("name", EXAMPLES, ids=lambda path: path.stem)
def test_the_example_jobs_are_cut_as_planned(name):
    planned = example(name.stem)
    assert_cut_as_planned(planned.boards, planned.shop)


@pytest.mark.parametrize("front", AT_FRONT.values(), ids=list(AT_FRONT))
@pytest.mark.parametrize(("back", "height"), [(LOCKED, BackHeight.FULL), (HOUSED, BackHeight.ON_BOTTOM)])
@pytest.mark.parametrize("taper", ["0", "1/16"])
def test_planned_drawers_are_cut_as_planned(front, back, height, taper):
    tools = drawers.shop(taper=taper)
    made = drawers.drawer(make=drawers.usual_make(front_joint=front, back_joint=back, back_height=height), shop=tools)
    assert_cut_as_planned(made.assembly.boards, tools)


@pytest.mark.parametrize(("back", "height"), [(LOCKED, BackHeight.FULL), (HOUSED, BackHeight.ON_BOTTOM)])
def test_a_bottom_bar_and_the_halves_beside_it_are_cut_as_planned(back, height):
    make = drawers.usual_make(back_joint=back, back_height=height, bar=drawers.cherry())
    made = drawers.drawer(make=make, opening=drawers.opening("36"))
    assert {len(made.bottoms), len(made.bar.cuts)} == {2, 6}
    assert_cut_as_planned(made.assembly.boards, drawers.shop())


def a_job_of_every_kind():
    """One board or more for every role of a cut."""
    boards = a_box()
    boards.append(dado(board("18", "5", "1/2", name="wide"), "1", "21/64", "7/32"))
    boards.append(edge_rabbet(board("30", "12", "3/4", name="case side"), "9/32", "3/8"))
    boards.append(end_mortises(board("18", "5", "1/2", name="mortised"), "1/4", "4 mm", "12 mm", "5/8", "1", "3"))
    boards.append(dado(board("72", "23", "3/4", name="tall side"), "30 1/64", "23/32", "1/4"))
    return boards


@pytest.mark.parametrize("miss", ["1/64", "0.3 mm"])
def test_a_test_piece_is_put_right_by_moving_what_the_card_says(miss):
    boards = a_job_of_every_kind()
    by_name, off = {each.name: each for each in boards}, inch(miss)
    seen = set()
    for setting in settings_for(boards, usual_shop(Unit.INCH)).settings:
        work, of = setting.works[0], by_name[setting.works[0].boards[0]]
        right = measured_on(setting, work, of, list(swept(setting, work, of)))
        assert {each.measured: each.value.mm for each in setting.test_piece.measures}.items() <= right.items()
        for each in setting.test_piece.corrections:
            move = off if each.direction in (Direction.FARTHER, Direction.DEEPER) else -off
            errors = {
                {Adjust.FENCE: "fence_error", Adjust.FAR_FENCE: "far_error", Adjust.HEIGHT: "height_error"}[each.adjust]: move
            }
            moved = list(swept(setting, work, of, **errors))
            if each.adjust is Adjust.FAR_FENCE and len(setting.fences) == 1 and setting.role is Role.CHANNEL:
                moved += list(swept(setting, work, of))  # a run more
            change = measured_on(setting, work, of, moved)[each.measured] - right[each.measured]
            assert change == (-off.mm if each.is_over else off.mm), (setting.role, each)
            seen.add((setting.role, each.measured, each.is_over))
    assert len(seen) == 6 + 4 + 4 + 4  # channels both ways, tongues, steps, mortises


def test_set_to_the_marks_alone_the_measures_miss_by_what_the_card_says():
    boards = a_job_of_every_kind()
    by_name = {each.name: each for each in boards}
    looked_at = 0
    for setting in settings_for(boards, shop(rule="1/16 in")).settings:
        work, of = setting.works[0], by_name[setting.works[0].boards[0]]
        right = measured_on(setting, work, of, list(swept(setting, work, of)))
        fences, heights = ([r for r in setting.readings if (r.value is Value.HEIGHT) is which] for which in (False, True))
        first, last = (each.on_rule.nearest - each.exact for each in (fences[0], fences[-1]))
        passes = list(setting.passes)
        moved = [
            replace(each, near_side=each.near_side + (last if each.near_side == passes[-1].near_side else first))
            for each in passes
        ]
        if setting.guide is Guide.STRAIGHTEDGE:
            moved = [
                replace(each, guide=dimension((each.guide or ZERO) + (last if each == passes[-1] else first))) for each in passes
            ]
        moved = [replace(each, height=each.height - heights[-1].on_rule.left_over) for each in moved]
        found = measured_on(setting, work, of, list(swept(replace(setting, passes=tuple(moved)), work, of)))
        for reading in (fences[0], fences[-1], heights[-1]):
            if reading.affects is not None:
                assert found[reading.affects] - right[reading.affects] == reading.by.mm, (setting.role, reading.affects)
                looked_at += bool(reading.by)
    assert looked_at > 5


def _round_ended(setting, work, of):
    """The solid a turning cutter leaves of one pass: half round at each end that stops in the wood."""
    from manifold3d import Manifold

    (box,) = swept(setting, work, of)
    (a, b), (c, d), (e, f) = ((float(start), float(stop)) for start, stop in box)
    radius = (d - c) / 2
    ends = [Manifold.cylinder(f - e, radius, radius, 1024).translate((x, (c + d) / 2, e)) for x in (a + radius, b - radius)]
    return Manifold.cube((b - a - 2 * radius, d - c, f - e)).translate((a + radius, c, e)) + ends[0] + ends[1]


def test_a_stopped_groove_is_the_plans_but_for_its_round_corners():
    """The cutter's round ends touch the plan's square ones, so only the corners are left to chop, and nothing past them is
    lost.
    """
    side = groove(board("18", "5", "1/2"), "3/8", "1/4", "1/4", start="3", stop="15")
    (setting,) = settings_for([side], usual_shop(Unit.INCH)).settings
    cut, planned = _round_ended(setting, setting.works[0], side), solid_of(cut_boxes(side)[0])
    assert (cut - planned).volume() < 1e-6
    radius, depth = 25.4 / 8, 25.4 / 4
    assert (planned - cut).volume() == pytest.approx(2 * radius**2 * (2 - pi / 2) * depth, rel=1e-4)


def test_a_mortise_has_its_round_ends_in_the_plan():
    side = end_mortises(board("18", "5", "1/2"), "1/4", "4 mm", "12 mm", "5/8", "2 1/2")
    (setting,) = settings_for([side], usual_shop(Unit.INCH)).settings
    assert not setting.works[0].squared
    assert setting.tool.width == side.cuts[0].into.size


def _det(rows):
    (a, b, c), (d, e, f), (g, h, i) = rows
    return a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g)


def _turns():
    """The 24 ways to turn a thing in space, as what becomes of the three axes."""
    for axes in permutations(((1, 0, 0), (0, 1, 0), (0, 0, 1))):
        for signs in ((a, b, c) for a in (1, -1) for b in (1, -1) for c in (1, -1)):
            rows = tuple(tuple(sign * n for n in axis) for sign, axis in zip(signs, axes, strict=True))
            if _det(rows) == 1:
                yield rows


def outward(placed, surface, turn):
    """Which way ``surface`` of a placed board looks, once the piece is turned: east, north and up."""
    inward = {Axis.ALONG: placed.place.along, Axis.ACROSS: placed.place.across, Axis.INTO: placed.place.into}[surface.axis]
    looks = [n if surface.is_far else -n for n in inward]
    return tuple(sum(looks[k] * turn[k][n] for k in range(3)) for n in range(3))


WEST, EAST, NORTH, SOUTH, UP, DOWN = (-1, 0, 0), (1, 0, 0), (0, 1, 0), (0, -1, 0), (0, 0, 1), (0, 0, -1)

#: Where the surfaces look when a maker stands at the south: the one the cutter enters, the one the guide bears on, the one cut
#: first. A table's fence is behind it, and work goes from right to left, so the left surface meets the cutter first. A router is
#: pushed away, its edge guide on the right, a straightedge on the left.
STANCE = {
    Guide.FENCE: (DOWN, NORTH, WEST),
    Guide.EDGE_GUIDE: (UP, EAST, SOUTH),
    Guide.STRAIGHTEDGE: (UP, WEST, SOUTH),
}


@pytest.mark.parametrize("guide", STANCE)
@pytest.mark.parametrize("place", [LEFT, RIGHT])
@pytest.mark.parametrize("entry", Surface)
def test_the_leading_surface_by_turning_the_board_in_space(guide, place, entry):
    from joinlay.settings.lying import Orientation, first_surface

    placed = board("18", "5", "1/2", place=place)
    down, bearing, first = STANCE[guide]
    for fence in Surface:
        if fence.axis is entry.axis:
            continue
        standing = [turn for turn in _turns() if outward(placed, entry, turn) == down and outward(placed, fence, turn) == bearing]
        assert len(standing) == 1
        leading = first_surface(placed, Orientation(entry, fence), guide)
        assert outward(placed, leading, standing[0]) == first
