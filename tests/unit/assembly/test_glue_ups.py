"""Glue-ups and their clamps: what is glued at once, for how long, with how many clamps of what length, and when."""

from dataclasses import replace
from functools import cache
from itertools import pairwise

import pytest

from joinlay.assembly.clamping import clamp_rows, clamps_lacking, presses
from joinlay.assembly.glue_ups import Hold, clamps_to_have, glue_ups_of
from joinlay.assembly.steps import steps_of
from joinlay.assembly.timetable import timetable_of
from joinlay.boards import PartKind, PartRole
from joinlay.boards.meeting import Meeting, Tie, Way
from joinlay.lengths import Fraction, Unit, dimension, inches, mm
from joinlay.shop import Clamps, Glue, usual_practice
from tests.measured.packets import example


def role(name):
    return PartRole(PartKind.LONE, called=name)


def box(*sides):
    return tuple(Fraction(one) for one in sides)


def of(job, **shop):
    """The glue-ups of an example in a shop that differs so."""
    made = example(job)
    return glue_ups_of(steps_of(made.order), made.boards, replace(made.shop, **shop))


def named(glue_ups, *names):
    return [one for one in glue_ups if one.of == names]


@cache
def chest(open_minutes=8, clamps=None):
    owned = None if clamps is None else tuple(Clamps(dimension(inches(long)), count) for long, count in clamps)
    return of("print-chest", glue=Glue(open_minutes * 60, 3600, is_written=True), clamps=owned)


# -- clamps ----------------------------------------------------------------------------------------------


def test_a_clamp_presses_the_way_a_joint_closes():
    one, other = role("one"), role("other")
    butt = Meeting(one, other, (), tuple(way for way in Way if way is not Way.DOWN), Tie.GLUED)
    assert presses(butt) is Way.UP
    assert presses(Meeting(one, other, (), (Way.LEFT, Way.BACK), Tie.GLUED)) is Way.LEFT


def shelf_between():
    """A shelf 400 long and 500 deep between two uprights 18 thick, 6 into each."""
    left, shelf, right = role("left"), role("shelf"), role("right")
    boxes = {
        left: box(0, 0, 0, 18, 500, 700), shelf: box(12, 0, 300, 424, 500, 318), right: box(418, 0, 0, 436, 500, 700),
    }  # fmt: skip
    met = [Meeting(shelf, side, (), (way, Way.BACK), Tie.GLUED) for side, way in ((left, Way.LEFT), (right, Way.RIGHT))]
    return met, (left, shelf, right), boxes


def test_two_joints_in_line_share_their_clamps_and_a_clamp_opens_over_all_of_it():
    met, group, boxes = shelf_between()
    (row,) = clamp_rows(met, group, boxes, usual_practice(Unit.MM), "shelf")
    assert row.parts == group
    # 500 mm at 200 mm or nearer: three, a sixth of the joint from its ends.
    assert [tuple(map(float, at)) for at in row.places] == [(218, 83 + 1 / 3, 309), (218, 250, 309), (218, 416 + 2 / 3, 309)]
    assert (row.joint, row.outside, row.reach) == (mm("500"), mm("436"), mm("472"))


def test_what_is_nailed_takes_no_clamp():
    met, group, boxes = shelf_between()
    assert clamp_rows([replace(one, tie=Tie.NAILED) for one in met], group, boxes, usual_practice(Unit.MM), "shelf") == ()


def test_a_joint_no_longer_than_the_spacing_takes_one_clamp():
    met, group, boxes = shelf_between()
    practice = usual_practice(Unit.MM)
    for spacing, count in (("500", 1), ("499", 2), ("250", 2), ("249", 3)):
        own = practice.but({"clamp spacing": dimension(mm(spacing))})
        (row,) = clamp_rows(met, group, boxes, own, "shelf")
        assert row.count == count


def test_the_clamps_that_are_lacking():
    met, group, boxes = shelf_between()
    rows = clamp_rows(met, group, boxes, usual_practice(Unit.MM), "shelf")

    def lacking(*owned):
        return clamps_lacking(rows, [Clamps(dimension(mm(long)), count) for long, count in owned])

    assert clamps_lacking(rows, None) == (0, None)
    assert lacking(("472", 3)) == (0, None)
    assert lacking(("472", 2), ("900", 1)) == (0, None)
    assert lacking(("471", 8), ("600", 1)) == (2, mm("472"))


# -- glue-ups --------------------------------------------------------------------------------------------


def test_the_case_is_one_glue_up():
    (case,) = named(chest(), "case")
    assert (case.hold, case.split, len(case.goes)) == (Hold.CLAMPS, None, 1)
    # PT-3: four dadoes and eight clamps, half a minute each.
    assert (case.most.surfaces, case.most.clamp_count, case.most.seconds) == (4, 8, 360)
    assert {row.count for row in case.most.clamps} == {4}
    assert case.most.reach == inches("37 1/2")
    assert case.ends


def test_a_frame_that_takes_too_long_is_split_and_a_slower_glue_takes_it_whole():
    tenons, first, second = named(chest(), "face frame")
    assert (tenons.hold, tenons.most.seconds, tenons.most.open_seconds) == (Hold.ITSELF, 360, 30)
    assert (first.split, second.split) == ((1, 2), (2, 2))
    assert first.most.seconds <= 8 * 60 < first.whole_seconds == 510
    assert (first.ends, second.ends) == (False, True)
    # What stands dry meanwhile is between the jaws too.
    assert first.most.reach == inches("37 1/2")
    assert [one.split for one in named(chest(open_minutes=9), "face frame")] == [None, None]


