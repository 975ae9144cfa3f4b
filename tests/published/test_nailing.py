"""NAVEDTRA 14119 and MIL-DTL-45449: how long nails are and where they stand (F19; figures seen in a copy)."""

from itertools import pairwise

import pytest

import joinlay
from joinlay.boards import PartKind
from joinlay.boards.fastener import FastenerKind
from joinlay.jobs.reader import read_job
from joinlay.joints.fasteners import fastener_for, spread
from joinlay.lengths import Length, Unit, dimension, inches, mm
from joinlay.shop import usual_shop
from tests.published.test_mission_furniture import DRESSER


@pytest.mark.parametrize("kind", list(FastenerKind))
@pytest.mark.parametrize(
    ("unit", "upper"), [(Unit.INCH, "1/4"), (Unit.INCH, "1/2"), (Unit.INCH, "3/4"), (Unit.MM, "6"), (Unit.MM, "18.2")]
)
def test_a_nail_is_three_times_the_upper_piece_and_two_thirds_of_it_are_below(kind, unit, upper):
    thick = inches(upper) if unit is Unit.INCH else mm(upper)
    nail = fastener_for(kind, dimension(thick), None, usual_shop(unit).rule)
    assert nail.length.mm >= 3 * thick.mm
    assert 3 * (nail.length.mm - thick.mm) >= 2 * nail.length.mm


@pytest.mark.parametrize("run", ["4", "6", "7", "13", "22 1/2", "30", "40"])
def test_nails_into_a_cleat_stand_six_inches_apart_at_most_and_an_inch_from_its_ends(run):
    stand = spread(inches(run), Length(mm(150).mm), least=2)
    assert max(after.mm - before.mm for before, after in pairwise(stand)) <= inches(6).mm
    assert min(stand[0].mm, inches(run).mm - stand[-1].mm) >= inches(1).mm


def test_the_back_of_a_whole_piece_is_nailed_so():
    plan = joinlay.plan(read_job(DRESSER, "dresser.toml"))
    boards = {board.role: board for board in plan.boards}
    nailed = [one for one in plan.meetings if one.fastener and one.fastener.kind is FastenerKind.NAIL]
    assert {(one.one.kind, one.other.kind) for one in nailed} >= {(PartKind.CASE_BACK, PartKind.CASE_SIDE)}
    for meeting in nailed:
        assert meeting.fastener is not None
        upper, lower = boards[meeting.one], boards[meeting.other]
        assert meeting.fastener.length.mm >= 3 * upper.thickness.mm
        along = lower.length if lower.role.kind is PartKind.CASE_SIDE else upper.width
        assert meeting.fasteners * inches(6).mm >= min(along.mm, upper.length.mm)