def test_drawers_alike_are_told_once_and_glued_one_by_one():
    drawers = named(chest(), "drawer 1", "drawer 2", "drawer 3", "drawer 4")
    assert [one.hold for one in drawers] == [Hold.ITSELF, Hold.CLAMPS]
    box = drawers[1]
    assert box.is_of_drawers
    assert [go.of for go in box.goes] == list(box.of)
    # One over each corner: across at the back, and along each side to the front.
    assert sorted(row.way.value for row in box.most.clamps) == ["+Y", "+Y", "-X"]
    assert box.most.clamp_count == 3
    # PT-7: the bottom stays dry in its grooves.
    assert {met.one.kind for met in box.most.dry} == {PartKind.DRAWER_BOTTOM}


def test_what_is_nailed_is_open_one_by_one():
    bearers = next(one for one in chest() if one.hold is Hold.FASTENERS)
    assert len(bearers.goes) == 8
    assert bearers.most.clamps == ()
    assert bearers.most.seconds == bearers.most.open_seconds == 30 + 6 * 30


def test_blocks_are_rubbed_on():
    (blocks,) = (one for one in chest() if one.hold is Hold.RUBBED)
    assert {move.moving[0].kind for go in blocks.goes for move in go.moves} == {PartKind.STOP_BLOCK}


def test_few_clamps_are_used_one_after_the_other():
    guides = next(one for one in chest(clamps=(("40", 16),)) if one.most.of.endswith("guide"))
    assert (guides.most.clamp_count, guides.at_once) == (4, 4)
    assert next(one for one in chest(clamps=(("40", 7),)) if one.most.of.endswith("guide")).at_once == 1


def test_clamps_to_have_are_those_of_the_largest_glue_up():
    have = clamps_to_have(chest(), Unit.INCH)
    assert all(clamps_lacking(go.clamps, have) == (0, None) for one in chest() for go in one.goes)
    for n, clamps in enumerate(have):
        fewer = [*have[:n], replace(clamps, count=clamps.count - 1), *have[n + 1 :]]
        if n:  # of the small ones fewer are used one after the other
            assert any(clamps_lacking(go.clamps, fewer)[0] for one in chest() for go in one.goes)


@pytest.mark.parametrize("job", ["print-chest", "seed-cabinet", "moth-cabinet", "seed-drawers"])
def test_every_glued_meeting_is_in_one_go(job):
    made = example(job)
    wet = sorted((met.one.name, met.other.name) for met in made.meetings if met.tie in (Tie.GLUED, Tie.NAILED, Tie.SCREWED))
    goes = [go for one in made.glue_ups for go in one.goes]
    assert sorted((met.one.name, met.other.name) for go in goes for met in go.glued) == wet
    assert [one.number for one in made.glue_ups] == list(range(1, len(made.glue_ups) + 1))


@pytest.mark.parametrize("job", ["print-chest", "seed-cabinet", "moth-cabinet", "paper-drawers"])
def test_every_clamp_stands_on_wood_of_its_row(job):
    made = example(job)
    for go in (go for one in made.glue_ups for go in one.goes):
        for row in go.clamps:
            assert row.count >= 1
            assert row.joint.mm / row.count <= made.shop.practice.length("clamp spacing").mm
            assert len(row.parts) >= 2
            assert row.reach > row.outside


# -- timetable -------------------------------------------------------------------------------------------


@pytest.mark.parametrize("job", ["print-chest", "seed-cabinet", "moth-cabinet", "paper-drawers"])
def test_the_timetable_does_everything_once_and_nothing_too_soon(job):
    made = example(job)
    slots = made.timetable.slots
    assert sorted(go.of for slot in slots for go in slot.goes) == sorted(go.of for one in made.glue_ups for go in one.goes)
    done: dict[object, tuple[object, list[int]]] = {}
    for slot in slots:
        assert slot.start < slot.stop <= slot.free
        for go, free in zip(slot.goes, slot.frees, strict=True):
            for role in {role for met in go.glued for role in (met.one, met.other)}:
                glue_up, set_by = done.get(role, (slot.glue_up, []))
                # The first go of a slot begins with it, those after it later.
                if glue_up is not slot.glue_up:
                    assert set_by <= [slot.day, free if slot.glue_up.hold is Hold.FASTENERS else free - 60]
                    assert go is not slot.goes[0] or set_by <= [slot.day, slot.start]
                done[role] = slot.glue_up, [slot.day, free]
    # One pair of hands.
    for one, other in pairwise(slots):
        assert (one.day, one.stop) <= (other.day, other.start)
        assert one.spell <= other.spell


@pytest.mark.parametrize("clamps", [(("40", 16),), (("27", 4), ("40", 8)), (("38", 8), ("4", 4))])
def test_no_more_clamps_stand_than_there_are(clamps):
    glue_ups = chest(clamps=clamps)
    owned = tuple(Clamps(dimension(inches(long)), count) for long, count in clamps)
    table = timetable_of(glue_ups, replace(example("print-chest").shop, clamps=owned))
    for slot in table.slots:
        standing = [go for other in table.slots if other is not slot for go in other.curing(slot.day, slot.start)]
        rows = [row for go in (*standing, slot.goes[0]) for row in go.clamps]
        assert not standing or clamps_lacking(rows, owned) == (0, None)
        if slot.glue_up.steps[0].is_whole:
            assert clamps_lacking([row for go in slot.goes for row in go.clamps], owned)[0] == 0 or len(slot.goes) == 1


def test_something_is_done_while_the_case_cures():
    table = example("print-chest").timetable
    case = next(slot for slot in table.slots if slot.glue_up.of == ("case",))
    assert table.meanwhile(case)
    assert (table.days, table.slots[-1].day) == (2, 2)
    assert 1 < table.spells <= len(table.slots)
